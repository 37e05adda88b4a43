#include "core/review/exceptions.h"

#include "core/photometry/tolerance_file.h"
#include "core/visit/wanted_signature.h"
#include "tests/core/photometry/good_sheet.h"
#include "tests/core/visit/night.h"

#include <algorithm>

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using namespace visit;
using test::Night;
using Kind = Exception::Kind;

/// An invented opening where the lamp found has burnt what its counter shows (the nights answer 900 h).
Opening plainOpening(Night::Crew crew = Night::Crew::Alone)
{
    Opening opening = Night(u"larkmoor-teal"_s, crew).opening();
    for (LampFacts& fitted : opening.fitted) {
        fitted.hours = 900;
        fitted.counter = 900;
    }
    return opening;
}

/// Each step in about the time that its procedure foresees.
void work(Night& night, const QString& until = {})
{
    while (!night.nextId().isEmpty() && night.nextId() != until) {
        night.clock.advance(std::chrono::minutes(night.next().step->minutes));
        const Decision done = night.doNext();
        ASSERT_TRUE(done) << test::wordsOf(done.error());
    }
    night.holdWaits();
}

void endPlainly(Night& night)
{
    work(night);
    night.close();
}

QList<Exception> found(const Night& night)
{
    return exceptionsOf(night.state, night.entries);
}

QList<Kind> kindsOf(const QList<Exception>& exceptions)
{
    QList<Kind> kinds;
    for (const Exception& one : exceptions)
        kinds.append(one.kind);
    return kinds;
}

/// The one of this kind; fails the test where there is none, or more than one.
Exception theOne(const QList<Exception>& exceptions, Kind kind)
{
    QList<Exception> of;
    std::ranges::copy_if(exceptions, std::back_inserter(of),
                         [&](const Exception& one) { return one.kind == kind; });
    EXPECT_EQ(of.size(), 1) << wordOf(kind).toStdString();
    return of.isEmpty() ? Exception() : of.first();
}

/// Every signature that is wanted, made when its entry was.
QList<HeadSigned> signedAsWanted(const Night& night)
{
    QList<HeadSigned> all;
    for (const WantedSignature& one : wantedSignatures(night.entries, night.state))
        all.append({one.entry, one.person, one.meaning, night.entries[one.entry].at.wall, true});
    return all;
}

TEST(ExceptionsOfANight, ThePlainNightHasNone)
{
    Night night(plainOpening());
    endPlainly(night);
    const QList<HeadSigned> signatures = signedAsWanted(night);

    EXPECT_EQ(kindsOf(exceptionsOf(night.state, night.entries, &signatures)), QList<Kind>());
    EXPECT_EQ(kindsOf(exceptionsOf(VisitState(), {})), QList<Kind>());
}

TEST(ExceptionsOfANight, AnIncidentIsNamedByItsKindAndASafeWardActByTheGatesThatWaited)
{
    Night night(plainOpening());
    work(night, u"box-old"_s);
    ASSERT_TRUE(night.tell(Withdrawn{night.swap().record(StepId(u"try-start"_s)).entry, u"nobody looked"_s}));
    ASSERT_TRUE(night.doNext()); // the lamp in hand goes into its box, whatever waits
    const qint64 boxed = night.entries.size() - 1;
    ASSERT_TRUE(night.tell(Happened{Incident::FastenerSeized, night.swap().id, {}, {}, {}, {}, {}}));

    const QList<Exception> all = found(night);

    const Exception incident = theOne(all, Kind::IncidentMet);
    EXPECT_EQ(incident.words, QStringList{u"fastener-seized"_s});
    EXPECT_EQ(incident.swap, night.swap().id);
    EXPECT_EQ(incident.entry, night.entries.size() - 1);
    const Exception waiting = theOne(all, Kind::SafeWardWithGateWaiting);
    EXPECT_EQ(waiting.entry, boxed);
    EXPECT_EQ(waiting.words, QStringList{u"dead"_s});
    const Exception withdrawn = theOne(all, Kind::EntryWithdrawn);
    EXPECT_EQ(withdrawn.other, night.swap().record(StepId(u"try-start"_s)).entry < 0
                                   ? std::get<Withdrawn>(night.entries[withdrawn.entry].body).entry
                                   : -1);
    EXPECT_TRUE(std::ranges::is_sorted(all, std::greater(), [](const Exception& e) {
        return weightOf(e.kind);
    })) << "what weighs most comes first";
}

/// The entries of a night without those of these steps: as somebody writes them who was let do none of it.
Night without(const Night& night, const QStringList& steps)
{
    Night forged(night.opening());
    for (const visit::Entry& entry : night.entries) {
        const auto* did = std::get_if<Did>(&entry.body);
        if (std::holds_alternative<Opening>(entry.body) || (did && steps.contains(did->step.text())))
            continue;
        forged.state = evolve(forged.state, entry);
        forged.entries.append(entry);
    }
    return forged;
}

TEST(ExceptionsOfANight, WhatWasDoneBeforeItWasColdDeadAndGearedIsToldWithTheGatesThatWaited)
{
    Night night(plainOpening());
    work(night, u"clamp-new"_s);
    const Night forged = without(night, {u"try-start"_s, u"absence"_s, u"gear-on"_s});
    ASSERT_FALSE(forged.state.isReadOnly);

    QMap<QString, QStringList> skipped;
    for (const Exception& one : found(forged)) {
        if (one.kind == Kind::GateSkipped)
            skipped.insert(std::get<Did>(forged.entries[one.entry].body).step.text(), one.words);
    }

    EXPECT_EQ(skipped.value(u"open-housing"_s), (QStringList{u"dead"_s}));
    EXPECT_EQ(skipped.value(u"expose-lamp"_s), (QStringList{u"dead"_s, u"geared"_s}));
    EXPECT_EQ(skipped.value(u"unbox-new"_s), (QStringList{u"dead"_s, u"geared"_s}));
    EXPECT_FALSE(skipped.contains(u"box-old"_s)) << "that leads to safety, and is told as such";
    EXPECT_EQ(found(forged).first().kind, Kind::GateSkipped) << "it weighs most";
    EXPECT_FALSE(kindsOf(found(night)).contains(Kind::GateSkipped));
}

TEST(ExceptionsOfANight, ALockThatWasTakenOffNamesItsOwner)
{
    Night night(plainOpening(Night::Crew::WithRelief));
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), machine::Effect::LockOn));
    ASSERT_TRUE(night.tell(
        Joined{{PersonId(u"sup"_s), u"S. Tarn"_s, people::Role::Supervisor, false, false, false, true}}));
    ASSERT_TRUE(
        night.tell(night.ben(), LockRemoved{night.ada(), LamphouseId(u"lamphouse-1-main"_s),
                                            PersonId(u"sup"_s), u"car gone"_s, u"22:10 no answer"_s}));

    EXPECT_EQ(theOne(found(night), Kind::LockRemoved).person, night.ada());
}

TEST(ExceptionsOfANight, AWaitThatAnIncidentCutAndAGapAndAClockSetBackAreTold)
{
    Night night(plainOpening());
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.doNext());
    night.clock.advance(10min);
    ASSERT_TRUE(night.tell(
        Happened{Incident::FanOrPower, night.swap().id, LamphouseId(u"lamphouse-1-main"_s), {}, {}, {}, {}}));
    night.clock.sleep(90s);
    ASSERT_TRUE(night.tell(Noted{{}, u"back again"_s}));
    night.clock.setWall(night.clock.now().wall - 4h);
    ASSERT_TRUE(night.tell(Noted{{}, u"clock set back"_s}));

    const QList<Exception> all = found(night);

    EXPECT_EQ(theOne(all, Kind::WaitCutByIncident).entry, night.entries.size() - 3);
    EXPECT_EQ(theOne(all, Kind::GapNobodyWitnessed).figure, 90.0);
    EXPECT_EQ(theOne(all, Kind::ClockWentBack).figure, 14400.0);
}

TEST(ExceptionsOfANight, AClockThatWasSetBackByLessThanThePauseIsToldByTheBootClock)
{
    Night night(plainOpening());
    night.clock.advance(12min);
    night.clock.setWall(night.clock.now().wall - 10min);
    ASSERT_TRUE(night.tell(Noted{{}, u"two minutes later, it says"_s}));

    EXPECT_EQ(theOne(found(night), Kind::ClockWentBack).figure, 600.0);
    night.clock.advance(1min);
    night.clock.setWall(night.clock.now().wall - 5s);
    ASSERT_TRUE(night.tell(Noted{{}, u"it keeps itself right"_s}));
    EXPECT_EQ(theOne(found(night), Kind::ClockWentBack).entry, 1);
}

TEST(ExceptionsOfANight, AnotherComputerWhoseClockIsBehindHasNotBeenSetBack)
{
    Night night(plainOpening());
    night.clock.advance(1min);
    night.clock.otherMachine(10s);
    night.clock.setWall(night.clock.now().wall - 15min);
    ASSERT_TRUE(night.tell(Noted{{}, u"on another one"_s}));

    const QList<Exception> all = found(night);

    EXPECT_FALSE(kindsOf(all).contains(Kind::ClockWentBack));
    EXPECT_EQ(theOne(all, Kind::OtherClockBehind).figure, 830.0); // 15 min less 70 s that went by
}

TEST(ExceptionsOfANight, AFanThatStoodStillUnseenBeginsTheWaitAnewAndIsTold)
{
    Night night(plainOpening());
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.doNext());
    night.clock.sleep(5min);
    const LamphouseId here(u"lamphouse-1-main"_s);
    ASSERT_TRUE(night.tell(FanAnswered{here, false, {}}));

    EXPECT_EQ(theOne(found(night), Kind::WaitCutByIncident).entry, night.entries.size() - 1);
    night.clock.sleep(5min);
    EXPECT_FALSE(night.tell(FanAnswered{here, true, {}})) << "the wait without the fan asks for none";
}

TEST(ExceptionsOfANight, WhatAVisitThatWasCutShortDidNotComeToIsOwed)
{
    Night night(plainOpening());
    work(night, u"settle"_s);
    ASSERT_TRUE(night.tell(Owed{night.swap().id, StepId(u"settle"_s)}));
    night.makeSafe();
    night.close();
    ASSERT_EQ(night.state.end, u"as-it-is"_s);
    const auto owed = [&](qint64 entry) {
        QStringList steps;
        for (const Exception& one : found(night)) {
            if (one.kind == Kind::StepOwed && one.entry == entry && one.swap == night.swap().id)
                steps += one.words;
        }
        return steps;
    };

    const qint64 closing = night.entries.size() - 1;
    EXPECT_EQ(owed(closing), (QStringList{u"peak-again"_s, u"measure-screen"_s, u"look-picture"_s}));
    EXPECT_EQ(owed(night.swap().record(StepId(u"settle"_s)).entry), QStringList{u"settle"_s}) << "once";
}

TEST(ExceptionsOfANight, AMismatchAndASerialThatWasPassedNameTheSource)
{
    Night night(plainOpening());
    night.doUntil(u"match-box"_s);
    night.readLabels();
    ASSERT_TRUE(night.tell(LampRead{
        LampId(u"new-1"_s), {label::Source::Box, label::Means::Typed, u"HVQ21-40A"_s, u"NEW00000I"_s}}));
    label::SerialPass pass;
    pass.source = label::Source::Box;
    pass.read = u"NEW00000I"_s;
    pass.entry = u"NEW000001"_s;
    pass.reason = u"label smudged"_s;
    ASSERT_TRUE(night.tell(SerialPassed{LampId(u"new-1"_s), pass}));

    const QList<Exception> all = found(night);

    EXPECT_EQ(theOne(all, Kind::LabelsDisagreed).words, QStringList{u"box"_s});
    EXPECT_EQ(theOne(all, Kind::SerialPassed).words, QStringList{u"box"_s});
    EXPECT_EQ(theOne(all, Kind::SerialPassed).swap, night.swap().id);
}

TEST(ExceptionsOfANight, AThresholdAtOrAboveWarrantyStandsBesideTheWarranty)
{
    Night night(plainOpening(Night::Crew::WithRelief));
    night.doUntil(u"book-in"_s);
    night.readMarking();
    const double warranty = night.newType().warrantyHours;
    Did did{night.swap().id, StepId(u"book-in"_s), {}, {}, {}, {}, {}, {}};
    did.answers = night.answersFor(night.swap(), *night.swap().step(did.step));
    did.answers[u"threshold"_s] = QString::number(warranty + 50);
    did.countersignedBy = night.ben();
    did.reason = u"the next visit is in a week"_s;
    ASSERT_TRUE(night.tell(did));

    const Exception passed = theOne(found(night), Kind::ThresholdAtOrAboveWarranty);

    EXPECT_EQ(passed.figure, warranty + 50);
    EXPECT_EQ(passed.against, warranty);
}

TEST(ExceptionsOfANight, ADoubtedLampAndOneTypingAreTold)
{
    Night night(plainOpening());
    night.doUntil(u"match-box"_s);
    for (const label::Source source : {label::Source::Box, label::Source::Entry})
        ASSERT_TRUE(night.tell(
            LampRead{LampId(u"new-1"_s), {source, label::Means::Typed, u"HVQ21-40A"_s, u"NEW000001"_s}}));
    Did did{night.swap().id, StepId(u"match-box"_s), {}, {}, {}, {}, {}, {}};
    did.doubts = {u"serial-returned"_s};
    did.doubtsAnswer = u"Looked again"_s;
    ASSERT_TRUE(night.tell(did));

    const QList<Exception> all = found(night);

    EXPECT_EQ(theOne(all, Kind::LampDoubted).words, QStringList{u"serial-returned"_s});
    EXPECT_EQ(theOne(all, Kind::OnOneTyping).entry, night.entries.size() - 1);
}

TEST(ExceptionsOfANight, ACounterBelowItsLastReadingIsToldAndOneAtItIsNot)
{
    Opening opening = plainOpening();
    opening.fitted.first().counter = 900.7; // a counter shows whole hours
    Night same(opening);
    work(same, u"match-box"_s);
    opening.fitted.first().counter = 1380;
    Night below(opening);
    work(below, u"match-box"_s);

    EXPECT_FALSE(kindsOf(found(same)).contains(Kind::CounterBelowRecord));
    const Exception counter = theOne(found(below), Kind::CounterBelowRecord);
    EXPECT_EQ(counter.figure, 900.0);
    EXPECT_EQ(counter.against, 1380.0);
    EXPECT_EQ(counter.entry, below.swap().record(StepId(u"read-counters"_s)).entry);
}

TEST(ExceptionsOfANight, WhereTheLastReadingIsNotKnownTheCounterIsHeldAgainstTheHoursOnRecord)
{
    Opening opening = plainOpening();
    opening.fitted.first().counter.reset();
    opening.fitted.first().hours = 1380;
    Night below(opening);
    work(below, u"match-box"_s);

    EXPECT_EQ(theOne(found(below), Kind::CounterBelowRecord).against, 1380.0);
}

TEST(ExceptionsOfANight, LightBelowTheChosenLimitsIsToldWithTheLimit)
{
    Night night(plainOpening());
    work(night, u"measure-screen"_s);
    const StepId step = night.next().step->id;
    const auto loading = photometry::loadToleranceSets(test::sourceFile("resources/photometry"));
    const auto set = std::ranges::find_if(loading.sets, [](const photometry::ToleranceSet& one) {
        return one.id.text() == u"digital-theatre";
    });
    ASSERT_NE(set, loading.sets.end());
    night.clock.advance(30min);
    ASSERT_TRUE(night.tell(ScreenLimits{night.swap().id, step, *set}));
    ScreenConditions said{night.swap().id, step};
    said.conditions = photometry::test::goodConditions();
    ASSERT_TRUE(night.tell(said));
    night.readCentre(0, 30.5);
    const qint64 read = night.entries.size() - 1;

    const Exception light = theOne(found(night), Kind::LightBelowTolerance);

    EXPECT_EQ(light.words, (QStringList{u"centre-luminance"_s, u"centre"_s}));
    EXPECT_EQ(light.figure, 30.5);
    EXPECT_EQ(light.against, set->limits.front().least);
    EXPECT_EQ(light.entry, read);
    night.readCentre(0, 47);
    EXPECT_FALSE(kindsOf(found(night)).contains(Kind::LightBelowTolerance));
    const Exception corrected = theOne(found(night), Kind::ReadingCorrected);
    EXPECT_EQ(corrected.other, read);
    EXPECT_EQ(corrected.figure, 47.0);
    EXPECT_EQ(corrected.against, 30.5);
}

TEST(ExceptionsOfANight, ALightReadingThatWasPutRightShowsBothFigures)
{
    Night night(plainOpening());
    work(night, u"peak-up"_s);
    LightRead read{night.swap().id, night.next().step->id, {}, std::nullopt, 14.4};
    ASSERT_TRUE(night.tell(read));
    read.replaces = night.entries.size() - 1;
    read.value = 41.4;
    ASSERT_TRUE(night.tell(read));

    const Exception corrected = theOne(found(night), Kind::ReadingCorrected);

    EXPECT_EQ(corrected.other, read.replaces);
    EXPECT_EQ(corrected.figure, 41.4);
    EXPECT_EQ(corrected.against, 14.4);
}

TEST(ExceptionsOfANight, AWrongAnswerAtAStopAndAStepThatIsOwedAreNamed)
{
    Night night(plainOpening());
    night.doUntil(u"stop-cold-and-dead"_s);
    ASSERT_TRUE(night.doStep(u"stop-cold-and-dead"_s,
                             [](QJsonObject& answers) { answers[u"start"_s] = u"Was not tried"_s; }));
    EXPECT_EQ(theOne(found(night), Kind::WrongAnswerAtAStop).words, QStringList{u"try-start"_s});
    night.doUntil(u"measure-screen"_s);
    ASSERT_TRUE(night.tell(Happened{Incident::NoTimeLeft, {}, {}, {}, {}, {}, {}}));
    ASSERT_TRUE(night.tell(Owed{night.swap().id, StepId(u"measure-screen"_s)}));

    EXPECT_EQ(theOne(found(night), Kind::StepOwed).words, QStringList{u"measure-screen"_s});
}

TEST(ExceptionsOfANight, AVisitThatWasMadeSafeSaysHowItEnded)
{
    Night night(plainOpening());
    work(night, u"standby"_s);
    night.makeSafe();
    night.close();

    EXPECT_EQ(theOne(found(night), Kind::MadeSafe).words, QStringList{u"as-it-was"_s});
    EXPECT_FALSE(kindsOf(found(night)).contains(Kind::TookLittle)) << "what was not done takes no time";
}

TEST(ExceptionsOfANight, StepsPressedThroughAndAVisitOfAWholeDayAreTold)
{
    Night quick(plainOpening());
    quick.doAll(); // twenty seconds a step
    quick.close();
    Night slow(plainOpening());
    work(slow, u"match-box"_s);
    slow.clock.advance(9h);
    endPlainly(slow);

    const Exception little = theOne(found(quick), Kind::TookLittle);
    EXPECT_LT(*little.figure, *little.against / 2);
    EXPECT_FALSE(kindsOf(found(quick)).contains(Kind::TookLong));
    const Exception longer = theOne(found(slow), Kind::TookLong);
    EXPECT_GT(*longer.figure, 540);
    EXPECT_GT(*longer.figure, *longer.against * 2);
}

TEST(ExceptionsOfANight, ASignatureAnHourAndMoreAfterTheLastWorkIsLate)
{
    Night inTime(plainOpening());
    work(inTime);
    inTime.clock.advance(59min);
    inTime.close();
    Night late(plainOpening());
    work(late);
    late.clock.advance(75min);
    late.close();

    EXPECT_FALSE(kindsOf(found(inTime)).contains(Kind::LateSignOff));
    EXPECT_EQ(theOne(found(late), Kind::LateSignOff).figure, 75.0);
    EXPECT_EQ(theOne(found(late), Kind::LateSignOff).person, late.ada());
}

TEST(ExceptionsOfANight, WhatOnlyTheEndShowsIsToldBeforeItAsAfterwards)
{
    Night quick(plainOpening());
    quick.doAll();
    Night late(plainOpening());
    work(late);
    late.clock.advance(75min);
    Night safe(plainOpening());
    work(safe, u"standby"_s);
    safe.makeSafe();
    for (Night* night : {&quick, &late, &safe}) {
        const QList<Exception> before = exceptionsIfClosed(night->state, night->entries, night->clock.now());
        EXPECT_EQ(found(*night), QList<Exception>()) << "as it stands";

        night->close();

        EXPECT_EQ(kindsOf(before), kindsOf(found(*night)));
        EXPECT_FALSE(before.isEmpty());
        EXPECT_EQ(exceptionsIfClosed(night->state, night->entries, night->clock.now()), found(*night));
    }
}

TEST(ExceptionsOfANight, AnAddendumIsTold)
{
    Night night(plainOpening());
    endPlainly(night);
    ASSERT_TRUE(night.tell(Addendum{u"the box was sent on Friday"_s}));

    EXPECT_EQ(kindsOf(found(night)), QList{Kind::Addendum});
}

TEST(ExceptionsOfANight, AGapBehindTheClosingIsNone)
{
    Night night(plainOpening());
    endPlainly(night);
    night.clock.sleep(14 * 24h);
    ASSERT_TRUE(night.tell(Addendum{u"the box was sent on Friday"_s}));

    EXPECT_EQ(kindsOf(found(night)), QList{Kind::Addendum});
}

TEST(ExceptionsOfANight, WorkThatWentOnUnsignedNamesWhatCoversItAndABadSignatureWeighsMost)
{
    Night night(plainOpening());
    endPlainly(night);
    const QList<HeadSigned> whole = signedAsWanted(night);
    QList<HeadSigned> gap = whole;
    const auto stop = std::ranges::find(gap, u"stop"_s, &HeadSigned::meaning);
    ASSERT_NE(stop, gap.end());
    const qint64 unsignedEntry = stop->entry;
    const qint64 next = (stop + 1)->entry;
    gap.erase(stop);

    const Exception unsignedWork = theOne(exceptionsOf(night.state, night.entries, &gap), Kind::WorkUnsigned);
    EXPECT_EQ(unsignedWork.entry, unsignedEntry);
    EXPECT_EQ(unsignedWork.other, next);
    EXPECT_EQ(unsignedWork.words, QStringList{u"stop"_s});
    QList<HeadSigned> another = gap;
    for (HeadSigned& one : another)
        one.person = one.entry > unsignedEntry ? night.ben() : one.person;
    const QList<Exception> covered = exceptionsOf(night.state, night.entries, &another);
    const auto first = std::ranges::find(covered, unsignedEntry, &Exception::entry);
    ASSERT_NE(first, covered.end());
    EXPECT_EQ(first->other, next);
    EXPECT_EQ(first->words, (QStringList{u"stop"_s, u"ben"_s})) << "whose it is, not theirs";
    another.last().person = night.ada();
    const QList<Exception> own = exceptionsOf(night.state, night.entries, &another);
    EXPECT_EQ(std::ranges::find(own, unsignedEntry, &Exception::entry)->other, another.last().entry)
        << "their own, though another one comes first";
    const QList<HeadSigned> nobodys;
    EXPECT_EQ(exceptionsOf(night.state, night.entries, &nobodys).first().other, -1);

    QList<HeadSigned> forged = whole;
    forged.last().isGood = false;
    const QList<Exception> bad = exceptionsOf(night.state, night.entries, &forged);
    EXPECT_EQ(bad.first().kind, Kind::SignatureBad);
    EXPECT_EQ(bad.first().person, forged.last().person);
    EXPECT_TRUE(kindsOf(bad).contains(Kind::WorkUnsigned)) << "a forged signature signs nothing";

    QList<HeadSigned> lost = whole;
    lost.last().isOutOfUse = true;
    const QList<Kind> kinds = kindsOf(exceptionsOf(night.state, night.entries, &lost));
    EXPECT_TRUE(kinds.contains(Kind::WorkUnsigned)) << "nor does a key that was out of use";
    EXPECT_FALSE(kinds.contains(Kind::SignatureBad));
}

TEST(ExceptionsOfANight, ASignatureThatAKeyMadeAnHourAfterItsEntryIsLate)
{
    Night night(plainOpening());
    endPlainly(night);
    QList<HeadSigned> signatures = signedAsWanted(night);
    HeadSigned& stop = *std::ranges::find(signatures, u"stop"_s, &HeadSigned::meaning);
    const WallTime written = stop.at;

    stop.at = written + 60min;
    EXPECT_EQ(kindsOf(exceptionsOf(night.state, night.entries, &signatures)), QList<Kind>());

    stop.at = written + 62min;
    const Exception late = theOne(exceptionsOf(night.state, night.entries, &signatures), Kind::LateSignOff);
    EXPECT_EQ(late.entry, stop.entry);
    EXPECT_EQ(late.person, stop.person);
    EXPECT_EQ(late.words, QStringList{u"stop"_s});
    EXPECT_EQ(late.figure, 62.0);

    stop.at = written - 24h;
    EXPECT_EQ(kindsOf(exceptionsOf(night.state, night.entries, &signatures)), QList<Kind>());
    stop.at = written - 25h;
    const Exception before =
        theOne(exceptionsOf(night.state, night.entries, &signatures), Kind::SignedBefore);
    EXPECT_EQ(before.person, stop.person);
    EXPECT_EQ(before.figure, 1500.0); // 25 h

    stop.isOutOfUse = true;
    EXPECT_FALSE(kindsOf(exceptionsOf(night.state, night.entries, &signatures)).contains(Kind::LateSignOff))
        << "it does not count at all";
}

TEST(UnansweredSignatures, OneThatNamesNobodyAnswersOneOfItsEntryAndMeaningAndNoMore)
{
    const PersonId ada(u"ada"_s);
    const PersonId ben(u"ben"_s);
    const QList<WantedSignature> both{{7, ada, u"stop"_s}, {7, ben, u"stop"_s}};
    HeadSigned former{7, {}, u"stop"_s, {}, true};
    former.isFormer = true;
    const HeadSigned adas{7, ada, u"stop"_s, {}, true};

    EXPECT_EQ(unanswered(both, {former}).size(), 1);
    EXPECT_EQ(unanswered(both, {former, adas}).size(), 0) << "ada's is hers, the other is left for ben's";
    EXPECT_EQ(unanswered(both, {adas}), (QList<WantedSignature>{{7, ben, u"stop"_s}}));
    former.meaning = u"performed"_s;
    EXPECT_EQ(unanswered(both, {former}), both);
    former.meaning = u"stop"_s;
    former.entry = 8;
    EXPECT_EQ(unanswered(both, {former}), both);
}

TEST(ExceptionsOfANight, OneCodeForTwoSourcesIsTold)
{
    Night night(plainOpening());
    night.doUntil(u"book-in"_s);
    LampRead read{LampId(u"new-1"_s),
                  {label::Source::Box, label::Means::Scanned, u"HVQ21-40A"_s, u"NEW000001"_s},
                  {u"]d1TYPE: HVQ21-40A\nS/N: NEW000001"_s}};
    ASSERT_TRUE(night.tell(read));
    read.reading.source = label::Source::OwnMarking;
    read.isAlsoElsewhere = true;
    ASSERT_TRUE(night.tell(read));
    ASSERT_TRUE(night.doStep(u"book-in"_s, test::kAsItShouldBe));

    const Exception one = theOne(found(night), Kind::OnOneCode);

    EXPECT_EQ(one.entry, night.entries.size() - 1);
    EXPECT_EQ(one.swap, night.swap().id);
    EXPECT_GT(weightOf(Kind::OnOneCode), weightOf(Kind::OnOneTyping));
}

} // namespace
} // namespace coldarc::review
