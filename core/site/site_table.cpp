#include "core/site/site_table.h"

#include "core/base/table_text.h"
#include "core/base/typed_hours.h"

#include <QHash>
#include <QStringList>

#include <algorithm>
#include <array>

using namespace Qt::StringLiterals;

namespace coldarc::site {
namespace {

using Why = BadRow::Why;

/// Columns in the order of the enumeration; the first kNeeded must be there and filled.
enum Column : std::size_t {
    ScreenColumn,
    ModelColumn,
    LamphouseColumn,
    PanelColumn,
    CircuitColumn,
    RoleColumn,
    LockableColumn,
    ProjectorColumn,
    PointColumn,
    WeeklyColumn,
};
constexpr std::size_t kNeeded = LockableColumn + 1;
constexpr std::array kColumns{"screen", "model",    "lamphouse", "panel", "circuit",
                              "role",   "lockable", "projector", "point", "weekly hours"};

QString nameOf(std::size_t column)
{
    return QString::fromLatin1(kColumns[column]);
}

/// Where each column stands; -1: nowhere.
using Places = std::array<qsizetype, kColumns.size()>;

Places placesIn(const TableLine& header, std::vector<BadRow>& bad)
{
    Places places;
    places.fill(-1);
    for (qsizetype place = 0; place < header.cells.size(); ++place) {
        const QString name = header.cells.at(place).toCaseFolded().replace(u'_', u' ').simplified();
        const auto column = std::find(kColumns.begin(), kColumns.end(), name.toStdString());
        const auto index = static_cast<std::size_t>(column - kColumns.begin());
        if (column == kColumns.end())
            bad.push_back({header.number, header.cells.at(place), Why::UnknownColumn});
        else if (places[index] >= 0)
            bad.push_back({header.number, nameOf(index), Why::DoubledColumn});
        else
            places[index] = place;
    }
    for (std::size_t column = 0; column < kNeeded; ++column) {
        if (places[column] < 0)
            bad.push_back({header.number, nameOf(column), Why::MissingColumn});
    }
    return places;
}

std::optional<bool> yesOrNo(const QString& cell)
{
    static const QStringList kYes{u"yes"_s, u"y"_s, u"true"_s, u"1"_s};
    static const QStringList kNo{u"no"_s, u"n"_s, u"false"_s, u"0"_s};
    const QString word = cell.toCaseFolded();
    if (kYes.contains(word))
        return true;
    return kNo.contains(word) ? std::optional(false) : std::nullopt;
}

std::optional<double> hoursIn(QString cell)
{
    const auto hours = hoursFrom(cell.replace(u',', u'.'));
    return hours && *hours <= 168 ? std::optional(*hours) : std::nullopt;
}

/// Reads the cells of one line and complains of each that is bad.
class RowReader {
public:
    RowReader(const TableLine& line, const Places& places, std::vector<BadRow>& bad)
        : m_line(line)
        , m_places(places)
        , m_bad(bad)
    {
    }

    QString cell(std::size_t column) const
    {
        const qsizetype place = m_places[column];
        return place >= 0 && place < m_line.cells.size() ? m_line.cells.at(place) : QString();
    }
    QString needed(std::size_t column)
    {
        if (cell(column).isEmpty())
            complain(column, Why::EmptyCell);
        return cell(column);
    }
    bool lockable()
    {
        const QString word = needed(LockableColumn);
        const auto answer = yesOrNo(word);
        if (!answer && !word.isEmpty())
            complain(LockableColumn, Why::NotYesOrNo);
        return answer.value_or(false);
    }
    std::optional<double> weeklyHours()
    {
        if (cell(WeeklyColumn).isEmpty())
            return std::nullopt;
        const auto hours = hoursIn(cell(WeeklyColumn));
        if (!hours)
            complain(WeeklyColumn, Why::NotHours);
        return hours;
    }

private:
    void complain(std::size_t column, Why why) { m_bad.push_back({m_line.number, nameOf(column), why}); }

    const TableLine& m_line;
    const Places& m_places;
    std::vector<BadRow>& m_bad;
};

SiteRow rowFrom(const TableLine& line, const Places& places, std::vector<BadRow>& bad)
{
    RowReader reader(line, places, bad);
    SiteRow row;
    row.line = line.number;
    row.screen = reader.needed(ScreenColumn);
    row.model = reader.needed(ModelColumn);
    row.lamphouse = reader.needed(LamphouseColumn);
    row.panel = reader.needed(PanelColumn);
    row.circuit = reader.needed(CircuitColumn);
    row.role = reader.needed(RoleColumn);
    row.isLockable = reader.lockable();
    row.projector = reader.cell(ProjectorColumn);
    row.point = reader.cell(PointColumn);
    row.weeklyHours = reader.weeklyHours();
    return row;
}

/// Adds rows to a document one after the other.
class Merge {
public:
    Merge(SiteDocument& document, IdSource& ids)
        : m_document(document)
        , m_ids(ids)
    {
    }

    void add(const SiteRow& row)
    {
        const ScreenId screen = screenOf(row);
        const ProjectorId projector = projectorOf(row, screen);
        const LamphouseId lamphouse = lamphouseOf(row, projector);
        const Feed feed{lamphouse, catalogue::RoleId(row.role)};
        const bool isFedByAnother = std::ranges::any_of(m_document.points, [&](const IsolationPoint& one) {
            return (one.panel != row.panel || one.circuit != row.circuit) &&
                   std::ranges::find(one.feeds, feed) != one.feeds.end();
        });
        IsolationPoint& point = pointOf(row);
        if (point.doesFeed(lamphouse))
            m_bad.push_back({row.line, {}, Why::Repetition});
        else if (isFedByAnother)
            contradict(row, CircuitColumn);
        else
            point.feeds.push_back(feed);
    }
    [[nodiscard]] const std::vector<BadRow>& bad() const { return m_bad; }

private:
    void contradict(const SiteRow& row, std::size_t column)
    {
        m_bad.push_back({row.line, nameOf(column), Why::Contradiction});
    }
    ScreenId screenOf(const SiteRow& row)
    {
        for (Screen& screen : m_document.screens) {
            if (screen.name != row.screen)
                continue;
            if (row.weeklyHours && screen.weeklyHours && *row.weeklyHours != *screen.weeklyHours)
                contradict(row, WeeklyColumn);
            else if (row.weeklyHours)
                screen.weeklyHours = row.weeklyHours;
            return screen.id;
        }
        m_document.screens.push_back({ScreenId(m_ids.next()), row.screen, row.weeklyHours, {}});
        return m_document.screens.back().id;
    }
    ProjectorId projectorOf(const SiteRow& row, const ScreenId& screen)
    {
        for (const Projector& projector : m_document.projectors) {
            if (projector.screen != screen || projector.label != row.projector)
                continue;
            if (projector.model.text() != row.model)
                contradict(row, ModelColumn);
            return projector.id;
        }
        m_document.projectors.push_back(
            {ProjectorId(m_ids.next()), ModelId(row.model), screen, row.projector});
        return m_document.projectors.back().id;
    }
    LamphouseId lamphouseOf(const SiteRow& row, const ProjectorId& projector)
    {
        for (const Lamphouse& lamphouse : m_document.lamphouses) {
            if (lamphouse.projector == projector && lamphouse.label == row.lamphouse)
                return lamphouse.id;
        }
        m_document.lamphouses.push_back({LamphouseId(m_ids.next()), projector, row.lamphouse, std::nullopt});
        return m_document.lamphouses.back().id;
    }
    IsolationPoint& pointOf(const SiteRow& row)
    {
        for (IsolationPoint& point : m_document.points) {
            if (point.panel != row.panel || point.circuit != row.circuit)
                continue;
            if (point.isLockable != row.isLockable)
                contradict(row, LockableColumn);
            if (!row.point.isEmpty() && point.name != row.point)
                contradict(row, PointColumn);
            return point;
        }
        const QString name = row.point.isEmpty() ? nameOfPoint(row.panel, row.circuit) : row.point;
        m_document.points.push_back(
            {PointId(m_ids.next()), row.panel, row.circuit, name, row.isLockable, {}});
        return m_document.points.back();
    }

    SiteDocument& m_document;
    IdSource& m_ids;
    std::vector<BadRow> m_bad;
};

} // namespace

QString nameOfPoint(const QString& panel, const QString& circuit)
{
    return panel + u", "_s + circuit;
}

tl::expected<std::vector<SiteRow>, std::vector<BadRow>> readSiteTable(const QString& text)
{
    const QString plain = withPlainLineEnds(text);
    const QChar separator = separatorIn(plain.trimmed().section(u'\n', 0, 0));
    const std::vector<TableLine> lines = tableLines(plain, separator);
    if (lines.size() < 2)
        return tl::unexpected(std::vector<BadRow>{{1, {}, Why::Empty}});

    std::vector<BadRow> bad;
    const Places places = placesIn(lines.front(), bad);
    if (!bad.empty())
        return tl::unexpected(bad);
    std::vector<SiteRow> rows;
    for (auto line = lines.begin() + 1; line != lines.end(); ++line) {
        if (line->isOpenQuote)
            bad.push_back({line->number, {}, Why::OpenQuote});
        else if (line->cells.size() > lines.front().cells.size())
            bad.push_back({line->number, {}, Why::TooManyCells});
        else
            rows.push_back(rowFrom(*line, places, bad));
    }
    if (!bad.empty())
        return tl::unexpected(bad);
    return rows;
}

tl::expected<SiteDocument, std::vector<BadRow>> withRows(SiteDocument document,
                                                         const std::vector<SiteRow>& rows, IdSource& ids)
{
    Merge merge(document, ids);
    for (const SiteRow& row : rows)
        merge.add(row);
    if (!merge.bad().empty())
        return tl::unexpected(merge.bad());
    return document;
}

} // namespace coldarc::site
