#pragma once

#include <QString>

#include <array>
#include <cstdint>
#include <optional>

namespace coldarc::lamps {

/// Where a lamp is, and who answers for it.
enum class Custody : std::uint8_t {
    OnOrder,
    InStock,
    InVan,
    Fitted,
    Boxed,    ///< taken out, in its box, not yet given away
    Returned, ///< to the maker or dealer
    Recycled, ///< by someone trained; the end
    Burst,    ///< in pieces, not yet given away
    KeptBySite,
    Unused, ///< brought for a swap that did not need it
};
inline constexpr int kCustodies = static_cast<int>(Custody::Unused) + 1;
inline constexpr std::array<Custody, kCustodies> kEveryCustody{
    Custody::OnOrder,  Custody::InStock,  Custody::InVan, Custody::Fitted,     Custody::Boxed,
    Custody::Returned, Custody::Recycled, Custody::Burst, Custody::KeptBySite, Custody::Unused};

/// Lower case with dashes, for example "in-van".
[[nodiscard]] QString wordOf(Custody custody);
[[nodiscard]] std::optional<Custody> custodyFromWord(const QString& word);

/// Whether a lamp can go from one custody straight to another. Never to the one it is in. A lamp comes out of
/// its seat only boxed or burst; nothing comes back from being recycled; a burst lamp is only given away.
[[nodiscard]] bool canMove(Custody from, Custody to);

/// Whether a lamp that was not known before can turn up there.
[[nodiscard]] bool canBeginAs(Custody custody);

} // namespace coldarc::lamps
