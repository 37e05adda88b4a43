#include "core/label/gs1.h"

#include "core/label/gs1_ai.h"
#include "tests/support/testing.h"

namespace coldarc::label {

void PrintTo(const Element& element, std::ostream* out)
{
    *out << '(' << element.ai.toStdString() << ')' << element.value.toStdString();
}

void PrintTo(const Remark& remark, std::ostream* out)
{
    *out << "flaw " << int(remark.flaw) << " at (" << remark.ai.toStdString() << ')';
}

namespace {

using namespace Qt::StringLiterals;

constexpr int kYear = 2026;
using Elements = QList<Element>;
using Remarks = QList<Remark>;

// ---- Check digits ----

struct Digits {
    const char* name;
    QString number; ///< with its check digit

    friend void PrintTo(const Digits& digits, std::ostream* out) { *out << digits.name; }
};

class CheckDigitTest : public ::testing::TestWithParam<Digits> {};

TEST_P(CheckDigitTest, FindsADigitThatWasMistyped)
{
    const QString& number = GetParam().number;
    ASSERT_TRUE(hasRightCheckDigit(number));

    for (qsizetype at = 0; at < number.size(); ++at)
        for (char16_t digit = u'0'; digit <= u'9'; ++digit) {
            QString slip = number;
            slip[at] = QChar(digit);
            EXPECT_EQ(hasRightCheckDigit(slip), slip == number) << slip.toStdString();
        }
}

// Sources: gs1.org, gs1india.org and gs1.se calculators (READ); the comments of GS1's `lint_csum.c` (READ).
INSTANTIATE_TEST_SUITE_P(
    Published, CheckDigitTest,
    ::testing::Values(Digits{"Calculator", u"6291041500213"_s}, Digits{"India", u"8904000210037"_s},
                      Digits{"Sweden", u"7300011000017"_s}, Digits{"Eight", u"02345673"_s},
                      Digits{"Twelve", u"416000336108"_s}, Digits{"Thirteen", u"1234567890128"_s},
                      Digits{"Fourteen", u"12345678901231"_s}, Digits{"Eighteen", u"123456789012345675"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(CheckDigitsTest, RefusesWhatThePublishedExamplesCallWrong)
{
    EXPECT_FALSE(hasRightCheckDigit(u"12345673"));     // lint_csum.c, READ
    EXPECT_FALSE(hasRightCheckDigit(u"416000336109")); // the same
    EXPECT_FALSE(hasRightCheckDigit(u"")) << "nothing has no check digit";
    EXPECT_FALSE(hasRightCheckDigit(u"0"));
    EXPECT_FALSE(hasRightCheckDigit(u"12345A7890128"));
    EXPECT_FALSE(checkDigit(u"12 4"));
}

// ---- Dates ----

// Source: the comments of GS1's `lint_yymmd0.c`, READ.
TEST(LabelDateTest, KnowsTheDaysThatThereAre)
{
    for (const QString& day : {u"200229"_s, u"240229"_s, u"000229"_s, u"200600"_s})
        EXPECT_TRUE(gs1Date(day, kYear)) << day.toStdString();
    for (const QString& day :
         {u"210229"_s, u"200230"_s, u"201310"_s, u"200010"_s, u"20061"_s, u"2006011"_s, u"20060A"_s, u""_s})
        EXPECT_FALSE(gs1Date(day, kYear)) << day.toStdString();
}

TEST(LabelDateTest, TakesTheCenturyThatIsNearest)
{
    const auto year = [](const QString& day, int now) { return gs1Date(day, now)->year; };

    EXPECT_EQ(year(u"760101"_s, 2026), 2076); // 50 years ahead
    EXPECT_EQ(year(u"770101"_s, 2026), 1977); // 51 would be too many
    EXPECT_EQ(year(u"260101"_s, 2026), 2026);
    EXPECT_EQ(year(u"000101"_s, 2049), 2000); // 49 years back
    EXPECT_EQ(year(u"000101"_s, 2050), 2100); // 50 would be too many
    EXPECT_EQ(year(u"991231"_s, 2001), 1999);
}

TEST(LabelDateTest, DayNoughtIsAMonthAndInventsNoDay)
{
    EXPECT_EQ(gs1Date(u"280200", kYear), (LabelDate{2028, 2, std::nullopt}));
    EXPECT_EQ(gs1Date(u"280200", kYear)->lastDay(), std::chrono::sys_days(std::chrono::year(2028) / 2 / 29));
    EXPECT_EQ(gs1Date(u"280203", kYear)->lastDay(), std::chrono::sys_days(std::chrono::year(2028) / 2 / 3));
}

// ---- Element strings ----

TEST(ElementStringTest, PartsThePublishedExample)
{
    // Source: GS1 `scandata.c`, READ: (01)12312312312333 (10)ABC123 (99)TESTING
    const ElementString read = readElementString(u"011231231231233310ABC123\u001D99TESTING"_s, kYear);

    EXPECT_EQ(read.elements,
              (Elements{{u"01"_s, u"12312312312333"_s}, {u"10"_s, u"ABC123"_s}, {u"99"_s, u"TESTING"_s}}));
    EXPECT_EQ(read.remarks, Remarks());
    EXPECT_TRUE(read.isSound());
}

TEST(ElementStringTest, PartsAnInventedLabelInAnyOrder)
{
    const ElementString read = readElementString(
        u"0109506000134352\u001D21AB12-34567\u001D1124033110LOT7/A\u001D17290300240KHM\u001D241P7\u001D"_s,
        kYear);

    EXPECT_EQ(read.elements, (Elements{{u"01"_s, u"09506000134352"_s},
                                       {u"21"_s, u"AB12-34567"_s},
                                       {u"11"_s, u"240331"_s},
                                       {u"10"_s, u"LOT7/A"_s},
                                       {u"17"_s, u"290300"_s},
                                       {u"240"_s, u"KHM"_s},
                                       {u"241"_s, u"P7"_s}}));
    EXPECT_TRUE(read.isSound());
    EXPECT_EQ(read.value(u"21"), u"AB12-34567"_s);
    EXPECT_EQ(read.value(u"22"), QString());
}

TEST(ElementStringTest, ALostSeparatorRunsTwoValuesTogetherAndTheLengthTells)
{
    // The lot would be LOT721SERIALNUMBER12345678901: more than 20 characters.
    const ElementString read = readElementString(u"010950600013435210LOT721SERIALNUMBER1234567890"_s, kYear);

    EXPECT_EQ(read.remarks, (Remarks{{Flaw::Length, u"10"_s}}));
    EXPECT_FALSE(read.isSound());
}

struct Faulty {
    const char* name;
    QString text;
    Remarks remarks;

    friend void PrintTo(const Faulty& faulty, std::ostream* out) { *out << faulty.name; }
};

class FaultyStringTest : public ::testing::TestWithParam<Faulty> {};

TEST_P(FaultyStringTest, NamesWhatIsWrongAndIsNotBelieved)
{
    const ElementString read = readElementString(GetParam().text, kYear);

    EXPECT_EQ(read.remarks, GetParam().remarks);
    EXPECT_FALSE(read.isSound());
}

INSTANTIATE_TEST_SUITE_P(
    All, FaultyStringTest,
    ::testing::Values(Faulty{"Nothing", u""_s, {{Flaw::Empty, {}}}},
                      Faulty{"OnlyASeparator", u"\u001D"_s, {{Flaw::Empty, {}}}},
                      Faulty{"WrongCheckDigit", u"0109506000134351"_s, {{Flaw::CheckDigit, u"01"_s}}},
                      Faulty{"CutOff", u"01095060001343"_s, {{Flaw::Length, u"01"_s}}},
                      Faulty{"LetterInANumber", u"01095O6000134352"_s, {{Flaw::Characters, u"01"_s}}},
                      Faulty{"NoSuchDay", u"010950600013435211240230"_s, {{Flaw::Date, u"11"_s}}},
                      Faulty{"EmptyValue",
                             u"0109506000134352"
                             "10\u001D"
                             "21A"_s,
                             {{Flaw::Length, u"10"_s}}},
                      // Source: scandata.c, READ: a caret in scanned data is refused.
                      Faulty{"Caret", u"010950600013435210A^21B"_s, {{Flaw::Characters, u"10"_s}}},
                      Faulty{"TwoItems", u"01095060001343520112312312312333"_s, {{Flaw::Doubled, u"01"_s}}},
                      Faulty{"NotAllotted", u"010950600013435288X"_s, {{Flaw::NotAllotted, {}}}},
                      Faulty{"Words", u"TYPE"_s, {{Flaw::NotAllotted, {}}, {Flaw::Empty, {}}}}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(ElementStringTest, KeepsIdentifiersThatItDoesNotKnow)
{
    const ElementString read = readElementString(u"01095060001343527230AB-1\u001D4309X\u001D21S"_s, kYear);

    EXPECT_EQ(
        read.elements,
        (Elements{
            {u"01"_s, u"09506000134352"_s}, {u"7230"_s, u"AB-1"_s}, {u"4309"_s, u"X"_s}, {u"21"_s, u"S"_s}}));
    EXPECT_EQ(read.remarks, (Remarks{{Flaw::UnknownAi, u"7230"_s}, {Flaw::UnknownAi, u"4309"_s}}));
    EXPECT_TRUE(read.isSound());
}

TEST(ElementStringTest, ASerialWithoutItsItemIsOddAndStillRead)
{
    const ElementString read = readElementString(u"21AB12"_s, kYear);

    EXPECT_EQ(read.remarks, (Remarks{{Flaw::LoneSerial, u"21"_s}}));
    EXPECT_TRUE(read.isSound());
    EXPECT_EQ(read.value(u"21"), u"AB12"_s);
}

TEST(ElementStringTest, AnIdentifierOfSettledLengthNeedsNoSeparatorOthersDo)
{
    // Source: `fixedAIprefixLengths`, READ: two digits settle it, and (422), though always three digits, is
    // none.
    EXPECT_EQ(settledLength(u"01"), 14);
    EXPECT_EQ(settledLength(u"3103"), 6);
    EXPECT_EQ(settledLength(u"414"), 13);
    EXPECT_EQ(settledLength(u"422"), std::nullopt);
    EXPECT_EQ(settledLength(u"235"), std::nullopt);
    EXPECT_EQ(settledLength(u"10"), std::nullopt);
}

TEST(BracketedElementsTest, ReadsTheLineForPeople)
{
    const ElementString read = readBracketedElements(u" (01)09506000134352 (21)AB(12)C(10)7 "_s, kYear);

    // A serial that holds "(12)" cannot be told from an identifier, and its value is then no date.
    EXPECT_EQ(read.value(u"01"), u"09506000134352"_s);
    EXPECT_FALSE(read.isSound());
    EXPECT_TRUE(readBracketedElements(u"(01)09506000134352(21)AB(x)C"_s, kYear).isSound());
    EXPECT_FALSE(readBracketedElements(u"Type (01)09506000134352"_s, kYear).isSound());
    EXPECT_FALSE(readBracketedElements(u"(01"_s, kYear).isSound());
    EXPECT_FALSE(readBracketedElements(u""_s, kYear).isSound());
}

// ---- Digital Link. Source of the examples: tests in `dl.c` of the GS1 Syntax Engine, READ. ----

TEST(DigitalLinkTest, ReadsThePublishedExamples)
{
    EXPECT_EQ(
        readDigitalLink(u"https://id.gs1.org/01/09520123456788/10/ABC1/21/12345?17=180426"_s, kYear).elements,
        (Elements{{u"01"_s, u"09520123456788"_s},
                  {u"10"_s, u"ABC1"_s},
                  {u"21"_s, u"12345"_s},
                  {u"17"_s, u"180426"_s}}));
    EXPECT_EQ(readDigitalLink(u"https://id.gs1.org/414/9520123456788/254/32a%2Fb"_s, kYear).elements,
              (Elements{{u"414"_s, u"9520123456788"_s}, {u"254"_s, u"32a/b"_s}}));
    EXPECT_EQ(readDigitalLink(u"https://a/00/faux/00/006141411234567890"_s, kYear).elements,
              (Elements{{u"00"_s, u"006141411234567890"_s}}));
    EXPECT_EQ(
        readDigitalLink(u"https://example.com/01/12312312312333/10/ABC%2B123?99=XYZ%2BQWERTY"_s, kYear)
            .elements,
        (Elements{{u"01"_s, u"12312312312333"_s}, {u"10"_s, u"ABC+123"_s}, {u"99"_s, u"XYZ+QWERTY"_s}}));
}

TEST(DigitalLinkTest, LeavesOutTheFragmentAndQueriesOfOthers)
{
    const ElementString read = readDigitalLink(
        u"HTTPS://maker.example/lamps/01/09520123456788/21/A7?lang=en&11=240300#top"_s, kYear);

    EXPECT_EQ(read.elements,
              (Elements{{u"01"_s, u"09520123456788"_s}, {u"21"_s, u"A7"_s}, {u"11"_s, u"240300"_s}}));
    EXPECT_TRUE(read.isSound());
}

class NoLinkTest : public ::testing::TestWithParam<Digits> {};

TEST_P(NoLinkTest, IsRefused)
{
    EXPECT_EQ(readDigitalLink(GetParam().number, kYear).remarks, (Remarks{{Flaw::NotALink, {}}}));
}

INSTANTIATE_TEST_SUITE_P(
    Published, NoLinkTest,
    ::testing::Values(Digits{"LotAmongTheQueries", u"https://a/01/09520123456788?10=ABC123"_s},
                      Digits{"SlashAtTheEnd", u"https://a/01/09520123456788/"_s},
                      Digits{"MixedScheme", u"HtTp://a/01/09520123456788"_s},
                      Digits{"Doubled", u"https://a/01/12312312312333?99=ABC&999=faux"_s},
                      Digits{"EscapedNothing", u"https://a/01/1231231231233%003"_s},
                      Digits{"CutEscape", u"https://a/01/12312312312333/10/A%2"_s},
                      Digits{"NoEscape", u"https://a/01/12312312312333/10/A%2G"_s},
                      Digits{"EmptyValue", u"https://a/01/12312312312333/10/"_s},
                      Digits{"EmptyQueryValue", u"https://a/01/12312312312333?99="_s},
                      Digits{"WrongOrder", u"https://a/01/12312312312333/21/A/10/B"_s},
                      Digits{"SerialBesideThirdParty", u"https://a/01/12312312312333/235/A/21/B"_s},
                      Digits{"WrongCheckDigit", u"https://a/01/12312312312334"_s},
                      Digits{"NoItem", u"https://a/lamps/7"_s},
                      Digits{"NoHost", u"https:///01/12312312312333"_s}, Digits{"NoAddress", u"https://"_s},
                      Digits{"Fragment", u"#https://a/01/12312312312333"_s}, Digits{"Nothing", u""_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

} // namespace
} // namespace coldarc::label
