#include "core/people/secret_rules.h"

#include "core/base/wipe.h"

#include <algorithm>
#include <array>
#include <string_view>

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

// Common practice, no source: phrases of 15 characters and more that people hit upon first, lower case, no
// spaces. Shorter ones need no place here, nor do repetitions and straight runs, which are found by rule.
constexpr std::array kCommonPhrases{
    "correcthorsebatterystaple", "passwordispassword",
    "mypasswordispassword",      "thisismypassword",
    "thisisapassword",           "thisismypassphrase",
    "thisisapassphrase",         "mypassphraseismine",
    "passwordpassphrase",        "passphrasepassword",
    "password123456789",         "password1234567890",
    "administrator123",          "administrator1234",
    "adminadminpassword",        "administratoradmin",
    "letmeinletmeinnow",         "pleaseletmeinnow",
    "opensesameopensesame1",     "iforgotmypassword",
    "iforgotmypassphrase",       "idontknowmypassword",
    "ihatemypassword",           "ihatepasswords123",
    "changemechangeme1",         "changethispassword",
    "changemeplease123",         "defaultpassword",
    "defaultpassphrase",         "temporarypassword",
    "secretpassword123",         "mysecretpassword",
    "mysecretpassphrase",        "supersecretpassword",
    "topsecretpassword",         "qwertyuiopasdfgh",
    "qwertyuiopasdfghjkl",       "qwertyuiopasdfghjklzxcvbnm",
    "qwertzuiopasdfgh",          "azertyuiopqsdfgh",
    "asdfghjklqwertyuiop",       "1qaz2wsx3edc4rfv",
    "1qaz2wsx3edc4rfv5tgb",      "1q2w3e4r5t6y7u8i",
    "1q2w3e4r5t6y7u8i9o0p",      "qwerty1234567890",
    "abcdefgh12345678",          "abc123def456ghi789",
    "iloveyouforever",           "iloveyousomuch1",
    "maytheforcebewithyou",      "tobeornottobethatisthequestion",
    "tobeornottobethatis",       "thequickbrownfox",
    "thequickbrownfoxjumps",     "thequickbrownfoxjumpsoverthelazydog",
    "wintersummerwinter",        "welcomewelcome1",
    "trustno1trustno1!",         "nevergonnagiveyouup",
    "coldarcpassphrase",         "coldarcpassword",
    "coldarccoldarc1",           "projectionpassword",
    "xenonlampxenonlamp1",       "cinemaprojection",
    "projectorpassword",         "servicepassword",
};

// Common practice, no source.
constexpr std::array kCommonPins{
    "112233",   "123321",   "332211",   "654123",   "123654",   "456123",   "789456",   "147258",
    "258369",   "147369",   "159357",   "159753",   "357159",   "753951",   "951753",   "142536",
    "102030",   "100200",   "102938",   "110110",   "112211",   "121314",   "131211",   "135790",
    "246810",   "135246",   "420420",   "696969",   "741852",   "852456",   "963852",   "987456",
    "100000",   "200000",   "000001",   "111112",   "112358",   "314159",   "271828",   "147852",
    "11223344", "12344321", "11112222", "14725836", "12341234", "10203040", "13572468", "31415926",
};

template<std::size_t N>
bool isListed(const QString& text, const std::array<const char*, N>& list)
{
    return std::any_of(list.begin(), list.end(),
                       [&](const char* one) { return text == QLatin1StringView(one); });
}

/// One unit of at most `longest` characters, at least twice, the last one perhaps cut short.
bool isRepetition(const QString& text, qsizetype longest)
{
    for (qsizetype unit = 1; unit <= longest && unit * 2 <= text.size(); ++unit) {
        if (QStringView(text).mid(unit) == QStringView(text).left(text.size() - unit))
            return true;
    }
    return false;
}

/// Each character is the one after (`step` 1) or before (-1) the last one; after 9 comes 0.
bool isRun(const QString& text, int step)
{
    const auto follows = [step](QChar a, QChar b) {
        if (a.isDigit() && b.isDigit())
            return (a.digitValue() + step + 10) % 10 == b.digitValue();
        return a.unicode() + step == b.unicode();
    };
    return std::adjacent_find(text.begin(), text.end(), [&](QChar a, QChar b) { return !follows(a, b); }) ==
           text.end();
}

/// A copy to look at, wiped when it goes.
struct Looked {
    Looked() = default;
    explicit Looked(const TypedSecret& typed)
        : text(QString::fromUtf8(QByteArrayView(typed.bytes().data(), qsizetype(typed.bytes().size()))))
    {
    }
    ~Looked() { wipe(text); }
    Looked(const Looked&) = delete;
    Looked& operator=(const Looked&) = delete;

    QString text;
};

bool isCommonPhrase(const QString& text)
{
    Looked looked;
    QString& plain = looked.text;
    plain.reserve(text.size());
    for (const QChar character : text) {
        if (!character.isSpace())
            plain.append(character.toCaseFolded());
    }
    return isListed(plain, kCommonPhrases) || isRepetition(plain, 8) || isRun(plain, 1) || isRun(plain, -1);
}

bool isCommonPin(const QString& text)
{
    return isListed(text, kCommonPins) || isRepetition(text, 3) ||
           (text.size() >= 8 && isRepetition(text, 4)) || isRun(text, 1) || isRun(text, -1);
}

} // namespace

tl::expected<Passphrase, PassphraseFault> Passphrase::accept(const TypedSecret& typed)
{
    const Looked looked(typed);
    const auto characters =
        std::ranges::count_if(looked.text, [](QChar one) { return !one.isLowSurrogate(); });
    if (characters < kLeast)
        return tl::unexpected(PassphraseFault::TooShort);
    if (characters > kMost)
        return tl::unexpected(PassphraseFault::TooLong);
    if (isCommonPhrase(looked.text))
        return tl::unexpected(PassphraseFault::Common);
    return Passphrase(typed);
}

tl::expected<Pin, PinFault> Pin::accept(const TypedSecret& typed)
{
    const Looked looked(typed);
    const QString& text = looked.text;
    const bool digitsOnly =
        std::all_of(text.begin(), text.end(), [](QChar one) { return one >= u'0' && one <= u'9'; });
    if (!digitsOnly)
        return tl::unexpected(PinFault::NotDigits);
    if (text.size() < kLeast)
        return tl::unexpected(PinFault::TooShort);
    if (text.size() > kMost)
        return tl::unexpected(PinFault::TooLong);
    if (isCommonPin(text))
        return tl::unexpected(PinFault::Common);
    return Pin(typed);
}

} // namespace coldarc::people
