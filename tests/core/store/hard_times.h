#pragma once

#include <QString>

#include <cstdint>

namespace coldarc::test {

/// What a series of power cuts or kills has shown.
struct HardTimes {
    int times = 0;         ///< cuts or kills that came while the journal was at work
    long acknowledged = 0; ///< entries that had been acknowledged before them, all together
    long lost = 0;         ///< acknowledged entries that were not there afterwards
    int broken = 0;        ///< times after which the file did not open, or a chain was not whole
    QString firstTrouble;  ///< what the first of those looked like
};

enum class Durability {
    AsShipped,
    ControlWithoutSyncs, ///< synchronous=NORMAL, set behind the store's back: it must lose entries
};

/// Cuts the power `cuts` times at seeded moments of opening, appending, folding the log and closing; after
/// each one opens the file again and looks for every entry acknowledged.
[[nodiscard]] HardTimes cutPower(int cuts, std::uint32_t seed, Durability durability);

/// Starts `program` (store_appender) and kills it with SIGKILL `kills` times at seeded moments; after each
/// one opens the file and looks for every entry that it said was acknowledged.
[[nodiscard]] HardTimes killAppender(const QString& program, int kills, std::uint32_t seed);

} // namespace coldarc::test
