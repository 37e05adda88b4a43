#include "app/lamp_records.h"

#include "tests/core/visit/night.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <algorithm>

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;
using Where = label::KnownLamp::Where;

// All lamps, persons and places are invented.

class LampRecordsTest : public ::testing::Test {
protected:
    LampId add(const QString& serial, lamps::Custody custody)
    {
        const LampId id(u"lamp "_s + serial);
        const auto move = [&](lamps::Custody to) {
            return lamps::CustodyMove{lamps::MoveId(ids.next()), id, to,
                                      PersonId(u"ada"_s),        {}, clock.now().wall};
        };
        EXPECT_TRUE(workspace.lamps.add({id, LampTypeId(u"hollin-30b"_s), serial, lamps::LampHours()},
                                        move(lamps::Custody::InVan)));
        if (custody != lamps::Custody::InVan) {
            EXPECT_EQ(workspace.lamps.move(move(custody)), lamps::MoveAnswer(lamps::Moved{}));
        }
        return id;
    }
    [[nodiscard]] label::KnownLamp known(const QString& serial) const
    {
        const auto all = records.lamps();
        EXPECT_TRUE(all);
        const auto found = std::ranges::find(*all, serial, &label::KnownLamp::serial);
        EXPECT_NE(found, all->end()) << serial.toStdString();
        return found == all->end() ? label::KnownLamp() : *found;
    }

    Workspace workspace{store::Database::inMemory()};
    test::FakeClock clock;
    StoredLampRecords records{workspace, clock};
    test::CountingIds ids;
};

TEST_F(LampRecordsTest, ALampIsKnownByWhereItIs)
{
    add(u"HB-10001"_s, lamps::Custody::InVan);
    add(u"HB-10002"_s, lamps::Custody::Returned);
    add(u"HB-10003"_s, lamps::Custody::Recycled);

    EXPECT_EQ(known(u"HB-10001"_s).where, Where::AtHand);
    EXPECT_EQ(known(u"HB-10002"_s).where, Where::Returned);
    EXPECT_EQ(known(u"HB-10003"_s).where, Where::Recycled);
    EXPECT_EQ(known(u"HB-10001"_s).type, LampTypeId(u"hollin-30b"_s));
    EXPECT_TRUE(known(u"HB-10001"_s).bookedFor.isEmpty());
}

TEST_F(LampRecordsTest, ALampOfAVanIsKnownWithWhoeverHasItAndOneOfTheStoreIsInNone)
{
    add(u"HB-10001"_s, lamps::Custody::InVan);
    add(u"HB-10002"_s, lamps::Custody::InStock);

    EXPECT_FALSE(known(u"HB-10001"_s).holder.isEmpty());
    EXPECT_TRUE(known(u"HB-10002"_s).holder.isEmpty());
}

TEST_F(LampRecordsTest, AFittedLampIsKnownWithItsSeat)
{
    const LampId id = add(u"HB-10001"_s, lamps::Custody::InVan);
    ASSERT_TRUE(workspace.lamps.beginFit({lamps::FitId(u"fit"_s), id, LamphouseId(u"two"_s),
                                          lamps::CounterHours::fromHours(0), clock.now().wall, std::nullopt},
                                         lamps::MoveId(ids.next())));

    EXPECT_EQ(known(u"HB-10001"_s).where, Where::Fitted);
    EXPECT_EQ(known(u"HB-10001"_s).lamphouse, LamphouseId(u"two"_s));
}

class LampRecordsOfAVisitTest : public LampRecordsTest {
protected:
    test::Night night{u"larkmoor-teal"_s, test::Night::Crew::Alone, {}, u"hollin-30b"_s};
};

TEST_F(LampRecordsOfAVisitTest, ALampOfAVisitThatIsUnderWayIsBookedForIt)
{
    const LampId id = night.opening().swaps.first().newLamp.id;
    ASSERT_TRUE(workspace.lamps.add(
        {id, LampTypeId(u"hollin-30b"_s), u"NEW000001"_s, lamps::LampHours()},
        {lamps::MoveId(ids.next()), id, lamps::Custody::InVan, PersonId(u"ada"_s), {}, clock.now().wall}));
    EXPECT_TRUE(known(u"NEW000001"_s).bookedFor.isEmpty());

    ASSERT_TRUE(visit::Logbook::begin(workspace.journal, workspace.summaries, night.ada(), night.opening(),
                                      night.clock.now()));

    EXPECT_EQ(known(u"NEW000001"_s).bookedFor, QList<VisitId>{night.opening().visit});
}

TEST_F(LampRecordsOfAVisitTest, APictureIsFoundInTheVisitThatKeptIt)
{
    night.doUntil(u"match-box"_s);
    ASSERT_TRUE(
        night.tell(visit::LampRead{night.opening().swaps.first().newLamp.id, {}, {}, sha256("a picture")}));
    const VisitId visit = night.opening().visit;
    for (qsizetype index = 0; index < night.entries.size(); ++index)
        ASSERT_TRUE(
            workspace.journal.append(visit, store::Sequence(index), visit::bytesOf(night.entries[index])));

    EXPECT_EQ(*records.pictures({sha256("a picture"), sha256("another")}),
              (QList<label::KnownPicture>{{sha256("a picture"), visit}}));
}

} // namespace
} // namespace coldarc::app
