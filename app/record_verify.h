#pragma once

#include "core/base/hash.h"
#include "core/record/verify.h"
#include "core/review/reviewing.h"
#include "core/visit/entry.h"

#include <QByteArray>
#include <QFileDevice>
#include <QHash>
#include <QList>
#include <QString>
#include <QStringList>

#include <span>

namespace coldarc::app {

/// One record file and what was found of it.
struct CheckedRecord {
    QString file;
    QString unread; ///< why it could not be read as a record; empty: it could
    record::Verification found{};
    QHash<PersonId, QString> names{};  ///< as the signed entries have them
    QList<Hash> missing{};             ///< pictures that signed entries name and that are not in the record
    QString office{};                  ///< that has to vouch for every signature; empty: nobody has to
    QList<record::Signed> unvouched{}; ///< signatures for which that office does not
    QList<record::Reviewed> unvouchedReviews{}; ///< the same, of reviews: not as of a supervisor
    /// For each review that verifies: what part its reviewer had in the visit, which makes it none.
    std::vector<std::optional<review::ReviewRefusal>> reviewerParts{};
    /// For each of these: whether there are entries up to there that nobody can tell the people of.
    std::vector<bool> untoldParts{};

    [[nodiscard]] bool isGood() const
    {
        return unread.isEmpty() && found.isGood() && missing.isEmpty() && unvouched.isEmpty() &&
               unvouchedReviews.isEmpty() && !isReviewedByOwn();
    }
    /// Whether somebody reviewed a visit that they had a part in.
    [[nodiscard]] bool isReviewedByOwn() const;
};

/// The entries that its good signatures cover.
[[nodiscard]] std::span<const QByteArray> signedPartOf(const record::Record& record,
                                                       const record::Verification& found);
/// The signatures of a record that verify, in the order of their entries.
[[nodiscard]] QList<review::HeadSigned> signaturesOf(const record::Verification& found);

/// Every entry under its own number; one that cannot be read is an Unknown without a kind.
[[nodiscard]] QList<visit::Entry> entriesIn(const record::Record& record);
/// Whether this program cannot tell what an entry says.
[[nodiscard]] bool isUnreadable(const visit::Entry& entry);
/// Whoever reviewed, by the name that they give and those by which certificates know their key.
[[nodiscard]] review::Reviewer reviewerOf(const record::Reviewed& one);

/// Verifies one that was read.
[[nodiscard]] CheckedRecord checkRecord(const QString& file, const record::Record& record);
/// Reads and verifies the files one after the other.
/// @param office  thumbprint of the key of an office that has to vouch for every signature; empty: nobody has
/// to.
[[nodiscard]] QList<CheckedRecord> checkRecords(const QStringList& files, const QString& office = {});

/// What `coldarc verify` says, and with which exit status: 0 every file is as it was signed; 1 one is not,
/// lacks a picture, is not vouched for by the office that was named, or has a review by somebody who had a
/// part; 2 a file is no record, or the answer could not be written.
struct VerifyReport {
    QByteArray text; ///< for people; with --json one JSON object
    int status = 0;
};
[[nodiscard]] VerifyReport verifyReport(const QList<CheckedRecord>& records, bool asJson);

/// `coldarc verify [--json] [--office THUMBPRINT] FILE...`: the arguments behind "verify". Needs no workspace
/// and no display.
[[nodiscard]] int verifyCommand(const QStringList& arguments);

} // namespace coldarc::app
