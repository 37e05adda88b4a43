#pragma once

#include "ui/review/queue_model.h"

#include <QListView>

namespace coldarc::ui {

/// Draws the queue: a sign where something is out of the ordinary, the site and its day, what it is, who it
/// was and how it stands. Every row is of one height, so that no page is read to know where another row lies;
/// what is too long is cut, and the tool tip has it whole.
class QueueList final : public QListView {
    Q_OBJECT

public:
    /// Borrows the model, which must outlive the list.
    explicit QueueList(QueueModel& model, QWidget* parent = nullptr);

    [[nodiscard]] const QueueModel& queue() const { return m_queue; }
    /// Brings a row in hand and in sight; -1: none is.
    void setCurrent(int row);

Q_SIGNALS:
    /// Somebody went there.
    void rowChosen(int row);

protected:
    /// Of itself Qt goes to the first row then; nobody has gone there.
    void focusInEvent(QFocusEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;

private:
    QueueModel& m_queue;
    bool m_isShowing = false;
};

} // namespace coldarc::ui
