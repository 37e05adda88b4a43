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

TEST(BurstFillTest, ALampThatNobodyKnowsCountsAsOneThatHoldsMercury)
{
    visit::Opening opening = Night().opening();
    opening.fitted.first().type.reset();
    const Night night(opening);

    EXPECT_TRUE(mayHoldMercury(night.state, night.swap()));
}

} // namespace
} // namespace coldarc::visit
