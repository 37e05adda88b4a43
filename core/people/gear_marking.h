#pragma once

#include <QString>

#include <optional>

namespace coldarc::people {

/// What the marking on a piece of gear promises. The figures are those of the standards as trade pages quote
/// them; the standards themselves were not read.
struct GearMarking {
    enum class Standard : std::uint8_t {
        En166,    ///< eye and face: "EN 166 1 B T 9"
        Iso16321, ///< eye and face, follows EN 166: "ISO 16321-1 D"
        En388,    ///< gloves: "EN 388 4X43FP"; four places before 2016
        Isea105,  ///< gloves: "ANSI/ISEA 105 A4"
    };
    Standard standard = Standard::En166;
    std::optional<int> opticalClass;    ///< EN 166: 1 is for lasting wear, 3 for a moment
    std::optional<double> impactSpeed;  ///< m/s of a small steel ball that it stops
    bool holdsHotAndCold = false;       ///< EN 166 T: the same at -5 and +55 degrees Celsius
    bool holdsMolten = false;           ///< EN 166 field 9: molten metal and hot solids
    bool isForFaceShieldsOnly = false;  ///< EN 166 A
    std::optional<double> cutForce;     ///< EN 388, fifth place: N at which a blade cuts through 20 mm
    std::optional<double> cutGramForce; ///< ISEA 105: gf

    friend bool operator==(const GearMarking&, const GearMarking&) = default;
};

/// Nothing: it names none of these standards, or does not follow the one that it names; what the wearer sees
/// of the item counts all the same. Spaces and case do not matter after the standard's name.
[[nodiscard]] std::optional<GearMarking> gearMarkingFrom(const QString& text);

/// A marking that a piece of this kind cannot carry has been read wrongly, or sits on another piece.
/// @param kind  id text of the catalogue's gear kind: face-shield, safety-glasses, gauntlets ...
[[nodiscard]] bool contradicts(const GearMarking& marking, const QString& kind);

} // namespace coldarc::people
