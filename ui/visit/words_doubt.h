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

/// The doubts of an entry in short: "lamp on record as returned". Words of label::Doubt that are not known
/// stand as they are.
[[nodiscard]] QString shortWordsOfDoubt(const QString& word);

} // namespace coldarc::ui
