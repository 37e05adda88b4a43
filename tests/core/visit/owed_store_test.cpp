#include "core/visit/owed_store.h"

#include "core/store/workspace_file.h"
#include "core/visit/settlement_store.h"
#include "tests/core/visit/night.h"

#include <QTemporaryDir>

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using namespace std::chrono_literals;

// All lamps, persons and places are invented.

/// What is owed of these nights, in a workspace in memory.
class OwedStoreTest : public ::testing::Test {
protected:
    /// The lamp of a night as its workspace knows it: the old one fitted, the new one in the van.
    void know(const Night& night)
    {
        ASSERT_TRUE(sites.save(night.opening().site));
        for (qsizetype index = 0; index < night.opening().fitted.size(); ++index) {
            const LampFacts& lamp = night.opening().fitted[index];
            const WallTime before = night.entries.first().at.wall - std::chrono::days(200);
            ASSERT_TRUE(lamps.addFitted({lamp.id, *lamp.type, lamp.id.text(), lamps::LampHours()},
                                        {lamps::FitId(u"fit of "_s + lamp.id.text()), lamp.id,
                                         night.opening().fittedIn[index], lamps::CounterHours::fromHours(0),
                                         before, std::nullopt},
                                        lamps::MoveId(u"fitted "_s + lamp.id.text())));
        }
    }
    /// The whole swap, with these steps left to a later visit.
    static Night leaving(const QStringList& owed)
    {
        Night night;
        leave(night, owed);
        return night;
    }
    static void leave(Night& night, const QStringList& owed)
    {
        for (const QString& step : owed) {
            night.doUntil(step);
            night.clock.advance(1min);
            ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(step)}));
        }
        night.doAll();
        night.close();
    }
    void settle(const Night& night)
    {
        const auto settlement = settlementOf(night.entries);
        ASSERT_TRUE(settlement);
        ASSERT_TRUE(
            SettlementStore(database).settle(*settlement, night.clock.now().wall, CountersAre::SetAside));
    }
    [[nodiscard]] QStringList open() const
    {
        QStringList steps;
        const std::vector<OwedStep> owed = store.open().value();
        for (const OwedStep& step : owed)
            steps << step.step.text();
        return steps;
    }

    store::Database database = store::Database::inMemory();
    lamps::LampStore lamps{database};
    site::SiteStore sites{database};
    OwedStore store{database};
};

TEST_F(OwedStoreTest, KeepsWhatWasLeftWithWhoWhereAndWhen)
{
    const Night night = leaving({u"peak-again"_s, u"measure-screen"_s});
    know(night);

    settle(night);

    const auto owed = store.open().value();
    ASSERT_EQ(owed.size(), 2u);
    const auto entry = std::ranges::find_if(
        night.entries, [](const Entry& one) { return std::holds_alternative<visit::Owed>(one.body); });
    EXPECT_EQ(owed.front(), (OwedStep{VisitId(u"visit-1"_s), SwapId(u"swap-1"_s), StepId(u"peak-again"_s),
                                      u"Check the peak again"_s, SiteId(u"pier-street"_s),
                                      LamphouseId(u"lamphouse-1-main"_s), LampId(u"new-1"_s), night.ada(),
                                      entry->at.wall}));
    EXPECT_EQ(owed.back().step, StepId(u"measure-screen"_s));
}

TEST_F(OwedStoreTest, OwesNothingAfterANightThatLeftNothing)
{
    const Night night = leaving({});
    know(night);

    settle(night);

    EXPECT_EQ(open(), QStringList());
    EXPECT_TRUE(store.isTold(VisitId(u"visit-1"_s)).value());
}

TEST_F(OwedStoreTest, ASecondTimeChangesNothing)
{
    const Night night = leaving({u"peak-again"_s});
    know(night);

    settle(night);
    settle(night);

    EXPECT_EQ(open(), QStringList{u"peak-again"_s});
}

TEST_F(OwedStoreTest, IsSettledByTheVisitThatDoesIt)
{
    const Night tuesday = leaving({u"peak-again"_s, u"measure-screen"_s});
    know(tuesday);
    settle(tuesday);
    Night friday(followUpOf(tuesday, {u"peak-again"_s}));
    friday.clock.advance(72h);
    friday.doAll();
    friday.close();

    settle(friday);

    EXPECT_EQ(open(), QStringList{u"measure-screen"_s});
}

TEST_F(OwedStoreTest, StaysOwedWithItsFirstDayWhereTheFollowUpLeavesItAgain)
{
    const Night tuesday = leaving({u"peak-again"_s});
    know(tuesday);
    settle(tuesday);
    const WallTime since = store.open()->front().since;
    Night friday(followUpOf(tuesday, {u"peak-again"_s}));
    friday.clock.advance(72h);
    leave(friday, {u"peak-again"_s});

    settle(friday);

    const auto owed = store.open().value();
    ASSERT_EQ(owed.size(), 1u);
    EXPECT_EQ(owed.front().visit, VisitId(u"visit-1"_s));
    EXPECT_EQ(owed.front().since, since);
}

TEST_F(OwedStoreTest, IsSettledWhenItsLampComesOut)
{
    const Night night = leaving({u"peak-again"_s});
    know(night);
    settle(night);
    const auto fit = lamps.runningIn(LamphouseId(u"lamphouse-1-main"_s)).value();
    ASSERT_TRUE(fit);

    const WallTime out = night.clock.now().wall + 24h;
    ASSERT_TRUE(
        lamps.endFit({fit->id, std::nullopt, out, lamps::Cause::Dim, std::nullopt}, {lamps::MoveId(u"out"_s),
                                                                                     LampId(u"new-1"_s),
                                                                                     lamps::Custody::Boxed,
                                                                                     night.ada(),
                                                                                     {},
                                                                                     out,
                                                                                     std::nullopt}));

    EXPECT_EQ(open(), QStringList());
}

TEST_F(OwedStoreTest, IsSettledWhenAnotherLampStandsInItsSeatSince)
{
    const Night night = leaving({u"peak-again"_s});
    ASSERT_TRUE(store.tell(*settlementOf(night.entries), night.clock.now().wall)); // of its lamps nothing
    const LampTypeId type = *night.opening().fitted.front().type;
    const auto fit = [&](const QString& lamp, const QString& seat, WallTime from) {
        ASSERT_TRUE(lamps.addFitted({LampId(lamp), type, lamp, lamps::LampHours()},
                                    {lamps::FitId(lamp), LampId(lamp), LamphouseId(seat),
                                     lamps::CounterHours::fromHours(0), from, std::nullopt},
                                    lamps::MoveId(lamp)));
    };
    fit(u"elsewhere"_s, u"lamphouse-9"_s, night.clock.now().wall + 24h);
    EXPECT_EQ(open(), QStringList{u"peak-again"_s});

    fit(u"another"_s, u"lamphouse-1-main"_s, night.clock.now().wall + 24h);

    EXPECT_EQ(open(), QStringList());
}

TEST_F(OwedStoreTest, IsNotLostWhereTheLampsOfTheVisitCouldNotBeCarriedOver)
{
    const Night night = leaving({u"peak-again"_s});
    // The workspace knows neither the site nor a lamp.

    settle(night);

    EXPECT_EQ(open(), QStringList{u"peak-again"_s});
}

TEST_F(OwedStoreTest, DoesNotMindInWhichOrderVisitsAreTold)
{
    const Night tuesday = leaving({u"peak-again"_s});
    Night friday(followUpOf(tuesday, {u"peak-again"_s}));
    friday.clock.advance(72h);
    friday.doAll();
    friday.close();

    ASSERT_TRUE(store.tell(*settlementOf(friday.entries), friday.clock.now().wall));
    ASSERT_TRUE(store.tell(*settlementOf(tuesday.entries), friday.clock.now().wall));

    EXPECT_EQ(open(), QStringList());
}

TEST_F(OwedStoreTest, WhatWasDoneBeforeItWasLeftSettlesNothing)
{
    const Night night = leaving({u"peak-again"_s});
    Settlement before;
    before.visit = VisitId(u"earlier"_s);
    before.owedDone.push_back({SwapId(u"earlier-1"_s), StepId(u"peak-again"_s),
                               LamphouseId(u"lamphouse-1-main"_s), LampId(u"new-1"_s),
                               night.entries.first().at.wall});

    ASSERT_TRUE(store.tell(before, night.clock.now().wall));
    settle(night);

    EXPECT_EQ(open(), QStringList{u"peak-again"_s});
}

TEST_F(OwedStoreTest, TellsAVisitAgainThatWasSettledBeforeThereWasATableForIt)
{
    const Night night = leaving({u"peak-again"_s});
    know(night);
    const VisitId visit(u"visit-1"_s);
    ASSERT_TRUE(
        database.run(u"INSERT INTO visit_settlement (visit_id, settled_at_ms) VALUES ('visit-1', 1)"_s, {}));
    SettlementStore settlements(database);
    EXPECT_FALSE(settlements.isSettled(visit).value());

    settle(night);

    EXPECT_TRUE(settlements.isSettled(visit).value());
    EXPECT_EQ(open(), QStringList{u"peak-again"_s});
}

TEST_F(OwedStoreTest, NeitherWhatWasOwedNorWhatWasDoneIsChangedOrRemoved)
{
    const Night night = leaving({u"peak-again"_s});
    settle(night);
    Settlement done;
    done.visit = VisitId(u"visit-2"_s);
    done.owedDone.push_back({SwapId(u"s"_s), StepId(u"x"_s), LamphouseId(u"l"_s), LampId(u"m"_s), {}});
    ASSERT_TRUE(store.tell(done, {}));

    for (const QString& table : {u"owed_step"_s, u"owed_step_done"_s}) {
        EXPECT_FALSE(database.run(u"DELETE FROM "_s + table, {}));
        EXPECT_FALSE(database.run(u"UPDATE "_s + table + u" SET step_id = 'other'"_s, {}));
    }
}

constexpr int kBefore = 7; ///< the last step before what is owed had its tables

TEST_F(OwedStoreTest, AnOlderFileIsGivenTheTablesAndItsSettledVisitsAreToldAgain)
{
    const Night night = leaving({u"peak-again"_s});
    const QTemporaryDir folder;
    const QString file = folder.filePath(u"work.coldarc"_s);
    const store::NewWorkspace fresh{u"invented"_s, night.clock.now().wall};
    std::vector<store::SchemaStep> steps = store::Schema::shipped().steps();
    steps.resize(kBefore);
    {
        store::OpenAnswer made = store::openWorkspace(file, fresh, store::Schema(std::move(steps)));
        ASSERT_EQ(made.outcome, store::Opening::Created) << made.detail.toStdString();
        ASSERT_TRUE(made.database->run(
            u"INSERT INTO visit_settlement (visit_id, settled_at_ms) VALUES ('visit-1', 1)"_s, {}));
    }

    store::OpenAnswer opened = store::openWorkspace(file, fresh, store::Schema::shipped());

    ASSERT_TRUE(opened.database) << opened.detail.toStdString();
    EXPECT_EQ(opened.database->version(), store::Schema::shipped().version());
    SettlementStore settlements(*opened.database);
    EXPECT_FALSE(settlements.isSettled(VisitId(u"visit-1"_s)).value());
    ASSERT_TRUE(settlements.settle(*settlementOf(night.entries), night.clock.now().wall));
    EXPECT_EQ(OwedStore(*opened.database).open()->size(), 1u);
    EXPECT_TRUE(settlements.isSettled(VisitId(u"visit-1"_s)).value());
}

// ---- What a visit owes by its entries ---------------------------------------------------------------------

std::vector<OwedStep> owedOf(const Night& night)
{
    return settlementOf(night.entries).value().owed;
}

TEST(OwedOfAVisitTest, IsAlsoWhatWasNotComeToWhereItWasMadeSafeAsItIs)
{
    Night night;
    night.doUntil(u"peak-across"_s);
    night.makeSafe();
    night.close();
    ASSERT_EQ(night.state.end, u"as-it-is"_s);

    const auto owed = owedOf(night);

    QStringList steps;
    for (const OwedStep& one : owed) {
        steps << one.step.text();
        EXPECT_EQ(one.since, night.entries.last().at.wall);
        EXPECT_EQ(one.by, night.ada());
    }
    EXPECT_FALSE(steps.contains(u"peak-along"_s)) << "it was done";
    EXPECT_EQ(steps, (QStringList{u"peak-across"_s, u"peak-up"_s, u"settle"_s, u"peak-again"_s,
                                  u"measure-screen"_s, u"look-picture"_s}));
}

TEST(OwedOfAVisitTest, IsNothingWhereTheOldLampStayedIn)
{
    Night night;
    night.doUntil(u"relieve"_s);
    ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(u"peak-again"_s)}));
    night.makeSafe();
    night.close();
    ASSERT_EQ(night.state.end, u"as-it-was"_s);

    EXPECT_TRUE(owedOf(night).empty());
}

TEST(OwedOfAVisitTest, IsNothingOfASeatThatIsEmpty)
{
    Night night;
    night.doUntil(u"unbox-new"_s);
    ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(u"peak-again"_s)}));
    night.makeSafe();
    night.close();

    EXPECT_TRUE(owedOf(night).empty());
}

TEST(OwedOfAVisitTest, AFollowUpOwesNothingAnewAndTellsWhatItDid)
{
    Night night(followUpOf(Night(), {u"peak-again"_s, u"measure-screen"_s}));
    night.doUntil(u"measure-screen"_s);
    const WallTime done = night.state.swaps[0].record(StepId(u"peak-again"_s)).at.wall;
    ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(u"measure-screen"_s)}));
    night.doAll();
    night.close();

    const auto settlement = settlementOf(night.entries).value();

    EXPECT_TRUE(settlement.owed.empty());
    ASSERT_EQ(settlement.owedDone.size(), 1u);
    EXPECT_EQ(settlement.owedDone.front(),
              (OwedDone{SwapId(u"follow-up-1"_s), StepId(u"peak-again"_s), LamphouseId(u"lamphouse-1-main"_s),
                        LampId(u"new-1"_s), done}));
    EXPECT_TRUE(settlement.seats.empty()) << "no lamp moved";
}

} // namespace
} // namespace coldarc::test
