#include "core/review/reviewing.h"

#include "core/record/review_store.h"
#include "core/store/journal.h"
#include "core/store/summaries.h"
#include "tests/core/visit/night.h"
#include "tests/support/test_key.h"

#include <random>

// Every person here is invented.

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;
using Kind = ReviewRefusal::Kind;
using AuthorityVerdict = people::Authority::Verdict;
using coldarc::test::keyOf;
using record::Verdict;
using test::Night;

const PersonId kSue(u"sue"_s);

QList<Kind> kindsOf(const QList<ReviewRefusal>& refusals)
{
    QList<Kind> kinds;
    for (const ReviewRefusal& one : refusals)
        kinds.append(one.kind);
    return kinds;
}

class ReviewingTest : public ::testing::Test {
protected:
    ReviewingTest()
    {
        night.doAll();
        night.close();
        reviewer.person = {kSue, u"S. Marlow"_s, people::Role::Supervisor, {}, {}, {}};
        reviewer.authorisations = {{people::AuthorisationId(u"a-1"_s),
                                    kSue,
                                    people::Duty::Supervise,
                                    {},
                                    2026y / January / 1d,
                                    2026y / December / 31d,
                                    PersonId(u"boss"_s),
                                    {}}};
        reviewer.key = u"sues-key"_s;
    }
    [[nodiscard]] VisitAtReview visit() const { return {night.state, night.entries, head, signatures}; }
    [[nodiscard]] record::Review review(Verdict verdict = Verdict::Accepted) const
    {
        return {night.opening().visit,
                static_cast<qint64>(night.entries.size()) - 1,
                head,
                verdict,
                {},
                {},
                kSue,
                u"S. Marlow"_s,
                night.clock.now().wall};
    }
    [[nodiscard]] QList<ReviewRefusal> refusals() const { return mayTakeUp(reviewer, visit(), today); }

    Night night;
    Hash head = sha256("the last link");
    QList<HeadSigned> signatures{{0, PersonId(u"ada"_s), u"signed-in"_s, {}, true, u"adas-key"_s}};
    Reviewer reviewer;
    people::Day today = 2026y / November / 26d;
};

TEST_F(ReviewingTest, ASupervisorWhoHadNoPartInAVisitThatIsOverMayReviewIt)
{
    EXPECT_EQ(refusals(), QList<ReviewRefusal>());
    EXPECT_EQ(mayReview(review(), reviewer, visit(), today), QList<ReviewRefusal>());
}

TEST_F(ReviewingTest, AVisitThatIsOpenIsNotReviewedYet)
{
    night.state.end.clear();

    EXPECT_EQ(kindsOf(refusals()), QList{Kind::NotOver});
}

TEST_F(ReviewingTest, NobodyReviewsWhatALaterProgramWrote)
{
    night.state.isReadOnly = true;

    EXPECT_EQ(kindsOf(refusals()), QList{Kind::NotUnderstood});
}

TEST_F(ReviewingTest, AReviewIsNotDatedLongBeforeTheVisitEnded)
{
    record::Review dated = review();
    const WallTime ended = night.entries.last().at.wall;
    dated.at = ended - kMostClockDifference;
    EXPECT_EQ(mayReview(dated, reviewer, visit(), today), QList<ReviewRefusal>()) << "clocks differ";

    dated.at -= milliseconds(1);
    EXPECT_EQ(kindsOf(mayReview(dated, reviewer, visit(), today)), QList{Kind::ClockBehind});
    EXPECT_EQ(mayReview(dated, reviewer, visit(), today).first().after, dated.at);
}

// The one that says the latest moment is the last one: another would be signed and would not count.
TEST_F(ReviewingTest, AReviewThatWouldStandBehindOneThatWasKeptIsNotSigned)
{
    VisitAtReview reviewed = visit();
    reviewed.reviews = {review(Verdict::SentBack)};

    EXPECT_EQ(kindsOf(mayReview(review(), reviewer, reviewed, today)), QList{Kind::ClockBehind})
        << "of the same moment";
    EXPECT_EQ(mayReview(review(), reviewer, reviewed, today).first().after, reviewed.reviews.first().at);
    record::Review later = review();
    later.at += milliseconds(1);
    EXPECT_EQ(mayReview(later, reviewer, reviewed, today), QList<ReviewRefusal>());
    reviewed.reviews.front().entry -= 1;
    EXPECT_EQ(mayReview(review(), reviewer, reviewed, today), QList<ReviewRefusal>()) << "it looked less far";
}

// ---- No part whatever -----------------------------------------------------------------------------------

struct PartCase {
    const char* name;
    PersonId by;
    visit::Body body;

    friend void PrintTo(const PartCase& one, std::ostream* out) { *out << one.name; }
};

const PersonId kAda(u"ada"_s);

visit::ActRecord actBy(const PersonId& person)
{
    visit::ActRecord act;
    act.person = person;
    return act;
}

visit::PersonFacts factsOf(const PersonId& id, const QString& name = u"Somebody Else"_s)
{
    visit::PersonFacts facts;
    facts.id = id;
    facts.name = name;
    return facts;
}

visit::Did didBy(const PersonId& person, const PersonId& countersignedBy = {})
{
    visit::Did did;
    did.act = actBy(person);
    did.countersignedBy = countersignedBy;
    return did;
}

visit::Acted actedBy(const PersonId& person, const PersonId& countersignedBy = {})
{
    visit::Acted acted;
    acted.act = actBy(person);
    acted.countersignedBy = countersignedBy;
    return acted;
}

visit::Opening openingOf(const QList<PersonId>& ids)
{
    visit::Opening opening;
    for (const PersonId& id : ids)
        opening.people.append(factsOf(id));
    return opening;
}

visit::Happened happenedTo(const PersonId& person)
{
    visit::Happened happened;
    happened.person = person;
    return happened;
}

/// The last entry of a visit names Sue in one of the ways in which an entry can.
class PartTest : public ReviewingTest, public ::testing::WithParamInterface<PartCase> {};

TEST_P(PartTest, IsEnoughNotToReview)
{
    night.entries.append({night.clock.now(), GetParam().by, GetParam().body});

    EXPECT_EQ(refusals(),
              (QList<ReviewRefusal>{{Kind::TookPart, static_cast<qint64>(night.entries.size()) - 1}}));
}

INSTANTIATE_TEST_SUITE_P(
    EveryWay, PartTest,
    ::testing::Values(
        PartCase{"LedIt", kAda, openingOf({kSue, kAda})}, PartCase{"WasThere", kAda, openingOf({kAda, kSue})},
        PartCase{"Joined", kAda, visit::Joined{factsOf(kSue)}}, PartCase{"DidAStep", kAda, didBy(kSue)},
        PartCase{"CountersignedAStep", kAda, didBy(kAda, kSue)}, PartCase{"Acted", kAda, actedBy(kSue)},
        PartCase{"CountersignedAnAct", kAda, actedBy(kAda, kSue)},
        PartCase{"CountersignedAFan", kAda, visit::FanAnswered{{}, true, kSue}},
        PartCase{"CountersignedALook", kAda, visit::LocksSeen{{}, true, kSue}},
        PartCase{"CountersignedAnAnswer", kAda, visit::IncidentAnswered{0, {}, kSue}},
        PartCase{"CountersignedAWithdrawal", kAda, visit::Withdrawn{0, {}, kSue}},
        PartCase{"WasHurt", kAda, happenedTo(kSue)}, PartCase{"PassedOn", kAda, visit::PassedOn{kSue, kAda}},
        PartCase{"TookOver", kAda, visit::PassedOn{kAda, kSue}},
        PartCase{"LostALock", kAda, visit::LockRemoved{kSue, {}, PersonId(u"ben"_s), {}, {}}},
        PartCase{"RemovedALock", kAda, visit::LockRemoved{PersonId(u"ben"_s), {}, kSue, {}, {}}},
        PartCase{"Left", kAda, visit::Left{kSue}}, PartCase{"WasToldOfALock", kSue, visit::RemovalTold{}},
        PartCase{"AnsweredAnIncident", kSue, visit::IncidentAnswered{}},
        PartCase{"ReadALamp", kSue, visit::LampRead{}},
        PartCase{"PassedASerial", kSue, visit::SerialPassed{}},
        PartCase{"ReadTheLight", kSue, visit::LightRead{}}, PartCase{"SetTheKnobs", kSue, visit::LightSet{}},
        PartCase{"ReadTheScreen", kSue, visit::ScreenRead{}},
        PartCase{"SaidHowItWasRead", kSue, visit::ScreenConditions{}},
        PartCase{"SetTheLimits", kSue, visit::ScreenLimits{}},
        PartCase{"AnsweredForTheFan", kSue, visit::FanAnswered{}},
        PartCase{"LookedAtTheLocks", kSue, visit::LocksSeen{}}, PartCase{"LeftAStep", kSue, visit::Owed{}},
        PartCase{"TookBack", kSue, visit::Withdrawn{}}, PartCase{"Noted", kSue, visit::Noted{}},
        PartCase{"KeptAPicture", kSue, visit::PictureKept{}},
        PartCase{"TookItUpAgain", kSue, visit::Resumed{}}, PartCase{"MadeItSafe", kSue, visit::SafeBegun{}},
        PartCase{"GaveALampAway", kSue, visit::CustodyDecided{}}, PartCase{"Signed", kSue, visit::Signed{}},
        PartCase{"LetTheSiteSign", kSue, visit::SiteSigned{}}, PartCase{"ClosedIt", kSue, visit::Closed{}},
        PartCase{"AddedARemark", kSue, visit::Addendum{u"one more thing"_s}},
        PartCase{"WroteSomethingElse", kSue, visit::Unknown{}}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST_F(ReviewingTest, ASignatureAloneIsAPart)
{
    signatures.append({5, kSue, u"witnessed"_s, {}, false, u"a-key"_s});

    EXPECT_EQ(refusals(), (QList<ReviewRefusal>{{Kind::TookPart, 5}}));
}

// As their other laptop may know them.
TEST_F(ReviewingTest, AKeyThatSignedUnderAnotherIdIsAPart)
{
    signatures.append({6, PersonId(u"sue-elsewhere"_s), u"performed"_s, {}, true, u"sues-key"_s});

    EXPECT_EQ(refusals(), (QList<ReviewRefusal>{{Kind::TookPart, 6}}));
    reviewer.key.clear();
    EXPECT_EQ(refusals(), QList<ReviewRefusal>());
}

TEST_F(ReviewingTest, SomebodyOfTheSameNameHoldsTheReviewUp)
{
    night.entries.append(
        {night.clock.now(), kAda, visit::Joined{factsOf(PersonId(u"sue-elsewhere"_s), u" s.  MARLOW "_s)}});

    EXPECT_EQ(refusals(),
              (QList<ReviewRefusal>{{Kind::NameTookPart, static_cast<qint64>(night.entries.size()) - 1}}));
}

// Letters that nobody sees, and wide ones, tell no two people apart.
TEST_F(ReviewingTest, ANameIsTheSameHoweverItIsWritten)
{
    for (const QString& name : {u"S. M\u200barlow"_s, u"\uff33. Marlow"_s, u"S.\u00a0Marlow"_s}) {
        const auto before = night.entries;
        night.entries.append(
            {night.clock.now(), kAda, visit::Joined{factsOf(PersonId(u"sue-elsewhere"_s), name)}});
        EXPECT_EQ(kindsOf(refusals()), QList{Kind::NameTookPart}) << name.toStdString();
        night.entries = before;
    }
}

TEST_F(ReviewingTest, WhomAnOfficeKnowsByAnotherNameIsLookedForByThatOneToo)
{
    night.entries.append(
        {night.clock.now(), kAda, visit::Joined{factsOf(PersonId(u"sue-elsewhere"_s), u"Susan Marlow"_s)}});
    EXPECT_EQ(refusals(), QList<ReviewRefusal>());

    reviewer.otherNames = {u"Susan Marlow"_s};
    EXPECT_EQ(kindsOf(refusals()), QList{Kind::NameTookPart});
}

TEST_F(ReviewingTest, AKeyThatAnOfficeSaysIsTheReviewersHoldsTheReviewUp)
{
    HeadSigned signature{4, PersonId(u"sue-elsewhere"_s), u"performed"_s, {}, true, u"another-key"_s};
    signature.vouchedBy = {{u"office"_s, u"S. Marlow"_s, people::Role::Supervisor, today, today}};
    signatures.append(signature);

    EXPECT_EQ(refusals(), (QList<ReviewRefusal>{{Kind::NameTookPart, 4}}));
}

TEST_F(ReviewingTest, EachOneAnEntryNamesIsNamedOnce)
{
    const visit::Entry entry{night.clock.now(), kAda, didBy(kAda, kSue)};

    EXPECT_EQ(peopleIn(entry), (QList<PersonId>{kAda, kSue}));
}

// ---- Authority ------------------------------------------------------------------------------------------

TEST_F(ReviewingTest, NobodyReviewsWithoutAuthorityThatHoldsToday)
{
    const auto refused = [&](AuthorityVerdict verdict) {
        return refusals() == QList<ReviewRefusal>{{Kind::NoAuthority, -1, -1, verdict}};
    };
    today = 2027y / January / 1d;
    EXPECT_TRUE(refused(AuthorityVerdict::Expired));
    today = 2026y / December / 31d;
    EXPECT_EQ(refusals(), QList<ReviewRefusal>());
    reviewer.authorisations.front().withdrawnOn = today;
    EXPECT_TRUE(refused(AuthorityVerdict::Withdrawn));
    reviewer.authorisations.front().withdrawnOn.reset();
    reviewer.authorisations.front().models = {ModelId(u"another-model"_s)};
    EXPECT_TRUE(refused(AuthorityVerdict::OtherModel));
    reviewer.authorisations.front().models = {ModelId(u"larkmoor-teal"_s)};
    EXPECT_EQ(refusals(), QList<ReviewRefusal>());
    reviewer.person.role = people::Role::Trainee;
    EXPECT_TRUE(refused(AuthorityVerdict::RoleNever));
    reviewer.person.role = people::Role::Supervisor;
    reviewer.person.retiredOn = today;
    EXPECT_TRUE(refused(AuthorityVerdict::Retired));
    reviewer.person.retiredOn.reset();
    reviewer.authorisations.clear();
    EXPECT_TRUE(refused(AuthorityVerdict::None));
}

// ---- What is said ---------------------------------------------------------------------------------------

TEST_F(ReviewingTest, AReviewIsOfThisVisitByThisPersonAndOfItsLastEntry)
{
    const auto refused = [&](const auto& change) {
        record::Review other = review();
        change(other);
        return kindsOf(mayReview(other, reviewer, visit(), today));
    };

    EXPECT_EQ(refused([](auto& one) { one.visit = VisitId(u"another"_s); }), QList{Kind::OtherVisit});
    EXPECT_EQ(refused([](auto& one) { one.by = kAda; }), QList{Kind::OtherPerson});
    EXPECT_EQ(refused([](auto& one) { one.name = u"A. Okoro"_s; }), QList{Kind::OtherPerson});
    EXPECT_EQ(refused([](auto& one) { --one.entry; }), QList{Kind::NotTheLastEntry});
    EXPECT_EQ(refused([](auto& one) { one.head = Hash(); }), QList{Kind::NotTheLastEntry});
}

TEST_F(ReviewingTest, WhatIsSentBackSaysWhyAndEachRemarkSaysSomethingOfAnEntry)
{
    record::Review back = review(Verdict::SentBack);
    back.text = u" "_s;
    back.remarks = {{0, u"this"_s}, {1, u"\t"_s}, {night.entries.size(), u"that"_s}};

    EXPECT_EQ(mayReview(back, reviewer, visit(), today),
              (QList<ReviewRefusal>{{Kind::TextMissing},
                                    {Kind::RemarkEmpty, -1, 1},
                                    {Kind::RemarkOnNoEntry, static_cast<qint64>(night.entries.size()), 2}}));
    back.text = QString(record::kMostReviewText + 1, u'x');
    back.remarks.clear();
    EXPECT_EQ(kindsOf(mayReview(back, reviewer, visit(), today)), QList{Kind::TooLong});
    back.text = u"the counter?"_s;
    EXPECT_EQ(mayReview(back, reviewer, visit(), today), QList<ReviewRefusal>());
}

// ---- How it stands --------------------------------------------------------------------------------------

record::Review lookedAt(qint64 entry, Verdict verdict, minutes later = 0min)
{
    record::Review review;
    review.visit = VisitId(u"visit-1"_s);
    review.entry = entry;
    review.verdict = verdict;
    review.text = u"looked at it"_s;
    review.by = kSue;
    review.name = u"S. Marlow"_s;
    review.at = WallTime(24h) + later;
    return review;
}

TEST(StandTest, IsThatOfTheLastReviewAndOfWhatWasAddedSince)
{
    EXPECT_EQ(standOf({}, 5), Stand::Waiting);
    EXPECT_EQ(standOf({lookedAt(4, Verdict::Accepted)}, 5), Stand::Accepted);
    EXPECT_EQ(standOf({lookedAt(4, Verdict::SentBack)}, 5), Stand::SentBack);
    EXPECT_EQ(standOf({lookedAt(4, Verdict::SentBack)}, 6), Stand::Answered);
    EXPECT_EQ(standOf({lookedAt(4, Verdict::Accepted)}, 6), Stand::Waiting);
    EXPECT_EQ(standOf({lookedAt(5, Verdict::Accepted), lookedAt(4, Verdict::SentBack, 60min)}, 6),
              Stand::Accepted)
        << "it looked further, whatever the clocks say";
    EXPECT_EQ(standOf({lookedAt(4, Verdict::SentBack, 5min), lookedAt(4, Verdict::Accepted)}, 5),
              Stand::SentBack);
    for (const Stand stand : {Stand::Waiting, Stand::Accepted, Stand::SentBack, Stand::Answered})
        EXPECT_EQ(standFromWord(wordOf(stand)), stand);
}

// The lists have it from SQL, everything else from the rule.
TEST(StandTest, IsTheSameInTheListsAndByTheRule)
{
    std::mt19937 chance(7);
    const people::SigningKey key = keyOf(9);
    for (int round = 0; round < 60; ++round) {
        store::Database database = store::Database::inMemory();
        store::Journal journal(database);
        store::Summaries summaries(database);
        record::ReviewStore reviews(database);
        const int entries = 2 + int(chance() % 4);
        std::vector<Hash> chain;
        store::VisitSummary summary;
        summary.visit = VisitId(u"visit-1"_s);
        summary.state = u"done"_s;
        summary.review = u"waiting"_s;
        for (int entry = 0; entry < entries; ++entry) {
            chain.push_back(*journal.append(summary.visit, store::Sequence(entry), "{}"));
            summary.headSeq = store::Sequence(entry);
            ASSERT_TRUE(summaries.put(summary));
            for (int number = int(chance() % 3); number > 0; --number) {
                record::Review review =
                    lookedAt(qint64(chance() % chain.size()),
                             chance() % 2 ? Verdict::Accepted : Verdict::SentBack, minutes(chance() % 3));
                review.head = chain[static_cast<std::size_t>(review.entry)];
                ASSERT_TRUE(reviews.keep(*record::sign(review, key), key.publicKey(), {}));
            }
            QList<record::Review> said;
            const auto kept = reviews.of(summary.visit);
            ASSERT_TRUE(kept);
            for (const record::KeptReview& one : kept->whole)
                said.append(one.review);
            const Stand stand = standOf(said, entry + 1);
            EXPECT_EQ(summaries.of(summary.visit)->review, wordOf(stand)) << round;
        }
    }
}

} // namespace
} // namespace coldarc::review
