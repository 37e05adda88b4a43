#pragma once

#include "ui/visit/turn_of_bench.h"
#include "ui/visit/visit_desk.h"

#include <QHash>
#include <QSet>

namespace coldarc::ui {

/// A visit as seen now from one of its swaps, and whose turn it is there. It can't be copied: the turn points
/// into the state.
struct BenchMoment {
    /// @param looksAgain  whoever presses wants to see whether what somebody else held is free by now.
    BenchMoment(const VisitDesk& desk, int swapIndex, bool looksAgain = false);
    BenchMoment(const BenchMoment&) = delete;
    BenchMoment& operator=(const BenchMoment&) = delete;

    const VisitDesk& desk;
    visit::VisitState state;
    Stamp now;
    machine::Index person = machine::kNone; ///< whoever presses
    BenchTurn turn;
    int index = 0; ///< of the swap in hand

    [[nodiscard]] const visit::SwapState& swap() const { return state.swaps[index]; }
    /// Whoever presses; the lead where that is nobody of this visit.
    [[nodiscard]] machine::Index who() const { return person != machine::kNone ? person : state.lead; }
    [[nodiscard]] QString key() const { return turn.keyOf(state, swap()); }
    /// Names the gear or the lock of one person, which comes up in place of the turn.
    [[nodiscard]] QString ownKey(const PersonId& person, machine::Effect effect) const;
    [[nodiscard]] procedure::Phase phase() const;
    /// Who answers a stop where whoever presses does not, since they did its steps; kNone: they may.
    [[nodiscard]] machine::Index answersStop() const;
    /// The next swap that still has steps while this one has come to its signing, by its place in the list;
    /// -1: none, or nobody waits for one since somebody is hurt.
    [[nodiscard]] int swapBeforeSigning() const;
};

/// What the bench keeps in mind between two presses. What it has to say of a press goes when another turn
/// comes up; answers that were not told wait until theirs comes back.
struct BenchMind {
    QString key;                                 ///< of the turn that is up
    QHash<QString, QList<CaptureAnswer>> drafts; ///< answers not yet told, by turn
    QList<CaptureAnswer> shown;                  ///< those that the card was brought up with
    QSet<QString> written;                       ///< captures that ask for a box in place of choices
    PersonId ownOf; ///< somebody whose gear or lock is gone through now, in place of the turn
    machine::Effect own = machine::Effect::GearOn; ///< which of the two
    bool looksAgain = false;                       ///< at what somebody else held, in place of the turn
    PersonId countersigned;                        ///< who has agreed to what is pressed next
    QStringList said;                              ///< why the last press came to nothing, or what it brought
    QHash<QString, QString> badAnswers;            ///< what is wrong with an answer, by capture

    [[nodiscard]] QList<CaptureAnswer> draft() const { return drafts.value(key); }
    /// Another turn comes up.
    void bringUp(const QString& turnKey);
};

/// The key of the swap at this place in the list; empty beyond the last one.
[[nodiscard]] QString swapKey(qsizetype index);
/// The key of the press of another person at this place in the list; empty beyond the last one.
[[nodiscard]] QString actKey(qsizetype index);

/// The place of a step among those of its swap, from 1.
[[nodiscard]] int numberOf(const visit::SwapState& swap, const procedure::Step& step);

/// Whether the step is done on a page of its own.
[[nodiscard]] bool hasPage(machine::Effect effect);
/// Whether that is the light page.
[[nodiscard]] bool isOnLightPage(machine::Effect effect);
/// Whether it is the screen sheet.
[[nodiscard]] bool isOnSheetPage(machine::Effect effect);
/// Whether the sheet can be filled at this step too, though it is done at the bench: the light of the lamp
/// that was found.
[[nodiscard]] bool offersSheet(const procedure::Step& step);

} // namespace coldarc::ui
