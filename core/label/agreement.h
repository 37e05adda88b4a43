#pragma once

#include "core/base/ids.h"
#include "core/catalogue/lamp_type.h"
#include "core/label/compare_fields.h"
#include "core/label/symbology.h"

#include <QList>
#include <QString>
#include <QStringList>

#include <cstdint>
#include <optional>

namespace coldarc::label {

/// Where a text about a lamp stands. Each is read on its own: nothing in this room carries the text of one
/// over to another.
enum class Source : std::uint8_t {
    OwnMarking, ///< on the lamp itself, read at unboxing
    Box,        ///< the label of the closed box
    Paper,      ///< the paper in the box
    Entry,      ///< what the engineer says was fitted
};

/// How a text came here.
enum class Means : std::uint8_t {
    Typed,
    Chosen,  ///< from a few that were shown; on the bench nothing is typed
    Scanned, ///< off a code that a misread would have broken, see `scanOf`
};

/// What one source says. An empty text is one that was not read.
struct Reading {
    Source source = Source::Entry;
    Means means = Means::Typed;
    QString type;
    QString serial;
    /// One of its codes was read off another source of the lamp as well, and somebody says that it stands on
    /// both: it may agree, and vouches for nothing that the other one does not.
    bool isSameCode = false;

    friend bool operator==(const Reading&, const Reading&) = default;
};

/// What a scan says of one source. It counts as Scanned only where the symbology checks itself; a Code 39
/// without its check, and what names no symbology or an unknown one, is no better than a text that was typed.
/// Into the entry every scan stays one, since there it is never the engineer's own word.
/// @param id  what the reader said of the code; nothing if it did not.
[[nodiscard]] Reading scanOf(Source source, const std::optional<SymbologyId>& id, const QString& type,
                             const QString& serial);

/// An engineer lets a serial pass that one source shows otherwise, or does not show. Holds for these two
/// texts only: when either is read anew and differs, it has to be passed anew.
struct SerialPass {
    Source source = Source::Box; ///< the one that does not agree; for an unread box and paper, either of them
    QString read;                ///< its serial at that time; empty if it was not read
    QString entry;               ///< the entry's serial at that time
    /// What stands behind it. One of the two is needed.
    enum class Evidence : std::uint8_t {
        Picture,
        TypedAgain, ///< a second time, off another source than the entry and the one passed
    };
    Evidence evidence = Evidence::Picture;
    Source typedFrom = Source::Entry; ///< of TypedAgain
    QString typedAgain;               ///< of TypedAgain; agrees with the entry
    QString reason;                   ///< never empty, nor spaces alone

    friend bool operator==(const SerialPass&, const SerialPass&) = default;
};

/// One field of one source beside the same field of the entry.
struct FieldVerdict {
    enum class State : std::uint8_t {
        NotRead,
        NoEntry, ///< read, but nothing was entered to compare it with
        Agrees,
        Differs,
        /// Of a type: the same lamp but for the letters behind its number. The dangerous case, since the eye
        /// takes one for the other and the current ranges differ.
        DiffersBySuffix,
        Passed, ///< of a serial: it differs, or was not read, and was passed with a reason; an exception
    };
    Source source = Source::Box;
    State state = State::NotRead;
    Difference difference;                 ///< `a` is the entry, `b` the source; empty where one was not read
    std::optional<LampTypeId> namedType{}; ///< of a type: what it names in the catalogue
    Means means = Means::Typed;            ///< how the text came here
    bool isSameCode = false;               ///< see Reading

    friend bool operator==(const FieldVerdict&, const FieldVerdict&) = default;
};

/// One thing that Matched waits for.
struct Wait {
    enum class Cause : std::uint8_t {
        EntryTypeMissing,
        EntryScanned, ///< the entry must be the engineer's own word, not a label's text once more
        TypeNotInCatalogue,
        TypeNamesSeveral, ///< more than one catalogue type bears this code
        ModelDoesNotTakeType,
        NotThePlannedType, ///< adaptor, steps and what is keyed in were planned for another type
        TypeUnread,        ///< `source` is Box when neither box nor paper was read
        TypeDiffers,
        TypeDiffersBySuffix,
        EntrySerialMissing,
        SerialUnread, ///< as TypeUnread
        SerialDiffers,
        /// Of the own marking: another type is one slip away from it, and nothing but one look at one
        /// character, or none, tells the two lamps apart. Its type was typed and its serial let pass; or both
        /// were read by a code that was read off the package. Answered by choosing between them, or by the
        /// scan of a code of its own that checks itself.
        SisterNotExcluded,
    };
    Cause cause = Cause::EntryTypeMissing;
    Source source = Source::Entry; ///< where the cause stands
    int step = 1;                  ///< the first of the two steps that waits for it

    /// Whether a SerialPass answers it. Never true of a type.
    [[nodiscard]] bool canBePassedWithReason() const
    {
        return cause == Cause::SerialUnread || cause == Cause::SerialDiffers;
    }
    friend bool operator==(const Wait&, const Wait&) = default;
};

/// A catalogue type near a text. To be shown and chosen by a person, never to be put in place of the text.
struct Suggestion {
    LampTypeId type;
    int distance = 0;        ///< edits, 1 or 2
    bool onlySuffix = false; ///< see differOnlyBySuffix

    friend bool operator==(const Suggestion&, const Suggestion&) = default;
};

/// A catalogue type that some source names.
struct NamedType {
    LampTypeId type;
    QList<Source> namedBy;
    double leastAmperes = 0;
    double mostAmperes = 0;
    bool modelTakes = false;
    double warrantyHours = 0; ///< h on the lamp

    friend bool operator==(const NamedType&, const NamedType&) = default;
};

/// What the readings prove of a lamp. A rule's answer: everything that waits is named.
struct Agreement {
    std::optional<LampTypeId> type; ///< what the entry names, if it is one catalogue type
    bool closedBoxProved = false; ///< box or paper agrees with the entry, the model takes it, nothing differs
    bool ownMarkingProved = false; ///< so does the lamp's own marking
    /// Box, Paper, OwnMarking, in this order.
    QList<FieldVerdict> types;
    QList<FieldVerdict> serials;
    QList<Wait> waits;
    /// For an entry that names no catalogue type; nearest first.
    QList<Suggestion> didYouMean;
    /// Every catalogue type that is named by any source, in the catalogue's order. More than one is a wrong
    /// type somewhere: `wrongTypeEffect` tells what follows.
    QList<NamedType> namedTypes;

    /// Of Matched: 0, 1 (box or paper) or 2 (own marking as well).
    [[nodiscard]] int proved() const { return closedBoxProved ? (ownMarkingProved ? 2 : 1) : 0; }
    friend bool operator==(const Agreement&, const Agreement&) = default;
};

/// Compares what was read of one lamp with what was entered.
///
/// @param readings   of each source the last one counts.
/// @param passes     serials that were passed; those that do not hold any more are left aside.
/// @param lampTypes  the whole catalogue.
/// @param taken      what the projector model takes.
/// @param planned    what the visit was opened for, if it was opened for one.
/// A type that differs anywhere waits, whatever is passed. The type of a box, and one that was scanned, may
/// be one of the type's package codes.
[[nodiscard]] Agreement agreement(const QList<Reading>& readings, const QList<SerialPass>& passes,
                                  const QList<catalogue::LampType>& lampTypes, const QList<LampTypeId>& taken,
                                  const std::optional<LampTypeId>& planned = std::nullopt);

/// Catalogue types whose code is 1 or 2 edits away from a text; nearest first, then in the catalogue's order.
[[nodiscard]] QList<Suggestion> suggestions(const QString& text, const QList<catalogue::LampType>& lampTypes);

/// The other types that one slip makes of this one: a character changed, missing, extra, or two swapped.
[[nodiscard]] QList<LampTypeId> sistersOf(const LampTypeId& type,
                                          const QList<catalogue::LampType>& lampTypes);

/// A serial that is known and near another. To be shown and chosen by a person.
struct SerialNear {
    QString serial;
    Difference difference; ///< `a` is the text, `b` this serial

    friend bool operator==(const SerialNear&, const SerialNear&) = default;
};

/// Known serials 1 or 2 edits away from a text that is none of them; nearest first, of equally near ones
/// those that look-alikes and swaps explain, then in their own order. None if the text is known or empty.
[[nodiscard]] QList<SerialNear> nearSerials(const QString& text, const QStringList& known);

/// Whether two type texts differ in their last one or two characters only: all before them is alike and holds
/// a run of two or more digits, a lamp's number. Where there is no such run it is false.
[[nodiscard]] bool differOnlyBySuffix(const QString& one, const QString& other);

/// Where the arc may come to stand outside a lamp's own current range when it is run as another type, and how
/// long it may be left in.
struct WrongTypeEffect {
    bool mayRunBelow = false;     ///< the other type's range begins lower
    bool mayRunAbove = false;     ///< the other type's range ends higher
    double hoursPastWarranty = 0; ///< h by which the other type's warranty hours are more; 0 if they are not

    friend bool operator==(const WrongTypeEffect&, const WrongTypeEffect&) = default;
};

/// @param keyed  the type that the projector's controller is told.
/// @param lamp   the type that really is in the seat.
[[nodiscard]] WrongTypeEffect wrongTypeEffect(const catalogue::LampType& keyed,
                                              const catalogue::LampType& lamp);

} // namespace coldarc::label
