#pragma once

#include "core/visit/next_step.h"

#include <tl/expected.hpp>

namespace coldarc::visit {

/// One thing that stands in the way of a command.
struct Why {
    enum class Kind {
        ReadOnly, ///< an entry of an unknown kind was met: this program cannot judge what follows
        NotOpened,
        Over,             ///< closed: only addenda
        UnknownName,      ///< a person, swap, step, lamp ... that this visit does not know
        NotAuthorised,    ///< may neither lead nor assist here
        NeedsSupervision, ///< a trainee, and nobody who may lead is here
        NeedsCountersign, ///< a trainee's dangerous step; the other one presses too
        NotOthers,     ///< at a stop with two people the one who did the steps does not answer, see mayAnswer
        NotYourTurn,   ///< another step comes first (`step`)
        MakingSafe,    ///< the swaps go no further
        AnswerMissing, ///< `capture`
        GearPastDate,  ///< `capture` is gear of which every item recorded as the person's is past its date
        AnswerBad,     ///< `capture` says that what the step should bring about is not so
        FigureUnclear, ///< `capture` holds no plain figure, as hoursFrom has it: `text`, as it was typed
        Demand,        ///< `demand` of the machine does not hold
        FanQuestion,   ///< somebody has to say first whether the fan ran on at `lamphouse`
        NotMatched,    ///< `label`: what was read of the lamp does not agree
        Threshold,     ///< at or above warranty it needs a reason and a countersign
        CannotHappen,  ///< the machine is not in a state in which this can have happened
        CannotWithdraw, ///< a physical act is not undone; or it is withdrawn already
        OthersLock,     ///< that a lock hangs withdraws its owner, and the entry by which it hangs now
        NothingAsked,   ///< an answer to a question that nobody asked
        MayNotFollow,   ///< the step is for tonight
        TextMissing,    ///< a reason or text that may not be empty
        NotPerformed,   ///< nobody who led has signed yet
        NotHere,        ///< whoever asks, or is asked for, left this visit: they join again first
        StillInZone,    ///< whoever leaves is out of every zone,
        StillInGear,    ///< has the gear off,
        StillLocked,    ///< and no lock of theirs hangs on a point or a box
        IsLead,         ///< whoever leads does not leave: somebody takes over first
        ScreenNotRead,  ///< the screen was measured, says the step, and its centre has no reading
        RemovalNotTold, ///< their lock was removed while they were away: they are told of it first
        CodeMissing,    ///< said to be scanned, and no code that checks itself stands behind it
        CodeOfAnother,  ///< this very code was read off another source of the lamp, and nobody says that it
                        ///< stands on both
        SerialOfThisVisit, ///< `text` stands for the lamp of the swap at `lamphouse`, and nobody says why it
                           ///< is this one's too
        NotOfVisit,        ///< whoever asks joins first, or is let in, see NotByThemselves
        NotByThemselves,   ///< whoever may neither lead nor supervise is let in by somebody of this visit
        HadNoPart,         ///< to a closed visit only those add who were of it
    };
    Kind kind = Kind::UnknownName;
    machine::Demand demand = machine::Demand::Found;
    StepId step;
    QString capture;
    machine::Index lamphouse = machine::kNone;
    std::optional<label::Wait> label;
    QString text{};
    friend bool operator==(const Why&, const Why&) = default;
};

/// No. Names everything that stands in the way, not only the first; nothing was written.
struct Refusal {
    QList<Why> whys;
    machine::Act act; ///< what was asked, for wording its demands
    machine::Unmet unmet;

    [[nodiscard]] bool has(Why::Kind kind) const;
    [[nodiscard]] bool waitsFor(machine::Demand demand) const
    {
        return unmet.test(static_cast<std::size_t>(demand));
    }
};

using Decision = tl::expected<Entry, Refusal>;

/// Whether `by` may do what is asked, and the entry that says so with everything that was decided on. Pure:
/// the entries so far, the question and the moment are all that it looks at.
///
/// @param asked  the body as the person asks for it. Of a Did the step, the answers and a countersign; the
/// act is
///               filled in here. Of an Opening everything.
/// What proves a gate is refused until its demands hold. What is safe-ward is never refused for a gate; the
/// entry names the gates that waited. What tells of danger (it started, voltage found, burst, a count that
/// differs) is always taken down; beside an effect that cannot come out so it is refused.
[[nodiscard]] Decision decide(const VisitState& state, const PersonId& by, const Body& asked,
                              const Stamp& now);

/// How the visit would end if it were closed as it stands: a word of Closed.
[[nodiscard]] QString endWord(const VisitState& state);

} // namespace coldarc::visit
