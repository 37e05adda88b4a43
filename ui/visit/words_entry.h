#pragma once

#include "core/visit/state.h"

#include <QStringList>

namespace coldarc::ui {

/// One entry of a logbook, as a person would say it.
struct EntryWords {
    QString what;     ///< "Try to start it", "Note", "Voltage was found"
    QStringList more; ///< one line each: place, answers, reason, gates that waited, countersign
    QString section;  ///< of a step: "Screen 2 · Cold and dead"; or empty

    friend bool operator==(const EntryWords&, const EntryWords&) = default;
};

/// @param entries  the whole logbook, since an entry may speak of an earlier one.
/// @param state    the fold of it: it knows the names.
[[nodiscard]] EntryWords wordsOf(const QList<visit::Entry>& entries, qint64 number,
                                 const visit::VisitState& state);

/// Somebody of the visit by name; their id where the visit does not know them.
[[nodiscard]] QString nameOfPerson(const visit::VisitState& state, const PersonId& id);

/// A gate by the word that entries keep: "Cold". A word that is none stands as it is.
[[nodiscard]] QString gateByWord(const QString& word);
/// How a visit ended, by its word: "done", "made safe: as it was"; "not closed yet" while it is open.
[[nodiscard]] QString endWords(const QString& end);
/// How a visit that was made safe left the machine: "as it was".
[[nodiscard]] QString leftWords(const QString& end);

} // namespace coldarc::ui
