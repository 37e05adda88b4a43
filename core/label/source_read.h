#pragma once

#include "core/base/hash.h"
#include "core/label/agreement.h"
#include "core/label/label_text.h"

#include <QList>
#include <QString>
#include <QStringList>

#include <optional>

namespace coldarc::label {

/// What one source says of a lamp, and what that rests on.
struct SourceRead {
    Reading reading;
    /// What the reader said, exactly, each with its symbology identifier in front if it sent one. Empty: no
    /// code was read. One code may hold the type and another the serial.
    QStringList scanned{};
    std::optional<Hash> picture{}; ///< that shows it; nothing: none was kept
    /// Said by whoever looked: one of its codes stands on another source of the lamp as well.
    bool isAlsoElsewhere = false;

    friend bool operator==(const SourceRead&, const SourceRead&) = default;
};

/// What these sources say, for comparing: of one code that stands for two of them, both say so.
[[nodiscard]] QList<Reading> readingsOf(const QList<SourceRead>& reads);

/// The source after one more of its codes was read. What the code holds takes the place of what stood there;
/// what it does not hold is kept. Counts as Scanned only if all that it says comes off codes that check
/// themselves.
/// @param text  of `payload`, Read; anything else changes nothing.
[[nodiscard]] SourceRead withCode(const SourceRead& before, const QString& scanned, const Payload& payload,
                                  const LabelText& text);

/// The source after somebody typed in one of its fields: what its codes said stands no longer, its picture
/// does.
[[nodiscard]] SourceRead withTyped(const SourceRead& before, const QString& type, const QString& serial);

/// What to read next off the lamp and its package: the first of these that lacks its type or its serial, the
/// Entry never. Nothing if there is none.
/// @param order  in which they are asked.
[[nodiscard]] std::optional<Source> nextToRead(const QList<Source>& order, const QList<SourceRead>& reads);

/// Another source on which this very code was read. Held twice before one label, a scanner says nothing about
/// the second.
[[nodiscard]] std::optional<Source> alreadyReadOn(const QString& scanned, Source source,
                                                  const QList<SourceRead>& reads);

/// Whether the two sources were read by one code.
[[nodiscard]] bool isOneCodeOf(const SourceRead& one, const SourceRead& other);

/// Whether a reading that counts as Scanned rests on codes: at least one, and each of a symbology that checks
/// itself. Into the entry any code will do. Of other means it is true.
[[nodiscard]] bool restsOnItsCodes(const SourceRead& read);

/// Whether a reading that counts as Scanned says nothing but what one of its codes holds. Of other means, and
/// of the entry, it is true.
[[nodiscard]] bool saysWhatItsCodesSay(const SourceRead& read, const QList<catalogue::LampType>& lampTypes,
                                       int currentYear);

/// Whether type or serial of the closed box rests on one source alone that somebody typed: box or paper, and
/// no code that checks itself. One code that was read for both is one source. A second one is then asked for,
/// off the other; where that is torn or missing the visit goes on, and it is said.
[[nodiscard]] bool restsOnOneTyping(const QList<Reading>& readings);

} // namespace coldarc::label
