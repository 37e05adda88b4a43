#pragma once

#include <QString>

#include <optional>

namespace coldarc::app {

/// Asks the desktop, over D-Bus, neither to lock the screen nor to sleep while a swap is in hand
/// (org.freedesktop.ScreenSaver; org.freedesktop.login1 of systemd for sleep). Both are let go with this.
class Awake {
public:
    Awake() = default;
    ~Awake();
    Awake(const Awake&) = delete;
    Awake& operator=(const Awake&) = delete;

    /// What was reached. Asking twice asks nothing anew.
    struct Answer {
        bool holdsScreen = false;
        bool holdsSleep = false;
    };
    Answer hold(const QString& why);
    void letGo();

private:
    std::optional<quint32> m_cookie;
    int m_sleepLock = -1; ///< a file descriptor: closing it lets go
};

} // namespace coldarc::app
