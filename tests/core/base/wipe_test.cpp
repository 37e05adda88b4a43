#include "core/base/wipe.h"

#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc {
namespace {

TEST(Wipe, LeavesNothingToThoseWhoShareTheText)
{
    QString text = QString::fromLatin1("grey herons");
    const QString shared = text;

    wipe(text);
    EXPECT_TRUE(text.isEmpty());
    EXPECT_EQ(shared, QString(11, QChar()));
}

TEST(Wipe, EmptiesATextOfTheProgramsOwnCodeWithoutWritingThere)
{
    QString text = u"grey herons"_s;
    const QString shared = text;

    wipe(text);
    EXPECT_TRUE(text.isEmpty());
    EXPECT_EQ(shared, u"grey herons"_s);
}

} // namespace
} // namespace coldarc
