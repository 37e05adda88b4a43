#include "core/visit/settlement_store.h"

#include "core/visit/open_visit.h"
#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using namespace std::chrono_literals;
using lamps::CounterHours;
using lamps::Custody;
using lamps::LampHours;

// All lamps, persons and places are invented.

/// A workspace in memory that knows the site, the fitted lamps and those in the van of a night.
class SettlementStoreTest : public ::testing::Test {
protected:
    void know(const Night& night, double counterIn = 0)
    {
        ASSERT_TRUE(sites.save(night.opening().site));
        for (qsizetype index = 0; index < night.opening().fitted.size(); ++index)
            knowFitted(night, index, counterIn);
        for (const SwapPlan& swap : night.opening().swaps)
            knowInVan(night, swap.newLamp);
    }
    void knowFitted(const Night& night, qsizetype index, double counterIn)
    {
        const LampFacts& lamp = night.opening().fitted[index];
        const LamphouseId there = night.opening().fittedIn[index];
        const lamps::Fit fit{lamps::FitId(u"fit of "_s + lamp.id.text()),
                             lamp.id,
                             there,
                             CounterHours::fromHours(counterIn),
                             before(night, 200),
                             std::nullopt};
        // Every lamp of a night has one serial; a workspace wants them apart.
        ASSERT_TRUE(store.addFitted({lamp.id, *lamp.type, lamp.id.text(), LampHours()}, fit,
                                    lamps::MoveId(u"fitted "_s + lamp.id.text())));
    }
    void knowInVan(const Night& night, const LampFacts& lamp)
    {
        const lamps::CustodyMove move{lamps::MoveId(u"loaded "_s + lamp.id.text()),
                                      lamp.id,
                                      Custody::InVan,
                                      night.ada(),
                                      {},
                                      before(night, 1)};
        ASSERT_EQ(store.add({lamp.id, *lamp.type, lamp.serial, LampHours()}, move),
                  lamps::MoveAnswer(lamps::Moved{}));
    }
    static WallTime before(const Night& night, int days)
    {
        return night.entries.first().at.wall - std::chrono::days(days);
    }

    /// The whole swap: 1980 h on arrival, 0 h read back.
    static void doWhole(Night& night, int swap = 0)
    {
        for (const auto& [step, hours] :
             {std::pair(u"read-counters"_s, u"1980"_s), std::pair(u"key-controller"_s, u"0"_s)}) {
            night.doUntil(step, swap);
            ASSERT_TRUE(night.doStep(
                step, [&](QJsonObject& answers) { answers[u"hours"_s] = hours; }, swap));
        }
        night.doUntil(u"sign"_s, swap);
    }
    static void doAll(Night& night)
    {
        for (int swap = 0; swap < static_cast<int>(night.opening().swaps.size()); ++swap)
            doWhole(night, swap);
        for (int swap = 0; swap < static_cast<int>(night.opening().swaps.size()); ++swap)
            night.doAll(swap);
        night.close();
    }
    std::vector<Leftover> settle(const Night& night, CountersAre counters = CountersAre::AsRead)
    {
        const auto settlement = settlementOf(night.entries);
        EXPECT_TRUE(settlement);
        const auto left = settlements.settle(*settlement, night.clock.now().wall, counters);
        EXPECT_TRUE(left) << (left ? "" : left.error().detail.toStdString());
        return left.value_or(std::vector<Leftover>());
    }
    bool isSettled() { return settlements.isSettled(VisitId(u"visit-1"_s)).value(); }
    Custody custodyOf(const QString& lamp) { return store.lamp(LampId(lamp))->custody; }
    std::optional<LampId> fittedBySite()
    {
        return sites.load(SiteId(u"pier-street"_s))->lamphouse(lamphouse)->fitted;
    }
    qint64 rows()
    {
        return database
            .run(u"SELECT (SELECT count(*) FROM lamp) + (SELECT count(*) FROM custody_move) + (SELECT "
                 u"count(*) "
                 "FROM fit) + (SELECT count(*) FROM fit_end) + (SELECT count(*) FROM counter_reading) AS n"_s)
            ->rows.front()
            .whole(u"n");
    }

    store::Database database = store::Database::inMemory();
    lamps::LampStore store{database};
    site::SiteStore sites{database};
    SettlementStore settlements{database};
    const LamphouseId lamphouse{u"lamphouse-1-main"_s};
};

TEST_F(SettlementStoreTest, MovesLampsFitsAndCounters)
{
    Night night;
    know(night);
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    const auto fits = store.fitsIn(lamphouse).value();
    ASSERT_EQ(fits.size(), 2u);
    ASSERT_TRUE(fits[0].end);
    EXPECT_EQ(fits[0].end->run, LampHours::fromHours(1980)); // 1980 - 0
    EXPECT_EQ(fits[0].end->cause, lamps::Cause::EndOfLife);
    EXPECT_EQ(fits[1].lamp, LampId(u"new-1"_s));
    EXPECT_FALSE(fits[1].end);
    EXPECT_EQ(custodyOf(u"old-1-main"_s), Custody::Boxed);
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::Fitted);
    EXPECT_EQ(store.readings(lamphouse)->size(), 2u);
    EXPECT_EQ(fittedBySite(), LampId(u"new-1"_s));
    EXPECT_TRUE(isSettled());
    EXPECT_FALSE(settlements.isSettled(VisitId(u"visit-2"_s)).value()) << "nor any other visit";
}

TEST_F(SettlementStoreTest, FitsTheLampThatWasTakenFromTheVanAndLeavesThePlannedOneThere)
{
    Night night;
    know(night);
    knowInVan(night, {LampId(u"another"_s), night.opening().swaps[0].newLamp.type, u"VAN000077"_s, {}});
    night.takenFromTheVan = {{0, u"van-000077"_s}};
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(custodyOf(u"another"_s), Custody::Fitted);
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::InVan);
    EXPECT_EQ(store.runningIn(lamphouse).value()->lamp, LampId(u"another"_s));
    EXPECT_EQ(fittedBySite(), LampId(u"another"_s));
}

TEST_F(SettlementStoreTest, FitsALampThatNobodyKnewAndLeavesThePlannedOneInTheVan)
{
    Night night;
    know(night);
    night.takenFromTheVan = {{0, u"VAN000077"_s}};
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::InVan);
    const auto now = store.lamp(store.runningIn(lamphouse).value()->lamp);
    ASSERT_TRUE(now);
    EXPECT_EQ(now->lamp.serial, u"VAN000077"_s);
}

TEST_F(SettlementStoreTest, GivesALampThatWasEnteredWithoutASerialTheOneThatWasRead)
{
    Opening opening = Night().opening();
    opening.swaps[0].newLamp.serial.clear();
    Night night(opening);
    know(night);
    night.takenFromTheVan = {{0, u"VAN000077"_s}};
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(store.lamp(LampId(u"new-1"_s))->lamp.serial, u"VAN000077"_s);
}

TEST_F(SettlementStoreTest, OwesWhatIsLeftToTheLampThatWentIn)
{
    Night night;
    know(night);
    knowInVan(night, {LampId(u"another"_s), night.opening().swaps[0].newLamp.type, u"VAN000077"_s, {}});
    night.takenFromTheVan = {{0, u"VAN000077"_s}};
    night.doUntil(u"peak-again"_s);
    ASSERT_TRUE(night.tell(Owed{night.swap().id, StepId(u"peak-again"_s)}));
    night.doAll();
    night.close();

    EXPECT_TRUE(settle(night).empty());

    const auto owed = OwedStore(database).open().value();
    ASSERT_FALSE(owed.empty());
    EXPECT_EQ(owed.front().lamp, LampId(u"another"_s));
}

/// What the next visit here is opened with.
TEST_F(SettlementStoreTest, GivesTheNextVisitTheNewLampWithItsHoursAndAnEmptyVan)
{
    Night night;
    know(night);
    doAll(night);

    settle(night);

    const auto lamp = store.lamp(*fittedBySite()).value().lamp;
    const LampFacts facts =
        fittedFacts(lamp, store.runningIn(lamphouse).value(), store.readings(lamphouse)->back());
    EXPECT_EQ(facts.id, LampId(u"new-1"_s));
    EXPECT_EQ(facts.hours, 0.0);
    EXPECT_TRUE(store.vanStock(night.ada())->empty());
}

TEST_F(SettlementStoreTest, ChangesNothingTheSecondTime)
{
    Night night;
    know(night);
    doAll(night);
    settle(night);
    const qint64 once = rows();
    // As if the mark alone had not been written.
    ASSERT_TRUE(database.run(u"DROP TRIGGER visit_settlement_is_never_removed"_s));
    ASSERT_TRUE(database.run(u"DELETE FROM visit_settlement"_s));
    ASSERT_FALSE(isSettled());

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(rows(), once);
    EXPECT_TRUE(isSettled());
}

TEST_F(SettlementStoreTest, LeavesWhatALaterVisitDidAlone)
{
    Night night;
    know(night);
    doAll(night);
    settle(night);
    const auto next = store.runningIn(lamphouse).value();
    ASSERT_TRUE(
        store.endFit({next->id, std::nullopt, night.clock.now().wall, lamps::Cause::Dim, {}},
                     {lamps::MoveId(u"later"_s), {}, Custody::Boxed, {}, {}, night.clock.now().wall}));
    ASSERT_TRUE(sites.setFitted(lamphouse, std::nullopt));
    ASSERT_TRUE(database.run(u"DROP TRIGGER visit_settlement_is_never_removed"_s));
    ASSERT_TRUE(database.run(u"DELETE FROM visit_settlement"_s));

    settle(night);

    EXPECT_FALSE(fittedBySite());
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::Boxed);
}

TEST_F(SettlementStoreTest, LeavesTheOldLampsStayRunningWhereTheVisitEndedAsItWas)
{
    Night night;
    know(night);
    night.doUntil(u"gear-on"_s);
    night.makeSafe();
    ASSERT_TRUE(night.tell(CustodyDecided{LampId(u"new-1"_s), u"unused"_s}));
    night.close();

    EXPECT_TRUE(settle(night).empty());

    ASSERT_TRUE(store.runningIn(lamphouse).value());
    EXPECT_EQ(store.runningIn(lamphouse).value()->lamp, LampId(u"old-1-main"_s));
    EXPECT_EQ(fittedBySite(), LampId(u"old-1-main"_s));
    ASSERT_EQ(store.vanStock(night.ada())->size(), 1u);
    EXPECT_EQ(store.vanStock(night.ada())->front().lamp.id, LampId(u"new-1"_s));
}

TEST_F(SettlementStoreTest, KeepsAnUnusedLampInTheVanThatItCameFrom)
{
    Night night;
    know(night);
    const LampId lamp(u"new-1"_s);
    ASSERT_TRUE(store.move({lamps::MoveId(u"a"_s), lamp, Custody::InStock, {}, {}, before(night, 1)}));
    ASSERT_TRUE(store.move({lamps::MoveId(u"b"_s), lamp, Custody::InVan, night.ben(), {}, before(night, 1)}));
    night.doUntil(u"gear-on"_s);
    night.makeSafe();
    ASSERT_TRUE(night.tell(CustodyDecided{lamp, u"unused"_s}));
    night.close();

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(store.lamp(lamp)->holder, night.ben());
}

TEST_F(SettlementStoreTest, KeepsAnUnusedLampOfTheStoreInSightHoweverOftenItIsTold)
{
    Night night;
    know(night);
    const LampId lamp(u"new-1"_s);
    ASSERT_TRUE(store.move({lamps::MoveId(u"a"_s), lamp, Custody::InStock, {}, {}, before(night, 1)}));
    night.doUntil(u"gear-on"_s);
    night.makeSafe();
    ASSERT_TRUE(night.tell(CustodyDecided{lamp, u"unused"_s}));
    night.close();

    EXPECT_TRUE(settle(night).empty());
    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(store.lamp(lamp)->custody, Custody::InVan);
    EXPECT_EQ(store.lamp(lamp)->holder, night.ada());
}

TEST_F(SettlementStoreTest, AsksAboutAnUnusedLampThatASiteKeepsByTheBook)
{
    Night night;
    know(night);
    const LampId lamp(u"new-1"_s);
    ASSERT_TRUE(store.move({lamps::MoveId(u"a"_s),
                            lamp,
                            Custody::KeptBySite,
                            {},
                            night.opening().site.site.id,
                            before(night, 1)}));
    night.doUntil(u"gear-on"_s);
    night.makeSafe();
    ASSERT_TRUE(night.tell(CustodyDecided{lamp, u"unused"_s}));
    night.close();

    const auto left = settle(night);

    ASSERT_FALSE(left.empty());
    EXPECT_EQ(left.front().kind, Leftover::Kind::LampIsThere);
    EXPECT_EQ(left.front().from, Custody::KeptBySite);
}

TEST_F(SettlementStoreTest, FitsALampThatCameWithoutAnybodySayingSo)
{
    Night night;
    ASSERT_TRUE(sites.save(night.opening().site));
    knowFitted(night, 0, 0);
    const LampFacts& lamp = night.opening().swaps.first().newLamp;
    ASSERT_TRUE(
        store.add({lamp.id, *lamp.type, lamp.serial, LampHours()},
                  {lamps::MoveId(u"ordered"_s), lamp.id, Custody::OnOrder, {}, {}, before(night, 30)}));
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(store.lamp(lamp.id)->custody, Custody::Fitted);
}

TEST_F(SettlementStoreTest, TakesItAsDoneWhereSomebodyWasQuicker)
{
    Night night;
    know(night);
    night.doUntil(u"dust"_s);
    night.makeSafe();
    night.close(); // the new lamp goes back to the dealer
    ASSERT_TRUE(store.move({lamps::MoveId(u"a"_s), LampId(u"new-1"_s), Custody::Returned, {}, {}, {}}));

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(store.moves(LampId(u"new-1"_s))->size(), 2u);
}

TEST_F(SettlementStoreTest, LeavesAnEmptySeatEmpty)
{
    Night night;
    know(night);
    night.doUntil(u"dust"_s);
    night.makeSafe();
    night.close();

    EXPECT_TRUE(settle(night).empty());

    EXPECT_FALSE(store.runningIn(lamphouse).value());
    EXPECT_FALSE(fittedBySite());
    EXPECT_EQ(custodyOf(u"old-1-main"_s), Custody::Boxed);
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::Returned);
}

TEST_F(SettlementStoreTest, LeavesTheOldLampInTheVanOfWhoeverLedUntilItIsHandedOver)
{
    Night night;
    know(night);
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    const auto old = store.lamp(LampId(u"old-1-main"_s));
    EXPECT_EQ(old->custody, Custody::Boxed);
    EXPECT_EQ(old->holder, night.ada());
    EXPECT_TRUE(old->site.isEmpty()) << "a van is at no site";
    EXPECT_EQ(
        store.move(
            {lamps::MoveId(u"dealer"_s), old->lamp.id, Custody::Returned, {}, {}, night.clock.now().wall}),
        lamps::MoveAnswer(lamps::Moved{}));
}

TEST_F(SettlementStoreTest, TakesABurstLampOutAsBurstAndThenGivesThePiecesAway)
{
    Night night;
    know(night);
    night.doUntil(u"relieve"_s);
    Happened burst;
    burst.incident = Incident::Burst;
    burst.lamp = LampId(u"old-1-main"_s);
    ASSERT_TRUE(night.tell(burst));
    night.makeSafe();
    ASSERT_TRUE(night.tell(CustodyDecided{LampId(u"old-1-main"_s), u"recycled"_s}));
    night.close();

    EXPECT_TRUE(settle(night).empty());

    QStringList words;
    const auto moves = store.moves(LampId(u"old-1-main"_s)).value();
    for (const lamps::CustodyMove& move : moves)
        words << lamps::wordOf(move.custody);
    EXPECT_EQ(words, (QStringList{u"fitted"_s, u"burst"_s, u"recycled"_s}));
    EXPECT_EQ(store.fitsIn(lamphouse)->front().end->cause, lamps::Cause::Burst);
}

TEST_F(SettlementStoreTest, KeepsTheHoursOfAnOldLampUnknownWhereItsBeginningIsUnknown)
{
    Night night;
    ASSERT_TRUE(sites.save(night.opening().site));
    knowInVan(night, night.opening().swaps.front().newLamp);
    const LampFacts& old = night.opening().fitted.front();
    ASSERT_TRUE(
        store.addFitted({old.id, *old.type, old.serial, std::nullopt},
                        {lamps::FitId(u"f"_s), old.id, lamphouse, std::nullopt, before(night, 200), {}},
                        lamps::MoveId(u"m"_s)));
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    EXPECT_FALSE(store.fitsIn(lamphouse)->front().end->run);
    EXPECT_FALSE(store.lamp(old.id)->lamp.hours);
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::Fitted);
}

TEST_F(SettlementStoreTest, AddsLampsThatItHearsOfForTheFirstTime)
{
    Night night;
    ASSERT_TRUE(sites.save(night.opening().site));
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(store.lamp(LampId(u"old-1-main"_s))->lamp.hours,
              LampHours::fromHours(1200)); // as the opening says
    EXPECT_EQ(custodyOf(u"old-1-main"_s), Custody::Boxed);
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::Fitted);
    EXPECT_EQ(store.runningIn(lamphouse).value()->lamp, LampId(u"new-1"_s));
}

TEST_F(SettlementStoreTest, MakesNoLampOfOneWhoseTypeNobodyKnows)
{
    Opening opening = Night().opening();
    opening.fitted.clear();
    opening.fittedIn.clear();
    Night night(opening);
    know(night);
    ASSERT_TRUE(sites.setFitted(lamphouse, std::nullopt));
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(database.run(u"SELECT lamp_id FROM lamp"_s)->rows.size(), 1u);
    EXPECT_EQ(fittedBySite(), LampId(u"new-1"_s));
}

TEST_F(SettlementStoreTest, EndsWhateverItHadInASeatThatAnUnknownLampCameOutOf)
{
    const Night before;
    Opening opening = before.opening();
    opening.fitted.clear();
    opening.fittedIn.clear();
    Night night(opening);
    know(before); // it has a lamp there that the visit was not told of
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    const auto fits = store.fitsIn(lamphouse).value();
    ASSERT_TRUE(fits.front().end);
    EXPECT_FALSE(fits.front().end->run);
    EXPECT_EQ(custodyOf(u"old-1-main"_s), Custody::Boxed);
    EXPECT_EQ(fits.back().lamp, LampId(u"new-1"_s));
}

TEST_F(SettlementStoreTest, SettlesAtASiteThatNoWorkspaceKeepsAnyMore)
{
    Night night;
    knowFitted(night, 0, 0);
    knowInVan(night, night.opening().swaps.front().newLamp);
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(store.runningIn(lamphouse).value()->lamp, LampId(u"new-1"_s));
    EXPECT_TRUE(isSettled());
}

// ---- What is left over ---------------------------------------------------------------------------------

/// It began at 2500 h, the visit reads 1980 h.
TEST_F(SettlementStoreTest, AsksWhereTheCountersDoNotFitAndLeavesThatSeatWhole)
{
    Night night;
    know(night, 2500);
    doAll(night);

    const auto left = settle(night);

    ASSERT_EQ(left.size(), 1u);
    EXPECT_EQ(left.front().kind, Leftover::Kind::Counters);
    EXPECT_EQ(left.front().question, lamps::CounterQuestion::RanBackwards);
    EXPECT_EQ(left.front().lamphouse, lamphouse);
    EXPECT_EQ(left.front().lamp.id, LampId(u"old-1-main"_s));
    EXPECT_EQ(store.runningIn(lamphouse).value()->lamp, LampId(u"old-1-main"_s));
    EXPECT_EQ(custodyOf(u"old-1-main"_s), Custody::Fitted);
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::InVan);
    EXPECT_EQ(store.readings(lamphouse)->size(), 2u); // seen all the same
    EXPECT_FALSE(isSettled());
}

TEST_F(SettlementStoreTest, GoesOnWithHoursUnknownOnceTheCountersAreSetAside)
{
    Night night;
    know(night, 2500);
    doAll(night);
    ASSERT_EQ(settle(night).size(), 1u);

    EXPECT_TRUE(settle(night, CountersAre::SetAside).empty());

    EXPECT_FALSE(store.fitsIn(lamphouse)->front().end->run);
    EXPECT_EQ(custodyOf(u"old-1-main"_s), Custody::Boxed);
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::Fitted);
    EXPECT_EQ(store.readings(lamphouse)->size(), 2u);
    EXPECT_TRUE(isSettled());
}

TEST_F(SettlementStoreTest, KeepsHoursThatFitWhereOthersAreSetAside)
{
    Night night;
    know(night);
    doAll(night);

    EXPECT_TRUE(settle(night, CountersAre::SetAside).empty());

    EXPECT_EQ(store.fitsIn(lamphouse)->front().end->run, LampHours::fromHours(1980));
}

TEST_F(SettlementStoreTest, SettlesTheOtherSeatWhereOneRaisesAQuestion)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    ASSERT_TRUE(sites.save(night.opening().site));
    knowFitted(night, 0, 2500);
    knowFitted(night, 1, 0);
    for (const SwapPlan& swap : night.opening().swaps)
        knowInVan(night, swap.newLamp);
    doAll(night);

    const auto left = settle(night);

    ASSERT_EQ(left.size(), 1u);
    EXPECT_EQ(left.front().lamphouse, lamphouse);
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::InVan);
    EXPECT_EQ(custodyOf(u"new-2"_s), Custody::Fitted);
    EXPECT_EQ(custodyOf(u"old-2-main"_s), Custody::Boxed);
    EXPECT_FALSE(isSettled());
}

/// What was handed over meanwhile is not asked back.
TEST_F(SettlementStoreTest, LeavesAnOldLampAtTheDealersWhereTheOtherSeatIsSettledLate)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    ASSERT_TRUE(sites.save(night.opening().site));
    knowFitted(night, 0, 2500);
    knowFitted(night, 1, 0);
    for (const SwapPlan& swap : night.opening().swaps)
        knowInVan(night, swap.newLamp);
    doAll(night);
    ASSERT_EQ(settle(night).size(), 1u);
    ASSERT_TRUE(store.move({lamps::MoveId(u"dealer"_s),
                            LampId(u"old-2-main"_s),
                            Custody::Returned,
                            {},
                            {},
                            night.clock.now().wall}));

    EXPECT_TRUE(settle(night, CountersAre::SetAside).empty());

    EXPECT_EQ(custodyOf(u"old-2-main"_s), Custody::Returned);
    EXPECT_EQ(custodyOf(u"old-1-main"_s), Custody::Boxed);
}

/// The seat that is settled late does not take the other one back to where this visit had it.
TEST_F(SettlementStoreTest, LeavesASeatThatWasSettledAndChangedSinceWhereTheOtherIsSettledLate)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    ASSERT_TRUE(sites.save(night.opening().site));
    knowFitted(night, 0, 2500);
    knowFitted(night, 1, 0);
    for (const SwapPlan& swap : night.opening().swaps)
        knowInVan(night, swap.newLamp);
    doAll(night);
    ASSERT_EQ(settle(night).size(), 1u);
    const LamphouseId other(u"lamphouse-2-main"_s);
    ASSERT_TRUE(sites.setFitted(other, std::nullopt)); // somebody took it out meanwhile

    EXPECT_TRUE(settle(night, CountersAre::SetAside).empty());

    EXPECT_EQ(fittedBySite(), LampId(u"new-1"_s));
    EXPECT_FALSE(sites.load(SiteId(u"pier-street"_s))->lamphouse(other)->fitted);
}

TEST_F(SettlementStoreTest, HandsOverALampThatWasNeverInASeatThatStaysUnsettled)
{
    Night night;
    know(night, 2500); // a question of counters
    night.doUntil(u"read-counters"_s);
    ASSERT_TRUE(
        night.doStep(u"read-counters"_s, [](QJsonObject& answers) { answers[u"hours"_s] = u"1980"_s; }));
    night.doUntil(u"dust"_s);
    night.makeSafe();
    night.close();

    ASSERT_EQ(settle(night).size(), 1u);

    EXPECT_EQ(custodyOf(u"old-1-main"_s), Custody::Fitted); // waits for its seat
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::Returned);
}

TEST_F(SettlementStoreTest, TakesALampForTheOneOfItsTypeAndSerialThatTheBookKnows)
{
    Night night;
    ASSERT_TRUE(sites.save(night.opening().site));
    knowFitted(night, 0, 0);
    LampFacts known = night.opening().swaps.front().newLamp;
    known.id = LampId(u"known"_s);
    knowInVan(night, known);
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(custodyOf(u"known"_s), Custody::Fitted);
    EXPECT_FALSE(store.lamp(LampId(u"new-1"_s))) << "one lamp, not two";
}

/// It was planned by a lamp without a serial, and turned out to be another one of the book.
TEST_F(SettlementStoreTest, FitsTheLampOfTheBookWhoseSerialWasReadOnOneThatWasPlannedWithout)
{
    Opening opening = Night().opening();
    opening.swaps[0].newLamp.serial.clear();
    Night night(opening);
    know(night);
    knowInVan(night, {LampId(u"another"_s), opening.swaps[0].newLamp.type, u"VAN000077"_s, {}});
    night.takenFromTheVan = {{0, u"VAN000077"_s}};
    doAll(night);

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(custodyOf(u"another"_s), Custody::Fitted);
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::InVan);
}

/// Whichever row it is that says no.
TEST_F(SettlementStoreTest, LeavesASeatWholeWhereARowForbidsTheNewLamp)
{
    Night night;
    ASSERT_TRUE(sites.save(night.opening().site));
    knowFitted(night, 0, 0);
    ASSERT_TRUE(database.run(
        u"CREATE TRIGGER no_lamp BEFORE INSERT ON lamp BEGIN SELECT RAISE(ABORT, 'conflict'); END"_s));
    doAll(night);

    const auto left = settle(night);

    ASSERT_EQ(left.size(), 1u);
    EXPECT_EQ(left.front().kind, Leftover::Kind::Contradicted);
    EXPECT_EQ(left.front().lamp.id, LampId(u"new-1"_s));
    EXPECT_EQ(custodyOf(u"old-1-main"_s), Custody::Fitted);
    EXPECT_FALSE(isSettled());
}

TEST_F(SettlementStoreTest, CallsADiskThatFailsNoQuestionToAnybody)
{
    Night night;
    know(night);
    doAll(night);
    ASSERT_TRUE(database.run(u"ALTER TABLE fit_end RENAME COLUMN cause TO gone"_s));

    const auto left = settlements.settle(*settlementOf(night.entries), night.clock.now().wall);

    ASSERT_FALSE(left);
    EXPECT_EQ(left.error().kind, Error::Kind::Storage);
}

/// The book says since when another lamp sits there: since this visit began.
TEST_F(SettlementStoreTest, LeavesALampAloneThatWentInSinceTheVisitWasOpened)
{
    Opening opening = Night().opening();
    opening.fitted.clear();
    opening.fittedIn.clear();
    Night night(opening);
    ASSERT_TRUE(sites.save(night.opening().site));
    knowInVan(night, night.opening().swaps.front().newLamp);
    ASSERT_TRUE(store.addFitted({LampId(u"third"_s), LampTypeId(u"hollin-30b"_s), u"T"_s, LampHours()},
                                {lamps::FitId(u"f"_s), {}, lamphouse, CounterHours(), before(night, 0), {}},
                                lamps::MoveId(u"m"_s)));
    doAll(night);

    const auto left = settle(night);

    ASSERT_EQ(left.size(), 1u);
    EXPECT_EQ(left.front().kind, Leftover::Kind::SeatDiffers);
    EXPECT_EQ(store.runningIn(lamphouse).value()->lamp, LampId(u"third"_s));
}

TEST_F(SettlementStoreTest, LeavesASeatAloneWhoseLampIsElsewhereByTheBook)
{
    Night night;
    ASSERT_TRUE(sites.save(night.opening().site));
    knowInVan(night, night.opening().swaps.front().newLamp);
    LampFacts old = night.opening().fitted.front();
    knowInVan(night, old); // nobody wrote down that it went in
    doAll(night);

    const auto left = settle(night);

    ASSERT_FALSE(left.empty());
    EXPECT_EQ(left.front().kind, Leftover::Kind::SeatDiffers);
    EXPECT_EQ(left.front().lamp.id, old.id);
    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::InVan);
}

TEST_F(SettlementStoreTest, SaysWhereTheLampIsThatCannotGoIn)
{
    Night night;
    know(night);
    doAll(night);
    ASSERT_EQ(store.move({lamps::MoveId(u"lost"_s), LampId(u"new-1"_s), Custody::Recycled, {}, {}, {}}),
              lamps::MoveAnswer(lamps::Moved{}));

    const auto left = settle(night);

    ASSERT_EQ(left.size(), 1u);
    EXPECT_EQ(left.front().kind, Leftover::Kind::LampIsThere);
    EXPECT_EQ(left.front().from, Custody::Recycled);
    EXPECT_EQ(left.front().to, Custody::Fitted);
    EXPECT_EQ(custodyOf(u"old-1-main"_s), Custody::Fitted); // the seat is one thing
}

TEST_F(SettlementStoreTest, LeavesASeatAloneThatHoldsAnotherLampByTheBook)
{
    Night night;
    ASSERT_TRUE(sites.save(night.opening().site));
    knowInVan(night, night.opening().swaps.front().newLamp);
    ASSERT_TRUE(store.addFitted({LampId(u"third"_s), LampTypeId(u"hollin-30b"_s), u"T"_s, LampHours()},
                                {lamps::FitId(u"f"_s), {}, lamphouse, CounterHours(), before(night, 9), {}},
                                lamps::MoveId(u"m"_s)));
    doAll(night);

    const auto left = settle(night);

    ASSERT_EQ(left.size(), 1u);
    EXPECT_EQ(left.front().kind, Leftover::Kind::SeatDiffers);
    EXPECT_EQ(store.runningIn(lamphouse).value()->lamp, LampId(u"third"_s));
}

TEST_F(SettlementStoreTest, CanBeTriedAgainOnceTheBookIsPutRight)
{
    Night night;
    know(night);
    doAll(night);
    const lamps::MoveId wrong(u"wrong"_s);
    ASSERT_TRUE(store.move({wrong, LampId(u"new-1"_s), Custody::Recycled, {}, {}, {}}));
    ASSERT_EQ(settle(night).size(), 1u);
    ASSERT_EQ(
        store.move({lamps::MoveId(u"right"_s), LampId(u"new-1"_s), Custody::InStock, {}, {}, {}, wrong}),
        lamps::MoveAnswer(lamps::Moved{}));

    EXPECT_TRUE(settle(night).empty());

    EXPECT_EQ(custodyOf(u"new-1"_s), Custody::Fitted);
    EXPECT_TRUE(isSettled());
}

TEST_F(SettlementStoreTest, WritesNothingAtAllWhereTheLastWriteIsRefused)
{
    Night night;
    know(night);
    doAll(night);
    const qint64 before = rows();
    ASSERT_TRUE(database.run(u"ALTER TABLE visit_settlement RENAME COLUMN settled_at_ms TO gone"_s));
    const auto settlement = settlementOf(night.entries);
    ASSERT_TRUE(settlement);

    const auto left = settlements.settle(*settlement, night.clock.now().wall);

    ASSERT_FALSE(left);
    EXPECT_EQ(left.error().kind, Error::Kind::Storage);
    EXPECT_EQ(rows(), before);
    EXPECT_EQ(fittedBySite(), LampId(u"old-1-main"_s));
}

} // namespace
} // namespace coldarc::test
