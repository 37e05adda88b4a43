#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using Kind = Why::Kind;

/// One wrong answer of one stop, and the steps that it opens again.
struct WrongAnswer {
    const char* model;
    const char* stop;
    const char* capture;
    QStringList reopened;

    friend void PrintTo(const WrongAnswer& c, std::ostream* out)
    {
        *out << c.model << " " << c.stop << " " << c.capture;
    }
};

const char* const kTeal = "larkmoor-teal";
const char* const kPair = "quillhaven-pair";
const char* const kNook = "sedgebrook-nook";
const char* const kDead = "stop-cold-and-dead";
const char* const kOpen = "stop-ready-to-open";
const char* const kStrike = "stop-ready-to-strike";

// By the sense of each line; a line that nothing can be done again for opens the stop itself.
const QList<WrongAnswer>& wrongAnswers()
{
    static const QList<WrongAnswer> kAnswers{
        {kTeal, kDead, "point", {u"stop-cold-and-dead"_s}},
        {kTeal, kDead, "start", {u"try-start"_s}},
        {kTeal, kDead, "charge", {u"relieve"_s}},
        {kTeal, kDead, "lock", {u"own-lock"_s}},
        {kTeal, kDead, "tester", {u"prove-inlet"_s}},
        {kTeal, kDead, "stands", {u"stop-cold-and-dead"_s}},
        {kTeal, kOpen, "tester", {u"prove-inlet"_s, u"prove-rail"_s}},
        {kTeal, kOpen, "gear", {u"gear-on"_s}},
        {kTeal, kOpen, "lock", {u"own-lock"_s}},
        {kTeal, kOpen, "people", {u"gear-on"_s}},
        {kTeal, kOpen, "box", {u"stop-ready-to-open"_s}},
        {kTeal, kStrike, "count", {u"count-inside"_s, u"count-again"_s}},
        {kTeal, kStrike, "shut", {u"stop-ready-to-strike"_s}},
        {kTeal, kStrike, "type", {u"stop-ready-to-strike"_s}},
        {kTeal, kStrike, "polarity", {u"clamp-lamp"_s}},
        {kTeal, kStrike, "stands", {u"stop-ready-to-strike"_s}},
        {kTeal, kStrike, "adaptor", {u"clamp-lamp"_s}},
        {kTeal, kStrike, "old-lamp", {u"count-inside"_s, u"count-again"_s}},
        {kPair, kDead, "point", {u"stop-cold-and-dead"_s}},
        {kPair, kDead, "start", {u"try-start"_s}},
        {kPair, kDead, "charge", {u"relieve"_s}},
        {kPair, kDead, "lock", {u"own-lock"_s}},
        {kPair, kDead, "stands", {u"stop-cold-and-dead"_s}},
        {kPair, kOpen, "tester", {u"prove-busbar"_s}},
        {kPair, kOpen, "gear", {u"gear-on"_s}},
        {kPair, kOpen, "lock", {u"own-lock"_s}},
        {kPair, kOpen, "people", {u"gear-on"_s}},
        {kPair, kOpen, "box", {u"stop-ready-to-open"_s}},
        {kPair, kStrike, "count", {u"count-inside"_s, u"count-again"_s}},
        {kPair, kStrike, "shut", {u"stop-ready-to-strike"_s}},
        {kPair, kStrike, "type", {u"stop-ready-to-strike"_s}},
        {kPair, kStrike, "polarity", {u"clamp-lamp"_s}},
        {kPair, kStrike, "stands", {u"stop-ready-to-strike"_s}},
        {kPair, kStrike, "old-lamp", {u"count-inside"_s, u"count-again"_s}},
        {kNook, kDead, "point", {u"stop-cold-and-dead"_s}},
        {kNook, kDead, "start", {u"try-start"_s}},
        {kNook, kDead, "charge", {u"relieve"_s}},
        {kNook, kDead, "lock", {u"own-lock"_s}},
        {kNook, kDead, "tester", {u"prove-side-terminals"_s}},
        {kNook, kDead, "stands", {u"stop-cold-and-dead"_s}},
        {kNook, kOpen, "tester", {u"prove-side-terminals"_s}},
        {kNook, kOpen, "gear", {u"gear-on"_s}},
        {kNook, kOpen, "lock", {u"own-lock"_s}},
        {kNook, kOpen, "people", {u"gear-on"_s}},
        {kNook, kOpen, "box", {u"stop-ready-to-open"_s}},
        {kNook, kStrike, "count", {u"count-inside"_s, u"count-again"_s}},
        {kNook, kStrike, "shut", {u"stop-ready-to-strike"_s}},
        {kNook, kStrike, "type", {u"stop-ready-to-strike"_s}},
        {kNook, kStrike, "polarity", {u"clamp-lamp"_s}},
        {kNook, kStrike, "stands", {u"stop-ready-to-strike"_s}},
        {kNook, kStrike, "old-lamp", {u"count-inside"_s, u"count-again"_s}},
    };
    return kAnswers;
}

/// Every wrong value of a capture: its choices that are not as it should be, or what is not the number or the
/// type written down before.
QStringList wrongValues(const procedure::Capture& capture)
{
    QStringList values;
    for (const procedure::Choice& choice : capture.choices) {
        if (choice.means != procedure::Means::Good && choice.means != procedure::Means::Note)
            values.append(choice.text);
    }
    if (!capture.choices.isEmpty())
        return values;
    if (capture.id == u"point")
        return {u"panel C, 9"_s}; // no breaker of this site
    if (capture.id == u"lock")
        return {u"74"_s}; // Night hangs number 47
    if (capture.id == u"count")
        return {u"900 and 899"_s, u"900"_s, u"the same"_s}; // and lays out 900 of both
    if (capture.id == u"type")
        return {u"Hollin 30"_s};
    return {};
}

class StopOfAProcedure : public ::testing::TestWithParam<WrongAnswer> {};

TEST_P(StopOfAProcedure, OpensTheStepsAgainThatAWrongAnswerBelongsTo)
{
    const QString stop = QString::fromLatin1(GetParam().stop);
    const QString capture = QString::fromLatin1(GetParam().capture);
    Night before(QString::fromLatin1(GetParam().model));
    before.doUntil(stop);
    ASSERT_FALSE(::testing::Test::HasFatalFailure());
    const QStringList values = wrongValues(*before.swap().step(StepId(stop))->capture(capture));
    ASSERT_FALSE(values.isEmpty());
    for (const QString& value : values) {
        Night night = before;

        const Decision wrong = night.doStep(stop, [&](QJsonObject& answers) { answers[capture] = value; });

        ASSERT_TRUE(wrong) << wordsOf(wrong.error());
        const Did& did = std::get<Did>(wrong->body);
        EXPECT_EQ(did.reopened, GetParam().reopened);
        EXPECT_EQ(did.answers.value(capture).toString(), value); // what was seen stays on record
        EXPECT_TRUE(night.hasException(Exception::Kind::WrongAnswerAtAStop));
        EXPECT_FALSE(night.isDone(stop));
        for (const procedure::Step& step : night.swap().steps) {
            if (step.effect == machine::Effect::ExposeLamp && stop != QLatin1String(kStrike)) {
                EXPECT_FALSE(night.doStep(step.id.text(), [](QJsonObject&) {}));
            }
            if (step.effect == machine::Effect::LockOff) {
                EXPECT_FALSE(night.doStep(step.id.text(), [](QJsonObject&) {}));
            }
        }
        for (const QString& step : GetParam().reopened)
            EXPECT_FALSE(night.isDone(step));

        while (night.hasIncident(Incident::ItStarted) && !night.next().isPutRight)
            ASSERT_TRUE(night.doNext()); // the light first
        if (night.next().isPutRight)     // that, or a voltage was found
            night.putRight();
        ASSERT_FALSE(::testing::Test::HasFatalFailure());
        night.doAll(); // what was opened again is done again, the stop too, and then the rest
        EXPECT_TRUE(night.isDone(stop));
        EXPECT_EQ(night.lamphouse().heat, machine::Heat::Lit);
        expectSame(night.state, night.readBack());
    }
}

INSTANTIATE_TEST_SUITE_P(
    OfTheThreeShipped, StopOfAProcedure, ::testing::ValuesIn(wrongAnswers()), [](const auto& instance) {
        std::string name;
        for (const char* text : {instance.param.model, instance.param.stop, instance.param.capture}) {
            bool isFirst = true;
            for (const char* letter = text; *letter; ++letter) {
                if (*letter == '-') {
                    isFirst = true;
                    continue;
                }
                name += isFirst ? static_cast<char>(std::toupper(*letter)) : *letter;
                isFirst = false;
            }
        }
        return name;
    });

TEST(StopTest, AWrongBreakerLeadsThroughEachOnceAndTheLocksOnThemComeBeforeTheOnesOnTheBox) // B1
{
    Night night;
    night.doUntil(QString::fromLatin1(kDead));
    ASSERT_TRUE(night.doStep(QString::fromLatin1(kDead), [](QJsonObject& answers) {
        answers[u"lock"_s] = u"74"_s;
        answers[u"start"_s] = u"Was not tried"_s;
    }));
    night.state.machine.point[0].power = machine::Power::Doubted; // as by a point that does not feed it
    night.state.machine.point[1].power = machine::Power::Doubted;
    for (const machine::Index point : {machine::Index{0}, machine::Index{1}}) {
        machine::Act off;
        off.effect = machine::Effect::Isolate;
        off.lamphouse = 0;
        off.point = point;
        night.state.machine.point[point].power = machine::Power::On;
        EXPECT_TRUE(machine::unmet(night.state.plant, night.state.machine, off)
                        .test(static_cast<std::size_t>(machine::Demand::PointNotDoubted)))
            << "both are put right before either is switched off anew";
        night.state.machine.point[point].power = machine::Power::Doubted;
    }
    night.putRight();
    QStringList order;
    while (night.nextId() != QString::fromLatin1(kDead) && order.size() < 12) {
        order.append(night.nextId());
        ASSERT_TRUE(night.doNext());
    }

    EXPECT_EQ(order.first(5),
              (QStringList{u"isolate-lamp-supply"_s, u"job-lock-lamp-supply"_s, u"isolate-electronics"_s,
                           u"job-lock-electronics"_s, u"own-lock"_s}))
        << order.join(u" "_s).toStdString();
}

TEST(StopTest, NumbersThatDifferAndWereAnsweredStandAsTheyWereCounted)
{
    Night night;
    night.doUntil(u"count-again"_s);
    ASSERT_TRUE(
        night.doStep(u"count-again"_s, [](QJsonObject& answers) { answers[u"result"_s] = u"Different"_s; }));
    night.answerIncidents(); // a spare was used
    ASSERT_EQ(night.lamphouse().count, machine::Counting::Answered);
    night.doUntil(QString::fromLatin1(kStrike));

    ASSERT_TRUE(night.doStep(QString::fromLatin1(kStrike), [](QJsonObject& answers) {
        answers[u"count"_s] = u"900 tools, 899 fasteners"_s;
    }));

    EXPECT_TRUE(night.isDone(QString::fromLatin1(kStrike)));
    EXPECT_EQ(night.lamphouse().count, machine::Counting::Answered);
}

/// A line of a stop that tells of something worse than a step not done.
struct ToldAtAStop {
    const char* model;
    const char* stop;
    const char* capture;
    procedure::Means means;
    Incident incident;
};

TEST(StopTest, AnAnswerThatTellsOfDangerIsTheIncidentItself)
{
    using M = procedure::Means;
    for (const ToldAtAStop& one : {ToldAtAStop{kTeal, kDead, "start", M::Started, Incident::ItStarted},
                                   ToldAtAStop{kTeal, kOpen, "tester", M::Voltage, Incident::VoltageFound},
                                   ToldAtAStop{kTeal, kStrike, "shut", M::Open, Incident::LeftExposed},
                                   ToldAtAStop{kPair, kStrike, "shut", M::Open, Incident::LeftExposed},
                                   ToldAtAStop{kNook, kDead, "start", M::Started, Incident::ItStarted},
                                   ToldAtAStop{kNook, kStrike, "shut", M::Open, Incident::LeftExposed}}) {
        Night night(QString::fromLatin1(one.model));
        const QString stop = QString::fromLatin1(one.stop);
        night.doUntil(stop);
        const procedure::Capture* capture =
            night.swap().step(StepId(stop))->capture(QString::fromLatin1(one.capture));
        const auto choice = std::ranges::find(capture->choices, one.means, &procedure::Choice::means);
        ASSERT_NE(choice, capture->choices.end()) << one.model << one.capture;

        ASSERT_TRUE(night.doStep(stop, [&](QJsonObject& answers) { answers[capture->id] = choice->text; }));

        ASSERT_EQ(night.state.incidents.size(), 1) << one.model << one.capture;
        EXPECT_EQ(night.state.incidents.first().kind, one.incident);
        EXPECT_EQ(night.state.incidents.first().swap, night.swap().id);
        expectSame(night.state, night.readBack());
    }
}

TEST(StopTest, ABreakerOfAnotherScreenReadFromTheBoardIsIsolatedAnew)
{
    Night night(u"sedgebrook-nook"_s, Night::Crew::Alone, {}, {}, 2);
    night.doUntil(QString::fromLatin1(kDead));

    const Decision wrong = night.doStep(QString::fromLatin1(kDead), [](QJsonObject& answers) {
        answers[u"point"_s] = u"panel B, 2 mains"_s;
    });

    ASSERT_TRUE(wrong);
    EXPECT_EQ(std::get<Did>(wrong->body).reopened, QStringList{u"isolate-mains"_s});
    EXPECT_EQ(night.state.machine.point[0].power, machine::Power::Doubted);
    EXPECT_TRUE(night.next().isPutRight);
    night.putRight();
    night.doUntil(u"settle"_s);
    EXPECT_EQ(night.lamphouse().heat, machine::Heat::Lit);
}

TEST(StopTest, AnyOfTheBreakersOfItsLamphouseIsRight)
{
    Night night;
    night.doUntil(QString::fromLatin1(kDead));

    ASSERT_TRUE(night.doStep(QString::fromLatin1(kDead), [](QJsonObject& answers) {
        answers[u"point"_s] = u"panel B, 1 electronics;  panel B, 1 lamp-supply"_s;
    }));

    EXPECT_TRUE(night.isDone(QString::fromLatin1(kDead)));
}

/// What hangs on another screen's breaker says nothing of this one.
TEST(StopTest, TheLockOfAnotherScreenIsNotTheOneThatHangsHere)
{
    Night night(u"sedgebrook-nook"_s, Night::Crew::Alone, {}, {}, 2);
    night.doUntil(u"own-lock"_s, 1);
    ASSERT_TRUE(night.doStep(
        u"own-lock"_s, [](QJsonObject& answers) { answers[u"lock"_s] = u"74"_s; }, 1));
    night.doUntil(QString::fromLatin1(kDead), 0); // hung there: 47

    const Decision wrong =
        night.doStep(QString::fromLatin1(kDead), [](QJsonObject& answers) { answers[u"lock"_s] = u"74"_s; });

    ASSERT_TRUE(wrong);
    EXPECT_EQ(std::get<Did>(wrong->body).reopened, QStringList{u"own-lock"_s});
}

TEST(StopTest, TheLockThatWasHungOutsideTheStepsIsComparedWhereItsDigitsWereWrittenDown)
{
    Night night(u"sedgebrook-nook"_s, Night::Crew::WithRelief);
    night.doUntil(u"own-lock"_s);
    Acted hung;
    hung.act.effect = machine::Effect::LockOn;
    hung.act.person = night.ada();
    hung.act.lamphouse = night.state.ground->lamphouses[0];
    hung.answers[u"lock"_s] = u"63"_s;
    ASSERT_TRUE(night.tell(hung)); // her step is passed over then
    night.doUntil(QString::fromLatin1(kDead));
    Night right = night;

    ASSERT_TRUE(night.doStep(QString::fromLatin1(kDead), [](QJsonObject&) {})); // 47
    EXPECT_FALSE(night.isDone(QString::fromLatin1(kDead)));
    ASSERT_TRUE(right.doStep(QString::fromLatin1(kDead),
                             [](QJsonObject& answers) { answers[u"lock"_s] = u" 63"_s; }));
    EXPECT_TRUE(right.isDone(QString::fromLatin1(kDead)));
}

/// A lock that came off since is none that hangs: its number is not asked of whoever took over.
TEST(StopTest, TheLockOfWhoeverHandedOverIsNotTheOneThatHangs)
{
    Night night(u"sedgebrook-nook"_s, Night::Crew::WithRelief);
    night.doUntil(QString::fromLatin1(kDead));
    ASSERT_TRUE(night.doAct(night.ben(), machine::Effect::LockOn));
    ASSERT_TRUE(night.tell(night.ben(), PassedOn{night.ada(), night.ben()}));
    ASSERT_TRUE(night.doAct(night.ada(), machine::Effect::LockOff));
    night.doUntil(QString::fromLatin1(kDead));

    const Decision bens =
        night.doStep(QString::fromLatin1(kDead), [](QJsonObject& answers) { answers[u"lock"_s] = u"12"_s; });

    ASSERT_TRUE(bens) << wordsOf(bens.error());
    EXPECT_EQ(std::get<Did>(bens->body).reopened, QStringList());
}

TEST(StopTest, ItStartedTakesTheIsolationAwayWithTheProof)
{
    Night night;
    night.doUntil(QString::fromLatin1(kDead));

    ASSERT_TRUE(night.doStep(QString::fromLatin1(kDead),
                             [](QJsonObject& answers) { answers[u"start"_s] = u"It started"_s; }));

    EXPECT_EQ(night.lamphouse().charge, machine::Charge::Held);
    EXPECT_FALSE(night.lamphouse().startTried);
    EXPECT_EQ(night.state.machine.point[0].power, machine::Power::Doubted);
    EXPECT_EQ(night.lamphouse().heat, machine::Heat::Lit);
    EXPECT_EQ(night.nextId(), u"lamp-off"_s);
}

TEST(StopTest, SomethingOpenBeforeTheStrikeIsShutAndCountedAgainByGearedHands)
{
    Night night;
    night.doUntil(QString::fromLatin1(kStrike));
    ASSERT_TRUE(night.doStep(QString::fromLatin1(kStrike),
                             [](QJsonObject& answers) { answers[u"shut"_s] = u"Something is open"_s; }));
    EXPECT_TRUE(night.lamphouse().guardOpen);
    EXPECT_TRUE(night.lamphouse().leftExposed);

    QStringList way;
    for (int turn = 0; turn < 20 && night.nextId() != QLatin1String(kStrike); ++turn) {
        way.append(night.nextId());
        night.doNext();
    }

    EXPECT_EQ(way, (QStringList{u"gear-on"_s, u"enter-zone"_s, u"count-inside"_s, u"shut-guard"_s,
                                u"shut-housing"_s, u"leave-zone"_s, u"gear-off"_s, u"count-again"_s}));
    EXPECT_FALSE(night.lamphouse().guardOpen);
}

TEST(StopTest, TheTableNamesEveryLineThatCanBeWrong)
{
    for (const char* model : {kTeal, kPair, kNook}) {
        const auto* procedure = shippedProcedures().procedureFor(ModelId(QString::fromLatin1(model)));
        for (const procedure::Step& step : procedure->steps) {
            for (const procedure::Capture& capture : step.captures) {
                const bool isListed =
                    std::any_of(wrongAnswers().begin(), wrongAnswers().end(), [&](const WrongAnswer& one) {
                        return QLatin1String(one.model) == QLatin1String(model) &&
                               step.id.text() == QLatin1String(one.stop) &&
                               capture.id == QLatin1String(one.capture);
                    });
                EXPECT_EQ(step.stop && !wrongValues(capture).isEmpty(), isListed)
                    << model << step.id.text().toStdString() << capture.id.toStdString();
            }
        }
    }
}

TEST(StopTest, NamesEveryLineThatIsNotAnswered)
{
    Night night;
    night.doUntil(u"stop-cold-and-dead"_s);

    const Decision empty =
        night.doStep(u"stop-cold-and-dead"_s, [](QJsonObject& answers) { answers = QJsonObject(); });

    ASSERT_FALSE(empty);
    QStringList missing;
    for (const Why& why : empty.error().whys) {
        EXPECT_EQ(why.kind, Kind::AnswerMissing);
        missing.append(why.capture);
    }
    EXPECT_EQ(missing,
              (QStringList{u"point"_s, u"lock"_s, u"start"_s, u"charge"_s, u"tester"_s, u"stands"_s}));
}

TEST(StopTest, SeveralWrongAnswersOpenAllTheirSteps)
{
    Night night;
    night.doUntil(u"stop-cold-and-dead"_s);
    const procedure::Step* stop = night.swap().step(StepId(u"stop-cold-and-dead"_s));

    const Decision wrong = night.doStep(stop->id.text(), [&](QJsonObject& answers) {
        answers[u"start"_s] = stop->capture(u"start"_s)->choices[2].text;
        answers[u"charge"_s] = stop->capture(u"charge"_s)->choices[1].text;
    });

    ASSERT_TRUE(wrong);
    EXPECT_EQ(std::get<Did>(wrong->body).reopened, (QStringList{u"relieve"_s, u"try-start"_s}));
    EXPECT_EQ(night.lamphouse().charge, machine::Charge::Held);
    EXPECT_EQ(night.nextId(), u"relieve"_s);
}

TEST(StopTest, WithTwoPeopleTheOtherOneAnswers)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithTrainee);
    night.doUntil(u"stop-cold-and-dead"_s);
    const auto nothing = [](QJsonObject&) {};

    EXPECT_TRUE(isRefused(night.doStep(u"stop-cold-and-dead"_s, nothing, 0, night.ada()), Kind::NotOthers));
    EXPECT_TRUE(night.doStep(u"stop-cold-and-dead"_s, nothing, 0, night.ben()));
}

TEST(StopTest, ATraineeWhoDidTheStepsIsAnsweredForByTheEngineer)
{
    Night night(u"sedgebrook-nook"_s, Night::Crew::WithTrainee);
    while (night.nextId() != u"stop-cold-and-dead"_s) {
        night.holdWaits();
        const SwapState swap = night.swap();
        const NextStep next = nextStep(night.seen(), swap, night.state.person(night.ben()));
        ASSERT_TRUE(next.step);
        if (next.step->effect == machine::Effect::MatchBox)
            night.readLabels();
        const bool isEngineers =
            next.step->effect == machine::Effect::ProveAbsence; // the site lets ada alone
        Did did;
        did.swap = swap.id;
        did.step = next.step->id;
        did.answers = night.answersFor(swap, *next.step);
        did.countersignedBy = isEngineers ? PersonId() : night.ada();
        const Decision done = night.tell(isEngineers ? night.ada() : night.ben(), did);
        ASSERT_TRUE(done) << next.step->id.text().toStdString() << wordsOf(done.error());
        if (next.step->effect == machine::Effect::LockOn) {
            ASSERT_TRUE(night.doAct(night.ada(), machine::Effect::LockOn));
        }
    }
    const auto nothing = [](QJsonObject&) {};
    Night withdrawn = night;

    // Both had their hands in it: either may answer.
    EXPECT_TRUE(Night(night).doStep(u"stop-cold-and-dead"_s, nothing, 0, night.ada()));
    EXPECT_TRUE(Night(night).doStep(u"stop-cold-and-dead"_s, nothing, 0, night.ben()));
}

} // namespace
} // namespace coldarc::test
