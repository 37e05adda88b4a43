#include "tests/core/label/any_payload.h"

#include "core/label/label_text.h"
#include "core/label/payload.h"
#include "core/label/set_up_scan.h"
#include "core/label/teaching.h"

#include <array>

namespace coldarc::test {

using namespace Qt::StringLiterals;

namespace {

size_t below(std::mt19937& chance, size_t limit)
{
    return std::uniform_int_distribution<size_t>(0, limit - 1)(chance);
}

void mutate(QString& text, std::mt19937& chance)
{
    const auto at = static_cast<qsizetype>(below(chance, size_t(text.size()) + 1));
    const QChar any(static_cast<char16_t>(below(chance, below(chance, 2) ? 0x80 : 0x10000)));
    switch (below(chance, 4)) {
    case 0:
        text.insert(at, any);
        break;
    case 1:
        text.remove(at, static_cast<qsizetype>(below(chance, 4)));
        break;
    case 2:
        text.insert(at, text.mid(static_cast<qsizetype>(below(chance, size_t(text.size()) + 1)), 8));
        break;
    default:
        if (at < text.size())
            text[at] = any;
    }
}

// A maker whose rules look at everything. Invented.
QList<catalogue::LampType> types()
{
    using catalogue::LabelForm;
    catalogue::LampType type;
    type.id = LampTypeId(u"khm"_s);
    type.code = u"ABC"_s;
    type.packageCodes = {u"2900041701028"_s};
    type.labels = {{LabelForm::Gs1, u"01"_s, u"21"_s, {}, {}},
                   {LabelForm::Keyed, u"A"_s, u"B"_s, {}, u"@#*"_s},
                   {LabelForm::Plain, {}, {}, u"{type}/{serial}"_s, {}},
                   {LabelForm::Plain, {}, {}, u"({serial}:{type})"_s, {}},
                   {LabelForm::Plain, {}, {}, u"{serial}"_s, u"**-#"_s}};
    return {type};
}

} // namespace

QString anyPayload(std::mt19937& chance)
{
    static const auto kPieces = std::to_array<QString>({u"01"_s,
                                                        u"09506000134352"_s,
                                                        u"02900041701028"_s,
                                                        u"21"_s,
                                                        u"\u001D"_s,
                                                        u"]d2"_s,
                                                        u"]C1"_s,
                                                        u"]E0"_s,
                                                        u"]Q1"_s,
                                                        u"https://a/01/"_s,
                                                        u"HTTP://"_s,
                                                        u"?"_s,
                                                        u"%2F"_s,
                                                        u"%"_s,
                                                        u"%00"_s,
                                                        u"(01)"_s,
                                                        u"(21)"_s,
                                                        u"("_s,
                                                        u")"_s,
                                                        u"/"_s,
                                                        u"10"_s,
                                                        u"ABC"_s,
                                                        u"240"_s,
                                                        u"17"_s,
                                                        u"290300"_s,
                                                        u"8008"_s,
                                                        u"="_s,
                                                        u":"_s,
                                                        u"A: ABC\nB: A1x"_s,
                                                        u";"_s,
                                                        u"|"_s,
                                                        u"\n"_s,
                                                        u"&99=7"_s,
                                                        u"#"_s,
                                                        u"2900041701028"_s,
                                                        u"00"_s,
                                                        u"253"_s,
                                                        u"+"_s,
                                                        u"\u00C4"_s,
                                                        u"\U0001F4A1"_s,
                                                        u"ABC/7"_s,
                                                        u"[)>\u001E06\u001D"_s,
                                                        u"[)>\u001E05\u001D"_s,
                                                        u"1PABC"_s,
                                                        u"\u001E\u0004"_s,
                                                        u"(7:ABC)"_s,
                                                        u"AB-1"_s});
    QString text;
    for (size_t n = below(chance, 9); n > 0; --n)
        text += kPieces.at(below(chance, kPieces.size()));
    for (size_t n = below(chance, 4); n > 0; --n)
        mutate(text, chance);
    return text;
}

bool readsSafely(const QString& text)
{
    static const QList<catalogue::LampType> kTypes = types();
    const label::Payload payload = label::readPayload(text, 2026);
    const label::LabelText read = label::labelText(payload, kTypes);
    (void)label::readElementString(text, 2026);
    (void)label::readBracketedElements(text, 2026);
    (void)label::readDigitalLink(text, 2026);
    (void)label::setUpVerdict(text);
    (void)label::ruleFor(payload, text.left(3), text.mid(4, 3));
    const label::TeachAnswer taught =
        label::teach({text, text.left(4), text.mid(5, 4), kTypes.front().id}, {text}, kTypes, 2026);
    const bool teachesWhatItReads =
        !taught.teaching || taught.rereads.front().after.verdict == label::LabelText::Verdict::Read;
    for (const label::MarkablePart& part : label::markableParts(payload))
        (void)label::ruleFor(payload, part.value, {});
    const bool keepsText = text.endsWith(payload.text);
    const bool keyedHasKeys = (payload.form == label::Form::Keyed) == !payload.keyed.isEmpty();
    const bool unsoundIsNotRead = payload.isSound() || read.verdict == label::LabelText::Verdict::Unsound;
    const bool readSaysSomething =
        read.verdict != label::LabelText::Verdict::Read || !read.type.isEmpty() || !read.serial.isEmpty();
    return keepsText && keyedHasKeys && unsoundIsNotRead && readSaysSomething && teachesWhatItReads;
}

} // namespace coldarc::test
