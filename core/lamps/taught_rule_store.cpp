#include "core/lamps/taught_rule_store.h"

#include "core/base/json.h"

#include <QJsonArray>
#include <QJsonDocument>

using namespace Qt::StringLiterals;

namespace coldarc::lamps {

namespace {

QString textOf(const catalogue::LabelRule& rule)
{
    return QString::fromUtf8(QJsonDocument(catalogue::toJson(rule)).toJson(QJsonDocument::Compact));
}

Result<catalogue::LabelRule> ruleFrom(const QString& text)
{
    const auto object = parseObject(text.toUtf8());
    if (!object)
        return tl::unexpected(object.error());
    QStringList complaints;
    JsonReader reader(*object, u"rule"_s, complaints);
    const auto rule = catalogue::readLabelRule(reader);
    reader.finish();
    if (!rule || !complaints.isEmpty())
        return fail(Error::Kind::Malformed, complaints.join(u"; "_s));
    return *rule;
}

Result<TaughtRule> taughtFrom(const store::Row& row)
{
    const auto rule = ruleFrom(row.text(u"rule"));
    if (!rule)
        return tl::unexpected(rule.error());
    TaughtRule taught;
    taught.id = TaughtRuleId(row.text(u"taught_rule_id"));
    taught.teaching = {LampTypeId(row.text(u"lamp_type_id")), *rule, row.text(u"package_code"),
                       row.text(u"example")};
    taught.by = PersonId(row.text(u"taught_by"));
    taught.at = wallOf(row.whole(u"taught_at_ms"));
    if (!row.isNull(u"withdrawn_by"))
        taught.withdrawn = {PersonId(row.text(u"withdrawn_by")), wallOf(row.whole(u"withdrawn_at_ms"))};
    return taught;
}

Result<TeachingAnswer> kept(const Result<store::Answer>& written)
{
    if (!written)
        return tl::unexpected(written.error());
    return RuleKept{};
}

} // namespace

Result<TeachingAnswer> TaughtRuleStore::teach(const TaughtRuleId& id, const label::Lesson& lesson,
                                              const QList<catalogue::LampType>& lampTypes,
                                              const people::Holder& by, people::Day today, WallTime at)
{
    if (!people::supervises(by, today))
        return NotASupervisor{};
    return m_database->transaction([&]() -> Result<TeachingAnswer> {
        const auto known = onRecord(kMostOnRecord);
        if (!known)
            return tl::unexpected(known.error());
        const label::TeachAnswer taught = label::teach(lesson, *known, lampTypes, yearOf(at));
        if (!taught.teaching)
            return LessonNotTaken{taught.faults};
        return kept(m_database->run(
            u"INSERT INTO taught_rule (taught_rule_id, lamp_type_id, rule, package_code, example, taught_by,"
            " taught_at_ms) VALUES (:id, :type, :rule, :code, :example, :by, :at)"_s,
            {{u":id"_s, id.text()},
             {u":type"_s, taught.teaching->lampType.text()},
             {u":rule"_s, textOf(taught.teaching->rule)},
             {u":code"_s, taught.teaching->packageCode},
             {u":example"_s, taught.teaching->example},
             {u":by"_s, by.person.id.text()},
             {u":at"_s, msOf(at)}}));
    });
}

Result<TeachingAnswer> TaughtRuleStore::withdraw(const TaughtRuleId& rule, const people::Holder& by,
                                                 people::Day today, WallTime at)
{
    if (!people::supervises(by, today))
        return NotASupervisor{};
    return kept(
        m_database->run(u"INSERT INTO taught_rule_withdrawal (taught_rule_id, withdrawn_by, withdrawn_at_ms)"
                        " VALUES (:id, :by, :at)"_s,
                        {{u":id"_s, rule.text()}, {u":by"_s, by.person.id.text()}, {u":at"_s, msOf(at)}}));
}

Result<std::vector<TaughtRule>> TaughtRuleStore::all() const
{
    const auto found = m_database->run(
        u"SELECT taught.taught_rule_id, lamp_type_id, rule, package_code, example, taught_by, taught_at_ms,"
        " withdrawn_by, withdrawn_at_ms FROM taught_rule AS taught"
        " LEFT JOIN taught_rule_withdrawal AS gone ON gone.taught_rule_id = taught.taught_rule_id"
        " ORDER BY taught_at_ms, taught.taught_rule_id"_s);
    if (!found)
        return tl::unexpected(found.error());
    std::vector<TaughtRule> rules;
    for (const store::Row& row : found->rows) {
        auto rule = taughtFrom(row);
        if (!rule)
            return tl::unexpected(rule.error());
        rules.push_back(std::move(*rule));
    }
    return rules;
}

Result<QList<label::Teaching>> TaughtRuleStore::standing() const
{
    const auto rules = all();
    if (!rules)
        return tl::unexpected(rules.error());
    QList<label::Teaching> teachings;
    for (const TaughtRule& rule : *rules) {
        if (!rule.withdrawn)
            teachings.append(rule.teaching);
    }
    return teachings;
}

Result<void> TaughtRuleStore::couldNotRead(const QString& scanned, WallTime at)
{
    const auto added =
        m_database->run(u"INSERT INTO unread_code (scanned, seen_at_ms) SELECT :scanned, :at"
                        " WHERE NOT EXISTS (SELECT 1 FROM unread_code WHERE scanned = :scanned)"_s,
                        {{u":scanned"_s, scanned}, {u":at"_s, msOf(at)}});
    return added ? Result<void>() : tl::unexpected(added.error());
}

Result<QStringList> TaughtRuleStore::unread(int most) const
{
    const auto found =
        m_database->run(u"SELECT scanned FROM unread_code ORDER BY seen_at_ms DESC, scanned LIMIT :most"_s,
                        {{u":most"_s, most}});
    if (!found)
        return tl::unexpected(found.error());
    QStringList codes;
    for (const store::Row& row : found->rows)
        codes.append(row.text(u"scanned"));
    return codes;
}

Result<QStringList> TaughtRuleStore::onRecord(int most) const
{
    const auto found = m_database->run(u"SELECT bytes FROM code_holding JOIN entry USING (entry_id) "
                                       "ORDER BY entry_id DESC LIMIT :most"_s,
                                       {{u":most"_s, most}});
    if (!found)
        return tl::unexpected(found.error());
    QStringList codes;
    for (const store::Row& row : found->rows) {
        const QJsonObject what =
            QJsonDocument::fromJson(row.bytes(u"bytes")).object().value(u"what"_s).toObject();
        for (const QJsonValue& scanned : what.value(u"scanned"_s).toArray())
            codes.append(scanned.toString());
    }
    codes.removeDuplicates();
    return codes;
}

} // namespace coldarc::lamps
