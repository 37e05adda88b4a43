#include "core/record/verify.h"

#include "tests/core/record/signed_visit.h"
#include "tests/support/testing.h"

namespace coldarc::record {
namespace {

using namespace Qt::StringLiterals;
using test::SignedVisit;
using Kind = Fault::Kind;

/// The kinds of what is wrong, each with its place.
std::vector<Fault> faultsOf(const Record& record)
{
    return verify(record).faults;
}

bool has(const std::vector<Fault>& faults, const Fault& fault)
{
    return std::ranges::find(faults, fault) != faults.end();
}

TEST(VerifyTest, AWholeRecordTellsWhoSignedWhatAndWhen)
{
    const SignedVisit visit;
    const Verification found = verify(visit.record());

    ASSERT_TRUE(found.isGood());
    EXPECT_EQ(found.entries, 12);
    EXPECT_EQ(found.signedUpTo, 11);
    ASSERT_EQ(found.signatures.size(), 5U);
    const people::HeadStatement& last = found.signatures.back().statement;
    EXPECT_EQ(last.person, PersonId(u"person-3"_s));
    EXPECT_EQ(last.meaning, people::Meaning::Reviewed);
    EXPECT_EQ(last.at, visit.moment);
    EXPECT_EQ(found.signatures.back().thumbprint, people::thumbprint(visit.supervisor.publicKey()));
}

TEST(VerifyTest, WhatComesAfterTheLastSignatureIsNobodysWord)
{
    SignedVisit visit;
    visit.signatures.resize(2);

    EXPECT_EQ(verify(visit.record()).signedUpTo, 6);
}

// ---- Reviews --------------------------------------------------------------------------------------------

SignedVisit reviewedVisit()
{
    SignedVisit visit;
    visit.review(visit.reviewer, u"person-9"_s, 11, Verdict::SentBack);
    return visit;
}

TEST(VerifyTest, AReviewTellsWhoLookedAtWhatAndWhatTheySaid)
{
    const SignedVisit visit = reviewedVisit();
    const Record record = visit.record();
    const Verification found = verify(record);

    ASSERT_TRUE(found.isGood());
    ASSERT_EQ(found.reviews.size(), 1U);
    EXPECT_EQ(found.reviews.front().said,
              (ReviewSaid{visit.reviews.front().review, people::thumbprint(visit.reviewer.publicKey())}));
    EXPECT_EQ(found.reviews.front().id, visit.reviews.front().id);
    EXPECT_EQ(record.keys.size(), 4U);
    EXPECT_EQ(found.signatures.size(), 5U) << "a review signs for no work";
}

TEST(VerifyTest, AReviewAloneSignsNothing)
{
    SignedVisit visit = reviewedVisit();
    visit.signatures.clear();

    EXPECT_EQ(faultsOf(visit.record()), std::vector<Fault>{{Kind::NothingSigned}});
    EXPECT_EQ(verify(visit.record()).signedUpTo, -1);
}

TEST(VerifyTest, EachThingThatIsWrongWithAReviewNamesIt)
{
    const Record good = reviewedVisit().record();
    const auto fault = [&](const auto& change) {
        Record record = good;
        change(record);
        const auto faults = faultsOf(record);
        EXPECT_EQ(faults.size(), 1U);
        if (faults.empty())
            return Kind::NoEntries;
        EXPECT_EQ(faults.front().review, faults.front().kind == Kind::SignedTwice ? 1 : 0);
        return faults.front().kind;
    };
    const auto signedAnew = [](Record& record, const auto& change) {
        Review review = saidBy(record.reviews.front())->review;
        change(review);
        record.reviews.front() = *sign(review, test::keyOf(5));
    };

    EXPECT_EQ(fault([](Record& one) { one.reviews.front().jws.payload.replace("looked", "gazed"); }),
              Kind::DoesNotVerify);
    EXPECT_EQ(fault([](Record& one) { one.reviews.front().jws.payload = "{}"; }), Kind::NotAReview);
    EXPECT_EQ(fault([](Record& one) { one.reviews.push_back(one.reviews.front()); }), Kind::SignedTwice);
    EXPECT_EQ(fault([](Record& one) { one.keys.pop_back(); }), Kind::UnknownKey);
    EXPECT_EQ(fault([&](Record& one) {
                  signedAnew(one, [](Review& review) { review.visit = VisitId(u"visit-8"_s); });
              }),
              Kind::OtherVisit);
    EXPECT_EQ(fault([&](Record& one) { signedAnew(one, [](Review& review) { review.entry = 12; }); }),
              Kind::NoSuchEntry);
    EXPECT_EQ(fault([&](Record& one) { signedAnew(one, [](Review& review) { review.entry = 10; }); }),
              Kind::OtherHead);
    EXPECT_EQ(wordOf(Kind::NotAReview), u"not-a-review"_s);
}

TEST(VerifyTest, WhoVouchesForAReviewerIsToldAndWhetherAsASupervisor)
{
    SignedVisit visit = reviewedVisit();
    const QSet<QString> office{people::thumbprint(visit.office.publicKey())};
    EXPECT_FALSE(isVouchedFor(verify(visit.record()).reviews.front(), office)) << "nobody does";

    visit.vouch(visit.reviewer, u"person-9"_s, u"2027-10-31"_s);
    EXPECT_EQ(verify(visit.record()).reviews.front().known.vouchedBy.size(), 1U);
    EXPECT_FALSE(isVouchedFor(verify(visit.record()).reviews.front(), office)) << "as an engineer";

    visit.vouch(visit.reviewer, u"person-9"_s, u"2027-10-31"_s, people::Role::Supervisor);
    EXPECT_TRUE(isVouchedFor(verify(visit.record()).reviews.front(), office));
    EXPECT_FALSE(isVouchedFor(verify(visit.record()).reviews.front(), {u"another"_s}));
}

TEST(VerifyTest, AReviewOnADayForWhichNobodyVouchesIsTold)
{
    SignedVisit visit = reviewedVisit(); // on 2026-11-25
    visit.vouch(visit.reviewer, u"person-9"_s, u"2026-11-24"_s, people::Role::Supervisor);
    const Verification found = verify(visit.record());

    ASSERT_TRUE(found.isGood());
    EXPECT_TRUE(found.reviews.front().known.vouchedBy.empty());
    EXPECT_EQ(found.reviews.front().known.vouchedOtherDays.size(), 1U);
}

TEST(VerifyTest, AReviewUnderSomebodyElsesNameIsSeen)
{
    SignedVisit visit = reviewedVisit();
    visit.vouch(visit.reviewer, u"person-8"_s, u"2027-10-31"_s, people::Role::Supervisor);

    EXPECT_EQ(faultsOf(visit.record()),
              std::vector<Fault>({{.kind = Kind::OtherPerson, .entry = 11, .review = 0}}));
}

TEST(VerifyTest, AReviewBehindAnAlteredEntryVouchesForWhatStoodThere)
{
    Record record = reviewedVisit().record();
    record.entries[4].replace("remark", "Remark");
    const Verification found = verify(record);

    ASSERT_EQ(found.reviews.size(), 1U);
    EXPECT_TRUE(found.coversABreak(found.reviews.front()));
}

// ---- Keys out of use ------------------------------------------------------------------------------------

TEST(VerifyTest, WhatAKeySignedFromTheDayOnThatItIsOutOfUseIsTold)
{
    SignedVisit visit = reviewedVisit(); // signed and reviewed on 2026-11-25
    const QSet<QString> office{people::thumbprint(visit.office.publicKey())};
    visit.vouch(visit.engineer, u"person-1"_s, u"2027-10-31"_s);
    visit.vouch(visit.reviewer, u"person-9"_s, u"2027-10-31"_s, people::Role::Supervisor);
    EXPECT_TRUE(isVouchedFor(verify(visit.record()).signatures.front(), office));

    visit.retire(visit.engineer, u"2026-11-26"_s);
    EXPECT_TRUE(isVouchedFor(verify(visit.record()).signatures.front(), office)) << "signed before";
    EXPECT_TRUE(verify(visit.record()).signatures.front().known.outOfUse.empty());

    visit.retire(visit.engineer, u"2026-11-25"_s);
    visit.retire(visit.reviewer, u"2026-11-01"_s);
    const Verification found = verify(visit.record());
    EXPECT_TRUE(found.isGood()) << "told beside, like a day for which nobody vouches";
    EXPECT_EQ(found.signatures.front().known.outOfUse.size(), 1U);
    EXPECT_FALSE(isVouchedFor(found.signatures.front(), office));
    EXPECT_TRUE(found.signatures.front().known.isOutOfUseFor(office));
    EXPECT_FALSE(found.signatures.front().known.isOutOfUseFor({u"another"_s})) << "which is not believed";
    EXPECT_FALSE(isVouchedFor(found.reviews.front(), office));
}

TEST(VerifyTest, ARetirementThatWasAlteredOrOfNoOfficeOfTheRecordIsSeen)
{
    SignedVisit visit;
    visit.vouch(visit.engineer, u"person-1"_s, u"2027-10-31"_s);
    visit.retire(visit.engineer, u"2026-11-26"_s);
    Record altered = visit.record();
    altered.vouching.retirements.front().jws.payload.replace("2026-11-26", "2036-11-26");
    Record withoutOffice = visit.record();
    withoutOffice.vouching.offices = {test::keyOf(9).publicKey()};
    withoutOffice.vouching.certificates.clear();

    EXPECT_EQ(faultsOf(altered), std::vector<Fault>({{.kind = Kind::CertificateAltered, .certificate = 1}}));
    EXPECT_EQ(faultsOf(withoutOffice),
              std::vector<Fault>({{.kind = Kind::CertificateAltered, .certificate = 0}}));
}

// ---- Former signatures ----------------------------------------------------------------------------------

TEST(VerifyTest, AFormerSignatureTellsNeitherPersonNorMoment)
{
    SignedVisit visit;
    visit.signatures.clear();
    visit.sign(visit.engineer, u"person-1"_s, 11, people::Meaning::Performed, true);
    const Verification found = verify(visit.record());

    ASSERT_TRUE(found.isGood());
    EXPECT_TRUE(found.signatures.front().isFormer);
    EXPECT_TRUE(found.signatures.front().statement.person.isEmpty());
    EXPECT_EQ(found.signatures.front().statement.at, WallTime());
}

TEST(VerifyTest, AnAlteredEntryIsNamed)
{
    Record record = SignedVisit().record();
    record.entries[4].replace("remark", "Remark");

    EXPECT_EQ(faultsOf(record), std::vector<Fault>({{Kind::ChainBreaks, 4, -1}}));
}

TEST(VerifyTest, ASignatureBeforeAnAlteredEntryVouchesForAllThatItCovers)
{
    Record record = SignedVisit().record();
    record.entries[4].replace("remark", "Remark");
    const Verification found = verify(record);

    ASSERT_EQ(found.signatures.size(), 5U);
    EXPECT_FALSE(found.coversABreak(found.signatures[0])) << "over entry 0";
    EXPECT_TRUE(found.coversABreak(found.signatures[1])) << "over entry 6";
}

TEST(VerifyTest, ALinkThatWasAlteredAlongIsSeenByWhoSignedLater)
{
    Record record = SignedVisit().record();
    record.entries[4].replace("remark", "Remark");
    Hash before = record.chain[3];
    for (std::size_t entry = 4; entry < record.entries.size(); ++entry) {
        before = chained(before, record.entries[entry]);
        record.chain[entry] = before;
    }

    const auto faults = faultsOf(record);
    EXPECT_EQ(faults.size(), 4U) << "the stop and the three at the end";
    EXPECT_TRUE(has(faults, {Kind::OtherHead, 6, 1}));
    EXPECT_TRUE(has(faults, {Kind::OtherHead, 11, 2}));
}

TEST(VerifyTest, AnEntryDroppedDoubledOrSwappedIsSeen)
{
    const Record good = SignedVisit().record();
    for (std::size_t entry = 0; entry < good.entries.size(); ++entry) {
        const auto place = static_cast<std::ptrdiff_t>(entry);
        Record dropped = good;
        dropped.entries.erase(dropped.entries.begin() + place);
        EXPECT_TRUE(has(faultsOf(dropped), {Kind::LinksMissing, -1, -1})) << entry;
        dropped.chain.erase(dropped.chain.begin() + place);
        EXPECT_FALSE(verify(dropped).isGood()) << entry;

        Record doubled = good;
        doubled.entries.insert(doubled.entries.begin() + place, good.entries[entry]);
        doubled.chain.insert(doubled.chain.begin() + place, good.chain[entry]);
        EXPECT_FALSE(verify(doubled).isGood()) << entry;

        if (entry == 0)
            continue;
        Record swapped = good;
        std::swap(swapped.entries[entry], swapped.entries[entry - 1]);
        EXPECT_TRUE(has(faultsOf(swapped), {Kind::ChainBreaks, static_cast<qint64>(entry) - 1, -1, {}}))
            << entry;
    }
}

TEST(VerifyTest, ASignatureOfAnotherVisitIsRefused)
{
    Record record = SignedVisit().record();
    const Record other = SignedVisit(12, u"visit-8"_s).record();
    for (std::size_t one = 0; one < record.signatures.size(); ++one) {
        Record moved = record;
        moved.signatures[one] = other.signatures[one];
        EXPECT_TRUE(has(faultsOf(moved), {Kind::OtherVisit,
                                          verify(other).signatures[one].statement.sequence,
                                          static_cast<qint64>(one),
                                          {}}))
            << one;
    }
}

TEST(VerifyTest, ASubstitutedKeyOrSignatureIsRefused)
{
    Record noKey = SignedVisit().record();
    noKey.keys[2] = test::keyOf(9).publicKey();
    Record noWord = SignedVisit().record();
    noWord.signatures[2].signature = noWord.signatures[3].signature;

    EXPECT_EQ(faultsOf(noKey), std::vector<Fault>({{Kind::UnknownKey, 11, 4}}));
    EXPECT_EQ(faultsOf(noWord), std::vector<Fault>({{Kind::DoesNotVerify, 11, 2}}));
}

TEST(VerifyTest, AnAlteredMomentPersonOrMeaningIsRefused)
{
    for (const auto& [before, now] : {std::pair<QByteArray, QByteArray>("19:04", "18:04"),
                                      std::pair<QByteArray, QByteArray>("person-1", "person-2"),
                                      std::pair<QByteArray, QByteArray>("performed", "witnessed")}) {
        Record record = SignedVisit().record();
        record.signatures[2].jws.protectedHeader.replace(before, now);
        EXPECT_EQ(faultsOf(record), std::vector<Fault>({{Kind::DoesNotVerify, 11, 2}}))
            << before.toStdString();
    }
}

TEST(VerifyTest, WhatIsNoHeadOrIsSignedTwiceIsRefused)
{
    Record strange = SignedVisit().record();
    strange.signatures[0].jws.payload = "{\"hello\":1}";
    Record twice = SignedVisit().record();
    twice.signatures.push_back(twice.signatures.front());
    Record beyond = SignedVisit().record();
    beyond.entries.pop_back();
    beyond.chain.pop_back();

    EXPECT_EQ(faultsOf(strange), std::vector<Fault>({{Kind::NotAHead, -1, 0}}));
    EXPECT_EQ(faultsOf(twice), std::vector<Fault>({{Kind::SignedTwice, 0, 5}}));
    EXPECT_TRUE(has(faultsOf(beyond), {Kind::NoSuchEntry, 11, 2}));
}

TEST(VerifyTest, WhatNobodySignedIsNoRecord)
{
    SignedVisit visit;
    visit.signatures.clear();

    EXPECT_EQ(faultsOf(visit.record()), std::vector<Fault>({{Kind::NothingSigned, -1, -1}}));
    EXPECT_TRUE(has(faultsOf(Record()), {Kind::NoEntries, -1, -1}));
}

TEST(VerifyTest, AnAlteredPictureIsNamed)
{
    Record record = SignedVisit().record();
    record.pictures.front().bytes = "another picture";

    EXPECT_EQ(faultsOf(record),
              std::vector<Fault>({{Kind::PictureAltered, -1, -1, sha256("a picture").hex()}}));
}

TEST(VerifyTest, TellsWhoVouchesForAKey)
{
    SignedVisit visit;
    visit.vouch(visit.engineer, u"person-1"_s, u"2027-10-31"_s);
    const Verification found = verify(visit.record());
    const QString office = people::thumbprint(visit.office.publicKey());

    ASSERT_TRUE(found.isGood());
    ASSERT_EQ(found.signatures.front().known.vouchedBy.size(), 1U);
    EXPECT_EQ(found.signatures.front().known.vouchedBy.front().enrolment.name, u"Invented person-1"_s);
    EXPECT_TRUE(isVouchedFor(found.signatures.front(), {office}));
    EXPECT_FALSE(isVouchedFor(found.signatures.front(), {u"another"_s}));
    EXPECT_TRUE(found.signatures.back().known.vouchedBy.empty())
        << "nobody said anything of the supervisor's key";
    EXPECT_FALSE(isVouchedFor(found.signatures.back(), {office}));
}

TEST(VerifyTest, ASignatureWithSomebodyElsesKeyIsRefused)
{
    SignedVisit visit;
    visit.vouch(visit.supervisor, u"person-2"_s, u"2027-10-31"_s);

    EXPECT_EQ(faultsOf(visit.record()), std::vector<Fault>({{Kind::OtherPerson, 11, 4}}));
}

// Certificates run out and come late: neither makes a sound record unsound.
TEST(VerifyTest, ASignatureOnADayForWhichNobodyVouchesIsNotVouchedForUntilTheCertificateIsRenewed)
{
    SignedVisit visit; // signed on 2026-11-25
    visit.vouch(visit.supervisor, u"person-3"_s, u"2026-11-24"_s);
    const Verification before = verify(visit.record());
    ASSERT_TRUE(before.isGood());
    EXPECT_TRUE(before.signatures.back().known.vouchedBy.empty());
    EXPECT_EQ(before.signatures.back().known.vouchedOtherDays.size(), 1U);

    visit.vouch(visit.supervisor, u"person-3"_s, u"2026-11-25"_s);
    EXPECT_EQ(verify(visit.record()).signatures.back().known.vouchedBy.size(), 1U);
}

TEST(VerifyTest, ACertificateThatNoOfficeOfTheRecordGaveIsRefused)
{
    SignedVisit visit;
    visit.vouch(visit.engineer, u"person-1"_s, u"2027-10-31"_s);
    visit.vouch(visit.trainee, u"person-2"_s, u"2027-10-31"_s);
    Record altered = visit.record();
    altered.vouching.certificates[1].jws.payload.replace("2027-10-31", "2037-10-31");
    Record noOffice = visit.record();
    noOffice.vouching.offices = {visit.engineer.publicKey()};

    EXPECT_EQ(faultsOf(altered), std::vector<Fault>({{.kind = Kind::CertificateAltered, .certificate = 1}}));
    EXPECT_EQ(faultsOf(noOffice).size(), 2U);
}

TEST(VerifyTest, EachFaultHasAWordOfItsOwn)
{
    QSet<QString> words;
    for (int kind = 0; kind <= static_cast<int>(Kind::OtherPerson); ++kind)
        words.insert(wordOf(static_cast<Kind>(kind)));

    EXPECT_EQ(words.size(), static_cast<int>(Kind::OtherPerson) + 1);
}

} // namespace
} // namespace coldarc::record
