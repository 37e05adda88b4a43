#pragma once

#include "core/base/id_source.h"
#include "core/lamps/lamp.h"
#include "core/lamps/stock_table.h"
#include "core/lamps/usage.h"
#include "core/store/database.h"

#include <functional>
#include <optional>
#include <variant>
#include <vector>

namespace coldarc::lamps {

using MoveId = Id<struct CustodyMoveTag>;
using CounterReadingId = Id<struct CounterReadingTag>;

/// A lamp goes into somebody's hands.
struct CustodyMove {
    MoveId id;
    LampId lamp;
    Custody custody = Custody::InStock;
    PersonId holder; ///< needed in a van, else may name nobody
    SiteId site;     ///< needed when the site keeps it, else may name none
    WallTime at{};
    std::optional<MoveId> corrects{}; ///< the last move of this lamp, when that was wrong

    friend bool operator==(const CustodyMove&, const CustodyMove&) = default;
};

/// One look at the hour counter of a lamphouse.
struct CounterReading {
    CounterReadingId id;
    LamphouseId lamphouse;
    CounterHours hours;
    WallTime at{};
    std::optional<CounterReadingId> corrects{};

    friend bool operator==(const CounterReading&, const CounterReading&) = default;
};

/// The readings as usage is told from them: weeks after 1970-01-01, hours.
[[nodiscard]] std::vector<CounterPoint> counterPoints(const std::vector<CounterReading>& readings);

/// A lamp and where it is.
struct LampInCustody {
    Lamp lamp;
    Custody custody = Custody::InStock;
    PersonId holder;
    SiteId site;

    friend bool operator==(const LampInCustody&, const LampInCustody&) = default;
};

/// The custodies do not allow this move; nothing was written.
struct MoveNotAllowed {
    std::optional<Custody> from; ///< nothing: the lamp is new
    Custody to = Custody::InStock;

    friend bool operator==(const MoveNotAllowed&, const MoveNotAllowed&) = default;
};
struct Moved {
    friend bool operator==(const Moved&, const Moved&) = default;
};
using MoveAnswer = std::variant<Moved, MoveNotAllowed>;

/// A lamp comes out.
struct Removal {
    FitId fit;
    std::optional<CounterHours> counterOut; ///< nothing: it cannot be read, and the hours stay unknown
    WallTime to{};
    Cause cause = Cause::Other;
    std::optional<CounterReset> reset;
    /// Whether the hours are held against the wall clock. Not when somebody says that the clock is wrong.
    enum class Against : std::uint8_t {
        WallClock,
        Nothing,
    };
    Against against = Against::WallClock;
};
struct Removed {
    std::optional<LampHours> run; ///< in this stay; nothing: not known
    friend bool operator==(const Removed&, const Removed&) = default;
};
using RemovalAnswer = std::variant<Removed, CounterQuestion, MoveNotAllowed>;

/// What became of a pasted table: either all of it is in, or nothing.
struct StockImport {
    int imported = 0;
    QList<BadStockRow> bad; ///< by line; when there is one, nothing was imported
};

/// The lamps of one workspace. Facts are appended and never changed; every call is one transaction.
///
/// Conflict: an id is taken, a lamp or fit that is named is not there, a second lamp of one type with one
/// serial, a lamphouse that holds a lamp already. Malformed: a van without its person, a keeping site without
/// its name.
class LampStore {
public:
    /// Borrows the database, which must outlive this. Schema: step 0004.
    explicit LampStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// What is done in here, in this store and in others of the workspace, is one transaction.
    Result<void> together(const std::function<Result<void>()>& work) { return m_database->transaction(work); }

    /// A lamp that was not known. `lamp.hours` is what it burnt before; `first.corrects` is not used. A
    /// fitted one comes by `addFitted`.
    Result<MoveAnswer> add(const Lamp& lamp, const CustodyMove& first);
    /// A lamp that was not known and is found in a lamphouse. `fit.end` is not used.
    Result<void> addFitted(const Lamp& lamp, const Fit& fit, const MoveId& move);
    /// A serial that was read later, or better. The last one counts.
    Result<void> readSerial(const LampId& lamp, const QString& serial, WallTime at);

    /// Not into a seat nor out of it: that is `beginFit` and `endFit`. A correction goes from where the lamp
    /// was before the wrong move. Conflict if `corrects` is not the last move of this lamp.
    Result<MoveAnswer> move(const CustodyMove& move);
    /// A lamp goes in. `fit.end` is not used.
    Result<MoveAnswer> beginFit(const Fit& fit, const MoveId& move);
    /// A lamp comes out, and goes where `move` says (its `lamp` is not used). NotFound without such a fit.
    /// When the counters raise a question nothing is written: ask, then call again.
    Result<RemovalAnswer> endFit(const Removal& removal, const CustodyMove& move);

    Result<void> addReading(const CounterReading& reading);

    /// Imports all rows, new lamps with 0 h and boxed ones with unknown hours, or none if a row is bad.
    /// @param holder  whose van the rows in a van are.
    Result<StockImport> importStock(const StockTable& table, const PersonId& holder, WallTime at,
                                    IdSource& ids);

    /// NotFound if there is none.
    [[nodiscard]] Result<LampInCustody> lamp(const LampId& id) const;
    /// By type, then serial.
    [[nodiscard]] Result<std::vector<LampInCustody>> in(Custody custody) const;
    [[nodiscard]] Result<std::vector<LampInCustody>> vanStock(const PersonId& holder) const;
    /// Those whose serial holds this part, however both are spaced; every lamp for an empty one. The one that
    /// was entered last first, at most `most`, > 0.
    [[nodiscard]] Result<std::vector<LampInCustody>> withSerial(const QString& part, int most) const;
    /// The one lamp of this type whose serial this is, however both are spaced; nothing if there is none.
    [[nodiscard]] Result<std::optional<LampId>> ofTypeWithSerial(const LampTypeId& type,
                                                                 const QString& serial) const;
    /// The moves that count, oldest first.
    [[nodiscard]] Result<std::vector<CustodyMove>> moves(const LampId& lamp) const;
    /// Oldest first.
    [[nodiscard]] Result<std::vector<Fit>> fitsOf(const LampId& lamp) const;
    [[nodiscard]] Result<std::vector<Fit>> fitsIn(const LamphouseId& lamphouse) const;
    /// The stay that has not ended; nothing: no lamp is known to be in.
    [[nodiscard]] Result<std::optional<Fit>> runningIn(const LamphouseId& lamphouse) const;
    /// Whether a move, or a reading, of this id was written.
    [[nodiscard]] Result<bool> has(const MoveId& move) const;
    [[nodiscard]] Result<bool> has(const CounterReadingId& reading) const;
    /// The readings that count, by their moment.
    [[nodiscard]] Result<std::vector<CounterReading>> readings(const LamphouseId& lamphouse) const;

private:
    Result<void> insertLamp(const Lamp& lamp, WallTime at);
    Result<void> insertMove(const CustodyMove& move);
    Result<void> insertFit(const Fit& fit);
    Result<std::vector<LampInCustody>> lampsOf(const QString& sql, const store::Bindings& bindings) const;
    Result<std::vector<Fit>> fitsOf(const QString& sql, const store::Bindings& bindings) const;
    Result<void> endOnly(const Removal& removal, const std::optional<LampHours>& run);

    store::Database* m_database;
};

} // namespace coldarc::lamps
