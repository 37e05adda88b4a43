#include "ui/review/queue_model.h"

#include "tests/ui/review/desk_at_work.h"

#include <QAbstractItemModelTester>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using review::QueueOrder;
using test::DeskAtWork;

/// A queue that is too long to be held, made as it is asked for.
class LongQueue {
public:
    static constexpr qint64 kVisits = 50'000;

    [[nodiscard]] QueueSource source()
    {
        return [this](const review::QueueFilter&, QueueOrder, qint64 first,
                      int most) -> Result<review::QueuePage> {
            asked.append(first);
            review::QueuePage page;
            page.all = kVisits;
            for (qint64 number = first; number < std::min(first + most, kVisits); ++number) {
                auto& line = page.lines.emplace_back();
                line.visit = VisitId(u"visit-%1"_s.arg(number));
                line.siteText = u"Invented Site %1"_s.arg(number);
                line.review = u"waiting"_s;
            }
            return page;
        };
    }
    QList<qint64> asked;
};

TEST(QueueModelTest, TellsSiteDayWhatWeighsMostWhoAndHowItStands)
{
    review::QueuePage page;
    page.all = 1;
    page.unusual = 1;
    auto& line = page.lines.emplace_back();
    line.visit = VisitId(u"visit-1"_s);
    line.siteText = u"Pier Street, Screen 2, Screen 4"_s;
    line.swaps = 2;
    line.openedAt = WallTime(20'780 * 24h + 23h); // 2026-11-23 is day 20 780 after 1970-01-01
    line.weight = 60;
    line.kinds = {u"labels-disagreed"_s, u"reading-corrected"_s, u"step-owed"_s};
    line.engineerText = u"A. Okoro"_s;
    line.review = u"answered"_s;
    QueueModel model([page](const auto&, auto, auto, auto) { return Result<review::QueuePage>(page); },
                     QTimeZone::utc());
    model.show({}, QueueOrder::Weight);

    EXPECT_EQ(*model.row(0), (QueueRow{VisitId(u"visit-1"_s), u"Pier Street, Screen 2, Screen 4"_s,
                                       u"2026-11-23"_s, u"the labels did not agree at first, and 2 more"_s,
                                       u"A. Okoro \u00b7 answered"_s, true, Hash(), u"answered"_s}));
    EXPECT_EQ(model.unusual(), 1);
    EXPECT_TRUE(model.data(model.index(0), Qt::AccessibleTextRole).toString().contains(u"answered"_s));
}

TEST(QueueModelTest, HoldsAFewPagesOfFiftyThousandVisits)
{
    LongQueue queue;
    QueueModel model(queue.source());
    model.show({}, QueueOrder::Weight);
    ASSERT_EQ(model.rowCount(), 50'000);
    EXPECT_EQ(queue.asked, QList<qint64>{0});

    EXPECT_EQ(model.row(49'999)->title, u"Invented Site 49999"_s);
    EXPECT_EQ(queue.asked, (QList<qint64>{0, 49'980})) << "its page alone was read: 49,980 is 833 times 60";
    EXPECT_EQ(model.row(49'990)->title, u"Invented Site 49990"_s);
    EXPECT_EQ(queue.asked.size(), 2) << "that page is in hand";
    for (int row = 0; row < 6'000; row += QueueModel::kPage)
        ASSERT_TRUE(model.row(row));
    EXPECT_LE(model.pagesInHand(), QueueModel::kPagesInHand);
    EXPECT_FALSE(model.row(50'000));
    EXPECT_FALSE(model.row(-1));
}

TEST(QueueModelTest, KeepsToTheRulesOfModels)
{
    LongQueue queue;
    QueueModel model(queue.source());
    const QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);

    model.show({}, QueueOrder::Weight);
    model.show({}, QueueOrder::Newest);
    EXPECT_EQ(model.rowOf(VisitId(u"visit-7"_s)), 7);
    EXPECT_EQ(model.rowOf(VisitId(u"visit-40000"_s)), -1) << "nobody looked there yet";
}

TEST(QueueModelTest, IsEmptyAndSaysWhyWhereItCannotBeRead)
{
    DeskAtWork desk;
    QueueModel model(desk.deeds().queue);
    model.show({}, QueueOrder::Weight);
    ASSERT_EQ(model.rowCount(), 3);
    desk.queueFails = true;

    model.show({}, QueueOrder::Weight);

    EXPECT_EQ(model.rowCount(), 0);
    EXPECT_EQ(model.trouble(), u"an invented fault"_s);
}

} // namespace
} // namespace coldarc::ui
