#pragma once

#include "core/base/result.h"
#include "core/label/doubts.h"

#include <QList>

namespace coldarc::ui {

/// What the workspace knows of lamps and pictures besides the visit in hand. The program's root brings the
/// real one.
class LampRecords {
public:
    virtual ~LampRecords() = default;
    [[nodiscard]] virtual Result<QList<label::KnownLamp>> lamps() const = 0;
    /// Every visit for which one of these pictures was kept.
    [[nodiscard]] virtual Result<QList<label::KnownPicture>> pictures(const QList<Hash>& wanted) const = 0;
    /// A code that no rule reads is kept for a supervisor to teach. Nothing hangs on it: it may be lost.
    virtual void couldNotRead(const QString& scanned) const = 0;
};

} // namespace coldarc::ui
