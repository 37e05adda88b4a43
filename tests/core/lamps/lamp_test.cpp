#include "core/lamps/lamp.h"

#include "tests/support/testing.h"

#include <limits>
#include <set>

namespace coldarc::lamps {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

CounterHours at(double hours)
{
    return CounterHours::fromHours(hours);
}

Counters counters(double in, double out)
{
    return {at(in), at(out), std::nullopt, std::nullopt};
}

TEST(CauseTest, EveryCauseHasAWordOfItsOwn)
{
    std::set<QString> words;
    for (int i = 0; i < kCauses; ++i) {
        const auto cause = static_cast<Cause>(i);
        words.insert(wordOf(cause));
        EXPECT_EQ(causeFromWord(wordOf(cause)), cause);
    }
    EXPECT_EQ(words.size(), size_t(kCauses));
    EXPECT_EQ(causeFromWord(u"will-not-light"_s), Cause::WillNotLight);
    EXPECT_EQ(causeFromWord(u""_s), std::nullopt);
}

TEST(HoursRunTest, IsTheDifferenceOfTheCounters)
{
    EXPECT_EQ(std::get<LampHours>(hoursRun(counters(1200, 2450))).hours(), 1250);
    EXPECT_EQ(std::get<LampHours>(hoursRun(counters(1200, 1200))).hours(), 0);
}

TEST(HoursRunTest, AsksWhenTheCounterRanBackwards)
{
    EXPECT_EQ(std::get<CounterQuestion>(hoursRun(counters(2450, 1200))), CounterQuestion::RanBackwards);
}

TEST(HoursRunTest, AddsBothPartsOfACounterThatWasReset)
{
    Counters reset = counters(1200, 300);
    reset.reset = CounterReset{at(1900), at(50)};

    EXPECT_EQ(std::get<LampHours>(hoursRun(reset)).hours(), 700 + 250);
}

TEST(HoursRunTest, AsksAgainWhenTheResetDoesNotFit)
{
    Counters before = counters(1200, 300);
    before.reset = CounterReset{at(1100), at(0)};
    EXPECT_EQ(std::get<CounterQuestion>(hoursRun(before)), CounterQuestion::ResetDoesNotFit);

    Counters after = counters(1200, 300);
    after.reset = CounterReset{at(1900), at(301)};
    EXPECT_EQ(std::get<CounterQuestion>(hoursRun(after)), CounterQuestion::ResetDoesNotFit);
}

TEST(HoursRunTest, AsksWhenMoreHoursRanThanTheStayWasLong)
{
    Counters fast = counters(100, 125);
    fast.stay = 24h;
    EXPECT_EQ(std::get<LampHours>(hoursRun(fast)).hours(), 25) << "one hour is the counter's own step";

    fast.out = at(126);
    EXPECT_EQ(std::get<CounterQuestion>(hoursRun(fast)), CounterQuestion::FasterThanTheClock);
}

struct CreditCase {
    const char* name;
    double run;
    double warranty;
    std::optional<double> share;

    friend void PrintTo(const CreditCase& c, std::ostream* out) { *out << c.name; }
};

class WarrantyCreditTest : public ::testing::TestWithParam<CreditCase> {};

TEST_P(WarrantyCreditTest, IsTheShareNotRun)
{
    EXPECT_EQ(warrantyCredit(LampHours::fromHours(GetParam().run), GetParam().warranty), GetParam().share);
}

INSTANTIATE_TEST_SUITE_P(AroundTheEdges, WarrantyCreditTest,
                         ::testing::Values(CreditCase{"UnusedLamp", 0, 1500, 1.0},
                                           CreditCase{"AQuarterRun", 500, 2000, 0.75},
                                           CreditCase{"JustAtTheEnd", 1500, 1500, 0.0},
                                           CreditCase{"BeyondTheEnd", 1800, 1500, 0.0},
                                           CreditCase{"NoWarranty", 10, 0, std::nullopt},
                                           CreditCase{"WarrantyNotANumber", 10,
                                                      std::numeric_limits<double>::quiet_NaN(),
                                                      std::nullopt}),
                         [](const auto& instance) { return std::string(instance.param.name); });

} // namespace
} // namespace coldarc::lamps
