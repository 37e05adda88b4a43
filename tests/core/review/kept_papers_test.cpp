#include "core/review/kept_papers.h"

#include "tests/core/review/kept_night.h"

#include <algorithm>

// Every person, key and office here is invented.

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;

class KeptPapersTest : public ::testing::Test {
protected:
    [[nodiscard]] QList<HeadSigned> signatures() const
    {
        return readSignatures(kept.signatures, kept.entries, kept.night.entries, trust);
    }
    [[nodiscard]] ReadReview review(const record::KeptReview& one) const
    {
        return readReview(one, kept.entries, kept.night.entries, signatures(), trust);
    }
    /// The key stands as Sue's on this workspace's own list.
    void list() { trust.add({kept.sueKey.publicKey(), sue, kept.moment() - hours(24 * 30), {}}); }
    [[nodiscard]] bool areAll(bool HeadSigned::*what) const
    {
        const auto all = signatures();
        return !all.isEmpty() && std::ranges::all_of(all, what);
    }

    test::KeptNight kept;
    people::Trust trust{{kept.office.publicKey()}};
    PersonId sue{u"sue"_s};
};

TEST_F(KeptPapersTest, ASignatureOverItsEntryIsGoodThoughNobodyVouchesForTheKey)
{
    EXPECT_TRUE(areAll(&HeadSigned::isGood));
    EXPECT_TRUE(signatures().first().vouchedBy.isEmpty());
    EXPECT_EQ(signatures().first().key, people::thumbprint(kept.key.publicKey()));
    EXPECT_EQ(signatures().size(), qsizetype(kept.signatures.size()));
}

TEST_F(KeptPapersTest, ASignatureOverAnotherEntryThanStandsThereIsNotGood)
{
    const auto entry = static_cast<std::size_t>(kept.signatures.front().seq.value());
    kept.entries[entry].hash = sha256("another entry");

    EXPECT_FALSE(signatures().first().isGood);
}

TEST_F(KeptPapersTest, ASignatureThatTheKeyDidNotMakeIsNotGood)
{
    kept.signatures.front().person = sue;
    EXPECT_FALSE(signatures().first().isGood) << "who signs is signed too";

    kept.signatures.front().meaning = u"no such meaning"_s;
    EXPECT_FALSE(signatures().first().isGood);
}

TEST_F(KeptPapersTest, ASignatureWithSomebodyElsesKeyIsNotGood)
{
    trust.add({kept.key.publicKey(), sue, kept.moment(), {}});

    EXPECT_FALSE(signatures().first().isGood);
}

TEST_F(KeptPapersTest, ASignatureOverWhatStandsBehindABreakIsLeftOut)
{
    kept.entries.resize(static_cast<std::size_t>(kept.signatures.back().seq.value()));

    EXPECT_LT(signatures().size(), qsizetype(kept.signatures.size()));
    EXPECT_TRUE(areAll(&HeadSigned::isGood));
}

TEST_F(KeptPapersTest, SignaturesStandInTheOrderOfTheirEntries)
{
    std::ranges::reverse(kept.signatures);

    EXPECT_TRUE(std::ranges::is_sorted(signatures(), {}, &HeadSigned::entry));
}

TEST_F(KeptPapersTest, TellsWhoVouchesForWhoeverSignedUntilTheOfficeTakesItBack)
{
    const PersonId engineer = kept.signatures.front().person;
    trust.add(kept.certificate(kept.key, engineer, u"A. Okoro"_s));
    ASSERT_EQ(signatures().first().vouchedBy.size(), 1);
    EXPECT_EQ(signatures().first().vouchedBy.first().name, u"A. Okoro"_s);
    EXPECT_FALSE(signatures().first().isOutOfUse);

    trust.add(kept.retirement(kept.key));
    EXPECT_TRUE(areAll(&HeadSigned::isOutOfUse));
    EXPECT_TRUE(signatures().first().vouchedBy.isEmpty());
    EXPECT_FALSE(signatures().first().counts());
}

TEST_F(KeptPapersTest, ASignatureInTheFormerFormNamesNeitherPersonNorMoment)
{
    kept.signatures.clear();
    kept.sign(kept.last(), kept.night.ada(), u"performed"_s, true);
    ASSERT_EQ(signatures().size(), 1);
    EXPECT_TRUE(signatures().first().isGood);
    EXPECT_TRUE(signatures().first().isFormer);
    EXPECT_TRUE(signatures().first().person.isEmpty());
    EXPECT_EQ(signatures().first().at, WallTime());

    trust.add(kept.retirement(kept.key, days(30)));
    EXPECT_TRUE(signatures().first().isOutOfUse) << "on whichever day it signed";
}

TEST_F(KeptPapersTest, AReviewCountsThatItsReviewerSignedOverTheVisitAsItStands)
{
    list();
    const ReadReview read = review(kept.review(kept.last()));

    EXPECT_TRUE(read.isCounted());
    EXPECT_EQ(read.key, people::thumbprint(kept.sueKey.publicKey()));
}

TEST_F(KeptPapersTest, AReviewCountsWhereAnOfficeThatIsBelievedVouchesForASupervisorAlone)
{
    EXPECT_FALSE(review(kept.review(kept.last())).isCounted()) << "whoever writes into the file makes a key";
    EXPECT_TRUE(review(kept.review(kept.last())).isGood);

    trust.add(kept.certificate(kept.sueKey, sue, u"S. Marlow"_s, people::Role::Engineer));
    EXPECT_FALSE(review(kept.review(kept.last())).isCounted());
    trust.add(kept.certificate(kept.sueKey, sue, u"S. Marlow"_s));
    EXPECT_TRUE(review(kept.review(kept.last())).isCounted());

    trust = people::Trust(); // the office is dropped
    trust.add(kept.certificate(kept.sueKey, sue, u"S. Marlow"_s));
    EXPECT_FALSE(review(kept.review(kept.last())).isCounted());
}

TEST_F(KeptPapersTest, WhatWasSignedBeforeItWasWrittenIsHeldAgainstTheDayOfItsEntry)
{
    const PersonId engineer = kept.signatures.front().person;
    trust.add(kept.certificate(kept.key, engineer, u"A. Okoro"_s));
    trust.add(kept.retirement(kept.key));
    kept.signatures.clear();
    kept.sign(kept.last(), engineer, u"performed"_s, false, -days(10));

    ASSERT_TRUE(signatures().first().isGood);
    EXPECT_TRUE(signatures().first().isOutOfUse) << "the key was when the entry was written";
    EXPECT_FALSE(signatures().first().counts());
}

TEST_F(KeptPapersTest, WhatAnOwnKeySignedThatWasOutOfUseByThenDoesNotCount)
{
    const PersonId engineer = kept.signatures.front().person;
    const auto retiredAt = [&](hours later) {
        trust = people::Trust();
        trust.add({kept.key.publicKey(), engineer, kept.moment() - days(30), kept.moment() + later});
        trust.add({kept.sueKey.publicKey(), sue, kept.moment() - days(30), kept.moment() + later});
    };
    retiredAt(hours(1));
    EXPECT_TRUE(std::ranges::all_of(signatures(), &HeadSigned::counts)) << "it signed before";
    EXPECT_TRUE(review(kept.review(kept.last())).isCounted());

    retiredAt(-hours(24));
    EXPECT_TRUE(areAll(&HeadSigned::isOutOfUse));
    EXPECT_TRUE(areAll(&HeadSigned::isGood));
    EXPECT_TRUE(review(kept.review(kept.last())).isOutOfUse);
    EXPECT_FALSE(review(kept.review(kept.last())).isCounted());
}

TEST_F(KeptPapersTest, AnEndThatWasCutOffIsKnownByWhatWasSignedOfIt)
{
    EXPECT_FALSE(cutOffAt(kept.signatures, {kept.review(kept.last())}, kept.last() + 1));

    EXPECT_EQ(cutOffAt(kept.signatures, {}, 3).value_or(0),
              std::ranges::find_if(kept.signatures, [](const store::Signature& one) {
                  return one.seq.value() >= 3;
              })->seq.value());
    EXPECT_EQ(cutOffAt({}, {kept.review(kept.last())}, kept.last()), kept.last());
}

TEST_F(KeptPapersTest, AReviewOfOtherEntriesOrByAnotherKeyCountsForNobody)
{
    record::KeptReview other = kept.review(kept.last());
    other.key = kept.key.publicKey();
    EXPECT_FALSE(review(other).isGood);

    const record::KeptReview good = kept.review(kept.last());
    kept.entries.back().hash = sha256("another entry");
    EXPECT_FALSE(review(good).isGood);
    kept.entries.pop_back();
    EXPECT_FALSE(review(good).isGood);
}

TEST_F(KeptPapersTest, AReviewWithSomebodyElsesKeyCountsForNobody)
{
    trust.add(kept.certificate(kept.sueKey, PersonId(u"tom"_s), u"T. Tern"_s));
    EXPECT_FALSE(review(kept.review(kept.last())).isGood);
    EXPECT_FALSE(review(kept.review(kept.last())).isCounted());

    trust.add(kept.certificate(kept.sueKey, sue, u"S. Marlow"_s));
    EXPECT_TRUE(review(kept.review(kept.last())).isGood);
}

TEST_F(KeptPapersTest, AReviewByAKeyThatWasOutOfUseCountsForNobody)
{
    list();
    trust.add(kept.retirement(kept.sueKey, days(1)));
    EXPECT_TRUE(review(kept.review(kept.last())).isCounted()) << "it signed before";

    trust.add(kept.retirement(kept.sueKey));
    EXPECT_FALSE(review(kept.review(kept.last())).isCounted());
    EXPECT_TRUE(review(kept.review(kept.last())).isOutOfUse);
}

TEST_F(KeptPapersTest, AReviewBySomebodyWhoHadAPartCountsForNobody)
{
    trust.add({kept.sueKey.publicKey(), kept.night.ada(), kept.moment(), {}});
    EXPECT_TRUE(review(kept.review(kept.last(), kept.night.ada())).isVouchedFor);
    EXPECT_FALSE(review(kept.review(kept.last(), kept.night.ada())).isCounted());
    trust = people::Trust({kept.office.publicKey()});

    // The office knows the reviewer by the name of the engineer, under whom the laptop's other owner signed.
    trust.add(kept.certificate(kept.sueKey, sue, kept.night.opening().people.first().name));
    ASSERT_TRUE(review(kept.review(kept.last())).part);
    EXPECT_EQ(review(kept.review(kept.last())).part->kind, ReviewRefusal::Kind::NameTookPart);
}

} // namespace
} // namespace coldarc::review
