#include "core/review/queue_store.h"

#include "core/record/review_store.h"
#include "core/store/journal.h"
#include "tests/core/record/signed_visit.h"
#include "tests/support/testing.h"

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

class QueueStoreTest : public ::testing::Test {
protected:
    /// An invented visit that is over and signed.
    store::VisitSummary add(const QString& id, int weight, int day, const QString& review = u"waiting"_s)
    {
        store::VisitSummary one;
        one.visit = VisitId(id);
        one.site = SiteId(u"site-"_s + id);
        one.siteText = u"Site "_s + id;
        one.engineerText = u"E. "_s + id;
        one.openedAt = WallTime(24h * day);
        one.state = u"done"_s;
        one.isSigned = true;
        one.weight = weight;
        if (weight > 0)
            one.kinds = {wordOf(Exception::Kind::StepOwed)};
        one.review = review;
        EXPECT_TRUE(summaries.put(one));
        return one;
    }
    /// Somebody reviews it as it is.
    void look(const QString& id, record::Verdict verdict)
    {
        const auto head = journal.append(VisitId(id), store::Sequence(0), "{}");
        ASSERT_TRUE(head);
        const auto paper = record::sign(
            {VisitId(id), 0, *head, verdict, u"looked at it"_s, {}, PersonId(u"sue"_s), u"S. Marlow"_s, {}},
            key);
        ASSERT_TRUE(record::ReviewStore(database).keep(*paper, key.publicKey(), {}));
    }
    [[nodiscard]] QStringList ids(const QueueFilter& filter, QueueOrder order = QueueOrder::Weight,
                                  qint64 first = 0, int most = 50) const
    {
        QStringList found;
        const auto page = queue.page(filter, order, first, most);
        EXPECT_TRUE(page) << (page ? "" : page.error().detail.toStdString());
        for (const store::VisitSummary& line : page ? page->lines : std::vector<store::VisitSummary>())
            found.append(line.visit.text());
        return found;
    }

    store::Database database = store::Database::inMemory(store::Schema::shipped());
    store::Summaries summaries{database};
    store::Journal journal{database};
    people::SigningKey key = record::test::keyOf(9);
    QueueStore queue{database};
};

TEST_F(QueueStoreTest, WhatWeighsMostComesFirstAndOfEqualOnesTheNewest)
{
    add(u"plain-old"_s, 0, 1);
    add(u"plain-new"_s, 0, 9);
    add(u"light"_s, 40, 2);
    add(u"heavy"_s, 95, 1);

    EXPECT_EQ(ids({}), (QStringList{u"heavy"_s, u"light"_s, u"plain-new"_s, u"plain-old"_s}));
    EXPECT_EQ(ids({}, QueueOrder::Newest).first(), u"plain-new"_s);
    EXPECT_EQ(ids({}, QueueOrder::Oldest).last(), u"plain-new"_s);
    EXPECT_EQ(ids({}, QueueOrder::Site),
              (QStringList{u"heavy"_s, u"light"_s, u"plain-new"_s, u"plain-old"_s}));
    EXPECT_EQ(ids({}, QueueOrder::Engineer).last(), u"plain-old"_s);
}

TEST_F(QueueStoreTest, WhateverIsOverIsInTheQueueAndWhatIsOpenIsNot)
{
    add(u"open"_s, 95, 1, {});
    store::VisitSummary bare = add(u"unsigned"_s, 80, 1);
    bare.isSigned = false;
    ASSERT_TRUE(summaries.put(bare));
    add(u"over"_s, 0, 1);

    EXPECT_EQ(ids({}), (QStringList{u"unsigned"_s, u"over"_s}))
        << "nobody signed for it: it waits all the more";
    EXPECT_EQ(queue.page({}, QueueOrder::Weight, 0, 10)->all, 2);
    EXPECT_EQ(queue.placeOf({}, QueueOrder::Weight, VisitId(u"over"_s)), 1);
}

TEST_F(QueueStoreTest, EachFilterLetsPassWhatItNames)
{
    add(u"a"_s, 0, 1);
    add(u"b"_s, 40, 2);
    store::VisitSummary hurt = add(u"c"_s, 95, 3);
    look(u"b"_s, record::Verdict::Accepted);
    look(u"c"_s, record::Verdict::SentBack);
    hurt.kinds = {wordOf(Exception::Kind::IncidentMet), wordOf(Exception::Kind::MadeSafe)};
    ASSERT_TRUE(summaries.put(hurt));
    QueueFilter filter;
    filter.stand = Stand::Accepted;
    EXPECT_EQ(ids(filter), QStringList{u"b"_s});
    filter.stand = Stand::SentBack;
    EXPECT_EQ(ids(filter), QStringList{u"c"_s});
    filter.stand = Stand::Waiting;
    EXPECT_EQ(ids(filter), QStringList{u"a"_s});
    filter = {};
    filter.isUnusualAlone = true;
    EXPECT_EQ(ids(filter), (QStringList{u"c"_s, u"b"_s}));
    add(u"d"_s, 10, 4, u"answered"_s);
    filter = {};
    filter.waitsAlone = true;
    EXPECT_EQ(ids(filter), (QStringList{u"d"_s, u"a"_s})) << "both wait for a supervisor";
    filter = {};
    filter.kind = Exception::Kind::MadeSafe;
    EXPECT_EQ(ids(filter), QStringList{u"c"_s});
    filter = {};
    filter.text = u" SITE B"_s;
    EXPECT_EQ(ids(filter), QStringList{u"b"_s});
    filter.text = u"e. c"_s;
    EXPECT_EQ(ids(filter), QStringList{u"c"_s});
    filter = {};
    filter.from = WallTime(24h * 3);
    EXPECT_EQ(ids(filter), (QStringList{u"c"_s, u"d"_s}));
}

TEST_F(QueueStoreTest, ThePlaceOfAVisitIsThatOfItsLineInEveryOrder)
{
    for (int number = 0; number < 25; ++number)
        add(QString::number(100 + number), number % 3 == 0 ? 40 : 0, number % 4);
    QueueFilter unusual;
    unusual.isUnusualAlone = true;
    for (const QueueFilter& filter : {QueueFilter(), unusual}) {
        for (const auto order : {QueueOrder::Weight, QueueOrder::Newest, QueueOrder::Oldest, QueueOrder::Site,
                                 QueueOrder::Engineer}) {
            const QStringList all = ids(filter, order);
            for (int number = 0; number < 25; ++number) {
                const QString id = QString::number(100 + number);
                EXPECT_EQ(queue.placeOf(filter, order, VisitId(id)).value(), all.indexOf(id));
            }
        }
    }
    EXPECT_EQ(queue.placeOf({}, QueueOrder::Weight, VisitId(u"nowhere"_s)).value(), -1);
}

TEST_F(QueueStoreTest, PagesFollowOneAnotherWithoutAGapAndSayHowMuchThereIs)
{
    for (int number = 0; number < 25; ++number)
        add(QString::number(100 + number), number % 3 == 0 ? 40 : 0, number % 4);
    QStringList paged;
    for (qint64 first = 0; first < 25; first += 7)
        paged += ids({}, QueueOrder::Weight, first, 7);

    EXPECT_EQ(paged, ids({}));
    const auto page = queue.page({}, QueueOrder::Weight, 21, 7);
    EXPECT_EQ(page->all, 25);
    EXPECT_EQ(page->unusual, 9);
    EXPECT_EQ(page->lines.size(), 4U);
    EXPECT_TRUE(ids({}, QueueOrder::Weight, 90, 7).isEmpty());
}

TEST_F(QueueStoreTest, ALineIsTheSummaryThatWasWritten)
{
    const store::VisitSummary one = add(u"a"_s, 40, 5);

    EXPECT_EQ(queue.page({}, QueueOrder::Weight, 0, 10)->lines.front(), one);
    EXPECT_EQ(summaries.of(one.visit).value(), one);
}

TEST_F(QueueStoreTest, ASiteIsFoundByLettersThatAsciiDoesNotHave)
{
    store::VisitSummary one = add(u"a"_s, 0, 1);
    one.siteText = u"\u00c9cole"_s;
    ASSERT_TRUE(summaries.put(one));
    QueueFilter filter;
    for (const QString& typed : {u"\u00c9cole"_s, u"\u00c9CO"_s, u"COLE"_s}) {
        filter.text = typed;
        EXPECT_EQ(ids(filter), QStringList{u"a"_s}) << typed.toStdString();
    }
}

} // namespace
} // namespace coldarc::review
