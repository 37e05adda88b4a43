#include "core/review/exceptions.h"

#include "core/base/typed_hours.h"
#include "core/photometry/verdict.h"
#include "core/visit/decide.h"
#include "core/visit/entry_words.h"
#include "core/visit/open_visit.h"
#include "core/visit/settlement.h"
#include "core/visit/sheet_of_visit.h"

#include <algorithm>
#include <cmath>
#include <iterator>

using namespace Qt::StringLiterals;

namespace coldarc::review {
namespace {

using Kind = Exception::Kind;
using Noticed = visit::Exception::Kind;

constexpr double kMsPerMinute = 60'000;
constexpr double kMsPerSecond = 1'000;

/// What the fold of a visit notices, by the name that it has here.
Kind kindOf(Noticed noticed)
{
    switch (noticed) {
    case Noticed::GateSkipped:
        return Kind::GateSkipped;
    case Noticed::SafeWardWithGateWaiting:
        return Kind::SafeWardWithGateWaiting;
    case Noticed::SerialPassed:
        return Kind::SerialPassed;
    case Noticed::ThresholdAtOrAboveWarranty:
        return Kind::ThresholdAtOrAboveWarranty;
    case Noticed::LabelsDisagreed:
        return Kind::LabelsDisagreed;
    case Noticed::StepOwed:
        return Kind::StepOwed;
    case Noticed::EntryWithdrawn:
        return Kind::EntryWithdrawn;
    case Noticed::WaitCutByIncident:
        return Kind::WaitCutByIncident;
    case Noticed::IncidentMet:
        return Kind::IncidentMet;
    case Noticed::LockRemoved:
        return Kind::LockRemoved;
    case Noticed::ClockWentBack:
        return Kind::ClockWentBack;
    case Noticed::OtherClockBehind:
        return Kind::OtherClockBehind;
    case Noticed::GapNobodyWitnessed:
        return Kind::GapNobodyWitnessed;
    case Noticed::NotAsLeft:
        return Kind::NotAsLeft;
    case Noticed::LitOfUnknownHours:
        return Kind::LitOfUnknownHours;
    case Noticed::NeighbourLeftDark:
        return Kind::NeighbourLeftDark;
    case Noticed::WrongAnswerAtAStop:
        return Kind::WrongAnswerAtAStop;
    case Noticed::LampDoubted:
        return Kind::LampDoubted;
    case Noticed::OnOneCode:
        return Kind::OnOneCode;
    case Noticed::OnOneTyping:
        return Kind::OnOneTyping;
    case Noticed::Addendum:
        return Kind::Addendum;
    }
    Q_UNREACHABLE();
}

/// Between two stamps: by the boot clock, where one boot saw both; else by the wall.
double millisecondsBetween(const Stamp& from, const Stamp& to)
{
    const bool isOneBoot = from.boot == to.boot && from.machine == to.machine;
    return static_cast<double>(isOneBoot ? (to.sinceBoot - from.sinceBoot).count()
                                         : (to.wall - from.wall).count());
}

std::optional<double> inCdPerM2(double value, photometry::LuminanceUnit unit)
{
    const auto light = photometry::Luminance::from(value, unit);
    return light ? std::optional(light->cdPerM2()) : std::nullopt;
}

class Finder {
public:
    Finder(const visit::VisitState& state, const QList<visit::Entry>& entries)
        : m_state(state)
        , m_entries(entries)
    {
    }

    /// @param closing  when a visit that is open is taken to be signed and closed; nullptr: not at all.
    QList<Exception> find(const QList<HeadSigned>* signatures, const Stamp* closing)
    {
        for (const visit::Exception& one : m_state.exceptions)
            m_found.append(factsOf(one));
        for (qint64 number = 0; number < m_entries.size(); ++number)
            lookForCorrections(number);
        for (const visit::SwapState& swap : m_state.swaps) {
            lookAtCounter(swap);
            lookAtLight(swap);
        }
        lookAtEnd();
        if (closing && m_state.isOpen())
            lookAhead(*closing);
        if (signatures)
            lookAtSignatures(*signatures);
        std::ranges::stable_sort(m_found, [](const Exception& one, const Exception& other) {
            const int weight = weightOf(one.kind);
            const int against = weightOf(other.kind);
            return weight != against ? weight > against : one.entry < other.entry;
        });
        return std::move(m_found);
    }

private:
    template<class Body>
    [[nodiscard]] const Body* body(qint64 number) const
    {
        const bool isThere = number >= 0 && number < m_entries.size();
        return isThere ? std::get_if<Body>(&m_entries[number].body) : nullptr;
    }

    [[nodiscard]] SwapId swapOf(qint64 number) const
    {
        if (number < 0 || number >= m_entries.size())
            return {};
        return std::visit(
            [](const auto& body) {
                if constexpr (requires { body.swap; })
                    return SwapId(body.swap);
                return SwapId();
            },
            m_entries[number].body);
    }

    // ---- What the fold noticed ----------------------------------------------------------------------------

    [[nodiscard]] Exception factsOf(const visit::Exception& noticed) const
    {
        Exception one{kindOf(noticed.kind), noticed.entry};
        one.swap = swapOf(noticed.entry);
        const auto* did = body<visit::Did>(noticed.entry);
        switch (one.kind) {
        case Kind::IncidentMet:
            nameIncident(one);
            break;
        case Kind::GateSkipped:
        case Kind::SafeWardWithGateWaiting:
            one.words = noticed.gates;
            break;
        case Kind::LockRemoved:
            if (const auto* removed = body<visit::LockRemoved>(noticed.entry))
                one.person = removed->owner;
            break;
        case Kind::ClockWentBack:
        case Kind::OtherClockBehind:
            one.figure = secondsMissing(noticed.entry);
            break;
        case Kind::GapNobodyWitnessed:
            one.figure = wallSecondsBefore(noticed.entry);
            break;
        case Kind::LabelsDisagreed:
            if (const auto* read = body<visit::LampRead>(noticed.entry)) {
                one.words = QStringList{visit::wordOf(read->reading.source)};
                one.swap = swapOfLamp(read->lamp);
            }
            break;
        case Kind::SerialPassed:
            if (const auto* passed = body<visit::SerialPassed>(noticed.entry)) {
                one.words = QStringList{visit::wordOf(passed->pass.source)};
                one.swap = swapOfLamp(passed->lamp);
            }
            break;
        case Kind::ThresholdAtOrAboveWarranty:
            if (did)
                nameThreshold(one, *did);
            break;
        case Kind::LampDoubted:
            if (did)
                one.words = did->doubts;
            break;
        case Kind::WrongAnswerAtAStop:
            if (did)
                one.words = did->reopened;
            break;
        case Kind::StepOwed:
            if (const auto* owed = body<visit::Owed>(noticed.entry))
                one.words = QStringList{owed->step.text()};
            break;
        case Kind::EntryWithdrawn:
            if (const auto* withdrawn = body<visit::Withdrawn>(noticed.entry))
                one.other = withdrawn->entry;
            break;
        default:
            break;
        }
        return one;
    }

    void nameIncident(Exception& one) const
    {
        for (const visit::IncidentState& incident : m_state.incidents) {
            if (incident.entry != one.entry)
                continue;
            one.words.append(visit::wordOf(incident.kind));
            if (!incident.swap.isEmpty())
                one.swap = incident.swap;
        }
    }

    [[nodiscard]] double wallSecondsBefore(qint64 number) const
    {
        if (number < 1 || number >= m_entries.size())
            return 0;
        const auto ahead = m_entries[number].at.wall - m_entries[number - 1].at.wall;
        return static_cast<double>(ahead.count()) / kMsPerSecond;
    }

    /// What the wall clock went ahead too little: by the boot clock, where one boot saw both; else it is
    /// known only by how much it stands before the last entry.
    [[nodiscard]] double secondsMissing(qint64 number) const
    {
        if (number < 1 || number >= m_entries.size())
            return 0;
        const Stamp& before = m_entries[number - 1].at;
        const Stamp& now = m_entries[number].at;
        const bool isOneBoot = before.boot == now.boot && before.machine == now.machine;
        const double went = isOneBoot ? millisecondsBetween(before, now) / kMsPerSecond : 0;
        return went - wallSecondsBefore(number);
    }

    [[nodiscard]] SwapId swapOfLamp(const LampId& lamp) const
    {
        const machine::Index index = m_state.ground->lamp(lamp);
        for (const visit::SwapState& swap : m_state.swaps) {
            if (index != machine::kNone && (swap.newLamp == index || swap.oldLamp == index))
                return swap.id;
        }
        return {};
    }

    void nameThreshold(Exception& one, const visit::Did& did) const
    {
        one.figure = keptHours(did.answers.value(u"threshold"_s).toString());
        const visit::SwapState* swap = m_state.swap(did.swap);
        if (!swap || swap->newLamp == machine::kNone)
            return;
        const auto& type = m_state.ground->lamps[swap->newLamp].type;
        if (const auto* known = type ? m_state.ground->catalogue.lampType(*type) : nullptr)
            one.against = known->warrantyHours;
    }

    // ---- What is looked at here ---------------------------------------------------------------------------

    void lookForCorrections(qint64 number)
    {
        if (const auto* light = body<visit::LightRead>(number); light && light->replaces >= 0) {
            Exception one{Kind::ReadingCorrected, number, light->replaces, light->swap};
            one.figure = light->value;
            if (const auto* before = body<visit::LightRead>(light->replaces))
                one.against = before->value;
            m_found.append(one);
        }
        const auto* screen = body<visit::ScreenRead>(number);
        for (const visit::PointRead& point : screen ? screen->points : QList<visit::PointRead>()) {
            if (point.replaces < 0)
                continue;
            Exception one{Kind::ReadingCorrected, number, point.replaces, screen->swap};
            one.words = QStringList{photometry::wordOf(point.place)};
            one.figure = inCdPerM2(point.value, screen->unit);
            if (const auto* before = body<visit::ScreenRead>(point.replaces))
                one.against = valueAt(*before, point.place);
            m_found.append(one);
        }
    }

    [[nodiscard]] static std::optional<double> valueAt(const visit::ScreenRead& read, photometry::Place place)
    {
        for (const visit::PointRead& point : read.points) {
            if (point.place == place)
                return inCdPerM2(point.value, read.unit);
        }
        return std::nullopt;
    }

    /// The counter of a lamp that was found, before anything was keyed in, against that of the last reading;
    /// older openings do not say what it showed then: there it counts the lamp's own hours.
    void lookAtCounter(const visit::SwapState& swap)
    {
        const visit::LampFacts& found = m_state.ground->lamps[swap.oldLamp];
        const std::optional<double> onRecord = found.counter ? found.counter : found.hours;
        for (const procedure::Step& step : swap.steps) {
            const visit::StepRecord record = swap.record(step.id);
            const auto read = visit::counterIn(step, record);
            const bool isOfFound = step.effect != machine::Effect::KeyController && !step.otherLamphouse;
            // A whole hour is what a counter shows.
            if (isOfFound && read && onRecord && *read < std::floor(*onRecord)) {
                Exception one{Kind::CounterBelowRecord, record.entry, -1, swap.id};
                one.figure = *read;
                one.against = onRecord;
                m_found.append(one);
            }
        }
    }

    void lookAtLight(const visit::SwapState& swap)
    {
        const visit::SheetOfSwap sheet = visit::sheetOf(m_state, swap.id, visit::SheetTime::After);
        if (!sheet.verdict || sheet.points.empty())
            return;
        const qint64 last = std::ranges::max(sheet.points, {}, &visit::SheetPoint::entry).entry;
        for (const photometry::Verdict& verdict : sheet.verdict->verdicts) {
            using Quantity = photometry::Quantity;
            const bool isLight = verdict.quantity == Quantity::CentreLuminance ||
                                 verdict.quantity == Quantity::SideShare ||
                                 verdict.quantity == Quantity::CornerShare;
            if (!isLight || verdict.outcome != photometry::Outcome::Below)
                continue;
            Exception one{Kind::LightBelowTolerance, last, -1, swap.id};
            one.words.append(photometry::wordOf(verdict.quantity));
            if (verdict.place)
                one.words.append(photometry::wordOf(*verdict.place));
            one.figure = verdict.value;
            one.against = verdict.limit.least;
            m_found.append(one);
        }
    }

    void lookAtEnd()
    {
        for (qint64 number = 0; number < m_entries.size(); ++number) {
            const visit::Entry& entry = m_entries[number];
            if (isPerformed(entry))
                lookAtSignOff(number, entry.at, entry.by);
            if (const auto* closed = std::get_if<visit::Closed>(&entry.body))
                lookAtClosing(number, entry.at, closed->end);
        }
    }

    void lookAhead(const Stamp& now)
    {
        const qint64 next = m_entries.size();
        if (std::ranges::none_of(m_entries, isPerformed))
            lookAtSignOff(next, now, m_state.people[m_state.lead].id);
        lookAtClosing(next, now, visit::endWord(m_state));
    }

    [[nodiscard]] static bool isPerformed(const visit::Entry& entry)
    {
        const auto* signature = std::get_if<visit::Signed>(&entry.body);
        return signature && signature->meaning == u"performed";
    }

    void lookAtClosing(qint64 number, const Stamp& at, const QString& end)
    {
        const bool isDone = end == u"done";
        if (!isDone) {
            Exception one{Kind::MadeSafe, number};
            one.words = QStringList{end};
            m_found.append(one);
        }
        for (const visit::SwapState& swap : m_state.swaps)
            lookAtWhatIsLeft(number, swap, end);
        lookAtDuration(number, at, isDone);
    }

    /// What was put off was told where it was; this is what nobody came to.
    void lookAtWhatIsLeft(qint64 number, const visit::SwapState& swap, const QString& end)
    {
        for (const StepId& step : visit::leftOwed(m_state, swap, end)) {
            if (swap.record(step).status != visit::StepRecord::Status::Owed)
                m_found.append({Kind::StepOwed, number, -1, swap.id, {}, {step.text()}});
        }
    }

    void lookAtSignOff(qint64 number, const Stamp& at, const PersonId& by)
    {
        for (qint64 before = number - 1; before >= 0; --before) {
            const visit::Body& body = m_entries[before].body;
            if (!std::holds_alternative<visit::Did>(body) && !std::holds_alternative<visit::Acted>(body))
                continue;
            const double late = millisecondsBetween(m_entries[before].at, at) / kMsPerMinute;
            if (late > kLateSignOff) {
                Exception one{Kind::LateSignOff, number};
                one.person = by;
                one.figure = late;
                m_found.append(one);
            }
            return;
        }
    }

    void lookAtDuration(qint64 end, const Stamp& at, bool isDone)
    {
        visit::NeededTime needed;
        for (const visit::SwapState& swap : m_state.swaps) {
            needed = needed + visit::timeNeeded(swap.steps, m_state.ground->model(swap.lamphouse));
        }
        const double took = millisecondsBetween(m_entries.first().at, at) / kMsPerMinute;
        const auto total = static_cast<double>(needed.total().count());
        const bool isLong = took > kTookLong * total;
        if (!isLong && (!isDone || took >= kTookLittle * total))
            return;
        Exception one{isLong ? Kind::TookLong : Kind::TookLittle, end};
        one.figure = took;
        one.against = total;
        m_found.append(one);
    }

    void lookAtSignatures(const QList<HeadSigned>& signatures)
    {
        for (const HeadSigned& one : signatures) {
            if (!one.isGood)
                m_found.append(
                    {Kind::SignatureBad, one.entry, -1, swapOf(one.entry), one.person, {one.meaning}});
        }
        for (const HeadSigned& one : signatures)
            lookAtMoment(one);
        QList<HeadSigned> good;
        std::ranges::copy_if(signatures, std::back_inserter(good), &HeadSigned::counts);
        for (const visit::WantedSignature& wanted :
             unanswered(visit::wantedSignatures(m_entries, m_state), good)) {
            m_found.append(unsignedWork(wanted, signatures));
        }
    }

    [[nodiscard]] Exception unsignedWork(const visit::WantedSignature& wanted,
                                         const QList<HeadSigned>& signatures) const
    {
        Exception one{Kind::WorkUnsigned,   wanted.entry,  -1,
                      swapOf(wanted.entry), wanted.person, {wanted.meaning}};
        if (const HeadSigned* covering = coveredBy(wanted, signatures)) {
            one.other = covering->entry;
            if (covering->person != wanted.person)
                one.words.append(covering->person.text());
        }
        return one;
    }

    /// A key may sign long after somebody pressed: as late as whoever has it opens it. Not before.
    void lookAtMoment(const HeadSigned& signature)
    {
        if (!signature.counts() || signature.isFormer || signature.entry >= m_entries.size())
            return;
        const WallTime written = m_entries[signature.entry].at.wall;
        const double late = static_cast<double>((signature.at - written).count()) / kMsPerMinute;
        const bool isBefore = isBeforeItsEntry(signature.at, written);
        if (!isBefore && late <= kLateSignOff)
            return;
        Exception one{isBefore ? Kind::SignedBefore : Kind::LateSignOff,
                      signature.entry,
                      -1,
                      swapOf(signature.entry),
                      signature.person,
                      {signature.meaning}};
        one.figure = isBefore ? -late : late;
        m_found.append(one);
    }

    /// The first signature behind: theirs, else whoever's; nullptr where there is none.
    [[nodiscard]] static const HeadSigned* coveredBy(const visit::WantedSignature& wanted,
                                                     const QList<HeadSigned>& signatures)
    {
        const HeadSigned* first = nullptr;
        const auto place = [&](const HeadSigned& one) {
            return std::pair(one.person != wanted.person, one.entry);
        };
        for (const HeadSigned& one : signatures) {
            if (one.counts() && one.entry >= wanted.entry && (!first || place(one) < place(*first)))
                first = &one;
        }
        return first;
    }

    const visit::VisitState& m_state;
    const QList<visit::Entry>& m_entries;
    QList<Exception> m_found;
};

} // namespace

QList<visit::WantedSignature> unanswered(QList<visit::WantedSignature> wanted,
                                         const QList<HeadSigned>& signatures)
{
    const auto answer = [&](const HeadSigned& one) {
        const auto found = std::ranges::find_if(wanted, [&](const visit::WantedSignature& asked) {
            return asked.entry == one.entry && asked.meaning == one.meaning &&
                   (one.isFormer || asked.person == one.person);
        });
        if (found != wanted.end())
            wanted.erase(found);
    };
    for (const bool isFormer : {false, true}) { // those that name somebody first
        for (const HeadSigned& one : signatures) {
            if (one.isFormer == isFormer)
                answer(one);
        }
    }
    return wanted;
}

QList<Exception> exceptionsOf(const visit::VisitState& state, const QList<visit::Entry>& entries,
                              const QList<HeadSigned>* signatures)
{
    if (!state.ground)
        return {};
    return Finder(state, entries).find(signatures, nullptr);
}

QList<Exception> exceptionsIfClosed(const visit::VisitState& state, const QList<visit::Entry>& entries,
                                    const Stamp& now, const QList<HeadSigned>* signatures)
{
    if (!state.ground)
        return {};
    return Finder(state, entries).find(signatures, &now);
}

} // namespace coldarc::review
