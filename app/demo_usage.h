#pragma once

#include "app/demo_chance.h"
#include "app/demo_data.h"

namespace coldarc::app {

/// How many hours the lamphouses of the demo burn, week by week: each week near what its screen is said to
/// run. The same seed gives the same weeks.
class DemoUsage {
public:
    /// @param begin  the weeks are drawn from here to `end`; before it every week is the mean one.
    DemoUsage(const QList<DemoSite>& sites, WallTime begin, WallTime end, double weeklySpread,
              DemoChance& chance);

    /// Hours burnt between two moments. Pre: the lamphouse is known, from <= to.
    [[nodiscard]] double burnt(const LamphouseId& lamphouse, WallTime from, WallTime to) const;
    /// When a lamp went in that has burnt so many hours at `at`; to the minute.
    /// Pre: as above, hours >= 0, and the lamphouse is used at all.
    [[nodiscard]] WallTime since(const LamphouseId& lamphouse, double hours, WallTime at) const;
    [[nodiscard]] bool knows(const LamphouseId& lamphouse) const { return m_weeks.contains(lamphouse); }
    /// What the site says, h per week.
    [[nodiscard]] double weekly(const LamphouseId& lamphouse) const { return m_weeks[lamphouse].mean; }

private:
    struct Weeks {
        double mean = 0;           ///< h
        std::vector<double> hours; ///< of each week from the beginning on
    };
    /// Hours burnt from the beginning to then; negative before it.
    [[nodiscard]] double total(const Weeks& weeks, WallTime at) const;

    WallTime m_begin;
    QHash<LamphouseId, Weeks> m_weeks;
};

} // namespace coldarc::app
