#pragma once

#include "core/base/hash.h"
#include "core/visit/state.h"

#include <QString>
#include <QTimeZone>

class QPagedPaintDevice;
class QTextDocument;

namespace coldarc::ui {

/// One visit on paper: who, what, lamp out and in, hours, gates with their times, what went wrong, what was
/// out of the ordinary, signatures. Plain, black on white, no colours that carry a meaning.
/// @param head  of the chain that the page was made from.
[[nodiscard]] QString printedPage(const visit::VisitState& state, const QList<visit::Entry>& entries,
                                  const Hash& head, const QTimeZone& zone);

/// Lays the page out for this paper and prints it; as many sheets as it needs.
void printPage(const QString& html, QPagedPaintDevice& paper);

/// Writes an A4 PDF. False if the file could not be written.
[[nodiscard]] bool writePdf(const QString& html, const QString& path);

/// How wide the page really is when it is laid out for a sheet of this width, in the same unit: no wider than
/// the sheet means that nothing is cut off.
[[nodiscard]] double widthLaidOut(const QString& html, double sheetWidth);

} // namespace coldarc::ui
