#pragma once

#include <QString>

#include <cstdint>
#include <vector>

namespace coldarc::label {

/// A stretch of an original text, in UTF-16 units. Length 0 is a place between two characters.
struct Span {
    qsizetype at = 0;
    qsizetype length = 0;

    friend bool operator==(const Span&, const Span&) = default;
};

/// One stretch of two texts laid beside each other. `a` and `b` are places in the texts as they were given,
/// so that both can be shown as they stand on the label.
struct Segment {
    enum class Kind : std::uint8_t {
        Same,    ///< any length; dashes and spaces inside may differ
        Differs, ///< one character in each
        Swapped, ///< two neighbours changed places
        Missing, ///< one character that only `a` has
        Extra,   ///< one character that only `b` has
    };
    Kind kind = Kind::Same;
    Span a;
    Span b;
    /// Of Differs: the two are often taken for each other, see `lookAlike`.
    bool alike = false;

    friend bool operator==(const Segment&, const Segment&) = default;
};

/// How two texts differ after normalising.
struct Difference {
    /// In order; together they cover every character that normalising leaves.
    std::vector<Segment> segments;
    /// Fewest single edits (a character changed, missing, extra, or two neighbours swapped) between the two.
    int distance = 0;

    [[nodiscard]] bool isSame() const { return distance == 0; }
    friend bool operator==(const Difference&, const Difference&) = default;
};

/// Whether two different characters are often taken for each other on a label: 0 O Q D, 1 I L, 2 Z, 5 S, 6 G,
/// 8 B, U V, in either case. Source: common practice, no published measurement found. Only ever used to warn.
[[nodiscard]] bool lookAlike(QChar one, QChar other);

/// Lays two texts beside each other with the fewest edits; of several ways, one that explains most by
/// look-alikes and swaps. Two empty texts are the same. Source: optimal string alignment (restricted
/// Damerau-Levenshtein), each pair swapped at most once and not edited again. Cost: product of the two
/// lengths.
[[nodiscard]] Difference compareFields(const QString& a, const QString& b);

/// Fewest single edits between two normalised texts, as `compareFields` counts them.
[[nodiscard]] int editDistance(const QString& a, const QString& b);

} // namespace coldarc::label
