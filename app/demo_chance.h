#pragma once

#include <QtGlobal>

#include <random>

namespace coldarc::app {

/// Chance that comes out the same for the same seed on every computer: the engine is fixed by the C++
/// standard, and the ready-made distributions, which are not, are left alone.
class DemoChance {
public:
    explicit DemoChance(quint32 seed)
        : m_engine(seed)
    {
    }

    /// Evenly spread over [least, most).
    [[nodiscard]] double between(double least, double most)
    {
        return least + (most - least) * (static_cast<double>(m_engine()) / 4294967296.0);
    }
    /// Nearly normal: the sum of twelve even ones, so never further than six deviations from the mean.
    [[nodiscard]] double about(double mean, double deviation)
    {
        double sum = -6;
        for (int count = 0; count < 12; ++count)
            sum += between(0, 1);
        return mean + deviation * sum;
    }
    /// One of 0 .. count - 1. Pre: count > 0.
    [[nodiscard]] qsizetype below(qsizetype count)
    {
        return static_cast<qsizetype>(between(0, static_cast<double>(count)));
    }

private:
    std::mt19937 m_engine;
};

} // namespace coldarc::app
