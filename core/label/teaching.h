#pragma once

#include "core/catalogue/catalogue.h"
#include "core/label/label_text.h"

#include <QList>
#include <QString>
#include <QStringList>

#include <cstdint>
#include <optional>

namespace coldarc::label {

/// What somebody points out in a code that no rule reads.
struct Lesson {
    QString scanned;     ///< with the symbology identifier in front, if the reader said one
    QString type;        ///< the part of it that is the type; empty: it is not in it
    QString serial;      ///< the part of it that is the serial; empty: it is not in it
    LampTypeId lampType; ///< whose code it is
};

/// A part of a code that may be marked.
struct MarkablePart {
    QString name; ///< its identifier or key; empty in a plain text
    QString value;

    friend bool operator==(const MarkablePart&, const MarkablePart&) = default;
};

/// The parts of a code, in their order, none twice: the values of GS1 and of keys; of a plain text the whole,
/// and what blanks, signs and at last dashes part.
[[nodiscard]] QList<MarkablePart> markableParts(const Payload& payload);

/// A rule that was taught for one lamp type.
struct Teaching {
    LampTypeId lampType;
    catalogue::LabelRule rule;
    QString packageCode; ///< stands for the type in this code and is new; empty: the rule names no new one
    QString example;     ///< the code that it was taught by, as it was scanned

    friend bool operator==(const Teaching&, const Teaching&) = default;
};

/// Why a lesson is not taken.
enum class TeachFault : std::uint8_t {
    NothingMarked,
    UnknownLampType,
    Unsound,           ///< a GS1 text with a fault
    ReadAlready,       ///< some rule reads it, or several do and contradict each other
    NotClear,          ///< see `ruleFor`
    NotTheTypeField,   ///< the standard says that this identifier is something else, or another one the type
    NotTheSerialField, ///< likewise of the serial
    TypeTooShort,      ///< a new code of fewer than kLeastCode characters would stand for too much
    SerialTooShort,    ///< likewise a serial that stands without a type
    CodeOfAnother,     ///< another lamp type is named by this text
    SameOnAnother, ///< a new code that stands in a code on record of another lamp type too, in the same place
    NearAnother,   ///< one or two characters away from a lamp type's code: a misprint, or its sister
    LooksLikeAType,  ///< serials of this look would be told from no type's code
    ChangesAReading, ///< a code that is on record would be read otherwise than it was
};
inline constexpr int kTeachFaults = static_cast<int>(TeachFault::ChangesAReading) + 1;

/// The fewest characters of a new code, and of a serial that stands alone. Figure of the house.
inline constexpr qsizetype kLeastCode = 4;

/// How a code that is on record is read without the new rule and with it.
struct Reread {
    QString scanned;
    LabelText before;
    LabelText after;

    [[nodiscard]] bool isChanged() const { return before != after; }
    friend bool operator==(const Reread&, const Reread&) = default;
};

/// What becomes of a lesson.
struct TeachAnswer {
    std::optional<Teaching> teaching; ///< nothing while there is a fault
    QList<TeachFault> faults;         ///< all of them
    /// The lesson's own code first, then those on record; without a rule none.
    QList<Reread> rereads;

    friend bool operator==(const TeachAnswer&, const TeachAnswer&) = default;
};

/// Makes a rule of a lesson, or says everything that speaks against it. No rule overrides a standard: the
/// identifiers of GS1 that say type and serial stay those, and what the standard calls something else is
/// neither. No rule makes two types read as one: a text that names another type, or nearly does, stands for
/// none, as does one that the codes on record show to be the maker's or the batch's, since it is the same on
/// another type; and what was read before has to be read in the same way.
/// @param known      codes that are on record, as they were scanned.
/// @param lampTypes  with the rules that were taught before.
[[nodiscard]] TeachAnswer teach(const Lesson& lesson, const QStringList& known,
                                const QList<catalogue::LampType>& lampTypes, int currentYear);

/// Whether a rule that was taught can still be used beside these types: another catalogue may have come
/// since.
[[nodiscard]] bool stillHolds(const Teaching& teaching, const QList<catalogue::LampType>& lampTypes);

/// Whether these types, which hold what was taught, read by this rule: one that does not hold beside them was
/// left out.
[[nodiscard]] bool isInUse(const Teaching& teaching, const QList<catalogue::LampType>& lampTypes);

/// The catalogue with what was taught; what does not hold any more is left out. The documents of the types
/// that are concerned hold the rules too, so that a visit which is opened by them keeps what it reads by.
/// @param teachings  oldest first.
[[nodiscard]] catalogue::Catalogue withTaught(const catalogue::Catalogue& catalogue,
                                              const QList<Teaching>& teachings);

} // namespace coldarc::label
