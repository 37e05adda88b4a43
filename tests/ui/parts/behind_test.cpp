#include "ui/parts/behind.h"

#include "tests/support/testing.h"

#include <QCoreApplication>
#include <QEventLoop>
#include <QThread>

namespace coldarc::test {
namespace {

using namespace ui;

TEST(BehindThreadsTest, WorksElsewhereAndComesBackHere)
{
    BehindThreads threads;
    const QThread* here = QThread::currentThread();
    const QThread* worked = nullptr;
    const QThread* came = nullptr;
    QEventLoop loop;

    threads.run([&] { worked = QThread::currentThread(); },
                [&] {
                    came = QThread::currentThread();
                    loop.quit();
                });
    loop.exec();

    EXPECT_NE(worked, here);
    EXPECT_EQ(came, here);
}

TEST(BehindThreadsTest, WaitsForTheWorkBeforeItGoesAndDoesNothingAfterwards)
{
    bool isDone = false;
    bool cameBack = false;
    {
        BehindThreads threads;
        threads.run([&] { isDone = true; }, [&] { cameBack = true; });
    }
    QCoreApplication::processEvents();

    EXPECT_TRUE(isDone);
    EXPECT_FALSE(cameBack);
}

} // namespace
} // namespace coldarc::test
