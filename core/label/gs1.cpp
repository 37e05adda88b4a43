#include "core/label/gs1.h"

#include "core/label/characters.h"
#include "core/label/gs1_ai.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::label {

namespace {

constexpr QChar kSeparator = QChar(kGroupSeparator);

int digit(QChar c)
{
    return c.unicode() - u'0';
}

ElementString checked(QList<Element> elements, QList<Remark> remarks, int currentYear)
{
    for (const Element& element : elements)
        if (const auto flaw = flawOf(element, currentYear))
            remarks.append({*flaw, element.ai});
    remarks += flawsTogether(elements);
    return {std::move(elements), std::move(remarks)};
}

QStringView withoutSeparator(QStringView text)
{
    return text.startsWith(kSeparator) ? text.mid(1) : text;
}

// Where the value at the beginning of a text ends.
qsizetype lengthOfValue(QStringView ai, QStringView text)
{
    const qsizetype separator = text.indexOf(kSeparator);
    const qsizetype most = separator < 0 ? text.size() : separator;
    const auto settled = settledLength(ai);
    return settled ? std::min(*settled, most) : most;
}

// Where the next "(identifier)" begins, from a place on.
qsizetype nextBracket(QStringView text, qsizetype from)
{
    for (qsizetype at = text.indexOf(u'(', from); at >= 0; at = text.indexOf(u'(', at + 1)) {
        const qsizetype end = text.indexOf(u')', at);
        const QStringView inside = end < 0 ? QStringView() : text.mid(at + 1, end - at - 1);
        if (digitsOfAi(inside) == inside.size())
            return at;
    }
    return text.size();
}

// ---- Digital Link ----

enum class Plus : std::uint8_t {
    Itself,
    Space, ///< as forms write it
};

int hexDigit(QChar c)
{
    const char16_t lower = c.toLower().unicode();
    if (lower >= u'0' && lower <= u'9')
        return lower - u'0';
    return lower >= u'a' && lower <= u'f' ? lower - u'a' + 10 : -1;
}

// Nothing for an escape that is cut off, is none, or stands for no character.
std::optional<QString> withoutEscapes(QStringView text, Plus plus)
{
    QByteArray bytes;
    for (qsizetype i = 0; i < text.size(); ++i) {
        if (text.at(i) != u'%') {
            bytes += plus == Plus::Space && text.at(i) == u'+' ? QByteArray(" ") : text.mid(i, 1).toUtf8();
            continue;
        }
        if (i + 2 >= text.size())
            return std::nullopt;
        const int high = hexDigit(text.at(i + 1));
        const int low = hexDigit(text.at(i + 2));
        if (high < 0 || low < 0 || high + low == 0)
            return std::nullopt;
        bytes += static_cast<char>(high * 16 + low);
        i += 2;
    }
    return QString::fromUtf8(bytes);
}

std::optional<Element> elementOf(QStringView ai, QStringView escaped, Plus plus)
{
    const auto value = withoutEscapes(escaped, plus);
    if (!value || value->isEmpty())
        return std::nullopt;
    return Element{ai.toString(), *value};
}

// The elements of a path from a key on; nothing if it does not hold there.
std::optional<QList<Element>> elementsFrom(const QList<QStringView>& segments, qsizetype at, int currentYear)
{
    QList<Element> elements;
    QList<QStringView> qualifiers;
    for (qsizetype i = at; i + 1 < segments.size(); i += 2) {
        const auto element = elementOf(segments.at(i), segments.at(i + 1), Plus::Itself);
        if (!element || flawOf(*element, currentYear))
            return std::nullopt;
        if (i > at)
            qualifiers.append(segments.at(i));
        elements.append(*element);
    }
    if (!areQualifiersOf(segments.at(at), qualifiers))
        return std::nullopt;
    return elements;
}

// The rightmost key wins over those that only look like one.
std::optional<QList<Element>> elementsOfPath(QStringView path, int currentYear)
{
    const QList<QStringView> segments = path.split(u'/');
    for (qsizetype at = segments.size() - 2; at >= 0; at -= 2)
        if (isLinkKey(segments.at(at)))
            if (auto elements = elementsFrom(segments, at, currentYear))
                return elements;
    return std::nullopt;
}

// What stands behind the question mark; what has no number for a name is somebody else's.
std::optional<QList<Element>> elementsOfQuery(QStringView query, QStringView key)
{
    QList<Element> elements;
    for (const QStringView part : query.split(u'&', Qt::SkipEmptyParts)) {
        const qsizetype equals = part.indexOf(u'=');
        const QStringView ai = equals < 0 ? part : part.left(equals);
        if (ai.isEmpty() || !areDigits(ai))
            continue;
        const auto element = equals < 0 ? std::nullopt : elementOf(ai, part.mid(equals + 1), Plus::Space);
        if (!element || digitsOfAi(ai) != ai.size() || isLinkKey(ai) || isQualifierOf(key, ai))
            return std::nullopt;
        elements.append(*element);
    }
    return elements;
}

// What follows "http://" or "https://", in small or in capital letters; nothing for another scheme.
std::optional<QStringView> afterScheme(QStringView uri)
{
    for (const QStringView scheme : {u"https://", u"http://", u"HTTPS://", u"HTTP://"})
        if (uri.startsWith(scheme))
            return uri.mid(scheme.size());
    return std::nullopt;
}

bool holdsDoubles(const QList<Element>& elements)
{
    return std::ranges::any_of(
        elements, [&](const Element& one) { return std::ranges::count(elements, one.ai, &Element::ai) > 1; });
}

} // namespace

bool ElementString::isSound() const
{
    return !elements.isEmpty() &&
           std::ranges::all_of(remarks, [](const Remark& remark) { return isOddOnly(remark.flaw); });
}

QString ElementString::value(QStringView ai) const
{
    const auto found = std::ranges::find_if(elements, [&](const Element& one) { return one.ai == ai; });
    return found == elements.end() ? QString() : found->value;
}

ElementString readElementString(const QString& text, int currentYear)
{
    QList<Element> elements;
    QList<Remark> remarks;
    QStringView rest = withoutSeparator(text);
    while (!rest.isEmpty()) {
        const auto digits = digitsOfAi(rest);
        if (!digits) {
            remarks.append({Flaw::NotAllotted, {}});
            break;
        }
        const QStringView ai = rest.left(*digits);
        rest = rest.mid(*digits);
        const qsizetype length = lengthOfValue(ai, rest);
        elements.append({ai.toString(), rest.left(length).toString()});
        rest = withoutSeparator(rest.mid(length));
    }
    return checked(std::move(elements), std::move(remarks), currentYear);
}

ElementString readBracketedElements(const QString& text, int currentYear)
{
    const QString trimmed = text.trimmed();
    QList<Element> elements;
    QList<Remark> remarks;
    if (nextBracket(trimmed, 0) != 0)
        remarks.append({Flaw::NotAllotted, {}});
    for (qsizetype at = nextBracket(trimmed, 0); at < trimmed.size();) {
        const qsizetype end = trimmed.indexOf(u')', at);
        const qsizetype next = nextBracket(trimmed, end);
        elements.append({trimmed.mid(at + 1, end - at - 1), trimmed.mid(end + 1, next - end - 1).trimmed()});
        at = next;
    }
    return checked(std::move(elements), std::move(remarks), currentYear);
}

ElementString readDigitalLink(const QString& uri, int currentYear)
{
    const ElementString none{{}, {{Flaw::NotALink, {}}}};
    const qsizetype fragment = uri.indexOf(u'#');
    const auto rest = afterScheme(fragment < 0 ? QStringView(uri) : QStringView(uri).left(fragment));
    if (!rest)
        return none;
    const qsizetype question = rest->indexOf(u'?');
    const QStringView address = question < 0 ? *rest : rest->left(question);
    const qsizetype slash = address.indexOf(u'/');
    if (slash <= 0)
        return none;
    auto elements = elementsOfPath(address.mid(slash + 1), currentYear);
    if (!elements)
        return none;
    const auto more =
        elementsOfQuery(question < 0 ? QStringView() : rest->mid(question + 1), elements->front().ai);
    if (!more)
        return none;
    *elements += *more;
    if (holdsDoubles(*elements))
        return none;
    return checked(std::move(*elements), {}, currentYear);
}

std::optional<int> checkDigit(QStringView digits)
{
    if (digits.isEmpty() || !areDigits(digits))
        return std::nullopt;
    int sum = 0;
    int weight = 3;
    for (qsizetype i = digits.size() - 1; i >= 0; --i, weight = 4 - weight)
        sum += weight * digit(digits.at(i));
    return (10 - sum % 10) % 10;
}

bool hasRightCheckDigit(QStringView digits)
{
    return digits.size() >= 2 && areDigits(digits) && checkDigit(digits.chopped(1)) == digit(digits.back());
}

std::chrono::sys_days LabelDate::lastDay() const
{
    const auto month_ = std::chrono::year(year) / std::chrono::month(static_cast<unsigned>(month));
    return day ? std::chrono::sys_days(month_ / std::chrono::day(static_cast<unsigned>(*day)))
               : std::chrono::sys_days(month_ / std::chrono::last);
}

std::chrono::sys_days LabelDate::firstDay() const
{
    const int first = day.value_or(1);
    return std::chrono::year(year) / month / first;
}

std::optional<LabelDate> gs1Date(QStringView sixDigits, int currentYear)
{
    if (sixDigits.size() != 6 || !areDigits(sixDigits))
        return std::nullopt;
    const auto two = [&](qsizetype at) { return 10 * digit(sixDigits.at(at)) + digit(sixDigits.at(at + 1)); };
    const int ahead = two(0) - currentYear % 100;
    const int century = currentYear / 100 + (ahead >= 51 ? -1 : ahead <= -50 ? 1 : 0);
    LabelDate date{century * 100 + two(0), two(2), std::nullopt};
    if (date.month < 1 || date.month > 12)
        return std::nullopt;
    if (two(4) == 0)
        return date;
    date.day = two(4);
    const std::chrono::year_month_day whole{std::chrono::year(date.year),
                                            std::chrono::month(static_cast<unsigned>(date.month)),
                                            std::chrono::day(static_cast<unsigned>(*date.day))};
    return whole.ok() ? std::optional(date) : std::nullopt;
}

} // namespace coldarc::label
