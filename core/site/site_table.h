#pragma once

#include "core/base/id_source.h"
#include "core/site/site.h"

#include <tl/expected.hpp>

#include <vector>

namespace coldarc::site {

/// One line of a pasted table: which lamphouse is energised through which point.
struct SiteRow {
    int line = 0; ///< counted from 1, the header's line included
    QString screen;
    QString projector; ///< label; empty where the table has no such column
    QString model;
    QString lamphouse;
    QString panel;
    QString circuit;
    QString point; ///< the name as the engineer says it; empty: "panel, circuit" for a new one
    QString role;
    bool isLockable = false;
    std::optional<double> weeklyHours;

    friend bool operator==(const SiteRow&, const SiteRow&) = default;
};

/// Why a line was not taken.
struct BadRow {
    enum class Why : std::uint8_t {
        Empty,         ///< no line of data at all
        MissingColumn, ///< `column` is needed
        UnknownColumn, ///< `column` is none of ours
        DoubledColumn,
        OpenQuote, ///< a quoted cell does not end
        TooManyCells,
        EmptyCell,
        NotYesOrNo,
        NotHours,      ///< not a number from 0 to 168
        Contradiction, ///< `column` says otherwise than an earlier line, or than the site so far
        Repetition,    ///< this lamphouse hangs on this point already
    };
    int line = 0;   ///< counted from 1
    QString column; ///< empty where the line as a whole is meant
    Why why = Why::Empty;

    friend bool operator==(const BadRow&, const BadRow&) = default;
};

/// What a breaker is called where nobody says otherwise: "B, 14".
[[nodiscard]] QString nameOfPoint(const QString& panel, const QString& circuit);

/// Reads a table with a header: cells parted by tabs, semicolons or commas, whichever the header has (in this
/// order); quoted as in RFC 4180. Columns in any order, case and underscores do not matter: screen, model,
/// lamphouse, panel, circuit, role, lockable (yes/no, y/n, true/false, 1/0) are needed; projector, point and
/// weekly hours (point or comma for the decimals) may be left out or empty. Blank lines are passed over.
/// @return the rows, or every line that is bad with all that is wrong with it, in order of lines.
[[nodiscard]] tl::expected<std::vector<SiteRow>, std::vector<BadRow>> readSiteTable(const QString& text);

/// The site with the rows added. Screens are told apart by name, projectors by screen and label, lamphouses
/// by projector and label, points by panel and circuit; what is there already is used, what is not gets an id
/// from `ids`.
/// @return the site as it would be, or every row that contradicts or repeats; nothing is added then.
[[nodiscard]] tl::expected<SiteDocument, std::vector<BadRow>>
withRows(SiteDocument document, const std::vector<SiteRow>& rows, IdSource& ids);

} // namespace coldarc::site
