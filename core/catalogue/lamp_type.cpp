#include "core/catalogue/lamp_type.h"

#include "core/base/json.h"
#include "core/catalogue/words.h"

#include <QJsonArray>
#include <QSet>

using namespace Qt::StringLiterals;

namespace coldarc::catalogue {
namespace {

constexpr Words<Fill, 2> kFills{{{Fill::Xenon, u"xenon"}, {Fill::MercuryXenon, u"mercury-xenon"}}};

// Wide enough for every lamp of a cinema; a figure outside is a slip of the keyboard.
constexpr double kLeast = 0.001;
constexpr double kMostWatts = 30'000;
constexpr double kMostAmperes = 1'000;
constexpr double kMostHours = 20'000;
constexpr double kMostLengthMm = 2'000;

void checkMeaning(const LampType& type, JsonReader& reader)
{
    if (type.mostAmperes < type.leastAmperes)
        reader.complain(u"most_a"_s, u"must not be below least_a"_s);
    if (type.replaceByHours < type.warrantyHours ||
        type.replaceByHours > type.warrantyHours * kMostOfWarranty)
        reader.complain(u"replace_by_h"_s, u"must be from warranty_h to 1.25 times that"_s);
    QSet<QString> codes{type.code};
    for (const QString& code : type.packageCodes) {
        if (codes.contains(code))
            reader.complain(u"package_codes"_s, u"%1 stands here twice"_s.arg(code));
        codes.insert(code);
    }
}

QList<LabelRule> labelRules(JsonReader& reader, QStringList& complaints)
{
    QList<LabelRule> rules;
    for (const JsonReader::Child& child : reader.childrenOr(u"labels"_s)) {
        JsonReader each(child.object, child.place, complaints);
        if (const auto rule = readLabelRule(each))
            rules.append(*rule);
        each.finish();
    }
    return rules;
}

} // namespace

QString wordOf(Fill fill)
{
    return wordIn(kFills, fill);
}

std::optional<Fill> fillFromWord(const QString& word)
{
    return valueIn(kFills, word);
}

Reading<LampType> readLampType(const QJsonObject& document)
{
    Reading<LampType> reading;
    JsonReader reader(document, {}, reading.complaints);
    if (reader.text(u"kind"_s) != u"lamp-type"_s)
        reader.complain(u"kind"_s, u"must be lamp-type"_s);
    reader.textOr(u"note"_s, {});

    LampType type;
    type.id = LampTypeId(reader.text(u"id"_s));
    type.maker = reader.text(u"maker"_s);
    type.name = reader.text(u"name"_s);
    type.code = reader.text(u"code"_s);
    type.packageCodes = reader.texts(u"package_codes"_s);
    type.ratedWatts = reader.number(u"rated_w"_s, kLeast, kMostWatts);
    type.leastAmperes = reader.number(u"least_a"_s, kLeast, kMostAmperes);
    type.mostAmperes = reader.number(u"most_a"_s, kLeast, kMostAmperes);
    type.warrantyHours = reader.number(u"warranty_h"_s, 1, kMostHours);
    type.replaceByHours = reader.number(u"replace_by_h"_s, 1, kMostHours);
    type.lengthMm = reader.number(u"length_mm"_s, 1, kMostLengthMm);
    type.thoriatedElectrodes = reader.flag(u"thoriated_electrodes"_s);
    const auto fill = fillFromWord(reader.text(u"fill"_s));
    if (!fill)
        reader.complain(u"fill"_s, oneOf(kFills));
    type.fill = fill.value_or(Fill::Xenon);
    type.labels = labelRules(reader, reading.complaints);

    if (reading.complaints.isEmpty())
        checkMeaning(type, reader);
    reader.finish();
    if (reading.complaints.isEmpty())
        reading.value = type;
    return reading;
}

QJsonObject toJson(const LampType& type)
{
    QJsonObject document{{u"kind"_s, u"lamp-type"_s},
                         {u"id"_s, type.id.text()},
                         {u"maker"_s, type.maker},
                         {u"name"_s, type.name},
                         {u"code"_s, type.code},
                         {u"package_codes"_s, QJsonArray::fromStringList(type.packageCodes)},
                         {u"rated_w"_s, type.ratedWatts},
                         {u"least_a"_s, type.leastAmperes},
                         {u"most_a"_s, type.mostAmperes},
                         {u"warranty_h"_s, type.warrantyHours},
                         {u"replace_by_h"_s, type.replaceByHours},
                         {u"length_mm"_s, type.lengthMm},
                         {u"fill"_s, wordOf(type.fill)},
                         {u"thoriated_electrodes"_s, type.thoriatedElectrodes}};
    QJsonArray labels;
    for (const LabelRule& rule : type.labels)
        labels.append(toJson(rule));
    if (!labels.isEmpty())
        document.insert(u"labels"_s, labels);
    return document;
}

} // namespace coldarc::catalogue
