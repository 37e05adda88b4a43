#include "core/visit/lamp_doubts.h"

#include "tests/core/visit/night.h"

namespace coldarc::visit {
namespace {

using namespace Qt::StringLiterals;
using Cause = label::Doubt::Cause;
using label::Means;
using label::Source;
using test::Night;

// The new lamp of these nights: HVQ21-40A, serial NEW000001, which sits on the adaptor. All are invented.
const LampId kNew(u"new-1"_s);

label::SourceRead typed(Source source)
{
    return {{source, Means::Typed, u"HVQ21-40A"_s, u"NEW000001"_s}};
}

class LampDoubtsTest : public ::testing::Test {
protected:
    void SetUp() override { night.doUntil(u"match-box"_s); }

    [[nodiscard]] QList<Cause> causes(const OnRecord& record = {},
                                      const QList<label::SourceRead>& more = {}) const
    {
        QList<label::SourceRead> reads{typed(Source::Entry)};
        reads += more;
        QList<Cause> found;
        for (const label::Doubt& doubt :
             doubtsOf(night.state, night.swap(), reads, record, night.clock.now().wall))
            found.append(doubt.cause);
        return found;
    }
    [[nodiscard]] static label::SourceRead boxWith(const QString& scanned)
    {
        return {{Source::Box, Means::Scanned, u"HVQ21-40A"_s, u"NEW000001"_s}, {scanned}};
    }

    Night night;
};

TEST_F(LampDoubtsTest, ALampOfTheVanRaisesNoneAndTheAdaptorIsAskedForLater)
{
    EXPECT_EQ(causes({{{LampTypeId(u"hollin-21"_s), u"NEW000001"_s}}, {}}), QList<Cause>());
}

TEST_F(LampDoubtsTest, WithoutATypeInTheEntryNothingIsDoubted)
{
    const QList<label::SourceRead> reads{typed(Source::Box)};
    const OnRecord record{{{LampTypeId(u"hollin-21"_s), u"NEW000001"_s, label::KnownLamp::Where::Returned}},
                          {}};

    EXPECT_TRUE(doubtsOf(night.state, night.swap(), reads, record, night.clock.now().wall).isEmpty());
}

TEST_F(LampDoubtsTest, ALampThatWentBackIsSaid)
{
    const OnRecord record{{{LampTypeId(u"hollin-21"_s), u"NEW000001"_s, label::KnownLamp::Where::Returned}},
                          {}};

    EXPECT_EQ(causes(record), QList{Cause::SerialReturned});
}

// The night is in November 2026. (17) 250630: 30 June 2025.
TEST_F(LampDoubtsTest, TheDateInACodeOfAnySourceCounts)
{
    EXPECT_EQ(causes({}, {boxWith(u"]d2010290004170102817250630"_s)}), QList{Cause::PastUseBy});
    EXPECT_EQ(causes({}, {boxWith(u"]d2010290004170102817990630"_s)}), QList{Cause::PastUseBy})
        << "1999, by the century rule";
    EXPECT_EQ(causes({}, {boxWith(u"]d2010290004170102817300630"_s)}), QList<Cause>());
}

TEST_F(LampDoubtsTest, TypingOverACodeTakesNoDateAwayThatStoodInIt)
{
    ASSERT_TRUE(night.tell(LampRead{kNew, typed(Source::Box).reading, {u"]d2010290004170102817250630"_s}}));
    ASSERT_TRUE(night.tell(LampRead{kNew, typed(Source::Box).reading}));

    EXPECT_EQ(causes({}, {typed(Source::Box)}), QList{Cause::PastUseBy});
}

TEST_F(LampDoubtsTest, APictureOfAnotherVisitIsSaid)
{
    label::SourceRead box = boxWith({});
    box.scanned.clear();
    box.picture = sha256("a picture");
    const OnRecord record{{}, {{sha256("a picture"), VisitId(u"another"_s)}}};

    EXPECT_EQ(causes(record, {box}), QList{Cause::PictureUsedBefore});
    box.picture = sha256("another picture");
    EXPECT_EQ(causes(record, {box}), QList<Cause>());
}

TEST_F(LampDoubtsTest, AnAdaptorThatIsMissingIsSaid)
{
    for (SwapState& swap : night.state.swaps)
        swap.steps.removeIf([](const procedure::Step& step) { return step.id == StepId(u"find-adaptor"_s); });

    EXPECT_EQ(causes(), QList{Cause::AdaptorMissing});
}

TEST(ReadsOfLampTest, TheLastEntryOfEachSourceIsTakenWithItsCodesAndPicture)
{
    Night night;
    night.doUntil(u"match-box"_s);
    night.readLabels();
    const LampRead better{kNew,
                          {Source::Box, Means::Scanned, u"HVQ21-40A"_s, u"NEW000001"_s},
                          {u"]d1TYPE: HVQ21-40A\nS/N: NEW000001"_s},
                          sha256("a picture")};
    ASSERT_TRUE(night.tell(better));

    const QList<label::SourceRead> reads = readsOf(night.entries, night.state, kNew);

    ASSERT_EQ(reads.size(), 3);
    EXPECT_EQ(reads.last(), (label::SourceRead{better.reading, better.scanned, better.picture}));
    EXPECT_TRUE(readsOf(night.entries, night.state, LampId(u"other"_s)).isEmpty());
}

class UnansweredTest : public LampDoubtsTest {
protected:
    /// Somebody went on in spite of these.
    void answer(const QStringList& doubts)
    {
        Did did;
        did.swap = night.swap().id;
        did.step = StepId(u"match-box"_s);
        did.doubts = doubts;
        did.doubtsAnswer = u"looked again"_s;
        entries.append({night.clock.now(), night.ada(), did});
    }
    void read(const label::SourceRead& one)
    {
        entries.append(
            {night.clock.now(), night.ada(), LampRead{kNew, one.reading, one.scanned, one.picture}});
    }
    [[nodiscard]] QList<Cause> open(const QList<Cause>& causes) const
    {
        QList<label::Doubt> doubts;
        for (const Cause cause : causes)
            doubts.append({.cause = cause});
        QList<Cause> left;
        for (const label::Doubt& doubt : unanswered(doubts, entries, night.state, night.swap()))
            left.append(doubt.cause);
        return left;
    }

    QList<Entry> entries;
};

TEST_F(UnansweredTest, WhatWasAnsweredIsNotAskedAgainWhenTheMarkingIsRead)
{
    answer({u"serial-returned"_s});
    read(typed(Source::OwnMarking));

    EXPECT_EQ(open({Cause::SerialReturned, Cause::SerialFitted}), QList{Cause::SerialFitted});
}

TEST_F(UnansweredTest, OfAnotherLampItIsAskedAgain)
{
    answer({u"serial-returned"_s});
    read(typed(Source::Entry));

    EXPECT_EQ(open({Cause::SerialReturned}), QList{Cause::SerialReturned});
}

TEST_F(UnansweredTest, OfAnotherPictureOrCodeItIsAskedAgain)
{
    answer({u"picture-used-before"_s, u"past-use-by"_s});
    read(boxWith(u"]d2010290004170102817250630"_s));
    EXPECT_EQ(open({Cause::PastUseBy, Cause::PictureUsedBefore}), QList{Cause::PastUseBy});

    label::SourceRead pictured = typed(Source::Box);
    pictured.picture = sha256("another picture");
    read(pictured);
    EXPECT_EQ(open({Cause::PictureUsedBefore}), QList{Cause::PictureUsedBefore});
}

TEST_F(UnansweredTest, AnAnswerThatWasTakenBackIsNoneAndWhatWasAnsweredByItIsAskedAgain)
{
    answer({u"serial-returned"_s});
    ASSERT_TRUE(open({Cause::SerialReturned}).isEmpty());

    night.state.withdrawn.insert(entries.size() - 1);

    EXPECT_EQ(open({Cause::SerialReturned}), QList{Cause::SerialReturned});
}

TEST_F(UnansweredTest, ANewEntryThatWasTakenBackLeavesTheAnswerAsItWas)
{
    answer({u"serial-returned"_s});
    read(typed(Source::Entry));
    night.state.withdrawn.insert(entries.size() - 1);

    EXPECT_TRUE(open({Cause::SerialReturned}).isEmpty());
}

TEST_F(UnansweredTest, AnAnswerAnswersTheVeryDoubtThatItWasGivenTo)
{
    const label::Doubt here{.cause = Cause::SerialFitted, .lamphouse = LamphouseId(u"lamphouse-2"_s)};
    const label::Doubt there{.cause = Cause::SerialFitted, .lamphouse = LamphouseId(u"lamphouse-3"_s)};
    answer({label::keptAs(here)});

    EXPECT_EQ(unanswered({here, there}, entries, night.state, night.swap()), QList{there});

    answer({u"serial-fitted"_s}); // an older program did not say which one
    EXPECT_TRUE(unanswered({here, there}, entries, night.state, night.swap()).isEmpty());
}

/// Two swaps of one type; the box of the first, NEW000001, was matched.
TEST(DoubtsWithinVisitTest, NameTheSwapThatASerialWasReadForAndCountEachSerialOnce)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    night.doUntil(u"match-box"_s);
    night.readLabels();
    const QList<label::SourceRead> reads{typed(Source::Box), typed(Source::Paper), typed(Source::Entry)};
    EXPECT_TRUE(doubtsWithinVisit(night.state, night.swap(1), label::readingsOf(reads)).isEmpty())
        << "what is read is matched by nobody yet";
    ASSERT_TRUE(night.doNext());

    const QList<label::Doubt> doubts =
        doubtsWithinVisit(night.state, night.swap(1), label::readingsOf(reads));

    EXPECT_EQ(doubts, (QList<label::Doubt>{{.cause = Cause::SerialOfThisVisit,
                                            .lamphouse = night.opening().swaps[0].lamphouse,
                                            .serial = u"NEW000001"_s}}));
    EXPECT_EQ(doubtsOf(night.state, night.swap(1), {typed(Source::Box)}, {}, night.clock.now().wall), doubts)
        << "before the entry says anything";
    EXPECT_TRUE(doubtsWithinVisit(night.state, night.swap(0), label::readingsOf(reads)).isEmpty())
        << "it is its own";
    EXPECT_TRUE(standsForItsLamp(night.swap(0)));
    EXPECT_FALSE(standsForItsLamp(night.swap(1)));
}

} // namespace
} // namespace coldarc::visit
