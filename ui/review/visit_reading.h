#pragma once

#include "core/report/report.h"
#include "core/review/kept_papers.h"
#include "core/review/replay.h"
#include "core/review/shown_time.h"

#include <QHash>
#include <QSet>

#include <functional>
#include <memory>

namespace coldarc::ui {

using review::ReadReview;

/// One visit as the review desk reads it from its logbook: everything on it is worked out once, away from the
/// window.
struct VisitReading {
    VisitId visit;
    report::Report report; ///< of the entries that are as they were written
    review::Replay replay; ///< of the same
    review::ShownTime time{report.entries};
    /// The first entry that is not as it was written, with its number; nothing where the chain is whole. It
    /// and those behind it are not in the report.
    std::optional<qint64> breaksAt{};
    /// Of a chain that is whole as far as it goes: an entry that somebody signed or reviewed and that is not
    /// there any more; `breaksAt` is the first one that is missing then.
    std::optional<qint64> cutOffAt{};
    QSet<QString> ownKeys{};           ///< thumbprints of those that stand on this workspace's own list
    QHash<QString, QString> offices{}; ///< thumbprints of the offices that are believed here, to their names
    QList<review::HeadSigned> signatures{}; ///< every one that was kept
    QList<ReadReview> reviews{};            ///< in the order of core/record/review_store.h
    qsizetype alteredReviews = 0;           ///< rows that are not as they were kept, and say nothing

    /// What those say that count: by these it stands.
    [[nodiscard]] QList<record::Review> reviewsSaid() const
    {
        QList<record::Review> all;
        for (const ReadReview& one : reviews) {
            if (one.isCounted())
                all.append(one.review);
        }
        return all;
    }
    [[nodiscard]] review::VisitAtReview atReview() const
    {
        return {report.state, report.entries, report.head, signatures, reviewsSaid()};
    }
};

/// Reads a visit. Called on any thread, so it touches nothing that somebody else may. Error::NotFound where
/// there is no such visit, Malformed where its entries are no visit, Storage.
using VisitRead = std::function<Result<std::shared_ptr<VisitReading>>(const VisitId& visit)>;

} // namespace coldarc::ui
