#pragma once

#include "core/base/hash.h"
#include "core/base/ids.h"
#include "core/photometry/conditions.h"
#include "core/photometry/point.h"

#include <QString>

#include <cstdint>
#include <optional>
#include <vector>

namespace coldarc::photometry {

using ToleranceSetId = Id<struct ToleranceSetTag>;

/// What a published limit is put on.
enum class Quantity : std::uint8_t {
    CentreLuminance,       ///< cd/m2
    SideShare,             ///< each side's light as a share of the centre's
    CornerShare,           ///< each corner's
    SideDifference,        ///< left and right, share of the centre's light
    Nonuniformity,         ///< percent, by `Evenness::NonuniformityPercent`
    WhiteX,                ///< CIE x of the centre
    WhiteY,                ///< CIE y of the centre
    ColourTemperature,     ///< K, of the centre
    CornerColourOffset,    ///< each corner's larger difference from the centre in x or y
    LargestColourDistance, ///< u'v', by `Evenness::LargestColourDistance`
    DarkLuminance,         ///< cd/m2 of the screen with no light on it
};
/// "centre-luminance", "side-share", ...
[[nodiscard]] QString wordOf(Quantity quantity);
[[nodiscard]] std::optional<Quantity> quantityFromWord(const QString& word);

/// How a figure is known.
enum class Standing : std::uint8_t {
    Read,       ///< seen in the named document itself
    SecondHand, ///< seen in a text about it
    Memory,     ///< recalled, not seen
    Derived,    ///< computed from figures that were read
    Practice,   ///< habit of the trade, no standard
    Own,        ///< a target that a person set
};
/// "read", "read-2", "memory", "derived", "practice" or "own".
[[nodiscard]] QString wordOf(Standing standing);

/// Why a limit has no figures.
enum class Absence : std::uint8_t {
    None,         ///< it has figures
    NotSpecified, ///< the document limits this in other classes and leaves it open here
    Unset,        ///< the figure is not known well enough, or is the user's to choose
};

/// A limit on one quantity, both ends allowed, two-sided where both are there.
struct Limit {
    Quantity quantity = Quantity::CentreLuminance;
    std::optional<double> least;
    std::optional<double> most;
    std::optional<double> nominal;
    Absence absence = Absence::None;
    Standing standing = Standing::Memory;
    QString source;

    friend bool operator==(const Limit&, const Limit&) = default;
};

/// What a set is for.
enum class RoomClass : std::uint8_t {
    Theatre,    ///< least precision for public shows: what an auditorium is judged by
    ReviewRoom, ///< highest practical precision
    Laboratory, ///< test of equipment; no auditorium is accepted by it
    Practice,   ///< no standard behind it
};
/// "theatre", "review-room", "laboratory" or "practice".
[[nodiscard]] QString wordOf(RoomClass roomClass);

/// Limits that belong together, as one edition of one document has them.
struct ToleranceSet {
    ToleranceSetId id;
    QString name;    ///< for people, as the file has it
    QString source;  ///< the document
    QString edition; ///< which edition of it
    RoomClass roomClass = RoomClass::Practice;
    Picture picture = Picture::Digital;
    Convention convention = Convention::FiveOfWidth;
    std::optional<MeterPosition> position; ///< where the document wants the meter; nothing: it was not seen
    std::vector<Place> needs;              ///< points that must be measured, in reading order
    std::vector<Limit> limits;             ///< at most one a quantity, in the order of the file
    Hash document;                         ///< SHA-256 of the file's bytes

    [[nodiscard]] const Limit* limitOn(Quantity quantity) const;

    friend bool operator==(const ToleranceSet&, const ToleranceSet&) = default;
};

/// Between which figures a limit on a quantity makes sense; outside, somebody slipped.
struct PossibleSpan {
    double least = 0;
    double most = 0;
};
[[nodiscard]] PossibleSpan spanOf(Quantity quantity);
[[nodiscard]] bool isUpsideDown(const Limit& limit);

/// The set with this limit in the place of the one that it had on that quantity.
[[nodiscard]] ToleranceSet withLimit(ToleranceSet set, const Limit& limit);

/// The set with a limit of a person's own on one quantity, in the place of the one it had; its standing is
/// Own. Nothing unless the figures are possible for the quantity and at least one of them is
/// there.
[[nodiscard]] std::optional<ToleranceSet>
withOwnLimit(ToleranceSet set, Quantity quantity, std::optional<double> least, std::optional<double> most);

} // namespace coldarc::photometry
