#include "core/alignment/orders.h"

#include "tests/support/testing.h"

#include <algorithm>
#include <cstdlib>
#include <vector>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

using Settings = std::vector<int>;

Settings listed(Order order)
{
    const auto settings = settingsOf(order);
    return {settings.begin(), settings.end()};
}

/// Sums of x*t and x^2*t, times counted from twice the middle so that all are whole numbers.
std::pair<int, int> driftParts(const Settings& settings)
{
    int first = 0;
    int second = 0;
    for (std::size_t i = 0; i < settings.size(); ++i) {
        const int time = 2 * static_cast<int>(i) - static_cast<int>(settings.size() - 1);
        first += settings[i] * time;
        second += settings[i] * settings[i] * time;
    }
    return {first, second};
}

int travel(const Settings& settings)
{
    int steps = 0;
    for (std::size_t i = 1; i < settings.size(); ++i)
        steps += std::abs(settings[i] - settings[i - 1]);
    return steps;
}

/// Every order of the settings -half..half that keeps a steady drift out of slope and curvature.
std::vector<Settings> driftProofOrders(int half)
{
    Settings settings;
    for (int setting = -half; setting <= half; ++setting)
        settings.push_back(setting);
    std::vector<Settings> found;
    do {
        if (driftParts(settings) == std::pair(0, 0))
            found.push_back(settings);
    } while (std::ranges::next_permutation(settings).found);
    return found;
}

TEST(OrdersTest, KeepASteadyDriftOutOfSlopeAndCurvature)
{
    for (const Order order :
         {Order::DriftProof5, Order::DriftProof5Mirror, Order::DriftProof7, Order::UpAndBack9})
        EXPECT_EQ(driftParts(listed(order)), std::pair(0, 0)) << static_cast<int>(order);
}

TEST(OrdersTest, AreTheOnlyTwoOfFive)
{
    std::vector<Settings> expected = {listed(Order::DriftProof5), listed(Order::DriftProof5Mirror)};
    std::ranges::sort(expected);

    EXPECT_EQ(driftProofOrders(2), expected);
}

TEST(OrdersTest, OfSevenTravelTheLeast)
{
    const std::vector<Settings> orders = driftProofOrders(3);

    ASSERT_NE(std::ranges::find(orders, listed(Order::DriftProof7)), orders.end());
    const auto least = std::ranges::min(orders, {}, travel);
    EXPECT_EQ(travel(listed(Order::DriftProof7)), travel(least));
    EXPECT_EQ(travel(least), 21);
}

TEST(OrdersTest, OfNineGoUpAndBackTheSameWay)
{
    Settings back = listed(Order::UpAndBack9);
    std::ranges::reverse(back);

    EXPECT_EQ(back, listed(Order::UpAndBack9));
    EXPECT_EQ(back.size(), 9u);
}

// NIST/SEMATECH e-Handbook 2.3.3.1.2, the readings worked out by hand: X = 10 and R = 9.7 with a drift of
// 0.05 per half interval are read as 9.85, 9.65, 9.75, 10.15.
TEST(OrdersTest, PairedReadingsShedTheirDrift)
{
    const PairedDifference pair = pairedDifference(9.85, 9.65, 9.75, 10.15);

    EXPECT_NEAR(pair.difference, 0.3, 1e-12);
    EXPECT_NEAR(pair.driftPerHalf, 0.05, 1e-12);
}

} // namespace
} // namespace coldarc::test
