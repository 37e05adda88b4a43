#pragma once

#include "core/visit/state.h"
#include "ui/visit/bench_view.h"

#include <QJsonObject>
#include <QSet>

namespace coldarc::ui {

/// The choice that asks for a box to write in after all.
[[nodiscard]] QString somethingElse();

/// Puts what is known beforehand in front of what would have to be written: the site's contacts where it is
/// asked who was told, its breakers where one is read off the board, the types that the model takes where a
/// type is read off a screen or a picture. Nothing is chosen beforehand, and what a label says is never
/// offered: each source is read on its own.
/// @param written  ids of captures for which somebody asked for a box.
void offerKnown(QList<CaptureView>& captures, const procedure::Step& step, const visit::VisitState& state,
                const visit::SwapState& swap, const QSet<QString>& written);

} // namespace coldarc::ui
