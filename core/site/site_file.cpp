#include "core/site/site_file.h"

#include "core/base/json.h"

using namespace Qt::StringLiterals;

namespace coldarc::site {
namespace {

constexpr double kHoursOfAWeek = 168;

QJsonObject toJson(const Contact& contact)
{
    return {{u"name"_s, contact.name}, {u"role"_s, contact.role}, {u"phone"_s, contact.phone}};
}

QJsonObject toJson(const Profile& profile)
{
    return {{u"may_prove_absence"_s, wordOf(profile.mayProveAbsence)},
            {u"local_rules"_s, profile.localRules},
            {u"lock_notes"_s, profile.lockNotes}};
}

QJsonObject toJson(const Screen& screen)
{
    QJsonArray starts;
    for (const WallTime start : screen.showStarts)
        starts.append(isoUtc(start));
    QJsonObject object{
        {u"screen_id"_s, screen.id.text()}, {u"name"_s, screen.name}, {u"show_starts"_s, starts}};
    if (screen.weeklyHours)
        object.insert(u"weekly_h"_s, *screen.weeklyHours);
    return object;
}

QJsonObject toJson(const Projector& projector)
{
    return {{u"projector_id"_s, projector.id.text()},
            {u"model_id"_s, projector.model.text()},
            {u"screen_id"_s, projector.screen.text()},
            {u"label"_s, projector.label}};
}

QJsonObject toJson(const Lamphouse& lamphouse)
{
    QJsonObject object{{u"lamphouse_id"_s, lamphouse.id.text()},
                       {u"projector_id"_s, lamphouse.projector.text()},
                       {u"label"_s, lamphouse.label}};
    if (lamphouse.fitted)
        object.insert(u"fitted_lamp_id"_s, lamphouse.fitted->text());
    return object;
}

QJsonObject toJson(const Feed& feed)
{
    return {{u"lamphouse_id"_s, feed.lamphouse.text()}, {u"role_id"_s, feed.role.text()}};
}

QJsonObject toJson(const IsolationPoint& point);

template<class Thing>
QJsonArray arrayOf(const std::vector<Thing>& things)
{
    QJsonArray array;
    for (const Thing& thing : things)
        array.append(toJson(thing));
    return array;
}

QJsonObject toJson(const IsolationPoint& point)
{
    return {{u"point_id"_s, point.id.text()},  {u"panel"_s, point.panel},
            {u"circuit"_s, point.circuit},     {u"name"_s, point.name},
            {u"lockable"_s, point.isLockable}, {u"feeds"_s, arrayOf(point.feeds)}};
}

Contact readContact(JsonReader& reader)
{
    return {reader.text(u"name"_s), reader.textOr(u"role"_s, {}), reader.textOr(u"phone"_s, {})};
}

Profile readProfile(JsonReader& reader)
{
    const auto prover = proverFromWord(reader.text(u"may_prove_absence"_s));
    if (!prover)
        reader.complain(u"may_prove_absence"_s, u"must be engineer, qualified or electrician"_s);
    return {prover.value_or(AbsenceProver::Qualified), reader.textOr(u"local_rules"_s, {}),
            reader.textOr(u"lock_notes"_s, {})};
}

Screen readScreen(JsonReader& reader)
{
    Screen screen{ScreenId(reader.text(u"screen_id"_s)), reader.text(u"name"_s), std::nullopt, {}};
    if (reader.has(u"weekly_h"_s))
        screen.weeklyHours = reader.number(u"weekly_h"_s, 0, kHoursOfAWeek);
    for (const QString& text : reader.textsOr(u"show_starts"_s, {})) {
        const auto start = wallFromIso(text);
        if (!start)
            reader.complain(u"show_starts"_s, u"not a moment: "_s + text);
        screen.showStarts.push_back(start.value_or(WallTime()));
    }
    return screen;
}

Projector readProjector(JsonReader& reader)
{
    return {ProjectorId(reader.text(u"projector_id"_s)), ModelId(reader.text(u"model_id"_s)),
            ScreenId(reader.text(u"screen_id"_s)), reader.textOr(u"label"_s, {})};
}

Lamphouse readLamphouse(JsonReader& reader)
{
    Lamphouse lamphouse{LamphouseId(reader.text(u"lamphouse_id"_s)),
                        ProjectorId(reader.text(u"projector_id"_s)), reader.text(u"label"_s), std::nullopt};
    if (reader.has(u"fitted_lamp_id"_s))
        lamphouse.fitted = LampId(reader.text(u"fitted_lamp_id"_s));
    return lamphouse;
}

Feed readFeed(JsonReader& reader)
{
    return {LamphouseId(reader.text(u"lamphouse_id"_s)), catalogue::RoleId(reader.text(u"role_id"_s))};
}

/// Reads each child with `read`, and finishes it.
template<class Thing>
std::vector<Thing> readAll(const QList<JsonReader::Child>& children, QStringList& complaints,
                           Thing (*read)(JsonReader&))
{
    std::vector<Thing> things;
    for (const JsonReader::Child& child : children) {
        JsonReader reader(child.object, child.place, complaints);
        things.push_back(read(reader));
        reader.finish();
    }
    return things;
}

IsolationPoint readPoint(JsonReader& reader, QStringList& complaints)
{
    return {PointId(reader.text(u"point_id"_s)), reader.text(u"panel"_s),
            reader.text(u"circuit"_s),           reader.text(u"name"_s),
            reader.flag(u"lockable"_s),          readAll(reader.children(u"feeds"_s), complaints, readFeed)};
}

std::vector<IsolationPoint> readPoints(const QList<JsonReader::Child>& children, QStringList& complaints)
{
    std::vector<IsolationPoint> points;
    for (const JsonReader::Child& child : children) {
        JsonReader reader(child.object, child.place, complaints);
        points.push_back(readPoint(reader, complaints));
        reader.finish();
    }
    return points;
}

} // namespace

QJsonObject toJson(const SiteDocument& document)
{
    return {{u"kind"_s, u"site"_s},
            {u"site_id"_s, document.site.id.text()},
            {u"name"_s, document.site.name},
            {u"town"_s, document.site.town},
            {u"contacts"_s, arrayOf(document.site.contacts)},
            {u"profile"_s, toJson(document.site.profile)},
            {u"screens"_s, arrayOf(document.screens)},
            {u"projectors"_s, arrayOf(document.projectors)},
            {u"lamphouses"_s, arrayOf(document.lamphouses)},
            {u"points"_s, arrayOf(document.points)}};
}

Result<SiteDocument> siteFromJson(const QJsonObject& object)
{
    QStringList complaints;
    JsonReader reader(object, {}, complaints);
    if (reader.text(u"kind"_s) != u"site"_s)
        reader.complain(u"kind"_s, u"must be site"_s);
    SiteDocument document;
    document.site.id = SiteId(reader.text(u"site_id"_s));
    document.site.name = reader.text(u"name"_s);
    document.site.town = reader.textOr(u"town"_s, {});
    document.site.contacts = readAll(reader.childrenOr(u"contacts"_s), complaints, readContact);
    const JsonReader::Child profile = reader.child(u"profile"_s);
    JsonReader profileReader(profile.object, profile.place, complaints);
    document.site.profile = readProfile(profileReader);
    profileReader.finish();
    document.screens = readAll(reader.children(u"screens"_s), complaints, readScreen);
    document.projectors = readAll(reader.children(u"projectors"_s), complaints, readProjector);
    document.lamphouses = readAll(reader.children(u"lamphouses"_s), complaints, readLamphouse);
    document.points = readPoints(reader.children(u"points"_s), complaints);
    reader.finish();
    if (!complaints.isEmpty())
        return fail(Error::Kind::Malformed, complaints.join(u'\n'));
    return document;
}

} // namespace coldarc::site
