#include "core/catalogue/projector_model.h"

#include "core/base/json.h"
#include "core/catalogue/words.h"

#include <QJsonArray>
#include <QSet>

#include <algorithm>
#include <array>
#include <cmath>

using namespace Qt::StringLiterals;

namespace coldarc::catalogue {
namespace {

constexpr Words<DeviceKind, 3> kDevices{{{DeviceKind::Breaker, u"breaker"},
                                         {DeviceKind::DisconnectSwitch, u"disconnect-switch"},
                                         {DeviceKind::Plug, u"plug"}}};
constexpr Words<Cover, 3> kCovers{
    {{Cover::None, u"none"}, {Cover::Housing, u"housing"}, {Cover::Guard, u"guard"}}};
constexpr Words<LampEnd, 2> kEnds{{{LampEnd::Anode, u"anode"}, {LampEnd::Cathode, u"cathode"}}};
constexpr Words<Axis, 3> kAxes{{{Axis::Along, u"along"}, {Axis::Across, u"across"}, {Axis::Up, u"up"}}};
constexpr Words<Sense, 2> kSenses{
    {{Sense::Clockwise, u"clockwise"}, {Sense::Anticlockwise, u"anticlockwise"}}};

/// Devices that only ask a circuit to be off.
constexpr std::array kControls{u"soft-button", u"push-button", u"selector", u"selector-switch", u"interlock"};

constexpr qint64 kMostSeconds = 24 * 60 * 60;
constexpr qint64 kMostStrikes = 10;
constexpr qint64 kMostFasteners = 99;
constexpr double kLeastStepTurns = 0.01; // as logbooks may have kept it
constexpr double kMostStepTurns = 10;
constexpr double kLeastStepInHand = 0.25; // turns: half of it is still an eighth

std::chrono::seconds secondsOf(JsonReader& reader, const QString& key)
{
    return std::chrono::seconds(reader.whole(key, 1, kMostSeconds));
}

template<class Value, std::size_t Count>
Value wordFrom(JsonReader& reader, const QString& key, const Words<Value, Count>& words)
{
    const auto value = valueIn(words, reader.text(key));
    if (!value)
        reader.complain(key, oneOf(words));
    return value.value_or(words.front().first);
}

/// Complains of the second of two equal values.
template<class Value>
void once(QSet<Value>& seen, const Value& value, const QString& shown, const QString& key, JsonReader& reader)
{
    if (seen.contains(value))
        reader.complain(key, u"%1 stands here twice"_s.arg(shown));
    seen.insert(value);
}

QList<LampTypeId> typesFrom(JsonReader& reader, const QString& key)
{
    QList<LampTypeId> types;
    QSet<QString> seen;
    for (const QString& word : reader.texts(key)) {
        once(seen, word, word, key, reader);
        types.append(LampTypeId(word));
    }
    if (types.isEmpty())
        reader.complain(key, u"must name at least one lamp type"_s);
    return types;
}

DeviceKind deviceFrom(JsonReader& reader)
{
    const QString word = reader.text(u"device"_s);
    const auto device = valueIn(kDevices, word);
    const bool control =
        std::ranges::any_of(kControls, [&](const char16_t* name) { return QStringView(name) == word; });
    if (control)
        reader.complain(u"device"_s, u"%1 is a control and never isolates"_s.arg(word));
    else if (!device)
        reader.complain(u"device"_s, oneOf(kDevices));
    return device.value_or(DeviceKind::Breaker);
}

QStringList lamphousesFrom(JsonReader& reader)
{
    const QStringList labels = reader.texts(u"lamphouses"_s);
    if (labels.isEmpty() || labels.size() > 2)
        reader.complain(u"lamphouses"_s, u"must name one or two"_s);
    QSet<QString> seen;
    for (const QString& label : labels)
        once(seen, label, label, u"lamphouses"_s, reader);
    return labels;
}

QList<IsolationRole> isolationFrom(JsonReader& reader, const QStringList& lamphouses, QStringList& complaints)
{
    QList<IsolationRole> roles;
    QSet<RoleId> ids;
    QSet<QString> fed;
    for (const auto& [object, place] : reader.children(u"isolation"_s)) {
        JsonReader item(object, place, complaints);
        IsolationRole role;
        role.id = RoleId(item.text(u"id"_s));
        role.name = item.text(u"name"_s);
        role.kind = deviceFrom(item);
        role.lockable = item.flag(u"lockable"_s);
        role.lamphouses = item.texts(u"lamphouses"_s);
        once(ids, role.id, role.id.text(), u"id"_s, item);
        if (role.lamphouses.isEmpty())
            item.complain(u"lamphouses"_s, u"must name at least one"_s);
        for (const QString& label : role.lamphouses) {
            if (!lamphouses.contains(label))
                item.complain(u"lamphouses"_s, u"the model has no lamphouse %1"_s.arg(label));
            fed.insert(label);
        }
        item.finish();
        roles.append(role);
    }
    for (const QString& label : lamphouses) {
        if (!fed.contains(label))
            reader.complain(u"isolation"_s, u"nothing isolates lamphouse %1"_s.arg(label));
    }
    return roles;
}

QList<TestPoint> testPointsFrom(JsonReader& reader, bool hasHousing, QStringList& complaints)
{
    QList<TestPoint> points;
    QSet<TestPointId> ids;
    for (const auto& [object, place] : reader.children(u"test_points"_s)) {
        JsonReader item(object, place, complaints);
        TestPoint point;
        point.id = TestPointId(item.text(u"id"_s));
        point.name = item.text(u"name"_s);
        point.cover = wordFrom(item, u"cover"_s, kCovers);
        once(ids, point.id, point.id.text(), u"id"_s, item);
        if (point.cover == Cover::Housing && !hasHousing)
            item.complain(u"cover"_s, u"this model has no housing, its door is the guard"_s);
        item.finish();
        points.append(point);
    }
    if (std::ranges::none_of(points, [](const TestPoint& point) { return point.cover != Cover::Guard; }))
        reader.complain(u"test_points"_s, u"one at least must be reached without opening the guard"_s);
    return points;
}

std::optional<Adaptor> adaptorFrom(JsonReader& reader, QStringList& complaints)
{
    const auto child = reader.childOr(u"adaptor"_s);
    if (!child)
        return std::nullopt;
    JsonReader item(child->object, child->place, complaints);
    Adaptor adaptor;
    adaptor.end = wordFrom(item, u"end"_s, kEnds);
    adaptor.lampTypes = typesFrom(item, u"lamp_types"_s);
    item.finish();
    return adaptor;
}

QList<Fasteners> fastenersFrom(JsonReader& reader, QStringList& complaints)
{
    QList<Fasteners> list;
    QSet<QString> places;
    for (const auto& [object, place] : reader.children(u"fasteners"_s)) {
        JsonReader item(object, place, complaints);
        Fasteners fasteners;
        fasteners.place = item.text(u"place"_s);
        fasteners.count = static_cast<int>(item.whole(u"count"_s, 1, kMostFasteners));
        once(places, fasteners.place, fasteners.place, u"place"_s, item);
        item.finish();
        list.append(fasteners);
    }
    if (list.isEmpty())
        reader.complain(u"fasteners"_s, u"must name at least one"_s);
    return list;
}

QList<AxisDrive> axesFrom(JsonReader& reader, QStringList& complaints)
{
    QList<AxisDrive> drives;
    QSet<int> axes;
    for (const auto& [object, place] : reader.children(u"axes"_s)) {
        JsonReader item(object, place, complaints);
        AxisDrive drive;
        drive.axis = wordFrom(item, u"axis"_s, kAxes);
        drive.stepTurns = item.number(u"step_turns"_s, kLeastStepTurns, kMostStepTurns);
        if (item.has(u"forward"_s))
            drive.forward = wordFrom(item, u"forward"_s, kSenses);
        drive.hasPlay = item.flagOr(u"play"_s, false);
        once(axes, static_cast<int>(drive.axis), wordOf(drive.axis), u"axis"_s, item);
        item.finish();
        drives.append(drive);
    }
    if (drives.isEmpty())
        reader.complain(u"axes"_s, u"must name at least one"_s);
    return drives;
}

void readWaits(ProjectorModel& model, JsonReader& reader, Reading<ProjectorModel>& reading)
{
    model.coolFan = secondsOf(reader, u"cool_fan_s"_s);
    model.coolUnforced = secondsOf(reader, u"cool_unforced_s"_s);
    model.bleed = secondsOf(reader, u"bleed_s"_s);
    model.settle = secondsOf(reader, u"settle_s"_s);
    model.strikePause = secondsOf(reader, u"strike_pause_s"_s);
    model.strikeLimit = static_cast<int>(reader.whole(u"strike_limit"_s, 1, kMostStrikes));
    if (model.coolFan < kLeastCoolFan) {
        reading.notices.append(
            u"cool_fan_s: %1 s is below the floor, 600 s are used"_s.arg(model.coolFan.count()));
        model.coolFan = kLeastCoolFan;
    }
    if (model.coolUnforced < model.coolFan)
        reader.complain(u"cool_unforced_s"_s, u"must not be below the wait with the fan running"_s);
}

QJsonArray textsOf(const QList<LampTypeId>& types)
{
    QJsonArray list;
    for (const LampTypeId& type : types)
        list.append(type.text());
    return list;
}

/// One object for each item.
template<class Item, class Write>
QJsonArray arrayOf(const QList<Item>& items, Write write)
{
    QJsonArray list;
    for (const Item& item : items)
        list.append(QJsonObject(write(item)));
    return list;
}

qint64 countOf(std::chrono::seconds wait)
{
    return static_cast<qint64>(wait.count());
}

} // namespace

QString wordOf(DeviceKind kind)
{
    return wordIn(kDevices, kind);
}

QString wordOf(Cover cover)
{
    return wordIn(kCovers, cover);
}

QString wordOf(LampEnd end)
{
    return wordIn(kEnds, end);
}

QString wordOf(Sense sense)
{
    return wordIn(kSenses, sense);
}

QString wordOf(Axis axis)
{
    return wordIn(kAxes, axis);
}

std::optional<Axis> axisFromWord(const QString& word)
{
    return valueIn(kAxes, word);
}

int ProjectorModel::fastenerTotal() const
{
    int total = 0;
    for (const Fasteners& some : fasteners)
        total += some.count;
    return total;
}

bool ProjectorModel::needsAdaptor(const LampTypeId& type) const
{
    return adaptor && adaptor->lampTypes.contains(type);
}

QList<IsolationRole> ProjectorModel::isolationOf(const QString& lamphouse) const
{
    QList<IsolationRole> roles;
    std::ranges::copy_if(isolation, std::back_inserter(roles),
                         [&](const IsolationRole& role) { return role.lamphouses.contains(lamphouse); });
    return roles;
}

std::optional<IsolationRole> ProjectorModel::role(const RoleId& wanted) const
{
    const auto found = std::ranges::find(isolation, wanted, &IsolationRole::id);
    return found == isolation.end() ? std::nullopt : std::optional(*found);
}

std::optional<TestPoint> ProjectorModel::testPoint(const TestPointId& wanted) const
{
    const auto found = std::ranges::find(testPoints, wanted, &TestPoint::id);
    return found == testPoints.end() ? std::nullopt : std::optional(*found);
}

Reading<ProjectorModel> readProjectorModel(const QJsonObject& document)
{
    Reading<ProjectorModel> reading;
    QStringList& complaints = reading.complaints;
    JsonReader reader(document, {}, complaints);
    if (reader.text(u"kind"_s) != u"projector-model"_s)
        reader.complain(u"kind"_s, u"must be projector-model"_s);
    reader.textOr(u"note"_s, {});

    ProjectorModel model;
    model.id = ModelId(reader.text(u"id"_s));
    model.maker = reader.text(u"maker"_s);
    model.name = reader.text(u"name"_s);
    model.lamphouses = lamphousesFrom(reader);
    readWaits(model, reader, reading);
    model.hasHousing = reader.flag(u"has_housing"_s);
    model.hasDowser = reader.flag(u"has_dowser"_s);
    model.isolation = isolationFrom(reader, model.lamphouses, complaints);
    model.testPoints = testPointsFrom(reader, model.hasHousing, complaints);
    model.adaptor = adaptorFrom(reader, complaints);
    model.fasteners = fastenersFrom(reader, complaints);
    model.axes = axesFrom(reader, complaints);
    model.lampTypes = typesFrom(reader, u"lamp_types"_s);
    for (const LampTypeId& type : model.adaptor.value_or(Adaptor()).lampTypes) {
        if (!model.takes(type))
            reader.complain(u"adaptor.lamp_types"_s, u"the model does not take %1"_s.arg(type.text()));
    }
    reader.finish();
    if (complaints.isEmpty())
        reading.value = model;
    return reading;
}

Reading<ProjectorModel> readModelOfCatalogue(const QJsonObject& document)
{
    Reading<ProjectorModel> reading = readProjectorModel(document);
    if (!reading.value)
        return reading;
    const QList<AxisDrive>& axes = reading.value->axes;
    for (qsizetype i = 0; i < axes.size(); ++i) {
        const double eighths = axes[i].stepTurns * 8;
        if (axes[i].stepTurns < kLeastStepInHand || std::floor(eighths) != eighths)
            reading.complaints.append(
                u"axes[%1].step_turns: must be whole eighths of a turn, at least a quarter"_s.arg(i));
    }
    if (!reading.complaints.isEmpty())
        reading.value.reset();
    return reading;
}

QJsonObject toJson(const ProjectorModel& model)
{
    QJsonObject object{{u"kind"_s, u"projector-model"_s},
                       {u"id"_s, model.id.text()},
                       {u"maker"_s, model.maker},
                       {u"name"_s, model.name},
                       {u"lamphouses"_s, QJsonArray::fromStringList(model.lamphouses)},
                       {u"cool_fan_s"_s, countOf(model.coolFan)},
                       {u"cool_unforced_s"_s, countOf(model.coolUnforced)},
                       {u"bleed_s"_s, countOf(model.bleed)},
                       {u"settle_s"_s, countOf(model.settle)},
                       {u"strike_pause_s"_s, countOf(model.strikePause)},
                       {u"strike_limit"_s, model.strikeLimit},
                       {u"has_housing"_s, model.hasHousing},
                       {u"has_dowser"_s, model.hasDowser},
                       {u"lamp_types"_s, textsOf(model.lampTypes)}};
    object.insert(u"isolation"_s, arrayOf(model.isolation, [](const IsolationRole& role) {
                      return QJsonObject{{u"id"_s, role.id.text()},
                                         {u"name"_s, role.name},
                                         {u"device"_s, wordOf(role.kind)},
                                         {u"lockable"_s, role.lockable},
                                         {u"lamphouses"_s, QJsonArray::fromStringList(role.lamphouses)}};
                  }));
    object.insert(u"test_points"_s, arrayOf(model.testPoints, [](const TestPoint& point) {
                      return QJsonObject{{u"id"_s, point.id.text()},
                                         {u"name"_s, point.name},
                                         {u"cover"_s, wordOf(point.cover)}};
                  }));
    object.insert(u"fasteners"_s, arrayOf(model.fasteners, [](const Fasteners& some) {
                      return QJsonObject{{u"place"_s, some.place}, {u"count"_s, some.count}};
                  }));
    object.insert(u"axes"_s, arrayOf(model.axes, [](const AxisDrive& drive) {
                      return QJsonObject{{u"axis"_s, wordOf(drive.axis)},
                                         {u"step_turns"_s, drive.stepTurns},
                                         {u"forward"_s, wordOf(drive.forward)},
                                         {u"play"_s, drive.hasPlay}};
                  }));
    if (model.adaptor)
        object.insert(u"adaptor"_s, QJsonObject{{u"end"_s, wordOf(model.adaptor->end)},
                                                {u"lamp_types"_s, textsOf(model.adaptor->lampTypes)}});
    return object;
}

} // namespace coldarc::catalogue
