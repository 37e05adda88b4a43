#include "core/label/source_read.h"

#include "tests/support/testing.h"

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;

// Types and serials are invented.

LabelText textWith(const QString& type, const QString& serial)
{
    LabelText text;
    text.verdict = LabelText::Verdict::Read;
    text.type = type;
    text.serial = serial;
    return text;
}

SourceRead scannedAs(const SourceRead& before, const QString& scanned, const QString& type,
                     const QString& serial)
{
    return withCode(before, scanned, readPayload(scanned, 2026), textWith(type, serial));
}

SourceRead typed(Source source, const QString& type, const QString& serial)
{
    return withTyped({{source, Means::Typed, {}, {}}}, type, serial);
}

const SourceRead kBox{{Source::Box, Means::Typed, {}, {}}};
const QString kCode = u"]d1HVQ30-40B/NEW1"_s;

TEST(SourceReadTest, ACodeThatChecksItselfMakesItAScanWithItsText)
{
    const SourceRead after = scannedAs(kBox, kCode, u"HVQ30-40B"_s, u"NEW1"_s);

    EXPECT_EQ(after.reading, (Reading{Source::Box, Means::Scanned, u"HVQ30-40B"_s, u"NEW1"_s}));
    EXPECT_EQ(after.scanned, QStringList{kCode});
}

TEST(SourceReadTest, ACodeWithoutACheckCountsAsTypedAndItsTextIsKeptAllTheSame)
{
    const SourceRead after = scannedAs(kBox, u"]A0HVQ30-40B"_s, u"HVQ30-40B"_s, {});

    EXPECT_EQ(after.reading.means, Means::Typed);
    EXPECT_EQ(after.scanned, QStringList{u"]A0HVQ30-40B"_s});
}

TEST(SourceReadTest, OneCodeHoldsTheTypeAndAnotherTheSerial)
{
    const SourceRead type = scannedAs(kBox, u"]C0HVQ30-40B"_s, u"HVQ30-40B"_s, {});
    const SourceRead both = scannedAs(type, u"]C0NEW1"_s, {}, u"NEW1"_s);

    EXPECT_EQ(both.reading, (Reading{Source::Box, Means::Scanned, u"HVQ30-40B"_s, u"NEW1"_s}));
    EXPECT_EQ(both.scanned, (QStringList{u"]C0HVQ30-40B"_s, u"]C0NEW1"_s}));
    const SourceRead weak = scannedAs(type, u"]A0NEW1"_s, {}, u"NEW1"_s);
    EXPECT_EQ(weak.reading.means, Means::Typed) << "one of the two has no check";
    const SourceRead again = scannedAs(both, kCode, u"HVQ30-40B"_s, u"NEW1"_s);
    EXPECT_EQ(again.scanned, QStringList{kCode}) << "takes the place of both";
}

TEST(SourceReadTest, ASerialScannedToATypeThatWasTypedIsNoScanOfTheType)
{
    const SourceRead after = scannedAs(typed(Source::Box, u"HVQ30-40B"_s, {}), u"]C0NEW1"_s, {}, u"NEW1"_s);

    EXPECT_EQ(after.reading, (Reading{Source::Box, Means::Typed, u"HVQ30-40B"_s, u"NEW1"_s}));
}

TEST(SourceReadTest, AWeakCodeIsNotMadeStrongerByAnother)
{
    const SourceRead weak = scannedAs(kBox, u"]A0HVQ30-40B"_s, u"HVQ30-40B"_s, {});

    EXPECT_EQ(scannedAs(weak, u"]C0NEW1"_s, {}, u"NEW1"_s).reading.means, Means::Typed);
}

TEST(SourceReadTest, WhatCannotBeReadChangesNothingAndTypingTakesScansAway)
{
    EXPECT_EQ(withCode(kBox, u"]C0?"_s, readPayload(u"]C0?"_s, 2026), LabelText{}), kBox);
    SourceRead scanned = scannedAs(kBox, kCode, u"HVQ30-40B"_s, u"NEW1"_s);
    scanned.picture = sha256("a picture");
    EXPECT_EQ(withTyped(scanned, u"A"_s, u"B"_s),
              (SourceRead{{Source::Box, Means::Typed, u"A"_s, u"B"_s}, {}, sha256("a picture")}))
        << "the picture still shows it";
}

TEST(SourceReadTest, WhatIsNotWholeIsAskedForInOrderAndTheEntryNever)
{
    const QList<Source> order{Source::Entry, Source::Box, Source::Paper, Source::OwnMarking};
    const SourceRead box = typed(Source::Box, u"A"_s, u"1"_s);

    EXPECT_EQ(nextToRead(order, {}), Source::Box);
    EXPECT_EQ(nextToRead(order, {typed(Source::Box, u"A"_s, {})}), Source::Box);
    EXPECT_EQ(nextToRead(order, {box, typed(Source::Paper, u"- "_s, u"1"_s)}), Source::Paper);
    EXPECT_EQ(nextToRead({Source::Entry, Source::Box}, {box}), std::nullopt);
}

TEST(SourceReadTest, TheSameCodeAgainIsKnown)
{
    const SourceRead box = scannedAs(kBox, kCode, u"HVQ30-40B"_s, u"NEW1"_s);

    EXPECT_EQ(alreadyReadOn(kCode, Source::Paper, {box}), Source::Box);
    EXPECT_EQ(alreadyReadOn(kCode, Source::Box, {box}), std::nullopt) << "read anew";
    EXPECT_EQ(alreadyReadOn(box.scanned.first().mid(3), Source::Paper, {box}), Source::Box)
        << "a reader that says nothing of the kind of code";
    EXPECT_EQ(alreadyReadOn(u"]C0other"_s, Source::Paper, {box}), std::nullopt);
}

TEST(SourceReadTest, OneTypedSourceOfTheClosedBoxAsksForASecond)
{
    const Reading box{Source::Box, Means::Typed, u"A"_s, u"1"_s};
    const Reading scanned{Source::Box, Means::Scanned, u"A"_s, u"1"_s};
    const Reading paper{Source::Paper, Means::Typed, u"A"_s, {}};
    const Reading marking{Source::OwnMarking, Means::Typed, u"A"_s, u"1"_s};

    EXPECT_TRUE(restsOnOneTyping({box}));
    EXPECT_TRUE(restsOnOneTyping({box, marking})) << "a marking is not of the closed box";
    EXPECT_TRUE(restsOnOneTyping({box, Reading{Source::Paper, Means::Typed, u" "_s, {}}}));
    EXPECT_TRUE(restsOnOneTyping({scanned, box})) << "the last one counts";
    EXPECT_TRUE(restsOnOneTyping({box, paper})) << "the serial stands on the box alone";
    EXPECT_TRUE(restsOnOneTyping(
        {Reading{Source::Box, Means::Typed, u"A"_s, {}}, Reading{Source::Paper, Means::Typed, {}, u"1"_s}}));
    EXPECT_FALSE(restsOnOneTyping({box, Reading{Source::Paper, Means::Typed, u"A"_s, u"1"_s}}));
    EXPECT_FALSE(restsOnOneTyping({scanned}));
    EXPECT_FALSE(restsOnOneTyping({}));
}

TEST(SourceReadTest, OneCodeThatWasReadForBoxAndPaperIsOneSource)
{
    const Reading box{Source::Box, Means::Typed, u"A"_s, u"1"_s, true};
    const Reading paper{Source::Paper, Means::Typed, u"A"_s, u"1"_s, true};
    Reading own = paper;
    own.isSameCode = false;
    Reading checked = box;
    checked.means = Means::Scanned;

    EXPECT_TRUE(restsOnOneTyping({box, paper}));
    EXPECT_FALSE(restsOnOneTyping({box, own})) << "one of them is that of the lamp itself";
    EXPECT_FALSE(restsOnOneTyping({checked, paper})) << "a code that checks itself vouches alone";
}

TEST(SourceReadTest, ACodeThatIsSaidToStandOnTwoSourcesIsSaidOfBoth)
{
    const SourceRead box = scannedAs(kBox, kCode, u"HVQ30-40B"_s, u"NEW1"_s);
    SourceRead marking = box;
    marking.reading.source = Source::OwnMarking;
    marking.isAlsoElsewhere = true;
    SourceRead paper = box;
    paper.reading.source = Source::Paper;
    paper.scanned = {u"]C0another"_s};

    const QList<Reading> readings = readingsOf({box, paper, marking});

    EXPECT_TRUE(readings.at(0).isSameCode);
    EXPECT_FALSE(readings.at(1).isSameCode);
    EXPECT_TRUE(readings.at(2).isSameCode);
    EXPECT_TRUE(isOneCodeOf(box, marking));
    EXPECT_FALSE(isOneCodeOf(box, paper));
    marking.isAlsoElsewhere = false;
    EXPECT_FALSE(readingsOf({box, marking}).front().isSameCode) << "nobody says so";
}

TEST(SourceReadTest, AScanRestsOnCodesThatCheckThemselves)
{
    const auto rests = [](Source source, Means means, const QStringList& codes) {
        return restsOnItsCodes({{source, means, u"KHM-25B"_s, u"KB-20417"_s}, codes});
    };

    EXPECT_FALSE(rests(Source::Box, Means::Scanned, {}));
    EXPECT_FALSE(rests(Source::Box, Means::Scanned, {u"]d1KHM-25B"_s, u"]A0KB-20417"_s}));
    EXPECT_TRUE(rests(Source::Box, Means::Scanned, {u"]d1KHM-25B"_s, u"]A1KB-20417"_s}));
    EXPECT_TRUE(rests(Source::Box, Means::Typed, {}));
    EXPECT_TRUE(rests(Source::Entry, Means::Scanned, {u"KHM-25B"_s}));
    EXPECT_FALSE(rests(Source::Entry, Means::Scanned, {}));
}

} // namespace
} // namespace coldarc::label
