#pragma once

#include "ui/parts/action_button.h"
#include "ui/visit/visit_desk.h"

#include <QStringList>
#include <QWidget>

namespace coldarc::ui {

class TextLabel;

/// Where making safe leads from here, and by which steps.
struct MakeSafeView {
    QString place;
    QString end;       ///< "leads to: out of use, locked and tagged"
    QStringList steps; ///< in order, waits among them

    friend bool operator==(const MakeSafeView&, const MakeSafeView&) = default;
};

/// The steps as they would follow each other if each came out well.
[[nodiscard]] MakeSafeView makeSafeViewOf(const visit::VisitState& state, const visit::SwapState& swap);

/// Asked once before a visit is made safe, since its swaps go no further afterwards.
class MakeSafePage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit MakeSafePage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const MakeSafeView& view);

Q_SIGNALS:
    void makeSafeRequested();
    void leaveRequested();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    TextLabel* m_place;
    TextLabel* m_end;
    TextLabel* m_steps;
    ActionButton* m_action;
    int m_times = 0;
};

} // namespace coldarc::ui
