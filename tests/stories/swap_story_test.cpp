#include "tests/stories/booth.h"
#include "tests/support/testing.h"

namespace coldarc::test {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using machine::Effect;
using Gate = ui::GateView::Stand;
using visit::Incident;

/// What the workspace keeps of the visit says the same as what was on the screen, and that it is over.
void expectClosed(Booth& booth, const QString& end)
{
    const visit::VisitState again = booth.readAgain();
    EXPECT_EQ(again.end, end);
    EXPECT_FALSE(again.isOpen());
    expectSame(again, booth.state());
    const auto& last = booth.lastEntry();
    ASSERT_TRUE(std::holds_alternative<visit::Closed>(last.body));
    EXPECT_EQ(std::get<visit::Closed>(last.body).end, end);
    const auto more = booth.tell(booth.night().ada(), visit::Noted{{}, u"one more thing"_s});
    EXPECT_EQ(more.no, QStringList{u"This visit is closed: only a remark can be added."_s});
    EXPECT_EQ(booth.readAgain().entries, again.entries);
}

/// Asks for a step before its turn, by its effect; nothing is kept, and the words are given.
QString refusedWords(Booth& booth, Effect effect)
{
    visit::Did early;
    const visit::SwapState swap = booth.state().swaps.first();
    early.swap = swap.id;
    for (const procedure::Step& step : swap.steps) {
        if (step.effect != effect)
            continue;
        early.step = step.id;
        early.answers = booth.night().answersFor(swap, step);
        break;
    }
    const qsizetype before = booth.entries();
    const auto told = booth.tell(booth.state().people[booth.state().lead].id, early);
    EXPECT_FALSE(told.isKept());
    EXPECT_EQ(booth.entries(), before);
    return told.no.join(u' ');
}

TEST(SwapStory, AnEngineerAloneSwapsALampAndTheSiteSignsForIt)
{
    Booth booth;
    booth.goTo(Effect::TellBefore);
    EXPECT_EQ(booth.gate(u"Matched"_s).words, u"1 of 2, waits: own marking"_s);
    EXPECT_EQ(refusedWords(booth, Effect::ExposeLamp),
              u"Another step comes first: %1."_s.arg(booth.titleOf(Effect::TellBefore)));

    booth.goTo(Effect::LampOff);
    booth.press();
    EXPECT_EQ(booth.title(), u"Hold for Cold, air running"_s);
    EXPECT_EQ(booth.gate(u"Cold"_s).stand, Gate::Waits);
    const qsizetype whileHot = booth.entries();
    booth.press(); // nothing comes of it
    EXPECT_EQ(booth.entries(), whileHot);
    booth.hold();
    EXPECT_EQ(booth.gate(u"Cold"_s).stand, Gate::Proved);
    EXPECT_EQ(booth.title(), booth.titleOf(Effect::Standby));

    booth.goTo(Effect::TryStart);
    EXPECT_EQ(booth.gate(u"Dead"_s).words, u"0 of 2, waits: start tried"_s);
    booth.press();
    EXPECT_EQ(booth.gate(u"Dead"_s).stand, Gate::Half);
    booth.goTo(Effect::ExposeLamp);
    for (const QString& gate : {u"Cold"_s, u"Dead"_s, u"Geared"_s})
        EXPECT_EQ(booth.gate(gate).stand, Gate::Proved) << gate.toStdString();
    EXPECT_EQ(booth.bench().makeSafeEnd, u"leads to: as it was, old lamp back in use"_s);
    booth.goTo(Effect::Unbox);
    EXPECT_EQ(booth.bench().makeSafeEnd, u"leads to: out of use, locked and tagged"_s);
    booth.goTo(Effect::Strike);
    EXPECT_EQ(booth.gate(u"Matched"_s).stand, Gate::Proved);
    EXPECT_EQ(booth.gate(u"Dead"_s).stand, Gate::Waits); // it is live again
    booth.goToTheEnd();

    EXPECT_EQ(booth.signAndClose(), QStringList());
    ASSERT_EQ(booth.signOffPage().lines.size(), 2);
    EXPECT_EQ(booth.signOffPage().lines[0].meaning, u"did and led the work"_s);
    EXPECT_EQ(booth.signOffPage().lines[1].name, u"C. Moor"_s);
    EXPECT_EQ(booth.signOffPage().lines[1].meaning, u"was told what was done, for the site"_s);
    EXPECT_EQ(booth.lamphouse().heat, machine::Heat::Lit);
    EXPECT_EQ(booth.lamphouse().lamp, booth.state().swaps[0].newLamp);
    expectClosed(booth, u"done"_s);
}

TEST(SwapStory, TheBoxHoldsAnotherLampSoTheOldOneStaysLitAndTheEngineerGoesHome)
{
    Booth booth;
    booth.goTo(Effect::MatchBox);
    booth.bookIn(u"HVQ30-408"_s); // the box label, of another type
    EXPECT_TRUE(booth.isAt(Effect::MatchBox));
    ASSERT_FALSE(booth.bookInCard().waits.isEmpty());
    EXPECT_TRUE(booth.bookInCard().waits.first().contains(u"box label"_s, Qt::CaseInsensitive))
        << booth.bookInCard().waits.first().toStdString();

    booth.report(Incident::WrongLamp, {{u"lamp"_s, u"new-1"_s}});
    booth.makeSafe();
    booth.followToSafety();
    booth.answerIncidents();

    EXPECT_EQ(booth.lamphouse().heat, machine::Heat::Lit); // nobody touched it
    EXPECT_EQ(booth.signAndClose(), QStringList());
    EXPECT_EQ(booth.state().machine.lamp[booth.state().swaps[0].newLamp].place, machine::Place::SealedBox);
    expectClosed(booth, u"as-it-was"_s);
}

TEST(SwapStory, ThePowerFailsWhileTheLampIsHotAndTheLongerWaitBeginsAnew)
{
    Booth booth;
    booth.goTo(Effect::LampOff);
    booth.press();
    booth.clock().advance(8min); // of the 12 that the model asks with the fan

    const QString feed = booth.state().ground->points.first().text();
    booth.report(Incident::FanOrPower, {{u"place"_s, feed}});

    EXPECT_EQ(booth.title(), u"Hold for Cold, without the fan"_s);
    ASSERT_TRUE(booth.bench().card.wait);
    EXPECT_EQ(booth.bench().card.wait->number, u"45:00"_s); // the model's unforced wait, from now
    booth.clock().advance(44min);
    EXPECT_EQ(booth.gate(u"Cold"_s).stand, Gate::Waits);
    booth.hold();
    EXPECT_EQ(booth.gate(u"Cold"_s).stand, Gate::Proved);
    booth.goToTheEnd();
    EXPECT_EQ(booth.signAndClose(),
              QStringList{u"Something that went wrong is not answered yet: say what was done about it."_s});
    booth.answerIncidents();
    EXPECT_EQ(booth.signAndClose(), QStringList());
    expectClosed(booth, u"done"_s);
}

TEST(SwapStory, TheFanStopsWhileTheLampBurnsAndNothingWaitsBeforeTheLampIsOut)
{
    Booth booth;
    booth.goTo(Effect::LampOff);

    booth.report(Incident::FanOrPower, {{u"place"_s, u"fan:"_s}});

    EXPECT_TRUE(booth.isAt(Effect::LampOff)); // it still burns
    EXPECT_EQ(booth.bench().machine.fan, ui::MachineView::Run::Unknown);
    booth.clock().advance(46min);
    EXPECT_EQ(booth.gate(u"Cold"_s).stand, Gate::Waits);
    booth.report(
        Incident::FanOrPower,
        {{u"place"_s, u"fan:"_s}, {u"lit-"_s + booth.state().ground->lamphouses.first().text(), u"out:"_s}});
    EXPECT_EQ(booth.title(), u"Hold for Cold, without the fan"_s);
    ASSERT_TRUE(booth.bench().card.wait);
    EXPECT_EQ(booth.bench().card.wait->number, u"45:00"_s);
}

TEST(SwapStory, TheLaptopSleepsDuringTheCoolDownAndOnlyWhatWasWitnessedCounts)
{
    Booth booth;
    booth.goTo(Effect::LampOff);
    booth.press();
    booth.clock().advance(2min);
    booth.clock().sleep(30min);
    booth.restart();

    EXPECT_EQ(booth.title(), u"Did the fan run on?"_s);
    EXPECT_EQ(booth.gate(u"Cold"_s).stand, Gate::Waits);
    booth.press({{u"fan"_s, u"unknown"_s}});
    EXPECT_EQ(booth.title(), u"Has the lamp been out all the time?"_s);
    booth.press({{u"locks"_s, u"as-before"_s}});
    EXPECT_EQ(booth.title(), u"Hold for Cold, without the fan"_s);
    EXPECT_EQ(booth.bench().card.wait->number, u"44:40"_s) << "since it was said of the fan";

    booth.goToTheEnd();
    EXPECT_EQ(booth.signAndClose(), QStringList());
    expectClosed(booth, u"done"_s);
}

TEST(SwapStory, TwoSwapsShareOneEveningAndTheirWaitsRunSideBySide)
{
    Booth booth(u"larkmoor-teal"_s, Night::Crew::Alone, 2);
    booth.goTo(Effect::LampOff);
    booth.press();
    booth.choose(1);
    booth.goTo(Effect::LampOff);
    booth.press();
    EXPECT_EQ(booth.title(), u"Hold for Cold, air running"_s);
    booth.hold(); // the second one's twelve minutes are the first one's too

    EXPECT_EQ(booth.title(), booth.titleOf(Effect::Standby, 1));
    booth.choose(0);
    EXPECT_EQ(booth.title(), booth.titleOf(Effect::Standby, 0));
    EXPECT_EQ(booth.bench().swaps.size(), 2);

    booth.goToTheEnd();
    booth.choose(1);
    EXPECT_TRUE(booth.isAt(Effect::Standby, 1)); // nothing was done here meanwhile
    booth.goToTheEnd();
    EXPECT_EQ(booth.signAndClose(), QStringList());
    for (const int screen : {0, 1})
        EXPECT_EQ(booth.lamphouse(screen).lamp, booth.state().swaps[screen].newLamp);
    expectClosed(booth, u"done"_s);
}

TEST(SwapStory, TimeRunsOutBeforeAnythingIsOpenSoItStaysAsItWas)
{
    Booth booth;
    booth.goTo(Effect::Relieve);
    EXPECT_EQ(booth.bench().makeSafeEnd, u"leads to: as it was, old lamp back in use"_s);

    booth.makeSafe();
    const QStringList way = booth.followToSafety();

    EXPECT_TRUE(way.contains(u"Take off your own lock"_s)) << way.join(u" | "_s).toStdString();
    EXPECT_EQ(refusedWords(booth, Effect::TryStart),
              u"The visit is being made safe: the swap goes no further."_s);
    EXPECT_EQ(booth.state().machine.group[0].locks, 0);
    EXPECT_EQ(booth.lamphouse().lamp, booth.state().swaps[0].oldLamp);
    EXPECT_EQ(booth.signAndClose(), QStringList());
    expectClosed(booth, u"as-it-was"_s);
}

TEST(SwapStory, TimeRunsOutWithTheNewLampLitSoItStaysAsItIsAndTheRestIsOwed)
{
    Booth booth;
    booth.goTo(Effect::Peak);

    booth.makeSafe();
    booth.followToSafety();

    EXPECT_EQ(booth.lamphouse().heat, machine::Heat::Lit);
    EXPECT_EQ(booth.lamphouse().lamp, booth.state().swaps[0].newLamp);
    EXPECT_EQ(booth.signAndClose(), QStringList());
    expectClosed(booth, u"as-it-is"_s);
}

TEST(SwapStory, TimeRunsOutWithTheOldLampBoxedSoItStaysShutLockedAndTagged)
{
    Booth booth;
    booth.goTo(Effect::Unbox);

    booth.makeSafe();
    const QStringList way = booth.followToSafety();

    ASSERT_FALSE(way.isEmpty());
    EXPECT_EQ(way.last(2), (QStringList{u"Hang the tag: out of use"_s, u"Take off your gear"_s}));
    EXPECT_TRUE(booth.lamphouse().tagged);
    EXPECT_FALSE(booth.lamphouse().guardOpen);
    EXPECT_NE(booth.state().machine.group[0].locks, 0); // the own lock stays
    EXPECT_EQ(booth.signAndClose(), QStringList());
    expectClosed(booth, u"out-of-use"_s);
}

TEST(SwapStory, SomeoneIsHurtSoNothingIsLitNoLockComesOffAndNobodyIsWaitedFor)
{
    Booth booth;
    booth.goTo(Effect::LampOut);
    const auto locks = booth.state().machine.group[0].locks;

    booth.report(Incident::SomeoneHurt, {{u"person"_s, u"ada"_s}});

    EXPECT_EQ(booth.bench().makeSafeEnd, u"leads to: out of use, locked and tagged"_s);
    EXPECT_EQ(refusedWords(booth, Effect::LampOut),
              u"The visit is being made safe: the swap goes no further."_s);
    const auto off = booth.tell(booth.night().ada(), [&] {
        visit::Acted acted;
        acted.act.effect = Effect::LockOff;
        acted.act.person = booth.night().ada();
        acted.act.lamphouse = booth.state().ground->lamphouses[0];
        return acted;
    }());
    ASSERT_FALSE(off.no.isEmpty());
    EXPECT_EQ(off.no.first(), u"Somebody was hurt: nothing is lit and no lock comes off in this visit."_s);
    EXPECT_EQ(booth.state().machine.group[0].locks, locks);
    const auto closed = booth.tell(booth.night().ada(), visit::Closed{}); // without a signature of anybody
    EXPECT_TRUE(closed.isKept()) << closed.no.join(u' ').toStdString();
    EXPECT_NE(booth.lamphouse().heat, machine::Heat::Lit);
    EXPECT_EQ(booth.state().machine.group[0].locks, locks);
    expectClosed(booth, u"out-of-use"_s);
}

TEST(SwapStory, TheEngineerPassesTheVisitOnAndTheOtherOneProvesItDeadAnew)
{
    Booth booth(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    const PersonId ada = booth.night().ada();
    const PersonId ben = booth.night().ben();
    booth.goTo(Effect::GearOn);
    EXPECT_EQ(booth.gate(u"Dead"_s).stand, Gate::Proved);
    const auto lockAct = [&](Effect effect, const PersonId& person) {
        visit::Acted acted;
        acted.act.effect = effect;
        acted.act.person = person;
        acted.act.lamphouse = booth.state().ground->lamphouses[0];
        return booth.tell(person, acted);
    };

    EXPECT_EQ(booth.tell(ben, visit::PassedOn{ada, ben}).no,
              QStringList{u"Your own lock does not hang there: hang it first."_s});
    ASSERT_TRUE(lockAct(Effect::LockOn, ben).isKept());
    const auto passed = booth.tell(ben, visit::PassedOn{ada, ben});
    ASSERT_TRUE(passed.isKept()) << passed.no.join(u' ').toStdString();
    ASSERT_TRUE(lockAct(Effect::LockOff, ada).isKept());
    booth.sit(ben);

    EXPECT_EQ(booth.gate(u"Cold"_s).stand, Gate::Proved); // heat asks for nobody's name
    EXPECT_NE(booth.gate(u"Dead"_s).stand, Gate::Proved);
    EXPECT_EQ(booth.title(), booth.titleOf(Effect::TryStart));
    booth.goToTheEnd();
    EXPECT_EQ(booth.signAndClose(), QStringList());
    EXPECT_EQ(booth.signOffPage().lines.first().name, u"B. Lind"_s);
    EXPECT_EQ(booth.state().lead, booth.state().person(ben));
    expectClosed(booth, u"done"_s);
}

QStringList actsOf(const Booth& booth)
{
    QStringList texts;
    for (const ui::PersonAct& act : booth.bench().card.acts)
        texts.append(act.text);
    return texts;
}

TEST(SwapStory, AtASiteThatAsksForAnElectricianOneComesLaterAndProvesAbsenceByTheirOwnHand)
{
    Booth booth(u"larkmoor-teal"_s, Night::Crew::AtElectriciansSite);
    const PersonId eva = booth.night().eva();
    const auto own = [&](Effect effect) {
        return u"own:%1:%2"_s.arg(eva.text()).arg(static_cast<int>(effect));
    };
    booth.goTo(Effect::ProveAbsence);
    EXPECT_EQ(booth.bench().card.action.waits, u"Waits: an electrician, F10"_s);
    EXPECT_EQ(
        booth.bench().card.sub,
        u"This site lets only an electrician prove the absence of voltage, and none is here: one who is "
        "authorised to joins first (Who is here, F10)."_s);
    EXPECT_EQ(refusedWords(booth, Effect::ProveAbsence), booth.bench().card.sub);

    ASSERT_TRUE(booth.tell(booth.night().ada(), visit::Joined{Night::electrician()}).isKept());
    EXPECT_EQ(booth.bench().card.action.waits, u"Waits: E. Brandt"_s);
    EXPECT_EQ(booth.bench().card.sub,
              u"At this site you do not prove the absence of voltage: E. Brandt does, by their own press."_s);
    EXPECT_EQ(actsOf(booth).first(), u"E. Brandt: proved, these are my readings"_s);
    EXPECT_EQ(booth.bench().card.acts.first().key, u"F5"_s);
    booth.press(); // presses that row
    EXPECT_EQ(booth.lastEntry().by, eva);
    EXPECT_EQ(booth.gate(u"Dead"_s).stand, Gate::Proved);

    booth.goTo(Effect::ExposeLamp); // behind the guard are more terminals
    booth.press();
    ASSERT_TRUE(booth.isAt(Effect::ProveAbsence));
    EXPECT_FALSE(actsOf(booth).contains(u"E. Brandt: proved, these are my readings"_s))
        << "not from outside the zone";
    booth.pressAct(own(Effect::LockOn));
    booth.pressAct(own(Effect::GearOn));
    EXPECT_EQ(booth.title(), u"Gear of E. Brandt"_s);
    booth.press();
    booth.pressAct(own(Effect::EnterZone));
    booth.press();
    EXPECT_EQ(booth.lastEntry().by, eva);
    EXPECT_FALSE(booth.isAt(Effect::ProveAbsence)) << booth.bench().card.sub.toStdString();
    EXPECT_TRUE(booth.lamphouse().absentBehind);
    booth.pressAct(own(Effect::LeaveZone));

    booth.goTo(Effect::GearOff);
    booth.pressAct(own(Effect::GearOff));
    booth.pressAct(own(Effect::LockOff));
    booth.goToTheEnd();

    EXPECT_EQ(booth.signAndClose(), QStringList());
    ASSERT_EQ(booth.signOffPage().lines.size(), 3);
    EXPECT_EQ(booth.signOffPage().lines[1].name, u"E. Brandt"_s);
    EXPECT_EQ(booth.signOffPage().lines[1].meaning, u"took part in the work"_s);
    expectClosed(booth, u"done"_s);
}

} // namespace
} // namespace coldarc::test
