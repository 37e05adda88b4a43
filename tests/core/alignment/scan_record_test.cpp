#include "core/alignment/scan_record.h"

#include "tests/support/testing.h"

#include <cmath>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

const Scatter kNoise{12e-6, 12}; // 0.1 %

/// A fitted scan round 10 eighths, ln(light) = slope x + bend x^2.
ScanRecord scanOf(double slope, double bend, Order order = Order::DriftProof5)
{
    ScanRecord scan;
    scan.cycle = 1;
    scan.order = order;
    scan.middle = Eighths{10};
    scan.step = Eighths{8};
    for (const int setting : settingsOf(order)) {
        const double x = 8.0 * setting;
        scan.points.push_back(
            {x, std::exp(slope * x + bend * x * x), 20 * static_cast<double>(scan.points.size())});
        scan.entries.push_back(scan.entries.size());
    }
    scan.fit = fitRecord(scan, kNoise).value();
    return scan;
}

struct JudgementCase {
    const char* name;
    double slope;
    double bend;
    ScanVerdict verdict;
    int setting;   ///< after the wait
    int setBefore; ///< the same scan before the wait

    friend void PrintTo(const JudgementCase& c, std::ostream* out) { *out << c.name; }
};

class JudgementTest : public ::testing::TestWithParam<JudgementCase> {};

TEST_P(JudgementTest, SetsTheKnob)
{
    ScanRecord after = scanOf(GetParam().slope, GetParam().bend);
    ScanRecord before = after;

    judgeAfterWait(after, kNoise);
    judgeBeforeWait(before);

    EXPECT_EQ(after.verdict, GetParam().verdict);
    EXPECT_EQ(after.setting, Eighths{GetParam().setting});
    EXPECT_EQ(before.verdict, ScanVerdict::SetOnly);
    EXPECT_EQ(before.setting, Eighths{GetParam().setBefore});
    EXPECT_EQ(before.vertex, std::nullopt);
}

// Tops at slope / (2 * 0.001) eighths from the middle; the scan reaches 16 either way.
INSTANTIATE_TEST_SUITE_P(
    AroundTheEdges, JudgementTest,
    ::testing::Values(JudgementCase{"PeakInside", 0.0204, -0.001, ScanVerdict::Peak, 20, 20},
                      JudgementCase{"PeakJustInside", 0.0318, -0.001, ScanVerdict::Peak, 26, 26},
                      JudgementCase{"PeakJustOutside", 0.0322, -0.001, ScanVerdict::Recentre, 26, 26},
                      JudgementCase{"PeakFarBack", -0.08, -0.001, ScanVerdict::Recentre, -6, -6},
                      JudgementCase{"SlopeOnly", 0.004, 0, ScanVerdict::Recentre, 26, 26},
                      JudgementCase{"BendsUp", 0.001, 0.001, ScanVerdict::Recentre, 26, 26},
                      JudgementCase{"ValleyInTheMiddle", 0, 0.001, ScanVerdict::Widen, 10, 26}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(ScanRecordTest, WithoutAFitIsRefused)
{
    ScanRecord scan = scanOf(0, -0.001);
    scan.fit.reset();

    judgeAfterWait(scan, kNoise);

    EXPECT_EQ(scan.verdict, ScanVerdict::Refused);
    EXPECT_FALSE(isSet(scan));
}

TEST(ScanRecordTest, TellsTheNoiseOnlyAfterTheWaitAndOfAParabola)
{
    ScanRecord scan = scanOf(0, -0.001);
    EXPECT_TRUE(tellsNoise(scan));

    scan.isSkewed = true;
    EXPECT_FALSE(tellsNoise(scan));
    scan.isSkewed = false;
    scan.cycle = 0;
    EXPECT_FALSE(tellsNoise(scan));
}

TEST(ScanRecordTest, KeepsASlipBesideWhatCounts)
{
    ScanRecord scan = scanOf(0, -0.001);
    const ScanPoint slip = scan.points[1];

    leaveOut(scan, 1);

    EXPECT_EQ(scan.leftOut, std::vector{slip});
    EXPECT_EQ(scan.entries, (std::vector<std::size_t>{0, 2, 3, 4}));
    EXPECT_EQ(scan.points.size(), 4u);
}

// The interval of a vertex found up and back is wider by what is not known of the play.
TEST(ScanRecordTest, WidensTheVertexWhereThePlayWasMeasured)
{
    const ScanRecord scan = scanOf(0, -0.001, Order::UpAndBack9);
    ASSERT_TRUE(scan.backlash);

    const auto vertex = vertexOfRecord(scan, kNoise);
    const auto bare = vertexOf(*scan.fit, kNoise);

    ASSERT_TRUE(vertex && bare);
    EXPECT_EQ(*vertex, widenedBy(*bare, *scan.backlash));
    EXPECT_LT(vertex->low, bare->low);
}

} // namespace
} // namespace coldarc::test
