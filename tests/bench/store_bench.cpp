// Figures of core/store. Each is measured beside SQLite's own C interface, turn by turn in one run, so that a
// busy machine slows both.

#include "core/store/journal.h"
#include "core/store/workspace_file.h"
#include "tests/bench/times.h"
#include "tests/core/store/hard_times.h"
#include "tests/core/store/rough_disk.h"

#include <QCoreApplication>
#include <QTemporaryDir>

#include <sqlite3.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <initializer_list>
#include <string>
#include <vector>

using namespace Qt::StringLiterals;
using namespace coldarc;
using namespace coldarc::store;

namespace {

constexpr std::uint32_t kSeed = 20261125;
const QByteArray kEntry(400, 'e'); // a usual entry: a few hundred bytes of JSON

void must(bool done, const char* what)
{
    if (!done) {
        std::fprintf(stderr, "store_bench: %s failed\n", what);
        std::exit(1);
    }
}

/// The least that keeping an entry can cost: one prepared INSERT into the same columns with the same key and
/// the same settings, without guards, chain or hash.
class RawTable {
public:
    explicit RawTable(const QByteArray& file)
    {
        must(sqlite3_open(file.constData(), &m_database) == SQLITE_OK, "raw open");
        for (const char* sql :
             {"PRAGMA journal_mode = WAL", "PRAGMA synchronous = FULL", "PRAGMA foreign_keys = ON",
              "CREATE TABLE entry (entry_id INTEGER NOT NULL PRIMARY KEY, visit_id TEXT NOT NULL, seq "
              "INTEGER NOT NULL, "
              "bytes BLOB NOT NULL, previous BLOB NOT NULL, hash BLOB NOT NULL, UNIQUE (visit_id, seq)) "
              "STRICT"})
            must(sqlite3_exec(m_database, sql, nullptr, nullptr, nullptr) == SQLITE_OK, sql);
        const char* insert = "INSERT INTO entry(visit_id, seq, bytes, previous, hash) VALUES(?, ?, ?, ?, ?)";
        must(sqlite3_prepare_v2(m_database, insert, -1, &m_insert, nullptr) == SQLITE_OK, insert);
    }
    RawTable(const RawTable&) = delete;
    RawTable& operator=(const RawTable&) = delete;
    ~RawTable()
    {
        sqlite3_finalize(m_insert);
        sqlite3_close(m_database);
    }

    void append(qint64 seq, const QByteArray& bytes)
    {
        static const QByteArray kHash(32, 'h');
        sqlite3_bind_text(m_insert, 1, "visit-1", -1, nullptr);
        sqlite3_bind_int64(m_insert, 2, seq);
        sqlite3_bind_blob(m_insert, 3, bytes.constData(), static_cast<int>(bytes.size()), nullptr);
        sqlite3_bind_blob(m_insert, 4, kHash.constData(), static_cast<int>(kHash.size()), nullptr);
        sqlite3_bind_blob(m_insert, 5, kHash.constData(), static_cast<int>(kHash.size()), nullptr);
        must(sqlite3_step(m_insert) == SQLITE_DONE, "raw insert");
        sqlite3_reset(m_insert);
    }

private:
    sqlite3* m_database = nullptr;
    sqlite3_stmt* m_insert = nullptr;
};

/// Median over turns of (time of `batch` appends to the journal) / (time of as many raw inserts just before
/// or after).
double ratio(Database& database, RawTable& raw, int turns, int batch, double (*clock)())
{
    Journal journal(database);
    const VisitId visit(u"visit-1"_s);
    qint64 journalSeq = 0;
    qint64 rawSeq = 0;
    const auto journalTime = [&] {
        const double start = clock();
        for (int i = 0; i < batch; ++i)
            must(journal.append(visit, Sequence(journalSeq++), kEntry).has_value(), "append");
        return clock() - start;
    };
    const auto rawTime = [&] {
        const double start = clock();
        for (int i = 0; i < batch; ++i)
            raw.append(rawSeq++, kEntry);
        return clock() - start;
    };
    journalTime(); // warms both up
    rawTime();
    std::vector<double> ratios;
    for (int turn = 0; turn < turns; ++turn) {
        const bool rawFirst = turn % 2 == 0;
        double rawMs = rawFirst ? rawTime() : 0;
        const double journalMs = journalTime();
        if (!rawFirst)
            rawMs = rawTime();
        ratios.push_back(journalMs / rawMs);
    }
    return bench::median(ratios);
}

NewWorkspace invented()
{
    return {u"invented workspace"_s, WallTime(std::chrono::milliseconds(1'795'000'000'000))};
}

double appendRatio()
{
    const QTemporaryDir folder;
    OpenAnswer opened = openWorkspace(folder.filePath(u"journal.coldarc"_s), invented());
    must(opened.outcome == Opening::Created, "create");
    RawTable raw(folder.filePath(u"raw.db"_s).toLocal8Bit());
    return ratio(*opened.database, raw, 41, 100, bench::monotonicMs);
}

double appendCpuRatio()
{
    Database database = Database::inMemory();
    RawTable raw(":memory:");
    return ratio(database, raw, 31, 1000, bench::threadMs);
}

double syncsPerAppend()
{
    constexpr int kEntries = 5000;
    test::RoughDisk disk;
    const QTemporaryDir folder;
    OpenAnswer opened = openWorkspace(folder.filePath(u"journal.coldarc"_s), invented());
    must(opened.outcome == Opening::Created, "create");
    Journal journal(*opened.database);
    const long before = disk.syncs();
    for (int seq = 0; seq < kEntries; ++seq)
        must(journal.append(VisitId(u"visit-1"_s), Sequence(seq), kEntry).has_value(), "append");
    return static_cast<double>(disk.syncs() - before) / kEntries;
}

/// A figure is printed if its name contains the text asked for.
class Figures {
public:
    explicit Figures(std::string filter)
        : m_filter(std::move(filter))
    {
    }

    /// Whether any of the names is asked for.
    [[nodiscard]] bool wants(std::initializer_list<const char*> names) const
    {
        return std::ranges::any_of(names, [&](const std::string& name) { return contains(name); });
    }
    void print(const std::string& name, double value, const char* unit) const
    {
        if (contains(name))
            std::printf("%s %g %s\n", name.c_str(), value, unit);
        std::fflush(stdout);
    }

private:
    [[nodiscard]] bool contains(const std::string& name) const
    {
        return name.find(m_filter) != std::string::npos;
    }
    std::string m_filter;
};

void measureCuts(const Figures& figures)
{
    if (figures.wants({"store.cuts", "store.cut_lost"})) {
        const test::HardTimes times = test::cutPower(1000, kSeed, test::Durability::AsShipped);
        must(times.broken == 0, "a file after a power cut");
        figures.print("store.cuts", times.times, "cuts");
        figures.print("store.cut_lost", static_cast<double>(times.lost), "entries");
    }
    if (figures.wants({"store.cut_control_lost"})) {
        const test::HardTimes control = test::cutPower(1000, kSeed, test::Durability::ControlWithoutSyncs);
        figures.print("store.cut_control_lost", static_cast<double>(control.lost), "entries");
    }
}

void measureKills(const Figures& figures)
{
    if (!figures.wants({"store.kills", "store.kill_lost"}))
        return;
    const test::HardTimes times = test::killAppender(QStringLiteral(COLDARC_STORE_APPENDER), 200, kSeed);
    must(times.broken == 0, "a file after a kill");
    figures.print("store.kills", times.times, "kills");
    figures.print("store.kill_lost", static_cast<double>(times.lost), "entries");
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    const Figures figures(argc > 1 ? argv[1] : "");
    if (figures.wants({"store.append_ratio"}))
        figures.print("store.append_ratio", appendRatio(), "times_raw");
    if (figures.wants({"store.append_cpu_ratio"}))
        figures.print("store.append_cpu_ratio", appendCpuRatio(), "times_raw");
    if (figures.wants({"store.syncs_per_append"}))
        figures.print("store.syncs_per_append", syncsPerAppend(), "syncs");
    measureCuts(figures);
    measureKills(figures);
    return 0;
}
