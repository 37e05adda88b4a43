#include "core/machine/effect.h"

#include "core/machine/demand.h"
#include "tests/support/testing.h"

#include <set>

namespace coldarc::test {
namespace {

using namespace machine;

TEST(EffectTest, IsReadBackFromItsOwnWord)
{
    std::set<std::string_view> words;
    for (int index = 0; index < kEffects; ++index) {
        const auto effect = static_cast<Effect>(index);

        EXPECT_EQ(effectFromWord(wordOf(effect)), effect);
        words.insert(wordOf(effect));
    }
    EXPECT_EQ(words.size(), static_cast<std::size_t>(kEffects)) << "no two effects share a word";
}

TEST(EffectTest, IsNotReadFromAWordThatIsNone)
{
    for (const char* word : {"", "unlock", "Lamp-Out", "lamp_out", "lamp-out ", "skip"})
        EXPECT_FALSE(effectFromWord(word)) << word;
}

TEST(EffectTest, HasTheWordsThatProceduresUse)
{
    // From the table of effects in the design.
    EXPECT_EQ(wordOf(Effect::Look), "look");
    EXPECT_EQ(wordOf(Effect::ExposeLamp), "expose-lamp");
    EXPECT_EQ(wordOf(Effect::JobLockOff), "job-lock-off");
    EXPECT_EQ(wordOf(Effect::Sign), "sign");
}

TEST(EffectTest, ThatIsSafeWardDemandsPhysicalOrderButNoGate)
{
    int safeWard = 0;
    for (int index = 0; index < kEffects; ++index) {
        const auto effect = static_cast<Effect>(index);
        if (!isSafeWard(effect))
            continue;
        ++safeWard;
        for (const Demand demand : demandsOf(effect))
            EXPECT_EQ(gateOf(demand), Gate::None) << wordOf(effect);
    }
    EXPECT_EQ(safeWard, 10);
}

} // namespace
} // namespace coldarc::test
