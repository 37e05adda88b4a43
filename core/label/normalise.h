#pragma once

#include <QString>

#include <vector>

namespace coldarc::label {

/// A text as two labels are compared: what printing and typing add is gone, what the maker meant is left.
///
/// Spaces, dashes of every kind and invisible characters are left out; full-width forms become plain ones; a
/// letter becomes its capital where that capital leads back to it. A letter is never made a digit, nor a
/// digit a letter, nor one letter another: `O` stays `O`, `0` stays `0`, and a dotless i does not become `I`.
struct NormalText {
    QString text;
    /// For each character of `text`, where it stood in the original; ascending.
    std::vector<qsizetype> at;
    /// How long the original was, in UTF-16 units.
    qsizetype originalLength = 0;
};

[[nodiscard]] NormalText normalText(const QString& original);

/// The text of `normalText` alone. Normalising twice changes nothing more.
[[nodiscard]] QString normalise(const QString& original);

} // namespace coldarc::label
