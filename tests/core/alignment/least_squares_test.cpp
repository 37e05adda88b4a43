#include "core/alignment/least_squares.h"

#include "tests/support/testing.h"

#include <array>
#include <cmath>
#include <vector>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

using Column = std::vector<double>;

/// NIST Statistical Reference Datasets, Pontius: load cell calibration, linear class, 40 observations.
/// Deflection at loads of 150000 to 3000000 in steps of 150000, twice over. Read in a public copy, the last
/// eleven from memory; the certified sum of squares would not come out if one of them were wrong.
const Column kPontius = {.11019,  .21956,  .32949,  .43899,  .54803,  .65694,  .76562,  .87487,
                         .98292,  1.09146, 1.20001, 1.30822, 1.41599, 1.52399, 1.63194, 1.73947,
                         1.84646, 1.95392, 2.06128, 2.16844, .11052,  .22018,  .32939,  .43886,
                         .54798,  .65739,  .76596,  .87474,  .98300,  1.09150, 1.20004, 1.30818,
                         1.41613, 1.52408, 1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829};

/// NIST Statistical Reference Datasets, Eckerle4: circular interference transmittance, nonlinear class, 35
/// observations.
const Column kWavelength = {400,   405, 410,   415, 420,   425, 430,   435, 436.5, 438, 439.5, 441,
                            442.5, 444, 445.5, 447, 448.5, 450, 451.5, 453, 454.5, 456, 457.5, 459,
                            460.5, 462, 463.5, 465, 470,   475, 480,   485, 490,   495, 500};
const Column kTransmittance = {.0001575, .0001699, .0002350, .0003102, .0004917, .0008710, .0017418,
                               .0046400, .0065895, .0097302, .0149002, .0237310, .0401683, .0712559,
                               .1264458, .2073413, .2902366, .3445623, .3698049, .3668534, .3106727,
                               .2078154, .1164354, .0616764, .0337200, .0194023, .0117831, .0074357,
                               .0022732, .0008800, .0004579, .0002345, .0001586, .0001143, .0000710};

std::vector<Column> pontiusColumns()
{
    std::vector<Column> columns(3);
    for (std::size_t i = 0; i < kPontius.size(); ++i) {
        const double load = 150000.0 * (static_cast<double>(i % 20) + 1);
        columns[0].push_back(1);
        columns[1].push_back(load);
        columns[2].push_back(load * load);
    }
    return columns;
}

void expectRelative(double actual, double expected, double tolerance)
{
    EXPECT_NEAR(actual, expected, std::abs(expected) * tolerance);
}

// Certified values of NIST StRD Pontius.
TEST(LeastSquaresTest, FitsPontiusAsCertified)
{
    const auto fit = leastSquares(pontiusColumns(), kPontius);

    ASSERT_TRUE(fit);
    expectRelative(fit->coefficients[0], 0.673565789473684e-3, 1e-9);
    expectRelative(fit->coefficients[1], 0.732059160401003e-6, 1e-9);
    expectRelative(fit->coefficients[2], -0.316081871345029e-14, 1e-9);
    expectRelative(fit->scatter.squares, 0.155761768796992e-5, 1e-8);
    EXPECT_EQ(fit->scatter.degreesOfFreedom, 37);
    const std::array<double, 3> standardErrors = {0.107938612033077e-3, 0.157817399981659e-9,
                                                  0.486652849992036e-16};
    for (std::size_t i = 0; i < 3; ++i)
        expectRelative(std::sqrt(fit->covarianceOf(i, i) * fit->scatter.variance()), standardErrors[i], 1e-8);
}

// Certified values of NIST StRD Eckerle4: y = (b1/b2) exp(-((x-b3)/b2)^2 / 2), reached from its second start
// by steps that each are one linear fit (Gauss-Newton).
TEST(LeastSquaresTest, StepsToThePeakOfEckerleAsCertified)
{
    double b1 = 1.5;
    double b2 = 5;
    double b3 = 450;
    double squares = 0;
    for (int step = 0; step < 50; ++step) {
        std::vector<Column> columns(3);
        Column residuals;
        squares = 0;
        for (std::size_t i = 0; i < kWavelength.size(); ++i) {
            const double u = (kWavelength[i] - b3) / b2;
            const double bell = std::exp(-u * u / 2) / b2;
            columns[0].push_back(bell);
            columns[1].push_back(b1 * bell * (u * u - 1) / b2);
            columns[2].push_back(b1 * bell * u / b2);
            residuals.push_back(kTransmittance[i] - b1 * bell);
            squares += residuals.back() * residuals.back();
        }
        const auto fit = leastSquares(columns, residuals);
        ASSERT_TRUE(fit);
        b1 += fit->coefficients[0];
        b2 += fit->coefficients[1];
        b3 += fit->coefficients[2];
    }

    expectRelative(b1, 1.5543827178, 1e-7);
    expectRelative(b2, 4.0888321754, 1e-7);
    expectRelative(b3, 451.54121844, 1e-7);
    expectRelative(squares, 1.4635887487e-3, 1e-7);
}

// Leverages of a straight line through x = 0, 1, 2, by hand: 1/3 + (x - 1)^2 / 2.
TEST(LeastSquaresTest, TellsHowMuchAReadingDrawsTheFit)
{
    const std::vector<Column> line = {{1, 1, 1}, {0, 1, 2}};

    const auto fit = leastSquares(line, Column{1, 3, 2});

    ASSERT_TRUE(fit);
    EXPECT_NEAR(fit->leverages[0], 5.0 / 6, 1e-12);
    EXPECT_NEAR(fit->leverages[1], 1.0 / 3, 1e-12);
    EXPECT_NEAR(fit->leverages[2], 5.0 / 6, 1e-12);
}

TEST(LeastSquaresTest, RefusesColumnsThatDoNotDetermineTheAnswer)
{
    const Column y = {1, 2, 3};

    EXPECT_FALSE(leastSquares(std::vector<Column>{{1, 1, 1}, {2, 2, 2}}, y));
    EXPECT_FALSE(leastSquares(std::vector<Column>{{1, 1, 1}, {0, 0, 0}}, y));
    EXPECT_FALSE(leastSquares(std::vector<Column>{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {1, 2, 4}}, y));
    EXPECT_FALSE(leastSquares(std::vector<Column>{}, y));
}

TEST(LeastSquaresTest, NeverTakesAMeterForBetterThanItsLastDigit)
{
    EXPECT_NEAR(withLastDigit({0, 4}).variance(), 1e-8, 1e-20);
    EXPECT_EQ(withLastDigit({1, 4}), (Scatter{1, 4}));
    EXPECT_EQ(withLastDigit({}), Scatter{});
}

// Tables of Student's t, two-sided 95 %; these digits recomputed with Boost.Math, the first three places as
// printed in any table.
TEST(LeastSquaresTest, KnowsStudentsTable)
{
    constexpr std::array kTable = {4.302653, 3.182446, 2.776445, 2.570582, 2.446912, 2.364624};

    for (int degrees = 2; degrees <= 7; ++degrees)
        EXPECT_NEAR(studentFactor(degrees, 0.95), kTable[static_cast<std::size_t>(degrees - 2)], 1e-6);
}

// F(0.99; 2, 4) = 18.000: with two degrees above, F has a closed form, (d2/2) * (p^(-2/d2) - 1) = 2 *
// (0.01^-0.5 - 1).
TEST(LeastSquaresTest, ComparesScatterByFisher)
{
    const Scatter reference{4, 4};

    EXPECT_TRUE(scattersMore({36.01, 2}, reference, 0.01));
    EXPECT_FALSE(scattersMore({35.99, 2}, reference, 0.01));
    EXPECT_FALSE(scattersMore({36.01, 2}, Scatter{}, 0.01));
    EXPECT_FALSE(scattersMore(Scatter{}, reference, 0.01));
}

} // namespace
} // namespace coldarc::test
