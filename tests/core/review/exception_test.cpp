#include "core/review/exception.h"

#include "tests/support/testing.h"

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;

TEST(ExceptionKindTest, EveryKindHasAWordThatReadsBackAndAWeight)
{
    for (int index = 0; index < kExceptionKinds; ++index) {
        const auto kind = static_cast<Exception::Kind>(index);
        EXPECT_EQ(kindFromWord(wordOf(kind)), kind);
        EXPECT_GE(weightOf(kind), 1);
        EXPECT_LE(weightOf(kind), 100);
    }
    EXPECT_EQ(kindFromWord(u"nothing"_s), std::nullopt);
}

TEST(ExceptionKindTest, TheKindsStandInTheOrderOfTheirWeight)
{
    for (int index = 1; index < kExceptionKinds; ++index) {
        EXPECT_GE(weightOf(static_cast<Exception::Kind>(index - 1)),
                  weightOf(static_cast<Exception::Kind>(index)));
    }
}

} // namespace
} // namespace coldarc::review
