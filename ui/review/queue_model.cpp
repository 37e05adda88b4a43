#include "ui/review/queue_model.h"

#include "ui/review/words_review.h"

#include <algorithm>
#include <array>
#include <limits>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

/// The first letter small: it stands within a line.
QString within(QString title)
{
    if (title.size() > 1 && !title[1].isUpper())
        title[0] = title[0].toLower();
    return title;
}

/// What weighs most, and how much more there is.
QString unusualWords(const QStringList& kinds)
{
    QStringList titles;
    for (const QString& word : kinds) {
        const auto kind = review::kindFromWord(word);
        titles.append(kind ? within(titleOf(*kind)) : word);
    }
    if (titles.isEmpty())
        return QueueModel::tr("nothing out of the ordinary");
    const auto more = static_cast<int>(titles.size()) - 1;
    return more == 0 ? titles.first() : QueueModel::tr("%1, and %2 more").arg(titles.first()).arg(more);
}

} // namespace

QString nameOf(review::Stand stand)
{
    static constexpr std::array<const char*, 4> kNames{
        QT_TRANSLATE_NOOP("coldarc::ui::QueueModel", "waits"),
        QT_TRANSLATE_NOOP("coldarc::ui::QueueModel", "accepted"),
        QT_TRANSLATE_NOOP("coldarc::ui::QueueModel", "sent back"),
        QT_TRANSLATE_NOOP("coldarc::ui::QueueModel", "answered"),
    };
    return QueueModel::tr(kNames.at(static_cast<std::size_t>(stand)));
}

QueueModel::QueueModel(QueueSource source, QTimeZone zone, QueuePlace place, QObject* parent)
    : QAbstractListModel(parent)
    , m_source(std::move(source))
    , m_place(std::move(place))
    , m_zone(std::move(zone))
{
}

void QueueModel::show(const review::QueueFilter& filter, review::QueueOrder order)
{
    const auto read = m_source(filter, order, 0, kPage);
    beginResetModel();
    m_filter = filter;
    m_order = order;
    m_pages.clear();
    m_all = read ? std::min<qint64>(read->all, std::numeric_limits<int>::max()) : 0;
    m_unusual = read ? read->unusual : 0;
    m_trouble = read ? QString() : read.error().detail;
    if (read)
        m_pages.insert(0, new Page(wordsOf(*read)));
    endResetModel();
}

QueueModel::Page QueueModel::wordsOf(const review::QueuePage& read) const
{
    Page rows;
    for (const auto& line : read.lines) {
        QueueRow row;
        row.visit = line.visit;
        row.title = line.siteText;
        row.day = dayText(line.openedAt, m_zone);
        row.isUnusual = line.weight > 0;
        row.what = unusualWords(line.kinds);
        row.head = line.headHash;
        row.review = line.review;
        const auto stand = review::standFromWord(line.review);
        row.who = u"%1 \u00b7 %2"_s.arg(line.engineerText, stand ? nameOf(*stand) : line.review);
        rows.append(row);
    }
    return rows;
}

const QueueModel::Page* QueueModel::page(int number) const
{
    if (const Page* known = m_pages.object(number))
        return known;
    const auto read = m_source(m_filter, m_order, qint64{number} * kPage, kPage);
    if (!read)
        return nullptr;
    m_pages.insert(number, new Page(wordsOf(*read)));
    return m_pages.object(number);
}

std::optional<QueueRow> QueueModel::row(int number) const
{
    if (number < 0 || number >= m_all)
        return std::nullopt;
    const Page* rows = page(number / kPage);
    const int at = number % kPage;
    return rows && at < rows->size() ? std::optional(rows->at(at)) : std::nullopt;
}

int QueueModel::rowOf(const VisitId& visit) const
{
    const QList<int> numbers = m_pages.keys();
    for (const int number : numbers) {
        const Page& rows = *m_pages.object(number);
        const auto found = std::ranges::find(rows, visit, &QueueRow::visit);
        if (found != rows.end())
            return number * kPage + static_cast<int>(found - rows.begin());
    }
    const Result<qint64> place = m_place ? m_place(m_filter, m_order, visit) : -1;
    return place && *place < m_all ? static_cast<int>(*place) : -1;
}

int QueueModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_all);
}

QVariant QueueModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    if (role != Qt::DisplayRole && role != Qt::AccessibleTextRole && role != Qt::ToolTipRole)
        return {};
    const auto one = row(index.row());
    if (!one)
        return role == Qt::ToolTipRole ? QVariant() : QVariant(tr("This row could not be read."));
    if (role == Qt::DisplayRole)
        return one->title;
    return QStringList{one->title, one->day, one->what, one->who}.join(u". "_s);
}

} // namespace coldarc::ui
