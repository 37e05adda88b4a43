#include "core/record/intake.h"

#include "core/base/words.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::record {
namespace {

using Becomes = Intake::Verdict;
using Listed = people::KnownOfKey::Listed;
using Why = Intake::Why;

constexpr Words<Why, 21> kWords{{{Why::None, u"none"},
                                 {Why::NotAsSigned, u"not-as-signed"},
                                 {Why::PictureMissing, u"picture-missing"},
                                 {Why::NobodyVouches, u"nobody-vouches"},
                                 {Why::UnknownOffice, u"unknown-office"},
                                 {Why::GoneTwoWays, u"gone-two-ways"},
                                 {Why::OwnVisit, u"own-visit"},
                                 {Why::NotUnderstood, u"not-understood"},
                                 {Why::SignatureMissing, u"signature-missing"},
                                 {Why::ReviewerTookPart, u"reviewer-took-part"},
                                 {Why::KeyOutOfUse, u"key-out-of-use"},
                                 {Why::ReviewerNotVouched, u"reviewer-not-vouched"},
                                 {Why::ReviewerNamedOtherwise, u"reviewer-named-otherwise"},
                                 {Why::VisitNotOver, u"visit-not-over"},
                                 {Why::ReviewMisdated, u"review-misdated"},
                                 {Why::ReviewOfUnsigned, u"review-of-unsigned"},
                                 {Why::SignerNamedOtherwise, u"signer-named-otherwise"},
                                 {Why::PictureUnnamed, u"picture-unnamed"},
                                 {Why::LeadNotVouched, u"lead-not-vouched"},
                                 {Why::OpensAnother, u"opens-another"},
                                 {Why::SignatureMisdated, u"signature-misdated"}}};

people::KnownOfKey knownHere(const Signed& one, const Believed& believed)
{
    return believed.trust.of(one.thumbprint, one.statement.person, one.heldAt);
}

people::KnownOfKey knownHere(const Reviewed& one, const Believed& believed)
{
    return believed.trust.of(one.said.thumbprint, one.said.review.by, one.heldAt);
}

/// Whether the record or this workspace knows that the key was out of use then.
template<class Paper>
bool isGone(const Paper& one, const Believed& believed)
{
    return one.known.isOutOfUseFor(believed.trust.offices()) || !knownHere(one, believed).outOfUse.empty();
}

bool isKept(const Reviewed& one, const Standing& standing)
{
    return standing.reviews.contains(one.id.bytes());
}

/// Of a key of this workspace the workspace alone says whose it is, whatever an office certified.
bool isBelieved(const Reviewed& one, const Believed& believed)
{
    return believed.reviews.contains(one.id.bytes()) ||
           (knownHere(one, believed).listed == Listed::No && isVouchedFor(one, believed.trust.offices()));
}

bool isAnyKeyGone(const Verification& found, const Believed& believed, const Standing& standing)
{
    const auto isSignersGone = [&](const Signed& one) {
        return isGone(one, believed) || knownHere(one, believed).listed == Listed::Retired;
    };
    return std::ranges::any_of(found.signatures, isSignersGone) ||
           std::ranges::any_of(found.reviews, [&](const Reviewed& one) {
               return !isKept(one, standing) && isGone(one, believed);
           });
}

/// Why the signatures and reviews are not believed here, or nothing.
Why doubtOf(const Verification& found, const Believed& believed, const Standing& standing)
{
    if (isAnyKeyGone(found, believed, standing))
        return Why::KeyOutOfUse;
    Why why = Why::None;
    for (const Signed& one : found.signatures) {
        const bool isOthersHere = knownHere(one, believed).listed == Listed::Others;
        if (one.isFormer || one.known.vouchedBy.empty() || isOthersHere)
            return Why::NobodyVouches;
        if (!isVouchedFor(one, believed.trust.offices()))
            why = Why::UnknownOffice;
    }
    const bool areReviewsBelieved = std::ranges::all_of(found.reviews, [&](const Reviewed& one) {
        return isKept(one, standing) || isBelieved(one, believed);
    });
    return why == Why::None && !areReviewsBelieved ? Why::ReviewerNotVouched : why;
}

/// How many entries somebody put a name to who is part of what is taken: signers, and reviewers of what
/// stands.
std::size_t namedUpTo(const Verification& found, std::size_t there)
{
    auto upTo = found.signedUpTo + 1;
    for (const Reviewed& one : found.reviews) {
        if (one.said.review.entry < static_cast<qint64>(there))
            upTo = std::max(upTo, one.said.review.entry + 1);
    }
    return static_cast<std::size_t>(upTo);
}

/// A signature or a review that is not there, over an entry that is there in the end.
bool isAnyNew(const Record& record, const Verification& found, const Standing& standing, qint64 entries)
{
    return std::ranges::any_of(record.signatures,
                               [&](const HeadSignature& one) {
                                   return !standing.signatures.contains(one.signature.bytes());
                               }) ||
           std::ranges::any_of(found.reviews, [&](const Reviewed& one) {
               return one.said.review.entry < entries && !isKept(one, standing);
           });
}

/// A review that is not here, of entries that are not here in the end.
bool isAnyOfUnsigned(const Verification& found, const Standing& standing, qint64 entries)
{
    return std::ranges::any_of(found.reviews, [&](const Reviewed& one) {
        return one.said.review.entry >= entries && !isKept(one, standing);
    });
}

} // namespace

QString wordOf(Why why)
{
    return wordIn(kWords, why);
}

std::optional<Why> intakeWhyFromWord(const QString& word)
{
    return valueIn(kWords, word);
}

Intake intakeOf(const Record& record, const Verification& found, const EntriesTold& told,
                const Believed& believed, const Standing& standing)
{
    if (!found.isGood())
        return {Becomes::Refuse, Why::NotAsSigned};
    if (told.openAnother)
        return {Becomes::Refuse, Why::OpensAnother};
    if (told.lackAPicture)
        return {Becomes::Refuse, Why::PictureMissing};
    if (told.lackAName)
        return {Becomes::Refuse, Why::PictureUnnamed};
    if (told.nameAReviewer)
        return {Becomes::Refuse, Why::ReviewerTookPart};
    if (const Why why = doubtOf(found, believed, standing); why != Why::None)
        return {Becomes::Wait, why};
    if (told.doubtsAReview != Why::None)
        return {Becomes::Wait, told.doubtsAReview};
    const auto covered = static_cast<std::size_t>(found.signedUpTo + 1);
    const std::size_t there = standing.chain.size();
    const auto both = static_cast<qsizetype>(std::min(namedUpTo(found, there), there));
    if (!std::equal(standing.chain.begin(), standing.chain.begin() + both, record.chain.begin()))
        return {Becomes::Wait, Why::GoneTwoWays};
    if (standing.isOwn && covered > there)
        return {Becomes::Wait, Why::OwnVisit};
    const bool isKnownHere = standing.isOwn && told.doubtsASigner == Why::LeadNotVouched; // who leads
    if (told.doubtsASigner != Why::None && !isKnownHere)
        return {Becomes::Wait, told.doubtsASigner};
    if (!standing.isOwn && told.lackASignature)
        return {Becomes::Wait, Why::SignatureMissing};
    const auto first = static_cast<qint64>(there);
    const auto entries = static_cast<qint64>(std::max(covered, there));
    if (isAnyOfUnsigned(found, standing, entries))
        return {Becomes::Wait, Why::ReviewOfUnsigned};
    if (first == entries && !isAnyNew(record, found, standing, entries))
        return {Becomes::Nothing, Why::None, first, entries};
    return {Becomes::Take, Why::None, first, entries};
}

} // namespace coldarc::record
