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
};

} // namespace coldarc::ui
