#include "ui/photometry/words_sheet.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>
#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;
using namespace photometry;

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("sheet", text);
}

template<class Value>
struct Row {
    Value value;
    const char* text;
};
template<class Value, std::size_t Count>
QString textOf(const std::array<Row<Value>, Count>& rows, Value value)
{
    const auto found = std::ranges::find(rows, value, &Row<Value>::value);
    return found == rows.end() ? QString() : words(found->text);
}

QLocale plainLocale()
{
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    return locale;
}

QString fixedText(double value, int decimals)
{
    return plainLocale().toString(value, 'f', decimals);
}

QString percent(const QString& figure)
{
    return u"%1\u00a0%"_s.arg(figure);
}

enum class Kind {
    Light,
    Share,
    Percent,
    Colour,
    Kelvin,
    Dark,
};
Kind kindOf(Quantity quantity)
{
    switch (quantity) {
    case Quantity::CentreLuminance:
        return Kind::Light;
    case Quantity::SideShare:
    case Quantity::CornerShare:
    case Quantity::SideDifference:
        return Kind::Share;
    case Quantity::Nonuniformity:
        return Kind::Percent;
    case Quantity::WhiteX:
    case Quantity::WhiteY:
    case Quantity::CornerColourOffset:
    case Quantity::LargestColourDistance:
        return Kind::Colour;
    case Quantity::ColourTemperature:
        return Kind::Kelvin;
    case Quantity::DarkLuminance:
        return Kind::Dark;
    }
    Q_UNREACHABLE();
}

/// Without the unit, with as many decimals as the limits have or one more.
QString figureText(Quantity quantity, double value)
{
    switch (kindOf(quantity)) {
    case Kind::Light:
        return fixedText(value, 2);
    case Kind::Share:
        return fixedText(100 * value, 1);
    case Kind::Percent:
        return fixedText(value, 1);
    case Kind::Colour:
        return fixedText(value, 4);
    case Kind::Kelvin:
        return fixedText(value, 0);
    case Kind::Dark:
        return fixedText(value, 3);
    }
    Q_UNREACHABLE();
}

QString unitText(Quantity quantity)
{
    switch (kindOf(quantity)) {
    case Kind::Light:
    case Kind::Dark:
        return u"\u00a0cd/m²"_s;
    case Kind::Share:
    case Kind::Percent:
        return u"\u00a0%"_s;
    case Kind::Kelvin:
        return u"\u00a0K"_s;
    case Kind::Colour:
        return {};
    }
    Q_UNREACHABLE();
}

/// A limit's figure as the document prints it.
QString limitFigure(Quantity quantity, double value)
{
    const bool isShare = kindOf(quantity) == Kind::Share;
    return plainLocale().toString(isShare ? 100 * value : value, 'g', 6);
}

} // namespace

QString nameOf(Place place)
{
    static constexpr std::array<Row<Place>, 9> kRows{{
        {Place::TopLeft, "top left"},
        {Place::Top, "top"},
        {Place::TopRight, "top right"},
        {Place::Left, "left"},
        {Place::Centre, "centre"},
        {Place::Right, "right"},
        {Place::BottomLeft, "bottom left"},
        {Place::Bottom, "bottom"},
        {Place::BottomRight, "bottom right"},
    }};
    return textOf(kRows, place);
}

QString nameOf(Quantity quantity)
{
    static constexpr std::array<Row<Quantity>, 11> kRows{{
        {Quantity::CentreLuminance, "Light at the centre"},
        {Quantity::SideShare, "Side against centre"},
        {Quantity::CornerShare, "Corner against centre"},
        {Quantity::SideDifference, "Left against right, of the centre"},
        {Quantity::Nonuniformity, "Nonuniformity, 1 - least / greatest"},
        {Quantity::WhiteX, "White, x"},
        {Quantity::WhiteY, "White, y"},
        {Quantity::ColourTemperature, "Colour temperature"},
        {Quantity::CornerColourOffset, "Corner's colour off the centre's, x or y"},
        {Quantity::LargestColourDistance, "Largest colour difference, u\u2032v\u2032"},
        {Quantity::DarkLuminance, "Dark screen"},
    }};
    return textOf(kRows, quantity);
}

QString nameOf(LuminanceUnit unit)
{
    return unit == LuminanceUnit::CdPerM2 ? u"cd/m²"_s : u"fL"_s;
}

QString longNameOf(LuminanceUnit unit)
{
    return unit == LuminanceUnit::CdPerM2 ? words("candelas per square metre") : words("foot-lamberts");
}

QString nameOf(MeterPosition position)
{
    static constexpr std::array<Row<MeterPosition>, 5> kRows{{
        {MeterPosition::MiddleRow, "Middle of the middle row, 1.1 m up"},
        {MeterPosition::ReferenceView, "Reference view, 1.5 to 3.5 heights away"},
        {MeterPosition::MainSeating, "Middle of the main seating, 1 m up"},
        {MeterPosition::Laboratory, "1.6 heights away, centred"},
        {MeterPosition::Elsewhere, "Elsewhere: say the distance"},
    }};
    return textOf(kRows, position);
}

QString nameOf(Picture picture)
{
    static constexpr std::array<Row<Picture>, 3> kRows{{
        {Picture::Digital, "Digital"},
        {Picture::Film, "Film, open gate, shutter running"},
        {Picture::Stereo, "3D, through filters and glasses"},
    }};
    return textOf(kRows, picture);
}

QString nameOf(RoomClass roomClass)
{
    static constexpr std::array<Row<RoomClass>, 4> kRows{{
        {RoomClass::Theatre, "theatre"},
        {RoomClass::ReviewRoom, "review room"},
        {RoomClass::Laboratory, "laboratory: no auditorium is accepted by it"},
        {RoomClass::Practice, "practice: no standard"},
    }};
    return textOf(kRows, roomClass);
}

QString nameOf(Convention convention)
{
    static constexpr std::array<Row<Convention>, 3> kRows{{
        {Convention::FiveOfWidth, "outer points 5 % of the width from the edges"},
        {Convention::TwoSides, "two sides, 10 % of the width from the edges"},
        {Convention::TenthGrid, "outer points a tenth of width and height from the edges"},
    }};
    return textOf(kRows, convention);
}

QString luminanceText(Luminance luminance, LuminanceUnit unit)
{
    return fixedText(luminance.in(unit), unit == LuminanceUnit::CdPerM2 ? 1 : 2);
}

QString withUnit(Luminance luminance, LuminanceUnit unit)
{
    return u"%1\u00a0%2"_s.arg(luminanceText(luminance, unit), nameOf(unit));
}

QString plainText(double value)
{
    return plainLocale().toString(value, 'g', 8);
}

QString shareOfCentreText(double share)
{
    return percent(fixedText(100 * share, 1));
}

QString valueText(Quantity quantity, double value)
{
    return figureText(quantity, value) + unitText(quantity);
}

QString limitText(const Limit& limit)
{
    const auto figure = [&](const std::optional<double>& value) {
        return limitFigure(limit.quantity, *value);
    };
    QString text;
    if (limit.least && limit.most)
        text = words("%1 to %2").arg(figure(limit.least), figure(limit.most));
    else if (limit.least)
        text = words("at least %1").arg(figure(limit.least));
    else if (limit.most)
        text = words("at most %1").arg(figure(limit.most));
    return text.isEmpty() ? text : text + unitText(limit.quantity);
}

QString wordsOf(Outcome outcome)
{
    static constexpr std::array<Row<Outcome>, 7> kRows{{
        {Outcome::Within, "within"},
        {Outcome::Below, "too low"},
        {Outcome::Above, "too high"},
        {Outcome::NotSpecified, "no limit in this class"},
        {Outcome::Unset, "no limit set"},
        {Outcome::NotMeasured, "not measured"},
        {Outcome::Withheld, "held back"},
    }};
    return textOf(kRows, outcome);
}

QString wordsOf(Whole whole)
{
    static constexpr std::array<Row<Whole>, 3> kRows{{
        {Whole::Within, "Every limit is kept"},
        {Whole::Outside, "Outside the limits"},
        {Whole::Open, "Not judged yet"},
    }};
    return textOf(kRows, whole);
}

QString wholeWords(const SheetVerdict& sheet)
{
    if (wholeOf(sheet) != Whole::Open)
        return wordsOf(wholeOf(sheet));
    const auto has = [&](Outcome outcome) {
        return std::ranges::count(sheet.verdicts, outcome, &Verdict::outcome) > 0;
    };
    if (!has(Outcome::Within))
        return words("Not judged");
    return has(Outcome::NotMeasured) ? words("Nothing is outside; not everything was measured")
                                     : words("Nothing is outside; not everything could be judged");
}

QString wordsOf(Obstacle obstacle)
{
    static constexpr std::array<Row<Obstacle>, 8> kRows{{
        {Obstacle::WarmUpUnknown, "Nobody said how long the lamp has burnt."},
        {Obstacle::WarmUpTooShort, "The lamp has burnt for less than 20 minutes."},
        {Obstacle::CalibrationUnknown, "Nobody said when the meter was calibrated."},
        {Obstacle::CalibratedLater, "The meter was calibrated after this day: look at its certificate."},
        {Obstacle::CalibrationOver, "The meter's calibration has run out."},
        {Obstacle::OtherPicture, "These limits are for another kind of picture."},
        {Obstacle::OtherConvention, "These limits are for other points than those that were read."},
        {Obstacle::CentreMissing, "The centre has no reading, so nothing can be compared with it."},
    }};
    return textOf(kRows, obstacle);
}

QString wordsOf(Mark mark)
{
    static constexpr std::array<Row<Mark>, 15> kRows{{
        {Mark::SecondHandFigure, "limit known from a text about the document"},
        {Mark::FigureFromMemory, "limit from memory"},
        {Mark::DerivedFigure, "limit worked out from others"},
        {Mark::PracticeFigure, "limit by habit, no standard"},
        {Mark::OwnTarget, "own target"},
        {Mark::FormulaFromMemory, "formula from memory"},
        {Mark::LaboratoryLimit, "laboratory limit"},
        {Mark::PositionUnknown, "where the meter stood, or should stand, is not known"},
        {Mark::OtherPosition, "the meter stood elsewhere than the document wants it"},
        {Mark::AcceptanceUnknown, "the meter's acceptance angle is not known"},
        {Mark::AcceptanceTooWide, "the meter's acceptance angle is over 2\u00b0"},
        {Mark::SpotTooWide, "the spot is wider than a tenth of the screen"},
        {Mark::FormatUnknown, "format and lens are not written down"},
        {Mark::DarkReadingMissing, "the dark screen was not read"},
        {Mark::PowerUnknown, "the lamp's power is not written down"},
    }};
    return textOf(kRows, mark);
}

QString wordsOf(Unlike unlike)
{
    static constexpr std::array<Row<Unlike>, 15> kRows{{
        {Unlike::BeforeNotWarm, "the old lamp had burnt for less than 20 minutes"},
        {Unlike::AfterNotWarm, "the new lamp had burnt for less than 20 minutes"},
        {Unlike::BeforeWarmUpUnknown, "nobody said how long the old lamp had burnt"},
        {Unlike::AfterWarmUpUnknown, "nobody said how long the new lamp had burnt"},
        {Unlike::Convention, "other points were read"},
        {Unlike::Picture, "another kind of picture"},
        {Unlike::Format, "another format or lens"},
        {Unlike::FormatUnknown, "format and lens were not written down both times"},
        {Unlike::Position, "the meter stood elsewhere"},
        {Unlike::PositionUnknown, "where the meter stood was not written down both times"},
        {Unlike::Meter, "another meter"},
        {Unlike::MeterUnknown, "the meter was not named both times"},
        {Unlike::Power, "another lamp power or current"},
        {Unlike::PowerUnknown, "the lamp's power was not written down both times"},
        {Unlike::NoCommonPoint, "no point was read both times"},
    }};
    return textOf(kRows, unlike);
}

QString wordsOf(Standing standing)
{
    static constexpr std::array<Row<Standing>, 6> kRows{{
        {Standing::Read, "read in the document"},
        {Standing::SecondHand, "second hand"},
        {Standing::Memory, "from memory"},
        {Standing::Derived, "worked out"},
        {Standing::Practice, "practice"},
        {Standing::Own, "own target"},
    }};
    return textOf(kRows, standing);
}

QString wordsOf(const EvennessNumber& number)
{
    static constexpr std::array<Row<Evenness>, 6> kRows{{
        {Evenness::LeastSideOfCentre,
         "darkest side against the centre, the way of SMPTE ST 431-1 (second hand)"},
        {Evenness::LeastCornerOfCentre, "darkest corner against the centre"},
        {Evenness::NonuniformityPercent, "nonuniformity 1 - least / greatest, by ICDM IDMS 8.1"},
        {Evenness::LeastOfGreatest, "least / greatest, by ISO 11315-1 (second hand), on luminances"},
        {Evenness::SideDifference, "left against right, of the centre, by ISO 2910 (second hand)"},
        {Evenness::LargestColourDistance, "largest u\u2032v\u2032 distance, by ICDM IDMS 8.1"},
    }};
    QString figure;
    if (number.definition == Evenness::NonuniformityPercent)
        figure = percent(plainLocale().toString(number.value, 'g', 3));
    else if (number.definition == Evenness::LargestColourDistance)
        figure = fixedText(number.value, 3);
    else
        figure = shareOfCentreText(number.value);
    return words("%1: %2, over %3 points").arg(figure, textOf(kRows, number.definition)).arg(number.points);
}

QString faultWords(TypedFault fault, const QString& typed)
{
    switch (fault) {
    case TypedFault::Empty:
        return words("Nothing stands here: type what the meter shows.");
    case TypedFault::NotANumber:
        return words("\u201c%1\u201d is no number: type figures, with a point or a comma for the decimals.")
            .arg(typed.trimmed());
    case TypedFault::Negative:
        return words("Light is never below zero: type %1 without the sign, if that is what the meter shows.")
            .arg(typed.trimmed());
    case TypedFault::TooLarge:
        return words("No screen is that bright: is the decimal sign missing in %1?").arg(typed.trimmed());
    case TypedFault::NotAColour:
        return words("No light has these coordinates: x and y stand between 0 and 1, and make at most 1 "
                     "together.");
    }
    Q_UNREACHABLE();
}

QString doubtWords(Doubt doubt, const QString& typed, LuminanceUnit unit, Luminance expected)
{
    const QString about = withUnit(expected, unit);
    switch (doubt) {
    case Doubt::FootLambertsTaken:
        return words("%1 cd/m² is a third of what is expected here, about %2. Does the meter show "
                     "foot-lamberts?")
            .arg(typed, about);
    case Doubt::CdPerM2Taken:
        return words("%1 fL is three times what is expected here, about %2. Does the meter show candelas per "
                     "square metre?")
            .arg(typed, about);
    case Doubt::FarOff:
        return words("%1 %2 is far from what is expected here, about %3. Is it what the meter shows?")
            .arg(typed, nameOf(unit), about);
    }
    Q_UNREACHABLE();
}

QString faultWords(TableFault fault)
{
    switch (fault) {
    case TableFault::Empty:
        return words("There is nothing in it. Nothing was taken.");
    case TableFault::TooLong:
        return words(
            "That is larger than any meter's table: more than 1 MB or 5,000 lines. Nothing was taken. "
            "Is it another file?");
    case TableFault::NotText:
        return words("That is no text. Save the meter's table as CSV, then try again. Nothing was taken.");
    case TableFault::CannotBeRead:
        return words("It could not be read. Nothing was taken.");
    }
    Q_UNREACHABLE();
}

namespace {

QString whyWords(const BadMeterRow& row)
{
    using Why = BadMeterRow::Why;
    switch (row.why) {
    case Why::NoLuminanceColumn:
        return words("Say which column holds the luminance.");
    case Why::HalfAColour:
        return words("A colour needs two columns.");
    case Why::ColumnTwice:
        return words("one column holds two things");
    case Why::NoSuchColumn:
        return words("there is no such column");
    case Why::NoRows:
        return words("There are no readings below the heading.");
    case Why::OpenQuote:
        return words("a quotation mark is never closed");
    case Why::TooFewCells:
        return words("it has too few cells");
    case Why::TooManyCells:
        return words("it has more cells than the heading: is the decimal comma taken for a separator?");
    case Why::NoSuchPlace:
        return words("\u201c%1\u201d is no point of this sheet").arg(row.cell);
    case Why::PlaceTwice:
        return words("\u201c%1\u201d stands further up already").arg(row.cell);
    case Why::Empty:
        return words("the cell is empty");
    case Why::NotANumber:
        return words("\u201c%1\u201d is no number").arg(row.cell);
    case Why::Negative:
        return words("%1 is below zero").arg(row.cell);
    case Why::TooLarge:
        return words("%1 is brighter than any screen").arg(row.cell);
    case Why::NotAColour:
        return words("no light has these coordinates");
    }
    Q_UNREACHABLE();
}

} // namespace

QString badRowWords(const BadMeterRow& row)
{
    const QString why = whyWords(row);
    if (row.line == 0)
        return row.column < 0 ? why : words("Column %1: %2.").arg(row.column + 1).arg(why);
    if (row.column < 0)
        return words("Line %1: %2.").arg(row.line).arg(why);
    return words("Line %1, column %2: %3.").arg(row.line).arg(row.column + 1).arg(why);
}

} // namespace coldarc::ui
