#include "core/review/replay.h"

#include "tests/core/visit/night.h"

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;

/// Entries of a visit that was worked to its end, folded without any of them kept.
visit::VisitState foldedTo(const QList<visit::Entry>& entries, qint64 last)
{
    return visit::fold(entries.first(last + 1));
}

TEST(ReplayTest, EveryMomentIsTheFoldOfWhatWasWrittenUpToIt)
{
    Night night;
    night.doAll();
    night.close();
    ASSERT_GT(night.entries.size(), 2 * Replay::kBetweenKept) << "several folds are kept";

    Replay replay(night.entries);

    for (qint64 entry = night.entries.size() - 1; entry >= 0; --entry) // backwards: from a fold that is kept
        test::expectSame(replay.after(entry), foldedTo(night.entries, entry));
    for (qint64 entry = 0; entry < night.entries.size(); ++entry) // forwards: from the last answer
        test::expectSame(replay.after(entry), foldedTo(night.entries, entry));
}

TEST(ReplayTest, AJumpOverManyEntriesIsTheSameAsTheWalk)
{
    Night night;
    night.doAll();
    Replay replay(night.entries);
    const qint64 last = night.entries.size() - 1;

    for (const qint64 entry : {qint64{0}, last, qint64{7}, last - 1, qint64{20}, qint64{19}, qint64{36}})
        test::expectSame(replay.after(entry), foldedTo(night.entries, entry));
}

TEST(ReplayTest, AMomentIsTheLastEntryWrittenUntilThen)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    const QList<visit::Entry>& entries = night.entries;
    ASSERT_GT(entries[2].at.wall, entries[1].at.wall);

    EXPECT_EQ(entryAt(entries, entries[2].at.wall), 2);
    EXPECT_EQ(entryAt(entries, entries[2].at.wall - 1ms), 1);
    EXPECT_EQ(entryAt(entries, entries.last().at.wall + 9h), entries.size() - 1);
    EXPECT_EQ(entryAt(entries, entries.first().at.wall - 1h), 0) << "before the visit there is its opening";
}

TEST(ReplayTest, WhereTheClockWasSetBackTheLastEntryOfThatTimeCounts)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    QList<visit::Entry> entries = night.entries;
    entries.last().at.wall = entries[1].at.wall;

    EXPECT_EQ(entryAt(entries, entries[1].at.wall), entries.size() - 1);
}

TEST(ReplayTest, AnEntryWithoutAPlaceStaysWhereTheWorkWas)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    night.doUntil(u"lamp-off"_s, 1);
    ASSERT_NE(night.swap(0).lamphouse, night.swap(1).lamphouse);
    visit::Noted note;
    note.text = u"the hall fills"_s;
    ASSERT_TRUE(night.tell(note));

    const qint64 last = night.entries.size() - 1;
    EXPECT_EQ(lamphouseOf(night.entries, last, night.state), night.swap(1).lamphouse);
    EXPECT_EQ(lamphouseOf(night.entries, 0, night.state), night.swap(0).lamphouse);
}

TEST(ReplayTest, ALampThatIsReadIsWhereItGoes)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    night.readLabels(1);

    EXPECT_EQ(lamphouseOf(night.entries, night.entries.size() - 1, night.state), night.swap(1).lamphouse);
}

} // namespace
} // namespace coldarc::review
