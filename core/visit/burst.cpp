#include "core/visit/burst.h"

#include <algorithm>
#include <array>

namespace coldarc::visit {

bool mayHoldMercury(const VisitState& state, const SwapState& swap)
{
    const std::array lamps{swap.oldLamp, swap.newLamp};
    return std::any_of(lamps.begin(), lamps.end(), [&](machine::Index lamp) {
        const std::optional<LampTypeId>& id = state.ground->lamps[lamp].type;
        const catalogue::LampType* type = id ? state.ground->catalogue.lampType(*id) : nullptr;
        return type == nullptr || type->fill == catalogue::Fill::MercuryXenon;
    });
}

} // namespace coldarc::visit
