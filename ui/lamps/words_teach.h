#pragma once

#include "core/label/teaching.h"

#include <QString>
#include <QStringList>

namespace coldarc::ui {

/// What speaks against a lesson, and what to do.
[[nodiscard]] QString wordsOf(label::TeachFault fault);

/// How the lesson's code would be read, then what becomes of the codes on record: how many, and each that
/// changes.
[[nodiscard]] QStringList wordsOf(const QList<label::Reread>& rereads, int currentYear);

/// "type = (01), serial = (21)"; "ORDER {type}/{serial}".
[[nodiscard]] QString wordsOf(const catalogue::LabelRule& rule);

} // namespace coldarc::ui
