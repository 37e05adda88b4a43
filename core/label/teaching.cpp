#include "core/label/teaching.h"

#include "core/label/agreement.h"
#include "core/label/characters.h"
#include "core/label/normalise.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QRegularExpression>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::label {

namespace {

using catalogue::LabelForm;
using catalogue::LabelRule;
using catalogue::LampType;

// Which identifiers may say what lamp it is and which one of them: titles of the GS1 Syntax Dictionary (GTIN,
// additional id, customer part number; serial). Those of a company's own use, 91 to 99, are from memory.
const QStringList kTypeFields{u"01"_s, u"240"_s, u"241"_s};
const QStringList kSerialFields{u"21"_s};

bool isOwnUse(const QString& ai)
{
    return ai.size() == 2 && ai >= u"91" && ai <= u"99";
}

bool holdsOneOf(const Payload& payload, const QStringList& fields)
{
    return std::ranges::any_of(fields, [&](const QString& ai) { return !payload.gs1.value(ai).isEmpty(); });
}

// A company's own field says it only where the standard's does not stand in the text.
bool isFieldFor(const QString& ai, const QStringList& fields, const Payload& payload)
{
    return ai.isEmpty() || fields.contains(ai) || (isOwnUse(ai) && !holdsOneOf(payload, fields));
}

const LampType* typeOf(const QList<LampType>& lampTypes, const LampTypeId& id)
{
    const auto found = std::ranges::find(lampTypes, id, &LampType::id);
    return found == lampTypes.end() ? nullptr : &*found;
}

QStringList codesOf(const LampType& type)
{
    return QStringList{type.code} + type.packageCodes;
}

// A number with noughts in front is the same item: GTIN-14, EAN-13, UPC.
QString itemOf(const QString& code)
{
    QString text = normalise(code);
    while (areDigits(text) && text.startsWith(u'0'))
        text.remove(0, 1);
    return text;
}

bool isCodeOf(const LampType& type, const QString& text)
{
    return std::ranges::any_of(codesOf(type),
                               [&](const QString& code) { return itemOf(code) == itemOf(text); });
}

bool isCheckedNumber(const QString& code)
{
    static const QList<qsizetype> kLengths{8, 12, 13, 14};
    return areDigits(code) && kLengths.contains(code.size()) && hasRightCheckDigit(code);
}

// A new code that stands for a type: of no other, and near none. A number with a check digit may be near.
QList<TeachFault> faultsOfCode(const QString& code, const LampTypeId& own, const QList<LampType>& lampTypes)
{
    QList<TeachFault> faults;
    if (normalise(code).size() < kLeastCode)
        faults << TeachFault::TypeTooShort;
    for (const LampType& type : lampTypes) {
        if (type.id != own && isCodeOf(type, code) && !faults.contains(TeachFault::CodeOfAnother))
            faults << TeachFault::CodeOfAnother;
    }
    if (!isCheckedNumber(code) && !suggestions(code, lampTypes).isEmpty())
        faults << TeachFault::NearAnother;
    return faults;
}

/// The value that is to stand for the type stands in the same place of a code that is read as another type:
/// it is the maker's, or the batch's.
bool isSameOnAnother(const Lesson& lesson, const Payload& payload, const QStringList& known,
                     const QList<LampType>& lampTypes, int currentYear)
{
    const QList<MarkablePart> marked = markableParts(payload);
    return std::ranges::any_of(known, [&](const QString& scanned) {
        const Payload other = readPayload(scanned, currentYear);
        const LabelText read = labelText(other, lampTypes);
        if (read.verdict != LabelText::Verdict::Read || read.types.isEmpty() ||
            read.types.contains(lesson.lampType))
            return false;
        const QList<MarkablePart> parts = markableParts(other);
        return std::ranges::any_of(marked, [&](const MarkablePart& part) {
            return normalise(part.value) == normalise(lesson.type) && parts.contains(part);
        });
    });
}

bool looksLikeAType(const LabelRule& rule, const QList<LampType>& lampTypes)
{
    if (rule.namesType())
        return false;
    return std::ranges::any_of(lampTypes, [&](const LampType& type) {
        return std::ranges::any_of(codesOf(type), [&](const QString& code) {
            return catalogue::fitsShape(code, rule.serialShape) ||
                   catalogue::fitsShape(normalise(code), rule.serialShape);
        });
    });
}

QList<TeachFault> faultsOfRule(const LabelRule& rule, const Lesson& lesson, const Payload& payload,
                               const QList<LampType>& lampTypes)
{
    QList<TeachFault> faults;
    if (rule.form == LabelForm::Gs1 && !isFieldFor(rule.type, kTypeFields, payload))
        faults << TeachFault::NotTheTypeField;
    if (rule.form == LabelForm::Gs1 && !isFieldFor(rule.serial, kSerialFields, payload))
        faults << TeachFault::NotTheSerialField;
    if (!rule.namesType() && normalise(lesson.serial).size() < kLeastCode)
        faults << TeachFault::SerialTooShort;
    if (looksLikeAType(rule, lampTypes))
        faults << TeachFault::LooksLikeAType;
    return faults;
}

QList<LampType> withRule(QList<LampType> lampTypes, const Teaching& teaching)
{
    for (LampType& type : lampTypes) {
        if (type.id != teaching.lampType)
            continue;
        if (!type.labels.contains(teaching.rule))
            type.labels.append(teaching.rule);
        if (!teaching.packageCode.isEmpty())
            type.packageCodes.append(teaching.packageCode);
    }
    return lampTypes;
}

QList<Reread> rereadsOf(const QStringList& scanned, const QList<LampType>& before,
                        const QList<LampType>& after, int currentYear)
{
    QList<Reread> all;
    for (const QString& one : scanned) {
        const Payload payload = readPayload(one, currentYear);
        all.append({one, labelText(payload, before), labelText(payload, after)});
    }
    return all;
}

// What was read is read so for good. What was unknown may become known, or contradict; neither is silent.
bool changesAReading(const QList<Reread>& rereads)
{
    return std::ranges::any_of(rereads, [](const Reread& one) {
        return one.before.verdict == LabelText::Verdict::Read && one.isChanged();
    });
}

QList<TeachFault> faultsOfLesson(const Lesson& lesson, const Payload& payload,
                                 const QList<LampType>& lampTypes)
{
    QList<TeachFault> faults;
    if (lesson.type.trimmed().isEmpty() && lesson.serial.trimmed().isEmpty())
        faults << TeachFault::NothingMarked;
    if (!typeOf(lampTypes, lesson.lampType))
        faults << TeachFault::UnknownLampType;
    const LabelText::Verdict verdict = labelText(payload, lampTypes).verdict;
    if (verdict == LabelText::Verdict::Unsound)
        faults << TeachFault::Unsound;
    else if (verdict != LabelText::Verdict::Unknown)
        faults << TeachFault::ReadAlready;
    return faults;
}

QByteArray textOf(const catalogue::Document& document, const Teaching& teaching)
{
    QJsonObject object = QJsonDocument::fromJson(document.text).object();
    const auto append = [&](const QString& key, const QJsonValue& value) {
        QJsonArray list = object.value(key).toArray();
        if (!list.contains(value))
            list.append(value);
        object.insert(key, list);
    };
    append(u"labels"_s, catalogue::toJson(teaching.rule));
    if (!teaching.packageCode.isEmpty())
        append(u"package_codes"_s, teaching.packageCode);
    return QJsonDocument(object).toJson(QJsonDocument::Compact);
}

} // namespace

QList<MarkablePart> markableParts(const Payload& payload)
{
    QList<MarkablePart> parts;
    const auto add = [&](const QString& name, const QString& value) {
        const MarkablePart part{name, value.trimmed()};
        if (!part.value.isEmpty() && !parts.contains(part))
            parts.append(part);
    };
    for (const Element& element : payload.gs1.elements)
        add(element.ai, element.value);
    for (const KeyedValue& one : payload.keyed)
        add(one.key, one.value);
    if (payload.form != Form::Plain)
        return parts;
    static const QList<QRegularExpression> kBetween{
        QRegularExpression(u"\\s+"_s), QRegularExpression(u"[\\s;,|=:#]+"_s),
        QRegularExpression(u"[\\s;,|=:#/]+"_s), QRegularExpression(u"[\\s;,|=:#/._-]+"_s)};
    add({}, payload.text);
    for (const QRegularExpression& between : kBetween)
        for (const QString& part : payload.text.split(between, Qt::SkipEmptyParts))
            add({}, part);
    return parts;
}

TeachAnswer teach(const Lesson& lesson, const QStringList& known, const QList<LampType>& lampTypes,
                  int currentYear)
{
    const Payload payload = readPayload(lesson.scanned, currentYear);
    TeachAnswer answer;
    answer.faults = faultsOfLesson(lesson, payload, lampTypes);
    if (!answer.faults.isEmpty())
        return answer;
    const auto rule = ruleFor(payload, lesson.type, lesson.serial);
    if (!rule) {
        answer.faults << TeachFault::NotClear;
        return answer;
    }
    Teaching teaching{lesson.lampType, *rule, {}, lesson.scanned};
    answer.faults = faultsOfRule(*rule, lesson, payload, lampTypes);
    if (rule->namesType() && !isCodeOf(*typeOf(lampTypes, lesson.lampType), lesson.type)) {
        teaching.packageCode = lesson.type;
        answer.faults += faultsOfCode(lesson.type, lesson.lampType, lampTypes);
        if (isSameOnAnother(lesson, payload, known, lampTypes, currentYear))
            answer.faults << TeachFault::SameOnAnother;
    }
    answer.rereads =
        rereadsOf(QStringList{lesson.scanned} + known, lampTypes, withRule(lampTypes, teaching), currentYear);
    if (answer.faults.isEmpty() && answer.rereads.front().after.verdict != LabelText::Verdict::Read)
        answer.faults << TeachFault::NotClear;
    if (changesAReading(answer.rereads))
        answer.faults << TeachFault::ChangesAReading;
    if (answer.faults.isEmpty())
        answer.teaching = teaching;
    return answer;
}

bool stillHolds(const Teaching& teaching, const QList<LampType>& lampTypes)
{
    return typeOf(lampTypes, teaching.lampType) && !looksLikeAType(teaching.rule, lampTypes) &&
           (teaching.packageCode.isEmpty() ||
            faultsOfCode(teaching.packageCode, teaching.lampType, lampTypes).isEmpty());
}

bool isInUse(const Teaching& teaching, const QList<LampType>& lampTypes)
{
    const LampType* type = typeOf(lampTypes, teaching.lampType);
    return type && type->labels.contains(teaching.rule) &&
           (teaching.packageCode.isEmpty() || type->packageCodes.contains(teaching.packageCode));
}

catalogue::Catalogue withTaught(const catalogue::Catalogue& catalogue, const QList<Teaching>& teachings)
{
    catalogue::Catalogue all = catalogue;
    for (const Teaching& teaching : teachings) {
        if (!stillHolds(teaching, all.lampTypes()))
            continue;
        const QList<LampType> types = withRule(all.lampTypes(), teaching);
        const QByteArray text = textOf(all.document(teaching.lampType), teaching);
        all.add(*typeOf(types, teaching.lampType), {text, sha256(text)});
    }
    return all;
}

} // namespace coldarc::label
