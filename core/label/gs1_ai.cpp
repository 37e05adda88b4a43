#include "core/label/gs1_ai.h"

#include "core/label/characters.h"

#include <QSet>

#include <algorithm>
#include <array>
#include <string_view>

using namespace Qt::StringLiterals;

namespace coldarc::label {

namespace {

enum class Kind : std::uint8_t {
    Digits,
    CheckedDigits, ///< the first `checked` digits end with a check digit
    Date,          ///< YYMMDD, day 00 for a month alone
    Text,          ///< character set 82
};

/// Identifiers from `first` to `last`, both of the same number of digits.
struct AiFact {
    std::u16string_view first;
    std::u16string_view last;
    Kind kind;
    qsizetype least;
    qsizetype most;
    qsizetype checked = 0;
};

// Source: GS1 Syntax Dictionary, READ (github gs1/gs1-syntax-dictionary). Those that a package of goods can
// bear; the others are kept as they are.
constexpr auto kFacts = std::to_array<AiFact>({
    {u"00", u"00", Kind::CheckedDigits, 18, 18, 18},
    {u"01", u"03", Kind::CheckedDigits, 14, 14, 14},
    {u"10", u"10", Kind::Text, 1, 20},
    {u"11", u"13", Kind::Date, 6, 6},
    {u"15", u"17", Kind::Date, 6, 6},
    {u"20", u"20", Kind::Digits, 2, 2},
    {u"21", u"22", Kind::Text, 1, 20},
    {u"235", u"235", Kind::Text, 1, 28},
    {u"240", u"241", Kind::Text, 1, 30},
    {u"242", u"242", Kind::Digits, 1, 6},
    {u"243", u"243", Kind::Text, 1, 20},
    {u"250", u"251", Kind::Text, 1, 30},
    {u"253", u"253", Kind::Text, 13, 30, 13},
    {u"254", u"254", Kind::Text, 1, 20},
    {u"255", u"255", Kind::CheckedDigits, 13, 25, 13},
    {u"30", u"30", Kind::Digits, 1, 8},
    {u"3100", u"3699", Kind::Digits, 6, 6},
    {u"37", u"37", Kind::Digits, 1, 8},
    {u"400", u"401", Kind::Text, 1, 30},
    {u"402", u"402", Kind::CheckedDigits, 17, 17, 17},
    {u"403", u"403", Kind::Text, 1, 30},
    {u"410", u"417", Kind::CheckedDigits, 13, 13, 13},
    {u"420", u"420", Kind::Text, 1, 20},
    {u"422", u"422", Kind::Digits, 3, 3},
    {u"7040", u"7040", Kind::Text, 4, 4},
    {u"8003", u"8003", Kind::Text, 14, 30, 14},
    {u"8004", u"8004", Kind::Text, 1, 30},
    {u"8006", u"8006", Kind::CheckedDigits, 18, 18, 14},
    {u"8008", u"8008", Kind::Digits, 8, 12},
    {u"8010", u"8010", Kind::Text, 1, 30},
    {u"8011", u"8011", Kind::Digits, 1, 12},
    {u"8012", u"8012", Kind::Text, 1, 20},
    {u"8013", u"8013", Kind::Text, 1, 25},
    {u"8017", u"8018", Kind::CheckedDigits, 18, 18, 18},
    {u"8019", u"8019", Kind::Digits, 1, 10},
    {u"8020", u"8020", Kind::Text, 1, 25},
    {u"90", u"90", Kind::Text, 1, 30},
    {u"91", u"99", Kind::Text, 1, 90},
});

struct Prefix {
    std::u16string_view first;
    std::u16string_view last;
    qsizetype count;
};

constexpr auto kAiDigits = std::to_array<Prefix>({
    {u"00", u"04", 2},
    {u"10", u"22", 2},
    {u"23", u"25", 3},
    {u"30", u"30", 2},
    {u"31", u"36", 4},
    {u"37", u"37", 2},
    {u"39", u"39", 4},
    {u"40", u"42", 3},
    {u"43", u"43", 4},
    {u"70", u"70", 4},
    {u"71", u"71", 3},
    {u"72", u"72", 4},
    {u"80", u"82", 4},
    {u"90", u"99", 2},
});

constexpr auto kSettled = std::to_array<Prefix>({
    {u"00", u"00", 18},
    {u"01", u"03", 14},
    {u"04", u"04", 16},
    {u"11", u"19", 6},
    {u"20", u"20", 2},
    {u"31", u"36", 6},
    {u"41", u"41", 13},
});

struct LinkKey {
    std::u16string_view key;
    std::array<std::u16string_view, 3> qualifiers; ///< in this order; each may be left out
    std::u16string_view alone{};                   ///< or this one alone
};

constexpr auto kLinkKeys = std::to_array<LinkKey>({
    {u"00", {}},
    {u"01", {u"22", u"10", u"21"}, u"235"},
    {u"253", {}},
    {u"255", {}},
    {u"401", {}},
    {u"402", {}},
    {u"414", {u"254"}, u"7040"},
    {u"415", {u"8020"}},
    {u"417", {u"7040"}},
    {u"8003", {}},
    {u"8004", {u"7040"}},
    {u"8006", {u"22", u"10", u"21"}},
    {u"8010", {u"8011"}},
    {u"8013", {}},
    {u"8017", {u"8019"}},
    {u"8018", {u"8019"}},
});

constexpr qsizetype kLongestUnknown = 90;

// Character set 82. Source: GS1 `lint_cset82.c`, READ.
bool isText(QChar c)
{
    constexpr std::u16string_view kOthers = u"!\"%&'()*+,-./:;<=>?_";
    return isDigit(c) || isLatin(c) || kOthers.find(c.unicode()) != kOthers.npos;
}

QStringView view(std::u16string_view text)
{
    return {text.data(), static_cast<qsizetype>(text.size())};
}

template<size_t n>
std::optional<qsizetype> countFor(const std::array<Prefix, n>& table, QStringView text)
{
    if (text.size() < 2 || !areDigits(text.left(2)))
        return std::nullopt;
    const auto found = std::ranges::find_if(table, [two = text.left(2)](const Prefix& row) {
        return two >= view(row.first) && two <= view(row.last);
    });
    return found == table.end() ? std::nullopt : std::optional(found->count);
}

const AiFact* factOf(QStringView ai)
{
    const auto found = std::ranges::find_if(kFacts, [&](const AiFact& fact) {
        return ai.size() == view(fact.first).size() && ai >= view(fact.first) && ai <= view(fact.last);
    });
    return found == kFacts.end() ? nullptr : &*found;
}

const LinkKey* linkKey(QStringView ai)
{
    const auto found =
        std::ranges::find_if(kLinkKeys, [&](const LinkKey& row) { return view(row.key) == ai; });
    return found == kLinkKeys.end() ? nullptr : &*found;
}

} // namespace

std::optional<qsizetype> digitsOfAi(QStringView text)
{
    const auto count = countFor(kAiDigits, text);
    return count && text.size() >= *count && areDigits(text.left(*count)) ? count : std::nullopt;
}

std::optional<qsizetype> settledLength(QStringView ai)
{
    return countFor(kSettled, ai);
}

std::optional<Flaw> flawOf(const Element& element, int currentYear)
{
    const QStringView value = element.value;
    const AiFact* const fact = factOf(element.ai);
    if (value.isEmpty() || value.size() > (fact ? fact->most : kLongestUnknown) ||
        (fact && value.size() < fact->least))
        return Flaw::Length;
    if (!std::ranges::all_of(value, isText) || (fact && fact->kind != Kind::Text && !areDigits(value)))
        return Flaw::Characters;
    if (!fact)
        return Flaw::UnknownAi;
    if (fact->checked > 0 && !hasRightCheckDigit(value.left(fact->checked)))
        return Flaw::CheckDigit;
    if (fact->kind == Kind::Date && !gs1Date(value, currentYear))
        return Flaw::Date;
    return std::nullopt;
}

QList<Remark> flawsTogether(const QList<Element>& elements)
{
    if (elements.isEmpty())
        return {{Flaw::Empty, {}}};
    QList<Remark> remarks;
    const auto find = [&](const QString& ai) {
        return std::ranges::find_if(elements, [&](const Element& element) { return element.ai == ai; });
    };
    for (const Element& element : elements)
        if (find(element.ai)->value != element.value)
            remarks.append({Flaw::Doubled, element.ai});
    const auto bears = [&](const QString& ai) { return find(ai) != elements.end(); };
    if (bears(u"21"_s) && !bears(u"01"_s) && !bears(u"03"_s) && !bears(u"8006"_s))
        remarks.append({Flaw::LoneSerial, u"21"_s});
    return remarks;
}

bool isLinkKey(QStringView ai)
{
    return linkKey(ai) != nullptr;
}

bool areQualifiersOf(QStringView key, const QList<QStringView>& ais)
{
    const LinkKey* const row = linkKey(key);
    if (!row || ais.isEmpty())
        return row != nullptr;
    if (ais.size() == 1 && !row->alone.empty() && ais.front() == view(row->alone))
        return true;
    auto from = row->qualifiers.begin();
    for (const QStringView ai : ais) {
        from = std::find_if(from, row->qualifiers.end(),
                            [&](std::u16string_view one) { return !one.empty() && view(one) == ai; });
        if (from == row->qualifiers.end())
            return false;
        ++from;
    }
    return true;
}

bool isQualifierOf(QStringView key, QStringView ai)
{
    return areQualifiersOf(key, {ai});
}

} // namespace coldarc::label
