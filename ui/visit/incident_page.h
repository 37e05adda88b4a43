#pragma once

#include "ui/visit/incident_view.h"

#include <QWidget>

class QGridLayout;
class QStackedLayout;
class QVBoxLayout;

namespace coldarc::ui {

class CapturePanel;
class PlainButton;
class TextLabel;

/// What went wrong: one large button for each thing that can, then its short path, what to do first on top.
///
/// Keys: Escape goes back, number keys answer, Enter presses the main action or the button that was walked
/// to.
class IncidentPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit IncidentPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const IncidentView& view);

Q_SIGNALS:
    void kindChosen(int id);
    void openChosen(qint64 entry);
    void listRequested();
    void leaveRequested(); ///< back to the bench
    void doneRequested(const QList<coldarc::ui::CaptureAnswer>& answers);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    QWidget* makeList();
    QWidget* makePath();
    void showKinds();
    void showOpen();
    void press();
    void back();

    IncidentView m_view;
    QStackedLayout* m_pages;
    TextLabel* m_place;
    QGridLayout* m_kindGrid;
    QList<PlainButton*> m_kinds;
    TextLabel* m_openTitle;
    QVBoxLayout* m_openLayout;
    QList<PlainButton*> m_open;
    TextLabel* m_title;
    TextLabel* m_now;
    CapturePanel* m_asks;
    TextLabel* m_said;
    ActionButton* m_action;
};

} // namespace coldarc::ui
