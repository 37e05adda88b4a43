#include "core/photometry/meter_table.h"

#include "tests/support/testing.h"

#include <QBuffer>
#include <QStringEncoder>

#include <algorithm>

namespace coldarc::photometry {

void PrintTo(const BadMeterRow& bad, std::ostream* out)
{
    *out << "line " << bad.line << " column " << bad.column << " why " << static_cast<int>(bad.why) << " '"
         << bad.cell.toStdString() << "'";
}

namespace {

using namespace Qt::StringLiterals;
using Why = BadMeterRow::Why;
using BadRows = std::vector<BadMeterRow>;

/// A device that counts what is taken from it: endless, or broken from the start.
class CountingDevice : public QIODevice {
public:
    explicit CountingDevice(bool isBroken)
        : m_isBroken(isBroken)
    {
        open(QIODevice::ReadOnly | QIODevice::Unbuffered);
    }
    [[nodiscard]] bool isSequential() const override { return true; }
    [[nodiscard]] bool atEnd() const override { return false; }
    qint64 taken = 0;

protected:
    qint64 readData(char* data, qint64 most) override
    {
        if (m_isBroken)
            return -1;
        std::fill_n(data, most, '7');
        taken += most;
        return most;
    }
    qint64 writeData(const char*, qint64) override { return -1; }

private:
    bool m_isBroken;
};

tl::expected<QString, TableFault> textOf(QByteArray bytes)
{
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::ReadOnly);
    return readMeterText(buffer);
}

TEST(MeterTextTest, ReadsUtf8WithOrWithoutItsMark)
{
    EXPECT_EQ(textOf("L;x\r\n48;0.3\r\n"), u"L;x\n48;0.3\n"_s);
    EXPECT_EQ(textOf("\xef\xbb\xbf"
                     "cd/m\xc2\xb2"),
              u"cd/m²"_s);
}

TEST(MeterTextTest, ReadsUtf16WithItsMark)
{
    QStringEncoder encoder(QStringConverter::Utf16LE, QStringConverter::Flag::WriteBom);
    EXPECT_EQ(textOf(encoder.encode(u"L\t48,1"_s)), u"L\t48,1"_s);
}

TEST(MeterTextTest, ReadsTheOldEightBitLetters)
{
    EXPECT_EQ(textOf("cd/m\xb2"), u"cd/m²"_s);
}

TEST(MeterTextTest, RefusesAnEmptyFile)
{
    EXPECT_EQ(textOf("").error(), TableFault::Empty);
}

TEST(MeterTextTest, RefusesBytesThatAreNoText)
{
    EXPECT_EQ(textOf(QByteArray("PK\x03\x04\x00\x00", 6)).error(), TableFault::NotText);
}

TEST(MeterTextTest, RefusesALongFileWithoutReadingIt)
{
    CountingDevice endless(false);
    EXPECT_EQ(readMeterText(endless).error(), TableFault::TooLong);
    EXPECT_LE(endless.taken, 2 * kMostTableBytes);

    EXPECT_TRUE(textOf(QByteArray(kMostTableBytes, '7')));
    EXPECT_EQ(textOf(QByteArray(kMostTableBytes + 1, '7')).error(), TableFault::TooLong);
}

TEST(MeterTextTest, SaysThatTheDiskRefused)
{
    CountingDevice broken(true);
    EXPECT_EQ(readMeterText(broken).error(), TableFault::CannotBeRead);
}

MeterTable tableOf(const QString& text)
{
    const auto table = readMeterTable(text);
    EXPECT_TRUE(table);
    return table.value_or(MeterTable{});
}

TEST(MeterTableTest, FindsTheSeparatorThatMostLinesHave)
{
    EXPECT_EQ(tableOf(u"invented meter, number 7\nplace;Y\ncentre;48,1\nleft;40,2\n"_s).separator,
              QChar(u';'));
    EXPECT_EQ(tableOf(u"place\tY\ncentre\t48,1\n"_s).separator, QChar(u'\t'));
    EXPECT_EQ(tableOf(u"place,Y\ncentre,48.1\n\"left; low\",40\nright,41"_s).separator, QChar(u','));
    EXPECT_EQ(readMeterTable(u"a;b,c"_s, QChar(u','))->columns, 2);
}

TEST(MeterTableTest, RefusesAnEmptyOrAnEndlessTable)
{
    EXPECT_EQ(readMeterTable({}).error(), TableFault::Empty);
    EXPECT_EQ(readMeterTable(u" \n;;\n\n"_s).error(), TableFault::Empty);
    EXPECT_TRUE(readMeterTable(u"Y\n"_s + u"48\n"_s.repeated(4999)));
    EXPECT_EQ(readMeterTable(u"Y\n"_s + u"48\n"_s.repeated(5000)).error(), TableFault::TooLong);
}

MeterMapping guessFor(const QString& text)
{
    return guessMapping(tableOf(text));
}

TEST(MeterMappingTest, IsGuessedFromTheHeading)
{
    const MeterMapping mapping =
        guessFor(u"invented meter;;;\nPoint;Luminance (fL);x;y\ncentre;14,01;0,314;0,351\n"_s);

    MeterMapping expected;
    expected.headerLines = 2;
    expected.columns.place = 0;
    expected.columns.luminance = 1;
    expected.columns.x = 2;
    expected.columns.y = 3;
    expected.unit = LuminanceUnit::FootLamberts;
    expected.sign = DecimalSign::Comma;
    EXPECT_EQ(mapping, expected);
}

TEST(MeterMappingTest, TellsTheLuminanceFromTheColourByTheLettersCase)
{
    const MeterColumns columns = guessFor(u"x,y,Y\n0.314,0.351,48\n"_s).columns;
    EXPECT_EQ(columns.x, 0);
    EXPECT_EQ(columns.y, 1);
    EXPECT_EQ(columns.luminance, 2);
}

TEST(MeterMappingTest, TakesOnePairOfCoordinates)
{
    const MeterColumns both = guessFor(u"Lv,x,y,u',v'\n48,0.314,0.351,0.19,0.48\n"_s).columns;
    EXPECT_TRUE(both.x && both.y && !both.u && !both.v);
    const MeterColumns primed = guessFor(u"Lv,u',v'\n48,0.19,0.48\n"_s).columns;
    EXPECT_TRUE(!primed.x && primed.u == 1 && primed.v == 2);
}

TEST(MeterMappingTest, GuessesNothingFromFiguresAlone)
{
    EXPECT_EQ(guessFor(u"48,40\n41,39\n"_s), MeterMapping{});
}

TEST(MeterMappingTest, SeesACommaInTheFiguresAndNotInTheWords)
{
    EXPECT_EQ(guessFor(u"place;Y\n\"left, low\";48.1\n"_s).sign, DecimalSign::Point);
    EXPECT_EQ(guessFor(u"place;Y\nleft;48,1\n"_s).sign, DecimalSign::Comma);
}

tl::expected<std::vector<MeterRow>, BadRows> rowsOf(const QString& text,
                                                    Convention convention = Convention::FiveOfWidth)
{
    const MeterTable table = tableOf(text);
    return readMeterRows(table, guessMapping(table), convention);
}

BadRows badRowsOf(const QString& text, Convention convention = Convention::FiveOfWidth)
{
    const auto rows = rowsOf(text, convention);
    return rows ? BadRows{} : rows.error();
}

TEST(MeterRowsTest, AreReadWithPlaceLightAndColour)
{
    const auto rows = rowsOf(u"point;Y;x;y\nCentre;48,1;0,314;0,351\n\nTop Left;36;0,315;0,350\n"_s);

    ASSERT_TRUE(rows);
    ASSERT_EQ(rows->size(), 2u);
    EXPECT_EQ(rows->at(0), (MeterRow{2,
                                     Place::Centre,
                                     {Luminance::fromCdPerM2(48.1), LuminanceUnit::CdPerM2,
                                      Chromaticity::fromXy(0.314, 0.351)}}));
    EXPECT_EQ(rows->at(1).line, 4);
    EXPECT_EQ(rows->at(1).place, Place::TopLeft);
}

TEST(MeterRowsTest, AreReadInFootLambertsAndUv)
{
    const auto rows = rowsOf(u"fL\tu'\tv'\n14\t0.190765\t0.479800\n"_s);

    ASSERT_TRUE(rows);
    EXPECT_FALSE(rows->at(0).place);
    EXPECT_NEAR(rows->at(0).reading.luminance.cdPerM2(), 47.96763, 1e-5);
    EXPECT_EQ(rows->at(0).reading.shownIn, LuminanceUnit::FootLamberts);
    EXPECT_NEAR(rows->at(0).reading.colour->x(), 0.314, 2e-6);
    EXPECT_NEAR(rows->at(0).reading.colour->y(), 0.351, 2e-6);
}

// ICDM IDMS 8.1 (READ): points are numbered left to right, top to bottom.
TEST(MeterRowsTest, KnowTheNumberedPointsOfTheTenthGridByHowManyThereAre)
{
    const auto five = rowsOf(u"point,Y\n1,36\n2,37\n3,48\n4,38\n5,39\n"_s, Convention::TenthGrid);
    ASSERT_TRUE(five);
    EXPECT_EQ(five->at(2).place, Place::Centre);
    EXPECT_EQ(five->at(4).place, Place::BottomRight);

    const auto nine =
        rowsOf(u"point,Y\n1,3\n2,3\n3,3\n4,3\n5,48\n6,3\n7,3\n8,3\n9,3\n"_s, Convention::TenthGrid);
    ASSERT_TRUE(nine);
    EXPECT_EQ(nine->at(2).place, Place::TopRight);
    EXPECT_EQ(nine->at(4).place, Place::Centre);
}

TEST(MeterRowsTest, GiveANumberNoMeaningElsewhere)
{
    EXPECT_EQ(badRowsOf(u"point,Y\n1,48\n"_s), (BadRows{{2, 0, Why::NoSuchPlace, u"1"_s}}));
    EXPECT_EQ(badRowsOf(u"point,Y\n1,3\n2,3\n3,3\n4,3\n5,3\n"_s).size(),
              5u); // five, but of another convention
    EXPECT_EQ(badRowsOf(u"point,Y\n1,48\n"_s, Convention::TenthGrid),
              (BadRows{{2, 0, Why::NoSuchPlace, u"1"_s}}));
    EXPECT_EQ(badRowsOf(u"point,Y\n1,3\n2,3\n3,3\n4,3\n6,3\n"_s, Convention::TenthGrid),
              (BadRows{{6, 0, Why::NoSuchPlace, u"6"_s}}));
}

TEST(MeterRowsTest, AreAllRefusedWithEveryBadLineListed)
{
    EXPECT_EQ(badRowsOf(u"point;Y;x;y\n"
                        "centre;48;0.314;0.351\n"
                        "left;forty;0.314;0.351\n"
                        "right;41;0.314;0.351\n"
                        "top;;0.314;0.351\n"
                        "bottom;-1;0.314;0.351\n"
                        "top-left;20001;0.314;0.351\n"
                        "top-right;40;0.9;0.351\n"
                        "bottom-left;40;0.314;\n"
                        "middle;40;0.314;0.351\n"
                        "centre;47;0.314;0.351\n"
                        "bottom-right;40\n"
                        "bottom-right;40;0.314;0.351;0\n"_s),
              (BadRows{{3, 1, Why::NotANumber, u"forty"_s},
                       {5, 1, Why::Empty, {}},
                       {6, 1, Why::Negative, u"-1"_s},
                       {7, 1, Why::TooLarge, u"20001"_s},
                       {8, 2, Why::NotAColour, u"0.9"_s},
                       {9, 3, Why::Empty, {}},
                       {10, 0, Why::NoSuchPlace, u"middle"_s},
                       {11, 0, Why::PlaceTwice, u"centre"_s},
                       {12, -1, Why::TooFewCells, {}},
                       {13, -1, Why::TooManyCells, {}}}));
}

TEST(MeterRowsTest, SeeADecimalCommaThatTheTableTakesForASeparator)
{
    EXPECT_EQ(badRowsOf(u"Y\n48,1\n"_s), (BadRows{{2, -1, Why::TooManyCells, {}}}));
}

TEST(MeterRowsTest, RefuseTheDecimalSignThatWasNotChosen)
{
    const MeterTable table = tableOf(u"point;Y\ncentre;48.1\n"_s);
    MeterMapping mapping = guessMapping(table);
    mapping.sign = DecimalSign::Comma;

    EXPECT_EQ(readMeterRows(table, mapping, Convention::FiveOfWidth).error(),
              (BadRows{{2, 1, Why::NotANumber, u"48.1"_s}}));
}

TEST(MeterRowsTest, RefuseAQuoteThatDoesNotEnd)
{
    EXPECT_EQ(badRowsOf(u"point,Y\ncentre,\"48\n"_s), (BadRows{{2, -1, Why::OpenQuote, {}}}));
}

TEST(MeterRowsTest, RefuseATableThatIsOnlyAHeading)
{
    EXPECT_EQ(badRowsOf(u"point,Y\n"_s), (BadRows{{0, -1, Why::NoRows, {}}}));
}

TEST(MeterRowsTest, RefuseAMappingThatCannotBe)
{
    const MeterTable table = tableOf(u"point,Y,x,y\ncentre,48,0.3,0.3\n"_s);
    const auto faults = [&](const MeterColumns& columns) {
        MeterMapping mapping;
        mapping.columns = columns;
        const auto rows = readMeterRows(table, mapping, Convention::FiveOfWidth);
        return rows ? BadRows{} : rows.error();
    };
    EXPECT_EQ(faults({}), (BadRows{{0, -1, Why::NoLuminanceColumn, {}}}));
    EXPECT_EQ(faults({0, 1, 2, {}, {}, {}}), (BadRows{{0, -1, Why::HalfAColour, {}}}));
    EXPECT_EQ(faults({0, 1, {}, {}, {}, 3}), (BadRows{{0, -1, Why::HalfAColour, {}}}));
    EXPECT_EQ(faults({{}, 1, 2, 3, 0, 0}),
              (BadRows{{0, -1, Why::HalfAColour, {}}, {0, 0, Why::ColumnTwice, {}}}));
    EXPECT_EQ(faults({1, 1, {}, {}, {}, {}}), (BadRows{{0, 1, Why::ColumnTwice, {}}}));
    EXPECT_EQ(faults({0, 4, {}, {}, {}, {}}), (BadRows{{0, 4, Why::NoSuchColumn, {}}}));
    EXPECT_EQ(faults({-1, 1, {}, {}, {}, {}}), (BadRows{{0, -1, Why::NoSuchColumn, {}}}));
    EXPECT_EQ(faults({0, 1, 2, 3, {}, {}}), BadRows{});
}

// Whatever a file holds, the answer is rows or a list of faults.
TEST(MeterRowsTest, ComeOrAreRefusedWhateverTheTextIs)
{
    const QString letters = u"Yxy;,\t\"'\n\r 0148.-+eu\ufeff\u00b2"_s;
    quint32 seed = 20261125;
    for (int run = 0; run < 2000; ++run) {
        QString text = run % 2 ? u"Y;x;y\n"_s : QString();
        for (int i = 0; i < 40; ++i) {
            seed =
                seed * 1664525u + 1013904223u; // any generator does; this one is Numerical Recipes' quick one
            text += letters.at((seed >> 16) % static_cast<quint32>(letters.size()));
        }
        const auto table = readMeterTable(text);
        if (!table)
            continue;
        const auto rows = readMeterRows(*table, guessMapping(*table), Convention::TenthGrid);
        EXPECT_TRUE(rows ? !rows->empty() : !rows.error().empty()) << text.toStdString();
    }
}

std::vector<MeterRow> rowsAt(std::initializer_list<std::optional<Place>> places)
{
    std::vector<MeterRow> rows;
    for (const auto& place : places)
        rows.push_back({static_cast<int>(rows.size()) + 2, place, {Luminance::fromCdPerM2(40), {}, {}}});
    return rows;
}

const std::array kLists{std::vector{Place::Centre, Place::Left, Place::Right},
                        std::vector(kPlaces.begin(), kPlaces.end())};

TEST(PlacedTest, RowsThatNameTheirPlaceKeepIt)
{
    const auto rows = rowsAt({Place::Right, Place::Centre});
    EXPECT_EQ(placed(rows, kLists), rows);
}

TEST(PlacedTest, RowsWithoutAPlaceAreTakenInTheOrderOfTheListThatHasAsMany)
{
    EXPECT_EQ(placed(rowsAt({{}, {}, {}}), kLists), rowsAt({Place::Centre, Place::Left, Place::Right}));
    const auto nine = placed(rowsAt({{}, {}, {}, {}, {}, {}, {}, {}, {}}), kLists);
    ASSERT_TRUE(nine);
    EXPECT_EQ(nine->at(8).place, Place::BottomRight);
}

TEST(PlacedTest, NothingIsGuessedWhereTheCountFitsNoListOrOnlySomeRowsNameAPlace)
{
    EXPECT_FALSE(placed(rowsAt({{}, {}}), kLists));
    EXPECT_FALSE(placed(rowsAt({Place::Centre, {}, {}}), kLists));
}

} // namespace
} // namespace coldarc::photometry
