#pragma once

#include <compare>
#include <vector>

namespace coldarc::alignment {

/// How far a knob stands from where it stood when the light run began, or how far it is turned. Unit: an
/// eighth of a turn, the finest that a hand repeats without a scale (common practice, no source). Positive is
/// the way the model's file calls forward.
struct Eighths {
    int count = 0;

    friend auto operator<=>(const Eighths&, const Eighths&) = default;
    friend constexpr Eighths operator+(Eighths a, Eighths b) { return {a.count + b.count}; }
    friend constexpr Eighths operator-(Eighths a, Eighths b) { return {a.count - b.count}; }
    friend constexpr Eighths operator*(int times, Eighths a) { return {times * a.count}; }
};

inline constexpr int kEighthsPerTurn = 8;
/// For showing: a place between two settings may be anywhere.
[[nodiscard]] constexpr double turnsOf(double eighths)
{
    return eighths / kEighthsPerTurn;
}

/// Where every knob stands, by the number of its axis.
using Knobs = std::vector<Eighths>;

enum class Direction : unsigned char {
    Forward,
    Back,
};

/// One turn of one knob.
struct Move {
    int axis = 0;
    Direction direction = Direction::Forward;
    Eighths turn; ///< > 0, how far the knob ends from where it stood
    /// Where the setting has to be come upon going forward, as a screw with play asks for (common practice,
    /// no source): go this much further back, then forward again. 0: straight to it.
    Eighths past;

    friend bool operator==(const Move&, const Move&) = default;
};

} // namespace coldarc::alignment
