#include "core/site/site_store.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QSet>

using namespace Qt::StringLiterals;

namespace coldarc::site {
namespace {

Result<void> doneOf(const Result<store::Answer>& answer)
{
    if (!answer)
        return tl::unexpected(answer.error());
    return {};
}

Result<void> changedOne(const Result<store::Answer>& answer, const QString& what)
{
    if (!answer)
        return tl::unexpected(answer.error());
    if (answer->changed == 0)
        return fail(Error::Kind::NotFound, what);
    return {};
}

/// The ids as a JSON list, for json_each.
template<class Thing>
QString idList(const std::vector<Thing>& things)
{
    QJsonArray ids;
    for (const Thing& thing : things)
        ids.append(thing.id.text());
    return QString::fromUtf8(QJsonDocument(ids).toJson(QJsonDocument::Compact));
}

template<class Thing>
bool idsDiffer(const std::vector<Thing>& things)
{
    QSet<QString> ids;
    for (const Thing& thing : things)
        ids.insert(thing.id.text());
    return static_cast<std::size_t>(ids.size()) == things.size();
}

Result<Site> siteFrom(const store::Row& row)
{
    const auto prover = proverFromWord(row.text(u"may_prove_absence"));
    if (!prover)
        return fail(Error::Kind::Malformed, u"site "_s + row.text(u"site_id"));
    return Site{SiteId(row.text(u"site_id")),
                row.text(u"name"),
                row.text(u"town"),
                {},
                {*prover, row.text(u"local_rules"), row.text(u"lock_notes")}};
}

template<class Thing, class ThingId>
Thing* partOf(std::vector<Thing>& things, const ThingId& id)
{
    for (Thing& thing : things) {
        if (thing.id == id)
            return &thing;
    }
    return nullptr;
}

} // namespace

Result<void> SiteStore::runOnPart(const QString& sql, const store::Bindings& bindings)
{
    const auto answer = m_database->run(sql, bindings);
    if (!answer)
        return tl::unexpected(answer.error());
    if (answer->changed == 0)
        return fail(Error::Kind::Conflict, u"an id that belongs to another site"_s);
    return {};
}

Result<void> SiteStore::save(const SiteDocument& document)
{
    if (!idsDiffer(document.screens) || !idsDiffer(document.projectors) || !idsDiffer(document.lamphouses) ||
        !idsDiffer(document.points))
        return fail(Error::Kind::Conflict,
                    u"two parts of site %1 with one id"_s.arg(document.site.id.text()));
    return m_database->transaction([&]() -> Result<void> {
        if (auto written = writeSite(document.site); !written)
            return written;
        if (auto written = writeParts(document); !written)
            return written;
        return removeLeftovers(document);
    });
}

Result<void> SiteStore::writeSite(const Site& site)
{
    const store::Bindings here{{u":site"_s, site.id.text()}};
    auto written = doneOf(
        m_database->run(u"INSERT INTO site(site_id, name, town, may_prove_absence, local_rules, lock_notes) "
                        "VALUES(:site, :name, :town, :prover, :rules, :notes) "
                        "ON CONFLICT(site_id) DO UPDATE SET name = excluded.name, town = excluded.town, "
                        "may_prove_absence = excluded.may_prove_absence, local_rules = excluded.local_rules, "
                        "lock_notes = excluded.lock_notes"_s,
                        {{u":site"_s, site.id.text()},
                         {u":name"_s, site.name},
                         {u":town"_s, site.town},
                         {u":prover"_s, wordOf(site.profile.mayProveAbsence)},
                         {u":rules"_s, site.profile.localRules},
                         {u":notes"_s, site.profile.lockNotes}}));
    if (written)
        written = doneOf(m_database->run(u"DELETE FROM site_contact WHERE site_id = :site"_s, here));
    for (int position = 0; written && position < static_cast<int>(site.contacts.size()); ++position) {
        const Contact& contact = site.contacts[static_cast<std::size_t>(position)];
        written = doneOf(m_database->run(u"INSERT INTO site_contact(site_id, position, name, role, phone) "
                                         "VALUES(:site, :position, :name, :role, :phone)"_s,
                                         {{u":site"_s, site.id.text()},
                                          {u":position"_s, position},
                                          {u":name"_s, contact.name},
                                          {u":role"_s, contact.role},
                                          {u":phone"_s, contact.phone}}));
    }
    return written;
}

Result<void> SiteStore::writeParts(const SiteDocument& document)
{
    const SiteId& site = document.site.id;
    // Lamps that changed places would meet half way.
    Result<void> written = doneOf(m_database->run(
        u"UPDATE lamphouse SET fitted_lamp_id = NULL WHERE site_id = :site"_s, {{u":site"_s, site.text()}}));
    if (written)
        written = doneOf(m_database->run(u"DELETE FROM isolation_feed WHERE site_id = :site"_s,
                                         {{u":site"_s, site.text()}}));
    int position = 0;
    for (auto one = document.screens.begin(); written && one != document.screens.end(); ++one)
        written = writeScreen(site, *one, position++);
    position = 0;
    for (auto one = document.projectors.begin(); written && one != document.projectors.end(); ++one)
        written = writeProjector(site, *one, position++);
    position = 0;
    for (auto one = document.lamphouses.begin(); written && one != document.lamphouses.end(); ++one)
        written = writeLamphouse(site, *one, position++);
    position = 0;
    for (auto one = document.points.begin(); written && one != document.points.end(); ++one)
        written = writePoint(site, *one, position++);
    return written;
}

Result<void> SiteStore::writeScreen(const SiteId& site, const Screen& screen, int position)
{
    const auto written =
        runOnPart(u"INSERT INTO screen(screen_id, site_id, position, name, weekly_h) "
                  "VALUES(:screen, :site, :position, :name, :weekly) "
                  "ON CONFLICT(screen_id) DO UPDATE SET position = excluded.position, name = excluded.name, "
                  "weekly_h = excluded.weekly_h WHERE screen.site_id = excluded.site_id"_s,
                  {{u":screen"_s, screen.id.text()},
                   {u":site"_s, site.text()},
                   {u":position"_s, position},
                   {u":name"_s, screen.name},
                   {u":weekly"_s, store::orNull(screen.weeklyHours)}});
    return written ? writeShows(screen.id, screen.showStarts) : written;
}

Result<void> SiteStore::writeShows(const ScreenId& screen, const std::vector<WallTime>& starts)
{
    auto written = doneOf(m_database->run(u"DELETE FROM show_start WHERE screen_id = :screen"_s,
                                          {{u":screen"_s, screen.text()}}));
    for (int position = 0; written && position < static_cast<int>(starts.size()); ++position) {
        const WallTime start = starts[static_cast<std::size_t>(position)];
        written = doneOf(m_database->run(
            u"INSERT INTO show_start(screen_id, position, start_at_ms) VALUES(:screen, :position, :start)"_s,
            {{u":screen"_s, screen.text()}, {u":position"_s, position}, {u":start"_s, msOf(start)}}));
    }
    return written;
}

Result<void> SiteStore::writeProjector(const SiteId& site, const Projector& projector, int position)
{
    return runOnPart(u"INSERT INTO projector(projector_id, site_id, position, model_id, screen_id, label) "
                     "VALUES(:projector, :site, :position, :model, :screen, :label) "
                     "ON CONFLICT(projector_id) DO UPDATE SET position = excluded.position, "
                     "model_id = excluded.model_id, screen_id = excluded.screen_id, label = excluded.label "
                     "WHERE projector.site_id = excluded.site_id"_s,
                     {{u":projector"_s, projector.id.text()},
                      {u":site"_s, site.text()},
                      {u":position"_s, position},
                      {u":model"_s, projector.model.text()},
                      {u":screen"_s, projector.screen.text()},
                      {u":label"_s, projector.label}});
}

Result<void> SiteStore::writeLamphouse(const SiteId& site, const Lamphouse& lamphouse, int position)
{
    return runOnPart(
        u"INSERT INTO lamphouse(lamphouse_id, site_id, position, projector_id, label, fitted_lamp_id) "
        "VALUES(:lamphouse, :site, :position, :projector, :label, :lamp) "
        "ON CONFLICT(lamphouse_id) DO UPDATE SET position = excluded.position, "
        "projector_id = excluded.projector_id, label = excluded.label, "
        "fitted_lamp_id = excluded.fitted_lamp_id WHERE lamphouse.site_id = excluded.site_id"_s,
        {{u":lamphouse"_s, lamphouse.id.text()},
         {u":site"_s, site.text()},
         {u":position"_s, position},
         {u":projector"_s, lamphouse.projector.text()},
         {u":label"_s, lamphouse.label},
         {u":lamp"_s, lamphouse.fitted ? QVariant(lamphouse.fitted->text()) : store::sqlNull()}});
}

Result<void> SiteStore::writePoint(const SiteId& site, const IsolationPoint& point, int position)
{
    auto written = runOnPart(
        u"INSERT INTO isolation_point(point_id, site_id, position, panel, circuit, name, is_lockable) "
        "VALUES(:point, :site, :position, :panel, :circuit, :name, :lockable) "
        "ON CONFLICT(point_id) DO UPDATE SET position = excluded.position, panel = excluded.panel, "
        "circuit = excluded.circuit, name = excluded.name, is_lockable = excluded.is_lockable "
        "WHERE isolation_point.site_id = excluded.site_id"_s,
        {{u":point"_s, point.id.text()},
         {u":site"_s, site.text()},
         {u":position"_s, position},
         {u":panel"_s, point.panel},
         {u":circuit"_s, point.circuit},
         {u":name"_s, point.name},
         {u":lockable"_s, point.isLockable ? 1 : 0}});
    for (int at = 0; written && at < static_cast<int>(point.feeds.size()); ++at) {
        const Feed& feed = point.feeds[static_cast<std::size_t>(at)];
        written = doneOf(
            m_database->run(u"INSERT INTO isolation_feed(site_id, point_id, position, lamphouse_id, role_id) "
                            "VALUES(:site, :point, :position, :lamphouse, :role)"_s,
                            {{u":site"_s, site.text()},
                             {u":point"_s, point.id.text()},
                             {u":position"_s, at},
                             {u":lamphouse"_s, feed.lamphouse.text()},
                             {u":role"_s, feed.role.text()}}));
    }
    return written;
}

Result<void> SiteStore::removeLeftovers(const SiteDocument& document)
{
    // What refers to others goes before them.
    const std::pair<QString, QString> removals[] = {
        {u"DELETE FROM isolation_point WHERE site_id = :site AND point_id NOT IN (SELECT value FROM json_each(:kept))"_s,
         idList(document.points)},
        {u"DELETE FROM lamphouse WHERE site_id = :site AND lamphouse_id NOT IN (SELECT value FROM json_each(:kept))"_s,
         idList(document.lamphouses)},
        {u"DELETE FROM projector WHERE site_id = :site AND projector_id NOT IN (SELECT value FROM json_each(:kept))"_s,
         idList(document.projectors)},
        {u"DELETE FROM screen WHERE site_id = :site AND screen_id NOT IN (SELECT value FROM json_each(:kept))"_s,
         idList(document.screens)},
    };
    for (const auto& [sql, kept] : removals) {
        auto removed =
            doneOf(m_database->run(sql, {{u":site"_s, document.site.id.text()}, {u":kept"_s, kept}}));
        if (!removed)
            return removed;
    }
    return {};
}

Result<SiteDocument> SiteStore::load(const SiteId& site) const
{
    const auto found =
        m_database->run(u"SELECT site_id, name, town, may_prove_absence, local_rules, lock_notes "
                        "FROM site WHERE site_id = :site"_s,
                        {{u":site"_s, site.text()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::NotFound, u"site "_s + site.text());
    const auto head = siteFrom(found->rows.front());
    if (!head)
        return tl::unexpected(head.error());
    SiteDocument document;
    document.site = *head;
    for (const auto read : {&SiteStore::readContacts, &SiteStore::readScreens, &SiteStore::readShows,
                            &SiteStore::readProjectors, &SiteStore::readLamphouses, &SiteStore::readPoints,
                            &SiteStore::readFeeds}) {
        if (const auto done = (this->*read)(document); !done)
            return tl::unexpected(done.error());
    }
    return document;
}

Result<void> SiteStore::readContacts(SiteDocument& document) const
{
    const auto found = m_database->run(
        u"SELECT name, role, phone FROM site_contact WHERE site_id = :site ORDER BY position"_s,
        {{u":site"_s, document.site.id.text()}});
    if (!found)
        return tl::unexpected(found.error());
    for (const store::Row& row : found->rows)
        document.site.contacts.push_back({row.text(u"name"), row.text(u"role"), row.text(u"phone")});
    return {};
}

Result<void> SiteStore::readScreens(SiteDocument& document) const
{
    const auto found = m_database->run(
        u"SELECT screen_id, name, weekly_h FROM screen WHERE site_id = :site ORDER BY position"_s,
        {{u":site"_s, document.site.id.text()}});
    if (!found)
        return tl::unexpected(found.error());
    for (const store::Row& row : found->rows) {
        Screen screen{ScreenId(row.text(u"screen_id")), row.text(u"name"), std::nullopt, {}};
        if (!row.isNull(u"weekly_h"))
            screen.weeklyHours = row.number(u"weekly_h");
        document.screens.push_back(std::move(screen));
    }
    return {};
}

Result<void> SiteStore::readShows(SiteDocument& document) const
{
    const auto found =
        m_database->run(u"SELECT screen_id, start_at_ms FROM show_start JOIN screen USING (screen_id) "
                        "WHERE site_id = :site ORDER BY screen.position, show_start.position"_s,
                        {{u":site"_s, document.site.id.text()}});
    if (!found)
        return tl::unexpected(found.error());
    for (const store::Row& row : found->rows) {
        if (Screen* screen = partOf(document.screens, ScreenId(row.text(u"screen_id"))))
            screen->showStarts.push_back(wallOf(row.whole(u"start_at_ms")));
    }
    return {};
}

Result<void> SiteStore::readProjectors(SiteDocument& document) const
{
    const auto found = m_database->run(
        u"SELECT projector_id, model_id, screen_id, label FROM projector WHERE site_id = :site ORDER BY position"_s,
        {{u":site"_s, document.site.id.text()}});
    if (!found)
        return tl::unexpected(found.error());
    for (const store::Row& row : found->rows)
        document.projectors.push_back({ProjectorId(row.text(u"projector_id")), ModelId(row.text(u"model_id")),
                                       ScreenId(row.text(u"screen_id")), row.text(u"label")});
    return {};
}

Result<void> SiteStore::readLamphouses(SiteDocument& document) const
{
    const auto found =
        m_database->run(u"SELECT lamphouse_id, projector_id, label, fitted_lamp_id FROM lamphouse "
                        "WHERE site_id = :site ORDER BY position"_s,
                        {{u":site"_s, document.site.id.text()}});
    if (!found)
        return tl::unexpected(found.error());
    for (const store::Row& row : found->rows) {
        Lamphouse lamphouse{LamphouseId(row.text(u"lamphouse_id")), ProjectorId(row.text(u"projector_id")),
                            row.text(u"label"), std::nullopt};
        if (!row.isNull(u"fitted_lamp_id"))
            lamphouse.fitted = LampId(row.text(u"fitted_lamp_id"));
        document.lamphouses.push_back(std::move(lamphouse));
    }
    return {};
}

Result<void> SiteStore::readPoints(SiteDocument& document) const
{
    const auto found =
        m_database->run(u"SELECT point_id, panel, circuit, name, is_lockable FROM isolation_point "
                        "WHERE site_id = :site ORDER BY position"_s,
                        {{u":site"_s, document.site.id.text()}});
    if (!found)
        return tl::unexpected(found.error());
    for (const store::Row& row : found->rows)
        document.points.push_back({PointId(row.text(u"point_id")),
                                   row.text(u"panel"),
                                   row.text(u"circuit"),
                                   row.text(u"name"),
                                   row.flag(u"is_lockable"),
                                   {}});
    return {};
}

Result<void> SiteStore::readFeeds(SiteDocument& document) const
{
    const auto found = m_database->run(
        u"SELECT point_id, lamphouse_id, role_id FROM isolation_feed WHERE site_id = :site ORDER BY position"_s,
        {{u":site"_s, document.site.id.text()}});
    if (!found)
        return tl::unexpected(found.error());
    for (const store::Row& row : found->rows) {
        if (IsolationPoint* point = partOf(document.points, PointId(row.text(u"point_id"))))
            point->feeds.push_back(
                {LamphouseId(row.text(u"lamphouse_id")), catalogue::RoleId(row.text(u"role_id"))});
    }
    return {};
}

Result<SiteId> SiteStore::siteOf(const LamphouseId& lamphouse) const
{
    const auto found = m_database->run(u"SELECT site_id FROM lamphouse WHERE lamphouse_id = :lamphouse"_s,
                                       {{u":lamphouse"_s, lamphouse.text()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::NotFound, u"lamphouse "_s + lamphouse.text());
    return SiteId(found->rows.front().text(u"site_id"));
}

Result<std::vector<Site>> SiteStore::all() const
{
    const auto found =
        m_database->run(u"SELECT site_id, name, town, may_prove_absence, local_rules, lock_notes "
                        "FROM site ORDER BY name, site_id"_s);
    if (!found)
        return tl::unexpected(found.error());
    std::vector<Site> sites;
    for (const store::Row& row : found->rows) {
        auto site = siteFrom(row);
        if (!site)
            return tl::unexpected(site.error());
        sites.push_back(std::move(*site));
    }
    return sites;
}

Result<void> SiteStore::setFitted(const LamphouseId& lamphouse, const std::optional<LampId>& lamp)
{
    return changedOne(
        m_database->run(u"UPDATE lamphouse SET fitted_lamp_id = :lamp WHERE lamphouse_id = :lamphouse"_s,
                        {{u":lamphouse"_s, lamphouse.text()},
                         {u":lamp"_s, lamp ? QVariant(lamp->text()) : store::sqlNull()}}),
        u"lamphouse "_s + lamphouse.text());
}

} // namespace coldarc::site
