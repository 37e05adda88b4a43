#include "core/visit/lamp_doubts.h"

#include "core/label/normalise.h"

#include <algorithm>
#include <chrono>

using namespace Qt::StringLiterals;

namespace coldarc::visit {

namespace {

using label::Source;
using label::SourceRead;

/// As they stand, each once.
QStringList serialsIn(const QList<label::Reading>& readings)
{
    QStringList serials;
    for (const label::Reading& reading : readings) {
        const auto isKnown = [&](const QString& serial) {
            return label::normalise(serial) == label::normalise(reading.serial);
        };
        if (!label::normalise(reading.serial).isEmpty() && std::ranges::none_of(serials, isKnown))
            serials.append(reading.serial);
    }
    return serials;
}

// Dates stand in the codes; of several codes the gravest counts.
void addDates(label::Incoming& lamp, const QStringList& codes, int year)
{
    for (const QString& scanned : codes) {
        const label::Payload payload = label::readPayload(scanned, year);
        if (payload.useBy && (!lamp.useBy || payload.useBy->lastDay() < lamp.useBy->lastDay()))
            lamp.useBy = payload.useBy;
        if (payload.made && (!lamp.made || payload.made->firstDay() > lamp.made->firstDay()))
            lamp.made = payload.made;
    }
}

/// Whether an answer to this cause is void once this was read.
bool isReadAnew(label::Doubt::Cause cause, const LampRead& read)
{
    using Cause = label::Doubt::Cause;
    if (read.reading.source == Source::Entry)
        return true;
    if (cause == Cause::PictureUsedBefore)
        return read.picture.has_value();
    return (cause == Cause::PastUseBy || cause == Cause::MadeLater) && !read.scanned.isEmpty();
}

bool isAdaptorThere(const SwapState& swap)
{
    for (const procedure::Step& step : swap.steps) {
        if (step.effect == machine::Effect::Unbox)
            break; // too late to go and look for it
        const procedure::Capture* asked = step.capture(u"adaptor"_s);
        if (step.effect != machine::Effect::Look || !asked)
            continue;
        const StepRecord record = swap.record(step.id);
        return record.status != StepRecord::Status::Done ||
               asked->meansOf(record.answers.value(u"adaptor"_s).toString()) == procedure::Means::Good;
    }
    return false;
}

} // namespace

QList<SourceRead> readsOf(const QList<Entry>& entries, const VisitState& state, const LampId& lamp)
{
    QList<SourceRead> reads;
    for (qsizetype number = 0; number < entries.size(); ++number) {
        const auto* read = std::get_if<LampRead>(&entries[number].body);
        if (!read || read->lamp != lamp || state.withdrawn.contains(number))
            continue;
        reads.removeIf([&](const SourceRead& one) { return one.reading.source == read->reading.source; });
        reads.append({read->reading, read->scanned, read->picture, read->isAlsoElsewhere});
    }
    return reads;
}

bool standsForItsLamp(const SwapState& swap)
{
    return !swap.followsUp && std::ranges::any_of(swap.steps, [&](const procedure::Step& step) {
        const bool isMatch =
            step.effect == machine::Effect::MatchBox || step.effect == machine::Effect::BookIn;
        return isMatch && swap.record(step.id).status == StepRecord::Status::Done;
    });
}

QList<label::Doubt> doubtsWithinVisit(const VisitState& state, const SwapState& swap,
                                      const QList<label::Reading>& readings)
{
    QList<label::Doubt> found;
    const auto type = agreementOf(state, swap.newLamp, readings).type;
    for (const SwapState& other : state.swaps) {
        if (other.id == swap.id || other.newLamp == swap.newLamp || !standsForItsLamp(other))
            continue;
        const auto otherType = agreementOf(state, other.newLamp).type;
        if (type && otherType && *type != *otherType)
            continue;
        const QStringList standing =
            serialsIn(state.papers.value(state.ground->lamps[other.newLamp].id).readings);
        for (const QString& serial : serialsIn(readings)) {
            const auto isIt = [&](const QString& one) {
                return label::normalise(one) == label::normalise(serial);
            };
            if (std::ranges::any_of(standing, isIt))
                found.append({.cause = label::Doubt::Cause::SerialOfThisVisit,
                              .lamphouse = state.ground->lamphouses[other.lamphouse],
                              .serial = serial});
        }
    }
    return found;
}

QList<label::Doubt> doubtsOf(const VisitState& state, const SwapState& swap, const QList<SourceRead>& reads,
                             const OnRecord& record, WallTime now)
{
    const catalogue::ProjectorModel& model = state.ground->model(swap.lamphouse);
    const label::Agreement agreed =
        label::agreement(label::readingsOf(reads), {}, state.ground->catalogue.lampTypes(), model.lampTypes);
    QList<label::Reading> readings = label::readingsOf(reads);
    for (const label::Reading& one : state.papers.value(state.ground->lamps[swap.newLamp].id).readings) {
        if (std::ranges::find(readings, one.source, &label::Reading::source) == readings.end())
            readings.append(one); // read before, and not on this card
    }
    QList<label::Doubt> found = doubtsWithinVisit(state, swap, readings);
    if (!agreed.type)
        return found;
    label::Incoming lamp;
    lamp.visit = state.ground->opening.visit;
    lamp.lamphouse = state.ground->lamphouses[swap.lamphouse];
    lamp.type = *agreed.type;
    lamp.hours = state.ground->lamps[swap.newLamp].hours;
    if (const catalogue::LampType* type = state.ground->catalogue.lampType(*agreed.type))
        lamp.replaceBy = type->replaceByHours;
    for (const SourceRead& read : reads) {
        if (read.reading.source == Source::Entry)
            lamp.serial = read.reading.serial;
        addDates(lamp, read.scanned, yearOf(now));
        if (read.picture)
            lamp.pictures.append(*read.picture);
    }
    // Typing over what a code said takes no date away that stands in it.
    for (const QStringList& codes : state.papers.value(state.ground->lamps[swap.newLamp].id).codes)
        addDates(lamp, codes, yearOf(now));
    label::Memory memory;
    memory.lamps = record.lamps;
    memory.pictures = record.pictures;
    memory.isUnread = record.isUnread;
    memory.taken = model.lampTypes;
    memory.withAdaptor = model.adaptor ? model.adaptor->lampTypes : QList<LampTypeId>();
    memory.adaptorInKit = isAdaptorThere(swap);
    memory.today = std::chrono::floor<std::chrono::days>(now);
    found += label::doubts(lamp, memory);
    found.removeIf([](const label::Doubt& doubt) { return label::stops(doubt.cause); });
    return found;
}

QList<label::Doubt> unanswered(const QList<label::Doubt>& doubts, const QList<Entry>& entries,
                               const VisitState& state, const SwapState& swap)
{
    const LampId lamp = state.ground->lamps[swap.newLamp].id;
    const auto isAnswered = [&](const label::Doubt& doubt) {
        bool stands = false;
        for (qsizetype number = 0; number < entries.size(); ++number) {
            if (state.withdrawn.contains(number))
                continue;
            const Body& body = entries[number].body;
            if (const auto* did = std::get_if<Did>(&body); did && did->swap == swap.id)
                stands = stands || did->doubts.contains(label::keptAs(doubt)) ||
                         did->doubts.contains(label::wordOf(doubt.cause));
            if (const auto* read = std::get_if<LampRead>(&body); read && read->lamp == lamp)
                stands = stands && !isReadAnew(doubt.cause, *read);
        }
        return stands;
    };
    QList<label::Doubt> open = doubts;
    open.removeIf(isAnswered);
    return open;
}

} // namespace coldarc::visit
