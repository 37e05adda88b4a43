#pragma once

#include "ui/visit/bench_view.h"

#include <QPointer>
#include <QWidget>

#include <memory>
#include <vector>

class QVBoxLayout;

namespace coldarc::ui {

/// What the step wants to know, one below the other. The answers stay here until the step changes.
class CapturePanel final : public QWidget {
    Q_OBJECT

public:
    explicit CapturePanel(QWidget* parent = nullptr);
    ~CapturePanel() override;

    /// @param stepKey  a change of it throws the answers of the step before away.
    void setCaptures(const QString& stepKey, const QList<CaptureView>& captures);
    /// One per capture, in their order.
    [[nodiscard]] QList<CaptureAnswer> answers() const;
    /// Gives the focus to the first capture if it is typed. False otherwise: number keys then answer from the
    /// page, one question after the other.
    bool focusFirst();
    /// Goes from the question that has the focus to the next one that still needs an answer: a box takes the
    /// focus, for a choice it goes to the panel, so that number keys answer. False when none is left behind
    /// it.
    bool moveOn();
    /// Gives the focus to the first question without an answer if it is typed. False otherwise.
    bool focusOpenBox();
    /// Brings the first question without an answer into sight.
    void showOpen();
    /// The page came up again: goes to the first question without an answer, else to the one that is marked,
    /// else to the one that had the focus last. A box takes the focus; a choice comes into sight, once
    /// anything was answered. False when no box took it.
    bool comeBack();
    /// Chooses the answer that was walked to. False when the focus stands on none, or on the chosen one.
    bool chooseWalkedTo();
    /// Goes to the first question that is marked: a box takes the focus, for a choice the panel does, so that
    /// number keys answer. Nothing happens where none is marked.
    void goToMarked();
    /// Answers the choice that has the focus by its number, or the first that has no answer yet where no
    /// choice has it. Out of sight it is shown and not answered. False when nothing was answered.
    bool chooseByNumber(int number);

Q_SIGNALS:
    void answersChanged(const QList<coldarc::ui::CaptureAnswer>& answers);

protected:
    bool eventFilter(QObject* part, QEvent* event) override;

private:
    class Editor;
    class ChoiceEditor;
    class TicksEditor;
    class FieldEditor;
    [[nodiscard]] size_t firstOpen(size_t from) const;
    [[nodiscard]] size_t firstMarked() const;
    [[nodiscard]] size_t holding(const QWidget* widget) const;
    void goTo(size_t question);
    [[nodiscard]] std::unique_ptr<Editor> editorFor(const CaptureView& capture);
    void rebuild(const QList<CaptureView>& captures);

    QVBoxLayout* m_layout;
    QString m_stepKey;
    QList<CaptureView> m_captures;
    std::vector<std::unique_ptr<Editor>> m_editors;
    QPointer<QWidget> m_last; ///< the question that had the focus last
};

} // namespace coldarc::ui
