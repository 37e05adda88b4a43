// Figures of the histories in a workspace of 50,000 visits: finding a lamp by a part of its serial, the first
// page of a lamphouse, and telling one logbook. The lines of 50,000 visits are written by themselves, without
// logbooks; the one that is told is a whole night. All of it is invented.

#include "core/review/history_store.h"
#include "core/review/summary.h"
#include "core/store/journal.h"
#include "core/store/workspace_file.h"
#include "tests/bench/times.h"
#include "tests/core/visit/night.h"

#include <QCoreApplication>
#include <QTemporaryDir>

#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using namespace coldarc;

namespace {

constexpr int kPage = 40;
constexpr int kRounds = 21;
constexpr int kNights = 40;

[[noreturn]] void stop(const QString& why)
{
    std::fprintf(stderr, "history_bench: %s\n", qUtf8Printable(why));
    std::exit(1);
}

template<class T>
T good(Result<T> result)
{
    if (!result)
        stop(result.error().detail);
    if constexpr (!std::is_void_v<T>)
        return std::move(*result);
}

store::Database opened(const QString& file)
{
    store::OpenAnswer answer = store::openWorkspace(file, {u"bench"_s, WallTime(24h)});
    if (!answer.database)
        stop(answer.detail);
    return std::move(*answer.database);
}

/// Twelve lines a visit: 2,000 lamphouses at 400 sites, a new lamp at each visit, 40 people.
void fill(store::Database& database)
{
    good(database.transaction([&]() -> Result<void> {
        const auto lines = database.run(
            u"WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 599999) "
            "INSERT INTO history_line SELECT 'visit-' || (i / 12), i % 12, i % 12 * 5, i / 12 * 1800000, "
            "CASE i % 12 WHEN 1 THEN 'fitted' WHEN 2 THEN 'taken-out' WHEN 3 THEN 'centre-read' "
            "ELSE 'counter-read' END, "
            "CASE WHEN i % 12 < 6 THEN 'lamp-' || (i / 12 - (i % 12 = 2) * 2000) END, "
            "'lamphouse-' || (i / 12 % 2000), 'person-' || (i / 12 % 40), "
            "'{\"figure\":48.5,\"words\":[\"after\"]}' FROM n"_s);
        const auto lamps = database.run(
            u"WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 49999) "
            "INSERT INTO history_subject SELECT 'lamp', 'lamp-' || i, 'HV' || (100000 + i), 'HVQ21-40A', "
            "'type-1', 'type-1' || char(10) || 'HV' || (100000 + i), "
            "'hv' || (100000 + i) || ' hvq21-40a hv' || (100000 + i) || ' hvq2140a', i FROM n"_s);
        const auto lamphouses = database.run(
            u"WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 1999) "
            "INSERT INTO history_subject SELECT 'lamphouse', 'lamphouse-' || i, 'Invented Site ' || (i % "
            "400), "
            "'Screen ' || (i / 400), '', '', 'invented site ' || (i % 400) || ' screen ' || (i / 400), i FROM n"_s);
        if (!lines || !lamps || !lamphouses)
            stop(u"the lines could not be written"_s);
        return {};
    }));
}

template<class Deed>
double medianMs(const Deed& deed)
{
    std::vector<double> took;
    for (int round = 0; round < kRounds; ++round)
        took.push_back(bench::millisecondsOf([&] { deed(round); }));
    return bench::median(std::move(took));
}

/// The logbook of one night under many names, each with its line in the lists.
void keepNights(store::Database& database)
{
    test::Night night;
    night.doAll();
    night.close();
    store::Journal journal(database);
    store::Summaries summaries(database);
    for (int number = 0; number < kNights; ++number) {
        QList<visit::Entry> entries = night.entries;
        std::get<visit::Opening>(entries.first().body).visit = VisitId(u"night-%1"_s.arg(number));
        store::VisitSummary summary = review::summaryOf(visit::fold(entries), entries);
        for (qsizetype entry = 0; entry < entries.size(); ++entry) {
            summary.headHash =
                good(journal.append(summary.visit, store::Sequence(entry), visit::bytesOf(entries[entry])));
            summary.headSeq = store::Sequence(entry);
        }
        good(summaries.put(summary));
    }
}

} // namespace

int main(int count, char** arguments)
{
    const QCoreApplication application(count, arguments);
    const std::string wanted = count > 1 ? arguments[1] : "";
    const auto isWanted = [&](const char* name) {
        return std::string(name).find(wanted) != std::string::npos;
    };
    if (!isWanted("review.history_ms") && !isWanted("review.history_find_ms") &&
        !isWanted("review.history_ratio") && !isWanted("review.history_tell_ms"))
        return 0;
    const QTemporaryDir folder;
    store::Database database = opened(folder.filePath(u"histories.coldarc"_s));
    fill(database);
    review::HistoryStore histories(database);
    const auto id = [](int round) { return u"lamphouse-%1"_s.arg(round * 97 % 2000); };

    const double page = medianMs([&](int round) {
        if (good(histories.page(review::About::Lamphouse, id(round), 0, kPage)).lines.size() != kPage)
            stop(u"a page is not full"_s);
    });
    // The same rows, and nothing made of them.
    const double floor = medianMs([&](int round) {
        const auto rows =
            good(database.run(u"SELECT visit_id, entry_seq, at_ms, kind, lamp_id, lamphouse_id, person_id, "
                              "detail FROM history_line WHERE lamphouse_id = :id"_s,
                              {{u":id"_s, id(round + 500)}}));
        if (rows.rows.empty())
            stop(u"the floor read nothing"_s);
    });
    const double find = medianMs([&](int round) {
        if (good(histories.find(review::About::Lamp, u"hv 10%1"_s.arg(round), 51)).empty())
            stop(u"no lamp was found"_s);
    });
    keepNights(database);
    const double tell = bench::millisecondsOf([&] {
        if (good(histories.catchUp(kNights)).due != 0)
            stop(u"a night was not told"_s);
    });
    std::printf("review.history_ms %.1f ms\n", page);
    std::printf("review.history_ratio %.1f x\n", page / floor);
    std::printf("review.history_find_ms %.1f ms\n", find);
    std::printf("review.history_tell_ms %.1f ms\n", tell / kNights);
    return 0;
}
