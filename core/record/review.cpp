#include "core/record/review.h"

#include "core/base/json.h"
#include "core/base/words.h"

#include <QJsonDocument>

#include <algorithm>
#include <numeric>

using namespace Qt::StringLiterals;

namespace coldarc::record {
namespace {

constexpr Words<Verdict, 2> kVerdicts{{{Verdict::Accepted, u"accepted"}, {Verdict::SentBack, u"sent-back"}}};

const QString kTyp = u"coldarc-review"_s;

QByteArray payloadOf(const Review& review)
{
    QJsonArray remarks;
    for (const ReviewRemark& remark : review.remarks)
        remarks.append(QJsonObject{{u"entry"_s, remark.entry}, {u"text"_s, remark.text}});
    return QJsonDocument(QJsonObject{{u"at"_s, isoUtc(review.at)},
                                     {u"by"_s, review.by.text()},
                                     {u"entry"_s, review.entry},
                                     {u"name"_s, review.name},
                                     {u"remarks"_s, remarks},
                                     {u"sha256"_s, review.head.hex()},
                                     {u"text"_s, review.text},
                                     {u"verdict"_s, wordOf(review.verdict)},
                                     {u"visit"_s, review.visit.text()}})
        .toJson(QJsonDocument::Compact);
}

/// Half of a character is none that another reader would read alike.
bool isText(const QString& text)
{
    return !text.trimmed().isEmpty() && text.isValidUtf16();
}

/// What is printed on one line, and held against other names.
bool isName(const QString& text)
{
    return isText(text) && text.size() <= kMostReviewName && std::ranges::none_of(text, [](QChar letter) {
               return letter.category() == QChar::Other_Control || letter == QChar::LineSeparator ||
                      letter == QChar::ParagraphSeparator;
           });
}

bool isWhole(const Review& review)
{
    if (!isName(review.visit.text()) || !isName(review.by.text()) || !isName(review.name) || review.entry < 0)
        return false;
    if (isTooLong(review) || (review.verdict == Verdict::SentBack && !isText(review.text)))
        return false;
    return std::ranges::all_of(review.remarks, [&](const ReviewRemark& remark) {
        return isText(remark.text) && remark.entry >= 0 && remark.entry <= review.entry;
    });
}

QList<ReviewRemark> remarksIn(const QJsonValue& value)
{
    QList<ReviewRemark> remarks;
    for (const QJsonValueConstRef& one : value.toArray()) {
        const QJsonObject object = one.toObject();
        remarks.append({object.value(u"entry"_s).toInteger(-1), object.value(u"text"_s).toString()});
    }
    return remarks;
}

} // namespace

QString wordOf(Verdict verdict)
{
    return wordIn(kVerdicts, verdict);
}

std::optional<Verdict> verdictFromWord(const QString& word)
{
    return valueIn(kVerdicts, word);
}

bool isTooLong(const Review& review)
{
    const auto& remarks = review.remarks;
    const qsizetype letters =
        std::transform_reduce(remarks.begin(), remarks.end(), review.text.size(), std::plus<>(),
                              [](const ReviewRemark& remark) { return remark.text.size(); });
    return review.text.size() > kMostReviewText || letters > kMostReviewTextInAll ||
           remarks.size() > kMostReviewRemarks ||
           std::ranges::any_of(
               remarks, [](const ReviewRemark& remark) { return remark.text.size() > kMostReviewText; });
}

Result<people::PaperJws> jwsOf(const Review& review, const people::PublicKey& key)
{
    const auto malformed = fail(Error::Kind::Malformed, u"a review that is not whole"_s);
    if (!isWhole(review))
        return malformed;
    const people::PaperJws jws{people::paperHeader(kTyp, people::thumbprint(key)), payloadOf(review)};
    const auto said =
        saidBy({jws, *people::Signature::fromBytes(QByteArray(people::Signature::kBytes, '\0'))});
    return said && said->review == review ? Result<people::PaperJws>(jws) : malformed;
}

Result<SignedReview> sign(const Review& review, const people::SigningKey& key)
{
    const auto jws = jwsOf(review, key.publicKey());
    if (!jws)
        return tl::unexpected(jws.error());
    return SignedReview{*jws, key.sign(people::signingInput(*jws))};
}

std::optional<ReviewSaid> saidBy(const SignedReview& paper)
{
    const auto header = parseObject(paper.jws.protectedHeader);
    const auto payload = parseObject(paper.jws.payload);
    if (!header || !payload)
        return std::nullopt;
    const auto at = wallFromIso(payload->value(u"at"_s).toString());
    const auto head = Hash::fromHex(payload->value(u"sha256"_s).toString());
    const auto verdict = verdictFromWord(payload->value(u"verdict"_s).toString());
    if (!at || !head || !verdict)
        return std::nullopt;
    const ReviewSaid said{
        {VisitId(payload->value(u"visit"_s).toString()), payload->value(u"entry"_s).toInteger(-1), *head,
         *verdict, payload->value(u"text"_s).toString(), remarksIn(payload->value(u"remarks"_s)),
         PersonId(payload->value(u"by"_s).toString()), payload->value(u"name"_s).toString(), *at},
        header->value(u"kid"_s).toString()};
    const bool isExact = isWhole(said.review) &&
                         people::paperHeader(kTyp, said.thumbprint) == paper.jws.protectedHeader &&
                         payloadOf(said.review) == paper.jws.payload;
    return isExact ? std::optional(said) : std::nullopt;
}

bool isSignedBy(const people::PublicKey& key, const SignedReview& paper)
{
    const auto said = saidBy(paper);
    return said && said->thumbprint == people::thumbprint(key) &&
           people::isSignedBy(key, people::signingInput(paper.jws), paper.signature);
}

QByteArray compactOf(const SignedReview& paper)
{
    return people::signingInput(paper.jws) + '.' + people::base64Url(paper.signature.bytes());
}

Hash idOf(const SignedReview& paper)
{
    return sha256(compactOf(paper));
}

} // namespace coldarc::record
