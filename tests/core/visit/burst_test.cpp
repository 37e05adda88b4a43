#include "core/visit/burst.h"

#include "tests/core/visit/night.h"

namespace coldarc::visit {
namespace {

using namespace Qt::StringLiterals;
using test::Night;

TEST(BurstFillTest, PureXenonLampsHoldNoMercury)
{
    const Night night;

    EXPECT_FALSE(mayHoldMercury(night.state, night.swap()));
}

TEST(BurstFillTest, AMercuryXenonLampOnEitherSideOfTheSwapCounts)
{
    const Night night(u"sedgebrook-nook"_s, Night::Crew::Alone, u"isling-16"_s);

    EXPECT_TRUE(mayHoldMercury(night.state, night.swap()));
}

TEST(BurstFillTest, OnlyTheOldOneOrOnlyTheNewOneIsEnough)
{
    for (const bool isOld : {true, false}) {
        visit::Opening opening = Night(u"sedgebrook-nook"_s).opening();
        LampFacts& lamp = isOld ? opening.fitted.first() : opening.swaps.first().newLamp;
        const LampFacts& other = isOld ? opening.swaps.first().newLamp : opening.fitted.first();
        ASSERT_FALSE(mayHoldMercury(Night(opening).state, Night(opening).swap()));
        ASSERT_NE(other.type, LampTypeId(u"isling-16"_s));
        lamp.type = LampTypeId(u"isling-16"_s);
        const Night night(opening);

        EXPECT_TRUE(mayHoldMercury(night.state, night.swap())) << isOld;
    }
}

TEST(BurstFillTest, ALampThatNobodyKnowsCountsAsOneThatHoldsMercury)
{
    visit::Opening opening = Night().opening();
    opening.fitted.first().type.reset();
    const Night night(opening);

    EXPECT_TRUE(mayHoldMercury(night.state, night.swap()));
}

} // namespace
} // namespace coldarc::visit
