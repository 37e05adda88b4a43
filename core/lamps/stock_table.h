#pragma once

#include "core/base/ids.h"
#include "core/catalogue/lamp_type.h"
#include "core/lamps/custody.h"

#include <QList>
#include <QString>

#include <cstdint>

namespace coldarc::lamps {

/// One lamp of a pasted table.
struct StockRow {
    int line = 0; ///< of the text, from 1
    LampTypeId type;
    QString serial; ///< as it stands in the table; empty only for one on order
    Custody custody = Custody::InStock;

    friend bool operator==(const StockRow&, const StockRow&) = default;
};

/// A line that says nothing that can be taken.
struct BadStockRow {
    enum class Cause : std::uint8_t {
        NotThreeFields,
        TypeNotInCatalogue,
        TypeNamesSeveral,
        SerialMissing,
        NoSuchCustody,
        CustodyNotForATable, ///< a fitted lamp needs its lamphouse, a kept one its site, a used-up one is not
                             ///< stock
        TwiceInTheTable,     ///< a lamp of this type and serial stands further up
        KnownAlready,        ///< the workspace has this lamp
    };
    int line = 0;
    Cause cause = Cause::NotThreeFields;
    QString text; ///< the line as it was pasted

    friend bool operator==(const BadStockRow&, const BadStockRow&) = default;
};

/// A table that was taken apart.
struct StockTable {
    QList<StockRow> rows;
    QList<BadStockRow> bad;
};

/// Takes a pasted table apart: one lamp a line, `type;serial;custody`, or the same with tabs as a sheet gives
/// them. The type is the code of a catalogue type, dashes, spaces and case aside, and never a near one; the
/// custody is one of its words, in any case: on-order, in-stock, in-van, boxed. Empty lines are passed over.
[[nodiscard]] StockTable readStockTable(const QString& text, const QList<catalogue::LampType>& lampTypes);

} // namespace coldarc::lamps
