#include "core/machine/make_safe.h"

#include "tests/core/machine/night.h"
#include "tests/core/machine/world.h"
#include "tests/support/testing.h"

namespace coldarc::test {
namespace {

using namespace machine;

// Nobody goes near an open machine whose lamp burns. Common practice, no source:
// the lamp is put out from where the controls are, before anybody shuts anything.
TEST(MakeSafeTest, PutsOutALampThatWasFoundLitInAnOpenMachineBeforeAnybodyGoesIn)
{
    const Setting setting = oneLamphouse();
    State state;
    Act find;
    find.effect = Effect::Find;
    find.person = 0;
    find.lamphouse = 0;
    find.lamp = 0;
    find.seen.lit = true;
    find.seen.guardOpen = true;
    find.seen.housingOpen = true;
    find.seen.lamp = 0;
    state = after(setting.plant, state, find);

    const SafeStep step = nextSafeStep(setting.plant, state, 0, 0);

    ASSERT_EQ(step.kind, SafeStep::Kind::Do);
    EXPECT_EQ(step.act.effect, Effect::LampOff);
    EXPECT_TRUE(unmet(setting.plant, state, step.act).none());
}

TEST(MakeSafeTest, LooksAtTheLocksAfterANightThatNobodyWatchedBeforeAnybodyGoesInToShut)
{
    Night night;
    night.through(Effect::LockOn).happens(Happening::FoundOpen).happens(Happening::LeftAlone);
    const auto next = [&] { return nextSafeStep(night.plant, night.state, 0, 0); };
    ASSERT_EQ(next().kind, SafeStep::Kind::Report);
    EXPECT_EQ(next().event.what, Happening::LocksMissed);

    night.happens(Happening::LocksSeen);

    ASSERT_EQ(next().kind, SafeStep::Kind::Do);
    EXPECT_EQ(next().act.effect, Effect::GearOn);
    night.does(next().act);
    EXPECT_EQ(next().act.effect, Effect::EnterZone);
    night.does(next().act);
}

TEST(MakeSafeTest, SendsNobodyToTheLocksWhileSomebodyIsHurt)
{
    for (const bool isOpen : {false, true}) {
        Night night;
        night.through(Effect::LockOn);
        if (isOpen)
            night.happens(Happening::FoundOpen);
        night.happens(Happening::LeftAlone).happens(Happening::SomeoneHurt);

        const SafeStep step = nextSafeStep(night.plant, night.state, 0, 0);

        ASSERT_EQ(step.kind, SafeStep::Kind::Do);
        EXPECT_EQ(step.act.effect, Effect::TagOut);
    }
}

TEST(MakingSafe, EndsWithTheGearOff)
{
    Night night;
    night.untilBefore(E::ExposeLamp);
    SafeStep step;
    int steps = 0;
    while ((step = nextSafeStep(night.plant, night.state, 0, 0)).kind == SafeStep::Kind::Do && ++steps < 40)
        night.does(step.act);

    EXPECT_EQ(step.kind, SafeStep::Kind::Done);
    EXPECT_EQ(night.state.person[0].gear, Gear::Off);
    EXPECT_FALSE(isSomebodyInside(night.state));
}

} // namespace
} // namespace coldarc::test
