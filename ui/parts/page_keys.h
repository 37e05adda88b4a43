#pragma once

#include <Qt>

#include <functional>

class QAbstractButton;
class QWidget;

namespace coldarc::ui {

/// Binds Return and Enter wherever the focus is within the page. A key that repeats does nothing.
void onEnter(QWidget& page, const std::function<void()>& deed);
/// The same for Escape.
void onEscape(QWidget& page, const std::function<void()>& deed);
/// Presses the button of the page that was walked to, if it does something of its own: a tick or a choice,
/// and the row that is chosen already, leave Enter to the page's main action.
/// @return whether there was one.
bool pressWalkedTo(const QWidget& page);
/// Any other key, wherever the focus is in the window, while the page is shown. A key that repeats does
/// nothing.
void onKey(QWidget& page, Qt::Key key, const std::function<void()>& deed);
/// The key of a button of the page; nothing happens while the button is hidden or takes no press.
void onKey(QWidget& page, Qt::Key key, QAbstractButton& button);

} // namespace coldarc::ui
