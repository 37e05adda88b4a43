#include "core/photometry/verdict.h"

#include "core/photometry/uniformity.h"

#include <algorithm>
#include <cmath>

namespace coldarc::photometry {
namespace {

/// What is left of a decimal once it is a double and has been divided: 43.2 / 48 is not quite 0.9. Far below
/// what any meter shows, so it rounds no reading.
constexpr double kNoise = 1e-12;

bool isBelow(double value, double least)
{
    return value < least - kNoise * std::max(1.0, std::abs(least));
}

bool isAbove(double value, double most)
{
    return value > most + kNoise * std::max(1.0, std::abs(most));
}

struct Measured {
    std::optional<Place> place;
    std::optional<double> value;
};

using Measure = std::optional<double> (*)(const ScreenSheet&, Place);

std::optional<double> shareAt(const ScreenSheet& sheet, Place place)
{
    return sheet.shareOfCentre(place);
}

std::optional<double> luminanceAt(const ScreenSheet& sheet, Place place)
{
    const auto& reading = sheet.at(place);
    return reading ? std::optional(reading->luminance.cdPerM2()) : std::nullopt;
}

std::optional<Chromaticity> colourAt(const ScreenSheet& sheet, Place place)
{
    const auto& reading = sheet.at(place);
    return reading ? reading->colour : std::nullopt;
}

std::optional<double> xAt(const ScreenSheet& sheet, Place place)
{
    const auto colour = colourAt(sheet, place);
    return colour ? std::optional(colour->x()) : std::nullopt;
}

std::optional<double> yAt(const ScreenSheet& sheet, Place place)
{
    const auto colour = colourAt(sheet, place);
    return colour ? std::optional(colour->y()) : std::nullopt;
}

std::optional<double> temperatureAt(const ScreenSheet& sheet, Place place)
{
    const auto colour = colourAt(sheet, place);
    return colour ? std::optional(colourTemperature(*colour)) : std::nullopt;
}

std::optional<double> offsetAt(const ScreenSheet& sheet, Place place)
{
    const auto centre = colourAt(sheet, Place::Centre);
    const auto colour = colourAt(sheet, place);
    return centre && colour ? std::optional(boxDistance(*centre, *colour)) : std::nullopt;
}

std::vector<Measured> atPlaces(const ScreenSheet& sheet, const ToleranceSet& set, bool (*isWanted)(Place),
                               Measure measure)
{
    std::vector<Measured> found;
    for (const Place place : kPlaces) {
        const bool isNeeded = std::ranges::find(set.needs, place) != set.needs.end();
        if (isWanted(place) && (isNeeded || sheet.at(place)))
            found.push_back({place, measure(sheet, place)});
    }
    return found;
}

std::vector<Measured> atCentre(const ScreenSheet& sheet, Measure measure)
{
    return {{Place::Centre, measure(sheet, Place::Centre)}};
}

std::vector<Measured> ofTheWhole(const ScreenSheet& sheet, Evenness definition)
{
    const auto number = evennessOf(sheet, definition);
    return {{std::nullopt, number ? std::optional(number->value) : std::nullopt}};
}

std::vector<Measured> darkLuminance(const ScreenSheet& sheet)
{
    const auto& dark = sheet.conditions().darkReading;
    return {{std::nullopt, dark ? std::optional(dark->cdPerM2()) : std::nullopt}};
}

std::vector<Measured> measured(Quantity quantity, const ScreenSheet& sheet, const ToleranceSet& set)
{
    switch (quantity) {
    case Quantity::CentreLuminance:
        return atCentre(sheet, luminanceAt);
    case Quantity::SideShare:
        return atPlaces(sheet, set, isSide, shareAt);
    case Quantity::CornerShare:
        return atPlaces(sheet, set, isCorner, shareAt);
    case Quantity::SideDifference:
        return ofTheWhole(sheet, Evenness::SideDifference);
    case Quantity::Nonuniformity:
        return ofTheWhole(sheet, Evenness::NonuniformityPercent);
    case Quantity::WhiteX:
        return atCentre(sheet, xAt);
    case Quantity::WhiteY:
        return atCentre(sheet, yAt);
    case Quantity::ColourTemperature:
        return atCentre(sheet, temperatureAt);
    case Quantity::CornerColourOffset:
        return atPlaces(sheet, set, isCorner, offsetAt);
    case Quantity::LargestColourDistance:
        return ofTheWhole(sheet, Evenness::LargestColourDistance);
    case Quantity::DarkLuminance:
        return darkLuminance(sheet);
    }
    return {};
}

/// Whether the quantity compares points with each other, so that it matters where they lie.
bool hangsOnConvention(Quantity quantity)
{
    switch (quantity) {
    case Quantity::SideShare:
    case Quantity::CornerShare:
    case Quantity::SideDifference:
    case Quantity::Nonuniformity:
    case Quantity::CornerColourOffset:
    case Quantity::LargestColourDistance:
        return true;
    case Quantity::CentreLuminance:
    case Quantity::WhiteX:
    case Quantity::WhiteY:
    case Quantity::ColourTemperature:
    case Quantity::DarkLuminance:
        break;
    }
    return false;
}

bool isShareOfCentre(Quantity quantity)
{
    return quantity == Quantity::SideShare || quantity == Quantity::CornerShare ||
           quantity == Quantity::SideDifference;
}

void addWarmUp(const Conditions& conditions, std::vector<Obstacle>& obstacles)
{
    const WarmUp warmUp = warmUpOf(conditions);
    if (warmUp == WarmUp::Unknown)
        obstacles.push_back(Obstacle::WarmUpUnknown);
    if (warmUp == WarmUp::TooShort)
        obstacles.push_back(Obstacle::WarmUpTooShort);
}

void addCalibration(const Conditions& conditions, std::vector<Obstacle>& obstacles)
{
    switch (calibrationOf(conditions)) {
    case Calibration::Unknown:
        obstacles.push_back(Obstacle::CalibrationUnknown);
        break;
    case Calibration::Later:
        obstacles.push_back(Obstacle::CalibratedLater);
        break;
    case Calibration::Over:
        obstacles.push_back(Obstacle::CalibrationOver);
        break;
    case Calibration::Valid:
        break;
    }
}

std::vector<Obstacle> obstaclesTo(Quantity quantity, const ScreenSheet& sheet, const ToleranceSet& set)
{
    std::vector<Obstacle> obstacles;
    // The dark screen has no lamp on it; the meter still has to be a good one.
    if (quantity != Quantity::DarkLuminance)
        addWarmUp(sheet.conditions(), obstacles);
    addCalibration(sheet.conditions(), obstacles);
    if (sheet.conditions().picture != set.picture)
        obstacles.push_back(Obstacle::OtherPicture);
    if (hangsOnConvention(quantity) && sheet.convention() != set.convention)
        obstacles.push_back(Obstacle::OtherConvention);
    if (isShareOfCentre(quantity) && luminanceAt(sheet, Place::Centre).value_or(0) <= 0)
        obstacles.push_back(Obstacle::CentreMissing);
    return obstacles;
}

std::vector<Mark> marksOf(const Limit& limit, const ToleranceSet& set)
{
    static constexpr std::array<std::pair<Standing, Mark>, 5> kMarks{
        {{Standing::SecondHand, Mark::SecondHandFigure},
         {Standing::Memory, Mark::FigureFromMemory},
         {Standing::Derived, Mark::DerivedFigure},
         {Standing::Practice, Mark::PracticeFigure},
         {Standing::Own, Mark::OwnTarget}}};
    std::vector<Mark> marks;
    for (const auto& [standing, mark] : kMarks) {
        if (limit.standing == standing)
            marks.push_back(mark);
    }
    if (limit.quantity == Quantity::ColourTemperature)
        marks.push_back(Mark::FormulaFromMemory);
    if (set.roomClass == RoomClass::Laboratory)
        marks.push_back(Mark::LaboratoryLimit);
    return marks;
}

void addMeterMarks(const Conditions& conditions, const ToleranceSet& set, std::vector<Mark>& marks)
{
    if (!conditions.position || !set.position)
        marks.push_back(Mark::PositionUnknown);
    else if (*conditions.position != *set.position)
        marks.push_back(Mark::OtherPosition);
    if (!conditions.meter.acceptanceDegrees)
        marks.push_back(Mark::AcceptanceUnknown);
    else if (*conditions.meter.acceptanceDegrees > kWidestAcceptanceDegrees)
        marks.push_back(Mark::AcceptanceTooWide);
    if (isSpotTooWide(conditions).value_or(false))
        marks.push_back(Mark::SpotTooWide);
}

std::vector<Mark> marksOf(const Conditions& conditions, const ToleranceSet& set)
{
    std::vector<Mark> marks;
    addMeterMarks(conditions, set, marks);
    if (conditions.format.isEmpty())
        marks.push_back(Mark::FormatUnknown);
    if (!conditions.darkReading)
        marks.push_back(Mark::DarkReadingMissing);
    if (!conditions.lampWatts && !conditions.lampAmperes)
        marks.push_back(Mark::PowerUnknown);
    return marks;
}

Outcome outcomeOf(const Verdict& verdict)
{
    if (verdict.limit.absence == Absence::NotSpecified)
        return Outcome::NotSpecified;
    if (verdict.limit.absence == Absence::Unset)
        return Outcome::Unset;
    if (!verdict.value)
        return Outcome::NotMeasured;
    if (!verdict.obstacles.empty())
        return Outcome::Withheld;
    if (verdict.limit.least && isBelow(*verdict.value, *verdict.limit.least))
        return Outcome::Below;
    if (verdict.limit.most && isAbove(*verdict.value, *verdict.limit.most))
        return Outcome::Above;
    return Outcome::Within;
}

bool isJudged(Outcome outcome)
{
    return outcome == Outcome::Within || outcome == Outcome::Below || outcome == Outcome::Above;
}

} // namespace

SheetVerdict judge(const ScreenSheet& sheet, const ToleranceSet& set)
{
    SheetVerdict result{set.id, set.source, set.edition, set.document, {}, marksOf(sheet.conditions(), set)};
    for (const Limit& limit : set.limits) {
        for (const Measured& one : measured(limit.quantity, sheet, set)) {
            Verdict verdict{limit.quantity,
                            one.place,
                            one.value,
                            limit,
                            Outcome::NotMeasured,
                            obstaclesTo(limit.quantity, sheet, set),
                            marksOf(limit, set)};
            verdict.outcome = outcomeOf(verdict);
            result.verdicts.push_back(verdict);
        }
    }
    return result;
}

bool isConformityClaim(const SheetVerdict& sheet, const Verdict& verdict)
{
    return isJudged(verdict.outcome) && verdict.marks.empty() && sheet.marks.empty();
}

Whole wholeOf(const SheetVerdict& sheet)
{
    const auto has = [&](auto... wanted) {
        return std::ranges::any_of(
            sheet.verdicts, [&](const Verdict& verdict) { return ((verdict.outcome == wanted) || ...); });
    };
    if (has(Outcome::Below, Outcome::Above))
        return Whole::Outside;
    if (has(Outcome::NotMeasured, Outcome::Withheld) || !has(Outcome::Within))
        return Whole::Open;
    return Whole::Within;
}

} // namespace coldarc::photometry
