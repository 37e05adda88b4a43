#include "ui/label/scanner_page.h"

#include "app/decode_picture.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"
#include "ui/label/set_up_code.h"

#include <QBuffer>
#include <QImage>
#include <QLabel>
#include <QPainter>
#include <QPdfWriter>
#include <QProcess>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>

using namespace Qt::StringLiterals;

namespace coldarc::ui {
namespace {

QString foundIn(const QImage& picture)
{
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    picture.save(&bytes, "PNG");
    const label::PictureReading reading = app::readingOf(bytes.data());
    return reading.codes.isEmpty() ? QString() : reading.codes.first().scanned;
}

QImage setUpCode()
{
    QImage picture(1286, 180, QImage::Format_RGB32);
    picture.fill(Qt::darkGray);
    QPainter painter(&picture);
    paintBars(painter, picture.rect(), setUpBars());
    return picture;
}

TEST(SetUpCodeTest, IsReadByAnIndependentProgramSeparatorAndAll)
{
    const QString program = QStandardPaths::findExecutable(u"zbarimg"_s);
    ASSERT_FALSE(program.isEmpty()) << "zbarimg is missing: run .ci/install";
    const QTemporaryDir folder;
    const QString file = folder.filePath(u"code.png"_s);
    ASSERT_TRUE(setUpCode().save(file));

    QProcess zbar;
    zbar.start(program, {u"--quiet"_s, u"--raw"_s, file});
    ASSERT_TRUE(zbar.waitForFinished());

    EXPECT_EQ(QString::fromUtf8(zbar.readAllStandardOutput()), label::setUpText() + u'\n');
}

TEST(SetUpCodeTest, IsReadBackByADecoderAsItIsMeant)
{
    const QString scanned = foundIn(setUpCode());

    EXPECT_EQ(scanned, u"]C1"_s + label::setUpText());
    EXPECT_TRUE(label::setUpVerdict(scanned).isUsable());
}

class ScannerPageTest : public ::testing::Test {
protected:
    [[nodiscard]] QString text(const QString& name) const { return page->findChild<QLabel*>(name)->text(); }

    test::FakeClock clock;
    std::unique_ptr<ScannerPage> page{makeScannerPage(*QCoreApplication::instance(), clock)};
};

TEST_F(ScannerPageTest, TheCodeOnThePageCanBeReadAtBothSizes)
{
    for (const QSize size : {QSize(1366, 700), QSize(1920, 1000)}) {
        page->resize(size);
        page->show();

        EXPECT_EQ(foundIn(page->grab().toImage()), u"]C1"_s + label::setUpText()) << size.width();
    }
}

TEST_F(ScannerPageTest, HearsTheScannerAndSaysHowItCameThrough)
{
    page->resize(1366, 700);
    page->show();
    page->activateWindow();
    EXPECT_EQ(text(u"title"_s), u"Scan this code."_s);

    for (const QChar c : u"]C1"_s + label::setUpText()) {
        clock.advance(std::chrono::milliseconds(2));
        const bool isSeparator = c == QChar(0x1D);
        QTest::sendKeyEvent(QTest::Click, page.get(),
                            isSeparator ? Qt::Key_BracketRight : static_cast<Qt::Key>(c.toUpper().unicode()),
                            QString(c), isSeparator ? Qt::ControlModifier : Qt::NoModifier);
    }
    clock.advance(std::chrono::milliseconds(2));
    QTest::keyClick(page.get(), Qt::Key_Return);

    EXPECT_EQ(text(u"title"_s), u"All is well: kind of code, separator and every character come through."_s);
    page->hide();
    page->show();
    EXPECT_EQ(text(u"title"_s), u"Scan this code."_s) << "whoever comes back begins anew";
}

TEST(ScannerWordsTest, SayWhatToChange)
{
    const QString code = u"]C1"_s + label::setUpText();
    const auto changes = [](const QString& scanned) {
        return wordsOf(label::setUpVerdict(scanned), scanned).change.join(u'|');
    };
    QString without = code;
    without.remove(QChar(0x1D));
    QString swapped = code;
    swapped.replace(u'Y', u'#').replace(u'Z', u'Y').replace(u'#', u'Z');

    EXPECT_EQ(changes(code), QString());
    EXPECT_TRUE(changes(label::setUpText()).contains(u"AIM identifier"));
    EXPECT_TRUE(changes(without).contains(u"group separator"));
    EXPECT_TRUE(changes(swapped).contains(u"Z came as Y, Y came as Z")) << changes(swapped).toStdString();
    EXPECT_TRUE(changes(u"]C1"_s + label::setUpText().toLower()).contains(u"capitals lock"));
    EXPECT_TRUE(changes(code.left(9)).contains(u"scan again"));
}

TEST(SetUpCodeTest, IsPrintedOnOneSheet)
{
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    QPdfWriter sheet(&bytes);

    EXPECT_TRUE(printSetUpCode(sheet));
    EXPECT_TRUE(bytes.data().startsWith("%PDF"));
}

} // namespace
} // namespace coldarc::ui
