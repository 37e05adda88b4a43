#pragma once

#include <QString>

namespace coldarc {

/// Overwrites the characters of a text where they lie, for everybody who shares them, and empties it. One of
/// the program's own code, which cannot be written to, is only emptied.
void wipe(QString& text);

} // namespace coldarc
