#pragma once

#include "core/record/intake.h"
#include "core/review/reviewing.h"

#include <QHash>

namespace coldarc::review {

// A record of a visit, to whoever understands its entries.

/// Every entry under its own number; one that cannot be read is an Unknown without a kind.
[[nodiscard]] QList<visit::Entry> entriesIn(const record::Record& record);
/// Whether this program cannot tell what an entry says.
[[nodiscard]] bool isUnreadable(const visit::Entry& entry);
/// The signatures of a record that verify, in the order of their entries.
[[nodiscard]] QList<HeadSigned> signaturesOf(const record::Verification& found);
/// Whoever reviewed, by the name that they give and those by which certificates know their key.
[[nodiscard]] Reviewer reviewerOf(const record::Reviewed& one);

/// What speaks against a record that holds what was signed, by what its entries say: for whatever of it a
/// workspace would let it wait, or refuse it.
struct RecordDoubts {
    using Why = record::Intake::Why;
    bool opensAnother = false;               ///< visit than the one that it is of
    QList<visit::WantedSignature> missing{}; ///< where signing or closing asks for one and no key signed
    std::vector<Why> signatures{};           ///< for each that verifies: None, or what speaks against it
    std::vector<QList<Why>> reviews{};       ///< the same of reviews: everything

    /// Whether somebody's word for the work is one: reviews may be given anew.
    [[nodiscard]] bool isGood() const;

    friend bool operator==(const RecordDoubts&, const RecordDoubts&) = default;
};

/// One record file and what was found of it.
struct CheckedRecord {
    QString file;
    QString unread; ///< why it could not be read as a record; empty: it could
    record::Verification found{};
    QList<visit::Entry> entries{};     ///< see entriesIn
    QHash<PersonId, QString> names{};  ///< as the signed entries have them
    bool isOver = false;               ///< the visit, by its signed entries
    QList<Hash> named{};               ///< pictures that signed entries name
    QList<Hash> missing{};             ///< those of them that are not in the record
    QList<Hash> unnamed{};             ///< pictures of the record that no entry names: no part of the visit
    QList<Hash> namedUnsigned{};       ///< those that an entry alone names, or may name, which nobody signed
    QString office{};                  ///< that has to vouch for every signature; empty: nobody has to
    QList<record::Signed> unvouched{}; ///< signatures for which that office does not
    QList<record::Reviewed> unvouchedReviews{}; ///< the same, of reviews: not as of a supervisor
    /// For each review that verifies: what part its reviewer had in the visit, which makes it none.
    std::vector<std::optional<ReviewRefusal>> reviewerParts{};
    /// For each of these: whether there are entries up to there that nobody can tell the people of.
    std::vector<bool> untoldParts{};
    RecordDoubts doubts{}; ///< see doubtsOf; empty where nobody asked

    [[nodiscard]] bool isGood() const
    {
        return unread.isEmpty() && isAsSigned() && unvouched.isEmpty() && unvouchedReviews.isEmpty() &&
               !isReviewedByOwn() && doubts.isGood();
    }
    /// Whether it holds what was signed, the whole of it and nothing besides.
    [[nodiscard]] bool isAsSigned() const { return found.isGood() && missing.isEmpty() && unnamed.isEmpty(); }
    /// Whether somebody reviewed a visit that they had a part in.
    [[nodiscard]] bool isReviewedByOwn() const;
};

/// The entries that its good signatures cover, as far as this program understands them.
[[nodiscard]] QList<visit::Entry> signedEntriesIn(const CheckedRecord& checked);

/// Verifies one that was read.
/// @param office  thumbprint of the key of an office that has to vouch for every signature; empty: nobody has
///                to.
[[nodiscard]] CheckedRecord checkRecord(const QString& file, const record::Record& record,
                                        const QString& office = {});

} // namespace coldarc::review
