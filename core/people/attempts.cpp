#include "core/people/attempts.h"

#include <algorithm>

namespace coldarc::people {
namespace {

using namespace std::chrono_literals;

constexpr int kFreeTries = 3;
constexpr std::chrono::milliseconds kFirstDelay = 30s;
constexpr std::chrono::milliseconds kLongestDelay = 1h;

std::chrono::milliseconds elapsed(const Stamp& since, const Stamp& now)
{
    if (now.machine != since.machine)
        return std::chrono::duration_cast<std::chrono::milliseconds>(now.wall - since.wall);
    return now.boot == since.boot ? now.sinceBoot - since.sinceBoot : now.sinceBoot;
}

} // namespace

std::chrono::milliseconds delayAfter(int wrong)
{
    if (wrong <= kFreeTries)
        return 0ms;
    std::chrono::milliseconds delay = kFirstDelay;
    for (int further = kFreeTries + 1; further < wrong && delay < kLongestDelay; ++further)
        delay *= 2;
    return std::min(delay, kLongestDelay);
}

AttemptVerdict attemptVerdict(const Attempts& attempts, const Stamp& now)
{
    if (attempts.wrong >= kMostWrongPassphrases)
        return {AttemptVerdict::Kind::Exhausted, 0ms};
    const auto delay = delayAfter(attempts.wrong);
    const auto passed = attempts.lastWrong ? std::max(elapsed(*attempts.lastWrong, now), 0ms) : 0ms;
    if (passed >= delay)
        return {AttemptVerdict::Kind::Free, 0ms};
    return {AttemptVerdict::Kind::Waits, delay - passed};
}

Attempts afterWrong(const Attempts& attempts, const Stamp& now)
{
    return {attempts.wrong + 1, now};
}

} // namespace coldarc::people
