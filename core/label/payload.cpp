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

// ---- The envelope of ISO/IEC 15434: `[)>` RS, then formats, each of two digits and its fields with GS
// between them, each ended by RS, and EOT. Format 05 holds GS1 elements, 06 data identifiers of ANSI MH10.8.2
// (P and 1P a part, S a serial, T and 1T a lot). Source: from memory; neither standard was read.

constexpr QChar kRecordSeparator(u'\u001E');
constexpr QChar kEndOfEnvelope(u'\u0004');
const QString kEnvelope = u"[)>"_s + kRecordSeparator;

struct Envelope {
    QList<KeyedValue> fields; ///< of format 06, by their data identifiers
    QString elements;         ///< of format 05
};

std::optional<KeyedValue> identifiedValue(QStringView field)
{
    qsizetype at = 0;
    while (at < field.size() && field.at(at) >= u'0' && field.at(at) <= u'9')
        ++at;
    const bool hasLetter = at < field.size() && at <= 3 && field.at(at) >= u'A' && field.at(at) <= u'Z';
    if (!hasLetter || at + 1 == field.size())
        return std::nullopt;
    return KeyedValue{field.left(at + 1).toString(), field.mid(at + 1).toString()};
}

// Nothing unless all of it is read: what is cut off somewhere may be cut off in a serial.
std::optional<Envelope> envelopeOf(const QString& text)
{
    QStringView inside = QStringView(text).mid(kEnvelope.size());
    if (inside.endsWith(kEndOfEnvelope))
        inside.chop(1);
    if (!inside.endsWith(kRecordSeparator))
        return std::nullopt;
    inside.chop(1);
    Envelope envelope;
    for (const QStringView format : inside.split(kRecordSeparator)) {
        const QStringView fields = format.mid(3);
        if (format.size() < 4 || format.at(2) != QChar(kGroupSeparator))
            return std::nullopt;
        if (format.startsWith(u"05") && envelope.elements.isEmpty()) {
            envelope.elements = fields.toString();
            continue;
        }
        for (const QStringView field : fields.split(QChar(kGroupSeparator))) {
            const auto value = identifiedValue(field);
            if (!format.startsWith(u"06") || !value)
                return std::nullopt;
            envelope.fields.append(*value);
        }
    }
    const bool isOfOneKind = envelope.fields.isEmpty() != envelope.elements.isEmpty();
    return isOfOneKind ? std::optional(std::move(envelope)) : std::nullopt;
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
    const bool isEnvelope = scan.text.startsWith(kEnvelope);
    const auto envelope = isEnvelope ? envelopeOf(scan.text) : std::nullopt;
    if (isEnvelope && (!envelope || !envelope->fields.isEmpty())) {
        payload.form = envelope ? Form::Keyed : Form::Plain;
        payload.keyed = envelope ? envelope->fields : QList<KeyedValue>();
        return payload;
    }
    auto gs1 = envelope ? std::optional(readElementString(envelope->elements, currentYear))
                        : gs1Of(scan, currentYear);
    if (gs1) {
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
