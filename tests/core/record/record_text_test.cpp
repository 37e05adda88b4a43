#include "core/record/record_text.h"

#include "tests/core/record/signed_visit.h"
#include "tests/support/testing.h"

#include <QJsonArray>
#include <QJsonDocument>

namespace coldarc::record {
namespace {

using namespace Qt::StringLiterals;
using test::SignedVisit;

TEST(RecordTextTest, SignersOfOneHeadShareAPayload)
{
    const QJsonArray heads = parseObject(manifestOf(SignedVisit().record()))->value(u"heads"_s).toArray();

    ASSERT_EQ(heads.size(), 3) << "at sign-in, at the stop, at the end";
    EXPECT_EQ(heads[2].toObject().value(u"signatures"_s).toArray().size(), 3);
}

TEST(RecordTextTest, ReadsBackWhatItWrote)
{
    SignedVisit visit;
    visit.sign(visit.engineer, u"person-1"_s, 3, people::Meaning::Incident, true);
    visit.vouch(visit.engineer, u"person-1"_s, u"2027-10-31"_s);
    visit.retire(visit.engineer, u"2026-12-01"_s);
    visit.review(visit.reviewer, u"person-9"_s, 11, Verdict::SentBack);
    visit.review(visit.reviewer, u"person-9"_s, 11);
    const Record record = visit.record();
    const auto read = recordFromManifest(manifestOf(record));

    ASSERT_TRUE(read);
    EXPECT_EQ(read->visit, record.visit);
    EXPECT_EQ(read->chain, record.chain);
    EXPECT_EQ(read->keys, record.keys);
    ASSERT_EQ(read->signatures.size(), record.signatures.size());
    for (std::size_t one = 0; one < record.signatures.size(); ++one) {
        EXPECT_EQ(read->signatures[one].jws, record.signatures[one].jws);
        EXPECT_EQ(read->signatures[one].signature, record.signatures[one].signature);
    }
    EXPECT_EQ(read->vouching, record.vouching);
    EXPECT_EQ(read->reviews, record.reviews);
    EXPECT_EQ(manifestOf(*read), manifestOf(record));
}

// Records of before there were certificates and reviews.
TEST(RecordTextTest, HasNoWordOfOfficesWhereNobodyVouchesOrOfReviewsWhereNobodyReviewed)
{
    const QByteArray manifest = manifestOf(SignedVisit().record());

    EXPECT_FALSE(manifest.contains("offices"));
    EXPECT_FALSE(manifest.contains("certificates"));
    EXPECT_FALSE(manifest.contains("reviews"));
    EXPECT_FALSE(manifest.contains("retirements"));
    EXPECT_EQ(recordFromManifest(manifest)->vouching, Vouching());
}

TEST(RecordTextTest, ReadsNoMoreKeysThanAVisitCanHave)
{
    Record record = SignedVisit().record();
    record.vouching.offices.assign(kMostKeys + 1, test::keyOf(4).publicKey());

    EXPECT_TRUE(recordFromManifest(manifestOf(record)).error().detail.contains(u"must be 1000 at most"_s));
    record.vouching.offices.pop_back();
    EXPECT_TRUE(recordFromManifest(manifestOf(record)));
    SignedVisit visit;
    visit.review(visit.reviewer, u"person-9"_s, 11);
    record.reviews.assign(kMostKeys + 1, visit.reviews.front().paper);
    EXPECT_FALSE(recordFromManifest(manifestOf(record)));
}

// A small archive may hold them by the million.
TEST(RecordTextTest, RefusesMoreEntriesThanAVisitCanHaveBeforeTheyAreMade)
{
    const QByteArray most = QByteArray("{}\n").repeated(kMostEntries);
    EXPECT_TRUE(entriesFromLines(most));
    EXPECT_TRUE(entriesFromLines(most + "{}\n").error().detail.contains(u"more than 100000"_s));

    Record record = SignedVisit().record();
    record.chain.assign(static_cast<std::size_t>(kMostEntries) + 1, Hash());
    EXPECT_TRUE(recordFromManifest(manifestOf(record)).error().detail.contains(u"entries"_s));
    record.chain.pop_back();
    EXPECT_TRUE(recordFromManifest(manifestOf(record)));

    QJsonObject manifest = *parseObject(manifestOf(SignedVisit().record()));
    QJsonArray many;
    for (qsizetype one = 0; one <= kMostEntries; ++one)
        many.append(QJsonObject());
    manifest.insert(u"former"_s, many);
    EXPECT_TRUE(
        recordFromManifest(QJsonDocument(manifest).toJson()).error().detail.contains(u"signatures"_s));
}

TEST(RecordTextTest, NamesNoMoreThanSomeDozensOfFaults)
{
    QJsonObject manifest = *parseObject(manifestOf(SignedVisit().record()));
    QJsonArray bad;
    QJsonArray links;
    for (int one = 0; one < 900; ++one) {
        bad.append(QJsonObject{{u"kty"_s, u"none"_s}});
        links.append(u"no link"_s);
    }
    manifest.insert(u"keys"_s, bad);
    manifest.insert(u"former"_s, bad);
    manifest.insert(u"chain"_s, links);
    const auto read = recordFromManifest(QJsonDocument(manifest).toJson());

    ASSERT_FALSE(read);
    EXPECT_LT(read.error().detail.count(u';'), 100);
}

TEST(RecordTextTest, NamesWhatIsNotAsItShouldBe)
{
    const QByteArray good = manifestOf(SignedVisit().record());
    const auto complaint = [&](const QByteArray& before, const QByteArray& now) {
        const auto read = recordFromManifest(QByteArray(good).replace(before, now));
        return read ? QString() : read.error().detail;
    };

    EXPECT_TRUE(complaint("\"version\":1", "\"version\":2").contains(u"version"_s));
    EXPECT_TRUE(complaint("\"coldarc\":\"record\"", "\"coldarc\":\"other\"").contains(u"coldarc"_s));
    EXPECT_TRUE(complaint("\"OKP\"", "\"RSA\"").contains(u"keys[0].crv"_s));
    EXPECT_TRUE(complaint("\"visit\":", "\"extra\":1,\"visit\":").contains(u"extra"_s));
    EXPECT_TRUE(
        complaint("\"protected\":\"", "\"protected\":\"=").contains(u"heads[0].signatures[0].protected"_s));
    EXPECT_TRUE(complaint("\"signature\":\"", "\"signature\":\"AAAA").contains(u"must be 64 bytes"_s));
    EXPECT_FALSE(recordFromManifest("[]"));
    EXPECT_FALSE(recordFromManifest(""));
}

TEST(RecordTextTest, EveryEntryIsALine)
{
    const Record record = SignedVisit().record();

    EXPECT_EQ(entriesFromLines(linesOf(record.entries)), record.entries);
    for (const QByteArray& lines : {QByteArray("{}\n\n{}\n"), QByteArray("{}\n{}"), QByteArray("\n"),
                                    QByteArray(store::Journal::kMostBytes + 1, 'x') + '\n'})
        EXPECT_FALSE(entriesFromLines(lines));
}

} // namespace
} // namespace coldarc::record
