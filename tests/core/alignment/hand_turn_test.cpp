#include "core/alignment/hand_turn.h"

#include "tests/support/testing.h"

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

using Turns = std::vector<HandTurn>;

TEST(HandTurnTest, IsOneTurnWhereTheSettingIsComeUponStraight)
{
    EXPECT_EQ(handTurnsOf({0, Direction::Forward, {3}, {0}}), (Turns{{Direction::Forward, {3}}}));
    EXPECT_EQ(handTurnsOf({0, Direction::Back, {3}, {0}}), (Turns{{Direction::Back, {3}}}));
}

TEST(HandTurnTest, GoesPastAndComesForwardWhereItHasToGoBack)
{
    // 3 back and 2 past it: 5 back, 2 forward.
    EXPECT_EQ(handTurnsOf({0, Direction::Back, {3}, {2}}),
              (Turns{{Direction::Back, {5}}, {Direction::Forward, {2}}}));
}

TEST(HandTurnTest, TakesUpThePlayFirstWhereAShortWayForwardWouldLeaveIt)
{
    // 2 back, then those 2 and the 1 that was asked.
    EXPECT_EQ(handTurnsOf({0, Direction::Forward, {1}, {2}}),
              (Turns{{Direction::Back, {2}}, {Direction::Forward, {3}}}));
}

TEST(HandTurnTest, EndsWhereTheMoveEnds)
{
    for (const Direction direction : {Direction::Forward, Direction::Back}) {
        for (const int past : {0, 1, 4}) {
            const Move move{0, direction, {5}, {past}};
            int end = 0;
            for (const HandTurn& turn : handTurnsOf(move))
                end += turn.direction == Direction::Forward ? turn.turn.count : -turn.turn.count;

            EXPECT_EQ(end, direction == Direction::Forward ? 5 : -5) << "past " << past;
            EXPECT_TRUE(past == 0 || handTurnsOf(move).back().direction == Direction::Forward);
        }
    }
}

} // namespace
} // namespace coldarc::test
