#include "core/visit/opening.h"

#include "core/base/json.h"
#include "core/base/remembered.h"
#include "core/procedure/procedure_file.h"
#include "core/site/site_check.h"
#include "core/site/site_file.h"

#include <algorithm>
#include <array>
#include <functional>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

constexpr std::array kTextKinds{"model", "lamp-type", "procedure", "gear"};

QJsonObject toJson(const LampFacts& lamp)
{
    QJsonObject object{{u"id"_s, lamp.id.text()}};
    if (lamp.type)
        object.insert(u"type"_s, lamp.type->text());
    if (!lamp.serial.isEmpty())
        object.insert(u"serial"_s, lamp.serial);
    if (lamp.hours)
        object.insert(u"hours"_s, *lamp.hours);
    if (lamp.counter)
        object.insert(u"counter"_s, *lamp.counter);
    if (lamp.hoursAt)
        object.insert(u"hours_at"_s, isoUtc(*lamp.hoursAt));
    return object;
}

WallTime momentFrom(JsonReader& reader, const QString& key)
{
    const auto moment = wallFromIso(reader.text(key));
    if (!moment)
        reader.complain(key, u"is not a moment"_s);
    return moment.value_or(WallTime());
}

LampFacts lampFrom(const JsonReader::Child& child, QStringList& complaints)
{
    JsonReader reader(child.object, child.place, complaints);
    LampFacts lamp;
    lamp.id = LampId(reader.text(u"id"_s));
    if (reader.has(u"type"_s))
        lamp.type = LampTypeId(reader.text(u"type"_s));
    lamp.serial = reader.textOr(u"serial"_s, {});
    if (reader.has(u"hours"_s))
        lamp.hours = reader.number(u"hours"_s, 0, 1e6);
    if (reader.has(u"counter"_s))
        lamp.counter = reader.number(u"counter"_s, 0, 1e6);
    if (reader.has(u"hours_at"_s))
        lamp.hoursAt = momentFrom(reader, u"hours_at"_s);
    reader.finish();
    return lamp;
}

Text textFrom(const JsonReader::Child& child, QStringList& complaints)
{
    JsonReader reader(child.object, child.place, complaints);
    Text text;
    const QString kind = reader.text(u"kind"_s);
    bool isKnown = false;
    for (std::size_t index = 0; index < kTextKinds.size(); ++index) {
        if (kind == QLatin1String(kTextKinds[index])) {
            text.kind = static_cast<Text::Kind>(index);
            isKnown = true;
        }
    }
    if (!isKnown)
        reader.complain(u"kind"_s, u"is not a kind of text"_s);
    text.bytes = reader.text(u"text"_s).toUtf8();
    if (reader.text(u"sha256"_s) != sha256(text.bytes).hex())
        reader.complain(u"sha256"_s, u"does not fit the text"_s);
    reader.finish();
    return text;
}

OwedPlan owedFrom(const JsonReader::Child& child, QStringList& complaints)
{
    JsonReader reader(child.object, child.place, complaints);
    OwedPlan owed;
    owed.step = StepId(reader.text(u"step"_s));
    owed.visit = VisitId(reader.text(u"visit"_s));
    owed.since = momentFrom(reader, u"since"_s);
    owed.lamp = LampId(reader.textOr(u"lamp"_s, {}));
    reader.finish();
    return owed;
}

SwapPlan swapFrom(const JsonReader::Child& child, QStringList& complaints)
{
    JsonReader reader(child.object, child.place, complaints);
    SwapPlan swap;
    swap.id = SwapId(reader.text(u"id"_s));
    swap.lamphouse = LamphouseId(reader.text(u"lamphouse"_s));
    swap.procedure = ProcedureId(reader.text(u"procedure"_s));
    for (const JsonReader::Child& owed : reader.childrenOr(u"owed"_s))
        swap.owed.append(owedFrom(owed, complaints));
    if (!swap.followsUp())
        swap.newLamp = lampFrom(reader.child(u"new_lamp"_s), complaints);
    reader.finish();
    return swap;
}

QJsonObject toJson(const SwapPlan& swap)
{
    QJsonObject object{{u"id"_s, swap.id.text()},
                       {u"lamphouse"_s, swap.lamphouse.text()},
                       {u"procedure"_s, swap.procedure.text()}};
    QJsonArray owed;
    for (const OwedPlan& one : swap.owed) {
        owed.append(QJsonObject{{u"step"_s, one.step.text()},
                                {u"visit"_s, one.visit.text()},
                                {u"since"_s, isoUtc(one.since)},
                                {u"lamp"_s, one.lamp.text()}});
    }
    if (swap.followsUp())
        object.insert(u"owed"_s, owed);
    else
        object.insert(u"new_lamp"_s, toJson(swap.newLamp));
    return object;
}

/// What a document says, and its text.
template<class Value>
struct Told {
    Value value;
    catalogue::Document document;
};

/// Visits of one workspace work by the same few documents, and each fold of one begins with all of them.
template<class Value>
Result<Told<Value>> tellOf(const QByteArray& text, catalogue::Reading<Value> (*read)(const QJsonObject&))
{
    static Remembered<Told<Value>> remembered;
    return remembered.of(text, [&]() -> Result<Told<Value>> {
        const auto object = parseObject(text);
        if (!object)
            return tl::unexpected(object.error());
        const auto reading = read(*object);
        if (!reading.value)
            return fail(Error::Kind::Malformed, reading.complaints.join(u"; "_s));
        return Told<Value>{*reading.value, {text, sha256(text)}};
    });
}

/// Of which model a procedure is. Malformed for a text that is no JSON.
Result<ModelId> modelOf(const QByteArray& procedure)
{
    static Remembered<ModelId> remembered;
    return remembered.of(procedure, [&]() -> Result<ModelId> {
        const auto object = parseObject(procedure);
        if (!object)
            return tl::unexpected(object.error());
        return ModelId(object->value(u"model"_s).toString());
    });
}

/// @param model  of the catalogue: with the procedure's text its own text says what comes out.
Result<procedure::Procedure> tellOfProcedure(const QByteArray& text, const catalogue::ProjectorModel& model,
                                             const catalogue::Catalogue& catalogue)
{
    static Remembered<procedure::Procedure> remembered;
    return remembered.of(catalogue.document(model.id).hash.bytes() + text,
                         [&]() -> Result<procedure::Procedure> {
                             const auto object = parseObject(text);
                             if (!object)
                                 return tl::unexpected(object.error());
                             const auto reading = procedure::readProcedure(*object, model);
                             if (!reading.value)
                                 return fail(Error::Kind::Malformed, reading.complaints.join(u"; "_s));
                             return *reading.value;
                         });
}

Result<void> addText(const Text& text, catalogue::Catalogue& catalogue)
{
    if (text.kind == Text::Kind::Model) {
        const auto told = tellOf(text.bytes, catalogue::readProjectorModel);
        if (!told)
            return tl::unexpected(told.error());
        catalogue.add(told->value, told->document);
    } else if (text.kind == Text::Kind::LampType) {
        const auto told = tellOf(text.bytes, catalogue::readLampType);
        if (!told)
            return tl::unexpected(told.error());
        catalogue.add(told->value, told->document);
    } else if (text.kind == Text::Kind::Gear) {
        const auto told = tellOf(text.bytes, catalogue::readGear);
        if (!told)
            return tl::unexpected(told.error());
        catalogue.setGear(told->value, told->document);
    } else if (const auto model = modelOf(text.bytes); !model) {
        return tl::unexpected(model.error());
    }
    return {};
}

Result<void> readTexts(const Opening& opening, Ground& ground)
{
    for (const Text& text : opening.texts) {
        if (auto added = addText(text, ground.catalogue); !added)
            return added;
    }
    for (const Text& text : opening.texts) {
        if (text.kind != Text::Kind::Procedure)
            continue;
        const auto id = modelOf(text.bytes);
        const auto* model = id ? ground.catalogue.model(*id) : nullptr;
        if (!model)
            return fail(Error::Kind::Malformed, u"a procedure names a model whose text is not there"_s);
        auto procedure = tellOfProcedure(text.bytes, *model, ground.catalogue);
        if (!procedure)
            return tl::unexpected(procedure.error());
        ground.procedures.append(std::move(*procedure));
    }
    return {};
}

/// The lamphouses of every isolation group and projector that a swap touches, in the order of the site.
void layOut(const Opening& opening, Ground& ground)
{
    QSet<LamphouseId> wanted;
    for (const SwapPlan& swap : opening.swaps)
        wanted.insert(swap.lamphouse);
    const auto groups = site::isolationGroups(opening.site);
    for (bool grew = true; grew;) {
        const qsizetype before = wanted.size();
        for (const site::IsolationGroup& group : groups) {
            const auto touches = [&](const LamphouseId& id) { return wanted.contains(id); };
            if (std::any_of(group.lamphouses.begin(), group.lamphouses.end(), touches)) {
                for (const LamphouseId& id : group.lamphouses)
                    wanted.insert(id);
            }
        }
        for (const site::Lamphouse& one : opening.site.lamphouses) {
            for (const site::Lamphouse& other : opening.site.lamphouses) {
                if (wanted.contains(one.id) && one.projector == other.projector)
                    wanted.insert(other.id);
            }
        }
        grew = wanted.size() > before;
    }
    for (const site::Lamphouse& lamphouse : opening.site.lamphouses) {
        if (!wanted.contains(lamphouse.id))
            continue;
        ground.lamphouses.append(lamphouse.id);
        if (!ground.projectors.contains(lamphouse.projector))
            ground.projectors.append(lamphouse.projector);
    }
    for (const site::IsolationGroup& group : groups) {
        if (group.lamphouses.empty() || !wanted.contains(group.lamphouses.front()))
            continue;
        for (const PointId& point : group.points)
            ground.points.append(point);
    }
}

WaitTimes waitsOf(const catalogue::ProjectorModel& model)
{
    return {model.coolFan, model.coolUnforced, model.bleed, model.strikePause, model.settle};
}

void planLamphouse(const Opening& opening, Ground& ground, machine::Index index)
{
    const site::Lamphouse& lamphouse = *opening.site.lamphouse(ground.lamphouses[index]);
    const site::Projector& projector = *opening.site.projector(lamphouse.projector);
    const catalogue::ProjectorModel& model = *ground.catalogue.model(projector.model);
    machine::Plant::Lamphouse& plan = ground.plant.lamphouse[index];
    plan.projector = static_cast<machine::Index>(ground.projectors.indexOf(projector.id));
    plan.hasHousing = model.hasHousing;
    plan.hasDowser = model.hasDowser;
    plan.hasAdaptor = model.adaptor.has_value();
    plan.strikeLimit = static_cast<std::uint8_t>(std::min(model.strikeLimit, 250));
    bool reachedShut = false;
    for (const catalogue::TestPoint& point : model.testPoints) {
        reachedShut = reachedShut || point.cover == catalogue::Cover::None;
        plan.testBehindGuard = plan.testBehindGuard || point.cover == catalogue::Cover::Guard;
    }
    plan.testNeedsHousingOpen = !reachedShut;
    ground.waits.append(waitsOf(model));
    ground.models.append(model.id);
}

void planPoints(const Opening& opening, Ground& ground)
{
    const auto groups = site::isolationGroups(opening.site);
    ground.plant.points = static_cast<std::uint8_t>(ground.points.size());
    for (machine::Index index = 0; index < ground.plant.points; ++index) {
        const site::IsolationPoint& point = *opening.site.point(ground.points[index]);
        machine::Plant::Point& plan = ground.plant.point[index];
        plan.lockable = point.isLockable;
        for (const site::Feed& feed : point.feeds) {
            const machine::Index lamphouse = ground.lamphouse(feed.lamphouse);
            plan.feeds = static_cast<machine::Mask>(plan.feeds | machine::maskOf(lamphouse));
            ground.plant.lamphouse[lamphouse].points =
                static_cast<machine::Mask>(ground.plant.lamphouse[lamphouse].points | machine::maskOf(index));
        }
        for (std::size_t group = 0, mine = 0; group < groups.size(); ++group) {
            if (!ground.points.contains(groups[group].points.empty() ? PointId()
                                                                     : groups[group].points.front()))
                continue;
            if (std::find(groups[group].points.begin(), groups[group].points.end(), point.id) !=
                groups[group].points.end())
                plan.group = static_cast<machine::Index>(mine);
            ++mine;
        }
        for (machine::Index lamphouse = 0; lamphouse < ground.plant.lamphouses; ++lamphouse) {
            if (machine::has(plan.feeds, lamphouse))
                ground.plant.lamphouse[lamphouse].group = plan.group;
        }
    }
}

void planLamp(Ground& ground, const LampFacts& lamp, machine::Index lamphouse)
{
    const catalogue::ProjectorModel& model = ground.model(lamphouse);
    machine::Plant::Lamp& plan = ground.plant.lamp[ground.plant.lamps++];
    plan.lamphouse = lamphouse;
    plan.type = machine::kNone - 1; // a type that nobody knows is none that a controller could name
    if (lamp.type) {
        for (qsizetype index = 0; index < ground.catalogue.lampTypes().size(); ++index) {
            if (ground.catalogue.lampTypes()[index].id == *lamp.type)
                plan.type = static_cast<std::uint8_t>(index);
        }
        plan.needsAdaptor = model.needsAdaptor(*lamp.type);
        plan.accepted = model.takes(*lamp.type);
    }
    ground.lamps.append(lamp);
}

/// What is owed may follow by the procedure of this visit, and its lamp is the one that is in, and known.
bool isTakenUpRight(const SwapPlan& swap, const Opening& opening, const Ground& ground)
{
    const procedure::Procedure& procedure = *ground.procedure(swap.procedure);
    const bool mayFollow = std::ranges::all_of(swap.owed, [&](const OwedPlan& owed) {
        const procedure::Step* step = procedure.step(owed.step);
        return step && step->mayFollow;
    });
    const qsizetype at = opening.fittedIn.indexOf(swap.lamphouse);
    const bool isLampKnown = at >= 0 && at < opening.fitted.size() && opening.fitted[at].type &&
                             std::ranges::all_of(swap.owed, [&](const OwedPlan& owed) {
                                 return owed.lamp.isEmpty() || owed.lamp == opening.fitted[at].id;
                             });
    return !swap.followsUp() || (mayFollow && isLampKnown && swap.newLamp == LampFacts());
}

Result<void> check(const Opening& opening, const Ground& ground)
{
    const auto problems = site::problemsOf(opening.site);
    if (!problems.empty())
        return fail(Error::Kind::Malformed,
                    u"the site does not fit together at %1"_s.arg(problems.front().about));
    if (opening.swaps.isEmpty())
        return fail(Error::Kind::Malformed, u"a visit has at least one swap"_s);
    for (const SwapPlan& swap : opening.swaps) {
        if (!opening.site.lamphouse(swap.lamphouse))
            return fail(Error::Kind::Malformed, u"swap %1: unknown lamphouse"_s.arg(swap.id.text()));
        if (!ground.procedure(swap.procedure))
            return fail(Error::Kind::Malformed, u"swap %1: no procedure text"_s.arg(swap.id.text()));
        if (!isTakenUpRight(swap, opening, ground))
            return fail(Error::Kind::Malformed, u"swap %1: owes what it cannot"_s.arg(swap.id.text()));
    }
    for (const LamphouseId& id : ground.lamphouses) {
        const site::Projector* projector = opening.site.projector(opening.site.lamphouse(id)->projector);
        if (!ground.catalogue.model(projector->model))
            return fail(Error::Kind::Malformed, u"no text for model %1"_s.arg(projector->model.text()));
    }
    if (opening.fitted.size() != opening.fittedIn.size())
        return fail(Error::Kind::Malformed, u"fitted lamps and lamphouses do not pair"_s);
    return {};
}

bool isTooLarge(const Opening& opening, const Ground& ground)
{
    const auto brought = std::ranges::count_if(opening.swaps, std::not_fn(&SwapPlan::followsUp));
    return ground.lamphouses.size() > machine::kMostLamphouses ||
           ground.points.size() > machine::kMostPoints || opening.people.size() > machine::kMostPeople ||
           ground.lamphouses.size() + brought > machine::kMostLamps;
}

template<class List, class Value>
machine::Index indexIn(const List& list, const Value& value)
{
    const qsizetype index = list.indexOf(value);
    return index < 0 ? machine::kNone : static_cast<machine::Index>(index);
}

} // namespace

QList<StepId> SwapPlan::owedSteps() const
{
    QList<StepId> steps;
    for (const OwedPlan& one : owed)
        steps.append(one.step);
    return steps;
}

machine::Index Ground::lamphouse(const LamphouseId& id) const
{
    return indexIn(lamphouses, id);
}

machine::Index Ground::point(const PointId& id) const
{
    return indexIn(points, id);
}

machine::Index Ground::lamp(const LampId& id) const
{
    for (qsizetype index = 0; index < lamps.size(); ++index) {
        if (lamps[index].id == id)
            return static_cast<machine::Index>(index);
    }
    return machine::kNone;
}

const catalogue::ProjectorModel& Ground::model(machine::Index lamphouse) const
{
    return *catalogue.model(models[lamphouse]);
}

const procedure::Procedure* Ground::procedure(const ProcedureId& id) const
{
    for (const procedure::Procedure& one : procedures) {
        if (one.id == id)
            return &one;
    }
    return nullptr;
}

machine::Index Ground::pointOfRole(machine::Index index, const catalogue::RoleId& role) const
{
    for (const PointId& id : points) {
        for (const site::Feed& feed : opening.site.point(id)->feeds) {
            if (feed.lamphouse == lamphouses[index] && feed.role == role)
                return point(id);
        }
    }
    return machine::kNone;
}

Result<std::shared_ptr<const Ground>> groundOf(const Opening& opening)
{
    auto ground = std::make_shared<Ground>();
    ground->opening = opening;
    if (auto read = readTexts(opening, *ground); !read)
        return tl::unexpected(read.error());
    layOut(opening, *ground);
    if (auto fits = check(opening, *ground); !fits)
        return tl::unexpected(fits.error());
    if (isTooLarge(opening, *ground))
        return fail(Error::Kind::Malformed, u"more than one visit can hold"_s);

    ground->plant.lamphouses = static_cast<std::uint8_t>(ground->lamphouses.size());
    for (machine::Index index = 0; index < ground->plant.lamphouses; ++index)
        planLamphouse(opening, *ground, index);
    planPoints(opening, *ground);
    for (machine::Index index = 0; index < ground->plant.lamphouses; ++index) {
        const qsizetype at = opening.fittedIn.indexOf(ground->lamphouses[index]);
        const LampFacts unknown{LampId(u"found in "_s + ground->lamphouses[index].text()), {}, {}, {}};
        planLamp(*ground, at < 0 ? unknown : opening.fitted[at], index);
    }
    for (const SwapPlan& swap : opening.swaps) {
        const machine::Index lamphouse = ground->lamphouse(swap.lamphouse);
        if (swap.followsUp())
            ground->plant.lamphouse[lamphouse].settlesFromFind = true;
        else
            planLamp(*ground, swap.newLamp, lamphouse);
    }
    return std::shared_ptr<const Ground>(std::move(ground));
}

QJsonObject toJson(const PersonFacts& person)
{
    const auto role = people::wordOf(person.role);
    return {{u"id"_s, person.id.text()},
            {u"name"_s, person.name},
            {u"role"_s, QString::fromLatin1(role.data(), static_cast<qsizetype>(role.size()))},
            {u"may_lead"_s, person.mayLead},
            {u"may_assist"_s, person.mayAssist},
            {u"may_prove"_s, person.mayProve},
            {u"may_supervise"_s, person.maySupervise},
            {u"removal_to_tell"_s, person.hasRemovalToTell},
            {u"unfit_gear"_s, QJsonArray::fromStringList(person.unfitGear)}};
}

PersonFacts personFactsFrom(const QJsonObject& object, const QString& place, QStringList& complaints)
{
    JsonReader reader(object, place, complaints);
    PersonFacts person;
    person.id = PersonId(reader.text(u"id"_s));
    person.name = reader.text(u"name"_s);
    const auto role = people::roleFromWord(reader.text(u"role"_s).toStdString());
    if (!role)
        reader.complain(u"role"_s, u"is not a role"_s);
    person.role = role.value_or(people::Role::Trainee);
    person.mayLead = reader.flag(u"may_lead"_s);
    person.mayAssist = reader.flag(u"may_assist"_s);
    person.mayProve = reader.flag(u"may_prove"_s);
    person.maySupervise = reader.flag(u"may_supervise"_s);
    person.hasRemovalToTell = reader.flagOr(u"removal_to_tell"_s, false);
    person.unfitGear = reader.textsOr(u"unfit_gear"_s, {});
    reader.finish();
    return person;
}

QJsonObject toJson(const Opening& opening)
{
    QJsonArray people;
    for (const PersonFacts& person : opening.people)
        people.append(toJson(person));
    QJsonArray swaps;
    for (const SwapPlan& swap : opening.swaps)
        swaps.append(toJson(swap));
    QJsonArray fitted;
    for (qsizetype index = 0; index < opening.fitted.size(); ++index) {
        fitted.append(QJsonObject{{u"lamphouse"_s, opening.fittedIn[index].text()},
                                  {u"lamp"_s, toJson(opening.fitted[index])}});
    }
    QJsonArray texts;
    for (const Text& text : opening.texts) {
        texts.append(QJsonObject{{u"kind"_s, QLatin1String(kTextKinds[static_cast<std::size_t>(text.kind)])},
                                 {u"text"_s, QString::fromUtf8(text.bytes)},
                                 {u"sha256"_s, sha256(text.bytes).hex()}});
    }
    return {{u"visit"_s, opening.visit.text()},
            {u"reason"_s, opening.reason},
            {u"site"_s, site::toJson(opening.site)},
            {u"people"_s, people},
            {u"swaps"_s, swaps},
            {u"fitted"_s, fitted},
            {u"texts"_s, texts},
            {u"weekly_h"_s, opening.weeklyHours}};
}

Result<Opening> openingFrom(const QJsonObject& object)
{
    QStringList complaints;
    JsonReader reader(object, u"what"_s, complaints);
    Opening opening;
    opening.visit = VisitId(reader.text(u"visit"_s));
    opening.reason = reader.textOr(u"reason"_s, {});
    const auto site = site::siteFromJson(reader.child(u"site"_s).object);
    if (!site)
        return tl::unexpected(site.error());
    opening.site = *site;
    for (const JsonReader::Child& child : reader.children(u"people"_s))
        opening.people.append(personFactsFrom(child.object, child.place, complaints));
    for (const JsonReader::Child& child : reader.children(u"swaps"_s))
        opening.swaps.append(swapFrom(child, complaints));
    for (const JsonReader::Child& child : reader.childrenOr(u"fitted"_s)) {
        JsonReader fitted(child.object, child.place, complaints);
        opening.fittedIn.append(LamphouseId(fitted.text(u"lamphouse"_s)));
        opening.fitted.append(lampFrom(fitted.child(u"lamp"_s), complaints));
        fitted.finish();
    }
    for (const JsonReader::Child& child : reader.children(u"texts"_s))
        opening.texts.append(textFrom(child, complaints));
    opening.weeklyHours = reader.numberOr(u"weekly_h"_s, 0, 168, 0);
    reader.finish();
    if (!complaints.isEmpty())
        return fail(Error::Kind::Malformed, complaints.join(u"; "_s));
    return opening;
}

} // namespace coldarc::visit
