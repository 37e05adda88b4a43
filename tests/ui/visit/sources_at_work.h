#pragma once

#include "core/store/journal.h"
#include "core/store/summaries.h"
#include "core/visit/logbook.h"
#include "tests/core/visit/night.h"
#include "ui/visit/visit_sources.h"

namespace coldarc::test {

/// A workspace in memory with one engineer, the night's site of two screens and a van with two lamps. All of
/// it is invented.
class SourcesAtWork : public ::testing::Test {
protected:
    class Shelf final : public ui::VisitShelf {
    public:
        explicit Shelf(SourcesAtWork& owner)
            : m_owner(owner)
        {
        }
        [[nodiscard]] Result<QList<ui::VisitLine>> all() const override
        {
            const auto summaries = m_owner.summaries.all();
            QList<ui::VisitLine> lines;
            for (const store::VisitSummary& one : *summaries)
                lines.append(
                    {one.visit, one.site, one.siteText, one.openedAt, one.state, one.swaps, one.isSigned});
            return lines;
        }
        [[nodiscard]] Result<visit::VisitState> state(const VisitId& visit) const override
        {
            const auto logbook = visit::Logbook::read(m_owner.journal, m_owner.summaries, visit);
            if (!logbook)
                return tl::unexpected(logbook.error());
            return logbook->state();
        }
        [[nodiscard]] Result<void> begin(const PersonId& by, const visit::Opening& opening) override
        {
            const auto begun =
                visit::Logbook::begin(m_owner.journal, m_owner.summaries, by, opening, m_owner.clock.now());
            if (!begun)
                return tl::unexpected(begun.error());
            return {};
        }

    private:
        SourcesAtWork& m_owner;
    };

    void SetUp() override
    {
        people::Person ada;
        ada.id = PersonId(QStringLiteral("ada"));
        ada.name = QStringLiteral("A. Okoro");
        ada.role = people::Role::Engineer;
        ASSERT_TRUE(people.add(ada));
        people::Authorisation authorisation;
        authorisation.id = people::AuthorisationId(QStringLiteral("a1"));
        authorisation.person = authorisation.givenBy = ada.id;
        authorisation.from = people::Day{std::chrono::year(2026) / 1 / 1};
        authorisation.until = people::Day{std::chrono::year(2026) / 12 / 31};
        ASSERT_TRUE(people.give(authorisation));
        site::SiteDocument site =
            Night(QStringLiteral("larkmoor-teal"), Night::Crew::Alone, {}, {}, 2).opening().site;
        for (site::Lamphouse& lamphouse : site.lamphouses)
            lamphouse.fitted.reset();
        ASSERT_TRUE(sites.save(site));
        addLamp(QStringLiteral("new-1"), QStringLiteral("NEW-1"));
        addLamp(QStringLiteral("new-2"), QStringLiteral("NEW-2"));
    }
    void addLamp(const QString& id, const QString& serial)
    {
        const auto* model = shippedCatalogue().model(ModelId(QStringLiteral("larkmoor-teal")));
        lamps::CustodyMove move;
        move.id = lamps::MoveId(QStringLiteral("move-") + id);
        move.lamp = LampId(id);
        move.custody = lamps::Custody::InVan;
        move.holder = PersonId(QStringLiteral("ada"));
        move.at = clock.now().wall;
        ASSERT_TRUE(
            lamps.add({LampId(id), model->lampTypes.first(), serial, lamps::LampHours::fromHours(0)}, move));
    }
    /// The next show on the first screen.
    void showAt(WallTime start)
    {
        site::SiteDocument site = sites.load(SiteId(QStringLiteral("pier-street"))).value();
        site.screens.front().showStarts = {start};
        ASSERT_TRUE(sites.save(site));
    }
    [[nodiscard]] LamphouseId lamphouse(int screen) const
    {
        return sites.load(SiteId(QStringLiteral("pier-street")))
            ->lamphouses[static_cast<std::size_t>(screen - 1)]
            .id;
    }
    [[nodiscard]] ui::VisitSources sources()
    {
        return {people,
                gear,
                sites,
                lamps,
                plans,
                owed,
                shippedCatalogue(),
                shippedProcedures(),
                []() -> const procedure::ProcedureLoading& { return shippedProcedures(); },
                shelf,
                clock,
                ids,
                QTimeZone::utc()};
    }

    FakeClock clock; ///< 2026-11-18 11:06:40 UTC
    CountingIds ids;
    store::Database database = store::Database::inMemory();
    store::Journal journal{database};
    store::Summaries summaries{database};
    people::PeopleStore people{database};
    people::GearStore gear{database};
    site::SiteStore sites{database};
    lamps::LampStore lamps{database};
    visit::PlanStore plans{database};
    visit::OwedStore owed{database};
    Shelf shelf{*this};
};

} // namespace coldarc::test
