#include "core/visit/entry_words.h"

#include <array>

namespace coldarc::visit {
namespace {

template<class Value, std::size_t N>
QString wordIn(const std::array<const char*, N>& words, Value value)
{
    return QString::fromLatin1(words[static_cast<std::size_t>(value)]);
}

template<class Value, std::size_t N>
std::optional<Value> valueIn(const std::array<const char*, N>& words, const QString& word)
{
    for (std::size_t index = 0; index < N; ++index) {
        if (word == QLatin1String(words[index]))
            return static_cast<Value>(index);
    }
    return std::nullopt;
}

constexpr std::array kOutcomes{"plain",  "no-response", "started",       "absent",   "voltage",
                               "lit",    "no-light",    "burst",         "same",     "differs",
                               "agrees", "disagrees",   "will-not-lock", "fan-runs", "fan-still"};
static_assert(kOutcomes.size() == static_cast<std::size_t>(machine::Outcome::FanStill) + 1);
constexpr std::array kDrives{"on", "standby", "off"};
constexpr std::array kSeats{"empty", "entered", "clamped"};
constexpr std::array kLives{"new", "below", "past-end"};
constexpr std::array kSources{"own-marking", "box", "paper", "entry"};
constexpr std::array kMeans{"typed", "chosen", "scanned"};

} // namespace

QString wordOf(machine::Outcome outcome)
{
    return wordIn(kOutcomes, outcome);
}

std::optional<machine::Outcome> outcomeFromWord(const QString& word)
{
    return valueIn<machine::Outcome>(kOutcomes, word);
}

QString wordOf(machine::Drive drive)
{
    return wordIn(kDrives, drive);
}

std::optional<machine::Drive> driveFromWord(const QString& word)
{
    return valueIn<machine::Drive>(kDrives, word);
}

QString wordOf(machine::Seat seat)
{
    return wordIn(kSeats, seat);
}

std::optional<machine::Seat> seatFromWord(const QString& word)
{
    return valueIn<machine::Seat>(kSeats, word);
}

QString wordOf(machine::Life life)
{
    return wordIn(kLives, life);
}

std::optional<machine::Life> lifeFromWord(const QString& word)
{
    return valueIn<machine::Life>(kLives, word);
}

QString wordOf(label::Source source)
{
    return wordIn(kSources, source);
}

std::optional<label::Source> sourceFromWord(const QString& word)
{
    return valueIn<label::Source>(kSources, word);
}

QString wordOf(label::Means means)
{
    return wordIn(kMeans, means);
}

std::optional<label::Means> meansFromWord(const QString& word)
{
    return valueIn<label::Means>(kMeans, word);
}

} // namespace coldarc::visit
