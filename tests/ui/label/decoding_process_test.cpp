#include "ui/label/decoding_process.h"

#include "tests/support/testing.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using Failure = DecodingProcess::Failure;

/// A shell stands for the decoding program; the arguments that follow its script are $0, $1 ...
struct Outcome {
    std::optional<label::PictureReading> reading;
    std::optional<Failure> failure;
};

Outcome decoded(const QString& program, const QStringList& arguments,
                std::chrono::milliseconds patience = 20s)
{
    DecodingProcess process(program, arguments, patience);
    Outcome outcome;
    QObject::connect(&process, &DecodingProcess::decoded, &process,
                     [&](const label::PictureReading& reading) { outcome.reading = reading; });
    QObject::connect(&process, &DecodingProcess::failed, &process,
                     [&](Failure failure) { outcome.failure = failure; });
    process.decode("picture");
    EXPECT_TRUE(process.isBusy() || outcome.failure);
    EXPECT_TRUE(QTest::qWaitFor([&] { return outcome.reading || outcome.failure; }, 60'000));
    EXPECT_FALSE(process.isBusy());
    return outcome;
}

Outcome byShell(const QString& script, std::chrono::milliseconds patience = 20s)
{
    return decoded(u"/bin/sh"_s, {u"-c"_s, script, u"decoder"_s}, patience);
}

const QString kAnswer = u"echo '{\"width\":4,\"height\":3,\"codes\":[]}'"_s;

TEST(DecodingProcessTest, HandsThePictureOverAndTakesTheReading)
{
    const Outcome outcome = byShell(u"[ \"$(cat)\" = picture ] && "_s + kAnswer);

    ASSERT_TRUE(outcome.reading);
    EXPECT_EQ(outcome.reading->width, 4);
}

TEST(DecodingProcessTest, OneThatDiesIsTriedOnceMoreAtHalfTheSize)
{
    const Outcome outcome = byShell(u"[ \"$1\" = --half ] || kill -ABRT $$; "_s + kAnswer);

    EXPECT_TRUE(outcome.reading);
    EXPECT_FALSE(outcome.failure);
}

TEST(DecodingProcessTest, OneThatAlwaysDiesIsGivenUp)
{
    EXPECT_EQ(byShell(u"kill -ABRT $$"_s).failure, Failure::Died);
    EXPECT_EQ(byShell(u"exit 3"_s).failure, Failure::Died);
}

TEST(DecodingProcessTest, OneThatHangsIsEnded)
{
    EXPECT_EQ(byShell(u"exec sleep 600"_s, 50ms).failure, Failure::TookTooLong);
}

TEST(DecodingProcessTest, OneThatAnswersNonsenseIsGivenUp)
{
    EXPECT_EQ(byShell(u"echo no"_s).failure, Failure::Nonsense);
    EXPECT_EQ(byShell(u"true"_s).failure, Failure::Nonsense);
}

TEST(DecodingProcessTest, OneThatIsNotThereIsSaidToBe)
{
    EXPECT_EQ(decoded(u"/nowhere/decoder"_s, {}).failure, Failure::NotStarted);
}

TEST(DecodingProcessTest, WithoutAProgramItFailsAsOneThatIsNotThere)
{
    // This one fails while it is being started, not afterwards.
    EXPECT_EQ(decoded(QString(), {}).failure, Failure::NotStarted);
}

TEST(DecodingProcessTest, AnotherPictureTakesThePlaceOfOneThatWouldAnswerLate)
{
    // The first answers when the second is under way; the second waits until nobody is there to do so.
    const QTemporaryDir folder;
    const QString script =
        u"cd '%1'; if [ \"$(cat)\" = first ]; then echo $$ > made; mv made pid; "
        u"until [ -e go ]; do sleep 0.01; done; echo '{\"width\":1,\"height\":1,\"codes\":[]}'; "
        u"else touch go; while kill -0 $(cat pid); do sleep 0.01; done; "_s.arg(folder.path()) +
        kAnswer + u"; fi"_s;
    DecodingProcess process(u"/bin/sh"_s, {u"-c"_s, script}, 20s);
    QList<int> widths;
    QObject::connect(&process, &DecodingProcess::decoded, &process,
                     [&](const label::PictureReading& reading) { widths.append(reading.width); });
    QSignalSpy failed(&process, &DecodingProcess::failed);
    process.decode("first");
    ASSERT_TRUE(QTest::qWaitFor([&] { return QFile::exists(folder.filePath(u"pid"_s)); }, 60'000));

    process.decode("second");

    EXPECT_TRUE(QTest::qWaitFor([&] { return !process.isBusy(); }, 60'000));
    EXPECT_EQ(widths, QList<int>{4});
    EXPECT_TRUE(failed.isEmpty());
}

TEST(DecodingProcessTest, NothingIsHeardOfOneThatWasCancelled)
{
    DecodingProcess process(u"/bin/sh"_s, {u"-c"_s, u"exec sleep 600"_s}, 20s);
    QSignalSpy failed(&process, &DecodingProcess::failed);
    process.decode("picture");

    process.cancel();

    EXPECT_FALSE(process.isBusy());
    EXPECT_TRUE(failed.isEmpty());
}

} // namespace
} // namespace coldarc::ui
