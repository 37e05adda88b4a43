#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;

class PlainSwap : public ::testing::TestWithParam<const char*> {};

TEST_P(PlainSwap, IsLedFromTheFirstLookToTheSignature)
{
    Night night(QString::fromLatin1(GetParam()));

    night.doAll();

    EXPECT_EQ(night.state.machine.lamphouse[0].heat, machine::Heat::Lit);
    EXPECT_EQ(night.state.machine.lamp[night.swap().newLamp].place, machine::Place::Clamped);
    EXPECT_EQ(night.state.machine.lamp[night.swap().oldLamp].place, machine::Place::Boxed);
    ASSERT_TRUE(night.tell(Signed{u"performed"_s}));
    ASSERT_TRUE(night.tell(SiteSigned{u"C. Moor"_s, u"duty manager"_s, {}}));
    const Decision closed = night.tell(Closed{});
    ASSERT_TRUE(closed) << wordsOf(closed.error());
    EXPECT_EQ(night.state.end, u"done"_s);
}

INSTANTIATE_TEST_SUITE_P(OfEachModel, PlainSwap,
                         ::testing::Values("larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"),
                         [](const auto& instance) {
                             std::string name;
                             for (const char* letter = instance.param; *letter; ++letter)
                                 name += *letter == '-' ? ' ' : *letter;
                             name.erase(std::remove(name.begin(), name.end(), ' '), name.end());
                             return name;
                         });

TEST(SwapTest, EntriesReadBackFromTheirBytesFoldToTheSameState)
{
    Night night;
    night.doAll();

    QList<Entry> readBack;
    for (const Entry& entry : night.entries) {
        const auto again = entryFrom(bytesOf(entry));
        ASSERT_TRUE(again) << again.error().detail.toStdString();
        EXPECT_EQ(*again, entry);
        readBack.append(*again);
    }

    const VisitState folded = fold(readBack);
    EXPECT_EQ(folded.machine, night.state.machine);
    EXPECT_EQ(folded.waits, night.state.waits);
    EXPECT_EQ(folded.entries, night.state.entries);
}

TEST(KeyingIn, AgreesWithNoOtherTypeThanTheOneBookedIn)
{
    Night night;
    night.doUntil(u"key-controller"_s);

    const Decision other =
        night.doStep(u"key-controller"_s, [](QJsonObject& answers) { answers[u"type"_s] = u"HVQ99-99Z"_s; });

    ASSERT_TRUE(isRefused(other, Why::Kind::AnswerBad));
    EXPECT_EQ(other.error().whys.first().capture, u"type"_s);
    EXPECT_TRUE(night.doStep(u"key-controller"_s, [](QJsonObject&) {}));
}

} // namespace
} // namespace coldarc::test
