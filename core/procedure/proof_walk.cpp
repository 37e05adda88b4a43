#include "core/procedure/proof_walk.h"

#include "core/machine/evolve.h"
#include "core/machine/make_safe.h"
#include "core/machine/reach.h"
#include "core/procedure/follow_up.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <unordered_set>
#include <vector>

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using machine::Act;
using machine::Effect;
using machine::Event;
using machine::Gate;
using machine::Happening;
using machine::Index;
using machine::kNone;
using machine::Outcome;
using machine::State;
using machine::Unmet;
using machine::Wait;

constexpr std::array kWaits{Wait::Cool, Wait::Bleed, Wait::StrikePause, Wait::Settle};

std::uint64_t hashOf(const State& state)
{
    std::array<unsigned char, sizeof(State)> bytes;
    std::memcpy(bytes.data(), &state, sizeof(State));
    std::uint64_t hash = 0x9E3779B97F4A7C15u;
    std::size_t index = 0;
    for (; index + 8 <= bytes.size(); index += 8) {
        std::uint64_t part = 0;
        std::memcpy(&part, bytes.data() + index, 8);
        hash = (hash ^ part) * 0xFF51AFD7ED558CCDu;
        hash ^= hash >> 32;
    }
    for (; index < bytes.size(); ++index)
        hash = (hash ^ bytes[index]) * 0x100000001B3u;
    return hash ^ (hash >> 29);
}

struct StateHash {
    std::size_t operator()(const State& state) const { return hashOf(state); }
};

bool isFound(const ProofCase& walked, const State& state)
{
    return std::all_of(state.lamphouse.begin(), state.lamphouse.begin() + walked.plant.lamphouses,
                       [](const machine::LamphouseState& l) { return l.heat != machine::Heat::Unknown; });
}

/// A lamp that is out is not put out, an adaptor that is not on a lamp not taken off it: such a step is
/// passed over. It changes and proves nothing.
bool isNothingToDo(const State& state, const Act& act)
{
    const machine::LamphouseState& here = state.lamphouse[act.lamphouse];
    if (act.effect == Effect::AdaptorOff)
        return here.adaptor != act.lamp;
    return act.effect == Effect::LampOff &&
           (here.heat == machine::Heat::Cooling || here.heat == machine::Heat::Cold);
}

Act signing(const ProofCase& walked)
{
    Act sign;
    sign.effect = Effect::Sign;
    sign.lamphouse = walked.context.lamphouse;
    sign.custodyDecided = true;
    sign.answered = true;
    return sign;
}

Unmet unmetBut(const ProofCase& walked, const State& state, const Act& act, const Unmet& overlooked)
{
    return unmet(walked.plant, state, act) & ~overlooked;
}

machine::Demand firstOf(const Unmet& missing, Effect effect)
{
    for (const machine::Demand demand : machine::demandsOf(effect)) {
        if (missing.test(static_cast<std::size_t>(demand)))
            return demand;
    }
    Q_UNREACHABLE();
}

/// States from which making safe is known to end where it can be signed.
class Safety {
public:
    explicit Safety(const ProofCase& walked)
        : m_walked(walked)
    {
    }

    /// Follows the make-safe list from here. Pre: every lamphouse was found.
    bool reaches(State state)
    {
        constexpr int kTooMany = 120;
        std::vector<State> way;
        for (int steps = 0; steps < kTooMany; ++steps) {
            if (m_safe.contains(state))
                break;
            way.push_back(state);
            const auto next = after(state);
            if (!next)
                return false;
            if (*next == state) { // every group is done
                if (unmet(m_walked.plant, state, signing(m_walked)).any())
                    return false;
                break;
            }
            state = *next;
            if (steps + 1 == kTooMany)
                return false;
        }
        m_safe.insert(way.begin(), way.end());
        return true;
    }

private:
    /// The state after the next step of the first group that is not done; the same state if all are; nothing
    /// if the step is refused.
    std::optional<State> after(const State& state) const
    {
        const machine::Plant& plant = m_walked.plant;
        for (Index group = 0; group < plant.points; ++group) {
            if (machine::lamphousesOfGroup(plant, group) == 0)
                continue;
            const machine::SafeStep step = nextSafeStep(plant, state, group, m_walked.context.person);
            switch (step.kind) {
            case machine::SafeStep::Kind::Done:
                continue;
            case machine::SafeStep::Kind::Hold:
                return whenOver(state, step.wait, step.lamphouse);
            case machine::SafeStep::Kind::Report:
                return machine::after(plant, state, step.event);
            case machine::SafeStep::Kind::Do:
                if (unmet(plant, state, step.act).any())
                    return std::nullopt;
                return machine::after(plant, state, step.act);
            }
        }
        return state;
    }

    const ProofCase& m_walked;
    std::unordered_set<State, StateHash> m_safe;
};

/// A state in front of a step, and how it was come to.
struct Node {
    State state;
    std::uint32_t from = 0;
    std::uint16_t step = 0;  ///< the next one to do
    std::uint8_t budget = 0; ///< incidents that may still happen
    bool planned = true;     ///< no incident so far: the next step must be possible
    std::int16_t did = -1;   ///< the step at which it was come to; -1: a wait was over, or the start
    Outcome outcome = Outcome::Plain;
    std::int8_t happening = -1;
};

bool isSame(const Node& one, const Node& other)
{
    return one.step == other.step && one.budget == other.budget && one.planned == other.planned &&
           one.state == other.state;
}

class Walker {
public:
    Walker(const ProofCase& walked, const ProofScope& scope)
        : m_walked(walked)
        , m_scope(scope)
        , m_safety(walked)
    {
        for (const Step& step : walked.steps) // only what is found depends on the state
            m_variants.push_back(step.effect == Effect::Find ? std::vector<Variant>()
                                                             : variantsOf(walked, step, State()));
    }

    Walked run()
    {
        m_slots.assign(1024, 0);
        Node start;
        start.budget = static_cast<std::uint8_t>(m_scope.incidents);
        add(start);
        for (std::uint32_t at = 0; at < m_nodes.size() && !m_failure; ++at) {
            if (m_nodes[at].step < m_walked.steps.size())
                goOn(at);
            else
                m_ended = m_ended || m_nodes[at].planned;
        }
        if (!m_failure && !m_ended)
            fail(m_nodes.front(), {Flaw::NotSigned, Gate::None, u"no planned way to the end"_s}, StepId());
        return {m_failure, m_nodes.size()};
    }

private:
    void goOn(std::uint32_t at)
    {
        const Node here = m_nodes[at];
        const Step& step = m_walked.steps[here.step];
        bool waited = false;
        for (Index lamphouse = 0; lamphouse < m_walked.plant.lamphouses; ++lamphouse) {
            for (const Wait wait : kWaits)
                waited = endWait(at, here, wait, lamphouse) || waited;
        }
        const std::vector<Variant> variants =
            step.effect == Effect::Find ? variantsOf(m_walked, step, here.state) : m_variants[here.step];
        if (isPassedOver(here.state, step))
            return passOver(at, here);
        for (const Variant& variant : variants) {
            if (!m_failure)
                tryIt(at, here, step, variant, waited);
        }
        answerCounts(at, here);
        if (here.budget == 0)
            return;
        for (const Event& event : eventsAt(m_walked, here.state)) {
            Node next = incident(at, here);
            next.happening = static_cast<std::int8_t>(event.what);
            next.state = after(m_walked.plant, here.state, event);
            arrive(here, next, nullptr);
        }
    }

    bool isPassedOver(const State& state, const Step& step) const
    {
        return m_walked.followsUp && isFound(m_walked, state) &&
               isNeedless(m_walked.plant, state, m_walked.steps, step, actOf(step, m_walked.context));
    }

    void passOver(std::uint32_t at, const Node& here)
    {
        Node next = here;
        next.from = at;
        next.did = static_cast<std::int16_t>(here.step);
        next.outcome = Outcome::Plain;
        next.happening = -1;
        ++next.step;
        arrive(here, next, nullptr);
    }

    bool endWait(std::uint32_t at, const Node& here, Wait wait, Index lamphouse)
    {
        Node next = here;
        next.from = at;
        next.did = -1;
        next.happening = -1;
        next.state = whenOver(here.state, wait, lamphouse);
        if (next.state == here.state)
            return false;
        arrive(here, next, nullptr);
        return true;
    }

    void tryIt(std::uint32_t at, const Node& here, const Step& step, const Variant& variant, bool waited)
    {
        const Unmet missing = unmetBut(m_walked, here.state, variant.act, m_scope.overlooked);
        const bool bad = variant.kind == Variant::Kind::Bad;
        if (missing.any()) {
            if (variant.kind == Variant::Kind::Plain)
                blocked(at, here, step, variant.act, missing, waited);
            return;
        }
        if (bad && here.budget == 0)
            return;
        Node next = bad ? incident(at, here) : here;
        next.from = at;
        next.did = static_cast<std::int16_t>(here.step);
        next.outcome = variant.act.outcome;
        next.happening = -1;
        next.step = static_cast<std::uint16_t>(here.step + 1);
        if (variant.kind == Variant::Kind::OtherWay)
            next.budget = 0;
        next.state = after(m_walked.plant, here.state, variant.act);
        if (variant.act.effect == Effect::Sign && here.planned)
            signedOff(at, step, here.state);
        arrive(here, next, &variant.act);
        if (!bad || m_failure || step.effect == Effect::Find)
            return;
        next.step = here.step; // done once more
        arrive(here, next, &variant.act);
    }

    void blocked(std::uint32_t at, const Node& here, const Step& step, const Act& act, const Unmet& missing,
                 bool waited)
    {
        if (isNothingToDo(here.state, act))
            return passOver(at, here);
        if (m_scope.again && !here.planned)
            againFrom(at, here);
        if (waited || !here.planned)
            return;
        const machine::Demand demand = firstOf(missing, act.effect);
        const auto left = act.effect == Effect::Sign ? leftBehind(m_walked, here.state) : std::nullopt;
        fail(m_nodes[at], {left ? left->flaw : Flaw::Order, gateOf(demand), {}}, step.id);
        m_failure->demand = demand;
    }

    /// After an incident an earlier step is done once more, where it changes something: gear on again, locked
    /// again, proved again.
    void againFrom(std::uint32_t at, const Node& here)
    {
        for (int index = 0; index < here.step; ++index) {
            const Step& step = m_walked.steps[index];
            if (step.effect == Effect::Look || step.effect == Effect::Find)
                continue;
            const Act& act = m_variants[static_cast<std::size_t>(index)].front().act;
            if (unmetBut(m_walked, here.state, act, m_scope.overlooked).any())
                continue;
            Node next = here;
            next.from = at;
            next.did = static_cast<std::int16_t>(index);
            next.outcome = act.outcome;
            next.happening = -1;
            next.state = after(m_walked.plant, here.state, act);
            if (next.state != here.state)
                arrive(here, next, &act);
        }
    }

    void signedOff(std::uint32_t at, const Step& step, const State& state)
    {
        if (const auto left = leftBehind(m_walked, state))
            fail(m_nodes[at], *left, step.id);
    }

    /// An incident is answered by people, at no cost.
    void answerCounts(std::uint32_t at, const Node& here)
    {
        for (Index lamphouse = 0; lamphouse < m_walked.plant.lamphouses; ++lamphouse) {
            Event event;
            event.what = Happening::CountAnswered;
            event.lamphouse = lamphouse;
            if (!canHappen(m_walked.plant, here.state, event))
                continue;
            Node next = here;
            next.from = at;
            next.did = static_cast<std::int16_t>(here.step);
            next.happening = static_cast<std::int8_t>(event.what);
            next.state = after(m_walked.plant, here.state, event);
            arrive(here, next, nullptr);
        }
    }

    static Node incident(std::uint32_t at, const Node& here)
    {
        Node next = here;
        next.from = at;
        next.did = static_cast<std::int16_t>(here.step);
        next.outcome = Outcome::Plain;
        next.planned = false;
        --next.budget;
        return next;
    }

    /// Judges the way into a node, known or not, and takes it in unless it is known.
    void arrive(const Node& before, const Node& next, const Act* act)
    {
        if (m_failure)
            return;
        const StepId step = next.did < 0 ? StepId() : m_walked.steps[next.did].id;
        if (const auto breach = breachBy(m_walked, before.state, act, next.state))
            fail(next, *breach, step);
        else if (add(next) && isFound(m_walked, next.state) && !m_safety.reaches(next.state))
            fail(next, {Flaw::NoWayToSafety, Gate::None, {}}, step);
    }

    /// @param last  how it was come to; it need not have been taken in
    void fail(const Node& last, const Breach& breach, const StepId& step)
    {
        if (m_failure)
            return;
        ProofFailure failure;
        failure.flaw = breach.flaw;
        failure.gate = breach.gate;
        failure.detail = breach.detail;
        failure.step = step;
        failure.facts = m_walked.facts;
        for (const Node* node = &last; node != m_nodes.data(); node = &m_nodes[node->from]) {
            if (node->did < 0)
                continue;
            PathPart part{m_walked.steps[node->did].id, node->outcome, std::nullopt};
            if (node->happening >= 0)
                part.happening = static_cast<Happening>(node->happening);
            failure.path.prepend(part);
        }
        m_failure = failure;
    }

    bool add(const Node& node)
    {
        if ((m_nodes.size() + 1) * 2 > m_slots.size())
            grow();
        std::size_t slot = slotOf(node);
        while (m_slots[slot] != 0) {
            if (isSame(m_nodes[m_slots[slot] - 1], node))
                return false;
            slot = (slot + 1) & (m_slots.size() - 1);
        }
        m_nodes.push_back(node);
        m_slots[slot] = static_cast<std::uint32_t>(m_nodes.size());
        return true;
    }

    std::size_t slotOf(const Node& node) const
    {
        const std::uint64_t more = node.step * 8u + node.budget * 2u + (node.planned ? 1u : 0u);
        return (hashOf(node.state) ^ (more * 0x9E3779B97F4A7C15u)) & (m_slots.size() - 1);
    }

    void grow()
    {
        m_slots.assign(m_slots.size() * 2, 0);
        for (std::size_t index = 0; index < m_nodes.size(); ++index) {
            std::size_t slot = slotOf(m_nodes[index]);
            while (m_slots[slot] != 0)
                slot = (slot + 1) & (m_slots.size() - 1);
            m_slots[slot] = static_cast<std::uint32_t>(index + 1);
        }
    }

    const ProofCase& m_walked;
    const ProofScope& m_scope;
    Safety m_safety;
    std::vector<std::vector<Variant>> m_variants; ///< of each step
    std::vector<Node> m_nodes;
    std::vector<std::uint32_t> m_slots;
    std::optional<ProofFailure> m_failure;
    bool m_ended = false; ///< a planned way led to the last step
};

/// What proves a gate, what waits for it, and what lets it wait again.
struct GateRow {
    Gate gate;
    std::initializer_list<Effect> provedBy; ///< left out, or done without proving
    std::initializer_list<Wait> provedByWait;
    std::initializer_list<Effect> guarded;
    std::initializer_list<Happening> waitsAgain;
};

const GateRow kGates[] = {
    {Gate::Cold,
     {},
     {Wait::Cool, Wait::CoolUnforced},
     {Effect::Standby, Effect::Isolate, Effect::OpenHousing, Effect::ExposeLamp, Effect::WorkInside,
      Effect::LampOut, Effect::Unbox},
     {Happening::FanStopped, Happening::PowerFailed, Happening::WentOut, Happening::LampBurst}},
    {Gate::Dead,
     {Effect::Isolate},
     {},
     {Effect::OpenHousing, Effect::ExposeLamp, Effect::WorkInside, Effect::LampOut, Effect::Unbox},
     {}},
    {Gate::Dead,
     {Effect::LockOn},
     {},
     {Effect::OpenHousing, Effect::ExposeLamp, Effect::WorkInside, Effect::LampOut, Effect::Unbox},
     {Happening::LockRemoved}},
    {Gate::Dead,
     {},
     {Wait::Bleed},
     {Effect::OpenHousing, Effect::ExposeLamp, Effect::WorkInside, Effect::LampOut, Effect::Unbox},
     {}},
    {Gate::Dead,
     {Effect::Relieve},
     {},
     {Effect::OpenHousing, Effect::ExposeLamp, Effect::WorkInside, Effect::LampOut, Effect::Unbox},
     {}},
    {Gate::Dead,
     {Effect::TryStart},
     {},
     {Effect::OpenHousing, Effect::ExposeLamp, Effect::WorkInside, Effect::LampOut, Effect::Unbox},
     {Happening::PassedOn}},
    {Gate::Dead,
     {Effect::ProveAbsence},
     {},
     {Effect::ExposeLamp, Effect::WorkInside, Effect::LampOut, Effect::Unbox},
     {Happening::PassedOn, Happening::Resumed}},
    {Gate::Geared,
     {Effect::GearOn},
     {},
     {Effect::EnterZone, Effect::ExposeLamp, Effect::WorkInside, Effect::LampOut, Effect::Unbox,
      Effect::AdaptorOff, Effect::AdaptorOn},
     {Happening::GearDamaged, Happening::Resumed}},
    {Gate::Geared,
     {Effect::EnterZone},
     {},
     {Effect::ExposeLamp, Effect::WorkInside, Effect::LampOut, Effect::Unbox, Effect::AdaptorOff,
      Effect::AdaptorOn},
     {}},
    {Gate::Matched, {Effect::MatchBox}, {}, {Effect::BookIn, Effect::Strike}, {Happening::WrongLamp}},
    {Gate::Matched, {Effect::Unbox}, {}, {Effect::BookIn, Effect::Strike}, {}},
    {Gate::Matched, {Effect::BookIn}, {}, {Effect::Strike}, {Happening::WrongLamp}},
    {Gate::Settled, {}, {Wait::Settle}, {Effect::PeakAgain, Effect::MeasureScreen}, {Happening::WentOut}},
};

template<class Value>
bool contains(std::initializer_list<Value> list, Value wanted)
{
    return std::ranges::find(list, wanted) != list.end();
}

/// One planned walk that passes over whatever it cannot do.
class Passage {
public:
    Passage(const ProofCase& walked, const ProofScope& scope, const GateRow* without)
        : m_walked(walked)
        , m_scope(scope)
        , m_without(without)
    {
    }

    /// The first guarded step of the swap's own lamphouse that could be done, or -1.
    int guardedFrom(State state, int first) const
    {
        for (int index = first; index < m_walked.steps.size(); ++index) {
            const Step& step = m_walked.steps[index];
            const auto act = planned(state, step);
            if (!act)
                continue;
            if (!step.otherLamphouse && contains(m_without->guarded, step.effect))
                return index;
            state = after(m_walked.plant, state, *act);
        }
        return -1;
    }

    /// The step as planned, once the waits are over that may end; nothing if it cannot be done or is left
    /// out.
    std::optional<Act> planned(State& state, const Step& step) const
    {
        Act act = variantsOf(m_walked, step, state).front().act;
        if (m_without && contains(m_without->provedBy, step.effect)) {
            if (step.effect != Effect::Unbox)
                return std::nullopt;
            act.outcome = Outcome::Plain; // the lamp is taken out of its box, its marking proves nothing
        }
        if (can(state, act))
            return act;
        for (Index lamphouse = 0; lamphouse < m_walked.plant.lamphouses; ++lamphouse) {
            for (const Wait wait : kWaits) {
                if (!m_without || !contains(m_without->provedByWait, wait))
                    state = whenOver(state, wait, lamphouse);
            }
        }
        return can(state, act) ? std::optional(act) : std::nullopt;
    }

private:
    bool can(const State& state, const Act& act) const
    {
        return unmetBut(m_walked, state, act, m_scope.overlooked).none();
    }

    const ProofCase& m_walked;
    const ProofScope& m_scope;
    const GateRow* m_without;
};

/// Whether this happening, here, lets the gate wait again; by the table of the safety rules.
bool letsWait(const ProofCase& walked, const GateRow& row, const State& state, const Event& event)
{
    const Index own = walked.context.lamphouse;
    const machine::LamphouseState& here = state.lamphouse[own];
    if (!contains(row.waitsAgain, event.what) || (event.lamphouse != kNone && event.lamphouse != own))
        return false;
    switch (event.what) {
    case Happening::PowerFailed:
        return machine::has(walked.plant.lamphouse[own].points, event.point) &&
               (here.heat == machine::Heat::Cooling ||
                (here.heat == machine::Heat::Cold && !isIsolated(walked.plant, state, own)));
    case Happening::LampBurst:
        return here.heat != machine::Heat::Unknown && event.lamp == here.lamp;
    case Happening::Resumed:
        return !isShut(state, own);
    case Happening::WrongLamp:
        return event.lamp == walked.context.newLamp;
    default:
        return true;
    }
}

ProofFailure bypassed(const ProofCase& walked, const GateRow& row, const Step& guarded,
                      const QList<PathPart>& path)
{
    ProofFailure failure;
    failure.flaw = Flaw::GateBypassed;
    failure.gate = row.gate;
    failure.step = guarded.id;
    failure.facts = walked.facts;
    failure.path = path;
    return failure;
}

} // namespace

Walked walk(const ProofCase& walked, const ProofScope& scope)
{
    return Walker(walked, scope).run();
}

std::optional<ProofFailure> bypass(const ProofCase& walked, const ProofScope& scope)
{
    const Passage whole(walked, scope, nullptr);
    for (const GateRow& row : kGates) {
        const Passage without(walked, scope, &row);
        QList<PathPart> path;
        State state;
        const auto check = [&](const State& from, int index) -> std::optional<ProofFailure> {
            const int reached = without.guardedFrom(from, index);
            if (reached < 0)
                return std::nullopt;
            return bypassed(walked, row, walked.steps[reached], path);
        };
        if (const auto failure = check(state, 0))
            return failure;
        for (int index = 0; index < walked.steps.size(); ++index) {
            const Step& step = walked.steps[index];
            for (const Event& event : eventsAt(walked, state)) {
                if (!letsWait(walked, row, state, event))
                    continue;
                path.append({step.id, Outcome::Plain, event.what});
                if (const auto failure = check(after(walked.plant, state, event), index))
                    return failure;
                path.removeLast();
            }
            for (const Variant& variant : variantsOf(walked, step, state)) {
                const bool doubts = row.gate == Gate::Dead && (variant.act.outcome == Outcome::Started ||
                                                               variant.act.outcome == Outcome::Voltage);
                if (!doubts || unmetBut(walked, state, variant.act, scope.overlooked).any())
                    continue;
                path.append({step.id, variant.act.outcome, std::nullopt});
                if (const auto failure = check(after(walked.plant, state, variant.act), index + 1))
                    return failure;
                path.removeLast();
            }
            const auto act = whole.planned(state, step);
            if (!act)
                continue; // already so
            state = after(walked.plant, state, *act);
            path.append({step.id, act->outcome, std::nullopt});
        }
    }
    return std::nullopt;
}

} // namespace coldarc::procedure
