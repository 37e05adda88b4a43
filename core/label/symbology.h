#pragma once

#include <QString>

#include <cstdint>
#include <optional>

namespace coldarc::label {

/// The kinds of bar code that a lamp's package is known to bear.
enum class Symbology : std::uint8_t {
    Code39,
    Code128,
    Ean, ///< EAN-13, EAN-8 and UPC
    DataMatrix,
    Qr,
    Other, ///< named by its reader, and none of these
};
/// "code-39", "code-128", "ean", "data-matrix", "qr", "other".
[[nodiscard]] QString wordOf(Symbology symbology);

/// What a reader says in front of a bar code's text: `]` and two characters.
/// Source: symbology identifiers of AIM as in the GS1 Syntax Engine's `scandata.c` (READ), Code 39 by a
/// public table of them (READ).
struct SymbologyId {
    Symbology symbology = Symbology::Other;
    QChar code;     ///< its letter
    QChar modifier; ///< what it says besides

    /// The text is GS1's: `]C1`, `]d2`, `]Q3`, `]e0`, `]E0`, `]E4`.
    [[nodiscard]] bool saysGs1() const;
    /// A check of the symbology's own has been made: every code that is known here but a plain Code 39. Of
    /// others it is not known, and so not made.
    [[nodiscard]] bool isChecked() const;
    friend bool operator==(const SymbologyId&, const SymbologyId&) = default;
};

/// A reader's text parted into what it says of the code and what the code holds.
struct ScanText {
    std::optional<SymbologyId> id; ///< nothing if the reader was not set up to say it
    QString text;
};
[[nodiscard]] ScanText scanText(const QString& scanned);

} // namespace coldarc::label
