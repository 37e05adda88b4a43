#pragma once

#include "core/base/table_text.h"
#include "core/photometry/sheet.h"
#include "core/photometry/typed.h"

#include <QIODevice>
#include <QString>

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace coldarc::photometry {

/// Why a meter's file was not taken at all.
enum class TableFault : std::uint8_t {
    Empty,        ///< no bytes, or nothing but blank lines
    TooLong,      ///< more than `kMostTableBytes`, or more lines than `kMostTableLines`
    NotText,      ///< bytes that no text has
    CannotBeRead, ///< the disk refused
};
/// A screen's readings are a few lines; a meter's whole memory is some thousand. More is another file.
inline constexpr qint64 kMostTableBytes = 1024 * 1024;
inline constexpr std::size_t kMostTableLines = 5000;

/// Reads a text file of at most `kMostTableBytes`: UTF-8, or UTF-16 with its mark, or else Latin-1. Never
/// holds more than that many bytes of the file, however long it is. Pre: the device is open for reading.
[[nodiscard]] tl::expected<QString, TableFault> readMeterText(QIODevice& device);

/// A meter's file, taken apart. Nothing in it is understood yet.
struct MeterTable {
    QChar separator = u',';
    std::vector<TableLine> lines; ///< at least one; the blank ones are left out
    qsizetype columns = 0;        ///< cells of its longest line
};
/// Takes a text apart at the separator given, or at the first of tab and semicolon that at least half of its
/// lines have, else at commas.
[[nodiscard]] tl::expected<MeterTable, TableFault> readMeterTable(const QString& text,
                                                                  std::optional<QChar> separator = {});

/// Which column holds what, counted from 0.
struct MeterColumns {
    std::optional<qsizetype> place; ///< a word of `wordOf(Place)`, any case; or a number, see `readMeterRows`
    std::optional<qsizetype> luminance;
    std::optional<qsizetype> x; ///< x and y go together, as do u' and v'; one pair at most
    std::optional<qsizetype> y;
    std::optional<qsizetype> u;
    std::optional<qsizetype> v;

    friend bool operator==(const MeterColumns&, const MeterColumns&) = default;
};
struct MeterMapping {
    std::size_t headerLines = 1; ///< so many lines of the table, from its first, hold no readings
    MeterColumns columns;
    LuminanceUnit unit = LuminanceUnit::CdPerM2;
    DecimalSign sign = DecimalSign::Point;

    friend bool operator==(const MeterMapping&, const MeterMapping&) = default;
};
/// A first guess, to be looked at by a person: the header is the first line that names a luminance or a
/// colour; the unit is foot-lamberts if the luminance's heading says so; the sign is a comma if a mapped cell
/// has one. Headings are known by the symbols of the CIE and by plain words. Columns that are not found stay
/// empty.
[[nodiscard]] MeterMapping guessMapping(const MeterTable& table);

/// One line understood.
struct MeterRow {
    int line = 0;               ///< of the text, from 1
    std::optional<Place> place; ///< nothing where no column holds one
    Reading reading;

    friend bool operator==(const MeterRow&, const MeterRow&) = default;
};

/// Why a line, or the mapping itself, was not taken.
struct BadMeterRow {
    enum class Why : std::uint8_t {
        NoLuminanceColumn, ///< of the mapping; `line` is 0
        HalfAColour,       ///< of the mapping: x without y, u' without v', or both pairs
        ColumnTwice,       ///< of the mapping: one column holds two things
        NoSuchColumn,      ///< of the mapping: `column` is not in the table
        NoRows,            ///< nothing below the header
        OpenQuote,
        TooFewCells,
        TooManyCells, ///< more than the header has: the decimal sign is the separator, most likely
        NoSuchPlace,  ///< not one of the convention
        PlaceTwice,   ///< a line further up has it
        Empty,
        NotANumber,
        Negative,
        TooLarge,
        NotAColour,
    };
    int line = 0;          ///< of the text, from 1
    qsizetype column = -1; ///< counted from 0; -1 where the line as a whole is meant
    Why why = Why::NoRows;
    QString cell; ///< as it stands there

    friend bool operator==(const BadMeterRow&, const BadMeterRow&) = default;
};

/// Understands every line below the header. A place may be a number where the convention is the tenth grid
/// and there are nine lines, or five (centre and corners): counted left to right, top to bottom, as ICDM
/// IDMS 8.1 numbers them (READ).
/// @return the rows in order, or every line that is bad with the first thing wrong with it; nothing is taken
/// then.
[[nodiscard]] tl::expected<std::vector<MeterRow>, std::vector<BadMeterRow>>
readMeterRows(const MeterTable& table, const MeterMapping& mapping, Convention convention);

/// Rows with a place each: those that name none get theirs by their order, where there are exactly as many of
/// them as one of the lists has places; the first such list counts. Nothing where none fits, or where some
/// rows name a place and others don't.
[[nodiscard]] std::optional<std::vector<MeterRow>> placed(std::vector<MeterRow> rows,
                                                          std::span<const std::vector<Place>> lists);

} // namespace coldarc::photometry
