#include "ui/machine/machine_drawing.h"

#include "tests/support/testing.h"
#include "ui/machine/gate_list.h"
#include "ui/machine/machine_plan.h"
#include "ui/machine/machine_words.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"

#include <QApplication>
#include <QImage>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;

MachineView oneLamphouse()
{
    MachineView machine;
    machine.points = {{u"panel B, 14"_s, MachineView::Power::On, 0}};
    machine.projector = MachineView::Projector::On;
    machine.fan = MachineView::Run::Runs;
    machine.extraction = MachineView::Run::Runs;
    MachineView::Lamphouse house;
    house.name = u"Screen 2"_s;
    house.heat = MachineView::Heat::Lit;
    house.housing = MachineView::Cover::Shut;
    house.seat = MachineView::Seat::Clamped;
    machine.lamphouses = {house};
    return machine;
}

MachineView dead(MachineView machine)
{
    machine.points.front() = {u"panel B, 14"_s, MachineView::Power::Off, 2};
    machine.projector = MachineView::Projector::Off;
    machine.fan = MachineView::Run::Stopped;
    machine.extraction = MachineView::Run::Stopped;
    machine.lamphouses.front().heat = MachineView::Heat::Cold;
    machine.lamphouses.front().charge = MachineView::Charge::Relieved;
    return machine;
}

MachineView largest()
{
    MachineView machine = oneLamphouse();
    machine.points = {{u"distribution panel B, circuit 14"_s, MachineView::Power::Off, 3},
                      {u"rectifier, rear wall"_s, MachineView::Power::On, 0},
                      {u"uninterruptible supply"_s, MachineView::Power::Unknown, 0}};
    MachineView::Lamphouse second = machine.lamphouses.front();
    second.name = u"lower lamphouse"_s;
    second.heat = MachineView::Heat::Cold;
    second.seat = MachineView::Seat::Entered;
    second.adaptor = MachineView::Adaptor::Lost;
    second.people = {u"A. Okoro-Whitfield"_s, u"B. Lindqvist"_s};
    machine.lamphouses.append(second);
    return machine;
}

/// How many pixels of the drawing are as bright as the text, in the dark theme.
int brightPixels(MachineDrawing& drawing)
{
    const QImage image = drawing.grab().toImage();
    const int limit = tokensOf(ThemeKind::Booth).quiet.lightness() + 20;
    int bright = 0;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x)
            bright += image.pixelColor(x, y).lightness() > limit ? 1 : 0;
    }
    return bright;
}

class MachineDrawingTest : public ::testing::Test {
protected:
    MachineDrawingTest()
        : theme(*qApp)
    {
        theme.apply(ThemeKind::Booth);
    }

    Theme theme;
};

TEST_F(MachineDrawingTest, SaysEveryStateInWords)
{
    MachineDrawing drawing;
    MachineView machine = dead(oneLamphouse());
    machine.lamphouses.front().people = {u"A. Okoro"_s};
    drawing.setView(machine);

    EXPECT_EQ(
        drawing.sentences(),
        (QStringList{
            u"panel B, 14: off, 2 locks"_s, u"projector off"_s, u"fan stopped"_s, u"extraction off"_s,
            u"Screen 2: lamp cold, still under pressure, clamped, housing shut, guard shut, dowser shut, "
            "charge let down, in the zone: A. Okoro"_s}));
    EXPECT_TRUE(drawing.accessibleDescription().contains(u"still under pressure"));
}

// A cold lamp keeps its pressure: no wording may promise more than Cold (safety notes, finding F14).
TEST_F(MachineDrawingTest, NoStateIsEverCalledSafe)
{
    using Heat = MachineView::Heat;
    using Seat = MachineView::Seat;
    for (const Heat heat : {Heat::Unknown, Heat::Lit, Heat::Cooling, Heat::Cold}) {
        for (const Seat seat : {Seat::Unknown, Seat::Empty, Seat::Entered, Seat::Clamped}) {
            MachineView::Lamphouse house = oneLamphouse().lamphouses.front();
            house.heat = heat;
            house.seat = seat;
            EXPECT_FALSE(lampWords(house).contains(u"safe"));
        }
    }
}

TEST_F(MachineDrawingTest, NothingIsSaidOfCoversThatNobodyHasSeen)
{
    MachineView::Lamphouse house = oneLamphouse().lamphouses.front();
    house.heat = MachineView::Heat::Unknown;

    EXPECT_EQ(coverWords(house), u"covers not seen yet");
}

// Safety notes: it counts as charged until the tester says otherwise.
TEST_F(MachineDrawingTest, AChargeThatWasOnlyWaitedForIsNotProvedGone)
{
    EXPECT_EQ(chargeWords(MachineView::Charge::Waited), u"charge waited out, not proved");
}

TEST_F(MachineDrawingTest, AModelWhoseDoorIsTheGuardHasNoHousingToName)
{
    MachineView::Lamphouse house = oneLamphouse().lamphouses.front();
    house.housing.reset();

    EXPECT_EQ(coverWords(house), u"guard shut, dowser shut");
}

TEST_F(MachineDrawingTest, WhatNobodyKnowsIsSaidSo)
{
    const MachineView::Point point{u"panel B, 14"_s, MachineView::Power::Unknown, 0};

    EXPECT_EQ(lockWords(point), u"not known");
    EXPECT_EQ(fanWords(MachineView::Run::Unknown), u"fan not known");
}

TEST_F(MachineDrawingTest, WhatIsLiveIsLitAndWhatIsDeadIsNot)
{
    MachineDrawing drawing;
    drawing.resize(300, 300);
    drawing.setView(oneLamphouse());
    const int live = brightPixels(drawing);

    drawing.setView(dead(oneLamphouse()));
    const int isDead = brightPixels(drawing);

    EXPECT_GT(live, 3 * isDead) << isDead;
}

class MachinePlanTest : public MachineDrawingTest,
                        public ::testing::WithParamInterface<MachinePlan::Shape> {};

TEST_P(MachinePlanTest, EveryWordLiesInsideTheDrawing)
{
    for (const MachineView& machine : {oneLamphouse(), dead(oneLamphouse()), largest()}) {
        const MachinePlan plan = planOf(machine, GetParam());
        const QRectF sheet(0, 0, plan.width, plan.height);
        QList<MachinePlan::Caption> captions = plan.airCaptions;
        for (const auto& point : plan.points)
            captions.append(point.captions);
        for (const auto& house : plan.lamphouses)
            captions.append(house.captions);
        for (const auto& caption : captions)
            EXPECT_TRUE(sheet.contains(caption.at)) << caption.lines.join(u' ').toStdString();
    }
}

TEST_P(MachinePlanTest, NoTwoWordsLieOnEachOther)
{
    for (const MachineView& machine : {oneLamphouse(), dead(oneLamphouse()), largest()}) {
        const MachinePlan plan = planOf(machine, GetParam());
        QList<QRectF> taken;
        for (const auto& caption : plan.airCaptions)
            taken.append(caption.at);
        for (const auto& point : plan.points) {
            taken.append(point.box);
            for (const auto& caption : point.captions)
                taken.append(caption.at);
        }
        for (const auto& house : plan.lamphouses) {
            taken.append(house.body);
            for (const auto& caption : house.captions)
                taken.append(caption.at);
        }
        for (qsizetype i = 0; i < taken.size(); ++i) {
            for (qsizetype j = i + 1; j < taken.size(); ++j)
                EXPECT_FALSE(taken.at(i).adjusted(0.5, 0.5, -0.5, -0.5).intersects(taken.at(j)))
                    << i << ", " << j;
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Shapes, MachinePlanTest,
                         ::testing::Values(MachinePlan::Shape::Ample, MachinePlan::Shape::Tight,
                                           MachinePlan::Shape::TightAndWide));

TEST_F(MachineDrawingTest, GrowsWithTheRoomThatItIsGiven)
{
    MachineDrawing drawing;
    drawing.setView(oneLamphouse());

    EXPECT_GT(drawing.heightForWidth(360), drawing.heightForWidth(290));
    EXPECT_NEAR(fitOf(oneLamphouse(), {360, 600}).scale, 360.0 / 290, 0.001);
}

// Under a banner the words below the lamphouse, "still under pressure" among them, were cut off.
TEST_F(MachineDrawingTest, ShrinksWholeWhereTheHeightIsShort)
{
    for (const MachineView& machine : {oneLamphouse(), dead(oneLamphouse()), largest()}) {
        MachineDrawing drawing;
        drawing.setView(machine);
        const int least = drawing.minimumSizeHint().height();
        const int most = drawing.heightForWidth(303);
        ASSERT_LT(least, most);
        for (int height = least; height <= most; ++height) {
            const MachineFit fit = fitOf(machine, QSizeF(303, height));
            EXPECT_LE(fit.plan.height * fit.scale, height + 0.001);
            EXPECT_GE(fit.scale, MachineFit::kLeastScale);
        }
        drawing.resize(303, least);
        EXPECT_TRUE(drawing.fits());
        drawing.resize(303, least - 1);
        EXPECT_FALSE(drawing.fits());
    }
}

TEST_F(MachineDrawingTest, WhatItShrinksToIsDrawn)
{
    MachineDrawing drawing;
    drawing.setView(dead(oneLamphouse()));
    drawing.resize(303, drawing.minimumSizeHint().height());
    const QImage image = drawing.grab().toImage();
    const QColor ground = image.pixelColor(0, image.height() - 1);
    const auto inked = [&](int y) {
        int pixels = 0;
        for (int x = 0; x < image.width(); ++x)
            pixels += image.pixelColor(x, y) != ground ? 1 : 0;
        return pixels;
    };

    // The last line of words ends some pixels above the foot, and is there.
    EXPECT_EQ(inked(image.height() - 1), 0);
    EXPECT_GT(inked(image.height() - 8), 0);
}

TEST(GateListTest, EveryGateHasItsNameAndWhatItWaitsFor)
{
    GateList list;
    list.setView({{u"Cold"_s, GateView::Stand::Waits, u"waits 6:41"_s},
                  {u"Dead"_s, GateView::Stand::Half, u"1 of 2, waits: voltage"_s}});
    list.resize(300, list.sizeHint().height());
    list.show();

    const auto* dead = list.findChild<QWidget*>(u"gate-Dead"_s);
    ASSERT_NE(dead, nullptr);
    EXPECT_EQ(dead->accessibleName(), u"Dead: 1 of 2, waits: voltage");

    list.setView({{u"Cold"_s, GateView::Stand::Proved, u"proved 13:14"_s}});
    EXPECT_EQ(list.findChild<QWidget*>(u"gate-Dead"_s), nullptr);
    EXPECT_EQ(list.findChild<QWidget*>(u"gate-Cold"_s)->accessibleName(), u"Cold: proved 13:14");
}

TEST(GateListTest, AProvedGateIsDrawnOtherwiseThanOneThatWaits)
{
    GateList list;
    list.resize(300, 40);
    QList<QImage> pictures;
    for (const auto stand : {GateView::Stand::Waits, GateView::Stand::Half, GateView::Stand::Proved}) {
        list.setView({{u"Dead"_s, stand, u"x"_s}});
        pictures.append(list.grab(QRect(0, 0, 34, 34)).toImage());
    }

    EXPECT_NE(pictures.at(0), pictures.at(1));
    EXPECT_NE(pictures.at(1), pictures.at(2));
    EXPECT_NE(pictures.at(0), pictures.at(2));
}

} // namespace
} // namespace coldarc::ui
