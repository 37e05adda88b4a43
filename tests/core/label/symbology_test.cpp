#include "core/label/symbology.h"

#include "tests/support/testing.h"

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;

struct IdCase {
    const char* name;
    QString id;
    Symbology symbology;
    bool gs1;
    bool checked;

    friend void PrintTo(const IdCase& c, std::ostream* out) { *out << c.name; }
};

class SymbologyTest : public ::testing::TestWithParam<IdCase> {};

TEST_P(SymbologyTest, IsToldByWhatTheReaderSaysFirst)
{
    const ScanText scan = scanText(GetParam().id + u"]x"_s);

    ASSERT_TRUE(scan.id);
    EXPECT_EQ(scan.id->symbology, GetParam().symbology);
    EXPECT_EQ(scan.id->saysGs1(), GetParam().gs1);
    EXPECT_EQ(scan.id->isChecked(), GetParam().checked);
    EXPECT_EQ(scan.text, u"]x"_s);
}

// Source: handed down by AIM; GS1 `scandata.c` and a public table for Code 39, both READ.
INSTANTIATE_TEST_SUITE_P(
    All, SymbologyTest,
    ::testing::Values(IdCase{"Gs1Code128", u"]C1"_s, Symbology::Code128, true, true},
                      IdCase{"Code128", u"]C0"_s, Symbology::Code128, false, true},
                      IdCase{"Gs1DataMatrix", u"]d2"_s, Symbology::DataMatrix, true, true},
                      IdCase{"DataMatrix", u"]d1"_s, Symbology::DataMatrix, false, true},
                      IdCase{"Gs1Qr", u"]Q3"_s, Symbology::Qr, true, true},
                      IdCase{"Qr", u"]Q1"_s, Symbology::Qr, false, true},
                      IdCase{"DataBar", u"]e0"_s, Symbology::Other, true, false},
                      IdCase{"Ean13", u"]E0"_s, Symbology::Ean, true, true},
                      IdCase{"Ean8", u"]E4"_s, Symbology::Ean, true, true},
                      IdCase{"Code39", u"]A0"_s, Symbology::Code39, false, false},
                      IdCase{"Code39Checked", u"]A1"_s, Symbology::Code39, false, true},
                      IdCase{"Code39FullAscii", u"]A4"_s, Symbology::Code39, false, false},
                      IdCase{"Interleaved", u"]I1"_s, Symbology::Other, false, false}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(ScanTextTest, WithoutAnIdentifierEverythingIsText)
{
    for (const QString& text : {u""_s, u"]"_s, u"]C"_s, u"C1A"_s, u"]1C"_s, u"]C-"_s}) {
        EXPECT_FALSE(scanText(text).id) << text.toStdString();
        EXPECT_EQ(scanText(text).text, text);
    }
}

} // namespace
} // namespace coldarc::label
