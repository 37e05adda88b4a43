#include "ui/people/start_presenter.h"

#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/people/secret_words.h"

#include <algorithm>
#include <memory>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

bool hasNoError(const StartView& view)
{
    return view.workspace.error.isEmpty() && view.name.error.isEmpty() && view.role.error.isEmpty() &&
           view.passphrase.error.isEmpty() && view.again.error.isEmpty() && view.duties.error.isEmpty() &&
           view.from.error.isEmpty() && view.until.error.isEmpty();
}

} // namespace

StartPresenter::StartPresenter(const Clock& clock, IdSource& ids, Enrol enrol,
                               std::function<void(const QString&)> name, Behind behind, QObject* parent)
    : QObject(parent)
    , m_clock(clock)
    , m_ids(ids)
    , m_enrol(std::move(enrol))
    , m_name(std::move(name))
    , m_behind(std::move(behind))
{
    const people::Day today = dayOf(clock.now().wall);
    const people::Day year = people::Day(today.year() + std::chrono::years(1), today.month(), today.day());
    m_view.workspace = {tr("Name of this workspace"), {}, {}, tr("the territory, or the firm"), {}};
    m_view.name = {tr("Your name, as it stands under a report"), {}, {}, {}, {}};
    m_view.role = {tr("You work as"),
                   {{u"engineer"_s, wordFor(people::Role::Engineer)},
                    {u"supervisor"_s, wordFor(people::Role::Supervisor)}},
                   u"engineer"_s,
                   {},
                   Reach::Hand};
    m_view.passphrase = {tr("Passphrase"), {}, {}, {}, {}};
    m_view.passphraseNote = passphraseRule();
    m_view.again = {tr("The same again"), {}, {}, {}, {}};
    m_view.duties = {
        tr("You are authorised"),
        {{u"lamp-swap"_s, tr("to swap lamps, in every model"), {}},
         {u"prove-absence"_s, tr("to prove absence of voltage"), tr("only if you are qualified")},
         {u"supervise"_s, tr("to supervise and review"), {}}},
        {},
        {},
        Reach::Hand};
    m_view.dutiesNote = tr("By whom is not asked here: you are the first, and the record says that you gave "
                           "these to yourself.");
    m_view.from = {tr("From"), people::isoText(today), {}, u"2026-01-01"_s, {}};
    m_view.until = {tr("Until, that day included"),
                    year.ok() ? people::isoText(year) : QString(),
                    {},
                    u"2026-12-31"_s,
                    {}};
    m_view.action = {u"start"_s, tr("Begin"), tr("One moment"), ActionView::Stand::Ready};
}

StartView StartPresenter::judged(const StartForm& form) const
{
    StartView view = m_view;
    view.message.clear();
    view.workspace.error = form.workspace.trimmed().isEmpty() ? tr("Give it a name.") : QString();
    view.name.error = form.name.trimmed().isEmpty() ? tr("Your name is needed.") : QString();
    const auto passphrase = people::Passphrase::accept(form.passphrase);
    view.passphrase.error = passphrase ? QString() : wordsFor(passphrase.error());
    view.again.error = form.passphrase == form.again ? QString() : tr("The two differ.");
    const auto from = people::dayFromIso(form.from);
    const auto until = people::dayFromIso(form.until);
    const bool areDatesAsked = !form.duties.isEmpty();
    view.from.error = areDatesAsked && !from ? tr("A day like 2026-01-31.") : QString();
    view.until.error = areDatesAsked && !until ? tr("A day like 2026-12-31.") : QString();
    if (areDatesAsked && from && until && *until < *from)
        view.until.error = tr("It ends before it begins.");
    return view;
}

void StartPresenter::create(const StartForm& form)
{
    if (!m_view.busy.isEmpty())
        return;
    StartView view = judged(form);
    auto passphrase = people::Passphrase::accept(form.passphrase);
    if (!hasNoError(view) || !passphrase) {
        view.message = tr("Something is missing; see the lines above.");
        show(view);
        return;
    }
    view.busy = tr("Making your key and sealing it. This takes a second or two, on purpose.");
    view.action.stand = ActionView::Stand::Waits;
    show(view);
    seal(form, std::move(*passphrase));
}

void StartPresenter::seal(const StartForm& form, people::Passphrase passphrase)
{
    const PersonId id(m_ids.next());
    const auto shared = std::make_shared<people::Passphrase>(std::move(passphrase));
    const auto sealed =
        std::make_shared<Result<people::SealedKey>>(fail(Error::Kind::Storage, u"not tried"_s));
    m_behind(
        [id, shared, sealed, cost = m_cost] {
            *sealed = people::sealKey(people::SigningKey::generate(), id, *shared, cost);
        },
        [this, form, id, sealed] { keep(form, id, std::move(*sealed)); });
}

void StartPresenter::keep(const StartForm& form, const PersonId& id, Result<people::SealedKey> sealed)
{
    StartView view = m_view;
    view.busy.clear();
    view.action.stand = ActionView::Stand::Ready;
    if (!sealed) {
        view.message = tr("The key could not be sealed: this computer has too little memory free. Nothing "
                          "was kept. Close other programs, type the passphrase again and press Begin.");
        return show(view);
    }
    Enrolment enrolment;
    enrolment.person.id = id;
    enrolment.person.name = form.name.trimmed();
    enrolment.person.role = people::roleFromWord(form.role.toStdString()).value_or(people::Role::Engineer);
    enrolment.key = std::move(*sealed);
    for (const QString& duty : form.duties) {
        people::Authorisation one;
        one.id = people::AuthorisationId(m_ids.next());
        one.person = id;
        one.givenBy = id;
        one.duty = people::dutyFromWord(duty.toStdString()).value_or(people::Duty::LampSwap);
        one.from = people::dayFromIso(form.from).value_or(people::Day());
        one.until = people::dayFromIso(form.until).value_or(people::Day());
        enrolment.authorisations.push_back(one);
    }
    if (const auto kept = m_enrol(enrolment); !kept) {
        view.message =
            tr("It could not be written: %1 Nothing was kept. Make room on the disk, or see "
               "whether the folder can be written, then type the passphrase again and press Begin.")
                .arg(kept.error().kind == Error::Kind::Busy ? tr("another program holds the file.")
                                                            : tr("the disk refused."));
        return show(view);
    }
    m_name(form.workspace.trimmed());
    show(view);
    Q_EMIT created();
}

void StartPresenter::show(StartView view)
{
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
