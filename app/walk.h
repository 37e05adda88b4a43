#pragma once

#include "app/folders.h"

#include <QString>

namespace coldarc::app {

/// Walks the first planned swap of the demo through the real pages, on a clock of its own and in a workspace
/// of its own in `folder`: saves a picture of each part, one refused press per gate, and the signed logbook,
/// and prints where they are. Needs a QApplication.
/// @return the exit status: 0 when the visit was closed and every signature verified.
[[nodiscard]] int walk(const QString& folder, const Folders& folders);

} // namespace coldarc::app
