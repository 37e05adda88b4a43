// Takes records into a workspace and says which it acknowledged: "<number> <verdict>". For the tests that
// kill it: it lays a SIGKILL for itself, so that one comes at any moment of taking.

#include "app/record_intake.h"
#include "core/store/workspace_file.h"
#include "tests/app/killed_intake.h"

#include <QCoreApplication>

#include <csignal>
#include <ctime>
#include <unistd.h>

using namespace Qt::StringLiterals;
using namespace coldarc;

namespace {

/// One system call per line, so that a line is either said or not.
bool say(const QByteArray& line)
{
    const QByteArray whole = line + '\n';
    return ::write(STDOUT_FILENO, whole.constData(), static_cast<size_t>(whole.size())) == whole.size();
}

void killIn(std::chrono::microseconds delay)
{
    sigevent kill{};
    kill.sigev_notify = SIGEV_SIGNAL;
    kill.sigev_signo = SIGKILL;
    timer_t timer{};
    constexpr long kNsPerMicrosecond = 1000;
    constexpr long kMicrosecondsPerSecond = 1'000'000;
    const itimerspec when{{},
                          {delay.count() / kMicrosecondsPerSecond,
                           delay.count() % kMicrosecondsPerSecond * kNsPerMicrosecond + 1}};
    if (timer_create(CLOCK_MONOTONIC, &kill, &timer) != 0 || timer_settime(timer, 0, &when, nullptr) != 0)
        qFatal("no timer");
}

QByteArray verdictOf(const record::TakenRecord& taken)
{
    using Verdict = record::Intake::Verdict;
    if (!taken.unread.isEmpty())
        return "unread: " + taken.unread.toUtf8();
    if (taken.intake.verdict == Verdict::Take)
        return test::kTaken;
    return taken.intake.verdict == Verdict::Nothing ? QByteArray(test::kThere)
                                                    : record::wordOf(taken.intake.why).toUtf8();
}

} // namespace

// WORKSPACE FOLDER PERSON FIRST LAST LINES MICROSECONDS [early]: so long after so many lines it is killed; no
// lines, never. "early" acknowledges before it takes, which has to lose records.
int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    const QStringList given = QCoreApplication::arguments().mid(1);
    if (given.size() < 7 || !say("up"))
        return 2;
    const Stamp now{WallTime(std::chrono::milliseconds(1'795'100'000'000)), u"machine-1"_s, u"boot-1"_s,
                    std::chrono::hours(1), std::chrono::milliseconds(0)};
    store::OpenAnswer answer = store::openWorkspace(given[0], {u"invented workspace"_s, now.wall});
    if (!answer.database)
        return 3;
    app::RecordIntake intake(*answer.database);
    const bool isEarly = given.value(7) == u"early";
    int lines = given[5].toInt();
    for (int number = given[3].toInt(); number < given[4].toInt(); ++number) {
        if (lines-- == 1)
            killIn(std::chrono::microseconds(given[6].toInt()));
        if (isEarly && !say(QByteArray::number(number) + ' ' + test::kTaken))
            return 1;
        const auto taken = intake.takeFile(test::recordFileIn(given[1], number), PersonId(given[2]), now);
        if (!isEarly && !say(QByteArray::number(number) + ' ' + verdictOf(taken)))
            return 1;
    }
    return 0;
}
