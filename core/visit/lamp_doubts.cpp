#include "core/visit/lamp_doubts.h"

#include <algorithm>
#include <chrono>

using namespace Qt::StringLiterals;

namespace coldarc::visit {

namespace {

using label::Source;
using label::SourceRead;

QList<label::Reading> readingsOf(const QList<SourceRead>& reads)
{
    QList<label::Reading> readings;
    for (const SourceRead& read : reads)
        readings.append(read.reading);
    return readings;
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

QList<label::Doubt> doubtsOf(const VisitState& state, const SwapState& swap, const QList<SourceRead>& reads,
                             const OnRecord& record, WallTime now)
{
    const catalogue::ProjectorModel& model = state.ground->model(swap.lamphouse);
    const label::Agreement agreed =
        label::agreement(readingsOf(reads), {}, state.ground->catalogue.lampTypes(), model.lampTypes);
    if (!agreed.type)
        return {};
    label::Incoming lamp;
    lamp.visit = state.ground->opening.visit;
    lamp.lamphouse = state.ground->lamphouses[swap.lamphouse];
    lamp.type = *agreed.type;
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
    QList<label::Doubt> found = label::doubts(lamp, memory);
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
