#include "ui/visit/done_presenter.h"

#include "core/machine/reach.h"
#include "core/visit/correction.h"
#include "core/visit/next_step.h"
#include "ui/parts/quantities.h"
#include "ui/visit/done_lines.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_demand.h"
#include "ui/visit/words_entry.h"
#include "ui/visit/words_exception.h"
#include "ui/visit/words_why.h"

#include <QFile>
#include <QLocale>
#include <QMimeDatabase>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qsizetype kDateChars = 10; // "2026-11-25"

/// Nothing is typed now. A visit that is over has nobody inside, however its lamphouses were left.
bool isSomebodyInside(const visit::VisitState& state)
{
    return state.isOpen() && machine::isSomebodyInside(state.machine);
}

template<class... Kinds>
bool isOneOf(const visit::Body& body)
{
    return (std::holds_alternative<Kinds>(body) || ...);
}

/// Why an entry of this kind stays as it is, whatever becomes of the machine; empty: the core says why.
QString whyItStays(const visit::Body& body)
{
    if (isOneOf<visit::Noted, visit::PictureKept, visit::Addendum>(body))
        return DonePresenter::tr("It stays as it was given: add another one that puts it right.");
    if (isOneOf<visit::LampRead, visit::SerialPassed>(body))
        return DonePresenter::tr(
            "Read it again on the book-in card: of each source the last reading counts.");
    if (isOneOf<visit::Happened, visit::IncidentAnswered>(body))
        return DonePresenter::tr(
            "What went wrong stays on record: say under Something went wrong what was done "
            "about it.");
    if (isOneOf<visit::Withdrawn>(body))
        return DonePresenter::tr("A withdrawal is final: the step comes up again and is done once more.");
    if (isOneOf<visit::Did, visit::Acted>(body))
        return {};
    return DonePresenter::tr("This stays as it is: add a note that puts it right.");
}

} // namespace

DonePresenter::DonePresenter(VisitDesk& desk, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
{
    connect(&desk, &VisitDesk::changed, this, [this] {
        if (m_isOpen)
            refresh();
    });
}

QByteArray DonePresenter::picture(const QString& hash) const
{
    const auto wanted = Hash::fromHex(hash);
    if (!m_shelf || !wanted)
        return {};
    return m_shelf->read(*wanted).value_or(QByteArray());
}

void DonePresenter::setReviews(const QList<SupervisorSaid>& reviews, int altered)
{
    m_reviews = reviews;
    m_alteredReviews = altered;
    if (m_isOpen)
        refresh();
}

bool DonePresenter::isToAnswer() const
{
    return !m_reviews.isEmpty() && m_reviews.last().isSentBack &&
           m_reviews.last().entry == m_desk.logbook().entries().size() - 1;
}

QString DonePresenter::reviewWords() const
{
    QStringList words;
    if (!m_reviews.isEmpty())
        words.append(lastReviewWords());
    if (m_alteredReviews > 0)
        words.append(alteredReviewsText(m_alteredReviews));
    return words.join(u'\n');
}

QString DonePresenter::lastReviewWords() const
{
    const SupervisorSaid& last = m_reviews.last();
    const QString when = wallTextWithOffset(last.at, m_desk.zone());
    const QString said = last.text.isEmpty() ? QString() : u" \u201c%1\u201d"_s.arg(last.text);
    if (!last.isSentBack)
        return tr("Accepted by %1, %2.").arg(last.by, when) + said;
    const QString back = tr("Sent back by %1, %2:").arg(last.by, when) + said;
    return isToAnswer()
               ? tr("%1 It is answered by a remark after closing; the record is then saved and given "
                    "to the supervisor again.")
                     .arg(back)
               : tr("%1 It was answered; the supervisor has not looked at that yet.").arg(back);
}

void DonePresenter::open(int swap)
{
    m_isOpen = true;
    m_swap = swap;
    m_chosen = m_desk.logbook().entries().size() - 1;
    m_form.reset();
    m_said.clear();
    refresh();
}

void DonePresenter::choose(qint64 entry)
{
    if (entry == m_chosen)
        return;
    m_chosen = entry;
    if (m_form == DoneForm::Kind::Withdraw)
        m_form.reset(); // it was for another entry
    m_said.clear();
    refresh();
}

void DonePresenter::begin(DoneForm::Kind kind)
{
    if (m_form != kind)
        m_draft.clear();
    m_form = kind;
    m_said.clear();
    refresh();
}

void DonePresenter::beginWithdraw()
{
    if (!m_view.withdraw.isEmpty())
        begin(DoneForm::Kind::Withdraw);
}

void DonePresenter::beginWriting()
{
    if (!m_view.write.isEmpty())
        begin(m_desk.logbook().state().isOpen() ? DoneForm::Kind::Note : DoneForm::Kind::Addendum);
}

void DonePresenter::beginPicture()
{
    if (!m_view.picture.isEmpty())
        begin(DoneForm::Kind::Picture);
}

void DonePresenter::leaveForm()
{
    m_form.reset();
    m_said.clear();
    refresh();
}

void DonePresenter::setDraft(const QString& text)
{
    m_draft = text;
    refresh();
}

void DonePresenter::done()
{
    if (!m_form || m_view.form->action.stand != ActionView::Stand::Ready)
        return;
    const QString text = m_draft.trimmed();
    switch (*m_form) {
    case DoneForm::Kind::Withdraw:
        return settle(m_desk.tell(visit::Withdrawn{m_chosen, text, agrees(m_desk.seen())}));
    case DoneForm::Kind::Note:
        return settle(m_desk.tell(visit::Noted{m_desk.logbook().state().swaps[m_swap].id, text}));
    case DoneForm::Kind::Addendum:
        return settle(m_desk.tell(visit::Addendum{text}));
    case DoneForm::Kind::Picture:
        return; // a picture is given, not pressed for
    }
}

void DonePresenter::sign()
{
    m_desk.signWaiting(m_desk.presses());
    m_said = {m_desk.missingOf(m_desk.presses()).isEmpty()
                  ? tr("Signed. The moment of the signature stands beside that of the entry.")
                  : tr("Not everything was signed: your key is not open.")};
    refresh();
}

/// Whoever presses too, where a trainee withdraws what was done.
PersonId DonePresenter::agrees(const visit::VisitState& state) const
{
    const machine::Index second = visit::mayCountersign(state, m_desk.presses());
    const bool isAct = state.acts.contains(m_chosen);
    return isAct && second != machine::kNone ? state.people[second].id : PersonId();
}

void DonePresenter::settle(const VisitDesk::Told& told)
{
    m_said = told.no;
    if (told.isKept()) {
        m_form.reset();
        m_draft.clear();
        m_chosen = m_desk.logbook().entries().size() - 1;
        m_said = {tr("Kept as entry %1.").arg(m_chosen)};
    }
    refresh();
}

void DonePresenter::givePictureFile(const QString& path)
{
    QFile file(path);
    if (file.open(QIODevice::ReadOnly) && (!m_shelf || file.size() <= m_shelf->mostBytes()))
        return givePicture(file.readAll());
    m_said = {file.isOpen() ? tr("%1 is too large: at most %2 are kept. Take it again with fewer pixels.")
                                  .arg(path, QLocale().formattedDataSize(m_shelf->mostBytes()))
                            : tr("%1 can not be read.").arg(path)};
    refresh();
}

void DonePresenter::givePicture(const QByteArray& bytes)
{
    const visit::VisitState state = m_desk.seen();
    if (!m_shelf || !state.isOpen())
        return;
    const QString type = QMimeDatabase().mimeTypeForData(bytes).name();
    m_said.clear();
    if (bytes.isEmpty())
        m_said = {tr("There is nothing in it.")};
    else if (type != u"image/png" && type != u"image/jpeg")
        m_said = {tr("This is no PNG or JPEG picture, and only those are kept (it is %1).").arg(type)};
    else if (bytes.size() > m_shelf->mostBytes())
        m_said = {tr("It is too large: at most %1 are kept. Take it again with fewer pixels.")
                      .arg(QLocale().formattedDataSize(m_shelf->mostBytes()))};
    if (!m_said.isEmpty())
        return refresh();
    const auto kept = m_shelf->keep(type, bytes);
    if (!kept) {
        m_said = {tr("The picture could not be kept on the disk; nothing was changed. Try again.")};
        return refresh();
    }
    const visit::SwapState& swap = state.swaps[m_swap];
    const visit::NextStep next = visit::nextStep(state, swap, state.lead);
    settle(m_desk.tell(visit::PictureKept{swap.id, next.step ? next.step->id : StepId(), {}, *kept}));
}

// ---- What is shown ----------------------------------------------------------------------------------------

void DonePresenter::refresh()
{
    const visit::VisitState state = m_desk.seen();
    DoneView view;
    if (!state.ground) {
        view.empty = tr("Nothing is written yet.");
    } else {
        view.site = state.ground->opening.site.site.name;
        view.sub = subOf(state);
        view.review = reviewWords();
        view.lines = linesOf(state);
        wordChosen(view, state);
        wordAdding(view, state);
        wordSigning(view, state);
        if (m_form)
            view.form = formOf(state);
    }
    view.leave = state.isOpen() ? tr("Back to the bench") : tr("Back to the visits");
    view.said = m_said;
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

QString DonePresenter::subOf(const visit::VisitState& state) const
{
    const QString stand = state.isReadOnly ? tr("can only be read here") : endWords(state.end);
    const qsizetype count = m_desk.logbook().entries().size();
    return u"%1 \u00b7 %2"_s.arg(entriesWords(count), stand);
}

QList<DoneLine> DonePresenter::linesOf(const visit::VisitState& state) const
{
    const QList<visit::Entry>& entries = m_desk.logbook().entries();
    const QList<WantedSignature> wanted = wantedSignatures(entries, state);
    QList<DoneLine> lines = doneLinesOf(entries, state, m_desk.zone());
    for (DoneLine& line : lines)
        line.marks = marksOf(state, line.entry, wanted);
    for (const SupervisorSaid& review : m_reviews) {
        for (const EntryRemark& remark : review.remarks) {
            if (remark.entry >= 0 && remark.entry < lines.size())
                lines[remark.entry].marks.append(
                    {DoneMark::Kind::Remark, tr("%1: %2").arg(review.by, remark.text)});
        }
    }
    return lines;
}

QList<DoneMark> DonePresenter::marksOf(const visit::VisitState& state, qint64 entry,
                                       const QList<WantedSignature>& wanted) const
{
    QList<DoneMark> marks;
    for (const visit::Exception& one : state.exceptions) {
        const DoneMark mark{DoneMark::Kind::Unusual, tr("Out of the ordinary: %1").arg(wordsOf(one.kind))};
        if (one.entry == entry && !marks.contains(mark))
            marks.append(mark);
    }
    for (const WantedSignature& one : wanted) {
        if (one.entry != entry)
            continue;
        const QString name = nameOfPerson(state, one.person);
        DoneMark mark{DoneMark::Kind::Missing, tr("signature of %1 missing").arg(name)};
        if (m_desk.broken().contains(one))
            mark = {DoneMark::Kind::Broken, tr("signature of %1 does not verify").arg(name)};
        else if (m_desk.kept().contains(one))
            mark = {DoneMark::Kind::Signed, tr("signed by %1").arg(name)};
        if (!marks.contains(mark))
            marks.append(mark);
    }
    return marks;
}

void DonePresenter::wordChosen(DoneView& view, const visit::VisitState& state) const
{
    if (m_chosen < 0 || m_chosen >= view.lines.size())
        return;
    view.chosen = m_chosen;
    view.chosenName = tr("Entry %1").arg(m_chosen);
    const auto cost = visit::ifWithdrawn(state, m_desk.presses(), m_chosen, m_desk.clock().now());
    if (!cost)
        view.noWithdraw = whyNot(cost.error(), state);
    else if (isSomebodyInside(state))
        view.noWithdraw = tr("It can be withdrawn when everybody is outside: a reason is typed for it.");
    else
        view.withdraw = tr("Withdraw this entry");
}

QString DonePresenter::whyNot(const visit::Refusal& refusal, const visit::VisitState& state) const
{
    if (!refusal.has(visit::Why::Kind::CannotWithdraw))
        return wordsOf(refusal, state).join(u'\n');
    if (state.withdrawn.contains(m_chosen))
        return tr("It is withdrawn already.");
    const QString stays = whyItStays(m_desk.logbook().entries().at(m_chosen).body);
    return stays.isEmpty() ? wordsOf(refusal, state).join(u'\n') : stays;
}

void DonePresenter::wordAdding(DoneView& view, const visit::VisitState& state) const
{
    if (state.isReadOnly) {
        view.waits = tr("A newer program has written in this visit: it can be read here, nothing is added.");
        return;
    }
    if (state.person(m_desk.presses()) == machine::kNone) {
        const visit::Body asked =
            state.isOpen() ? visit::Body(visit::Noted()) : visit::Body(visit::Addendum());
        const auto refused = visit::decide(state, m_desk.presses(), asked, m_desk.clock().now());
        view.waits = refused ? QString() : wordsOf(refused.error(), state).join(u'\n');
        return;
    }
    if (m_shelf && state.isOpen())
        view.picture = tr("Picture");
    if (isSomebodyInside(state))
        view.waits =
            tr("Somebody is inside, or a lamphouse stands open: nothing is typed before everybody is "
               "outside with the gear off and everything is shut.");
    else
        view.write = state.isOpen() ? tr("Note")
                     : isToAnswer() ? tr("Answer the supervisor")
                                    : tr("Remark after closing");
}

/// In a visit that is open the key signs by itself.
void DonePresenter::wordSigning(DoneView& view, const visit::VisitState& state) const
{
    const qsizetype waiting = state.end.isEmpty() ? 0 : m_desk.missingOf(m_desk.presses()).size();
    if (waiting == 1)
        view.sign = tr("Sign the one entry that waits for your key");
    else if (waiting > 1)
        view.sign = tr("Sign the %1 entries that wait for your key").arg(waiting);
}

DoneForm DonePresenter::formOf(const visit::VisitState& state) const
{
    DoneForm form;
    form.kind = *m_form;
    form.draft = m_draft;
    form.canType = !isSomebodyInside(state);
    const QString place = placeOf(state, state.swaps[m_swap].lamphouse);
    switch (*m_form) {
    case DoneForm::Kind::Withdraw:
        wordWithdraw(form, state);
        break;
    case DoneForm::Kind::Note:
        form.title = tr("Note for %1").arg(place);
        form.follows = {tr("It stands in the logbook as it is written, and goes on paper with the visit.")};
        form.label = tr("What should stand in the logbook?");
        form.action.text = tr("Keep the note");
        break;
    case DoneForm::Kind::Addendum:
        form.title = isToAnswer() ? tr("Answer to the supervisor") : tr("Remark after closing");
        form.follows = {
            tr("Nothing of the visit changes. The remark is signed by your key, stands on the printed "
               "page, and counts as out of the ordinary.")};
        form.label = tr("What should be added?");
        form.action.text = tr("Add the remark");
        break;
    case DoneForm::Kind::Picture:
        form.title = tr("Picture for %1").arg(place);
        form.follows = {tr("PNG or JPEG, at most %1. It is kept as it is, and its entry vouches for it.")
                            .arg(QLocale().formattedDataSize(m_shelf ? m_shelf->mostBytes() : 0)),
                        tr("Choose a file, paste with Ctrl+V, or drop it on this page.")};
        form.action.text = tr("Choose a file");
        break;
    }
    form.action.stepKey = u"%1/%2/%3"_s.arg(static_cast<int>(*m_form)).arg(m_chosen).arg(state.entries);
    const bool isPicture = form.label.isEmpty();
    if (!isPicture)
        form.hint = tr("Enter begins a new line, Ctrl+Enter presses the button.");
    if (!isPicture && !form.canType)
        form.action.waits = tr("Waits until everybody is outside");
    else if (!isPicture && m_draft.trimmed().isEmpty())
        form.action.waits = tr("Waits for a few words");
    else
        form.action.stand = ActionView::Stand::Ready;
    return form;
}

void DonePresenter::wordWithdraw(DoneForm& form, const visit::VisitState& state) const
{
    form.title = tr("Withdraw entry %1").arg(m_chosen);
    form.label = tr("Why does it not count?");
    const PersonId second = agrees(state);
    form.action.text = second.isEmpty()
                           ? tr("Withdraw it")
                           : tr("%1: seen and agreed, withdraw it").arg(nameOfPerson(state, second));
    const auto cost = visit::ifWithdrawn(state, m_desk.presses(), m_chosen, m_desk.clock().now());
    if (!cost)
        return;
    form.follows.append(tr("It stays in the logbook, struck through, with your reason."));
    for (const visit::GateAgain& gate : cost->gates) {
        form.follows.append(tr("%1 waits again at %2.")
                                .arg(nameOf(gate.gate), placeOf(state, state.swap(gate.swap)->lamphouse)));
    }
    if (cost->gates.isEmpty())
        form.follows.append(tr("No gate waits again."));
    for (const visit::StepAgain& again : cost->steps) {
        const visit::SwapState* swap = state.swap(again.swap);
        form.follows.append(tr("Comes up again at %1: %2")
                                .arg(placeOf(state, swap->lamphouse), swap->step(again.step)->title));
    }
}

QString DonePresenter::textOf(const QList<qint64>& entries) const
{
    QStringList lines;
    for (const DoneLine& line : m_view.lines) {
        if (!entries.isEmpty() && !entries.contains(line.entry))
            continue;
        lines.append(
            u"%1  %2 %3  %4  %5"_s.arg(line.entry)
                .arg(line.date.left(kDateChars), line.time + line.date.mid(kDateChars), line.who, line.what));
        QStringList below = line.more;
        if (!line.withdrawn.isEmpty())
            below.prepend(line.withdrawn);
        for (const DoneMark& mark : line.marks)
            below.append(mark.text);
        for (const QString& text : below)
            lines.append(u"    "_s + QString(text).replace(u'\n', u"\n    "_s));
    }
    return lines.join(u'\n');
}

} // namespace coldarc::ui
