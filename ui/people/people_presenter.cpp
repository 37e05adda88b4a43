#include "ui/people/people_presenter.h"

#include "core/people/gear_marking.h"
#include "core/people/read_holders.h"
#include "ui/parts/not_written.h"
#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/people/secret_words.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>
#include <memory>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr auto kEveryModel = u"every-model";

/// "stops a ball at 120 m/s", "cut at 22 N", as its marking promises; empty where that says nothing of it.
QString withstands(const QString& text)
{
    const auto marking = people::gearMarkingFrom(text);
    const QLocale locale;
    if (marking && marking->impactSpeed)
        return QCoreApplication::translate("gear", "stops a ball at %1 m/s")
            .arg(locale.toString(*marking->impactSpeed, 'f', 0));
    if (marking && marking->cutForce)
        return QCoreApplication::translate("gear", "cut at %1 N")
            .arg(locale.toString(*marking->cutForce, 'f', 0));
    if (marking && marking->cutGramForce)
        return QCoreApplication::translate("gear", "cut at %1 gf")
            .arg(locale.toString(*marking->cutGramForce, 'f', 0));
    return {};
}

QString months(const people::GearItem& item)
{
    QStringList parts;
    if (item.made)
        parts << PeoplePresenter::tr("made %1").arg(people::isoText(*item.made));
    if (item.expires)
        parts << PeoplePresenter::tr("last month of use %1").arg(people::isoText(*item.expires));
    return parts.join(u", "_s);
}

QString join(const QStringList& parts)
{
    QStringList full = parts;
    full.removeAll(QString());
    return full.join(u" \u00b7 "_s);
}

} // namespace

PeoplePresenter::PeoplePresenter(people::PeopleStore& people, people::KeyStore& keys, people::GearStore& gear,
                                 const Clock& clock, IdSource& ids, Choices choices, Enrol enrol,
                                 Behind behind, QObject* parent)
    : QObject(parent)
    , m_people(people)
    , m_keys(keys)
    , m_gear(gear)
    , m_clock(clock)
    , m_ids(ids)
    , m_choices(std::move(choices))
    , m_enrol(std::move(enrol))
    , m_behind(std::move(behind))
{
}

people::Day PeoplePresenter::today() const
{
    return dayOf(m_clock.now().wall);
}

QString PeoplePresenter::nameOf(const PersonId& id) const
{
    const auto found = std::ranges::find(m_persons, id, &people::Person::id);
    return found == m_persons.end() ? id.text() : found->name;
}

QString PeoplePresenter::textOf(const QList<ChoiceOption>& options, const QString& id) const
{
    for (const ChoiceOption& option : options) {
        if (option.id == id)
            return option.text;
    }
    return id;
}

QString PeoplePresenter::modelsText(const people::Authorisation& one) const
{
    if (!one.models)
        return one.duty == people::Duty::LampSwap ? tr("every model") : QString();
    QStringList names;
    for (const ModelId& model : *one.models)
        names << textOf(m_choices.models, model.text());
    return names.join(u", "_s);
}

void PeoplePresenter::refresh()
{
    PeopleView view = m_view;
    if (auto all = m_people.all())
        m_persons = std::move(*all);
    else
        view.message = tr("The people could not be read. Nothing was changed.");
    fill(view);
    show(view);
}

void PeoplePresenter::fill(PeopleView& view) const
{
    view.people.clear();
    for (const people::Person& person : m_persons) {
        view.people.append({person.id.text(), person.name, wordFor(person.role),
                            person.retiredOn ? tr("retired") : QString()});
    }
    auto found = std::ranges::find(m_persons, PersonId(view.chosen), &people::Person::id);
    if (found == m_persons.end())
        found = m_persons.begin();
    if (found == m_persons.end())
        return;
    view.chosen = found->id.text();
    fillCard(view, *found);
    fillGear(view, *found);
    fillForm(view);
}

void PeoplePresenter::fillCard(PeopleView& view, const people::Person& person) const
{
    const bool isHere = !person.retiredOn;
    view.title = person.name;
    view.sub = join({wordFor(person.role), person.phone, person.email,
                     isHere ? QString() : tr("retired on %1").arg(people::isoText(*person.retiredOn))});
    const auto key = m_keys.sealedKey(person.id);
    const bool hasKey = key.has_value();
    view.keyText = hasKey ? tr("Signs with a key of their own.")
                          : tr("Has no key: cannot sign in, and nobody can sign for them.");
    view.canChangePassphrase = isHere && hasKey && person.id == m_by;
    if (view.canChangePassphrase && people::isBelowFloor(key->cost))
        view.keyText +=
            u' ' + tr("Its seal is easier to guess at than is usual today: a new passphrase mends that.");
    const auto allows = [&](people::Grant grant) {
        const auto verdict = verdictOn(grant, person.id);
        return isHere && verdict && people::isAllowed(*verdict);
    };
    view.canAddKey = !hasKey && allows(people::Grant::Key);
    view.canGive = allows(people::Grant::Give);
    view.canRetire = allows(people::Grant::Retire) && person.id != m_by;
    view.canRetireKey = view.canRetire && hasKey;
    view.giving = isHere ? givingText(people::Grant::Give, person) : QString();
    const bool canWithdraw = allows(people::Grant::Withdraw);
    view.authorisations.clear();
    if (const auto held = m_people.authorisationsOf(person.id)) {
        for (const people::Authorisation& one : *held) {
            const bool isOver = one.withdrawnOn || one.until < today();
            const QString giver = one.givenBy == person.id ? tr("given by themselves")
                                                           : tr("given by %1").arg(nameOf(one.givenBy));
            view.authorisations.append({one.id.text(), join({wordFor(one.duty), modelsText(one)}),
                                        join({standingOf(one, today()), giver}),
                                        isOver || !canWithdraw ? QString() : tr("Withdraw")});
        }
    }
    view.noAuthorisations = QString();
    if (view.authorisations.isEmpty())
        view.noAuthorisations = person.role == people::Role::Electrician
                                    ? tr("None. %1 may not prove absence of voltage.").arg(person.name)
                                    : tr("None. %1 may not work on a lamphouse.").arg(person.name);
}

std::optional<people::GrantVerdict> PeoplePresenter::verdictOn(people::Grant grant,
                                                               const PersonId& whom) const
{
    const auto all = people::readHolders(m_people, m_keys);
    if (!all)
        return std::nullopt;
    return people::grantVerdict(grant, m_by, whom, *all, today());
}

QStringList PeoplePresenter::namesOf(const std::function<bool(const people::Holder&)>& isMeant) const
{
    QStringList names;
    const auto everybody = people::readHolders(m_people, m_keys);
    for (const people::Holder& holder : everybody ? *everybody : std::vector<people::Holder>()) {
        if (isMeant(holder))
            names << holder.person.name;
    }
    return names;
}

QStringList PeoplePresenter::supervisors() const
{
    return namesOf([this](const people::Holder& one) { return people::supervises(one, today()); });
}

QString PeoplePresenter::givingText(people::Grant grant, const people::Person& person) const
{
    const auto verdict = verdictOn(grant, person.id);
    if (!verdict)
        return tr("Who supervises could not be read: nothing is given or withdrawn here now.");
    switch (*verdict) {
    case people::GrantVerdict::Supervises:
        return {};
    case people::GrantVerdict::NobodySupervises:
        return person.id == m_by ? tr("Nobody supervises here today: what you give yourself is kept as "
                                      "given by yourself.")
                                 : tr("Nobody supervises here today: what you give is kept as given by you.");
    case people::GrantVerdict::SupervisesOtherDays:
        return tr("Nobody supervises here today. You hold it for other days, so it is yours to give anew.");
    case people::GrantVerdict::OthersOnOtherDays:
        return tr("Nobody supervises here today. Whoever holds it for other days gives it anew: %1.")
            .arg(namesOf(people::supervisesSomeDay).join(u", "_s));
    case people::GrantVerdict::NotASupervisor:
        return tr("Given, withdrawn, retired and given a key by whoever supervises: %1.")
            .arg(supervisors().join(u", "_s));
    case people::GrantVerdict::OwnOnes:
        return supervisors() == QStringList{person.name}
                   ? tr("Nobody gives themselves more once somebody supervises: another supervisor does.")
                   : tr("Nobody gives themselves more once somebody supervises. Here that is: %1.")
                         .arg(supervisors().join(u", "_s));
    }
    Q_UNREACHABLE();
}

/// Looked at again at the press: somebody may have begun to supervise meanwhile.
bool PeoplePresenter::isRefused(people::Grant grant)
{
    const people::Person* person = nullptr;
    for (const people::Person& one : m_persons) {
        if (one.id == PersonId(m_view.chosen))
            person = &one;
    }
    const auto verdict = verdictOn(grant, PersonId(m_view.chosen));
    if (person && verdict && people::isAllowed(*verdict))
        return false;
    say(tr("Nothing was changed. %1").arg(person ? givingText(grant, *person) : QString()));
    return true;
}

void PeoplePresenter::fillGear(PeopleView& view, const people::Person& person) const
{
    view.gear.clear();
    if (const auto items = m_gear.assignedTo(person.id)) {
        for (const people::GearItem& item : *items) {
            const auto verdict = people::gearVerdict(item, today(), people::GearCondition::NoDamageSeen);
            QStringList against;
            for (const people::GearRefusal refusal : verdict.refusals)
                against << wordFor(refusal);
            view.gear.append({item.id.text(), join({textOf(m_choices.gearKinds, item.kind), item.identifier}),
                              join({verdict.isFit() ? tr("nothing speaks against it")
                                                    : tr("not to be worn: %1").arg(against.join(u", "_s)),
                                    item.marking, withstands(item.marking), months(item)}),
                              verdict.isFit() ? tr("Withdraw") : QString()});
        }
    }
    view.noGear = view.gear.isEmpty()
                      ? tr("None yet. Gear that is not listed can still be worn, and is signed "
                           "for item by item.")
                      : QString();
}

void PeoplePresenter::fillForm(PeopleView& view) const
{
    const QString from = people::isoText(today());
    view.name.label = tr("Name, as it stands under a report");
    view.role.label = tr("Works as");
    view.role.options = {{u"engineer"_s, wordFor(people::Role::Engineer)},
                         {u"trainee"_s, wordFor(people::Role::Trainee)},
                         {u"supervisor"_s, wordFor(people::Role::Supervisor)},
                         {u"electrician"_s, wordFor(people::Role::Electrician)}};
    view.phone.label = tr("Telephone");
    view.old.label = tr("Your passphrase as it is");
    view.passphrase.label = view.form == PeopleForm::Passphrase ? tr("The new passphrase")
                                                                : tr("Passphrase, typed by the person");
    view.again.label = tr("The same again");
    view.duty.label = tr("May");
    view.duty.options = {{u"lamp-swap"_s, tr("swap lamps")},
                         {u"prove-absence"_s, tr("prove absence of voltage")},
                         {u"supervise"_s, tr("supervise and review")}};
    view.model.label = tr("In");
    view.model.options = {{QString::fromUtf16(kEveryModel), tr("every model")}};
    view.model.options += m_choices.models;
    view.from.label = tr("From");
    view.from.value = from;
    view.until.label = tr("Until, that day included");
    view.until.hint = u"2027-12-31"_s;
    view.kind.label = tr("Kind");
    view.kind.options = m_choices.gearKinds;
    view.marking.label = tr("Marking, as read on it");
    view.identifier.label = tr("Number that tells it from its twins");
    view.made.label = tr("Made, month");
    view.made.hint = u"2025-04"_s;
    view.expires.label = tr("Last month of use");
    view.expires.hint = tr("empty: none given");
    view.formNote.clear();
    switch (view.form) {
    case PeopleForm::None:
        break;
    case PeopleForm::NewPerson:
        view.formTitle = tr("A new person");
        view.formNote = passphraseRule();
        view.formAct = tr("Add");
        break;
    case PeopleForm::Authorisation:
        view.formTitle = tr("A new authorisation for %1").arg(view.title);
        view.formNote = view.giving;
        view.formAct = tr("Give");
        break;
    case PeopleForm::Gear:
        view.formTitle = tr("A piece of gear for %1").arg(view.title);
        view.formAct = tr("Add");
        break;
    case PeopleForm::Key:
        view.formTitle = tr("A key for %1").arg(view.title);
        view.formNote = passphraseRule();
        view.formAct = tr("Make the key");
        break;
    case PeopleForm::Passphrase:
        view.formTitle = tr("Another passphrase for your key");
        view.formNote =
            passphraseRule() + u' ' +
            tr("The key stays the same. A backup made before still opens by the passphrase that it "
               "had then.");
        view.formAct = tr("Change the passphrase");
        break;
    }
}

void PeoplePresenter::choose(const QString& person)
{
    PeopleView view = m_view;
    view.chosen = person;
    view.form = PeopleForm::None;
    view.message.clear();
    fill(view);
    show(view);
}

void PeoplePresenter::openForm(PeopleForm form)
{
    PeopleView view = m_view;
    view.form = form;
    view.message.clear();
    for (FieldView* field : {&view.name, &view.phone, &view.old, &view.passphrase, &view.again, &view.from,
                             &view.until, &view.marking, &view.identifier, &view.made, &view.expires})
        field->error.clear();
    for (ChoiceView* choice : {&view.role, &view.duty, &view.model, &view.kind})
        choice->error.clear();
    ++view.emptied;
    fill(view);
    show(view);
}

void PeoplePresenter::keepForm(const PeopleAnswers& answers)
{
    if (!m_view.busy.isEmpty())
        return;
    switch (m_view.form) {
    case PeopleForm::None:
        break;
    case PeopleForm::NewPerson:
        return keepPerson(answers);
    case PeopleForm::Authorisation:
        return keepAuthorisation(answers);
    case PeopleForm::Gear:
        return keepGear(answers);
    case PeopleForm::Key:
        return keepKey(answers);
    case PeopleForm::Passphrase:
        return changePassphrase(answers);
    }
}

void PeoplePresenter::sealFor(const PersonId& id, people::Passphrase passphrase,
                              std::function<Result<void>(people::SealedKey)> keep)
{
    PeopleView view = m_view;
    view.busy = tr("Making the key and sealing it. This takes a second or two, on purpose.");
    show(view);
    const auto shared = std::make_shared<people::Passphrase>(std::move(passphrase));
    const auto sealed =
        std::make_shared<Result<people::SealedKey>>(fail(Error::Kind::Storage, u"not tried"_s));
    m_behind(
        [id, shared, sealed, cost = m_cost] {
            *sealed = people::sealKey(people::SigningKey::generate(), id, *shared, cost);
        },
        [this, sealed, keep = std::move(keep)] {
            if (!*sealed)
                return say(
                    tr("The key could not be sealed: this computer has too little memory free. Nothing "
                       "was kept."));
            settle(keep(**sealed), tr("Kept."));
            Q_EMIT peopleChanged();
        });
}

void PeoplePresenter::keepPerson(const PeopleAnswers& answers)
{
    PeopleView view = m_view;
    view.name.error = answers.name.trimmed().isEmpty() ? tr("The name is needed.") : QString();
    const auto role = people::roleFromWord(answers.role.toStdString());
    view.role.error = role ? QString() : tr("Choose one.");
    auto passphrase = people::Passphrase::accept(answers.passphrase);
    view.passphrase.error = passphrase ? QString() : wordsFor(passphrase.error());
    view.again.error = answers.passphrase == answers.again ? QString() : tr("The two differ.");
    show(view);
    if (!view.name.error.isEmpty() || !role || !passphrase || !view.again.error.isEmpty())
        return;
    Enrolment enrolment;
    enrolment.person.id = PersonId(m_ids.next());
    enrolment.person.name = answers.name.trimmed();
    enrolment.person.role = *role;
    enrolment.person.phone = answers.phone.trimmed();
    m_view.chosen = enrolment.person.id.text();
    sealFor(enrolment.person.id, std::move(*passphrase), [this, enrolment](people::SealedKey key) mutable {
        enrolment.key = std::move(key);
        return m_enrol(enrolment);
    });
}

void PeoplePresenter::keepKey(const PeopleAnswers& answers)
{
    PeopleView view = m_view;
    auto passphrase = people::Passphrase::accept(answers.passphrase);
    view.passphrase.error = passphrase ? QString() : wordsFor(passphrase.error());
    view.again.error = answers.passphrase == answers.again ? QString() : tr("The two differ.");
    show(view);
    if (!passphrase || !view.again.error.isEmpty() || isRefused(people::Grant::Key))
        return;
    const PersonId id(view.chosen);
    sealFor(id, std::move(*passphrase),
            [this, id](people::SealedKey key) { return m_keys.enrol(id, key, m_clock.now()); });
}

void PeoplePresenter::changePassphrase(const PeopleAnswers& answers)
{
    PeopleView view = m_view;
    auto fresh = people::Passphrase::accept(answers.passphrase);
    view.old.error = answers.old.isEmpty() ? tr("The passphrase as it is.") : QString();
    view.passphrase.error = fresh ? QString() : wordsFor(fresh.error());
    view.again.error = answers.passphrase == answers.again ? QString() : tr("The two differ.");
    show(view);
    if (!view.old.error.isEmpty() || !fresh || !view.again.error.isEmpty())
        return;
    const Stamp now = m_clock.now();
    const auto begun = tryBegun(now);
    if (!begun)
        return;
    struct Work {
        people::OpenTry started;
        people::Passphrase fresh;
        Result<people::SealedKey> sealed = fail(Error::Kind::Storage, u"not tried"_s);
    };
    const auto work = std::make_shared<Work>(Work{*begun, std::move(*fresh)});
    m_behind(
        [work, old = answers.old, cost = m_cost] {
            work->sealed =
                people::changePassphrase(work->started.sealed, work->started.person, old, work->fresh, cost);
        },
        [this, work, now] {
            const auto opened = work->sealed ? Result<void>() : tl::unexpected(work->sealed.error());
            const auto away = people::countTry(m_keys, work->started, opened, now);
            ++m_view.emptied;
            if (!away)
                return settle(tl::unexpected(away.error()), {});
            if (*away)
                return say(tr("That is not your passphrase: nothing was changed. %1")
                               .arg(waitWords((*away)->next))
                               .trimmed());
            if (m_by != work->started.person)
                return say(tr("Nothing was changed: somebody else works here by now."));
            settle(m_keys.reseal(*work->sealed), tr("Changed: the new passphrase opens your key."));
        });
}

/// Writes down a try at the passphrase of whoever works here, which is under way from then on.
std::optional<people::OpenTry> PeoplePresenter::tryBegun(const Stamp& now)
{
    const auto begun = people::beginTry(m_keys, m_by, now);
    if (!begun) {
        settle(tl::unexpected(begun.error()), {});
        return std::nullopt;
    }
    if (const auto* away = std::get_if<people::TurnedAway>(&*begun)) {
        say(away->why == people::TurnedAway::Why::KeyShut
                ? tr("Nothing was tried: the passphrase was wrong too often.")
                : waitWords(away->next));
        return std::nullopt;
    }
    PeopleView view = m_view;
    view.busy = tr("Opening the key and sealing it anew. This takes some seconds, on purpose.");
    view.message.clear();
    show(view);
    return std::get<people::OpenTry>(*begun);
}

void PeoplePresenter::keepAuthorisation(const PeopleAnswers& answers)
{
    PeopleView view = m_view;
    const auto duty = people::dutyFromWord(answers.duty.toStdString());
    const auto from = people::dayFromIso(answers.from);
    const auto until = people::dayFromIso(answers.until);
    view.duty.error = duty ? QString() : tr("Choose one.");
    const auto holder = std::ranges::find(m_persons, PersonId(view.chosen), &people::Person::id);
    if (duty && holder != m_persons.end() && !people::canEverHold(holder->role, *duty))
        view.duty.error = tr("Nobody in this role may do this.");
    view.model.error = answers.model.isEmpty() ? tr("Choose one.") : QString();
    view.from.error = from ? QString() : tr("A day like 2026-01-31.");
    view.until.error = until ? QString() : tr("A day like 2026-12-31.");
    if (from && until && *until < *from)
        view.until.error = tr("It ends before it begins.");
    const auto all = people::readHolders(m_people, m_keys);
    const auto first = all ? people::firstDayToGive(m_by, *all, today()) : std::nullopt;
    if (from && first && *from < *first && duty != people::Duty::Supervise) // that is refused below
        view.from.error = tr("From today on: for days before, whoever supervised then gives it.");
    show(view);
    if (!duty || answers.model.isEmpty() || !from || !until || !view.until.error.isEmpty() ||
        !view.from.error.isEmpty() || !view.duty.error.isEmpty() ||
        isRefused(*duty == people::Duty::Supervise ? people::Grant::Supervision : people::Grant::Give))
        return;
    people::Authorisation one;
    one.id = people::AuthorisationId(m_ids.next());
    one.person = PersonId(view.chosen);
    one.duty = *duty;
    if (answers.model != QStringView(kEveryModel))
        one.models = std::vector<ModelId>{ModelId(answers.model)};
    one.from = *from;
    one.until = *until;
    one.givenBy = m_by;
    settle(m_people.give(one), tr("Given."));
}

void PeoplePresenter::keepGear(const PeopleAnswers& answers)
{
    PeopleView view = m_view;
    const auto made = people::monthFromIso(answers.made);
    const auto expires = people::monthFromIso(answers.expires);
    view.kind.error = answers.kind.isEmpty() ? tr("Choose one.") : QString();
    view.made.error = made || answers.made.isEmpty() ? QString() : tr("A month like 2025-04, or nothing.");
    view.expires.error =
        expires || answers.expires.isEmpty() ? QString() : tr("A month like 2030-04, or nothing.");
    const auto marking = people::gearMarkingFrom(answers.marking);
    view.marking.error = marking && people::contradicts(*marking, answers.kind)
                             ? tr("No such piece carries this marking: read it again.")
                             : QString();
    show(view);
    if (answers.kind.isEmpty() || !view.made.error.isEmpty() || !view.expires.error.isEmpty() ||
        !view.marking.error.isEmpty())
        return;
    people::GearItem item;
    item.id = GearId(m_ids.next());
    item.kind = answers.kind;
    item.marking = answers.marking.trimmed();
    item.identifier = answers.identifier.trimmed();
    item.made = made;
    item.expires = expires;
    item.assignedTo = PersonId(view.chosen);
    settle(m_gear.add(item), tr("Added."));
}

void PeoplePresenter::withdraw(const QString& authorisation)
{
    if (isRefused(people::Grant::Withdraw))
        return;
    settle(m_people.withdraw(people::AuthorisationId(authorisation), today(), m_by),
           tr("Withdrawn from today."));
}

void PeoplePresenter::withdrawGear(const QString& gear)
{
    settle(m_gear.inspect(GearId(gear), {today(), m_by, people::GearInspection::Outcome::Withdrawn}),
           tr("Withdrawn: it is no longer worn."));
}

void PeoplePresenter::retire()
{
    if (isRefused(people::Grant::Retire))
        return;
    settle(m_people.retire(PersonId(m_view.chosen), today(), m_clock.now()),
           tr("Retired, and the key with them. What they signed stays valid."));
    Q_EMIT peopleChanged();
}

void PeoplePresenter::retireKey()
{
    if (isRefused(people::Grant::Retire))
        return;
    settle(m_keys.retireKey(PersonId(m_view.chosen), m_clock.now()),
           tr("The key is out of use. What it signed stays valid. A new one can be made."));
}

void PeoplePresenter::settle(const Result<void>& outcome, const QString& done)
{
    PeopleView view = m_view;
    if (outcome) {
        view.form = PeopleForm::None;
        ++view.emptied;
        view.message = done;
    } else {
        view.message =
            outcome.error().kind == Error::Kind::Conflict
                ? tr("Somebody else was first: nothing was changed. Look again.")
                : notWritten(outcome.error(), tr("Nothing was changed; what stood there is kept."));
    }
    view.busy.clear();
    if (auto all = m_people.all())
        m_persons = std::move(*all);
    fill(view);
    show(view);
}

void PeoplePresenter::say(const QString& message)
{
    PeopleView view = m_view;
    view.busy.clear();
    view.message = message;
    show(view);
}

void PeoplePresenter::show(PeopleView view)
{
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
