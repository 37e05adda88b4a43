#include "ui/visit/words_settlement.h"

#include "tests/ui/visit/sources_at_work.h"
#include "ui/visit/new_visit_presenter.h"
#include "ui/visit/visits_presenter.h"

#include <QSet>

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace ui;
using Kind = visit::Leftover::Kind;

visit::Leftover leftover(Kind kind)
{
    visit::Leftover one;
    one.kind = kind;
    return one;
}

TEST(SettlementWordsTest, SaySomethingElseOfEachKindAndOfEachQuestion)
{
    QSet<QString> words;
    for (const Kind kind :
         {Kind::SeatDiffers, Kind::LampIsThere, Kind::Contradicted, Kind::NotUnderstood, Kind::NotWritten})
        words.insert(wordsFor(leftover(kind)));
    for (const auto question : {lamps::CounterQuestion::RanBackwards, lamps::CounterQuestion::ResetDoesNotFit,
                                lamps::CounterQuestion::FasterThanTheClock}) {
        visit::Leftover one = leftover(Kind::Counters);
        one.question = question;
        words.insert(wordsFor(one));
    }

    EXPECT_EQ(words.size(), 8);
}

TEST(SettlementWordsTest, SetTheCountersAsideOnlyWhereTheyAreWhatIsAskedAbout)
{
    EXPECT_EQ(countersFor(leftover(Kind::Counters)), visit::CountersAre::SetAside);
    EXPECT_EQ(countersFor(leftover(Kind::SeatDiffers)), visit::CountersAre::AsRead);
    EXPECT_NE(actFor(leftover(Kind::Counters)), actFor(leftover(Kind::SeatDiffers)));
    EXPECT_TRUE(actFor(leftover(Kind::NotUnderstood)).isEmpty()); // pressing does not help
}

/// A closed visit of which something was left over.
class LeftoverRowTest : public SourcesAtWork {
protected:
    /// The shelf of the workspace, and what was left over.
    class LeftoverShelf final : public VisitShelf {
    public:
        explicit LeftoverShelf(VisitShelf& whole)
            : m_whole(whole)
        {
        }
        [[nodiscard]] Result<QList<VisitLine>> all() const override
        {
            auto lines = m_whole.all();
            for (VisitLine& line : *lines)
                line.leftovers = leftovers;
            return lines;
        }
        [[nodiscard]] Result<visit::VisitState> state(const VisitId& visit) const override
        {
            return m_whole.state(visit);
        }
        [[nodiscard]] Result<void> begin(const PersonId& by, const visit::Opening& opening) override
        {
            return m_whole.begin(by, opening);
        }
        QList<visit::Leftover> leftovers;

    private:
        VisitShelf& m_whole;
    };

    void SetUp() override
    {
        SourcesAtWork::SetUp();
        NewVisitPresenter fresh(sources());
        QObject::connect(&fresh, &NewVisitPresenter::opened, &fresh,
                         [this](const VisitId& one) { closed = one; });
        fresh.begin(ada);
        fresh.tickScreens({lamphouse(2).text()});
        fresh.chooseLamp(lamphouse(2).text(), u"new-2"_s);
        fresh.open();
        auto logbook = visit::Logbook::read(journal, summaries, closed);
        ASSERT_TRUE(logbook);
        visit::Happened hurt; // nobody is waited for
        hurt.incident = visit::Incident::SomeoneHurt;
        hurt.person = ada;
        ASSERT_TRUE(logbook->tell(ada, hurt, clock.now()));
        ASSERT_TRUE(logbook->tell(ada, visit::Closed{}, clock.now()));
        ASSERT_FALSE(logbook->state().end.isEmpty());
        row = u"visit:"_s + closed.text();
    }
    [[nodiscard]] VisitSources withLeftovers()
    {
        const VisitSources all = sources();
        return {all.people,   all.gear,   all.sites,     all.lamps, all.plans, all.owed, all.catalogue,
                all.readable, all.proved, leftoverShelf, all.clock, all.ids,   all.zone};
    }

    LeftoverShelf leftoverShelf{shelf};
    const PersonId ada{u"ada"_s};
    VisitId closed;
    QString row;
};

TEST_F(LeftoverRowTest, SaysNothingWhereAllWentOver)
{
    VisitsPresenter presenter(withLeftovers());
    presenter.setWho(ada);
    presenter.choose(row);

    ASSERT_EQ(presenter.view().closed.size(), 1);
    EXPECT_FALSE(presenter.view().closed.first().sub.contains(u"not carried over"_s));
    for (const CardLine& line : presenter.view().card->lines)
        EXPECT_TRUE(line.act.isEmpty());
}

TEST_F(LeftoverRowTest, SaysInTheListAndOnTheCardWhatDidNotGoOverAndTriesItAgainAsTheButtonSays)
{
    visit::Leftover one = leftover(Kind::Counters);
    one.lamphouse = lamphouse(2);
    one.question = lamps::CounterQuestion::RanBackwards;
    leftoverShelf.leftovers = {leftover(Kind::Contradicted), one};
    VisitsPresenter presenter(withLeftovers());
    presenter.setWho(ada);
    presenter.choose(row);
    QList<std::pair<VisitId, visit::CountersAre>> asked;
    QObject::connect(&presenter, &VisitsPresenter::settleRequested, &presenter,
                     [&](const VisitId& visit, visit::CountersAre counters) {
                         asked.append({visit, counters});
                     });

    ASSERT_EQ(presenter.view().closed.size(), 1);
    EXPECT_TRUE(presenter.view().closed.first().sub.contains(u"not carried over"_s));
    const CardLine line = presenter.view().card->lines.last();
    EXPECT_TRUE(line.text.contains(u"Screen 2"_s));
    EXPECT_EQ(line.sub, wordsFor(one));
    EXPECT_EQ(line.act, actFor(one));
    presenter.settle(line.id);

    ASSERT_EQ(asked.size(), 1);
    EXPECT_EQ(asked.first(), std::pair(closed, visit::CountersAre::SetAside));
}

} // namespace
} // namespace coldarc::test
