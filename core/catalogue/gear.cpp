#include "core/catalogue/gear.h"

#include "core/base/json.h"

#include <QJsonArray>
#include <QSet>

#include <algorithm>
#include <array>

using namespace Qt::StringLiterals;

namespace coldarc::catalogue {
namespace {

constexpr std::array kFloor{u"face-shield", u"safety-glasses", u"gauntlets", u"jacket"};

void checkFloor(const QList<GearKind>& gear, JsonReader& reader)
{
    for (const char16_t* word : kFloor) {
        const GearId id{QString::fromUtf16(word)};
        const bool worn =
            std::ranges::any_of(gear, [&](const GearKind& kind) { return kind.id == id && kind.required; });
        if (!worn)
            reader.complain(u"gear"_s, u"%1 must be there and required"_s.arg(id.text()));
    }
}

} // namespace

Reading<QList<GearKind>> readGear(const QJsonObject& document)
{
    Reading<QList<GearKind>> reading;
    JsonReader reader(document, {}, reading.complaints);
    if (reader.text(u"kind"_s) != u"gear"_s)
        reader.complain(u"kind"_s, u"must be gear"_s);
    reader.textOr(u"note"_s, {});

    QList<GearKind> gear;
    QSet<GearId> ids;
    for (const auto& [object, place] : reader.children(u"gear"_s)) {
        JsonReader item(object, place, reading.complaints);
        GearKind kind{GearId(item.text(u"id"_s)), item.text(u"name"_s), item.flag(u"required"_s)};
        item.finish();
        if (ids.contains(kind.id))
            item.complain(u"id"_s, u"%1 stands here twice"_s.arg(kind.id.text()));
        ids.insert(kind.id);
        gear.append(kind);
    }
    reader.finish();
    checkFloor(gear, reader);
    if (reading.complaints.isEmpty())
        reading.value = gear;
    return reading;
}

QJsonObject toJson(const QList<GearKind>& gear)
{
    QJsonArray list;
    for (const GearKind& kind : gear)
        list.append(
            QJsonObject{{u"id"_s, kind.id.text()}, {u"name"_s, kind.name}, {u"required"_s, kind.required}});
    return {{u"kind"_s, u"gear"_s}, {u"gear"_s, list}};
}

} // namespace coldarc::catalogue
