#include "core/alignment/least_squares.h"

#include <QtGlobal>

#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <Eigen/QR>
#include <algorithm>

namespace coldarc::alignment {

namespace {

std::vector<double> listed(const Eigen::VectorXd& vector)
{
    return {vector.data(), vector.data() + vector.size()};
}

/// Inverse of A'A for A P = Q R, undone for the scaling: one row after the other.
std::vector<double> unitCovariance(const Eigen::ColPivHouseholderQR<Eigen::MatrixXd>& qr,
                                   const Eigen::VectorXd& scale)
{
    const Eigen::Index p = scale.size();
    const Eigen::MatrixXd inverse =
        qr.matrixR().topRows(p).triangularView<Eigen::Upper>().solve(Eigen::MatrixXd::Identity(p, p));
    const Eigen::MatrixXd unscaled = scale.cwiseInverse().asDiagonal() * (qr.colsPermutation() * inverse);
    const Eigen::MatrixXd covariance = unscaled * unscaled.transpose(); // symmetric: rows are columns
    return {covariance.data(), covariance.data() + covariance.size()};
}

} // namespace

std::optional<LinearFit> leastSquares(std::span<const std::vector<double>> columns, std::span<const double> y)
{
    const auto rows = static_cast<Eigen::Index>(y.size());
    const auto p = static_cast<Eigen::Index>(columns.size());
    if (rows < p || p == 0)
        return std::nullopt;
    Eigen::MatrixXd matrix(rows, p);
    for (Eigen::Index i = 0; i < p; ++i) {
        const std::vector<double>& column = columns[static_cast<std::size_t>(i)];
        Q_ASSERT_X(column.size() == y.size(), "leastSquares", "a column is not as long as y");
        matrix.col(i) = Eigen::Map<const Eigen::VectorXd>(column.data(), rows);
    }
    const Eigen::VectorXd scale = matrix.colwise().norm();
    if (scale.minCoeff() <= 0)
        return std::nullopt;
    matrix *= scale.cwiseInverse().asDiagonal();
    const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(matrix);
    if (qr.rank() < p)
        return std::nullopt;

    const Eigen::Map<const Eigen::VectorXd> wanted(y.data(), rows);
    const Eigen::VectorXd scaled = qr.solve(wanted);
    const Eigen::VectorXd residuals = wanted - matrix * scaled;
    const Eigen::MatrixXd q = qr.householderQ() * Eigen::MatrixXd::Identity(rows, p);
    return LinearFit{listed(scaled.cwiseQuotient(scale)),
                     unitCovariance(qr, scale),
                     listed(residuals),
                     listed(q.rowwise().squaredNorm()),
                     {residuals.squaredNorm(), static_cast<int>(rows - p)}};
}

Scatter withLastDigit(const Scatter& scatter)
{
    return {std::max(scatter.squares, scatter.degreesOfFreedom * kLeastSpread * kLeastSpread),
            scatter.degreesOfFreedom};
}

double studentFactor(int degreesOfFreedom, double confidence)
{
    return boost::math::quantile(boost::math::students_t(degreesOfFreedom), 0.5 + confidence / 2);
}

bool scattersMore(const Scatter& more, const Scatter& reference, double chance)
{
    if (more.degreesOfFreedom <= 0 || reference.degreesOfFreedom <= 0)
        return false;
    const boost::math::fisher_f fisher(more.degreesOfFreedom, reference.degreesOfFreedom);
    return more.variance() > reference.variance() * boost::math::quantile(complement(fisher, chance));
}

} // namespace coldarc::alignment
