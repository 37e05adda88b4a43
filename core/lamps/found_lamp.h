#pragma once

#include "core/lamps/in_hand.h"
#include "core/lamps/lamp_store.h"

namespace coldarc::lamps {

/// Where somebody looked, and when. Not into a lamphouse that an unfinished visit has in hand: what is in
/// there says that visit alone, or its end would find another seat than it left.
///
/// What was in there by the book is out of it, nobody knows since when: it stands as boxed at that site until
/// somebody says what became of it.
struct Look {
    SiteId site;
    LamphouseId lamphouse;
    WallTime at;
};

/// Why a lamp of the workspace cannot be in the lamphouse that somebody looked into.
enum class FoundFault : std::uint8_t {
    InAnotherLamphouse,
    Gone,   ///< burst, or given away
    InHand, ///< an unfinished visit brings it, and says where it is
};
/// Nothing where it can be, or where the workspace knows none of this type and serial.
[[nodiscard]] std::optional<FoundFault> faultOfFound(const LampStore& lamps, const LamphouseId& lamphouse,
                                                     const LampTypeId& type, const QString& serial,
                                                     const InHand& inHand);

/// This lamp is in there. One of its type and serial that the workspace has is that one, and keeps the hours
/// that are known of it; `lamp.id` is then not used.
/// @param counter  of the lamphouse, as it stands now; nothing: not known.
/// @return which lamp it is. Conflict where the lamphouse is in hand or `faultOfFound` says so. Belongs into
/// `LampStore::together`.
Result<LampId> sayFound(LampStore& lamps, IdSource& ids, const Look& look, const Lamp& lamp,
                        const std::optional<CounterHours>& counter, const InHand& inHand);

/// Nobody knows which lamp is in there. Conflict where the lamphouse is in hand. Belongs into
/// `LampStore::together`.
Result<void> sayUnknown(LampStore& lamps, IdSource& ids, const Look& look, const InHand& inHand);

} // namespace coldarc::lamps
