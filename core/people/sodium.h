#pragma once

#include <QtGlobal>

#include <sodium.h>

// For the sources of this room only: its headers show nothing of the library.

namespace coldarc::people {

/// Must have run before anything else of the library; may run again. Ends the program where the system has no
/// source of randomness.
inline void startSodium()
{
    static const int started = sodium_init();
    if (started < 0)
        qFatal("libsodium does not start");
}

} // namespace coldarc::people
