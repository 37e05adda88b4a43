#include "core/label/agreement.h"

#include "core/catalogue/catalogue.h"
#include "core/label/normalise.h"
#include "tests/core/label/wrong_lamps.h"
#include "tests/support/testing.h"

#include <QStringList>

#include <algorithm>
#include <ostream>

namespace coldarc::label {

// Without these GoogleTest prints bytes.
static void PrintTo(const Wait& wait, std::ostream* out)
{
    *out << "cause " << int(wait.cause) << " source " << int(wait.source) << " step " << wait.step;
}

namespace {

using namespace Qt::StringLiterals;
using catalogue::LampType;
using Cause = Wait::Cause;
using State = FieldVerdict::State;
using Evidence = SerialPass::Evidence;

const QString kLetters = u"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"_s;

// Lamp types, currents and serials are invented. Some are one slip apart on purpose: a suffix, a look-alike,
// a swap.
LampType lampType(const QString& code, double leastAmperes, double mostAmperes)
{
    LampType type;
    type.id = LampTypeId(code.toLower());
    type.code = code;
    type.leastAmperes = leastAmperes;
    type.mostAmperes = mostAmperes;
    return type;
}

QList<LampType> types()
{
    QList<LampType> all{lampType(u"KHM2516AS"_s, 60, 90),  lampType(u"KHM2516AT"_s, 70, 100),
                        lampType(u"KHM2S16AS"_s, 50, 80),  lampType(u"KHM2561AS"_s, 60, 95),
                        lampType(u"PRT4031QD"_s, 90, 130), lampType(u"PRT4081QD"_s, 95, 150)};
    all[0].packageCodes = {u"77-1003"_s};
    return all;
}

// The test types above and every type that the program ships with (invented as well).
QList<LampType> everyType()
{
    const auto loading = catalogue::loadCatalogue(test::sourceFile("resources/catalogue"));
    return types() + loading.catalogue.lampTypes();
}

QList<LampTypeId> idsOf(const QList<LampType>& list)
{
    QList<LampTypeId> ids;
    for (const LampType& type : list)
        ids.append(type.id);
    return ids;
}

const QString kType = u"KHM2516AS"_s;
const QString kSerial = u"SN0047118B"_s;

Reading entry(const QString& type = kType, const QString& serial = kSerial)
{
    return {Source::Entry, Means::Typed, type, serial};
}
Reading box(const QString& type = kType, const QString& serial = kSerial)
{
    return {Source::Box, Means::Scanned, type, serial};
}
Reading paper(const QString& type = kType, const QString& serial = kSerial)
{
    return {Source::Paper, Means::Typed, type, serial};
}
Reading marking(const QString& type = kType, const QString& serial = kSerial)
{
    return {Source::OwnMarking, Means::Chosen, type, serial};
}

Agreement judgeAmong(const QList<LampType>& all, const QList<Reading>& readings)
{
    return agreement(readings, {}, all, idsOf(all));
}
Agreement judge(const QList<Reading>& readings, const QList<SerialPass>& passes = {})
{
    return agreement(readings, passes, types(), idsOf(types()));
}

// Everything that is one changed character or one swap of neighbours away, itself left out.
QStringList slipsOf(const QString& text)
{
    QStringList slips;
    for (qsizetype i = 0; i < text.size(); ++i) {
        for (const QChar letter : kLetters)
            slips << QString(text).replace(i, 1, letter);
        if (i > 0)
            slips << text.left(i - 1) + text.at(i) + text.at(i - 1) + text.mid(i + 1);
    }
    slips.removeIf([&](const QString& slip) { return normalise(slip) == normalise(text); });
    return slips;
}

TEST(AgreementTest, BoxOrPaperIsOneOfTwo)
{
    for (const Reading& closed : {box(), paper()}) {
        const Agreement verdict = judge({entry(), closed});

        EXPECT_EQ(verdict.proved(), 1);
        EXPECT_EQ(verdict.type, LampTypeId(u"khm2516as"_s));
        EXPECT_EQ(verdict.waits, (QList<Wait>{{Cause::TypeUnread, Source::OwnMarking, 2},
                                              {Cause::SerialUnread, Source::OwnMarking, 2}}));
    }
}

TEST(AgreementTest, OwnMarkingAndBoxOrPaperAreTwoOfTwo)
{
    EXPECT_EQ(judge({entry(), box(), marking()}).proved(), 2);
    EXPECT_EQ(judge({entry(), paper(), marking()}).proved(), 2);
    EXPECT_TRUE(judge({entry(), box(), paper(), marking()}).waits.isEmpty());
}

TEST(AgreementTest, OwnMarkingAloneProvesNothing)
{
    const Agreement verdict = judge({entry(), marking()});

    EXPECT_EQ(verdict.proved(), 0);
    EXPECT_FALSE(verdict.ownMarkingProved);
    EXPECT_EQ(verdict.waits,
              (QList<Wait>{{Cause::TypeUnread, Source::Box, 1}, {Cause::SerialUnread, Source::Box, 1}}));
}

TEST(AgreementTest, NamesEverythingThatWaitsWhenNothingWasRead)
{
    const Agreement verdict = judge({});

    EXPECT_EQ(verdict.proved(), 0);
    EXPECT_EQ(verdict.waits, (QList<Wait>{{Cause::EntryTypeMissing, Source::Entry, 1},
                                          {Cause::EntrySerialMissing, Source::Entry, 1},
                                          {Cause::TypeUnread, Source::Box, 1},
                                          {Cause::SerialUnread, Source::Box, 1},
                                          {Cause::TypeUnread, Source::OwnMarking, 2},
                                          {Cause::SerialUnread, Source::OwnMarking, 2}}));
}

TEST(AgreementTest, SpacesAndDashesAloneCountAsUnread)
{
    EXPECT_EQ(judge({entry(), box(u" - "_s, u"--"_s), marking()}).proved(), 0);
    EXPECT_EQ(judge({entry(u" "_s, u"-"_s), box(u""_s, u""_s), marking(u""_s, u""_s)}).proved(), 0);
}

TEST(AgreementTest, DashesSpacesAndSmallLettersDoNotMatter)
{
    EXPECT_EQ(judge({entry(u"khm-2516 as"_s, u"sn 0047 118b"_s), box(), marking()}).proved(), 2);
}

// The slip is in what was typed, everything else is right: it is caught even where it is another type's code.
TEST(AgreementTest, WaitsForEverySingleSlipInTheTypedType)
{
    for (const LampType& truth : types())
        for (const QString& slip : slipsOf(truth.code)) {
            const Agreement verdict =
                judge({entry(slip), box(truth.code), paper(truth.code), marking(truth.code)});
            ASSERT_EQ(verdict.proved(), 0) << truth.code.toStdString() << " typed as " << slip.toStdString();
            ASSERT_TRUE(std::ranges::any_of(verdict.waits, [](const Wait& wait) {
                return wait.cause == Cause::TypeDiffers || wait.cause == Cause::TypeDiffersBySuffix;
            })) << slip.toStdString();
        }
}

TEST(AgreementTest, WaitsForEverySingleSlipInTheTypeOfEachOtherSource)
{
    const QList<LampType> all = everyType();
    for (const LampType& truth : all)
        for (const QString& slip : slipsOf(truth.code)) {
            ASSERT_EQ(judgeAmong(all, {entry(truth.code), box(slip), paper(truth.code), marking(truth.code)})
                          .proved(),
                      0);
            ASSERT_EQ(judgeAmong(all, {entry(truth.code), box(truth.code), paper(slip), marking(truth.code)})
                          .proved(),
                      0);
            ASSERT_EQ(judgeAmong(all, {entry(truth.code), box(truth.code), marking(slip)}).proved(), 1);
        }
}

TEST(AgreementTest, WaitsForEverySingleSlipInASerial)
{
    for (const QString& serial : {kSerial, u"8B0O51IS2Z"_s, u"1122UVGG66"_s})
        for (const QString& slip : slipsOf(serial)) {
            ASSERT_EQ(judge({entry(kType, slip), box(kType, serial), marking(kType, serial)}).proved(), 0);
            ASSERT_EQ(judge({entry(kType, serial), box(kType, serial), marking(kType, slip)}).proved(), 1);
        }
}

TEST(AgreementTest, AWrongBoxWithTheRightPaperStillWaits)
{
    const Agreement verdict = judge({entry(), box(u"PRT4031QD"_s), paper(), marking()});

    EXPECT_EQ(verdict.proved(), 0);
    EXPECT_EQ(verdict.waits, (QList<Wait>{{Cause::TypeDiffers, Source::Box, 1}}));
    EXPECT_FALSE(verdict.waits.front().canBePassedWithReason());
}

TEST(AgreementTest, CallsOutATypeThatDiffersOnlyByItsSuffix)
{
    const Agreement verdict = judge({entry(), box(u"KHM2516AT"_s)});

    EXPECT_EQ(verdict.types.front().state, State::DiffersBySuffix);
    ASSERT_FALSE(verdict.waits.isEmpty());
    EXPECT_EQ(verdict.waits.front(), (Wait{Cause::TypeDiffersBySuffix, Source::Box, 1}));
    EXPECT_EQ(verdict.type, LampTypeId(u"khm2516as"_s)) << "what was typed is never put right by itself";
}

TEST(AgreementTest, KnowsASuffixFromANumber)
{
    EXPECT_TRUE(differOnlyBySuffix(u"KHM2516AS"_s, u"KHM2516AT"_s));
    EXPECT_TRUE(differOnlyBySuffix(u"KHM2516"_s, u"khm-2516 A"_s));
    EXPECT_TRUE(differOnlyBySuffix(u"HVQ30-40B"_s, u"HVQ30-408"_s)) << "a letter that looks like a digit";
    EXPECT_TRUE(differOnlyBySuffix(u"TWA-K42R5"_s, u"TWA-K42R6"_s));
    EXPECT_FALSE(differOnlyBySuffix(u"KHM2516AS"_s, u"khm 2516-AS"_s)) << "the same";
    EXPECT_FALSE(differOnlyBySuffix(u"KHM2516AS"_s, u"KHM2561AS"_s));
    EXPECT_FALSE(differOnlyBySuffix(u"KHM2516"_s, u"KHM2516AST"_s)) << "three characters are another type";
    EXPECT_FALSE(differOnlyBySuffix(u"ABCDE"_s, u"ABCDF"_s)) << "no number, no suffix";
    EXPECT_FALSE(differOnlyBySuffix(u"A"_s, u"B"_s));
}

TEST(AgreementTest, TakesATypedPackageCodeFromTheBoxOnly)
{
    EXPECT_EQ(judge({entry(), box(u"771003"_s)}).proved(), 1);
    EXPECT_EQ(judge({entry(), paper(u"771003"_s)}).proved(), 0);
    EXPECT_EQ(judge({entry(u"771003"_s), box(u"771003"_s)}).proved(), 0);
    EXPECT_EQ(judge({entry(u"KHM2516AT"_s), box(u"771003"_s)}).proved(), 0) << "the package of another type";
}

TEST(AgreementTest, WaitsWhenTheModelDoesNotTakeTheType)
{
    const Agreement verdict =
        agreement({entry(), box(), marking()}, {}, types(), {LampTypeId(u"prt4031qd"_s)});

    EXPECT_EQ(verdict.proved(), 0);
    EXPECT_EQ(verdict.waits, (QList<Wait>{{Cause::ModelDoesNotTakeType, Source::Entry, 1}}));
}

TEST(AgreementTest, WaitsForAnotherTypeThanThePlannedOneThoughAllAgreeAndTheModelTakesIt)
{
    const QList<LampTypeId> taken = idsOf(types());
    const QList<Reading> readings{entry(), box(), marking()};
    const auto read = agreement(readings, {}, types(), taken).type;
    ASSERT_TRUE(read);

    EXPECT_EQ(agreement(readings, {}, types(), taken, *read).proved(), 2);
    const Agreement verdict = agreement(readings, {}, types(), taken, LampTypeId(u"prt4031qd"_s));
    EXPECT_EQ(verdict.proved(), 0);
    EXPECT_EQ(verdict.waits, (QList<Wait>{{Cause::NotThePlannedType, Source::Entry, 1}}));
}

TEST(AgreementTest, WaitsForATypeThatTheCatalogueDoesNotKnowThoughAllAgree)
{
    const Agreement verdict = judge({entry(u"ZZZ9999ZZ"_s), box(u"ZZZ9999ZZ"_s), marking(u"ZZZ9999ZZ"_s)});

    EXPECT_EQ(verdict.proved(), 0);
    EXPECT_EQ(verdict.waits, (QList<Wait>{{Cause::TypeNotInCatalogue, Source::Entry, 1}}));
    EXPECT_FALSE(verdict.type.has_value());
}

TEST(AgreementTest, WaitsForATypeThatNamesTwo)
{
    QList<LampType> twins{lampType(u"KHM-25"_s, 1, 2), lampType(u"KHM 25"_s, 3, 4)};
    twins[1].id = LampTypeId(u"another"_s);

    const Agreement verdict =
        agreement({entry(u"KHM25"_s), box(u"KHM25"_s), marking(u"KHM25"_s)}, {}, twins, idsOf(twins));

    EXPECT_EQ(verdict.proved(), 0);
    EXPECT_EQ(verdict.waits, (QList<Wait>{{Cause::TypeNamesSeveral, Source::Entry, 1}}));
}

TEST(AgreementTest, AScannedEntryIsNotTheEngineersOwnWord)
{
    Reading scanned = entry();
    scanned.means = Means::Scanned;

    const Agreement verdict = judge({scanned, box(), marking()});

    EXPECT_EQ(verdict.proved(), 0);
    EXPECT_EQ(verdict.waits, (QList<Wait>{{Cause::EntryScanned, Source::Entry, 1}}));
}

TEST(AgreementTest, TheLastReadingOfASourceCounts)
{
    EXPECT_EQ(judge({entry(u"PRT4031QD"_s), box(), entry()}).proved(), 1);
    EXPECT_EQ(judge({entry(), box(), box(u"PRT4031QD"_s)}).proved(), 0);
}

TEST(AgreementTest, OffersNearTypesOnlyAndNearestFirst)
{
    // KHM2516AX: S and T are one edit away; KHM2S16AS and KHM2561AS two; the others far.
    const Agreement verdict = judge({entry(u"KHM2516AX"_s), box()});

    EXPECT_EQ(verdict.didYouMean, (QList<Suggestion>{{LampTypeId(u"khm2516as"_s), 1, true},
                                                     {LampTypeId(u"khm2516at"_s), 1, true},
                                                     {LampTypeId(u"khm2s16as"_s), 2, false},
                                                     {LampTypeId(u"khm2561as"_s), 2, false}}));
    EXPECT_FALSE(verdict.type.has_value()) << "a suggestion is never taken by itself";
    EXPECT_EQ(judge({entry(u"KHM2516XX"_s)}).didYouMean.size(), 2) << "three edits are too many";
    EXPECT_TRUE(judge({entry(), box()}).didYouMean.isEmpty());
    EXPECT_TRUE(judge({entry(u""_s)}).didYouMean.isEmpty());
}

// ---- Serials that are passed ----

SerialPass pictureOf(Source source, const QString& read)
{
    return {source, read, kSerial, Evidence::Picture, Source::Entry, {}, u"label torn"_s};
}

TEST(SerialPassTest, ASerialMayBePassedWithAPictureAndAReason)
{
    const QList<Reading> readings{entry(), box(kType, u"SN0047118"_s), marking()};
    const Agreement waiting = judge(readings);
    EXPECT_EQ(waiting.waits, (QList<Wait>{{Cause::SerialDiffers, Source::Box, 1}}));
    EXPECT_TRUE(waiting.waits.front().canBePassedWithReason());

    const Agreement passed = judge(readings, {pictureOf(Source::Box, u"SN0047118"_s)});

    EXPECT_EQ(passed.proved(), 2);
    EXPECT_EQ(passed.serials.front().state, State::Passed) << "an exception, not an agreement";
    EXPECT_EQ(passed.serials.front().difference.distance, 1);
}

TEST(SerialPassTest, AnUnreadableSerialMayBePassedToo)
{
    const QList<Reading> readings{entry(), box(), marking(kType, u""_s)};
    EXPECT_EQ(judge(readings).proved(), 1);

    EXPECT_EQ(judge(readings, {pictureOf(Source::OwnMarking, u""_s)}).proved(), 2);
}

TEST(SerialPassTest, NeedsAReason)
{
    SerialPass silent = pictureOf(Source::Box, u"X1"_s);
    silent.reason = u"  "_s;

    EXPECT_EQ(judge({entry(), box(kType, u"X1"_s)}, {silent}).proved(), 0);
}

TEST(SerialPassTest, HoldsForTheTwoTextsItWasGivenForOnly)
{
    const SerialPass pass = pictureOf(Source::Box, u"X1"_s);

    EXPECT_EQ(judge({entry(), box(kType, u"X1"_s)}, {pass}).proved(), 1);
    EXPECT_EQ(judge({entry(), box(kType, u"X2"_s)}, {pass}).proved(), 0) << "read anew";
    EXPECT_EQ(judge({entry(kType, u"Y9"_s), box(kType, u"X1"_s)}, {pass}).proved(), 0) << "typed anew";
    EXPECT_EQ(judge({entry(), paper(kType, u"X1"_s)}, {pass}).proved(), 0) << "another source";
}

TEST(SerialPassTest, TypedAgainMustComeOffAThirdSourceAndAgree)
{
    const auto again = [](Source from, const QString& text) {
        return SerialPass{Source::Box, u"X1"_s, kSerial, Evidence::TypedAgain, from, text, u"box of a set"_s};
    };
    const QList<Reading> readings{entry(), box(kType, u"X1"_s)};

    EXPECT_EQ(judge(readings, {again(Source::Paper, kSerial)}).proved(), 1);
    EXPECT_EQ(judge(readings, {again(Source::Paper, u"SN0047118"_s)}).proved(), 0);
    EXPECT_EQ(judge(readings, {again(Source::Box, kSerial)}).proved(), 0);
    EXPECT_EQ(judge(readings, {again(Source::Entry, kSerial)}).proved(), 0);
}

// KHM2516AS has the sister KHM2516AT one slip away, PRT4031QD has PRT4081QD.
TEST(SerialPassTest, WhereASisterExistsAPassedSerialOfTheMarkingAsksForAChoiceBetweenThem)
{
    const QList<SerialPass> passes{pictureOf(Source::OwnMarking, u"X1"_s)};
    const auto marked = [&](Means means) {
        return judge({entry(), box(), Reading{Source::OwnMarking, means, kType, u"X1"_s}}, passes);
    };

    EXPECT_EQ(marked(Means::Typed).proved(), 1);
    EXPECT_EQ(marked(Means::Typed).waits, (QList<Wait>{{Cause::SisterNotExcluded, Source::OwnMarking, 2}}));
    EXPECT_FALSE(marked(Means::Typed).waits.front().canBePassedWithReason());
    EXPECT_EQ(marked(Means::Chosen).proved(), 2);
    EXPECT_EQ(marked(Means::Scanned).proved(), 2);
    EXPECT_EQ(judge({entry(), box(), marking()}).proved(), 2) << "a serial that agrees vouches for the lamp";
}

TEST(OneCodeTest, ThatIsReadForBoxAndLampExcludesNoSisterThoughTypeAndSerialAgree)
{
    const auto marked = [&](Means means, bool isSameCode) {
        return judge({entry(), box(), Reading{Source::OwnMarking, means, kType, kSerial, isSameCode}});
    };

    EXPECT_EQ(marked(Means::Scanned, true).proved(), 1);
    EXPECT_EQ(marked(Means::Scanned, true).waits,
              (QList<Wait>{{Cause::SisterNotExcluded, Source::OwnMarking, 2}}));
    EXPECT_EQ(marked(Means::Typed, true).proved(), 1) << "a code without a check is no better";
    EXPECT_EQ(marked(Means::Chosen, true).proved(), 2) << "somebody looked at the lamp itself";
    EXPECT_EQ(marked(Means::Scanned, false).proved(), 2);
}

TEST(OneCodeTest, WithoutASisterAgreesAndIsSaid)
{
    const QList<LampType> lonely{types()[0], types()[4]};
    const Agreement verdict =
        agreement({entry(), box(), Reading{Source::OwnMarking, Means::Scanned, kType, kSerial, true}}, {},
                  lonely, idsOf(lonely));

    EXPECT_EQ(verdict.proved(), 2);
    EXPECT_TRUE(verdict.types.last().isSameCode);
    EXPECT_TRUE(verdict.serials.last().isSameCode);
    EXPECT_FALSE(verdict.types.first().isSameCode);
}

TEST(SerialPassTest, AScanOfACodeWithoutACheckExcludesNoSister)
{
    const QList<SerialPass> passes{pictureOf(Source::OwnMarking, u"X1"_s)};
    const auto scanned = [&](const QString& text) {
        const Reading reading = scanOf(Source::OwnMarking, scanText(text).id, kType, u"X1"_s);
        return judge({entry(), box(), reading}, passes).proved();
    };

    EXPECT_EQ(scanned(u"]C0KHM2516AS"_s), 2);
    EXPECT_EQ(scanned(u"]A1KHM2516AS"_s), 2) << "Code 39 with its check";
    EXPECT_EQ(scanned(u"]A0KHM2516AS"_s), 1);
    EXPECT_EQ(scanned(u"]I1KHM2516AS"_s), 1) << "a code that is not known here";
    EXPECT_EQ(scanned(u"KHM2516AS"_s), 1) << "the reader does not say what it read";
}

TEST(AgreementTest, AScanIntoTheEntryIsOneWhateverTheCodeIs)
{
    const Reading scanned = scanOf(Source::Entry, scanText(u"]A0KHM2516AS"_s).id, kType, kSerial);

    EXPECT_EQ(judge({scanned, box(), marking()}).waits,
              (QList<Wait>{{Cause::EntryScanned, Source::Entry, 1}}));
}

TEST(SerialPassTest, WithoutASisterAPassedSerialIsEnough)
{
    const QList<LampType> lonely{types()[0], types()[4]};
    const Agreement verdict = agreement({entry(), box(), marking(kType, u"X1"_s)},
                                        {pictureOf(Source::OwnMarking, u"X1"_s)}, lonely, idsOf(lonely));

    EXPECT_EQ(verdict.proved(), 2);
}

TEST(SistersTest, AreTheTypesThatOneSlipMakesOfAnother)
{
    const QList<LampTypeId> sisters{LampTypeId(u"khm2516at"_s), LampTypeId(u"khm2s16as"_s),
                                    LampTypeId(u"khm2561as"_s)}; // T for S, S for 5, 61 for 16
    EXPECT_EQ(sistersOf(LampTypeId(u"khm2516as"_s), types()), sisters);
    EXPECT_TRUE(sistersOf(LampTypeId(u"unknown"_s), types()).isEmpty());
}

TEST(SerialPassTest, NeverLetsATypePass)
{
    const QList<SerialPass> passes{pictureOf(Source::Box, kSerial), pictureOf(Source::Box, u"X1"_s)};

    EXPECT_EQ(judge({entry(), box(u"KHM2516AT"_s), marking()}, passes).proved(), 0);
    EXPECT_EQ(judge({entry(), box(u"KHM2516AT"_s, u"X1"_s), marking()}, passes).proved(), 0);
}

TEST(SerialPassTest, NeverStandsInForAMissingEntry)
{
    SerialPass pass = pictureOf(Source::Box, u"X1"_s);
    pass.entry.clear();

    EXPECT_EQ(judge({entry(kType, u""_s), box(kType, u"X1"_s)}, {pass}).proved(), 0);
}

// ---- What follows from a wrong type ----

TEST(WrongTypeTest, NamesBothTypesWithTheirCurrentRanges)
{
    const Agreement verdict =
        agreement({entry(), box(u"PRT4031QD"_s)}, {}, types(), {LampTypeId(u"khm2516as"_s)});

    ASSERT_EQ(verdict.namedTypes.size(), 2);
    EXPECT_EQ(verdict.namedTypes[0], (NamedType{LampTypeId(u"khm2516as"_s), {Source::Entry}, 60, 90, true}));
    EXPECT_EQ(verdict.namedTypes[1], (NamedType{LampTypeId(u"prt4031qd"_s), {Source::Box}, 90, 130, false}));
}

TEST(WrongTypeTest, SaysOnWhichSideTheArcMayLeaveTheLampsRange)
{
    const LampType small = lampType(u"KHM2516AS"_s, 60, 90);
    const LampType large = lampType(u"PRT4031QD"_s, 90, 130);
    const LampType narrow = lampType(u"KHM2516AN"_s, 65, 85);

    EXPECT_EQ(wrongTypeEffect(large, small), (WrongTypeEffect{false, true}));
    EXPECT_EQ(wrongTypeEffect(small, large), (WrongTypeEffect{true, false}));
    EXPECT_EQ(wrongTypeEffect(small, narrow), (WrongTypeEffect{true, true}));
    EXPECT_EQ(wrongTypeEffect(narrow, small), (WrongTypeEffect{false, false}));
}

TEST(WrongTypeTest, SaysHowLongALampMayBeLeftInPastItsWarranty)
{
    LampType keyed = lampType(u"KHM2516AS"_s, 60, 90);
    LampType lamp = lampType(u"KHM2516AT"_s, 60, 90);
    keyed.warrantyHours = 2000;
    lamp.warrantyHours = 1400;

    EXPECT_DOUBLE_EQ(wrongTypeEffect(keyed, lamp).hoursPastWarranty, 600);
    EXPECT_DOUBLE_EQ(wrongTypeEffect(lamp, keyed).hoursPastWarranty, 0);
}

TEST(AgreementTest, AScannedTextMayBeAPackageCodeWhereverItStands)
{
    const Reading scanned{Source::Paper, Means::Scanned, u"77-1003"_s, kSerial};
    const Reading typed{Source::Paper, Means::Typed, u"77-1003"_s, kSerial};

    EXPECT_EQ(judge({entry(), scanned}).proved(), 1);
    EXPECT_EQ(judge({entry(), scanned}).types[1].means, Means::Scanned);
    EXPECT_EQ(judge({entry(), typed}).proved(), 0);
}

// ---- Slips that are asked about, never put right ----

TEST(NearSerialsTest, OffersKnownSerialsNearestFirstAndThoseThatTheEyeExplains)
{
    const QStringList known{u"SN0047118X"_s, u"SN00471188"_s, u"SN0047181B"_s, u"SN0047128B"_s, u"TT1"_s};

    const QList<SerialNear> near = nearSerials(u"sn-0047118B"_s, known);

    // One slip each: X for B; 8 for B, look-alikes; 81 for 18, a swap; 2 for 1. Explained ones go first.
    ASSERT_EQ(near.size(), 4);
    EXPECT_EQ(near[0].serial, u"SN00471188"_s);
    EXPECT_EQ(near[1].serial, u"SN0047181B"_s);
    EXPECT_EQ(near[2].serial, u"SN0047118X"_s);
    EXPECT_EQ(near[3].serial, u"SN0047128B"_s);
    EXPECT_TRUE(near[0].difference.segments.back().alike);
}

TEST(NearSerialsTest, SaysNothingOfASerialThatIsKnownOrEmpty)
{
    EXPECT_TRUE(nearSerials(u"sn0047118b"_s, {u"SN0047118X"_s, u"SN0047118B"_s}).isEmpty());
    EXPECT_TRUE(nearSerials(u""_s, {u"A"_s}).isEmpty());
    EXPECT_TRUE(nearSerials(u"ABC"_s, {u"XYZ"_s}).isEmpty()) << "three edits are too many";
}

TEST(SlipTest, EveryOneInASerialWaitsAndTheRightOneIsOffered)
{
    for (int number = 0; number < 1000; ++number) {
        const QString serial = u"HB-%1"_s.arg(20'417 + 37 * number);
        const QStringList slips = slipsOf(serial);
        for (const QString& slip : slips)
            ASSERT_EQ(editDistance(serial, slip), 1) << slip.toStdString();
        // What is made of a distance is the same for all of them: a few are enough.
        const QString& slip = slips[number % slips.size()];
        ASSERT_EQ(judge({entry(kType, slip), box(kType, serial)}).proved(), 0) << slip.toStdString();
        ASSERT_EQ(nearSerials(slip, {serial}).size(), 1) << slip.toStdString();
    }
}

TEST(SlipTest, OneInATypeIsNeverTakenForTheTypeItMeant)
{
    const QList<LampType> all = everyType();
    for (const LampType& type : all) {
        for (const QString& slip : slipsOf(type.code)) {
            const Agreement verdict = agreement({entry(slip), box(type.code)}, {}, all, idsOf(all));
            ASSERT_NE(verdict.type, type.id) << slip.toStdString();
            ASSERT_EQ(verdict.proved(), 0) << slip.toStdString();
            if (verdict.type) // it names another lamp: said of the box, which disagrees
                ASSERT_TRUE(verdict.types.front().state == State::Differs ||
                            verdict.types.front().state == State::DiffersBySuffix);
            else
                ASSERT_TRUE(std::ranges::any_of(verdict.didYouMean, [&](const Suggestion& near) {
                    return near.type == type.id && near.distance == 1;
                }));
        }
    }
}

// ---- Wrong lamps by the thousand ----

TEST(WrongLampsTest, NoneIsPassedAndWithoutTheLampsOwnMarkingSomeAre)
{
    const QList<LampType> all =
        catalogue::loadCatalogue(test::sourceFile("resources/catalogue")).catalogue.lampTypes();
    const test::Tally tally = test::playWrongLamps(all, 3'000, 4);

    EXPECT_EQ(tally.wrongPassed, 0);
    EXPECT_GT(tally.wrongPassedWithoutMarking, 0) << "the lamp's own marking is what catches them";
    EXPECT_GT(tally.wrong, 300);
    EXPECT_GT(tally.rightPassed, 1'000);
}

TEST(WrongLampsTest, ARightLampWithWholeLabelsNeedsOneScanBesideTheEntryForEachStep)
{
    const auto scanned = [](Source source) {
        return scanOf(source, scanText(u"]d1"_s + kType).id, kType, kSerial);
    };

    EXPECT_EQ(judge({entry(), scanned(Source::Box)}).proved(), 1);
    EXPECT_EQ(judge({entry(), scanned(Source::Box), scanned(Source::OwnMarking)}).proved(), 2);
}

} // namespace
} // namespace coldarc::label
