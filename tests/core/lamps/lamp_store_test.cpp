#include "core/lamps/lamp_store.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

namespace coldarc::lamps {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

// All lamps, persons and places are invented.

class LampStoreTest : public ::testing::Test {
protected:
    store::Database database = store::Database::inMemory();
    LampStore store{database};
    test::FakeClock clock;
    test::CountingIds ids;

    const PersonId engineer{u"engineer-1"_s};
    const LamphouseId lamphouse{u"screen-2-lamphouse"_s};

    [[nodiscard]] WallTime now() const { return clock.now().wall; }

    static Lamp lamp(const QString& id, const QString& serial = u"SN-001"_s)
    {
        return {LampId(id), LampTypeId(u"hollin-30b"_s), serial, LampHours()};
    }
    CustodyMove to(const LampId& lampId, Custody custody)
    {
        return {MoveId(ids.next()),
                lampId,
                custody,
                custody == Custody::InVan ? engineer : PersonId(),
                {},
                now()};
    }
    LampId inVan(const QString& id, const QString& serial = u"SN-001"_s)
    {
        EXPECT_EQ(store.add(lamp(id, serial), to(LampId(id), Custody::InVan)), MoveAnswer(Moved{}));
        return LampId(id);
    }
    Fit fit(const QString& id, const LampId& lampId, double counterIn)
    {
        return {FitId(id), lampId, lamphouse, CounterHours::fromHours(counterIn), now(), std::nullopt};
    }
    Removal removal(const QString& fitId, double counterOut)
    {
        return {FitId(fitId), CounterHours::fromHours(counterOut), now(), Cause::EndOfLife, std::nullopt};
    }
    qint64 rows(const QString& sql) { return database.run(sql)->rows.front().whole(u"n"); }
};

TEST_F(LampStoreTest, KeepsALampAndWhereItIs)
{
    const LampId id = inVan(u"lamp-1"_s);

    EXPECT_EQ(store.lamp(id), (LampInCustody{lamp(u"lamp-1"_s), Custody::InVan, engineer, SiteId()}));
    EXPECT_EQ(store.lamp(LampId(u"none"_s)).error().kind, Error::Kind::NotFound);
}

TEST_F(LampStoreTest, RefusesASecondLampOfOneTypeWithOneSerial)
{
    inVan(u"lamp-1"_s, u"SN-001"_s);

    const auto again = store.add(lamp(u"lamp-2"_s, u"sn 001"_s), to(LampId(u"lamp-2"_s), Custody::InStock));

    ASSERT_FALSE(again);
    EXPECT_EQ(again.error().kind, Error::Kind::Conflict);
    EXPECT_FALSE(store.lamp(LampId(u"lamp-2"_s))) << "nothing half written";
    EXPECT_EQ(rows(u"SELECT count(*) AS n FROM lamp"_s), 1);
}

TEST_F(LampStoreTest, FindsALampByAPartOfItsSerialHoweverItIsSpaced)
{
    inVan(u"lamp-1"_s, u"SN-001"_s);
    clock.advance(1h);
    inVan(u"lamp-2"_s, u"SN-0019"_s);
    inVan(u"lamp-3"_s, u"XX-77"_s);
    const auto found = [this](const QString& part, int most = 9) {
        QStringList lamps;
        const auto list = store.withSerial(part, most).value();
        for (const LampInCustody& one : list)
            lamps << one.lamp.id.text();
        return lamps;
    };

    EXPECT_EQ(found(u"n 001"_s), (QStringList{u"lamp-2"_s, u"lamp-1"_s})); // the later entered first
    EXPECT_EQ(found(u"n001"_s, 1), QStringList{u"lamp-2"_s});
    EXPECT_EQ(found({}).size(), 3);
    EXPECT_TRUE(found(u"%"_s).isEmpty());
}

TEST_F(LampStoreTest, TheLastReadSerialCountsAndFreesTheWrongOne)
{
    const LampId id = inVan(u"lamp-1"_s, u"SN-OO1"_s);
    ASSERT_TRUE(store.readSerial(id, u"SN-001"_s, now()));
    EXPECT_EQ(store.lamp(id)->lamp.serial, u"SN-001"_s);

    inVan(u"lamp-2"_s, u"SN-OO1"_s);
    EXPECT_EQ(store.readSerial(LampId(u"lamp-2"_s), u"SN001"_s, now()).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(store.readSerial(LampId(u"none"_s), u"X"_s, now()).error().kind, Error::Kind::Conflict);
}

TEST_F(LampStoreTest, ANewLampDoesNotTurnUpRecycledOrWithoutALamphouseFitted)
{
    EXPECT_EQ(store.add(lamp(u"lamp-1"_s), to(LampId(u"lamp-1"_s), Custody::Recycled)),
              MoveAnswer(MoveNotAllowed{std::nullopt, Custody::Recycled}));
    EXPECT_EQ(store.add(lamp(u"lamp-1"_s), to(LampId(u"lamp-1"_s), Custody::Fitted)),
              MoveAnswer(MoveNotAllowed{std::nullopt, Custody::Fitted}));
    EXPECT_EQ(rows(u"SELECT count(*) AS n FROM lamp"_s), 0);
}

TEST_F(LampStoreTest, MovesALampAsCustodiesAllow)
{
    const LampId id = inVan(u"lamp-1"_s);

    EXPECT_EQ(store.move(to(id, Custody::InStock)), MoveAnswer(Moved{}));
    EXPECT_EQ(store.move(to(id, Custody::Recycled)), MoveAnswer(Moved{}));
    EXPECT_EQ(store.move(to(id, Custody::InVan)),
              MoveAnswer(MoveNotAllowed{Custody::Recycled, Custody::InVan}));
    EXPECT_EQ(store.lamp(id)->custody, Custody::Recycled);
    EXPECT_EQ(store.move(to(LampId(u"none"_s), Custody::InVan)).error().kind, Error::Kind::Conflict);
}

TEST_F(LampStoreTest, AVanNeedsItsPersonAndAKeepingSiteItsName)
{
    const LampId id = inVan(u"lamp-1"_s);
    CustodyMove nobody = to(id, Custody::KeptBySite);
    EXPECT_EQ(store.move(nobody).error().kind, Error::Kind::Malformed);

    nobody.site = SiteId(u"pier-street"_s);
    ASSERT_TRUE(store.move(nobody));
    EXPECT_EQ(store.lamp(id)->site, SiteId(u"pier-street"_s));

    CustodyMove back = to(id, Custody::InVan);
    back.holder = PersonId();
    EXPECT_EQ(store.move(back).error().kind, Error::Kind::Malformed);
}

TEST_F(LampStoreTest, CorrectsTheLastMoveByANewOne)
{
    const LampId id = inVan(u"lamp-1"_s);
    CustodyMove wrong = to(id, Custody::Recycled);
    ASSERT_EQ(store.move(wrong), MoveAnswer(Moved{}));

    CustodyMove right = to(id, Custody::Returned);
    right.corrects = wrong.id;
    ASSERT_EQ(store.move(right), MoveAnswer(Moved{}));

    EXPECT_EQ(store.lamp(id)->custody, Custody::Returned);
    EXPECT_EQ(store.moves(id)->size(), 2u);
    EXPECT_EQ(store.moves(id)->back(), right);
    EXPECT_EQ(rows(u"SELECT count(*) AS n FROM custody_move"_s), 3) << "the wrong one stays on record";

    CustodyMove late = to(id, Custody::InStock);
    for (const MoveId& notLast : {wrong.id, store.moves(id)->front().id}) {
        late.corrects = notLast;
        const auto refused = store.move(late);
        ASSERT_FALSE(refused);
        EXPECT_EQ(refused.error().kind, Error::Kind::Conflict);
    }
}

TEST_F(LampStoreTest, VanStockIsOnePersonsVan)
{
    inVan(u"lamp-2"_s, u"SN-002"_s);
    inVan(u"lamp-1"_s, u"SN-001"_s);
    CustodyMove elsewhere = to(LampId(u"lamp-3"_s), Custody::InVan);
    elsewhere.holder = PersonId(u"engineer-2"_s);
    ASSERT_TRUE(store.add(lamp(u"lamp-3"_s, u"SN-003"_s), elsewhere));
    inVan(u"lamp-4"_s, u"SN-004"_s);
    ASSERT_TRUE(store.move(to(LampId(u"lamp-4"_s), Custody::Unused)));

    const auto stock = store.vanStock(engineer);

    ASSERT_EQ(stock->size(), 2u);
    EXPECT_EQ(stock->at(0).lamp.serial, u"SN-001"_s);
    EXPECT_EQ(stock->at(1).lamp.serial, u"SN-002"_s);
    EXPECT_EQ(store.in(Custody::InVan)->size(), 3u);
    EXPECT_EQ(store.in(Custody::Unused)->size(), 1u);
}

TEST_F(LampStoreTest, CountsTheHoursOfEachStay)
{
    const LampId id = inVan(u"lamp-1"_s);
    const Fit first = fit(u"fit-1"_s, id, 1200);
    ASSERT_EQ(store.beginFit(first, MoveId(ids.next())), MoveAnswer(Moved{}));
    EXPECT_EQ(store.lamp(id)->custody, Custody::Fitted);
    clock.advance(24h * 100);

    const auto out = store.endFit(removal(u"fit-1"_s, 1950), to(id, Custody::Boxed));

    EXPECT_EQ(out, RemovalAnswer(Removed{LampHours::fromHours(750)}));
    EXPECT_EQ(store.lamp(id)->lamp.hours, LampHours::fromHours(750));
    EXPECT_EQ(store.lamp(id)->custody, Custody::Boxed);
    Fit expected = first;
    expected.end = Fit::End{CounterHours::fromHours(1950), now(), Cause::EndOfLife, std::nullopt,
                            LampHours::fromHours(750)};
    EXPECT_EQ(store.fitsOf(id), (std::vector<Fit>{expected}));

    ASSERT_TRUE(store.beginFit(fit(u"fit-2"_s, id, 0), MoveId(ids.next())));
    clock.advance(24h * 10);
    ASSERT_TRUE(store.endFit(removal(u"fit-2"_s, 50.5), to(id, Custody::Burst)));
    EXPECT_EQ(store.lamp(id)->lamp.hours, LampHours::fromHours(800.5));
    EXPECT_EQ(store.fitsIn(lamphouse)->size(), 2u);
}

TEST_F(LampStoreTest, AFitEndsOnce)
{
    const LampId id = inVan(u"lamp-1"_s);
    ASSERT_TRUE(store.beginFit(fit(u"fit-1"_s, id, 0), MoveId(ids.next())));
    clock.advance(24h);
    ASSERT_TRUE(store.endFit(removal(u"fit-1"_s, 5), to(id, Custody::Boxed)));

    EXPECT_EQ(store.endFit(removal(u"fit-1"_s, 6), to(id, Custody::Boxed)).error().kind,
              Error::Kind::Conflict);
    EXPECT_EQ(store.endFit(removal(u"none"_s, 6), to(id, Custody::Boxed)).error().kind,
              Error::Kind::NotFound);
    EXPECT_EQ(store.moves(id)->size(), 3u) << "the refused end moved nothing";
}

TEST_F(LampStoreTest, ALamphouseHoldsOneLampAndALampIsInOneLamphouse)
{
    const LampId one = inVan(u"lamp-1"_s, u"SN-001"_s);
    const LampId other = inVan(u"lamp-2"_s, u"SN-002"_s);
    ASSERT_TRUE(store.beginFit(fit(u"fit-1"_s, one, 0), MoveId(ids.next())));

    EXPECT_EQ(store.beginFit(fit(u"fit-2"_s, other, 0), MoveId(ids.next())).error().kind,
              Error::Kind::Conflict);
    EXPECT_EQ(store.lamp(other)->custody, Custody::InVan) << "nothing half written";
    Fit elsewhere = fit(u"fit-3"_s, one, 0);
    elsewhere.lamphouse = LamphouseId(u"another"_s);
    EXPECT_EQ(store.beginFit(elsewhere, MoveId(ids.next())),
              MoveAnswer(MoveNotAllowed{Custody::Fitted, Custody::Fitted}));
}

TEST_F(LampStoreTest, ALampLeavesItsSeatOnlyByTheEndOfItsFit)
{
    const LampId id = inVan(u"lamp-1"_s);
    EXPECT_EQ(store.move(to(id, Custody::Fitted)),
              MoveAnswer(MoveNotAllowed{Custody::InVan, Custody::Fitted}));
    ASSERT_TRUE(store.beginFit(fit(u"fit-1"_s, id, 0), MoveId(ids.next())));

    EXPECT_EQ(store.move(to(id, Custody::Boxed)),
              MoveAnswer(MoveNotAllowed{Custody::Fitted, Custody::Boxed}));
    CustodyMove undo = to(id, Custody::InStock);
    undo.corrects = store.moves(id)->back().id;
    EXPECT_EQ(store.move(undo), MoveAnswer(MoveNotAllowed{Custody::InVan, Custody::InStock}));
    EXPECT_EQ(store.endFit(removal(u"fit-1"_s, 1), to(id, Custody::InVan)),
              RemovalAnswer(MoveNotAllowed{Custody::Fitted, Custody::InVan}));
    EXPECT_EQ(store.fitsOf(id)->front().end, std::nullopt);
}

TEST_F(LampStoreTest, WritesNothingWhileTheCountersRaiseAQuestion)
{
    const LampId id = inVan(u"lamp-1"_s);
    ASSERT_TRUE(store.beginFit(fit(u"fit-1"_s, id, 1200), MoveId(ids.next())));
    clock.advance(24h * 100);
    Removal out = removal(u"fit-1"_s, 300);

    EXPECT_EQ(store.endFit(out, to(id, Custody::Boxed)), RemovalAnswer(CounterQuestion::RanBackwards));
    EXPECT_EQ(store.fitsOf(id)->front().end, std::nullopt);

    out.reset = CounterReset{CounterHours::fromHours(1900), CounterHours::fromHours(50)};
    EXPECT_EQ(store.endFit(out, to(id, Custody::Boxed)), RemovalAnswer(Removed{LampHours::fromHours(950)}));
    EXPECT_EQ(store.fitsOf(id)->front().end->reset, out.reset);
}

TEST_F(LampStoreTest, AWrongWallClockDoesNotKeepALampIn)
{
    const LampId id = inVan(u"lamp-1"_s);
    ASSERT_TRUE(store.beginFit(fit(u"fit-1"_s, id, 0), MoveId(ids.next())));
    clock.advance(1h);
    Removal out = removal(u"fit-1"_s, 900);
    EXPECT_EQ(store.endFit(out, to(id, Custody::Boxed)), RemovalAnswer(CounterQuestion::FasterThanTheClock));

    out.against = Removal::Against::Nothing;
    EXPECT_EQ(store.endFit(out, to(id, Custody::Boxed)), RemovalAnswer(Removed{LampHours::fromHours(900)}));

    ASSERT_TRUE(store.beginFit(fit(u"fit-2"_s, id, 900), MoveId(ids.next())));
    clock.setWall(now() - 48h);
    EXPECT_EQ(store.endFit(removal(u"fit-2"_s, 950), to(id, Custody::Boxed)),
              RemovalAnswer(Removed{LampHours::fromHours(50)}))
        << "a clock that was set back says nothing";
}

TEST_F(LampStoreTest, HoursStayUnknownWhenACounterCouldNotBeRead)
{
    const LampId id = inVan(u"lamp-1"_s);
    ASSERT_TRUE(store.beginFit(fit(u"fit-1"_s, id, 0), MoveId(ids.next())));
    Removal out = removal(u"fit-1"_s, 0);
    out.counterOut.reset();

    EXPECT_EQ(store.endFit(out, to(id, Custody::Burst)), RemovalAnswer(Removed{std::nullopt}));
    EXPECT_EQ(store.lamp(id)->lamp.hours, std::nullopt);
}

TEST_F(LampStoreTest, KeepsALampThatIsFoundFitted)
{
    Lamp found = lamp(u"lamp-1"_s);
    found.hours.reset();
    Fit unknown = fit(u"fit-1"_s, found.id, 0);
    unknown.counterIn.reset();

    ASSERT_TRUE(store.addFitted(found, unknown, MoveId(ids.next())));

    EXPECT_EQ(store.lamp(found.id), (LampInCustody{found, Custody::Fitted, PersonId(), SiteId()}));
    EXPECT_EQ(store.fitsIn(lamphouse), (std::vector<Fit>{unknown}));
    EXPECT_EQ(
        store.addFitted(lamp(u"lamp-2"_s, u"SN-002"_s), fit(u"fit-2"_s, LampId(), 0), MoveId(ids.next()))
            .error()
            .kind,
        Error::Kind::Conflict);
    EXPECT_FALSE(store.lamp(LampId(u"lamp-2"_s)));
}

TEST_F(LampStoreTest, ACorrectedCounterReadingDoesNotCount)
{
    const auto reading = [&](const QString& id, double hours) {
        return CounterReading{CounterReadingId(id), lamphouse, CounterHours::fromHours(hours), now()};
    };
    ASSERT_TRUE(store.addReading(reading(u"r-1"_s, 100)));
    clock.advance(24h * 7);
    ASSERT_TRUE(store.addReading(reading(u"r-2"_s, 1700)));
    CounterReading right = reading(u"r-3"_s, 170);
    right.corrects = CounterReadingId(u"r-2"_s);
    ASSERT_TRUE(store.addReading(right));

    const auto readings = store.readings(lamphouse);
    ASSERT_EQ(readings->size(), 2u);
    EXPECT_EQ(readings->back(), right);
    const auto points = counterPoints(*readings);
    EXPECT_DOUBLE_EQ(points[1].atWeeks - points[0].atWeeks, 1);
    EXPECT_EQ(points[1].hours, 170);

    right.id = CounterReadingId(u"r-4"_s);
    EXPECT_EQ(store.addReading(right).error().kind, Error::Kind::Conflict) << "corrected once only";
    right.corrects = CounterReadingId(u"r-3"_s);
    right.lamphouse = LamphouseId(u"another"_s);
    EXPECT_EQ(store.addReading(right).error().kind, Error::Kind::Conflict) << "of its own lamphouse";
}

TEST_F(LampStoreTest, FactsAreNeverChangedNorRemoved)
{
    const LampId id = inVan(u"lamp-1"_s);
    ASSERT_TRUE(store.beginFit(fit(u"fit-1"_s, id, 0), MoveId(ids.next())));
    clock.advance(24h);
    ASSERT_TRUE(store.endFit(removal(u"fit-1"_s, 5), to(id, Custody::Boxed)));
    ASSERT_TRUE(store.addReading({CounterReadingId(u"r-1"_s), lamphouse, CounterHours::fromHours(5), now()}));

    for (const QString& change :
         {u"UPDATE lamp SET hours_before_h = 1.0"_s, u"UPDATE lamp_serial SET serial = 'X'"_s,
          u"UPDATE custody_move SET custody = 'unused'"_s, u"UPDATE fit SET counter_in_h = 1.0"_s,
          u"UPDATE fit_end SET run_h = 1.0"_s, u"UPDATE counter_reading SET counter_h = 1.0"_s,
          u"DELETE FROM lamp"_s, u"DELETE FROM lamp_serial"_s, u"DELETE FROM custody_move"_s,
          u"DELETE FROM fit"_s, u"DELETE FROM fit_end"_s, u"DELETE FROM counter_reading"_s,
          u"INSERT OR REPLACE INTO fit_end SELECT * FROM fit_end"_s,
          u"INSERT OR REPLACE INTO custody_move SELECT * FROM custody_move"_s}) {
        const auto done = database.run(change);
        ASSERT_FALSE(done) << change.toStdString();
        EXPECT_EQ(done.error().kind, Error::Kind::Conflict) << change.toStdString();
    }
}

// ---- Pasted tables ----

TEST_F(LampStoreTest, ImportsAPastedTableAsAWhole)
{
    const StockTable table{{{1, LampTypeId(u"hollin-30b"_s), u"SN-001"_s, Custody::InVan},
                            {2, LampTypeId(u"hollin-30b"_s), u"SN-002"_s, Custody::Boxed},
                            {3, LampTypeId(u"hollin-30b"_s), u""_s, Custody::OnOrder},
                            {4, LampTypeId(u"hollin-30b"_s), u""_s, Custody::OnOrder}},
                           {}};

    const auto import = store.importStock(table, engineer, now(), ids);

    ASSERT_TRUE(import);
    EXPECT_EQ(import->imported, 4);
    ASSERT_EQ(store.vanStock(engineer)->size(), 1u);
    EXPECT_EQ(store.vanStock(engineer)->front().lamp.hours, LampHours());
    EXPECT_EQ(store.in(Custody::Boxed)->front().lamp.hours, std::nullopt)
        << "a used lamp's hours are not known";
    EXPECT_EQ(store.in(Custody::OnOrder)->size(), 2u);
}

TEST_F(LampStoreTest, ImportsNothingWhenARowIsBad)
{
    inVan(u"lamp-1"_s, u"SN-001"_s);
    const BadStockRow unread{1, BadStockRow::Cause::NotThreeFields, u"nonsense"_s};
    const StockTable table{{{2, LampTypeId(u"hollin-30b"_s), u"SN-005"_s, Custody::InStock},
                            {3, LampTypeId(u"hollin-30b"_s), u"sn001"_s, Custody::InStock}},
                           {unread}};

    const auto import = store.importStock(table, engineer, now(), ids);

    ASSERT_TRUE(import);
    EXPECT_EQ(import->imported, 0);
    EXPECT_EQ(import->bad, (QList<BadStockRow>{unread, {3, BadStockRow::Cause::KnownAlready, u"sn001"_s}}));
    EXPECT_TRUE(store.in(Custody::InStock)->empty());
}

TEST_F(LampStoreTest, ImportsNothingWhenTheDatabaseRefusesARow)
{
    const StockTable table{{{1, LampTypeId(u"hollin-30b"_s), u"SN-001"_s, Custody::InStock},
                            {2, LampTypeId(u"hollin-30b"_s), u"SN-002"_s, Custody::InVan}},
                           {}};

    const auto import = store.importStock(table, PersonId(), now(), ids);

    ASSERT_FALSE(import) << "a van without its person";
    EXPECT_EQ(import.error().kind, Error::Kind::Malformed);
    EXPECT_EQ(rows(u"SELECT count(*) AS n FROM lamp"_s), 0);
}

TEST_F(LampStoreTest, TellsWhichStayRunsInALamphouse)
{
    EXPECT_EQ(store.runningIn(lamphouse).value(), std::nullopt);
    const Fit running = fit(u"fit-1"_s, inVan(u"lamp-1"_s), 0);
    ASSERT_TRUE(store.beginFit(running, MoveId(ids.next())));
    EXPECT_EQ(store.runningIn(lamphouse).value(), running);
    clock.advance(100h);

    ASSERT_TRUE(store.endFit(removal(u"fit-1"_s, 40), to({}, Custody::Boxed)));

    EXPECT_EQ(store.runningIn(lamphouse).value(), std::nullopt);
}

TEST_F(LampStoreTest, KnowsTheMovesAndReadingsThatWereWritten)
{
    const CustodyMove move = to(LampId(u"lamp-1"_s), Custody::InVan);
    const CounterReadingId reading(u"reading-1"_s);
    EXPECT_FALSE(store.has(move.id).value());
    EXPECT_FALSE(store.has(reading).value());

    ASSERT_TRUE(store.add(lamp(u"lamp-1"_s), move));
    ASSERT_TRUE(store.addReading({reading, lamphouse, CounterHours::fromHours(5), now(), std::nullopt}));

    EXPECT_TRUE(store.has(move.id).value());
    EXPECT_TRUE(store.has(reading).value());
}

} // namespace
} // namespace coldarc::lamps
