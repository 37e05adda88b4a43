#include "core/label/label_text.h"

#include "core/catalogue/catalogue.h"
#include "tests/support/testing.h"

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;
using catalogue::LabelForm;
using catalogue::LabelRule;
using catalogue::LampType;
using Verdict = LabelText::Verdict;

constexpr int kYear = 2026;

// All types and serials are invented.
LampType lampType(const QString& id, const QString& code, const QString& item, const QList<LabelRule>& labels)
{
    LampType type;
    type.id = LampTypeId(id);
    type.code = code;
    type.packageCodes = {item};
    type.labels = labels;
    return type;
}

QList<LampType> types()
{
    const LabelRule gs1{LabelForm::Gs1, u"01"_s, u"21"_s, {}, {}};
    const LabelRule more{LabelForm::Gs1, u"240"_s, u"21"_s, {}, {}};
    const LabelRule keyed{LabelForm::Keyed, u"TYPE"_s, u"S/N"_s, {}, {}};
    const LabelRule type{LabelForm::Plain, {}, {}, u"{type}"_s, {}};
    const LabelRule both{LabelForm::Plain, {}, {}, u"L {serial}/{type}"_s, {}};
    const LabelRule serial{LabelForm::Plain, {}, {}, u"{serial}"_s, u"KB-#####"_s};
    return {lampType(u"b"_s, u"KHM-25B"_s, u"2900041701028"_s, {gs1, more, keyed, type, both, serial}),
            lampType(u"8"_s, u"KHM-258"_s, u"2900041701035"_s, {gs1, more, type, serial})};
}

LabelText read(const QString& scanned)
{
    return labelText(readPayload(scanned, kYear), types());
}

TEST(LabelTextTest, FindsTypeAndSerialByTheRuleOfTheType)
{
    const LabelText text = read(u"]d2010290004170102821KB-20417\u001D10L7\u001D1124033117290300"_s);

    EXPECT_EQ(text.verdict, Verdict::Read);
    EXPECT_EQ(text.types, QList<LampTypeId>{LampTypeId(u"b"_s)});
    EXPECT_EQ(text.type, u"2900041701028"_s) << "the item's number as the catalogue has it";
    EXPECT_EQ(text.serial, u"KB-20417"_s);
    EXPECT_EQ(text.lot, u"L7"_s);
    EXPECT_EQ(text.made, (LabelDate{2024, 3, 31}));
    EXPECT_EQ(text.useBy, (LabelDate{2029, 3, std::nullopt}));
}

struct TextCase {
    const char* name;
    QString scanned;
    Verdict verdict;
    QString type;
    QString serial;

    friend void PrintTo(const TextCase& c, std::ostream* out) { *out << c.name; }
};

class LabelTextsTest : public ::testing::TestWithParam<TextCase> {};

TEST_P(LabelTextsTest, AreReadByTheirRuleOrSaidToBeUnknown)
{
    const LabelText text = read(GetParam().scanned);

    EXPECT_EQ(text.verdict, GetParam().verdict);
    EXPECT_EQ(text.type, GetParam().type);
    EXPECT_EQ(text.serial, GetParam().serial);
}

INSTANTIATE_TEST_SUITE_P(
    All, LabelTextsTest,
    ::testing::Values(TextCase{"Keyed", u"type: khm 25b\nS/N: 0047"_s, Verdict::Read, u"khm 25b"_s,
                               u"0047"_s},
                      TextCase{"BareType", u"]A0KHM-258"_s, Verdict::Read, u"KHM-258"_s, {}},
                      TextCase{"BareSerial", u"]A0KB-20417"_s, Verdict::Read, {}, u"KB-20417"_s},
                      TextCase{"BothInOneLine", u"L 77/8/KHM-25B"_s, Verdict::Read, u"KHM-25B"_s, u"77/8"_s},
                      TextCase{"Link", u"https://a.example/01/02900041701035/21/X1"_s, Verdict::Read,
                               u"2900041701035"_s, u"X1"_s},
                      TextCase{"SisterThatTheCatalogueLacks", u"]A0KHM-25D"_s, Verdict::Unknown, {}, {}},
                      TextCase{"SerialThatLooksOtherwise", u"]A0KB-2O417"_s, Verdict::Unknown, {}, {}},
                      TextCase{"ItemThatTheCatalogueLacks", u"]E02112345678900"_s, Verdict::Unknown, {}, {}},
                      TextCase{"KeyWithoutItsType", u"TYPE: KHM-258\nS/N: 7"_s, Verdict::Unknown, {}, {}},
                      TextCase{"SerialMissing", u"TYPE: KHM-25B"_s, Verdict::Unknown, {}, {}},
                      TextCase{"Misread", u"]d20102900041701029"_s, Verdict::Unsound, {}, {}},
                      TextCase{"Nothing", u""_s, Verdict::Unknown, {}, {}}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(LabelTextTest, OneCodeThatNamesTwoLampsContradictsItself)
{
    const LabelText text = read(u"]d2010290004170102821KB-1\u001D240KHM-258"_s);

    EXPECT_EQ(text.verdict, Verdict::Contradicts);
    EXPECT_EQ(text.types.size(), 2);
}

TEST(LabelTextTest, AKeyThatSaysTwoThingsContradictsItself)
{
    EXPECT_EQ(read(u"TYPE: KHM-25B\nS/N: 7\ns/n: 8"_s).verdict, Verdict::Contradicts);
    EXPECT_EQ(read(u"TYPE: KHM-25B\nTYPE: KHM-258\nS/N: 7"_s).verdict, Verdict::Contradicts);
    EXPECT_EQ(read(u"TYPE: KHM-258\nTYPE: KHM-25B\nS/N: 7"_s).verdict, Verdict::Contradicts);
    EXPECT_EQ(read(u"TYPE: KHM-25B\nTYPE: khm 25b\nS/N: 7"_s).verdict, Verdict::Read) << "the same twice";
    EXPECT_EQ(read(u"TYPE: KHM-25B\nS/N: 7\nNOTE: a\nNOTE: b"_s).verdict, Verdict::Read)
        << "no rule looks for a note";
}

// ---- Teaching ----

void expectTaught(const QString& scanned, const QString& type, const QString& serial)
{
    const Payload payload = readPayload(scanned, kYear);
    const auto rule = ruleFor(payload, type, serial);
    ASSERT_TRUE(rule) << scanned.toStdString();
    LampType taught = lampType(u"new"_s, type.isEmpty() ? u"NEW-1"_s : type, u"0"_s, {*rule});

    const LabelText text = labelText(payload, {taught});

    EXPECT_EQ(text.verdict, Verdict::Read) << scanned.toStdString();
    EXPECT_EQ(text.serial, serial);
    QStringList complaints;
    JsonReader reader(catalogue::toJson(*rule), {}, complaints);
    EXPECT_EQ(catalogue::readLabelRule(reader), rule) << "a taught rule can stand in a file";
}

TEST(TeachingTest, ARuleThatWasTaughtReadsWhatItWasTaughtOn)
{
    expectTaught(u"]d2010950600013435291NEW-1\u001D21S7"_s, u"NEW-1"_s, u"S7"_s);
    expectTaught(u"Lamp=NEW-1\nNumber=S7"_s, u"NEW-1"_s, u"S7"_s);
    expectTaught(u"[S7] NEW-1 xenon"_s, u"NEW-1"_s, u"S7"_s);
    expectTaught(u"NEW-1"_s, u"NEW-1"_s, {});
    expectTaught(u"N-4471a"_s, {}, u"N-4471a"_s);
}

TEST(TeachingTest, WhatCannotBeToldIsNotTaught)
{
    const auto taught = [](const QString& scanned, const QString& type, const QString& serial) {
        return ruleFor(readPayload(scanned, kYear), type, serial).has_value();
    };
    EXPECT_FALSE(taught(u"NEW-1"_s, u"NEW-2"_s, {})) << "not in it";
    EXPECT_FALSE(taught(u"7 7"_s, u"7"_s, {})) << "twice in it";
    EXPECT_FALSE(taught(u"NEW-1S7"_s, u"NEW-1"_s, u"S7"_s)) << "nothing parts them";
    EXPECT_FALSE(taught(u"Lamp=A\nNumber=A"_s, u"A"_s, {})) << "under two keys";
    EXPECT_FALSE(taught(u"Number=S7\nNumber=S8"_s, {}, u"S7"_s)) << "the key says another too";
    EXPECT_FALSE(taught(u"]d2010950600013435121S7"_s, {}, u"S7"_s)) << "misread";
    EXPECT_FALSE(taught(u"NEW-1"_s, {}, {})) << "nothing was pointed out";
}

// ---- The catalogue that the program comes with ----

TEST(LabelTextTest, EveryTypeOfTheCatalogueIsReadOffItsCodesAndOnlyAsItself)
{
    const QList<LampType> all =
        catalogue::loadCatalogue(test::sourceFile("resources/catalogue")).catalogue.lampTypes();
    ASSERT_FALSE(all.isEmpty());
    for (const LampType& type : all) {
        ASSERT_FALSE(type.labels.isEmpty()) << type.id.text().toStdString();
        for (const QString& code : QStringList{type.code} + type.packageCodes) {
            const LabelText text = labelText(readPayload(code, kYear), all);
            EXPECT_EQ(text.verdict, Verdict::Read) << code.toStdString();
            EXPECT_EQ(text.types, QList<LampTypeId>{type.id}) << code.toStdString();
        }
    }
}

} // namespace
} // namespace coldarc::label
