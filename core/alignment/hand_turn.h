#pragma once

#include "core/alignment/knob.h"

#include <vector>

namespace coldarc::alignment {

/// One turn of the wrist: one way, by so much.
struct HandTurn {
    Direction direction = Direction::Forward;
    Eighths turn; ///< > 0

    friend bool operator==(const HandTurn&, const HandTurn&) = default;
};

/// What a hand does for one move, in order: one turn, or two where the setting has to be come upon going
/// forward.
[[nodiscard]] std::vector<HandTurn> handTurnsOf(const Move& move);

} // namespace coldarc::alignment
