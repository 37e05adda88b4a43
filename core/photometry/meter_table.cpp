#include "core/photometry/meter_table.h"

#include <QSet>
#include <QStringDecoder>

#include <algorithm>
#include <array>
#include <utility>
#include <variant>

using namespace Qt::StringLiterals;

namespace coldarc::photometry {
namespace {

using Why = BadMeterRow::Why;
using BadRows = std::vector<BadMeterRow>;

// ---- Text
// ---------------------------------------------------------------------------------------------------

QString decoded(const QByteArray& bytes)
{
    const auto encoding = QStringConverter::encodingForData(bytes).value_or(QStringConverter::Utf8);
    QStringDecoder decoder(encoding);
    const QString text = decoder.decode(bytes);
    return decoder.hasError() ? QString::fromLatin1(bytes) : text;
}

bool isText(const QString& text)
{
    return std::ranges::none_of(text, [](QChar one) {
        return one < u' ' && one != u'\t' && one != u'\n' && one != u'\r' && one != u'\f';
    });
}

QChar likelySeparator(const QString& text)
{
    const QStringList lines = text.split(u'\n', Qt::SkipEmptyParts);
    for (const QChar separator : {u'\t', u';'}) {
        const auto having =
            std::ranges::count_if(lines, [&](const QString& l) { return l.contains(separator); });
        if (having > 0 && 2 * having >= lines.size())
            return separator;
    }
    return u',';
}

// ---- Guessing
// -----------------------------------------------------------------------------------------------

/// x and y are a colour, Y is a luminance: the letters' case matters.
bool isLuminance(const QString& heading)
{
    static const QSet<QString> kSymbols{u"Y"_s, u"L"_s, u"Lv"_s, u"fL"_s, u"cd/m2"_s, u"cd/m²"_s};
    const QString word = heading.toCaseFolded();
    return kSymbols.contains(heading) || word.contains(u"luminance"_s) || word.contains(u"cd/m"_s) ||
           word.contains(u"lambert"_s);
}

bool isFootLamberts(const QString& heading)
{
    return heading.contains(u"fL"_s) || heading.toCaseFolded().contains(u"lambert"_s);
}

bool isPlace(const QString& heading)
{
    static const QSet<QString> kWords{u"point"_s, u"place"_s, u"position"_s, u"location"_s};
    return kWords.contains(heading.toCaseFolded());
}

template<char16_t Letter>
bool isCoordinate(const QString& heading)
{
    const bool isPrimed = Letter == u'u' || Letter == u'v';
    const QString letter = QChar(Letter);
    if (!isPrimed)
        return heading == letter || heading == u"CIE "_s + letter;
    return heading == letter + u'\'' || heading == letter + u'\u2032';
}

using Column = std::optional<qsizetype> MeterColumns::*;
struct Heading {
    Column column;
    bool (*isThis)(const QString&);
};
constexpr std::array<Heading, 6> kHeadings{{{&MeterColumns::place, isPlace},
                                            {&MeterColumns::luminance, isLuminance},
                                            {&MeterColumns::x, isCoordinate<u'x'>},
                                            {&MeterColumns::y, isCoordinate<u'y'>},
                                            {&MeterColumns::u, isCoordinate<u'u'>},
                                            {&MeterColumns::v, isCoordinate<u'v'>}}};

MeterColumns columnsNamedIn(const QStringList& cells)
{
    MeterColumns columns;
    for (qsizetype at = 0; at < cells.size(); ++at) {
        for (const Heading& heading : kHeadings) {
            if (!(columns.*heading.column) && heading.isThis(cells.at(at))) {
                columns.*heading.column = at;
                break;
            }
        }
    }
    if (columns.x && columns.y)
        columns.u = columns.v = std::nullopt;
    return columns;
}

bool hasComma(const MeterTable& table, const MeterMapping& mapping)
{
    for (std::size_t i = mapping.headerLines; i < table.lines.size(); ++i) {
        for (const Heading& heading : kHeadings) {
            const auto at = mapping.columns.*heading.column;
            const bool isNumber = heading.column != &MeterColumns::place;
            if (isNumber && at && table.lines[i].cells.value(*at).contains(u','))
                return true;
        }
    }
    return false;
}

// ---- Understanding
// ------------------------------------------------------------------------------------------

std::vector<std::pair<Column, qsizetype>> mapped(const MeterColumns& columns)
{
    std::vector<std::pair<Column, qsizetype>> list;
    for (const Heading& heading : kHeadings) {
        if (const auto at = columns.*heading.column)
            list.emplace_back(heading.column, *at);
    }
    return list;
}

BadRows faultsOf(const MeterColumns& columns, qsizetype width)
{
    BadRows bad;
    if (!columns.luminance)
        bad.push_back({0, -1, Why::NoLuminanceColumn, {}});
    const bool hasXy = columns.x || columns.y;
    const bool hasUv = columns.u || columns.v;
    if (columns.x.has_value() != columns.y.has_value() || columns.u.has_value() != columns.v.has_value() ||
        (hasXy && hasUv))
        bad.push_back({0, -1, Why::HalfAColour, {}});
    QSet<qsizetype> seen;
    for (const auto& [column, at] : mapped(columns)) {
        if (at < 0 || at >= width)
            bad.push_back({0, at, Why::NoSuchColumn, {}});
        else if (seen.contains(at))
            bad.push_back({0, at, Why::ColumnTwice, {}});
        seen.insert(at);
    }
    return bad;
}

Why whyOf(TypedFault fault)
{
    switch (fault) {
    case TypedFault::Empty:
        return Why::Empty;
    case TypedFault::NotANumber:
        return Why::NotANumber;
    case TypedFault::Negative:
        return Why::Negative;
    case TypedFault::TooLarge:
        return Why::TooLarge;
    case TypedFault::NotAColour:
        break;
    }
    return Why::NotAColour;
}

/// The places that a point's number stands for. Only the tenth grid numbers its points, and nine or five of
/// them differently; any other count leaves the numbers without a meaning.
std::vector<Place> numberedPlaces(Convention convention, std::size_t rows)
{
    if (convention != Convention::TenthGrid)
        return {};
    if (rows == kCross.size())
        return {kCross.begin(), kCross.end()};
    return rows == kPlaces.size() ? std::vector<Place>(kPlaces.begin(), kPlaces.end()) : std::vector<Place>();
}

/// Reads the lines of one table by one mapping.
class RowReader {
public:
    RowReader(const MeterTable& table, const MeterMapping& mapping, Convention convention)
        : m_mapping(mapping)
        , m_convention(convention)
    {
        const std::size_t header = mapping.headerLines;
        m_width =
            header > 0 && header <= table.lines.size() ? table.lines[header - 1].cells.size() : table.columns;
        for (const auto& [column, at] : mapped(mapping.columns))
            m_needed = std::max(m_needed, at + 1);
        m_numbered = numberedPlaces(convention, table.lines.size() - header);
    }

    std::variant<MeterRow, BadMeterRow> read(const TableLine& line)
    {
        if (line.isOpenQuote)
            return BadMeterRow{line.number, -1, Why::OpenQuote, {}};
        if (line.cells.size() < m_needed)
            return BadMeterRow{line.number, -1, Why::TooFewCells, {}};
        if (line.cells.size() > m_width)
            return BadMeterRow{line.number, -1, Why::TooManyCells, {}};
        m_line = &line;
        m_bad.reset();
        const auto place = readPlace();
        const auto luminance = readLuminance();
        const auto colour = readColour();
        if (m_bad)
            return *m_bad;
        if (place)
            m_seen.insert(static_cast<int>(*place));
        return MeterRow{line.number, place, {*luminance, m_mapping.unit, colour}};
    }

private:
    void complain(qsizetype column, Why why)
    {
        if (!m_bad)
            m_bad = BadMeterRow{m_line->number, column, why, m_line->cells.value(column)};
    }

    std::optional<Place> placeIn(const QString& cell) const
    {
        bool isNumber = false;
        const uint number = cell.toUInt(&isNumber);
        if (isNumber)
            return number >= 1 && number <= m_numbered.size() ? std::optional(m_numbered[number - 1])
                                                              : std::nullopt;
        const auto place = placeFromWord(cell.toCaseFolded().replace(u' ', u'-'));
        return place && Point::at(m_convention, *place) ? place : std::nullopt;
    }

    std::optional<Place> readPlace()
    {
        if (!m_mapping.columns.place)
            return std::nullopt;
        const qsizetype column = *m_mapping.columns.place;
        const auto place = placeIn(m_line->cells.at(column));
        if (!place)
            complain(column, Why::NoSuchPlace);
        else if (m_seen.contains(static_cast<int>(*place)))
            complain(column, Why::PlaceTwice);
        return place;
    }

    std::optional<double> readNumber(qsizetype column)
    {
        const auto number = numberFrom(m_line->cells.at(column), m_mapping.sign);
        if (number)
            return *number;
        complain(column, whyOf(number.error()));
        return std::nullopt;
    }

    std::optional<Luminance> readLuminance()
    {
        const qsizetype column = *m_mapping.columns.luminance;
        const auto number = readNumber(column);
        if (!number)
            return std::nullopt;
        const auto luminance = Luminance::from(*number, m_mapping.unit);
        if (!luminance)
            complain(column, *number < 0 ? Why::Negative : Why::TooLarge);
        return luminance;
    }

    std::optional<Chromaticity> readColour()
    {
        const MeterColumns& columns = m_mapping.columns;
        if (columns.x)
            return readPair(*columns.x, *columns.y, &Chromaticity::fromXy);
        if (columns.u)
            return readPair(*columns.u, *columns.v, &Chromaticity::fromUv);
        return std::nullopt;
    }

    std::optional<Chromaticity> readPair(qsizetype first, qsizetype second,
                                         std::optional<Chromaticity> (*make)(double, double))
    {
        const auto a = readNumber(first);
        const auto b = readNumber(second);
        const auto colour = a && b ? make(*a, *b) : std::nullopt;
        if (!colour)
            complain(first, Why::NotAColour);
        return colour;
    }

    const MeterMapping& m_mapping;
    Convention m_convention;
    qsizetype m_width = 0;
    qsizetype m_needed = 0;
    std::vector<Place> m_numbered;
    const TableLine* m_line = nullptr;
    std::optional<BadMeterRow> m_bad;
    QSet<int> m_seen;
};

} // namespace

tl::expected<QString, TableFault> readMeterText(QIODevice& device)
{
    const QByteArray bytes = device.read(kMostTableBytes + 1);
    if (bytes.size() > kMostTableBytes)
        return tl::unexpected(TableFault::TooLong);
    if (bytes.isEmpty())
        return tl::unexpected(device.atEnd() ? TableFault::Empty : TableFault::CannotBeRead);
    const QString text = withPlainLineEnds(decoded(bytes));
    if (!isText(text))
        return tl::unexpected(TableFault::NotText);
    return text;
}

tl::expected<MeterTable, TableFault> readMeterTable(const QString& text, std::optional<QChar> separator)
{
    const QString plain = withPlainLineEnds(text);
    if (plain.size() > kMostTableBytes || plain.count(u'\n') > static_cast<qsizetype>(kMostTableLines))
        return tl::unexpected(TableFault::TooLong);
    MeterTable table;
    table.separator = separator.value_or(likelySeparator(plain));
    table.lines = tableLines(plain, table.separator);
    if (table.lines.empty())
        return tl::unexpected(TableFault::Empty);
    for (const TableLine& line : table.lines)
        table.columns = std::max(table.columns, line.cells.size());
    return table;
}

MeterMapping guessMapping(const MeterTable& table)
{
    MeterMapping mapping;
    for (std::size_t i = 0; i < table.lines.size(); ++i) {
        const QStringList& cells = table.lines[i].cells;
        const MeterColumns columns = columnsNamedIn(cells);
        if (!columns.luminance && !columns.x && !columns.u)
            continue;
        mapping.headerLines = i + 1;
        mapping.columns = columns;
        if (columns.luminance && isFootLamberts(cells.at(*columns.luminance)))
            mapping.unit = LuminanceUnit::FootLamberts;
        mapping.sign = hasComma(table, mapping) ? DecimalSign::Comma : DecimalSign::Point;
        break;
    }
    return mapping;
}

tl::expected<std::vector<MeterRow>, std::vector<BadMeterRow>>
readMeterRows(const MeterTable& table, const MeterMapping& mapping, Convention convention)
{
    BadRows bad = faultsOf(mapping.columns, table.columns);
    if (!bad.empty())
        return tl::unexpected(bad);
    if (mapping.headerLines >= table.lines.size())
        return tl::unexpected(BadRows{{0, -1, Why::NoRows, {}}});

    RowReader reader(table, mapping, convention);
    std::vector<MeterRow> rows;
    for (std::size_t i = mapping.headerLines; i < table.lines.size(); ++i) {
        const auto row = reader.read(table.lines[i]);
        if (const auto* good = std::get_if<MeterRow>(&row))
            rows.push_back(*good);
        else
            bad.push_back(std::get<BadMeterRow>(row));
    }
    if (!bad.empty())
        return tl::unexpected(bad);
    return rows;
}

std::optional<std::vector<MeterRow>> placed(std::vector<MeterRow> rows,
                                            std::span<const std::vector<Place>> lists)
{
    const auto named = std::ranges::count_if(rows, [](const MeterRow& row) { return row.place.has_value(); });
    if (named == static_cast<std::ptrdiff_t>(rows.size()))
        return rows;
    const auto list = std::ranges::find(lists, rows.size(), &std::vector<Place>::size);
    if (named > 0 || list == lists.end())
        return std::nullopt;
    for (std::size_t i = 0; i < rows.size(); ++i)
        rows[i].place = (*list)[i];
    return rows;
}

} // namespace coldarc::photometry
