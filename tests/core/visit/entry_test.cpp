#include "core/visit/entry.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

namespace coldarc::visit {
namespace {

using namespace Qt::StringLiterals;

// Types and serials are invented.

Entry entryOf(const Body& body)
{
    return {test::FakeClock().now(), PersonId(u"ada"_s), body};
}

Body again(const Body& body)
{
    const auto read = entryFrom(bytesOf(entryOf(body)));
    EXPECT_TRUE(read) << (read ? "" : read.error().detail.toStdString());
    return read ? read->body : Body();
}

TEST(EntryTest, AReadingKeepsItsCodesToTheLastCharacterAndItsPicture)
{
    LampRead read{LampId(u"new-1"_s),
                  {label::Source::Box, label::Means::Scanned, u"2900041701028"_s, u"HB-20417"_s},
                  {u"]d2010290004170102821HB-20417\u001D10LOT7/A"_s},
                  sha256("a picture")};

    EXPECT_EQ(again(read), Body(read));
    read.isAlsoElsewhere = true;
    EXPECT_EQ(again(read), Body(read));
}

TEST(EntryTest, AReadingOfAnOlderLogbookHasNeitherCodesNorPicture)
{
    const QByteArray older = bytesOf(entryOf(
        LampRead{LampId(u"new-1"_s), {label::Source::Box, label::Means::Typed, u"HVQ30-40B"_s, u"NEW1"_s}}));

    EXPECT_FALSE(older.contains("scanned")) << "what is not there takes no bytes, as before";
    EXPECT_FALSE(older.contains("picture"));
    EXPECT_FALSE(older.contains("elsewhere"));
    const auto read = entryFrom(older);
    ASSERT_TRUE(read);
    EXPECT_EQ(std::get<LampRead>(read->body).scanned, QStringList());
    EXPECT_EQ(std::get<LampRead>(read->body).picture, std::nullopt);
}

TEST(EntryTest, WhoAgreedToATraineesWordIsKeptAndIsNotThereInAnOlderLogbook)
{
    const PersonId ada(u"ada"_s);
    for (const auto& [told, plain] :
         {std::pair<Body, Body>{FanAnswered{LamphouseId(u"lh"_s), true, ada},
                                FanAnswered{LamphouseId(u"lh"_s), true}},
          std::pair<Body, Body>{LocksSeen{LamphouseId(u"lh"_s), true, ada},
                                LocksSeen{LamphouseId(u"lh"_s), true}},
          std::pair<Body, Body>{IncidentAnswered{7, u"found"_s, ada}, IncidentAnswered{7, u"found"_s}},
          std::pair<Body, Body>{Withdrawn{7, u"wrong"_s, ada}, Withdrawn{7, u"wrong"_s}}}) {
        EXPECT_EQ(again(told), told);
        EXPECT_EQ(countersignerOf(entryOf(told)), ada);
        EXPECT_FALSE(bytesOf(entryOf(plain)).contains("countersigned")) << "as before";
        EXPECT_EQ(again(plain), plain);
        EXPECT_EQ(countersignerOf(entryOf(plain)), PersonId());
    }
    EXPECT_EQ(countersignerOf(entryOf(Noted{{}, u"seen"_s})), PersonId());
}

TEST(EntryTest, AHashThatIsNoneIsMalformed)
{
    QByteArray bytes = bytesOf(entryOf(LampRead{LampId(u"new-1"_s), {}, {}, sha256("a picture")}));
    bytes.replace(sha256("a picture").hex().toLatin1(), "12");

    EXPECT_EQ(entryFrom(bytes).error().kind, Error::Kind::Malformed);
}

TEST(EntryTest, APassedSerialKeepsThePictureThatStandsBehindIt)
{
    SerialPassed passed{LampId(u"new-1"_s), {}, sha256("a picture")};
    passed.pass.reason = u"worn"_s;

    EXPECT_EQ(again(passed), Body(passed));
}

// Entries of before the bound was narrowed: what was once signed is read for ever.
TEST(EntryTest, ReadsASheetThatWasTakenWhenTheBoundsWereWider)
{
    ScreenConditions wide{SwapId(u"swap-1"_s), StepId(u"measure-screen"_s), SheetTime::After};
    wide.gain = 50;

    EXPECT_GT(*wide.gain, photometry::kMostGain);
    EXPECT_EQ(again(wide), Body(wide));
}

TEST(EntryTest, AStoppedFanKeepsWhichLampsAreOutAndAnOlderOneNamesNone)
{
    Happened stopped{Incident::FanOrPower, {}, LamphouseId(u"lamphouse-1"_s), {}, {}, {}, {}};
    EXPECT_FALSE(bytesOf(entryOf(stopped)).contains("went_out")) << "as before";
    EXPECT_EQ(again(stopped), Body(stopped));

    stopped.wentOut = {LamphouseId(u"lamphouse-1"_s)};

    EXPECT_EQ(again(stopped), Body(stopped));
}

TEST(EntryTest, AStepKeepsWhatMemorySaidAgainstItsLamp)
{
    Did did;
    did.swap = SwapId(u"swap-1"_s);
    did.step = StepId(u"book-in"_s);
    did.doubts = {u"serial-returned"_s};
    did.doubtsAnswer = u"Looked again"_s;
    did.onOneTyping = true;

    EXPECT_EQ(again(did), Body(did));
}

} // namespace
} // namespace coldarc::visit
