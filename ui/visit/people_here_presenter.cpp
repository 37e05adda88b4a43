#include "ui/visit/people_here_presenter.h"

#include "core/machine/reach.h"
#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/people/secret_words.h"
#include "ui/visit/sign_off_presenter.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"

#include <algorithm>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Index;
using machine::kNone;
using Stand = KeyRing::Stand;

QString tr(const char* text)
{
    return PeopleHerePresenter::tr(text);
}

/// One group of breakers, by a lamphouse that it feeds; each group once.
QList<Index> lamphouseOfEachGroup(const visit::VisitState& state)
{
    QList<Index> lamphouses;
    machine::Mask seen = 0;
    for (Index lamphouse = 0; lamphouse < state.plant.lamphouses; ++lamphouse) {
        const Index group = state.plant.lamphouse[lamphouse].group;
        if (!machine::has(seen, group))
            lamphouses.append(lamphouse);
        seen = static_cast<machine::Mask>(seen | machine::maskOf(group));
    }
    return lamphouses;
}

/// "panel B, 14", or "the lock box of panel B, 14 and panel B, 15".
QString lockPlace(const visit::VisitState& state, Index group)
{
    QStringList points;
    for (Index point = 0; point < state.plant.points; ++point) {
        if (state.plant.point[point].group == group)
            points.append(pointName(state, point));
    }
    return points.size() == 1 ? points.first() : tr("the lock box of %1").arg(points.join(tr(" and ")));
}

bool hangsAt(const visit::VisitState& state, Index person, Index lamphouse)
{
    return machine::has(state.machine.group[state.plant.lamphouse[lamphouse].group].locks, person);
}

QList<Index> lockedAt(const visit::VisitState& state, Index person)
{
    QList<Index> lamphouses = lamphouseOfEachGroup(state);
    lamphouses.removeIf([&](Index lamphouse) { return !hangsAt(state, person, lamphouse); });
    return lamphouses;
}

QString ownLockText(const visit::VisitState& state, Index person)
{
    QStringList places;
    for (const Index lamphouse : lockedAt(state, person))
        places.append(lockPlace(state, state.plant.lamphouse[lamphouse].group));
    return places.isEmpty() ? tr("none hangs") : tr("hangs on %1").arg(places.join(u"; "_s));
}

/// Empty where this person holds none.
QString jobLockText(const visit::VisitState& state, Index person)
{
    QStringList points;
    for (Index point = 0; point < state.plant.points; ++point) {
        if (state.machine.point[point].jobLock == person)
            points.append(pointName(state, point));
    }
    return points.join(u"; "_s);
}

QString whereText(const visit::VisitState& state, Index person)
{
    const Index at = state.machine.person[person].at;
    if (!state.isHere(person))
        return tr("left");
    return at == kNone ? tr("outside every zone") : tr("in the zone of %1").arg(placeOf(state, at));
}

QString gearText(const visit::VisitState& state, Index person)
{
    const machine::PersonState& body = state.machine.person[person];
    switch (body.gear) {
    case machine::Gear::Off:
        return tr("off");
    case machine::Gear::Worn:
        return tr("on, to be looked over again before going in");
    case machine::Gear::Signed:
        return tr("on, for %1").arg(placeOf(state, body.gearFor));
    }
    Q_UNREACHABLE();
}

QString roleText(const visit::VisitState& state, Index person)
{
    const QString role = wordFor(state.people[person].role);
    if (person == state.lead)
        return tr("%1, leads this visit").arg(role);
    return machine::has(state.passedOn, person) ? tr("%1, passed the visit on").arg(role) : role;
}

QString dutyText(const visit::PersonFacts& facts)
{
    QStringList duties;
    if (facts.mayLead)
        duties.append(tr("may lead here"));
    else if (facts.mayAssist)
        duties.append(tr("may work here under an engineer"));
    if (facts.mayProve && !facts.mayLead)
        duties.append(tr("may prove the absence of voltage here"));
    if (facts.maySupervise)
        duties.append(tr("may supervise the removal of a lock"));
    if (duties.isEmpty() && facts.role == people::Role::Electrician)
        duties.append(tr("is not authorised to prove the absence of voltage here today"));
    else if (duties.isEmpty())
        duties.append(tr("is not authorised for the lamps of this visit today"));
    return u"%1; %2"_s.arg(wordFor(facts.role), duties.join(u", "_s));
}

QString shortCount(qsizetype missing)
{
    return missing == 1 ? tr("one signature missing") : tr("%1 signatures missing").arg(missing);
}

CaptureView textAsk(const QString& id, const QString& label, const QString& hint)
{
    CaptureView ask;
    ask.id = id;
    ask.kind = CaptureView::Kind::Text;
    ask.label = label;
    ask.hint = hint;
    return ask;
}

} // namespace

struct PeopleHerePresenter::Moment {
    visit::VisitState state;
    Index person = kNone; ///< who was chosen
    Index presser = kNone;

    [[nodiscard]] const visit::PersonFacts& facts() const { return state.people[person]; }
    [[nodiscard]] const QString& name() const { return facts().name; }
    [[nodiscard]] const visit::PersonFacts& lead() const { return state.people[state.lead]; }
};

PeopleHerePresenter::PeopleHerePresenter(VisitDesk& desk, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
{
    connect(&desk, &VisitDesk::changed, this, &PeopleHerePresenter::refresh);
}

void PeopleHerePresenter::setTools(PeopleTools tools)
{
    m_tools = std::move(tools);
    if (!m_tools.ring)
        return;
    connect(m_tools.ring, &KeyRing::changed, this, &PeopleHerePresenter::refresh);
    connect(m_tools.ring, &KeyRing::answered, this, &PeopleHerePresenter::answered);
}

// ---- The view ---------------------------------------------------------------------------------------------

void PeopleHerePresenter::open(const PersonId& person)
{
    const visit::VisitState& state = m_desk.logbook().state();
    m_chosen = person.isEmpty() ? state.people[state.lead].id : person;
    m_form = Form::None;
    m_said.clear();
    if (state.removalsToTell.contains(m_chosen))
        m_form = Form::Told; // what this page was opened for
    ++m_forms;
    refresh();
}

void PeopleHerePresenter::refresh()
{
    Moment moment{m_desk.seen()};
    moment.person = moment.state.person(m_chosen);
    moment.presser = moment.state.person(m_desk.presses());
    if (moment.person == kNone)
        return; // the page was never opened
    PeopleHereView view;
    view.people = rowsOf(moment);
    view.chosen = m_form == Form::Join ? QString() : m_chosen.text();
    view.emptied = m_emptied;
    view.said = m_said;
    if (m_form != Form::Join) {
        view.title = moment.name();
        view.sub = roleText(moment.state, moment.person);
        view.facts = factsOf(moment);
    }
    if (m_form == Form::None)
        view.deeds = deedsOf(moment);
    else
        wordForm(view, moment);
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

QList<RowView> PeopleHerePresenter::rowsOf(const Moment& moment) const
{
    const visit::VisitState& state = moment.state;
    QList<Index> order;
    for (Index person = 0; person < state.people.size(); ++person)
        order.append(person);
    const auto rank = [&](Index person) { return person == state.lead ? 0 : state.isHere(person) ? 1 : 2; };
    std::ranges::stable_sort(order, {}, rank);
    QList<RowView> rows;
    for (const Index person : std::as_const(order)) {
        const visit::PersonFacts& facts = state.people[person];
        QStringList lines{roleText(state, person)};
        if (state.isHere(person)) {
            const auto locks = lockedAt(state, person);
            lines.append(
                u"%1, %2"_s.arg(whereText(state, person), tr("gear %1").arg(gearText(state, person))));
            lines.append(locks.isEmpty() ? tr("no lock of theirs hangs")
                                         : tr("own lock %1").arg(ownLockText(state, person)));
        }
        if (const auto missing = missingOf(facts.id); !missing.isEmpty())
            lines.append(shortCount(missing.size()));
        rows.append({facts.id.text(), facts.name, lines.join(u'\n'),
                     state.isHere(person) ? (person == state.lead ? tr("leads") : QString()) : tr("left")});
    }
    return rows;
}

QStringList PeopleHerePresenter::missingOf(const PersonId& person) const
{
    QStringList missing;
    const QList<visit::Entry>& entries = m_desk.logbook().entries();
    for (const WantedSignature& one : m_desk.missing()) {
        if (one.person == person)
            missing.append(
                tr("%1: %2 (entry %3)")
                    .arg(wallText(entries[one.entry].at.wall, m_desk.zone()), meaningWords(one.meaning))
                    .arg(one.entry));
    }
    return missing;
}

QString PeopleHerePresenter::keyText(const PersonId& person) const
{
    if (!m_tools.ring)
        return tr("cannot be opened here");
    switch (m_tools.ring->standOf(person)) {
    case Stand::Shut:
        return tr("not opened here yet: the passphrase opens it");
    case Stand::Busy:
        return tr("one moment");
    case Stand::Open:
        return m_tools.ring->needsPin(person)
                   ? tr("open, without a PIN: once it locks, only the passphrase opens it")
                   : tr("open: what is asked of it is signed at once");
    case Stand::Locked:
        return tr("locked: the PIN opens it");
    case Stand::Ended:
        return tr("ended: only the passphrase opens it");
    }
    Q_UNREACHABLE();
}

QList<PeopleHereView::Fact> PeopleHerePresenter::factsOf(const Moment& moment) const
{
    const visit::VisitState& state = moment.state;
    QList<PeopleHereView::Fact> facts{{tr("Where"), whereText(state, moment.person)},
                                      {tr("Gear"), gearText(state, moment.person)},
                                      {tr("Own lock"), ownLockText(state, moment.person)}};
    if (const QString job = jobLockText(state, moment.person); !job.isEmpty())
        facts.append({tr("Job lock"), tr("hung by them on %1").arg(job)});
    facts.append({tr("Key"), keyText(m_chosen)});
    const QStringList missing = missingOf(m_chosen);
    facts.append({tr("Signatures"),
                  missing.isEmpty() ? tr("none is missing")
                                    : tr("%1:\n%2").arg(shortCount(missing.size()), missing.join(u'\n'))});
    return facts;
}

QList<PeopleHereView::Deed> PeopleHerePresenter::deedsOf(const Moment& moment) const
{
    const visit::VisitState& state = moment.state;
    if (!state.isOpen())
        return {};
    QList<PeopleHereView::Deed> deeds;
    if (moment.presser == kNone)
        return deeds; // whoever is not of this visit joins first
    const bool isHere = state.isHere(moment.person);
    const bool isLead = moment.person == state.lead;
    if (state.removalsToTell.contains(m_chosen) && isHere)
        deeds.append({u"told"_s, tr("Read how the lock was taken off"), tr("and say that you were told")});
    const bool canOpen = m_tools.ring && !m_tools.ring->isKeepers(m_chosen);
    const Stand stand = canOpen ? m_tools.ring->standOf(m_chosen) : Stand::Busy;
    if (stand == Stand::Shut || stand == Stand::Ended)
        deeds.append({u"passphrase"_s, tr("Open the key of %1").arg(moment.name()), tr("by passphrase")});
    if (stand == Stand::Locked)
        deeds.append({u"pin"_s, tr("Open the key of %1").arg(moment.name()), tr("by PIN")});
    if (canOpen && m_tools.ring->needsPin(m_chosen))
        deeds.append(
            {u"new-pin"_s, tr("Set a PIN for %1").arg(moment.name()), tr("for this run of the program")});
    if (isHere && !isLead && moment.facts().mayLead)
        deeds.append(
            {u"pass-on"_s, tr("%1 takes over").arg(moment.name()), tr("from %1").arg(moment.lead().name)});
    if (isHere && !isLead)
        deeds.append({u"leave"_s, tr("%1 goes home").arg(moment.name()), tr("nobody waits for them then")});
    if (!isHere)
        deeds.append({u"come-back"_s, tr("%1 is back").arg(moment.name()), tr("joins again")});
    if (moment.person != moment.presser && !lockedAt(state, moment.person).isEmpty())
        deeds.append({u"remove-lock"_s, tr("Take off the lock of %1").arg(moment.name()),
                      tr("whose owner is not on site")});
    return deeds;
}

void PeopleHerePresenter::wordForm(PeopleHereView& view, const Moment& moment) const
{
    view.action.stepKey = u"people/%1/%2"_s.arg(static_cast<int>(m_form)).arg(m_forms);
    view.action.stand = ActionView::Stand::Ready;
    switch (m_form) {
    case Form::Join:
        return wordJoin(view, moment);
    case Form::PassOn:
        return wordPassOn(view, moment);
    case Form::RemoveLock:
        return wordRemoveLock(view, moment);
    case Form::Told:
        return wordTold(view, moment);
    case Form::Leave:
        return wordLeave(view, moment);
    case Form::Passphrase:
    case Form::Pin:
    case Form::NewPin:
        return wordKey(view, moment);
    case Form::None:
        return;
    }
}

void PeopleHerePresenter::wordJoin(PeopleHereView& view, const Moment& moment) const
{
    view.begun = tr("Who came?");
    view.words = {tr("Whoever joins is judged by what this workspace knows of them today: what they are "
                     "authorised for, their gear, and whether a lock of theirs was taken off here.")};
    for (const visit::PersonFacts& one : m_everybody) {
        const Index known = moment.state.person(one.id);
        if (known == kNone || !moment.state.isHere(known))
            view.newcomers.append({one.id.text(), one.name, dutyText(one), {}});
    }
    view.newcomer = m_newcomer.text();
    view.noNewcomers = tr("Nobody else is in this workspace. Whoever is new is added on the page People.");
    const auto chosen = std::ranges::find(m_everybody, m_newcomer, &visit::PersonFacts::id);
    if (chosen != m_everybody.end())
        view.action.text = tr("%1 joins").arg(chosen->name);
    if (chosen == m_everybody.end())
        view.action.stand = ActionView::Stand::Waits;
    view.action.waits = view.newcomers.isEmpty() ? tr("Nobody else can join") : tr("Waits for a name");
}

void PeopleHerePresenter::wordPassOn(PeopleHereView& view, const Moment& moment) const
{
    const QString& to = moment.name();
    const QString& from = moment.lead().name;
    view.begun = tr("%1 takes over from %2").arg(to, from);
    view.words = {
        tr("First: every zone empty, every lamphouse shut, no lamp loose, and the lock of %1 hangs "
           "wherever that of %2 does.")
            .arg(to, from),
        tr("Then %1 leads. What is cold stays cold. Start and voltage are proved anew by %1, and "
           "gear is gone through anew.")
            .arg(to),
        tr("The lock of %1 comes off by their own hand. Nobody waits for them at a stop.").arg(from)};
    view.action.text = tr("%1: I take over").arg(to);
}

void PeopleHerePresenter::wordRemoveLock(PeopleHereView& view, const Moment& moment) const
{
    const visit::VisitState& state = moment.state;
    const QString& owner = moment.name();
    const QList<Index> places = lockedAt(state, moment.person);
    view.begun = tr("Take off the lock of %1, who is not on site").arg(owner);
    if (places.size() > 1) {
        CaptureView place;
        place.id = u"place"_s;
        place.label = tr("Which lock");
        for (const Index lamphouse : places)
            place.options.append({state.ground->lamphouses[lamphouse].text(),
                                  lockPlace(state, state.plant.lamphouse[lamphouse].group),
                                  {}});
        view.asks.append(place);
    }
    CaptureView supervisor;
    supervisor.id = u"supervisor"_s;
    supervisor.label = tr("Who supervises");
    for (Index person = 0; person < state.people.size(); ++person) {
        const bool isOther = person != moment.person && person != moment.presser;
        if (isOther && state.isHere(person) && state.people[person].maySupervise)
            supervisor.options.append({state.people[person].id.text(), state.people[person].name, {}});
    }
    view.asks.append(supervisor);
    view.asks.append(textAsk(u"absence"_s, tr("How it was made sure that %1 is not on site").arg(owner),
                             tr("where you looked, whom you asked")));
    view.asks.append(textAsk(u"attempts"_s, tr("How it was tried to reach %1").arg(owner),
                             tr("when, by what, with what answer")));
    const QString writer =
        moment.presser == kNone ? tr("whoever presses") : state.people[moment.presser].name;
    view.words = {
        tr("The lock that keeps %1 safe comes off without them. If %1 is in there after all, it can "
           "kill them.")
            .arg(owner),
        tr("%1 takes it off at the breaker and writes it here; the supervisor stands by. Both sign.")
            .arg(writer),
        tr("Until %1 says that they were told, nothing that they ask here is done. The review looks "
           "at this first.")
            .arg(owner)};
    view.action.text = tr("The lock of %1 comes off").arg(owner);
    const bool isInside = machine::isSomebodyInside(state.machine);
    if (isInside || supervisor.options.isEmpty())
        view.action.stand = ActionView::Stand::Waits;
    view.action.waits = isInside ? tr("Waits: nothing is typed while somebody is inside")
                                 : tr("Waits for a supervisor: they join first");
}

void PeopleHerePresenter::wordTold(PeopleHereView& view, const Moment& moment) const
{
    view.begun = tr("%1, your lock was taken off while you were away").arg(moment.name());
    const QList<visit::Entry>& entries = m_desk.logbook().entries();
    const auto mine = std::find_if(entries.crbegin(), entries.crend(), [&](const visit::Entry& entry) {
        const auto* removed = std::get_if<visit::LockRemoved>(&entry.body);
        return removed && removed->owner == m_chosen;
    });
    if (mine == entries.crend()) {
        view.words = {tr("It was at an earlier visit to this site; its logbook says by whom, when and why.")};
    } else {
        const auto& removed = std::get<visit::LockRemoved>(mine->body);
        const auto nameOf = [&](const PersonId& id) {
            const Index person = moment.state.person(id);
            return person == kNone ? id.text() : moment.state.people[person].name;
        };
        view.words = {tr("%1: %2 took it off at %3, supervised by %4.")
                          .arg(wallText(mine->at.wall, m_desk.zone()), nameOf(mine->by),
                               placeOf(moment.state, moment.state.ground->lamphouse(removed.lamphouse)),
                               nameOf(removed.supervisor)),
                      tr("How they made sure that you were not on site: %1").arg(removed.absence),
                      tr("How they tried to reach you: %1").arg(removed.attempts)};
    }
    view.words.append(tr("You have no lock there any more. Hang your own again before you go in."));
    view.action.text = tr("%1: I was told").arg(moment.name());
}

void PeopleHerePresenter::wordLeave(PeopleHereView& view, const Moment& moment) const
{
    view.begun = tr("%1 goes home").arg(moment.name());
    view.words = {
        tr("First: out of every zone, gear off, and no lock of theirs hangs on a breaker or lock box."),
        tr("Then no stop and no second press waits for them any more, and they do nothing here. "
           "Whoever comes back joins again.")};
    if (const auto missing = missingOf(m_chosen); !missing.isEmpty())
        view.words.append(tr("Still to be signed by their key: %1. Open it before they go.")
                              .arg(shortCount(missing.size())));
    view.action.text = tr("%1 has left").arg(moment.name());
}

void PeopleHerePresenter::wordKey(PeopleHereView& view, const Moment& moment) const
{
    const bool isNewPin = m_form == Form::NewPin;
    view.asksSecret = true;
    view.asksTwice = isNewPin;
    view.secret.error = m_secretError;
    view.again = {tr("The same again"), {}, {}, {}, m_againError};
    switch (m_form) {
    case Form::Passphrase:
        view.begun = tr("Open the key of %1").arg(moment.name());
        view.words = {tr("%1 gives the passphrase. Every signature that is asked of this key is made then.")
                          .arg(moment.name())};
        view.secret.label = tr("Passphrase of %1").arg(moment.name());
        view.action.text = tr("Open the key");
        break;
    case Form::Pin:
        view.begun = tr("Open the key of %1").arg(moment.name());
        view.words = {tr("Every signature that is asked of this key is made then.")};
        view.secret.label = tr("PIN of %1").arg(moment.name());
        view.action.text = tr("Open the key");
        break;
    default:
        view.begun = tr("A PIN for %1").arg(moment.name());
        view.words = {pinRule()};
        view.secret.label = tr("New PIN");
        view.action.text = tr("Set the PIN");
        break;
    }
    if (m_tools.ring->standOf(m_chosen) == Stand::Busy) {
        view.busy = m_form == Form::Passphrase
                        ? tr("Opening the key. This takes a second or two, on purpose.")
                        : tr("Trying the PIN.");
        view.action.waits = tr("One moment");
        view.action.stand = ActionView::Stand::Waits;
    }
    if (machine::isSomebodyInside(moment.state.machine)) {
        view.action.waits = tr("Waits: no secret is asked while somebody is inside");
        view.action.stand = ActionView::Stand::Waits;
    }
}

// ---- Presses ----------------------------------------------------------------------------------------------

void PeopleHerePresenter::choose(const QString& person)
{
    m_chosen = PersonId(person);
    finishForm();
}

void PeopleHerePresenter::beginForm(Form form)
{
    m_form = form;
    ++m_forms;
    ++m_emptied;
    m_said.clear();
    m_secretError.clear();
    m_againError.clear();
    refresh();
}

void PeopleHerePresenter::finishForm()
{
    beginForm(Form::None);
}

void PeopleHerePresenter::begin(const QString& deed)
{
    static const QHash<QString, Form> kForms{
        {u"told"_s, Form::Told},
        {u"passphrase"_s, Form::Passphrase},
        {u"pin"_s, Form::Pin},
        {u"new-pin"_s, Form::NewPin},
        {u"pass-on"_s, Form::PassOn},
        {u"leave"_s, Form::Leave},
        {u"remove-lock"_s, Form::RemoveLock},
    };
    if (deed == u"come-back") {
        const PersonId who = m_chosen;
        beginJoining();
        return chooseNewcomer(who.text());
    }
    if (kForms.contains(deed))
        beginForm(kForms.value(deed));
}

void PeopleHerePresenter::beginJoining()
{
    m_everybody = m_tools.everybody ? m_tools.everybody() : QList<visit::PersonFacts>();
    m_newcomer = {};
    beginForm(Form::Join);
}

void PeopleHerePresenter::chooseNewcomer(const QString& person)
{
    m_newcomer = PersonId(person);
    m_said.clear();
    refresh();
}

PersonId PeopleHerePresenter::leaveIsSaidBy(const Moment& moment) const
{
    return moment.presser == moment.state.lead ? m_desk.presses() : m_chosen;
}

void PeopleHerePresenter::done(const QList<CaptureAnswer>& answers, const people::TypedSecret& secret,
                               const people::TypedSecret& again)
{
    Moment moment{m_desk.seen()};
    moment.person = moment.state.person(m_chosen);
    moment.presser = moment.state.person(m_desk.presses());
    if (m_view.action.stand != ActionView::Stand::Ready)
        return;
    switch (m_form) {
    case Form::None:
        return;
    case Form::Join: {
        const auto who = std::ranges::find(m_everybody, m_newcomer, &visit::PersonFacts::id);
        if (who == m_everybody.end())
            return;
        const VisitDesk::Told told = m_desk.tell(visit::Joined{*who});
        if (told.isKept())
            m_chosen = who->id;
        return settle(told);
    }
    case Form::PassOn: {
        const VisitDesk::Told told = m_desk.tell(m_chosen, visit::PassedOn{moment.lead().id, m_chosen});
        if (told.isKept())
            m_desk.setPresses(m_chosen);
        return settle(told);
    }
    case Form::RemoveLock: {
        const QJsonObject said = answersOf(answers);
        const QList<Index> places = lockedAt(moment.state, moment.person);
        visit::LockRemoved removed;
        removed.owner = m_chosen;
        removed.lamphouse = places.size() == 1 ? moment.state.ground->lamphouses[places.first()]
                                               : LamphouseId(said.value(u"place"_s).toString());
        removed.supervisor = PersonId(said.value(u"supervisor"_s).toString());
        removed.absence = said.value(u"absence"_s).toString();
        removed.attempts = said.value(u"attempts"_s).toString();
        return settle(m_desk.tell(removed));
    }
    case Form::Told:
        return settle(m_desk.tell(m_chosen, visit::RemovalTold{}));
    case Form::Leave:
        return settle(m_desk.tell(leaveIsSaidBy(moment), visit::Left{m_chosen}));
    case Form::Passphrase:
    case Form::Pin:
    case Form::NewPin:
        return tellKey(secret, again);
    }
}

void PeopleHerePresenter::settle(const VisitDesk::Told& told)
{
    if (told.isKept())
        return finishForm();
    m_said = told.no;
    refresh();
}

void PeopleHerePresenter::tellKey(const people::TypedSecret& secret, const people::TypedSecret& again)
{
    m_said.clear();
    m_secretError.clear();
    m_againError.clear();
    if (m_form == Form::Passphrase)
        return m_tools.ring->open(m_chosen, secret);
    if (m_form == Form::Pin)
        return m_tools.ring->unlock(m_chosen, secret);
    auto pin = people::Pin::accept(secret);
    if (!pin)
        m_secretError = wordsFor(pin.error());
    else if (secret != again)
        m_againError = tr("The two differ.");
    else
        return m_tools.ring->setPin(m_chosen, std::move(*pin));
    refresh();
}

void PeopleHerePresenter::answered(const PersonId& person, const KeyRing::Answer& answer)
{
    using Kind = KeyRing::Answer::Kind;
    const bool isAsked = m_form == Form::Passphrase || m_form == Form::Pin || m_form == Form::NewPin;
    if (person != m_chosen || !isAsked)
        return; // somebody else is in sight by now
    if (answer.kind == Kind::Opened)
        return beginForm(m_tools.ring->needsPin(person) ? Form::NewPin : Form::None);
    if (answer.kind == Kind::PinSet)
        return finishForm();
    if (answer.kind == Kind::Ended)
        beginForm(Form::Passphrase);
    ++m_emptied;
    switch (answer.kind) {
    case Kind::WrongPassphrase:
        m_said = {tr("That is not the passphrase.")};
        [[fallthrough]];
    case Kind::MustWait:
        if (const QString wait = waitWords(answer.next); !wait.isEmpty())
            m_said.append(wait);
        break;
    case Kind::ShutForGood:
        m_said = {tr("Wrong too often: this key stays shut for good. It is retired on the page People, and a "
                     "new one enrolled.")};
        break;
    case Kind::NoKey:
        m_said = {tr("No key is enrolled. It is enrolled on the page People.")};
        break;
    case Kind::WrongPin:
        m_said = {answer.pinsLeft == 1
                      ? tr("That is not the PIN. One more try, then only the passphrase helps.")
                      : tr("That is not the PIN. %1 more tries.").arg(answer.pinsLeft)};
        break;
    case Kind::Ended:
        m_said = {tr("Ten wrong PINs: only the passphrase opens this key again.")};
        break;
    case Kind::NotTried:
        m_said = {tr("It could not be tried, and nothing was counted. Close other programs and try again.")};
        break;
    case Kind::Opened:
    case Kind::PinSet:
        break;
    }
    refresh();
}

void PeopleHerePresenter::leave()
{
    if (m_form == Form::None)
        return Q_EMIT left();
    finishForm();
}

} // namespace coldarc::ui
