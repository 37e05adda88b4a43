#include "core/label/together.h"

#include "core/label/normalise.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::label {

namespace {

void addTypes(QList<LampTypeId>& types, const LabelText& text)
{
    if (text.type.isEmpty())
        return; // a serial's look alone names no type
    for (const LampTypeId& type : text.types)
        if (!types.contains(type))
            types.append(type);
}

void addSerial(QStringList& serials, const LabelText& text)
{
    const auto isSame = [&](const QString& serial) { return normalise(serial) == normalise(text.serial); };
    if (!text.serial.isEmpty() && std::ranges::none_of(serials, isSame))
        serials.append(text.serial);
}

Together::Verdict verdictOf(const Together& together, const QList<LabelText>& texts, qsizetype withoutCode)
{
    using Verdict = Together::Verdict;
    const auto isRead = [](const LabelText& text) { return text.verdict == LabelText::Verdict::Read; };
    if (std::ranges::none_of(texts, isRead))
        return Verdict::NothingRead;
    if (together.types.size() > 1)
        return Verdict::TypesDiffer;
    if (together.serials.size() > 1)
        return Verdict::SerialsDiffer;
    return withoutCode == 0 && std::ranges::all_of(texts, isRead) ? Verdict::Agree : Verdict::NotAllRead;
}

} // namespace

QString wordOf(Together::Verdict verdict)
{
    switch (verdict) {
    case Together::Verdict::Agree:
        return u"agree"_s;
    case Together::Verdict::NothingRead:
        return u"nothing-read"_s;
    case Together::Verdict::NotAllRead:
        return u"not-all-read"_s;
    case Together::Verdict::TypesDiffer:
        return u"types-differ"_s;
    case Together::Verdict::SerialsDiffer:
        return u"serials-differ"_s;
    }
    Q_UNREACHABLE();
}

Together together(const QList<LabelText>& texts, qsizetype withoutCode)
{
    Together result;
    for (const LabelText& text : texts) {
        if (text.verdict != LabelText::Verdict::Read)
            continue;
        addTypes(result.types, text);
        addSerial(result.serials, text);
    }
    // A serial whose look belongs to other types than the one that is named.
    for (const LabelText& text : texts)
        if (text.verdict == LabelText::Verdict::Read && text.type.isEmpty() && result.types.size() == 1 &&
            !text.types.contains(result.types.front()))
            result.types += text.types;
    result.verdict = verdictOf(result, texts, withoutCode);
    return result;
}

} // namespace coldarc::label
