#pragma once

#include "core/machine/evolve.h"

#include <cstdint>

namespace coldarc::machine {

/// Where making safe leads.
enum class SafeEnd : std::uint8_t {
    AsItWas,  ///< the lamp found never left its seat: locks off, restored, people told, may be lit again
    AsItIs,   ///< a lamp that a strike would take is clamped: stays lit or is lit, the rest is owed
    OutOfUse, ///< shut, isolated, own lock and tag left on
};

/// One step of making safe: something to do, something to answer, a wait to hold, or the end.
struct SafeStep {
    enum class Kind : std::uint8_t {
        Do,
        Report, ///< the difference of count is to be answered
        Hold,   ///< nothing is shortened
        Done,
    };
    Kind kind = Kind::Done;
    Act act;
    Event event;
    Wait wait = Wait::Cool;
    Index lamphouse = kNone;
};

/// The first of the three ends that the state of this isolation group allows, once everything that can be
/// shut is shut. What shares a point shares its end.
[[nodiscard]] SafeEnd safeEnd(const Plant& plant, const State& state, Index group);

/// The next step of the shortest way there, done by `engineer` where nobody in particular has to do it. Every
/// act that it names is one whose demands hold. Calling it again after each step leads to Done. Pre: every
/// lamphouse of the group was looked at; `engineer` is authorised.
[[nodiscard]] SafeStep nextSafeStep(const Plant& plant, const State& state, Index group, Index engineer);

/// After "it started" or "voltage found": the next step towards isolating anew at the right place. Everything
/// shut, lamp off, Cold held, locks off by their owners, points on again; then Done. Done at once where
/// nothing is doubted. Pre: as for nextSafeStep.
[[nodiscard]] SafeStep nextPutRightStep(const Plant& plant, const State& state, Index group, Index engineer);

} // namespace coldarc::machine
