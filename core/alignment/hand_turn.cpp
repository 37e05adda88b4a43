#include "core/alignment/hand_turn.h"

namespace coldarc::alignment {

std::vector<HandTurn> handTurnsOf(const Move& move)
{
    if (move.past == Eighths{0})
        return {{move.direction, move.turn}};
    if (move.direction == Direction::Back)
        return {{Direction::Back, move.turn + move.past}, {Direction::Forward, move.past}};
    return {{Direction::Back, move.past}, {Direction::Forward, move.turn + move.past}};
}

} // namespace coldarc::alignment
