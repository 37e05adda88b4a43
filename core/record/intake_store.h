#pragma once

#include "core/people/office_store.h"
#include "core/record/intake.h"
#include "core/store/database.h"

namespace coldarc::record {

/// A record that waits.
struct WaitingRecord {
    Hash file; ///< SHA-256 of its bytes
    VisitId visit;
    Intake::Why why = Intake::Why::UnknownOffice;
    WallTime receivedAt{};
    PersonId receivedBy;
    qint64 bytes = 0; ///< of the file

    friend bool operator==(const WaitingRecord&, const WaitingRecord&) = default;
};

/// Records of other workspaces in this one: those that were taken, and those that wait.
class IntakeStore {
public:
    /// A larger file cannot wait. Bytes.
    static constexpr qint64 kMostWaitingBytes = qint64{64} << 20;
    /// All that wait together: they are carried along in every backup. Bytes.
    static constexpr qint64 kMostWaitingInAllBytes = qint64{256} << 20;

    /// Borrows the database, which must outlive this. Schema: steps 0001, 0009, 0010 and 0013.
    explicit IntakeStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// What stands here of the visit.
    [[nodiscard]] Result<Standing> standing(const VisitId& visit) const;
    /// Adds entries, signatures, reviews and pictures in one transaction. Pre: the verdict is Take.
    /// @param named  those pictures that the signed entries name: no others are kept.
    Result<void> take(const Record& record, const Intake& intake, const QList<Hash>& named,
                      const PersonId& by, const Stamp& now);
    /// Keeps a whole file apart; the same one again is kept once, with what it waits for now. Malformed for
    /// one that is too large, alone or with those that wait.
    Result<void> wait(const QByteArray& file, const VisitId& visit, Intake::Why why, const PersonId& by,
                      const Stamp& now);

    /// In the order in which they came.
    [[nodiscard]] Result<std::vector<WaitingRecord>> waiting() const;
    /// NotFound if it does not wait.
    [[nodiscard]] Result<QByteArray> fileOf(const Hash& file) const;
    /// It waits no longer. One that did not is no error.
    Result<void> release(const Hash& file);

    /// The visits that came from other workspaces.
    [[nodiscard]] Result<QSet<VisitId>> received() const;
    /// Whether this one did.
    [[nodiscard]] Result<bool> isReceived(const VisitId& visit) const;

private:
    Result<void> keepSignatures(const Record& record, const Intake& intake);
    Result<void> keepReviews(const Record& record, const Intake& intake, const Stamp& now);

    store::Database* m_database;
};

} // namespace coldarc::record
