#pragma once

#include <QByteArray>
#include <QString>

#include <cstdint>

namespace coldarc::test {

/// What the program that takes records says of one: that it was new, or there already.
inline constexpr const char* kTaken = "taken";
inline constexpr const char* kThere = "there";

[[nodiscard]] inline QString recordFileIn(const QString& folder, int number)
{
    return QStringLiteral("%1/%2.zip").arg(folder).arg(number);
}

struct KilledIntake {
    int kills = 0;
    int inHand = 0;         ///< kills after which the record in hand was there, and had not been acknowledged
    long acknowledged = 0;  ///< records, in the end
    long lost = 0;          ///< records acknowledged that were not there whole afterwards
    long there = 0;         ///< records that the last time over all of them were told as there already
    int broken = 0;         ///< times that the file did not open, or something stood there by half
    QString firstTrouble{}; ///< what the first of those looked like
};

enum class Acknowledges {
    OnceTaken,
    ControlBefore, ///< it must lose records
};

/// Has `program` (record_taker) take `records` signed and reviewed records into one workspace file, killed
/// with SIGKILL at some `kills` seeded moments. After each kill opens the file, looks for every record
/// acknowledged, for anything that stands there by half, and goes on; in the end takes all of them once more,
/// and looks at each whole.
[[nodiscard]] KilledIntake killIntake(const QString& program, int records, int kills, std::uint32_t seed,
                                      Acknowledges acknowledges = Acknowledges::OnceTaken);

} // namespace coldarc::test
