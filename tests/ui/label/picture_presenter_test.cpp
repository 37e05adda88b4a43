#include "ui/label/picture_presenter.h"

#include "tests/support/testing.h"

#include <QFile>
#include <QImageReader>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

// All types and serials are invented.
QList<catalogue::LampType> lampTypes()
{
    catalogue::LampType type;
    type.id = LampTypeId(u"khm"_s);
    type.code = u"KHM-25B"_s;
    type.labels = {{catalogue::LabelForm::Plain, {}, {}, u"{type}"_s, {}},
                   {catalogue::LabelForm::Plain, {}, {}, u"{serial}"_s, u"KB-#####"_s}};
    return {type};
}

/// A shell answers in the place of the decoding program, whatever the picture is.
class PicturePresenterTest : public ::testing::Test {
protected:
    void answer(const QStringList& scanned)
    {
        label::PictureReading reading{200, 100, {}};
        double y = 10;
        for (const QString& text : scanned) {
            reading.codes.append({text, {label::Place{20, y}, {180, y}, {180, y + 10}, {20, y + 10}}});
            y += 30;
        }
        make(u"cat > /dev/null; printf '%s' '"_s + QString::fromUtf8(label::toLine(reading)).trimmed() +
             u"'"_s);
    }
    void make(const QString& script, const Behind& behind = inPlace())
    {
        process = std::make_unique<DecodingProcess>(u"/bin/sh"_s, QStringList{u"-c"_s, script}, 20s);
        presenter = std::make_unique<PicturePresenter>(*process, behind, lampTypes(), 2026);
        QObject::connect(presenter.get(), &PicturePresenter::picked, presenter.get(),
                         [this](const QString& scanned, const LabelPicture& from) {
                             picked = scanned;
                             evidence = from.hash;
                         });
    }
    void look(const PictureSource& source)
    {
        presenter->look(source);
        EXPECT_TRUE(QTest::qWaitFor([this] { return !presenter->view().isBusy; }, 30'000));
    }
    static QImage picture(int width = 200)
    {
        QImage image(width, width / 2, QImage::Format_RGB32);
        image.fill(Qt::white);
        return image;
    }

    std::unique_ptr<DecodingProcess> process;
    std::unique_ptr<PicturePresenter> presenter;
    std::optional<QString> picked;
    Hash evidence;
};

TEST_F(PicturePresenterTest, TheOnlyCodeThatSaysSomethingIsPickedByAPersonToo)
{
    answer({u"]A0HELLO"_s, u"]A0KHM-25B"_s});

    look(picture());

    const PictureView& view = presenter->view();
    ASSERT_EQ(view.codes.size(), 2);
    EXPECT_FALSE(view.codes[0].canBePicked);
    EXPECT_EQ(view.codes[0].words, u"Not known to the catalogue: HELLO"_s);
    EXPECT_EQ(view.codes[1].words, u"Type KHM-25B"_s);
    EXPECT_EQ(view.codes[1].corners.at(1), QPointF(0.9, 0.4));
    EXPECT_EQ(view.says, u"One was found that can be read. Pick it if it is of the lamp that you hold."_s);
    EXPECT_EQ(view.picked, -1);
    EXPECT_FALSE(picked);
    presenter->pick(1);
    EXPECT_EQ(view.picked, 1);
    ASSERT_TRUE(picked);
    EXPECT_EQ(picked, u"]A0KHM-25B"_s) << "with what the reader said of the code";
    EXPECT_EQ(evidence, presenter->picture().hash);
    EXPECT_EQ(evidence, sha256(presenter->picture().kept)) << "the hash vouches for what is kept";
}

TEST_F(PicturePresenterTest, OfSeveralAPersonPicks)
{
    answer({u"]A0KHM-25B"_s, u"]A0KB-20417"_s, u"]A0HELLO"_s});
    look(picture());
    EXPECT_EQ(presenter->view().picked, -1);
    EXPECT_FALSE(picked);

    presenter->pick(2);
    EXPECT_FALSE(picked) << "it says nothing";
    presenter->pick(1);

    ASSERT_TRUE(picked);
    EXPECT_EQ(picked, u"]A0KB-20417"_s);
    EXPECT_EQ(presenter->view().picked, 1);
}

TEST_F(PicturePresenterTest, APictureThatIsPutAwayIsGoneWithItsCodes)
{
    answer({u"]A0KHM-25B"_s});
    look(picture());
    ASSERT_EQ(presenter->view().codes.size(), 1);

    presenter->clear();

    EXPECT_TRUE(presenter->view().picture.isNull());
    EXPECT_TRUE(presenter->picture().kept.isEmpty());
    presenter->pick(0);
    EXPECT_FALSE(picked);
}

TEST_F(PicturePresenterTest, WhatIsFoundInTheLastPictureIsNeverTakenForTheNext)
{
    std::vector<std::function<void()>> later;
    make(u"exec sleep 600"_s, [&](const std::function<void()>& work, const std::function<void()>& then) {
        later.emplace_back([work, then] {
            work();
            then();
        });
    });
    presenter->look(picture(200));
    later.at(0)();
    ASSERT_TRUE(process->isBusy());

    presenter->look(picture(300));

    EXPECT_FALSE(process->isBusy()) << "nothing comes of the first any more";
    EXPECT_FALSE(picked);
    later.at(1)();
    EXPECT_TRUE(process->isBusy());
    EXPECT_EQ(presenter->picture().shown.width(), 300);
}

TEST_F(PicturePresenterTest, APictureThatCannotBeReadLeavesNoCodesToPick)
{
    answer({u"]C0KHM-25B"_s, u"]C0KB-20417"_s});
    look(picture());
    ASSERT_EQ(presenter->view().codes.size(), 2);

    Q_EMIT process->failed(DecodingProcess::Failure::Died);

    EXPECT_TRUE(presenter->view().codes.isEmpty());
    presenter->pick(0);
    EXPECT_FALSE(picked);
}

TEST_F(PicturePresenterTest, WithoutACodeItSaysHowToGoOn)
{
    answer({});
    look(picture());

    EXPECT_EQ(presenter->view().says,
              u"No code was found. Go closer, hold level, more light; or type what stands on the label."_s);
    EXPECT_FALSE(presenter->view().picture.isNull());
}

TEST_F(PicturePresenterTest, ADecoderThatDiesCostsThePictureOnly)
{
    make(u"kill -ABRT $$"_s);
    look(picture());

    EXPECT_EQ(presenter->view().says,
              u"This picture could not be read. Take another one, scan the label, or type it."_s);
    EXPECT_FALSE(picked);
}

TEST_F(PicturePresenterTest, APictureThatTheDecoderCannotReadIsNotSaidToHoldNoCode)
{
    make(u"cat > /dev/null; echo '{\"width\":0,\"height\":0,\"codes\":[]}'"_s);

    look(picture());

    EXPECT_EQ(presenter->view().says,
              u"This picture could not be read. Take another one, scan the label, or type it."_s);
    EXPECT_FALSE(presenter->view().picture.isNull());
}

TEST_F(PicturePresenterTest, AFileThatIsNoPictureIsSaidToBeNone)
{
    answer({u"]A0KHM-25B"_s});
    look(test::sourceFile("README.md"));
    EXPECT_EQ(presenter->view().says, u"That is no picture that can be opened."_s);
    look(u"/nowhere/label.jpg"_s);
    EXPECT_TRUE(presenter->view().picture.isNull());
    look(QImage());
    EXPECT_FALSE(picked);
}

TEST_F(PicturePresenterTest, WhatIsShownAndKeptIsNoLargerThanItNeedsToBe)
{
    answer({});
    QTemporaryDir folder;
    const QString file = folder.filePath(u"label.png"_s);
    picture(4000).save(file);

    look(file);

    EXPECT_EQ(presenter->picture().shown.size(), QSize(kShownSide, kShownSide / 2));
    EXPECT_EQ(QImage::fromData(presenter->picture().kept).size(), QSize(kShownSide, kShownSide / 2));
    EXPECT_EQ(QImage::fromData(presenter->picture().whole).width(), 4000)
        << "codes are looked for in all of it";
}

TEST_F(PicturePresenterTest, APictureThatIsTooLargeIsToldWithItsSizeAndTheLimit)
{
    make(u"exit 1"_s);
    QTemporaryDir folder;
    const QString name = folder.filePath(u"large.jpg"_s);
    QFile file(name);
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    ASSERT_TRUE(file.resize(kMostPictureBytes + 1)); // takes no room on the disk
    file.close();

    look(PictureSource(name));
    EXPECT_EQ(presenter->view().says,
              u"That file is a little larger than 64.00 MiB, up to which pictures are looked at. Take it "
              "again with fewer pixels."_s);
    ASSERT_TRUE(file.resize(kMostPictureBytes + kMostPictureBytes / 2));
    look(PictureSource(name));
    EXPECT_EQ(presenter->view().says,
              u"That file has 96.00 MiB, and pictures up to 64.00 MiB are looked at. Take it again with "
              "fewer pixels."_s);

    const int before = QImageReader::allocationLimit();
    QImageReader::setAllocationLimit(1); // MiB
    const QString wide = folder.filePath(u"wide.png"_s);
    ASSERT_TRUE(picture(2000).save(wide));
    look(PictureSource(wide));
    QImageReader::setAllocationLimit(before);
    EXPECT_TRUE(
        presenter->view().says.startsWith(u"That picture, 2000 by 1000 pixels, is damaged or larger"_s))
        << presenter->view().says.toStdString();
}

TEST_F(PicturePresenterTest, ACodeThatNoRuleReadsIsToldOf)
{
    answer({u"]C0HELLO"_s, u"]C0KHM-25B"_s});
    QSignalSpy unknown(presenter.get(), &PicturePresenter::unknownFound);

    look(PictureSource(picture()));

    ASSERT_EQ(unknown.size(), 1);
    EXPECT_EQ(unknown.first().first().toString(), u"]C0HELLO"_s);
}

} // namespace
} // namespace coldarc::ui
