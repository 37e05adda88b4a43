#pragma once

#include "core/people/person.h"

#include <vector>

namespace coldarc::people {

/// One look at a piece of gear by somebody who passed or withdrew it.
struct GearInspection {
    enum class Outcome : std::uint8_t {
        Passed,
        Withdrawn
    };

    Day on;
    PersonId by;
    Outcome outcome = Outcome::Withdrawn;

    friend bool operator==(const GearInspection&, const GearInspection&) = default;
};

/// One piece of protective gear, as its own marking tells. No general shelf life exists, so only the item's
/// own dates count (Directive 89/686/EEC Annex II 2.4, carried over in Regulation (EU) 2016/425 Annex
/// II 2.4).
struct GearItem {
    GearId id;                    ///< of this very item, not of its kind
    QString kind;                 ///< id text of the catalogue's gear kind: face-shield, gauntlets ...
    QString marking;              ///< as read on the item, for example "EN 166 1 B 8 9"
    QString identifier;           ///< the number that tells it from its twins
    std::optional<Month> made;    ///< nothing: none given
    std::optional<Month> expires; ///< the last month of use; nothing: none given
    std::optional<GearInspection> lastInspection;
    std::optional<PersonId> assignedTo;

    friend bool operator==(const GearItem&, const GearItem&) = default;
};

/// What the wearer says of the item just before use. Damaged gear is withdrawn at once (AUVA, Austrian
/// accident insurer, lexicon on protective gear; 29 CFR 1910.132(e), from memory).
enum class GearCondition : std::uint8_t {
    NoDamageSeen,
    Damaged
};

enum class GearRefusal : std::uint8_t {
    Damaged,
    PastItsMonth, ///< the month after its last one has begun
    WithdrawnAtInspection,
    DatesContradict, ///< made later than today or later than it expires: the marking was read wrongly
};

/// Fit to be worn when nothing speaks against it.
struct GearVerdict {
    std::vector<GearRefusal> refusals; ///< all that speak against it, each once

    [[nodiscard]] bool isFit() const { return refusals.empty(); }
    friend bool operator==(const GearVerdict&, const GearVerdict&) = default;
};

/// An item holds to the last day of the month that it names. Pre: `today` exists.
[[nodiscard]] GearVerdict gearVerdict(const GearItem& item, Day today, GearCondition condition);

} // namespace coldarc::people
