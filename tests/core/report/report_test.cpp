#include "core/report/report.h"

#include "core/visit/wanted_signature.h"
#include "tests/core/visit/night.h"

#include <algorithm>

namespace coldarc::report {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;

QList<review::HeadSigned> allSigned(const Night& night)
{
    QList<review::HeadSigned> all;
    for (const visit::WantedSignature& one : visit::wantedSignatures(night.entries, night.state))
        all.append({one.entry, one.person, one.meaning, night.entries[one.entry].at.wall, true});
    return all;
}

Report reportOfNight(const Night& night)
{
    return reportOf(night.entries, Hash(), allSigned(night)).value();
}

TEST(ReportTest, OfAPlainSwapTellsBothLampsAndWhenTheNewOneComesDue)
{
    visit::Opening opening = Night().opening();
    opening.swaps.first().newLamp.hours = 900;
    Night night(opening); // fitted with 1200 h on record; counters answer 900 h, the alert is set at 900 h
    night.doAll();
    night.close();

    const Report report = reportOfNight(night);

    ASSERT_EQ(report.swaps.size(), 1U);
    const SwapPart& part = report.swaps.front();
    EXPECT_TRUE(part.wasExchanged);
    EXPECT_EQ(part.out.lamp, night.swap().oldLamp);
    EXPECT_EQ(part.out.hours, 1200.0);
    EXPECT_EQ(part.out.counter, 900.0);
    EXPECT_EQ(part.out.cause, u"Hours reached"_s);
    EXPECT_EQ(part.out.custody, u"returned"_s);
    ASSERT_TRUE(part.in);
    EXPECT_EQ(part.in->lamp, night.swap().newLamp);
    EXPECT_EQ(part.in->counter, 900.0);
    ASSERT_TRUE(part.due);
    EXPECT_EQ(part.due->thresholdHours, 900.0);
    EXPECT_EQ(part.due->hoursLeft, 0.0) << "the counter stands at the alert";
    EXPECT_FALSE(part.due->expected);
    EXPECT_EQ(report.from, night.entries.front().at.wall);
    EXPECT_EQ(report.until, night.entries.back().at.wall);
    EXPECT_TRUE(report.cautions.empty());
}

/// A night whose controller was left at this count; of an invented site with 70 h a week.
class ReportOfWhatIsDueTest : public ::testing::Test {
protected:
    static Night untilItIsKeyedIn(double hours = 0, std::optional<double> weekly = 70)
    {
        visit::Opening opening = Night().opening();
        opening.weeklyHours = 90; // the longest of all
        opening.site.screens.front().weeklyHours = weekly;
        opening.swaps.first().newLamp.hours = hours;
        Night night(opening);
        night.doUntil(u"key-controller"_s);
        return night;
    }
};

TEST_F(ReportOfWhatIsDueTest, TwoHundredAndEightyHoursAtSeventyAWeekAreDueInFourWeeks)
{
    Night night = untilItIsKeyedIn(620); // the alert is set at 900 h
    ASSERT_TRUE(night.doStep(u"key-controller"_s, [](QJsonObject&) {}));
    night.doAll();
    night.close();

    const Report report = reportOfNight(night);

    ASSERT_TRUE(report.swaps.front().due);
    EXPECT_EQ(report.swaps.front().due->hoursLeft, 280.0);
    EXPECT_EQ(report.swaps.front().due->expected, report.until + 24h * 28);
}

TEST_F(ReportOfWhatIsDueTest, TheWeekOfAnotherScreenSaysNothingOfThisOne)
{
    Night night = untilItIsKeyedIn(620, std::nullopt);
    ASSERT_TRUE(night.doStep(u"key-controller"_s, [](QJsonObject&) {}));
    night.doAll();

    const SwapPart part = reportOfNight(night).swaps.front();

    ASSERT_TRUE(part.due);
    EXPECT_EQ(part.due->hoursLeft, 280.0);
    EXPECT_FALSE(part.due->weeklyHours);
    EXPECT_FALSE(part.due->expected) << "not known";
}

TEST_F(ReportOfWhatIsDueTest, WithoutTheControllersCounterNobodyKnowsWhenItIsDue)
{
    Night night = untilItIsKeyedIn();
    ASSERT_TRUE(night.doStep(u"key-controller"_s, [](QJsonObject&) {}));
    const qint64 keyed = night.swap().record(StepId(u"key-controller"_s)).entry;
    auto& answers = std::get<visit::Did>(night.entries[keyed].body).answers;
    answers.remove(u"hours"_s);

    const SwapPart part = reportOfNight(night).swaps.front();

    ASSERT_TRUE(part.wasExchanged);
    ASSERT_TRUE(part.due);
    EXPECT_EQ(part.due->thresholdHours, 900.0);
    EXPECT_FALSE(part.due->hoursLeft) << "it is not 0 h that were not read";
    EXPECT_FALSE(part.due->expected);
}

TEST(ReportTest, FourWeeksOfSeventyHoursAreTwoHundredAndEightyHours)
{
    const WallTime from{};
    EXPECT_EQ(expectedAt(from, 280, 70), from + 24h * 28);
    EXPECT_EQ(expectedAt(from, 280, 0), std::nullopt);
    EXPECT_EQ(expectedAt(from, 0, 70), std::nullopt);
}

TEST(ReportTest, ListsLockoutGearAndLabelsByTheirEntries)
{
    Night night;
    night.doAll();

    const EntryLists lists = reportOfNight(night).lists;

    using machine::Effect;
    const auto areIn = [&](const std::vector<qint64>& list, Effect effect) {
        for (const procedure::Step& step : night.swap().steps) {
            if (step.effect == effect && !std::ranges::count(list, night.swap().record(step.id).entry))
                return false;
        }
        return true;
    };
    for (const Effect effect : {Effect::Isolate, Effect::LockOn, Effect::Relieve, Effect::TryStart,
                                Effect::ProveAbsence, Effect::LockOff, Effect::Restore})
        EXPECT_TRUE(areIn(lists.lockout, effect)) << static_cast<int>(effect);
    for (const Effect effect : {Effect::GearOn, Effect::EnterZone, Effect::LeaveZone, Effect::GearOff})
        EXPECT_TRUE(areIn(lists.gear, effect)) << static_cast<int>(effect);
    EXPECT_EQ(lists.labels.size(), 4U); // box, paper, entry, own marking
    EXPECT_FALSE(areIn(lists.lockout, Effect::GearOn));
}

TEST(ReportTest, EverySignatureHasNameRoleMomentMeaningAndHowItsKeyStands)
{
    Night night;
    night.doAll();
    night.close();
    QList<review::HeadSigned> signatures = allSigned(night);
    signatures.removeFirst(); // signed in without a key
    signatures.last().isGood = false;

    const Report report = reportOf(night.entries, Hash(), signatures).value();

    using Key = SignatureLine::Key;
    ASSERT_EQ(report.signatures.size(), 7U);
    EXPECT_EQ(report.signatures.front(), (SignatureLine{Key::Missing, u"A. Okoro"_s, u"engineer"_s,
                                                        u"signed-in"_s, night.entries[0].at.wall, 0}));
    EXPECT_EQ(report.signatures.back().key, Key::Bad);
    const auto witness = std::ranges::find(report.signatures, Key::Witness, &SignatureLine::key);
    ASSERT_NE(witness, report.signatures.end());
    EXPECT_EQ(witness->name, u"C. Moor"_s);
    EXPECT_EQ(witness->meaning, u"witnessed"_s);
    EXPECT_EQ(std::ranges::count(report.signatures, Key::Good, &SignatureLine::key), 4);
}

TEST(ReportTest, WhatAKeyOutOfUseSignedIsNobodysWord)
{
    Night night;
    night.doAll();
    night.close();
    QList<review::HeadSigned> signatures = allSigned(night);
    const qint64 whole = reportOf(night.entries, Hash(), signatures)->signedUpTo;
    signatures.last().isOutOfUse = true;

    const Report report = reportOf(night.entries, Hash(), signatures).value();

    EXPECT_EQ(report.signatures.back().key, SignatureLine::Key::OutOfUse);
    EXPECT_FALSE(report.signatures.back().isUnvouched()) << "one thing is told, not two";
    EXPECT_LT(report.signedUpTo, whole);
}

TEST(ReportTest, AKeyStandsWithThoseWhoVouchForItAndOneThatNobodyVouchesForIsKnown)
{
    Night night;
    night.doAll();
    night.close();
    QList<review::HeadSigned> signatures = allSigned(night);
    const review::VouchedBy office{u"an office"_s, u"A. Okoro"_s, people::Role::Engineer, {}, {}};
    signatures[0].key = u"a key"_s;
    signatures[0].vouchedBy = {office};

    const Report report = reportOf(night.entries, Hash(), signatures).value();

    EXPECT_EQ(report.signatures[0].thumbprint, u"a key"_s);
    EXPECT_EQ(report.signatures[0].vouchedBy, QList{office});
    EXPECT_FALSE(report.signatures[0].isUnvouched());
    EXPECT_TRUE(report.signatures[1].isUnvouched());
    const auto witness =
        std::ranges::find(report.signatures, SignatureLine::Key::Witness, &SignatureLine::key);
    ASSERT_NE(witness, report.signatures.end());
    EXPECT_FALSE(witness->isUnvouched()) << "no key";
}

TEST(ReportTest, OfASignatureInTheFormerFormNothingIsTakenFromItsEntry)
{
    Night night;
    night.doAll();
    night.close();
    QList<review::HeadSigned> signatures = allSigned(night);
    signatures[0].isFormer = true;

    const SignatureLine line = reportOf(night.entries, Hash(), signatures).value().signatures.front();

    EXPECT_EQ(line.name, QString());
    EXPECT_EQ(line.role, QString());
    EXPECT_EQ(line.at, WallTime());
    EXPECT_TRUE(line.isFormer);
    EXPECT_EQ(line.key, SignatureLine::Key::Good);
}

TEST(ReportTest, IsSignedUpToTheLastEntryThatAGoodSignatureCovers)
{
    Night night;
    night.doAll();
    night.close();
    const qint64 closed = night.entries.size() - 1;
    QList<review::HeadSigned> signatures = allSigned(night);
    ASSERT_TRUE(night.tell(visit::Addendum{u"the box was sent on Friday"_s}));

    EXPECT_EQ(reportOf(night.entries, Hash(), signatures)->signedUpTo, closed);
    EXPECT_EQ(reportOf(night.entries, Hash(), {})->signedUpTo, -1);
    for (review::HeadSigned& one : signatures)
        one.isGood = one.entry < closed;
    EXPECT_LT(reportOf(night.entries, Hash(), signatures)->signedUpTo, closed);
}

TEST(ReportTest, AVisitMadeSafeCautionsTheCustomerAndOfAnOpenOneItIsSaid)
{
    Night night;
    night.doUntil(u"dust"_s); // the old lamp is out, the seat empty
    EXPECT_EQ(reportOfNight(night).cautions, std::vector{Caution::NotClosed});
    night.makeSafe();
    night.close();

    const Report report = reportOfNight(night);

    EXPECT_EQ(report.cautions.front(), Caution::OutOfUse);
    EXPECT_FALSE(report.swaps.front().wasExchanged);
    EXPECT_FALSE(report.swaps.front().due);
    EXPECT_TRUE(std::ranges::any_of(report.exceptions, [](const review::Exception& one) {
        return one.kind == review::Exception::Kind::MadeSafe;
    }));
}

TEST(ReportTest, WhatIsOwedStandsWithItsScreen)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    ASSERT_TRUE(night.tell(visit::Happened{visit::Incident::NoTimeLeft, {}, {}, {}, {}, {}, {}}));
    ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(u"measure-screen"_s)}));
    night.doAll();
    night.close();

    const Report report = reportOfNight(night);

    EXPECT_EQ(report.swaps.front().owed, QList{StepId(u"measure-screen"_s)});
    EXPECT_EQ(report.cautions, (std::vector{Caution::Owed, Caution::SomethingWrong}));
}

TEST(ReportTest, WhatAVisitThatWasCutShortDidNotComeToIsOwedToo)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    night.makeSafe();
    night.close();
    ASSERT_EQ(night.state.end, u"as-it-is"_s);

    const Report report = reportOfNight(night);

    EXPECT_EQ(report.swaps.front().owed, (QList{StepId(u"measure-screen"_s), StepId(u"look-picture"_s)}));
    EXPECT_TRUE(std::ranges::count(report.cautions, Caution::Owed));
}

TEST(ReportTest, OfAFollowUpNamesOneLamp)
{
    Night night(test::followUpOf(Night(), {u"measure-screen"_s}));
    night.doAll();

    const Report report = reportOfNight(night);

    EXPECT_FALSE(report.swaps.front().in);
    EXPECT_FALSE(report.swaps.front().wasExchanged);
    EXPECT_FALSE(report.swaps.front().after.isEmpty());
}

TEST(ReportTest, EntriesThatOpenNoVisitAreNoReport)
{
    Night night;
    EXPECT_FALSE(reportOf({}, Hash(), {}));
    EXPECT_FALSE(reportOf({{night.clock.now(), night.ada(), visit::Noted{{}, u"alone"_s}}}, Hash(), {}));
}

} // namespace
} // namespace coldarc::report
