#include "ui/visit/bench_presenter.h"

#include "core/machine/reach.h"
#include "tests/ui/visit/visit_at_work.h"
#include "ui/visit/words_why.h"

#include <QSignalSpy>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using test::VisitAtWork;
using Crew = test::Night::Crew;
using Stand = ActionView::Stand;

const StepRow& rowNamed(const BenchView& view, const QString& title)
{
    for (const StepRow& row : view.steps) {
        if (row.title == title)
            return row;
    }
    static const StepRow kNone;
    ADD_FAILURE() << "no step " << title.toStdString();
    return kNone;
}

QList<CaptureAnswer> firstOfEach(const StepCard& card)
{
    QList<CaptureAnswer> answers;
    for (const CaptureView& capture : card.captures)
        answers.append({capture.id, {capture.options.isEmpty() ? u"47"_s : capture.options.first().id}});
    return answers;
}

QList<CaptureAnswer> with(QList<CaptureAnswer> answers, const QString& id, const QString& value)
{
    for (CaptureAnswer& answer : answers) {
        if (answer.id == id)
            answer.value = {value};
    }
    return answers;
}

TEST(BenchPresenterTest, TheHoldForColdIsShownWhole)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.doNext());
    VisitAtWork work(night);
    night.clock.advance(5min + 19s); // the model asks for 12 minutes with the fan

    const BenchPresenter presenter(work.desk());

    const BenchView& view = presenter.view();
    EXPECT_EQ(view.site, u"Pier Street"_s);
    EXPECT_EQ(view.people, QStringList{u"A. Okoro"_s});
    StepCard card;
    card.stepKey = u"swap-1/hold/0"_s;
    card.place = u"Screen 1"_s;
    card.counter = view.card.counter;
    card.phase = u"Cold and dead"_s;
    card.title = u"Hold for Cold, air running"_s;
    card.why = u"Then: Bring the drive to rest."_s;
    card.sub =
        u"Counted while this laptop watches the clock. If the fan stops, say so: the longer wait begins anew."_s;
    card.wait = WaitView{319.0 / 720.0, u"6:41"_s, view.card.wait ? view.card.wait->sub : QString()};
    card.danger = view.card.danger;
    card.action = {u"swap-1/hold/0"_s, u"Done"_s, u"Waits: 6:41"_s, Stand::Waits};
    EXPECT_EQ(view.card, card);
    EXPECT_TRUE(view.card.wait->sub.startsWith(u"of 12:00, cold at "_s));
    ASSERT_TRUE(view.card.danger);
    EXPECT_EQ(view.card.danger->word, SignalWord::Warning);
    const QList<GateView> gates{
        {u"Cold"_s, GateView::Stand::Waits, u"waits 6:41"_s},
        {u"Dead"_s, GateView::Stand::Waits, u"0 of 2, waits: start tried"_s},
        {u"Geared"_s, GateView::Stand::Waits, u"nobody in the zone"_s},
        {u"Matched"_s, GateView::Stand::Half, u"1 of 2, waits: own marking"_s},
        {u"Settled"_s, GateView::Stand::Waits, u"waits: new lamp lit"_s},
    };
    EXPECT_EQ(view.gates, gates);
    EXPECT_EQ(view.swaps.first().state, u"cooling, 6:41"_s);
    EXPECT_EQ(rowNamed(view, u"Open the housing"_s).aside, u"waits: Cold"_s);
    EXPECT_EQ(view.machine.fan, MachineView::Run::Runs);
    EXPECT_EQ(view.machine.points.first().power, MachineView::Power::On);
    EXPECT_EQ(view.makeSafeEnd, u"leads to: as it was, old lamp back in use"_s);
}

TEST(BenchPresenterTest, TheViewChangesOnlyWhenWhatItShowsDid)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.doNext());
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    QSignalSpy changes(&presenter, &BenchPresenter::viewChanged);

    presenter.refresh();
    EXPECT_EQ(changes.size(), 0);
    night.clock.advance(1s);
    presenter.refresh();
    presenter.refresh();

    EXPECT_EQ(changes.size(), 1);
}

TEST(BenchPresenterTest, WhatIsFoundOnArrivalIsWrittenDownAndTheNextStepComesUp)
{
    Night night;
    night.doUntil(u"find"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    ASSERT_EQ(presenter.view().machine.projector, MachineView::Projector::Unknown);
    EXPECT_EQ(rowNamed(presenter.view(), u"Put out the lamp, let the fan run"_s).aside, QString())
        << "nobody has looked yet";

    presenter.done(firstOfEach(presenter.view().card));

    EXPECT_EQ(work.state().machine.lamphouse[0].heat, machine::Heat::Lit);
    EXPECT_EQ(presenter.view().card.title, u"Measure the light of the old lamp"_s);
    EXPECT_EQ(presenter.view().machine.projector, MachineView::Projector::On);
}

TEST(BenchPresenterTest, AMissingAnswerIsNamedAtItsQuestion)
{
    Night night;
    night.doUntil(u"find"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    QList<CaptureAnswer> answers = firstOfEach(presenter.view().card);
    answers.first().value.clear();
    const qsizetype before = work.entries().size();

    presenter.done(answers);

    EXPECT_EQ(work.entries().size(), before);
    EXPECT_EQ(presenter.view().card.captures.first().error, u"Not answered yet."_s);
    EXPECT_EQ(presenter.view().card.captures.at(1).error, QString());
    EXPECT_EQ(presenter.view().card.sub, u"Answer what is marked first."_s);
}

/// What stands beside the question of this step once it was answered so.
QString saidOf(BenchPresenter& presenter, const QString& capture, const QString& typed)
{
    presenter.done(with(firstOfEach(presenter.view().card), capture, typed));
    const QList<CaptureView> now = presenter.view().card.captures;
    const auto asked = std::ranges::find(now, capture, &CaptureView::id);
    return asked == now.end() ? QString() : asked->error;
}

TEST(BenchPresenterTest, AFigureThatMayBeEitherIsRefusedAtItsQuestionWithTheWayToWriteIt)
{
    Night night;
    night.doUntil(u"read-counters"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    const qsizetype before = work.entries().size();

    EXPECT_EQ(saidOf(presenter, u"hours"_s, u"1,980"_s),
              u"Not plain: write 1980, with nothing between the thousands."_s);
    EXPECT_EQ(work.entries().size(), before) << "nothing was taken down";
}

TEST(BenchPresenterTest, AnAlertThatIsReadBackOtherwiseIsToldAtItsQuestion)
{
    Night night;
    night.doUntil(u"key-controller"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());

    EXPECT_EQ(saidOf(presenter, u"threshold"_s, u"1900"_s),
              u"900 is to stand there: key it in and read it back, or say that it differs."_s);
}

TEST(BenchPresenterTest, TheMainActionSaysHowManyAnswersItWaitsFor)
{
    Night night;
    night.doUntil(u"stop-ready-to-open"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    const StepCard card = presenter.view().card;
    const QString all = u"Waits for %1 answers"_s.arg(card.captures.size());
    EXPECT_EQ(card.action, (ActionView{card.stepKey, u"Done"_s, all, Stand::Asks}));

    QList<CaptureAnswer> answers = firstOfEach(card);
    const QList<CaptureAnswer> whole = answers;
    answers.first().value.clear();
    presenter.keepAnswers(answers);
    EXPECT_EQ(presenter.view().card.action,
              (ActionView{card.stepKey, u"Done"_s, u"Waits for one answer"_s, Stand::Asks}));
    presenter.keepAnswers(whole);

    EXPECT_EQ(presenter.view().card.action.stand, Stand::Ready);
}

TEST(BenchPresenterTest, WhatMakesSafeWaitsForNoAnswer)
{
    Night night;
    night.doUntil(u"shut-guard"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    ASSERT_FALSE(presenter.view().card.captures.isEmpty());

    EXPECT_EQ(presenter.view().card.action.stand, Stand::Ready);
    presenter.done({});

    EXPECT_FALSE(work.state().machine.lamphouse[0].guardOpen);
}

TEST(BenchPresenterTest, AMarkGoesWithTheAnswerAndTheHintWithTheLastMark)
{
    Night night;
    night.doUntil(u"stop-ready-to-open"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    const QList<CaptureAnswer> whole = firstOfEach(presenter.view().card);
    ASSERT_GE(whole.size(), 3);
    QList<CaptureAnswer> answers = whole;
    answers[0].value.clear();
    answers[1].value.clear();
    presenter.done(answers);
    ASSERT_EQ(presenter.view().card.sub, u"Answer what is marked first."_s);

    answers[0] = whole[0];
    presenter.keepAnswers(answers);
    EXPECT_EQ(presenter.view().card.captures[0].error, QString());
    EXPECT_EQ(presenter.view().card.captures[1].error, u"Not answered yet."_s);
    EXPECT_EQ(presenter.view().card.sub, u"Answer what is marked first."_s);
    presenter.keepAnswers(whole);

    EXPECT_EQ(presenter.view().card.captures[1].error, QString());
    EXPECT_NE(presenter.view().card.sub, u"Answer what is marked first."_s);
}

TEST(BenchPresenterTest, TheToolsStayOnTheCardBesideWhatIsAskedFirst)
{
    Night night;
    night.doUntil(u"lay-out-kit"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    const QString tools = presenter.view().card.sub;
    ASSERT_TRUE(tools.startsWith(u"Tools: "_s)) << tools.toStdString();
    QList<CaptureAnswer> answers = firstOfEach(presenter.view().card);
    for (CaptureAnswer& answer : answers)
        answer.value.clear();

    presenter.done(answers);

    EXPECT_EQ(presenter.view().card.sub, u"Answer what is marked first.\n"_s + tools);
}

// The drawing showed two breakers, and the card did not say which of them it meant.
TEST(BenchPresenterTest, WhateverBreakerIsSwitchedOrLockedIsNamed)
{
    Night night;
    night.doUntil(u"isolate-lamp-supply"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    EXPECT_EQ(presenter.view().card.title, u"Switch off the lamp supply breaker: panel B, 1 lamp-supply"_s);

    presenter.done(firstOfEach(presenter.view().card));
    EXPECT_EQ(presenter.view().card.title, u"Switch off the electronics breaker: panel B, 1 electronics"_s);
}

TEST(BenchPresenterTest, TheLastAnswerDoesAStepThatOnlyChooses)
{
    Night night;
    night.doUntil(u"find"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    QList<CaptureAnswer> answers = firstOfEach(presenter.view().card);
    const QList<CaptureAnswer> whole = answers;
    night.clock.advance(1s);

    answers.last().value.clear();
    presenter.keepAnswers(answers);
    EXPECT_EQ(work.state().machine.lamphouse[0].heat, machine::Heat::Unknown);
    presenter.keepAnswers(whole);

    EXPECT_EQ(work.state().machine.lamphouse[0].heat, machine::Heat::Lit);
}

TEST(BenchPresenterTest, AStepThatHasJustComeUpIsNotDoneByAnAnswer)
{
    Night night;
    night.doUntil(u"find"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    const qsizetype before = work.entries().size();

    night.clock.advance(699ms);
    presenter.keepAnswers(firstOfEach(presenter.view().card));

    EXPECT_EQ(work.entries().size(), before);
}

TEST(BenchPresenterTest, AStopOrAnAnswerThatTellsOfTroubleNeedsItsOwnPress)
{
    Night atStop;
    atStop.doUntil(u"stop-ready-to-open"_s);
    VisitAtWork work(atStop);
    BenchPresenter stop(work.desk());
    const qsizetype before = work.entries().size();
    atStop.clock.advance(1s);
    stop.keepAnswers(firstOfEach(stop.view().card));
    EXPECT_EQ(work.entries().size(), before);

    Night atStart;
    atStart.doUntil(u"try-start"_s);
    VisitAtWork started(atStart);
    BenchPresenter start(started.desk());
    atStart.clock.advance(1s);
    start.keepAnswers(with(firstOfEach(start.view().card), u"response"_s, u"It started"_s));
    EXPECT_TRUE(started.state().incidents.isEmpty());
    start.keepAnswers(firstOfEach(start.view().card));
    EXPECT_TRUE(started.state().machine.lamphouse[0].startTried);
}

TEST(BenchPresenterTest, OneAnswerAloneOpensNothing)
{
    Night night;
    night.doUntil(u"open-housing"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    night.clock.advance(1s);

    presenter.keepAnswers(firstOfEach(presenter.view().card));
    EXPECT_FALSE(work.state().machine.lamphouse[0].housingOpen);
    presenter.done(firstOfEach(presenter.view().card));

    EXPECT_TRUE(work.state().machine.lamphouse[0].housingOpen);
}

TEST(BenchPresenterTest, BetweenGearOnAndShutHousingNothingIsTyped)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());

    int steps = 0;
    while (!work.state().swaps[0].records.contains(StepId(u"shut-housing"_s)) && steps < 40) {
        for (const CaptureView& capture : presenter.view().card.captures) {
            EXPECT_EQ(capture.kind, CaptureView::Kind::Choice) << presenter.view().card.title.toStdString();
            EXPECT_EQ(capture.reach, Reach::Glove) << presenter.view().card.title.toStdString();
        }
        presenter.done(firstOfEach(presenter.view().card));
        ++steps;
    }

    EXPECT_GE(steps, 15);
    EXPECT_TRUE(work.state().swaps[0].records.contains(StepId(u"shut-housing"_s)));
}

TEST(BenchPresenterTest, AfterANightThatNobodyWatchedTheLocksAreLookedAtFirst)
{
    for (const bool isMakingSafe : {false, true}) {
        Night night;
        night.doUntil(u"open-housing"_s);
        VisitAtWork work(night);
        work.clock().reboot(9h, 1min);
        BenchPresenter presenter(work.desk());
        if (isMakingSafe)
            presenter.makeSafe(u"doors open in ten minutes"_s);
        EXPECT_EQ(presenter.view().card.title, u"Step out of the zone"_s) << "out first, asked afterwards";
        presenter.done({});
        EXPECT_EQ(presenter.view().card.title, u"Do your locks still hang?"_s);
        EXPECT_EQ(presenter.view().gates.at(1).words, u"waits: a look at the locks"_s);

        presenter.done({});
        EXPECT_EQ(presenter.view().card.title, u"Do your locks still hang?"_s) << "not without an answer";
        presenter.done({{u"locks"_s, {u"as-before"_s}}});

        EXPECT_NE(presenter.view().card.title, u"Do your locks still hang?"_s);
        EXPECT_EQ(presenter.view().gates.at(1).words, u"2 of 2, voltage absent"_s);
    }
}

TEST(BenchPresenterTest, WhoeverStandsInsideComesOutBeforeTheLocksAreLookedAt) // re-arm table C; D1
{
    Night night;
    night.doUntil(u"box-old"_s); // the guard is open, the old lamp in hand
    VisitAtWork work(night);
    work.clock().sleep(3s);
    BenchPresenter presenter(work.desk());
    presenter.refresh();

    QStringList done;
    while (done.size() < 8 && presenter.view().card.title != u"Do your locks still hang?"_s) {
        EXPECT_EQ(presenter.view().card.phase, u"Out first"_s);
        done.append(presenter.view().card.title);
        presenter.done({});
    }

    EXPECT_EQ(done, (QStringList{u"Put the lamp that is in hand into its box"_s, u"Shut the guard"_s,
                                 u"Shut the housing"_s, u"Step out of the zone"_s}));
    presenter.done({{u"locks"_s, {u"as-before"_s}}});
    EXPECT_FALSE(work.state().isMakingSafe) << "the swap goes on";
    EXPECT_NE(presenter.view().card.title, u"Do your locks still hang?"_s);
}

TEST(BenchPresenterTest, OfAPairOnTwoFeedsTheFanAndTheLampBesideItAreAskedForToo)
{
    Night night(test::twoFeeds());
    night.doUntil(u"lamp-off"_s); // the other was put out just before, and cools
    ASSERT_TRUE(night.doNext());
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());

    work.clock().sleep(20min);
    presenter.refresh();
    QStringList asked;
    while (asked.size() < 8 && presenter.view().card.title != u"Bring the drive to rest"_s) {
        const QString capture = presenter.view().card.captures.value(0).id;
        ASSERT_TRUE(capture == u"fan"_s || capture == u"locks"_s)
            << presenter.view().card.title.toStdString();
        presenter.done({{capture, {capture == u"fan"_s ? u"ran"_s : u"as-before"_s}}});
        asked.append(capture);
    }

    asked.sort();
    EXPECT_EQ(asked, (QStringList{u"fan"_s, u"fan"_s, u"locks"_s, u"locks"_s})) << "of either lamphouse";
}

TEST(BenchPresenterTest, ALockThatIsGoneLeadsToIsolatingAnew)
{
    Night night;
    night.doUntil(u"open-housing"_s);
    VisitAtWork work(night);
    work.clock().reboot(9h, 1min);
    BenchPresenter presenter(work.desk());
    EXPECT_EQ(presenter.view().card.title, u"Step out of the zone"_s);
    presenter.done({});

    presenter.done({{u"locks"_s, {u"unknown"_s}}});

    EXPECT_EQ(presenter.view().card.title, u"Look at the lamphouse as it stands"_s);
    EXPECT_EQ(work.state().machine.point[0].power, machine::Power::Doubted);
}

TEST(BenchPresenterTest, MakingSafeAsksForTheFanWhenItPutsTheLampOut)
{
    for (const auto& [fan, title] : {std::pair{u"runs"_s, u"Hold for Cold, air running"_s},
                                     std::pair{u"still"_s, u"Hold for Cold, without the fan"_s}}) {
        Night night;
        night.doUntil(u"try-start"_s);
        VisitAtWork work(night);
        BenchPresenter presenter(work.desk());
        presenter.done(with(firstOfEach(presenter.view().card), u"response"_s, u"It started"_s));
        presenter.makeSafe(u"doors open in ten minutes"_s);
        const StepCard asked = presenter.view().card;
        ASSERT_EQ(asked.captures.size(), 1) << asked.title.toStdString();
        EXPECT_EQ(asked.captures.first().label, u"The fan"_s);

        presenter.done({});
        EXPECT_EQ(work.state().machine.lamphouse[0].heat, machine::Heat::Lit) << "not without an answer";
        presenter.done({{u"answer"_s, {fan}}});

        EXPECT_EQ(presenter.view().card.title, title);
    }
}

TEST(BenchPresenterTest, AfterItStartedTheWayBackLeadsToIsolatingAnew)
{
    Night night;
    night.doUntil(u"try-start"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());

    presenter.done(with(firstOfEach(presenter.view().card), u"response"_s, u"It started"_s));

    ASSERT_EQ(work.state().incidents.size(), 1);
    EXPECT_EQ(work.state().incidents.first().kind, visit::Incident::ItStarted);
    EXPECT_EQ(presenter.view().card.title, u"Put out the lamp, let the fan run"_s);
    EXPECT_EQ(presenter.view().machine.points.first().power, MachineView::Power::On);
    EXPECT_EQ(presenter.view().gates.at(1).words, u"0 of 2, waits: start tried"_s);
    QStringList titles;
    while (work.state().machine.point[0].power != machine::Power::On && titles.size() < 20) {
        titles.append(presenter.view().card.title);
        if (presenter.view().card.wait)
            night.clock.advance(12min);
        presenter.refresh();
        presenter.done(firstOfEach(presenter.view().card));
    }
    EXPECT_TRUE(titles.contains(u"Hold for Cold, air running"_s)) << titles.join(u" | "_s).toStdString();
    EXPECT_TRUE(titles.contains(u"Take off your own lock"_s)) << titles.join(u" | "_s).toStdString();
    EXPECT_EQ(work.state().machine.point[0].power, machine::Power::On);
}

TEST(BenchPresenterTest, MakingSafeWithTheOldLampOutLeadsToATag)
{
    Night night;
    night.doUntil(u"unbox-new"_s); // the old lamp is in its box, the seat is empty
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    EXPECT_EQ(presenter.view().makeSafeEnd, u"leads to: out of use, locked and tagged"_s);

    presenter.makeSafe(QString());
    EXPECT_EQ(presenter.view().steps.first(),
              (StepRow{u"Making safe"_s, u"Shut the guard"_s, StepRow::Stand::Now, QString()}));
    QStringList titles;
    while (presenter.view().card.title != u"It is made safe" && titles.size() < 20) {
        titles.append(presenter.view().card.title);
        presenter.done(firstOfEach(presenter.view().card));
    }

    const QStringList expected{u"Shut the guard"_s,           u"Shut the housing"_s,
                               u"Step out of the zone"_s,     u"Count tools and fasteners back"_s,
                               u"Hang the tag: out of use"_s, u"Take off your gear"_s};
    EXPECT_EQ(titles, expected);
    EXPECT_TRUE(work.state().machine.lamphouse[0].tagged);
    EXPECT_FALSE(machine::isSomebodyInside(work.state().machine)) << "nobody is kept from their key for ever";
}

TEST(BenchPresenterTest, AWaitThatGoesOnWhileSomethingElseIsAskedForDoesNotCall)
{
    Night night(u"larkmoor-teal"_s, Crew::Alone, {}, {}, 2);
    night.doUntil(u"lamp-off"_s, 1);
    ASSERT_TRUE(night.doNext(1));
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    work.clock().advance(2min);
    presenter.refresh();

    presenter.makeSafe(u"no time left"_s); // the other swap has nothing to wait for then

    EXPECT_TRUE(work.state().waits[1].cool.isRunning);
    EXPECT_EQ(presenter.view().strip, StripView());
}

TEST(BenchPresenterTest, AWrongAnswerAtAStopIsNamed)
{
    Night night;
    night.doUntil(u"stop-cold-and-dead"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    QList<CaptureAnswer> answers = firstOfEach(presenter.view().card);
    for (CaptureAnswer& answer : answers) {
        if (answer.id == u"start")
            answer.value = {u"Was not tried"_s};
        if (answer.id == u"lock")
            answer.value = {u"47"_s};
    }

    presenter.done(answers);

    EXPECT_TRUE(presenter.view().card.sub.startsWith(u"Did not fit: "))
        << presenter.view().card.sub.toStdString();
}

TEST(BenchPresenterTest, AWaitThatEndsElsewhereCallsOnceAndNeverChangesTheSwap)
{
    Night night(u"larkmoor-teal"_s, Crew::Alone, {}, {}, 2);
    night.doUntil(u"lamp-off"_s, 1);
    ASSERT_TRUE(night.doNext(1));
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    EXPECT_EQ(presenter.view().strip, StripView());

    night.clock.advance(12min);
    presenter.refresh();

    EXPECT_EQ(presenter.swapInHand(), 0);
    const StripView called{u"Screen 2: the wait is over. Next: Bring the drive to rest"_s,
                           u"Go to Screen 2"_s, u"F2"_s, StripView::Call::Sounds};
    EXPECT_EQ(presenter.view().strip, called);
    presenter.followStrip();
    EXPECT_EQ(presenter.swapInHand(), 1);
    EXPECT_EQ(presenter.view().strip, StripView());
}

// The signing page came up after the first of two swaps, asked where the second lamp goes, took signatures,
// and then said that another step comes first.
TEST(BenchPresenterTest, SigningWaitsForTheOtherSwapAndThePressLeadsThere)
{
    Night night(u"larkmoor-teal"_s, Crew::Alone, {}, {}, 2);
    night.doUntil(u"sign"_s, 0);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    QSignalSpy signing(&presenter, &BenchPresenter::signOffWanted);
    EXPECT_EQ(presenter.view().card.action.text, u"Go on at Screen 2"_s);
    EXPECT_EQ(presenter.view().card.sub, u"Screen 2 comes first: the whole visit is signed at once."_s);

    presenter.done({});

    EXPECT_EQ(signing.size(), 0);
    EXPECT_EQ(presenter.swapInHand(), 1);
}

TEST(BenchPresenterTest, OnceEverySwapHasComeToItsSigningThePageOpens)
{
    Night night(u"larkmoor-teal"_s, Crew::Alone, {}, {}, 2);
    night.doUntil(u"sign"_s, 0);
    night.doUntil(u"sign"_s, 1);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    QSignalSpy signing(&presenter, &BenchPresenter::signOffWanted);
    EXPECT_EQ(presenter.view().card.action.text, u"Open the signing page"_s);

    presenter.done({});

    EXPECT_EQ(signing.size(), 1);
}

// Nobody waits for a lamp while somebody is hurt.
TEST(BenchPresenterTest, WhereSomebodyIsHurtNoOtherSwapComesFirst)
{
    Night night(u"larkmoor-teal"_s, Crew::Alone, {}, {}, 2);
    night.doUntil(u"sign"_s, 0);
    visit::Happened hurt;
    hurt.incident = visit::Incident::SomeoneHurt;
    ASSERT_TRUE(night.tell(hurt));
    VisitAtWork work(night);

    EXPECT_EQ(BenchMoment(work.desk(), 0).swapBeforeSigning(), -1);
}

TEST(BenchPresenterTest, AfterAGapSomebodySaysWhetherTheFanRanOn)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.doNext());
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());

    night.clock.sleep(20min);
    presenter.refresh();
    EXPECT_EQ(presenter.view().card.title, u"Did the fan run on?"_s);
    EXPECT_EQ(presenter.view().gates.first().words, u"waits: did the fan run on?"_s);
    presenter.done({});
    EXPECT_EQ(presenter.view().card.captures.first().error, u"Not answered yet."_s);
    presenter.done({{u"fan"_s, {u"unknown"_s}}});
    EXPECT_EQ(presenter.view().card.title, u"Has the lamp been out all the time?"_s);
    presenter.done({{u"locks"_s, {u"as-before"_s}}});

    EXPECT_EQ(presenter.view().card.title, u"Hold for Cold, without the fan"_s);
    EXPECT_EQ(presenter.view().card.wait->number, u"45:00"_s); // the model's unforced wait, from now
}

TEST(BenchPresenterTest, ASecondPersonHangsTheirOwnLockAndGoesThroughTheirGear)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"relieve"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    ASSERT_FALSE(presenter.view().card.acts.isEmpty());
    EXPECT_EQ(presenter.view().card.acts.first().text, u"B. Lind: own lock on, tag filled in"_s);

    presenter.personAct(presenter.view().card.acts.first().id);
    EXPECT_EQ(presenter.view().card.title, u"Own lock of B. Lind"_s);
    EXPECT_EQ(work.state().machine.group[0].locks, 1) << "not before its digits are written down";
    presenter.done(with(firstOfEach(presenter.view().card), u"lock"_s, u"63"_s));
    EXPECT_EQ(work.state().machine.group[0].locks, 3); // ada and ben
    EXPECT_EQ(work.state().hungBy.value(work.entries().size() - 1), u"63"_s);
    QString gear;
    for (const PersonAct& act : presenter.view().card.acts) {
        if (act.text.contains(u"gear on"))
            gear = act.id;
    }
    ASSERT_FALSE(gear.isEmpty());
    presenter.personAct(gear);
    EXPECT_EQ(presenter.view().card.title, u"Gear of B. Lind"_s);
    EXPECT_EQ(presenter.view().card.action.stand, Stand::Asks);
    presenter.done({}); // shows what is open, and the gear stays up
    EXPECT_EQ(presenter.view().card.title, u"Gear of B. Lind"_s);
    EXPECT_EQ(presenter.view().card.captures.first().error, u"Not answered yet."_s);
    presenter.done(firstOfEach(presenter.view().card));

    EXPECT_EQ(work.state().machine.person[1].gear, machine::Gear::Signed);
    EXPECT_EQ(presenter.view().card.title, u"Let the stored charge run down"_s);
}

/// Her lock was taken off by the documented removal while she was away; the trainee's is left.
TEST(BenchPresenterTest, WhereOnlyATraineesLockHangsTheEngineerHangsOneToTheEnd)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    const PersonId sup(u"sup"_s);
    ASSERT_TRUE(
        night.tell(visit::Joined{{sup, u"S. Tarn"_s, people::Role::Supervisor, false, false, false, true}}));
    night.doUntil(u"relieve"_s);
    ASSERT_TRUE(night.doAct(night.ben(), machine::Effect::LockOn));
    night.doUntil(u"own-lock-off"_s);
    ASSERT_TRUE(night.tell(night.ben(), visit::LockRemoved{night.ada(), LamphouseId(u"lamphouse-1-main"_s),
                                                           sup, u"searched"_s, u"no answer"_s}));
    ASSERT_TRUE(night.tell(visit::RemovalTold{}));
    ASSERT_EQ(night.state.machine.group[0].locks, machine::maskOf(1));
    VisitAtWork work(night);
    const auto hangs = [](const BenchView& view) {
        for (const PersonAct& act : view.card.acts) {
            if (act.text == u"A. Okoro: own lock on, tag filled in")
                return act.id;
        }
        return QString();
    };
    EXPECT_FALSE(hangs(BenchPresenter(work.desk()).view()).isEmpty()) << "she is at the keys";
    work.desk().setPresses(night.ben());
    BenchPresenter presenter(work.desk());
    EXPECT_EQ(presenter.view().card.sub, u"Your own lock does not come off as the last: an engineer hangs "
                                         "theirs first, then yours comes off."_s);
    EXPECT_EQ(presenter.view().card.action.waits, u"Waits: an engineer's lock"_s);

    presenter.personAct(hangs(presenter.view()));
    presenter.done(firstOfEach(presenter.view().card));
    EXPECT_EQ(work.state().machine.group[0].locks, 3);
    presenter.done(firstOfEach(presenter.view().card));

    EXPECT_EQ(work.state().machine.group[0].locks, machine::maskOf(0));
}

TEST(BenchPresenterTest, ASecondPersonsLockThatGivesWayIsNotHung)
{
    Night night(u"sedgebrook-nook"_s, Crew::WithTrainee);
    night.doUntil(u"relieve"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    presenter.personAct(presenter.view().card.acts.first().id);
    ASSERT_EQ(presenter.view().card.title, u"Own lock of B. Lind"_s);
    const QList<CaptureAnswer> all = firstOfEach(presenter.view().card);
    presenter.done(with(all, u"holds"_s, u"Gives way"_s));

    EXPECT_EQ(work.state().machine.group[0].locks, 1);
    EXPECT_EQ(work.state().incidents.last().kind, visit::Incident::PointWillNotLock);
}

TEST(BenchPresenterTest, WhileSomebodyIsInsideASecondPersonsLockIsHungByOnePress)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"open-housing"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    presenter.personAct(presenter.view().card.acts.first().id);

    EXPECT_EQ(work.state().machine.group[0].locks, 3) << "nothing is typed now";
}

QString actNamed(const BenchView& view, const QString& text)
{
    for (const PersonAct& act : view.card.acts) {
        if (act.text == text)
            return act.id;
    }
    return {};
}

TEST(BenchPresenterTest, ATraineeAtTheKeysMakesSafeWithTheEngineersPress)
{
    Night night(u"sedgebrook-nook"_s, Crew::WithTrainee);
    night.doUntil(u"relieve"_s);
    ASSERT_TRUE(night.tell(visit::SafeBegun{u"doors open"_s}));
    VisitAtWork work(night);
    work.desk().setPresses(night.ben());
    BenchPresenter presenter(work.desk());
    presenter.personAct(actNamed(presenter.view(), u"A. Okoro: Take off your own lock"_s));
    ASSERT_EQ(work.state().machine.group[0].locks, 0);
    ASSERT_TRUE(presenter.view().card.title.startsWith(u"Switch on the breaker")) << "restore";

    presenter.done({});
    EXPECT_EQ(presenter.view().card.sub,
              u"A mistake here hurts: the engineer presses too, on their own key."_s);
    ASSERT_EQ(work.state().machine.point[0].power, machine::Power::Off);
    presenter.personAct(actNamed(presenter.view(), u"A. Okoro: seen and agreed"_s));
    presenter.done({});

    EXPECT_EQ(work.state().machine.point[0].power, machine::Power::On);
    EXPECT_EQ(visit::countersignerOf(work.entries().last()), night.ada());
}

TEST(BenchPresenterTest, ATraineeSaysThatTheFanRanOnWithTheEngineersPress)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.doNext());
    VisitAtWork work(night);
    work.desk().setPresses(night.ben());
    night.clock.sleep(300s);
    BenchPresenter presenter(work.desk());
    ASSERT_EQ(presenter.view().card.title, u"Did the fan run on?"_s);
    presenter.done({{u"fan"_s, {u"ran"_s}}});
    EXPECT_EQ(presenter.view().card.title, u"Did the fan run on?"_s);

    presenter.personAct(actNamed(presenter.view(), u"A. Okoro: seen and agreed"_s));
    presenter.done({{u"fan"_s, {u"ran"_s}}});

    EXPECT_NE(presenter.view().card.title, u"Did the fan run on?"_s);
    EXPECT_EQ(visit::countersignerOf(work.entries().last()), night.ada());
}

TEST(BenchPresenterTest, AStopIsAnsweredByWhoeverDidNotDoItsSteps)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"relieve"_s);
    ASSERT_TRUE(night.doAct(night.ben(), machine::Effect::LockOn));
    night.doUntil(u"stop-cold-and-dead"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    QSignalSpy wanted(&work.desk(), &VisitDesk::signatureWanted);
    const StepCard card = presenter.view().card;
    EXPECT_EQ(card.action.waits, u"Waits: B. Lind, F5"_s);
    ASSERT_FALSE(card.acts.isEmpty());
    EXPECT_EQ(card.acts.first().text, u"B. Lind: these are my answers"_s);
    EXPECT_GE(card.captures.size(), 5);
    EXPECT_LE(card.captures.size(), 9);

    presenter.keepAnswers(firstOfEach(card));
    presenter.personAct(card.acts.first().id);

    ASSERT_EQ(wanted.size(), 1);
    EXPECT_EQ(wanted.first().first().value<WantedSignature>(),
              (WantedSignature{work.entries().size() - 1, PersonId(u"ben"_s), u"stop"_s}));
    EXPECT_EQ(presenter.view().card.title, u"Put on your gear, shield last"_s);
}

TEST(BenchPresenterTest, ARefusalNamesTheGateAndTheTimeThatIsLeft)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.doNext());
    VisitAtWork work(night);
    night.clock.advance(5min + 19s);
    visit::Acted open;
    open.act.effect = machine::Effect::Standby;
    open.act.person = night.ada();
    open.act.lamphouse = work.state().ground->lamphouses[0];
    machine::Act act = visit::toAct(work.state(), open.act);

    const QString words = wordsOf(machine::Demand::ProjectorCold, act, work.desk().seen());

    EXPECT_EQ(words, u"Cold: 6 min 41 s left, the fan must keep running."_s);
}

TEST(BenchPresenterTest, GearedNamesWhoMissesWhat)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"relieve"_s);
    visit::VisitState state = night.seen();
    state.machine.person[1].at = 0; // as if somebody had walked in

    EXPECT_EQ(missingInZone(state, 0), u"B. Lind: gear, own lock"_s);
}

TEST(BenchPresenterTest, AFollowUpShowsNoGateOfALampAndWhichTypeIsReadBack)
{
    Night night(test::followUpOf(Night(), {u"peak-again"_s}));
    ASSERT_TRUE(night.doStep(u"find"_s, [](QJsonObject& answers) { answers[u"lamp"_s] = u"Off"_s; }));
    night.doUntil(u"key-controller"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());

    const BenchView& view = presenter.view();

    EXPECT_EQ(view.subtitle, u"what is owed"_s);
    for (const GateView& gate : view.gates)
        EXPECT_NE(gate.name, u"Matched"_s);
    EXPECT_EQ(view.card.keyIn, u"Type: %1\nNothing is changed: read it back"_s.arg(night.newType().code));
    EXPECT_EQ(rowNamed(view, u"Check the peak again"_s).title, u"Check the peak again"_s);
}

TEST(BenchPresenterTest, AStepThatMayFollowIsOwedByOnePress)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    ASSERT_FALSE(presenter.view().card.acts.isEmpty());

    presenter.personAct(presenter.view().card.acts.last().id);

    EXPECT_EQ(work.state().swaps[0].record(StepId(u"measure-screen"_s)).status,
              visit::StepRecord::Status::Owed);
    EXPECT_EQ(rowNamed(presenter.view(), u"Measure the screen"_s).aside, u"owed"_s);
}

TEST(BenchPresenterTest, ASwapUnderSomebodysLockGoesOnOnlyAfterAnotherLook)
{
    Night night;
    night.doUntil(u"find"_s);
    ASSERT_TRUE(night.doStep(u"find"_s,
                             [](QJsonObject& answers) { answers[u"tag"_s] = u"Somebody's lock and tag"_s; }));
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    ASSERT_TRUE(presenter.view().card.why.startsWith(u"Somebody who is not of this visit holds it"_s))
        << presenter.view().card.why.toStdString();

    presenter.personAct(u"look-again"_s);
    ASSERT_EQ(presenter.view().card.action.stand, Stand::Asks) << "each thing is looked at anew";
    presenter.done(firstOfEach(presenter.view().card));

    EXPECT_FALSE(visit::isHeldBySomebody(work.state(), 0));
    EXPECT_NE(presenter.view().card.title, u"This swap goes no further tonight"_s);
    EXPECT_TRUE(presenter.view().card.acts.isEmpty() ||
                presenter.view().card.acts.first().id != u"look-again"_s);
}

TEST(BenchPresenterTest, ATagAtTheLamphouseBesideItIsLookedForAgainThere)
{
    Night night(u"quillhaven-pair"_s);
    night.doUntil(u"find-other"_s);
    ASSERT_TRUE(
        night.doStep(u"find-other"_s, [](QJsonObject& answers) { answers[u"tag"_s] = u"Out of use"_s; }));
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());

    presenter.personAct(u"look-again"_s);
    presenter.done(firstOfEach(presenter.view().card));

    EXPECT_FALSE(visit::isHeldBySomebody(work.state(), 0));
}

TEST(BenchPresenterTest, AStrikeThatFailedAsksForTheFan)
{
    Night night;
    night.doUntil(u"strike"_s);
    ASSERT_TRUE(night.doStep(u"strike"_s,
                             [](QJsonObject& answers) { answers[u"result"_s] = u"It did not light"_s; }));
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    ASSERT_EQ(presenter.view().card.title, u"Did the fan run on?"_s);

    presenter.done({{u"fan"_s, {u"stopped"_s}}});

    EXPECT_EQ(work.state().waits[0].cool.wait, machine::Wait::CoolUnforced);
    EXPECT_NE(presenter.view().card.title, u"Did the fan run on?"_s);
}

TEST(BenchWithoutANight, ShowsLargeWhatIsKeyedIntoTheController)
{
    Night night;
    night.doUntil(u"key-controller"_s);
    VisitAtWork work(night);

    const BenchPresenter presenter(work.desk());

    EXPECT_EQ(presenter.view().card.keyIn,
              u"Type: %1\nLamp hours: 0 h\u2003Alert at: 900 h"_s.arg(night.newType().code));
}

} // namespace
} // namespace coldarc::ui
