#pragma once

#include "core/site/site.h"
#include "core/store/database.h"

namespace coldarc::site {

/// The sites of one workspace as they are today. What a visit decided on is kept in the visit; a change here
/// rewrites none.
class SiteStore {
public:
    /// Borrows the database, which must outlive this. Schema: step 0003.
    explicit SiteStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Writes the whole site over what was there; parts that the document no longer has go. All or nothing.
    /// Conflict if two parts have the same id, a part refers to one that is not in the document, a lamp is
    /// fitted twice in the workspace, or an id belongs to another site. Malformed if a name or label is
    /// empty, or the weekly hours are out of range.
    Result<void> save(const SiteDocument& document);
    /// NotFound if there is none.
    [[nodiscard]] Result<SiteDocument> load(const SiteId& site) const;
    /// The site that this lamphouse is at. NotFound if there is no such lamphouse.
    [[nodiscard]] Result<SiteId> siteOf(const LamphouseId& lamphouse) const;
    /// All sites without their contacts, by name.
    [[nodiscard]] Result<std::vector<Site>> all() const;

    /// What is known to be in a lamphouse now; nothing: unknown. NotFound if there is no such lamphouse,
    /// Conflict if the lamp is in another one.
    Result<void> setFitted(const LamphouseId& lamphouse, const std::optional<LampId>& lamp);

private:
    Result<void> writeParts(const SiteDocument& document);
    Result<void> writeSite(const Site& site);
    Result<void> writeScreen(const SiteId& site, const Screen& screen, int position);
    Result<void> writeProjector(const SiteId& site, const Projector& projector, int position);
    Result<void> writeLamphouse(const SiteId& site, const Lamphouse& lamphouse, int position);
    Result<void> writePoint(const SiteId& site, const IsolationPoint& point, int position);
    Result<void> writeShows(const ScreenId& screen, const std::vector<WallTime>& starts);
    Result<void> removeLeftovers(const SiteDocument& document);
    /// One statement that must change exactly one row: Conflict if it changed none.
    Result<void> runOnPart(const QString& sql, const store::Bindings& bindings);

    [[nodiscard]] Result<void> readContacts(SiteDocument& document) const;
    [[nodiscard]] Result<void> readScreens(SiteDocument& document) const;
    [[nodiscard]] Result<void> readShows(SiteDocument& document) const;
    [[nodiscard]] Result<void> readProjectors(SiteDocument& document) const;
    [[nodiscard]] Result<void> readLamphouses(SiteDocument& document) const;
    [[nodiscard]] Result<void> readPoints(SiteDocument& document) const;
    [[nodiscard]] Result<void> readFeeds(SiteDocument& document) const;

    store::Database* m_database;
};

} // namespace coldarc::site
