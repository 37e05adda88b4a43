#include "app/demo_driver.h"

#include "app/demo_sheet.h"
#include "core/base/words.h"
#include "core/machine/make_safe.h"
#include "core/review/summary.h"
#include "core/site/site.h"
#include "core/visit/entry_words.h"
#include "core/visit/evolve.h"
#include "core/visit/sheet_of_visit.h"

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::app {
namespace {

using machine::Effect;
using machine::Index;
using machine::kNone;
using visit::SwapState;
using visit::VisitState;

/// More steps than any procedure has. A visit that needs more goes in circles.
constexpr int kMostSteps = 400;
constexpr int kMostReadings = 150;    // of one step
constexpr double kMeterNoise = 0.006; // relative, of one reading

QString textOf(Effect effect)
{
    return wordText(machine::wordOf(effect));
}

QString textOf(people::Meaning meaning)
{
    return wordText(people::wordOf(meaning));
}

/// Reasons by their numbers, for the log.
QString reasonsOf(const visit::Refusal& refusal)
{
    QStringList reasons;
    for (const visit::Why& why : refusal.whys) {
        reasons.append(u"%1/%2 %3%4"_s.arg(static_cast<int>(why.kind))
                           .arg(static_cast<int>(why.demand))
                           .arg(why.step.text(), why.capture));
    }
    return reasons.join(u", "_s);
}

/// What was asked, for the log.
QString askedOf(const visit::Body& asked)
{
    if (const auto* did = std::get_if<visit::Did>(&asked))
        return did->step.text();
    if (const auto* acted = std::get_if<visit::Acted>(&asked))
        return textOf(acted->act.effect);
    return visit::kindOf(asked);
}

QString whole(double value)
{
    return QString::number(value, 'f', 0);
}

/// The light that the old lamp gives is read on arrival.
bool isArrivalLight(const procedure::Step& step)
{
    return step.effect == Effect::Look &&
           std::ranges::any_of(step.captures, [](const procedure::Capture& one) {
               return one.kind == procedure::CaptureKind::Reading && one.choices.isEmpty();
           });
}

/// Which refusals mean that somebody else should press.
bool isForOthers(const visit::Refusal& refusal)
{
    return refusal.has(visit::Why::Kind::NotOthers) || refusal.has(visit::Why::Kind::NotAuthorised) ||
           refusal.has(visit::Why::Kind::NeedsCountersign) || refusal.has(visit::Why::Kind::NeedsSupervision);
}

} // namespace

Result<bool> isReadingDue(const visit::LightOfSwap& light, const procedure::Step& step,
                          const catalogue::ProjectorModel& model, int readings)
{
    if (visit::isThrough(light, step, model))
        return false;
    if (light.state.phase == alignment::Phase::Stuck)
        return fail(Error::Kind::Refused, u"%1: a knob shows no peak"_s.arg(step.id.text()));
    if (readings >= kMostReadings)
        return fail(Error::Kind::Refused, u"%1: %2 readings and no end"_s.arg(step.id.text()).arg(readings));
    return true;
}

DemoDriver::DemoDriver(const DemoHands& hands, visit::Logbook logbook, const QList<DemoTwist>& twists,
                       const QHash<LamphouseId, DemoFigures>& figures)
    : m_hands(hands)
    , m_logbook(std::move(logbook))
    , m_twists(twists)
    , m_figures(figures)
    , m_tools(static_cast<int>(14 + hands.chance.below(9)))
    , m_fasteners(static_cast<int>(3 + hands.chance.below(6)))
    , m_lock(static_cast<int>(11 + hands.chance.below(88)))
    , m_luminance(hands.chance.between(33, 44))
{
}

Result<DemoDriver> DemoDriver::open(const DemoHands& hands, const visit::Opening& opening,
                                    const QList<DemoTwist>& twists,
                                    const QHash<LamphouseId, DemoFigures>& figures)
{
    if (opening.people.isEmpty())
        return fail(Error::Kind::Refused, u"nobody leads"_s);
    auto logbook = visit::Logbook::begin(hands.journal, hands.summaries, opening.people.first().id, opening,
                                         hands.clock.now(), review::summaryOf);
    if (!logbook)
        return tl::unexpected(logbook.error());
    DemoDriver driver(hands, std::move(*logbook), twists, figures);
    if (auto done = driver.signFor(driver.m_logbook.entries().first(), 0); !done)
        return tl::unexpected(done.error());
    return driver;
}

PersonId DemoDriver::lead() const
{
    return state().people[state().lead].id;
}

const DemoTwist* DemoDriver::twist(DemoTwist::Kind kind) const
{
    const auto found = std::ranges::find(m_twists, kind, &DemoTwist::kind);
    return found == m_twists.end() ? nullptr : &*found;
}

bool DemoDriver::isBefore(const DemoTwist* twist, const procedure::Step& step) const
{
    return twist && (twist->before == step.id.text() || twist->before == textOf(step.effect));
}

// ---- To the logbook, and signed ---------------------------------------------------------------------------

Result<void> DemoDriver::tell(const PersonId& by, const visit::Body& asked)
{
    const auto answer = m_logbook.tell(by, asked, m_hands.clock.now());
    if (!answer)
        return tl::unexpected(answer.error());
    if (const auto* refusal = std::get_if<visit::Refusal>(&*answer)) {
        return fail(Error::Kind::Refused,
                    u"visit %1, %2 by %3: %4"_s.arg(m_logbook.visit().text(), askedOf(asked), by.text(),
                                                    reasonsOf(*refusal)));
    }
    return signFor(std::get<visit::Entry>(*answer), m_logbook.entries().size() - 1);
}

Result<void> DemoDriver::sign(qint64 entry, const PersonId& person, people::Meaning meaning)
{
    const auto key = m_hands.keys.find(person);
    if (key == m_hands.keys.end())
        return fail(Error::Kind::NotFound, u"key of "_s + person.text());
    const WallTime at = m_hands.clock.now().wall;
    const auto message = people::signedMessage(
        {m_logbook.visit(), entry, m_logbook.head(), meaning, at, person}, key->second.publicKey());
    if (!message)
        return tl::unexpected(message.error());
    return m_hands.journal.keep({m_logbook.visit(), store::Sequence(entry), m_logbook.head(), person,
                                 key->second.publicKey().bytes(), key->second.sign(*message).bytes(),
                                 textOf(meaning), at});
}

/// At sign-in, at each stop, at each incident, where somebody signs, and on closing.
Result<void> DemoDriver::signFor(const visit::Entry& entry, qint64 number)
{
    std::optional<people::Meaning> meaning;
    if (std::holds_alternative<visit::Opening>(entry.body))
        meaning = people::Meaning::SignedIn;
    else if (std::holds_alternative<visit::Closed>(entry.body))
        meaning = people::Meaning::Performed;
    else if (const auto* signature = std::get_if<visit::Signed>(&entry.body))
        meaning = people::meaningFromWord(signature->meaning.toStdString());
    else if (const auto* did = std::get_if<visit::Did>(&entry.body)) {
        const SwapState* swap = state().swap(did->swap);
        const procedure::Step* step = swap ? swap->procedure->step(did->step) : nullptr;
        if (step && step->stop)
            meaning = people::Meaning::Stop;
    }
    if (meaning) {
        if (auto kept = sign(number, entry.by, *meaning); !kept)
            return kept;
    }
    const bool isIncident = std::ranges::any_of(
        state().incidents, [&](const visit::IncidentState& one) { return one.entry == number; });
    return isIncident ? sign(number, entry.by, people::Meaning::Incident) : Result<void>();
}

// ---- The step whose turn it is ----------------------------------------------------------------------------

DemoDriver::Before DemoDriver::before(qsizetype index) const
{
    const VisitState seen = visit::seenAt(state(), m_hands.clock.now());
    const visit::NextStep next = visit::nextStep(seen, seen.swaps[index], seen.lead);
    if (!next.step)
        return {true, false, 0ms};
    const visit::WaitClock* clock = visit::waitBehind(seen, next.act, next.unmet);
    // Signing asks that every lamp of the visit is accounted for.
    const bool isHeldUp = !clock && next.step->effect == Effect::Sign && next.unmet.any();
    return {false, isHeldUp, clock ? clock->left() : 0ms};
}

qsizetype DemoDriver::swapThatCanGoOn() const
{
    const bool isAtIt = state().machine.person[state().lead].gear != machine::Gear::Off;
    if (isAtIt || before(m_current) == Before())
        return m_current;
    qsizetype best = m_current;
    for (qsizetype index = 0; index < state().swaps.size(); ++index) {
        if (before(index) < before(best))
            best = index;
    }
    return best;
}

Result<DemoDriver::Went> DemoDriver::step()
{
    m_current = swapThatCanGoOn();
    const Before ahead = before(m_current);
    if (ahead.isOver)
        return Went::Nothing;
    const SwapState swap = state().swaps[m_current];
    const procedure::Step step = *visit::nextStep(state(), swap, state().lead).step;
    const DemoTwist* leave = twist(DemoTwist::Kind::Leave);
    if (isBefore(leave, step)) {
        if (auto noted = tell(lead(), visit::Noted{swap.id, leave->text}); !noted)
            return tl::unexpected(noted.error());
        return Went::Stopped;
    }
    m_hands.clock.advance(ahead.wait);
    const DemoTwist* safe = twist(DemoTwist::Kind::MakeSafe);
    if (isBefore(safe, step)) {
        if (auto made = makeSafe(*safe, swap); !made)
            return tl::unexpected(made.error());
        return Went::Stopped;
    }
    if (auto prepared = prepare(swap, step); !prepared)
        return tl::unexpected(prepared.error());
    if (auto done = doStep(swap, step); !done)
        return tl::unexpected(done.error());
    return Went::On;
}

Result<DemoDriver::Went> DemoDriver::stepAll()
{
    for (int count = 0; count < kMostSteps; ++count) {
        const auto went = step();
        if (!went || *went != Went::On)
            return went;
    }
    return fail(Error::Kind::Refused, u"visit %1 never ends"_s.arg(m_logbook.visit().text()));
}

/// What has to be taken down before the step itself is answered.
Result<void> DemoDriver::prepare(const SwapState& swap, const procedure::Step& step)
{
    const auto perhaps = std::chrono::milliseconds(static_cast<qint64>(m_hands.chance.between(18e3, 47e3)));
    const double share = m_hands.chance.between(0.7, 1.25);
    m_hands.clock.advance(step.minutes == 0
                              ? perhaps
                              : std::chrono::milliseconds(static_cast<qint64>(share * 60e3 * step.minutes)));
    switch (step.effect) {
    case Effect::MatchBox:
        return readClosedBox(swap);
    case Effect::BookIn:
        return readMarking(swap);
    case Effect::Peak:
    case Effect::PeakAgain:
        return readLight(swap, step);
    case Effect::MeasureScreen:
        return readScreen(swap, step);
    case Effect::Sign:
        return answerIncidents();
    default:
        return isArrivalLight(step) ? readScreen(swap, step) : Result<void>();
    }
}

Result<void> DemoDriver::doStep(const SwapState& swap, const procedure::Step& step)
{
    const DemoTwist* owed = twist(DemoTwist::Kind::Owed);
    if (isBefore(owed, step)) {
        if (auto noted = tell(lead(), visit::Noted{swap.id, owed->text}); !noted)
            return noted;
        return tell(lead(), visit::Owed{swap.id, step.id});
    }
    const auto answers = answersFor(swap, step);
    if (!answers)
        return tl::unexpected(answers.error());
    visit::Did did;
    did.swap = swap.id;
    did.step = step.id;
    did.answers = *answers;
    Result<void> last;
    for (const PersonId& by : handsFor(step)) {
        const auto decided = visit::decide(state(), by, did, m_hands.clock.now());
        last = tell(by, did);
        if (last || decided || !isForOthers(decided.error()))
            return last;
    }
    return last;
}

/// Who presses, the likeliest first: at a stop whoever did not do the steps; a trainee looks and reads now
/// and then.
QList<PersonId> DemoDriver::handsFor(const procedure::Step& step)
{
    QList<PersonId> hands{lead()};
    const bool isLook = step.effect == Effect::Look && !step.stop && !step.inGear;
    for (const visit::PersonFacts& person : state().people) {
        if (person.id == lead() || (!person.mayLead && !person.mayAssist))
            continue;
        if (step.stop || (isLook && m_hands.chance.between(0, 1) < 0.5))
            hands.prepend(person.id);
    }
    return hands;
}

// ---- What is read -----------------------------------------------------------------------------------------

Result<void> DemoDriver::readClosedBox(const SwapState& swap)
{
    const visit::Ground& ground = *state().ground;
    const visit::LampFacts& lamp = ground.lamps[swap.newLamp];
    const QString code = ground.catalogue.lampType(*lamp.type)->code;
    const DemoTwist* misread = twist(DemoTwist::Kind::SerialMisread);
    for (const label::Source source : {label::Source::Box, label::Source::Paper, label::Source::Entry}) {
        const bool isMisread = misread && misread->source == visit::wordOf(source);
        const QString serial = isMisread ? misread->read : lamp.serial;
        const auto means =
            source == label::Source::Box && !isMisread ? label::Means::Scanned : label::Means::Typed;
        m_hands.clock.advance(25s);
        const QStringList scanned =
            means == label::Means::Scanned ? QStringList{u"]C0"_s + code, u"]C0"_s + serial} : QStringList();
        if (auto read = tell(lead(), visit::LampRead{lamp.id, {source, means, code, serial}, scanned}); !read)
            return read;
    }
    if (!misread)
        return {};
    label::SerialPass pass;
    pass.source = visit::sourceFromWord(misread->source).value_or(label::Source::Box);
    pass.read = misread->read;
    pass.entry = lamp.serial;
    pass.evidence = label::SerialPass::Evidence::TypedAgain;
    pass.typedFrom = label::Source::Paper;
    pass.typedAgain = lamp.serial;
    pass.reason = misread->reason;
    m_hands.clock.advance(70s);
    return tell(lead(), visit::SerialPassed{lamp.id, pass});
}

Result<void> DemoDriver::readMarking(const SwapState& swap)
{
    const visit::Ground& ground = *state().ground;
    const visit::LampFacts& lamp = ground.lamps[swap.newLamp];
    const QString code = ground.catalogue.lampType(*lamp.type)->code;
    return tell(lead(), visit::LampRead{lamp.id,
                                        {label::Source::OwnMarking, label::Means::Typed, code, lamp.serial}});
}

/// Turns and reads as the plan of the light run says, at a light that answers, until the step is through.
Result<void> DemoDriver::readLight(const SwapState& swap, const procedure::Step& step)
{
    const catalogue::ProjectorModel& model = state().ground->model(swap.lamphouse);
    const bool isAgain = step.effect == Effect::PeakAgain;
    alignment::SimulatedLight& lamp = lampOf(swap);
    if (isAgain && m_settled.insert(swap.id.text()).second)
        lamp.settle();
    for (int readings = 0;; ++readings) {
        const visit::LightOfSwap light = visit::lightOf(state(), swap.id);
        const auto due = isReadingDue(light, step, model, readings);
        if (!due)
            return tl::unexpected(due.error());
        if (!*due)
            return setKnobs(swap, step, light);
        for (const alignment::Move& move : light.advice().moves)
            lamp.turn(move);
        visit::LightRead read =
            visit::advisedReading(light, model, std::round(lamp.read() * 10) / 10); // a meter shows tenths
        read.swap = swap.id;
        read.step = step.id;
        m_hands.clock.advance(22s);
        if (auto slipped = slip(read); !slipped)
            return slipped;
        if (auto told = tell(lead(), read); !told)
            return told;
    }
}

/// What is turned without a reading: before the settle wait, and at the end.
Result<void> DemoDriver::setKnobs(const SwapState& swap, const procedure::Step& step,
                                  const visit::LightOfSwap& light)
{
    const auto knobs = visit::knobsToSet(light, light.form, step, state().ground->model(swap.lamphouse));
    if (!knobs)
        return {};
    for (const alignment::Move& move : light.advice().moves)
        lampOf(swap).turn(move);
    m_hands.clock.advance(15s);
    return tell(lead(), visit::LightSet{swap.id, step.id, *knobs});
}

/// Once in a visit that has it so: a number typed wrong, and taken back.
Result<void> DemoDriver::slip(const visit::LightRead& read)
{
    const DemoTwist* withdraw = twist(DemoTwist::Kind::ReadingWithdrawn);
    if (!withdraw || m_hasWithdrawn)
        return {};
    m_hasWithdrawn = true;
    visit::LightRead wild = read;
    wild.value = std::round(read.value * 6) / 10;
    if (auto told = tell(lead(), wild); !told)
        return told;
    m_hands.clock.advance(15s);
    if (auto told = tell(lead(), visit::Withdrawn{state().entries - 1, withdraw->text}); !told)
        return told;
    m_hands.clock.advance(20s);
    return {};
}

/// The new lamp's light, a good deal above what the old one gave.
alignment::SimulatedLight& DemoDriver::lampOf(const SwapState& swap)
{
    const auto found = m_lamps.find(swap.id.text());
    if (found != m_lamps.end())
        return found->second;
    alignment::LampNature nature =
        alignment::testLampFor(visit::setupOf(state().ground->model(swap.lamphouse)));
    nature.light = m_luminance * m_hands.chance.between(1.25, 1.45);
    nature.noise = kMeterNoise;
    const auto seed = static_cast<std::uint64_t>(m_hands.chance.below(1'000'000));
    return m_lamps.emplace(swap.id.text(), alignment::SimulatedLight(nature, seed)).first->second;
}

/// The sheet of the screen: on arrival under a lamp that has burnt all evening, else under the new one.
Result<void> DemoDriver::readScreen(const SwapState& swap, const procedure::Step& step)
{
    if (isBefore(twist(DemoTwist::Kind::Owed), step))
        return {};
    constexpr double kGain = 1.31;
    const auto watched = visit::litSinceStrike(swap, m_hands.clock.now());
    const bool isAfter = visit::sheetTimeNow(swap) == visit::SheetTime::After;
    const double centre = isAfter ? kGain * m_luminance : m_luminance;
    for (const visit::Body& body :
         demoSheet(state(), swap, step, m_hands.limits, centre, watched.value_or(std::chrono::hours(5)),
                   m_hands.clock.now().wall)) {
        if (auto told = tell(lead(), body); !told)
            return told;
    }
    return {};
}

Result<void> DemoDriver::answerIncidents()
{
    for (const visit::IncidentState& incident : QList<visit::IncidentState>(state().incidents)) {
        if (incident.isAnswered)
            continue;
        const auto told =
            std::ranges::find_if(m_twists, [](const DemoTwist& one) { return !one.answer.isEmpty(); });
        if (told == m_twists.end())
            return fail(Error::Kind::Malformed,
                        u"no answer for an incident of "_s + m_logbook.visit().text());
        m_hands.clock.advance(40s);
        if (auto answered = tell(lead(), visit::IncidentAnswered{incident.entry, told->answer}); !answered)
            return answered;
    }
    return {};
}

// ---- Answers ----------------------------------------------------------------------------------------------

QStringList DemoDriver::textsFor(const procedure::Step& step, const QString& capture) const
{
    QStringList places{step.id.text(), textOf(step.effect)};
    if (step.stop)
        places.prepend(u"stop"_s);
    for (const QString& place : places) {
        const QStringList texts = m_hands.answers.texts.value(place + u'/' + capture);
        if (!texts.isEmpty())
            return texts;
    }
    return {};
}

QString DemoDriver::written(const SwapState& swap, const procedure::Step& step, const QString& text)
{
    if (!text.contains(u'{'))
        return text;
    const visit::Ground& ground = *state().ground;
    const site::SiteDocument& site = ground.opening.site;
    const DemoFigures figures = m_figures.value(ground.lamphouses[visit::placeOf(state(), swap, step)]);
    const procedure::StepContext context = visit::contextOf(state(), swap, state().lead);
    const Index lamp = step.otherLamphouse ? context.otherLamp : swap.newLamp;
    QStringList points;
    for (const PointId& point : site.pointsFeeding(ground.lamphouses[swap.lamphouse]))
        points.append(site.point(point)->name);
    QStringList crew;
    for (const visit::PersonFacts& person : state().people)
        crew.append(person.name);
    const Index point = step.point ? ground.pointOfRole(swap.lamphouse, *step.point) : kNone;
    const auto show = site::nextShow(site, m_hands.clock.now().wall);
    const auto gap =
        show ? std::chrono::duration_cast<std::chrono::minutes>(show->start - m_hands.clock.now().wall)
             : std::chrono::minutes(600);

    const std::initializer_list<std::pair<QString, QString>> words{
        {u"contact"_s, site.site.contacts.empty() ? site.site.name : site.site.contacts.front().name},
        {u"gap"_s, QString::number(gap.count())},
        {u"centre"_s, QString::number(m_luminance, 'f', 1)},
        {u"hours"_s, whole(figures.lampHours)},
        {u"strikes"_s, whole(std::round(figures.lampHours / 4.1))},
        {u"threshold"_s, whole(figures.thresholdHours)},
        {u"cause"_s, m_hands.answers.causes.value(lamps::wordOf(figures.cause))},
        {u"tools"_s, QString::number(m_tools)},
        {u"fasteners"_s, QString::number(m_fasteners)},
        {u"lock"_s, QString::number(m_lock)},
        {u"point"_s, point == kNone ? QString() : site.point(ground.points[point])->name},
        {u"points"_s, points.join(u"; "_s)},
        {u"crew"_s, crew.join(u", "_s)},
        {u"type"_s, lamp == kNone || !ground.lamps[lamp].type
                        ? QString()
                        : ground.catalogue.lampType(*ground.lamps[lamp].type)->code}};
    QString filled = text;
    for (const auto& [word, value] : words)
        filled.replace(u'{' + word + u'}', value);
    return filled;
}

/// The first choice passes; any other one that means the same is as good.
QString DemoDriver::chosen(const procedure::Step& step, const procedure::Capture& capture)
{
    procedure::Means wanted = capture.choices.first().means;
    if (step.effect == Effect::Strike &&
        capture.meansOf(capture.choices.first().text) == procedure::Means::Lit &&
        twist(DemoTwist::Kind::NoLight) && !m_hasFailedToLight) {
        m_hasFailedToLight = true;
        wanted = procedure::Means::NoLight;
    }
    QStringList texts;
    for (const procedure::Choice& choice : capture.choices) {
        if (choice.means == wanted)
            texts.append(choice.text);
    }
    const bool isUsual = !m_hands.answers.varied.contains(capture.id) || m_hands.chance.between(0, 1) < 0.7;
    return isUsual ? texts.first() : texts[m_hands.chance.below(texts.size())];
}

Result<QJsonObject> DemoDriver::answersFor(const SwapState& swap, const procedure::Step& step)
{
    QJsonObject answers;
    for (const procedure::Capture& capture : step.captures) {
        const QStringList texts = textsFor(step, capture.id);
        const bool isOfLabel =
            (step.effect == Effect::MatchBox || step.effect == Effect::BookIn) &&
            (capture.kind == procedure::CaptureKind::Type || capture.kind == procedure::CaptureKind::Serial);
        if (capture.kind == procedure::CaptureKind::Picture || isOfLabel)
            continue; // read from a label it stands in an entry of its own
        const QString text =
            texts.isEmpty() ? QString() : written(swap, step, texts[m_hands.chance.below(texts.size())]);
        if (!capture.choices.isEmpty())
            answers.insert(capture.id, capture.meansOf(text) ? text : chosen(step, capture));
        else if (!text.isEmpty())
            answers.insert(capture.id, text);
        else if (!capture.optional)
            return fail(Error::Kind::Malformed, u"no answer for %1/%2"_s.arg(step.id.text(), capture.id));
    }
    return answers;
}

// ---- The ways out -----------------------------------------------------------------------------------------

Result<void> DemoDriver::makeSafe(const DemoTwist& twist, const SwapState& swap)
{
    visit::Happened happened;
    happened.incident = twist.incident;
    happened.swap = swap.id;
    happened.lamphouse = state().ground->lamphouses[swap.lamphouse];
    happened.text = twist.text;
    if (auto told = tell(lead(), happened); !told)
        return told;
    m_hands.clock.advance(95s);
    if (auto told = tell(lead(), visit::SafeBegun{twist.reason}); !told)
        return told;
    for (Index group = 0; group < state().plant.points; ++group) {
        const auto isHere = [&](const SwapState& one) {
            return state().plant.lamphouse[one.lamphouse].group == group;
        };
        if (std::ranges::none_of(state().swaps, isHere))
            continue;
        for (int count = 0;; ++count) {
            const auto goesOn = safeStep(group);
            if (!goesOn)
                return tl::unexpected(goesOn.error());
            if (!*goesOn)
                break;
            if (count == kMostSteps)
                return fail(Error::Kind::Refused, u"making safe never ends"_s);
        }
    }
    if (auto settled = settleCustody(); !settled)
        return settled;
    return answerIncidents();
}

/// Where the lamps go that no step of a swap has asked about: one still in its sealed box was not needed.
Result<void> DemoDriver::settleCustody()
{
    if (visit::isCustodyDecided(state()))
        return {};
    for (Index lamp = 0; lamp < state().plant.lamps; ++lamp) {
        const bool isBrought = lamp >= state().plant.lamphouses;
        const machine::Place place = state().machine.lamp[lamp].place;
        const LampId id = state().ground->lamps[lamp].id;
        const bool isUnused = isBrought && place == machine::Place::SealedBox;
        if ((!isUnused && place != machine::Place::Boxed) || state().custody.contains(id))
            continue;
        const auto custody = isUnused ? lamps::Custody::Unused : lamps::Custody::Returned;
        if (auto told = tell(lead(), visit::CustodyDecided{id, lamps::wordOf(custody)}); !told)
            return told;
    }
    return {};
}

/// One step towards the safe end of this group; false at the end.
Result<bool> DemoDriver::safeStep(Index group)
{
    m_hands.clock.advance(std::chrono::milliseconds(static_cast<qint64>(m_hands.chance.between(20e3, 60e3))));
    const VisitState seen = visit::seenAt(state(), m_hands.clock.now());
    const machine::SafeStep safe = machine::nextSafeStep(seen.plant, seen.machine, group, seen.lead);
    Result<void> went;
    switch (safe.kind) {
    case machine::SafeStep::Kind::Done:
        return false;
    case machine::SafeStep::Kind::Hold:
        m_hands.clock.advance(seen.waits[safe.lamphouse].of(safe.wait).left());
        break;
    case machine::SafeStep::Kind::Report:
        went = answerIncidents();
        break;
    case machine::SafeStep::Kind::Do: {
        visit::Acted acted;
        acted.act = visit::toRecord(seen, safe.act);
        if (safe.act.effect == machine::Effect::LampOff)
            acted.act.outcome = machine::Outcome::FanRuns;
        went = tell(safe.act.person == kNone ? lead() : seen.people[safe.act.person].id, acted);
        break;
    }
    }
    if (!went)
        return tl::unexpected(went.error());
    return true;
}

Result<void> DemoDriver::close()
{
    if (const DemoTwist* note = twist(DemoTwist::Kind::Note)) {
        if (auto told = tell(lead(), visit::Noted{{}, note->text}); !told)
            return told;
    }
    QList<std::pair<PersonId, visit::Body>> last{{lead(), visit::Signed{textOf(people::Meaning::Performed)}}};
    for (const visit::PersonFacts& person : state().people) {
        if (person.id != lead())
            last.append({person.id, visit::Signed{textOf(people::Meaning::TookPart)}});
    }
    const auto& contacts = state().ground->opening.site.site.contacts;
    if (!contacts.empty())
        last.append({lead(), visit::SiteSigned{contacts.front().name, contacts.front().role, {}}});
    last.append({lead(), visit::Closed{}});
    if (const DemoTwist* addendum = twist(DemoTwist::Kind::Addendum))
        last.append({lead(), visit::Addendum{addendum->text}});
    for (const auto& [by, body] : last) {
        m_hands.clock.advance(45s);
        if (std::holds_alternative<visit::Addendum>(body))
            m_hands.clock.advance(14h);
        if (auto told = tell(by, body); !told)
            return told;
    }
    return {};
}

} // namespace coldarc::app
