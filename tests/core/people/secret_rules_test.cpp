#include "core/people/secret_rules.h"

#include "tests/support/testing.h"

#include <string_view>

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;

std::optional<PassphraseFault> passphraseFault(const QString& text)
{
    const auto accepted = Passphrase::accept(text);
    return accepted ? std::nullopt : std::optional(accepted.error());
}

std::optional<PinFault> pinFault(const QString& text)
{
    const auto accepted = Pin::accept(text);
    return accepted ? std::nullopt : std::optional(accepted.error());
}

std::string_view heldBy(const SecretBytes& secret)
{
    return {reinterpret_cast<const char*>(secret.data()), secret.size()};
}

TEST(PassphraseTest, NeedsFifteenCharacters)
{
    EXPECT_EQ(passphraseFault(u"copper kettle9"_s), PassphraseFault::TooShort);
    EXPECT_EQ(passphraseFault(u"copper kettle 9"_s), std::nullopt);
}

TEST(PassphraseTest, CountsCharactersAndNotTheirBytes)
{
    EXPECT_EQ(passphraseFault(u"käse größe süß!"_s), std::nullopt); // 15 characters, more in UTF-8
    EXPECT_EQ(passphraseFault(u"käse größe süß"_s), PassphraseFault::TooShort); // 14 characters, 18 bytes
    EXPECT_EQ(passphraseFault(u"🙂🙃🐟🦉🌲🍇🎈🚲"_s),
              PassphraseFault::TooShort); // 8 characters, 16 UTF-16 units
}

TEST(PassphraseTest, OfSixtyFourCharactersIsTakenUnchanged)
{
    const QString phrase = u"the heron stood on one leg beside the 3rd lock until rain began "_s;
    ASSERT_EQ(phrase.size(), 64);

    const auto accepted = Passphrase::accept(phrase);

    ASSERT_TRUE(accepted);
    EXPECT_EQ(heldBy(accepted->bytes()), "the heron stood on one leg beside the 3rd lock until rain began ");
}

TEST(PassphraseTest, HasNoRuleAboutKindsOfCharacters)
{
    EXPECT_EQ(passphraseFault(u"herons seldom whistle"_s), std::nullopt);
    EXPECT_EQ(passphraseFault(u"839105577290164"_s), std::nullopt);
}

TEST(PassphraseTest, IsTheSameHoweverTheKeyboardBuildsItsLetters)
{
    const auto composed = Passphrase::accept(u"caf\u00e9 on the corner"_s);
    const auto built = Passphrase::accept(u"cafe\u0301 on the corner"_s);

    ASSERT_TRUE(composed && built);
    EXPECT_EQ(heldBy(composed->bytes()), heldBy(built->bytes()));
}

TEST(PassphraseTest, RefusesWhatIsGuessedFirst)
{
    for (const QString& text :
         {u"correct horse battery staple"_s, u"This Is My Password"_s, u"passwordpassword"_s,
          u"aaaaaaaaaaaaaaa"_s, u"123456789012345"_s, u"987654321098765"_s, u"abcdefghijklmnop"_s,
          u"abcabcabcabcabca"_s, u"letmein letmein letmein"_s, u"qwertyuiopasdfgh"_s})
        EXPECT_EQ(passphraseFault(text), PassphraseFault::Common) << text.toStdString();
}

TEST(PassphraseTest, HasABoundForWhatIsPastedByMistake)
{
    QString text;
    for (int word = 0; text.size() <= Passphrase::kMost; ++word)
        text += QString::number(word * 7919);
    EXPECT_EQ(passphraseFault(text), PassphraseFault::TooLong);
}

TEST(PinTest, NeedsSixDigits)
{
    EXPECT_EQ(pinFault(u"80417"_s), PinFault::TooShort);
    EXPECT_EQ(pinFault(u"804173"_s), std::nullopt);
    EXPECT_EQ(pinFault(u"8041739265"_s), std::nullopt);
    EXPECT_EQ(pinFault(u"80417a"_s), PinFault::NotDigits);
    EXPECT_EQ(pinFault(u"８０４１７３"_s), PinFault::NotDigits);
    EXPECT_EQ(pinFault(QString(33, u'7')), PinFault::TooLong);
}

// 123456 is the example of NIST SP 800-63B-4 (second public draft); the others are common practice, no
// source.
TEST(PinTest, RefusesWhatIsGuessedFirst)
{
    for (const QString& text :
         {u"123456"_s, u"111111"_s, u"000000"_s, u"654321"_s, u"890123"_s, u"121212"_s, u"123123"_s,
          u"112233"_s, u"123321"_s, u"12345678"_s, u"12341234"_s, u"147258"_s})
        EXPECT_EQ(pinFault(text), PinFault::Common) << text.toStdString();
}

TEST(SecretBytesTest, MoveAndLeaveNothingBehind)
{
    SecretBytes first = SecretBytes::fromText(u"secret"_s);
    const SecretBytes second = std::move(first);

    EXPECT_EQ(heldBy(second), "secret");
    EXPECT_EQ(first.size(), 0u);
}

} // namespace
} // namespace coldarc::people
