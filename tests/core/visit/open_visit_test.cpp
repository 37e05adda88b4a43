#include "core/visit/open_visit.h"

#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::test {
namespace {

using namespace visit;
using Kind = OpenProblem::Kind;

constexpr people::Day kToday{2026y / 11 / 25};

people::Authorisation authorisation(const char16_t* person, people::Duty duty)
{
    people::Authorisation one;
    one.id = people::AuthorisationId(QString::fromUtf16(person) + QString::number(static_cast<int>(duty)));
    one.person = PersonId(QString::fromUtf16(person));
    one.duty = duty;
    one.from = people::Day{2026y / 1 / 1};
    one.until = people::Day{2026y / 12 / 31};
    one.givenBy = one.person;
    return one;
}

/// Everything of the night's own opening, asked for as a person would.
WantedVisit wantedLike(const Opening& opening)
{
    WantedVisit wanted;
    wanted.visit = opening.visit;
    wanted.reason = opening.reason;
    wanted.site = opening.site;
    people::Person ada;
    ada.id = PersonId(u"ada"_s);
    ada.name = u"A. Okoro"_s;
    ada.role = people::Role::Engineer;
    wanted.people.append({ada, {authorisation(u"ada", people::Duty::LampSwap)}});
    for (const SwapPlan& swap : opening.swaps)
        wanted.swaps.append({swap.id, swap.lamphouse, swap.newLamp});
    for (qsizetype index = 0; index < opening.fitted.size(); ++index)
        wanted.fitted.append({opening.fittedIn[index], opening.fitted[index]});
    wanted.today = kToday;
    return wanted;
}

class OpenVisitTest : public ::testing::Test {
protected:
    Night night;
    WantedVisit wanted = wantedLike(night.opening());
    Shelf shelf{shippedCatalogue(), shippedProcedures()};
    lamps::InHand inHand;

    [[nodiscard]] bool has(Kind kind) const
    {
        const auto opening = openingFor(wanted, shelf, inHand);
        if (opening)
            return false;
        for (const OpenProblem& problem : opening.error()) {
            if (problem.kind == kind)
                return true;
        }
        return false;
    }
};

TEST_F(OpenVisitTest, GivesWhatAVisitCanBeginWith)
{
    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_TRUE(opening);
    const Decision begun = decide(VisitState(), night.ada(), *opening, night.clock.now());
    EXPECT_TRUE(begun) << (begun ? "" : wordsOf(begun.error()));
    EXPECT_EQ(opening->weeklyHours, 70.0);
    EXPECT_EQ(opening->people.first().mayLead, true);
    EXPECT_EQ(opening->people.first().mayProve, true) << "the site lets the engineer prove absence";
    EXPECT_EQ(opening->people.first().maySupervise, false);
}

TEST_F(OpenVisitTest, TakesTheExactTextsAndOnlyThoseThatTheSwapsNeed)
{
    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_TRUE(opening);
    const catalogue::ProjectorModel& model = *shelf.catalogue.model(ModelId(u"larkmoor-teal"_s));
    // the model, its lamp types, one procedure, the gear
    ASSERT_EQ(opening->texts.size(), 3 + model.lampTypes.size());
    EXPECT_EQ(opening->texts.first().bytes, shelf.catalogue.document(model.id).text);
    EXPECT_EQ(opening->texts.last().kind, Text::Kind::Gear);
    EXPECT_EQ(opening->texts.last().bytes, shelf.catalogue.gearDocument().text);
}

TEST_F(OpenVisitTest, LeavesOutLampsThatNoBreakerOfThisVisitFeeds)
{
    const Night two(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    wanted = wantedLike(two.opening());
    wanted.swaps.removeLast();

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_TRUE(opening);
    EXPECT_EQ(opening->fittedIn, QList<LamphouseId>{wanted.swaps.first().lamphouse});
}

TEST_F(OpenVisitTest, KeepsTheOtherLamphouseOnASharedBreaker)
{
    const Night pair(u"quillhaven-pair"_s);
    wanted = wantedLike(pair.opening());

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_TRUE(opening);
    EXPECT_EQ(opening->fitted.size(), 2);
}

TEST_F(OpenVisitTest, IsNotLedBySomebodyWhoseAuthorisationEndedYesterday)
{
    wanted.people.first().authorisations.front().until = people::Day{2026y / 11 / 24};

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_FALSE(opening);
    EXPECT_EQ(opening.error(), (QList<OpenProblem>{{Kind::LeadNotAuthorised,
                                                    u"ada"_s,
                                                    u"larkmoor-teal"_s,
                                                    people::Authority::Verdict::Expired,
                                                    {}}}));
}

TEST_F(OpenVisitTest, IsNotLedByATrainee)
{
    wanted.people.first().person.role = people::Role::Trainee;

    EXPECT_TRUE(has(Kind::LeadNotAuthorised));
}

TEST_F(OpenVisitTest, LetsATraineeComeAlongUnderSupervision)
{
    people::Person ben;
    ben.id = PersonId(u"ben"_s);
    ben.name = u"B. Lind"_s;
    ben.role = people::Role::Trainee;
    wanted.people.append({ben, {authorisation(u"ben", people::Duty::LampSwap)}});

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_TRUE(opening);
    EXPECT_EQ(opening->people.last().mayAssist, true);
    EXPECT_EQ(opening->people.last().mayLead, false);
    EXPECT_EQ(opening->people.last().mayProve, false);
}

TEST_F(OpenVisitTest, TakesAlongWhichGearIsPastItsDateWithNoOtherToWear)
{
    people::GearItem old;
    old.kind = u"face-shield"_s;
    old.expires = std::chrono::year(2020) / std::chrono::January;
    people::GearItem good = old;
    good.expires = std::nullopt;
    people::GearItem jacket = old;
    jacket.kind = u"jacket"_s;
    wanted.people.first().gear = {old, good, jacket};

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_TRUE(opening);
    EXPECT_EQ(opening->people.first().unfitGear, QStringList{u"jacket"_s}); // the second shield can be worn
}

TEST_F(OpenVisitTest, TakesAlongThatALockWasRemovedAndItsOwnerNotToldYet)
{
    wanted.people.first().hasRemovalToTell = true;

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_TRUE(opening);
    EXPECT_TRUE(opening->people.first().hasRemovalToTell);
}

TEST_F(OpenVisitTest, LetsOnlyTheQualifiedProveAbsenceWhereTheSiteAsksForThem)
{
    wanted.site.site.profile.mayProveAbsence = site::AbsenceProver::Qualified;

    const auto without = openingFor(wanted, shelf, inHand);
    wanted.people.first().authorisations.push_back(authorisation(u"ada", people::Duty::ProveAbsence));
    const auto with = openingFor(wanted, shelf, inHand);

    ASSERT_TRUE(without && with);
    EXPECT_FALSE(without->people.first().mayProve);
    EXPECT_TRUE(with->people.first().mayProve);
}

TEST_F(OpenVisitTest, LetsOnlyAnAuthorisedElectricianProveAbsenceWhereTheSiteAsksForOne)
{
    wanted.site.site.profile.mayProveAbsence = site::AbsenceProver::Electrician;
    wanted.people.first().authorisations.push_back(authorisation(u"ada", people::Duty::ProveAbsence));
    people::Person eva;
    eva.id = PersonId(u"eva"_s);
    eva.name = u"E. Brandt"_s;
    eva.role = people::Role::Electrician;
    wanted.people.append({eva, {}});

    const auto without = openingFor(wanted, shelf, inHand);
    wanted.people.last().authorisations = {authorisation(u"eva", people::Duty::ProveAbsence),
                                           authorisation(u"eva", people::Duty::LampSwap),
                                           authorisation(u"eva", people::Duty::Supervise)};
    const auto with = openingFor(wanted, shelf, inHand);

    ASSERT_TRUE(without && with) << "nobody is missed who can join later";
    EXPECT_FALSE(without->people.first().mayProve) << "qualified, yet no electrician";
    EXPECT_FALSE(without->people.last().mayProve);
    EXPECT_TRUE(with->people.last().mayProve);
    EXPECT_FALSE(with->people.last().worksOnLamps() || with->people.last().maySupervise);
    EXPECT_EQ(factsFor(wanted.people.last(), *with, wanted.today), with->people.last());
}

TEST_F(OpenVisitTest, LetsAnElectricianProveAbsenceAmongTheQualifiedAndNotWhereTheEngineerDoes)
{
    people::Person eva;
    eva.id = PersonId(u"eva"_s);
    eva.role = people::Role::Electrician;
    wanted.people.append({eva, {authorisation(u"eva", people::Duty::ProveAbsence)}});

    wanted.site.site.profile.mayProveAbsence = site::AbsenceProver::Qualified;
    EXPECT_TRUE(openingFor(wanted, shelf, inHand)->people.last().mayProve);
    wanted.site.site.profile.mayProveAbsence = site::AbsenceProver::Engineer;
    EXPECT_FALSE(openingFor(wanted, shelf, inHand)->people.last().mayProve);
}

TEST_F(OpenVisitTest, IsNotLedByAnElectrician)
{
    wanted.people.first().person.role = people::Role::Electrician;

    EXPECT_TRUE(has(Kind::LeadNotAuthorised));
}

TEST_F(OpenVisitTest, NamesEverythingThatStandsInTheWayAtOnce)
{
    wanted.swaps.first().newLamp.type.reset();
    wanted.people.clear();
    wanted.site.points.clear();

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_FALSE(opening);
    EXPECT_TRUE(has(Kind::LampTypeNotChosen));
    EXPECT_TRUE(has(Kind::NobodyLeads));
    EXPECT_TRUE(has(Kind::SiteDoesNotFit)) << "nothing is known to energise the lamphouse";
}

TEST_F(OpenVisitTest, RefusesALampThatTheModelDoesNotTake)
{
    const catalogue::ProjectorModel& model = *shelf.catalogue.model(ModelId(u"larkmoor-teal"_s));
    for (const catalogue::LampType& type : shelf.catalogue.lampTypes()) {
        if (!model.takes(type.id))
            wanted.swaps.first().newLamp.type = type.id;
    }

    EXPECT_TRUE(has(Kind::LampTypeNotTaken));
}

TEST_F(OpenVisitTest, RefusesALampAtTheEndOfItsTypesLife)
{
    LampFacts& lamp = wanted.swaps.first().newLamp;
    const double end = shelf.catalogue.lampType(*lamp.type)->replaceByHours;
    lamp.hours = end - 1;
    EXPECT_FALSE(has(Kind::LampPastItsHours));
    lamp.hours = end;

    EXPECT_TRUE(has(Kind::LampPastItsHours));
}

TEST_F(OpenVisitTest, RefusesASecondBreakerForOneSupplyOnlyWhereItsLampsAreWorkedOn)
{
    const Night two(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    wanted = wantedLike(two.opening());
    wanted.swaps.removeLast();
    const auto second = [&](const LamphouseId& lamphouse) {
        site::IsolationPoint point = wanted.site.points.front();
        for (const site::IsolationPoint& one : wanted.site.points) {
            if (one.doesFeed(lamphouse))
                point = one;
        }
        point.id = PointId(u"second"_s);
        point.circuit = u"99"_s;
        return point;
    };
    const site::SiteDocument plain = wanted.site;
    wanted.site.points.push_back(second(two.opening().swaps.last().lamphouse));
    EXPECT_FALSE(has(Kind::SiteDoesNotFit)) << "of a lamphouse that nobody works on";
    wanted.site = plain;
    wanted.site.points.push_back(second(wanted.swaps.first().lamphouse));

    EXPECT_TRUE(has(Kind::SiteDoesNotFit));
}

TEST_F(OpenVisitTest, RefusesOneLampForTwoLamphousesAndOneLamphouseTwice)
{
    WantedSwap again = wanted.swaps.first();
    again.id = SwapId(u"swap-9"_s);
    wanted.swaps.append(again);

    EXPECT_TRUE(has(Kind::SwappedTwice));
    EXPECT_TRUE(has(Kind::LampTwice));
}

TEST_F(OpenVisitTest, OpensNoSecondVisitAtALamphouseThatAnUnfinishedOneHasInHand)
{
    const WallTime since = night.clock.now().wall - 24h;
    addInHand(inHand, night.state, since);
    for (WantedSwap& swap : wanted.swaps)
        swap.newLamp.id = LampId(u"another"_s);

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_FALSE(opening);
    OpenProblem there{Kind::LamphouseInHand, wanted.swaps.first().lamphouse.text()};
    there.since = since;
    EXPECT_EQ(opening.error(), QList<OpenProblem>{there});
}

TEST_F(OpenVisitTest, DoesNotEvenTakeUpWhatIsOwedThereMeanwhile)
{
    addInHand(inHand, night.state, night.clock.now().wall);
    wanted.swaps.first().owed = {{StepId(u"peak-again"_s), VisitId(u"old"_s), {}, LampId(u"old-1"_s)}};

    EXPECT_TRUE(has(Kind::LamphouseInHand));
    EXPECT_FALSE(has(Kind::LampInHand)) << "nothing is brought";
}

TEST_F(OpenVisitTest, BringsNoLampThatAnUnfinishedVisitElsewhereBrings)
{
    addInHand(inHand, night.state, night.clock.now().wall);
    inHand.lamphouses.clear();

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_FALSE(opening);
    EXPECT_EQ(opening.error(),
              (QList<OpenProblem>{{Kind::LampInHand, wanted.swaps.first().lamphouse.text()}}));
}

TEST_F(OpenVisitTest, IsHeldUpByNoVisitThatEndedOrThatThisProgramCannotGoOnWith)
{
    VisitState ended = night.state;
    ended.end = u"done"_s;
    VisitState newer = night.state;
    newer.isReadOnly = true;
    for (const VisitState& state : {ended, newer, VisitState()})
        addInHand(inHand, state, night.clock.now().wall);

    EXPECT_EQ(inHand, lamps::InHand());
    EXPECT_TRUE(openingFor(wanted, shelf, inHand));
}

TEST_F(OpenVisitTest, BringsNoLampThatIsInALamphouseOrGone)
{
    using lamps::Custody;
    const auto problemOf = [&](Custody custody) -> std::optional<Kind> {
        wanted.swaps.first().custody = custody;
        const auto opening = openingFor(wanted, shelf, inHand);
        return opening ? std::nullopt : std::optional(opening.error().first().kind);
    };
    EXPECT_EQ(problemOf(Custody::Fitted), Kind::LampInASeat);
    for (const Custody custody : {Custody::Returned, Custody::Recycled, Custody::Burst})
        EXPECT_EQ(problemOf(custody), Kind::LampGone) << lamps::wordOf(custody).toStdString();
    for (const Custody custody : {Custody::OnOrder, Custody::InStock, Custody::InVan, Custody::Boxed,
                                  Custody::KeptBySite, Custody::Unused})
        EXPECT_EQ(problemOf(custody), std::nullopt) << lamps::wordOf(custody).toStdString();
}

TEST_F(OpenVisitTest, RefusesAVisitWithoutASwap)
{
    wanted.swaps.clear();

    EXPECT_TRUE(has(Kind::NothingToSwap));
}

TEST_F(OpenVisitTest, RefusesAModelWithoutAProvedProcedure)
{
    const procedure::ProcedureLoading none;
    const Shelf bare{shippedCatalogue(), none};

    const auto opening = openingFor(wanted, bare, {});

    ASSERT_FALSE(opening);
    EXPECT_EQ(opening.error().first().kind, Kind::NoProcedure);
}

TEST_F(OpenVisitTest, RefusesMoreLamphousesThanOneVisitHolds)
{
    const Night pair(u"quillhaven-pair"_s, Night::Crew::Alone, {}, {}, 2); // 4 lamphouses: as many as go
    wanted = wantedLike(pair.opening());
    ASSERT_TRUE(openingFor(wanted, shelf, inHand));
    // one breaker for both screens and a third pair
    site::SiteDocument& site = wanted.site;
    site.screens.push_back({ScreenId(u"screen-3"_s), u"Screen 3"_s, {}, {}});
    site.projectors.push_back(
        {ProjectorId(u"projector-3"_s), ModelId(u"quillhaven-pair"_s), ScreenId(u"screen-3"_s), {}});
    for (const QString& label : {u"left"_s, u"right"_s}) {
        const LamphouseId id(u"lamphouse-3-"_s + label);
        site.lamphouses.push_back({id, ProjectorId(u"projector-3"_s), label, {}});
        site.points.front().feeds.push_back({id, catalogue::RoleId(u"shared-feed"_s)});
    }

    EXPECT_TRUE(has(Kind::MoreThanAVisit));
}

// 40 + 5 minutes of steps; Cold 900 s, bleed 90 s (rounded up to 2 min), settle 1800 s: 15 + 2 + 30.
TEST_F(OpenVisitTest, AddsTheStepsMinutesAndEachWaitOnce)
{
    catalogue::ProjectorModel model;
    model.coolFan = 900s;
    model.bleed = 90s;
    model.settle = 1800s;
    const auto step = [](const char16_t* id, machine::Effect effect, int minutes) {
        procedure::Step one;
        one.id = StepId(QString::fromUtf16(id));
        one.effect = effect;
        one.minutes = minutes;
        return one;
    };
    procedure::Procedure procedure;
    procedure.steps = {step(u"off", machine::Effect::LampOff, 0), step(u"bleed", machine::Effect::Relieve, 0),
                       step(u"bleed-2", machine::Effect::Relieve, 5),
                       step(u"strike", machine::Effect::Strike, 40)};

    const NeededTime needed = timeNeeded(procedure, model, {});

    EXPECT_EQ(needed, (NeededTime{45min, 47min}));
    EXPECT_EQ((needed + needed).total(), 184min);
}

TEST_F(OpenVisitTest, CountsNoWaitThatNoStepStarts)
{
    catalogue::ProjectorModel model;
    model.coolFan = 900s;

    EXPECT_EQ(timeNeeded(procedure::Procedure(), model, {}), NeededTime());
}

lamps::Fit stayFrom(double counter)
{
    lamps::Fit stay;
    stay.counterIn = lamps::CounterHours::fromHours(counter);
    stay.from = WallTime(1000ms);
    return stay;
}

lamps::CounterReading readingOf(double counter, std::chrono::milliseconds at)
{
    lamps::CounterReading reading;
    reading.hours = lamps::CounterHours::fromHours(counter);
    reading.at = WallTime(at);
    return reading;
}

// 100 h before this stay; the counter went from 5000 to 6850 h: 1950 h.
TEST_F(OpenVisitTest, CountsWhatALampBurntBeforeAndSince)
{
    const lamps::Lamp lamp{LampId(u"l"_s), LampTypeId(u"hollin-21"_s), u"HV1"_s,
                           lamps::LampHours::fromHours(100)};

    const LampFacts facts = fittedFacts(lamp, stayFrom(5000), readingOf(6850, 2000ms));

    ASSERT_TRUE(facts.hours);
    EXPECT_DOUBLE_EQ(*facts.hours, 1950);
    EXPECT_EQ(facts.serial, u"HV1"_s);
    // its warranty is 2000 h
    EXPECT_DOUBLE_EQ(warrantyHoursLeft(facts, shelf.catalogue).value(), 50);
}

TEST_F(OpenVisitTest, SaysNothingOfHoursThatNobodyKnows)
{
    lamps::Lamp lamp{LampId(u"l"_s), LampTypeId(u"hollin-21"_s), u"HV1"_s, lamps::LampHours::fromHours(100)};

    EXPECT_FALSE(fittedFacts(lamp, {}, readingOf(6850, 2000ms)).hours);
    EXPECT_FALSE(fittedFacts(lamp, stayFrom(5000), {}).hours);
    EXPECT_FALSE(fittedFacts(lamp, stayFrom(5000), readingOf(6850, 500ms)).hours) << "from before the stay";
    EXPECT_FALSE(fittedFacts(lamp, stayFrom(5000), readingOf(4999, 2000ms)).hours) << "ran backwards";
    lamp.hours.reset();
    EXPECT_FALSE(fittedFacts(lamp, stayFrom(5000), readingOf(6850, 2000ms)).hours);
    EXPECT_FALSE(warrantyHoursLeft({LampId(u"l"_s), {}, {}, 10.0}, shelf.catalogue));
}

// ---- What is owed -----------------------------------------------------------------------------------------

class OpenFollowUpTest : public OpenVisitTest {
protected:
    void SetUp() override
    {
        wanted = wantedLike(followUpOf(night, {u"peak-again"_s}));
        wanted.swaps.first().owed = {{StepId(u"peak-again"_s), VisitId(u"visit-1"_s), night.clock.now().wall,
                                      wanted.fitted.first().lamp.id}};
    }
};

TEST_F(OpenFollowUpTest, IsOpenedWithoutANewLamp)
{
    wanted.swaps.first().newLamp = {LampId(u"stray"_s), {}, u"STRAY"_s, {}};

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_TRUE(opening);
    EXPECT_EQ(opening->swaps.first().owed, wanted.swaps.first().owed);
    EXPECT_EQ(opening->swaps.first().newLamp, LampFacts());
    EXPECT_TRUE(decide(VisitState(), night.ada(), *opening, night.clock.now()));
}

TEST_F(OpenFollowUpTest, IsNotOpenedOnceTheProcedureHasNoSuchStep)
{
    wanted.swaps.first().owed.append(
        {StepId(u"polish"_s), VisitId(u"visit-1"_s), {}, wanted.fitted.first().lamp.id});

    const auto opening = openingFor(wanted, shelf, inHand);

    ASSERT_FALSE(opening);
    EXPECT_EQ(opening.error(),
              (QList<OpenProblem>{{Kind::OwedStepGone, u"lamphouse-1-main"_s, u"polish"_s}}));
}

TEST_F(OpenFollowUpTest, IsNotOpenedForALampThatNobodyKnows)
{
    wanted.fitted.clear();

    EXPECT_TRUE(has(Kind::OwedLampUnknown));
}

TEST_F(OpenFollowUpTest, IsNotOpenedForAnotherLampThanTheOneThatItIsOwedTo)
{
    wanted.swaps.first().owed.first().lamp = LampId(u"a lamp that came out since"_s);

    EXPECT_TRUE(has(Kind::OwedLampUnknown));
}

TEST_F(OpenFollowUpTest, IsNotOpenedByAnUnprovedWay)
{
    // A procedure that signs before it has done what is owed.
    procedure::ProcedureLoading loading = shippedProcedures();
    for (procedure::Procedure& procedure : loading.procedures) {
        const auto last = std::ranges::find(procedure.steps, machine::Effect::Sign, &procedure::Step::effect);
        if (procedure.model == ModelId(u"larkmoor-teal"_s) && last != procedure.steps.end())
            procedure.steps.move(last - procedure.steps.begin(), 0);
    }
    const Shelf other{shippedCatalogue(), loading};

    const auto opening = openingFor(wanted, other, {});

    ASSERT_FALSE(opening);
    ASSERT_EQ(opening.error().size(), 1);
    EXPECT_EQ(opening.error().first().kind, Kind::OwedNotProved);
}

TEST_F(OpenFollowUpTest, NeedsAnAuthorisedLeadLikeAnyVisit)
{
    wanted.people.first().authorisations.clear();

    EXPECT_TRUE(has(Kind::LeadNotAuthorised));
}

// By the shipped file: find 1 min, read-counters 1, key-controller 2, power-up 1, restores and tell-again 1
// each, strike 1, peak-again 5, sign 2; nothing is cooled down and nothing is let down.
TEST_F(OpenFollowUpTest, NeedsTheSettlingAndItsOwnStepsOnly)
{
    const catalogue::ProjectorModel& model = *shelf.catalogue.model(ModelId(u"larkmoor-teal"_s));
    const procedure::Procedure& procedure = *shelf.procedures.procedureFor(model.id);

    const NeededTime needed = timeNeeded(procedure, model, procedure::LampFacts(), {StepId(u"peak-again"_s)});

    EXPECT_EQ(needed.waits, std::chrono::ceil<std::chrono::minutes>(model.settle));
    EXPECT_EQ(needed.hands, 16min);
}

TEST(SumOfNeededTimeTest, IsUnknownWhereOneIsUnknown)
{
    EXPECT_EQ(sumOf(NeededTime{1min, 2min}, NeededTime{3min, 4min}), std::optional(NeededTime{4min, 6min}));
    EXPECT_EQ(sumOf(std::nullopt, NeededTime{3min, 4min}), std::nullopt);
}

} // namespace
} // namespace coldarc::test
