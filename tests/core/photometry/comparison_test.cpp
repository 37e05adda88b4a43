#include "core/photometry/comparison.h"

#include "tests/core/photometry/good_sheet.h"
#include "tests/support/testing.h"

#include <functional>

namespace coldarc::photometry {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::goodConditions;
using test::reading;
using test::sheetOf;
using Unlikes = std::vector<Unlike>;

ScreenSheet before(const Conditions& conditions = goodConditions())
{
    return sheetOf(Convention::FiveOfWidth, {{Place::Left, reading(30)}, {Place::Centre, reading(40)}},
                   conditions);
}

ScreenSheet after(const Conditions& conditions = goodConditions())
{
    return sheetOf(Convention::FiveOfWidth, {{Place::Centre, reading(50)}, {Place::Right, reading(44)}},
                   conditions);
}

TEST(ComparisonTest, TellsHowMuchLightANewLampBroughtWherePointsAreCommon)
{
    const Comparison comparison = compare(before(), after());

    EXPECT_EQ(comparison.unlike, Unlikes{});
    ASSERT_EQ(comparison.changes.size(), 1u);
    EXPECT_EQ(comparison.changes[0],
              (Change{Place::Centre, Luminance::fromCdPerM2(40), Luminance::fromCdPerM2(50), 1.25}));
}

// 20 minutes: DCI CTP 7.1.2 (READ).
TEST(ComparisonTest, IsNotMadeWithALampThatWasLitUnderTwentyMinutesOnArrival)
{
    Conditions arrival = goodConditions();
    arrival.lit = 19min + 59s;

    const Comparison comparison = compare(before(arrival), after());

    EXPECT_EQ(comparison.unlike, Unlikes{Unlike::BeforeNotWarm});
    EXPECT_TRUE(comparison.changes.empty());
}

struct UnlikeCase {
    const char* name;
    std::function<void(Conditions& before, Conditions& after)> change;
    Unlike expected;

    friend void PrintTo(const UnlikeCase& one, std::ostream* out) { *out << one.name; }
};

class UnlikeTest : public ::testing::TestWithParam<UnlikeCase> {};

TEST_P(UnlikeTest, KeepsTwoSheetsFromBeingCompared)
{
    Conditions old = goodConditions();
    Conditions now = goodConditions();
    GetParam().change(old, now);

    const Comparison comparison = compare(before(old), after(now));

    EXPECT_EQ(comparison.unlike, Unlikes{GetParam().expected});
    EXPECT_TRUE(comparison.changes.empty());
}

using C = Conditions;
INSTANTIATE_TEST_SUITE_P(
    OneByOne, UnlikeTest,
    ::testing::Values(
        UnlikeCase{"AfterNotWarm", [](C&, C& b) { b.lit = 5min; }, Unlike::AfterNotWarm},
        UnlikeCase{"BeforeNobodyKnows", [](C& a, C&) { a.lit.reset(); }, Unlike::BeforeWarmUpUnknown},
        UnlikeCase{"AfterNobodyKnows", [](C&, C& b) { b.lit.reset(); }, Unlike::AfterWarmUpUnknown},
        UnlikeCase{"OtherPicture", [](C&, C& b) { b.picture = Picture::Stereo; }, Unlike::Picture},
        UnlikeCase{"OtherFormat", [](C&, C& b) { b.format = u"flat"_s; }, Unlike::Format},
        UnlikeCase{"NoFormat", [](C& a, C&) { a.format.clear(); }, Unlike::FormatUnknown},
        UnlikeCase{"OtherSeat", [](C&, C& b) { b.position = MeterPosition::Laboratory; }, Unlike::Position},
        UnlikeCase{"OtherDistance", [](C&, C& b) { b.distanceM = 9; }, Unlike::Position},
        UnlikeCase{"NoSeat", [](C& a, C&) { a.position.reset(); }, Unlike::PositionUnknown},
        UnlikeCase{"SomewhereBoth",
                   [](C& a, C& b) {
                       a.position = b.position = MeterPosition::Elsewhere;
                       a.distanceM.reset();
                   },
                   Unlike::PositionUnknown},
        UnlikeCase{"OtherMeter", [](C&, C& b) { b.meter.name = u"meter 8"_s; }, Unlike::Meter},
        UnlikeCase{"NoMeter", [](C&, C& b) { b.meter.name.clear(); }, Unlike::MeterUnknown},
        UnlikeCase{"OtherWatts", [](C&, C& b) { b.lampWatts = 1900; }, Unlike::Power},
        UnlikeCase{"OtherAmperes", [](C& a, C& b) { a.lampAmperes = 80, b.lampAmperes = 85; }, Unlike::Power},
        UnlikeCase{"NoPowerInCommon",
                   [](C& a, C&) {
                       a.lampWatts.reset();
                       a.lampAmperes = 80;
                   },
                   Unlike::PowerUnknown}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(ComparisonTest, IsNotMadeAcrossConventions)
{
    const ScreenSheet other = sheetOf(Convention::TenthGrid, {{Place::Centre, reading(50)}});
    EXPECT_EQ(compare(before(), other).unlike, Unlikes{Unlike::Convention});
}

TEST(ComparisonTest, IsNotMadeWithoutACommonPointThatWasLit)
{
    const ScreenSheet dark = sheetOf(Convention::FiveOfWidth, {{Place::Centre, reading(0)}});
    EXPECT_EQ(compare(dark, after()).unlike, Unlikes{Unlike::NoCommonPoint});
    EXPECT_EQ(compare(ScreenSheet(Convention::FiveOfWidth, goodConditions()), after()).unlike,
              Unlikes{Unlike::NoCommonPoint});
}

TEST(ComparisonTest, NamesAllThatIsUnlike)
{
    Conditions arrival;
    arrival.lit = 1min;
    EXPECT_EQ(compare(before(arrival), after()).unlike,
              (Unlikes{Unlike::BeforeNotWarm, Unlike::FormatUnknown, Unlike::PositionUnknown,
                       Unlike::MeterUnknown, Unlike::PowerUnknown}));
}

TEST(ComparisonTest, OfASheetWithItselfFindsNoChange)
{
    for (const Change& change : compare(before(), before()).changes)
        EXPECT_EQ(change.factor, 1);
    EXPECT_EQ(compare(before(), before()).changes.size(), 2u);
}

} // namespace
} // namespace coldarc::photometry
