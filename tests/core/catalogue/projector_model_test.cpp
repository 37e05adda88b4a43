#include "core/catalogue/projector_model.h"

#include "tests/support/testing.h"

#include <QJsonArray>
#include <QJsonDocument>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::catalogue {
namespace {

/// A model that reads without a complaint. Invented.
QJsonObject goodModel()
{
    static const QByteArray text = R"({
        "kind": "projector-model", "note": "invented", "id": "test", "maker": "Nobody", "name": "Twin",
        "lamphouses": ["a", "b"],
        "cool_fan_s": 700, "cool_unforced_s": 2000, "bleed_s": 120, "settle_s": 900,
        "strike_pause_s": 60, "strike_limit": 3,
        "has_housing": true, "has_dowser": false,
        "isolation": [
            {"id": "both", "name": "Both", "device": "breaker", "lockable": true, "lamphouses": ["a", "b"]},
            {"id": "only-b", "name": "B", "device": "plug", "lockable": true, "lamphouses": ["b"]}],
        "test_points": [
            {"id": "rail", "name": "Rail", "cover": "housing"},
            {"id": "clamp", "name": "Clamp", "cover": "guard"}],
        "adaptor": {"end": "anode", "lamp_types": ["short"]},
        "fasteners": [{"place": "housing", "count": 6}, {"place": "guard", "count": 4}],
        "axes": [{"axis": "up", "step_turns": 0.25},
                 {"axis": "along", "step_turns": 0.5, "forward": "anticlockwise", "play": true}],
        "lamp_types": ["short", "long"]
    })";
    return QJsonDocument::fromJson(text).object();
}

QJsonObject with(QJsonObject object, const QString& key, const QJsonValue& value)
{
    object.insert(key, value);
    return object;
}

QJsonArray arrayFrom(const char* text)
{
    return QJsonDocument::fromJson(text).array();
}

TEST(ProjectorModelTest, ReadsWhatTheDocumentSays)
{
    const auto reading = readProjectorModel(goodModel());

    ASSERT_TRUE(reading.value) << reading.complaints.join(u'\n').toStdString();
    const ProjectorModel& model = *reading.value;
    EXPECT_EQ(model.coolFan, 700s);
    EXPECT_EQ(model.coolUnforced, 2000s);
    EXPECT_EQ(model.bleed, 120s);
    EXPECT_EQ(model.settle, 900s);
    EXPECT_EQ(model.strikePause, 60s);
    EXPECT_EQ(model.strikeLimit, 3);
    EXPECT_FALSE(model.hasDowser);
    EXPECT_EQ(model.axes, (QList<AxisDrive>{{Axis::Up, 0.25, Sense::Clockwise, false},
                                            {Axis::Along, 0.5, Sense::Anticlockwise, true}}));
    EXPECT_EQ(model.testPoint(TestPointId(u"clamp"_s))->cover, Cover::Guard);
    EXPECT_TRUE(reading.notices.isEmpty());
}

TEST(ProjectorModelTest, IsTheSameAfterBeingWrittenAndReadAgain)
{
    const ProjectorModel model = *readProjectorModel(goodModel()).value;

    EXPECT_EQ(readProjectorModel(toJson(model)).value, model);
}

TEST(ProjectorModelTest, CountsTheFastenersOfAllPlaces)
{
    EXPECT_EQ(readProjectorModel(goodModel()).value->fastenerTotal(), 10); // 6 + 4
}

TEST(ProjectorModelTest, NeedsTheAdaptorForTheNamedTypesOnly)
{
    const ProjectorModel model = *readProjectorModel(goodModel()).value;

    EXPECT_TRUE(model.needsAdaptor(LampTypeId(u"short"_s)));
    EXPECT_FALSE(model.needsAdaptor(LampTypeId(u"long"_s)));
}

TEST(ProjectorModelTest, KnowsEverythingThatCanEnergiseALamphouse)
{
    const ProjectorModel model = *readProjectorModel(goodModel()).value;

    EXPECT_EQ(model.isolationOf(u"a"_s).size(), 1);
    ASSERT_EQ(model.isolationOf(u"b"_s).size(), 2);
    EXPECT_EQ(model.isolationOf(u"b"_s).at(1).id, RoleId(u"only-b"_s));
}

TEST(ProjectorModelTest, NeverCoolsForLessThanTenMinutesWhateverTheFileSays)
{
    const auto reading = readProjectorModel(with(goodModel(), u"cool_fan_s"_s, 599));

    ASSERT_TRUE(reading.value);
    EXPECT_EQ(reading.value->coolFan, 600s);
    EXPECT_EQ(reading.notices, QStringList{u"cool_fan_s: 599 s is below the floor, 600 s are used"_s});
}

TEST(ProjectorModelTest, TakesExactlyTenMinutesWithoutANotice)
{
    const auto reading = readProjectorModel(with(goodModel(), u"cool_fan_s"_s, 600));

    EXPECT_EQ(reading.value->coolFan, 600s);
    EXPECT_TRUE(reading.notices.isEmpty());
}

TEST(ProjectorModelTest, ComparesTheUnforcedWaitWithTheFloorAndNotWithTheFile)
{
    QJsonObject document = with(goodModel(), u"cool_fan_s"_s, 300);
    document.insert(u"cool_unforced_s"_s, 500);

    EXPECT_FALSE(readProjectorModel(document).value);
}

TEST(ProjectorModelTest, RefusesAThirdLamphouse)
{
    const auto reading =
        readProjectorModel(with(goodModel(), u"lamphouses"_s, QJsonArray{u"a"_s, u"b"_s, u"c"_s}));

    EXPECT_FALSE(reading.value);
    EXPECT_TRUE(reading.complaints.contains(u"lamphouses: must name one or two"_s));
}

struct BadModel {
    const char* name;
    QString key;
    QJsonValue value;
    QString complaint;

    friend void PrintTo(const BadModel& bad, std::ostream* out) { *out << bad.name; }
};

class ProjectorModelRefusalTest : public ::testing::TestWithParam<BadModel> {};

TEST_P(ProjectorModelRefusalTest, NamesThePlaceAndTheReason)
{
    const auto reading = readProjectorModel(with(goodModel(), GetParam().key, GetParam().value));

    EXPECT_FALSE(reading.value);
    EXPECT_EQ(reading.complaints, QStringList{GetParam().complaint});
}

INSTANTIATE_TEST_SUITE_P(
    OneKeyWrong, ProjectorModelRefusalTest,
    ::testing::Values(
        BadModel{"OtherKind", u"kind"_s, u"lamp-type"_s, u"kind: must be projector-model"_s},
        BadModel{"UnknownKey", u"cooling"_s, 1, u"cooling: unknown key"_s},
        BadModel{"UnforcedShorterThanFan", u"cool_unforced_s"_s, 699,
                 u"cool_unforced_s: must not be below the wait with the fan running"_s},
        BadModel{"NoBleedDown", u"bleed_s"_s, 0, u"bleed_s: must be a whole number from 1 to 86400"_s},
        BadModel{"AxisTwice", u"axes"_s,
                 arrayFrom(R"([{"axis":"up","step_turns":1},{"axis":"up","step_turns":1}])"),
                 u"axes[1].axis: up stands here twice"_s},
        BadModel{"UnknownAxis", u"axes"_s, arrayFrom(R"([{"axis":"round","step_turns":1}])"),
                 u"axes[0].axis: must be one of along, across, up"_s},
        BadModel{"StepOfNothing", u"axes"_s, arrayFrom(R"([{"axis":"up","step_turns":0}])"),
                 u"axes[0].step_turns: must be a number from 0.01 to 10"_s},
        BadModel{"NoSuchSense", u"axes"_s, arrayFrom(R"([{"axis":"up","step_turns":1,"forward":"left"}])"),
                 u"axes[0].forward: must be one of clockwise, anticlockwise"_s},
        BadModel{"NoFasteners", u"fasteners"_s, QJsonArray(), u"fasteners: must name at least one"_s},
        BadModel{"TestPointsBehindTheGuardOnly", u"test_points"_s,
                 arrayFrom(R"([{"id":"clamp","name":"Clamp","cover":"guard"}])"),
                 u"test_points: one at least must be reached without opening the guard"_s},
        BadModel{"NoTestPoints", u"test_points"_s, QJsonArray(),
                 u"test_points: one at least must be reached without opening the guard"_s},
        BadModel{"HousingTestPointWithoutHousing", u"has_housing"_s, false,
                 u"test_points[0].cover: this model has no housing, its door is the guard"_s},
        BadModel{"AdaptorForALampThatIsNotTaken", u"adaptor"_s,
                 QJsonObject{{u"end"_s, u"anode"_s}, {u"lamp_types"_s, QJsonArray{u"huge"_s}}},
                 u"adaptor.lamp_types: the model does not take huge"_s},
        BadModel{"AdaptorAtNoEnd", u"adaptor"_s,
                 QJsonObject{{u"end"_s, u"middle"_s}, {u"lamp_types"_s, QJsonArray{u"short"_s}}},
                 u"adaptor.end: must be one of anode, cathode"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

// 0.1, 0.3 and 0.125 stood in files before the search was planned in eighths, and so in signed logbooks.
TEST(ProjectorModelTest, ReadsEveryStepThatAnOldLogbookMayKeep)
{
    for (const double turns : {0.01, 0.1, 0.125, 0.3, 10.0}) {
        const QJsonArray axes{QJsonObject{{u"axis"_s, u"up"_s}, {u"step_turns"_s, turns}}};
        const auto reading = readProjectorModel(with(goodModel(), u"axes"_s, axes));

        ASSERT_TRUE(reading.value) << turns << reading.complaints.join(u'\n').toStdString();
        EXPECT_EQ(reading.value->axes.first().stepTurns, turns);
    }
}

TEST(ProjectorModelTest, OfTheCatalogueHasStepsThatAHandRepeats)
{
    for (const double turns : {0.1, 0.125, 0.24, 0.3, 1.0625}) {
        const QJsonArray axes{QJsonObject{{u"axis"_s, u"along"_s}, {u"step_turns"_s, 0.25}},
                              QJsonObject{{u"axis"_s, u"up"_s}, {u"step_turns"_s, turns}}};
        const auto reading = readModelOfCatalogue(with(goodModel(), u"axes"_s, axes));

        EXPECT_FALSE(reading.value) << turns;
        EXPECT_EQ(reading.complaints,
                  QStringList{u"axes[1].step_turns: must be whole eighths of a turn, at least a quarter"_s});
    }
    const auto reading = readModelOfCatalogue(goodModel());
    EXPECT_EQ(reading.value, readProjectorModel(goodModel()).value);
}

struct BadPoint {
    const char* name;
    const char* isolation;
    QString complaint;

    friend void PrintTo(const BadPoint& bad, std::ostream* out) { *out << bad.name; }
};

class IsolationRefusalTest : public ::testing::TestWithParam<BadPoint> {};

TEST_P(IsolationRefusalTest, NamesThePlaceAndTheReason)
{
    const auto reading =
        readProjectorModel(with(goodModel(), u"isolation"_s, arrayFrom(GetParam().isolation)));

    EXPECT_FALSE(reading.value);
    EXPECT_EQ(reading.complaints, QStringList{GetParam().complaint});
}

// The first three: 29 CFR 1910.147(b), push buttons, selector switches and other control devices isolate
// nothing.
INSTANTIATE_TEST_SUITE_P(
    OnePointWrong, IsolationRefusalTest,
    ::testing::Values(
        BadPoint{"SoftButton",
                 R"([{"id":"p","name":"P","device":"soft-button","lockable":true,"lamphouses":["a","b"]}])",
                 u"isolation[0].device: soft-button is a control and never isolates"_s},
        BadPoint{"PushButton",
                 R"([{"id":"p","name":"P","device":"push-button","lockable":true,"lamphouses":["a","b"]}])",
                 u"isolation[0].device: push-button is a control and never isolates"_s},
        BadPoint{"Selector",
                 R"([{"id":"p","name":"P","device":"selector","lockable":true,"lamphouses":["a","b"]}])",
                 u"isolation[0].device: selector is a control and never isolates"_s},
        BadPoint{"UnknownDevice",
                 R"([{"id":"p","name":"P","device":"fuse","lockable":true,"lamphouses":["a","b"]}])",
                 u"isolation[0].device: must be one of breaker, disconnect-switch, plug"_s},
        BadPoint{"FeedsNothingKnown",
                 R"([{"id":"p","name":"P","device":"plug","lockable":true,"lamphouses":["a","b","c"]}])",
                 u"isolation[0].lamphouses: the model has no lamphouse c"_s},
        BadPoint{"LeavesALamphouseLive",
                 R"([{"id":"p","name":"P","device":"plug","lockable":true,"lamphouses":["a"]}])",
                 u"isolation: nothing isolates lamphouse b"_s},
        BadPoint{"IdTwice",
                 R"([{"id":"p","name":"P","device":"plug","lockable":true,"lamphouses":["a"]},
                     {"id":"p","name":"Q","device":"plug","lockable":true,"lamphouses":["b"]}])",
                 u"isolation[1].id: p stands here twice"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

} // namespace
} // namespace coldarc::catalogue
