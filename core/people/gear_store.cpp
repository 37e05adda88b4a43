#include "core/people/gear_store.h"

#include "core/people/store_text.h"

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

store::Bindings bindingsOf(const GearItem& item)
{
    return {{u":gear"_s, item.id.text()},
            {u":kind"_s, item.kind},
            {u":marking"_s, item.marking},
            {u":identifier"_s, item.identifier},
            {u":made"_s, isoOrNull(item.made)},
            {u":expires"_s, isoOrNull(item.expires)},
            {u":person"_s, item.assignedTo ? QVariant(item.assignedTo->text()) : store::sqlNull()}};
}

/// False when a text stands in the column that is no month.
bool isMonthOrNull(const store::Row& row, QStringView column)
{
    return row.isNull(column) || monthIn(row, column);
}

Result<GearItem> itemFrom(const store::Row& row)
{
    GearItem item{GearId(row.text(u"gear_id")),
                  row.text(u"kind_id"),
                  row.text(u"marking"),
                  row.text(u"identifier"),
                  monthIn(row, u"made_month"),
                  monthIn(row, u"expires_month"),
                  std::nullopt,
                  std::nullopt};
    if (!row.isNull(u"assigned_person_id"))
        item.assignedTo = PersonId(row.text(u"assigned_person_id"));
    const auto inspectedOn = dayIn(row, u"inspected_on");
    if (inspectedOn)
        item.lastInspection = {*inspectedOn, PersonId(row.text(u"inspected_by")),
                               row.flag(u"is_passed") ? GearInspection::Outcome::Passed
                                                      : GearInspection::Outcome::Withdrawn};
    // A date that cannot be read must not look like none given.
    if (!isMonthOrNull(row, u"made_month") || !isMonthOrNull(row, u"expires_month") ||
        (!inspectedOn && !row.isNull(u"inspected_on")))
        return fail(Error::Kind::Malformed, u"gear_item "_s + item.id.text());
    return item;
}

Result<std::vector<GearItem>> itemsFrom(const Result<store::Answer>& found)
{
    if (!found)
        return tl::unexpected(found.error());
    std::vector<GearItem> items;
    for (const store::Row& row : found->rows) {
        auto item = itemFrom(row);
        if (!item)
            return tl::unexpected(item.error());
        items.push_back(std::move(*item));
    }
    return items;
}

} // namespace

Result<void> GearStore::add(const GearItem& item)
{
    return doneOf(m_database->run(u"INSERT INTO gear_item(gear_id, kind_id, marking, identifier, made_month, "
                                  "expires_month, assigned_person_id) "
                                  "VALUES(:gear, :kind, :marking, :identifier, :made, :expires, :person)"_s,
                                  bindingsOf(item)));
}

Result<void> GearStore::change(const GearItem& item)
{
    return changedOne(
        m_database->run(u"UPDATE gear_item SET kind_id = :kind, marking = :marking, "
                        "identifier = :identifier, made_month = :made, expires_month = :expires, "
                        "assigned_person_id = :person WHERE gear_id = :gear"_s,
                        bindingsOf(item)),
        u"gear_item "_s + item.id.text());
}

Result<void> GearStore::inspect(const GearId& item, const GearInspection& inspection)
{
    return doneOf(m_database->run(
        u"INSERT INTO gear_inspection(gear_id, inspected_on, inspected_by, is_passed) VALUES(:gear, :on, :by, :passed)"_s,
        {{u":gear"_s, item.text()},
         {u":on"_s, isoText(inspection.on)},
         {u":by"_s, inspection.by.text()},
         {u":passed"_s, inspection.outcome == GearInspection::Outcome::Passed ? 1 : 0}}));
}

Result<std::vector<GearItem>> GearStore::all() const
{
    return itemsFrom(m_database->run(
        u"SELECT gear_item.gear_id, kind_id, marking, identifier, made_month, expires_month, "
        u"assigned_person_id, "
        "inspected_on, inspected_by, is_passed FROM gear_item LEFT JOIN gear_inspection ON "
        "gear_inspection_id = "
        "(SELECT max(gear_inspection_id) FROM gear_inspection WHERE gear_id = gear_item.gear_id) "
        "ORDER BY kind_id, identifier, gear_item.gear_id"_s));
}

Result<std::vector<GearItem>> GearStore::assignedTo(const PersonId& person) const
{
    return itemsFrom(m_database->run(
        u"SELECT gear_item.gear_id, kind_id, marking, identifier, made_month, expires_month, "
        u"assigned_person_id, "
        "inspected_on, inspected_by, is_passed FROM gear_item LEFT JOIN gear_inspection ON "
        "gear_inspection_id = "
        "(SELECT max(gear_inspection_id) FROM gear_inspection WHERE gear_id = gear_item.gear_id) "
        "WHERE assigned_person_id = :person ORDER BY kind_id, identifier, gear_item.gear_id"_s,
        {{u":person"_s, person.text()}}));
}

} // namespace coldarc::people
