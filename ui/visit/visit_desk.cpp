#include "ui/visit/visit_desk.h"

#include "core/visit/evolve.h"
#include "ui/visit/words_why.h"

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

bool isStop(const visit::VisitState& state, const visit::Did& did)
{
    const visit::SwapState* swap = state.swap(did.swap);
    // The procedure's own list: the step may no longer be among those that apply.
    const procedure::Step* step = swap && swap->procedure ? swap->procedure->step(did.step) : nullptr;
    return step && step->stop;
}

/// Absence of voltage that was proved by somebody who does not work on the lamps: they may be gone before it
/// is signed for, so their key signs at once.
bool isProofOfOthers(const visit::VisitState& state, const visit::Entry& entry, const visit::Did& did)
{
    const machine::Index person = state.person(entry.by);
    return did.act && did.act->effect == machine::Effect::ProveAbsence && person != machine::kNone &&
           !state.people[person].worksOnLamps();
}

/// The word for why an entry is signed; empty: it is not.
QString meaningOf(const visit::Entry& entry, const visit::VisitState& state)
{
    if (std::holds_alternative<visit::Opening>(entry.body) ||
        std::holds_alternative<visit::Joined>(entry.body))
        return u"signed-in"_s;
    if (const auto* did = std::get_if<visit::Did>(&entry.body); did && isStop(state, *did))
        return u"stop"_s;
    if (const auto* did = std::get_if<visit::Did>(&entry.body); did && isProofOfOthers(state, entry, *did))
        return u"took-part"_s;
    if (const auto* signature = std::get_if<visit::Signed>(&entry.body))
        return signature->meaning;
    if (std::holds_alternative<visit::Closed>(entry.body))
        return u"performed"_s;
    if (std::holds_alternative<visit::Addendum>(entry.body))
        return u"addendum"_s;
    return {};
}

/// Whoever pressed too; or nobody.
PersonId countersignerOf(const visit::Entry& entry)
{
    if (const auto* did = std::get_if<visit::Did>(&entry.body))
        return did->countersignedBy;
    const auto* acted = std::get_if<visit::Acted>(&entry.body);
    return acted ? acted->countersignedBy : PersonId();
}

PersonId signerOf(const visit::Entry& entry)
{
    const auto* joined = std::get_if<visit::Joined>(&entry.body);
    return joined ? joined->person.id : entry.by;
}

} // namespace

QList<WantedSignature> wantedSignatures(const QList<visit::Entry>& entries, const visit::VisitState& state)
{
    QList<WantedSignature> wanted;
    for (qsizetype number = 0; number < entries.size(); ++number) {
        const QString meaning = meaningOf(entries[number], state);
        if (!meaning.isEmpty())
            wanted.append({number, signerOf(entries[number]), meaning});
        if (const PersonId other = countersignerOf(entries[number]); !other.isEmpty())
            wanted.append({number, other, u"countersigned"_s});
        if (const auto* removed = std::get_if<visit::LockRemoved>(&entries[number].body)) {
            for (const PersonId& one : {entries[number].by, removed->supervisor})
                wanted.append({number, one, u"removed-lock"_s});
        }
        const bool isIncident =
            std::any_of(state.incidents.begin(), state.incidents.end(),
                        [&](const visit::IncidentState& one) { return one.entry == number; });
        if (isIncident)
            wanted.append({number, entries[number].by, u"incident"_s});
    }
    return wanted;
}

VisitDesk::VisitDesk(visit::Logbook& logbook, const Clock& clock, PersonId presses, QTimeZone zone,
                     QObject* parent)
    : QObject(parent)
    , m_logbook(logbook)
    , m_clock(clock)
    , m_presses(std::move(presses))
    , m_zone(std::move(zone))
{
}

visit::VisitState VisitDesk::seen() const
{
    return visit::seenAt(m_logbook.state(), m_clock.now());
}

VisitDesk::Told VisitDesk::tell(const PersonId& by, const visit::Body& asked)
{
    const Stamp now = m_clock.now();
    const visit::VisitState before = visit::seenAt(m_logbook.state(), now);
    const auto answer = m_logbook.tell(by, asked, now);
    Told told;
    if (!answer) {
        told.no = {tr("This could not be kept on the disk; nothing was changed. Try again.")};
        Q_EMIT failed(answer.error().detail);
        return told;
    }
    if (const auto* refusal = std::get_if<visit::Refusal>(&*answer)) {
        told.refusal = *refusal;
        told.no = wordsOf(*refusal, before);
        return told;
    }
    told.entry = std::get<visit::Entry>(*answer);
    const qint64 number = m_logbook.entries().size() - 1;
    for (const WantedSignature& wanted : wantedSignatures(m_logbook.entries(), m_logbook.state())) {
        if (wanted.entry == number)
            Q_EMIT signatureWanted(wanted);
    }
    Q_EMIT changed();
    return told;
}

void VisitDesk::setKept(const QList<WantedSignature>& kept, const QList<WantedSignature>& broken)
{
    m_kept = kept;
    m_broken = broken;
    Q_EMIT changed();
}

QList<WantedSignature> VisitDesk::missing() const
{
    QList<WantedSignature> missing = wantedSignatures(m_logbook.entries(), m_logbook.state());
    missing.removeIf([&](const WantedSignature& one) { return m_kept.contains(one); });
    return missing;
}

} // namespace coldarc::ui
