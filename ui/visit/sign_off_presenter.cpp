#include "ui/visit/sign_off_presenter.h"

#include "core/lamps/custody.h"
#include "core/visit/next_step.h"
#include "ui/parts/quantities.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Index;
using machine::kNone;

constexpr qsizetype kShownOfHash = 12;

bool hasSigned(const visit::VisitState& state, const PersonId& person, const QString& meaning)
{
    return std::any_of(state.signatures.begin(), state.signatures.end(), [&](const visit::SignedBy& one) {
        return one.person == person && one.meaning == meaning;
    });
}

/// Lamps that came out, burst, or were brought and not fitted, and of which nobody said yet where they go.
QList<Index> withoutPlace(const visit::VisitState& state)
{
    QList<Index> lamps;
    for (Index lamp = 0; lamp < state.plant.lamps && !visit::isCustodyDecided(state); ++lamp) {
        const machine::Place place = state.machine.lamp[lamp].place;
        const bool wasBrought = lamp >= state.plant.lamphouses; // the fitted ones come first
        const bool isAside = place == machine::Place::Boxed || place == machine::Place::Burst ||
                             (place == machine::Place::SealedBox && wasBrought);
        if (isAside && !state.custody.contains(state.ground->lamps[lamp].id))
            lamps.append(lamp);
    }
    return lamps;
}

lamps::Custody custodyNow(machine::Place place)
{
    switch (place) {
    case machine::Place::Burst:
        return lamps::Custody::Burst;
    case machine::Place::SealedBox:
        return lamps::Custody::InVan;
    default:
        return lamps::Custody::Boxed;
    }
}

/// Where a lamp can go from where it is. One that was brought stays in the van, too.
QList<CaptureView::Option> placesFor(const visit::VisitState& state, Index lamp)
{
    using lamps::Custody;
    const machine::Place place = state.machine.lamp[lamp].place;
    const bool wasBrought = lamp >= state.plant.lamphouses;
    static constexpr std::array kWays{Custody::Unused, Custody::Returned, Custody::Recycled,
                                      Custody::KeptBySite, Custody::InVan};
    QList<CaptureView::Option> options;
    for (const Custody way : kWays) {
        const bool isOffered = way == Custody::Unused  ? place == machine::Place::SealedBox
                               : way == Custody::InVan ? wasBrought
                                                       : true;
        if (isOffered && lamps::canMove(custodyNow(place), way))
            options.append({lamps::wordOf(way), custodyWords(lamps::wordOf(way)), {}});
    }
    return options;
}

/// As the site says it of its contact; empty for anybody else.
QString roleOf(const visit::VisitState& state, const QString& name)
{
    for (const site::Contact& contact : state.ground->opening.site.site.contacts) {
        if (contact.name.compare(name.trimmed(), Qt::CaseInsensitive) == 0)
            return contact.role;
    }
    return {};
}

/// What the store has of signatures, for the rules of a review. When each was made is not known here: they
/// stand as made with their entries.
QList<review::HeadSigned> headsSigned(const VisitDesk& desk)
{
    const QList<visit::Entry>& entries = desk.logbook().entries();
    QList<review::HeadSigned> signatures;
    for (const WantedSignature& one : desk.kept()) {
        const WallTime at = one.entry < entries.size() ? entries[one.entry].at.wall : WallTime();
        signatures.append({one.entry, one.person, one.meaning, at, !desk.broken().contains(one)});
    }
    return signatures;
}

/// "A. Okoro: 3 signatures", in the order of the first that each is missing.
QStringList missingByPerson(const visit::VisitState& state, const QList<WantedSignature>& missing)
{
    QList<PersonId> people;
    for (const WantedSignature& one : missing) {
        if (!people.contains(one.person))
            people.append(one.person);
    }
    QStringList lines;
    for (const PersonId& id : people) {
        const Index person = state.person(id);
        const auto count = std::count_if(missing.begin(), missing.end(),
                                         [&](const WantedSignature& one) { return one.person == id; });
        const QString name = person == kNone ? id.text() : state.people[person].name;
        lines.append(count == 1
                         ? QCoreApplication::translate("meaning", "%1: one signature").arg(name)
                         : QCoreApplication::translate("meaning", "%1: %2 signatures").arg(name).arg(count));
    }
    return lines;
}

} // namespace

QString meaningWords(const QString& meaning)
{
    struct Row {
        const char16_t* meaning;
        const char* words;
    };
    static constexpr std::array<Row, 12> kRows{{
        {u"performed", "did and led the work"},
        {u"took-part", "took part in the work"},
        {u"verified", "looked again and found it so"},
        {u"countersigned", "saw it done and agreed"},
        {u"witnessed", "was told what was done, for the site"},
        {u"reviewed", "reviewed the visit"},
        {u"released", "gave the machine free again"},
        {u"removed-lock", "took off the lock of somebody absent"},
        {u"signed-in", "signed in"},
        {u"stop", "answered a stop"},
        {u"incident", "wrote down what went wrong"},
        {u"addendum", "added a remark"},
    }};
    for (const Row& row : kRows) {
        if (meaning == QStringView(row.meaning))
            return QCoreApplication::translate("meaning", row.words);
    }
    return meaning;
}

SignOffPresenter::SignOffPresenter(VisitDesk& desk, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
{
    connect(&desk, &VisitDesk::changed, this, &SignOffPresenter::refresh);
}

void SignOffPresenter::open()
{
    m_said.clear();
    m_isContactAbsent = false;
    m_isRoleMissing = false;
    m_absent.clear();
    refresh();
}

Index SignOffPresenter::nextToSign(const visit::VisitState& state) const
{
    for (Index person = 0; person < state.plant.people; ++person) {
        const visit::PersonFacts& facts = state.people[person];
        const bool tookPart = facts.worksOnLamps() || facts.mayProve;
        const bool isHere = state.isHere(person) && tookPart && !m_absent.contains(facts.id);
        if (person != state.lead && isHere && !hasSigned(state, facts.id, u"took-part"_s))
            return person;
    }
    return kNone;
}

SignOffPresenter::Stage SignOffPresenter::stage(const visit::VisitState& state) const
{
    if (!state.isOpen())
        return Stage::Closed;
    if (!withoutPlace(state).isEmpty())
        return Stage::Custody;
    if (!hasSigned(state, state.people[state.lead].id, u"performed"_s))
        return Stage::Lead;
    if (nextToSign(state) != kNone)
        return Stage::TookPart;
    const bool hasContact = std::any_of(state.signatures.begin(), state.signatures.end(),
                                        [](const visit::SignedBy& one) { return one.person.isEmpty(); });
    return hasContact || m_isContactAbsent ? Stage::Close : Stage::Contact;
}

void SignOffPresenter::wordStage(SignOffView& view, const visit::VisitState& state) const
{
    view.action.stand = ActionView::Stand::Ready;
    view.action.stepKey = u"sign-off/%1/%2"_s.arg(static_cast<int>(stage(state))).arg(state.entries);
    switch (stage(state)) {
    case Stage::Custody:
        for (const Index lamp : withoutPlace(state)) {
            CaptureView where;
            where.id = state.ground->lamps[lamp].id.text();
            where.label = lampName(state, lamp);
            where.options = placesFor(state, lamp);
            view.asks.append(where);
        }
        view.action.text = tr("That is where they go");
        break;
    case Stage::Lead:
        view.action.text = tr("%1 signs").arg(state.people[state.lead].name);
        break;
    case Stage::TookPart:
        view.action.text = tr("%1 signs").arg(state.people[nextToSign(state)].name);
        view.without = tr("%1 is not here").arg(state.people[nextToSign(state)].name);
        break;
    case Stage::Contact: {
        CaptureView name;
        name.id = u"name"_s;
        name.kind = CaptureView::Kind::Text;
        name.label = tr("Who signs for the site");
        CaptureView role = name;
        role.id = u"role"_s;
        role.label = tr("Role there");
        role.isOptional = !state.ground->opening.site.site.contacts.empty();
        role.hint = role.isOptional ? tr("known for a contact of this site") : QString();
        role.error = m_isRoleMissing ? tr("Needed: they are none of this site's contacts.") : QString();
        view.asks = {name, role};
        view.action.text = tr("The site signs");
        view.without = tr("Nobody of the site is here");
        break;
    }
    case Stage::Close:
        view.action.text = tr("Close the visit");
        break;
    case Stage::Closed:
        view.action.stand = ActionView::Stand::Waits;
        view.action.waits = tr("The visit is closed");
        break;
    }
    // What stands here is said by people of this visit, in their names.
    if (stage(state) != Stage::Closed && state.person(m_desk.presses()) == kNone) {
        view.asks.clear();
        view.without.clear();
        view.action.stand = ActionView::Stand::Waits;
        view.action.waits = tr("Join first, or be let in: F10");
    }
}

void SignOffPresenter::refresh()
{
    const visit::VisitState state = m_desk.seen();
    SignOffView view;
    view.site = state.ground->opening.site.site.name;
    const QList<WantedSignature> missing = m_desk.missing();
    const auto isMissing = [&](qint64 entry) {
        return std::any_of(missing.begin(), missing.end(),
                           [&](const WantedSignature& one) { return one.entry == entry; });
    };
    for (const visit::SignedBy& one : state.signatures) {
        const bool isOurs = !one.person.isEmpty();
        view.lines.append({one.name, one.role, meaningWords(one.meaning),
                           wallTextWithOffset(one.at.wall, m_desk.zone()), isOurs && isMissing(one.entry)});
    }
    view.summary = summaryForSigning(state, m_desk.logbook().entries(), headsSigned(m_desk),
                                     m_desk.clock().now(), m_desk.zone());
    view.missing = missingByPerson(state, missing);
    view.head = m_desk.logbook().head().hex().left(kShownOfHash);
    view.said = m_said;
    wordStage(view, state);
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

void SignOffPresenter::decideCustody(const QJsonObject& said)
{
    for (const Index lamp : withoutPlace(m_desk.seen())) {
        const LampId id = m_desk.logbook().state().ground->lamps[lamp].id;
        const QString where = said.value(id.text()).toString();
        const VisitDesk::Told told = where.isEmpty()
                                         ? VisitDesk::Told{{tr("Say of each lamp where it goes.")}, {}, {}}
                                         : m_desk.tell(visit::CustodyDecided{id, where});
        m_said = told.no;
        if (!told.isKept())
            return;
    }
}

/// The procedure's own last step, at each swap that has come so far.
bool SignOffPresenter::finishSteps(const visit::VisitState& state)
{
    for (const visit::SwapState& swap : state.swaps) {
        const visit::NextStep next = visit::nextStep(state, swap, state.lead);
        if (state.isMakingSafe || !next.step || next.step->effect != machine::Effect::Sign)
            continue;
        visit::Did did;
        did.swap = swap.id;
        did.step = next.step->id;
        const VisitDesk::Told told = m_desk.tell(state.people[state.lead].id, did);
        m_said = told.no;
        if (!told.isKept())
            return false;
    }
    return true;
}

void SignOffPresenter::done(const QList<CaptureAnswer>& answers)
{
    const visit::VisitState state = m_desk.seen();
    const QJsonObject said = answersOf(answers);
    const PersonId lead = state.people[state.lead].id;
    if (m_view.action.stand != ActionView::Stand::Ready)
        return;
    m_said.clear();
    switch (stage(state)) {
    case Stage::Custody:
        decideCustody(said);
        break;
    case Stage::Lead:
        if (finishSteps(state))
            m_said = m_desk.tell(lead, visit::Signed{u"performed"_s}).no;
        break;
    case Stage::TookPart:
        m_said = m_desk.tell(state.people[nextToSign(state)].id, visit::Signed{u"took-part"_s}).no;
        break;
    case Stage::Contact: {
        const QString name = said.value(u"name"_s).toString();
        const QString role = said.value(u"role"_s).toString(roleOf(state, name));
        m_isRoleMissing = role.isEmpty() && !name.isEmpty();
        if (!m_isRoleMissing)
            m_said = m_desk.tell(lead, visit::SiteSigned{name, role, {}}).no;
        break;
    }
    case Stage::Close: {
        const VisitDesk::Told told = m_desk.tell(lead, visit::Closed{});
        m_said = told.no;
        if (told.isKept())
            Q_EMIT closed();
        break;
    }
    case Stage::Closed:
        break;
    }
    refresh();
}

void SignOffPresenter::goOnWithout()
{
    const visit::VisitState state = m_desk.seen();
    if (stage(state) == Stage::TookPart)
        m_absent.append(state.people[nextToSign(state)].id);
    else if (stage(state) == Stage::Contact)
        m_isContactAbsent = true;
    refresh();
}

} // namespace coldarc::ui
