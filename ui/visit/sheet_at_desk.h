#pragma once

#include "ui/photometry/sheet_desk.h"
#include "ui/visit/visit_desk.h"

namespace coldarc::ui {

/// What the screen sheet asks of the visit, answered at its desk.
class SheetAtDesk final : public SheetDesk {
public:
    /// Borrows the desk, which must outlive this.
    explicit SheetAtDesk(VisitDesk& desk)
        : m_desk(desk)
    {
    }

    [[nodiscard]] visit::VisitState seen() const override { return m_desk.seen(); }
    [[nodiscard]] const Clock& clock() const override { return m_desk.clock(); }
    [[nodiscard]] QTimeZone zone() const override { return m_desk.zone(); }
    QStringList tell(const visit::Body& asked) override { return m_desk.tell(asked).no; }
    [[nodiscard]] QString placeOf(const visit::VisitState& state,
                                  const visit::SwapState& swap) const override;

private:
    VisitDesk& m_desk;
};

} // namespace coldarc::ui
