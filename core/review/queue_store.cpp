#include "core/review/queue_store.h"

#include <array>

using namespace Qt::StringLiterals;

namespace coldarc::review {
namespace {

/// A part of a filter: what it adds to the text, and what is bound to it. A text holds only what is asked
/// for, since each condition is looked at for every visit; all are of the few forms that these parts make,
/// and prepared once.
struct Part {
    bool isAsked = false;
    const char* sql;
    QString name{}; ///< of its placeholder; empty: it has none
    QVariant value{};
};

qint64 msOf(WallTime wall)
{
    return static_cast<qint64>(wall.time_since_epoch().count());
}

/// As SQLite's lower() has it, which knows the letters of ASCII alone.
QString loweredAscii(QString text)
{
    for (QChar& letter : text) {
        if (letter >= u'A' && letter <= u'Z')
            letter = letter.toLower();
    }
    return text;
}

QList<Part> partsOf(const QueueFilter& filter)
{
    const QString text = loweredAscii(filter.text.trimmed());
    return {{true, " FROM visit_summary WHERE is_signed = 1 AND review <> ''"},
            {filter.stand.has_value(), " AND review = :review", u":review"_s,
             filter.stand ? QVariant(wordOf(*filter.stand)) : QVariant()},
            {filter.waitsAlone, " AND review IN ('waiting', 'answered')"},
            {filter.isUnusualAlone, " AND weight > 0"},
            {!filter.site.isEmpty(), " AND site_id = :site", u":site"_s, filter.site.text()},
            {filter.from.has_value(), " AND opened_at_ms >= :from", u":from"_s,
             filter.from ? msOf(*filter.from) : 0},
            {filter.until.has_value(), " AND opened_at_ms < :until", u":until"_s,
             filter.until ? msOf(*filter.until) : 0},
            {filter.kind.has_value(), " AND instr(kinds, :kind) > 0", u":kind"_s,
             filter.kind ? QVariant(u" %1 "_s.arg(wordOf(*filter.kind))) : QVariant()},
            {!text.isEmpty(), " AND instr(lower(site_text || ' ' || engineer_text), :text) > 0", u":text"_s,
             text}};
}

QString orderOf(QueueOrder order)
{
    static constexpr std::array<const char*, 5> kOrders{
        "weight DESC, opened_at_ms DESC, visit_id", "opened_at_ms DESC, visit_id", "opened_at_ms, visit_id",
        "site_text, opened_at_ms DESC, visit_id", "engineer_text, opened_at_ms DESC, visit_id"};
    return u" ORDER BY "_s + QLatin1StringView(kOrders.at(static_cast<std::size_t>(order)));
}

} // namespace

Result<QueuePage> QueueStore::page(const QueueFilter& filter, QueueOrder order, qint64 first, int most) const
{
    QString letPass;
    store::Bindings bindings;
    for (const Part& part : partsOf(filter)) {
        if (!part.isAsked)
            continue;
        letPass += QLatin1StringView(part.sql);
        if (!part.name.isEmpty())
            bindings.append({part.name, part.value});
    }
    const auto counted =
        m_database->run(u"SELECT count(*) AS whole, total(weight > 0) AS unusual"_s + letPass, bindings);
    if (!counted)
        return tl::unexpected(counted.error());
    bindings.append({u":most"_s, most});
    bindings.append({u":first"_s, first});
    // Which rows a page has is found first, so that what is sorted is small.
    const auto found = m_database->run(
        u"SELECT visit_id, site_id, site_text, opened_at_ms, state, swaps, exceptions, engineer_text, "
        u"head_seq, "
        "head_hash, is_signed, weight, kinds, review FROM visit_summary WHERE rowid IN (SELECT rowid"_s +
            letPass + orderOf(order) + u" LIMIT :most OFFSET :first)"_s + orderOf(order),
        bindings);
    if (!found)
        return tl::unexpected(found.error());
    QueuePage page;
    page.all = counted->rows.front().whole(u"whole");
    page.unusual = counted->rows.front().whole(u"unusual");
    for (const store::Row& row : found->rows) {
        auto line = store::summaryFrom(row);
        if (!line)
            return tl::unexpected(line.error());
        page.lines.push_back(std::move(*line));
    }
    return page;
}

} // namespace coldarc::review
