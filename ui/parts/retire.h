#pragma once

class QWidget;

namespace coldarc::ui {

/// Takes a widget out of sight and out of its parent now, and deletes it once it is safe: a view that arrives
/// in answer to a press may remove the very button that was pressed. Nothing it does afterwards is heard.
void retire(QWidget* widget);

} // namespace coldarc::ui
