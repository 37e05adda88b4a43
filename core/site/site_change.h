#pragma once

#include "core/catalogue/catalogue.h"
#include "core/site/site.h"

#include <tl/expected.hpp>

namespace coldarc::site {

/// Why a breaker is not the one that somebody says.
enum class BreakerFault : std::uint8_t {
    UnknownPoint,
    LockDiffers,    ///< the site has a breaker there, and one of the two takes a lock
    FeedsItAlready, ///< the site has a breaker there, which feeds one of the lamphouses in another part
    PartTakesNone   ///< it plays a part that takes no lock, by the model of a projector that it feeds
};

/// A breaker that was put down wrongly: what it feeds is fed by the one of this panel and circuit. Where the
/// site has that one already the two become one. Its name is made anew: one that tells of another circuit
/// would mislead.
[[nodiscard]] tl::expected<SiteDocument, BreakerFault>
withBreakerAt(SiteDocument document, const PointId& point, const QString& panel, const QString& circuit);

/// A breaker of which it was put down wrongly whether it takes a lock. That it takes none is always believed:
/// it proves nothing dead then.
[[nodiscard]] tl::expected<SiteDocument, BreakerFault>
withLock(SiteDocument document, const PointId& point, bool takesLock, const catalogue::Catalogue& catalogue);

} // namespace coldarc::site
