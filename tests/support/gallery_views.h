#pragma once

#include "ui/visit/bench_view.h"

#include <vector>

namespace coldarc::test {

/// One state of the bench worth looking at. Every site, person, model and serial in it is invented.
struct BenchCase {
    const char* name;
    ui::BenchView view;
};

/// The states that the gallery draws and the bench tests measure: a wait, a step ready, a stop with many
/// answers, gear ticks, two lamphouses bare and lit, an incident, long words.
[[nodiscard]] std::vector<BenchCase> benchCases();

} // namespace coldarc::test
