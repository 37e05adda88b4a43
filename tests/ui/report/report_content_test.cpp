#include "ui/report/report_content.h"

#include "tests/ui/report/report_night.h"

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using test::Night;

QStringList textsOf(const PaperColumn& column)
{
    QStringList texts;
    for (const PaperText& text : column)
        texts.append(text.text);
    return texts;
}

QString textOf(const QList<PaperBlock>& blocks)
{
    QStringList texts;
    for (const PaperBlock& block : blocks) {
        if (const auto* text = std::get_if<PaperText>(&block.what))
            texts.append(text->text);
        if (const auto* columns = std::get_if<PaperColumns>(&block.what)) {
            for (const PaperColumn& column : columns->columns)
                texts += textsOf(column);
        }
        if (const auto* table = std::get_if<PaperTable>(&block.what)) {
            for (const QList<PaperColumn>& row : table->rows) {
                for (const PaperColumn& column : row)
                    texts += textsOf(column);
            }
        }
    }
    return texts.join(u'\n');
}

/// The blocks of the customer's page.
QList<PaperBlock> customersPage(const QList<PaperBlock>& blocks)
{
    const auto end = std::ranges::find_if(
        blocks, [](const PaperBlock& one) { return std::holds_alternative<PaperBreak>(one.what); });
    return {blocks.begin(), end};
}

class ReportContentTest : public ::testing::Test {
protected:
    static QList<PaperBlock> of(const Night& night)
    {
        return reportContent(test::reportOfNight(night), QTimeZone::utc(), {});
    }
};

TEST_F(ReportContentTest, TheCustomersPageTellsWhoWhatWhenAndBothLamps)
{
    const Night night = test::fullNight(Night().opening());

    const QString page = textOf(customersPage(of(night)));

    for (const QString& said :
         {u"Pier Street"_s, u"Screen 1"_s, u"A. Okoro, engineer"_s, u"did and led the work"_s,
          u"C. Moor, duty manager"_s, u"was told what was done, for the site"_s, u"OLD000001"_s,
          u"NEW000001"_s, u"Counter: 900 h"_s, u"On record: 1,200 h"_s, u"Why: Hours reached"_s,
          u"Alert at: 900 h"_s, u"+00:00"_s, u"36.1"_s, u"47.2"_s, u"1.31 times"_s,
          u"Where it goes: To the maker or dealer"_s})
        EXPECT_TRUE(page.contains(said)) << said.toStdString() << "\n" << page.toStdString();
    EXPECT_EQ(page.count(u"did and led the work"_s), 1) << "the closing is signed too, and says nothing more";
}

TEST_F(ReportContentTest, TheFilePartHasEveryEntryEveryExceptionAndEverySignature)
{
    const Night night = test::fullNight(Night().opening());
    const QList<PaperBlock> blocks = of(night);
    const QString text = textOf(blocks);
    const report::Report report = test::reportOfNight(night);

    ASSERT_FALSE(report.exceptions.isEmpty()); // its counter reads less than what is on record
    EXPECT_TRUE(text.contains(u"The counter shows less than the hours on record"_s));
    for (const QString& title :
         {u"Time line"_s, u"Gates"_s, u"Isolation, locks and absence of voltage"_s, u"Gear and the zone"_s,
          u"What was read of the lamps"_s, u"Bringing up the light"_s, u"Screen under the new lamp"_s,
          u"Every entry"_s, u"Signatures"_s, u"How this is verified"_s})
        EXPECT_TRUE(text.contains(title)) << title.toStdString();
    for (const PaperBlock& block : blocks) {
        const auto* table = std::get_if<PaperTable>(&block.what);
        if (table && table->head.first() == u"Entry" && table->rows.size() == night.entries.size())
            return;
    }
    FAIL() << "no table has a row for each entry";
}

TEST_F(ReportContentTest, TheLightStandsThereAsOneCurveForEachAxisAndOneOverTime)
{
    const Night night = test::fullNight(Night().opening());
    int scans = 0;
    int traces = 0;
    for (const PaperBlock& block : of(night)) {
        const auto* drawings = std::get_if<PaperDrawings>(&block.what);
        for (const PaperDrawing& one : drawings ? drawings->drawings : QList<PaperDrawing>()) {
            scans += std::holds_alternative<PaperScan>(one) ? 1 : 0;
            traces += std::holds_alternative<PaperTrace>(one) ? 1 : 0;
        }
    }
    EXPECT_EQ(scans, night.state.ground->model(night.swap().lamphouse).axes.size());
    EXPECT_EQ(traces, 1);
}

TEST_F(ReportContentTest, NotesRemarksAndWhatWasTakenBackStandThere)
{
    Night night;
    ASSERT_TRUE(night.tell(visit::Noted{{}, u"The stair light is out."_s}));
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(
        night.tell(visit::Withdrawn{night.swap().record(StepId(u"try-start"_s)).entry, u"nobody looked"_s}));
    night.doAll();
    night.close();
    ASSERT_TRUE(night.tell(visit::Addendum{u"the site called: the fan rattles"_s}));

    const QString text = textOf(of(night));

    for (const QString& said : {u"The stair light is out."_s, u"Withdrawn later: it does not count."_s,
                                u"nobody looked"_s, u"the site called: the fan rattles"_s})
        EXPECT_TRUE(text.contains(said)) << said.toStdString();
}

TEST_F(ReportContentTest, AMachineOutOfUseIsTheFirstThingThatTheCustomerReads)
{
    Night night;
    night.doUntil(u"dust"_s);
    night.makeSafe();
    night.close();

    const QList<PaperBlock> page = customersPage(of(night));

    EXPECT_TRUE(textOf({page[1]}).contains(u"Out of use: locked and tagged."_s));
    EXPECT_TRUE(textOf(page).contains(u"Lamp brought"_s));
    EXPECT_FALSE(textOf(page).contains(u"Lamp in\n"_s));
}

TEST_F(ReportContentTest, OfAFollowUpNamesOneLampAndTheScreenUnderIt)
{
    Night night(test::followUpOf(Night(), {u"measure-screen"_s}));
    night.doAll();

    const QString text = textOf(of(night));

    EXPECT_TRUE(text.contains(u"Screen under the lamp that is in"_s));
    EXPECT_TRUE(text.contains(u"Lamp found"_s));
    EXPECT_FALSE(text.contains(u"Lamp brought"_s));
    EXPECT_FALSE(text.contains(u"under the new lamp"_s));
    EXPECT_TRUE(text.contains(u"Not closed yet"_s));
}

/// A night with its screen read under the new lamp and held against the theatre's limits.
class ReportOfAScreenTest : public ReportContentTest {
protected:
    void SetUp() override
    {
        night.doUntil(u"measure-screen"_s);
        night.clock.advance(std::chrono::minutes(30));
        const StepId step = night.next().step->id;
        const auto loading = photometry::loadToleranceSets(test::sourceFile("resources/photometry"));
        for (const photometry::ToleranceSet& set : loading.sets) {
            if (set.id.text() == u"digital-theatre") {
                ASSERT_TRUE(night.tell(visit::ScreenLimits{night.swap().id, step, set}));
            }
        }
        said = {night.swap().id, step};
        said.conditions = photometry::test::goodConditions();
        said.conditions.lit = std::chrono::minutes(25);
    }
    [[nodiscard]] QString told()
    {
        EXPECT_TRUE(night.tell(said));
        night.readCentre();
        return textOf(of(night));
    }

    Night night;
    visit::ScreenConditions said;
};

TEST_F(ReportOfAScreenTest, SaysOfAVerdictBySecondHandLimitsThatItIsNoConformityClaim)
{
    const QString text = told();

    EXPECT_EQ(text.count(u"not a conformity claim"_s), 2) << "on the customer's page, and in the file part";
    EXPECT_TRUE(text.contains(u"second hand"_s));
    EXPECT_TRUE(text.contains(u"within (37.8"_s)) << text.toStdString();
}

TEST_F(ReportOfAScreenTest, HoldsTheVerdictBackThatAWarmLampIsNeededFor)
{
    said.conditions.lit = std::chrono::minutes(5);
    const QString text = told();

    EXPECT_TRUE(text.contains(u"held back"_s));
    EXPECT_FALSE(text.contains(u"within (37.8"_s)) << "no verdict on a light that still rises";
}

TEST_F(ReportOfAScreenTest, TellsWhatTheExpectedLightIsWorkedOutFrom)
{
    said.lumens = 9100;
    said.gain = 1.1;

    EXPECT_TRUE(told().contains(u"9100 lm leave the projector; gain of the screen 1.1"_s));
}

TEST_F(ReportContentTest, ARemarkAfterClosingDoesNotProlongTheVisit)
{
    Night night;
    night.doAll();
    night.close();
    const WallTime closed = test::reportOfNight(night).until;
    night.clock.advance(std::chrono::hours(48));
    ASSERT_TRUE(night.tell(visit::Addendum{u"the site called: the fan rattles"_s}));

    EXPECT_EQ(test::reportOfNight(night).until, closed);
}

TEST_F(ReportContentTest, ASignatureThatIsMissingOrBadSaysSoInWords)
{
    Night night;
    night.doAll();
    night.close();
    QList<review::HeadSigned> signatures = test::signedAsWanted(night);
    signatures.removeFirst();
    signatures.last().isGood = false;
    const report::Report report = report::reportOf(night.entries, Hash(), signatures).value();

    const QString text = textOf(reportContent(report, QTimeZone::utc(), {}));

    EXPECT_TRUE(text.contains(u"No key signed here."_s));
    EXPECT_TRUE(text.contains(u"The signature does not verify."_s));
}

} // namespace
} // namespace coldarc::ui
