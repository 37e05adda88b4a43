#pragma once

#include "core/label/doubts.h"
#include "core/visit/state.h"

#include <QString>
#include <QStringList>

namespace coldarc::ui {

/// What memory says against a lamp, and what to do about it.
/// @param entry  the serial as it was entered.
[[nodiscard]] QString wordsOf(const label::Doubt& doubt, const QString& entry,
                              const visit::VisitState& state);

/// What can be answered where a lamp goes in in spite of a doubt; kept in the logbook as it stands here.
[[nodiscard]] QStringList answersToDoubts();

/// A doubt of an entry in short: "lamp on record as returned". A word of label::Doubt that is not known
/// stands as it is.
/// @param kept  as label::keptAs has it, or as older entries do.
[[nodiscard]] QString shortWordsOfDoubt(const QString& kept);

} // namespace coldarc::ui
