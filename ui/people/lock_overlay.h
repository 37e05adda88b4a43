#pragma once

#include "core/base/clock.h"
#include "ui/people/session_keeper.h"

#include <QWidget>

namespace coldarc::ui {

class ActionButton;
class Field;
class PlainButton;
class TextLabel;

/// What stands over the window while the key is locked.
struct LockView {
    bool isUp = false;
    bool asksPin = true; ///< false: the session has ended, only signing in again helps
    QString title;
    QString sub;
    QString message; ///< what came of the last PIN
    QString busy;
    int emptied = 0; ///< a change empties the box

    friend bool operator==(const LockView&, const LockView&) = default;
};

/// Makes the words of the lock from what the keeper says.
class LockPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the keeper, which must outlive the presenter.
    explicit LockPresenter(SessionKeeper& keeper, QObject* parent = nullptr);

    [[nodiscard]] const LockView& view() const { return m_view; }
    void tryPin(const people::TypedSecret& pin);

Q_SIGNALS:
    void viewChanged(const coldarc::ui::LockView& view);

private:
    void refresh();
    void answered(people::Session::PinOutcome outcome);

    SessionKeeper& m_keeper;
    QString m_message;
    int m_emptied = 0;
    bool m_wasLocked = false;
    LockView m_view;
};

/// Lies over the whole window while the key is locked, and takes every press.
class LockOverlay final : public QWidget {
    Q_OBJECT

public:
    /// Lies over `over`, which must outlive it. Borrows the clock.
    LockOverlay(const Clock& clock, QWidget* over);

    void setView(const LockView& view);

Q_SIGNALS:
    void pinGiven(const coldarc::people::TypedSecret& pin);
    void signInRequested();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    bool focusNextPrevChild(bool next) override;

private:
    QWidget* m_over;
    LockView m_view;
    QWidget* m_card;
    TextLabel* m_title;
    TextLabel* m_sub;
    Field* m_pin;
    TextLabel* m_message;
    TextLabel* m_busy;
    ActionButton* m_unlock;
    PlainButton* m_other;
};

} // namespace coldarc::ui
