#include "app/walk_stage.h"
#include "tests/support/testing.h"
#include "ui/parts/theme.h"

#include <QApplication>
#include <QTemporaryDir>

using namespace Qt::StringLiterals;

namespace coldarc::app {
namespace {

class HandsTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        theme.apply(ui::ThemeKind::Booth);
        auto set = WalkStage::set(folder.filePath(u"walk.coldarc"_s),
                                  {test::sourceFile("resources"), test::sourceFile("sample-data")});
        ASSERT_TRUE(set) << set.error().detail.toStdString();
        stage = std::move(*set);
    }
    [[nodiscard]] Walker walker(Walker::Refusals refusals, Walker::Labels labels = Walker::Labels::Typed)
    {
        return {stage->room(), stage->desk(), stage->clock(), {}, stage->lamps(), refusals, labels};
    }

    ui::Theme theme{*qApp};
    QTemporaryDir folder;
    std::unique_ptr<WalkStage> stage;
};

// The limits are the project's own: a swap takes two hands, and neither has time for more.
TEST_F(HandsTest, APlainSwapTakesNoMorePressesAndCharactersThanAnEngineerHasTimeFor)
{
    Walker hands = walker(Walker::Refusals::None);

    EXPECT_TRUE(hands.walk());

    EXPECT_EQ(hands.trouble(), QStringList());
    EXPECT_EQ(stage->lamps().first().code.size(), 9);
    EXPECT_EQ(stage->lamps().first().serial.size(), 9);
    EXPECT_EQ(hands.vain().presses, 0);
    EXPECT_GE(hands.plain().typed, 4 * (9 + 9)) << "box, paper, entry and marking, each on its own";
    EXPECT_LE(hands.plain().presses, 120);
    EXPECT_LE(hands.plain().typed, 110);
    EXPECT_EQ(hands.plain().typedInGear + hands.light().typedInGear, 0);
    std::printf("plain swap: %d presses, %d characters; at the light %d presses\n", hands.plain().presses,
                hands.plain().typed, hands.light().presses);
}

TEST_F(HandsTest, WithAScannerAPlainSwapTakesAtMostFortyCharactersAndOneScanEachForBoxAndMarking)
{
    Walker hands = walker(Walker::Refusals::None, Walker::Labels::Scanned);

    EXPECT_TRUE(hands.walk());

    EXPECT_EQ(hands.trouble(), QStringList());
    EXPECT_EQ(hands.vain().presses, 0);
    EXPECT_EQ(hands.plain().scans, 2);
    EXPECT_LE(hands.plain().typed, 40);
    EXPECT_LE(hands.plain().presses, 120);
    EXPECT_EQ(hands.plain().typedInGear + hands.light().typedInGear, 0);
    QList<label::Reading> read;
    for (const visit::Entry& entry : stage->logbook().entries()) {
        if (const auto* one = std::get_if<visit::LampRead>(&entry.body))
            read.append(one->reading);
    }
    ASSERT_EQ(read.size(), 4);
    EXPECT_EQ(read[0].means, label::Means::Scanned);
    EXPECT_EQ(read[1].means, label::Means::Chosen) << "the entry is somebody's own word";
    EXPECT_EQ(read[2].source, label::Source::OwnMarking);
    EXPECT_EQ(read[2].means, label::Means::Scanned);
    EXPECT_EQ(read[3].source, label::Source::OwnMarking);
    EXPECT_EQ(read[3].means, label::Means::Chosen)
        << "one code for both: somebody looks at the lamp and chooses";
    std::printf("plain swap with a scanner: %d presses, %d characters\n", hands.plain().presses,
                hands.plain().typed);
}

TEST_F(HandsTest, WhatIsRefusedOnTheWayIsSaidAndTheVisitIsClosedAllTheSame)
{
    Walker hands = walker(Walker::Refusals::OnePerGate);

    EXPECT_TRUE(hands.walk());

    EXPECT_EQ(hands.trouble(), QStringList());
    EXPECT_EQ(stage->logbook().state().end, u"done"_s);
    EXPECT_GE(hands.refusals().size(), 4) << hands.refusals().join(u'\n').toStdString();
    EXPECT_GT(hands.vain().presses, 0);
}

} // namespace
} // namespace coldarc::app
