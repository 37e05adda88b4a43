#include "core/procedure/procedure_file.h"

#include "core/base/json.h"
#include "core/procedure/capture_rule.h"
#include "core/procedure/proof.h"
#include "core/procedure/words.h"

#include <QDir>
#include <QFile>
#include <QRegularExpression>
#include <QSet>

#include <algorithm>
#include <array>
#include <map>
#include <vector>

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using catalogue::FileRemark;
using catalogue::oneOf;
using catalogue::ProjectorModel;
using catalogue::Reading;
using catalogue::valueIn;
using machine::Effect;

constexpr qint64 kMostMinutes = 240;
constexpr qsizetype kFewestAnswers = 5;
constexpr qsizetype kMostAnswers = 9;
constexpr qsizetype kAnswersAtTheGuard = 4;

/// Whether an effect needs a key of its step, may have it, or has no use for it.
enum class Use {
    Never,
    May,
    Must,
};

Use usesPoint(Effect effect)
{
    switch (effect) {
    case Effect::Isolate:
    case Effect::Restore:
    case Effect::JobLockOff:
        return Use::Must;
    case Effect::LockOn:
        return Use::May;
    default:
        return Use::Never;
    }
}

Use usesTestPoint(Effect effect)
{
    return effect == Effect::ProveAbsence ? Use::Must : Use::Never;
}

Use usesLamp(Effect effect)
{
    switch (effect) {
    case Effect::LampOut:
    case Effect::Unbox:
    case Effect::LampIn:
    case Effect::ClampLamp:
    case Effect::BoxLamp:
    case Effect::AdaptorOff:
    case Effect::AdaptorOn:
    case Effect::MatchBox:
        return Use::Must;
    case Effect::Look:
        return Use::May;
    default:
        return Use::Never;
    }
}

Use usesAxis(Effect effect)
{
    if (effect == Effect::Peak)
        return Use::Must;
    return effect == Effect::PeakAgain ? Use::May : Use::Never;
}

bool mayConcernTheOther(Effect effect)
{
    constexpr std::array kEffects{Effect::Look,          Effect::Find,   Effect::LampOff,
                                  Effect::KeyController, Effect::Strike, Effect::DowserShut,
                                  Effect::DowserOpen};
    return std::ranges::find(kEffects, effect) != kEffects.end();
}

bool mayBeOwed(const Step& step)
{
    constexpr std::array kEffects{Effect::Peak, Effect::Settle, Effect::PeakAgain, Effect::MeasureScreen};
    const bool measuring = step.phase == Phase::Light || step.phase == Phase::Prove;
    return std::ranges::find(kEffects, step.effect) != kEffects.end() ||
           (step.effect == Effect::Look && measuring && !step.stop);
}

/// The word under a key that must be there, by its table; the first value of the table after a complaint.
template<class Value, std::size_t Count>
Value wordFrom(JsonReader& reader, const QString& key, const Words<Value, Count>& words)
{
    const auto value = valueIn(words, reader.text(key));
    if (!value)
        reader.complain(key, oneOf(words));
    return value.value_or(words.front().first);
}

/// A name under a key that the effect needs, may have or has no use for. Nothing if it is not there.
std::optional<QString> nameFrom(JsonReader& reader, const QString& key, Use use)
{
    if (use == Use::Never) {
        if (reader.has(key)) {
            reader.text(key);
            reader.complain(key, u"this effect has no use for it"_s);
        }
        return std::nullopt;
    }
    if (use == Use::May && !reader.has(key))
        return std::nullopt;
    const QString name = reader.text(key);
    return name.isEmpty() ? std::nullopt : std::optional(name);
}

/// Reads one procedure against its model.
class ProcedureReader {
public:
    ProcedureReader(const QJsonObject& document, const ProjectorModel& model)
        : m_model(model)
        , m_root(document, {}, m_reading.complaints)
    {
    }

    Reading<Procedure> read();

private:
    QList<Step> readSteps();
    Step readStep(JsonReader& reader);
    Effect readEffect(JsonReader& reader);
    void readReferences(JsonReader& reader, Step& step);
    void readCaptures(JsonReader& reader, Step& step);
    Capture readCapture(JsonReader& reader, const Step& step);
    QList<Choice> readChoices(JsonReader& reader);
    std::optional<Hazard> readHazard(JsonReader& reader);
    Condition readCondition(JsonReader& reader);
    LampCondition readLampCondition(JsonReader& reader, const QString& key);
    void checkParts(JsonReader& reader, const Step& step);
    void checkStop(JsonReader& reader, const Step& step);
    void checkStops(const QList<Step>& steps);

    [[nodiscard]] JsonReader readerOf(const JsonReader::Child& child)
    {
        return JsonReader(child.object, child.place, m_reading.complaints);
    }

    const ProjectorModel& m_model;
    Reading<Procedure> m_reading;
    JsonReader m_root;
};

Reading<Procedure> ProcedureReader::read()
{
    if (m_root.text(u"kind"_s) != u"procedure"_s)
        m_root.complain(u"kind"_s, u"must be procedure"_s);
    m_root.textOr(u"note"_s, {});
    Procedure procedure;
    procedure.id = ProcedureId(m_root.text(u"id"_s));
    procedure.model = ModelId(m_root.text(u"model"_s));
    if (procedure.model != m_model.id)
        m_root.complain(u"model"_s, u"must be %1"_s.arg(m_model.id.text()));
    procedure.title = m_root.text(u"title"_s);
    procedure.steps = readSteps();
    checkStops(procedure.steps);
    m_root.finish();
    if (m_reading.complaints.isEmpty())
        m_reading.value = procedure;
    return m_reading;
}

QList<Step> ProcedureReader::readSteps()
{
    QList<Step> steps;
    QSet<StepId> ids;
    bool inGear = false;
    for (auto [object, place] : m_root.children(u"steps"_s)) {
        const QString id = object.value(u"id"_s).toString();
        if (!id.isEmpty())
            place.insert(place.size() - 1, u':' + id); // steps[12:open-door]
        JsonReader reader(object, place, m_reading.complaints);
        Step step = readStep(reader);
        step.inGear = inGear;
        if (inGear && std::ranges::any_of(step.captures, &Capture::isTyped))
            reader.complain(u"captures"_s, u"nothing is typed between gear-on and gear-off"_s);
        if (step.effect == Effect::GearOn)
            inGear = true;
        if (step.effect == Effect::GearOff)
            inGear = false;
        if (ids.contains(step.id))
            reader.complain(u"id"_s, u"%1 stands here twice"_s.arg(id));
        ids.insert(step.id);
        if (!steps.isEmpty() && step.phase < steps.last().phase)
            reader.complain(u"phase"_s, u"goes back behind %1"_s.arg(wordOf(steps.last().phase)));
        reader.finish();
        steps.append(step);
    }
    return steps;
}

Step ProcedureReader::readStep(JsonReader& reader)
{
    static const QRegularExpression kName(QRegularExpression::anchoredPattern(u"[a-z0-9]+(-[a-z0-9]+)*"_s));
    Step step;
    const QString id = reader.text(u"id"_s);
    if (!kName.match(id).hasMatch())
        reader.complain(u"id"_s, u"must be lower case words with dashes"_s);
    step.id = StepId(id);
    step.phase = wordFrom(reader, u"phase"_s, kPhases);
    step.effect = readEffect(reader);
    if (reader.has(u"stop"_s))
        step.stop = wordFrom(reader, u"stop"_s, kStops);
    step.title = reader.text(u"title"_s);
    step.why = reader.text(u"why"_s);
    step.hazard = readHazard(reader);
    step.when = readCondition(reader);
    step.minutes = static_cast<int>(reader.whole(u"minutes"_s, 0, kMostMinutes));
    step.tools = reader.textsOr(u"tools"_s, {});
    step.mayFollow = reader.flagOr(u"may_follow"_s, false);
    step.otherLamphouse = reader.flagOr(u"other_lamphouse"_s, false);
    readReferences(reader, step);
    readCaptures(reader, step);
    checkParts(reader, step);
    checkStop(reader, step);
    return step;
}

Effect ProcedureReader::readEffect(JsonReader& reader)
{
    const QString word = reader.text(u"effect"_s);
    const auto effect = machine::effectFromWord(word.toStdString());
    if (!effect && !word.isEmpty())
        reader.complain(u"effect"_s, u"%1 is no effect"_s.arg(word));
    return effect.value_or(Effect::Look);
}

void ProcedureReader::readReferences(JsonReader& reader, Step& step)
{
    if (const auto name = nameFrom(reader, u"point"_s, usesPoint(step.effect))) {
        step.point = catalogue::RoleId(*name);
        if (!m_model.role(*step.point))
            reader.complain(u"point"_s, u"the model has no isolation point %1"_s.arg(*name));
    }
    if (const auto name = nameFrom(reader, u"test_point"_s, usesTestPoint(step.effect))) {
        step.testPoint = catalogue::TestPointId(*name);
        if (!m_model.testPoint(*step.testPoint))
            reader.complain(u"test_point"_s, u"the model has no test point %1"_s.arg(*name));
    }
    if (const auto name = nameFrom(reader, u"lamp"_s, usesLamp(step.effect))) {
        step.lamp = valueIn(kLamps, *name);
        if (!step.lamp)
            reader.complain(u"lamp"_s, oneOf(kLamps));
        if (step.effect == Effect::LampOut && step.lamp == Lamp::New)
            reader.complain(u"lamp"_s, u"the lamp that comes out is the old one"_s);
    }
    if (const auto name = nameFrom(reader, u"axis"_s, usesAxis(step.effect))) {
        step.axis = catalogue::axisFromWord(*name);
        const bool known =
            step.axis && std::ranges::any_of(m_model.axes, [&](const catalogue::AxisDrive& drive) {
                return drive.axis == *step.axis;
            });
        if (!known)
            reader.complain(u"axis"_s, u"the model has no axis %1"_s.arg(*name));
    }
}

void ProcedureReader::readCaptures(JsonReader& reader, Step& step)
{
    QSet<QString> ids;
    for (const auto& child : reader.childrenOr(u"captures"_s)) {
        JsonReader item = readerOf(child);
        const Capture capture = readCapture(item, step);
        if (ids.contains(capture.id))
            item.complain(u"id"_s, u"%1 stands here twice"_s.arg(capture.id));
        ids.insert(capture.id);
        item.finish();
        step.captures.append(capture);
    }
    for (const QString& id : missingCaptures(step, m_model))
        reader.complain(u"captures"_s, u"%1 must be chosen at this effect"_s.arg(id));
}

Capture ProcedureReader::readCapture(JsonReader& reader, const Step& step)
{
    Capture capture;
    capture.id = reader.text(u"id"_s);
    capture.kind = wordFrom(reader, u"kind"_s, kCaptureKinds);
    capture.label = reader.text(u"label"_s);
    capture.choices = readChoices(reader);
    capture.unit = reader.textOr(u"unit"_s, {});
    capture.optional = reader.flagOr(u"optional"_s, false);

    const bool mayChoose = capture.kind == CaptureKind::Choice || capture.kind == CaptureKind::Reading ||
                           capture.kind == CaptureKind::Answer;
    const bool needsChoices = capture.kind == CaptureKind::Choice || !capture.choices.isEmpty();
    QSet<QString> texts;
    for (const Choice& choice : capture.choices)
        texts.insert(choice.text);
    const QString trouble = wordTrouble(step, capture);
    if (!mayChoose && !capture.choices.isEmpty())
        reader.complain(u"choices"_s, u"a %1 is not chosen"_s.arg(wordOf(capture.kind)));
    else if (mayChoose && needsChoices && capture.choices.size() < 2)
        reader.complain(u"choices"_s, u"must be two or more"_s);
    else if (texts.size() != capture.choices.size())
        reader.complain(u"choices"_s, u"must all differ"_s);
    else if (!trouble.isEmpty())
        reader.complain(u"choices"_s, trouble);
    return capture;
}

QList<Choice> ProcedureReader::readChoices(JsonReader& reader)
{
    QList<Choice> choices;
    for (const auto& child : reader.childrenOr(u"choices"_s)) {
        JsonReader item = readerOf(child);
        const QString text = item.text(u"text"_s);
        const QString word = item.text(u"means"_s);
        const auto means = meansFromWord(word);
        if (!means && !word.isEmpty())
            item.complain(u"means"_s, u"%1 is no meaning"_s.arg(word));
        item.finish();
        choices.append({text, means.value_or(Means::Note)});
    }
    return choices;
}

std::optional<Hazard> ProcedureReader::readHazard(JsonReader& reader)
{
    const auto child = reader.childOr(u"danger"_s);
    if (!child)
        return std::nullopt;
    JsonReader item = readerOf(*child);
    Hazard hazard{wordFrom(item, u"word"_s, kSignalWords), item.text(u"text"_s)};
    item.finish();
    return hazard;
}

Condition ProcedureReader::readCondition(JsonReader& reader)
{
    const auto child = reader.childOr(u"when"_s);
    if (!child)
        return {};
    JsonReader item = readerOf(*child);
    const qsizetype complaintsBefore = m_reading.complaints.size();
    const Condition condition{readLampCondition(item, u"old"_s), readLampCondition(item, u"new"_s)};
    item.finish();
    if (condition == Condition() && m_reading.complaints.size() == complaintsBefore)
        reader.complain(u"when"_s, u"tests nothing"_s);
    return condition;
}

LampCondition ProcedureReader::readLampCondition(JsonReader& reader, const QString& key)
{
    const auto child = reader.childOr(key);
    if (!child)
        return {};
    JsonReader item = readerOf(*child);
    LampCondition condition;
    if (item.has(u"adaptor"_s)) {
        condition.adaptor = item.flag(u"adaptor"_s);
        if (!m_model.adaptor)
            item.complain(u"adaptor"_s, u"the model has none"_s);
    }
    for (const QString& name : item.textsOr(u"types"_s, {})) {
        condition.types.append(LampTypeId(name));
        if (!m_model.takes(LampTypeId(name)))
            item.complain(u"types"_s, u"the model does not take %1"_s.arg(name));
    }
    if (item.has(u"fill"_s)) {
        condition.fill = catalogue::fillFromWord(item.text(u"fill"_s));
        if (!condition.fill)
            item.complain(u"fill"_s, u"must be one of xenon, mercury-xenon"_s);
    }
    item.finish();
    return condition;
}

/// Complains of a step for something that the model does not have.
void ProcedureReader::checkParts(JsonReader& reader, const Step& step)
{
    const Effect effect = step.effect;
    if ((effect == Effect::OpenHousing || effect == Effect::ShutHousing) && !m_model.hasHousing)
        reader.complain(u"effect"_s, u"the model has no housing, its door is the guard"_s);
    if ((effect == Effect::DowserOpen || effect == Effect::DowserShut) && !m_model.hasDowser)
        reader.complain(u"effect"_s, u"the model has no dowser"_s);
    if ((effect == Effect::AdaptorOn || effect == Effect::AdaptorOff) && !m_model.adaptor)
        reader.complain(u"effect"_s, u"the model has no adaptor"_s);
    if (step.otherLamphouse && m_model.lamphouses.size() < 2)
        reader.complain(u"other_lamphouse"_s, u"the model has one lamphouse"_s);
    if (step.otherLamphouse && !mayConcernTheOther(effect))
        reader.complain(u"other_lamphouse"_s, u"this effect stays in the swap's own lamphouse"_s);
    if (step.mayFollow && !mayBeOwed(step))
        reader.complain(u"may_follow"_s, u"only the light and its measuring may be owed"_s);
}

void ProcedureReader::checkStop(JsonReader& reader, const Step& step)
{
    if (!step.stop)
        return;
    if (step.effect != Effect::Look)
        reader.complain(u"stop"_s, u"a stop is a look"_s);
    const bool answersOnly = std::ranges::all_of(
        step.captures, [](const Capture& capture) { return capture.kind == CaptureKind::Answer; });
    if (!answersOnly || step.captures.size() < kFewestAnswers || step.captures.size() > kMostAnswers)
        reader.complain(u"captures"_s, u"a stop has 5 to 9 answers and nothing else"_s);
    const bool chosenFromFour = std::ranges::all_of(
        step.captures, [](const Capture& capture) { return capture.choices.size() == kAnswersAtTheGuard; });
    if (step.stop == Stop::ReadyToOpen && !chosenFromFour)
        reader.complain(u"captures"_s, u"at the guard every answer is chosen from four"_s);
}

void ProcedureReader::checkStops(const QList<Step>& steps)
{
    for (const auto& entry : kStops) {
        const Stop stop = entry.first;
        const auto count = std::ranges::count_if(steps, [&](const Step& step) { return step.stop == stop; });
        if (count != 1)
            m_root.complain(u"steps"_s, u"the stop %1 must stand exactly once"_s.arg(wordOf(stop)));
    }
}

/// A file that could be read as a procedure.
struct Loaded {
    QString file;
    Procedure procedure;
    catalogue::Document document;
};

/// Like `steps[12:open-door]`; `steps` where no step is to blame.
QString placeOf(const Procedure& procedure, const StepId& step)
{
    const auto found = std::ranges::find(procedure.steps, step, &Step::id);
    if (found == procedure.steps.end())
        return u"steps"_s;
    return u"steps[%1:%2]"_s.arg(found - procedure.steps.begin()).arg(step.text());
}

std::optional<Loaded> readFile(const QDir& folder, const QString& name, const catalogue::Catalogue& catalogue,
                               QList<FileRemark>& complaints)
{
    QFile file(folder.filePath(name));
    if (!file.open(QIODevice::ReadOnly)) {
        complaints.append({name, {}, u"cannot be read: %1"_s.arg(file.errorString())});
        return std::nullopt;
    }
    const QByteArray bytes = file.readAll();
    const auto object = parseObject(bytes);
    if (!object) {
        complaints.append({name, {}, object.error().detail});
        return std::nullopt;
    }
    const QString modelName = object->value(u"model"_s).toString();
    const ProjectorModel* model = catalogue.model(ModelId(modelName));
    if (!model) {
        complaints.append({name, u"model"_s, u"no projector model %1 was loaded"_s.arg(modelName)});
        return std::nullopt;
    }
    const Reading<Procedure> reading = readProcedure(*object, *model);
    for (const QString& line : reading.complaints)
        complaints.append(catalogue::remarkOn(name, line));
    if (!reading.value)
        return std::nullopt;
    return Loaded{name, *reading.value, {bytes, sha256(bytes)}};
}

/// Refuses every file that shares a name with another one.
template<class NameOf>
void refuseShared(std::vector<Loaded>& list, const QString& place, NameOf nameOf,
                  QList<FileRemark>& complaints)
{
    std::map<QString, QStringList> filesOf;
    for (const Loaded& loaded : list)
        filesOf[nameOf(loaded.procedure)].append(loaded.file);
    std::erase_if(list, [&](const Loaded& loaded) {
        const QString name = nameOf(loaded.procedure);
        const QStringList& files = filesOf[name];
        if (files.size() < 2)
            return false;
        complaints.append(
            {loaded.file, place, u"%1 stands in more than one file: %2"_s.arg(name, files.join(u", "_s))});
        return true;
    });
}

} // namespace

Reading<Procedure> readProcedure(const QJsonObject& document, const ProjectorModel& model)
{
    return ProcedureReader(document, model).read();
}

const Procedure* ProcedureLoading::procedureFor(const ModelId& model) const&
{
    const auto found = std::ranges::find(procedures, model, &Procedure::model);
    return found == procedures.end() ? nullptr : &*found;
}

ProcedureLoading readProcedures(const QString& folder, const catalogue::Catalogue& catalogue)
{
    ProcedureLoading loading;
    const QDir directory(folder);
    if (!directory.exists()) {
        loading.complaints.append({folder, {}, u"no such folder"_s});
        return loading;
    }
    std::vector<Loaded> list;
    for (const QString& name : directory.entryList({u"*.json"_s}, QDir::Files, QDir::Name)) {
        if (auto loaded = readFile(directory, name, catalogue, loading.complaints))
            list.push_back(std::move(*loaded));
    }
    refuseShared(
        list, u"id"_s, [](const Procedure& one) { return one.id.text(); }, loading.complaints);
    refuseShared(
        list, u"model"_s, [](const Procedure& one) { return one.model.text(); }, loading.complaints);
    for (const Loaded& loaded : list) {
        loading.procedures.append(loaded.procedure);
        loading.documents.insert(loaded.procedure.id, loaded.document);
        loading.files.insert(loaded.procedure.id, loaded.file);
    }
    return loading;
}

ProcedureLoading provedOf(ProcedureLoading read, const catalogue::Catalogue& catalogue)
{
    read.procedures.removeIf([&](const Procedure& procedure) {
        const ProjectorModel* model = catalogue.model(procedure.model);
        Q_ASSERT_X(model, "provedOf", "the catalogue that the procedures were read with");
        const Proof proof = prove(procedure, *model, catalogue);
        if (!proof.failure)
            return false;
        read.complaints.append({read.files.value(procedure.id), placeOf(procedure, proof.failure->step),
                                describe(*proof.failure)});
        read.documents.remove(procedure.id);
        return true;
    });
    return read;
}

ProcedureLoading loadProcedures(const QString& folder, const catalogue::Catalogue& catalogue)
{
    return provedOf(readProcedures(folder, catalogue), catalogue);
}

} // namespace coldarc::procedure
