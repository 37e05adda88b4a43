#include "core/base/table_text.h"

#include <algorithm>
#include <utility>

using namespace Qt::StringLiterals;

namespace coldarc {
namespace {

class CellReader {
public:
    CellReader(const QString& text, QChar separator)
        : m_text(text)
        , m_separator(separator)
    {
    }

    std::vector<TableLine> lines()
    {
        for (m_at = 0; m_at < m_text.size(); ++m_at)
            m_isQuoted ? takeQuoted(m_text.at(m_at)) : takePlain(m_text.at(m_at));
        m_line.isOpenQuote = m_isQuoted;
        endLine();
        return std::move(m_lines);
    }

private:
    void takeQuoted(QChar one)
    {
        if (one == u'\n')
            ++m_number;
        if (one != u'"')
            m_cell += one;
        else if (m_at + 1 < m_text.size() && m_text.at(m_at + 1) == u'"')
            m_cell += m_text.at(++m_at);
        else
            m_isQuoted = false;
    }
    void takePlain(QChar one)
    {
        if (one == m_separator)
            endCell();
        else if (one == u'\n')
            endLine();
        else if (one == u'"' && m_cell.trimmed().isEmpty())
            m_isQuoted = true;
        else
            m_cell += one;
    }
    void endCell() { m_line.cells.append(std::exchange(m_cell, {}).trimmed()); }
    void endLine()
    {
        endCell();
        const bool isBlank = std::all_of(m_line.cells.begin(), m_line.cells.end(),
                                         [](const QString& cell) { return cell.isEmpty(); });
        if (!isBlank || m_line.isOpenQuote)
            m_lines.push_back(m_line);
        m_line = TableLine{++m_number, {}, false};
    }

    const QString& m_text;
    QChar m_separator;
    qsizetype m_at = 0;
    int m_number = 1;
    bool m_isQuoted = false;
    QString m_cell;
    TableLine m_line{1, {}, false};
    std::vector<TableLine> m_lines;
};

/// Made plain where a spreadsheet would reckon with it, quoted where it has to be.
QString cellText(QString cell)
{
    bool isNumber = false;
    static_cast<void>(cell.toDouble(&isNumber));
    if (!isNumber && !cell.isEmpty() && u"=+-@\t\r"_s.contains(cell.front()))
        cell.prepend(u'\'');
    const bool isQuoted =
        cell.contains(u',') || cell.contains(u'"') || cell.contains(u'\n') || cell.contains(u'\r');
    return isQuoted ? u'"' + cell.replace(u'"', u"\"\""_s) + u'"' : cell;
}

} // namespace

QString withPlainLineEnds(QString text)
{
    text.replace(u"\r\n"_s, u"\n"_s).replace(u'\r', u'\n').remove(u'\ufeff');
    return text;
}

QChar separatorIn(QStringView header)
{
    for (const QChar separator : {u'\t', u';'}) {
        if (header.contains(separator))
            return separator;
    }
    return u',';
}

std::vector<TableLine> tableLines(const QString& text, QChar separator)
{
    return CellReader(text, separator).lines();
}

QString textOfTable(const std::vector<QStringList>& lines)
{
    QString text;
    for (const QStringList& cells : lines) {
        QStringList written;
        for (const QString& cell : cells)
            written.append(cellText(cell));
        text += written.join(u',') + u"\r\n"_s;
    }
    return text;
}

} // namespace coldarc
