#include "core/visit/unit.h"

#include "core/label/doubts.h"
#include "core/label/normalise.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

/// As the engineer says that it stands on the lamp; empty where nobody said, or the box is still shut.
QString serialOnIt(const VisitState& state, machine::Index lamp)
{
    if (lamp < state.plant.lamphouses || state.machine.lamp[lamp].place == machine::Place::SealedBox)
        return {};
    const QList<label::Reading> readings = state.papers.value(state.ground->lamps[lamp].id).readings;
    const auto entry = std::ranges::find(readings, label::Source::Entry, &label::Reading::source);
    return entry == readings.end() ? QString() : entry->serial.trimmed();
}

/// What the records had of the lamp with this serial, as the answer to that doubt says.
std::optional<double> answeredHours(const VisitState& state, machine::Index lamp, const QString& serial)
{
    const QHash<qint64, QStringList> answered = state.papers.value(state.ground->lamps[lamp].id).answered;
    for (auto one = answered.cbegin(); one != answered.cend(); ++one) {
        for (const QString& kept : *one) {
            if (const auto hours = label::hoursOfKept(kept, serial))
                return hours;
        }
    }
    return std::nullopt;
}

} // namespace

LampFacts unitOf(const VisitState& state, machine::Index lamp)
{
    LampFacts planned = state.ground->lamps[lamp];
    const QString serial = serialOnIt(state, lamp);
    if (const auto hours = answeredHours(state, lamp, serial); hours && !serial.isEmpty())
        planned.hours = hours;
    const QString key = label::normalise(serial);
    if (key.isEmpty() || key == label::normalise(planned.serial))
        return planned;
    if (planned.serial.isEmpty()) {
        planned.serial = serial;
        return planned;
    }
    for (machine::Index other = state.plant.lamphouses; other < state.plant.lamps; ++other) {
        const LampFacts& facts = state.ground->lamps[other];
        if (facts.type == planned.type && label::normalise(facts.serial) == key)
            return facts;
    }
    LampFacts unplanned{LampId(u"%1/%2"_s.arg(state.ground->opening.visit.text(), planned.id.text())),
                        planned.type,
                        serial,
                        {}};
    if (planned.hours == 0.0)
        unplanned.hours = 0.0; // a new one for a new one
    if (const auto hours = answeredHours(state, lamp, serial))
        unplanned.hours = hours;
    return unplanned;
}

} // namespace coldarc::visit
