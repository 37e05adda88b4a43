#include "app/decode_ladder.h"
#include "app/decode_picture.h"
#include "core/label/symbology.h"
#include "tests/app/label_pictures.h"
#include "tests/core/label/any_payload.h"
#include "tests/support/testing.h"

#include <algorithm>

namespace coldarc {
namespace {

TEST(LabelLongTest, AMillionTextsAreReadWithoutAFault)
{
    std::mt19937 chance(1);
    for (int i = 0; i < 1'000'000; ++i) {
        const QString text = test::anyPayload(chance);
        ASSERT_TRUE(test::readsSafely(text)) << text.toStdString();
    }
}

// Twenty thousand pictures in parts, so that one can see how far it is. Two hours in all: a picture without a
// code is looked at in every way there is.
class LabelLongPicturesTest : public ::testing::TestWithParam<std::uint32_t> {};

TEST_P(LabelLongPicturesTest, NothingIsReadThatDoesNotStandThere)
{
    constexpr std::uint32_t kPart = 1'000;
    for (std::uint32_t number = GetParam() * kPart; number < (GetParam() + 1) * kPart; ++number) {
        const test::LabelPicture picture = test::pictureOfRow(number);
        for (const label::FoundCode& code : app::findCodes(app::greyOf(picture.image)))
            EXPECT_EQ(label::scanText(code.scanned).text, picture.text) << "picture " << number;
    }
}

INSTANTIATE_TEST_SUITE_P(Thousands, LabelLongPicturesTest, ::testing::Range(0U, 20U));

} // namespace
} // namespace coldarc
