#pragma once

#include "ui/parts/painted_button.h"
#include "ui/parts/press_guard.h"

namespace coldarc::ui {

/// The main action of a page.
struct ActionView {
    enum class Stand {
        Ready, ///< filled with the accent, takes a press
        Asks,  ///< an outline that says what it waits for; a press shows where that is
        Waits, ///< an outline that says what it waits for, takes no press
    };
    QString stepKey; ///< names what the press is for; a change starts the guard's hold anew
    QString text;    ///< what a press does: "Done", "Set and read"
    QString waits;   ///< shown instead while it waits: "Waits for Cold, 6:41"
    Stand stand = Stand::Waits;

    friend bool operator==(const ActionView&, const ActionView&) = default;
};

/// Draws the main action and says when it was pressed, by pointer, Space, Enter or the page's keys. A press
/// within 0.7 s of a new step, a repeating key, and a press while it waits are not taken.
class ActionButton final : public PaintedButton {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the button.
    explicit ActionButton(const Clock& clock, QWidget* parent = nullptr);

    void setView(const ActionView& view);
    /// Where the page takes another key than Enter: its cap stands in the place of the arrow. Shown only: the
    /// page binds the key.
    void setKeyCap(const QString& key);
    [[nodiscard]] const QString& keyCap() const { return m_keyCap; }
    [[nodiscard]] const ActionView& view() const { return m_view; }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] int heightForWidth(int width) const override;

Q_SIGNALS:
    /// A press that counts: what was shown is wanted, or where it asks.
    void done();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] bool isReady() const { return m_view.stand == ActionView::Stand::Ready; }
    [[nodiscard]] bool takesPress() const { return m_view.stand != ActionView::Stand::Waits; }
    [[nodiscard]] QStringList linesFor(int width) const;
    [[nodiscard]] int keyRoom() const;

    ActionView m_view;
    QString m_keyCap;
    PressGuard m_guard;
};

} // namespace coldarc::ui
