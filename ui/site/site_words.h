#pragma once

#include "core/catalogue/catalogue.h"
#include "core/site/site_check.h"
#include "core/site/site_table.h"

#include <QString>
#include <QTimeZone>

namespace coldarc::ui {

// The words for a site and for what is not right with it yet.

/// What has to be put right, in one sentence, with names instead of ids.
[[nodiscard]] QString wordsFor(const site::Problem& problem, const site::SiteDocument& document,
                               const catalogue::Catalogue& catalogue);
/// "line 4, role: ..." of a pasted table.
[[nodiscard]] QString wordsFor(const site::BadRow& row);
[[nodiscard]] QString wordsFor(site::AbsenceProver prover);

/// "Screen 2", or "Screen 2, left" where its projector has several lamphouses, or several projectors stand
/// there.
[[nodiscard]] QString nameOfLamphouse(const site::SiteDocument& document, const LamphouseId& lamphouse);
/// Maker and name of a model; the id where the catalogue does not know it.
[[nodiscard]] QString nameOfModel(const catalogue::Catalogue& catalogue, const ModelId& model);

/// A moment as people type it, "2026-11-25 16:40", in the zone given; nothing unless it has that form.
[[nodiscard]] std::optional<WallTime> momentFromText(const QString& text, const QTimeZone& zone);
[[nodiscard]] QString momentText(WallTime moment, const QTimeZone& zone);

} // namespace coldarc::ui
