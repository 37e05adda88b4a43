#include "ui/visit/people_here_presenter.h"

#include "tests/ui/people/people_at_work.h"
#include "tests/ui/visit/visit_at_work.h"
#include "ui/visit/bench_presenter.h"

#include <QSignalSpy>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using machine::Effect;
using test::Night;
using Crew = Night::Crew;

const QString kBens = u"four grey geese at dusk"_s;
const QString kPin = u"604193"_s;

/// A night with the key of a second person, and two people of the workspace who have not come.
class PeopleHereTest : public test::PeopleAtWork {
protected:
    void bringUp(Night& night)
    {
        work = std::make_unique<test::VisitAtWork>(night);
        enrol(u"ben"_s, u"B. Lind"_s, kBens);
        presenter = std::make_unique<PeopleHerePresenter>(work->desk());
        presenter->setTools({&ring, [this] { return everybody; }});
        presenter->open();
    }
    [[nodiscard]] const PeopleHereView& view() const { return presenter->view(); }
    [[nodiscard]] QStringList deeds() const
    {
        QStringList all;
        for (const PeopleHereView::Deed& deed : view().deeds)
            all << deed.id;
        return all;
    }
    [[nodiscard]] QString fact(const QString& label) const
    {
        for (const PeopleHereView::Fact& one : view().facts) {
            if (one.label == label)
                return one.text;
        }
        return u"(none)"_s;
    }
    void press() { presenter->done({}, {}, {}); }

    test::HeldWork held;
    SessionKeeper keeper{clock, held.behind()};
    KeyRing ring{keys, keeper, clock, held.behind(), test::kCheapGuess};
    QList<visit::PersonFacts> everybody{
        {PersonId(u"ada"_s), u"A. Okoro"_s, people::Role::Engineer, true},
        {PersonId(u"sup"_s), u"S. Tarn"_s, people::Role::Supervisor, false, false, false, true},
        {PersonId(u"eve"_s), u"E. Voss"_s, people::Role::Trainee}};
    std::unique_ptr<test::VisitAtWork> work;
    std::unique_ptr<PeopleHerePresenter> presenter;
};

TEST_F(PeopleHereTest, ShowsEveryoneWithWhereTheyAreAndWhatTheyOwe)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"open-housing"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    bringUp(night);

    PeopleHereView wanted;
    wanted.people = {
        {u"ada"_s, u"A. Okoro"_s, view().people.first().sub, u"leads"_s},
        {u"ben"_s, u"B. Lind"_s, view().people.last().sub, QString()},
    };
    wanted.chosen = u"ada"_s;
    wanted.title = u"A. Okoro"_s;
    wanted.sub = u"engineer, leads this visit"_s;
    wanted.facts = view().facts;
    wanted.deeds = {{u"passphrase"_s, u"Open the key of A. Okoro"_s, u"by passphrase"_s}};
    EXPECT_EQ(view(), wanted) << "whoever leads neither takes over nor leaves";
    const QStringList lead = view().people.first().sub.split(u'\n');
    EXPECT_EQ(lead.value(0), u"engineer, leads this visit"_s);
    EXPECT_EQ(lead.value(1), u"in the zone of Screen 1, gear on, for Screen 1"_s);
    EXPECT_TRUE(lead.value(2).startsWith(u"own lock hangs on the lock box of "))
        << lead.value(2).toStdString();
    EXPECT_EQ(lead.value(3), u"one signature missing"_s) << "the other one answered the stop";
    EXPECT_EQ(fact(u"Where"_s), u"in the zone of Screen 1"_s);
    EXPECT_EQ(fact(u"Gear"_s), u"on, for Screen 1"_s);
    EXPECT_TRUE(fact(u"Job lock"_s).startsWith(u"hung by them on "));
    EXPECT_TRUE(fact(u"Signatures"_s).endsWith(u": signed in (entry 0)"));

    presenter->choose(u"ben"_s);
    EXPECT_EQ(view().sub, u"trainee"_s);
    EXPECT_EQ(fact(u"Gear"_s), u"off"_s);
    EXPECT_EQ(fact(u"Job lock"_s), u"(none)"_s);
    EXPECT_EQ(fact(u"Key"_s), u"not opened here yet: the passphrase opens it"_s);
    EXPECT_EQ(deeds(), (QStringList{u"passphrase"_s, u"leave"_s, u"remove-lock"_s}));
}

TEST_F(PeopleHereTest, SomebodyJoinsAsTheWorkspaceKnowsThemNow)
{
    Night night;
    bringUp(night);
    presenter->beginJoining();
    EXPECT_EQ(view().newcomers.size(), 2) << "whoever is here does not join";
    EXPECT_EQ(view().newcomers.first().sub, u"supervisor; may supervise the removal of a lock"_s);
    EXPECT_EQ(view().newcomers.last().sub, u"trainee; is not authorised for the lamps of this visit today"_s);
    EXPECT_EQ(view().action.stand, ActionView::Stand::Waits);

    presenter->chooseNewcomer(u"eve"_s);
    press();
    EXPECT_EQ(view().said, QStringList{u"You are not authorised for this: somebody who is does it."_s});
    presenter->chooseNewcomer(u"sup"_s);
    EXPECT_EQ(view().action.text, u"S. Tarn joins"_s);
    press();

    ASSERT_EQ(work->state().people.size(), 2);
    EXPECT_EQ(work->state().people.last(), everybody[1]);
    EXPECT_EQ(view().title, u"S. Tarn"_s);
    EXPECT_TRUE(view().begun.isEmpty());
    presenter->beginJoining();
    everybody.clear();
    presenter->beginJoining();
    EXPECT_TRUE(view().newcomers.isEmpty());
    EXPECT_TRUE(view().noNewcomers.startsWith(u"Nobody else is in this workspace."));
    EXPECT_EQ(view().action.waits, u"Nobody else can join"_s);
}

TEST_F(PeopleHereTest, AnEngineerJoinsAndTakesOverWhereWhoeverLedIsGone)
{
    Night night;
    night.doUntil(u"isolate-lamp-supply"_s);
    bringUp(night);
    everybody.append({PersonId(u"dan"_s), u"D. Marsh"_s, people::Role::Engineer, true, true, true});
    work->desk().setPresses(PersonId(u"dan"_s));
    presenter->open();

    EXPECT_TRUE(deeds().isEmpty()) << "nothing in the name of anybody here";
    presenter->beginJoining();
    presenter->chooseNewcomer(u"sup"_s);
    press();
    EXPECT_EQ(view().said,
              QStringList{u"You are not of this visit: join first (Who is here, F10). Whoever may neither "
                          "lead nor supervise here is let in there by somebody of this visit."_s})
        << "for nobody else";
    presenter->chooseNewcomer(u"dan"_s);
    press();
    ASSERT_EQ(work->state().people.size(), 2);
    presenter->choose(u"dan"_s);
    presenter->begin(u"pass-on"_s);
    press();

    EXPECT_EQ(work->state().people[work->state().lead].id, PersonId(u"dan"_s));
}

TEST_F(PeopleHereTest, ATraineeWhoIsNotOfTheVisitIsToldWhoLetsThemIn)
{
    Night night;
    bringUp(night);
    everybody.last().mayAssist = true;
    work->desk().setPresses(PersonId(u"eve"_s));
    presenter->open();
    presenter->beginJoining();
    presenter->chooseNewcomer(u"eve"_s);
    press();
    EXPECT_EQ(view().said, QStringList{u"You may neither lead nor supervise here, so you do not join by "
                                       "yourself: somebody of this visit signs in and lets you in (Who is "
                                       "here, F10)."_s});

    work->desk().setPresses(night.ada());
    press();

    EXPECT_EQ(work->state().people.last().id, PersonId(u"eve"_s));
}

TEST_F(PeopleHereTest, AChangeOfEngineerSaysWhatHasToBeSoFirst)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    night.doUntil(u"gear-on"_s);
    bringUp(night);
    presenter->choose(u"ben"_s);
    presenter->begin(u"pass-on"_s);
    EXPECT_EQ(view().begun, u"B. Lind takes over from A. Okoro"_s);
    press();
    EXPECT_EQ(view().said, QStringList{u"Your own lock does not hang there: hang it first."_s});
    EXPECT_EQ(work->state().lead, 0);

    visit::Acted lock;
    machine::Act act;
    act.effect = Effect::LockOn;
    act.person = 1;
    act.lamphouse = 0;
    lock.act = visit::toRecord(work->state(), act);
    ASSERT_TRUE(work->desk().tell(night.ben(), lock).isKept());
    press();

    EXPECT_EQ(work->state().lead, 1);
    EXPECT_EQ(work->desk().presses(), night.ben()) << "the main action is theirs now";
    EXPECT_EQ(view().sub, u"engineer, leads this visit"_s);
    EXPECT_EQ(view().people.last().sub.split(u'\n').first(), u"engineer, passed the visit on"_s);
}

TEST_F(PeopleHereTest, WhoeverGoesHomeIsRefusedInWordsAndComesBackByJoining)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    bringUp(night);
    presenter->choose(u"ben"_s);
    presenter->begin(u"leave"_s);
    press();
    EXPECT_EQ(view().said, QStringList{u"A lock of whoever leaves still hangs on a breaker or the lock box: "
                                       "they take it off first."_s});
    ASSERT_TRUE(work->desk().seen().isHere(1));
    visit::Acted lock;
    machine::Act act;
    act.effect = Effect::LockOff;
    act.person = 1;
    act.lamphouse = 0;
    lock.act = visit::toRecord(work->state(), act);
    ASSERT_TRUE(work->desk().tell(night.ben(), lock).isKept());
    press();

    EXPECT_FALSE(work->state().isHere(1));
    EXPECT_EQ(work->entries().last().by, night.ada()) << "whoever leads says so";
    EXPECT_EQ(view().people.last().aside, u"left"_s);
    EXPECT_EQ(deeds(), (QStringList{u"passphrase"_s, u"come-back"_s}));
    BenchPresenter bench(work->desk());
    EXPECT_EQ(bench.view().people, QStringList{u"A. Okoro"_s});
    everybody.append(work->state().people[1]);
    presenter->begin(u"come-back"_s);
    EXPECT_EQ(view().action.text, u"B. Lind joins"_s);
    press();
    EXPECT_TRUE(work->state().isHere(1));
}

TEST_F(PeopleHereTest, TheLockOfSomebodyAbsentAsksForProofAndASupervisor)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    bringUp(night);
    work->desk().setPresses(night.ben());
    presenter->begin(u"remove-lock"_s);
    EXPECT_EQ(view().action.waits, u"Waits for a supervisor: they join first"_s);
    press();
    EXPECT_NE(work->state().machine.group[0].locks & machine::maskOf(0), 0);
    ASSERT_TRUE(work->desk().tell(visit::Joined{everybody[1]}).isKept());

    ASSERT_EQ(view().action.stand, ActionView::Stand::Ready);
    EXPECT_EQ(view().asks.size(), 3) << "supervisor, absence, attempts";
    EXPECT_TRUE(
        view().words.first().startsWith(u"The lock that keeps A. Okoro safe comes off without them."));
    press();
    EXPECT_EQ(view().said.size(), 1) << view().said.join(u'|').toStdString();
    presenter->done(
        {{u"supervisor"_s, {u"sup"_s}}, {u"absence"_s, {u"car gone"_s}}, {u"attempts"_s, {u" "_s}}}, {}, {});
    EXPECT_EQ(view().said, QStringList{u"A few words are missing: say why."_s});
    presenter->done({{u"supervisor"_s, {u"sup"_s}},
                     {u"absence"_s, {u"car gone"_s}},
                     {u"attempts"_s, {u"22:10, no answer"_s}}},
                    {}, {});

    EXPECT_EQ(work->state().machine.group[0].locks, machine::maskOf(1));
    const auto removed = std::get<visit::LockRemoved>(work->entries().last().body);
    EXPECT_EQ(removed.owner, night.ada());
    EXPECT_EQ(removed.attempts, u"22:10, no answer"_s);
    QStringList signers;
    for (const WantedSignature& one : work->desk().missing()) {
        if (one.meaning == u"removed-lock")
            signers << one.person.text();
    }
    EXPECT_EQ(signers, (QStringList{u"ben"_s, u"sup"_s})) << "both hands sign";
}

TEST_F(PeopleHereTest, ARefusedOwnerReadsHowTheirLockCameOffAndSaysThatTheyWereTold)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    ASSERT_TRUE(night.tell(visit::Joined{everybody[1]}));
    ASSERT_TRUE(
        night.tell(night.ben(), visit::LockRemoved{night.ada(), LamphouseId(u"lamphouse-1-main"_s),
                                                   PersonId(u"sup"_s), u"car gone"_s, u"no answer"_s}));
    bringUp(night);
    BenchPresenter bench(work->desk());
    QSignalSpy wanted(&bench, &BenchPresenter::peopleWanted);
    EXPECT_FALSE(work->desk().tell(visit::Noted{{}, u"back"_s}).isKept());
    ASSERT_FALSE(bench.view().card.acts.isEmpty());
    EXPECT_EQ(bench.view().card.acts.first().text, u"A. Okoro: your lock was taken off, read how"_s);

    bench.personAct(bench.view().card.acts.first().id);
    ASSERT_EQ(wanted.size(), 1);
    presenter->open(wanted.first().first().value<PersonId>());

    EXPECT_EQ(view().begun, u"A. Okoro, your lock was taken off while you were away"_s);
    ASSERT_EQ(view().words.size(), 4);
    EXPECT_TRUE(view().words[0].contains(u"B. Lind took it off at Screen 1, supervised by S. Tarn."));
    EXPECT_TRUE(view().words[1].endsWith(u"car gone"));
    EXPECT_TRUE(view().words[2].endsWith(u"no answer"));
    press();
    EXPECT_TRUE(work->state().removalsToTell.isEmpty());
    EXPECT_TRUE(work->desk().tell(visit::Noted{{}, u"back"_s}).isKept());
}

TEST_F(PeopleHereTest, ASecondPersonOpensTheirOwnKeyAndSetsAPin)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    bringUp(night);
    presenter->choose(u"ben"_s);
    presenter->begin(u"passphrase"_s);
    ASSERT_TRUE(view().asksSecret);
    const int emptied = view().emptied;
    presenter->done({}, u"not the passphrase"_s, {});
    EXPECT_EQ(view().action.stand, ActionView::Stand::Waits);
    EXPECT_FALSE(view().busy.isEmpty());
    held.finish();
    EXPECT_EQ(view().said, QStringList{u"That is not the passphrase."_s});
    EXPECT_GT(view().emptied, emptied);

    presenter->done({}, kBens, {});
    held.finish();

    EXPECT_EQ(ring.standOf(night.ben()), KeyRing::Stand::Open);
    EXPECT_EQ(view().begun, u"A PIN for B. Lind"_s);
    EXPECT_TRUE(view().asksTwice);
    presenter->done({}, kPin, u"604194"_s);
    EXPECT_EQ(view().again.error, u"The two differ."_s);
    presenter->done({}, kPin, kPin);
    held.finish();
    EXPECT_TRUE(view().begun.isEmpty());
    EXPECT_EQ(fact(u"Key"_s), u"open: what is asked of it is signed at once"_s);
    EXPECT_EQ(deeds(), QStringList{u"leave"_s});

    ring.lockAll();
    EXPECT_EQ(deeds(), (QStringList{u"pin"_s, u"leave"_s}));
    presenter->begin(u"pin"_s);
    presenter->done({}, u"111222"_s, {});
    held.finish();
    EXPECT_EQ(view().said, QStringList{u"That is not the PIN. 9 more tries."_s});
    presenter->done({}, kPin, {});
    held.finish();
    EXPECT_EQ(ring.standOf(night.ben()), KeyRing::Stand::Open);
    EXPECT_TRUE(view().begun.isEmpty());
}

TEST_F(PeopleHereTest, AsksNoSecretAndNothingTypedWhileSomebodyIsInside)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"lamp-out"_s);
    bringUp(night);
    presenter->choose(u"ben"_s);
    presenter->begin(u"passphrase"_s);

    EXPECT_EQ(view().action.stand, ActionView::Stand::Waits);
    EXPECT_EQ(view().action.waits, u"Waits: no secret is asked while somebody is inside"_s);
    presenter->done({}, kBens, {});
    EXPECT_FALSE(held.isHeld());
}

TEST_F(PeopleHereTest, OffersAsSupervisorWhoIsHereAndMayAndIsNeitherOwnerNorAtTheLock)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief); // ben, who presses, may supervise too
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    ASSERT_TRUE(
        night.tell(visit::Joined{{PersonId(u"eve"_s), u"E. Voss"_s, people::Role::Trainee, false, true}}));
    bringUp(night);
    work->desk().setPresses(night.ben());
    presenter->begin(u"remove-lock"_s);
    EXPECT_EQ(view().action.stand, ActionView::Stand::Waits);
    EXPECT_TRUE(view().asks.first().options.isEmpty());

    ASSERT_TRUE(work->desk().tell(visit::Joined{everybody[1]}).isKept());
    ASSERT_EQ(view().asks.first().options.size(), 1);
    EXPECT_EQ(view().asks.first().options.first().text, u"S. Tarn"_s);

    ASSERT_TRUE(work->desk().tell(PersonId(u"sup"_s), visit::Left{PersonId(u"sup"_s)}).isKept());
    EXPECT_TRUE(view().asks.first().options.isEmpty());
}

TEST_F(PeopleHereTest, TakesNoLockOffWhileSomebodyIsInside)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    night.doUntil(u"lamp-out"_s);
    ASSERT_TRUE(night.tell(visit::Joined{everybody[1]}));
    bringUp(night);
    work->desk().setPresses(night.ben());
    presenter->begin(u"remove-lock"_s);

    EXPECT_EQ(view().action.stand, ActionView::Stand::Waits);
    EXPECT_EQ(view().action.waits, u"Waits: nothing is typed while somebody is inside"_s);
}

TEST_F(PeopleHereTest, SaysNothingOfAKeyWhoseOwnerIsNotInSightAnyMore)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    bringUp(night);
    presenter->choose(u"ben"_s);
    presenter->begin(u"passphrase"_s);
    presenter->done({}, u"not the passphrase"_s, {});
    presenter->choose(u"ada"_s);
    presenter->begin(u"passphrase"_s);

    held.finish();

    EXPECT_TRUE(view().said.isEmpty());
}

TEST_F(PeopleHereTest, OpensNoKeyOfWhoeverSignedIn)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    const people::Person ada = enrol(u"ada"_s, u"A. Okoro"_s, kBens);
    bringUp(night);
    keeper.begin(ada,
                 people::Session(ada.id, people::SigningKey::generate(), clock.now(), test::kCheapGuess));
    keeper.lock(); // without a PIN it has ended

    presenter->choose(u"ada"_s);

    EXPECT_FALSE(deeds().contains(u"passphrase"_s));
}

TEST_F(PeopleHereTest, LeavesWhatWasBegunFirstAndThenThePage)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    bringUp(night);
    QSignalSpy left(presenter.get(), &PeopleHerePresenter::left);
    presenter->choose(u"ben"_s);
    presenter->begin(u"leave"_s);
    presenter->leave();
    EXPECT_TRUE(view().begun.isEmpty());
    EXPECT_EQ(left.size(), 0);
    presenter->leave();
    EXPECT_EQ(left.size(), 1);
}

// ---- An electrician -------------------------------------------------------------------------------------

TEST_F(PeopleHereTest, SaysOfAnElectricianWhetherTheyMayProveAbsenceHere)
{
    visit::PersonFacts late = Night::electrician();
    late.id = PersonId(u"lou"_s);
    late.mayProve = false;
    everybody = {Night::electrician(), late};
    Night night(u"larkmoor-teal"_s, Crew::AtElectriciansSite);
    bringUp(night);

    presenter->beginJoining();

    ASSERT_EQ(view().newcomers.size(), 2);
    EXPECT_EQ(view().newcomers.first().sub, u"electrician; may prove the absence of voltage here"_s);
    EXPECT_EQ(view().newcomers.last().sub,
              u"electrician; is not authorised to prove the absence of voltage here today"_s);
    presenter->chooseNewcomer(u"eva"_s);
    press();
    EXPECT_EQ(view().title, u"E. Brandt"_s);
}

TEST_F(PeopleHereTest, AsksTheElectriciansKeyToSignTheirProof)
{
    Night night(u"larkmoor-teal"_s, Crew::WithElectrician);
    night.doUntil(u"prove-inlet"_s);
    ASSERT_TRUE(night.doStep(
        u"prove-inlet"_s, [](QJsonObject&) {}, 0, night.eva()));

    EXPECT_EQ(wantedSignatures(night.entries, night.state).last(),
              (WantedSignature{night.entries.size() - 1, night.eva(), u"took-part"_s}));
}

} // namespace
} // namespace coldarc::ui
