#include "ui/photometry/meter_import.h"

#include "ui/photometry/words_sheet.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;
using namespace photometry;

namespace {

constexpr qsizetype kShownLines = 12; // nine points below a heading
constexpr qsizetype kShownColumns = 8;
constexpr std::size_t kShownBad = 12;
constexpr int kMostHeaderLines = 9;
const QString kNone = u"none"_s;
const QString kXy = u"xy"_s;
const QString kUv = u"uv"_s;

QString words(const char* text)
{
    return QCoreApplication::translate("sheet", text);
}

std::optional<qsizetype> columnFrom(const QString& answer)
{
    bool isNumber = false;
    const int column = answer.toInt(&isNumber);
    return isNumber ? std::optional<qsizetype>(column) : std::nullopt;
}

QString answerOf(const std::optional<qsizetype>& column)
{
    return column ? QString::number(*column) : kNone;
}

/// "2: Lv", by the heading where there is one.
QList<ChoiceOption> columnsOf(const MeterTable& table, std::size_t headerLines)
{
    QList<ChoiceOption> options{{kNone, words("none")}};
    for (qsizetype column = 0; column < table.columns; ++column) {
        const QString heading = headerLines > 0 && headerLines <= table.lines.size()
                                    ? table.lines[headerLines - 1].cells.value(column)
                                    : QString();
        options.append({QString::number(column), heading.isEmpty()
                                                     ? words("column %1").arg(column + 1)
                                                     : u"%1: %2"_s.arg(column + 1).arg(heading)});
    }
    return options;
}

SheetField choice(const QString& id, const QString& label, const QString& chosen,
                  const QList<ChoiceOption>& options)
{
    SheetField field;
    field.id = id;
    field.field.label = label;
    field.field.value = chosen;
    field.options = options;
    return field;
}

} // namespace

void MeterImport::give(const QString& text)
{
    take(text);
}

void MeterImport::give(QIODevice& file)
{
    take(readMeterText(file));
}

void MeterImport::refuse()
{
    take(tl::unexpected(TableFault::CannotBeRead));
}

void MeterImport::take(const tl::expected<QString, TableFault>& text)
{
    m_table.reset();
    m_question.reset();
    m_said.clear();
    const auto table = text ? readMeterTable(*text) : tl::unexpected(text.error());
    if (!table) {
        m_said = faultWords(table.error());
        return;
    }
    m_table = *table;
    m_mapping = guessMapping(*m_table);
}

void MeterImport::map(const QString& id, const QString& answer)
{
    m_question.reset();
    MeterColumns& columns = m_mapping.columns;
    const bool isUv = columns.u || columns.v;
    const auto column = columnFrom(answer);
    if (id == u"header")
        m_mapping.headerLines = static_cast<std::size_t>(std::max(0, answer.toInt()));
    else if (id == u"unit")
        m_mapping.unit = luminanceUnitFromWord(answer).value_or(m_mapping.unit);
    else if (id == u"sign")
        m_mapping.sign = answer == u"comma" ? DecimalSign::Comma : DecimalSign::Point;
    else if (id == u"place")
        columns.place = column;
    else if (id == u"luminance")
        columns.luminance = column;
    else if (id == u"first")
        (isUv ? columns.u : columns.x) = column;
    else if (id == u"second")
        (isUv ? columns.v : columns.y) = column;
    else if (id == u"colour" && (answer == kUv) != isUv) {
        std::swap(columns.u, columns.x);
        std::swap(columns.v, columns.y);
    }
}

void MeterImport::setUnit(LuminanceUnit unit)
{
    m_mapping.unit = unit;
    m_question.reset();
}

void MeterImport::taken(const QString& said)
{
    m_table.reset();
    m_question.reset();
    m_said = said;
    ++m_turn;
}

std::optional<std::vector<MeterRow>> MeterImport::rows(Convention convention,
                                                       const std::vector<std::vector<Place>>& lists) const
{
    if (!m_table)
        return std::nullopt;
    const auto rows = readMeterRows(*m_table, m_mapping, convention);
    return rows ? placed(*rows, lists) : std::nullopt;
}

SheetImportView MeterImport::view(Convention convention, const std::vector<std::vector<Place>>& lists) const
{
    SheetImportView view;
    view.said = m_said;
    view.boxTurn = m_turn;
    view.question = m_question;
    if (!m_table)
        return view;
    const MeterColumns& columns = m_mapping.columns;
    const bool isUv = columns.u || columns.v;
    const QList<ChoiceOption> all = columnsOf(*m_table, m_mapping.headerLines);
    QList<ChoiceOption> headers;
    const int most = std::min(kMostHeaderLines, static_cast<int>(m_table->lines.size()));
    for (int lines = 0; lines <= most; ++lines)
        headers.append({QString::number(lines), QString::number(lines)});
    view.mapping = {
        choice(u"header"_s, words("Lines of heading"), QString::number(m_mapping.headerLines), headers),
        choice(u"place"_s, words("Point"), answerOf(columns.place), all),
        choice(u"luminance"_s, words("Luminance"), answerOf(columns.luminance), all),
        choice(u"unit"_s, words("Unit"), wordOf(m_mapping.unit),
               {{wordOf(LuminanceUnit::CdPerM2), nameOf(LuminanceUnit::CdPerM2)},
                {wordOf(LuminanceUnit::FootLamberts), nameOf(LuminanceUnit::FootLamberts)}}),
        choice(u"colour"_s, words("Colour is written as"), isUv ? kUv : kXy,
               {{kXy, u"x, y"_s}, {kUv, u"u\u2032, v\u2032"_s}}),
        choice(u"sign"_s, words("Decimals after a"),
               m_mapping.sign == DecimalSign::Comma ? u"comma"_s : u"point"_s,
               {{u"point"_s, words("point")}, {u"comma"_s, words("comma")}}),
        choice(u"first"_s, isUv ? u"u\u2032"_s : u"x"_s, answerOf(isUv ? columns.u : columns.x), all),
        choice(u"second"_s, isUv ? u"v\u2032"_s : u"y"_s, answerOf(isUv ? columns.v : columns.y), all)};
    view.headerLines = static_cast<int>(m_mapping.headerLines);
    for (const TableLine& line : m_table->lines) {
        if (view.preview.size() == kShownLines)
            break;
        view.preview.append(line.cells.mid(0, kShownColumns));
    }
    const auto rows = readMeterRows(*m_table, m_mapping, convention);
    if (!rows) {
        for (const BadMeterRow& bad : rows.error()) {
            if (view.bad.size() == static_cast<qsizetype>(kShownBad))
                break;
            view.bad.append(badRowWords(bad));
        }
        if (rows.error().size() > kShownBad)
            view.bad.append(words("and %1 more").arg(rows.error().size() - kShownBad));
        view.said = words("Nothing was taken: put these right, or choose other columns.");
        return view;
    }
    const auto whole = placed(*rows, lists);
    if (!whole) {
        view.said =
            words("%1 lines do not say which point they are, and no set of points has as many. Nothing "
                  "was taken.")
                .arg(rows->size());
        return view;
    }
    for (const MeterRow& row : *whole) {
        if (view.headerLines + view.places.size() < view.preview.size())
            view.places.append(nameOf(*row.place));
    }
    view.act = rows->size() == 1 ? words("Take this reading") : words("Take %1 readings").arg(rows->size());
    return view;
}

} // namespace coldarc::ui
