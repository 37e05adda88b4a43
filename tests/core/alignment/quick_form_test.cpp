#include "core/alignment/quick_form.h"

#include "tests/support/testing.h"

#include <vector>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

TEST(QuickFormTest, KeepsTheBestAndSaysWhatGoingBackWouldWin)
{
    const auto form = quickForm(std::vector<double>{40, 44, 50, 45});

    ASSERT_TRUE(form);
    EXPECT_EQ(form->bestLight, 50);
    EXPECT_NEAR(form->fallBack, 0.1, 1e-12);
}

TEST(QuickFormTest, AsksNobodyToGoBackFromTheBest)
{
    const auto form = quickForm(std::vector<double>{50, 44, 50});

    ASSERT_TRUE(form);
    EXPECT_EQ(form->fallBack, 0);
}

TEST(QuickFormTest, SaysNothingOfNothing)
{
    EXPECT_FALSE(quickForm({}));
}

} // namespace
} // namespace coldarc::test
