#pragma once

#include "core/label/label_text.h"

namespace coldarc::label {

/// What several codes of one lamp say together: its box, the paper in it, its own marking.
struct Together {
    enum class Verdict : std::uint8_t {
        Agree,
        NothingRead, ///< no code, or none that the catalogue can read
        NotAllRead,  ///< one is unknown, unsound, contradicts itself or was not found; the others may agree
        TypesDiffer,
        SerialsDiffer,
    };
    Verdict verdict = Verdict::NothingRead;
    QList<LampTypeId> types; ///< all that are named by a code with a type in it; one if they agree
    QStringList serials; ///< all that were read, each once as it was read first; one or none if they agree

    friend bool operator==(const Together&, const Together&) = default;
};

/// "agree", "nothing-read", "not-all-read", "types-differ", "serials-differ".
[[nodiscard]] QString wordOf(Together::Verdict verdict);

/// A difference of types goes before one of serials, and both before a code that was not read.
/// @param withoutCode  how many pictures were looked at in which no code was found: what stands on those is
///                     not known, so they are no agreement.
[[nodiscard]] Together together(const QList<LabelText>& texts, qsizetype withoutCode = 0);

} // namespace coldarc::label
