#pragma once

#include <QList>

class QAbstractButton;
class QWidget;

namespace coldarc::ui {

/// What the Tab key halts at within a widget, in the order in which its layouts show them, whenever each of
/// them was made. What is hidden, takes no input or hands its focus on is none.
[[nodiscard]] QList<QWidget*> tabStops(const QWidget& within);
/// Gives the first of them the focus, of a form that has just come up.
void focusFirst(const QWidget& form);
/// Enter in a box of the form goes on like Tab, and presses this button where that would halt at it.
void goOnByEnter(QWidget& form, QAbstractButton& act);

} // namespace coldarc::ui
