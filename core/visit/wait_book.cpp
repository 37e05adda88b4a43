#include "core/visit/wait_book.h"

#include <algorithm>

namespace coldarc::visit {

using machine::Wait;
using std::chrono::milliseconds;

milliseconds WaitTimes::of(Wait wait) const
{
    switch (wait) {
    case Wait::Cool:
        return coolFan;
    case Wait::CoolUnforced:
        return coolUnforced;
    case Wait::Bleed:
        return bleed;
    case Wait::StrikePause:
        return strikePause;
    case Wait::Settle:
        return settle;
    }
    Q_UNREACHABLE();
}

milliseconds WaitClock::left() const
{
    return isRunning ? std::max(milliseconds(0), needed - credited) : milliseconds(0);
}

WaitClock started(Wait wait, milliseconds needed, const Stamp& now)
{
    return {true, wait, needed, milliseconds(0), now, false};
}

WaitClock witnessed(const WaitClock& clock, const Stamp& now)
{
    if (!clock.isRunning)
        return clock;
    WaitClock next = clock;
    next.last = now;
    const bool livesOnTheFan = clock.wait == Wait::Cool;
    if (now.machine != clock.last.machine)
        next.credited = milliseconds(0);
    else if (now.boot != clock.last.boot)
        next.credited += std::max(milliseconds(0), now.sinceBoot);
    else
        next.credited += std::max(milliseconds(0), now.sinceBoot - clock.last.sinceBoot);
    if (livesOnTheFan && isGap(clock.last, now))
        next.asksForFan = true;
    return next;
}

namespace {

bool isRestart(const Stamp& before, const Stamp& now)
{
    return now.machine != before.machine || now.boot != before.boot;
}

} // namespace

bool isGap(const Stamp& before, const Stamp& now)
{
    return isRestart(before, now) || now.asleep > before.asleep;
}

bool isLeftAlone(const Stamp& before, const Stamp& now, bool isOpen)
{
    const auto slept = now.asleep - before.asleep;
    return isRestart(before, now) || (isOpen ? slept.count() > 0 : slept > kLongSleep);
}

WaitClock& LamphouseWaits::of(Wait wait)
{
    switch (wait) {
    case Wait::Bleed:
        return bleed;
    case Wait::StrikePause:
        return strikePause;
    case Wait::Settle:
        return settle;
    default:
        return cool;
    }
}

const WaitClock& LamphouseWaits::of(Wait wait) const
{
    switch (wait) {
    case Wait::Bleed:
        return bleed;
    case Wait::StrikePause:
        return strikePause;
    case Wait::Settle:
        return settle;
    default:
        return cool;
    }
}

} // namespace coldarc::visit
