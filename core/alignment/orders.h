#pragma once

#include <span>

namespace coldarc::alignment {

/// In which order the settings of a scan are read. A sweep from one end to the other is not among them: in
/// such a sweep drift cannot be told from position.
enum class Order : unsigned char {
    DriftProof5,       ///< five settings, each once; position and its square have no part of a steady drift
    DriftProof5Mirror, ///< the only other such order; with the first it tells drift from a skewed peak
    DriftProof7,       ///< seven settings, each once
    UpAndBack9,        ///< five settings, up and back again: shows what play the screw has
};

/// The settings in steps from the middle, in the order in which they are read.
///
/// Evenly timed, the sums of x*t and of x^2*t over each are zero, so a steady drift moves neither slope nor
/// curvature. Source: exhaustive search, repeated in the test; the 7 has the least travel of its kind.
[[nodiscard]] std::span<const int> settingsOf(Order order);

/// What four readings X, R, R, X at even times tell.
struct PairedDifference {
    double difference = 0;   ///< X - R, free of a steady drift; its variance is that of one reading
    double driftPerHalf = 0; ///< drift over half the time between two readings
};

/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 2.3.3.1.2 (drift elimination for two items).
[[nodiscard]] PairedDifference pairedDifference(double x1, double r1, double r2, double x2);

} // namespace coldarc::alignment
