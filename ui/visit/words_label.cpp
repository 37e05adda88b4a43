#include "ui/visit/words_label.h"

#include <QCoreApplication>
#include <QHash>

#include <algorithm>
#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using Cause = label::Wait::Cause;
using State = label::FieldVerdict::State;
using Kind = label::Segment::Kind;

QString words(const char* text)
{
    return QCoreApplication::translate("label", text);
}

QString sourceAsSubject(label::Source source)
{
    static constexpr std::array<const char*, 4> kNames{"The lamp's own marking", "The box label", "The paper",
                                                       "The entry"};
    return words(kNames[static_cast<std::size_t>(source)]);
}

/// Letters that a sentence cannot show by themselves are named.
QString named(const QString& text)
{
    if (text == u"O")
        return words("the letter O");
    if (text == u"0")
        return words("the figure 0");
    if (text == u"I")
        return words("the letter I");
    if (text == u"1")
        return words("the figure 1");
    if (text == u"l")
        return words("the small letter l");
    return text;
}

QString part(const QString& text, const label::Span& span)
{
    return text.mid(span.at, span.length);
}

QString segmentWords(const label::Segment& segment, const QString& entry, const QString& here)
{
    const QString inEntry = named(part(entry, segment.a));
    const QString inHere = named(part(here, segment.b));
    switch (segment.kind) {
    case Kind::Differs: {
        const QString text =
            words("place %1: %2 here, %3 in the entry").arg(segment.b.at + 1).arg(inHere, inEntry);
        return segment.alike ? words("%1 (easily mistaken)").arg(text) : text;
    }
    case Kind::Swapped:
        return words("place %1: %2 here, %3 in the entry, changed places")
            .arg(segment.b.at + 1)
            .arg(inHere, inEntry);
    case Kind::Missing:
        return words("place %1: %2 of the entry is missing here").arg(segment.a.at + 1).arg(inEntry);
    case Kind::Extra:
        return words("place %1: %2 here is not in the entry").arg(segment.b.at + 1).arg(inHere);
    case Kind::Same:
        break;
    }
    return {};
}

const catalogue::LampType* typeOf(const QList<catalogue::LampType>& types, const LampTypeId& id)
{
    const auto found = std::find_if(types.begin(), types.end(),
                                    [&](const catalogue::LampType& type) { return type.id == id; });
    return found == types.end() ? nullptr : &*found;
}

} // namespace

QString nameOf(label::Source source)
{
    static constexpr std::array<const char*, 4> kNames{"Own marking", "Box", "Paper", "Entry"};
    return words(kNames[static_cast<std::size_t>(source)]);
}

QString wordsOf(const label::Wait& wait)
{
    const QString source = sourceAsSubject(wait.source);
    switch (wait.cause) {
    case Cause::EntryTypeMissing:
        return words("The entry has no type yet: type what you say is fitted.");
    case Cause::EntryScanned:
        return words("The entry was scanned: type it yourself, a label read twice proves nothing.");
    case Cause::TypeNotInCatalogue:
        return words("The type of the entry is none that is known here: look at it letter by letter.");
    case Cause::TypeNamesSeveral:
        return words("The type of the entry names more than one lamp: type the code on the lamp itself.");
    case Cause::ModelDoesNotTakeType:
        return words("This projector does not take that type: bring another lamp.");
    case Cause::NotThePlannedType:
        return words("This visit was opened for another type, and its adaptor and steps go by that: fit the "
                     "planned lamp, or close this visit and open one for this lamp.");
    case Cause::TypeUnread:
        return wait.source == label::Source::Box
                   ? words("Neither box nor paper was read for the type: read one of them.")
                   : words("%1 was not read for the type: read it.").arg(source);
    case Cause::TypeDiffers:
        return words("%1 names another type: find out which is right; a type is never let pass.").arg(source);
    case Cause::TypeDiffersBySuffix:
        return words(
                   "%1 differs in the last letters of the type, and that is another lamp: find out which is "
                   "right.")
            .arg(source);
    case Cause::EntrySerialMissing:
        return words("The entry has no serial yet: type it.");
    case Cause::SisterNotExcluded:
        return words("%1 could be that of another lamp but for one character, and its serial does not vouch "
                     "for "
                     "it: look once more and choose which of them stands there.")
            .arg(source);
    case Cause::SerialUnread:
        return wait.source == label::Source::Box
                   ? words("Neither box nor paper was read for the serial: read one, or let it pass with a "
                           "reason.")
                   : words("%1 was not read for the serial: read it, or let it pass with a reason.")
                         .arg(source);
    case Cause::SerialDiffers:
        return words("%1 shows another serial: read it again, or let it pass with a reason.").arg(source);
    }
    Q_UNREACHABLE();
}

QString wordsOf(const label::Difference& difference, const QString& entry, const QString& here)
{
    QStringList parts;
    int more = 0;
    for (const label::Segment& segment : difference.segments) {
        if (segment.kind == Kind::Same)
            continue;
        if (parts.size() < kMostDifferences)
            parts.append(segmentWords(segment, entry, here));
        else
            ++more;
    }
    if (more > 0)
        parts.append(words("and %1 more").arg(more));
    return parts.join(u"; "_s);
}

QString wordsApart(const label::Difference& difference, const QString& here, const QString& there)
{
    QStringList parts;
    int more = 0;
    for (const label::Segment& segment : difference.segments) {
        if (segment.kind == Kind::Same)
            continue;
        if (parts.size() == kMostDifferences) {
            ++more;
            continue;
        }
        const QString one = part(here, segment.a);
        const QString other = part(there, segment.b);
        const qsizetype place = segment.b.at + 1;
        if (one.isEmpty())
            parts.append(words("place %1: %2 there, nothing here").arg(place).arg(named(other)));
        else if (other.isEmpty())
            parts.append(words("place %1: %2 here, nothing there").arg(segment.a.at + 1).arg(named(one)));
        else
            parts.append(words("place %1: %2 there, %3 here").arg(place).arg(named(other), named(one)));
    }
    if (more > 0)
        parts.append(words("and %1 more").arg(more));
    return parts.join(u"; "_s);
}

QString nearWords(const QString& text, const QList<label::Suggestion>& near,
                  const QList<catalogue::LampType>& lampTypes)
{
    QStringList lines;
    int more = 0;
    for (const label::Suggestion& one : near) {
        const catalogue::LampType* type = typeOf(lampTypes, one.type);
        if (!type)
            continue;
        if (lines.size() == kMostDifferences) {
            ++more;
            continue;
        }
        lines.append(words("%1 (%2)").arg(
            type->code, wordsApart(label::compareFields(text, type->code), text, type->code)));
    }
    if (more > 0)
        lines.append(words("one of %1 more").arg(more));
    return lines.isEmpty() ? QString() : words("Not known. Did you mean %1?").arg(lines.join(words(" or ")));
}

QString howWords(const label::SourceRead& read)
{
    static const QHash<label::Symbology, const char*> kNames{
        {label::Symbology::Code39, "Code 39"}, {label::Symbology::Code128, "Code 128"},
        {label::Symbology::Ean, "EAN"},        {label::Symbology::DataMatrix, "Data Matrix"},
        {label::Symbology::Qr, "QR"},          {label::Symbology::Other, "bar code"}};
    QStringList how;
    for (const QString& scanned : read.scanned) {
        const auto id = label::scanText(scanned).id;
        const QString name = words(kNames.value(id ? id->symbology : label::Symbology::Other));
        how.append(id && id->isChecked() ? name : words("%1 without a check: counts as typed").arg(name));
    }
    how.removeDuplicates();
    const bool stands = !read.reading.type.isEmpty() || !read.reading.serial.isEmpty();
    if (!how.isEmpty())
        how.first() = words("scanned, %1").arg(how.first());
    else if (stands && read.reading.means != label::Means::Scanned)
        how.append(read.reading.means == label::Means::Chosen ? words("chosen") : words("typed"));
    if (read.isAlsoElsewhere)
        how.append(words("said to stand on both"));
    if (read.picture)
        how.append(words("picture kept"));
    return how.join(u", "_s);
}

QString wordsOf(const label::FieldVerdict& verdict, const QString& entry, const QString& here)
{
    switch (verdict.state) {
    case State::NotRead:
        return words("not read yet");
    case State::NoEntry:
        return words("waits: the entry");
    case State::Agrees:
        return verdict.isSameCode ? words("agrees, by one code read for two") : words("agrees");
    case State::Differs:
        return words("differs, %1").arg(wordsOf(verdict.difference, entry, here));
    case State::DiffersBySuffix:
        return words("another lamp, %1").arg(wordsOf(verdict.difference, entry, here));
    case State::Passed:
        return words("let pass with a reason");
    }
    Q_UNREACHABLE();
}

QString apartWords(const QString& code, const QString& other)
{
    const auto segments = label::compareFields(other, code).segments;
    for (const label::Segment& segment : segments) {
        if (segment.kind == Kind::Same)
            continue;
        const QString here = part(code, segment.b);
        if (here.isEmpty())
            return words("%1: one character less").arg(code);
        const QString kind = here.at(0).isDigit() ? words("the figure %1") : words("the letter %1");
        return words("%1: place %2 is %3").arg(code).arg(segment.b.at + 1).arg(kind.arg(here));
    }
    return code;
}

QStringList wrongTypeWords(const label::Agreement& agreement, const QList<catalogue::LampType>& lampTypes)
{
    QStringList lines;
    for (const label::NamedType& keyed : agreement.namedTypes) {
        for (const label::NamedType& fitted : agreement.namedTypes) {
            const catalogue::LampType* told = typeOf(lampTypes, keyed.type);
            const catalogue::LampType* real = typeOf(lampTypes, fitted.type);
            if (keyed.type == fitted.type || !told || !real)
                continue;
            const label::WrongTypeEffect effect = label::wrongTypeEffect(*told, *real);
            const QString pair = words("Keyed in as %1 with a %2 in the seat:").arg(told->code, real->code);
            if (effect.mayRunAbove)
                lines.append(words("%1 up to %2 A, its most is %3 A. The electrodes burn off and the bulb is "
                                   "strained.")
                                 .arg(pair)
                                 .arg(told->mostAmperes)
                                 .arg(real->mostAmperes));
            if (effect.mayRunBelow)
                lines.append(
                    words("%1 down to %2 A, its least is %3 A. The arc wanders and the lamp blackens.")
                        .arg(pair)
                        .arg(told->leastAmperes)
                        .arg(real->leastAmperes));
            if (!effect.mayRunAbove && !effect.mayRunBelow)
                lines.append(words("%1 the current stays within its range, the record is wrong.").arg(pair));
        }
    }
    return lines;
}

} // namespace coldarc::ui
