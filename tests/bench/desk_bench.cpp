// Figures of the review desk's page on a whole night with its light run (over 150 entries), on a page of 1366
// by 720 pixels: a move along the time line until the page is painted, going to every entry once in an order
// that jumps; bringing a visit up that was read; and the page made, painted and with a visit on it over
// 50,000 visits in a workspace file. All of it is invented.

#include "core/review/queue_store.h"
#include "core/store/workspace_file.h"
#include "tests/bench/times.h"
#include "tests/ui/report/report_night.h"
#include "ui/review/review_page.h"
#include "ui/review/review_presenter.h"
#include "ui/review/view_of_review.h"

#include <QApplication>
#include <QTemporaryDir>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

namespace {

using namespace Qt::StringLiterals;
using namespace coldarc;

constexpr int kRounds = 3;
constexpr qint64 kStride = 37; // goes to every entry of a visit whose number of entries it does not divide
constexpr qint64 kEntries = 150;
constexpr int kVisits = 50'000;

/// As many visits as an office gathers over years.
void fill(store::Database& database)
{
    store::Summaries summaries(database);
    const auto filled = database.transaction([&]() -> Result<void> {
        for (int number = 0; number < kVisits; ++number) {
            store::VisitSummary one;
            one.visit = VisitId(u"visit-%1"_s.arg(number * 7919 % kVisits));
            one.site = SiteId(u"site-%1"_s.arg(number % 400));
            one.siteText = u"Invented Site %1"_s.arg(number % 400);
            one.engineerText = u"Engineer %1"_s.arg(number % 37);
            one.openedAt = WallTime(std::chrono::hours(number * 31 % 70'000));
            one.state = u"done"_s;
            one.swaps = 1;
            one.isSigned = true;
            one.weight = number % 4 == 0 ? 40 : 0;
            one.review = u"waiting"_s;
            if (auto put = summaries.put(one); !put)
                return put;
        }
        return {};
    });
    if (!filled) {
        std::fprintf(stderr, "desk_bench: %s\n", qUtf8Printable(filled.error().detail));
        std::exit(1);
    }
}

std::shared_ptr<ui::VisitReading> readingOf(const test::Night& night)
{
    return std::make_shared<ui::VisitReading>(
        ui::VisitReading{night.opening().visit, test::reportOfNight(night), review::Replay(night.entries)});
}

} // namespace

int main(int count, char** arguments)
{
    QApplication application(count, arguments);
    const std::string wanted = count > 1 ? arguments[1] : "";
    const auto isWanted = [&](const char* name) {
        return std::string(name).find(wanted) != std::string::npos;
    };
    if (!isWanted("record.replay_move_ms") && !isWanted("record.desk_visit_ms") &&
        !isWanted("record.desk_page_ms"))
        return 0;
    ui::Theme theme(application);
    theme.apply(ui::ThemeKind::Office);
    test::Night opened;
    test::Night night = test::fullNight(opened.opening(), [](test::Night& begun) {
        while (begun.entries.size() < 32) {
            visit::Noted note;
            note.text = u"Invented, to make the visit longer"_s;
            if (!begun.tell(note))
                break;
        }
    });
    const qint64 entries = night.entries.size();
    const test::FakeClock clock;
    const auto page = [&](const auto&, auto, qint64, int) -> Result<review::QueuePage> {
        review::QueuePage one;
        one.all = 1;
        auto& line = one.lines.emplace_back();
        line.visit = night.opening().visit;
        line.siteText = u"Invented"_s;
        line.review = u"waiting"_s;
        line.headHash = sha256("an invented head");
        return one;
    };
    ui::ReviewPresenter presenter(
        {page,
         {},
         [&](const VisitId&) { return Result<std::shared_ptr<ui::VisitReading>>(readingOf(night)); },
         [](const Hash&) { return QByteArray(); }},
        clock, ui::inPlace(), QTimeZone::utc());
    ui::ReviewPage desk(presenter.queue(), clock);
    QObject::connect(&presenter, &ui::ReviewPresenter::queueChanged, &desk, &ui::ReviewPage::setQueueView);
    QObject::connect(&presenter, &ui::ReviewPresenter::viewChanged, &desk, &ui::ReviewPage::setView);
    QObject::connect(&presenter, &ui::ReviewPresenter::momentChanged, &desk, &ui::ReviewPage::setMoment);
    desk.resize(1366, 720);
    desk.show();
    const auto untilDrawn = [](const auto& deed) {
        return bench::millisecondsOf([&] {
            deed();
            QApplication::sendPostedEvents();
            QApplication::processEvents();
        });
    };
    std::vector<double> visits;
    for (int round = 0; round < 2 * kRounds; ++round)
        visits.push_back(untilDrawn([&] { round == 0 ? presenter.refresh() : presenter.readAgain(); }));
    // The desk as somebody goes there: its queue in a workspace file, its page made and painted, a visit
    // brought up.
    const QTemporaryDir folder;
    std::vector<double> desks;
    {
        auto opening =
            store::openWorkspace(folder.filePath(u"desk.coldarc"_s), {u"bench"_s, clock.now().wall});
        fill(*opening.database);
        const review::QueueStore queue(*opening.database);
        for (int round = 0; round < kRounds; ++round) {
            desks.push_back(bench::millisecondsOf([&] {
                ui::ReviewPresenter fresh({[&](const auto& filter, auto order, qint64 first, int most) {
                                               return queue.page(filter, order, first, most);
                                           },
                                           {},
                                           [&](const VisitId&) {
                                               return Result<std::shared_ptr<ui::VisitReading>>(
                                                   readingOf(night));
                                           },
                                           [](const Hash&) { return QByteArray(); }},
                                          clock, ui::inPlace(), QTimeZone::utc());
                ui::ReviewPage made(fresh.queue(), clock);
                QObject::connect(&fresh, &ui::ReviewPresenter::queueChanged, &made,
                                 &ui::ReviewPage::setQueueView);
                QObject::connect(&fresh, &ui::ReviewPresenter::viewChanged, &made, &ui::ReviewPage::setView);
                QObject::connect(&fresh, &ui::ReviewPresenter::momentChanged, &made,
                                 &ui::ReviewPage::setMoment);
                made.resize(1366, 720);
                fresh.refresh();
                made.show();
                QApplication::sendPostedEvents();
                QApplication::processEvents();
            }));
        }
    }
    std::vector<double> moves;
    for (qint64 move = 0; move < kRounds * entries; ++move)
        moves.push_back(untilDrawn([&] { presenter.goTo(move * kStride % entries); }));
    std::fprintf(stderr, "%lld entries; slowest move %.1f ms, slowest visit %.1f ms\n",
                 static_cast<long long>(entries), *std::ranges::max_element(moves),
                 *std::ranges::max_element(visits));
    if (entries < kEntries) {
        std::fprintf(stderr, "fewer entries than meant: no figures\n");
        return 1;
    }
    std::printf("record.replay_move_ms %.2f ms\n", bench::median(moves));
    std::printf("record.desk_page_ms %.0f ms\n", bench::median(desks));
    std::printf("record.desk_visit_ms %.1f ms\n", bench::median(visits));
    return 0;
}
