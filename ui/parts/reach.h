#pragma once

class QWidget;

namespace coldarc::ui {

/// How a control is reached: with a bare hand, or in the gloves that are worn at an open lamphouse.
enum class Reach {
    Hand,
    Glove,
};

/// Least side of any control on the bench, in pixels (WCAG 2.2, 2.5.5 target size, level AAA).
inline constexpr int kHandTarget = 44;
/// Floors of the glove sizes: 19 mm and 13 mm at 96 dots per inch.
inline constexpr int kGloveTargetFloor = 72;
inline constexpr int kGloveGapFloor = 50;

/// Least side, in pixels, of a control that a gloved hand must hit: 19 mm on the screen that the widget is
/// on, never less than 72 px, and at most 96 px where a screen reports a doubtful size. Source:
/// MIL-STD-1472E 5.4.3.1.3.3, keys for heavy mittens.
[[nodiscard]] int gloveTarget(const QWidget& widget);

/// Least gap, in pixels, between two such controls: 13 mm, never less than 50 px, at most 66 px.
/// Source: MIL-STD-1472E Table VII, push buttons.
[[nodiscard]] int gloveGap(const QWidget& widget);

[[nodiscard]] int targetFor(const QWidget& widget, Reach reach);

} // namespace coldarc::ui
