#pragma once

namespace coldarc::ui {

class SheetPage;
class SheetPresenter;

/// Has the page show what the presenter makes, and the presenter hear what is pressed there. What leads to
/// other pages (something went wrong, the end of the step) is left to whoever has those.
void connectSheetPage(SheetPresenter& presenter, SheetPage& page);

} // namespace coldarc::ui
