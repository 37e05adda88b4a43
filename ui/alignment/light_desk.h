#pragma once

#include "core/visit/state.h"
#include "ui/parts/wait_ring.h"

#include <QStringList>

#include <optional>

namespace coldarc::ui {

/// The visit as the light page needs it. Whoever opens the page brings it.
class LightDesk {
public:
    LightDesk() = default;
    LightDesk(const LightDesk&) = delete;
    LightDesk& operator=(const LightDesk&) = delete;
    virtual ~LightDesk() = default;

    /// The visit as it stands now.
    [[nodiscard]] virtual visit::VisitState seen() const = 0;
    [[nodiscard]] virtual const Clock& clock() const = 0;
    /// Asks the logbook. What stands in the way, in sentences; empty: it is kept.
    virtual QStringList tell(const visit::Body& asked) = 0;
    /// "Screen 4".
    [[nodiscard]] virtual QString placeOf(const visit::VisitState& state,
                                          const visit::SwapState& swap) const = 0;
    /// The settle wait of the swap's lamp; nothing while none runs.
    [[nodiscard]] virtual std::optional<WaitView> settleWait(const visit::VisitState& state,
                                                             const visit::SwapState& swap) const = 0;
    /// Which end MAKE SAFE leads to.
    [[nodiscard]] virtual QString makeSafeEnd(const visit::VisitState& state,
                                              const visit::SwapState& swap) const = 0;
};

} // namespace coldarc::ui
