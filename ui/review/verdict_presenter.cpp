#include "ui/review/verdict_presenter.h"

#include "core/people/calendar.h"
#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/review/view_of_review.h"
#include "ui/review/words_review.h"
#include "ui/visit/words_entry.h"

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using record::Verdict;
using Kind = VerdictForm::Kind;

constexpr qsizetype kShownOfHash = 12;

} // namespace

VerdictPresenter::VerdictPresenter(VerdictDeeds deeds, const Clock& clock, QTimeZone zone, QObject* parent)
    : QObject(parent)
    , m_deeds(std::move(deeds))
    , m_clock(clock)
    , m_zone(std::move(zone))
{
}

void VerdictPresenter::show(std::shared_ptr<const VisitReading> reading)
{
    const bool isOther = !reading || !m_reading || reading->visit != m_reading->visit;
    m_reading = std::move(reading);
    if (isOther)
        m_form.reset();
    if (isOther && m_reading && !std::exchange(m_isSaidNew, false))
        m_said.clear();
    look();
}

void VerdictPresenter::setMoment(qint64 entry)
{
    m_entry = entry; // nothing that is shown hangs on it: this is told at every move along the time line
}

void VerdictPresenter::look()
{
    auto reviewer = m_deeds.reviewer();
    // While nobody is here what was written stays; nobody signs what another has written.
    if (reviewer && std::exchange(m_draftsOf, reviewer->person.id) != reviewer->person.id) {
        m_drafts.clear();
        m_form.reset();
        m_said.clear();
    }
    m_reviewer = std::move(reviewer);
    refresh();
}

// ---- What is written
// ----------------------------------------------------------------------------------------

void VerdictPresenter::beginRemark()
{
    if (m_view.remark.isEmpty())
        return;
    m_form = Kind::Remark;
    if (draft().remark.trimmed().isEmpty())
        draft().remarkOn = m_entry; // else the one that was begun goes on
    m_said.clear();
    refresh();
}

void VerdictPresenter::beginSendBack()
{
    if (m_view.sendBack.isEmpty())
        return;
    m_form = Kind::SendBack;
    m_said.clear();
    refresh();
}

void VerdictPresenter::leaveForm()
{
    m_form.reset();
    refresh();
}

void VerdictPresenter::setDraft(const QString& text)
{
    if (!m_reading || !m_form)
        return;
    (m_form == Kind::Remark ? draft().remark : draft().why) = text;
    refresh();
}

void VerdictPresenter::keepRemark()
{
    draft().remarks.append({draft().remarkOn, draft().remark.trimmed()});
    draft().remark.clear();
    m_form.reset();
    refresh();
}

void VerdictPresenter::dropRemark(const QString& id)
{
    if (!m_reading)
        return;
    bool isNumber = false;
    const qsizetype place = id.toLongLong(&isNumber);
    if (isNumber && place >= 0 && place < draft().remarks.size())
        draft().remarks.removeAt(place);
    refresh();
}

// ---- What is signed
// -------------------------------------------------------------------------------------------

void VerdictPresenter::done()
{
    look(); // what may be done can have changed since it was shown
    if (!m_reading || m_view.action.stand != ActionView::Stand::Ready)
        return;
    if (m_form == Kind::Remark)
        return keepRemark();
    sign(m_form == Kind::SendBack ? Verdict::SentBack : Verdict::Accepted);
}

record::Review VerdictPresenter::reviewOf(Verdict verdict) const
{
    const Draft written = draft();
    record::Review review;
    review.visit = m_reading->visit;
    review.entry = m_reading->report.entries.size() - 1;
    review.head = m_reading->report.head;
    review.verdict = verdict;
    review.text = verdict == Verdict::SentBack ? written.why.trimmed() : QString();
    review.remarks = written.remarks;
    review.by = m_reviewer->person.id;
    review.name = m_reviewer->person.name;
    review.at = m_clock.now().wall;
    return review;
}

review::VisitAtReview VerdictPresenter::atReview() const
{
    return m_reading->atReview();
}

QStringList VerdictPresenter::refusals(const record::Review& review) const
{
    QStringList sentences;
    for (const review::ReviewRefusal& one :
         review::mayReview(review, *m_reviewer, atReview(), dayOf(review.at, m_zone)))
        sentences.append(sentenceOf(one, m_zone));
    return sentences;
}

void VerdictPresenter::sign(Verdict verdict)
{
    const record::Review review = reviewOf(verdict);
    const QString title = titleOf(m_reading->report.state);
    const auto signed_ = m_deeds.sign(review);
    if (signed_) {
        m_drafts.remove(review.visit);
        m_form.reset();
        m_said = verdict == Verdict::Accepted ? tr("Accepted and signed: %1.").arg(title)
                                              : tr("Sent back and signed: %1.").arg(title);
        m_isSaidNew = true;
        refresh();
        return Q_EMIT given(review.visit, verdict);
    }
    qWarning("review not signed: %s", qUtf8Printable(signed_.error().detail));
    switch (signed_.error().kind) {
    case Error::Kind::Conflict:
        m_said = tr(
            "The visit, or what you may do, is not as it was when it was read. Nothing was signed; what you "
            "have written is kept. Look at it anew.");
        m_isSaidNew = true;
        refresh();
        return Q_EMIT grew(review.visit);
    case Error::Kind::Refused:
        m_said =
            tr("Your key is not open. Nothing was signed; what you have written is kept. Unlock it, then "
               "press again.");
        return refresh();
    case Error::Kind::Busy:
        m_said =
            tr("The workspace was busy. Nothing was signed; what you have written is kept. Press again.");
        return refresh();
    case Error::Kind::Storage:
        m_said = tr("The review could not be kept. Nothing was signed; what you have written is kept. Make "
                    "room on the disk, then press again.");
        return refresh();
    default:
        m_said =
            tr("The review cannot be signed as it is. Nothing was signed; what you have written is kept. "
               "Look at the visit anew, and see that no text has signs in it that cannot be printed.");
        return refresh();
    }
}

// ---- What is shown
// --------------------------------------------------------------------------------------------

void VerdictPresenter::refresh()
{
    VerdictView view;
    view.said = m_said;
    view.action.waits = m_reading ? tr("Waits for somebody to sign in") : tr("Waits for a visit");
    if (m_reading && m_reviewer)
        fill(view);
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

QString VerdictPresenter::remarkName(qint64 entry) const
{
    const report::Report& report = m_reading->report;
    return tr("Entry %1, %2").arg(entry).arg(wordsOf(report.entries, entry, report.state).what);
}

QString VerdictPresenter::statement(Verdict verdict) const
{
    const qint64 last = m_reading->report.entries.size() - 1;
    const auto remarks = static_cast<int>(draft().remarks.size());
    const QString with = remarks == 0   ? QString()
                         : remarks == 1 ? tr(", with one remark")
                                        : tr(", with %1 remarks").arg(remarks);
    const QString meaning =
        verdict == Verdict::Accepted ? tr("reviewed and accepted") : tr("reviewed and sent back");
    return tr("Your signature: %1, %2: %3%4. It covers entries 0 to %5, whose chain ends in %6\u2026")
        .arg(m_reviewer->person.name, wordFor(m_reviewer->person.role), meaning, with)
        .arg(last)
        .arg(m_reading->report.head.hex().left(kShownOfHash));
}

void VerdictPresenter::fill(VerdictView& view) const
{
    const Draft written = draft();
    for (qsizetype place = 0; place < written.remarks.size(); ++place) {
        const record::ReviewRemark& one = written.remarks[place];
        view.remarks.append({QString::number(place), one.text, remarkName(one.entry), tr("Take back")});
    }
    const Verdict verdict = m_form == Kind::SendBack ? Verdict::SentBack : Verdict::Accepted;
    const record::Review asked = reviewOf(verdict);
    if (m_reading->breaksAt) { // how far the visit came, and who took part, is not known
        view.no.append(m_reading->cutOffAt
                           ? tr("Its end was cut off: not all that was signed stands there.")
                           : tr("Its chain breaks: what stands there is not all as it was written."));
    } else {
        const people::Day today = dayOf(m_clock.now().wall, m_zone);
        for (const review::ReviewRefusal& one : review::mayTakeUp(*m_reviewer, atReview(), today))
            view.no.append(sentenceOf(one, m_zone));
    }
    view.action.stepKey = u"%1/%2/%3"_s.arg(asked.visit.text())
                              .arg(asked.entry)
                              .arg(m_form ? 1 + static_cast<int>(*m_form) : 0);
    if (!view.no.isEmpty()) {
        view.action.waits = m_reading->breaksAt ? tr("This visit cannot be reviewed as it stands")
                                                : tr("This review waits for somebody else");
        return;
    }
    view.remark = tr("Remark");
    view.sendBack = tr("Send back");
    view.statement = statement(verdict);
    const QStringList missing = refusals(asked);
    const bool isAcceptedAlready =
        !m_form && review::standOf(m_reading->reviewsSaid(), m_reading->report.entries.size()) ==
                       review::Stand::Accepted;
    view.action.text = tr("Accept and sign");
    if (!m_deeds.isKeyOpen())
        view.action.waits = tr("Waits for your key: unlock it");
    else if (isAcceptedAlready)
        view.action.waits = tr("It is accepted; nothing was added since");
    else if (!missing.isEmpty())
        view.action.waits = missing.first();
    else if (!begun().isEmpty())
        view.action.waits = begun();
    else
        view.action.stand = ActionView::Stand::Ready;
    if (isAcceptedAlready)
        view.statement.clear();
    if (m_form)
        fillForm(view);
}

/// What was begun and is neither kept nor signed by the next press.
QString VerdictPresenter::begun() const
{
    if (!draft().remark.trimmed().isEmpty() && m_form != Kind::Remark)
        return tr("Waits for the remark that you began: R goes on");
    if (!draft().why.trimmed().isEmpty() && m_form != Kind::SendBack)
        return tr("Waits: you began to send it back, S goes on");
    return {};
}

void VerdictPresenter::fillForm(VerdictView& view) const
{
    const Draft written = draft();
    VerdictForm form;
    form.kind = *m_form;
    form.hint = tr("Enter begins a new line, Ctrl+Enter presses the button, Escape leaves it.");
    if (form.kind == Kind::Remark) {
        form.title = tr("Remark on: %1").arg(remarkName(written.remarkOn));
        form.label = tr("What is to be said of it?");
        form.draft = written.remark;
        view.statement.clear();
        view.action.text = tr("Keep the remark");
        view.action.waits = tr("Waits for a few words");
        view.action.stand =
            form.draft.trimmed().isEmpty() ? ActionView::Stand::Waits : ActionView::Stand::Ready;
    } else {
        form.title = tr("Send back");
        form.label = tr("What is to be put right? Whoever did the work reads this.");
        form.draft = written.why;
        view.action.text = tr("Send back and sign");
    }
    view.form = form;
}

} // namespace coldarc::ui
