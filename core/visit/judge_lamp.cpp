#include "core/base/typed_hours.h"
#include "core/label/normalise.h"
#include "core/label/source_read.h"
#include "core/lamps/alert_threshold.h"
#include "core/lamps/custody.h"
#include "core/visit/judge.h"
#include "core/visit/unit.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::visit {

using machine::kNone;
using machine::Outcome;

void Judge::operator()(const LampRead& read)
{
    judgeLampWork();
    if (m_state.ground->lamp(read.lamp) == kNone)
        no(Why::Kind::UnknownName);
    if (isSomebodyInGear())
        no(Why::Kind::NotYourTurn); // nothing is typed between gear-on and shut-housing
    const label::SourceRead source{read.reading, read.scanned, read.picture, read.isAlsoElsewhere};
    if (!label::restsOnItsCodes(source) ||
        !label::saysWhatItsCodesSay(source, m_state.ground->catalogue.lampTypes(), yearOf(m_now.wall)))
        no(Why::Kind::CodeMissing);
    if (!read.isAlsoElsewhere && isCodeOfAnother(read))
        no(Why::Kind::CodeOfAnother);
    judgeEntry(read);
}

void Judge::judgeEntry(const LampRead& read)
{
    if (read.reading.source != label::Source::Entry)
        return;
    for (const SwapState& swap : std::as_const(m_state.swaps)) {
        if (m_state.ground->lamps[swap.newLamp].id != read.lamp || !standsForItsLamp(swap))
            continue;
        const QList<label::Reading> before = m_state.papers.value(read.lamp).readings;
        const bool isAsBefore = std::ranges::any_of(before, [&](const label::Reading& one) {
            return one.source == label::Source::Entry &&
                   label::normalise(one.serial) == label::normalise(read.reading.serial);
        });
        if (!isAsBefore)
            judgeStanding(doubtsWithinVisit(m_state, swap, {read.reading}));
    }
}

void Judge::judgeSerials(const SwapState& swap, const Did& did)
{
    const LampPaper paper = m_state.papers.value(m_state.ground->lamps[swap.newLamp].id);
    QList<label::Doubt> doubts = doubtsWithinVisit(m_state, swap, paper.readings);
    doubts.removeIf([&](const label::Doubt& doubt) {
        const QString kept = label::keptAs(doubt);
        return did.doubts.contains(kept) || std::ranges::any_of(paper.answered, [&](const QStringList& all) {
                   return all.contains(kept);
               });
    });
    judgeStanding(doubts);
}

void Judge::judgeStanding(const QList<label::Doubt>& doubts)
{
    for (const label::Doubt& doubt : doubts) {
        Why why;
        why.kind = Why::Kind::SerialOfThisVisit;
        why.lamphouse = m_state.ground->lamphouse(doubt.lamphouse);
        why.text = doubt.serial;
        m_refusal.whys.append(why);
    }
}

bool Judge::isCodeOfAnother(const LampRead& read) const
{
    const QHash<label::Source, QStringList> codes = m_state.papers.value(read.lamp).codes;
    QList<label::SourceRead> others;
    for (auto one = codes.cbegin(); one != codes.cend(); ++one)
        others.append({{one.key(), {}, {}, {}}, one.value()});
    return std::any_of(read.scanned.begin(), read.scanned.end(), [&](const QString& scanned) {
        return label::alreadyReadOn(scanned, read.reading.source, others).has_value();
    });
}

void Judge::operator()(const SerialPassed& passed)
{
    judgeLampWork();
    const Index lamp = m_state.ground->lamp(passed.lamp);
    if (lamp == kNone)
        return no(Why::Kind::UnknownName);
    if (passed.pass.reason.trimmed().isEmpty())
        no(Why::Kind::TextMissing);
    const label::Agreement agreement = agreementOf(m_state, lamp);
    const bool isAsked = std::any_of(agreement.waits.begin(), agreement.waits.end(),
                                     [](const label::Wait& wait) { return wait.canBePassedWithReason(); });
    if (!isAsked)
        no(Why::Kind::NothingAsked);
}

void Judge::operator()(const CustodyDecided& decided)
{
    judgeLampWork();
    const Index lamp = m_state.ground->lamp(decided.lamp);
    const auto custody = lamps::custodyFromWord(decided.custody);
    if (lamp == kNone || !custody)
        return no(Why::Kind::UnknownName);
    const machine::Place place = m_state.machine.lamp[lamp].place;
    const lamps::Custody from = place == machine::Place::Burst       ? lamps::Custody::Burst
                                : place == machine::Place::SealedBox ? lamps::Custody::InVan
                                                                     : lamps::Custody::Boxed;
    if (!lamps::canMove(from, *custody))
        no(Why::Kind::CannotHappen);
}

bool Judge::isSomebodyInGear() const
{
    return std::any_of(m_state.machine.person.begin(), m_state.machine.person.end(),
                       [](const machine::PersonState& person) { return person.at != kNone; });
}

void Judge::judgeReadBack(const SwapState& swap, const procedure::Step& step, const machine::Act& act,
                          const procedure::Answers& answers)
{
    if (act.outcome != Outcome::Agrees)
        return;
    const auto isBad = [&](const QString& capture, const QString& told) {
        Why why;
        why.kind = Why::Kind::AnswerBad;
        why.capture = capture;
        why.text = told;
        m_refusal.whys.append(why);
    };
    const QString read = label::normalise(answers.value(u"type"_s));
    std::optional<LampTypeId> booked = agreementOf(m_state, act.lamp).type;
    if (!booked && act.lamp < m_state.plant.lamphouses) // one that is in already
        booked = m_state.ground->lamps[act.lamp].type;
    const catalogue::LampType* type = booked ? m_state.ground->catalogue.lampType(*booked) : nullptr;
    if (!read.isEmpty() && type && read != label::normalise(type->code))
        isBad(u"type"_s, {});
    if (swap.followsUp || step.otherLamphouse)
        return; // nothing is keyed in there
    const auto compare = [&](const QString& capture, const std::optional<double>& told) {
        const auto shown = hoursFrom(answers.value(capture));
        if (step.capture(capture) && shown && told && !isSameOnACounter(*shown, *told))
            isBad(capture, QString::number(*told, 'f', 0));
    };
    compare(u"threshold"_s, swap.thresholdHours);
    compare(u"hours"_s, unitOf(m_state, swap.newLamp).hours);
}

std::optional<label::Source> Judge::sourceOf(const procedure::Step& step, const procedure::Capture& capture)
{
    static const QHash<QString, label::Source> kSources{{u"box"_s, label::Source::Box},
                                                        {u"paper"_s, label::Source::Paper},
                                                        {u"entry"_s, label::Source::Entry},
                                                        {u"marking"_s, label::Source::OwnMarking}};
    const bool isOfALabel =
        capture.kind == procedure::CaptureKind::Type || capture.kind == procedure::CaptureKind::Serial;
    const auto source = kSources.constFind(capture.id.section(u'-', 0, 0));
    if ((step.effect != Effect::MatchBox && step.effect != Effect::BookIn) || !isOfALabel ||
        source == kSources.constEnd())
        return std::nullopt;
    return *source;
}

QJsonObject Judge::withReadings(const SwapState& swap, const procedure::Step& step, QJsonObject answers) const
{
    if (step.effect != Effect::MatchBox && step.effect != Effect::BookIn)
        return answers;
    const LampPaper paper = m_state.papers.value(m_state.ground->lamps[swap.newLamp].id);
    for (const procedure::Capture& capture : step.captures) {
        const auto source = sourceOf(step, capture);
        if (!source)
            continue;
        answers.remove(capture.id);
        for (const label::Reading& reading : paper.readings) {
            if (reading.source == *source)
                answers.insert(capture.id,
                               capture.kind == procedure::CaptureKind::Type ? reading.type : reading.serial);
        }
    }
    return answers;
}

void Judge::judgeMatch(const SwapState& swap, const procedure::Step& step, machine::Act& act)
{
    if (step.effect != Effect::MatchBox && step.effect != Effect::BookIn)
        return;
    const label::Agreement agreement = agreementOf(m_state, swap.newLamp);
    const int needed = step.effect == Effect::MatchBox ? 1 : 2;
    if (agreement.proved() >= needed) {
        act.outcome = step.effect == Effect::MatchBox ? Outcome::Agrees : Outcome::Plain;
        return;
    }
    for (const label::Wait& wait : agreement.waits) {
        if (wait.step > needed)
            continue;
        Why why;
        why.kind = Why::Kind::NotMatched;
        why.label = wait;
        m_refusal.whys.append(why);
    }
    if (agreement.waits.isEmpty())
        no(Why::Kind::NotMatched);
}

void Judge::judgeBookIn(const SwapState& swap, Did& did)
{
    const label::Agreement agreement = agreementOf(m_state, swap.newLamp);
    const catalogue::LampType* type =
        agreement.type ? m_state.ground->catalogue.lampType(*agreement.type) : nullptr;
    const QString typed = did.answers.value(u"threshold"_s).toString();
    const auto threshold = hoursFrom(typed);
    if (!threshold && !typed.isEmpty())
        return unclear(u"threshold"_s, typed);
    const Index other = m_state.person(did.countersignedBy);
    const bool isCountersigned =
        other != kNone && other != m_person && m_state.isHere(other) && m_state.people[other].mayAgree();
    const lamps::ThresholdVerdict verdict =
        lamps::thresholdVerdict(threshold ? *threshold : -1, type ? type->warrantyHours : 0, did.reason,
                                isCountersigned ? lamps::Countersign::Given : lamps::Countersign::Missing);
    if (!verdict.isTaken())
        return no(Why::Kind::Threshold);
    if (!verdict.atOrAboveWarranty) {
        did.reason.clear();
        did.countersignedBy = {};
    }
}

} // namespace coldarc::visit
