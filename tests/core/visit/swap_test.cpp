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
