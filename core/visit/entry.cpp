#include "core/visit/entry.h"

#include "core/base/json.h"
#include "core/base/words.h"
#include "core/visit/entry_words.h"

#include <QJsonDocument>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

constexpr int kFormat = 1;

// ---- Writing
// ---------------------------------------------------------------------------------------------------

template<class Tag>
void put(QJsonObject& object, const QString& key, const Id<Tag>& id)
{
    if (!id.isEmpty())
        object.insert(key, id.text());
}

void put(QJsonObject& object, const QString& key, const QString& text)
{
    if (!text.isEmpty())
        object.insert(key, text);
}

void put(QJsonObject& object, const QString& key, const QStringList& list)
{
    if (!list.isEmpty())
        object.insert(key, QJsonArray::fromStringList(list));
}

void put(QJsonObject& object, const QString& key, bool flag)
{
    if (flag)
        object.insert(key, true);
}

void put(QJsonObject& object, const QString& key, const QJsonObject& child)
{
    if (!child.isEmpty())
        object.insert(key, child);
}

void put(QJsonObject& object, const QString& key, const std::optional<Hash>& hash)
{
    if (hash)
        object.insert(key, hash->hex());
}

template<class IdType>
QStringList textsOf(const QList<IdType>& ids)
{
    QStringList texts;
    for (const IdType& id : ids)
        texts.append(id.text());
    return texts;
}

QJsonObject toJson(const KnobTurns& knobs)
{
    QJsonObject object;
    for (auto knob = knobs.begin(); knob != knobs.end(); ++knob)
        object.insert(knob.key(), knob.value());
    return object;
}

QJsonObject toJson(const machine::Seen& seen, const ActRecord& act)
{
    QJsonObject object;
    put(object, u"lit"_s, seen.lit);
    put(object, u"fan_runs"_s, seen.fanRuns);
    object.insert(u"drive"_s, wordOf(seen.drive));
    put(object, u"extraction"_s, seen.extraction);
    put(object, u"points_off"_s, textsOf(act.pointsOff));
    put(object, u"points_held"_s, textsOf(act.held));
    put(object, u"housing_open"_s, seen.housingOpen);
    put(object, u"guard_open"_s, seen.guardOpen);
    put(object, u"dowser_open"_s, seen.dowserOpen);
    object.insert(u"seat"_s, wordOf(seen.seat));
    put(object, u"adaptor_on"_s, seen.adaptorOn);
    object.insert(u"life"_s, wordOf(seen.life));
    return object;
}

QJsonObject toJson(const ActRecord& act)
{
    QJsonObject object;
    object.insert(u"effect"_s, wordText(machine::wordOf(act.effect)));
    if (act.outcome != machine::Outcome::Plain)
        object.insert(u"outcome"_s, wordOf(act.outcome));
    put(object, u"person"_s, act.person);
    put(object, u"lamphouse"_s, act.lamphouse);
    put(object, u"point"_s, act.point);
    put(object, u"lamp"_s, act.lamp);
    put(object, u"moved"_s, act.moved);
    put(object, u"supply_seen"_s, act.supplySeen);
    put(object, u"tester_proved"_s, act.testerProved);
    put(object, u"behind_guard"_s, act.behindGuard);
    put(object, u"custody_decided"_s, act.custodyDecided);
    put(object, u"answered"_s, act.answered);
    if (act.seen)
        object.insert(u"seen"_s, toJson(*act.seen, act));
    return object;
}

struct Write {
    QJsonObject object;

    void operator()(const Opening& b) { object = toJson(b); }
    void operator()(const Joined& b) { object.insert(u"person"_s, toJson(b.person)); }
    void operator()(const Did& b)
    {
        put(object, u"swap"_s, b.swap);
        put(object, u"step"_s, b.step);
        if (b.act)
            object.insert(u"act"_s, toJson(*b.act));
        put(object, u"answers"_s, b.answers);
        put(object, u"gates_waiting"_s, b.gatesWaiting);
        put(object, u"countersigned_by"_s, b.countersignedBy);
        put(object, u"reason"_s, b.reason);
        put(object, u"reopened"_s, b.reopened);
        put(object, u"doubts"_s, b.doubts);
        put(object, u"doubts_answer"_s, b.doubtsAnswer);
        put(object, u"on_one_typing"_s, b.onOneTyping);
    }
    void operator()(const Acted& b)
    {
        object.insert(u"act"_s, toJson(b.act));
        put(object, u"answers"_s, b.answers);
        put(object, u"gates_waiting"_s, b.gatesWaiting);
        put(object, u"countersigned_by"_s, b.countersignedBy);
    }
    void operator()(const Happened& b)
    {
        object.insert(u"incident"_s, wordOf(b.incident));
        put(object, u"swap"_s, b.swap);
        put(object, u"lamphouse"_s, b.lamphouse);
        put(object, u"point"_s, b.point);
        put(object, u"lamp"_s, b.lamp);
        put(object, u"person"_s, b.person);
        put(object, u"text"_s, b.text);
        put(object, u"went_out"_s, textsOf(b.wentOut));
    }
    void operator()(const IncidentAnswered& b)
    {
        object.insert(u"incident"_s, b.incident);
        put(object, u"text"_s, b.text);
        put(object, u"countersigned_by"_s, b.countersignedBy);
    }
    void operator()(const LampRead& b)
    {
        put(object, u"lamp"_s, b.lamp);
        object.insert(u"source"_s, wordOf(b.reading.source));
        object.insert(u"means"_s, wordOf(b.reading.means));
        put(object, u"type"_s, b.reading.type);
        put(object, u"serial"_s, b.reading.serial);
        put(object, u"scanned"_s, b.scanned);
        put(object, u"picture"_s, b.picture);
        put(object, u"also_elsewhere"_s, b.isAlsoElsewhere);
    }
    void operator()(const SerialPassed& b)
    {
        put(object, u"lamp"_s, b.lamp);
        object.insert(u"source"_s, wordOf(b.pass.source));
        put(object, u"read"_s, b.pass.read);
        put(object, u"entry"_s, b.pass.entry);
        put(object, u"picture"_s, b.pass.evidence == label::SerialPass::Evidence::Picture);
        object.insert(u"typed_from"_s, wordOf(b.pass.typedFrom));
        put(object, u"typed_again"_s, b.pass.typedAgain);
        put(object, u"reason"_s, b.pass.reason);
        put(object, u"evidence"_s, b.picture);
    }
    void operator()(const LightRead& b)
    {
        put(object, u"swap"_s, b.swap);
        put(object, u"step"_s, b.step);
        put(object, u"axis"_s, b.axis);
        if (b.turns)
            object.insert(u"turns"_s, *b.turns);
        object.insert(u"value"_s, b.value);
        put(object, u"others"_s, toJson(b.others));
        if (b.replaces >= 0)
            object.insert(u"replaces"_s, b.replaces);
    }
    void operator()(const LightSet& b)
    {
        put(object, u"swap"_s, b.swap);
        put(object, u"step"_s, b.step);
        object.insert(u"knobs"_s, toJson(b.knobs));
    }
    void operator()(const ScreenRead& b) { object = visit::toJson(b); }
    void operator()(const ScreenConditions& b) { object = visit::toJson(b); }
    void operator()(const ScreenLimits& b) { object = visit::toJson(b); }
    void operator()(const FanAnswered& b)
    {
        put(object, u"lamphouse"_s, b.lamphouse);
        object.insert(u"ran_on"_s, b.ranOn);
        put(object, u"countersigned_by"_s, b.countersignedBy);
    }
    void operator()(const LocksSeen& b)
    {
        put(object, u"lamphouse"_s, b.lamphouse);
        object.insert(u"as_before"_s, b.asBefore);
        put(object, u"countersigned_by"_s, b.countersignedBy);
    }
    void operator()(const Owed& b)
    {
        put(object, u"swap"_s, b.swap);
        put(object, u"step"_s, b.step);
    }
    void operator()(const Withdrawn& b)
    {
        object.insert(u"entry"_s, b.entry);
        put(object, u"reason"_s, b.reason);
        put(object, u"countersigned_by"_s, b.countersignedBy);
    }
    void operator()(const Noted& b)
    {
        put(object, u"swap"_s, b.swap);
        put(object, u"text"_s, b.text);
    }
    void operator()(const PictureKept& b)
    {
        put(object, u"swap"_s, b.swap);
        put(object, u"step"_s, b.step);
        put(object, u"capture"_s, b.capture);
        object.insert(u"picture"_s, b.picture.hex());
    }
    void operator()(const Resumed&) {}
    void operator()(const SafeBegun& b) { put(object, u"reason"_s, b.reason); }
    void operator()(const PassedOn& b)
    {
        put(object, u"from"_s, b.from);
        put(object, u"to"_s, b.to);
    }
    void operator()(const LockRemoved& b)
    {
        put(object, u"owner"_s, b.owner);
        put(object, u"lamphouse"_s, b.lamphouse);
        put(object, u"supervisor"_s, b.supervisor);
        put(object, u"absence"_s, b.absence);
        put(object, u"attempts"_s, b.attempts);
    }
    void operator()(const RemovalTold&) {}
    void operator()(const Left& b) { put(object, u"person"_s, b.person); }
    void operator()(const CustodyDecided& b)
    {
        put(object, u"lamp"_s, b.lamp);
        put(object, u"custody"_s, b.custody);
    }
    void operator()(const Signed& b) { put(object, u"meaning"_s, b.meaning); }
    void operator()(const SiteSigned& b)
    {
        put(object, u"name"_s, b.name);
        put(object, u"role"_s, b.role);
        put(object, u"slip"_s, b.slip);
    }
    void operator()(const Closed& b) { put(object, u"end"_s, b.end); }
    void operator()(const Addendum& b) { put(object, u"text"_s, b.text); }
    void operator()(const Unknown&)
    {
        Q_ASSERT_X(false, "bytesOf", "an entry of an unknown kind is never written");
    }
};

// ---- Reading
// ---------------------------------------------------------------------------------------------------

template<class IdType>
IdType id(JsonReader& reader, const QString& key)
{
    return IdType(reader.text(key));
}

template<class IdType>
IdType idOr(JsonReader& reader, const QString& key)
{
    return IdType(reader.textOr(key, {}));
}

template<class Value>
Value word(JsonReader& reader, const QString& key, std::optional<Value> (*from)(const QString&),
           Value otherwise)
{
    const QString text = reader.text(key);
    const auto value = from(text);
    if (!value)
        reader.complain(key, u"is not a word that this program knows"_s);
    return value.value_or(otherwise);
}

QJsonObject objectOr(JsonReader& reader, const QString& key)
{
    const auto child = reader.childOr(key);
    return child ? child->object : QJsonObject();
}

Hash hash(JsonReader& reader, const QString& key)
{
    const auto value = Hash::fromHex(reader.text(key));
    if (!value)
        reader.complain(key, u"must be 64 hexadecimal digits"_s);
    return value.value_or(Hash());
}

std::optional<Hash> hashOr(JsonReader& reader, const QString& key)
{
    return reader.has(key) ? std::optional(hash(reader, key)) : std::nullopt;
}

machine::Seen readSeen(JsonReader reader, ActRecord& act)
{
    machine::Seen seen;
    seen.lit = reader.flagOr(u"lit"_s, false);
    seen.fanRuns = reader.flagOr(u"fan_runs"_s, false);
    seen.drive = word(reader, u"drive"_s, driveFromWord, machine::Drive::On);
    seen.extraction = reader.flagOr(u"extraction"_s, false);
    for (const QString& point : reader.textsOr(u"points_off"_s, {}))
        act.pointsOff.append(PointId(point));
    for (const QString& point : reader.textsOr(u"points_held"_s, {}))
        act.held.append(PointId(point));
    seen.housingOpen = reader.flagOr(u"housing_open"_s, false);
    seen.guardOpen = reader.flagOr(u"guard_open"_s, false);
    seen.dowserOpen = reader.flagOr(u"dowser_open"_s, false);
    seen.seat = word(reader, u"seat"_s, seatFromWord, machine::Seat::Empty);
    seen.adaptorOn = reader.flagOr(u"adaptor_on"_s, false);
    seen.life = word(reader, u"life"_s, lifeFromWord, machine::Life::PastEnd);
    reader.finish();
    return seen;
}

ActRecord readAct(const JsonReader::Child& child, QStringList& complaints)
{
    JsonReader reader(child.object, child.place, complaints);
    ActRecord act;
    const auto effect = machine::effectFromWord(reader.text(u"effect"_s).toStdString());
    if (!effect)
        reader.complain(u"effect"_s, u"is not an effect"_s);
    act.effect = effect.value_or(machine::Effect::Look);
    if (reader.has(u"outcome"_s))
        act.outcome = word(reader, u"outcome"_s, outcomeFromWord, machine::Outcome::Plain);
    act.person = idOr<PersonId>(reader, u"person"_s);
    act.lamphouse = idOr<LamphouseId>(reader, u"lamphouse"_s);
    act.point = idOr<PointId>(reader, u"point"_s);
    act.lamp = idOr<LampId>(reader, u"lamp"_s);
    act.moved = idOr<PointId>(reader, u"moved"_s);
    act.supplySeen = reader.flagOr(u"supply_seen"_s, false);
    act.testerProved = reader.flagOr(u"tester_proved"_s, false);
    act.behindGuard = reader.flagOr(u"behind_guard"_s, false);
    act.custodyDecided = reader.flagOr(u"custody_decided"_s, false);
    act.answered = reader.flagOr(u"answered"_s, false);
    if (const auto seen = reader.childOr(u"seen"_s))
        act.seen = readSeen(JsonReader(seen->object, seen->place, complaints), act);
    reader.finish();
    return act;
}

using ReadBody = Body (*)(JsonReader&, QStringList&);

Body readDid(JsonReader& r, QStringList& complaints)
{
    Did b;
    b.swap = id<SwapId>(r, u"swap"_s);
    b.step = id<StepId>(r, u"step"_s);
    if (const auto act = r.childOr(u"act"_s))
        b.act = readAct(*act, complaints);
    b.answers = objectOr(r, u"answers"_s);
    b.gatesWaiting = r.textsOr(u"gates_waiting"_s, {});
    b.countersignedBy = idOr<PersonId>(r, u"countersigned_by"_s);
    b.reason = r.textOr(u"reason"_s, {});
    b.reopened = r.textsOr(u"reopened"_s, {});
    b.doubts = r.textsOr(u"doubts"_s, {});
    b.doubtsAnswer = r.textOr(u"doubts_answer"_s, {});
    b.onOneTyping = r.flagOr(u"on_one_typing"_s, false);
    return b;
}

Body readActed(JsonReader& r, QStringList& complaints)
{
    Acted b;
    b.act = readAct(r.child(u"act"_s), complaints);
    b.answers = objectOr(r, u"answers"_s);
    b.gatesWaiting = r.textsOr(u"gates_waiting"_s, {});
    b.countersignedBy = idOr<PersonId>(r, u"countersigned_by"_s);
    return b;
}

Body readHappened(JsonReader& r, QStringList&)
{
    Happened b;
    b.incident = word(r, u"incident"_s, incidentFromWord, Incident::NoTimeLeft);
    b.swap = idOr<SwapId>(r, u"swap"_s);
    b.lamphouse = idOr<LamphouseId>(r, u"lamphouse"_s);
    b.point = idOr<PointId>(r, u"point"_s);
    b.lamp = idOr<LampId>(r, u"lamp"_s);
    b.person = idOr<PersonId>(r, u"person"_s);
    b.text = r.textOr(u"text"_s, {});
    for (const QString& lamphouse : r.textsOr(u"went_out"_s, {}))
        b.wentOut.append(LamphouseId(lamphouse));
    return b;
}

Body readLampRead(JsonReader& r, QStringList&)
{
    LampRead b;
    b.lamp = id<LampId>(r, u"lamp"_s);
    b.reading.source = word(r, u"source"_s, sourceFromWord, label::Source::Entry);
    b.reading.means = word(r, u"means"_s, meansFromWord, label::Means::Typed);
    b.reading.type = r.textOr(u"type"_s, {});
    b.reading.serial = r.textOr(u"serial"_s, {});
    b.scanned = r.textsOr(u"scanned"_s, {});
    b.picture = hashOr(r, u"picture"_s);
    b.isAlsoElsewhere = r.flagOr(u"also_elsewhere"_s, false);
    return b;
}

Body readSerialPassed(JsonReader& r, QStringList&)
{
    SerialPassed b;
    b.lamp = id<LampId>(r, u"lamp"_s);
    b.pass.source = word(r, u"source"_s, sourceFromWord, label::Source::Box);
    b.pass.read = r.textOr(u"read"_s, {});
    b.pass.entry = r.textOr(u"entry"_s, {});
    b.pass.evidence = r.flagOr(u"picture"_s, false) ? label::SerialPass::Evidence::Picture
                                                    : label::SerialPass::Evidence::TypedAgain;
    b.pass.typedFrom = word(r, u"typed_from"_s, sourceFromWord, label::Source::Entry);
    b.pass.typedAgain = r.textOr(u"typed_again"_s, {});
    b.pass.reason = r.text(u"reason"_s);
    b.picture = hashOr(r, u"evidence"_s);
    return b;
}

constexpr qint64 kMostEntries = 1'000'000'000;

KnobTurns readKnobs(JsonReader& r, const QString& key, QStringList& complaints)
{
    KnobTurns knobs;
    const auto child = r.child(key);
    JsonReader reader(child.object, child.place, complaints);
    for (const QString& axis : child.object.keys())
        knobs.insert(axis, reader.number(axis, -kMostTurns, kMostTurns));
    reader.finish();
    return knobs;
}

Body readLightRead(JsonReader& r, QStringList& complaints)
{
    LightRead b;
    b.swap = id<SwapId>(r, u"swap"_s);
    b.step = id<StepId>(r, u"step"_s);
    b.axis = r.textOr(u"axis"_s, {});
    if (r.has(u"turns"_s))
        b.turns = r.number(u"turns"_s, -kMostTurns, kMostTurns);
    b.value = r.number(u"value"_s, 0, kMostReading);
    if (r.has(u"others"_s))
        b.others = readKnobs(r, u"others"_s, complaints);
    b.replaces = r.wholeOr(u"replaces"_s, 0, kMostEntries, -1);
    return b;
}

Body readLightSet(JsonReader& r, QStringList& complaints)
{
    LightSet b;
    b.swap = id<SwapId>(r, u"swap"_s);
    b.step = id<StepId>(r, u"step"_s);
    b.knobs = readKnobs(r, u"knobs"_s, complaints);
    return b;
}

Body readLockRemoved(JsonReader& r, QStringList&)
{
    LockRemoved b;
    b.owner = id<PersonId>(r, u"owner"_s);
    b.lamphouse = id<LamphouseId>(r, u"lamphouse"_s);
    b.supervisor = id<PersonId>(r, u"supervisor"_s);
    b.absence = r.text(u"absence"_s);
    b.attempts = r.text(u"attempts"_s);
    return b;
}

Body readSiteSigned(JsonReader& r, QStringList&)
{
    SiteSigned b;
    b.name = r.text(u"name"_s);
    b.role = r.textOr(u"role"_s, {});
    b.slip = hashOr(r, u"slip"_s);
    return b;
}

const QHash<QString, ReadBody>& readers()
{
    static const QHash<QString, ReadBody> kReaders{
        {u"joined"_s,
         [](JsonReader& r, QStringList& complaints) -> Body {
             const auto child = r.child(u"person"_s);
             return Joined{personFactsFrom(child.object, child.place, complaints)};
         }},
        {u"did"_s, readDid},
        {u"acted"_s, readActed},
        {u"happened"_s, readHappened},
        {u"incident-answered"_s,
         [](JsonReader& r, QStringList&) -> Body {
             return IncidentAnswered{r.whole(u"incident"_s, 0, kMostEntries), r.textOr(u"text"_s, {}),
                                     idOr<PersonId>(r, u"countersigned_by"_s)};
         }},
        {u"lamp-read"_s, readLampRead},
        {u"serial-passed"_s, readSerialPassed},
        {u"light-read"_s, readLightRead},
        {u"light-set"_s, readLightSet},
        {u"screen-read"_s,
         [](JsonReader& r, QStringList& complaints) -> Body { return screenReadFrom(r, complaints); }},
        {u"screen-conditions"_s,
         [](JsonReader& r, QStringList& complaints) -> Body { return screenConditionsFrom(r, complaints); }},
        {u"screen-limits"_s,
         [](JsonReader& r, QStringList& complaints) -> Body { return screenLimitsFrom(r, complaints); }},
        {u"fan-answered"_s,
         [](JsonReader& r, QStringList&) -> Body {
             return FanAnswered{id<LamphouseId>(r, u"lamphouse"_s), r.flag(u"ran_on"_s),
                                idOr<PersonId>(r, u"countersigned_by"_s)};
         }},
        {u"locks-seen"_s,
         [](JsonReader& r, QStringList&) -> Body {
             return LocksSeen{id<LamphouseId>(r, u"lamphouse"_s), r.flag(u"as_before"_s),
                              idOr<PersonId>(r, u"countersigned_by"_s)};
         }},
        {u"owed"_s,
         [](JsonReader& r, QStringList&) -> Body {
             return Owed{id<SwapId>(r, u"swap"_s), id<StepId>(r, u"step"_s)};
         }},
        {u"withdrawn"_s,
         [](JsonReader& r, QStringList&) -> Body {
             return Withdrawn{r.whole(u"entry"_s, 0, kMostEntries), r.text(u"reason"_s),
                              idOr<PersonId>(r, u"countersigned_by"_s)};
         }},
        {u"noted"_s,
         [](JsonReader& r, QStringList&) -> Body {
             return Noted{idOr<SwapId>(r, u"swap"_s), r.text(u"text"_s)};
         }},
        {u"picture-kept"_s,
         [](JsonReader& r, QStringList&) -> Body {
             return PictureKept{idOr<SwapId>(r, u"swap"_s), idOr<StepId>(r, u"step"_s),
                                r.textOr(u"capture"_s, {}), hash(r, u"picture"_s)};
         }},
        {u"resumed"_s, [](JsonReader&, QStringList&) -> Body { return Resumed{}; }},
        {u"safe-begun"_s,
         [](JsonReader& r, QStringList&) -> Body { return SafeBegun{r.textOr(u"reason"_s, {})}; }},
        {u"passed-on"_s,
         [](JsonReader& r, QStringList&) -> Body {
             return PassedOn{id<PersonId>(r, u"from"_s), id<PersonId>(r, u"to"_s)};
         }},
        {u"lock-removed"_s, readLockRemoved},
        {u"removal-told"_s, [](JsonReader&, QStringList&) -> Body { return RemovalTold{}; }},
        {u"left"_s, [](JsonReader& r, QStringList&) -> Body { return Left{id<PersonId>(r, u"person"_s)}; }},
        {u"custody-decided"_s,
         [](JsonReader& r, QStringList&) -> Body {
             return CustodyDecided{id<LampId>(r, u"lamp"_s), r.text(u"custody"_s)};
         }},
        {u"signed"_s, [](JsonReader& r, QStringList&) -> Body { return Signed{r.text(u"meaning"_s)}; }},
        {u"site-signed"_s, readSiteSigned},
        {u"closed"_s, [](JsonReader& r, QStringList&) -> Body { return Closed{r.text(u"end"_s)}; }},
        {u"addendum"_s, [](JsonReader& r, QStringList&) -> Body { return Addendum{r.text(u"text"_s)}; }},
    };
    return kReaders;
}

} // namespace

QString kindOf(const Body& body)
{
    static constexpr std::array<const char*, std::variant_size_v<Body>> kKinds{
        "opened",        "joined",          "did",        "acted",       "happened",     "incident-answered",
        "lamp-read",     "serial-passed",   "light-read", "light-set",   "screen-read",  "screen-conditions",
        "screen-limits", "fan-answered",    "locks-seen", "owed",        "withdrawn",    "noted",
        "picture-kept",  "resumed",         "safe-begun", "passed-on",   "lock-removed", "removal-told",
        "left",          "custody-decided", "signed",     "site-signed", "closed",       "addendum",
        "unknown"};
    return QString::fromLatin1(kKinds[body.index()]);
}

QByteArray bytesOf(const Entry& entry)
{
    Write write;
    std::visit(write, entry.body);
    QJsonObject object{{u"format"_s, kFormat},
                       {u"kind"_s, kindOf(entry.body)},
                       {u"at"_s, coldarc::toJson(entry.at)},
                       {u"by"_s, entry.by.text()}};
    if (!write.object.isEmpty())
        object.insert(u"what"_s, write.object);
    return QJsonDocument(object).toJson(QJsonDocument::Compact);
}

Result<Entry> entryFrom(const QByteArray& bytes)
{
    const auto object = parseObject(bytes);
    if (!object)
        return tl::unexpected(object.error());
    QStringList complaints;
    JsonReader reader(*object, {}, complaints);
    reader.whole(u"format"_s, kFormat, kFormat);
    Entry entry;
    const QString kind = reader.text(u"kind"_s);
    const auto at = reader.child(u"at"_s);
    JsonReader stamp(at.object, at.place, complaints);
    entry.at = readStamp(stamp);
    stamp.finish();
    entry.by = PersonId(reader.textOr(u"by"_s, {}));
    const QJsonObject what = objectOr(reader, u"what"_s);
    if (kind == u"opened"_s) {
        auto opening = openingFrom(what);
        if (!opening)
            return tl::unexpected(opening.error());
        entry.body = std::move(*opening);
    } else if (const ReadBody read = readers().value(kind)) {
        JsonReader body(what, u"what"_s, complaints);
        entry.body = read(body, complaints);
        body.finish();
    } else {
        entry.body = Unknown{kind};
    }
    reader.finish();
    if (!complaints.isEmpty())
        return fail(Error::Kind::Malformed, complaints.join(u"; "_s));
    return entry;
}

QList<Hash> picturesOf(const Entry& entry)
{
    std::optional<Hash> picture;
    if (const auto* read = std::get_if<LampRead>(&entry.body))
        picture = read->picture;
    else if (const auto* passed = std::get_if<SerialPassed>(&entry.body))
        picture = passed->picture;
    else if (const auto* kept = std::get_if<PictureKept>(&entry.body))
        picture = kept->picture;
    else if (const auto* site = std::get_if<SiteSigned>(&entry.body))
        picture = site->slip;
    return picture ? QList<Hash>{*picture} : QList<Hash>();
}

PersonId countersignerOf(const Entry& entry)
{
    return std::visit(
        [](const auto& body) {
            if constexpr (requires { body.countersignedBy; })
                return body.countersignedBy;
            else
                return PersonId();
        },
        entry.body);
}

} // namespace coldarc::visit
