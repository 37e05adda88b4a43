#include "ui/visit/printed_page.h"

#include "core/photometry/tolerance_file.h"
#include "tests/core/photometry/good_sheet.h"
#include "tests/core/visit/night.h"
#include "tests/ui/visit/visit_at_work.h"

#include <QTemporaryDir>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using test::VisitAtWork;

/// A night with its screen read under the new lamp and held against the theatre's limits, all invented.
class PrintedPageTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        night.doUntil(u"measure-screen"_s);
        night.clock.advance(30min);
        const StepId step = night.next().step->id;
        const auto loading = photometry::loadToleranceSets(test::sourceFile("resources/photometry"));
        for (const photometry::ToleranceSet& set : loading.sets) {
            if (set.id.text() == u"digital-theatre") {
                ASSERT_TRUE(night.tell(visit::ScreenLimits{night.swap().id, step, set}));
            }
        }
        said = {night.swap().id, step};
        said.conditions = photometry::test::goodConditions();
        said.conditions.lit = 25min;
    }
    [[nodiscard]] QString page() const
    {
        return printedPage(night.state, night.entries, Hash(), QTimeZone::utc());
    }

    Night night;
    visit::ScreenConditions said;
};

TEST_F(PrintedPageTest, SaysOfAVerdictBySecondHandLimitsThatItIsNoConformityClaim)
{
    ASSERT_TRUE(night.tell(said));
    night.readCentre();

    EXPECT_TRUE(page().contains(u"not a conformity claim"_s));
    EXPECT_TRUE(page().contains(u"second hand"_s));
    EXPECT_TRUE(page().contains(u"within (37.8"_s));
}

TEST_F(PrintedPageTest, HoldsTheVerdictBackThatAWarmLampIsNeededFor)
{
    said.conditions.lit = 5min;
    ASSERT_TRUE(night.tell(said));
    night.readCentre();

    EXPECT_TRUE(page().contains(u"held back"_s));
    EXPECT_FALSE(page().contains(u"within (37.8"_s)) << "no verdict on a light that still rises";
}

TEST_F(PrintedPageTest, TellsWhatTheExpectedLightIsWorkedOutFrom)
{
    said.lumens = 9100;
    said.gain = 1.1;
    ASSERT_TRUE(night.tell(said));
    night.readCentre();

    EXPECT_TRUE(page().contains(u"9100 lm leave the projector; gain of the screen 1.1"_s));
}

TEST(PrintedVisitTest, TellsWhoWhatWhenAndIsCutOffNowhere)
{
    Night night;
    night.doAll();
    ASSERT_TRUE(night.tell(visit::Signed{u"performed"_s}));
    VisitAtWork work(night);

    const QString html =
        printedPage(work.state(), work.entries(), work.desk().logbook().head(), QTimeZone::utc());

    for (const QString& text :
         {u"Pier Street"_s, u"A. Okoro"_s, u"NEW000001"_s, u"OLD000001"_s, u"900 h"_s, u"Try to start it"_s,
          u"did and led the work"_s, u"Screen under the new lamp"_s, u"+00:00"_s})
        EXPECT_TRUE(html.contains(text)) << text.toStdString();
    EXPECT_LE(widthLaidOut(html, 490), 490.0); // A4 less its margins, in points
    QTemporaryDir folder;
    ASSERT_TRUE(writePdf(html, folder.filePath(u"visit.pdf"_s)));
    EXPECT_GT(QFileInfo(folder.filePath(u"visit.pdf"_s)).size(), 2000);
    EXPECT_FALSE(writePdf(html, folder.filePath(u"nowhere/visit.pdf"_s)));
}

TEST(PrintedVisitTest, OfAFollowUpNamesOneLampAndTheScreenUnderIt)
{
    Night night(test::followUpOf(Night(), {u"measure-screen"_s}));
    night.doAll();
    VisitAtWork work(night);

    const QString html =
        printedPage(work.state(), work.entries(), work.desk().logbook().head(), QTimeZone::utc());

    EXPECT_TRUE(html.contains(u"Screen under the lamp that is in"_s));
    EXPECT_TRUE(html.contains(u"Lamp found"_s));
    EXPECT_FALSE(html.contains(u"Lamp brought"_s));
    EXPECT_FALSE(html.contains(u"new lamp"_s));
}

} // namespace
} // namespace coldarc::ui
