#include "core/catalogue/label_rule.h"

#include "core/catalogue/words.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::catalogue {
namespace {

constexpr Words<LabelForm, 3> kForms{
    {{LabelForm::Gs1, u"gs1"}, {LabelForm::Keyed, u"keyed"}, {LabelForm::Plain, u"plain"}}};

const QString kType = u"{type}"_s;
const QString kSerial = u"{serial}"_s;

bool isDigit(QChar c)
{
    return c >= u'0' && c <= u'9';
}

bool isLetter(QChar c)
{
    return (c >= u'A' && c <= u'Z') || (c >= u'a' && c <= u'z');
}

bool fits(QChar c, QChar shape)
{
    switch (shape.unicode()) {
    case u'#':
        return isDigit(c);
    case u'@':
        return isLetter(c);
    case u'*':
        return isDigit(c) || isLetter(c);
    default:
        return c == shape;
    }
}

bool isIdentifier(const QString& text)
{
    return text.size() >= 2 && text.size() <= 4 && std::ranges::all_of(text, isDigit);
}

// What stands between the two parts; nothing unless both stand in the pattern.
std::optional<QString> between(const QString& pattern)
{
    const qsizetype type = pattern.indexOf(kType);
    const qsizetype serial = pattern.indexOf(kSerial);
    if (type < 0 || serial < 0)
        return std::nullopt;
    const qsizetype from = type < serial ? type + kType.size() : serial + kSerial.size();
    return pattern.mid(from, std::max(type, serial) - from);
}

void checkPattern(const LabelRule& rule, JsonReader& reader)
{
    const bool once = rule.pattern.count(kType) <= 1 && rule.pattern.count(kSerial) <= 1;
    if (!once || (!rule.namesType() && !rule.namesSerial()))
        reader.complain(u"pattern"_s, u"must hold {type}, {serial} or both, each once"_s);
    else if (between(rule.pattern) == QString())
        reader.complain(u"pattern"_s, u"must part {type} from {serial}"_s);
}

void checkParts(const LabelRule& rule, JsonReader& reader)
{
    if (!rule.namesType() && !rule.namesSerial())
        reader.complain(u"type"_s, u"type or serial must be there"_s);
    if (rule.form != LabelForm::Gs1)
        return;
    for (const auto& [key, part] : {std::pair(u"type"_s, rule.type), std::pair(u"serial"_s, rule.serial)})
        if (!part.isEmpty() && !isIdentifier(part))
            reader.complain(key, u"must be an application identifier of 2 to 4 digits"_s);
}

} // namespace

QString wordOf(LabelForm form)
{
    return wordIn(kForms, form);
}

bool LabelRule::namesType() const
{
    return form == LabelForm::Plain ? pattern.contains(kType) : !type.isEmpty();
}

bool LabelRule::namesSerial() const
{
    return form == LabelForm::Plain ? pattern.contains(kSerial) : !serial.isEmpty();
}

bool fitsShape(QStringView text, QStringView shape)
{
    return text.size() == shape.size() && std::ranges::equal(text, shape, fits);
}

std::optional<LabelRule> readLabelRule(JsonReader& reader)
{
    const auto form = valueIn(kForms, reader.text(u"form"_s));
    if (!form) {
        reader.complain(u"form"_s, oneOf(kForms));
        return std::nullopt;
    }
    LabelRule rule;
    rule.form = *form;
    rule.serialShape = reader.textOr(u"serial_shape"_s, {});
    if (*form == LabelForm::Plain) {
        rule.pattern = reader.text(u"pattern"_s);
        checkPattern(rule, reader);
    } else {
        rule.type = reader.textOr(u"type"_s, {});
        rule.serial = reader.textOr(u"serial"_s, {});
        checkParts(rule, reader);
    }
    if (!rule.namesType() && rule.serialShape.isEmpty())
        reader.complain(u"serial_shape"_s, u"must be there where no type is named"_s);
    return rule;
}

QJsonObject toJson(const LabelRule& rule)
{
    QJsonObject object{{u"form"_s, wordOf(rule.form)}};
    for (const auto& [key, text] :
         {std::pair(u"type"_s, rule.type), std::pair(u"serial"_s, rule.serial),
          std::pair(u"pattern"_s, rule.pattern), std::pair(u"serial_shape"_s, rule.serialShape)})
        if (!text.isEmpty())
            object.insert(key, text);
    return object;
}

} // namespace coldarc::catalogue
