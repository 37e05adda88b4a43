#include "core/review/record_doubts.h"

#include "tests/core/review/kept_night.h"

// Every person, key and office here is invented.

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;
using Why = record::Intake::Why;

class RecordDoubtsTest : public ::testing::Test {
protected:
    [[nodiscard]] record::EntriesTold told(const record::KeptReview& review, const VisitHere& here = {},
                                           const QHash<QString, QString>& ownNames = {},
                                           const record::Standing& standing = {}) const
    {
        const record::Record record = kept.record({review});
        return told(checkRecord({}, record), standing, here, ownNames);
    }
    [[nodiscard]] record::EntriesTold told(const CheckedRecord& checked,
                                           const record::Standing& standing = {}, const VisitHere& here = {},
                                           const QHash<QString, QString>& ownNames = {}) const
    {
        return toldOfReviews(checked, foldRecord(checked), standing, here, ownNames, kept.moment());
    }
    [[nodiscard]] QHash<QString, QString> ownName(const QString& name) const
    {
        return {{people::thumbprint(kept.sueKey.publicKey()), name}};
    }
    [[nodiscard]] bool lacks() const
    {
        const CheckedRecord checked = checkRecord({}, kept.record());
        return lacksASignature(foldRecord(checked), checked.found);
    }

    test::KeptNight kept;
    PersonId sue{u"sue"_s};
};

TEST_F(RecordDoubtsTest, ASignatureIsMissingWhereAnEntrySaysThatSomebodySigned)
{
    EXPECT_FALSE(lacks());

    std::erase_if(kept.signatures,
                  [&](const store::Signature& one) { return one.meaning == u"signed-in"_s; });
    EXPECT_FALSE(lacks()) << "who opened a visit may sign later";
    kept.signatures.pop_back();
    EXPECT_FALSE(lacks()) << "the end that nobody signed is not part of what is taken";
    kept.sign(kept.last(), sue, u"witnessed"_s);
    EXPECT_TRUE(lacks()) << "it is now, and who did the work did not sign it";
}

TEST_F(RecordDoubtsTest, ARecordWhoseLeadIsVouchedForAsATraineeAloneWaits)
{
    using people::Role;
    const auto doubt = [&](const std::vector<Role>& roles, const QString& name = u"A. Okoro"_s) {
        people::Trust trust({kept.office.publicKey()});
        for (const Role role : roles)
            EXPECT_TRUE(trust.add(kept.certificate(kept.key, kept.night.ada(), name, role)));
        const CheckedRecord checked = checkRecord({}, kept.record());
        return doubtOfSigners(foldRecord(checked), checked.found, trust);
    };
    EXPECT_EQ(doubt({Role::Trainee}), Why::LeadNotVouched);
    EXPECT_EQ(doubt({Role::Electrician}), Why::LeadNotVouched);
    EXPECT_EQ(doubt({Role::Trainee, Role::Engineer}), Why::None) << "who became one";
    EXPECT_EQ(doubt({Role::Supervisor}), Why::None);
    EXPECT_EQ(doubt({}), Why::None) << "that nobody vouches is told elsewhere";

    EXPECT_EQ(doubt({Role::Engineer}, u"T. Wren"_s), Why::SignerNamedOtherwise);
    EXPECT_EQ(doubt({Role::Engineer}, u"a. okoro"_s), Why::None) << "it reads alike";
}

// Whoever is there closes the visit where the lead was hurt: closing alone leads nothing then.
TEST_F(RecordDoubtsTest, ATraineeClosesAVisitInWhichSomebodyWasHurtAndNoOther)
{
    ASSERT_TRUE(std::holds_alternative<visit::Closed>(kept.night.entries.last().body));
    std::erase_if(kept.signatures,
                  [&](const store::Signature& one) { return one.seq.value() < kept.last(); });
    ASSERT_EQ(kept.signatures.size(), 1U);
    people::Trust trust({kept.office.publicKey()});
    ASSERT_TRUE(
        trust.add(kept.certificate(kept.key, kept.night.ada(), u"A. Okoro"_s, people::Role::Trainee)));
    const CheckedRecord checked = checkRecord({}, kept.record());
    CheckedRecord hurt = checked;
    hurt.entries[kept.last() - 1].body =
        visit::Happened{visit::Incident::SomeoneHurt, {}, {}, {}, {}, {}, {}};

    EXPECT_EQ(doubtOfSigners(foldRecord(checked), checked.found, trust), Why::LeadNotVouched);
    EXPECT_EQ(doubtOfSigners(foldRecord(hurt), hurt.found, trust), Why::None);
}

TEST_F(RecordDoubtsTest, ASignatureThatIsDatedLongBeforeItsEntryIsDoubtedWhoeverVouches)
{
    kept.signatures.clear();
    kept.sign(kept.last(), kept.night.ada(), u"performed"_s, false, -hours(23));
    const auto doubt = [&] {
        const CheckedRecord checked = checkRecord({}, kept.record());
        return doubtOfSigners(foldRecord(checked), checked.found, {});
    };
    EXPECT_EQ(doubt(), Why::None) << "clocks differ";

    kept.sign(kept.last(), kept.night.ada(), u"took-part"_s, false, -hours(25));
    EXPECT_EQ(doubt(), Why::SignatureMisdated);

    record::Standing standing;
    standing.signatures.insert(kept.signatures.back().bytes);
    const CheckedRecord checked = checkRecord({}, kept.record());
    EXPECT_EQ(doubtOfSigners(foldRecord(checked), checked.found, {}, standing), Why::None)
        << "what is kept here is not asked again";
}

TEST_F(RecordDoubtsTest, NothingSpeaksAgainstAReviewOfAVisitThatIsOver)
{
    const auto nothing = told(kept.review(kept.last()));

    EXPECT_EQ(nothing.doubtsAReview, Why::None);
    EXPECT_FALSE(nothing.nameAReviewer);
}

TEST_F(RecordDoubtsTest, AReviewerHadAPartByTheRecordOrByWhatStandsHere)
{
    EXPECT_TRUE(told(kept.review(kept.last(), kept.night.ada())).nameAReviewer);

    VisitHere here{kept.night.entries};
    EXPECT_FALSE(told(kept.review(kept.last()), here).nameAReviewer);
    here.entries.last().by = sue;
    EXPECT_TRUE(told(kept.review(kept.last()), here).nameAReviewer) << "as this workspace has the visit";
}

TEST_F(RecordDoubtsTest, TheReviewerIsKnownByTheNameThatThisWorkspaceHasForTheKey)
{
    EXPECT_EQ(told(kept.review(kept.last()), {}, ownName(u"S. Marlow"_s)).doubtsAReview, Why::None);
    EXPECT_EQ(told(kept.review(kept.last()), {}, ownName(u"T. Tern"_s)).doubtsAReview,
              Why::ReviewerNamedOtherwise);
    EXPECT_TRUE(
        told(kept.review(kept.last()), {}, ownName(kept.night.opening().people.first().name)).nameAReviewer);
}

TEST_F(RecordDoubtsTest, AReviewThatLookedBeforeTheVisitWasOverIsDoubted)
{
    EXPECT_EQ(told(kept.review(3)).doubtsAReview, Why::VisitNotOver);
}

TEST_F(RecordDoubtsTest, EachReviewIsHeldAgainstTheEntriesThatItLookedAt)
{
    const CheckedRecord checked = checkRecord({}, kept.record({kept.review(kept.last()), kept.review(3)}));
    const FoldedRecord folded = foldRecord(checked);

    EXPECT_EQ(folded.doubts, (std::map<qint64, Why>{{3, Why::VisitNotOver}, {kept.last(), Why::None}}));
    EXPECT_EQ(folded.state.entries, kept.night.entries.size());
}

TEST_F(RecordDoubtsTest, AReviewMayHaveLookedFurtherThanAnybodySigned)
{
    std::erase_if(kept.signatures, [](const store::Signature& one) { return one.meaning != u"signed-in"_s; });
    const FoldedRecord folded = foldRecord(checkRecord({}, kept.record({kept.review(kept.last())})));

    EXPECT_EQ(folded.entries.size(), 1);
    EXPECT_EQ(folded.state.entries, 1) << "as far as it was signed";
    EXPECT_EQ(folded.doubts, (std::map<qint64, Why>{{kept.last(), Why::None}}));
}

TEST_F(RecordDoubtsTest, WhatIsSignedIsReadUpToTheFirstEntryThatCannotBeRead)
{
    CheckedRecord checked = checkRecord({}, kept.record());
    checked.entries[3].body = visit::Unknown{u"of a later program"_s};
    EXPECT_EQ(foldRecord(checked).entries.size(), kept.night.entries.size());

    checked.entries[3].body = visit::Unknown{};
    const FoldedRecord folded = foldRecord(checked);
    EXPECT_EQ(folded.entries.size(), 3);
    EXPECT_EQ(folded.state.entries, 3);
}

TEST_F(RecordDoubtsTest, AReviewThatIsDatedLongBeforeTheVisitOrLongFromNowIsDoubted)
{
    EXPECT_EQ(told(kept.review(kept.last(), sue, -hours(48))).doubtsAReview, Why::ReviewMisdated);
    EXPECT_EQ(told(kept.review(kept.last(), sue, hours(48))).doubtsAReview, Why::ReviewMisdated);
    EXPECT_EQ(told(kept.review(kept.last(), sue, hours(12))).doubtsAReview, Why::None);
}

TEST_F(RecordDoubtsTest, AReviewOfEntriesOfALaterProgramIsDoubted)
{
    const record::KeptReview review = kept.review(kept.last());
    CheckedRecord checked = checkRecord({}, kept.record({review}));
    checked.entries[1].body = visit::Unknown{u"of a later program"_s};

    EXPECT_EQ(told(checked).doubtsAReview, Why::NotUnderstood);
}

TEST_F(RecordDoubtsTest, AReviewThatIsKeptIsNotLookedAtAgain)
{
    const record::KeptReview review = kept.review(3, kept.night.ada());
    record::Standing standing;
    const record::Verification found = record::verify(kept.record({review}));
    EXPECT_TRUE(bringsAReview(found, standing));

    standing.reviews.insert(review.id.bytes());
    EXPECT_FALSE(bringsAReview(found, standing));
    EXPECT_EQ(told(review, {}, {}, standing).doubtsAReview, Why::None);
    EXPECT_FALSE(told(review, {}, {}, standing).nameAReviewer);
}

TEST_F(RecordDoubtsTest, NothingIsSaidOfTheReviewsOfARecordWithAFault)
{
    record::Record record = kept.record({kept.review(kept.last(), kept.night.ada())});
    ASSERT_TRUE(told(checkRecord({}, record)).nameAReviewer);
    record.pictures = {{sha256("a picture"), "another one"}};

    EXPECT_FALSE(told(checkRecord({}, record)).nameAReviewer);
}

TEST_F(RecordDoubtsTest, ARecordTellsOfItselfWhateverAWorkspaceWouldLetItWaitFor)
{
    using people::Role;
    const auto doubts = [&](const record::Record& record) {
        const CheckedRecord checked = checkRecord({}, record);
        EXPECT_TRUE(checked.isAsSigned());
        return doubtsOf(checked, foldRecord(checked), kept.moment());
    };
    const auto vouched = [&](Role lead, Role reviewer) {
        return record::Vouching{{kept.office.publicKey()},
                                {kept.certificate(kept.key, kept.night.ada(), u"A. Okoro"_s, lead),
                                 kept.certificate(kept.sueKey, sue, u"S. Marlow"_s, reviewer)}};
    };
    const record::KeptReview review = kept.review(kept.last());
    const RecordDoubts none = doubts(kept.record({review}, vouched(Role::Engineer, Role::Supervisor)));
    EXPECT_TRUE(none.isGood());
    EXPECT_TRUE(std::ranges::all_of(none.signatures, [](Why why) { return why == Why::None; }));
    EXPECT_EQ(none.signatures.size(), kept.signatures.size());
    EXPECT_EQ(none.reviews, (std::vector<QList<Why>>{{}}));

    const RecordDoubts all =
        doubts(kept.record({kept.review(3, sue, hours(48))}, vouched(Role::Trainee, Role::Engineer)));
    EXPECT_FALSE(all.isGood());
    EXPECT_EQ(all.signatures.back(), Why::LeadNotVouched);
    EXPECT_EQ(all.reviews,
              (std::vector<QList<Why>>{{Why::VisitNotOver, Why::ReviewMisdated, Why::ReviewerNotVouched}}));

    record::Record another = kept.record();
    EXPECT_TRUE(doubts(another).isGood());
    std::erase_if(kept.signatures, [](const store::Signature& one) { return one.meaning == u"performed"_s; });
    kept.sign(kept.last(), sue, u"witnessed"_s);
    const RecordDoubts missing = doubts(kept.record());
    EXPECT_FALSE(missing.isGood());
    ASSERT_EQ(missing.missing.size(), 2) << "signing and closing";
    EXPECT_EQ(missing.missing.first().person, kept.night.ada());
}

TEST_F(RecordDoubtsTest, ARecordThatWasSignedOnceMoreAsThatOfAnotherVisitTellsSo)
{
    kept.signatures.clear();
    kept.visit = VisitId(u"another"_s);
    kept.sign(kept.last(), kept.night.ada(), u"performed"_s);
    const CheckedRecord checked = checkRecord({}, kept.record());
    ASSERT_TRUE(checked.isAsSigned());

    const RecordDoubts doubts = doubtsOf(checked, foldRecord(checked));

    EXPECT_TRUE(doubts.opensAnother);
    EXPECT_FALSE(doubts.isGood());
}

TEST_F(RecordDoubtsTest, AnOwnSupervisorReviewedWithTheKeyThatWasTheirsThen)
{
    using Listed = people::KnownOfKey::Listed;
    Reviewer reviewer;
    reviewer.person = {sue, u"S. Marlow"_s, people::Role::Supervisor, {}, {}, {}};
    const auto day = people::utcDayOf(kept.moment());
    reviewer.authorisations = {{people::AuthorisationId(u"a-1"_s),
                                sue,
                                people::Duty::Supervise,
                                {},
                                day,
                                day,
                                PersonId(u"boss"_s),
                                {}}};
    const auto isOwn = [&](Listed listed, const record::Review& review) {
        return isByOwnSupervisor({listed}, reviewer, kept.night.state, people::utcDayOf(review.at));
    };
    const record::Review review = kept.review(kept.last()).review;

    EXPECT_TRUE(isOwn(Listed::Theirs, review));
    EXPECT_FALSE(isOwn(Listed::Retired, review)) << "the key was out of use by then";
    EXPECT_FALSE(isOwn(Listed::No, review));
    EXPECT_FALSE(isOwn(Listed::Theirs, kept.review(kept.last(), sue, hours(48)).review))
        << "nobody authorised them for that day";
}

} // namespace
} // namespace coldarc::review
