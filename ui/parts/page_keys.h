#pragma once

#include <functional>

class QWidget;

namespace coldarc::ui {

/// Binds Return and Enter wherever the focus is within the page. A key that repeats does nothing.
void onEnter(QWidget& page, const std::function<void()>& deed);
/// The same for Escape.
void onEscape(QWidget& page, const std::function<void()>& deed);

} // namespace coldarc::ui
