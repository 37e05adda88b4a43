// Appends to one visit until it is killed, and says which entry was acknowledged: "<number> <hash>". For the
// tests that kill it.

#include "core/store/journal.h"
#include "core/store/workspace_file.h"

#include <QCoreApplication>

#include <unistd.h>

using namespace Qt::StringLiterals;
using namespace coldarc;
using namespace coldarc::store;

namespace {

/// One system call per line, so that a line is either said or not.
bool say(const QByteArray& line)
{
    const QByteArray whole = line + '\n';
    return ::write(STDOUT_FILENO, whole.constData(), static_cast<size_t>(whole.size())) == whole.size();
}

int appendForEver(Database& database)
{
    const VisitId visit(u"visit-kill"_s);
    Journal journal(database);
    const auto head = journal.head(visit);
    for (Sequence seq = head ? head->seq.next() : Sequence(0);; seq = seq.next()) {
        const auto hash =
            journal.append(visit, seq, QByteArray(static_cast<qsizetype>(1 + seq.value() * 37 % 3000), 'e'));
        if (!hash || !say(QByteArray::number(seq.value()) + ' ' + hash->hex().toLatin1()))
            return 1;
    }
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    if (argc != 2 || !say("up"))
        return 2;
    OpenAnswer answer =
        openWorkspace(QString::fromLocal8Bit(argv[1]),
                      {u"invented workspace"_s, WallTime(std::chrono::milliseconds(1'795'000'000'000))});
    return answer.database ? appendForEver(*answer.database) : 3;
}
