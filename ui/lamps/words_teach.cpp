#include "ui/lamps/words_teach.h"

#include "ui/label/words_picture.h"

#include <QCoreApplication>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using Fault = label::TeachFault;

constexpr qsizetype kMostChanges = 6;

QString words(const char* text)
{
    return QCoreApplication::translate("teach", text);
}

} // namespace

QString wordsOf(label::TeachFault fault)
{
    switch (fault) {
    case Fault::NothingMarked:
        return words("Say which part is the type, which the serial, or both.");
    case Fault::UnknownLampType:
        return words("Say whose code it is.");
    case Fault::Unsound:
        return words("By its own check this code is misread or misprinted: nothing is to be learnt from it.");
    case Fault::ReadAlready:
        return words("The catalogue has rules for this code already.");
    case Fault::NotClear:
        return words(
            "No rule can be told from this: a part stands in it more than once, or nothing parts type "
            "from serial.");
    case Fault::NotTheTypeField:
        return words(
            "The standard says otherwise: in a GS1 code the type stands in (01), (240) or (241), or in "
            "one of (91) to (99) where none of those is there.");
    case Fault::NotTheSerialField:
        return words(
            "The standard says otherwise: in a GS1 code the serial stands in (21), or in one of (91) "
            "to (99) where that is not there.");
    case Fault::TypeTooShort:
        return words("A new code for a type has at least %1 characters: a shorter one stands in too much.")
            .arg(label::kLeastCode);
    case Fault::SerialTooShort:
        return words("A serial that stands alone has at least %1 characters: too much looks like a shorter "
                     "one.")
            .arg(label::kLeastCode);
    case Fault::CodeOfAnother:
        return words("This text stands for another type already.");
    case Fault::SameOnAnother:
        return words("This text stands in the same place of another type's codes: it does not tell the types "
                     "apart.");
    case Fault::NearAnother:
        return words(
            "This text is one or two characters away from the code of a type: it may be a misprint, or "
            "a sister of it with another current range.");
    case Fault::LooksLikeAType:
        return words("Serials of this look could not be told from the code of a type.");
    case Fault::ChangesAReading:
        return words("Codes on record would be read otherwise than they were.");
    }
    Q_UNREACHABLE();
}

QStringList wordsOf(const QList<label::Reread>& rereads, int currentYear)
{
    QStringList lines;
    if (rereads.isEmpty())
        return lines;
    const auto read = [&](const label::Reread& one) {
        return wordsOf(one.after, label::readPayload(one.scanned, currentYear));
    };
    lines << words("This code: %1").arg(read(rereads.front()));
    qsizetype changed = 0;
    for (const label::Reread& one : rereads.mid(1)) {
        if (!one.isChanged())
            continue;
        if (++changed <= kMostChanges)
            lines << words("%1: %2").arg(visibleText(one.scanned), read(one));
    }
    if (changed > kMostChanges)
        lines << words("and %1 more").arg(changed - kMostChanges);
    if (rereads.size() == 1)
        lines << words("No other code is known here.");
    else
        lines << words("Other codes known here: %1, of which %2 are read otherwise than now")
                     .arg(rereads.size() - 1)
                     .arg(changed);
    return lines;
}

QString wordsOf(const catalogue::LabelRule& rule)
{
    if (rule.form == catalogue::LabelForm::Plain)
        return rule.pattern;
    const bool isGs1 = rule.form == catalogue::LabelForm::Gs1;
    const auto part = [&](const char* name, const QString& at) {
        return words(name).arg(isGs1 ? u"(%1)"_s.arg(at) : at);
    };
    QStringList parts;
    if (!rule.type.isEmpty())
        parts << part("type in %1", rule.type);
    if (!rule.serial.isEmpty())
        parts << part("serial in %1", rule.serial);
    return parts.join(u", "_s);
}

} // namespace coldarc::ui
