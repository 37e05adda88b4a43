#pragma once

#include "core/machine/reach.h"
#include "core/visit/decide.h"
#include "core/visit/evolve.h"
#include "core/visit/lamp_doubts.h"
#include "core/visit/next_step.h"
#include "core/visit/sheet_entry.h"

namespace coldarc::visit {

/// Judges one entry that is asked for, at one moment: the room's own, behind `decide`. Its parts are written
/// in judge_work.cpp (steps and acts), judge_lamp.cpp (what is read of a lamp), judge_light.cpp (light and
/// screen) and judge_people.cpp (who is here); decide.cpp holds the rest.
class Judge {
public:
    Judge(const VisitState& state, const PersonId& by, const Stamp& now)
        : m_state(seenAt(state, now))
        , m_by(by)
        , m_person(m_state.ground ? m_state.person(by) : machine::kNone)
        , m_now(now)
    {
    }

    Decision judge(const Body& asked);
    void operator()(const Opening& opening);
    void operator()(const RemovalTold&);
    void operator()(const Joined& joined);
    void operator()(const Did& asked);
    void operator()(const Acted& asked);
    void operator()(const Happened& happened);
    void operator()(const IncidentAnswered& answered);
    void operator()(const LampRead& read);
    void operator()(const SerialPassed& passed);
    void operator()(const LightRead& read);
    void operator()(const LightSet& set);
    void operator()(const ScreenRead& asked);
    void operator()(const ScreenConditions& asked);
    void operator()(const ScreenLimits& limits);
    void operator()(const FanAnswered& answered);
    void operator()(const LocksSeen& seen);
    void operator()(const Owed& owed);
    void operator()(const Withdrawn& withdrawn);
    void operator()(const Noted& noted);
    void operator()(const PictureKept&) {}
    void operator()(const Resumed&) {}

    void operator()(const SafeBegun&);
    void operator()(const PassedOn& passed);
    /// By whoever goes, or by whoever leads, of somebody who has gone already.
    void operator()(const Left& left);

    void operator()(const LockRemoved& removed);
    void operator()(const CustodyDecided& decided);
    void operator()(const Signed& signature);
    void operator()(const SiteSigned& signature);
    void operator()(const Closed& asked);
    void operator()(const Addendum& addendum);
    void operator()(const Unknown&) { no(Why::Kind::ReadOnly); }

private:
    using Effect = machine::Effect;
    using Index = machine::Index;

    const PersonId& by() const { return m_by; }
    /// Whoever has not been told yet that their lock was removed can still say what went wrong and do what
    /// makes the machine safer.
    static bool isOpenUntold(const Body& asked);
    /// Whoever is not of this visit, or left it, joins by their own press.
    [[nodiscard]] bool isOwnJoining(const Body& asked) const;
    /// Danger is told by whoever sees it, a remark is added by whoever was there, and one comes back oneself.
    /// That a lamp went out starts its wait with the fan: hearsay shortens nothing.
    bool isOpenToWhoLeft(const Body& asked) const;
    /// Not more lamphouses stand open than engineers stay, when this one goes.
    bool staysGuarded(Index leaves) const;
    /// Whoever is in a zone is not away; the last authorised lock comes off a machine that is left in order.
    void whyNotRemoved(Index owner, Index group);
    bool holdsLock(Index person) const;
    /// One more thing that has to be so first, each once.
    void demand(machine::Demand demand, bool holds, Index lamphouse);
    void no(Why::Kind kind) { m_refusal.whys.append(Why{kind, {}, {}, {}, machine::kNone, {}}); }
    void notYourTurn(const NextStep& next);
    bool isSomebodyInGear() const;
    /// One of its codes was read off another source of this lamp: a scanner held twice before one label says
    /// nothing about the second.
    bool isCodeOfAnother(const LampRead& read) const;
    /// One box proves one lamp: a serial that stands for the lamp of another swap is answered, or waits.
    void judgeSerials(const SwapState& swap, const Did& did);
    /// Once the box was matched, the entry does not go over to the lamp of another swap.
    void judgeEntry(const LampRead& read);
    void judgeStanding(const QList<label::Doubt>& doubts);
    bool isLeaderHere() const;
    /// Withdrawing takes a lock off the record: its owner does, and never after somebody was hurt. For an
    /// owner who is away there is LockRemoved.
    void judgeLockBack(qint64 entry);
    /// What is read of a lamp, put off or decided about it is said by whoever may lead or assist.
    void judgeLampWork();
    bool isDone(const SwapId& swap, const StepId& step) const;
    /// Every one of them is a knob of the swap's lamphouse.
    bool areAxes(const SwapState& swap, const QStringList& words) const;
    /// A look at the lamp that still settles needs what the first search needs.
    void judgeLight(const SwapState& swap, const procedure::Step& step);
    /// Under the new lamp the screen is measured as the step asks; on arrival nothing is known to be off.
    void judgeScreen(const SwapState& swap);
    /// Number of the entry that says something of this point of this sheet already; -1 where none does.
    qint64 entryOf(const ScreenRead& read, photometry::Place place) const;
    static bool isWithin(const std::optional<double>& value, double most);
    /// "Agrees" is not taken when the type chosen beside it is another one: that setting chooses the current.
    /// Nor when alert or hours are not what was booked in and keyed in.
    void judgeReadBack(const SwapState& swap, const procedure::Step& step, const machine::Act& act,
                       const procedure::Answers& answers);
    /// Absence is proved by whom the site lets, beside somebody who leads: it is no lamp work.
    void judgeAuthority(Effect effect, const PersonId& countersigner);
    /// Of somebody who may not lead a mistake here is seen by somebody who may, on their own key.
    void judgeSecond(const PersonId& countersigner);
    /// A breaker that looks off while a lamp on it burns is not the one that feeds it: it counts as on.
    void takeTheWorse(machine::Act& act) const;
    /// Point and lamp belong to the lamphouse that the act names, and only an act on a point names one: what
    /// is judged of one place is never done at another.
    bool isOfOnePlace(const machine::Act& act) const;
    /// Outside the procedure's order stand what is safe-ward, what makes safe, and what puts a doubted point
    /// right.
    bool isOpenTo(const machine::Act& act) const;
    /// The step that making safe, or putting a doubted point right, asks for now.
    bool isOnTheWay(const machine::Act& act) const;
    static bool isTheSame(const machine::SafeStep& step, const machine::Act& act);
    void judgeDemands(const machine::Act& act, const machine::Act& answered);
    /// Which reading of the lamp a capture of this step repeats; nothing for one of its own.
    static std::optional<label::Source> sourceOf(const procedure::Step& step,
                                                 const procedure::Capture& capture);
    /// What was typed of each source stands in entries of its own; the step's answers repeat it.
    QJsonObject withReadings(const SwapState& swap, const procedure::Step& step, QJsonObject answers) const;
    void judgeMatch(const SwapState& swap, const procedure::Step& step, machine::Act& act);
    /// A reason and an agreement that nobody asks for any more are not written down.
    void judgeBookIn(const SwapState& swap, Did& did);
    /// Counters and numbers are plain figures, or nobody reads later what was meant. What tells of danger is
    /// taken down as it is.
    void judgeFigures(const procedure::Step& step, const machine::Act& act,
                      const procedure::Answers& answers);
    /// No plain figure stands there.
    void unclear(const QString& capture, const QString& typed);
    void judgeAnswers(const SwapState& swap, const procedure::Step& step, const machine::Act& act, Did& did,
                      const procedure::Answers& answers);
    /// Whatever the wearer says of it: an item past its date is not put on.
    void judgeGearDates(const machine::Act& act);
    /// Gear is on only after it was gone through item by item, once per person and lamphouse and again when
    /// something of it changed; after that coming back in is one press. Making safe asks nobody to wait.
    void judgeGear(const machine::Act& act, const QJsonObject& answers);
    static bool provesSomething(Effect effect);

    VisitState m_state;
    PersonId m_by;
    Index m_person;
    Stamp m_now;
    Body m_body;
    Refusal m_refusal;
};

} // namespace coldarc::visit
