#pragma once

#include <QList>
#include <QString>
#include <QStringView>

#include <chrono>
#include <cstdint>
#include <optional>

namespace coldarc::label {

/// What parts two elements where the first has no length of its own: FNC1, as a reader sends it (ASCII 29).
/// Source: GSCN 16-477, READ.
inline constexpr char16_t kGroupSeparator = 0x1D;

/// One application identifier with its value, "10" and "LOT7/A".
struct Element {
    QString ai;
    QString value;

    friend bool operator==(const Element&, const Element&) = default;
};

/// What is wrong, or odd, with a GS1 text.
enum class Flaw : std::uint8_t {
    Empty,       ///< nothing in it
    NotAllotted, ///< no identifier of GS1 begins so; the rest cannot be parted and is left unread
    Length,      ///< shorter or longer than its identifier allows
    Characters,  ///< not a digit where digits are asked for, or outside GS1's character set 82
    CheckDigit,  ///< a number that was misread or mistyped
    Date,        ///< no such day
    Doubled,     ///< the same identifier twice with different values
    NotALink,    ///< no GS1 Digital Link
    UnknownAi,   ///< odd only: kept as it is, parted by the next separator
    LoneSerial,  ///< odd only: (21) without an item it belongs to
};
/// Whether a text with this flaw is still read.
[[nodiscard]] constexpr bool isOddOnly(Flaw flaw)
{
    return flaw == Flaw::UnknownAi || flaw == Flaw::LoneSerial;
}

struct Remark {
    Flaw flaw = Flaw::Empty;
    QString ai; ///< where; empty for the text as a whole

    friend bool operator==(const Remark&, const Remark&) = default;
};

/// Elements in the order in which they stand, and everything that is wrong with them.
struct ElementString {
    QList<Element> elements;
    QList<Remark> remarks;

    /// Whether all of it was read and nothing is more than odd. One that is not proves nothing.
    [[nodiscard]] bool isSound() const;
    /// Empty if there is no such identifier.
    [[nodiscard]] QString value(QStringView ai) const;

    friend bool operator==(const ElementString&, const ElementString&) = default;
};

/// Reads what a bar code holds after its symbology identifier: identifiers and values run together, each
/// value without a length of its own ended by kGroupSeparator or the end. A separator at the beginning, at
/// the end and after a value with a length of its own is let pass.
/// @param currentYear  of the century rule, see `gs1Date`.
/// Source: lengths, kinds and check digits by the GS1 Syntax Dictionary; identifiers whose values have a
/// length of their own by `fixedAIprefixLengths` of the GS1 Syntax Engine, both READ.
[[nodiscard]] ElementString readElementString(const QString& text, int currentYear);

/// Reads the line for people, `(01)09506000134352(21)AB12`. A bracket inside a value cannot be told from one
/// that begins an identifier unless no identifier stands in it; such a value is read as it is.
[[nodiscard]] ElementString readBracketedElements(const QString& text, int currentYear);

/// Reads a GS1 Digital Link URI, uncompressed. It is parsed, never fetched. Flaw::NotALink for anything else,
/// and for a link whose qualifiers stand in the wrong order or among its queries.
/// Source: rules of the tests of the GS1 Syntax Engine (`dl.c`), READ; the standard's own text was not read.
[[nodiscard]] ElementString readDigitalLink(const QString& uri, int currentYear);

/// The digit that completes these digits: weights 3 and 1 from the right, sum to a multiple of ten. Nothing
/// unless there is at least one digit and nothing else. Source: GS1 `lint_csum.c`, READ.
[[nodiscard]] std::optional<int> checkDigit(QStringView digits);
/// Whether the last of at least two digits is the check digit of those before it.
[[nodiscard]] bool hasRightCheckDigit(QStringView digits);

/// A day of a label. Day 00 stands for a month alone.
struct LabelDate {
    int year = 0;
    int month = 0;
    std::optional<int> day;

    /// The day itself, or the last one of the month. Source: GS1 General Specifications, from memory.
    [[nodiscard]] std::chrono::sys_days lastDay() const;
    /// The day itself, or the first one of the month.
    [[nodiscard]] std::chrono::sys_days firstDay() const;
    friend bool operator==(const LabelDate&, const LabelDate&) = default;
};

/// Reads YYMMDD. The century is the one that brings the year within 49 years before and 50 years after the
/// current one. Nothing if there is no such day. Source: GS1 `lint_yymmd0.c`, READ.
[[nodiscard]] std::optional<LabelDate> gs1Date(QStringView sixDigits, int currentYear);

} // namespace coldarc::label
