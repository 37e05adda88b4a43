#pragma once

#include "core/people/trust.h"
#include "core/record/intake.h"
#include "core/review/checked_record.h"

namespace coldarc::review {

// What the entries of a record say that comes from another workspace, for core/record/intake.h.

/// Signing and closing say that somebody signed: whether for one of them no key does, for the very person
/// that the entry asks for.
/// @param entries  the signed ones, see signedEntriesIn; @param state  their fold.
[[nodiscard]] bool lacksASignature(const QList<visit::Entry>& entries, const visit::VisitState& state,
                                   const record::Verification& found);

/// What speaks against those who signed, by what offices that are believed here vouch for of their keys: the
/// entries name somebody otherwise, or whoever signed for the work is a trainee or an electrician. None where
/// nobody vouches: that is somebody else's doubt.
/// @param entries  the signed ones, see signedEntriesIn.
[[nodiscard]] record::Intake::Why doubtOfSigners(const QList<visit::Entry>& entries,
                                                 const record::Verification& found,
                                                 const people::Trust& trust);

/// Whether the record has a review that is not kept here.
[[nodiscard]] bool bringsAReview(const record::Verification& found, const record::Standing& standing);

/// What a workspace has of the visit that a record is about.
struct VisitHere {
    QList<visit::Entry> entries{};
    QList<HeadSigned> signatures{};
};
/// What the record and this workspace say of the reviewers of what is not kept here, and of the moment of
/// their reviews. Says nothing of a record with a fault: its reviews may be of entries that are not in it.
/// @param ownNames  by thumbprint of a key, whom the workspace's own list gives it to.
[[nodiscard]] record::EntriesTold toldOfReviews(const record::Record& record, const CheckedRecord& checked,
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
