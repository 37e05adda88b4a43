#pragma once

#include <array>
#include <cstdint>

namespace coldarc::machine {

/// Positions in the arrays of one site visit. Names, ids and texts stay outside: the machine counts.
using Index = std::uint8_t;
inline constexpr Index kNone = 0xFF;

inline constexpr int kMostPoints = 8;
inline constexpr int kMostLamphouses = 4;
inline constexpr int kMostPeople = 4;
inline constexpr int kMostLamps = 8;

/// A set of indices below 8.
using Mask = std::uint8_t;
[[nodiscard]] constexpr bool has(Mask mask, Index index)
{
    return ((mask >> index) & 1u) != 0;
}
[[nodiscard]] constexpr Mask maskOf(Index index)
{
    return static_cast<Mask>(1u << index);
}

/// What does not change while a visit lasts, as far as rules need it: how the site is wired, how each model
/// opens, who is authorised, which lamps are there. Made from the documents in the visit's first entry.
struct Plant {
    struct Point {
        bool lockable = true; ///< takes a lock; a point that does not never proves Dead
        Mask feeds = 0;       ///< lamphouses that it can energise
        Index group = 0; ///< isolation group: points that share a lamphouse, directly or by another point
    };
    struct Lamphouse {
        Index projector = 0;
        Mask points = 0; ///< every point that feeds it
        Index group = 0;
        bool hasHousing = true; ///< false: the single door is the guard
        bool hasDowser = true;
        bool hasAdaptor = false;
        bool testNeedsHousingOpen = false; ///< the test point outside the guard lies behind the housing
        bool testBehindGuard = false;      ///< a further test point lies behind the guard
        /// A lamp found lit here settles from that moment on: nobody struck it in this visit, and what is
        /// owed of its light goes on. Elsewhere a lamp found lit is put out.
        bool settlesFromFind = false;
        std::uint8_t strikeLimit = 3; ///< attempts of the model, successful or not counted only when not
    };
    struct Person {
        bool authorised = false; ///< to change this model's lamps alone; a trainee is not
        bool mayProve = false;   ///< the site lets this person prove the absence of voltage
    };
    struct Lamp {
        std::uint8_t type = 0;
        bool needsAdaptor = false; ///< in the lamphouse that it is meant for
        bool accepted = true;      ///< the model takes this type
        Index lamphouse = 0;
    };

    std::uint8_t points = 0;
    std::uint8_t lamphouses = 0;
    std::uint8_t people = 0;
    std::uint8_t lamps = 0;
    std::array<Point, kMostPoints> point{};
    std::array<Lamphouse, kMostLamphouses> lamphouse{};
    std::array<Person, kMostPeople> person{};
    std::array<Lamp, kMostLamps> lamp{};

    /// How many points a group has. One: personal locks hang on the point itself. More: a job lock on each
    /// point, their keys in the group's lock box, one personal lock per person on the box.
    [[nodiscard]] int pointsInGroup(Index group) const
    {
        int count = 0;
        for (int index = 0; index < points; ++index)
            count += point[static_cast<std::size_t>(index)].group == group ? 1 : 0;
        return count;
    }
};

} // namespace coldarc::machine
