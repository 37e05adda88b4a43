#pragma once

#include "core/people/trust.h"
#include "core/record/intake.h"
#include "core/review/checked_record.h"
#include "core/visit/state.h"

#include <map>

namespace coldarc::review {

// What the entries of a record say that comes from another workspace, for core/record/intake.h.

/// What the entries of a record add up to.
struct FoldedRecord {
    QList<visit::Entry> entries; ///< see signedEntriesIn
    visit::VisitState state;     ///< their fold
    /// By the number of the last entry that a review looked at: what speaks against it by the entries up to
    /// there.
    std::map<qint64, record::Intake::Why> doubts{};
    /// Entries that close the visit where nobody was hurt: whoever led the work signs there.
    QSet<qint64> ledClosings{};
};
/// Folds each entry once, as far as somebody put a name to it. Says nothing of the reviews of a record with a
/// fault: they may be of entries that are not in it.
[[nodiscard]] FoldedRecord foldRecord(const CheckedRecord& checked);

/// Whether the first entry opens another visit than the record is of: the entries of the one, signed once
/// more, would stand as a second one here.
[[nodiscard]] bool opensAnother(const FoldedRecord& folded, const VisitId& visit);

/// Signing and closing say that somebody signed: whether for one of them no key does, for the very person
/// that the entry asks for.
[[nodiscard]] bool lacksASignature(const FoldedRecord& folded, const record::Verification& found);

/// The same, those signatures.
[[nodiscard]] QList<visit::WantedSignature> missingSignatures(const FoldedRecord& folded,
                                                              const record::Verification& found);

/// What speaks against those who signed, by what offices that are believed here vouch for of their keys: the
/// entries name somebody otherwise, or whoever signed for the work is a trainee or an electrician. None where
/// nobody vouches: that is somebody else's doubt.
/// A signature that says to be older than its entry is doubted as well. Of one that is kept here nothing is
/// asked again.
[[nodiscard]] record::Intake::Why doubtOfSigners(const FoldedRecord& folded,
                                                 const record::Verification& found,
                                                 const people::Trust& trust,
                                                 const record::Standing& standing = {});

/// Everything that a record tells against itself, by nothing but what is in it: whose a key is say its own
/// offices. Nothing of one with a fault.
/// @param now  a review that is dated after it is misdated; nothing: that is not looked at.
[[nodiscard]] RecordDoubts doubtsOf(const CheckedRecord& checked, const FoldedRecord& folded,
                                    std::optional<WallTime> now = {});

/// Whether the record has a review that is not kept here.
[[nodiscard]] bool bringsAReview(const record::Verification& found, const record::Standing& standing);

/// What a workspace has of the visit that a record is about.
struct VisitHere {
    QList<visit::Entry> entries{};
    QList<HeadSigned> signatures{};
};
/// What the record and this workspace say of the reviewers of what is not kept here, and of the moment of
/// their reviews. Says nothing of a record with a fault, see foldRecord.
/// @param ownNames  by thumbprint of a key, whom the workspace's own list gives it to.
[[nodiscard]] record::EntriesTold toldOfReviews(const CheckedRecord& checked, const FoldedRecord& folded,
                                                const record::Standing& standing, const VisitHere& here,
                                                const QHash<QString, QString>& ownNames, WallTime now);

/// Whether somebody of this workspace reviewed, with the key that was theirs then, who could supervise the
/// visit on that day.
/// @param known     of the key that signed the review, by the workspace.
/// @param reviewer  who they say they are, as the workspace has them.
/// @param day       of the review.
[[nodiscard]] bool isByOwnSupervisor(const people::KnownOfKey& known, const Reviewer& reviewer,
                                     const visit::VisitState& state, people::Day day);

} // namespace coldarc::review
