#pragma once

#include <QApplication>
#include <QEvent>
#include <QEventLoop>
#include <QTimer>
#include <QWidget>

#include <utility>

namespace coldarc::bench {

/// Sees when something inside a widget is painted.
class Painted final : public QObject {
public:
    /// Borrows the widget.
    explicit Painted(const QWidget& inside)
        : m_inside(inside)
    {
        qApp->installEventFilter(this);
    }
    /// Lets the event loop run until something was painted since the last call; a display that is not of this
    /// process takes its time.
    /// @return false when nothing is painted within ten seconds.
    [[nodiscard]] bool wait()
    {
        QTimer wake;
        wake.setSingleShot(true);
        wake.start(10'000);
        while (!m_isPainted && wake.isActive())
            QApplication::processEvents(QEventLoop::WaitForMoreEvents);
        return hasPainted();
    }
    /// Has painted what is still to be painted, which is not of the deed that is timed next.
    void forget()
    {
        QApplication::processEvents();
        m_isPainted = false;
    }
    /// Whether something was painted since the last call of either.
    [[nodiscard]] bool hasPainted() { return std::exchange(m_isPainted, false); }

protected:
    bool eventFilter(QObject* object, QEvent* event) override
    {
        const auto* widget = event->type() == QEvent::Paint ? qobject_cast<QWidget*>(object) : nullptr;
        if (widget && (widget == &m_inside || m_inside.isAncestorOf(widget)))
            m_isPainted = true;
        return false;
    }

private:
    const QWidget& m_inside;
    bool m_isPainted = false;
};

} // namespace coldarc::bench
