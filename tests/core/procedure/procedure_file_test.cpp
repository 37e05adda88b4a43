#include "core/procedure/procedure_file.h"

#include "core/base/json.h"
#include "core/procedure/capture_rule.h"
#include "tests/support/shipped_folder.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QSet>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using catalogue::FileRemark;
using catalogue::ProjectorModel;
using machine::Effect;

/// A model with every part that a step can speak of. Invented.
ProjectorModel fullModel()
{
    ProjectorModel model;
    model.id = ModelId(u"full"_s);
    model.lamphouses = {u"a"_s, u"b"_s};
    model.isolation = {
        {catalogue::RoleId(u"mains"_s), u"Mains"_s, catalogue::DeviceKind::Breaker, true, {u"a"_s, u"b"_s}}};
    model.testPoints = {{catalogue::TestPointId(u"rail"_s), u"Rail"_s, catalogue::Cover::None}};
    model.adaptor = catalogue::Adaptor{catalogue::LampEnd::Anode, {LampTypeId(u"short"_s)}};
    model.axes = {{catalogue::Axis::Up, 0.25}};
    model.lampTypes = {LampTypeId(u"short"_s), LampTypeId(u"long"_s)};
    return model;
}

/// The same with one lamphouse, a door that is the guard, no dowser and no adaptor.
ProjectorModel bareModel()
{
    ProjectorModel model = fullModel();
    model.lamphouses = {u"a"_s};
    model.hasHousing = false;
    model.hasDowser = false;
    model.adaptor.reset();
    return model;
}

QJsonObject objectFrom(const QByteArray& text)
{
    const auto object = parseObject(text);
    EXPECT_TRUE(object) << text.toStdString();
    return object.value_or(QJsonObject());
}

QJsonObject with(QJsonObject object, const QJsonObject& more)
{
    for (auto it = more.begin(); it != more.end(); ++it)
        object.insert(it.key(), it.value());
    return object;
}

QJsonArray choicesOf(const QStringList& words)
{
    QJsonArray choices;
    for (const QString& word : words)
        choices.append(
            QJsonObject{{u"text"_s, u"%1, number %2"_s.arg(word).arg(choices.size())}, {u"means"_s, word}});
    return choices;
}

/// Captures with every word that the machine reads at a step like this one.
QJsonArray capturesFor(const QJsonObject& object)
{
    Step step;
    step.effect =
        machine::effectFromWord(object.value(u"effect"_s).toString().toStdString()).value_or(Effect::Look);
    if (object.contains(u"point"_s))
        step.point = catalogue::RoleId(object.value(u"point"_s).toString());
    QJsonArray captures;
    for (const QString& id : missingCaptures(step, fullModel())) {
        QStringList words;
        for (const Means means : ruleOf(step.effect, id)->must)
            words.append(wordOf(means));
        captures.append(QJsonObject{{u"id"_s, id},
                                    {u"kind"_s, u"choice"_s},
                                    {u"label"_s, u"What is seen"_s},
                                    {u"choices"_s, choicesOf(words)}});
    }
    return captures;
}

/// A step that reads without a complaint, changed by `more`.
QJsonObject step(const QByteArray& more)
{
    const QJsonObject good{{u"id"_s, u"thing"_s},   {u"phase"_s, u"arrive"_s}, {u"effect"_s, u"look"_s},
                           {u"title"_s, u"Look"_s}, {u"why"_s, u"Because."_s}, {u"minutes"_s, 1}};
    QJsonObject changed = with(good, objectFrom(more));
    const QJsonArray captures = capturesFor(changed);
    if (!changed.contains(u"captures"_s) && !captures.isEmpty())
        changed.insert(u"captures"_s, captures);
    return changed;
}

QJsonObject stopStep(const QString& name)
{
    QJsonArray captures;
    for (int line = 1; line <= 5; ++line)
        captures.append(QJsonObject{{u"id"_s, u"line-%1"_s.arg(line)},
                                    {u"kind"_s, u"answer"_s},
                                    {u"label"_s, u"Line"_s},
                                    {u"choices"_s, choicesOf({u"good"_s, u"bad"_s, u"bad"_s, u"bad"_s})}});
    return with(step("{}"), {{u"id"_s, name}, {u"stop"_s, name}, {u"captures"_s, captures}});
}

/// A document with the steps under test first, then the three stops.
QJsonObject documentWith(const QList<QJsonObject>& steps)
{
    QJsonArray array;
    for (const QJsonObject& one : steps)
        array.append(one);
    for (const QString& stop : {u"cold-and-dead"_s, u"ready-to-open"_s, u"ready-to-strike"_s})
        array.append(stopStep(stop));
    return {{u"kind"_s, u"procedure"_s}, {u"note"_s, u"invented"_s},  {u"id"_s, u"full-swap"_s},
            {u"model"_s, u"full"_s},     {u"title"_s, u"Exchange"_s}, {u"steps"_s, array}};
}

QStringList complaintsOf(const QList<QJsonObject>& steps, const ProjectorModel& model = fullModel())
{
    return readProcedure(documentWith(steps), model).complaints;
}

TEST(ProcedureFileTest, ReadsEverythingThatAStepCanSay)
{
    const auto reading = readProcedure(documentWith({step(R"({
            "id": "adaptor-on", "effect": "adaptor-on", "title": "Fit the adaptor", "minutes": 2, "lamp": "new",
            "danger": {"word": "warning", "text": "Gently."}, "tools": ["key"],
            "captures": [{"id": "c", "kind": "number", "label": "Turns", "unit": "turn", "optional": true}],
            "when": {"old": {"fill": "xenon"}, "new": {"adaptor": true, "types": ["short"]}}})")}),
                                       fullModel());

    ASSERT_TRUE(reading.value) << reading.complaints.join(u'\n').toStdString();
    Step expected;
    expected.id = StepId(u"adaptor-on"_s);
    expected.effect = Effect::AdaptorOn;
    expected.title = u"Fit the adaptor"_s;
    expected.why = u"Because."_s;
    expected.hazard = Hazard{SignalWord::Warning, u"Gently."_s};
    expected.captures = {{u"c"_s, CaptureKind::Number, u"Turns"_s, {}, u"turn"_s, true}};
    expected.when.oldLamp.fill = catalogue::Fill::Xenon;
    expected.when.newLamp = {true, {LampTypeId(u"short"_s)}, {}};
    expected.minutes = 2;
    expected.tools = QStringList{u"key"_s};
    expected.lamp = Lamp::New;
    EXPECT_EQ(reading.value->steps.first(), expected);
    EXPECT_EQ(reading.value->id, ProcedureId(u"full-swap"_s));
    EXPECT_EQ(reading.value->steps.at(1).stop, Stop::ColdAndDead);
}

TEST(ProcedureFileTest, ReadsTheReferencesIntoTheModel)
{
    const auto reading = readProcedure(
        documentWith({step(R"({"id": "a", "effect": "isolate", "point": "mains"})"),
                      step(R"({"id": "b", "effect": "lock-on", "point": "mains"})"),
                      step(R"({"id": "c", "effect": "lock-on"})"),
                      step(R"({"id": "d", "effect": "prove-absence", "test_point": "rail"})"),
                      step(R"({"id": "e", "effect": "peak", "axis": "up", "may_follow": true})"),
                      step(R"({"id": "f", "effect": "find", "other_lamphouse": true})")}),
        fullModel());

    ASSERT_TRUE(reading.value) << reading.complaints.join(u'\n').toStdString();
    const QList<Step>& steps = reading.value->steps;
    EXPECT_EQ(steps.at(0).point, catalogue::RoleId(u"mains"_s));
    EXPECT_EQ(steps.at(1).point, catalogue::RoleId(u"mains"_s));
    EXPECT_FALSE(steps.at(2).point);
    EXPECT_EQ(steps.at(3).testPoint, catalogue::TestPointId(u"rail"_s));
    EXPECT_EQ(steps.at(4).axis, catalogue::Axis::Up);
    EXPECT_TRUE(steps.at(4).mayFollow);
    EXPECT_TRUE(steps.at(5).otherLamphouse);
}

struct BadStep {
    const char* name;
    const char* change;
    QString complaint;

    friend void PrintTo(const BadStep& bad, std::ostream* out) { *out << bad.name; }
};

class StepRefusalTest : public ::testing::TestWithParam<BadStep> {};

TEST_P(StepRefusalTest, NamesTheStepAndTheReason)
{
    const auto reading = readProcedure(documentWith({step(GetParam().change)}), fullModel());

    EXPECT_FALSE(reading.value);
    EXPECT_EQ(reading.complaints, QStringList{GetParam().complaint});
}

INSTANTIATE_TEST_SUITE_P(
    InAFullModel, StepRefusalTest,
    ::testing::Values(
        BadStep{"UnknownKey", R"({"gate": "cold"})", u"steps[0:thing].gate: unknown key"_s},
        BadStep{"UnknownEffect", R"({"effect": "hammer"})", u"steps[0:thing].effect: hammer is no effect"_s},
        BadStep{
            "UnknownPhase", R"({"phase": "lunch"})",
            u"steps[0:thing].phase: must be one of arrive, cold-and-dead, open, swap, close, book-in, light, "
            "prove, account, sign"_s},
        BadStep{"NameWithASpace", R"({"id": "a thing"})",
                u"steps[0:a thing].id: must be lower case words with dashes"_s},
        BadStep{"UnknownPoint", R"({"effect": "isolate", "point": "ups"})",
                u"steps[0:thing].point: the model has no isolation point ups"_s},
        BadStep{"IsolateWithoutPoint", R"({"effect": "isolate"})", u"steps[0:thing].point: is missing"_s},
        BadStep{"RestoreWithoutPoint", R"({"effect": "restore"})", u"steps[0:thing].point: is missing"_s},
        BadStep{"JobLockOffWithoutPoint", R"({"effect": "job-lock-off"})",
                u"steps[0:thing].point: is missing"_s},
        BadStep{"OwnLockOffWithAPoint", R"({"effect": "lock-off", "point": "mains"})",
                u"steps[0:thing].point: this effect has no use for it"_s},
        BadStep{"UnknownTestPoint", R"({"effect": "prove-absence", "test_point": "roof"})",
                u"steps[0:thing].test_point: the model has no test point roof"_s},
        BadStep{"ProofNowhere", R"({"effect": "prove-absence"})", u"steps[0:thing].test_point: is missing"_s},
        BadStep{"TestPointElsewhere", R"({"test_point": "rail"})",
                u"steps[0:thing].test_point: this effect has no use for it"_s},
        BadStep{"UnboxNoLamp", R"({"effect": "unbox"})", u"steps[0:thing].lamp: is missing"_s},
        BadStep{"UnknownLamp", R"({"effect": "unbox", "lamp": "spare"})",
                u"steps[0:thing].lamp: must be one of old, new"_s},
        BadStep{"NewLampOut", R"({"effect": "lamp-out", "lamp": "new"})",
                u"steps[0:thing].lamp: the lamp that comes out is the old one"_s},
        BadStep{"StrikeNamesALamp", R"({"effect": "strike", "lamp": "new"})",
                u"steps[0:thing].lamp: this effect has no use for it"_s},
        BadStep{"PeakWithoutAxis", R"({"effect": "peak"})", u"steps[0:thing].axis: is missing"_s},
        BadStep{"PeakOnAnAxisThatIsNotThere", R"({"effect": "peak", "axis": "along"})",
                u"steps[0:thing].axis: the model has no axis along"_s},
        BadStep{"CountOfTheOtherLamphouse", R"({"effect": "count", "other_lamphouse": true})",
                u"steps[0:thing].other_lamphouse: this effect stays in the swap's own lamphouse"_s},
        BadStep{"LockOwedToLater", R"({"effect": "lock-on", "may_follow": true})",
                u"steps[0:thing].may_follow: only the light and its measuring may be owed"_s},
        BadStep{"UnknownSignalWord", R"({"danger": {"word": "beware", "text": "Hot."}})",
                u"steps[0:thing].danger.word: must be one of danger, warning, caution, notice"_s},
        BadStep{"ConditionThatTestsNothing", R"({"when": {}})", u"steps[0:thing].when: tests nothing"_s},
        BadStep{"ConditionOnALampThatIsNotTaken", R"({"when": {"new": {"types": ["huge"]}}})",
                u"steps[0:thing].when.new.types: the model does not take huge"_s},
        BadStep{"ConditionOnNoFill", R"({"when": {"old": {"fill": "argon"}}})",
                u"steps[0:thing].when.old.fill: must be one of xenon, mercury-xenon"_s},
        BadStep{"UnknownCapture", R"({"captures": [{"id": "c", "kind": "tick", "label": "C"}]})",
                u"steps[0:thing].captures[0].kind: must be one of counter, text, choice, number, picture, "
                "reading, serial, type, answer"_s},
        BadStep{
            "ChoiceOfOne",
            R"({"captures": [{"id": "c", "kind": "choice", "label": "C", "choices": [{"text": "ok", "means": "good"}]}]})",
            u"steps[0:thing].captures[0].choices: must be two or more"_s},
        BadStep{"ChoiceWithoutChoices", R"({"captures": [{"id": "c", "kind": "choice", "label": "C"}]})",
                u"steps[0:thing].captures[0].choices: must be two or more"_s},
        BadStep{
            "SameChoiceTwice",
            R"({"captures": [{"id": "c", "kind": "choice", "label": "C", "choices": [{"text": "ok", "means": "good"}, {"text": "ok", "means": "bad"}]}]})",
            u"steps[0:thing].captures[0].choices: must all differ"_s},
        BadStep{
            "ChosenSerial",
            R"({"captures": [{"id": "c", "kind": "serial", "label": "C", "choices": [{"text": "a", "means": "note"}, {"text": "b", "means": "note"}]}]})",
            u"steps[0:thing].captures[0].choices: a serial is not chosen"_s},
        BadStep{
            "SameCaptureTwice",
            R"({"captures": [{"id": "c", "kind": "text", "label": "C"}, {"id": "c", "kind": "text", "label": "D"}]})",
            u"steps[0:thing].captures[1].id: c stands here twice"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

class MissingPartTest : public ::testing::TestWithParam<BadStep> {};

TEST_P(MissingPartTest, RefusesAStepForWhatTheModelDoesNotHave)
{
    const QStringList complaints = complaintsOf({step(GetParam().change)}, bareModel());

    EXPECT_EQ(complaints, QStringList{GetParam().complaint});
    EXPECT_TRUE(complaintsOf({step(GetParam().change)}, fullModel()).isEmpty());
}

INSTANTIATE_TEST_SUITE_P(
    InABareModel, MissingPartTest,
    ::testing::Values(BadStep{"OpenHousing", R"({"effect": "open-housing"})",
                              u"steps[0:thing].effect: the model has no housing, its door is the guard"_s},
                      BadStep{"ShutHousing", R"({"effect": "shut-housing"})",
                              u"steps[0:thing].effect: the model has no housing, its door is the guard"_s},
                      BadStep{"DowserOpen", R"({"effect": "dowser-open"})",
                              u"steps[0:thing].effect: the model has no dowser"_s},
                      BadStep{"DowserShut", R"({"effect": "dowser-shut"})",
                              u"steps[0:thing].effect: the model has no dowser"_s},
                      BadStep{"AdaptorOn", R"({"effect": "adaptor-on", "lamp": "new"})",
                              u"steps[0:thing].effect: the model has no adaptor"_s},
                      BadStep{"AdaptorOff", R"({"effect": "adaptor-off", "lamp": "old"})",
                              u"steps[0:thing].effect: the model has no adaptor"_s},
                      BadStep{"ConditionOnTheAdaptor", R"({"when": {"new": {"adaptor": false}}})",
                              u"steps[0:thing].when.new.adaptor: the model has none"_s},
                      BadStep{"OtherLamphouse", R"({"effect": "find", "other_lamphouse": true})",
                              u"steps[0:thing].other_lamphouse: the model has one lamphouse"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(ProcedureFileTest, RefusesAStepThatDoesNotSayWhatItDoes)
{
    QJsonObject silent = step("{}");
    silent.remove(u"effect"_s);

    EXPECT_EQ(complaintsOf({silent}), QStringList{u"steps[0:thing].effect: is missing"_s});
}

TEST(ProcedureFileTest, RefusesAStepIdThatStandsTwice)
{
    EXPECT_EQ(complaintsOf({step("{}"), step("{}")}),
              QStringList{u"steps[1:thing].id: thing stands here twice"_s});
}

TEST(ProcedureFileTest, RefusesAPhaseThatGoesBack)
{
    const QStringList complaints = complaintsOf({step(R"({"phase": "open"})")});

    EXPECT_EQ(complaints.first(), u"steps[1:cold-and-dead].phase: goes back behind open"_s);
}

TEST(ProcedureFileTest, RefusesTheProcedureOfAnotherModel)
{
    ProjectorModel other = fullModel();
    other.id = ModelId(u"other"_s);

    EXPECT_EQ(complaintsOf({}, other), QStringList{u"model: must be other"_s});
}

// What is typed, and what is chosen instead. Each stands between gear-on and gear-off.
struct InGear {
    const char* name;
    const char* capture;
    bool typed;

    friend void PrintTo(const InGear& one, std::ostream* out) { *out << one.name; }
};

class InGearTest : public ::testing::TestWithParam<InGear> {};

TEST_P(InGearTest, NothingIsTypedFromGearOnToGearOff)
{
    const QByteArray captures = QByteArray(R"("captures": [)") + GetParam().capture + "]";
    const auto at = [&](const QByteArray& id, const QByteArray& effect) {
        return step(R"({"id": ")" + id + R"(", "effect": ")" + effect + R"(", )" + captures + "}");
    };
    const QList<QJsonObject> steps{at("before", "gear-on"), at("guard", "shut-guard"),
                                   at("housing", "shut-housing"), at("off", "gear-off"), at("after", "look")};

    const QString reason = u"nothing is typed between gear-on and gear-off"_s;
    const QStringList expected{u"steps[1:guard].captures: "_s + reason,
                               u"steps[2:housing].captures: "_s + reason,
                               u"steps[3:off].captures: "_s + reason};
    EXPECT_EQ(complaintsOf(steps), GetParam().typed ? expected : QStringList());
}

INSTANTIATE_TEST_SUITE_P(
    EachKind, InGearTest,
    ::testing::Values(
        InGear{"Text", R"({"id": "c", "kind": "text", "label": "C"})", true},
        InGear{"Number", R"({"id": "c", "kind": "number", "label": "C"})", true},
        InGear{"Counter", R"({"id": "c", "kind": "counter", "label": "C"})", true},
        InGear{"Serial", R"({"id": "c", "kind": "serial", "label": "C"})", true},
        InGear{"Type", R"({"id": "c", "kind": "type", "label": "C"})", true},
        InGear{"FreeReading", R"({"id": "c", "kind": "reading", "label": "C"})", true},
        InGear{
            "ChosenReading",
            R"({"id": "c", "kind": "reading", "label": "C", "choices": [{"text": "0 V", "means": "good"}, {"text": "more", "means": "bad"}]})",
            false},
        InGear{
            "Choice",
            R"({"id": "c", "kind": "choice", "label": "C", "choices": [{"text": "a", "means": "note"}, {"text": "b", "means": "note"}]})",
            false},
        InGear{"Picture", R"({"id": "c", "kind": "picture", "label": "C"})", false}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(ProcedureFileTest, MarksTheStepsThatAreDoneInGear)
{
    const auto reading = readProcedure(
        documentWith({step(R"({"id": "on", "effect": "gear-on"})"),
                      step(R"({"id": "in", "effect": "enter-zone"})"),
                      step(R"({"id": "off", "effect": "gear-off"})"), step(R"({"id": "out"})")}),
        fullModel());

    ASSERT_TRUE(reading.value);
    const QList<Step>& steps = reading.value->steps;
    EXPECT_FALSE(steps.at(0).inGear);
    EXPECT_TRUE(steps.at(1).inGear);
    EXPECT_TRUE(steps.at(2).inGear);
    EXPECT_FALSE(steps.at(3).inGear);
}

// The three stops are steps 0, 1 and 2 of a document without other steps.
QStringList complaintsWithStop(int index, const QJsonObject& changed)
{
    QJsonObject document = documentWith({});
    QJsonArray steps = document.value(u"steps"_s).toArray();
    steps.replace(index, changed);
    document.insert(u"steps"_s, steps);
    return readProcedure(document, fullModel()).complaints;
}

QJsonObject withLines(QJsonObject stop, int lines)
{
    const QJsonArray given = stop.value(u"captures"_s).toArray();
    QJsonArray captures;
    for (int line = 0; line < lines; ++line)
        captures.append(with(given.first().toObject(), {{u"id"_s, u"line-%1"_s.arg(line)}}));
    return with(stop, {{u"captures"_s, captures}});
}

QJsonObject withLastLine(QJsonObject stop, const QByteArray& capture)
{
    QJsonArray captures = stop.value(u"captures"_s).toArray();
    captures.removeLast();
    captures.append(objectFrom(capture));
    return with(stop, {{u"captures"_s, captures}});
}

TEST(StopTest, HasFiveToNineLines)
{
    const QJsonObject stop = stopStep(u"ready-to-strike"_s);
    const QStringList refused{
        u"steps[2:ready-to-strike].captures: a stop has 5 to 9 answers and nothing else"_s};

    EXPECT_EQ(complaintsWithStop(2, withLines(stop, 4)), refused);
    EXPECT_TRUE(complaintsWithStop(2, withLines(stop, 5)).isEmpty());
    EXPECT_TRUE(complaintsWithStop(2, withLines(stop, 9)).isEmpty());
    EXPECT_EQ(complaintsWithStop(2, withLines(stop, 10)), refused);
}

TEST(StopTest, IsAnsweredAndNeverTicked)
{
    const QJsonObject stop = withLastLine(
        stopStep(u"ready-to-strike"_s),
        R"({"id": "c", "kind": "choice", "label": "C", "choices": [{"text": "ok", "means": "good"}, {"text": "no", "means": "bad"}]})");

    EXPECT_EQ(
        complaintsWithStop(2, stop),
        QStringList{u"steps[2:ready-to-strike].captures: a stop has 5 to 9 answers and nothing else"_s});
}

TEST(StopTest, AtTheGuardEveryAnswerIsChosenFromFour)
{
    const QByteArray three =
        R"({"id": "c", "kind": "answer", "label": "C", "choices": [{"text": "a", "means": "good"}, {"text": "b", "means": "bad"}, {"text": "c", "means": "bad"}]})";

    EXPECT_EQ(
        complaintsWithStop(1, withLastLine(stopStep(u"ready-to-open"_s), three)),
        QStringList{u"steps[1:ready-to-open].captures: at the guard every answer is chosen from four"_s});
    EXPECT_TRUE(complaintsWithStop(0, withLastLine(stopStep(u"cold-and-dead"_s), three)).isEmpty());
}

TEST(StopTest, ChangesNothing)
{
    const QJsonObject stop = with(stopStep(u"cold-and-dead"_s), {{u"effect"_s, u"gear-on"_s}});

    EXPECT_TRUE(complaintsWithStop(0, stop).contains(u"steps[0:cold-and-dead].stop: a stop is a look"_s));
}

TEST(StopTest, StandsExactlyOnce)
{
    EXPECT_EQ(complaintsWithStop(0, step("{}")),
              QStringList{u"steps: the stop cold-and-dead must stand exactly once"_s});
    EXPECT_EQ(complaintsOf({with(stopStep(u"ready-to-open"_s), {{u"id"_s, u"again"_s}})}),
              QStringList{u"steps: the stop ready-to-open must stand exactly once"_s});
}

/// The shipped procedures, copied into a folder where one file can be spoiled.
class ProcedureFolderTest : public test::ShippedFolderTest {
protected:
    ProcedureFolderTest()
        : ShippedFolderTest("resources/procedures")
    {
    }
    [[nodiscard]] ProcedureLoading load() const { return loadProcedures(folder.path(), known); }

    const catalogue::Catalogue known =
        catalogue::loadCatalogue(test::sourceFile("resources/catalogue")).catalogue;
};

TEST_F(ProcedureFolderTest, LoadsWhatIsShippedWithoutAWord)
{
    const auto loading = load();

    EXPECT_EQ(loading.complaints, QList<FileRemark>());
    EXPECT_EQ(loading.procedures.size(), known.models().size());
    for (const ProjectorModel& model : known.models())
        EXPECT_NE(loading.procedureFor(model.id), nullptr) << model.id.text().toStdString();
}

TEST_F(ProcedureFolderTest, KeepsTheExactBytesAndTheirHash)
{
    const auto loading = load();

    const catalogue::Document document = loading.documents.value(ProcedureId(u"larkmoor-teal-swap"_s));

    EXPECT_EQ(document.text, bytesOf(u"larkmoor-teal.json"_s));
    EXPECT_EQ(document.hash, sha256(document.text));
}

TEST_F(ProcedureFolderTest, ShippedTitlesFitOneLine)
{
    const auto loading = load();
    for (const Procedure& procedure : loading.procedures) {
        for (const Step& one : procedure.steps)
            EXPECT_LE(one.title.size(), 40) << one.title.toStdString();
    }
}

TEST_F(ProcedureFolderTest, NoShippedTextCallsAnythingSafeToTouch)
{
    const auto loading = load();
    for (const Procedure& procedure : loading.procedures) {
        const QString bytes = QString::fromUtf8(loading.documents.value(procedure.id).text);
        EXPECT_FALSE(bytes.contains(u"safe to touch"_s, Qt::CaseInsensitive));
        EXPECT_FALSE(bytes.contains(u"is safe"_s, Qt::CaseInsensitive));
    }
}

TEST_F(ProcedureFolderTest, ShippedProceduresIsolateAndProveEverythingThatTheirModelHas)
{
    const auto loading = load();
    for (const ProjectorModel& model : known.models()) {
        const QList<Step>& steps = loading.procedureFor(model.id)->steps;
        const auto has = [&](auto fits) { return std::ranges::any_of(steps, fits); };
        for (const catalogue::IsolationRole& role : model.isolation) {
            for (const Effect effect : {Effect::Isolate, Effect::Restore})
                EXPECT_TRUE(
                    has([&](const Step& one) { return one.effect == effect && one.point == role.id; }));
        }
        for (const catalogue::TestPoint& point : model.testPoints)
            EXPECT_TRUE(has([&](const Step& one) { return one.testPoint == point.id; }));
        for (const catalogue::AxisDrive& drive : model.axes)
            EXPECT_TRUE(has([&](const Step& one) { return one.axis == drive.axis; }));
    }
}

TEST_F(ProcedureFolderTest, TheAdaptorStepsFollowTheLamps)
{
    const auto loading = load();
    const Procedure& teal = *loading.procedureFor(ModelId(u"larkmoor-teal"_s));
    const ProjectorModel& model = *known.model(ModelId(u"larkmoor-teal"_s));
    const auto lamp = [&](const QString& id) { return factsOf(*known.lampType(LampTypeId(id)), model); };
    const auto has = [&](const Facts& facts, Effect effect) {
        return std::ranges::any_of(stepsFor(teal, facts),
                                   [&](const Step& one) { return one.effect == effect; });
    };

    const Facts slimToBroad{lamp(u"hollin-30s"_s), lamp(u"hollin-30b"_s)};
    const Facts broadToSlim{lamp(u"hollin-30b"_s), lamp(u"hollin-30s"_s)};
    EXPECT_TRUE(has(slimToBroad, Effect::AdaptorOff));
    EXPECT_FALSE(has(slimToBroad, Effect::AdaptorOn));
    EXPECT_FALSE(has(broadToSlim, Effect::AdaptorOff));
    EXPECT_TRUE(has(broadToSlim, Effect::AdaptorOn));
}

TEST_F(ProcedureFolderTest, RefusesABadFileWithItsStepAndLoadsTheOthers)
{
    write(u"sedgebrook-nook.json"_s,
          bytesOf(u"sedgebrook-nook.json"_s).replace("\"effect\": \"relieve\"", "\"effect\": \"wait\""));

    const auto loading = load();

    ASSERT_EQ(loading.complaints.size(), 1);
    EXPECT_EQ(loading.complaints.first().file, u"sedgebrook-nook.json"_s);
    EXPECT_TRUE(loading.complaints.first().place.endsWith(u":relieve].effect"_s));
    EXPECT_EQ(loading.complaints.first().reason, u"wait is no effect"_s);
    EXPECT_EQ(loading.procedures.size(), 2);
    EXPECT_EQ(loading.procedureFor(ModelId(u"sedgebrook-nook"_s)), nullptr);
}

TEST_F(ProcedureFolderTest, RefusesAnUnsafeProcedureWithItsStepAndReasonAndLoadsTheOthers)
{
    // Nobody is told before the breaker is moved; what the step does is no longer said to be that.
    write(u"sedgebrook-nook.json"_s,
          bytesOf(u"sedgebrook-nook.json"_s).replace("\"effect\": \"tell-before\"", "\"effect\": \"look\""));

    const auto loading = load();

    ASSERT_EQ(loading.complaints.size(), 1);
    EXPECT_EQ(loading.complaints.first().file, u"sedgebrook-nook.json"_s);
    EXPECT_TRUE(loading.complaints.first().place.endsWith(u":isolate-mains]"_s));
    EXPECT_TRUE(
        loading.complaints.first().reason.startsWith(u"impossible order at isolate-mains, demand "_s));
    EXPECT_EQ(loading.procedures.size(), 2);
    EXPECT_EQ(loading.procedureFor(ModelId(u"sedgebrook-nook"_s)), nullptr);
}

TEST_F(ProcedureFolderTest, RefusesAFileCutInHalf)
{
    const QByteArray whole = bytesOf(u"larkmoor-teal.json"_s);
    write(u"larkmoor-teal.json"_s, whole.left(whole.size() / 2));

    const auto loading = load();

    ASSERT_EQ(loading.complaints.size(), 1);
    EXPECT_EQ(loading.complaints.first().file, u"larkmoor-teal.json"_s);
    EXPECT_EQ(loading.procedures.size(), 2);
}

TEST_F(ProcedureFolderTest, RefusesAProcedureForAModelThatNobodyKnows)
{
    write(u"stray.json"_s, R"({"kind": "procedure", "model": "lost"})");

    EXPECT_EQ(load().complaints,
              (QList<FileRemark>{{u"stray.json"_s, u"model"_s, u"no projector model lost was loaded"_s}}));
}

TEST_F(ProcedureFolderTest, RefusesBothFilesOfOneId)
{
    write(u"copy.json"_s, bytesOf(u"larkmoor-teal.json"_s));

    const auto loading = load();

    const QString reason =
        u"larkmoor-teal-swap stands in more than one file: copy.json, larkmoor-teal.json"_s;
    EXPECT_EQ(loading.complaints, (QList<FileRemark>{{u"copy.json"_s, u"id"_s, reason},
                                                     {u"larkmoor-teal.json"_s, u"id"_s, reason}}));
    EXPECT_EQ(loading.procedureFor(ModelId(u"larkmoor-teal"_s)), nullptr);
}

TEST_F(ProcedureFolderTest, RefusesTwoProceduresForOneModel)
{
    write(u"copy.json"_s,
          bytesOf(u"larkmoor-teal.json"_s).replace("larkmoor-teal-swap", "larkmoor-teal-other"));

    const auto loading = load();

    ASSERT_EQ(loading.complaints.size(), 2);
    EXPECT_EQ(loading.complaints.first().place, u"model"_s);
    EXPECT_EQ(loading.procedureFor(ModelId(u"larkmoor-teal"_s)), nullptr);
}

TEST_F(ProcedureFolderTest, ComplainsOfAFolderThatIsNotThere)
{
    EXPECT_EQ(loadProcedures(path(u"nowhere"_s), known).complaints,
              (QList<FileRemark>{{path(u"nowhere"_s), {}, u"no such folder"_s}}));
}

} // namespace
} // namespace coldarc::procedure
