#include "core/label/compare_fields.h"

#include "core/label/normalise.h"
#include "tests/support/testing.h"

#include <QFile>
#include <QStringList>

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;
using Kind = Segment::Kind;

const QString kLetters = u"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"_s;

QString cut(const QString& text, Span span)
{
    return text.mid(span.at, span.length);
}

struct DistanceCase {
    const char* name;
    QString a;
    QString b;
    int distance;

    friend void PrintTo(const DistanceCase& c, std::ostream* out) { *out << c.name; }
};

class DistanceTest : public ::testing::TestWithParam<DistanceCase> {};

TEST_P(DistanceTest, CountsTheFewestEdits)
{
    EXPECT_EQ(editDistance(GetParam().a, GetParam().b), GetParam().distance);
    EXPECT_EQ(editDistance(GetParam().b, GetParam().a), GetParam().distance);
    EXPECT_EQ(compareFields(GetParam().a, GetParam().b).distance, GetParam().distance);
}

// Source: the npm package damerau-levenshtein-js 1.1.8, which counts restricted Damerau-Levenshtein, for the
// first five; the serials are invented. CA/ABC tells the restricted count (3) from the unrestricted one (2).
INSTANTIATE_TEST_SUITE_P(Published, DistanceTest,
                         ::testing::Values(DistanceCase{"KittenSitting", u"kitten"_s, u"sitting"_s, 3},
                                           DistanceCase{"SaturdaySunday", u"saturday"_s, u"sunday"_s, 3},
                                           DistanceCase{"RestrictedCount", u"CA"_s, u"ABC"_s, 3},
                                           DistanceCase{"SwapInASerial", u"SN0047118B"_s, u"SN0047181B"_s, 1},
                                           DistanceCase{"ZeroForLetter", u"SN0047118B"_s, u"SN0O47118B"_s,
                                                        1}),
                         [](const auto& instance) { return std::string(instance.param.name); });

// Source: the same package; the pairs and its answers are kept in a file that says so.
TEST(EditDistanceTest, CountsAsAnIndependentProgramDoes)
{
    QFile file(test::sourceFile("tests/core/label/edit_distances.txt"));
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    int pairs = 0;
    for (const QString& line : QString::fromUtf8(file.readAll()).split(u'\n', Qt::SkipEmptyParts)) {
        if (line.startsWith(u'#'))
            continue;
        const QStringList words = line.split(u' ');
        ASSERT_EQ(words.size(), 3);
        EXPECT_EQ(editDistance(words[0], words[1]), words[2].toInt()) << line.toStdString();
        ++pairs;
    }
    EXPECT_EQ(pairs, 400);
}

INSTANTIATE_TEST_SUITE_P(AroundTheEdges, DistanceTest,
                         ::testing::Values(DistanceCase{"BothEmpty", u""_s, u""_s, 0},
                                           DistanceCase{"OneEmpty", u"ABC"_s, u""_s, 3},
                                           DistanceCase{"DashesAndCaseAside", u"ab-1 2"_s, u"AB12"_s, 0},
                                           DistanceCase{"TwoSwaps", u"ABCD"_s, u"BADC"_s, 2},
                                           DistanceCase{"TwinsChanged", u"A11B"_s, u"A22B"_s, 2}),
                         [](const auto& instance) { return std::string(instance.param.name); });

TEST(CompareFieldsTest, TellsOfTextsThatAreTheSameBetweenTheirDashes)
{
    const Difference difference = compareFields(u"KHM-25 16"_s, u" khm2516 "_s);

    EXPECT_TRUE(difference.isSame());
    EXPECT_EQ(difference.segments, (std::vector<Segment>{{Kind::Same, {0, 9}, {1, 7}, false}}));
}

TEST(CompareFieldsTest, TellsZeroAndLetterAsLookAlikesWhereTheyStandInTheOriginal)
{
    const QString a = u"SN-O47"_s;
    const QString b = u"sn 047"_s;

    const Difference difference = compareFields(a, b);

    ASSERT_EQ(difference.segments.size(), 3u);
    const Segment& middle = difference.segments[1];
    EXPECT_EQ(middle.kind, Kind::Differs);
    EXPECT_TRUE(middle.alike);
    EXPECT_EQ(cut(a, middle.a), u"O"_s);
    EXPECT_EQ(cut(b, middle.b), u"0"_s);
    EXPECT_EQ(cut(a, difference.segments[2].a), u"47"_s);
}

TEST(CompareFieldsTest, TellsOfNeighboursThatChangedPlaces)
{
    const QString a = u"SN0047-118B"_s;
    const QString b = u"SN00471-81B"_s;

    const Difference difference = compareFields(a, b);

    ASSERT_EQ(difference.segments.size(), 3u);
    EXPECT_EQ(difference.segments[1].kind, Kind::Swapped);
    EXPECT_EQ(cut(a, difference.segments[1].a), u"18"_s);
    EXPECT_EQ(cut(b, difference.segments[1].b), u"81"_s);
}

TEST(CompareFieldsTest, TellsOfCharactersThatAreMissingOrExtra)
{
    const Difference shorter = compareFields(u"KHM25AS"_s, u"KHM25A"_s);
    EXPECT_EQ(shorter.segments, (std::vector<Segment>{{Kind::Same, {0, 6}, {0, 6}, false},
                                                      {Kind::Missing, {6, 1}, {6, 0}, false}}));

    const Difference longer = compareFields(u"KM25"_s, u"KHM25"_s);
    EXPECT_EQ(longer.segments, (std::vector<Segment>{{Kind::Same, {0, 1}, {0, 1}, false},
                                                     {Kind::Extra, {1, 0}, {1, 1}, false},
                                                     {Kind::Same, {1, 3}, {2, 3}, false}}));
}

TEST(CompareFieldsTest, OfEquallyShortWaysTakesTheOneThatLookAlikesExplain)
{
    // A05 -> AO: either 0 became O and 5 is missing, or 0 is missing and 5 became O. The eye did the first.
    const Difference difference = compareFields(u"A05"_s, u"AO"_s);

    ASSERT_EQ(difference.segments.size(), 3u);
    EXPECT_EQ(difference.segments[1], (Segment{Kind::Differs, {1, 1}, {1, 1}, true}));
    EXPECT_EQ(difference.segments[2].kind, Kind::Missing);
}

TEST(CompareFieldsTest, KnowsThePairsThatAreTakenForEachOther)
{
    for (const QString& pair : {u"0O"_s, u"0Q"_s, u"OD"_s, u"1I"_s, u"1l"_s, u"Il"_s, u"2Z"_s, u"5S"_s,
                                u"6G"_s, u"8B"_s, u"UV"_s}) {
        EXPECT_TRUE(lookAlike(pair.at(0), pair.at(1))) << pair.toStdString();
        EXPECT_TRUE(lookAlike(pair.at(1), pair.at(0))) << pair.toStdString();
    }
    EXPECT_FALSE(lookAlike(u'A', u'A'));
    EXPECT_FALSE(lookAlike(u'o', u'O')) << "the same letter";
    EXPECT_FALSE(lookAlike(u'A', u'4'));
    EXPECT_FALSE(lookAlike(u'0', u'1'));
}

// Every slip of one character or two neighbours, in invented serials, is seen; and every segment list covers
// both texts wholly.
TEST(CompareFieldsTest, SeesEverySingleSlipInASerial)
{
    for (const QString& serial : {u"SN0047118B"_s, u"8B0O51IS2Z"_s, u"1122UVGG66"_s, u"A"_s}) {
        QStringList slips;
        for (qsizetype i = 0; i < serial.size(); ++i) {
            for (const QChar letter : kLetters)
                slips << QString(serial).replace(i, 1, letter);
            slips << QString(serial).remove(i, 1) << QString(serial).insert(i, u'7');
            if (i > 0)
                slips << serial.left(i - 1) + serial.at(i) + serial.at(i - 1) + serial.mid(i + 1);
        }
        for (const QString& slip : slips) {
            const Difference difference = compareFields(serial, slip);
            ASSERT_EQ(difference.distance, slip == serial ? 0 : 1) << slip.toStdString();
            QString a;
            QString b;
            for (const Segment& segment : difference.segments) {
                a += cut(serial, segment.a);
                b += cut(slip, segment.b);
            }
            ASSERT_EQ(a, serial);
            ASSERT_EQ(b, slip);
        }
    }
}

} // namespace
} // namespace coldarc::label
