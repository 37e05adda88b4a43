#include "core/label/grey_picture.h"

#include "tests/support/testing.h"

#include <algorithm>

namespace coldarc::label {
namespace {

GreyPicture rows(int width, std::initializer_list<int> greys)
{
    GreyPicture picture(width, static_cast<int>(greys.size()) / width);
    std::ranges::transform(greys, picture.pixels.begin(),
                           [](int grey) { return static_cast<std::uint8_t>(grey); });
    return picture;
}

TEST(GreyPictureTest, StretchingMakesTheDarkestBlackAndTheBrightestWhite)
{
    // 100 to 150 in four pixels: (120 - 100) / 50 of 255 is 102.
    EXPECT_EQ(stretched(rows(2, {100, 120, 150, 125})), rows(2, {0, 102, 255, 128}));
    EXPECT_EQ(stretched(rows(2, {7, 7, 7, 7})), rows(2, {7, 7, 7, 7})) << "of one grey";
    EXPECT_EQ(stretched(GreyPicture()), GreyPicture());
}

TEST(GreyPictureTest, StretchingLeavesOutTheOddHundredth)
{
    GreyPicture picture(20, 20, 100);
    for (int x = 0; x < 20; ++x)
        picture.at(x, 0) = 200;
    picture.at(0, 19) = 0;   // a speck
    picture.at(1, 19) = 255; // another

    const GreyPicture clear = stretched(picture);

    EXPECT_EQ(clear.at(5, 10), 0);
    EXPECT_EQ(clear.at(5, 0), 255);
}

TEST(GreyPictureTest, ReducingTakesTheMeanAndEnlargingPassesEvenly)
{
    EXPECT_EQ(reduced(rows(3, {10, 20, 9, 30, 40, 9, 9, 9, 9}), 2), rows(1, {25})) << "a rest is left out";
    EXPECT_EQ(reduced(rows(2, {1, 2}), 1), rows(2, {1, 2}));
    // Middles of the large pixels lie at -1/4, 1/4, 3/4, 5/4 of the small ones.
    EXPECT_EQ(enlarged(rows(2, {0, 100}), 2), rows(4, {0, 25, 75, 100, 0, 25, 75, 100}));
}

TEST(GreyPictureTest, AWindowIsCutWhereThePictureEnds)
{
    const GreyPicture picture = rows(3, {1, 2, 3, 4, 5, 6});

    EXPECT_EQ(window(picture, 1, 0, 2, 2), rows(2, {2, 3, 5, 6}));
    EXPECT_EQ(window(picture, 2, 1, 9, 9), rows(1, {6}));
    EXPECT_TRUE(window(picture, 5, 5, 2, 2).isEmpty());
}

TEST(GreyPictureTest, LevellingTakesOutLightThatLiesUnevenly)
{
    GreyPicture picture(64, 8);
    for (int y = 0; y < 8; ++y)
        for (int x = 0; x < 64; ++x) {
            const int light = 60 + 3 * x; // the card
            picture.at(x, y) = static_cast<std::uint8_t>(x % 8 < 3 ? light / 4 : light);
        }

    const GreyPicture level = levelled(picture, 8);

    for (int x = 12; x < 52; ++x)
        EXPECT_EQ(level.at(x, 4) > 128, picture.at(x, 4) > (60 + 3 * x) / 2) << x;
}

TEST(GreyPictureTest, SharpeningMakesAnEdgeSteeperAndSmoothingFlatter)
{
    const GreyPicture edge = rows(7, {50, 50, 50, 100, 150, 150, 150});

    EXPECT_LT(sharpened(edge, 1).at(2, 0), 50);
    EXPECT_GT(sharpened(edge, 1).at(4, 0), 150);
    EXPECT_EQ(smoothed(edge, 1).at(2, 0), 67); // (50 + 50 + 100) / 3
    EXPECT_EQ(smoothed(edge, 1).at(0, 0), 50) << "at the border fewer pixels count";
}

TEST(GreyPictureTest, AQuarterTurnMovesEachPixelAndTheWayBackFindsIt)
{
    const Turned turn = turned(rows(3, {1, 2, 3, 4, 5, 6}), 90);

    ASSERT_GE(turn.picture.width, 2);
    ASSERT_GE(turn.picture.height, 3);
    // Clockwise: the lower left corner becomes the upper left one.
    const Place corner = turn.before({0.5, 0.5});
    EXPECT_NEAR(corner.x, 0.5, 0.51);
    EXPECT_NEAR(corner.y, 1.5, 0.51);
    EXPECT_EQ(turn.picture.at(0, 0), 4);
}

TEST(GreyPictureTest, TurningByNothingChangesNothing)
{
    const GreyPicture picture = rows(3, {1, 2, 3, 4, 5, 6});
    EXPECT_EQ(turned(picture, 0).picture, picture);
}

} // namespace
} // namespace coldarc::label
