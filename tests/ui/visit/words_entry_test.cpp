#include "ui/visit/words_entry.h"

#include "tests/core/visit/night.h"

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using test::Night;

/// A night up to the gear with one more entry, whether the core would take it or not.
EntryWords told(const Night& night, const visit::Body& body)
{
    QList<visit::Entry> entries = night.entries;
    entries.append({night.clock.now(), night.ada(), body});
    return wordsOf(entries, entries.size() - 1, night.state);
}

class WordsEntryTest : public ::testing::Test {
protected:
    void SetUp() override { night.doUntil(u"gear-on"_s); }

    Night night{u"larkmoor-teal"_s, Night::Crew::WithTrainee};
    SwapId swap = night.swap().id;
    LamphouseId lamphouse = night.opening().swaps.first().lamphouse;
    LampId lamp = night.opening().swaps.first().newLamp.id;
};

TEST_F(WordsEntryTest, NamePlacesPeopleAndReasonsInEveryKind)
{
    const StepId step(u"try-start"_s);
    const visit::Happened happened{visit::Incident::GearDamaged, swap, lamphouse, {}, {}, night.ben(),
                                   u"the visor is cracked"_s};
    EXPECT_EQ(told(night, happened).more,
              (QStringList{u"Screen 1 \u00b7 B. Lind"_s, u"the visor is cracked"_s}));
    visit::Happened dark{visit::Incident::FanOrPower, swap, lamphouse, {}, {}, {}, {}};
    dark.wentOut = {lamphouse};
    EXPECT_EQ(told(night, dark).more, (QStringList{u"Screen 1 · the fan"_s, u"The lamp is out: Screen 1"_s}));
    EXPECT_EQ(told(night, visit::Owed{swap, step}),
              (EntryWords{u"Left to a later visit: Try to start it"_s, {u"Screen 1"_s}, {}}));
    const qint64 tried = night.swap().record(step).entry;
    EXPECT_EQ(told(night, visit::Withdrawn{tried, u"unseen"_s}),
              (EntryWords{u"Withdrew entry %1: Try to start it"_s.arg(tried), {u"Reason: unseen"_s}, {}}));
    EXPECT_EQ(told(night, visit::Withdrawn{4711, u"unseen"_s}).what, u"Withdrew entry 4711: "_s);
    EXPECT_EQ(told(night, visit::Noted{swap, u"a loose tile"_s}),
              (EntryWords{u"Note"_s, {u"a loose tile"_s, u"Screen 1"_s}, {}}));
    EXPECT_EQ(told(night, visit::PictureKept{swap, step, {}, {}}),
              (EntryWords{u"Picture kept"_s, {u"Screen 1 \u00b7 Try to start it"_s}, {}}));
    EXPECT_EQ(told(night, visit::Resumed{}).what, u"Taken up again after a time that nobody watched"_s);
    EXPECT_EQ(told(night, visit::SafeBegun{u"no time"_s}),
              (EntryWords{u"MAKE SAFE was pressed"_s, {u"no time"_s}, {}}));
    EXPECT_EQ(told(night, visit::PassedOn{night.ada(), night.ben()}).what,
              u"A. Okoro passed the visit on to B. Lind"_s);
    EXPECT_EQ(told(night, visit::FanAnswered{lamphouse, true}),
              (EntryWords{u"The fan ran on all the time"_s, {u"Screen 1"_s}, {}}));
    EXPECT_EQ(told(night, visit::LocksSeen{lamphouse, true}),
              (EntryWords{u"All as it was left: locks, breakers, lamp"_s, {u"Screen 1"_s}, {}}));
    EXPECT_EQ(told(night, visit::LockRemoved{night.ben(), lamphouse, night.ada(), u"looked"_s, u"rang"_s}),
              (EntryWords{u"The lock of B. Lind was taken off while they were away"_s,
                          {u"Screen 1 \u00b7 supervisor: A. Okoro"_s, u"looked"_s, u"rang"_s},
                          {}}));
    EXPECT_EQ(told(night, visit::SiteSigned{u"M. Moor"_s, u"duty manager"_s, {}}),
              (EntryWords{u"Signed for the site: M. Moor"_s, {u"duty manager"_s}, {}}));
    EXPECT_EQ(told(night, visit::Signed{u"performed"_s}).what, u"Signed: did and led the work"_s);
    EXPECT_EQ(told(night, visit::Closed{u"out-of-use"_s}).what,
              u"The visit was closed: made safe: out of use, locked and tagged"_s);
    EXPECT_EQ(told(night, visit::Addendum{u"later"_s}),
              (EntryWords{u"Remark after closing"_s, {u"later"_s}, {}}));
    EXPECT_EQ(told(night, visit::CustodyDecided{lamp, u"returned"_s}).what,
              u"Where it goes: To the maker or dealer"_s);
    EXPECT_EQ(told(night, visit::Unknown{u"teleported"_s}).what,
              u"Something that this program does not know (teleported)"_s);
}

TEST_F(WordsEntryTest, SayOfALightReadingWhereItsKnobStood)
{
    const StepId step(u"peak-up"_s);
    visit::LightRead read{swap, step, u"up"_s, 0.25, 41.5};
    EXPECT_EQ(
        told(night, read),
        (EntryWords{u"Light read: 41.5"_s, {u"Find the peak in height \u00b7 up \u00b7 0.25 turns"_s}, {}}));
    read.turns.reset();
    EXPECT_TRUE(told(night, read).more.first().endsWith(u"turns not counted"_s));
    read.replaces = 12;
    EXPECT_EQ(told(night, read).what, u"Light put right: 41.5, in place of entry 12"_s);
    EXPECT_EQ(told(night, visit::LightSet{swap, step, {{u"across"_s, -0.5}, {u"up"_s, 0.25}}}),
              (EntryWords{u"Knobs set, without a reading"_s,
                          {u"Find the peak in height \u00b7 across at -0.5 turns, up at 0.25 turns"_s},
                          {}}));
}

TEST_F(WordsEntryTest, SayWhatTheMeterShowedOfTheScreenAndWhatItReplaces)
{
    const StepId step(u"measure-screen"_s);
    visit::ScreenRead read{swap, step, visit::SheetTime::After};
    read.unit = photometry::LuminanceUnit::FootLamberts;
    read.points = {{photometry::Place::Centre, 14.1, photometry::Chromaticity::fromXy(0.314, 0.351)},
                   {photometry::Place::TopLeft, 11.5, std::nullopt, 7}};
    EXPECT_EQ(told(night, read),
              (EntryWords{u"Screen read, in fL: centre 14.1, top left 11.5 in place of entry 7"_s,
                          {u"Measure the screen \u00b7 under the new lamp"_s, u"centre: x 0.314, y 0.351"_s},
                          {}}));
    visit::ScreenConditions said{swap, step, visit::SheetTime::Arrival};
    said.conditions.lit = std::chrono::minutes(25);
    said.conditions.meter.name = u"Spot 2"_s;
    EXPECT_EQ(told(night, said).more.last(), u"lit 25 min; meter Spot 2; Digital"_s);
    said.lumens = 9100;
    said.gain = 1.1;
    said.transmission = 0.94;
    EXPECT_EQ(told(night, said).more.last(),
              u"9100 lm leave the projector; gain of the screen 1.1; glass and filters leave 94.0\u00a0%"_s);
    visit::ScreenLimits limits{swap, step, {}};
    limits.set.source = u"nobody's"_s;
    limits.set.edition = u"1"_s;
    EXPECT_EQ(told(night, limits).more, QStringList{u"nobody's, edition 1"_s});
    limits.set =
        *photometry::withOwnLimit(limits.set, photometry::Quantity::CentreLuminance, 15.0, std::nullopt);
    EXPECT_EQ(told(night, limits).more.last(), u"Own targets: Light at the centre: at least 15\u00a0cd/m²"_s);
}

TEST_F(WordsEntryTest, SayWhatAStepWasAnsweredGateByGateAndWhoAgreed)
{
    visit::Did did;
    did.swap = swap;
    did.step = StepId(u"try-start"_s);
    did.answers = {{u"response"_s, u"none at all"_s}, {u"supply"_s, u"the desk lamp burns"_s}};
    did.gatesWaiting = {u"cold"_s, u"dead"_s};
    did.countersignedBy = night.ben();
    did.reason = u"told so"_s;
    did.reopened = {u"own-lock"_s};
    const procedure::Procedure& procedure = *night.swap().procedure;

    const EntryWords words = told(night, did);

    EXPECT_EQ(words.what, u"Try to start it"_s);
    EXPECT_EQ(words.section, u"Screen 1 \u00b7 Cold and dead"_s);
    const procedure::Step& step = *procedure.step(did.step);
    EXPECT_EQ(words.more, (QStringList{u"%1: the desk lamp burns"_s.arg(step.capture(u"supply"_s)->label),
                                       u"%1: none at all"_s.arg(step.capture(u"response"_s)->label),
                                       u"Done while waiting: Cold, Dead"_s, u"Reason: told so"_s,
                                       u"Seen and agreed by B. Lind"_s,
                                       u"An answer did not fit, so these come again: "_s +
                                           procedure.step(StepId(u"own-lock"_s))->title}));
}

TEST_F(WordsEntryTest, SayOfSomebodysOwnActWhereAndWho)
{
    visit::Acted acted;
    acted.act.effect = machine::Effect::LockOn;
    acted.act.person = night.ben();
    acted.act.lamphouse = lamphouse;

    EXPECT_EQ(told(night, acted).more, QStringList{u"Screen 1 \u00b7 B. Lind"_s}); // written by ada
    acted.act.person = night.ada();
    EXPECT_EQ(told(night, acted).more, QStringList{u"Screen 1"_s});
}

TEST(WordsOfAFollowUpTest, SayWhatWasTakenUpThatWasOwed)
{
    const Night night(test::followUpOf(Night(), {u"peak-again"_s}));

    const QStringList more = told(night, night.opening()).more;

    EXPECT_EQ(more.first(), u"what is owed"_s);
    EXPECT_EQ(more.last(), u"Screen 1, owed and taken up: Check the peak again"_s);
}

TEST(WordsOfAFollowUpTest, SpeakOfTheLampThatIsInWhereNoneIsNew)
{
    const Night night(test::followUpOf(Night(), {u"measure-screen"_s}));
    visit::ScreenRead read;
    read.swap = night.swap().id;
    read.step = StepId(u"measure-screen"_s);
    read.time = visit::SheetTime::After;
    read.points = {{photometry::Place::Centre, 48, std::nullopt}};

    const QStringList more = told(night, read).more;

    ASSERT_FALSE(more.isEmpty());
    EXPECT_TRUE(more.first().contains(u"under the lamp that is in"_s)) << more.join(u" | ").toStdString();
}

} // namespace
} // namespace coldarc::ui
