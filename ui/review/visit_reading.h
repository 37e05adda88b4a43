#pragma once

#include "core/report/report.h"
#include "core/review/replay.h"

#include <QHash>

#include <functional>
#include <memory>

namespace coldarc::ui {

/// One visit as the review desk reads it from its logbook: everything on it is worked out once, away from the
/// window.
struct VisitReading {
    VisitId visit;
    report::Report report; ///< of the entries that are as they were written
    review::Replay replay; ///< of the same
    /// The first entry that is not as it was written, with its number; nothing where the chain is whole. It
    /// and those behind it are not in the report.
    std::optional<qint64> breaksAt{};
    QHash<QString, QString> owners{};  ///< thumbprints of keys to people, by the list of this workspace
    QHash<QString, QString> offices{}; ///< thumbprints of the offices that are believed here, to their names
};

/// Reads a visit. Called on any thread, so it touches nothing that somebody else may. Error::NotFound where
/// there is no such visit, Malformed where its entries are no visit, Storage.
using VisitRead = std::function<Result<std::shared_ptr<VisitReading>>(const VisitId& visit)>;

} // namespace coldarc::ui
