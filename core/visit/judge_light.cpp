#include "core/photometry/light_output.h"
#include "core/visit/judge.h"
#include "core/visit/light_of_visit.h"
#include "core/visit/sheet_of_visit.h"

#include <algorithm>
#include <cmath>

namespace coldarc::visit {
namespace {

bool areWithinReach(const KnobTurns& knobs)
{
    return std::all_of(knobs.begin(), knobs.end(),
                       [](double turns) { return std::abs(turns) <= kMostTurns; });
}

} // namespace

using machine::kNone;

void Judge::operator()(const LightRead& read)
{
    judgeLampWork();
    const SwapState* swap = m_state.swap(read.swap);
    const procedure::Step* step = swap ? swap->step(read.step) : nullptr;
    if (!step || !areAxes(*swap, read.others.keys()) ||
        (!read.axis.isEmpty() && !areAxes(*swap, {read.axis})) || (read.turns && read.axis.isEmpty()))
        return no(Why::Kind::UnknownName);
    if (!(read.value > 0 && read.value <= kMostReading) || !areWithinReach(read.others) ||
        std::abs(read.turns.value_or(0)) > kMostTurns)
        no(Why::Kind::AnswerBad);
    if (read.replaces >= 0) {
        const std::vector<LightPoint> counted = lightOf(m_state, read.swap).points;
        if (std::ranges::find(counted, read.replaces, &LightPoint::entry) == counted.end())
            no(Why::Kind::NothingAsked);
    }
    judgeLight(*swap, *step);
}

void Judge::operator()(const LightSet& set)
{
    judgeLampWork();
    const SwapState* swap = m_state.swap(set.swap);
    const procedure::Step* step = swap ? swap->step(set.step) : nullptr;
    if (!step || set.knobs.isEmpty() || !areAxes(*swap, set.knobs.keys()))
        return no(Why::Kind::UnknownName);
    if (!areWithinReach(set.knobs))
        no(Why::Kind::AnswerBad);
    judgeLight(*swap, *step);
}

void Judge::operator()(const ScreenRead& asked)
{
    judgeLampWork();
    const SwapState* swap = m_state.swap(asked.swap);
    const procedure::Step* step = swap ? swap->step(asked.step) : nullptr;
    if (!step || asked.points.isEmpty())
        return no(Why::Kind::UnknownName);
    ScreenRead read = asked;
    read.time = sheetTimeNow(*swap);
    bool isCorrection = true;
    QSet<int> places;
    for (PointRead& point : read.points) {
        if (!photometry::Point::at(read.convention, point.place) ||
            places.contains(static_cast<int>(point.place)))
            return no(Why::Kind::UnknownName);
        if (!photometry::Luminance::from(point.value, read.unit))
            return no(Why::Kind::AnswerBad);
        places.insert(static_cast<int>(point.place));
        point.replaces = entryOf(read, point.place);
        isCorrection = isCorrection && point.replaces >= 0;
    }
    if (!isCorrection) // a slip of the keyboard is put right with the lamp out, too
        judgeScreen(*swap);
    m_body = read;
}

void Judge::operator()(const ScreenConditions& asked)
{
    judgeLampWork();
    const SwapState* swap = m_state.swap(asked.swap);
    if (!swap || !swap->step(asked.step))
        return no(Why::Kind::UnknownName);
    ScreenConditions said = asked;
    said.time = sheetTimeNow(*swap);
    const LitClaim lit = litClaimOf(m_state, *swap, asked.conditions.lit, m_now);
    said.conditions.lit = lit.lit;
    if (!photometry::impossibleIn(asked.conditions).empty() || lit.isTooLong ||
        !isWithin(said.lumens, photometry::kMostLumens) || !isWithin(said.gain, photometry::kMostGain) ||
        !isWithin(said.transmission, photometry::kMostTransmission))
        no(Why::Kind::AnswerBad);
    m_body = said;
}

void Judge::operator()(const ScreenLimits& limits)
{
    judgeLampWork();
    const SwapState* swap = m_state.swap(limits.swap);
    if (!swap || !swap->step(limits.step) || limits.set.id.isEmpty())
        no(Why::Kind::UnknownName);
}

bool Judge::areAxes(const SwapState& swap, const QStringList& words) const
{
    const QList<catalogue::AxisDrive> drives = m_state.ground->model(swap.lamphouse).axes;
    return std::all_of(words.begin(), words.end(), [&](const QString& word) {
        return std::any_of(drives.begin(), drives.end(), [&](const catalogue::AxisDrive& drive) {
            return catalogue::wordOf(drive.axis) == word;
        });
    });
}

void Judge::judgeLight(const SwapState& swap, const procedure::Step& step)
{
    machine::Act act = hopefulAct(m_state, swap, step, m_person);
    if (act.effect == Effect::Settle)
        act.effect = Effect::Peak;
    judgeDemands(act, {});
}

void Judge::judgeScreen(const SwapState& swap)
{
    const machine::Heat heat = m_state.machine.lamphouse[swap.lamphouse].heat;
    if (sheetTimeNow(swap) == SheetTime::Arrival) {
        if (heat != machine::Heat::Lit && heat != machine::Heat::Unknown)
            no(Why::Kind::CannotHappen);
        return;
    }
    machine::Act act;
    act.effect = Effect::MeasureScreen;
    act.person = m_person;
    act.lamphouse = swap.lamphouse;
    judgeDemands(act, {});
}

qint64 Judge::entryOf(const ScreenRead& read, photometry::Place place) const
{
    const SheetOfSwap sheet = sheetOf(m_state, read.swap, read.time);
    for (const std::vector<SheetPoint>* points : {&sheet.points, &sheet.elsewhere}) {
        for (const SheetPoint& one : *points) {
            if (one.convention == read.convention && one.read.place == place)
                return one.entry;
        }
    }
    return -1;
}

bool Judge::isWithin(const std::optional<double>& value, double most)
{
    return !value || (*value > 0 && *value <= most);
}

} // namespace coldarc::visit
