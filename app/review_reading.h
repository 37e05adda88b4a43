#pragma once

#include "core/people/trust.h"
#include "core/store/database.h"
#include "core/store/summaries.h"
#include "ui/review/visit_reading.h"

namespace coldarc::app {

/// Reads one visit for the review desk: its entries, each held against the chain, its signatures, each held
/// against the entry that it is over and against who vouches for the key. Everything is worked out from the
/// logbook; summaries are not asked.
///
/// A chain that breaks is told, and what stands before the break is read. Error::NotFound where there is no
/// such visit, Malformed where what is left is no visit, Storage.
[[nodiscard]] Result<std::shared_ptr<ui::VisitReading>> readForReview(store::Database& database,
                                                                      const VisitId& visit);
/// The same over a connection of its own, for a thread of its own.
[[nodiscard]] Result<std::shared_ptr<ui::VisitReading>> readForReview(const QString& file,
                                                                      const VisitId& visit);

/// The bytes of a kept picture, over a connection of its own. Error::NotFound where it is not there,
/// Malformed where it is not as it was kept, Storage.
[[nodiscard]] Result<QByteArray> readPicture(const QString& file, const Hash& picture);

/// Holds the reviews of a visit against everything that stands here now, and tells the lists which of them
/// count for nobody: the row was altered, the signature is not the reviewer's, the key was out of use, the
/// reviewer had a part. Does nothing to the visit and its reviews themselves. Error::Storage.
Result<void> checkReviews(store::Database& database, const VisitId& visit);
/// The same of a visit that was just read as it stands, whose signatures and reviews are by keys that `trust`
/// knows all that the workspace knows of.
struct JustRead {
    const people::Trust& trust;
    const QList<visit::Entry>& entries;
    const QList<review::HeadSigned>& signatures;
};
Result<void> checkReviews(store::Database& database, const VisitId& visit, const JustRead& just);

/// The signatures that are kept of a visit, see review::readSignatures.
/// @param entries  of that visit, as they are kept; `said`: what they say. Error::Storage.
[[nodiscard]] Result<QList<review::HeadSigned>> readSigned(store::Database& database, const VisitId& visit,
                                                           const std::vector<store::Entry>& entries,
                                                           const QList<visit::Entry>& said);
/// The same with what the workspace knows of every key that signed.
[[nodiscard]] Result<QList<review::HeadSigned>> readSigned(store::Database& database, const VisitId& visit,
                                                           const std::vector<store::Entry>& entries,
                                                           const QList<visit::Entry>& said,
                                                           const people::Trust& trust);

/// What lists show of a visit, with what its signatures tell. For `store::Summaries::makeNext`. Malformed as
/// of visit::summariseBy, Error::Storage.
[[nodiscard]] Result<store::VisitSummary> summarise(store::Database& database, const VisitId& visit,
                                                    const std::vector<store::Entry>& entries);

} // namespace coldarc::app
