#pragma once

#include "core/base/clock.h"
#include "core/base/id_source.h"
#include "core/people/sealed_key.h"
#include "ui/parts/behind.h"

class QSettings;

namespace coldarc::ui {
class Theme;
} // namespace coldarc::ui

namespace coldarc::app {

class Library;

/// What lies outside the workspace. Borrowed, and has to outlive the workbench.
struct Outside {
    const Clock& clock;
    IdSource& ids;
    QSettings& settings;
    ui::Theme& theme;
    const Library& library;
    ui::Behind behind;
    /// How dear one guess at a passphrase or PIN is made; tests take less.
    people::GuessCost cost = people::kShippedCost;
};

} // namespace coldarc::app
