#include "core/label/teaching.h"

#include "tests/support/testing.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;
using catalogue::LabelForm;
using catalogue::LabelRule;
using catalogue::LampType;
using Fault = TeachFault;
using Verdict = LabelText::Verdict;

constexpr int kYear = 2026;

// All types, codes and serials are invented.
LampType lampType(const QString& id, const QString& code, const QString& item)
{
    LampType type;
    type.id = LampTypeId(id);
    type.code = code;
    type.packageCodes = {item};
    type.labels = {{LabelForm::Gs1, u"01"_s, u"21"_s, {}, {}},
                   {LabelForm::Keyed, u"TYPE"_s, u"S/N"_s, {}, {}},
                   {LabelForm::Plain, {}, {}, u"{type}"_s, {}},
                   {LabelForm::Plain, {}, {}, u"{serial}"_s, u"KB-#####"_s}};
    return type;
}

QList<LampType> types()
{
    return {lampType(u"b"_s, u"KHM-25B"_s, u"2900041701028"_s),
            lampType(u"8"_s, u"KHM-258"_s, u"2900041701035"_s)};
}

TeachAnswer taught(const QString& scanned, const QString& type, const QString& serial,
                   const QStringList& known = {}, const QString& of = u"b"_s)
{
    return teach({scanned, type, serial, LampTypeId(of)}, known, types(), kYear);
}

TEST(TeachingTest, MakesARuleOfWhatIsMarkedAndShowsHowTheCodeIsReadThen)
{
    const TeachAnswer answer = taught(u"]Q1ART=KHM-25B;NO=00417"_s, u"KHM-25B"_s, u"00417"_s);

    ASSERT_TRUE(answer.teaching);
    EXPECT_EQ(answer.faults, QList<Fault>());
    EXPECT_EQ(answer.teaching->packageCode, QString()) << "it is the type's own code";
    ASSERT_EQ(answer.rereads.size(), 1);
    EXPECT_EQ(answer.rereads[0].before.verdict, Verdict::Unknown);
    EXPECT_EQ(answer.rereads[0].after.verdict, Verdict::Read);
    EXPECT_EQ(answer.rereads[0].after.type, u"KHM-25B"_s);
    EXPECT_EQ(answer.rereads[0].after.serial, u"00417"_s);
}

TEST(TeachingTest, ANumberThatStandsForTheTypeIsTaughtWithTheRule)
{
    const TeachAnswer answer = taught(u"]C0ORDER 77120/00417"_s, u"77120"_s, u"00417"_s);

    ASSERT_TRUE(answer.teaching);
    EXPECT_EQ(answer.teaching->packageCode, u"77120"_s);
    EXPECT_EQ(answer.rereads[0].after.types, QList{LampTypeId(u"b"_s)});
}

TEST(TeachingTest, WhatIsTheSameOnAnotherTypeIsNotTheType)
{
    // The maker's own number stands in its codes of every type; the keys of the second are the catalogue's.
    const QStringList known{u"]d1TYPE: KHM-258\nS/N: KB-20417\nPLANT: 4711-X9"_s};
    const QString scanned = u"]d1ART: 88001\nNO: 00417\nPLANT: 4711-X9"_s;

    EXPECT_TRUE(taught(scanned, u"4711-X9"_s, u"00417"_s, known).faults.contains(Fault::SameOnAnother));
    EXPECT_FALSE(taught(scanned, u"4711-X9"_s, u"00417"_s).faults.contains(Fault::SameOnAnother));
    EXPECT_FALSE(taught(scanned, u"88001"_s, u"00417"_s, known).faults.contains(Fault::SameOnAnother));
    EXPECT_FALSE(
        taught(scanned, u"4711-X9"_s, u"00417"_s, known, u"8"_s).faults.contains(Fault::SameOnAnother))
        << "the code on record is of this very type";
}

TEST(TeachingTest, EveryCodeOnRecordIsShownAsItWouldBeReadThen)
{
    const QStringList known{u"]C0KB-20417"_s, u"]C0ORDER 77120/00418"_s, u"]C0ORDER 77121/00419"_s};

    const TeachAnswer answer = taught(u"]C0ORDER 77120/00417"_s, u"77120"_s, u"00417"_s, known);

    ASSERT_EQ(answer.rereads.size(), 4);
    EXPECT_FALSE(answer.rereads[1].isChanged());
    EXPECT_TRUE(answer.rereads[2].isChanged());
    EXPECT_EQ(answer.rereads[2].after.serial, u"00418"_s);
    EXPECT_EQ(answer.rereads[3].after.verdict, Verdict::Unknown) << "another order number is another type";
}

struct RefusedLesson {
    const char* name;
    QString scanned;
    QString type;
    QString serial;
    QList<Fault> faults;
    QStringList known{};
    QString of = u"b"_s;

    friend void PrintTo(const RefusedLesson& one, std::ostream* out) { *out << one.name; }
};

class RefusedLessonTest : public ::testing::TestWithParam<RefusedLesson> {};

TEST_P(RefusedLessonTest, IsNotTakenAndEveryReasonIsNamed)
{
    const RefusedLesson& one = GetParam();

    const TeachAnswer answer = taught(one.scanned, one.type, one.serial, one.known, one.of);

    EXPECT_FALSE(answer.teaching);
    EXPECT_EQ(answer.faults, one.faults);
}

// GTIN 2900041701042: its check digit 2 makes 3 * (9 + 0 + 4 + 7 + 1 + 4) + 2 + 0 + 0 + 1 + 0 + 0 + 2 = 80.
INSTANTIATE_TEST_SUITE_P(
    EveryReason, RefusedLessonTest,
    ::testing::Values(
        RefusedLesson{"NothingIsMarked", u"]C0HELLO"_s, {}, {}, {Fault::NothingMarked}},
        RefusedLesson{"OfNoLampType", u"]C0HELLO"_s, u"HELLO"_s, {}, {Fault::UnknownLampType}, {}, u"none"_s},
        RefusedLesson{"MisreadGs1", u"]d20102900041701029"_s, u"02900041701029"_s, {}, {Fault::Unsound}},
        RefusedLesson{"ReadByARuleAlready", u"]C0KHM-25B"_s, u"KHM-25B"_s, {}, {Fault::ReadAlready}},
        RefusedLesson{"ThePartStandsTwice", u"]C0AB12 AB12"_s, u"AB12"_s, {}, {Fault::NotClear}},
        RefusedLesson{"TheLotIsNoSerial",
                      u"]d2010290004170104210LOT17"_s,
                      u"02900041701042"_s,
                      u"LOT17"_s,
                      {Fault::NotTheSerialField}},
        RefusedLesson{
            "TheSerialIsNoType", u"]d2010290004170104221AB4711"_s, u"AB4711"_s, {}, {Fault::NotTheTypeField}},
        RefusedLesson{"AnOwnFieldBesideTheItemNumber",
                      u"]d2010290004170104291AB4711"_s,
                      u"AB4711"_s,
                      {},
                      {Fault::NotTheTypeField}},
        RefusedLesson{"AnOwnFieldBesideTheSerial",
                      u"]d2010290004170104221AB4711\u001D9200417"_s,
                      u"02900041701042"_s,
                      u"00417"_s,
                      {Fault::NotTheSerialField}},
        RefusedLesson{
            "ACodeOfThreeCharacters", u"]C0A77/00417"_s, u"A77"_s, u"00417"_s, {Fault::TypeTooShort}},
        RefusedLesson{"ASerialOfThreeCharacters", u"]C0X1Y"_s, {}, u"X1Y"_s, {Fault::SerialTooShort}},
        RefusedLesson{"TheNumberOfAnotherType",
                      u"]C0NO 2900041701035"_s,
                      u"2900041701035"_s,
                      {},
                      {Fault::CodeOfAnother}},
        RefusedLesson{"TheCodeOfTheSister",
                      u"]C0NO KHM-258"_s,
                      u"KHM-258"_s,
                      {},
                      {Fault::CodeOfAnother, Fault::NearAnother}},
        RefusedLesson{"NearTheOwnCode", u"]C0NO KHM-25C"_s, u"KHM-25C"_s, {}, {Fault::NearAnother}},
        RefusedLesson{
            "SerialsThatLookLikeATypesCode", u"]C0ABC-12D"_s, {}, u"ABC-12D"_s, {Fault::LooksLikeAType}},
        RefusedLesson{"WhatWasReadWouldBeReadOtherwise",
                      u"]d1TYPE: KHM-25B\nNR: 7"_s,
                      u"KHM-25B"_s,
                      u"7"_s,
                      {Fault::ChangesAReading},
                      {u"]d1TYPE: KHM-25B\nS/N: 5\nNR: 9"_s}}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(TeachingTest, AnItemNumberWithItsCheckDigitMayBeNearAnother)
{
    EXPECT_TRUE(taught(u"]d20102900041701042"_s, u"02900041701042"_s, {}).teaching);
}

TEST(TeachingTest, AnOwnFieldSaysTheTypeWhereTheStandardsDoNot)
{
    EXPECT_TRUE(taught(u"]d221AB4711\u001D9177120"_s, u"77120"_s, u"AB4711"_s).teaching);
}

TEST(TeachingTest, OffersThePartsOfACodeToBeMarked)
{
    const auto parts = [](const QString& scanned) { return markableParts(readPayload(scanned, kYear)); };

    EXPECT_EQ(parts(u"]d20102900041701042213A\u001D10L7"_s),
              (QList<MarkablePart>{{u"01"_s, u"02900041701042"_s}, {u"21"_s, u"3A"_s}, {u"10"_s, u"L7"_s}}));
    EXPECT_EQ(parts(u"]Q1ART: X1\nNO: 5"_s), (QList<MarkablePart>{{u"ART"_s, u"X1"_s}, {u"NO"_s, u"5"_s}}));
    EXPECT_EQ(parts(u"]C0ORDER 77-12/5"_s), (QList<MarkablePart>{{{}, u"ORDER 77-12/5"_s},
                                                                 {{}, u"ORDER"_s},
                                                                 {{}, u"77-12/5"_s},
                                                                 {{}, u"77-12"_s},
                                                                 {{}, u"5"_s},
                                                                 {{}, u"77"_s},
                                                                 {{}, u"12"_s}}));
}

class TaughtCatalogueTest : public ::testing::Test {
protected:
    TaughtCatalogueTest()
    {
        for (const LampType& type : types()) {
            const QByteArray text = QJsonDocument(catalogue::toJson(type)).toJson();
            plain.add(type, {text, sha256(text)});
        }
    }
    [[nodiscard]] static LabelText read(const catalogue::Catalogue& by, const QString& scanned)
    {
        return labelText(readPayload(scanned, kYear), by.lampTypes());
    }

    catalogue::Catalogue plain;
    Teaching order = *taught(u"]C0ORDER 77120/00417"_s, u"77120"_s, u"00417"_s).teaching;
};

TEST_F(TaughtCatalogueTest, ReadsWhatWasTaughtAndSaysSoInItsDocument)
{
    const catalogue::Catalogue all = withTaught(plain, {order});

    EXPECT_EQ(read(all, u"]C0ORDER 77120/00999"_s).serial, u"00999"_s);
    const catalogue::Document document = all.document(LampTypeId(u"b"_s));
    EXPECT_EQ(document.hash, sha256(document.text));
    const QJsonObject object = QJsonDocument::fromJson(document.text).object();
    EXPECT_EQ(object.value(u"package_codes"_s).toArray().last().toString(), u"77120"_s);
    EXPECT_EQ(object.value(u"labels"_s).toArray().last().toObject().value(u"pattern"_s).toString(),
              u"ORDER {type}/{serial}"_s);
    EXPECT_EQ(all.document(LampTypeId(u"8"_s)), plain.document(LampTypeId(u"8"_s)));
    EXPECT_EQ(all.lampTypes()[0].id, LampTypeId(u"b"_s)) << "in its place";
}

TEST_F(TaughtCatalogueTest, LeavesOutWhatANewerCatalogueSpeaksAgainst)
{
    catalogue::Catalogue newer = plain;
    LampType other = lampType(u"c"_s, u"77120"_s, u"2900041701059"_s);
    newer.add(other, {});

    EXPECT_FALSE(stillHolds(order, newer.lampTypes()));
    EXPECT_EQ(withTaught(newer, {order}).lampTypes(), newer.lampTypes());
    order.lampType = LampTypeId(u"gone"_s);
    EXPECT_EQ(withTaught(plain, {order}).lampTypes(), plain.lampTypes());
}

TEST_F(TaughtCatalogueTest, OfTwoTypesWithOneNewCodeTheOneTaughtFirstHasIt)
{
    Teaching again = order;
    again.lampType = LampTypeId(u"8"_s);

    const catalogue::Catalogue all = withTaught(plain, {order, again});

    EXPECT_EQ(read(all, u"]C0ORDER 77120/00999"_s).types, QList{LampTypeId(u"b"_s)});
}

} // namespace
} // namespace coldarc::label
