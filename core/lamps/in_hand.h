#pragma once

#include "core/base/clock.h"
#include "core/base/ids.h"

#include <QHash>
#include <QSet>

namespace coldarc::lamps {

/// What unfinished visits have in hand. Until they end they alone tell of these lamphouses and lamps: no
/// other visit opens there or brings one of them, and nobody says from elsewhere what is in there.
struct InHand {
    QHash<LamphouseId, WallTime> lamphouses{}; ///< since when
    QSet<LampId> lamps{};

    [[nodiscard]] bool has(const LamphouseId& lamphouse) const { return lamphouses.contains(lamphouse); }
    [[nodiscard]] bool has(const LampId& lamp) const { return lamps.contains(lamp); }
    friend bool operator==(const InHand&, const InHand&) = default;
};

} // namespace coldarc::lamps
