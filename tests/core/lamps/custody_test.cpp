#include "core/lamps/custody.h"

#include "tests/support/testing.h"

#include <algorithm>
#include <set>

namespace coldarc::lamps {
namespace {

using namespace Qt::StringLiterals;

TEST(CustodyTest, EveryCustodyHasAWordOfItsOwn)
{
    std::set<QString> words;
    for (const Custody custody : kEveryCustody) {
        words.insert(wordOf(custody));
        EXPECT_EQ(custodyFromWord(wordOf(custody)), custody);
    }
    EXPECT_EQ(words.size(), size_t(kCustodies));
    EXPECT_EQ(wordOf(Custody::KeptBySite), u"kept-by-site"_s);
    EXPECT_EQ(custodyFromWord(u"somewhere"_s), std::nullopt);
}

TEST(CustodyTest, ALampLeavesItsSeatOnlyBoxedOrBurst)
{
    for (const Custody to : kEveryCustody)
        EXPECT_EQ(canMove(Custody::Fitted, to), to == Custody::Boxed || to == Custody::Burst)
            << wordOf(to).toStdString();
}

TEST(CustodyTest, NothingComesBackFromBeingRecycled)
{
    for (const Custody to : kEveryCustody)
        EXPECT_FALSE(canMove(Custody::Recycled, to)) << wordOf(to).toStdString();
}

TEST(CustodyTest, ABurstLampIsOnlyGivenAway)
{
    for (const Custody to : kEveryCustody)
        EXPECT_EQ(canMove(Custody::Burst, to), to == Custody::Returned || to == Custody::Recycled)
            << wordOf(to).toStdString();
}

TEST(CustodyTest, AnOrderedLampCannotBeFittedOrBurstBeforeItArrives)
{
    for (const Custody to : kEveryCustody)
        EXPECT_EQ(canMove(Custody::OnOrder, to), to == Custody::InStock || to == Custody::InVan)
            << wordOf(to).toStdString();
}

TEST(CustodyTest, NothingGoesBackToBeingOrderedOrToWhereItIs)
{
    for (const Custody custody : kEveryCustody) {
        EXPECT_FALSE(canMove(custody, Custody::OnOrder));
        EXPECT_FALSE(canMove(custody, custody));
    }
}

TEST(CustodyTest, EveryLampCanComeToAnEnd)
{
    for (const Custody start : kEveryCustody) {
        std::set<Custody> reached{start};
        for (int round = 0; round < kCustodies; ++round)
            for (const Custody from : std::set<Custody>(reached))
                for (const Custody to : kEveryCustody)
                    if (canMove(from, to))
                        reached.insert(to);
        EXPECT_TRUE(reached.contains(Custody::Recycled)) << wordOf(start).toStdString();
    }
}

TEST(CustodyTest, WhatIsGoneOrInPiecesDoesNotTurnUpNew)
{
    for (const Custody custody : {Custody::Returned, Custody::Recycled, Custody::Burst, Custody::Unused})
        EXPECT_FALSE(canBeginAs(custody)) << wordOf(custody).toStdString();
    EXPECT_TRUE(canBeginAs(Custody::Fitted)) << "found in a lamphouse";
}

} // namespace
} // namespace coldarc::lamps
