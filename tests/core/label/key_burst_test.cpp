#include "core/label/key_burst.h"

#include "tests/support/testing.h"

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using Fate = KeyBurst::Fate;
using Key = KeyBurst::Key;

/// Strikes the characters at even gaps; the fate of the last.
Fate strike(KeyBurst& burst, const QString& text, std::chrono::milliseconds gap,
            std::chrono::milliseconds& at)
{
    Fate fate = Fate::Nothing;
    for (const QChar c : text) {
        at += gap;
        fate = burst.strike(Key::Character, c, at);
    }
    return fate;
}

TEST(KeyBurstTest, AFastRunThatEnterEndsIsAScanWithItsSeparator)
{
    KeyBurst burst;
    auto at = 1000ms;
    EXPECT_EQ(strike(burst, u"0109506000134352\u001D21A"_s, 2ms, at), Fate::Hold);
    EXPECT_EQ(burst.strike(Key::End, {}, at + 2ms), Fate::Scan);
    EXPECT_EQ(burst.scanned(), u"0109506000134352\u001D21A"_s);
    EXPECT_FALSE(burst.isHolding());
}

TEST(KeyBurstTest, TypingIsReleasedKeyByKey)
{
    KeyBurst burst;
    auto at = 1000ms;
    EXPECT_EQ(strike(burst, u"A"_s, 0ms, at), Fate::Hold);
    EXPECT_EQ(burst.pause(at + 40ms), Fate::Hold) << "the gap is not over yet";
    EXPECT_EQ(burst.pause(at + 41ms), Fate::Release);
    EXPECT_EQ(burst.pause(at + 41ms), Fate::Nothing);
    EXPECT_EQ(strike(burst, u"BC"_s, 41ms, at), Fate::ReleaseAndHold) << "even if nobody told of the pause";
    EXPECT_EQ(burst.strike(Key::End, {}, at + 120ms), Fate::Release);
}

TEST(KeyBurstTest, AShortRunIsAPersons)
{
    KeyBurst burst;
    auto at = 1000ms;
    (void)strike(burst, u"12345"_s, 1ms, at);
    EXPECT_EQ(burst.strike(Key::End, {}, at), Fate::Release) << "five characters";
    (void)strike(burst, u"12345"_s, 1ms, at);
    EXPECT_EQ(burst.strike(Key::Other, {}, at), Fate::Release);
    (void)strike(burst, u"12345"_s, 1ms, at);
    EXPECT_EQ(burst.pause(at + 41ms), Fate::Release);
    EXPECT_EQ(burst.strike(Key::End, {}, at + 50ms), Fate::Release) << "Enter alone";
}

TEST(KeyBurstTest,
     ARunThatNoFingersStrikeIsAScanWhateverEndsIt) // the scanner may send any key behind it, or none
{
    KeyBurst burst;
    auto at = 1000ms;
    (void)strike(burst, u"NEW000001"_s, 2ms, at);
    EXPECT_EQ(burst.pause(at + 41ms), Fate::Scan);
    EXPECT_EQ(burst.scanned(), u"NEW000001"_s);
    (void)strike(burst, u"NEW000001"_s, 2ms, at);
    EXPECT_EQ(burst.strike(Key::Other, {}, at + 2ms), Fate::Scan);
}

TEST(KeyBurstTest, ASymbologyIdentifierDecidesAndNeedsNoEnd)
{
    KeyBurst burst;
    auto at = 1000ms;
    (void)strike(burst, u"]A0K7"_s, 2ms, at);
    EXPECT_EQ(burst.strike(Key::End, {}, at), Fate::Scan) << "short, and still a scan";
    EXPECT_EQ(burst.scanned(), u"]A0K7"_s);
    (void)strike(burst, u"]C1010950"_s, 2ms, at);
    EXPECT_EQ(burst.pause(at + 41ms), Fate::Scan);
}

TEST(KeyBurstTest, APrefixThatWasSetUpDecidesAndIsTakenOff)
{
    KeyBurst burst(BurstRule{40ms, 6, u"~"_s});
    auto at = 1000ms;
    (void)strike(burst, u"~K7"_s, 2ms, at);
    EXPECT_EQ(burst.strike(Key::End, {}, at), Fate::Scan);
    EXPECT_EQ(burst.scanned(), u"K7"_s);
    (void)strike(burst, u"~"_s, 2ms, at);
    EXPECT_EQ(burst.strike(Key::End, {}, at), Fate::Release) << "the prefix alone";
}

} // namespace
} // namespace coldarc::label
