#pragma once

#include <QString>

#include <random>

namespace coldarc::test {

/// Any text: pieces of labels put together, cut, doubled and mutated, and characters of every kind.
[[nodiscard]] QString anyPayload(std::mt19937& chance);

/// Reads one text in every way that this room can, and holds what must be true of any. False where it is not.
[[nodiscard]] bool readsSafely(const QString& text);

} // namespace coldarc::test
