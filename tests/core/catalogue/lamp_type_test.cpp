#include "core/catalogue/lamp_type.h"

#include "tests/support/testing.h"

#include <QJsonArray>

using namespace Qt::StringLiterals;

namespace coldarc::catalogue {
namespace {

/// A lamp type that reads without a complaint. Invented.
QJsonObject goodLampType()
{
    return {{u"kind"_s, u"lamp-type"_s},
            {u"note"_s, u"invented"_s},
            {u"id"_s, u"test-20"_s},
            {u"maker"_s, u"Nobody"_s},
            {u"name"_s, u"Twenty"_s},
            {u"code"_s, u"NOB20-A12"_s},
            {u"package_codes"_s, QJsonArray{u"2900000000001"_s}},
            {u"rated_w"_s, 2000},
            {u"least_a"_s, 60},
            {u"most_a"_s, 85.5},
            {u"warranty_h"_s, 2000},
            {u"replace_by_h"_s, 2500},
            {u"length_mm"_s, 310},
            {u"fill"_s, u"mercury-xenon"_s},
            {u"thoriated_electrodes"_s, true}};
}

QJsonObject with(QJsonObject object, const QString& key, const QJsonValue& value)
{
    object.insert(key, value);
    return object;
}

TEST(LampTypeTest, ReadsEveryFigureOfTheDataSheet)
{
    const auto reading = readLampType(goodLampType());

    ASSERT_TRUE(reading.value) << reading.complaints.join(u'\n').toStdString();
    const LampType expected{LampTypeId(u"test-20"_s),
                            u"Nobody"_s,
                            u"Twenty"_s,
                            u"NOB20-A12"_s,
                            {u"2900000000001"_s},
                            2000,
                            60,
                            85.5,
                            2000,
                            2500,
                            310,
                            Fill::MercuryXenon,
                            true};
    EXPECT_EQ(*reading.value, expected);
}

TEST(LampTypeTest, IsTheSameAfterBeingWrittenAndReadAgain)
{
    const LampType type = *readLampType(goodLampType()).value;

    EXPECT_EQ(readLampType(toJson(type)).value, type);
}

TEST(LampTypeTest, ReadsHowTheMakersBarCodesAreRead)
{
    const QJsonObject rule{{u"form"_s, u"gs1"_s}, {u"type"_s, u"01"_s}, {u"serial"_s, u"21"_s}};

    const LampType type = *readLampType(with(goodLampType(), u"labels"_s, QJsonArray{rule})).value;

    EXPECT_EQ(type.labels, (QList<LabelRule>{{LabelForm::Gs1, u"01"_s, u"21"_s, {}, {}}}));
    EXPECT_EQ(readLampType(toJson(type)).value, type);
    EXPECT_EQ(readLampType(with(goodLampType(), u"labels"_s, QJsonArray{QJsonObject{{u"form"_s, u"x"_s}}}))
                  .complaints,
              QStringList{u"labels[0].form: must be one of gs1, keyed, plain"_s});
}

struct BadLampType {
    const char* name;
    QString key;
    QJsonValue value;
    QString complaint;

    friend void PrintTo(const BadLampType& bad, std::ostream* out) { *out << bad.name; }
};

class LampTypeRefusalTest : public ::testing::TestWithParam<BadLampType> {};

TEST_P(LampTypeRefusalTest, NamesThePlaceAndTheReason)
{
    const auto reading = readLampType(with(goodLampType(), GetParam().key, GetParam().value));

    EXPECT_FALSE(reading.value);
    EXPECT_EQ(reading.complaints, QStringList{GetParam().complaint});
}

// 2000 h of warranty times 1.25 are 2500 h.
INSTANTIATE_TEST_SUITE_P(
    OneKeyWrong, LampTypeRefusalTest,
    ::testing::Values(
        BadLampType{"OtherKind", u"kind"_s, u"gear"_s, u"kind: must be lamp-type"_s},
        BadLampType{"UnknownKey", u"wattage"_s, 2000, u"wattage: unknown key"_s},
        BadLampType{"UnknownFill", u"fill"_s, u"argon"_s, u"fill: must be one of xenon, mercury-xenon"_s},
        BadLampType{"RangeUpsideDown", u"most_a"_s, 59, u"most_a: must not be below least_a"_s},
        BadLampType{"BurntBeyondItsLife", u"replace_by_h"_s, 2501,
                    u"replace_by_h: must be from warranty_h to 1.25 times that"_s},
        BadLampType{"ReplacedBeforeItsWarrantyEnds", u"replace_by_h"_s, 1999,
                    u"replace_by_h: must be from warranty_h to 1.25 times that"_s},
        BadLampType{"CodeTwice", u"package_codes"_s, QJsonArray{u"NOB20-A12"_s},
                    u"package_codes: NOB20-A12 stands here twice"_s},
        BadLampType{"NoCurrent", u"least_a"_s, 0, u"least_a: must be a number from 0.001 to 1000"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(LampTypeTest, RefusesAMissingFill)
{
    QJsonObject document = goodLampType();
    document.remove(u"fill"_s);

    EXPECT_FALSE(readLampType(document).value);
}

} // namespace
} // namespace coldarc::catalogue
