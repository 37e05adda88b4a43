#include "core/label/source_read.h"

#include "core/label/normalise.h"
#include "core/label/symbology.h"

#include <algorithm>

namespace coldarc::label {

namespace {

bool isWhole(const Reading& reading)
{
    return !normalise(reading.type).isEmpty() && !normalise(reading.serial).isEmpty();
}

/// Whether this field of the closed box was typed off one of its sources and read off no other.
bool isTypedOnce(const QList<Reading>& readings, QString Reading::*field)
{
    int read = 0;
    bool isOneCode = false;
    for (const Source source : {Source::Box, Source::Paper}) {
        const auto last = std::find_if(readings.rbegin(), readings.rend(),
                                       [&](const Reading& one) { return one.source == source; });
        if (last == readings.rend() || normalise((*last).*field).isEmpty())
            continue;
        if (last->means != Means::Typed)
            return false;
        if (!last->isSameCode || !isOneCode)
            ++read;
        isOneCode = isOneCode || last->isSameCode;
    }
    return read == 1;
}

} // namespace

bool isOneCodeOf(const SourceRead& one, const SourceRead& other)
{
    return std::ranges::any_of(one.scanned, [&](const QString& scanned) {
        return alreadyReadOn(scanned, one.reading.source, {other}).has_value();
    });
}

QList<Reading> readingsOf(const QList<SourceRead>& reads)
{
    QList<Reading> readings;
    for (const SourceRead& read : reads) {
        Reading reading = read.reading;
        reading.isSameCode = read.isAlsoElsewhere || std::ranges::any_of(reads, [&](const SourceRead& other) {
                                 return other.isAlsoElsewhere && isOneCodeOf(read, other);
                             });
        readings.append(reading);
    }
    return readings;
}

SourceRead withCode(const SourceRead& before, const QString& scanned, const Payload& payload,
                    const LabelText& text)
{
    if (text.verdict != LabelText::Verdict::Read)
        return before;
    SourceRead after = before;
    const Source source = before.reading.source;
    const bool replacesAll = (!text.type.isEmpty() || before.reading.type.isEmpty()) &&
                             (!text.serial.isEmpty() || before.reading.serial.isEmpty());
    const Reading code = scanOf(source, payload.symbology, text.type, text.serial);
    const bool wasTyped = !replacesAll && before.reading.means != Means::Scanned;
    after.reading.means = wasTyped ? Means::Typed : code.means;
    if (!text.type.isEmpty())
        after.reading.type = text.type;
    if (!text.serial.isEmpty())
        after.reading.serial = text.serial;
    if (replacesAll) {
        after.scanned.clear();
        after.isAlsoElsewhere = false;
    }
    if (!after.scanned.contains(scanned))
        after.scanned.append(scanned);
    return after;
}

SourceRead withTyped(const SourceRead& before, const QString& type, const QString& serial)
{
    return {{before.reading.source, Means::Typed, type, serial}, {}, before.picture};
}

std::optional<Source> nextToRead(const QList<Source>& order, const QList<SourceRead>& reads)
{
    for (const Source source : order) {
        const auto read =
            std::ranges::find_if(reads, [&](const SourceRead& one) { return one.reading.source == source; });
        if (source != Source::Entry && (read == reads.end() || !isWhole(read->reading)))
            return source;
    }
    return std::nullopt;
}

std::optional<Source> alreadyReadOn(const QString& scanned, Source source, const QList<SourceRead>& reads)
{
    const QString text = scanText(scanned).text; // a reader may or may not say which kind of code it was
    const auto other = std::ranges::find_if(reads, [&](const SourceRead& one) {
        return one.reading.source != source && std::ranges::any_of(one.scanned, [&](const QString& before) {
                   return scanText(before).text == text;
               });
    });
    return other == reads.end() ? std::nullopt : std::optional(other->reading.source);
}

bool restsOnItsCodes(const SourceRead& read)
{
    const auto isChecked = [&](const QString& scanned) {
        const auto id = scanText(scanned).id;
        return read.reading.source == Source::Entry || (id && id->isChecked());
    };
    return read.reading.means != Means::Scanned ||
           (!read.scanned.isEmpty() && std::ranges::all_of(read.scanned, isChecked));
}

bool saysWhatItsCodesSay(const SourceRead& read, const QList<catalogue::LampType>& lampTypes, int currentYear)
{
    if (read.reading.means != Means::Scanned || read.reading.source == Source::Entry)
        return true;
    bool isTypeSaid = read.reading.type.isEmpty();
    bool isSerialSaid = read.reading.serial.isEmpty();
    for (const QString& scanned : read.scanned) {
        const LabelText text = labelText(readPayload(scanned, currentYear), lampTypes);
        if (text.verdict != LabelText::Verdict::Read)
            continue;
        isTypeSaid = isTypeSaid || text.type == read.reading.type;
        isSerialSaid = isSerialSaid || text.serial == read.reading.serial;
    }
    return isTypeSaid && isSerialSaid;
}

bool restsOnOneTyping(const QList<Reading>& readings)
{
    return isTypedOnce(readings, &Reading::type) || isTypedOnce(readings, &Reading::serial);
}

} // namespace coldarc::label
