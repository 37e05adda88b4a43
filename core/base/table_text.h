#pragma once

#include <QString>
#include <QStringList>

#include <vector>

namespace coldarc {

/// One line of a table that somebody pasted or another program wrote.
struct TableLine {
    int number = 0;           ///< where it begins in the text, counted from 1
    QStringList cells;        ///< trimmed; at least one
    bool isOpenQuote = false; ///< its last cell begins with a quotation mark and does not end

    friend bool operator==(const TableLine&, const TableLine&) = default;
};

/// The text with its lines parted by '\n' alone, without a byte order mark.
[[nodiscard]] QString withPlainLineEnds(QString text);

/// The first of tab and semicolon that stands in `header`, else a comma.
[[nodiscard]] QChar separatorIn(QStringView header);

/// Takes a text with plain line ends apart into lines of cells, by the grammar of RFC 4180 section 2 with any
/// separator. Lines whose cells are all empty are left out.
[[nodiscard]] std::vector<TableLine> tableLines(const QString& text, QChar separator);

/// A table for other programs, by RFC 4180 section 2: commas, CRLF behind each line, quotation marks where
/// they are needed. A cell that is no number and begins with '=', '+', '-', '@', a tab or a carriage return
/// gets an apostrophe before it, since a spreadsheet would reckon with it otherwise (OWASP, "CSV Injection",
/// from memory).
[[nodiscard]] QString textOfTable(const std::vector<QStringList>& lines);

} // namespace coldarc
