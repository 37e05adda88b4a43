#include "tests/core/store/hard_times.h"

#include "core/store/journal.h"
#include "core/store/workspace_file.h"
#include "tests/core/store/rough_disk.h"

#include <QDir>
#include <QFileInfo>
#include <QProcess>
#include <QTemporaryDir>

#include <map>
#include <memory>
#include <random>
#include <vector>

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace store;

constexpr int kTimesPerFile = 10; ///< then a new file, so that checking everything stays quick

NewWorkspace invented()
{
    return {u"invented workspace"_s, WallTime(std::chrono::milliseconds(1'795'000'000'000))};
}

int between(std::mt19937& chance, int least, int most)
{
    return std::uniform_int_distribution<int>(least, most)(chance);
}

/// In memory where that can be had: the power cuts are played, so what the files really lie on does not
/// matter.
QString quickPlace()
{
    const QString memory = u"/dev/shm"_s;
    return (QFileInfo(memory).isWritable() ? memory : QDir::tempPath()) + u"/coldarc-cut-XXXXXX"_s;
}

/// The hashes acknowledged of each visit, by sequence number.
using Acknowledged = std::map<QString, std::vector<Hash>>;

void trouble(HardTimes& times, const QString& what)
{
    ++times.broken;
    if (times.firstTrouble.isEmpty())
        times.firstTrouble = what;
}

void checkVisit(const Journal& journal, const QString& visit, const std::vector<Hash>& hashes,
                HardTimes& times)
{
    const auto chain = journal.chain(VisitId(visit));
    if (!chain || chain->fault) {
        trouble(times, chain ? chain->fault->detail : chain.error().detail);
        return;
    }
    for (std::size_t seq = 0; seq < hashes.size(); ++seq) {
        if (seq >= chain->good.size() || chain->good[seq].hash != hashes[seq])
            ++times.lost;
    }
    // What was under way and not acknowledged may be there, and nothing else.
    if (chain->good.size() > hashes.size() + 1)
        trouble(times, u"visit %1 has more entries than were ever written"_s.arg(visit));
}

void checkAll(const QString& file, const Acknowledged& acknowledged, HardTimes& times)
{
    OpenAnswer answer = openWorkspace(file, invented());
    if (answer.outcome != Opening::Opened) {
        trouble(times, u"opening: %1 %2"_s.arg(static_cast<int>(answer.outcome)).arg(answer.detail));
        return;
    }
    const Journal journal(*answer.database);
    for (const auto& [visit, hashes] : acknowledged)
        checkVisit(journal, visit, hashes, times);
}

/// Appends until something refuses or the work is done.
void work(Database& database, const QString& visit, std::mt19937& chance, std::vector<Hash>& hashes)
{
    Journal journal(database);
    const int entries = between(chance, 10, 60);
    for (int seq = 0; seq < entries; ++seq) {
        const int size = between(chance, 0, 29) == 0 ? between(chance, 1, 65536) : between(chance, 1, 900);
        const auto hash = journal.append(VisitId(visit), Sequence(seq), QByteArray(size, 'e'));
        if (!hash)
            return;
        hashes.push_back(*hash);
        if (between(chance, 0, 19) == 0 && !database.run(u"PRAGMA wal_checkpoint(PASSIVE)"_s))
            return;
    }
}

/// Adds the whole lines that the process has said, waiting until there are `least` or it has ended.
void listen(QProcess& process, QList<QByteArray>& lines, int least)
{
    do {
        while (process.canReadLine())
            lines.append(process.readLine().trimmed());
    } while (lines.size() < least && process.waitForReadyRead(20'000));
}

/// Everything that the program said before it was killed, which happened soon after it had said `least`
/// lines.
QList<QByteArray> killedAfter(const QString& program, const QString& file, int least)
{
    QProcess process;
    process.start(program, {file});
    QList<QByteArray> lines;
    listen(process, lines, least);
    process.kill();
    process.waitForFinished();
    listen(process, lines, 0);
    return lines;
}

void checkKilled(const QString& file, const std::map<qint64, QByteArray>& acknowledged, HardTimes& times)
{
    OpenAnswer answer = openWorkspace(file, invented());
    // Killed before it had made the file: then there was nothing to lose, and this opening made it.
    const bool isFirst = answer.outcome == Opening::Created && acknowledged.empty();
    if (answer.outcome != Opening::Opened && !isFirst) {
        trouble(times, u"opening: %1 %2"_s.arg(static_cast<int>(answer.outcome)).arg(answer.detail));
        return;
    }
    const auto chain = Journal(*answer.database).chain(VisitId(u"visit-kill"_s));
    if (!chain || chain->fault) {
        trouble(times, chain ? chain->fault->detail : chain.error().detail);
        return;
    }
    for (const auto& [seq, hash] : acknowledged) {
        const auto at = static_cast<std::size_t>(seq);
        if (at >= chain->good.size() || chain->good[at].hash.hex().toLatin1() != hash)
            ++times.lost;
    }
}

} // namespace

HardTimes cutPower(int cuts, std::uint32_t seed, Durability durability)
{
    std::mt19937 chance(seed);
    HardTimes times;
    std::unique_ptr<QTemporaryDir> folder;
    QString file;
    Acknowledged acknowledged;
    for (int round = 0; times.times < cuts; ++round) {
        RoughDisk disk;
        if (round % kTimesPerFile == 0) {
            folder = std::make_unique<QTemporaryDir>(quickPlace());
            file = folder->filePath(u"cut.coldarc"_s);
            acknowledged.clear();
            if (openWorkspace(file, invented()).outcome != Opening::Created)
                trouble(times, u"the file was not created"_s);
        }
        std::vector<Hash>& hashes = acknowledged[u"visit-%1"_s.arg(round)];
        disk.cutPowerAfter(between(chance, 1, 220));
        {
            OpenAnswer answer = openWorkspace(file, invented());
            if (answer.database && durability == Durability::ControlWithoutSyncs)
                std::ignore = answer.database->run(u"PRAGMA synchronous = NORMAL"_s);
            if (answer.database)
                work(*answer.database, u"visit-%1"_s.arg(round), chance, hashes);
        }
        times.times += disk.isOff() ? 1 : 0;
        times.acknowledged += static_cast<long>(hashes.size());
        disk.powerOn(between(chance, 0, 1) == 0 ? RoughDisk::Unsynced::Gone : RoughDisk::Unsynced::Some,
                     chance);
        const long troublesBefore = times.lost + times.broken;
        checkAll(file, acknowledged, times);
        if (times.lost + times.broken != troublesBefore) // each counts once: on with a new file
            round += kTimesPerFile - 1 - round % kTimesPerFile;
    }
    return times;
}

HardTimes killAppender(const QString& program, int kills, std::uint32_t seed)
{
    std::mt19937 chance(seed);
    HardTimes times;
    std::unique_ptr<QTemporaryDir> folder;
    QString file;
    std::map<qint64, QByteArray> acknowledged; // number -> hash in hexadecimal
    for (int kill = 0; kill < kills; ++kill) {
        if (kill % kTimesPerFile == 0) {
            folder = std::make_unique<QTemporaryDir>();
            file = folder->filePath(u"kill.coldarc"_s);
            acknowledged.clear();
        }
        const QList<QByteArray> lines = killedAfter(program, file, 1 + between(chance, 0, 60));
        if (lines.isEmpty() || lines.first() != "up") {
            trouble(times, u"the appender did not start: "_s + program);
            return times;
        }
        for (const QByteArray& line : lines.mid(1))
            acknowledged[line.split(' ').first().toLongLong()] = line.split(' ').last();
        ++times.times;
        times.acknowledged += lines.size() - 1;
        checkKilled(file, acknowledged, times);
    }
    return times;
}

} // namespace coldarc::test
