// Figures of the review desk's queue on 50,000 summaries in a workspace file: opening the file and reading
// the first page, and filters and orders after that, each with its count; four of five visits have a logbook
// of one entry, and a review. The page itself is not painted. All of it is invented.

#include "core/record/review_store.h"
#include "core/review/queue_store.h"
#include "core/store/journal.h"
#include "core/store/summaries.h"
#include "core/store/workspace_file.h"
#include "tests/bench/times.h"

#include <QCoreApplication>
#include <QTemporaryDir>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using namespace coldarc;

namespace {

constexpr int kVisits = 50'000;
constexpr int kPage = 60;
constexpr int kRounds = 11;

[[noreturn]] void stop(const QString& why)
{
    std::fprintf(stderr, "review_bench: %s\n", qUtf8Printable(why));
    std::exit(1);
}

store::Database opened(const QString& file)
{
    store::OpenAnswer answer = store::openWorkspace(file, {u"bench"_s, WallTime(24h)});
    if (!answer.database)
        stop(answer.detail);
    return std::move(*answer.database);
}

/// A visit of one entry, and a review of it.
Result<void> accept(store::Database& database, const people::SigningKey& key, const VisitId& visit)
{
    const auto head = store::Journal(database).append(visit, store::Sequence(0), "{}");
    if (!head)
        return tl::unexpected(head.error());
    const auto paper = record::sign({visit,
                                     0,
                                     *head,
                                     record::Verdict::Accepted,
                                     {},
                                     {},
                                     PersonId(u"person-9"_s),
                                     u"Supervisor 9"_s,
                                     WallTime(24h)},
                                    key);
    if (!paper)
        return tl::unexpected(paper.error());
    return record::ReviewStore(database).keep(*paper, key.publicKey(), {});
}

void fill(const QString& file)
{
    store::Database database = opened(file);
    const people::SigningKey key = people::SigningKey::generate();
    store::Summaries summaries(database);
    const auto filled = database.transaction([&]() -> Result<void> {
        for (int number = 0; number < kVisits; ++number) {
            store::VisitSummary one;
            one.visit = VisitId(u"visit-%1"_s.arg(number * 7919 % kVisits));
            one.site = SiteId(u"site-%1"_s.arg(number % 400));
            one.siteText = u"Invented Site %1"_s.arg(number % 400);
            one.engineerText = u"Engineer %1"_s.arg(number % 37);
            one.openedAt = WallTime(1h * (number * 31 % 70'000));
            one.state = u"done"_s;
            one.swaps = 1 + number % 3;
            one.isSigned = true;
            if (number % 4 == 0) {
                const auto kind = static_cast<review::Exception::Kind>(number / 4 % review::kExceptionKinds);
                one.weight = review::weightOf(kind);
                one.kinds = {review::wordOf(kind)};
            }
            one.review = u"waiting"_s;
            if (auto put = summaries.put(one); !put)
                return put;
            if (auto reviewed = number % 10 < 8 ? accept(database, key, one.visit) : Result<void>();
                !reviewed)
                return reviewed;
        }
        return {};
    });
    if (!filled)
        stop(filled.error().detail);
}

void read(store::Database& database, const review::QueueFilter& filter, review::QueueOrder order)
{
    const auto page = review::QueueStore(database).page(filter, order, 0, kPage);
    if (!page || page->lines.empty())
        stop(u"a page of the queue could not be read, or is empty"_s);
}

std::vector<review::QueueFilter> filters()
{
    using review::QueueFilter;
    QueueFilter waiting;
    waiting.stand = review::Stand::Waiting;
    QueueFilter toDo;
    toDo.waitsAlone = true;
    QueueFilter unusual = waiting;
    unusual.isUnusualAlone = true;
    QueueFilter kind;
    kind.kind = review::Exception::Kind::Addendum;
    QueueFilter text;
    text.text = u"engineer 36"_s;
    QueueFilter month;
    month.from = WallTime(1h * 70'000 - 24h * 30);
    return {waiting, toDo, unusual, kind, text, month};
}

} // namespace

int main(int count, char** arguments)
{
    const QCoreApplication application(count, arguments);
    const std::string wanted = count > 1 ? arguments[1] : "";
    const auto isWanted = [&](const char* name) {
        return std::string(name).find(wanted) != std::string::npos;
    };
    if (!isWanted("record.desk_open_ms") && !isWanted("record.desk_filter_ms") &&
        !isWanted("record.desk_place_ms"))
        return 0;
    const QTemporaryDir folder;
    const QString file = folder.filePath(u"desk.coldarc"_s);
    fill(file);
    std::vector<double> opening;
    for (int round = 0; round < kRounds; ++round) {
        opening.push_back(bench::millisecondsOf([&] {
            store::Database database = opened(file);
            review::QueueFilter waiting; // as the desk opens
            waiting.waitsAlone = true;
            read(database, waiting, review::QueueOrder::Weight);
        }));
    }
    std::vector<double> filtering;
    store::Database database = opened(file);
    for (int round = 0; round < kRounds; ++round) {
        for (const review::QueueFilter& filter : filters()) {
            for (const auto order :
                 {review::QueueOrder::Weight, review::QueueOrder::Newest, review::QueueOrder::Site})
                filtering.push_back(bench::millisecondsOf([&] { read(database, filter, order); }));
        }
    }
    // Where the visit in hand stands among all of them, which a refresh asks when it is in no page in hand.
    std::vector<double> finding;
    for (int round = 0; round < kRounds; ++round) {
        finding.push_back(bench::millisecondsOf([&] {
            if (review::QueueStore(database)
                    .placeOf({}, review::QueueOrder::Weight, VisitId(u"visit-7919"_s))
                    .value_or(-1) < 0)
                stop(u"a visit of the queue was not found"_s);
        }));
    }
    std::fprintf(stderr, "slowest filter %.1f ms\n", *std::ranges::max_element(filtering));
    std::printf("record.desk_open_ms %.1f ms\n", bench::median(opening));
    std::printf("record.desk_filter_ms %.1f ms\n", bench::median(filtering));
    std::printf("record.desk_place_ms %.1f ms\n", bench::median(finding));
    return 0;
}
