#include "core/label/label_text.h"

#include "core/label/characters.h"
#include "core/label/normalise.h"

#include <algorithm>
#include <functional>

using namespace Qt::StringLiterals;

namespace coldarc::label {

namespace {

using catalogue::LabelForm;
using catalogue::LabelRule;
using catalogue::LampType;

const QString kType = u"{type}"_s;
const QString kSerial = u"{serial}"_s;

/// Two texts that a rule finds in a payload; empty where it does not look for them.
struct Parts {
    QString type;
    QString serial;
};

bool isForm(Form form, LabelForm rule)
{
    switch (rule) {
    case LabelForm::Gs1:
        return form == Form::Gs1;
    case LabelForm::Keyed:
        return form == Form::Keyed;
    case LabelForm::Plain:
        return form == Form::Plain;
    }
    Q_UNREACHABLE();
}

QString part(const Payload& payload, const QString& name)
{
    if (payload.form == Form::Gs1)
        return payload.gs1.value(name);
    const auto found = std::ranges::find_if(payload.keyed, [&](const KeyedValue& one) {
        return one.key.compare(name, Qt::CaseInsensitive) == 0;
    });
    return found == payload.keyed.end() ? QString() : found->value;
}

// Whether a key stands in the text with two values that differ: a misprint, or two labels in one code.
bool isDoubled(const Payload& payload, const QString& key)
{
    QString first;
    for (const KeyedValue& one : payload.keyed) {
        if (one.key.compare(key, Qt::CaseInsensitive) != 0)
            continue;
        const QString value = normalise(one.value);
        if (!first.isEmpty() && value != first)
            return true;
        first = value;
    }
    return false;
}

bool hasDoubledKey(const Payload& payload, const QList<LampType>& lampTypes)
{
    const auto readsDoubled = [&](const LabelRule& rule) {
        return rule.form == LabelForm::Keyed &&
               (isDoubled(payload, rule.type) || isDoubled(payload, rule.serial));
    };
    return std::ranges::any_of(
        lampTypes, [&](const LampType& type) { return std::ranges::any_of(type.labels, readsDoubled); });
}

QString withoutNoughts(const QString& number)
{
    qsizetype at = 0;
    while (at < number.size() && number.at(at) == u'0')
        ++at;
    return number.mid(at);
}

bool isNumber(const QString& text)
{
    return !text.isEmpty() && areDigits(text);
}

// An item's number is the same with noughts in front: GTIN-14, EAN-13, UPC.
bool isSameCode(const QString& read, const QString& code)
{
    if (isNumber(read) && isNumber(code))
        return withoutNoughts(read) == withoutNoughts(code);
    return normalise(read) == normalise(code);
}

// The code of the lamp type that a text is; empty if it is none. An item's number is given as the catalogue
// has it.
QString codeIn(const QString& read, const LampType& type)
{
    if (normalise(read).isEmpty())
        return {};
    if (normalise(read) == normalise(type.code))
        return read;
    const auto found =
        std::ranges::find_if(type.packageCodes, [&](const QString& code) { return isSameCode(read, code); });
    if (found == type.packageCodes.end())
        return {};
    return isNumber(read) ? *found : read;
}

// All ways in which a text can be taken apart by a pattern.
QList<Parts> partsByPattern(const QString& text, const QString& pattern)
{
    const qsizetype type = pattern.indexOf(kType);
    const qsizetype serial = pattern.indexOf(kSerial);
    const bool typeFirst = serial < 0 || (type >= 0 && type < serial);
    const qsizetype first = typeFirst ? type : serial;
    const QString front = pattern.left(first);
    const qsizetype afterFirst = first + (typeFirst ? kType : kSerial).size();
    const qsizetype second = type < 0 || serial < 0 ? -1 : std::max(type, serial);
    const qsizetype afterLast = second < 0 ? afterFirst : second + (typeFirst ? kSerial : kType).size();
    const QString back = pattern.mid(afterLast);
    if (text.size() < front.size() + back.size() || !text.startsWith(front) || !text.endsWith(back))
        return {};
    const QString inside = text.mid(front.size(), text.size() - front.size() - back.size());
    const auto parts = [&](const QString& one, const QString& other) {
        return typeFirst ? Parts{one, other} : Parts{other, one};
    };
    if (second < 0)
        return {parts(inside, {})};
    const QString middle = pattern.mid(afterFirst, second - afterFirst);
    QList<Parts> ways;
    for (qsizetype at = inside.indexOf(middle); at >= 0; at = inside.indexOf(middle, at + 1))
        ways.append(parts(inside.left(at), inside.mid(at + middle.size())));
    return ways;
}

QList<Parts> waysToRead(const Payload& payload, const LabelRule& rule)
{
    if (!isForm(payload.form, rule.form))
        return {};
    if (rule.form == LabelForm::Plain)
        return partsByPattern(payload.text.trimmed(), rule.pattern);
    return {{rule.type.isEmpty() ? QString() : part(payload, rule.type),
             rule.serial.isEmpty() ? QString() : part(payload, rule.serial)}};
}

// What one rule of one type makes of a payload. Nothing where it does not fit.
std::optional<Parts> readBy(const LabelRule& rule, const LampType& type, const Payload& payload)
{
    for (Parts parts : waysToRead(payload, rule)) {
        if (rule.namesType())
            parts.type = codeIn(parts.type, type);
        const bool serialFits =
            rule.serialShape.isEmpty() || catalogue::fitsShape(parts.serial, rule.serialShape);
        if (rule.namesType() == parts.type.isEmpty() ||
            rule.namesSerial() == normalise(parts.serial).isEmpty())
            continue;
        if (!rule.namesSerial() || serialFits)
            return parts;
    }
    return std::nullopt;
}

struct Fit {
    LampTypeId type;
    Parts parts;
};

QList<Fit> fitsOf(const Payload& payload, const QList<LampType>& lampTypes)
{
    QList<Fit> fits;
    for (const LampType& type : lampTypes)
        for (const LabelRule& rule : type.labels)
            if (auto parts = readBy(rule, type, payload))
                fits.append({type.id, std::move(*parts)});
    return fits;
}

// Rules that find the type go before those that find a serial alone.
QList<Fit> strongest(QList<Fit> fits)
{
    const auto hasType = [](const Fit& fit) { return !fit.parts.type.isEmpty(); };
    if (std::ranges::any_of(fits, hasType))
        fits.removeIf([&](const Fit& fit) { return !hasType(fit); });
    return fits;
}

// Of texts that are all the same or empty, the one that is not; nothing where two differ.
template<class Part>
std::optional<QString> theOneText(const QList<Fit>& fits, Part part)
{
    QString text;
    for (const Fit& fit : fits) {
        const QString& one = part(fit.parts);
        if (!text.isEmpty() && !one.isEmpty() && text != one)
            return std::nullopt;
        if (!one.isEmpty())
            text = one;
    }
    return text;
}

LabelText textOf(const QList<Fit>& fits)
{
    LabelText result;
    for (const Fit& fit : fits)
        if (!result.types.contains(fit.type))
            result.types.append(fit.type);
    result.type = fits.front().parts.type;
    const auto serial = theOneText(fits, [](const Parts& parts) { return parts.serial; });
    const bool oneLamp = serial && (result.type.isEmpty() || result.types.size() == 1);
    result.serial = serial.value_or(QString());
    result.verdict = oneLamp ? LabelText::Verdict::Read : LabelText::Verdict::Contradicts;
    return result;
}

// Digits and letters as the shape's own signs, anything else as itself.
QString shapeOf(const QString& serial)
{
    QString shape;
    for (const QChar c : serial)
        shape += catalogue::fitsShape(QStringView(&c, 1), u"#")   ? QChar(u'#')
                 : catalogue::fitsShape(QStringView(&c, 1), u"@") ? QChar(u'@')
                                                                  : c;
    return shape;
}

std::optional<QString> nameOf(const Payload& payload, const QString& value)
{
    QStringList names;
    for (const Element& element : payload.gs1.elements)
        if (element.value == value)
            names << element.ai;
    for (const KeyedValue& one : payload.keyed)
        if (one.value == value)
            names << one.key;
    return names.size() == 1 ? std::optional(names.front()) : std::nullopt;
}

// Nothing where a part stands in the text nowhere or more than once, or the two are not parted.
std::optional<QString> patternOf(const QString& text, const QString& type, const QString& serial)
{
    if ((!type.isEmpty() && text.count(type) != 1) || (!serial.isEmpty() && text.count(serial) != 1))
        return std::nullopt;
    struct Piece {
        qsizetype at;
        qsizetype length;
        QString sign;
    };
    QList<Piece> pieces;
    for (const auto& [part, sign] : {std::pair(type, kType), std::pair(serial, kSerial)})
        if (!part.isEmpty())
            pieces.append({text.indexOf(part), part.size(), sign});
    std::ranges::sort(pieces, std::greater(), &Piece::at);
    if (pieces.size() == 2 && pieces[1].at + pieces[1].length >= pieces[0].at)
        return std::nullopt;
    QString pattern = text;
    for (const Piece& piece : pieces) // from the back, so that places in front stay
        pattern.replace(piece.at, piece.length, piece.sign);
    return pattern;
}

} // namespace

QString wordOf(LabelText::Verdict verdict)
{
    switch (verdict) {
    case LabelText::Verdict::Read:
        return u"read"_s;
    case LabelText::Verdict::Unsound:
        return u"unsound"_s;
    case LabelText::Verdict::Unknown:
        return u"unknown"_s;
    case LabelText::Verdict::Contradicts:
        return u"contradicts"_s;
    }
    Q_UNREACHABLE();
}

LabelText labelText(const Payload& payload, const QList<LampType>& lampTypes)
{
    if (!payload.isSound())
        return {LabelText::Verdict::Unsound, {}, {}, {}, {}, {}, {}};
    if (hasDoubledKey(payload, lampTypes))
        return {LabelText::Verdict::Contradicts, {}, {}, {}, {}, {}, {}};
    const QList<Fit> fits = strongest(fitsOf(payload, lampTypes));
    LabelText result = fits.isEmpty() ? LabelText() : textOf(fits);
    if (payload.form == Form::Gs1) {
        result.lot = payload.gs1.value(u"10");
        result.made = payload.made;
        result.useBy = payload.useBy;
    }
    return result;
}

std::optional<LabelRule> ruleFor(const Payload& payload, const QString& type, const QString& serial)
{
    if (!payload.isSound() || (type.isEmpty() && serial.isEmpty()))
        return std::nullopt;
    LabelRule rule;
    if (type.isEmpty())
        rule.serialShape = shapeOf(serial);
    if (payload.form == Form::Plain) {
        rule.form = LabelForm::Plain;
        const auto pattern = patternOf(payload.text.trimmed(), type, serial);
        if (!pattern)
            return std::nullopt;
        rule.pattern = *pattern;
        return rule;
    }
    rule.form = payload.form == Form::Gs1 ? LabelForm::Gs1 : LabelForm::Keyed;
    for (const auto& [value, name] :
         {std::pair(type, &LabelRule::type), std::pair(serial, &LabelRule::serial)}) {
        if (value.isEmpty())
            continue;
        const auto found = nameOf(payload, value);
        if (!found || isDoubled(payload, *found))
            return std::nullopt;
        rule.*name = *found;
    }
    return rule;
}

} // namespace coldarc::label
