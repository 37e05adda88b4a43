#pragma once

#include "ui/parts/press_guard.h"
#include "ui/visit/bench_view.h"

#include <QWidget>

class QKeyEvent;
class QScrollArea;

namespace coldarc::ui {

class MachineDrawing;
class PeopleButton;
class PlainButton;
class StepCardPanel;
class StepList;
class SwapList;
class TextLabel;

/// The bench: the screen on which a swap is worked. Left the swaps and the steps, in the middle the step in
/// hand, right the machine, its gates and MAKE SAFE, which stands alone.
///
/// Keys, wherever the focus is in the window: Enter, Return and Page Down press the main action (on another
/// button Enter presses that button, on an answer that is not chosen it chooses that, in a box it goes on to
/// the next open question); F9 something went wrong;
/// F10 who is here; F12 make safe; each swap's own key; 1 to 9 answer the question that has the focus, or
/// the first that has no answer yet, once it is in sight, but not within 0.7 s of a new card. A key that
/// repeats does nothing.
class BenchPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit BenchPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const BenchView& view);
    [[nodiscard]] const BenchView& view() const { return m_view; }
    /// The first open question, or the main action, takes the focus: the page came up again.
    void takeFocus();
    /// How a wait that ends elsewhere calls.
    void setSound(std::function<void()> sound);

Q_SIGNALS:
    void doneRequested(const QList<coldarc::ui::CaptureAnswer>& captures);
    /// An answer changed, but nothing was pressed yet.
    void answersChanged(const QList<coldarc::ui::CaptureAnswer>& captures);
    void somethingWrongRequested();
    void makeSafeRequested();
    void peopleRequested();
    void whatWasDoneRequested();
    void noteRequested();
    void pictureRequested();
    void swapChosen(int index);
    void personActRequested(const QString& id);
    void stripActRequested();
    void stripDismissed();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    QWidget* makeHeader();
    QWidget* makeLeft();
    QWidget* makeRight();
    void bindKeys();
    void bind(const QKeySequence& keys, const std::function<void()>& deed);
    void pressMain();
    void showHeader();
    void fitMachine();

    BenchView m_view;
    PressGuard m_guard; ///< for the number keys; the main action has its own
    TextLabel* m_site;
    TextLabel* m_subtitle;
    TextLabel* m_nextShow;
    TextLabel* m_needsWord;
    TextLabel* m_needs;
    TextLabel* m_gap;
    PeopleButton* m_people;
    Strip* m_strip;
    SwapList* m_swaps;
    StepList* m_steps;
    StepCardPanel* m_card;
    MachineDrawing* m_machine;
    QScrollArea* m_machineScroll;
    GateList* m_gates;
    PlainButton* m_done;
    PlainButton* m_makeSafe;
    QWidget* m_header;
    QWidget* m_left;
    QWidget* m_right;
};

} // namespace coldarc::ui
