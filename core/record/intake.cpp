#include "core/record/intake.h"

#include "core/base/words.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::record {
namespace {

using Verdict = Intake::Verdict;
using Why = Intake::Why;

constexpr Words<Why, 8> kWords{{{Why::None, u"none"},
                                {Why::NotAsSigned, u"not-as-signed"},
                                {Why::PictureMissing, u"picture-missing"},
                                {Why::NobodyVouches, u"nobody-vouches"},
                                {Why::UnknownOffice, u"unknown-office"},
                                {Why::GoneTwoWays, u"gone-two-ways"},
                                {Why::OwnVisit, u"own-visit"},
                                {Why::NotUnderstood, u"not-understood"}}};

/// Why the signatures are not believed here, or nothing.
Why doubtOf(const Verification& found, const QSet<QString>& believed)
{
    Why why = Why::None;
    for (const Signed& one : found.signatures) {
        if (one.isFormer || one.vouchedBy.empty())
            return Why::NobodyVouches;
        if (!isVouchedFor(one, believed))
            why = Why::UnknownOffice;
    }
    return why;
}

bool isAnyNew(const Record& record, const QSet<QByteArray>& known)
{
    return std::ranges::any_of(
        record.signatures, [&](const HeadSignature& one) { return !known.contains(one.signature.bytes()); });
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

Intake intakeOf(const Record& record, const Verification& found, bool isMissingAPicture,
                const QSet<QString>& believed, const Standing& standing)
{
    if (!found.isGood())
        return {Verdict::Refuse, Why::NotAsSigned};
    if (isMissingAPicture)
        return {Verdict::Refuse, Why::PictureMissing};
    if (const Why why = doubtOf(found, believed); why != Why::None)
        return {Verdict::Wait, why};
    const auto covered = static_cast<std::size_t>(found.signedUpTo + 1);
    const std::size_t there = standing.chain.size();
    const auto both = static_cast<qsizetype>(std::min(covered, there));
    if (!std::equal(standing.chain.begin(), standing.chain.begin() + both, record.chain.begin()))
        return {Verdict::Wait, Why::GoneTwoWays};
    if (standing.isOwn && covered > there)
        return {Verdict::Wait, Why::OwnVisit};
    const auto first = static_cast<qint64>(there);
    const auto entries = static_cast<qint64>(std::max(covered, there));
    if (first == entries && !isAnyNew(record, standing.signatures))
        return {Verdict::Nothing, Why::None, first, entries};
    return {Verdict::Take, Why::None, first, entries};
}

} // namespace coldarc::record
