#pragma once

#include "core/base/ids.h"

#include <QString>
#include <QStringList>

#include <cstdint>
#include <optional>

namespace coldarc::review {

/// Something of a visit that a supervisor looks at before anything else. What it is about stands as numbers,
/// ids and words of other rooms; the sentence is somebody else's.
struct Exception {
    /// In the order in which they are looked at. Behind each what its facts mean; those not named are empty.
    enum class Kind : std::uint8_t {
        SignatureBad,            ///< does not verify over this entry; person, words: its meaning
        GateSkipped,             ///< words: the gates that waited and let nobody do this; "clear": see
                                 ///< core/visit/gates_waiting.h
        IncidentMet,             ///< words: of visit::Incident
        SafeWardWithGateWaiting, ///< words: the gates that waited
        LockRemoved,             ///< person: whose lock it was
        WorkUnsigned, ///< nobody's key signed here; person: whose, words: its meaning, other: the entry whose
                      ///< signature covers it all the same, -1: none does; where that is not theirs, words:
                      ///< the id of whoever signed there, empty: an older form names nobody
        ClockWentBack, ///< figure: s
        SignedBefore, ///< a signature is dated long before its entry; person, words: its meaning, figure: min
        NotAsLeft,    ///< after a gap that nobody witnessed, or nobody could say
        WaitCutByIncident,
        LabelsDisagreed,            ///< words: of label::Source, what was read then
        SerialPassed,               ///< words: of label::Source, the one that does not agree
        ThresholdAtOrAboveWarranty, ///< figure: h as set; against: h under warranty, where the type is known
        LampDoubted,                ///< words: of label::Doubt
        OnOneCode,
        OnOneTyping,
        CounterBelowRecord,  ///< figure: h read; against: h on record for the lamp found
        LightBelowTolerance, ///< words: of photometry::Quantity and, of one point, photometry::Place; figure
                             ///< and against in the quantity's unit; entry: the last reading of the sheet
        LitOfUnknownHours,
        NeighbourLeftDark,  ///< entry: the step behind which it stayed out
        MadeSafe,           ///< words: how it ended
        WrongAnswerAtAStop, ///< words: steps that it opened again
        StepOwed,           ///< words: the step
        EntryWithdrawn,     ///< other: the entry
        ReadingCorrected,   ///< other: the entry; figure: as it stands now; against: as it was typed then; of
                            ///< the screen in cd/m2, words: of photometry::Place; else as the meter showed
        OtherClockBehind,   ///< figure: s
        GapNobodyWitnessed, ///< figure: s on the wall clock, which proves nothing
        TookLong,    ///< figure: min; against: min that its procedures foresee, one swap after the other
        TookLittle,  ///< the same
        LateSignOff, ///< figure: min between the last work and signing for it; where words names a meaning:
                     ///< between the entry and the signature of person's key
        Addendum,
    };
    Kind kind = Kind::IncidentMet;
    qint64 entry = 0;  ///< that it stands in, counted from 0
    qint64 other = -1; ///< another entry that it has to do with
    SwapId swap{};     ///< empty: of no swap alone
    PersonId person{};
    QStringList words{};
    std::optional<double> figure{};
    std::optional<double> against{};

    friend bool operator==(const Exception&, const Exception&) = default;
};
inline constexpr int kExceptionKinds = static_cast<int>(Exception::Kind::Addendum) + 1;

/// "incident-met", "made-safe", ...: lower case with dashes.
[[nodiscard]] QString wordOf(Exception::Kind kind);
[[nodiscard]] std::optional<Exception::Kind> kindFromWord(const QString& word);

/// How much it weighs, 1 to 100. House figures: somebody could have been hurt, or a proof is not what it
/// says: from 70; the lamp or its data may be wrong: from 40; the rest is for the picture.
[[nodiscard]] int weightOf(Exception::Kind kind);

} // namespace coldarc::review
