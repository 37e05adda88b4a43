#include "core/photometry/conditions.h"

#include "core/base/words.h"

#include <array>
#include <utility>

namespace coldarc::photometry {
namespace {

constexpr Words<MeterPosition, 5> kPositions{{{MeterPosition::MiddleRow, u"middle-row"},
                                              {MeterPosition::ReferenceView, u"reference-view"},
                                              {MeterPosition::MainSeating, u"main-seating"},
                                              {MeterPosition::Laboratory, u"laboratory"},
                                              {MeterPosition::Elsewhere, u"elsewhere"}}};
constexpr Words<Picture, 3> kPictures{
    {{Picture::Digital, u"digital"}, {Picture::Film, u"film"}, {Picture::Stereo, u"stereo"}}};

bool isImpossible(const std::optional<double>& figure, double most)
{
    return figure && !(*figure > 0 && *figure <= most); // written so that a NaN is impossible
}

bool isImpossible(const std::optional<Day>& day)
{
    return day && !day->ok();
}

} // namespace

QString wordOf(MeterPosition position)
{
    return wordIn(kPositions, position);
}

std::optional<MeterPosition> meterPositionFromWord(const QString& word)
{
    return valueIn(kPositions, word);
}

QString wordOf(Picture picture)
{
    return wordIn(kPictures, picture);
}

std::optional<Picture> pictureFromWord(const QString& word)
{
    return valueIn(kPictures, word);
}

std::vector<ConditionField> impossibleIn(const Conditions& conditions)
{
    const Meter& meter = conditions.meter;
    const bool isDueFirst = meter.calibratedOn && meter.dueOn && *meter.dueOn < *meter.calibratedOn;
    const bool isLitWrong = conditions.lit && (conditions.lit->count() < 0 || *conditions.lit > kMostLit);
    const std::array<std::pair<ConditionField, bool>, 8> all{
        {{ConditionField::Lit, isLitWrong},
         {ConditionField::MeasuredOn, isImpossible(conditions.day)},
         {ConditionField::Acceptance, isImpossible(meter.acceptanceDegrees, kMostAcceptanceDegrees)},
         {ConditionField::CalibratedOn, isImpossible(meter.calibratedOn)},
         {ConditionField::DueOn, isImpossible(meter.dueOn) || isDueFirst},
         {ConditionField::Distance, isImpossible(conditions.distanceM, kMostDistanceM)},
         {ConditionField::LampWatts, isImpossible(conditions.lampWatts, kMostLampWatts)},
         {ConditionField::LampAmperes, isImpossible(conditions.lampAmperes, kMostLampAmperes)}}};
    std::vector<ConditionField> impossible;
    for (const auto& [field, isIt] : all) {
        if (isIt)
            impossible.push_back(field);
    }
    return impossible;
}

WarmUp warmUpOf(const Conditions& conditions)
{
    if (!conditions.lit)
        return WarmUp::Unknown;
    return *conditions.lit < kWarmUp ? WarmUp::TooShort : WarmUp::Enough;
}

Calibration calibrationOf(const Conditions& conditions)
{
    const Meter& meter = conditions.meter;
    if (!conditions.day || !meter.calibratedOn)
        return Calibration::Unknown;
    // By way of sys_days: a year after a leap day is the first of March.
    const std::chrono::sys_days measured = *conditions.day;
    const std::chrono::sys_days last = meter.dueOn.value_or(*meter.calibratedOn + kCalibration);
    if (measured < std::chrono::sys_days(*meter.calibratedOn))
        return Calibration::Later;
    return measured > last ? Calibration::Over : Calibration::Valid;
}

std::optional<bool> isSpotTooWide(const Conditions& conditions)
{
    if (!conditions.distanceM || !conditions.screen || !conditions.meter.acceptanceDegrees)
        return std::nullopt;
    const double spot = spotDiameterM(*conditions.distanceM, *conditions.meter.acceptanceDegrees);
    return spot > kWidestSpotOfWidth * conditions.screen->widthM();
}

} // namespace coldarc::photometry
