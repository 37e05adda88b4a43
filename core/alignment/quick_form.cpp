#include "core/alignment/quick_form.h"

namespace coldarc::alignment {

std::optional<QuickForm> quickForm(std::span<const double> lights)
{
    if (lights.empty())
        return std::nullopt;
    std::size_t best = 0;
    for (std::size_t i = 1; i < lights.size(); ++i)
        if (lights[i] >= lights[best])
            best = i;
    return QuickForm{best, lights[best], lights.back(), lights[best] / lights.front() - 1,
                     1 - lights.back() / lights[best]};
}

} // namespace coldarc::alignment
