#include "core/alignment/quick_form.h"

#include <algorithm>

namespace coldarc::alignment {

std::optional<QuickForm> quickForm(std::span<const double> lights)
{
    if (lights.empty())
        return std::nullopt;
    const double best = std::ranges::max(lights);
    return QuickForm{best, 1 - lights.back() / best};
}

} // namespace coldarc::alignment
