#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;

class PlainSwap : public ::testing::TestWithParam<const char*> {};

TEST_P(PlainSwap, IsLedFromTheFirstLookToTheSignature)
{
    Night night(QString::fromLatin1(GetParam()));

    night.doAll();

    EXPECT_EQ(night.state.machine.lamphouse[0].heat, machine::Heat::Lit);
    EXPECT_EQ(night.state.machine.lamp[night.swap().newLamp].place, machine::Place::Clamped);
    EXPECT_EQ(night.state.machine.lamp[night.swap().oldLamp].place, machine::Place::Boxed);
    ASSERT_TRUE(night.tell(Signed{u"performed"_s}));
    ASSERT_TRUE(night.tell(SiteSigned{u"C. Moor"_s, u"duty manager"_s, {}}));
    const Decision closed = night.tell(Closed{});
    ASSERT_TRUE(closed) << wordsOf(closed.error());
    EXPECT_EQ(night.state.end, u"done"_s);
}

INSTANTIATE_TEST_SUITE_P(OfEachModel, PlainSwap,
                         ::testing::Values("larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"),
                         [](const auto& instance) {
                             std::string name;
                             for (const char* letter = instance.param; *letter; ++letter)
                                 name += *letter == '-' ? ' ' : *letter;
                             name.erase(std::remove(name.begin(), name.end(), ' '), name.end());
                             return name;
                         });

TEST(SwapTest, EntriesReadBackFromTheirBytesFoldToTheSameState)
{
    Night night;
    night.doAll();

    QList<Entry> readBack;
    for (const Entry& entry : night.entries) {
        const auto again = entryFrom(bytesOf(entry));
        ASSERT_TRUE(again) << again.error().detail.toStdString();
        EXPECT_EQ(*again, entry);
        readBack.append(*again);
    }

    const VisitState folded = fold(readBack);
    EXPECT_EQ(folded.machine, night.state.machine);
    EXPECT_EQ(folded.waits, night.state.waits);
    EXPECT_EQ(folded.entries, night.state.entries);
}

TEST(KeyingIn, AgreesWithNoOtherTypeThanTheOneBookedIn)
{
    Night night;
    night.doUntil(u"key-controller"_s);

    const Decision other =
        night.doStep(u"key-controller"_s, [](QJsonObject& answers) { answers[u"type"_s] = u"HVQ99-99Z"_s; });

    ASSERT_TRUE(isRefused(other, Why::Kind::AnswerBad));
    EXPECT_EQ(other.error().whys.first().capture, u"type"_s);
    EXPECT_TRUE(night.doStep(u"key-controller"_s, [](QJsonObject&) {}));
}

/// The answers to a step, with one of them read otherwise.
auto readBackAs(const QString& capture, const QString& shown)
{
    return [=](QJsonObject& answers) { answers[capture] = shown; };
}

TEST(KeyingIn, AgreesWithNoOtherAlertThanTheOneBookedIn)
{
    Night night;
    night.doUntil(u"key-controller"_s);

    const Decision other = night.doStep(u"key-controller"_s, readBackAs(u"threshold"_s, u"1900"_s));

    ASSERT_TRUE(isRefused(other, Why::Kind::AnswerBad));
    EXPECT_EQ(other.error().whys.first().capture, u"threshold"_s);
    EXPECT_EQ(other.error().whys.first().text, u"900"_s) << "what was booked in";
    EXPECT_TRUE(night.doStep(u"key-controller"_s, readBackAs(u"threshold"_s, u"900.0"_s)));
}

TEST(KeyingIn, AgreesWithNoOtherHoursThanTheLampHas)
{
    Opening opening = Night().opening();
    opening.swaps[0].newLamp.hours = 312.4;
    Night night(opening);
    night.doUntil(u"key-controller"_s);

    const Decision untold = night.doStep(u"key-controller"_s, readBackAs(u"hours"_s, u"0"_s));

    ASSERT_TRUE(isRefused(untold, Why::Kind::AnswerBad));
    EXPECT_EQ(untold.error().whys.first().capture, u"hours"_s);
    EXPECT_EQ(untold.error().whys.first().text, u"312"_s);
    EXPECT_TRUE(night.doStep(u"key-controller"_s, readBackAs(u"hours"_s, u"312"_s))) << "whole hours";
}

TEST(KeyingIn, OfALampWhoseHoursNobodyKnowsComparesNone)
{
    Opening opening = Night().opening();
    opening.swaps[0].newLamp.hours.reset();
    Night night(opening);
    night.doUntil(u"key-controller"_s);

    EXPECT_TRUE(night.doStep(u"key-controller"_s, readBackAs(u"hours"_s, u"4711"_s)));
}

TEST(KeyingIn, ThatDiffersIsTakenDownWhateverIsReadBack)
{
    Night night;
    night.doUntil(u"key-controller"_s);

    EXPECT_TRUE(night.doStep(u"key-controller"_s, [](QJsonObject& answers) {
        answers[u"threshold"_s] = u"1900"_s;
        answers[u"agrees"_s] = u"Differs"_s;
    }));
    EXPECT_EQ(night.lamphouse().controllerType, machine::kNone);
}

/// Books the lamp in once more, with this alert.
void bookInAnew(Night& night, const QString& alert)
{
    const qint64 booked = night.swap().record(StepId(u"book-in"_s)).entry;
    ASSERT_TRUE(night.tell(Withdrawn{booked, u"the alert stands too high"_s}));
    ASSERT_EQ(night.nextId(), u"book-in"_s);
    ASSERT_TRUE(night.doStep(u"book-in"_s, readBackAs(u"threshold"_s, alert)));
}

TEST(KeyingIn, ComesAgainOnceAnotherAlertIsBookedIn)
{
    Night night;
    night.doUntil(u"strike"_s);

    bookInAnew(night, u"850"_s);

    EXPECT_EQ(night.nextId(), u"key-controller"_s);
    EXPECT_EQ(night.lamphouse().controllerType, machine::kNone)
        << "nothing is lit on what was keyed in before";
    EXPECT_TRUE(isRefused(night.doStep(u"key-controller"_s, kAsItShouldBe), Why::Kind::AnswerBad)) << "900";
    EXPECT_TRUE(night.doStep(u"key-controller"_s, readBackAs(u"threshold"_s, u"850"_s)));
    EXPECT_EQ(night.nextId(), u"strike"_s);
    expectSame(night.state, night.readBack());
}

TEST(KeyingIn, DoesNotComeAgainWhereTheSameAlertIsBookedInAnew)
{
    Night night;
    night.doUntil(u"strike"_s);

    bookInAnew(night, u"900"_s);

    EXPECT_EQ(night.nextId(), u"strike"_s);
}

TEST(TakingDownFigures, IsRefusedWhereNobodyCouldTellWhatIsMeant)
{
    Night night;
    night.doUntil(u"read-counters"_s);

    for (const QString& typed : {u"1,980"_s, u"1.980"_s, u"12O4"_s, u"-3"_s, u"4000000"_s}) {
        const Decision counters = night.doStep(u"read-counters"_s, readBackAs(u"hours"_s, typed));
        ASSERT_TRUE(isRefused(counters, Why::Kind::FigureUnclear)) << typed.toStdString();
        EXPECT_EQ(counters.error().whys.size(), 1);
        EXPECT_EQ(counters.error().whys.first().capture, u"hours"_s);
        EXPECT_EQ(counters.error().whys.first().text, typed);
    }
    EXPECT_TRUE(isRefused(night.doStep(u"read-counters"_s, readBackAs(u"strikes"_s, u"1,250"_s)),
                          Why::Kind::FigureUnclear));
    EXPECT_TRUE(night.doStep(u"read-counters"_s, readBackAs(u"hours"_s, u"1980.5"_s)));
}

TEST(TakingDownFigures, AnAlertThatMayBeEitherIsNoAlert)
{
    Night night;
    night.doUntil(u"book-in"_s);
    night.readMarking();

    const Decision grouped = night.doStep(u"book-in"_s, readBackAs(u"threshold"_s, u"1.200"_s));

    ASSERT_TRUE(isRefused(grouped, Why::Kind::FigureUnclear));
    EXPECT_EQ(grouped.error().whys.size(), 1) << "nobody is asked for a reason";
    EXPECT_FALSE(night.swap().thresholdHours);
}

TEST(TakingDownFigures, OfAnOlderNightIsReadAsItWasReadThen)
{
    Night night;
    night.doUntil(u"key-controller"_s);
    const qint64 booked = night.swap().record(StepId(u"book-in"_s)).entry;
    std::get<Did>(night.entries[booked].body).answers[u"threshold"_s] = u"1.200"_s;

    EXPECT_EQ(fold(night.entries).swaps.first().thresholdHours, 1.2);
}

} // namespace
} // namespace coldarc::test
