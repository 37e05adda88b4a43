#include "core/label/agreement.h"

#include "core/label/normalise.h"

#include <algorithm>
#include <array>
#include <span>

namespace coldarc::label {

namespace {

using catalogue::LampType;
using State = FieldVerdict::State;
using Cause = Wait::Cause;

constexpr int kFarthestSuggestion = 2;
constexpr qsizetype kLongestSuffix = 2;
constexpr std::array<Source, 2> kClosedBox{Source::Box, Source::Paper};
constexpr std::array<Source, 1> kMarking{Source::OwnMarking};
constexpr std::array<Source, 3> kBesideEntry{Source::Box, Source::Paper, Source::OwnMarking};

// The last reading of a source counts; one that is not there says nothing.
Reading readingOf(Source source, const QList<Reading>& readings)
{
    const auto last = std::find_if(readings.rbegin(), readings.rend(),
                                   [&](const Reading& reading) { return reading.source == source; });
    return last == readings.rend() ? Reading{source, Means::Typed, {}, {}} : *last;
}

bool isUnread(const QString& text)
{
    return normalise(text).isEmpty();
}

bool names(const Reading& reading, const LampType& type)
{
    const QString text = normalise(reading.type);
    if (text.isEmpty())
        return false;
    const auto isText = [&](const QString& code) { return normalise(code) == text; };
    return isText(type.code) || ((reading.source == Source::Box || reading.means == Means::Scanned) &&
                                 std::ranges::any_of(type.packageCodes, isText));
}

QList<LampTypeId> typesNamedBy(const Reading& reading, const QList<LampType>& lampTypes)
{
    QList<LampTypeId> named;
    for (const LampType& type : lampTypes)
        if (names(reading, type))
            named.append(type.id);
    return named;
}

std::optional<LampTypeId> theOneOf(const QList<LampTypeId>& named)
{
    return named.size() == 1 ? std::optional(named.front()) : std::nullopt;
}

/// Everything that is asked about one lamp, gathered once.
struct Question {
    QList<Reading> readings;
    QList<SerialPass> passes;
    QList<LampType> lampTypes;
    Reading entry;

    [[nodiscard]] Reading of(Source source) const { return readingOf(source, readings); }
};

FieldVerdict typeVerdict(const Question& question, Source source)
{
    const Reading reading = question.of(source);
    FieldVerdict verdict{source, State::NotRead, {}, {}, reading.means, reading.isSameCode};
    if (isUnread(reading.type))
        return verdict;
    verdict.namedType = theOneOf(typesNamedBy(reading, question.lampTypes));
    if (isUnread(question.entry.type)) {
        verdict.state = State::NoEntry;
        return verdict;
    }

    verdict.difference = compareFields(question.entry.type, reading.type);
    const bool samePackage =
        verdict.namedType && verdict.namedType == theOneOf(typesNamedBy(question.entry, question.lampTypes));
    if (verdict.difference.isSame() || samePackage)
        verdict.state = State::Agrees;
    else if (differOnlyBySuffix(question.entry.type, reading.type))
        verdict.state = State::DiffersBySuffix;
    else
        verdict.state = State::Differs;
    return verdict;
}

bool hasEvidence(const SerialPass& pass)
{
    if (pass.evidence == SerialPass::Evidence::Picture)
        return true;
    return pass.typedFrom != Source::Entry && pass.typedFrom != pass.source &&
           normalise(pass.typedAgain) == normalise(pass.entry);
}

bool isPassed(const Question& question, const Reading& reading)
{
    return std::ranges::any_of(question.passes, [&](const SerialPass& pass) {
        return pass.source == reading.source && normalise(pass.read) == normalise(reading.serial) &&
               normalise(pass.entry) == normalise(question.entry.serial) &&
               !pass.reason.trimmed().isEmpty() && hasEvidence(pass);
    });
}

FieldVerdict serialVerdict(const Question& question, Source source)
{
    const Reading reading = question.of(source);
    FieldVerdict verdict{source, State::NotRead, {}, {}, reading.means, reading.isSameCode};
    const bool read = !isUnread(reading.serial);
    if (isUnread(question.entry.serial)) {
        verdict.state = read ? State::NoEntry : State::NotRead;
        return verdict;
    }

    if (read)
        verdict.difference = compareFields(question.entry.serial, reading.serial);
    if (read && verdict.difference.isSame())
        verdict.state = State::Agrees;
    else if (isPassed(question, reading))
        verdict.state = State::Passed;
    else if (read)
        verdict.state = State::Differs;
    return verdict;
}

std::optional<Cause> causeOfEntryType(const Reading& entry, const QList<LampTypeId>& named,
                                      const QList<LampTypeId>& taken,
                                      const std::optional<LampTypeId>& planned)
{
    if (isUnread(entry.type))
        return Cause::EntryTypeMissing;
    if (named.isEmpty())
        return Cause::TypeNotInCatalogue;
    if (named.size() > 1)
        return Cause::TypeNamesSeveral;
    if (!taken.contains(named.front()))
        return Cause::ModelDoesNotTakeType;
    if (planned && *planned != named.front())
        return Cause::NotThePlannedType;
    return std::nullopt;
}

QList<Wait> waitsOfEntry(const Question& question, const QList<LampTypeId>& taken,
                         const std::optional<LampTypeId>& planned)
{
    QList<Wait> waits;
    const QList<LampTypeId> named = typesNamedBy(question.entry, question.lampTypes);
    if (const auto cause = causeOfEntryType(question.entry, named, taken, planned))
        waits.append({*cause, Source::Entry, 1});
    if (question.entry.means == Means::Scanned)
        waits.append({Cause::EntryScanned, Source::Entry, 1});
    if (isUnread(question.entry.serial))
        waits.append({Cause::EntrySerialMissing, Source::Entry, 1});
    return waits;
}

std::optional<Cause> causeOf(State state, bool isType)
{
    switch (state) {
    case State::NotRead:
    case State::NoEntry:
    case State::Agrees:
    case State::Passed:
        return std::nullopt;
    case State::Differs:
        return isType ? Cause::TypeDiffers : Cause::SerialDiffers;
    case State::DiffersBySuffix:
        return Cause::TypeDiffersBySuffix;
    }
    Q_UNREACHABLE();
}

struct Field {
    const QList<FieldVerdict>& verdicts;
    bool isType;
};

// What one step waits for in one field: each source that differs, and one of them read at least.
QList<Wait> waitsOfStep(const Field& field, std::span<const Source> sources, int step)
{
    QList<Wait> waits;
    bool read = false;
    for (const FieldVerdict& verdict : field.verdicts) {
        if (std::ranges::find(sources, verdict.source) == sources.end())
            continue;
        read = read || verdict.state != State::NotRead;
        if (const auto cause = causeOf(verdict.state, field.isType))
            waits.append({*cause, verdict.source, step});
    }
    if (!read)
        waits.append({field.isType ? Cause::TypeUnread : Cause::SerialUnread, sources.front(), step});
    return waits;
}

const FieldVerdict* ofMarking(const QList<FieldVerdict>& verdicts)
{
    const auto found = std::ranges::find(verdicts, Source::OwnMarking, &FieldVerdict::source);
    return found == verdicts.end() ? nullptr : &*found;
}

// One look at one character is all that tells two lamps apart, and the serial does not vouch for it; or
// nobody looked, since a code of the package was taken for the lamp's own.
bool hangsOnOneLook(const Agreement& verdict, const QList<LampType>& lampTypes)
{
    const FieldVerdict* const type = ofMarking(verdict.types);
    const FieldVerdict* const serial = ofMarking(verdict.serials);
    if (!verdict.type || !type || !serial || type->state != State::Agrees)
        return false;
    const bool isOneLook = type->means == Means::Typed && serial->state == State::Passed;
    const bool isNoLook = type->isSameCode && type->means != Means::Chosen;
    return (isOneLook || isNoLook) && !sistersOf(*verdict.type, lampTypes).isEmpty();
}

QList<NamedType> namedTypes(const Question& question, const QList<LampTypeId>& taken)
{
    constexpr std::array<Source, 4> kAll{Source::Entry, Source::Box, Source::Paper, Source::OwnMarking};
    QList<NamedType> result;
    for (const LampType& type : question.lampTypes) {
        NamedType named{type.id,           {}, type.leastAmperes, type.mostAmperes, taken.contains(type.id),
                        type.warrantyHours};
        for (const Source source : kAll)
            if (names(question.of(source), type))
                named.namedBy.append(source);
        if (!named.namedBy.isEmpty())
            result.append(named);
    }
    return result;
}

// How many of the differences neither look-alikes nor a swap explain.
auto unexplained(const Difference& difference)
{
    return std::ranges::count_if(difference.segments, [](const Segment& segment) {
        const bool plain = segment.kind == Segment::Kind::Differs && !segment.alike;
        return plain || segment.kind == Segment::Kind::Missing || segment.kind == Segment::Kind::Extra;
    });
}

bool holdsNumber(const QString& text)
{
    const auto twoDigits = [](QChar one, QChar next) { return one.isDigit() && next.isDigit(); };
    return std::ranges::adjacent_find(text, twoDigits) != text.end();
}

} // namespace

Reading scanOf(Source source, const std::optional<SymbologyId>& id, const QString& type,
               const QString& serial)
{
    const bool isVouchedFor = source == Source::Entry || (id && id->isChecked());
    return {source, isVouchedFor ? Means::Scanned : Means::Typed, type, serial};
}

Agreement agreement(const QList<Reading>& readings, const QList<SerialPass>& passes,
                    const QList<LampType>& lampTypes, const QList<LampTypeId>& taken,
                    const std::optional<LampTypeId>& planned)
{
    const Question question{readings, passes, lampTypes, readingOf(Source::Entry, readings)};

    Agreement result;
    const QList<LampTypeId> named = typesNamedBy(question.entry, lampTypes);
    result.type = theOneOf(named);
    for (const Source source : kBesideEntry) {
        result.types.append(typeVerdict(question, source));
        result.serials.append(serialVerdict(question, source));
    }
    result.waits = waitsOfEntry(question, taken, planned);
    const Field type{result.types, true};
    const Field serial{result.serials, false};
    for (const Field& field : {type, serial})
        result.waits += waitsOfStep(field, kClosedBox, 1);
    for (const Field& field : {type, serial})
        result.waits += waitsOfStep(field, kMarking, 2);

    if (hangsOnOneLook(result, lampTypes))
        result.waits.append({Cause::SisterNotExcluded, Source::OwnMarking, 2});

    const auto waits = [&](int step) {
        return std::ranges::any_of(result.waits, [&](const Wait& wait) { return wait.step == step; });
    };
    result.closedBoxProved = !waits(1);
    result.ownMarkingProved = result.closedBoxProved && !waits(2);
    if (named.isEmpty())
        result.didYouMean = suggestions(question.entry.type, lampTypes);
    result.namedTypes = namedTypes(question, taken);
    return result;
}

QList<Suggestion> suggestions(const QString& text, const QList<LampType>& lampTypes)
{
    QList<Suggestion> near;
    if (isUnread(text))
        return near;
    for (const LampType& type : lampTypes) {
        const int distance = editDistance(text, type.code);
        if (distance >= 1 && distance <= kFarthestSuggestion)
            near.append({type.id, distance, differOnlyBySuffix(text, type.code)});
    }
    std::ranges::stable_sort(near, {}, &Suggestion::distance);
    return near;
}

QList<LampTypeId> sistersOf(const LampTypeId& type, const QList<LampType>& lampTypes)
{
    QList<LampTypeId> sisters;
    const auto self = std::ranges::find(lampTypes, type, &LampType::id);
    if (self == lampTypes.end())
        return sisters;
    for (const LampType& other : lampTypes)
        if (other.id != type && editDistance(other.code, self->code) <= 1)
            sisters.append(other.id);
    return sisters;
}

QList<SerialNear> nearSerials(const QString& text, const QStringList& known)
{
    QList<SerialNear> near;
    if (isUnread(text))
        return near;
    for (const QString& serial : known) {
        Difference difference = compareFields(text, serial);
        if (difference.isSame())
            return {};
        if (difference.distance <= kFarthestSuggestion)
            near.append({serial, std::move(difference)});
    }
    std::ranges::stable_sort(near, {}, [](const SerialNear& one) {
        return std::pair(one.difference.distance, unexplained(one.difference));
    });
    return near;
}

bool differOnlyBySuffix(const QString& one, const QString& other)
{
    const QString first = normalise(one);
    const QString second = normalise(other);
    const qsizetype stem = std::max(first.size(), second.size()) - kLongestSuffix;
    return first != second && first.left(stem) == second.left(stem) && holdsNumber(first.left(stem));
}

WrongTypeEffect wrongTypeEffect(const LampType& keyed, const LampType& lamp)
{
    const bool below = keyed.leastAmperes < lamp.leastAmperes;
    const bool above = keyed.mostAmperes > lamp.mostAmperes;
    return {below, above, std::max(0.0, keyed.warrantyHours - lamp.warrantyHours)};
}

} // namespace coldarc::label
