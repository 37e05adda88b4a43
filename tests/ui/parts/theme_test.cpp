#include "ui/parts/theme.h"

#include "tests/support/testing.h"
#include "ui/parts/signal_panel.h"

#include <QApplication>
#include <QImage>
#include <QLabel>
#include <QPainter>
#include <QSignalSpy>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;

QColor hex(unsigned rgb)
{
    return QColor::fromRgb(rgb);
}

// The first values are defined by WCAG 2.2 itself (21:1 and 1:1). The rest are the published RAL
// approximations, worked out by hand from the same formula: safety notes of the project, check value CV17.
TEST(ContrastTest, AgreesWithTheWorkedOutRatiosOfSafetyColours)
{
    EXPECT_NEAR(contrastRatio(hex(0x000000), hex(0xffffff)), 21.0, 0.005);
    EXPECT_NEAR(contrastRatio(hex(0x777777), hex(0x777777)), 1.0, 0.005);
    EXPECT_NEAR(contrastRatio(hex(0xffffff), hex(0x9b2423)), 7.86, 0.01);
    EXPECT_NEAR(contrastRatio(hex(0x000000), hex(0xd05d29)), 5.28, 0.01);
    EXPECT_NEAR(contrastRatio(hex(0x000000), hex(0xf9a800)), 10.63, 0.01);
    EXPECT_NEAR(contrastRatio(hex(0xffffff), hex(0x005387)), 8.12, 0.01);
    EXPECT_NEAR(contrastRatio(hex(0xffffff), hex(0xd05d29)), 3.98, 0.01);
    EXPECT_NEAR(contrastRatio(hex(0x9b2423), hex(0x1e1e1e)), 2.12, 0.01);
}

class TokensTest : public ::testing::TestWithParam<ThemeKind> {};

TEST_P(TokensTest, TextIsReadableOnGroundAndPanel)
{
    const Tokens& t = tokensOf(GetParam());

    for (const QColor& surface : {t.ground, t.panel}) {
        for (const QColor& ink : {t.text, t.quiet, t.faint})
            EXPECT_GE(contrastRatio(ink, surface), 4.5)
                << ink.name().toStdString() << " on " << surface.name().toStdString();
        EXPECT_GE(contrastRatio(t.accent, surface), 4.5);
    }
    EXPECT_GE(contrastRatio(t.onAccent, t.accent), 4.5);
    EXPECT_GE(contrastRatio(t.text, t.line), 4.5); // the text of a pressed button, of a chosen row
}

TEST_P(TokensTest, OutlinesThatCarryMeaningStandOut)
{
    const Tokens& t = tokensOf(GetParam());

    EXPECT_GE(contrastRatio(t.edge, t.ground), 3.0);
    EXPECT_GE(contrastRatio(t.edge, t.panel), 3.0);
}

TEST_P(TokensTest, TheArcStandsOutFromItsTrack)
{
    const Tokens& t = tokensOf(GetParam());

    EXPECT_GE(contrastRatio(t.accent, t.line), 3.0);
}

// Red, orange, yellow and safety blue are for signal words: no token may be a strong colour, but the accent.
TEST_P(TokensTest, NoColourButTheAccentIsStrong)
{
    const Tokens& t = tokensOf(GetParam());

    for (const QColor& colour : {t.ground, t.panel, t.line, t.edge, t.text, t.quiet, t.faint})
        EXPECT_LT(std::max({colour.red(), colour.green(), colour.blue()}) -
                      std::min({colour.red(), colour.green(), colour.blue()}),
                  32)
            << colour.name().toStdString();
}

TEST_P(TokensTest, EverySignalHasAKeylineThatStandsOut)
{
    const Tokens& t = tokensOf(GetParam());

    for (const SignalWord word :
         {SignalWord::Danger, SignalWord::Warning, SignalWord::Caution, SignalWord::Notice})
        EXPECT_GE(contrastRatio(keylineOf(word, t.ground, t.text), t.ground), 3.0)
            << signalText(word).toStdString();
}

INSTANTIATE_TEST_SUITE_P(OfBothThemes, TokensTest, ::testing::Values(ThemeKind::Booth, ThemeKind::Office),
                         [](const auto& instance) {
                             return instance.param == ThemeKind::Booth ? "Booth" : "Office";
                         });

TEST(ThemeTest, TheColoursAreThoseOfTheDesign)
{
    const Tokens& booth = tokensOf(ThemeKind::Booth);
    const Tokens& office = tokensOf(ThemeKind::Office);

    EXPECT_EQ(booth.ground, hex(0x12110f));
    EXPECT_EQ(booth.panel, hex(0x1b1916));
    EXPECT_EQ(booth.line, hex(0x35312b));
    EXPECT_EQ(booth.text, hex(0xece5d8));
    EXPECT_EQ(booth.quiet, hex(0xa2998a));
    EXPECT_EQ(booth.faint, hex(0x8f8678));
    EXPECT_EQ(booth.accent, hex(0xcfe2ff));
    EXPECT_EQ(office.ground, hex(0xf6f4ef));
    EXPECT_EQ(office.panel, hex(0xffffff));
    EXPECT_EQ(office.line, hex(0xd9d4ca));
    EXPECT_EQ(office.text, hex(0x23201b));
    EXPECT_EQ(office.quiet, hex(0x5f584d));
    EXPECT_EQ(office.accent, hex(0x274b8f));
}

/// How much of the ink of two letters does not lie where the other's does: 0 to 1.
double apart(QChar one, QChar other)
{
    const auto drawn = [](QChar letter) {
        QImage image(40, 40, QImage::Format_Grayscale8);
        image.fill(Qt::white);
        QPainter painter(&image);
        painter.setFont(fontFor(TextRole::Code));
        painter.drawText(QPointF(10, 28), letter);
        return image;
    };
    const QImage first = drawn(one);
    const QImage second = drawn(other);
    double ink = 0;
    double differs = 0;
    for (int y = 0; y < first.height(); ++y) {
        for (int x = 0; x < first.width(); ++x) {
            const int here = 255 - qGray(first.pixel(x, y));
            const int there = 255 - qGray(second.pixel(x, y));
            ink += here + there;
            differs += std::abs(here - there);
        }
    }
    return differs / ink;
}

// Measured: in Inter a capital I and a small l are 0.21 apart, in the face of codes 0.41; the nought there
// differs from the O by its dot, 0.09.
TEST(ThemeTest, NoTwoLettersOfAThumbprintLookAlike)
{
    EXPECT_GT(apart(u'I', u'l'), 0.3);
    EXPECT_GT(apart(u'I', u'1'), 0.24);
    EXPECT_GT(apart(u'l', u'1'), 0.3);
    EXPECT_GT(apart(u'O', u'0'), 0.08);
}

TEST(ThemeTest, EveryOpenWindowFollowsAChange)
{
    QWidget window;
    QLabel label(&window);
    window.show();
    Theme theme(*qApp);
    theme.apply(ThemeKind::Booth);
    QSignalSpy changes(&theme, &Theme::themeChanged);
    ASSERT_EQ(themeOf(label.palette()), ThemeKind::Booth);

    theme.apply(ThemeKind::Office);

    EXPECT_EQ(themeOf(label.palette()), ThemeKind::Office);
    EXPECT_EQ(label.palette().color(QPalette::WindowText), tokensOf(ThemeKind::Office).text);
    EXPECT_EQ(changes.size(), 1);
    theme.apply(ThemeKind::Office);
    EXPECT_EQ(changes.size(), 1);
}

} // namespace
} // namespace coldarc::ui
