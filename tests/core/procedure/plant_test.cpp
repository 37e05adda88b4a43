#include "core/procedure/plant.h"

#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using catalogue::Cover;
using catalogue::DeviceKind;
using catalogue::IsolationRole;
using catalogue::ProjectorModel;
using catalogue::RoleId;
using catalogue::TestPointId;
using machine::kNone;
using machine::Plant;

const LampTypeId kLong(u"long"_s);
const LampTypeId kShort(u"short"_s);

/// Two lamphouses, each with its own breaker, and an igniter supply for the right one. Invented.
ProjectorModel pairModel()
{
    ProjectorModel model;
    model.lamphouses = {u"left"_s, u"right"_s};
    model.isolation = {{RoleId(u"left-feed"_s), u"Left"_s, DeviceKind::Breaker, true, {u"left"_s}},
                       {RoleId(u"right-feed"_s), u"Right"_s, DeviceKind::Breaker, true, {u"right"_s}},
                       {RoleId(u"igniter"_s), u"Igniter"_s, DeviceKind::Plug, false, {u"right"_s}}};
    model.testPoints = {{TestPointId(u"rail"_s), u"Rail"_s, Cover::Housing},
                        {TestPointId(u"clamps"_s), u"Clamps"_s, Cover::Guard}};
    model.adaptor = catalogue::Adaptor{catalogue::LampEnd::Anode, {kShort}};
    model.lampTypes = {kLong, kShort};
    model.strikeLimit = 2;
    return model;
}

TEST(PlantTest, PointsThatShareALamphouseAreOneGroup)
{
    const auto plant = plantOf(pairModel(), 1);

    ASSERT_TRUE(plant);
    EXPECT_EQ(plant->points, 3);
    EXPECT_EQ(plant->point[0].feeds, 0b01);
    EXPECT_EQ(plant->point[1].feeds, 0b10);
    EXPECT_EQ(plant->point[2].feeds, 0b10);
    EXPECT_NE(plant->point[0].group, plant->point[1].group);
    EXPECT_EQ(plant->point[1].group, plant->point[2].group);
    EXPECT_EQ(plant->lamphouse[0].points, 0b001);
    EXPECT_EQ(plant->lamphouse[1].points, 0b110);
    EXPECT_EQ(plant->lamphouse[0].group, plant->point[0].group);
    EXPECT_EQ(plant->lamphouse[1].group, plant->point[1].group);
}

TEST(PlantTest, PointsThatMeetByAThirdOneAreOneGroup)
{
    ProjectorModel model = pairModel();
    model.isolation[2].lamphouses = QStringList{u"left"_s, u"right"_s};

    const auto plant = plantOf(model, 1);

    ASSERT_TRUE(plant);
    EXPECT_EQ(plant->pointsInGroup(plant->lamphouse[0].group), 3);
    EXPECT_EQ(plant->lamphouse[0].group, plant->lamphouse[1].group);
}

TEST(PlantTest, TakesThePartsFromTheModel)
{
    const auto plant = plantOf(pairModel(), 3);

    ASSERT_TRUE(plant);
    EXPECT_EQ(plant->people, 3);
    EXPECT_FALSE(plant->person[0].authorised) << "who may do it is not the model's to say";
    EXPECT_FALSE(plant->point[2].lockable);
    EXPECT_TRUE(plant->lamphouse[1].hasHousing);
    EXPECT_TRUE(plant->lamphouse[1].hasDowser);
    EXPECT_TRUE(plant->lamphouse[1].hasAdaptor);
    EXPECT_TRUE(plant->lamphouse[1].testNeedsHousingOpen);
    EXPECT_TRUE(plant->lamphouse[1].testBehindGuard);
    EXPECT_EQ(plant->lamphouse[1].strikeLimit, 2);
    EXPECT_EQ(plant->lamphouse[0].projector, plant->lamphouse[1].projector);
}

TEST(PlantTest, ATestPointThatIsReachedShutNeedsNoOpening)
{
    ProjectorModel model = pairModel();
    model.testPoints.append({TestPointId(u"inlet"_s), u"Inlet"_s, Cover::None});

    EXPECT_FALSE(plantOf(model, 1)->lamphouse[0].testNeedsHousingOpen);
}

TEST(PlantTest, RefusesAModelThatAVisitCannotHold)
{
    ProjectorModel many = pairModel();
    while (many.isolation.size() <= machine::kMostPoints)
        many.isolation.append(many.isolation.first());
    ProjectorModel stray = pairModel();
    stray.isolation[0].lamphouses = QStringList{u"middle"_s};
    ProjectorModel unfed = pairModel();
    unfed.isolation.removeFirst();

    for (const ProjectorModel& model : {many, stray, unfed}) {
        const auto plant = plantOf(model, 1);
        ASSERT_FALSE(plant);
        EXPECT_EQ(plant.error().kind, Error::Kind::Malformed);
    }
}

TEST(PlantTest, ALampIsCountedByItsTypeAndByWhetherItNeedsTheAdaptor)
{
    const ProjectorModel model = pairModel();
    Plant plant = *plantOf(model, 1);

    const auto first = addLamp(plant, model, 0, kLong);
    const auto second = addLamp(plant, model, 1, kShort);

    EXPECT_EQ(plant.lamps, 2);
    EXPECT_NE(plant.lamp[first].type, plant.lamp[second].type);
    EXPECT_FALSE(plant.lamp[first].needsAdaptor);
    EXPECT_TRUE(plant.lamp[second].needsAdaptor);
    EXPECT_EQ(plant.lamp[second].lamphouse, 1);
    EXPECT_TRUE(plant.lamp[second].accepted);
}

TEST(PlantTest, ALampThatTheModelDoesNotTakeIsNotAccepted)
{
    const ProjectorModel model = pairModel();
    Plant plant = *plantOf(model, 1);

    const auto unknown = addLamp(plant, model, 0, std::nullopt);
    const auto stray = addLamp(plant, model, 0, LampTypeId(u"stray"_s));

    EXPECT_FALSE(plant.lamp[unknown].accepted);
    EXPECT_FALSE(plant.lamp[stray].accepted);
    EXPECT_EQ(plant.lamp[stray].type, kUnknownType);
    EXPECT_NE(kUnknownType, kNone) << "a controller that was never keyed agrees with no lamp";
}

TEST(PlantTest, GivesTheIndicesThatAProcedureNames)
{
    const StepContext context = contextOf(pairModel(), 1);

    EXPECT_EQ(context.lamphouse, 1);
    EXPECT_EQ(context.otherLamphouse, 0);
    EXPECT_EQ(context.points.value(RoleId(u"igniter"_s), kNone), 2);
    EXPECT_EQ(context.testPointsBehindGuard, QSet<TestPointId>{TestPointId(u"clamps"_s)});
    EXPECT_EQ(context.person, kNone);
    EXPECT_EQ(context.oldLamp, kNone);
}

} // namespace
} // namespace coldarc::procedure
