#pragma once

#include "core/visit/next_step.h"
#include "ui/visit/bench_view.h"

#include <QJsonObject>
#include <QTimeZone>

namespace coldarc::ui {

[[nodiscard]] QString nameOf(procedure::Phase phase);

/// Every step of a swap: when it was done, what the one in hand has left to wait, what the others wait for.
[[nodiscard]] QList<StepRow> stepRowsOf(const visit::VisitState& state, const visit::SwapState& swap,
                                        const visit::NextStep& next, machine::Index person,
                                        const QTimeZone& zone);

/// What a step asks. Pictures are not in it: they have a key of their own.
[[nodiscard]] QList<CaptureView> captureViewsOf(const procedure::Step& step);

/// What was answered, by capture id; what was left open is not in it.
[[nodiscard]] QJsonObject answersOf(const QList<CaptureAnswer>& captures);

[[nodiscard]] std::optional<SignalView> dangerOf(const std::optional<procedure::Hazard>& hazard);

/// Whether nothing but choices has changed between two looks at the answers. A box that is being written in
/// never ends a step: nobody knows whether the text is whole.
[[nodiscard]] bool isChosenLast(const QList<CaptureView>& captures, const QList<CaptureAnswer>& before,
                                const QList<CaptureAnswer>& now);

/// Whether the answer to the last open question is a press of the main action at once. Never at a stop, where
/// an answer tells of anything that is not as it should be, or where a single answer would open, light or
/// switch something.
[[nodiscard]] bool isDoneByLastAnswer(const procedure::Step& step, const QJsonObject& answers);

} // namespace coldarc::ui
