#include "core/review/checked_record.h"

#include "tests/core/review/kept_night.h"

// Every person, key and office here is invented.

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;

class CheckedRecordTest : public ::testing::Test {
protected:
    [[nodiscard]] record::Vouching vouching() const
    {
        return {{kept.office.publicKey()},
                {kept.certificate(kept.key, kept.night.ada(), u"A. Okoro"_s),
                 kept.certificate(kept.sueKey, PersonId(u"sue"_s), u"S. Marlow"_s)}};
    }
    [[nodiscard]] QString officeName() const { return people::thumbprint(kept.office.publicKey()); }

    test::KeptNight kept;
};

TEST_F(CheckedRecordTest, IsGoodAsItWasSignedAndNamesItsPeople)
{
    const CheckedRecord checked = checkRecord(u"visit.zip"_s, kept.record());

    EXPECT_TRUE(checked.isGood());
    const visit::PersonFacts& ada = kept.night.opening().people.first();
    EXPECT_EQ(checked.names.value(ada.id), ada.name);
    EXPECT_EQ(signaturesOf(checked.found).size(), qsizetype(kept.signatures.size()));
}

TEST_F(CheckedRecordTest, TellsWhichPictureOfASignedEntryIsMissing)
{
    test::Night night;
    const Hash box = sha256("the label of the box");
    ASSERT_TRUE(night.tell(visit::PictureKept{night.swap().id, {}, u"box"_s, box}));
    record::Record record;
    record.visit = night.opening().visit;
    Hash before;
    for (const visit::Entry& entry : night.entries) {
        record.entries.push_back(visit::bytesOf(entry));
        before = chained(before, record.entries.back());
        record.chain.push_back(before);
    }
    EXPECT_TRUE(checkRecord({}, record).missing.isEmpty()) << "nobody signed";

    const people::HeadStatement said{record.visit,
                                     qint64(record.entries.size()) - 1,
                                     before,
                                     people::Meaning::Performed,
                                     night.clock.now().wall,
                                     night.ada()};
    const auto jws = *people::headJws(said, kept.key.publicKey());
    record.keys = {kept.key.publicKey()};
    record.signatures = {{jws, kept.key.sign(people::signingInput(jws))}};
    EXPECT_EQ(checkRecord({}, record).missing, QList{box});
    record.pictures = {{box, "the label of the box"}};
    EXPECT_TRUE(checkRecord({}, record).isGood());
}

TEST_F(CheckedRecordTest, APictureThatNoSignedEntryNamesIsTold)
{
    record::Record record = kept.record();
    const Hash strange = sha256("somebody's holiday");
    record.pictures.push_back({strange, "somebody's holiday"});
    const CheckedRecord checked = checkRecord({}, record);
    EXPECT_EQ(checked.unnamed, QList{strange});
    EXPECT_TRUE(checked.named.isEmpty());
    EXPECT_FALSE(checked.isGood());

    // Behind the last signature it is nobody's word, like the entry itself.
    const visit::Entry entry{kept.night.clock.now(), kept.night.ada(),
                             visit::PictureKept{kept.night.swap().id, {}, u"box"_s, strange}};
    record.entries.push_back(visit::bytesOf(entry));
    record.chain.push_back(chained(record.chain.back(), record.entries.back()));
    EXPECT_TRUE(checkRecord({}, record).isGood());
    EXPECT_EQ(checkRecord({}, record).namedUnsigned, QList{strange});

    record.entries.back() = "{\"kind\":\"of a later program\"}";
    record.chain.back() = chained(record.chain[record.chain.size() - 2], record.entries.back());
    EXPECT_TRUE(checkRecord({}, record).isGood()) << "it may name it: nobody can tell";
    EXPECT_EQ(checkRecord({}, record).namedUnsigned, QList{strange}) << "and nobody signed it";
}

TEST_F(CheckedRecordTest, IsNotGoodWhereTheOfficeThatIsAskedForDoesNotVouch)
{
    const record::Record record = kept.record({kept.review(kept.last())}, vouching());
    EXPECT_TRUE(checkRecord({}, record, officeName()).isGood());

    const CheckedRecord other = checkRecord({}, record, u"another"_s);
    EXPECT_FALSE(other.isGood());
    EXPECT_EQ(other.unvouched.size(), qsizetype(kept.signatures.size()));
    EXPECT_EQ(other.unvouchedReviews.size(), 1);
}

TEST_F(CheckedRecordTest, AReviewBySomebodyWhoHadAPartIsSeen)
{
    const auto reviewed = [&](const PersonId& by) {
        return checkRecord({}, kept.record({kept.review(kept.last(), by)}));
    };
    EXPECT_FALSE(reviewed(PersonId(u"sue"_s)).isReviewedByOwn());

    EXPECT_TRUE(reviewed(kept.night.ada()).isReviewedByOwn());
    EXPECT_FALSE(reviewed(kept.night.ada()).isGood());
}

TEST_F(CheckedRecordTest, AReviewerIsKnownByEveryNameThatOfficesGiveTheKey)
{
    record::Vouching two = vouching();
    two.certificates.push_back(kept.certificate(kept.sueKey, PersonId(u"sue"_s), u"s.  marlow"_s));
    two.certificates.push_back(kept.certificate(kept.sueKey, PersonId(u"tom"_s), u"T. Tern"_s));
    const CheckedRecord checked = checkRecord({}, kept.record({kept.review(kept.last())}, two));

    ASSERT_EQ(checked.found.reviews.size(), 1U);
    const Reviewer reviewer = reviewerOf(checked.found.reviews.front());
    EXPECT_EQ(reviewer.person.name, u"S. Marlow"_s);
    EXPECT_EQ(namedOtherwise(reviewer), QStringList{u"T. Tern"_s});
}

TEST_F(CheckedRecordTest, ItCannotBeToldWhoHadAPartInEntriesOfALaterProgram)
{
    record::Record record = kept.record({kept.review(kept.last())});
    EXPECT_EQ(checkRecord({}, record).untoldParts, std::vector{false});

    record.entries[1] = "{\"kind\":\"of a later program\"}";
    EXPECT_EQ(checkRecord({}, record).untoldParts, std::vector{true});
    EXPECT_TRUE(isUnreadable(entriesIn(record)[1]));
    EXPECT_EQ(entriesIn(record).size(), kept.night.entries.size()) << "each under its own number";
}

} // namespace
} // namespace coldarc::review
