#pragma once

#include "ui/visit/sign_off_presenter.h"

#include <QWidget>

class QLayout;
class QVBoxLayout;

namespace coldarc::ui {

class CapturePanel;
class PlainButton;
class TextLabel;

/// The end of a visit: to the left what is signed, to the right who has signed it, with one main action for
/// the next signature.
///
/// Keys: Enter goes to the next empty box, then presses the main action; Escape goes back to the bench.
class SignOffPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit SignOffPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const SignOffView& view);
    [[nodiscard]] const SignOffView& view() const { return m_view; }

Q_SIGNALS:
    void doneRequested(const QList<coldarc::ui::CaptureAnswer>& answers);
    void withoutRequested();
    void leaveRequested();
    void printRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void press();
    [[nodiscard]] QLayout* makeSignatures();
    void showSummary();
    void showLines();

    SignOffView m_view;
    TextLabel* m_place;
    QVBoxLayout* m_summaryLayout;
    QWidget* m_summary = nullptr;
    QVBoxLayout* m_lineLayout;
    QList<QWidget*> m_lines;
    TextLabel* m_nobody;
    TextLabel* m_said;
    CapturePanel* m_asks;
    TextLabel* m_head;
    TextLabel* m_missing;
    PlainButton* m_without;
    ActionButton* m_action;
};

} // namespace coldarc::ui
