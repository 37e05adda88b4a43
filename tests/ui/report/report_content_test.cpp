#include "ui/report/report_content.h"

#include "tests/ui/report/report_night.h"
#include "ui/parts/quantities.h"
#include "ui/review/words_review.h"

#include <QSet>

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
          u"NEW000001"_s, u"Counter: 900 h"_s, u"On record: 1200 h"_s, u"Why: Hours reached"_s,
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

TEST_F(ReportContentTest, TheTimeLineAndTheGatesEndAtClosingAndARemarkOfLaterHasItsDay)
{
    Night night = test::fullNight(Night().opening());
    const QString before = textOf(of(night));
    const qint64 closed = night.entries.size() - 1;
    night.clock.advance(std::chrono::days(36));
    ASSERT_TRUE(night.tell(visit::Addendum{u"the site called: the fan rattles"_s}));

    const QList<PaperBlock> blocks = of(night);

    int lines = 0;
    for (const PaperBlock& block : blocks) {
        const auto* drawings = std::get_if<PaperDrawings>(&block.what);
        for (const PaperDrawing& one : drawings ? drawings->drawings : QList<PaperDrawing>()) {
            const auto* line = std::get_if<PaperTimeLine>(&one);
            if (!line)
                continue;
            ++lines;
            EXPECT_LT(line->minutes, 24 * 60);
            for (const PaperTimeLine::Row& row : line->rows)
                EXPECT_LE(row.bars.last().until, line->minutes) << row.name.toStdString();
            for (const PaperTimeLine::Mark& mark : line->marks)
                EXPECT_LE(mark.text.toLongLong(), closed);
        }
    }
    EXPECT_EQ(lines, 1);
    const QString after = textOf(blocks).section(u"Not on the time line: "_s, 1).section(u'\n', 0, 0);
    EXPECT_TRUE(after.startsWith(dayText(night.entries.last().at.wall, QTimeZone::utc())));
    EXPECT_TRUE(after.endsWith(u", Remark after closing, A. Okoro, entry %1"_s.arg(closed + 1)))
        << after.toStdString();
    EXPECT_FALSE(before.contains(u"Not on the time line"_s));
}

TEST_F(ReportContentTest, AScreenThatWasReadOnArrivalAloneIsNotTakenForThatOfTheNewLamp)
{
    Night night;
    night.doUntil(u"light-before"_s);
    night.readCentre(0, 36.1);
    night.doUntil(u"measure-screen"_s);
    ASSERT_TRUE(night.tell(visit::Happened{visit::Incident::NoTimeLeft, {}, {}, {}, {}, {}, {}}));
    ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(u"measure-screen"_s)}));
    night.doAll();
    night.close();

    const QString page = textOf(customersPage(of(night)));

    EXPECT_TRUE(page.contains(u"\nScreen on arrival, under the lamp that was found: centre 36.1"_s))
        << page.toStdString();
    EXPECT_FALSE(page.contains(u"\nScreen: "_s));
}

TEST_F(ReportContentTest, ALightThatNobodyMeasuredIsSaidNotToBeMeasured)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    ASSERT_TRUE(night.tell(visit::Happened{visit::Incident::NoTimeLeft, {}, {}, {}, {}, {}, {}}));
    ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(u"measure-screen"_s)}));
    night.doAll();
    night.close();
    ASSERT_TRUE(test::reportOfNight(night).swaps.front().before.isEmpty());

    EXPECT_TRUE(textOf(customersPage(of(night))).contains(u"The light on the screen was not measured."_s));
    EXPECT_FALSE(
        textOf(customersPage(of(test::fullNight(Night().opening())))).contains(u"was not measured."_s));
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

TEST_F(ReportOfAScreenTest, OfTheCentreAloneSaysThatNotEverythingWasMeasured)
{
    const QString text = told();

    EXPECT_EQ(text.count(u"othing is outside; not everything was measured"_s), 2)
        << "on the customer's page, and in the file part";
    EXPECT_FALSE(text.contains(u"udged yet"_s)) << "nobody judges it any later";
}

TEST_F(ReportOfAScreenTest, ACurrentThatTheLampIsNotMadeForStandsThereAsThat)
{
    const catalogue::LampType& type = night.newType();
    said.conditions.lampAmperes = type.leastAmperes - 1;

    const QString text = told();

    EXPECT_EQ(text.count(
                  u"outside the %1 to %2 A of this lamp type"_s.arg(type.leastAmperes).arg(type.mostAmperes)),
              2)
        << "on the customer's page, and in the file part";
}

TEST_F(ReportOfAScreenTest, OneThatItIsMadeForIsNoneToSpeakOf)
{
    said.conditions.lampAmperes = night.newType().leastAmperes;

    EXPECT_FALSE(told().contains(u"of this lamp type"_s));
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

class ReportOfSignaturesTest : public ReportContentTest {
protected:
    void SetUp() override
    {
        night.doAll();
        night.close();
        signatures = test::signedAsWanted(night);
    }
    [[nodiscard]] QList<PaperBlock> content(const PictureBytes& pictures = {}) const
    {
        return reportContent(report::reportOf(night.entries, Hash(), signatures).value(), QTimeZone::utc(),
                             pictures);
    }

    Night night;
    QList<review::HeadSigned> signatures;
};

TEST_F(ReportOfSignaturesTest, UnderEachStandsItsKeyAndWhichOfficeVouchesForIt)
{
    const QString text = textOf(content());

    EXPECT_EQ(text.count(u"key invented-key; vouched for by office invented-office (2025-11-01 to "
                         "2026-10-31) as that of A. Okoro, engineer"_s),
              signatures.size());
    EXPECT_FALSE(text.contains(u"obody vouches"_s));
}

TEST_F(ReportOfSignaturesTest, TheCustomerReadsThatNobodyVouchesForAKey)
{
    signatures[1].vouchedBy.clear();

    const QList<PaperBlock> blocks = content();

    EXPECT_EQ(textOf(customersPage(blocks)).count(u"Nobody vouches for a key that signed here"_s), 1);
    EXPECT_EQ(textOf(blocks).count(u"key invented-key; nobody vouches for this key"_s), 1);
}

TEST_F(ReportOfSignaturesTest, OneOfTheFormerFormNamesNeitherPersonNorMoment)
{
    for (review::HeadSigned& one : signatures)
        one.isFormer = true;

    const QList<PaperBlock> blocks = content();
    const QString page = textOf(customersPage(blocks));
    const QString text = textOf(blocks);

    EXPECT_EQ(page.count(u"nobody named"_s), 1);
    EXPECT_EQ(page.count(u"no moment named"_s), 1);
    EXPECT_FALSE(page.contains(u"A. Okoro"_s)) << "the entry has the name, the signature does not";
    EXPECT_EQ(text.count(u"a signature of the former form, which names neither person nor moment"_s),
              signatures.size());
    EXPECT_FALSE(text.contains(u"No key signed here."_s));
}

TEST_F(ReportOfSignaturesTest, WhatStandsBehindTheLastOneIsMarkedAsSignedByNobody)
{
    EXPECT_TRUE(textOf(content()).contains(u"The signed record of"_s));
    EXPECT_FALSE(textOf(content()).contains(u"igned by nobody"_s));
    const qsizetype closed = night.entries.size() - 1;
    ASSERT_TRUE(night.tell(visit::Addendum{u"the site called: the fan rattles"_s}));
    ASSERT_TRUE(night.tell(visit::Addendum{u"and called again"_s}));

    const QList<PaperBlock> blocks = content();

    const QString page = textOf(customersPage(blocks));
    EXPECT_TRUE(page.contains(u"signed up to entry %1,"_s.arg(closed))) << page.toStdString();
    EXPECT_FALSE(page.contains(u"The signed record"_s));
    EXPECT_EQ(textOf(blocks).count(u"Signed by nobody."_s), 2);
    EXPECT_TRUE(textOf(blocks).contains(
        u"Signed up to entry %1. Of the entries behind it, 2 of them, no signature shows"_s.arg(closed)));
}

TEST_F(ReportOfSignaturesTest, OfARecordWithoutAnyNoPageSpeaksOfASignedOne)
{
    signatures.clear();

    const QString text = textOf(content());

    EXPECT_TRUE(text.contains(u"entries, which nobody has signed,"_s));
    EXPECT_TRUE(text.contains(u"Nobody has signed this record"_s));
    EXPECT_FALSE(text.contains(u"signed record"_s));
    EXPECT_FALSE(text.contains(u"after it was signed"_s));
}

TEST_F(ReportContentTest, APictureThatTheRecordLacksIsSaidInItsPlace)
{
    Night night;
    ASSERT_TRUE(night.tell(visit::PictureKept{night.swap().id, {}, u"box"_s, sha256("a label")}));
    const report::Report report = test::reportOfNight(night);
    const auto text = [&](const PictureBytes& pictures) {
        return textOf(reportContent(report, QTimeZone::utc(), pictures));
    };

    EXPECT_EQ(text([](const Hash&) { return QByteArray(); }).count(u"Picture not in the record."_s), 2)
        << "with the labels, and among all entries";
    EXPECT_FALSE(text([](const Hash&) { return QByteArray("a label"); }).contains(u"not in the record"_s));
    EXPECT_FALSE(text({}).contains(u"not in the record"_s)) << "none were asked for";
}

TEST_F(ReportContentTest, ALampThatWasBroughtAndNotFittedIsNotTheOneThatLit)
{
    const Night night = test::fullNight(Night().opening());
    report::Report report = test::reportOfNight(night);
    report.swaps.front().wasExchanged = false;
    ASSERT_TRUE(report.swaps.front().in);

    const QString text = textOf(reportContent(report, QTimeZone::utc(), {}));

    EXPECT_TRUE(text.contains(u"Light under the lamp that is in"_s));
    EXPECT_TRUE(text.contains(u"Screen under the lamp that is in"_s));
    EXPECT_FALSE(text.contains(u"Light after"_s));
    EXPECT_FALSE(text.contains(u"Screen under the new lamp"_s));
}

TEST_F(ReportContentTest, WhenTheLampComesDueIsToldOnlyAsFarAsItIsKnown)
{
    const Night night = test::fullNight(Night().opening());
    report::Report report = test::reportOfNight(night);
    const auto text = [&](const report::NextDue& due) {
        report.swaps.front().due = due;
        return textOf(reportContent(report, QTimeZone::utc(), {}));
    };

    const QString told = text({900, 280.0, report.until, 56.0});
    EXPECT_TRUE(told.contains(u"Next due: about "_s));
    EXPECT_TRUE(told.contains(u", at 56 h a week"_s)) << "of this screen";
    EXPECT_TRUE(text({900, 0.0, {}}).contains(u"Next due: the counter stands at the alert"_s));
    EXPECT_TRUE(text({900, {}, {}}).contains(u"Next due: not known"_s));
}

TEST_F(ReportContentTest, RowsHaveTheirOffsetAndTheDateOnceThereIsMoreThanOne)
{
    Night night;
    ASSERT_TRUE(night.tell(visit::Happened{visit::Incident::NoTimeLeft, {}, {}, {}, {}, {}, {}}));
    const QString first = wallTextWithOffset(night.entries.first().at.wall, QTimeZone::utc());
    const auto timesIn = [&](const QString& head) {
        QSet<QString> times;
        for (const PaperBlock& block : of(night)) {
            const auto* table = std::get_if<PaperTable>(&block.what);
            const qsizetype column = table ? table->head.indexOf(u"Time"_s) : -1;
            if (column < 0 || !table->head.contains(head))
                continue;
            for (const QList<PaperColumn>& row : table->rows)
                times.insert(row[column].first().text);
        }
        return times;
    };
    for (const QString& head : {u"Who"_s, u"More"_s, u"What was done about it"_s}) {
        ASSERT_FALSE(timesIn(head).isEmpty()) << head.toStdString();
        for (const QString& time : timesIn(head))
            EXPECT_EQ(time.size(), u"19:00:00 +00:00"_s.size()) << head.toStdString();
    }

    night.clock.advance(std::chrono::hours(24));
    ASSERT_TRUE(night.tell(visit::Noted{{}, u"the next evening"_s}));

    EXPECT_TRUE(timesIn(u"Who"_s).contains(first));
    for (const QString& head : {u"Who"_s, u"More"_s, u"What was done about it"_s}) {
        for (const QString& time : timesIn(head))
            EXPECT_EQ(time.size(), first.size()) << head.toStdString();
    }
}

} // namespace
} // namespace coldarc::ui
