#include "core/alignment/settled.h"

#include <QtGlobal>

#include <algorithm>
#include <vector>

namespace coldarc::alignment {

namespace {

struct Look {
    std::chrono::milliseconds from{0};
    double sum = 0;
    int readings = 0;

    [[nodiscard]] double light() const { return sum / readings; }
};

/// Readings between two looks (neither together with the one before, nor far enough from it) are left out.
std::vector<Look> looksOf(std::span<const RestReading> readings, const SettleRule& rule)
{
    std::vector<Look> looks;
    for (const RestReading& reading : readings) {
        if (looks.empty() || reading.at - looks.back().from >= rule.apart)
            looks.push_back({reading.at, 0, 0});
        else if (reading.at - looks.back().from > rule.together)
            continue;
        looks.back().sum += reading.light;
        ++looks.back().readings;
    }
    return looks;
}

} // namespace

SettledVerdict settled(std::span<const RestReading> readings, const SettleRule& rule)
{
    Q_ASSERT_X(rule.looks >= 2, "settled", "one look cannot show that light is steady");
    const std::vector<Look> looks = looksOf(readings, rule);
    SettledVerdict verdict;
    verdict.looks = static_cast<int>(looks.size());
    if (looks.empty())
        return verdict;
    verdict.wait =
        std::max(std::chrono::milliseconds(0), looks.back().from + rule.apart - readings.back().at);
    if (verdict.looks < rule.looks)
        return verdict;
    const std::span<const Look> judged(looks.end() - rule.looks, looks.end());
    const auto [least, most] = std::ranges::minmax(judged, {}, [](const Look& look) { return look.light(); });
    double sum = 0;
    for (const Look& look : judged)
        sum += look.light();
    verdict.spread = (most.light() - least.light()) * rule.looks / sum;
    verdict.state =
        verdict.spread <= rule.within ? SettledVerdict::State::Settled : SettledVerdict::State::Moving;
    if (verdict.state == SettledVerdict::State::Settled)
        verdict.wait = std::chrono::milliseconds(0);
    return verdict;
}

} // namespace coldarc::alignment
