#include "ui/visit/light_at_desk.h"

#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_effect.h"

namespace coldarc::ui {

QString LightAtDesk::placeOf(const visit::VisitState& state, const visit::SwapState& swap) const
{
    return ui::placeOf(state, swap.lamphouse);
}

std::optional<WaitView> LightAtDesk::settleWait(const visit::VisitState& state,
                                                const visit::SwapState& swap) const
{
    const visit::WaitClock& clock = state.waits[swap.lamphouse].settle;
    if (!clock.isRunning || clock.isOver())
        return std::nullopt;
    return waitViewOf(clock, m_desk.clock().now().wall, m_desk.zone());
}

QString LightAtDesk::makeSafeEnd(const visit::VisitState& state, const visit::SwapState& swap) const
{
    return safeEndWordsOf(state, swap);
}

} // namespace coldarc::ui
