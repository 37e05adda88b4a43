#include "ui/report/readings_table.h"

#include "core/base/table_text.h"
#include "tests/ui/report/report_night.h"

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using test::Night;

std::vector<TableLine> linesOf(const QByteArray& table)
{
    return tableLines(withPlainLineEnds(QString::fromUtf8(table)), u',');
}

TEST(ReadingsTableTest, HasEveryReadingWithItsUnitInTheHeaderAndSaysWhichCounts)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    night.readCentre(0, 30.5);
    visit::ScreenRead read;
    read.swap = night.swap().id;
    read.step = night.next().step->id;
    read.unit = photometry::LuminanceUnit::FootLamberts;
    read.points = {{photometry::Place::Centre, 14.0, photometry::Chromaticity::fromXy(0.314, 0.351)}};
    ASSERT_TRUE(night.tell(read));

    const auto lines = linesOf(readingsTable(night.state, night.entries));

    ASSERT_EQ(lines.size(), 3U);
    EXPECT_EQ(lines[0].cells.value(10), u"luminance (cd/m²)"_s);
    EXPECT_EQ(lines[1].cells.value(8), u"30.5"_s);
    EXPECT_EQ(lines[1].cells.value(13), u"no, corrected later"_s);
    EXPECT_EQ(lines[2].cells.value(9), u"fL"_s);
    EXPECT_EQ(lines[2].cells.value(10).left(7), u"47.9676"_s); // 14 fL of 3.4262591 cd/m2 each, NIST SP 811
    EXPECT_EQ(lines[2].cells.value(11), u"0.314"_s);
    EXPECT_EQ(lines[2].cells.value(13), u"yes"_s);
    EXPECT_TRUE(lines[2].cells.value(1).endsWith(u'Z'));
}

TEST(ReadingsTableTest, ALightReadingHasItsAxisAndKnobAndOneTakenBackIsKept)
{
    Night night;
    while (night.next().step->effect != machine::Effect::Peak)
        ASSERT_TRUE(night.doNext());
    const catalogue::ProjectorModel& model = night.state.ground->model(night.swap().lamphouse);
    for (const double shown : {31.5, 33.25}) {
        visit::LightRead read =
            visit::advisedReading(visit::lightOf(night.state, night.swap().id), model, shown);
        read.swap = night.swap().id;
        read.step = night.next().step->id;
        night.clock.advance(std::chrono::seconds(9));
        ASSERT_TRUE(night.tell(read));
    }
    ASSERT_TRUE(night.tell(visit::Withdrawn{night.entries.size() - 1, u"the meter slipped"_s}));

    const auto lines = linesOf(readingsTable(night.state, night.entries));

    ASSERT_EQ(lines.size(), 3U);
    for (const TableLine* line : {&lines[1], &lines[2]}) {
        EXPECT_EQ(line->cells.value(5), u"light run"_s);
        EXPECT_FALSE(line->cells.value(6).isEmpty());
        bool isNumber = false;
        line->cells.value(7).toDouble(&isNumber);
        EXPECT_TRUE(isNumber);
    }
    EXPECT_EQ(lines[1].cells.value(8), u"31.5"_s);
    EXPECT_EQ(lines[1].cells.value(13), u"yes"_s);
    EXPECT_EQ(lines[2].cells.value(8), u"33.25"_s) << "what was read stays, though it does not count";
    EXPECT_EQ(lines[2].cells.value(13), u"no, withdrawn"_s);
}

/// What the last column says of each reading, in order.
QStringList countsOf(const Night& night)
{
    QStringList counts;
    const auto lines = linesOf(readingsTable(night.state, night.entries));
    for (std::size_t line = 1; line < lines.size(); ++line)
        counts.append(lines[line].cells.value(13));
    return counts;
}

void goToTheLight(Night& night)
{
    for (int steps = 0; steps < 90 && night.next().step->effect != machine::Effect::Peak; ++steps)
        ASSERT_TRUE(night.doNext());
}

void readLightOnce(Night& night, double shown, qint64 replaces = -1)
{
    const catalogue::ProjectorModel& model = night.state.ground->model(night.swap().lamphouse);
    visit::LightRead read = visit::advisedReading(visit::lightOf(night.state, night.swap().id), model, shown);
    read.swap = night.swap().id;
    read.step = night.next().step->id;
    read.replaces = replaces;
    night.clock.advance(std::chrono::seconds(9));
    ASSERT_TRUE(night.tell(read));
}

/// The lamp goes out, and is lit again.
void strikeAgain(Night& night, const QString& upTo)
{
    visit::Happened failed;
    failed.incident = visit::Incident::FanOrPower;
    failed.lamphouse = night.state.ground->lamphouses[night.swap().lamphouse];
    failed.wentOut = {failed.lamphouse};
    ASSERT_TRUE(night.tell(failed));
    night.doUntil(upTo);
}

TEST(ReadingsTableTest, AReadingCountsAgainOnceItsCorrectionIsWithdrawn)
{
    Night night;
    goToTheLight(night);
    readLightOnce(night, 31.5);
    const qint64 reading = night.entries.size() - 1;
    readLightOnce(night, 33.5, reading);
    EXPECT_EQ(countsOf(night), (QStringList{u"no, corrected later"_s, u"yes"_s}));

    ASSERT_TRUE(night.tell(visit::Withdrawn{night.entries.size() - 1, u"it was right"_s}));

    EXPECT_EQ(countsOf(night), (QStringList{u"yes"_s, u"no, withdrawn"_s}));
}

TEST(ReadingsTableTest, SoDoesOneOfTheScreen)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    night.readCentre(0, 47);
    night.readCentre(0, 48);
    EXPECT_EQ(countsOf(night), (QStringList{u"no, corrected later"_s, u"yes"_s}));

    ASSERT_TRUE(night.tell(visit::Withdrawn{night.entries.size() - 1, u"it was right"_s}));

    EXPECT_EQ(countsOf(night), (QStringList{u"yes"_s, u"no, withdrawn"_s}));
}

TEST(ReadingsTableTest, WhatWasReadBeforeTheLampWasStruckAnewCountsForNothing)
{
    Night night;
    goToTheLight(night);
    readLightOnce(night, 31.5);
    night.doUntil(u"measure-screen"_s);
    night.readCentre(0, 47);
    ASSERT_EQ(countsOf(night), (QStringList{u"yes"_s, u"yes"_s}));

    strikeAgain(night, u"measure-screen"_s);
    EXPECT_EQ(countsOf(night), (QStringList{u"no, before the lamp was struck anew"_s,
                                            u"no, before the lamp was struck anew"_s}));
    night.readCentre(0, 48);

    EXPECT_EQ(countsOf(night), (QStringList{u"no, before the lamp was struck anew"_s,
                                            u"no, before the lamp was struck anew"_s, u"yes"_s}));
}

TEST(ReadingsTableTest, AReadingAtPointsThatTheLimitsDoNotKnowIsNotJudged)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    for (const auto convention : {photometry::Convention::TenthGrid, photometry::Convention::FiveOfWidth}) {
        visit::ScreenRead read{night.swap().id, night.next().step->id};
        read.convention = convention;
        read.points = {{photometry::Place::Centre, 48, std::nullopt},
                       {photometry::Place::TopLeft, 41, std::nullopt}};
        ASSERT_TRUE(night.tell(read));
    }

    ASSERT_EQ(countsOf(night).size(), 4);
    EXPECT_EQ(countsOf(night).at(1), u"no, at other points than the limits ask for"_s);
    EXPECT_EQ(countsOf(night).at(3), u"yes"_s);
}

TEST(ReadingsTableTest, ANameThatIsAFormulaIsMadePlain)
{
    visit::Opening opening = Night().opening();
    opening.people.first().name = u"=HYPERLINK(\"x\")"_s;
    Night night(opening);
    night.doUntil(u"measure-screen"_s);
    night.readCentre();

    const QByteArray table = readingsTable(night.state, night.entries);

    EXPECT_TRUE(table.contains("\"'=HYPERLINK(\"\"x\"\")\""));
    EXPECT_FALSE(table.contains(",=") || table.contains(",\"="));
}

} // namespace
} // namespace coldarc::ui
