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
    return {{true, " FROM visit_summary WHERE review <> ''"},
            {filter.stand.has_value(), " AND review = :review", u":review"_s,
             filter.stand ? QVariant(wordOf(*filter.stand)) : QVariant()},
            {filter.waitsAlone, " AND review IN ('waiting', 'answered')"},
            {filter.isUnusualAlone, " AND weight > 0"},
            {filter.from.has_value(), " AND opened_at_ms >= :from", u":from"_s,
             filter.from ? msOf(*filter.from) : 0},
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

/// What a filter lets pass.
struct LetPass {
    QString sql; ///< from FROM on
    store::Bindings bindings;
};

LetPass letPassBy(const QueueFilter& filter)
{
    LetPass letPass;
    for (const Part& part : partsOf(filter)) {
        if (!part.isAsked)
            continue;
        letPass.sql += QLatin1StringView(part.sql);
        if (!part.name.isEmpty())
            letPass.bindings.append({part.name, part.value});
    }
    return letPass;
}

} // namespace

Result<qint64> QueueStore::placeOf(const QueueFilter& filter, QueueOrder order, const VisitId& visit) const
{
    auto [letPass, bindings] = letPassBy(filter);
    bindings.append({u":visit"_s, visit.text()});
    // Looked at first, since to count means to sort them all.
    const auto isThere = m_database->run(u"SELECT 1"_s + letPass + u" AND visit_id = :visit"_s, bindings);
    if (!isThere)
        return tl::unexpected(isThere.error());
    if (isThere->rows.empty())
        return -1;
    const auto found =
        m_database->run(u"SELECT place FROM (SELECT visit_id, row_number() OVER ("_s + orderOf(order) +
                            u") - 1 AS place"_s + letPass + u") WHERE visit_id = :visit"_s,
                        bindings);
    if (!found)
        return tl::unexpected(found.error());
    return found->rows.empty() ? -1 : found->rows.front().whole(u"place");
}

Result<QueuePage> QueueStore::page(const QueueFilter& filter, QueueOrder order, qint64 first, int most) const
{
    auto [letPass, bindings] = letPassBy(filter);
    const auto counted =
        m_database->run(u"SELECT count(*) AS whole, total(weight > 0) AS unusual"_s + letPass, bindings);
    if (!counted)
        return tl::unexpected(counted.error());
    bindings.append({u":most"_s, most});
    bindings.append({u":first"_s, first});
    // Which rows a page has is found first, so that what is sorted is small.
    const auto found = m_database->run(
        u"SELECT visit_id, site_id, site_text, opened_at_ms, state, swaps, engineer_text, "
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
