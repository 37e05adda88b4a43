#include "ui/alignment/words_light.h"

#include "core/alignment/hand_turn.h"

#include <QCoreApplication>
#include <QLocale>

#include <array>
#include <cstdlib>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using alignment::Direction;
using alignment::Eighths;
using alignment::kEighthsPerTurn;
using alignment::NotYet;
using alignment::ReadingDoubt;
using catalogue::Sense;
using photometry::TypedFault;

QString words(const char* text)
{
    return QCoreApplication::translate("light", text);
}

/// Eighths that make no whole turn, of one turn and beside whole ones.
struct Part {
    const char* alone;
    const char* beside;
    const char* figures;
};
constexpr std::array<Part, 8> kParts{{
    {"", "", ""},
    {QT_TRANSLATE_NOOP("light", "an eighth of a turn"), QT_TRANSLATE_NOOP("light", "an eighth"), "1/8"},
    {QT_TRANSLATE_NOOP("light", "a quarter of a turn"), QT_TRANSLATE_NOOP("light", "a quarter"), "1/4"},
    {QT_TRANSLATE_NOOP("light", "three eighths of a turn"), QT_TRANSLATE_NOOP("light", "three eighths"),
     "3/8"},
    {QT_TRANSLATE_NOOP("light", "half a turn"), QT_TRANSLATE_NOOP("light", "a half"), "1/2"},
    {QT_TRANSLATE_NOOP("light", "five eighths of a turn"), QT_TRANSLATE_NOOP("light", "five eighths"), "5/8"},
    {QT_TRANSLATE_NOOP("light", "three quarters of a turn"), QT_TRANSLATE_NOOP("light", "three quarters"),
     "3/4"},
    {QT_TRANSLATE_NOOP("light", "seven eighths of a turn"), QT_TRANSLATE_NOOP("light", "seven eighths"),
     "7/8"},
}};

const Part& partOf(int count)
{
    return kParts[static_cast<std::size_t>(count % kEighthsPerTurn)];
}

/// Pre: > 0.
QString figuresOf(int count)
{
    QStringList text;
    if (count >= kEighthsPerTurn)
        text.append(QString::number(count / kEighthsPerTurn));
    if (count % kEighthsPerTurn != 0)
        text.append(QString::fromLatin1(partOf(count).figures));
    return text.join(u' ');
}

QString wayText(Direction direction, Sense forward)
{
    return visit::senseOf(direction, forward) == Sense::Clockwise ? words("clockwise")
                                                                  : words("anticlockwise");
}

QString leftText(const visit::LightOfSwap& light)
{
    if (light.form == visit::LightForm::Quick)
        return words("not known: turned by eye");
    const NotYet why = alignment::notYet(light.state).value_or(NotYet::NoInterval);
    if (!light.left)
        return words("not known: %1").arg(notYetText(why, light.state.setup));
    const auto here = light.leftHere();
    if (!here)
        return words("not known: %1").arg(endedText());
    const QString text = words("at most %1, all axes together").arg(boundText(*here));
    return why == NotYet::Skewed ? words("%1; %2").arg(text, notYetText(why, light.state.setup)) : text;
}

} // namespace

QString nameOf(catalogue::Axis axis)
{
    switch (axis) {
    case catalogue::Axis::Along:
        return words("Along");
    case catalogue::Axis::Across:
        return words("Across");
    case catalogue::Axis::Up:
        return words("Up");
    }
    Q_UNREACHABLE();
}

QString turnText(Eighths turn)
{
    const int whole = turn.count / kEighthsPerTurn;
    const Part& part = partOf(turn.count);
    if (whole == 0)
        return words(part.alone);
    if (turn.count % kEighthsPerTurn == 0)
        return whole == 1 ? words("one turn") : words("%1 turns").arg(whole);
    return whole == 1 ? words("one turn and %1").arg(words(part.beside))
                      : words("%1 turns and %2").arg(whole).arg(words(part.beside));
}

QString stepText(Eighths step)
{
    return step.count > kEighthsPerTurn ? words("%1 turns").arg(figuresOf(step.count))
                                        : words("%1 turn").arg(figuresOf(step.count));
}

QString knobText(Eighths place)
{
    if (place.count == 0)
        return u"0"_s;
    return (place.count > 0 ? u"+"_s : u"\u2212"_s) + figuresOf(std::abs(place.count));
}

QString moveText(const alignment::Move& move, Sense forward)
{
    QStringList parts;
    for (const alignment::HandTurn& turn : alignment::handTurnsOf(move))
        parts.append(words("%1 by %2").arg(wayText(turn.direction, forward), turnText(turn.turn)));
    return parts.join(words(", then "));
}

QString lightText(double light)
{
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator); // it is typed again as it stands
    return locale.toString(light, 'g', 6);
}

QString shareText(double share)
{
    return words("%1 %").arg(QLocale().toString(100 * share, 'f', 1));
}

QString boundText(double left)
{
    return shareText(alignment::boundTold(left));
}

QString notYetText(NotYet why, const alignment::RunSetup& setup)
{
    switch (why) {
    case NotYet::NoPeak:
        return words("one knob shows no peak");
    case NotYet::FellBack:
        return words("the knobs go back to the best seen, which no scan has set");
    case NotYet::TooFewCycles:
        return words("%1 cycles after the settle wait are needed").arg(setup.leastCycles);
    case NotYet::NoInterval:
        return words("one peak was not seen well enough");
    case NotYet::Skewed:
        return words("one peak has two different flanks");
    case NotYet::TooMuchLeft:
        return words("done at %1, the meter's own accuracy").arg(shareText(setup.target));
    case NotYet::NotRead:
        return words("the reading where everything was set is still to come");
    }
    Q_UNREACHABLE();
}

QString endedText()
{
    return words("ended before the knobs were set");
}

QList<QStringList> rowsOf(const visit::LightOfSwap& light)
{
    if (light.points.empty())
        return {};
    return {{words("Readings"), QString::number(light.points.size())},
            {words("Light, as the meter showed it"),
             words("first %1, best %2, last %3")
                 .arg(lightText(light.points.front().light), lightText(light.best),
                      lightText(light.points.back().light))},
            {words("Left to win"), leftText(light)}};
}

QString faultText(TypedFault fault, const QString& typed)
{
    switch (fault) {
    case TypedFault::Empty:
        return words("Type what the meter shows, then Enter.");
    case TypedFault::Negative:
        return words("No light is zero or below: \u201c%1\u201d was not taken.").arg(typed);
    case TypedFault::TooLarge:
        return words("No meter shows as much as \u201c%1\u201d: it was not taken.").arg(typed);
    case TypedFault::NotANumber:
    case TypedFault::NotAColour:
        return words("\u201c%1\u201d is no number: figures, and one point or comma. It was not taken.")
            .arg(typed);
    }
    Q_UNREACHABLE();
}

QString doubtText(ReadingDoubt doubt, double typed, double before)
{
    const QString now = lightText(typed);
    const QString then = lightText(before);
    switch (doubt) {
    case ReadingDoubt::None:
        return {};
    case ReadingDoubt::NotALight:
        return faultText(TypedFault::Negative, now);
    case ReadingDoubt::TooMuch:
        return faultText(TypedFault::TooLarge, now);
    case ReadingDoubt::PerhapsFootlamberts:
        return words("%1 after %2: as if the meter showed foot-lamberts now, and cd/m\u00b2 before. Enter "
                     "again "
                     "takes it as it is.")
            .arg(now, then);
    case ReadingDoubt::PerhapsCdPerM2:
        return words("%1 after %2: as if the meter showed cd/m\u00b2 now, and foot-lamberts before. Enter "
                     "again "
                     "takes it as it is.")
            .arg(now, then);
    case ReadingDoubt::Jump:
        return words("%1 after %2 is a great jump. Enter again takes it as it is.").arg(now, then);
    }
    Q_UNREACHABLE();
}

QString firstDoubtText(photometry::Doubt doubt, double typed, const visit::ExpectedLight& expected)
{
    using photometry::Doubt;
    using photometry::LuminanceUnit;
    const QString unit =
        expected.unit == LuminanceUnit::CdPerM2 ? words("cd/m\u00b2") : words("foot-lamberts");
    const QString other =
        expected.unit == LuminanceUnit::CdPerM2 ? words("foot-lamberts") : words("cd/m\u00b2");
    const QString known = (expected.isOfArrival ? words("the screen showed %1 %2 on arrival")
                                                : words("the limits ask for %1 %2"))
                              .arg(lightText(expected.light.in(expected.unit)), unit);
    if (doubt == Doubt::FarOff)
        return words("%1, where %2, is far off. Enter again takes it as it is.").arg(lightText(typed), known);
    return words("%1, where %2: as if the meter showed %3. Enter again takes it as it is.")
        .arg(lightText(typed), known, other);
}

} // namespace coldarc::ui
