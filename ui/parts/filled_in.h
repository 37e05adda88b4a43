#pragma once

#include <QStringList>

class QWidget;

namespace coldarc::ui {

/// What stands in the boxes, choices, ticks and lists of a form, so that two moments can be compared. Of a
/// secret only how long it is.
[[nodiscard]] QStringList filledIn(const QWidget& form);

/// Why another row did not open: what was filled in would be gone.
[[nodiscard]] QString formStays();

} // namespace coldarc::ui
