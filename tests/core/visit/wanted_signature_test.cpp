#include "core/visit/wanted_signature.h"

#include "tests/core/visit/night.h"

namespace coldarc::visit {
namespace {

using namespace Qt::StringLiterals;
using test::Night;

QStringList meaningsOf(const Night& night)
{
    QStringList meanings;
    for (const WantedSignature& one : wantedSignatures(night.entries, night.state))
        meanings.append(one.meaning);
    return meanings;
}

TEST(WantedSignatureTest, APlainNightIsSignedAtSignInAtEachStopAndAtItsEnd)
{
    Night night;
    night.doAll();
    night.close();

    EXPECT_EQ(meaningsOf(night),
              (QStringList{u"signed-in"_s, u"stop"_s, u"stop"_s, u"stop"_s, u"performed"_s, u"performed"_s}));
    for (const WantedSignature& one : wantedSignatures(night.entries, night.state))
        EXPECT_EQ(one.person, night.ada());
}

TEST(WantedSignatureTest, AnIncidentIsSignedByWhoeverWroteIt)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    night.doUntil(u"standby"_s);
    ASSERT_TRUE(night.tell(
        night.ben(),
        Happened{Incident::FanOrPower, night.swap().id, LamphouseId(u"lamphouse-1-main"_s), {}, {}, {}, {}}));

    EXPECT_EQ(wantedSignatures(night.entries, night.state).last(),
              (WantedSignature{night.entries.size() - 1, night.ben(), u"incident"_s}));
}

} // namespace
} // namespace coldarc::visit
