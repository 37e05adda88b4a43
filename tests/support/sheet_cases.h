#pragma once

#include "ui/photometry/sheet_view.h"

#include <vector>

namespace coldarc::test {

/// One state of the screen sheet worth looking at.
struct SheetCase {
    const char* name;
    ui::SheetView view;
};

/// Nothing read yet, a question, a sheet with every point and something out of its limits, verdicts held
/// back, the conditions, a meter's table with bad lines, before and after, a narrow screen. Made by the
/// presenter on a night at an invented cinema.
[[nodiscard]] std::vector<SheetCase> sheetCases();

} // namespace coldarc::test
