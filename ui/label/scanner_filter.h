#pragma once

#include "core/base/clock.h"
#include "core/label/key_burst.h"

#include <QKeyEvent>
#include <QObject>
#include <QPointer>
#include <QSet>
#include <QTimer>

#include <memory>
#include <vector>

class QCoreApplication;

namespace coldarc::ui {

/// Hears a scanner that plays a keyboard, whatever widget has the focus. Its keys never reach a field, and
/// the separator that line edits drop is kept. What a person types arrives as it was typed, each key at most
/// the rule's gap later.
/// A program that uses this has no shortcut on a plain character: it could not be told from a scan. Enter and
/// Tab within the gap behind a character arrive as keys and are no shortcuts.
class ScannerFilter final : public QObject {
    Q_OBJECT

public:
    /// Hears nothing until it listens. Borrows application and clock, which must outlive it.
    ScannerFilter(QCoreApplication& application, const Clock& clock, label::BurstRule rule = {},
                  QObject* parent = nullptr);

    /// While it listens every key of the application's windows is watched, unless a dialog is over them or it
    /// goes into a masked box. A key that is held when it stops is lost.
    void setListening(bool listens);
    /// Looks whether the pause after the last key is over; the timer does so by itself.
    void lookAgain();

Q_SIGNALS:
    void scanned(const QString& text);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    struct HeldKey {
        QPointer<QObject> receiver;
        std::unique_ptr<QKeyEvent> event;
    };
    [[nodiscard]] std::chrono::milliseconds now() const;
    bool pressed(QObject* receiver, const QKeyEvent& event);
    void settleHeld(std::chrono::milliseconds at);
    [[nodiscard]] bool isStruckApart(const QKeyEvent& event) const;
    bool settle(label::KeyBurst::Fate fate, QObject* receiver, const QKeyEvent& event);
    void hold(QObject* receiver, const QKeyEvent& event);
    void release();
    void tell();

    QCoreApplication& m_application;
    const Clock& m_clock;
    bool m_listens = false;
    label::BurstRule m_rule;
    label::KeyBurst m_burst;
    std::vector<HeldKey> m_held;
    QSet<int> m_keptBack;   ///< keys that were held: their release says nothing any more
    quint64 m_struckAt = 0; ///< by the keyboard's own clock, ms; 0: it told none
    bool m_releasing = false;
    QTimer m_pause;
};

} // namespace coldarc::ui
