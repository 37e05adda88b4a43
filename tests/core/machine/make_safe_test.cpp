#include "core/machine/make_safe.h"

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

} // namespace
} // namespace coldarc::test
