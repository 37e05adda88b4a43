#include "core/catalogue/label_rule.h"

#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc::catalogue {
namespace {

struct Outcome {
    std::optional<LabelRule> rule;
    QStringList complaints;
};

Outcome read(const QJsonObject& object)
{
    Outcome outcome;
    JsonReader reader(object, {}, outcome.complaints);
    outcome.rule = readLabelRule(reader);
    reader.finish();
    return outcome;
}

TEST(LabelRuleTest, IsTheSameAfterBeingWrittenAndReadAgain)
{
    for (const LabelRule& rule : {LabelRule{LabelForm::Gs1, u"01"_s, u"21"_s, {}, {}},
                                  LabelRule{LabelForm::Keyed, u"TYPE"_s, u"S/N"_s, {}, {}},
                                  LabelRule{LabelForm::Plain, {}, {}, u"{serial}"_s, u"HB-#####"_s},
                                  LabelRule{LabelForm::Gs1, {}, u"21"_s, {}, u"@**"_s}})
        EXPECT_EQ(read(toJson(rule)).rule, rule);
}

struct BadRule {
    const char* name;
    QJsonObject object;
    QString complaint;

    friend void PrintTo(const BadRule& bad, std::ostream* out) { *out << bad.name; }
};

class LabelRuleRefusalTest : public ::testing::TestWithParam<BadRule> {};

TEST_P(LabelRuleRefusalTest, NamesThePlaceAndTheReason)
{
    EXPECT_EQ(read(GetParam().object).complaints, QStringList{GetParam().complaint});
}

INSTANTIATE_TEST_SUITE_P(
    All, LabelRuleRefusalTest,
    ::testing::Values(
        BadRule{"OtherForm", {{u"form"_s, u"tune"_s}}, u"form: must be one of gs1, keyed, plain"_s},
        BadRule{"NoPart",
                {{u"form"_s, u"keyed"_s}, {u"serial_shape"_s, u"#"_s}},
                u"type: type or serial must be there"_s},
        BadRule{"NoIdentifier",
                {{u"form"_s, u"gs1"_s}, {u"type"_s, u"GTIN"_s}},
                u"type: must be an application identifier of 2 to 4 digits"_s},
        BadRule{"AnySerialAlone",
                {{u"form"_s, u"plain"_s}, {u"pattern"_s, u"{serial}"_s}},
                u"serial_shape: must be there where no type is named"_s},
        BadRule{"NothingBetween",
                {{u"form"_s, u"plain"_s}, {u"pattern"_s, u"{type}{serial}"_s}},
                u"pattern: must part {type} from {serial}"_s},
        BadRule{"Twice",
                {{u"form"_s, u"plain"_s}, {u"pattern"_s, u"{type} {type}"_s}},
                u"pattern: must hold {type}, {serial} or both, each once"_s},
        BadRule{"PartsOfAnotherForm",
                {{u"form"_s, u"plain"_s}, {u"pattern"_s, u"{type}"_s}, {u"type"_s, u"01"_s}},
                u"type: unknown key"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(ShapeTest, HoldsATextCharacterByCharacter)
{
    EXPECT_TRUE(fitsShape(u"HB-20417", u"HB-#####"));
    EXPECT_TRUE(fitsShape(u"a7Z", u"@**"));
    EXPECT_FALSE(fitsShape(u"HB-2O417", u"HB-#####")) << "a letter for a digit";
    EXPECT_FALSE(fitsShape(u"HB-2041", u"HB-#####"));
    EXPECT_FALSE(fitsShape(u"HB-204170", u"HB-#####"));
    EXPECT_FALSE(fitsShape(u"HB_20417", u"HB-#####"));
    EXPECT_FALSE(fitsShape(u"\u0410", u"@")) << "a Cyrillic letter";
    EXPECT_TRUE(fitsShape(u"", u""));
}

} // namespace
} // namespace coldarc::catalogue
