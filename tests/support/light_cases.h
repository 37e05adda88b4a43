#pragma once

#include "ui/alignment/light_view.h"

#include <vector>

namespace coldarc::test {

/// One state of the light page worth looking at.
struct LightCase {
    const char* name;
    ui::LightView view;
};

/// Nothing read yet, a first scan, a peak with its interval, the settle wait, the end, turning by eye, a
/// question, and as many readings as one night brings. The light answers from a simulated lamp; the model is
/// invented.
[[nodiscard]] std::vector<LightCase> lightCases();

/// A run of as many readings, as the page shows it.
[[nodiscard]] ui::LightView lightViewAfter(int readings);

} // namespace coldarc::test
