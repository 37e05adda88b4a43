#pragma once

#include <algorithm>
#include <chrono>
#include <ctime>
#include <vector>

namespace coldarc::bench {

/// Milliseconds of the monotonic clock, which every process of one boot shares.
[[nodiscard]] inline double monotonicMs()
{
    using namespace std::chrono;
    return duration<double, std::milli>(steady_clock::now().time_since_epoch()).count();
}

/// Milliseconds that this thread worked.
[[nodiscard]] inline double threadMs()
{
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

/// How long a deed takes, by the monotonic clock. Milliseconds.
template<class Deed>
[[nodiscard]] double millisecondsOf(Deed&& deed)
{
    const double begun = monotonicMs();
    deed();
    return monotonicMs() - begun;
}

/// The value in the middle, the upper of two. Pre: not empty.
[[nodiscard]] inline double median(std::vector<double> values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::ranges::nth_element(values, middle);
    return *middle;
}

} // namespace coldarc::bench
