#include "ui/visit/visits_presenter.h"

#include "tests/ui/visit/sources_at_work.h"
#include "ui/visit/new_visit_presenter.h"

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::test {
namespace {

using namespace ui;

class VisitsPresenterTest : public SourcesAtWork {
protected:
    void SetUp() override
    {
        SourcesAtWork::SetUp();
        presenter = std::make_unique<VisitsPresenter>(sources());
        presenter->setWho(PersonId(u"ada"_s));
    }
    void plan(const QString& id, people::Day day, const QString& lamp = u"new-1"_s)
    {
        ASSERT_TRUE(plans.save(
            {VisitId(id), SiteId(u"pier-street"_s), day, u"due"_s, {{lamphouse(1), LampId(lamp)}}}));
        presenter->refresh();
    }
    VisitId open()
    {
        VisitId visit;
        NewVisitPresenter fresh(sources());
        QObject::connect(&fresh, &NewVisitPresenter::opened, &fresh,
                         [&](const VisitId& one) { visit = one; });
        fresh.begin(PersonId(u"ada"_s));
        fresh.tickScreens({lamphouse(2).text()});
        fresh.chooseLamp(lamphouse(2).text(), u"new-2"_s);
        fresh.open();
        EXPECT_FALSE(visit.isEmpty());
        presenter->refresh();
        return visit;
    }
    [[nodiscard]] const VisitsView& view() const { return presenter->view(); }

    std::unique_ptr<VisitsPresenter> presenter;
};

TEST_F(VisitsPresenterTest, SaysHowAVisitIsOpenedWhereThereIsNone)
{
    EXPECT_FALSE(view().card);
    EXPECT_TRUE(view().empty.startsWith(u"Nothing is unfinished and nothing is planned."_s));
}

TEST_F(VisitsPresenterTest, SaysSoWherePlansOrWhatIsOwedCannotBeRead)
{
    ASSERT_TRUE(database.run(u"ALTER TABLE planned_visit RENAME TO gone"_s));
    presenter->refresh();
    EXPECT_TRUE(view().message.startsWith(u"What is planned could not be read."_s))
        << view().message.toStdString();

    ASSERT_TRUE(database.run(u"ALTER TABLE owed_step RENAME TO gone_too"_s));
    presenter->refresh();
    EXPECT_TRUE(view().message.startsWith(u"What is owed could not be read."_s))
        << view().message.toStdString();
}

// The clock stands on 2026-11-18.
TEST_F(VisitsPresenterTest, PutsTonightAndWhatIsOverdueFirstAndTheRestLater)
{
    plan(u"late"_s, people::Day{2026y / 11 / 24}, u"new-2"_s);
    plan(u"today"_s, people::Day{2026y / 11 / 18});
    presenter->setWho(PersonId(u"ada"_s));

    ASSERT_EQ(view().tonight.size(), 1);
    EXPECT_EQ(view().tonight.first(),
              (RowView{u"plan:today"_s, u"Pier Street"_s, u"1 lamp"_s, u"tonight"_s}));
    ASSERT_EQ(view().coming.size(), 1);
    EXPECT_EQ(view().coming.first().aside, u"2026-11-24"_s);
    EXPECT_EQ(view().chosen, u"plan:today"_s);
}

TEST_F(VisitsPresenterTest, ListsNewLampBoxGearAndToolsOfAPlannedVisit)
{
    plan(u"today"_s, people::Day{2026y / 11 / 18});

    ASSERT_TRUE(view().card);
    const TickListView& kit = view().card->kit;
    QStringList listed;
    for (const TickItem& item : kit.items)
        listed << item.id;
    EXPECT_TRUE(listed.contains(u"lamp:"_s + lamphouse(1).text()));
    EXPECT_TRUE(listed.contains(u"box:"_s + lamphouse(1).text()));
    for (const catalogue::GearKind& kind : shippedCatalogue().gear())
        EXPECT_TRUE(listed.contains(u"gear:"_s + kind.id.text()));
    EXPECT_TRUE(std::any_of(listed.begin(), listed.end(),
                            [](const QString& id) { return id.startsWith(u"tool:"_s); }));
    EXPECT_EQ(QSet<QString>(listed.begin(), listed.end()).size(), listed.size())
        << "nothing is asked for twice";
}

TEST_F(VisitsPresenterTest, SaysThatThePlannedLampHasGoneElsewhereSince)
{
    plan(u"today"_s, people::Day{2026y / 11 / 18});
    const auto lampIn = [&] {
        const TickListView& kit = view().card->kit;
        const auto lamp = std::ranges::find(kit.items, u"lamp:"_s + lamphouse(1).text(), &TickItem::id);
        return lamp == kit.items.end() ? QString() : lamp->sub;
    };
    ASSERT_FALSE(lampIn().contains(u"gone elsewhere"_s));

    const lamps::CustodyMove back{
        lamps::MoveId(u"back"_s), LampId(u"new-1"_s), lamps::Custody::Returned, {}, {}, clock.now().wall};
    ASSERT_EQ(this->lamps.move(back), lamps::MoveAnswer(lamps::Moved{}));
    presenter->refresh();

    EXPECT_TRUE(lampIn().contains(u"gone elsewhere"_s));
}

TEST_F(VisitsPresenterTest, KeepsTheTicksOfEachPlanApart)
{
    plan(u"today"_s, people::Day{2026y / 11 / 18});
    presenter->tick({u"box:x"_s});
    plans.drop(VisitId(u"today"_s));
    plan(u"late"_s, people::Day{2026y / 11 / 24});

    presenter->choose(u"plan:late"_s);

    EXPECT_EQ(view().card->kit.ticked, QStringList());
}

TEST_F(VisitsPresenterTest, ShowsNoGapForAnotherDay)
{
    showAt(clock.now().wall + 5h);
    plan(u"late"_s, people::Day{2026y / 11 / 24});

    EXPECT_TRUE(view().card->needs.startsWith(u"needs "_s));
    EXPECT_EQ(view().card->gap, QString());
    EXPECT_EQ(view().card->verdict, QString());
}

TEST_F(VisitsPresenterTest, ChoosesTodaysOpenVisitBeforeThePlan)
{
    plan(u"today"_s, people::Day{2026y / 11 / 18});
    const VisitId visit = open();
    presenter->setWho(PersonId(u"ada"_s));

    EXPECT_EQ(view().chosen, u"visit:"_s + visit.text());
    ASSERT_TRUE(view().card);
    EXPECT_EQ(view().card->action.text, u"Resume"_s);
    ASSERT_EQ(view().card->lines.size(), 1);
    EXPECT_EQ(view().card->lines.first().text, u"Screen 2"_s);
    EXPECT_TRUE(view().card->lines.first().sub.startsWith(u"next: "_s));
}

TEST_F(VisitsPresenterTest, NamesTheScreenOfAVisitAndBreaksNoNameOfOneBetweenTwoLines)
{
    open();

    ASSERT_EQ(view().unfinished.size(), 1);
    EXPECT_EQ(view().unfinished.first().title, u"Pier Street, Screen\u00a02"_s);
    EXPECT_EQ(view().card->title, u"Pier Street, Screen 2"_s);
}

TEST_F(VisitsPresenterTest, AsksForTheChosenVisitToBeResumed)
{
    const VisitId visit = open();
    presenter->choose(u"visit:"_s + visit.text());
    VisitId resumed;
    QObject::connect(presenter.get(), &VisitsPresenter::resumeRequested, presenter.get(),
                     [&](const VisitId& one) { resumed = one; });

    presenter->go();

    EXPECT_EQ(resumed, visit);
}

TEST_F(VisitsPresenterTest, LeadsFromAVisitThatIsOverToWhatWasDoneAndSaysWhatItOwes)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    night.doUntil(u"peak-along"_s);
    for (const QString& step : {u"peak-along"_s, u"peak-across"_s, u"peak-up"_s, u"settle"_s, u"peak-again"_s,
                                u"measure-screen"_s, u"look-picture"_s})
        ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(step)})) << step.toStdString();
    for (const int swap : {0, 1})
        night.doUntil(u"sign"_s, swap);
    for (const int swap : {0, 1})
        night.doAll(swap);
    night.close();
    ASSERT_EQ(night.state.end, u"done"_s);
    const VisitId visit = night.opening().visit;
    for (qsizetype index = 0; index < night.entries.size(); ++index)
        ASSERT_TRUE(journal.append(visit, store::Sequence(index), visit::bytesOf(night.entries[index])));
    ASSERT_TRUE(summaries.put(visit::summaryOf(night.state, night.entries)));
    presenter->refresh();
    presenter->choose(u"visit:"_s + visit.text());
    VisitId looked;
    QObject::connect(presenter.get(), &VisitsPresenter::whatWasDoneRequested, presenter.get(),
                     [&](const VisitId& one) { looked = one; });

    ASSERT_TRUE(view().card);
    EXPECT_EQ(view().card->action.text, u"What was done"_s);
    EXPECT_EQ(view().card->look, QString());
    EXPECT_EQ(view().card->linesName, u"How it was left"_s);
    ASSERT_EQ(view().card->lines.size(), 2);
    EXPECT_TRUE(view().card->lines.first().sub.startsWith(u"done \u00b7 owed: "_s))
        << view().card->lines.first().sub.toStdString();
    EXPECT_EQ(view().card->lines.last().sub, u"done"_s);
    presenter->go();
    EXPECT_EQ(looked, visit);
}

TEST_F(VisitsPresenterTest, OffersWhatWasDoneBesideTheResumingOfAnOpenVisit)
{
    const VisitId visit = open();
    presenter->choose(u"visit:"_s + visit.text());
    VisitId looked;
    QObject::connect(presenter.get(), &VisitsPresenter::whatWasDoneRequested, presenter.get(),
                     [&](const VisitId& one) { looked = one; });

    EXPECT_EQ(view().card->look, u"What was done"_s);
    presenter->lookBack();

    EXPECT_EQ(looked, visit);
}

TEST_F(VisitsPresenterTest, TakesAPlanOffTheListOnceThatWasAskedAndSaysSo)
{
    plan(u"today"_s, people::Day{2026y / 11 / 18});
    presenter->drop();
    EXPECT_EQ(plans.all()->size(), 1U) << "nobody was asked";

    presenter->askToDrop();
    EXPECT_EQ(view().card->dropQuestion, u"Take the visit to Pier Street (tonight) off the list? It does not "
                                         "come back; a new visit can be opened instead."_s);
    EXPECT_TRUE(view().card->action.text.isEmpty()) << "one question at a time";
    presenter->drop();

    EXPECT_TRUE(plans.all()->empty());
    EXPECT_TRUE(view().tonight.isEmpty());
    EXPECT_EQ(view().message, u"The visit to Pier Street (tonight) was taken off the list."_s);
}

TEST_F(VisitsPresenterTest, KeepsAPlanWhereTheQuestionIsLeftOrAnotherVisitIsLookedAt)
{
    plan(u"today"_s, people::Day{2026y / 11 / 18});
    plan(u"late"_s, people::Day{2026y / 11 / 24}, u"new-2"_s);
    presenter->askToDrop();
    presenter->leaveDrop();
    EXPECT_TRUE(view().card->canDrop);
    presenter->askToDrop();
    presenter->choose(u"plan:late"_s);

    presenter->drop();

    EXPECT_EQ(plans.all()->size(), 2U);
}

TEST_F(VisitsPresenterTest, OffersNoOtherVisitInThePlaceOfOneThatWasTakenOffTheList)
{
    plan(u"today"_s, people::Day{2026y / 11 / 18});
    plan(u"late"_s, people::Day{2026y / 11 / 24}, u"new-2"_s);
    presenter->choose(u"plan:today"_s);
    presenter->askToDrop();
    presenter->drop();
    presenter->look(); // a second later

    EXPECT_EQ(view().coming.size(), 1);
    EXPECT_FALSE(view().card);
    EXPECT_EQ(view().empty, u"Choose a visit at the left, or open a new one."_s);
}

} // namespace
} // namespace coldarc::test
