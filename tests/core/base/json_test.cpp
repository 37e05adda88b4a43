#include "core/base/json.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <QDateTime>
#include <QJsonDocument>

#include <vector>

using namespace Qt::StringLiterals;

namespace coldarc {
namespace {

class JsonReaderTest : public ::testing::Test {
protected:
    JsonReader reading(const char* json) { return {parseObject(json).value(), u"lamp"_s, complaints}; }

    QStringList complaints;
};

TEST_F(JsonReaderTest, ReadsEveryKindWithoutAComplaint)
{
    JsonReader reader = reading(R"({"name": "L-1", "watts": 2500.5, "hours": 1200, "used": true,
                                    "sites": ["north", "south"], "any": null})");

    EXPECT_EQ(reader.text(u"name"_s), u"L-1"_s);
    EXPECT_EQ(reader.number(u"watts"_s, 0, 10'000), 2500.5);
    EXPECT_EQ(reader.whole(u"hours"_s, 0, 10'000), 1200);
    EXPECT_TRUE(reader.flag(u"used"_s));
    EXPECT_EQ(reader.texts(u"sites"_s), (QStringList{u"north"_s, u"south"_s}));
    EXPECT_TRUE(reader.value(u"any"_s).isNull());
    reader.finish();
    EXPECT_TRUE(complaints.isEmpty()) << complaints.join(u'\n').toStdString();
}

TEST_F(JsonReaderTest, ComplainsOfEveryKeyThatIsMissing)
{
    JsonReader reader = reading("{}");

    reader.text(u"name"_s);
    reader.number(u"watts"_s, 0, 1);
    reader.whole(u"hours"_s, 0, 1);
    reader.flag(u"used"_s);
    reader.texts(u"sites"_s);
    reader.child(u"box"_s);
    reader.children(u"fits"_s);

    EXPECT_EQ(complaints.size(), 7);
    EXPECT_EQ(complaints.first(), u"lamp.name: is missing"_s);
}

TEST_F(JsonReaderTest, ComplainsOfAKeyThatNobodyAskedFor)
{
    JsonReader reader = reading(R"({"name": "L-1", "nmae": "L-2"})");
    reader.text(u"name"_s);

    reader.finish();

    EXPECT_EQ(complaints, QStringList{u"lamp.nmae: unknown key"_s});
}

struct WrongCase {
    const char* name;
    const char* json;
    void (*ask)(JsonReader& reader);

    friend void PrintTo(const WrongCase& c, std::ostream* out) { *out << c.name; }
};

class JsonReaderWrongTest : public JsonReaderTest, public ::testing::WithParamInterface<WrongCase> {};

TEST_P(JsonReaderWrongTest, ComplainsOnceAndNamesThePlace)
{
    JsonReader reader = reading(GetParam().json);

    GetParam().ask(reader);

    ASSERT_EQ(complaints.size(), 1) << complaints.join(u'\n').toStdString();
    EXPECT_TRUE(complaints.first().startsWith(u"lamp.x"_s)) << complaints.first().toStdString();
}

void askText(JsonReader& r)
{
    r.text(u"x"_s);
}
void askNumber(JsonReader& r)
{
    EXPECT_EQ(r.number(u"x"_s, 1, 10), 1) << "the least after a complaint";
}
void askWhole(JsonReader& r)
{
    EXPECT_EQ(r.whole(u"x"_s, 1, 10), 1) << "the least after a complaint";
}
void askAnyWhole(JsonReader& r)
{
    r.whole(u"x"_s, 0, std::numeric_limits<qint64>::max());
}
void askFlag(JsonReader& r)
{
    EXPECT_FALSE(r.flag(u"x"_s));
}
void askTexts(JsonReader& r)
{
    r.texts(u"x"_s);
}
void askChild(JsonReader& r)
{
    r.child(u"x"_s);
}
void askChildren(JsonReader& r)
{
    r.children(u"x"_s);
}

INSTANTIATE_TEST_SUITE_P(
    EveryKind, JsonReaderWrongTest,
    ::testing::Values(WrongCase{"TextIsANumber", R"({"x": 1})", askText},
                      WrongCase{"TextIsEmpty", R"({"x": ""})", askText},
                      WrongCase{"NumberIsAText", R"({"x": "2"})", askNumber},
                      WrongCase{"NumberBelow", R"({"x": 0.99})", askNumber},
                      WrongCase{"NumberAbove", R"({"x": 10.01})", askNumber},
                      WrongCase{"WholeWithAFraction", R"({"x": 2.5})", askWhole},
                      WrongCase{"WholeAbove", R"({"x": 11})", askWhole},
                      WrongCase{"WholeThatADoubleCannotHold", R"({"x": 9007199254740994})", askAnyWhole},
                      WrongCase{"FlagIsANumber", R"({"x": 1})", askFlag},
                      WrongCase{"ListIsAText", R"({"x": "north"})", askTexts},
                      WrongCase{"ListHoldsANumber", R"({"x": ["north", 2]})", askTexts},
                      WrongCase{"ChildIsAList", R"({"x": []})", askChild},
                      WrongCase{"ChildrenAreAnObject", R"({"x": {}})", askChildren},
                      WrongCase{"ChildrenHoldAText", R"({"x": [{}, "north"]})", askChildren}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST_F(JsonReaderTest, GivesWhatStandsInForAKeyThatMayBeMissing)
{
    JsonReader reader = reading("{}");

    EXPECT_EQ(reader.textOr(u"name"_s, u"none"_s), u"none"_s);
    EXPECT_EQ(reader.numberOr(u"watts"_s, 0, 1, 0.5), 0.5);
    EXPECT_EQ(reader.wholeOr(u"hours"_s, 0, 9, 7), 7);
    EXPECT_TRUE(reader.flagOr(u"used"_s, true));
    EXPECT_EQ(reader.textsOr(u"sites"_s, {u"north"_s}), QStringList{u"north"_s});
    EXPECT_FALSE(reader.childOr(u"box"_s));
    EXPECT_TRUE(reader.childrenOr(u"fits"_s).isEmpty());
    reader.finish();
    EXPECT_TRUE(complaints.isEmpty());
}

TEST_F(JsonReaderTest, ComplainsOfAWrongValueEvenWhereItMayBeMissing)
{
    JsonReader reader = reading(R"({"watts": 3, "used": "yes"})");

    reader.numberOr(u"watts"_s, 0, 1, 0.5);
    reader.flagOr(u"used"_s, true);

    EXPECT_EQ(complaints.size(), 2);
}

TEST_F(JsonReaderTest, NamesThePlaceOfAChild)
{
    JsonReader reader = reading(R"({"steps": [{"effect": "look"}, {}]})");

    for (const JsonReader::Child& step : reader.children(u"steps"_s)) {
        JsonReader stepReader(step.object, step.place, complaints);
        stepReader.text(u"effect"_s);
    }

    EXPECT_EQ(complaints, QStringList{u"lamp.steps[1].effect: is missing"_s});
}

TEST(ParseObjectTest, RefusesWhatIsNotOneObject)
{
    EXPECT_EQ(parseObject("[1]").error().kind, Error::Kind::Malformed);
    EXPECT_EQ(parseObject("{\"a\": 1").error().kind, Error::Kind::Malformed);
    EXPECT_EQ(parseObject("{} {}").error().kind, Error::Kind::Malformed);
    EXPECT_EQ(parseObject("").error().kind, Error::Kind::Malformed);
}

TEST(IsoUtcTest, WritesAndReadsTheSameMoment)
{
    // 1 795 000 000 s = 20775 days and 40 000 s; day 20775 from 1970-01-01 is 2026-11-18 (by hand: 56 years
    // hold 14 leap days, so 2026-01-01 is day 20454, and 321 days on is 18 November); 40 000 s = 11 h 6 min
    // 40 s.
    const WallTime wall(std::chrono::milliseconds(1'795'000'000'123));

    EXPECT_EQ(isoUtc(wall), u"2026-11-18T11:06:40.123Z"_s);
    EXPECT_EQ(wallFromIso(isoUtc(wall)), wall);
}

// Qt's own writer is another reading of RFC 8259.
TEST(JsonTextTest, IsWhatQtWritesOfEveryCharacter)
{
    const auto writtenByQt = [](const QString& text) {
        const QByteArray list = QJsonDocument(QJsonArray{text}).toJson(QJsonDocument::Compact);
        return list.mid(1, list.size() - 2);
    };

    EXPECT_EQ(jsonText(u"L-1 at 12:00"_s), "\"L-1 at 12:00\"");
    EXPECT_EQ(jsonText(u"7\" lens"_s), "\"7\\\" lens\"");
    EXPECT_EQ(jsonText({}), "\"\"");
    for (char32_t letter = 0; letter < 0x10000; ++letter) {
        const QString text = u"a"_s + QChar(static_cast<char16_t>(letter)) + u"b"_s;
        ASSERT_EQ(jsonText(text), writtenByQt(text)) << static_cast<unsigned>(letter);
    }
}

// Qt's own calendar is another reading of ISO 8601.
TEST(IsoUtcTest, IsWhatQtMakesOfTheSameMoment)
{
    const QDateTime first = QDateTime::fromString(u"0001-01-01T00:00:00.000Z"_s, Qt::ISODateWithMs);
    const QDateTime last = QDateTime::fromString(u"9999-12-31T23:59:59.999Z"_s, Qt::ISODateWithMs);
    ASSERT_TRUE(first.isValid() && last.isValid());
    const auto moment = [](qint64 ms) { return WallTime(std::chrono::milliseconds(ms)); };
    std::vector<qint64> all{first.toMSecsSinceEpoch() - 1, first.toMSecsSinceEpoch(),   -1, 0,
                            last.toMSecsSinceEpoch(),      last.toMSecsSinceEpoch() + 1};
    for (qint64 ms = first.toMSecsSinceEpoch(); ms < last.toMSecsSinceEpoch(); ms += 87'654'321'987)
        all.push_back(ms);

    for (const qint64 ms : all) {
        const QString text = QDateTime::fromMSecsSinceEpoch(ms, Qt::UTC).toString(Qt::ISODateWithMs);
        ASSERT_EQ(isoUtc(moment(ms)), text) << ms;
        ASSERT_TRUE(text.isEmpty() || wallFromIso(text) == moment(ms)) << ms;
    }
}

TEST(IsoUtcTest, ReadsNoMomentThatDoesNotExist)
{
    for (const QString& text :
         {u"2026-02-29T00:00:00.000Z"_s, u"2026-13-01T00:00:00.000Z"_s, u"2026-00-10T00:00:00.000Z"_s,
          u"2026-11-31T00:00:00.000Z"_s, u"2026-11-18T25:00:00.000Z"_s, u"2026-11-18T11:60:00.000Z"_s,
          u"2026-11-18T11:06:61.000Z"_s, u"0000-01-01T00:00:00.000Z"_s, u"2026-11-18T11:06:4x.000Z"_s})
        EXPECT_FALSE(wallFromIso(text)) << text.toStdString();
    EXPECT_EQ(wallFromIso(u"2028-02-29T00:00:00.000Z"_s), wallFromIso(u"2028-02-28T24:00:00.000Z"_s));
}

TEST(IsoUtcTest, ReadsTheExamplesOfTheStandard)
{
    // Source: RFC 3339, section 5.8 (from memory).
    EXPECT_EQ(isoUtc(wallFromIso(u"1985-04-12T23:20:50.52Z"_s).value()), u"1985-04-12T23:20:50.520Z"_s);
    EXPECT_EQ(wallFromIso(u"1996-12-19T16:39:57-08:00"_s), wallFromIso(u"1996-12-20T00:39:57Z"_s));
}

TEST(IsoUtcTest, ReadsNoMomentWithoutAnOffset)
{
    EXPECT_FALSE(wallFromIso(u"2026-11-18T11:06:40.123"_s));
    EXPECT_FALSE(wallFromIso(u"18 November 2026"_s));
    EXPECT_FALSE(wallFromIso({}));
}

TEST(StampJsonTest, ReadsBackWhatItWrote)
{
    test::FakeClock clock;
    clock.sleep(std::chrono::minutes(3));
    QStringList complaints;
    JsonReader reader(toJson(clock.now()), u"stamp"_s, complaints);

    const Stamp stamp = readStamp(reader);

    reader.finish();
    EXPECT_EQ(stamp, clock.now());
    EXPECT_TRUE(complaints.isEmpty()) << complaints.join(u'\n').toStdString();
}

TEST(StampJsonTest, ComplainsOfAMomentThatIsNone)
{
    QStringList complaints;
    JsonReader reader({{u"wall"_s, u"yesterday"_s}, {u"since_boot_ms"_s, -1}}, u"stamp"_s, complaints);

    std::ignore = readStamp(reader);

    EXPECT_EQ(complaints.size(), 2) << complaints.join(u'\n').toStdString();
}

} // namespace
} // namespace coldarc
