#pragma once

#include "tests/architecture/source_text.h"

#include <QMap>
#include <QSet>
#include <QString>
#include <QStringList>

namespace coldarc::test {

/// The table of rooms at the end of CMakeLists.txt, as CMake wrote it out: each room with the rooms of its
/// row.
using Rooms = QMap<QString, QSet<QString>>;

/// One line per room: `core/site:core/base,core/store`. Empty lines are skipped.
[[nodiscard]] Rooms roomsFromText(const QString& text);

/// The table as it was when the build was configured.
[[nodiscard]] Rooms readRooms();

/// What a file of this room may include. A core room: itself and its row. A ui room: itself, its row, and
/// whatever core rooms those use in turn, `core/store` excepted even where the row names it.
[[nodiscard]] QSet<QString> mayUse(const QString& room, const Rooms& rooms);

/// Every include of a file in core, ui or app that the table does not allow, as `file:line what; cure`. A
/// file anywhere else may include what it likes.
[[nodiscard]] QStringList includeComplaints(const SourceFile& file, const Rooms& rooms);

/// Rows of the table that no row may have: a core room that uses a face, a ui room that uses `core/store`.
[[nodiscard]] QStringList tableComplaints(const Rooms& rooms);

} // namespace coldarc::test
