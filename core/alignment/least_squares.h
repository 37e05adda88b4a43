#pragma once

#include <optional>
#include <span>
#include <vector>

namespace coldarc::alignment {

/// What is known about a variance: a sum of squared residuals and how many degrees of freedom it has.
struct Scatter {
    double squares = 0;
    int degreesOfFreedom = 0;

    /// Pre: degreesOfFreedom > 0.
    [[nodiscard]] double variance() const { return squares / degreesOfFreedom; }

    friend bool operator==(const Scatter&, const Scatter&) = default;
    friend Scatter operator+(const Scatter& a, const Scatter& b)
    {
        return {a.squares + b.squares, a.degreesOfFreedom + b.degreesOfFreedom};
    }
};

/// The least relative spread that a reading is taken to have, 0.01 %: a meter shows so many digits. Without
/// it, light that always reads the same would have no noise, and rounding errors would pass for peaks.
inline constexpr double kLeastSpread = 1e-4;

/// The same scatter of ln(light), at least what the meter's last digit makes.
[[nodiscard]] Scatter withLastDigit(const Scatter& scatter);

/// A straight least-squares fit, y = sum of coefficient * column.
struct LinearFit {
    std::vector<double> coefficients; ///< one per column
    std::vector<double> covariance;   ///< row by row, of unit variance: multiply by the variance of a reading
    std::vector<double> residuals;    ///< one per row
    std::vector<double> leverages;    ///< one per row, in [0, 1]: how much a reading draws the fit to itself
    Scatter scatter;

    [[nodiscard]] double covarianceOf(std::size_t i, std::size_t j) const
    {
        return covariance[i * coefficients.size() + j];
    }
};

/// Fits by Householder QR with column pivoting, columns scaled to unit length. Nothing when the columns do
/// not determine the coefficients: fewer rows than columns, or one column made of the others. Pre: every
/// column is as long as `y`.
[[nodiscard]] std::optional<LinearFit> leastSquares(std::span<const std::vector<double>> columns,
                                                    std::span<const double> y);

/// Student's t that is passed on either side together with probability 1 - `confidence`.
/// Pre: degreesOfFreedom > 0, confidence in (0, 1).
[[nodiscard]] double studentFactor(int degreesOfFreedom, double confidence);

/// Whether `more` scatters more than `reference` does, by Fisher's F, where chance alone says so with
/// probability `chance`. False when either has no degrees of freedom.
[[nodiscard]] bool scattersMore(const Scatter& more, const Scatter& reference, double chance);

} // namespace coldarc::alignment
