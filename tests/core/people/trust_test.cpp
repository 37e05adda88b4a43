#include "core/people/trust.h"

#include "core/base/json.h"
#include "core/people/people_store.h"
#include "core/people/read_trust.h"
#include "tests/support/fake_clock.h"
#include "tests/support/test_key.h"
#include "tests/support/testing.h"

// Every person, key and office here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;
using Listed = KnownOfKey::Listed;
using coldarc::test::keyOf;

WallTime on(const QString& day)
{
    return *wallFromIso(day + u"T22:00:00.000Z"_s);
}

const PersonId kAda(u"p-1"_s);
const PersonId kBen(u"p-2"_s);

class TrustTest : public ::testing::Test {
protected:
    /// For November 2026.
    [[nodiscard]] static Certificate certificate(const SigningKey& key, const PersonId& person,
                                                 const SigningKey& by, Role role = Role::Engineer)
    {
        return *certify({key.publicKey(), person, u"Invented "_s + person.text(), role, 2026y / November / 1d,
                         2026y / November / 30d, on(u"2026-11-01"_s)},
                        by);
    }
    [[nodiscard]] static SignedRetirement retirement(const SigningKey& key, const QString& since,
                                                     const SigningKey& by)
    {
        return *retire({key.publicKey(), *dayFromIso(since), on(since)}, by);
    }
    [[nodiscard]] KnownOfKey known(const SigningKey& key, const PersonId& person,
                                   const QString& day = u"2026-11-20"_s) const
    {
        return trust.of(thumbprint(key.publicKey()), person, on(day));
    }
    [[nodiscard]] static QSet<QString> only(const SigningKey& one) { return {thumbprint(one.publicKey())}; }

    SigningKey laptop = keyOf(1);
    SigningKey secondLaptop = keyOf(2);
    SigningKey office = keyOf(4);
    SigningKey otherOffice = keyOf(5);
    SigningKey unknownOffice = keyOf(6);
    Trust trust{{office.publicKey(), otherOffice.publicKey()}};
};

// ---- The workspace's own list -----------------------------------------------------------------------------

TEST_F(TrustTest, AnEnrolledKeyIsItsOwnersAndNobodyElses)
{
    trust.add({laptop.publicKey(), kAda, on(u"2026-11-01"_s), {}});

    EXPECT_EQ(known(laptop, kAda).listed, Listed::Theirs);
    EXPECT_FALSE(known(laptop, kAda).isOthers());
    EXPECT_EQ(known(laptop, kBen).listed, Listed::Others);
    EXPECT_TRUE(known(laptop, kBen).isOthers());
    EXPECT_EQ(known(secondLaptop, kAda).listed, Listed::No);
    EXPECT_FALSE(known(secondLaptop, kAda).isOthers()) << "nobody knows whose it is";
    EXPECT_EQ(trust.listed(), only(laptop));
    EXPECT_EQ(trust.ownerOf(thumbprint(laptop.publicKey())), kAda);
    EXPECT_FALSE(trust.ownerOf(thumbprint(secondLaptop.publicKey())));
}

TEST_F(TrustTest, AnEnrolledKeyThatWasTakenOutOfUseStaysItsOwnersForWhatItSignedBefore)
{
    trust.add({laptop.publicKey(), kAda, on(u"2026-11-01"_s), on(u"2026-11-20"_s)});

    EXPECT_EQ(known(laptop, kAda, u"2026-11-19"_s).listed, Listed::Theirs);
    EXPECT_EQ(known(laptop, kAda, u"2026-11-20"_s).listed, Listed::Retired) << "from that moment on";
    EXPECT_TRUE(known(laptop, kAda, u"2026-11-21"_s).isListedAsTheirs());
    EXPECT_FALSE(known(laptop, kBen, u"2026-11-21"_s).isListedAsTheirs());
}

TEST_F(TrustTest, AKeyThatIsEnrolledForSomebodyElseSignsForNobodyWhateverAnOfficeSays)
{
    trust.add({laptop.publicKey(), kAda, on(u"2026-11-01"_s), {}});
    ASSERT_TRUE(trust.add(certificate(laptop, kBen, office)));

    EXPECT_TRUE(known(laptop, kBen).isOthers());
    EXPECT_TRUE(known(laptop, kAda).isOthers()) << "nor for its owner, while the office says so";
}

// ---- Offices ----------------------------------------------------------------------------------------------

TEST_F(TrustTest, AnOfficeThatIsBelievedVouchesForAKey)
{
    ASSERT_TRUE(trust.add(certificate(laptop, kAda, office)));

    ASSERT_EQ(known(laptop, kAda).vouchedBy.size(), 1U);
    EXPECT_EQ(known(laptop, kAda).vouchedBy.front().office, thumbprint(office.publicKey()));
    EXPECT_EQ(known(laptop, kAda).names(), QStringList{u"Invented p-1"_s});
    EXPECT_TRUE(known(laptop, kAda).isVouchedFor(trust.offices()));
    EXPECT_FALSE(known(laptop, kAda).isVouchedFor(only(otherOffice))) << "which said nothing";
}

TEST_F(TrustTest, WhatAnUnknownOfficeSaysCountsForNothing)
{
    EXPECT_FALSE(trust.add(certificate(laptop, kAda, unknownOffice)));
    EXPECT_FALSE(trust.add(retirement(laptop, u"2026-11-01"_s, unknownOffice)));

    EXPECT_EQ(known(laptop, kAda), KnownOfKey());
    EXPECT_TRUE(trust.officesHeard().empty());
}

TEST_F(TrustTest, AnAlteredPaperSaysNothing)
{
    Certificate longer = certificate(laptop, kAda, office);
    longer.jws.payload.replace("2026-11-30", "2027-11-30");
    SignedRetirement later = retirement(laptop, u"2026-11-10"_s, office);
    later.jws.payload.replace("\"since\":\"2026-11-10\"", "\"since\":\"2026-12-10\"");
    ASSERT_TRUE(saidBy(longer) && saidBy(later));

    EXPECT_FALSE(trust.add(longer));
    EXPECT_FALSE(trust.add(later));
}

TEST_F(TrustTest, AnOfficeVouchesForOneRoleOrAnother)
{
    ASSERT_TRUE(trust.add(certificate(laptop, kAda, office)));

    EXPECT_TRUE(known(laptop, kAda).isVouchedFor(trust.offices(), Role::Engineer));
    EXPECT_FALSE(known(laptop, kAda).isVouchedFor(trust.offices(), Role::Supervisor));
}

TEST_F(TrustTest, AKeyThatIsCertifiedForSomebodyElseAloneIsTheirs)
{
    ASSERT_TRUE(trust.add(certificate(laptop, kBen, office)));
    EXPECT_TRUE(known(laptop, kAda).isOthers());
    EXPECT_TRUE(known(laptop, kAda).vouchedBy.empty());
    EXPECT_EQ(known(laptop, kAda).names(), QStringList{u"Invented p-2"_s});

    ASSERT_TRUE(trust.add(certificate(laptop, kAda, otherOffice)));
    EXPECT_FALSE(known(laptop, kAda).isOthers()) << "two offices name one person in two ways";
}

TEST_F(TrustTest, ACertificateIsNotForOtherDays)
{
    ASSERT_TRUE(trust.add(certificate(laptop, kAda, office)));

    EXPECT_TRUE(known(laptop, kAda, u"2026-12-01"_s).vouchedBy.empty());
    EXPECT_EQ(known(laptop, kAda, u"2026-12-01"_s).vouchedOtherDays.size(), 1U);
    EXPECT_FALSE(known(laptop, kAda, u"2026-12-01"_s).isOthers()) << "it is theirs all the same";
    EXPECT_TRUE(known(laptop, kAda, u"2026-11-30"_s).vouchedOtherDays.empty());
    ASSERT_TRUE(trust.add(certificate(laptop, kBen, otherOffice)));
    EXPECT_FALSE(known(laptop, kAda, u"2026-12-01"_s).isOthers()) << "though not theirs alone";
}

TEST_F(TrustTest, AKeyIsOutOfUseFromThatDayOnAndNotBefore)
{
    ASSERT_TRUE(trust.add(certificate(laptop, kAda, office)));
    ASSERT_TRUE(trust.add(retirement(laptop, u"2026-11-20"_s, office)));

    EXPECT_TRUE(known(laptop, kAda, u"2026-11-19"_s).outOfUse.empty());
    EXPECT_TRUE(known(laptop, kAda, u"2026-11-19"_s).isVouchedFor(trust.offices()));
    EXPECT_EQ(known(laptop, kAda, u"2026-11-20"_s).outOfUse.size(), 1U);
    EXPECT_FALSE(known(laptop, kAda, u"2026-11-20"_s).isVouchedFor(trust.offices()));
    EXPECT_TRUE(known(laptop, kAda, u"2026-11-20"_s).stillVouchedBy().empty());
    EXPECT_FALSE(known(laptop, kAda, u"2026-11-20"_s).isOthers()) << "it is theirs all the same";
}

TEST_F(TrustTest, AnOfficeTakesBackItsOwnWordAndNoOther)
{
    ASSERT_TRUE(trust.add(certificate(laptop, kAda, office)));
    ASSERT_TRUE(trust.add(certificate(laptop, kAda, otherOffice)));
    ASSERT_TRUE(trust.add(retirement(laptop, u"2026-11-20"_s, office)));

    const auto still = known(laptop, kAda).stillVouchedBy();
    ASSERT_EQ(still.size(), 1U);
    EXPECT_EQ(still.front().office, thumbprint(otherOffice.publicKey()));
    EXPECT_TRUE(known(laptop, kAda).isVouchedFor(only(otherOffice))) << "for whoever believes it alone";
    EXPECT_FALSE(known(laptop, kAda).isVouchedFor(trust.offices())) << "one of them says it is out of use";
}

TEST_F(TrustTest, OneOfTwoLaptopsIsLostAndTheOtherSignsOn)
{
    for (const SigningKey* one : {&laptop, &secondLaptop}) {
        ASSERT_TRUE(trust.add(certificate(*one, kAda, office)));
    }
    ASSERT_TRUE(trust.add(retirement(laptop, u"2026-11-10"_s, office)));

    EXPECT_FALSE(known(laptop, kAda).isVouchedFor(trust.offices()));
    EXPECT_TRUE(known(secondLaptop, kAda).isVouchedFor(trust.offices()));
    EXPECT_EQ(known(secondLaptop, kAda).vouchedBy.size(), 1U) << "each paper is of one key";
}

TEST_F(TrustTest, WhatNamesNeitherPersonNorMomentTakesWhateverIsSaidOfTheKey)
{
    trust.add({laptop.publicKey(), kAda, on(u"2026-11-01"_s), {}});
    ASSERT_TRUE(trust.add(certificate(laptop, kAda, office)));
    ASSERT_TRUE(trust.add(certificate(laptop, kBen, otherOffice)));
    ASSERT_TRUE(trust.add(retirement(laptop, u"2026-11-20"_s, office)));
    const KnownOfKey former = trust.of(thumbprint(laptop.publicKey()), {}, {});

    EXPECT_EQ(former.listed, Listed::Theirs);
    EXPECT_EQ(former.vouchedBy.size(), 2U);
    EXPECT_EQ(former.outOfUse.size(), 1U);
    EXPECT_FALSE(former.isOthers());
}

// ---- Heard elsewhere before -------------------------------------------------------------------------------

TEST_F(TrustTest, APaperThatWasHeardElsewhereSaysTheSameHere)
{
    Trust elsewhere{{office.publicKey()}};
    ASSERT_TRUE(elsewhere.add(certificate(laptop, kAda, office)));
    ASSERT_TRUE(elsewhere.add(retirement(laptop, u"2026-11-20"_s, office)));

    ASSERT_TRUE(trust.add(certificate(laptop, kAda, office), elsewhere));
    ASSERT_TRUE(trust.add(retirement(laptop, u"2026-11-20"_s, office), elsewhere));
    ASSERT_TRUE(trust.add(certificate(laptop, kBen, otherOffice), elsewhere)) << "one that is new";

    EXPECT_EQ(known(laptop, kAda).vouchedBy.size(), 1U);
    EXPECT_EQ(known(laptop, kAda).outOfUse.size(), 1U);
    EXPECT_EQ(known(laptop, kBen).vouchedBy.size(), 1U);
}

TEST_F(TrustTest, WhoeverIsBelievedElsewhereAloneSaysNothingHere)
{
    Trust elsewhere{{unknownOffice.publicKey()}};
    ASSERT_TRUE(elsewhere.add(certificate(laptop, kAda, unknownOffice)));
    ASSERT_TRUE(elsewhere.add(retirement(laptop, u"2026-11-20"_s, unknownOffice)));

    EXPECT_FALSE(trust.add(certificate(laptop, kAda, unknownOffice), elsewhere));
    EXPECT_FALSE(trust.add(retirement(laptop, u"2026-11-20"_s, unknownOffice), elsewhere));
    EXPECT_EQ(known(laptop, kAda), KnownOfKey());
}

TEST_F(TrustTest, APaperIsCheckedUnlessExactlyThatOneWasHeardElsewhere)
{
    Trust elsewhere{{office.publicKey()}};
    ASSERT_TRUE(elsewhere.add(certificate(laptop, kAda, office)));
    Certificate forged = certificate(laptop, kBen, office);
    forged.signature = certificate(laptop, kAda, office).signature;
    Certificate unsignedOne = certificate(laptop, kAda, office);
    unsignedOne.signature = certificate(laptop, kBen, office).signature;

    EXPECT_FALSE(trust.add(forged, elsewhere));
    EXPECT_FALSE(trust.add(unsignedOne, elsewhere));
    EXPECT_EQ(known(laptop, kBen), KnownOfKey());
}

// ---- Carried away, and read from a workspace --------------------------------------------------------------

TEST_F(TrustTest, CarriesAwayWhatIsBelievedAndTheOfficesThatSaySo)
{
    ASSERT_TRUE(trust.add(retirement(laptop, u"2026-11-20"_s, otherOffice)));
    EXPECT_EQ(trust.officesHeard(), std::vector{otherOffice.publicKey()});

    ASSERT_TRUE(trust.add(certificate(laptop, kAda, office)));
    trust.add(certificate(secondLaptop, kBen, unknownOffice));
    EXPECT_EQ(trust.officesHeard(), (std::vector{office.publicKey(), otherOffice.publicKey()}));
    EXPECT_EQ(trust.certificates(), std::vector{certificate(laptop, kAda, office)});
    EXPECT_EQ(trust.retirements(), std::vector{retirement(laptop, u"2026-11-20"_s, otherOffice)});
}

TEST_F(TrustTest, AWorkspaceTellsWhatItKnowsOfAKeyUntilItsOfficeIsDropped)
{
    test::FakeClock clock;
    coldarc::store::Database database = coldarc::store::Database::inMemory();
    OfficeStore offices(database);
    KeyStore keys(database);
    ASSERT_TRUE(PeopleStore(database).add({kAda, u"Ada Invented"_s, Role::Engineer, {}, {}, {}}));
    ASSERT_TRUE(keys.enrol(
        kAda, *sealKey(laptop, kAda, *Passphrase::accept(u"nine herons over it"_s), {1, 8}), clock.now()));
    ASSERT_TRUE(offices.takeUp(office.publicKey(), u"Invented Lamps"_s, kAda, clock.now()));
    ASSERT_TRUE(offices.keep(certificate(laptop, kAda, office), clock.now()));
    ASSERT_TRUE(offices.keep(retirement(laptop, u"2026-11-20"_s, office), clock.now()));
    const auto read = [&](const SigningKey& key) {
        return readTrust(offices, keys, {key.publicKey()})
            ->of(thumbprint(laptop.publicKey()), kAda, on(u"2026-11-20"_s));
    };

    EXPECT_EQ(read(laptop).listed, Listed::Theirs);
    EXPECT_EQ(read(laptop).vouchedBy.size(), 1U);
    EXPECT_EQ(read(laptop).outOfUse.size(), 1U);
    EXPECT_EQ(read(secondLaptop), KnownOfKey()) << "nothing was asked of the first";
    ASSERT_TRUE(offices.drop(office.publicKey(), clock.now()));
    EXPECT_TRUE(read(laptop).vouchedBy.empty());
    EXPECT_TRUE(read(laptop).outOfUse.empty());
    EXPECT_EQ(read(laptop).listed, Listed::Theirs);
}

} // namespace
} // namespace coldarc::people
