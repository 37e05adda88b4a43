#include "ui/label/decoding_process.h"

#include "tests/support/testing.h"

#include <QSignalSpy>
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

TEST(DecodingProcessTest, AnotherPictureTakesThePlaceOfTheOneUnderWay)
{
    DecodingProcess process(u"/bin/sh"_s,
                            {u"-c"_s, u"[ \"$(cat)\" = second ] || exec sleep 600; "_s + kAnswer}, 20s);
    QSignalSpy decoded(&process, &DecodingProcess::decoded);
    process.decode("first");
    process.decode("second");

    EXPECT_TRUE(QTest::qWaitFor([&] { return decoded.count() == 1; }, 60'000));
}

} // namespace
} // namespace coldarc::ui
