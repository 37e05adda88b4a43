#include "core/visit/sheet_of_visit.h"

#include "core/photometry/light_output.h"

#include <algorithm>
#include <map>

namespace coldarc::visit {
namespace {

using machine::Effect;
using photometry::Convention;
using photometry::Place;

/// Clocks are read to the second and people read them late.
constexpr std::chrono::minutes kLeeway{1};

/// The strike that the swap's lamp burns since; nothing before it.
std::optional<StepRecord> strikeOf(const SwapState& swap)
{
    std::optional<StepRecord> last;
    for (const procedure::Step& step : swap.steps) {
        const StepRecord record = swap.record(step.id);
        const bool isStruck = step.effect == Effect::Strike && record.status == StepRecord::Status::Done;
        if (isStruck && (!last || record.entry > last->entry))
            last = record;
    }
    return last;
}

/// Of the lamp that burns, or burnt, while that sheet is measured.
std::optional<CurrentRange> currentOf(const VisitState& state, const SwapState& swap, SheetTime time)
{
    const machine::Index lamp = time == SheetTime::Arrival ? swap.oldLamp : swap.newLamp;
    if (lamp == machine::kNone)
        return std::nullopt;
    const auto& id = state.ground->lamps[lamp].type;
    const catalogue::LampType* type = id ? state.ground->catalogue.lampType(*id) : nullptr;
    return type ? std::optional(CurrentRange{type->leastAmperes, type->mostAmperes}) : std::nullopt;
}

/// Gathers the lines of one swap and one time.
class Gatherer {
public:
    Gatherer(const VisitState& state, const SwapState& swap, SheetTime time)
        : m_state(state)
        , m_swap(swap)
    {
        m_sheet.time = time;
        m_sheet.current = currentOf(state, swap, time);
        if (const auto strike = strikeOf(swap); strike && time == SheetTime::After)
            m_sheet.since = strike->entry;
    }

    SheetOfSwap gather(const photometry::ToleranceSet* otherwise)
    {
        if (otherwise)
            m_sheet.set = *otherwise;
        for (const SheetLine& line : m_state.sheets)
            std::visit([&](const auto& said) { take(said, line); }, line.said);
        if (m_sheet.set)
            m_convention = m_sheet.set->convention;
        m_sheet.sheet = photometry::ScreenSheet(m_convention, conditions());
        for (const auto& [key, point] : m_points)
            place(point);
        if (m_sheet.set)
            m_sheet.verdict = photometry::judge(m_sheet.sheet, *m_sheet.set);
        m_sheet.expected = m_sheet.said ? expectedOf(*m_sheet.said) : std::nullopt;
        return std::move(m_sheet);
    }

private:
    [[nodiscard]] bool isOurs(const SwapId& swap, SheetTime time, qint64 entry) const
    {
        return swap == m_swap.id && time == m_sheet.time && entry > m_sheet.since;
    }
    void take(const ScreenRead& read, const SheetLine& line)
    {
        if (!isOurs(read.swap, read.time, line.entry))
            return;
        m_convention = read.convention;
        for (const PointRead& point : read.points)
            m_points[{read.convention, point.place}] = {point, read.convention, read.unit, line.at,
                                                        line.entry};
    }
    void take(const ScreenConditions& said, const SheetLine& line)
    {
        if (isOurs(said.swap, said.time, line.entry))
            m_sheet.said = said;
    }
    void take(const ScreenLimits& limits, const SheetLine& /*line*/)
    {
        if (limits.swap == m_swap.id)
            m_sheet.set = limits.set;
    }

    [[nodiscard]] photometry::Conditions conditions() const
    {
        return m_sheet.said ? m_sheet.said->conditions : photometry::Conditions();
    }

    void place(const SheetPoint& point)
    {
        const auto luminance = photometry::Luminance::from(point.read.value, point.unit);
        const auto where = photometry::Point::at(point.convention, point.read.place);
        if (!luminance || !where)
            return; // an entry that no rule of this program lets pass
        if (m_sheet.sheet.put(*where, {*luminance, point.unit, point.read.colour}) ==
            photometry::ScreenSheet::Put::Taken)
            m_sheet.points.push_back(point);
        else
            m_sheet.elsewhere.push_back(point);
    }

    const VisitState& m_state;
    const SwapState& m_swap;
    SheetOfSwap m_sheet;
    Convention m_convention = Convention::FiveOfWidth;
    std::map<std::pair<Convention, Place>, SheetPoint> m_points;
};

} // namespace

bool SheetOfSwap::isCurrentOutside() const
{
    const auto& amperes = sheet.conditions().lampAmperes;
    return current && amperes && (*amperes < current->least || *amperes > current->most);
}

SheetTime sheetTimeNow(const SwapState& swap)
{
    return swap.followsUp || strikeOf(swap) ? SheetTime::After : SheetTime::Arrival;
}

SheetOfSwap sheetOf(const VisitState& state, const SwapId& swap, SheetTime time,
                    const photometry::ToleranceSet* otherwise)
{
    if (const SwapState* found = state.swap(swap))
        return Gatherer(state, *found, time).gather(otherwise);
    SheetOfSwap sheet;
    sheet.time = time;
    return sheet;
}

bool isCentreRead(const VisitState& state, const SwapState& swap)
{
    return sheetOf(state, swap.id, sheetTimeNow(swap)).sheet.at(Place::Centre).has_value();
}

std::optional<photometry::Luminance> expectedOf(const ScreenConditions& said)
{
    const auto& screen = said.conditions.screen;
    if (!said.lumens || !said.gain || !screen)
        return std::nullopt;
    return photometry::expectedLuminance(*said.lumens, *screen, *said.gain, said.transmission.value_or(1));
}

std::optional<photometry::Comparison> comparisonOf(const VisitState& state, const SwapId& swap)
{
    const SheetOfSwap before = sheetOf(state, swap, SheetTime::Arrival);
    const SheetOfSwap after = sheetOf(state, swap, SheetTime::After);
    if (before.isEmpty() || after.isEmpty())
        return std::nullopt;
    return photometry::compare(before.sheet, after.sheet);
}

photometry::Conditions knownConditions(const VisitState& state, const SwapId& swap, SheetTime time)
{
    const SheetOfSwap arrival = sheetOf(state, swap, SheetTime::Arrival);
    if (time == SheetTime::After && arrival.said) {
        photometry::Conditions known = arrival.said->conditions;
        known.lit.reset();
        known.day.reset();
        known.darkReading.reset();
        known.lampWatts.reset();
        known.lampAmperes.reset();
        return known;
    }
    photometry::Conditions known;
    for (const SheetLine& line : state.sheets) {
        if (const auto* said = std::get_if<ScreenConditions>(&line.said)) {
            known.meter = said->conditions.meter;
            known.picture = said->conditions.picture;
        }
    }
    return known;
}

std::optional<std::chrono::seconds> litSinceStrike(const SwapState& swap, const Stamp& now)
{
    const auto strike = strikeOf(swap);
    if (!strike || strike->at.boot != now.boot || now.sinceBoot < strike->at.sinceBoot)
        return std::nullopt;
    return std::chrono::floor<std::chrono::seconds>(now.sinceBoot - strike->at.sinceBoot);
}

std::optional<std::chrono::seconds> litAtFirstReading(const VisitState& state, const SwapState& swap,
                                                      const Stamp& now)
{
    const auto strike = strikeOf(swap);
    const auto first = std::ranges::find_if(state.sheets, [&](const SheetLine& line) {
        const auto* read = std::get_if<ScreenRead>(&line.said);
        return strike && read && read->swap == swap.id && read->time == SheetTime::After &&
               line.entry > strike->entry;
    });
    return litSinceStrike(swap, first == state.sheets.end() ? now : first->at);
}

LitClaim litClaimOf(const VisitState& state, const SwapState& swap, std::optional<std::chrono::seconds> said,
                    const Stamp& now)
{
    const auto watched = litAtFirstReading(state, swap, now);
    if (!watched || !said)
        return {said, false};
    if (*said > *watched + kLeeway)
        return {std::nullopt, true};
    return {std::min(*said, *watched), false};
}

} // namespace coldarc::visit
