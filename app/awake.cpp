#include "app/awake.h"

#ifdef COLDARC_HAS_DBUS
#include <QDBusConnection>
#include <QDBusInterface>
#include <QDBusReply>
#include <QDBusUnixFileDescriptor>

#include <unistd.h>
#endif

namespace coldarc::app {

using namespace Qt::StringLiterals;

Awake::~Awake()
{
    letGo();
}

#ifdef COLDARC_HAS_DBUS

namespace {

constexpr int kPatienceMs = 500; // of a desktop that does not answer

std::optional<quint32> holdScreen(const QString& why)
{
    QDBusInterface saver(u"org.freedesktop.ScreenSaver"_s, u"/org/freedesktop/ScreenSaver"_s,
                         u"org.freedesktop.ScreenSaver"_s, QDBusConnection::sessionBus());
    saver.setTimeout(kPatienceMs);
    const QDBusReply<quint32> cookie = saver.call(u"Inhibit"_s, u"Coldarc"_s, why);
    return cookie.isValid() ? std::optional(cookie.value()) : std::nullopt;
}

int holdSleep(const QString& why)
{
    QDBusInterface login(u"org.freedesktop.login1"_s, u"/org/freedesktop/login1"_s,
                         u"org.freedesktop.login1.Manager"_s, QDBusConnection::systemBus());
    login.setTimeout(kPatienceMs);
    const QDBusReply<QDBusUnixFileDescriptor> lock =
        login.call(u"Inhibit"_s, u"sleep:idle:handle-lid-switch"_s, u"Coldarc"_s, why, u"block"_s);
    return lock.isValid() ? ::dup(lock.value().fileDescriptor()) : -1;
}

} // namespace

Awake::Answer Awake::hold(const QString& why)
{
    if (!m_cookie)
        m_cookie = holdScreen(why);
    if (m_sleepLock < 0)
        m_sleepLock = holdSleep(why);
    return {m_cookie.has_value(), m_sleepLock >= 0};
}

void Awake::letGo()
{
    if (m_cookie) {
        QDBusInterface saver(u"org.freedesktop.ScreenSaver"_s, u"/org/freedesktop/ScreenSaver"_s,
                             u"org.freedesktop.ScreenSaver"_s, QDBusConnection::sessionBus());
        saver.setTimeout(kPatienceMs);
        saver.call(QDBus::NoBlock, u"UnInhibit"_s, *m_cookie);
        m_cookie.reset();
    }
    if (m_sleepLock >= 0) {
        ::close(m_sleepLock);
        m_sleepLock = -1;
    }
}

#else

Awake::Answer Awake::hold(const QString& /*why*/)
{
    return {};
}

void Awake::letGo() {}

#endif

} // namespace coldarc::app
