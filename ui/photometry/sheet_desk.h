#pragma once

#include "core/visit/state.h"

#include <QStringList>
#include <QTimeZone>

namespace coldarc::ui {

/// The visit as the screen sheet needs it. Whoever opens the page brings it.
class SheetDesk {
public:
    SheetDesk() = default;
    SheetDesk(const SheetDesk&) = delete;
    SheetDesk& operator=(const SheetDesk&) = delete;
    virtual ~SheetDesk() = default;

    /// The visit as it stands now.
    [[nodiscard]] virtual visit::VisitState seen() const = 0;
    [[nodiscard]] virtual const Clock& clock() const = 0;
    [[nodiscard]] virtual QTimeZone zone() const = 0;
    /// Asks the logbook. What stands in the way, in sentences; empty: it is kept.
    virtual QStringList tell(const visit::Body& asked) = 0;
    /// "Screen 4".
    [[nodiscard]] virtual QString placeOf(const visit::VisitState& state,
                                          const visit::SwapState& swap) const = 0;
};

} // namespace coldarc::ui
