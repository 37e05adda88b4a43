#pragma once

#include "core/catalogue/lamp_type.h"
#include "core/label/payload.h"

#include <QList>
#include <QString>

#include <cstdint>
#include <optional>

namespace coldarc::label {

/// What a bar code says of a lamp, by the rules of the catalogue.
struct LabelText {
    enum class Verdict : std::uint8_t {
        Read,        ///< by a rule of the catalogue
        Unsound,     ///< a GS1 text with a fault: misread, or misprinted
        Unknown,     ///< no rule of the catalogue fits; a supervisor can teach it, see `ruleFor`
        Contradicts, ///< rules fit that make different lamps of it, or a key that one reads stands twice in
                     ///< it
    };
    Verdict verdict = Verdict::Unknown;
    QString type;            ///< as the code has it, or the package code that it stands for; empty: not in it
    QString serial;          ///< as the code has it; empty: not in it
    QList<LampTypeId> types; ///< whose rules fit; for a serial alone they may be several
    QString lot;             ///< (10) of GS1, else empty
    std::optional<LabelDate> made;  ///< (11) of GS1
    std::optional<LabelDate> useBy; ///< (17) of GS1

    friend bool operator==(const LabelText&, const LabelText&) = default;
};

/// "read", "unsound", "unknown", "contradicts".
[[nodiscard]] QString wordOf(LabelText::Verdict verdict);

/// Reads a payload by the rules of all lamp types. A rule that names the type fits only where the text names
/// its own lamp type, by code or package code; so a type that the catalogue does not have stays Unknown and
/// is never taken for another.
[[nodiscard]] LabelText labelText(const Payload& payload, const QList<catalogue::LampType>& lampTypes);

/// The rule that reads this payload as a supervisor has pointed out in it. Nothing where it cannot be told
/// from the text: a part stands in it nowhere or more than once, its key says something else as well, the
/// text is unsound, or no shape can be made of a serial that stands alone.
/// @param type, serial  what stands for them in the payload; one of the two may be empty.
[[nodiscard]] std::optional<catalogue::LabelRule> ruleFor(const Payload& payload, const QString& type,
                                                          const QString& serial);

} // namespace coldarc::label
