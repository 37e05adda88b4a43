#pragma once

#include "core/machine/reach.h"
#include "core/visit/evolve.h"
#include "core/visit/incident.h"

namespace coldarc::visit {

/// Folds one entry into a state: the room's own, behind `evolve`. Its parts are written in fold_lamp.cpp
/// (what is read of a lamp), fold_incidents.cpp and fold_people.cpp; evolve.cpp holds the rest.
class Folding {
public:
    Folding(VisitState state, const Entry& entry)
        : m_state(std::move(state))
        , m_entry(entry)
        , m_number(m_state.entries)
    {
    }

    VisitState done();
    void operator()(const Opening& opening);
    void operator()(const Joined& joined);
    void operator()(const Did& did);
    void operator()(const Acted& acted);
    void operator()(const Happened& happened);
    void operator()(const IncidentAnswered& answered);
    void operator()(const LampRead& read);
    void operator()(const SerialPassed& passed);
    void operator()(const LightRead& read) { m_state.light.append({read, m_entry.at, m_number}); }

    void operator()(const LightSet& set) { m_state.lightSets.append({set, m_entry.at, m_number}); }

    void operator()(const ScreenRead& read);
    void operator()(const ScreenConditions& said) { m_state.sheets.append({said, m_entry.at, m_number}); }
    void operator()(const ScreenLimits& limits);

    void operator()(const FanAnswered& answered);
    void operator()(const LocksSeen& seen);
    void operator()(const Owed& owed);
    void operator()(const Withdrawn& withdrawn);
    void operator()(const Noted&) {}
    void operator()(const PictureKept&) {}

    void operator()(const Resumed&);
    void operator()(const SafeBegun&) { m_state.isMakingSafe = true; }

    void operator()(const PassedOn& passed);
    void operator()(const LockRemoved& removed);
    void operator()(const RemovalTold&) { m_state.removalsToTell.remove(m_entry.by); }

    void operator()(const Left& left);
    void operator()(const CustodyDecided& decided) { m_state.custody.insert(decided.lamp, decided.custody); }

    void operator()(const Signed& signature);
    void operator()(const SiteSigned& signature);
    void operator()(const Closed& closed) { m_state.end = closed.end; }
    void operator()(const Addendum&) { except(Exception::Kind::Addendum); }
    void operator()(const Unknown&) { giveUp(); }

private:
    using Happening = machine::Happening;
    using Index = machine::Index;

    VisitState finish();
    /// The lock that this act hangs is there, and whoever hangs it is its owner.
    bool hangs(const machine::Act& lockOn) const;
    void giveUp() { m_state.isReadOnly = true; }
    void except(Exception::Kind kind, const QStringList& gates = {})
    {
        m_state.exceptions.append({kind, m_number, gates});
    }
    void noteClocks();
    [[nodiscard]] bool isSetBack() const;
    /// This entry says of these points that they take no lock.
    void noteGivesWay(machine::Mask points);
    SwapState* find(const SwapId& id);
    void add(const PersonFacts& person);
    /// Authority is judged anew; the place in the lists stays.
    void comeBack(Index index, const PersonFacts& person);
    /// A step that was done in vain.
    static bool comesAgain(const Did& did);
    /// The steps that apply to what was found in this lamphouse.
    void choosePath(Index lamphouse);
    /// What was so already when its turn came stays behind, whatever another swap does to it later.
    void passOver(SwapState& swap, const StepId& done);
    /// Whoever takes over says for themselves that it is cold and dead, where the lamp has still to be got
    /// at.
    void askAgain(SwapState& swap);
    /// Whoever goes in again, shuts, counts and leaves again, and answers the stops behind again.
    void closeAgain(SwapState& swap, const procedure::Step& done);
    /// Told outside the step that would meet it.
    void happen(Incident incident, const SwapId& swap, Index lamphouse);
    /// The lamp that burns here is out, and no air moves over it.
    void goOut(Index lamphouse);
    /// Of a lamphouse that nobody looked at nothing was proved.
    void notIsolated(Incident incident, Index lamphouse);
    /// What the readings of a lamp prove that its steps could not: a reading that contradicted was put right,
    /// or the own marking was read later, from a picture.
    void weigh(Index lamp, const label::Agreement& agreement);
    /// An entry that had proved something does not count any more.
    void takeBack(const machine::Act& act);
    void begin(const machine::WaitStarts& starts);
    /// A breaker was moved that nobody can name: perhaps it feeds the fan over any lamp that cools.
    void askForFans();
    /// A step whose effect the entry tells no act of proves nothing: what it demands is asked all the same.
    void noteUntold(const SwapState& swap, const procedure::Step& step, const Did& did);
    void noteSkipped(const QStringList& gates);
    void act(const ActRecord& record, const QJsonObject& answers, const QStringList& gatesWaiting);
    /// By the design it may be, if it burned on arrival; and a review hears of it.
    [[nodiscard]] bool isLitOfUnknownHours(const machine::Act& made) const;
    /// Every name in the record is one that this visit knows.
    static bool isKnown(const machine::Act& made, const ActRecord& record);
    void happen(const machine::Event& event, Incident kind, const SwapId& swap);
    void open(Incident kind, const SwapId& swap);
    static Incident incidentOf(Happening what);
    /// An incident that a step itself meets by how it came out.
    void met(const ActRecord& record, const SwapId& swap);
    [[nodiscard]] bool isOffByAnswer(const machine::Act& lock) const;
    void tryAgain(Index group);
    void bookInAgain(Index lamp);
    void reopen(SwapState& swap, const StepId& step);
    /// A counter was read, or is read no more: whether the lamp that was found here may be lit again is
    /// judged by it.
    void judgeLife(Index lamphouse);
    /// The last look at this lamphouse that counts; nullptr where nobody looked.
    [[nodiscard]] const machine::Act* lastLook(Index lamphouse) const;
    /// A screen that is no longer read, or was read at the points of another convention, is to be measured
    /// again.
    void reopenUnreadScreens();
    void answerCounts(const SwapId& swapId);
    [[nodiscard]] bool isAtOrAboveWarranty(const SwapState& swap) const;
    static void noteOneCode(LampPaper& paper, const LampRead& read);
    /// What this step proves rests on a code that was read for two sources.
    static bool restsOnOneCode(machine::Effect effect, const LampPaper& paper);
    static bool contradictsMarking(const LampRead& read, const label::Agreement& agreement);
    static machine::Event wrongLamp(Index lamp);
    /// What is said with a done step of its new lamp; that it was booked in says that it was matched, by the
    /// rule of that day.
    void noteLamp(SwapState& swap, const procedure::Step& step, const Did& did);
    /// The controller was told another alert than the one that is booked in now: it is keyed in and read back
    /// again.
    /// @param before  what was booked in until now, if anything was.
    void keyInAgain(SwapState& swap, const std::optional<double>& before);
    /// The step that decides where the old lamp goes names the custody by what its choice means.
    void noteCustody(const SwapState& swap, const procedure::Step& step, const QJsonObject& answers);

    VisitState m_state;
    const Entry& m_entry;
    qint64 m_number;
};

} // namespace coldarc::visit
