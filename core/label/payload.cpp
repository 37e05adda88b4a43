#include "core/label/payload.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::label {

namespace {

constexpr qsizetype kLongestKey = 24;
constexpr qsizetype kGtinDigits = 14;

// EAN-8, UPC and EAN-13 numbers are items whose number is filled up with noughts.
ElementString itemNumber(const QString& digits, int currentYear)
{
    return readElementString(u"01"_s + digits.rightJustified(kGtinDigits, u'0'), currentYear);
}

bool isItemNumber(const QString& text)
{
    const bool length = text.size() == 8 || text.size() == 12 || text.size() == 13;
    return length && hasRightCheckDigit(text);
}

bool startsLink(const QString& text)
{
    return text.startsWith(u"http://"_s, Qt::CaseInsensitive) ||
           text.startsWith(u"https://"_s, Qt::CaseInsensitive);
}

bool namesItem(const ElementString& elements)
{
    return elements.isSound() && !elements.value(u"01").isEmpty();
}

// What the text is if it is GS1's; nothing if not. A reader that says so is believed, and then a fault is
// one.
std::optional<ElementString> gs1Of(const ScanText& scan, int currentYear)
{
    const auto whereSound = [](ElementString read) {
        return namesItem(read) ? std::optional(std::move(read)) : std::nullopt;
    };
    if (scan.id && scan.id->saysGs1())
        return scan.id->symbology == Symbology::Ean ? itemNumber(scan.text, currentYear)
                                                    : readElementString(scan.text, currentYear);
    if (startsLink(scan.text))
        return whereSound(readDigitalLink(scan.text, currentYear));
    if (scan.text.startsWith(u'('))
        return whereSound(readBracketedElements(scan.text, currentYear));
    if (scan.id)
        return std::nullopt;
    if (isItemNumber(scan.text))
        return itemNumber(scan.text, currentYear);
    return whereSound(readElementString(scan.text, currentYear));
}

std::optional<KeyedValue> keyedValue(QStringView line)
{
    const auto isMark = [](QChar c) { return c == u':' || c == u'='; };
    const auto mark = std::ranges::find_if(line, isMark);
    if (mark == line.end())
        return std::nullopt;
    const qsizetype at = mark - line.begin();
    const QStringView key = line.left(at).trimmed();
    const QStringView value = line.mid(at + 1).trimmed();
    const bool named = std::ranges::any_of(key, [](QChar c) { return c.isLetter(); });
    if (!named || key.size() > kLongestKey || value.isEmpty())
        return std::nullopt;
    return KeyedValue{key.toString(), value.toString()};
}

// Nothing unless every line, or every part between semicolons or bars, has a key.
QList<KeyedValue> keyedValues(const QString& text)
{
    QString lines = text;
    for (const QChar end : {QChar(u'\r'), QChar(u';'), QChar(u'|'), QChar(kGroupSeparator)})
        lines.replace(end, u'\n');
    QList<KeyedValue> values;
    for (const QStringView line : QStringView(lines).split(u'\n')) {
        if (line.trimmed().isEmpty())
            continue;
        const auto value = keyedValue(line);
        if (!value)
            return {};
        values.append(*value);
    }
    return values;
}

} // namespace

Payload readPayload(const QString& scanned, int currentYear)
{
    const ScanText scan = scanText(scanned.left(kLongestPayload));
    Payload payload;
    payload.symbology = scan.id;
    payload.text = scan.text;
    if (auto gs1 = gs1Of(scan, currentYear)) {
        payload.form = Form::Gs1;
        payload.gs1 = std::move(*gs1);
        if (payload.gs1.isSound()) {
            payload.made = gs1Date(payload.gs1.value(u"11"), currentYear);
            payload.useBy = gs1Date(payload.gs1.value(u"17"), currentYear);
        }
        return payload;
    }
    if (startsLink(scan.text))
        return payload; // an address has colons and is no "key: value"
    payload.keyed = keyedValues(scan.text);
    payload.form = payload.keyed.isEmpty() ? Form::Plain : Form::Keyed;
    return payload;
}

} // namespace coldarc::label
