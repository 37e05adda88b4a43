#include "ui/visit/sheet_at_desk.h"

#include "ui/visit/view_of_machine.h"

namespace coldarc::ui {

QString SheetAtDesk::placeOf(const visit::VisitState& state, const visit::SwapState& swap) const
{
    return ui::placeOf(state, swap.lamphouse);
}

} // namespace coldarc::ui
