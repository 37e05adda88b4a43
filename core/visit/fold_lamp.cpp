#include "core/base/typed_hours.h"
#include "core/label/source_read.h"
#include "core/lamps/alert_threshold.h"
#include "core/lamps/custody.h"
#include "core/visit/folding.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::visit {

using machine::Happening;
using machine::kNone;

void Folding::operator()(const LampRead& read)
{
    const Index lamp = m_state.ground->lamp(read.lamp);
    if (lamp == kNone)
        return giveUp();
    LampPaper& paper = m_state.papers[read.lamp];
    paper.readings.removeIf(
        [&](const label::Reading& before) { return before.source == read.reading.source; });
    paper.readings.append(read.reading);
    noteOneCode(paper, read);
    if (read.reading.source == label::Source::Entry)
        paper.answered.clear(); // what was answered was said of what stood there
    QStringList& codes = paper.codes[read.reading.source];
    for (const QString& scanned : read.scanned) {
        if (!codes.contains(scanned))
            codes.append(scanned);
    }
    const label::Agreement agreement = agreementOf(m_state, lamp);
    for (const label::Wait& wait : agreement.waits) {
        if (wait.cause == label::Wait::Cause::TypeDiffers ||
            wait.cause == label::Wait::Cause::TypeDiffersBySuffix ||
            wait.cause == label::Wait::Cause::SerialDiffers) {
            except(Exception::Kind::LabelsDisagreed);
            break;
        }
    }
    const bool stands = m_state.machine.lamp[lamp].match == machine::Match::No || agreement.closedBoxProved;
    if (!stands || contradictsMarking(read, agreement)) {
        if (!paper.spoilt)
            paper.spoilt = m_state.machine.lamp[lamp].match;
        m_state.machine = machine::after(m_state.plant, m_state.machine, wrongLamp(lamp));
    }
    weigh(lamp, agreement);
}

/// What is said of one of two sources holds of both.
void Folding::noteOneCode(LampPaper& paper, const LampRead& read)
{
    paper.readings.last().isSameCode = read.isAlsoElsewhere;
    const label::SourceRead now{read.reading, read.scanned};
    for (label::Reading& other : paper.readings) {
        const label::SourceRead before{other, paper.codes.value(other.source)};
        if (read.isAlsoElsewhere && other.source != read.reading.source && label::isOneCodeOf(now, before))
            other.isSameCode = true;
    }
}

void Folding::operator()(const SerialPassed& passed)
{
    const Index lamp = m_state.ground->lamp(passed.lamp);
    if (lamp == kNone)
        return giveUp();
    m_state.papers[passed.lamp].passes.append(passed.pass);
    except(Exception::Kind::SerialPassed);
    weigh(lamp, agreementOf(m_state, lamp));
}

void Folding::weigh(Index lamp, const label::Agreement& agreement)
{
    machine::LampState& there = m_state.machine.lamp[lamp];
    LampPaper& paper = m_state.papers[m_state.ground->lamps[lamp].id];
    const bool isUnboxed = there.place != machine::Place::SealedBox;
    if (paper.spoilt && agreement.proved() >= (*paper.spoilt == machine::Match::Both ? 2 : 1)) {
        there.match = *paper.spoilt;
        paper.spoilt.reset();
    }
    if (there.match == machine::Match::Box && isUnboxed && agreement.proved() == 2)
        there.match = machine::Match::Both;
}

bool Folding::contradictsMarking(const LampRead& read, const label::Agreement& agreement)
{
    return read.reading.source == label::Source::OwnMarking && !agreement.ownMarkingProved;
}

machine::Event Folding::wrongLamp(Index lamp)
{
    machine::Event event;
    event.what = Happening::WrongLamp;
    event.lamp = lamp;
    return event;
}

void Folding::noteLamp(SwapState& swap, const procedure::Step& step, const Did& did)
{
    if (!did.doubts.isEmpty()) {
        except(Exception::Kind::LampDoubted);
        m_state.papers[m_state.ground->lamps[swap.newLamp].id].answered.insert(m_number, did.doubts);
    }
    if (restsOnOneCode(step.effect, m_state.papers.value(m_state.ground->lamps[swap.newLamp].id)))
        except(Exception::Kind::OnOneCode);
    const auto& readings = m_state.papers.value(m_state.ground->lamps[swap.newLamp].id).readings;
    const bool isOnOneTyping = step.effect == machine::Effect::MatchBox && label::restsOnOneTyping(readings);
    if (did.onOneTyping || isOnOneTyping)
        except(Exception::Kind::OnOneTyping);
    if (step.effect != machine::Effect::BookIn)
        return;
    m_state.machine.lamp[swap.newLamp].match = machine::Match::Both;
    m_state.papers[m_state.ground->lamps[swap.newLamp].id].spoilt.reset();
    const std::optional<double> before = swap.thresholdHours;
    swap.thresholdHours = keptHours(did.answers.value(u"threshold"_s).toString());
    keyInAgain(swap, before);
    // Of a type that nobody knows the warranty is not known either.
    const bool isTypeKnown = agreementOf(m_state, swap.newLamp).type.has_value();
    if ((!did.reason.isEmpty() || isTypeKnown) && isAtOrAboveWarranty(swap))
        except(Exception::Kind::ThresholdAtOrAboveWarranty);
}

bool Folding::isAtOrAboveWarranty(const SwapState& swap) const
{
    const auto id = agreementOf(m_state, swap.newLamp).type;
    const catalogue::LampType* type = id ? m_state.ground->catalogue.lampType(*id) : nullptr;
    return lamps::thresholdVerdict(swap.thresholdHours.value_or(0), type ? type->warrantyHours : 0, {},
                                   lamps::Countersign::Missing)
        .atOrAboveWarranty;
}

bool Folding::restsOnOneCode(machine::Effect effect, const LampPaper& paper)
{
    return std::ranges::any_of(paper.readings, [&](const label::Reading& reading) {
        const bool isOwn = reading.source == label::Source::OwnMarking;
        return reading.isSameCode && (effect == machine::Effect::MatchBox ? !isOwn
                                      : effect == machine::Effect::BookIn ? isOwn
                                                                          : false);
    });
}

void Folding::keyInAgain(SwapState& swap, const std::optional<double>& before)
{
    for (const procedure::Step& step : std::as_const(swap.steps)) {
        const StepRecord record = swap.record(step.id);
        if (step.effect != machine::Effect::KeyController || step.otherLamphouse ||
            record.status != StepRecord::Status::Done)
            continue;
        const auto shown = keptHours(record.answers.value(u"threshold"_s).toString());
        const std::optional<double> keyed = shown ? shown : before;
        if (keyed && swap.thresholdHours && !isSameOnACounter(*keyed, *swap.thresholdHours))
            reopen(swap, step.id);
    }
}

void Folding::noteCustody(const SwapState& swap, const procedure::Step& step, const QJsonObject& answers)
{
    const procedure::Capture* capture = step.capture(u"custody"_s);
    if (!capture)
        return;
    const auto means = capture->meansOf(answers.value(u"custody"_s).toString());
    const LampId lamp = m_state.ground->lamps[swap.oldLamp].id;
    if (means && lamps::custodyFromWord(procedure::wordOf(*means)))
        m_state.custody.insert(lamp, procedure::wordOf(*means));
}

} // namespace coldarc::visit
