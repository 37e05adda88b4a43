#include "ui/label/picture_panel.h"

#include "tests/support/testing.h"
#include "ui/parts/plain_button.h"

#include <QApplication>
#include <QClipboard>
#include <QMimeData>
#include <QSignalSpy>
#include <QTest>
#include <QUrl>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;

PictureView twoCodes()
{
    PictureView view;
    view.picture = QImage(400, 300, QImage::Format_RGB32);
    view.picture.fill(Qt::white);
    view.says = u"Pick one."_s;
    view.codes = {{QPolygonF(QRectF(0.1, 0.1, 0.3, 0.02)), u"Type A"_s, true},
                  {QPolygonF(QRectF(0.5, 0.5, 0.3, 0.3)), u"Serial B"_s, true}};
    return view;
}

class PicturePanelTest : public ::testing::Test {
protected:
    PicturePanelTest()
    {
        panel.resize(900, 420);
        panel.show();
        EXPECT_TRUE(QTest::qWaitForWindowExposed(&panel));
        QObject::connect(&panel, &PicturePanel::pictureGiven, &panel,
                         [this](const PictureSource& source) { given = source; });
    }

    PicturePanel panel;
    QSignalSpy picked{&panel, &PicturePanel::codePicked};
    std::optional<PictureSource> given;
};

TEST_F(PicturePanelTest, ACodeIsPickedOnThePictureOrInTheList)
{
    panel.setView(twoCodes());
    auto* canvas = panel.findChild<PictureCanvas*>();
    const QPolygonF thin = canvas->outlineOf(twoCodes().codes[0]);

    QTest::mouseClick(canvas, Qt::LeftButton, {}, thin.boundingRect().center().toPoint() + QPoint(0, 12));
    panel.findChild<PlainButton*>(u"code-1"_s)->click();

    ASSERT_EQ(picked.count(), 2);
    EXPECT_EQ(picked[0].front().toInt(), 0) << "a thin strip is hit beside it too";
    EXPECT_EQ(picked[1].front().toInt(), 1);
}

TEST_F(PicturePanelTest, ACodeThatSaysNothingCannotBePressedInTheList)
{
    PictureView view = twoCodes();
    view.codes[0].canBePicked = false;
    panel.setView(view);

    EXPECT_FALSE(panel.findChild<PlainButton*>(u"code-0"_s)->isEnabled());
}

TEST_F(PicturePanelTest, APastedPictureIsGiven)
{
    QApplication::clipboard()->setImage(twoCodes().picture);
    panel.setFocus();

    QTest::keySequence(&panel, QKeySequence::Paste);

    ASSERT_TRUE(given);
    EXPECT_EQ(std::get<QImage>(*given).size(), QSize(400, 300));
}

TEST_F(PicturePanelTest, ADroppedFileOrPictureIsGivenAndWordsAreNot)
{
    QMimeData file;
    file.setUrls({QUrl::fromLocalFile(u"/tmp/label.jpg"_s)});
    EXPECT_TRUE(panel.take(file));
    EXPECT_EQ(std::get<QString>(*given), u"/tmp/label.jpg"_s);

    QMimeData image;
    image.setImageData(twoCodes().picture);
    EXPECT_TRUE(panel.take(image));
    EXPECT_TRUE(std::holds_alternative<QImage>(*given));

    QMimeData text;
    text.setText(u"HVQ30-40B"_s);
    text.setUrls({QUrl(u"https://maker.example/label.jpg"_s)});
    EXPECT_FALSE(panel.take(text)) << "nothing is fetched";
}

TEST_F(PicturePanelTest, AllIsReachedByKeyboardAndLargeEnough)
{
    panel.setView(twoCodes());
    QCoreApplication::processEvents(); // the layout has its turn
    for (const QString& name : {u"pictureChoose"_s, u"code-0"_s, u"code-1"_s}) {
        auto* button = panel.findChild<PlainButton*>(name);
        EXPECT_TRUE(button->focusPolicy() & Qt::TabFocus) << name.toStdString();
        EXPECT_GE(button->height(), kHandTarget) << name.toStdString();
        EXPECT_TRUE(button->fits()) << name.toStdString();
    }
}

} // namespace
} // namespace coldarc::ui
