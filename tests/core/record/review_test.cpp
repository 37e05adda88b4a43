#include "core/record/review.h"

#include "core/base/json.h"
#include "tests/core/record/signed_visit.h"
#include "tests/support/testing.h"

// Every person and visit here is invented.

namespace coldarc::record {
namespace {

using namespace Qt::StringLiterals;

class ReviewTest : public ::testing::Test {
protected:
    people::SigningKey key = test::keyOf(9);
    Review review{VisitId(u"visit-7"_s),
                  41,
                  sha256("head"),
                  Verdict::SentBack,
                  u"Why was the \u201ctester\u201d not proved?"_s,
                  {{7, u"this reading"_s}, {30, u"and this one"_s}},
                  PersonId(u"person-9"_s),
                  u"B. Invented"_s,
                  *wallFromIso(u"2026-11-26T09:12:40.125Z"_s)};
};

TEST_F(ReviewTest, IsAJwsThatNamesItsKindItsVisitAndTheHeadThatWasLookedAt)
{
    const SignedReview paper = *sign(review, key);

    EXPECT_EQ(paper.jws.protectedHeader, "{\"alg\":\"Ed25519\",\"kid\":\"" +
                                             people::thumbprint(key.publicKey()).toLatin1() +
                                             "\",\"typ\":\"coldarc-review\"}");
    const auto payload = parseObject(paper.jws.payload);
    ASSERT_TRUE(payload);
    EXPECT_EQ(payload->value(u"visit"_s), u"visit-7"_s);
    EXPECT_EQ(payload->value(u"entry"_s).toInteger(), 41);
    EXPECT_EQ(payload->value(u"sha256"_s), sha256("head").hex());
    EXPECT_EQ(payload->value(u"verdict"_s), u"sent-back"_s);
    EXPECT_EQ(payload->value(u"at"_s), u"2026-11-26T09:12:40.125Z"_s);
    EXPECT_EQ(payload->value(u"remarks"_s).toArray().at(1).toObject().value(u"entry"_s).toInteger(), 30);
}

TEST_F(ReviewTest, SaysAgainWhatWasSignedAndByWhichKey)
{
    const SignedReview paper = *sign(review, key);

    ASSERT_TRUE(saidBy(paper));
    EXPECT_EQ(*saidBy(paper), (ReviewSaid{review, people::thumbprint(key.publicKey())}));
    EXPECT_TRUE(isSignedBy(key.publicKey(), paper));
    EXPECT_FALSE(isSignedBy(test::keyOf(8).publicKey(), paper));
    const people::PaperJws underAnothersName = *jwsOf(review, test::keyOf(8).publicKey());
    EXPECT_FALSE(
        isSignedBy(key.publicKey(), {underAnothersName, key.sign(people::signingInput(underAnothersName))}));
}

TEST_F(ReviewTest, ANameIsOneLineOfPrintAndNoLongerThanANameIs)
{
    for (const QString& name :
         {u"B.\nInvented"_s, u"B.\u001b[8mInvented"_s, QString(kMostReviewName + 1, u'B')}) {
        Review named = review;
        named.name = name;
        EXPECT_FALSE(sign(named, key)) << name.toStdString();
        Review by = review;
        by.by = PersonId(name);
        EXPECT_FALSE(sign(by, key)) << name.toStdString();
        Review of = review;
        of.visit = VisitId(name);
        EXPECT_FALSE(sign(of, key)) << name.toStdString();
    }
    Review longest = review;
    longest.name = QString(kMostReviewName, u'\u00d8');
    EXPECT_TRUE(sign(longest, key));
}

TEST_F(ReviewTest, EachPartOfItIsSigned)
{
    const SignedReview paper = *sign(review, key);
    const auto altered = [&](const auto& change) {
        Review other = review;
        change(other);
        return SignedReview{*jwsOf(other, key.publicKey()), paper.signature};
    };
    const std::vector<SignedReview> others{
        altered([](Review& one) { one.visit = VisitId(u"visit-8"_s); }),
        altered([](Review& one) { one.entry = 42; }),
        altered([](Review& one) { one.head = sha256("another"); }),
        altered([](Review& one) { one.verdict = Verdict::Accepted; }),
        altered([](Review& one) { one.text += u'.'; }),
        altered([](Review& one) { one.remarks.removeLast(); }),
        altered([](Review& one) { one.remarks.first().entry = 6; }),
        altered([](Review& one) { one.by = PersonId(u"person-8"_s); }),
        altered([](Review& one) { one.name = u"C. Invented"_s; }),
        altered([](Review& one) { one.at += std::chrono::milliseconds(1); }),
    };

    for (std::size_t place = 0; place < others.size(); ++place) {
        ASSERT_TRUE(saidBy(others[place])) << place;
        EXPECT_FALSE(isSignedBy(key.publicKey(), others[place])) << place;
    }
}

TEST_F(ReviewTest, IsReadOnlyInTheVeryBytesInWhichItIsWritten)
{
    const SignedReview paper = *sign(review, key);
    const auto with = [&](const char* before, const char* after, QByteArray people::PaperJws::*part) {
        SignedReview other = paper;
        (other.jws.*part).replace(before, after);
        EXPECT_NE(other, paper) << before;
        return saidBy(other);
    };

    EXPECT_FALSE(with("\"visit\":", "\"visit\": ", &people::PaperJws::payload));
    EXPECT_FALSE(with("{\"at\"", "{\"a\":1,\"at\"", &people::PaperJws::payload));
    EXPECT_FALSE(with("sent-back", "sent", &people::PaperJws::payload));
    EXPECT_FALSE(with("{\"entry\":7,", "{\"entry\":7,\"more\":1,", &people::PaperJws::payload));
    EXPECT_FALSE(with("Ed25519", "none", &people::PaperJws::protectedHeader));
    EXPECT_FALSE(with("coldarc-review", "coldarc-enrolment", &people::PaperJws::protectedHeader));
    EXPECT_FALSE(saidBy({{"", ""}, paper.signature}));
}

TEST_F(ReviewTest, IsNotSignedUnlessItIsWhole)
{
    const auto isRefused = [&](const auto& change) {
        Review other = review;
        change(other);
        const auto paper = sign(other, key);
        return !paper && paper.error().kind == Error::Kind::Malformed;
    };

    EXPECT_TRUE(isRefused([](Review& one) { one.visit = {}; }));
    EXPECT_TRUE(isRefused([](Review& one) { one.by = {}; }));
    EXPECT_TRUE(isRefused([](Review& one) { one.name = u" "_s; }));
    EXPECT_TRUE(isRefused([](Review& one) { one.entry = -1; }));
    EXPECT_TRUE(isRefused([](Review& one) { one.text = u" \n"_s; })) << "sent back, and nobody knows why";
    EXPECT_TRUE(isRefused([](Review& one) { one.remarks.first().text.clear(); }));
    EXPECT_TRUE(isRefused([](Review& one) { one.remarks.first().entry = 42; })) << "never looked at";
    EXPECT_TRUE(isRefused([](Review& one) { one.remarks.first().entry = -1; }));
    EXPECT_TRUE(isRefused([](Review& one) { one.text = QString(kMostReviewText + 1, u'x'); }));
    EXPECT_TRUE(isRefused([](Review& one) { one.remarks.resize(kMostReviewRemarks + 1, {0, u"x"_s}); }));
    EXPECT_TRUE(isRefused([](Review& one) {
        one.remarks.fill({0, QString(kMostReviewText, u'x')}, 5);
    })) << "too much in all";
    EXPECT_TRUE(isRefused([](Review& one) { one.text = QString(QChar(0xd800)); })) << "no text of JSON";
    EXPECT_FALSE(isRefused([](Review& one) {
        one.verdict = Verdict::Accepted;
        one.text.clear();
        one.remarks.clear();
    }));
}

// A head's header has no `typ`, a certificate's has another one: no signature is good for two kinds of paper.
TEST_F(ReviewTest, IsNeverASignatureOverAHead)
{
    const SignedReview paper = *sign(review, key);

    EXPECT_FALSE(people::headSaidBy({paper.jws.protectedHeader, paper.jws.payload}));
    const auto head = people::headJws(
        {review.visit, 41, review.head, people::Meaning::Reviewed, review.at, review.by}, key.publicKey());
    EXPECT_FALSE(saidBy({{head->protectedHeader, head->payload}, paper.signature}));
}

TEST_F(ReviewTest, ItsIdIsThatOfItsCompactForm)
{
    const SignedReview paper = *sign(review, key);
    const QByteArray compact = compactOf(paper);

    EXPECT_EQ(compact.count('.'), 2);
    EXPECT_EQ(people::fromBase64Url(compact.split('.').at(1)), paper.jws.payload);
    EXPECT_EQ(idOf(paper), sha256(compact));
    for (const Verdict verdict : {Verdict::Accepted, Verdict::SentBack})
        EXPECT_EQ(verdictFromWord(wordOf(verdict)), verdict);
}

} // namespace
} // namespace coldarc::record
