#include "core/label/set_up_scan.h"

#include "core/label/payload.h"
#include "tests/support/testing.h"

#include <utility>

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;

QString swapped(QString text, const QList<std::pair<QChar, QChar>>& pairs)
{
    for (QChar& c : text)
        for (const auto& [one, other] : pairs)
            if (c == one || c == other) {
                c = c == one ? other : one;
                break;
            }
    return text;
}

TEST(SetUpScanTest, TheCodeItselfIsASoundLabel)
{
    EXPECT_TRUE(readPayload(u"]d2"_s + setUpText(), 2026).isSound());
}

TEST(SetUpScanTest, ARightScannerIsUsable)
{
    const SetUpVerdict verdict = setUpVerdict(u"]d2"_s + setUpText());

    EXPECT_TRUE(verdict.isUsable());
    EXPECT_TRUE(verdict.saysSymbology);
    EXPECT_TRUE(setUpVerdict(setUpText()).isUsable());
    EXPECT_FALSE(setUpVerdict(setUpText()).saysSymbology);
}

TEST(SetUpScanTest, ALostSeparatorIsFound)
{
    const SetUpVerdict verdict = setUpVerdict(u"]d2"_s + setUpText().remove(QChar(0x1D)));

    EXPECT_FALSE(verdict.keepsSeparator);
    EXPECT_FALSE(verdict.isCutOff) << "that is all that is wrong";
    EXPECT_TRUE(verdict.others.isEmpty());
    EXPECT_FALSE(verdict.isUsable());
}

TEST(SetUpScanTest, AnotherKeyboardLayoutIsFoundByItsPairs)
{
    // German: Y and Z change places, a dash comes as sharp s, a slash as a dash.
    QString german = swapped(setUpText(), {{u'Y', u'Z'}, {u'y', u'z'}});
    german.replace(u'-', u'\u00DF').replace(u'/', u'-');

    const SetUpVerdict verdict = setUpVerdict(u"+d2"_s + german);

    EXPECT_EQ(verdict.others,
              (QList<OtherCharacter>{
                  {u'Z', u'Y'}, {u'Y', u'Z'}, {u'z', u'y'}, {u'y', u'z'}, {u'-', u'\u00DF'}, {u'/', u'-'}}));
    EXPECT_FALSE(verdict.saysSymbology) << "its bracket came as another character";
    EXPECT_FALSE(verdict.isUsable());
}

TEST(SetUpScanTest, ACapitalsLockIsFound)
{
    QString text = setUpText();
    for (QChar& c : text)
        c = c.isUpper() ? c.toLower() : c.toUpper();

    EXPECT_TRUE(setUpVerdict(text).swapsCase);
    EXPECT_TRUE(setUpVerdict(text).others.isEmpty());
    EXPECT_FALSE(setUpVerdict(text).isUsable());
}

TEST(SetUpScanTest, ACutOffScanAndAnotherCodeAreNoSetUp)
{
    EXPECT_TRUE(setUpVerdict(setUpText().left(20)).isCutOff);
    EXPECT_TRUE(setUpVerdict(u"HELLO"_s).isCutOff);
    EXPECT_TRUE(setUpVerdict({}).isCutOff);
    EXPECT_FALSE(setUpVerdict(setUpText().left(30)).isUsable());
}

TEST(SetUpScanTest, AScanWithoutItsKindOrWithAFaultLooksAsIfTheScannerWereNotSetUp)
{
    const auto looks = [](const QString& scanned) { return looksUnset(readPayload(scanned, 2026)); };

    EXPECT_FALSE(looks(u"]d2010950600013435221AB1\u001D10LOT7"_s));
    EXPECT_FALSE(looks(u"]C0HELLO"_s));
    EXPECT_TRUE(looks(u"HELLO"_s));
    EXPECT_TRUE(looks(u"]d2010950600013435321AB1"_s)) << "its check digit is 2";
}

} // namespace
} // namespace coldarc::label
