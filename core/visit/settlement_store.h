#pragma once

#include "core/site/site_store.h"
#include "core/visit/owed_store.h"
#include "core/visit/settlement.h"

#include <cstdint>

namespace coldarc::visit {

/// A part of a settlement that the workspace did not take. Somebody has to look.
struct Leftover {
    enum class Kind : std::uint8_t {
        Counters,      ///< `question`: the lamp's hours cannot be told, so it did not come out
        SeatDiffers,   ///< the workspace has another lamp in this lamphouse, or none, or this lamp elsewhere
        LampIsThere,   ///< the lamp cannot go from where the workspace has it, `from`, to `to`
        Contradicted,  ///< a row of the workspace forbids it, such as a second lamp with this serial
        NotUnderstood, ///< the whole visit: an entry before its end is of a kind that this program does not
                       ///< know
        NotWritten,    ///< the whole visit: the disk or the database refused
    };
    Kind kind = Kind::Contradicted;
    LamphouseId lamphouse{};
    LampFacts lamp{};
    std::optional<lamps::CounterQuestion> question{};
    std::optional<lamps::Custody> from{};
    std::optional<lamps::Custody> to{};

    friend bool operator==(const Leftover&, const Leftover&) = default;
};

/// Whether hours are told from the counters. Set aside, a lamp whose counters raise a question comes out with
/// hours unknown.
enum class CountersAre : std::uint8_t {
    AsRead,
    SetAside,
};

/// Carries what closed visits say over to the lamps and sites of the workspace, and remembers which visits
/// need no more of it.
class SettlementStore {
public:
    /// Borrows the database, which must outlive this. Schema: steps 0006 and 0008.
    explicit SettlementStore(store::Database& database)
        : m_database(&database)
        , m_lamps(database)
        , m_sites(database)
        , m_owed(database)
    {
    }

    /// In one transaction; what stands already is left as it is, so a second time changes nothing. The deeds
    /// of one seat are done all or not at all; every other lamp is handed on its own. A lamp that the
    /// workspace does not know by its id, or knows without a serial, is the one of that type with that
    /// serial, else it is added where its type is known; of one that nobody knows the type of, the logbook
    /// alone tells. What is owed goes over whatever is left over.
    /// @return what could not be done; nothing: the visit is settled. Storage, Refused: nothing was written.
    Result<std::vector<Leftover>> settle(const Settlement& settlement, WallTime now,
                                         CountersAre counters = CountersAre::AsRead);

    [[nodiscard]] Result<bool> isSettled(const VisitId& visit) const;

private:
    class Settling;

    /// The same, each lamp by the id that this workspace has for it.
    [[nodiscard]] Result<Settlement> asKnownHere(Settlement settlement) const;
    [[nodiscard]] Result<bool> isMarked(const VisitId& visit) const;

    store::Database* m_database;
    lamps::LampStore m_lamps;
    site::SiteStore m_sites;
    OwedStore m_owed;
};

} // namespace coldarc::visit
