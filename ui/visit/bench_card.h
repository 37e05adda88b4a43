#pragma once

#include "ui/visit/bench_view.h"

#include <QWidget>

class QHBoxLayout;
class QScrollArea;
class QSpacerItem;
class QVBoxLayout;

namespace coldarc::ui {

class CapturePanel;
class PlainButton;
class TextLabel;
class WaitRing;

/// The middle of the bench: what to do, why, what it wants to know, the danger, and the one main action at
/// the bottom right. What does not fit scrolls; the title, the danger and the buttons never do.
class StepCardPanel final : public QWidget {
    Q_OBJECT

public:
    explicit StepCardPanel(const Clock& clock, QWidget* parent = nullptr);

    void setCard(const StepCard& card);
    [[nodiscard]] ActionButton* action() const { return m_action; }
    [[nodiscard]] CapturePanel* captures() const { return m_captures; }

Q_SIGNALS:
    void doneRequested(const QList<coldarc::ui::CaptureAnswer>& answers);
    void answersChanged(const QList<coldarc::ui::CaptureAnswer>& answers);
    void somethingWrongRequested();
    void noteRequested();
    void pictureRequested();
    void personActRequested(const QString& id);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* makeBody();
    void press();
    void showActs(const QList<PersonAct>& acts);
    [[nodiscard]] bool hasFocusOrNobody() const;
    void bringUp(bool takesFocus);
    void placeAids(bool underWords);

    TextLabel* m_place;
    TextLabel* m_title;
    QScrollArea* m_scroll;
    WaitRing* m_ring;
    TextLabel* m_why;
    TextLabel* m_sub;
    TextLabel* m_keyIn;
    QWidget* m_aids;
    QHBoxLayout* m_top;
    QVBoxLayout* m_words;
    PlainButton* m_note;
    PlainButton* m_picture;
    CapturePanel* m_captures;
    QVBoxLayout* m_actLayout;
    QList<PlainButton*> m_acts;
    QSpacerItem* m_belowBody;
    SignalPanel* m_danger;
    PlainButton* m_wrong;
    ActionButton* m_action;
    StepCard m_card;
};

} // namespace coldarc::ui
