#include "core/visit/wanted_signature.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

bool isStop(const VisitState& state, const Did& did)
{
    const SwapState* swap = state.swap(did.swap);
    // The procedure's own list: the step may no longer be among those that apply.
    const procedure::Step* step = swap && swap->procedure ? swap->procedure->step(did.step) : nullptr;
    return step && step->stop;
}

/// Absence of voltage that was proved by somebody who does not work on the lamps: they may be gone before it
/// is signed for, so their key signs at once.
bool isProofOfOthers(const VisitState& state, const Entry& entry, const Did& did)
{
    const machine::Index person = state.person(entry.by);
    return did.act && did.act->effect == machine::Effect::ProveAbsence && person != machine::kNone &&
           !state.people[person].worksOnLamps();
}

/// The word for why an entry is signed; empty: it is not.
QString meaningOf(const Entry& entry, const VisitState& state)
{
    if (std::holds_alternative<Opening>(entry.body) || std::holds_alternative<Joined>(entry.body))
        return u"signed-in"_s;
    if (const auto* did = std::get_if<Did>(&entry.body); did && isStop(state, *did))
        return u"stop"_s;
    if (const auto* did = std::get_if<Did>(&entry.body); did && isProofOfOthers(state, entry, *did))
        return u"took-part"_s;
    if (const auto* signature = std::get_if<Signed>(&entry.body))
        return signature->meaning;
    if (std::holds_alternative<Closed>(entry.body))
        return u"performed"_s;
    if (std::holds_alternative<Addendum>(entry.body))
        return u"addendum"_s;
    return {};
}

PersonId signerOf(const Entry& entry)
{
    const auto* joined = std::get_if<Joined>(&entry.body);
    return joined ? joined->person.id : entry.by;
}

} // namespace

QList<WantedSignature> wantedSignatures(const QList<Entry>& entries, const VisitState& state)
{
    QList<WantedSignature> wanted;
    for (qsizetype number = 0; number < entries.size(); ++number) {
        const QString meaning = meaningOf(entries[number], state);
        if (!meaning.isEmpty())
            wanted.append({number, signerOf(entries[number]), meaning});
        if (const PersonId other = countersignerOf(entries[number]); !other.isEmpty())
            wanted.append({number, other, u"countersigned"_s});
        if (const auto* removed = std::get_if<LockRemoved>(&entries[number].body)) {
            for (const PersonId& one : {entries[number].by, removed->supervisor})
                wanted.append({number, one, u"removed-lock"_s});
        }
        const bool isIncident = std::any_of(state.incidents.begin(), state.incidents.end(),
                                            [&](const IncidentState& one) { return one.entry == number; });
        if (isIncident)
            wanted.append({number, entries[number].by, u"incident"_s});
    }
    return wanted;
}

} // namespace coldarc::visit
