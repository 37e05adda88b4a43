#include "core/visit/settlement.h"

#include "core/visit/unit.h"
#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using lamps::CounterHours;
using lamps::Custody;
using procedure::Means;

// All lamps, persons and places are invented.

const LamphouseId kLamphouse{u"lamphouse-1-main"_s};

/// Does the step whose turn it is with one answer chosen by what it means.
void answer(Night& night, const QString& step, const QString& capture, Means means, int swap = 0)
{
    night.doUntil(step, swap);
    for (const procedure::Choice& choice : night.swap(swap).step(StepId(step))->capture(capture)->choices) {
        if (choice.means == means) {
            ASSERT_TRUE(night.doStep(
                step, [&](QJsonObject& answers) { answers[capture] = choice.text; }, swap));
            return;
        }
    }
    FAIL() << "no such answer";
}

/// The lamp is off and the seat stands empty.
void findEmpty(Night& night)
{
    night.doUntil(u"find"_s);
    const procedure::Step step = *night.swap().step(StepId(u"find"_s));
    const auto textOf = [&](const QString& capture, Means means) {
        const QList<procedure::Choice> choices = step.capture(capture)->choices;
        return std::ranges::find(choices, means, &procedure::Choice::means)->text;
    };
    ASSERT_TRUE(night.doStep(u"find"_s, [&](QJsonObject& answers) {
        answers[u"lamp"_s] = textOf(u"lamp"_s, Means::Off);
        answers[u"seat"_s] = textOf(u"seat"_s, Means::Empty);
    }));
}

/// Does the step whose turn it is with these hours on the counter.
void count(Night& night, const QString& step, const QString& hours, int swap = 0)
{
    night.doUntil(step, swap);
    ASSERT_TRUE(night.doStep(
        step, [&](QJsonObject& answers) { answers[u"hours"_s] = hours; }, swap));
}

/// As on `model`, with one place of its procedure's text changed.
Opening openingWith(const QString& model, const QByteArray& before, const QByteArray& after)
{
    Opening opening = Night(model).opening();
    const auto text = std::ranges::find(opening.texts, Text::Kind::Procedure, &Text::kind);
    EXPECT_EQ(text->bytes.count(before), 1);
    text->bytes.replace(before, after);
    return opening;
}

/// Writes an act that hands did, whoever would have let it pass: what is written is told.
void write(Night& night, machine::Effect effect, machine::Index lamp)
{
    machine::Act act;
    act.effect = effect;
    act.person = 0;
    act.lamphouse = 0;
    act.lamp = lamp;
    Acted acted;
    acted.act = toRecord(night.state, act);
    night.entries.append({night.clock.now(), night.ada(), acted});
}

/// The whole swap: 1980 h on arrival, 0 h read back.
void doWhole(Night& night, int swap = 0)
{
    count(night, u"read-counters"_s, u"1980"_s, swap);
    count(night, u"key-controller"_s, u"0"_s, swap);
}

Happened burst(const QString& lamp)
{
    Happened happened;
    happened.incident = Incident::Burst;
    happened.lamp = LampId(lamp);
    return happened;
}

/// When the last entry with this act was written; the number of that entry.
qint64 entryOf(const Night& night, machine::Effect effect)
{
    qint64 found = -1;
    for (qsizetype index = 0; index < night.entries.size(); ++index) {
        const auto* did = std::get_if<Did>(&night.entries[index].body);
        if (did && did->act && did->act->effect == effect)
            found = index;
    }
    return found;
}

WallTime momentOf(const Night& night, machine::Effect effect)
{
    return night.entries[entryOf(night, effect)].at.wall;
}

Settlement settled(const Night& night)
{
    const auto settlement = settlementOf(night.entries);
    EXPECT_TRUE(settlement);
    return settlement.value_or(Settlement());
}

/// What comes after the one deed or hand that a test is about would be a surprise.
template<class Deed>
Deed deedOf(const Settlement& settlement, std::size_t index)
{
    if (settlement.seats.size() != 1 || settlement.seats.front().deeds.size() <= index ||
        !std::holds_alternative<Deed>(settlement.seats.front().deeds[index])) {
        ADD_FAILURE() << "no such deed";
        return {};
    }
    return std::get<Deed>(settlement.seats.front().deeds[index]);
}

QStringList handsOf(const Settlement& settlement)
{
    QStringList hands;
    for (const SeatSettlement& seat : settlement.seats) {
        for (const Handed& handed : seat.handed)
            hands << handed.move.lamp.text() + u' ' + lamps::wordOf(handed.move.custody) +
                         (handed.later ? u", later "_s + lamps::wordOf(*handed.later) : QString());
    }
    return hands;
}

TEST(SettlementTest, IsOfNoVisitThatIsOpen)
{
    Night night;
    night.doUntil(u"sign"_s);

    EXPECT_FALSE(settlementOf(night.entries));
}

TEST(SettlementTest, IsOfNoVisitThatItDoesNotUnderstand)
{
    Night night;
    night.doAll();
    night.close();
    QList<Entry> stranger = night.entries;
    stranger.insert(5, {stranger[4].at, stranger[4].by, Unknown{u"levitated"_s}});

    EXPECT_FALSE(settlementOf(stranger));
}

TEST(SettlementTest, CaresForNothingThatIsAddedAfterTheEnd)
{
    Night night;
    night.doAll();
    night.close();
    const Settlement before = settled(night);
    ASSERT_TRUE(night.tell(Addendum{u"the box was marked again"_s}));
    night.entries.append({night.clock.now(), night.ada(), Unknown{u"levitated"_s}});

    EXPECT_EQ(settled(night), before);
}

TEST(SettlementTest, TakesTheOldLampOutAndPutsTheNewOneInAtTheMomentsOfTheirEntries)
{
    Night night;
    doWhole(night);
    night.doAll();
    night.close();

    const Settlement settlement = settled(night);

    ASSERT_EQ(settlement.seats.size(), 1u);
    EXPECT_EQ(settlement.seats.front().lamphouse, kLamphouse);
    EXPECT_EQ(settlement.seats.front().deeds.size(), 2u);
    const auto ended = deedOf<StayEnded>(settlement, 0);
    EXPECT_EQ(ended.lamp.id, LampId(u"old-1-main"_s));
    EXPECT_EQ(ended.counterOut, CounterHours::fromHours(1980)); // as on arrival
    EXPECT_EQ(ended.cause, lamps::Cause::EndOfLife);            // "Hours reached" stands first
    EXPECT_EQ(ended.move.custody, Custody::Boxed);
    EXPECT_TRUE(ended.move.site.isEmpty());    // into the van, to be returned
    EXPECT_EQ(ended.move.holder, night.ada()); // it is with us until it is given away
    EXPECT_EQ(ended.move.at, momentOf(night, machine::Effect::LampOut));
    const auto began = deedOf<StayBegan>(settlement, 1);
    EXPECT_EQ(began.lamp.id, LampId(u"new-1"_s));
    EXPECT_EQ(began.fit.lamphouse, kLamphouse);
    EXPECT_EQ(began.fit.counterIn, CounterHours::fromHours(0)); // what the controller was told
    EXPECT_EQ(began.fit.from, momentOf(night, machine::Effect::LampIn));
    EXPECT_FALSE(began.fit.end);
    EXPECT_EQ(handsOf(settlement), QStringList{u"old-1-main boxed, later returned"_s});
    EXPECT_EQ(settlement.openedAt, night.entries.first().at.wall);
    EXPECT_EQ(settlement.closedAt, night.entries.last().at.wall);
}

TEST(SettlementTest, ReadsTheCounterOnArrivalAndWhenItWasKeyedIn)
{
    Night night;
    doWhole(night);
    night.doAll();
    night.close();

    const Settlement settlement = settled(night);

    ASSERT_EQ(settlement.readings.size(), 2u);
    EXPECT_EQ(settlement.readings[0].hours, CounterHours::fromHours(1980));
    EXPECT_LT(settlement.readings[0].at, momentOf(night, machine::Effect::LampOff));
    EXPECT_EQ(settlement.readings[1].hours, CounterHours::fromHours(0));
    EXPECT_EQ(settlement.readings[1].at, momentOf(night, machine::Effect::KeyController));
    EXPECT_EQ(settlement.readings[1].lamphouse, kLamphouse);
}

/// A night that was made safe with the old lamp out, its counter taken down so before such a word was
/// refused.
Night withOldCounter(const QString& typed)
{
    Night night;
    count(night, u"read-counters"_s, u"1980"_s);
    const qint64 counters = night.state.entries - 1;
    night.doUntil(u"dust"_s);
    night.makeSafe();
    night.close();
    std::get<Did>(night.entries[counters].body).answers[u"hours"_s] = typed;
    return night;
}

TEST(SettlementTest, ReadsTheCounterOfAnOlderNightAsItWasReadThen)
{
    EXPECT_EQ(settled(withOldCounter(u"1.980"_s)).readings.front().hours.hours(), 1.98);
    EXPECT_EQ(settled(withOldCounter(u"2e3"_s)).readings.front().hours.hours(), 2000);
}

TEST(SettlementTest, TakesNoWordForACounterThatIsNoNumberOfHours)
{
    for (const QString& typed : {u"about two thousand"_s, u"1,980"_s, u"inf"_s, u"nan"_s, u"-12"_s}) {
        const Settlement settlement = settled(withOldCounter(typed));

        EXPECT_TRUE(settlement.readings.empty()) << typed.toStdString();
        EXPECT_FALSE(deedOf<StayEnded>(settlement, 0).counterOut) << typed.toStdString();
    }
}

TEST(SettlementTest, ReadsNoCounterWhoseEntryWasWithdrawn)
{
    Night night;
    count(night, u"read-counters"_s, u"1980"_s);
    ASSERT_TRUE(night.tell(Withdrawn{night.state.entries - 1, u"that was the other projector"_s}));
    night.makeSafe();
    night.close();

    EXPECT_TRUE(settled(night).readings.empty());
}

TEST(SettlementTest, ReadsHoursOfACounterOnly)
{
    Night night(openingWith(u"larkmoor-teal"_s,
                            R"("id": "hours", "kind": "counter", "label": "Lamp hours shown")",
                            R"("id": "hours", "kind": "number", "label": "Hours of work today")"));
    count(night, u"read-counters"_s, u"3"_s);
    night.makeSafe();
    night.close();

    EXPECT_TRUE(settled(night).readings.empty());
}

TEST(SettlementTest, TellsACounterOfTheOtherLamphouseAsThatOnes)
{
    Night night(openingWith(u"quillhaven-pair"_s,
                            R"({"id": "type", "kind": "type", "label": "Type read back"},
        {
          "id": "agrees",
          "kind": "choice",
          "label": "Read back against the label of that lamphouse",)",
                            R"({"id": "type", "kind": "type", "label": "Type read back"},
        {"id": "hours", "kind": "counter", "label": "Hours of that lamp", "unit": "h"},
        {
          "id": "agrees",
          "kind": "choice",
          "label": "Read back against the label of that lamphouse",)"));
    doWhole(night);
    count(night, u"key-controller-other"_s, u"777"_s);
    night.doAll();
    night.close();

    const Settlement settlement = settled(night);

    const auto readingsOf = [&](const LamphouseId& lamphouse) {
        std::vector<CounterHours> hours;
        for (const lamps::CounterReading& reading : settlement.readings) {
            if (reading.lamphouse == lamphouse)
                hours.push_back(reading.hours);
        }
        return hours;
    };
    const QList<LamphouseId>& lamphouses = night.state.ground->lamphouses;
    EXPECT_EQ(readingsOf(lamphouses[0]),
              (std::vector{CounterHours::fromHours(1980), CounterHours::fromHours(0)}));
    EXPECT_EQ(readingsOf(lamphouses[1]),
              (std::vector{CounterHours::fromHours(900), CounterHours::fromHours(777)}));
}

/// The lamps that began a stay, by lamphouse.
QList<LampFacts> wentIn(const Settlement& settlement)
{
    QList<LampFacts> lamps;
    for (const SeatSettlement& seat : settlement.seats) {
        for (const SeatDeed& deed : seat.deeds) {
            if (const auto* began = std::get_if<StayBegan>(&deed)) {
                EXPECT_EQ(began->fit.lamp, began->lamp.id);
                lamps.append(began->lamp);
            }
        }
    }
    return lamps;
}

TEST(SettlementTest, TellsTheLampsOfTwoSwapsAsTheyWereReadThoughTheirBoxesWereExchanged)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    night.takenFromTheVan = {{0, u"NEW000002"_s}, {1, u"new 000001"_s}};
    doWhole(night, 0);
    doWhole(night, 1);
    for (const int swap : {0, 1})
        night.doUntil(u"sign"_s, swap);
    for (const int swap : {0, 1})
        night.doAll(swap);
    night.close();

    const QList<LampFacts> lamps = wentIn(settled(night));

    ASSERT_EQ(lamps.size(), 2);
    EXPECT_EQ(lamps[0], night.opening().swaps[1].newLamp);
    EXPECT_EQ(lamps[1], night.opening().swaps[0].newLamp);
}

TEST(SettlementTest, TellsALampThatNobodyPlannedAsOneOfItsOwn)
{
    Night night;
    night.takenFromTheVan = {{0, u"VAN000077"_s}};
    doWhole(night);
    night.doAll();
    night.close();

    const Settlement settlement = settled(night);

    const QList<LampFacts> lamps = wentIn(settlement);
    ASSERT_EQ(lamps.size(), 1);
    EXPECT_EQ(lamps[0], (LampFacts{LampId(u"visit-1/new-1"_s), night.opening().swaps[0].newLamp.type,
                                   u"VAN000077"_s, 0.0}));
}

TEST(SettlementTest, TellsALampThatWasPlannedWithoutASerialByTheOneThatWasRead)
{
    Opening opening = Night().opening();
    opening.swaps[0].newLamp.serial.clear();
    Night night(opening);
    night.takenFromTheVan = {{0, u"VAN000077"_s}};
    doWhole(night);
    night.doAll();
    night.close();

    const QList<LampFacts> lamps = wentIn(settled(night));

    ASSERT_EQ(lamps.size(), 1);
    EXPECT_EQ(lamps[0].id, LampId(u"new-1"_s));
    EXPECT_EQ(lamps[0].serial, u"VAN000077"_s);
}

TEST(SettlementTest, HoldsToThePlannedLampWhileItsBoxIsShut)
{
    Night night;
    night.takenFromTheVan = {{0, u"VAN000077"_s}};
    night.doUntil(u"lay-out-kit"_s); // the box was matched
    const machine::Index lamp = night.swap().newLamp;

    EXPECT_EQ(unitOf(night.state, lamp).serial, u"NEW000001"_s);
    night.doUntil(u"lamp-in"_s);
    EXPECT_EQ(unitOf(night.state, lamp).serial, u"VAN000077"_s);
}

TEST(SettlementTest, MakesEveryIdOfTheVisitAndTheEntrySoThatTwiceIsTheSame)
{
    Night night;
    doWhole(night);
    night.doAll();
    night.close();

    const Settlement settlement = settled(night);

    EXPECT_EQ(settlement, settled(night));
    const QString entry = QString::number(entryOf(night, machine::Effect::LampIn));
    EXPECT_EQ(deedOf<StayBegan>(settlement, 1).fit.id, lamps::FitId(u"visit-1/%1/fit"_s.arg(entry)));
    EXPECT_EQ(deedOf<StayBegan>(settlement, 1).move, lamps::MoveId(u"visit-1/%1/in"_s.arg(entry)));
}

TEST(SettlementTest, LeavesTheOldLampInWhereTheVisitEndsAsItWas)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    night.makeSafe();
    ASSERT_TRUE(night.tell(CustodyDecided{LampId(u"new-1"_s), u"unused"_s}));
    night.close();
    ASSERT_EQ(night.state.end, u"as-it-was"_s);

    const Settlement settlement = settled(night);

    ASSERT_EQ(settlement.seats.size(), 1u);
    EXPECT_TRUE(settlement.seats.front().deeds.empty());
    // It was brought and not needed, and rides home in the van of whoever led.
    EXPECT_EQ(handsOf(settlement), (QStringList{u"new-1 unused"_s, u"new-1 in-van"_s}));
    EXPECT_EQ(settlement.seats.front().handed.back().move.holder, night.ada());
    EXPECT_TRUE(settlement.seats.front().handed.back().move.site.isEmpty()); // a van is at no site
    EXPECT_EQ(settlement.readings.size(), 1u);                               // on arrival
}

TEST(SettlementTest, LetsAStayRunOnWhereTheLampWentBackIntoItsSeat)
{
    Night night;
    night.doUntil(u"box-old"_s); // it is in the hand
    write(night, machine::Effect::LampIn, night.swap().oldLamp);
    night.entries.append({night.clock.now(), night.ada(), Closed{u"as-it-is"_s}});

    EXPECT_TRUE(settled(night).seats.empty());
    night.entries.removeAt(night.entries.size() - 2);
    EXPECT_EQ(settled(night).seats.front().deeds.size(), 1u); // without it the lamp is out
}

/// The new one will not light, and the old one goes back in for the night; then out again after all.
TEST(SettlementTest, TellsEachStayOfALampThatComesBackAfterAnother)
{
    Night night;
    doWhole(night);
    const machine::Index oldLamp = night.swap().oldLamp;
    const machine::Index newLamp = night.swap().newLamp;
    write(night, machine::Effect::LampOut, newLamp);
    write(night, machine::Effect::LampIn, oldLamp);
    write(night, machine::Effect::LampOut, oldLamp);
    night.entries.append({night.clock.now(), night.ada(), Closed{u"out-of-use"_s}});

    const Settlement settlement = settled(night);

    EXPECT_EQ(deedOf<StayEnded>(settlement, 0).cause, lamps::Cause::EndOfLife);
    EXPECT_EQ(deedOf<StayEnded>(settlement, 2).lamp.id, LampId(u"new-1"_s));
    const auto again = deedOf<StayBegan>(settlement, 3);
    EXPECT_EQ(again.lamp.id, LampId(u"old-1-main"_s));
    EXPECT_EQ(again.fit.counterIn, CounterHours::fromHours(0)); // as it was keyed in, not as on arrival
    EXPECT_EQ(deedOf<StayEnded>(settlement, 4).cause, lamps::Cause::Other); // nobody said why this time
}

TEST(SettlementTest, PutsANewLampThatCameOutAgainBackIntoTheVan)
{
    Night night;
    doWhole(night);
    write(night, machine::Effect::LampOut, night.swap().newLamp);
    night.entries.append({night.clock.now(), night.ada(), CustodyDecided{LampId(u"new-1"_s), u"in-van"_s}});
    night.entries.append({night.clock.now(), night.ada(), Closed{u"out-of-use"_s}});

    EXPECT_TRUE(handsOf(settled(night)).contains(u"new-1 in-van"_s));
}

TEST(SettlementTest, EmptiesASeatThatIsLeftOutOfUse)
{
    Night night;
    count(night, u"read-counters"_s, u"1980"_s);
    night.doUntil(u"dust"_s);
    night.makeSafe();
    night.close();
    ASSERT_EQ(night.state.end, u"out-of-use"_s);

    const Settlement settlement = settled(night);

    const auto ended = deedOf<StayEnded>(settlement, 0);
    EXPECT_EQ(settlement.seats.front().deeds.size(), 1u);
    EXPECT_EQ(ended.counterOut, CounterHours::fromHours(1980)); // nothing was booked in
    EXPECT_EQ(ended.cause, lamps::Cause::Other);                // and nobody said why
    EXPECT_EQ(handsOf(settlement), (QStringList{u"old-1-main boxed, later returned"_s, u"new-1 returned"_s}));
}

TEST(SettlementTest, KeepsAnOldLampThatGoesAlongWithUsUntilSomebodyHandsItOver)
{
    for (const Means to : {Means::Returned, Means::Recycled, Means::KeptBySite}) {
        Night night;
        night.doUntil(u"old-lamp-goes"_s);
        answer(night, u"old-lamp-goes"_s, u"custody"_s, to);
        night.doAll();
        night.close();

        const Settlement settlement = settled(night);

        const bool goesAlong = to != Means::KeptBySite;
        EXPECT_EQ(deedOf<StayEnded>(settlement, 0).move.site.isEmpty(), goesAlong);
        ASSERT_EQ(settlement.seats.front().handed.size(), 1u);
        const Handed& handed = settlement.seats.front().handed.front();
        EXPECT_EQ(handed.move.custody, goesAlong ? Custody::Boxed : Custody::KeptBySite);
        EXPECT_EQ(handed.move.site.isEmpty(), goesAlong) << "a van is at no site";
        EXPECT_EQ(handed.later.has_value(), goesAlong);
    }
}

/// The van's stock would offer it for the next swap.
TEST(SettlementTest, GivesANewLampBackAtOnceThatWasInNoSeat)
{
    Night night;
    night.doUntil(u"lamp-in"_s); // both are out of their places
    night.makeSafe();
    for (const QString& lamp : {u"old-1-main"_s, u"new-1"_s})
        ASSERT_TRUE(night.tell(CustodyDecided{LampId(lamp), u"returned"_s}));
    night.close();

    EXPECT_EQ(handsOf(settled(night)),
              (QStringList{u"old-1-main boxed, later returned"_s, u"new-1 returned"_s}));
}

TEST(SettlementTest, BeginsANewLampThatWasNotKeyedInAtTheCounterAsItStood)
{
    Night night;
    count(night, u"read-counters"_s, u"1980"_s);
    night.doUntil(u"leave-zone"_s);
    night.makeSafe();
    night.close();

    const auto began = deedOf<StayBegan>(settled(night), 1);
    EXPECT_EQ(began.lamp.id, LampId(u"new-1"_s));
    EXPECT_EQ(began.fit.counterIn, CounterHours::fromHours(1980));
}

TEST(SettlementTest, EndsTheStayOfALampThatBurstInItsSeatAsBurst)
{
    Night night;
    night.doUntil(u"relieve"_s);
    ASSERT_TRUE(night.tell(burst(u"old-1-main"_s)));
    const WallTime bang = night.entries.last().at.wall;
    night.makeSafe();
    ASSERT_TRUE(night.tell(CustodyDecided{LampId(u"old-1-main"_s), u"recycled"_s}));
    night.close();

    const Settlement settlement = settled(night);

    const auto ended = deedOf<StayEnded>(settlement, 0);
    EXPECT_EQ(ended.cause, lamps::Cause::Burst);
    EXPECT_EQ(ended.move.custody, Custody::Burst);
    EXPECT_EQ(ended.move.holder, night.ada()); // so are the pieces with us
    EXPECT_EQ(ended.move.at, bang);
    EXPECT_EQ(handsOf(settlement), (QStringList{u"old-1-main recycled"_s, u"new-1 returned"_s}));
}

TEST(SettlementTest, HandsALampThatBurstInTheHandOverAsBurstAfterItCameOutWhole)
{
    Night night;
    night.doUntil(u"box-old"_s);
    ASSERT_TRUE(night.tell(burst(u"old-1-main"_s)));
    night.makeSafe();
    night.close();

    const Settlement settlement = settled(night);

    EXPECT_EQ(deedOf<StayEnded>(settlement, 0).move.custody, Custody::Boxed);
    EXPECT_EQ(handsOf(settlement),
              (QStringList{u"old-1-main burst"_s, u"old-1-main returned"_s, u"new-1 returned"_s}));
}

TEST(SettlementTest, KeepsTheShortStayOfANewLampThatBurstAtTheStrike)
{
    Night night;
    doWhole(night);
    answer(night, u"strike"_s, u"result"_s, Means::Burst);
    night.makeSafe();
    night.close();

    const Settlement settlement = settled(night);

    ASSERT_EQ(settlement.seats.front().deeds.size(), 3u);
    const auto ended = deedOf<StayEnded>(settlement, 2);
    EXPECT_EQ(ended.lamp.id, LampId(u"new-1"_s));
    EXPECT_EQ(ended.cause, lamps::Cause::Burst);
    EXPECT_EQ(ended.counterOut,
              CounterHours::fromHours(0)); // it began at what was keyed in, and burnt no hour
}

TEST(SettlementTest, EndsTheStayOfALampThatWasFoundGoneWithoutACounter)
{
    Night night;
    findEmpty(night);
    doWhole(night);
    night.doAll();
    night.close();

    const Settlement settlement = settled(night);

    const auto ended = deedOf<StayEnded>(settlement, 0);
    EXPECT_EQ(ended.lamp.id, LampId(u"old-1-main"_s));
    EXPECT_FALSE(ended.counterOut);
    EXPECT_EQ(ended.move.at, momentOf(night, machine::Effect::Find));
    EXPECT_EQ(deedOf<StayBegan>(settlement, 1).lamp.id, LampId(u"new-1"_s));
    EXPECT_TRUE(handsOf(settlement).isEmpty()); // nobody here knows where it went
}

TEST(SettlementTest, LetsTheSiteKeepALampByName)
{
    Night night;
    doWhole(night);
    answer(night, u"old-lamp-goes"_s, u"custody"_s, Means::KeptBySite);
    night.doAll();
    night.close();

    const Settlement settlement = settled(night);

    ASSERT_EQ(handsOf(settlement), QStringList{u"old-1-main kept-by-site"_s});
    const lamps::CustodyMove& move = settlement.seats.front().handed.front().move;
    EXPECT_EQ(move.site, SiteId(u"pier-street"_s));
    EXPECT_TRUE(move.holder.isEmpty());
}

TEST(SettlementTest, HandsOverNoLampThatWentInAfterAll)
{
    Night night;
    ASSERT_TRUE(night.tell(CustodyDecided{LampId(u"new-1"_s), u"unused"_s}));
    doWhole(night);
    night.doAll();
    night.close();

    EXPECT_EQ(handsOf(settled(night)), QStringList{u"old-1-main boxed, later returned"_s});
}

TEST(SettlementTest, PutsAnOldLampIntoTheVanThatTheNewOneNeverLeftByTheBook)
{
    Night night;
    night.doUntil(u"lamp-in"_s); // both are out of their places
    night.makeSafe();
    for (const QString& lamp : {u"old-1-main"_s, u"new-1"_s})
        ASSERT_TRUE(night.tell(CustodyDecided{LampId(lamp), u"in-van"_s}));
    night.close();

    EXPECT_EQ(handsOf(settled(night)), QStringList{u"old-1-main in-van"_s});
}

TEST(SettlementTest, GivesWhatComesHomeToWhoeverLedInTheEnd)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), machine::Effect::LockOn));
    ASSERT_TRUE(night.tell(night.ben(), PassedOn{night.ada(), night.ben()}));
    ASSERT_TRUE(night.doAct(night.ada(), machine::Effect::LockOff));
    night.doAll();
    night.close();

    const Settlement settlement = settled(night);

    EXPECT_EQ(settlement.lead, night.ben());
    EXPECT_EQ(deedOf<StayEnded>(settlement, 0).move.holder, night.ben());
}

TEST(SettlementTest, TellsTheCauseThatWasBookedIn)
{
    Night night;
    night.doUntil(u"book-in"_s);
    night.readMarking();
    answer(night, u"book-in"_s, u"cause"_s, Means::Flicker);
    night.doAll();
    night.close();

    EXPECT_EQ(deedOf<StayEnded>(settled(night), 0).cause, lamps::Cause::Flicker);
}

TEST(SettlementTest, TellsOfEachOldLampWhatWasSaidOfItself)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    for (const int swap : {0, 1}) {
        night.doUntil(u"book-in"_s, swap);
        night.readMarking(swap);
        answer(night, u"book-in"_s, u"cause"_s, swap == 0 ? Means::Dim : Means::Flicker, swap);
        night.doUntil(u"sign"_s, swap);
    }
    night.doAll(0);
    night.doAll(1);
    night.close();

    const Settlement settlement = settled(night);

    ASSERT_EQ(settlement.seats.size(), 2u);
    EXPECT_EQ(std::get<StayEnded>(settlement.seats[0].deeds[0]).cause, lamps::Cause::Dim);
    EXPECT_EQ(std::get<StayEnded>(settlement.seats[1].deeds[0]).cause, lamps::Cause::Flicker);
}

TEST(SettlementTest, KnowsEveryCauseThatAShippedProcedureOffers)
{
    for (const char* model : {"larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"}) {
        const auto* procedure = shippedProcedures().procedureFor(ModelId(QString::fromLatin1(model)));
        ASSERT_TRUE(procedure);
        const procedure::Capture* cause = procedure->step(StepId(u"book-in"_s))->capture(u"cause"_s);
        ASSERT_TRUE(cause) << model;
        for (const procedure::Choice& choice : cause->choices)
            EXPECT_TRUE(lamps::causeFromWord(procedure::wordOf(choice.means))) << choice.text.toStdString();
    }
}

TEST(SettlementTest, KeepsTwoSwapsOfOneVisitApart)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    count(night, u"read-counters"_s, u"1980"_s, 0);
    count(night, u"read-counters"_s, u"620"_s, 1);
    night.doUntil(u"sign"_s, 0); // every lamp of the visit is accounted for before anybody signs
    night.doAll(1);
    night.doAll(0);
    night.close();

    const Settlement settlement = settled(night);

    ASSERT_EQ(settlement.seats.size(), 2u);
    QStringList out;
    QStringList in;
    for (const SeatSettlement& seat : settlement.seats) {
        ASSERT_EQ(seat.deeds.size(), 2u);
        out << std::get<StayEnded>(seat.deeds[0]).lamp.id.text();
        in << std::get<StayBegan>(seat.deeds[1]).lamp.id.text();
        EXPECT_EQ(std::get<StayBegan>(seat.deeds[1]).fit.lamphouse, seat.lamphouse);
    }
    EXPECT_EQ(out, (QStringList{u"old-1-main"_s, u"old-2-main"_s}));
    EXPECT_EQ(in, (QStringList{u"new-1"_s, u"new-2"_s}));
    ASSERT_EQ(settlement.readings.size(), 4u);
    EXPECT_EQ(settlement.readings[2].lamphouse, LamphouseId(u"lamphouse-2-main"_s));
    EXPECT_EQ(settlement.readings[2].hours, CounterHours::fromHours(620));
}

TEST(SettlementTest, TellsNothingOfALamphouseThatNobodyLookedAt)
{
    Night night;
    night.doUntil(u"find"_s);
    ASSERT_TRUE(night.tell(Happened{Incident::SomeoneHurt, {}, {}, {}, {}, night.ada(), {}}));
    ASSERT_TRUE(night.tell(Closed{})); // nobody is waited for

    EXPECT_TRUE(settled(night).seats.empty());
}

} // namespace
} // namespace coldarc::test
