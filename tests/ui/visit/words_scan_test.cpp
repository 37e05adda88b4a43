#include "tests/core/visit/night.h"
#include "ui/visit/words_doubt.h"
#include "ui/visit/words_entry.h"

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using test::Night;

/// What the logbook says of labels that were scanned, and of lamps that memory spoke against. All is
/// invented.
class WordsScanTest : public ::testing::Test {
protected:
    [[nodiscard]] EntryWords told(const visit::Body& body) const
    {
        QList<visit::Entry> entries = night.entries;
        entries.append({night.clock.now(), night.ada(), body});
        return wordsOf(entries, entries.size() - 1, night.state);
    }
    [[nodiscard]] visit::LampRead boxRead(label::Means means, const QStringList& scanned) const
    {
        return {lamp, {label::Source::Box, means, u"HVQ21-40A"_s, u"NEW000001"_s}, scanned};
    }

    Night night;
    LampId lamp = night.opening().swaps.first().newLamp.id;
};

TEST_F(WordsScanTest, AScanIsToldWithItsCodeAndWhatCannotBePrintedInItIsSeen)
{
    const EntryWords scanned =
        told(boxRead(label::Means::Scanned, {u"]d20102900041701011\u001D21NEW000001"_s}));

    EXPECT_EQ(scanned.what, u"Box: HVQ21-40A, NEW000001"_s);
    EXPECT_TRUE(scanned.more.first().endsWith(u"scanned, Data Matrix"_s))
        << scanned.more.first().toStdString();
    EXPECT_EQ(scanned.more.last(), u"Code: ]d20102900041701011\u00B721NEW000001"_s);
}

TEST_F(WordsScanTest, ACodeWithoutACheckIsToldAsOneThatCountsAsTyped)
{
    const EntryWords weak = told(boxRead(label::Means::Typed, {u"]A0HVQ21-40A"_s}));

    EXPECT_TRUE(weak.more.first().endsWith(u"scanned, Code 39 without a check: counts as typed"_s))
        << weak.more.first().toStdString();
}

TEST_F(WordsScanTest, AnOlderScanThatKeptNoCodeIsStillOne)
{
    EXPECT_TRUE(told(boxRead(label::Means::Scanned, {})).more.first().endsWith(u"read by the scanner"_s));
    EXPECT_TRUE(told(boxRead(label::Means::Typed, {})).more.first().endsWith(u"typed"_s));
}

TEST_F(WordsScanTest, ALabelOfWhichOnlyAPictureWasKeptIsToldAsThat)
{
    visit::LampRead torn{lamp, {label::Source::Box, label::Means::Typed, {}, {}}, {}, sha256("torn")};

    EXPECT_EQ(told(torn).what, u"Box: no type, no serial"_s);
    EXPECT_TRUE(told(torn).more.first().endsWith(u"picture kept"_s));
}

TEST_F(WordsScanTest, WhatMemorySaidAndWhatWasAnsweredStandWithTheStep)
{
    visit::Did did;
    did.swap = night.swap().id;
    did.step = StepId(u"match-box"_s);
    did.doubts = {u"serial-returned"_s, u"from-later-times"_s};
    did.doubtsAnswer = u"Looked again"_s;
    did.onOneTyping = true;

    const QStringList more = told(did).more;

    EXPECT_TRUE(more.contains(u"The records: on record as returned"_s));
    EXPECT_TRUE(more.contains(u"The records: from-later-times"_s))
        << "a word that is not known stands as it is";
    EXPECT_TRUE(more.contains(u"It goes in all the same: Looked again"_s));
    EXPECT_TRUE(more.contains(u"Box or paper was typed, and nothing else vouches for it"_s));
}

TEST_F(WordsScanTest, EveryDoubtSaysWhatToDo)
{
    for (int cause = 0; cause <= static_cast<int>(label::Doubt::Cause::RecordsUnread); ++cause) {
        label::Doubt doubt;
        doubt.cause = static_cast<label::Doubt::Cause>(cause);
        doubt.type = LampTypeId(u"hollin-21"_s);
        doubt.lamphouse = night.opening().swaps.first().lamphouse;
        doubt.near = label::nearSerials(u"NEW000007"_s, {u"NEW000001"_s}).first();
        const QString said = wordsOf(doubt, u"NEW000007"_s, night.state);
        EXPECT_GT(said.size(), 30) << cause;
        EXPECT_FALSE(said.contains(u'%')) << said.toStdString();
        EXPECT_NE(shortWordsOfDoubt(label::wordOf(doubt.cause)), label::wordOf(doubt.cause)) << cause;
    }
    label::Doubt fitted;
    fitted.cause = label::Doubt::Cause::SerialFitted;
    fitted.lamphouse = night.opening().swaps.first().lamphouse;
    EXPECT_TRUE(
        wordsOf(fitted, u"NEW1"_s, night.state).startsWith(u"NEW1 is on record as fitted: Screen 1."_s));
    fitted.lamphouse = LamphouseId(u"elsewhere"_s);
    EXPECT_TRUE(wordsOf(fitted, u"NEW1"_s, night.state).contains(u"another lamphouse"_s));
}

} // namespace
} // namespace coldarc::ui
