#include "core/machine/effect.h"

#include "core/machine/demand.h"
#include "core/machine/whole.h"
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

TEST(EffectTest, ComesOutOnlyInItsOwnWays)
{
    using O = Outcome;
    using E = Effect;
    constexpr int kOutcomes = static_cast<int>(O::WillNotLock) + 1;
    const std::set<std::pair<E, O>> known{
        {E::TryStart, O::NoResponse},
        {E::TryStart, O::Started},
        {E::ProveAbsence, O::Absent},
        {E::ProveAbsence, O::Voltage},
        {E::Strike, O::Lit},
        {E::Strike, O::NoLight},
        {E::Strike, O::Burst},
        {E::Count, O::Same},
        {E::Count, O::Differs},
        {E::MatchBox, O::Agrees},
        {E::MatchBox, O::Disagrees},
        {E::Unbox, O::Agrees},
        {E::Unbox, O::Disagrees},
        {E::ClampLamp, O::Agrees},
        {E::ClampLamp, O::Disagrees},
        {E::KeyController, O::Agrees},
        {E::KeyController, O::Disagrees},
        {E::LockOn, O::WillNotLock},
        {E::ShutGuard, O::Disagrees},
        {E::ShutHousing, O::Disagrees},
        {E::BoxLamp, O::Disagrees},
        {E::AdaptorOff, O::Disagrees},
        {E::AdaptorOn, O::Disagrees},
        {E::Look, O::Disagrees},
    };
    for (int effect = 0; effect < kEffects; ++effect) {
        for (int outcome = 0; outcome < kOutcomes; ++outcome) {
            const auto e = static_cast<E>(effect);
            const auto o = static_cast<O>(outcome);
            const bool isPlain = o == O::Plain && e != E::Count; // counting says what was counted
            EXPECT_EQ(canComeOut(e, o), isPlain || known.contains({e, o})) << wordOf(e) << " " << outcome;
        }
    }
}

} // namespace
} // namespace coldarc::test
