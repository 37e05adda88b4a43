#include "core/base/ids.h"

#include "core/base/id_source.h"
#include "tests/support/testing.h"

#include <QSet>

#include <type_traits>

namespace coldarc {
namespace {

// Ids of different things do not mix, and none comes from a text by itself.
static_assert(!std::is_convertible_v<VisitId, LampId>);
static_assert(!std::is_constructible_v<VisitId, LampId>);
static_assert(!std::is_convertible_v<QString, VisitId>);

TEST(IdTest, NamesNothingUntilItIsGivenAText)
{
    EXPECT_TRUE(LampId().isEmpty());
    EXPECT_FALSE(LampId(QStringLiteral("lamp-1")).isEmpty());
}

TEST(IdTest, ComparesByItsText)
{
    const LampId first(QStringLiteral("lamp-1"));
    const LampId second(QStringLiteral("lamp-2"));

    EXPECT_EQ(first, LampId(QStringLiteral("lamp-1")));
    EXPECT_NE(first, second);
    EXPECT_LT(first, second);
    EXPECT_EQ(qHash(first, 7), qHash(LampId(QStringLiteral("lamp-1")), 7));
}

TEST(RandomIdsTest, GivesAnotherIdEveryTime)
{
    RandomIds ids;
    QSet<QString> given;
    for (int i = 0; i < 1000; ++i)
        given.insert(ids.next());

    EXPECT_EQ(given.size(), 1000);
    // RFC 9562: 36 characters, the version digit at 14 (from memory).
    EXPECT_EQ(given.begin()->size(), 36);
    EXPECT_EQ(given.begin()->at(14), u'4');
}

} // namespace
} // namespace coldarc
