#pragma once

#include "core/label/label_text.h"

namespace coldarc::label {

/// What several codes of one lamp say together: its box, the paper in it, its own marking.
struct Together {
    enum class Verdict : std::uint8_t {
        Agree,
        NothingRead, ///< no code, or none that the catalogue can read
        NotAllRead,  ///< one is unknown, unsound or contradicts itself; the others may agree
        TypesDiffer,
        SerialsDiffer,
    };
    Verdict verdict = Verdict::NothingRead;
    QList<LampTypeId> types; ///< all that are named by a code with a type in it; one if they agree
    QStringList serials; ///< all that were read, each once as it was read first; one or none if they agree

    friend bool operator==(const Together&, const Together&) = default;
};

/// A difference of types goes before one of serials, and both before a code that was not read.
[[nodiscard]] Together together(const QList<LabelText>& texts);

/// "agree", "nothing-read", "not-all-read", "types-differ", "serials-differ".
[[nodiscard]] QString wordOf(Together::Verdict verdict);
/// "read", "unsound", "unknown", "contradicts".
[[nodiscard]] QString wordOf(LabelText::Verdict verdict);

} // namespace coldarc::label
