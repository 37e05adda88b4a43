#include "ui/label/scanner_filter.h"

#include "core/label/gs1.h"

#include <QApplication>
#include <QLineEdit>

#include <utility>

namespace coldarc::ui {

namespace {

using Key = label::KeyBurst::Key;
using Fate = label::KeyBurst::Fate;

bool writes(const QKeyEvent& event)
{
    const QString text = event.text();
    if (text.size() != 1 || event.isAutoRepeat())
        return false;
    const bool plain = !(event.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
    return text.at(0) == QChar(label::kGroupSeparator) || (plain && text.at(0).isPrint());
}

Key kindOf(const QKeyEvent& event)
{
    if (writes(event))
        return Key::Character;
    const bool ends =
        event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter || event.key() == Qt::Key_Tab;
    return ends && !event.isAutoRepeat() ? Key::End : Key::Other;
}

// What goes into a masked box may come from a key that plays a keyboard as well, and is no label.
bool isMasked(const QObject* receiver)
{
    const auto* box = qobject_cast<const QLineEdit*>(receiver);
    return box && box->echoMode() != QLineEdit::Normal;
}

// Shift, Control and the like are struck between the characters of a scan and do nothing by themselves.
bool isModifier(const QKeyEvent& event)
{
    return event.key() >= Qt::Key_Shift && event.key() <= Qt::Key_ScrollLock;
}

std::unique_ptr<QKeyEvent> copyOf(const QKeyEvent& event, QEvent::Type type)
{
    return std::make_unique<QKeyEvent>(type, event.key(), event.modifiers(), event.nativeScanCode(),
                                       event.nativeVirtualKey(), event.nativeModifiers(), event.text(),
                                       event.isAutoRepeat(), static_cast<quint16>(event.count()));
}

} // namespace

ScannerFilter::ScannerFilter(QCoreApplication& application, const Clock& clock, label::BurstRule rule,
                             QObject* parent)
    : QObject(parent)
    , m_application(application)
    , m_clock(clock)
    , m_rule(std::move(rule))
    , m_burst(m_rule)
{
    m_pause.setSingleShot(true);
    m_pause.setInterval(m_rule.gap + std::chrono::milliseconds(1));
    connect(&m_pause, &QTimer::timeout, this, &ScannerFilter::lookAgain);
}

void ScannerFilter::setListening(bool listens)
{
    if (listens == m_listens)
        return;
    m_listens = listens;
    if (listens) {
        m_application.installEventFilter(this);
        return;
    }
    m_application.removeEventFilter(this);
    m_pause.stop();
    (void)m_burst.strike(Key::Other, {}, now());
    m_held.clear();
    m_keptBack.clear();
}

void ScannerFilter::lookAgain()
{
    settleHeld(now());
}

void ScannerFilter::settleHeld(std::chrono::milliseconds at)
{
    switch (m_burst.pause(at)) {
    case Fate::Release:
        release();
        break;
    case Fate::Scan:
        tell();
        break;
    case Fate::Hold:
        m_pause.start();
        break;
    case Fate::Nothing:
    case Fate::ReleaseAndHold:
        break;
    }
}

bool ScannerFilter::eventFilter(QObject* watched, QEvent* event)
{
    if (m_releasing || !watched->isWidgetType() || QApplication::activeModalWidget() || isMasked(watched))
        return false;
    switch (event->type()) {
    case QEvent::ShortcutOverride: {
        // No shortcut is taken from the middle of a scan, nor by its separator, which is Control and a
        // bracket.
        const auto& key = *static_cast<QKeyEvent*>(event);
        const bool isOurs = kindOf(key) == Key::Character || (kindOf(key) == Key::End && m_burst.isHolding());
        if (isOurs)
            event->accept();
        return isOurs;
    }
    case QEvent::KeyPress:
        return pressed(watched, *static_cast<QKeyEvent*>(event));
    case QEvent::KeyRelease:
        return !static_cast<QKeyEvent*>(event)->isAutoRepeat() &&
               m_keptBack.remove(static_cast<QKeyEvent*>(event)->key());
    default:
        return false;
    }
}

std::chrono::milliseconds ScannerFilter::now() const
{
    return std::chrono::floor<std::chrono::milliseconds>(m_clock.now().sinceBoot);
}

bool ScannerFilter::pressed(QObject* receiver, const QKeyEvent& event)
{
    if (isModifier(event))
        return false;
    const QChar character = event.text().isEmpty() ? QChar() : event.text().at(0);
    // A busy moment of the program brings keys at once that were struck apart.
    const bool wasApart = isStruckApart(event);
    settleHeld(wasApart ? now() + m_rule.gap + std::chrono::milliseconds(1) : now());
    m_struckAt = event.timestamp();
    return settle(m_burst.strike(kindOf(event), character, now()), receiver, event);
}

bool ScannerFilter::isStruckApart(const QKeyEvent& event) const
{
    const bool isKnown = m_struckAt != 0 && event.timestamp() > m_struckAt;
    return isKnown && std::chrono::milliseconds(event.timestamp() - m_struckAt) > m_rule.gap;
}

// True: the key goes no further.
bool ScannerFilter::settle(Fate fate, QObject* receiver, const QKeyEvent& event)
{
    switch (fate) {
    case Fate::Nothing:
        return false;
    case Fate::Hold:
        hold(receiver, event);
        return true;
    case Fate::ReleaseAndHold:
        release();
        hold(receiver, event);
        return true;
    case Fate::Release:
        release();
        return false;
    case Fate::Scan:
        m_keptBack.insert(event.key());
        tell();
        return true;
    }
    Q_UNREACHABLE();
}

void ScannerFilter::hold(QObject* receiver, const QKeyEvent& event)
{
    m_held.push_back({receiver, copyOf(event, QEvent::KeyPress)});
    m_keptBack.insert(event.key());
    m_pause.start();
}

// To whoever had the focus when each was struck, press and release.
void ScannerFilter::release()
{
    m_pause.stop();
    const std::vector<HeldKey> held = std::exchange(m_held, {});
    m_releasing = true;
    for (const HeldKey& key : held) {
        if (key.receiver)
            QCoreApplication::sendEvent(key.receiver, key.event.get());
        if (key.receiver)
            QCoreApplication::sendEvent(key.receiver, copyOf(*key.event, QEvent::KeyRelease).get());
    }
    m_releasing = false;
}

void ScannerFilter::tell()
{
    m_pause.stop();
    m_held.clear();
    Q_EMIT scanned(m_burst.scanned());
}

} // namespace coldarc::ui
