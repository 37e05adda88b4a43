#pragma once

#include "ui/alignment/light_view.h"
#include "ui/parts/press_guard.h"
#include "ui/parts/strip.h"

#include <QWidget>

class QLineEdit;
class QShortcut;

namespace coldarc::ui {

class AxisRows;
class PlainButton;
class ScanChart;
class TextLabel;
class TraceChart;
class TurnDial;

/// The light run: left the knobs, the light and what is left to win; in the middle the charts and the box for
/// what the meter shows; right what to turn next, and MAKE SAFE, which stands alone.
///
/// The box always has the focus, so that a number and Enter are all that a reading takes. Keys: Enter takes
/// the number, or, with an empty box once nothing is left to read, ends the step; Page Down presses the main
/// action; F4 to F8 as on their buttons; F9 something went wrong; F12 make safe; Escape back to the bench.
class LightPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit LightPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const LightView& view);
    /// A wait that ended at another swap.
    void setStrip(const StripView& view);
    [[nodiscard]] const LightView& view() const { return m_view; }
    /// The box takes the focus.
    void begin();

Q_SIGNALS:
    void entered(const QString& text);
    void doneRequested();
    void finishRequested();
    void takeBackRequested();
    void putRightRequested();
    void formRequested();
    void oweRequested();
    void somethingWrongRequested();
    void makeSafeRequested();
    void leaveRequested();
    void stripActRequested();
    void stripDismissed();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* makeLeft();
    QWidget* makeMiddle();
    QWidget* makeRight();
    void bindKeys();
    /// Enter: the box first, then whatever the step waits for.
    void press();
    void pressAction();
    /// What a button ends: a press within the guard's hold of a new step does not end that too.
    enum class Ends {
        Nothing,
        Step,
    };
    /// A button that was pressed gives the focus back to the box.
    PlainButton* addButton(const QString& name, const QString& key, void (LightPage::*signal)(),
                           Ends ends = Ends::Nothing);

    LightView m_view;
    PressGuard m_guard; ///< of the step that the page shows
    Strip* m_strip;
    QShortcut* m_stripKey;
    TextLabel* m_axesTitle;
    AxisRows* m_axes;
    TextLabel* m_light;
    TextLabel* m_longLight;
    TextLabel* m_lightSub;
    TextLabel* m_leftTitle;
    TextLabel* m_leftToWin;
    TextLabel* m_leftSub;
    TextLabel* m_won;
    TextLabel* m_wonSub;
    TextLabel* m_place;
    TextLabel* m_title;
    ScanChart* m_scan;
    TraceChart* m_trace;
    TextLabel* m_said;
    TextLabel* m_fieldName;
    QLineEdit* m_box;
    ActionButton* m_action;
    TextLabel* m_first;
    TextLabel* m_what;
    TextLabel* m_how;
    TextLabel* m_then;
    TurnDial* m_dial;
    WaitRing* m_wait;
    PlainButton* m_takeBack;
    PlainButton* m_putRight;
    PlainButton* m_form;
    PlainButton* m_finish;
    PlainButton* m_owe;
    PlainButton* m_back;
    PlainButton* m_wrong;
    PlainButton* m_makeSafe;
    QWidget* m_left;
    QWidget* m_middle;
    QWidget* m_right;
};

} // namespace coldarc::ui
