#pragma once

#include "ui/alignment/light_desk.h"
#include "ui/visit/visit_desk.h"

namespace coldarc::ui {

/// What the light page asks of the visit, answered at its desk.
class LightAtDesk final : public LightDesk {
public:
    /// Borrows the desk, which must outlive this.
    explicit LightAtDesk(VisitDesk& desk)
        : m_desk(desk)
    {
    }

    [[nodiscard]] visit::VisitState seen() const override { return m_desk.seen(); }
    [[nodiscard]] const Clock& clock() const override { return m_desk.clock(); }
    QStringList tell(const visit::Body& asked) override { return m_desk.tell(asked).no; }
    [[nodiscard]] QString placeOf(const visit::VisitState& state,
                                  const visit::SwapState& swap) const override;
    [[nodiscard]] std::optional<WaitView> settleWait(const visit::VisitState& state,
                                                     const visit::SwapState& swap) const override;
    [[nodiscard]] QString makeSafeEnd(const visit::VisitState& state,
                                      const visit::SwapState& swap) const override;

private:
    VisitDesk& m_desk;
};

} // namespace coldarc::ui
