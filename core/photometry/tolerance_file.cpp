#include "core/photometry/tolerance_file.h"

#include "core/base/json.h"
#include "core/photometry/words.h"

#include <QDir>
#include <QFile>
#include <QJsonArray>

#include <algorithm>
#include <map>

using namespace Qt::StringLiterals;

namespace coldarc::photometry {
namespace {

constexpr qint64 kMostBytes = 64 * 1024; // a set is a page; more is another file

/// Where a document comes from. Only an entry can hold a target of a person's own.
enum class Origin : std::uint8_t {
    File,
    Entry,
};

template<class Value, std::size_t Count>
Value wordFrom(JsonReader& reader, const QString& key, const Words<Value, Count>& words)
{
    const QString word = reader.text(key);
    const auto value = valueIn(words, word);
    if (!value && !word.isEmpty())
        reader.complain(key, oneOf(words));
    return value.value_or(words.front().first);
}

/// For words that are known by another file's `...FromWord`.
template<class Value>
std::optional<Value> wordBy(JsonReader& reader, const QString& key, const QString& word,
                            std::optional<Value> (*valueOf)(const QString&))
{
    const auto value = valueOf(word);
    if (!value && !word.isEmpty())
        reader.complain(key, u"%1 is no word for this"_s.arg(word));
    return value;
}

std::optional<double> figure(JsonReader& reader, const QString& key, PossibleSpan span)
{
    if (!reader.has(key))
        return std::nullopt;
    return reader.number(key, span.least, span.most);
}

void checkFigures(const Limit& limit, JsonReader& reader)
{
    if (limit.absence == Absence::None && !limit.least && !limit.most)
        reader.complain(u"least"_s, u"least, most or absence is needed"_s);
    if (limit.absence != Absence::None && (limit.least || limit.most))
        reader.complain(u"absence"_s, u"stands beside figures"_s);
    if (isUpsideDown(limit))
        reader.complain(u"most"_s, u"must not be below least"_s);
    else if (limit.nominal && (*limit.nominal < limit.least.value_or(*limit.nominal) ||
                               *limit.nominal > limit.most.value_or(*limit.nominal)))
        reader.complain(u"nominal"_s, u"must lie within least and most"_s);
}

Limit limitFrom(const JsonReader::Child& child, Origin origin, QStringList& complaints)
{
    JsonReader reader(child.object, child.place, complaints);
    Limit limit;
    limit.quantity = wordFrom(reader, u"quantity"_s, kQuantities);
    const PossibleSpan span = spanOf(limit.quantity);
    limit.least = figure(reader, u"least"_s, span);
    limit.most = figure(reader, u"most"_s, span);
    limit.nominal = figure(reader, u"nominal"_s, span);
    if (reader.has(u"absence"_s))
        limit.absence = wordFrom(reader, u"absence"_s, kAbsences);
    limit.standing = wordFrom(reader, u"standing"_s, kStandings);
    if (limit.standing == Standing::Own && origin == Origin::File)
        reader.complain(u"standing"_s, u"own is for a target that a person sets in the program"_s);
    limit.source =
        limit.standing == Standing::Own ? reader.textOr(u"source"_s, {}) : reader.text(u"source"_s);
    reader.textOr(u"note"_s, {});
    checkFigures(limit, reader);
    reader.finish();
    return limit;
}

std::vector<Limit> limitsFrom(JsonReader& reader, Origin origin, QStringList& complaints)
{
    std::vector<Limit> limits;
    for (const JsonReader::Child& child : reader.children(u"limits"_s)) {
        const Limit limit = limitFrom(child, origin, complaints);
        if (std::ranges::find(limits, limit.quantity, &Limit::quantity) != limits.end())
            complaints.append(child.place + u".quantity: stands here twice"_s);
        limits.push_back(limit);
    }
    if (limits.empty())
        reader.complain(u"limits"_s, u"must hold at least one"_s);
    return limits;
}

std::vector<Place> needsFrom(JsonReader& reader, Convention convention)
{
    std::vector<Place> places;
    for (const QString& word : reader.texts(u"needs"_s)) {
        const auto place = placeFromWord(word);
        if (!place || !Point::at(convention, *place))
            reader.complain(u"needs"_s, u"%1 is no point of this convention"_s.arg(word));
        else if (std::ranges::find(places, *place) != places.end())
            reader.complain(u"needs"_s, u"%1 stands here twice"_s.arg(word));
        else
            places.push_back(*place);
    }
    std::ranges::sort(places);
    if (std::ranges::find(places, Place::Centre) == places.end())
        reader.complain(u"needs"_s, u"must hold the centre"_s);
    return places;
}

Hash hashFrom(JsonReader& reader)
{
    const auto hash = Hash::fromHex(reader.text(u"document_sha256"_s));
    if (!hash)
        reader.complain(u"document_sha256"_s, u"must be 64 hexadecimal digits"_s);
    return hash.value_or(Hash());
}

ToleranceSetReading readSet(const QJsonObject& document, Origin origin)
{
    ToleranceSetReading reading;
    JsonReader reader(document, {}, reading.complaints);
    if (reader.text(u"kind"_s) != u"tolerance-set"_s)
        reader.complain(u"kind"_s, u"must be tolerance-set"_s);
    reader.textOr(u"note"_s, {});

    ToleranceSet set;
    set.id = ToleranceSetId(reader.text(u"id"_s));
    set.name = reader.text(u"name"_s);
    set.source = reader.text(u"source"_s);
    set.edition = reader.text(u"edition"_s);
    set.roomClass = wordFrom(reader, u"class"_s, kClasses);
    set.picture =
        wordBy(reader, u"picture"_s, reader.text(u"picture"_s), &pictureFromWord).value_or(set.picture);
    set.convention = wordBy(reader, u"convention"_s, reader.text(u"convention"_s), &conventionFromWord)
                         .value_or(set.convention);
    set.position = wordBy(reader, u"position"_s, reader.textOr(u"position"_s, {}), &meterPositionFromWord);
    set.needs = needsFrom(reader, set.convention);
    set.limits = limitsFrom(reader, origin, reading.complaints);
    if (origin == Origin::Entry)
        set.document = hashFrom(reader);
    reader.finish();
    if (reading.complaints.isEmpty())
        reading.set = set;
    return reading;
}

QStringList reasonsAgainst(const QString& path, std::vector<ToleranceSet>& sets)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return {u"cannot be read: %1"_s.arg(file.errorString())};
    const QByteArray bytes = file.read(kMostBytes + 1);
    if (bytes.size() > kMostBytes)
        return {u"is longer than %1 bytes"_s.arg(kMostBytes)};
    const auto object = parseObject(bytes);
    if (!object)
        return {object.error().detail};
    ToleranceSetReading reading = readToleranceSet(*object);
    if (!reading.set)
        return reading.complaints;
    reading.set->document = sha256(bytes);
    sets.push_back(*reading.set);
    return {};
}

void refuseSharedIds(ToleranceSetLoading& loading, const std::vector<QString>& files)
{
    std::map<QString, QStringList> filesOf;
    for (std::size_t i = 0; i < files.size(); ++i)
        filesOf[loading.sets[i].id.text()].append(files[i]);
    for (const auto& [id, names] : filesOf) {
        if (names.size() < 2)
            continue;
        for (const QString& name : names)
            loading.refused.push_back(
                {name, {u"id: %1 stands in more than one file: %2"_s.arg(id, names.join(u", "_s))}});
    }
    std::erase_if(loading.sets, [&](const ToleranceSet& set) { return filesOf[set.id.text()].size() > 1; });
}

void putIf(QJsonObject& object, const QString& key, const std::optional<double>& value)
{
    if (value)
        object.insert(key, *value);
}

QJsonObject toJson(const Limit& limit)
{
    QJsonObject object{{u"quantity"_s, wordOf(limit.quantity)},
                       {u"standing"_s, wordOf(limit.standing)},
                       {u"source"_s, limit.source}};
    putIf(object, u"least"_s, limit.least);
    putIf(object, u"most"_s, limit.most);
    putIf(object, u"nominal"_s, limit.nominal);
    if (limit.absence != Absence::None)
        object.insert(u"absence"_s, wordIn(kAbsences, limit.absence));
    return object;
}

} // namespace

ToleranceSetReading readToleranceSet(const QJsonObject& document)
{
    return readSet(document, Origin::File);
}

ToleranceSetReading readKeptToleranceSet(const QJsonObject& document)
{
    return readSet(document, Origin::Entry);
}

QJsonObject toJson(const ToleranceSet& set)
{
    QJsonArray needs;
    for (const Place place : set.needs)
        needs.append(wordOf(place));
    QJsonArray limits;
    for (const Limit& limit : set.limits)
        limits.append(toJson(limit));
    return {{u"kind"_s, u"tolerance-set"_s},
            {u"id"_s, set.id.text()},
            {u"name"_s, set.name},
            {u"source"_s, set.source},
            {u"edition"_s, set.edition},
            {u"class"_s, wordOf(set.roomClass)},
            {u"picture"_s, wordOf(set.picture)},
            {u"convention"_s, wordOf(set.convention)},
            {u"position"_s, set.position ? wordOf(*set.position) : QString()},
            {u"needs"_s, needs},
            {u"limits"_s, limits},
            {u"document_sha256"_s, set.document.hex()}};
}

ToleranceSetLoading loadToleranceSets(const QString& folder)
{
    ToleranceSetLoading loading;
    const QDir directory(folder);
    if (!directory.exists()) {
        loading.refused.push_back({folder, {u"no such folder"_s}});
        return loading;
    }
    std::vector<QString> files; // of the sets
    for (const QString& name : directory.entryList({u"*.json"_s}, QDir::Files, QDir::Name)) {
        const QStringList reasons = reasonsAgainst(directory.filePath(name), loading.sets);
        if (reasons.isEmpty())
            files.push_back(name);
        else
            loading.refused.push_back({name, reasons});
    }
    refuseSharedIds(loading, files);
    return loading;
}

} // namespace coldarc::photometry
