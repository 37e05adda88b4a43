#pragma once

#include "core/base/hash.h"
#include "core/people/jws.h"

#include <QByteArray>
#include <QList>
#include <QString>

#include <optional>
#include <vector>

namespace coldarc::record {

enum class Verdict : std::uint8_t {
    Accepted,
    SentBack, ///< whoever did the work answers by addenda
};
/// "accepted", "sent-back".
[[nodiscard]] QString wordOf(Verdict verdict);
[[nodiscard]] std::optional<Verdict> verdictFromWord(const QString& word);

/// Something said of one entry.
struct ReviewRemark {
    qint64 entry = 0; ///< counted from 0
    QString text;

    friend bool operator==(const ReviewRemark&, const ReviewRemark&) = default;
};

/// What a supervisor says of a visit that is over. A paper of its own and no entry of the visit, so that two
/// laptops never take one logbook on in two ways.
struct Review {
    VisitId visit;
    qint64 entry = 0; ///< the last one that was looked at
    Hash head;        ///< its link of the chain
    Verdict verdict = Verdict::Accepted;
    QString text; ///< may be empty of one that accepts
    QList<ReviewRemark> remarks{};
    PersonId by;   ///< as the reviewer's own workspace names them
    QString name;  ///< of the reviewer
    WallTime at{}; ///< as that computer's clock had it

    friend bool operator==(const Review&, const Review&) = default;
};

/// More is neither signed nor read: characters of a name or an id, of a text; remarks in a review.
inline constexpr qsizetype kMostReviewName = 200;
inline constexpr qsizetype kMostReviewText = 8000;
inline constexpr qsizetype kMostReviewRemarks = 200;
/// Of all texts of one review together.
inline constexpr qsizetype kMostReviewTextInAll = 40'000;
/// Whether its words and remarks are more than that.
[[nodiscard]] bool isTooLong(const Review& review);

/// A review as its reviewer signed it: a JWS (RFC 7515).
struct SignedReview {
    /// Its header: {"alg":"Ed25519","kid":"<thumbprint of the reviewer's key>","typ":"coldarc-review"}. Its
    /// payload: {"at":"2026-11-26T09:12:40.000Z","by":"person-9","entry":41,"name":"B. Invented","remarks":
    /// [{"entry":7,"text":"..."}],"sha256":"<64 hexadecimal digits>","text":"...","verdict":"sent-back",
    /// "visit":"visit-7"}.
    people::PaperJws jws;
    people::Signature signature;

    friend bool operator==(const SignedReview&, const SignedReview&) = default;
};

/// What is signed. Malformed for a visit, person or name that is empty or holds what no line of print can, an
/// entry below 0, one that sends back without a text, a remark without a text or on no entry that was looked
/// at, more than the bounds above, and a text that holds half a character.
[[nodiscard]] Result<people::PaperJws> jwsOf(const Review& review, const people::PublicKey& key);
/// The same, signed.
[[nodiscard]] Result<SignedReview> sign(const Review& review, const people::SigningKey& key);

/// What a paper says, by whom it says so.
struct ReviewSaid {
    Review review;
    QString thumbprint; ///< of the reviewer's key

    friend bool operator==(const ReviewSaid&, const ReviewSaid&) = default;
};
/// Nothing unless the texts are, byte for byte, what jwsOf makes of it. The signature is not looked at.
[[nodiscard]] std::optional<ReviewSaid> saidBy(const SignedReview& paper);

/// Whether this key signed exactly this paper, and is the one that it names.
[[nodiscard]] bool isSignedBy(const people::PublicKey& key, const SignedReview& paper);

/// A review that was read and checked, and the key that signed it.
struct KeptReview {
    Hash id; ///< see idOf
    Review review;
    SignedReview paper;
    people::PublicKey key;
    bool isCounted = true; ///< as was said last, see ReviewStore::setUncounted

    friend bool operator==(const KeptReview&, const KeptReview&) = default;
};

/// The JWS in its compact form (RFC 7515, section 7.1); the SHA-256 of that is the review's id.
[[nodiscard]] QByteArray compactOf(const SignedReview& paper);
[[nodiscard]] Hash idOf(const SignedReview& paper);

} // namespace coldarc::record
