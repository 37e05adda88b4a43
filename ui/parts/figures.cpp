#include "ui/parts/figures.h"

#include <QHash>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <list>

using namespace Qt::StringLiterals;

namespace coldarc::ui {

namespace {

constexpr qreal kNearEdge = 4; ///< px

/// Shaping a run of letters is what measuring costs, and a page measures the same ones over and over: in a
/// few fonts, whose last users' metrics are held here so that they can be told apart.
class Measured {
public:
    explicit Measured(const QFontMetricsF& metrics)
        : m_metrics(metrics)
    {
        for (char16_t digit = u'0'; digit <= u'9'; ++digit)
            m_cell = std::max(m_cell, metrics.horizontalAdvance(QChar(digit)));
    }
    [[nodiscard]] bool isOf(const QFontMetricsF& metrics) const { return m_metrics == metrics; }
    [[nodiscard]] qreal cell() const { return m_cell; }
    qreal advance(const QString& run)
    {
        const auto known = m_advances.constFind(run);
        if (known != m_advances.constEnd())
            return *known;
        if (m_advances.size() >= kMostRuns)
            m_advances.clear();
        return *m_advances.insert(run, m_metrics.horizontalAdvance(run));
    }

private:
    static constexpr qsizetype kMostRuns = 4000;
    QFontMetricsF m_metrics;
    qreal m_cell = 0;
    QHash<QString, qreal> m_advances;
};

Measured& measured(const QFontMetricsF& metrics)
{
    constexpr std::size_t kMostFonts = 12;
    static auto& fonts = *new std::list<Measured>; // the one used last stands first; outlives the fonts of Qt
    const auto known =
        std::find_if(fonts.begin(), fonts.end(), [&](const Measured& one) { return one.isOf(metrics); });
    if (known != fonts.end()) {
        fonts.splice(fonts.begin(), fonts, known);
        return fonts.front();
    }
    if (fonts.size() == kMostFonts)
        fonts.pop_back();
    return fonts.emplace_front(metrics);
}

qreal cellWidth(const QFontMetricsF& metrics)
{
    return measured(metrics).cell();
}

bool isFigure(QChar letter)
{
    return letter >= u'0' && letter <= u'9';
}

// A digit, or a stretch without digits.
QStringList runsOf(const QString& line)
{
    QStringList runs;
    for (const QChar letter : line) {
        if (runs.isEmpty() || isFigure(letter) || isFigure(runs.constLast().back()))
            runs.append(QString(letter));
        else
            runs.last().append(letter);
    }
    return runs;
}

qreal runWidth(const QFontMetricsF& metrics, const QString& run, qreal cell)
{
    return isFigure(run.front()) ? cell : measured(metrics).advance(run);
}

qreal advanceOf(const QFontMetricsF& metrics, const QString& line, qreal cell)
{
    qreal width = 0;
    for (const QString& run : runsOf(line))
        width += runWidth(metrics, run, cell);
    return width;
}

QStringList brokenWord(const QFontMetricsF& metrics, const QString& word, qreal width, qreal cell)
{
    QStringList pieces;
    QString piece;
    for (const QChar letter : word) {
        if (!piece.isEmpty() && advanceOf(metrics, piece + letter, cell) > width) {
            pieces.append(piece);
            piece.clear();
        }
        piece.append(letter);
    }
    pieces.append(piece);
    return pieces;
}

} // namespace

qreal figureAdvance(const QFontMetricsF& metrics, const QString& line)
{
    return advanceOf(metrics, line, cellWidth(metrics));
}

QStringList figureLines(const QFontMetricsF& metrics, const QString& text, qreal width)
{
    const qreal cell = cellWidth(metrics);
    const qreal space = measured(metrics).advance(u" "_s);
    QStringList lines;
    for (const QString& paragraph : text.split(u'\n')) {
        QString line;
        qreal used = 0;
        for (const QString& word : paragraph.split(u' ', Qt::SkipEmptyParts)) {
            const qreal wordWidth = advanceOf(metrics, word, cell);
            const QString longer = line.isEmpty() ? word : line + u' ' + word;
            // Words are measured one by one, since shaping the whole line for each is what costs; letters
            // that meet across a space may stand a little closer, so at the very edge the line itself counts.
            qreal wanted = line.isEmpty() ? wordWidth : used + space + wordWidth;
            if (std::abs(wanted - width) < kNearEdge)
                wanted = advanceOf(metrics, longer, cell);
            if (wanted <= width) {
                line = longer;
                used = wanted;
                continue;
            }
            if (!line.isEmpty())
                lines.append(line);
            line = word;
            used = wordWidth;
            if (wordWidth > width) {
                const QStringList pieces = brokenWord(metrics, word, width, cell);
                lines.append(pieces.first(pieces.size() - 1));
                line = pieces.constLast();
                used = advanceOf(metrics, line, cell);
            }
        }
        lines.append(line);
    }
    return lines;
}

void drawFigures(QPainter& painter, QPointF from, const QString& line)
{
    const QFontMetricsF metrics(painter.font());
    const qreal cell = cellWidth(metrics);
    for (const QString& run : runsOf(line)) {
        const qreal width = runWidth(metrics, run, cell);
        painter.drawText(from + QPointF((width - measured(metrics).advance(run)) / 2, 0), run);
        from.rx() += width;
    }
}

void drawFigureLines(QPainter& painter, const QRectF& inside, Qt::Alignment alignment,
                     const QStringList& lines)
{
    const QFontMetricsF metrics(painter.font());
    const qreal spacing = metrics.lineSpacing();
    const qreal height = spacing * static_cast<qreal>(lines.size());
    qreal top = inside.top();
    if (alignment.testFlag(Qt::AlignVCenter))
        top += (inside.height() - height) / 2;
    else if (alignment.testFlag(Qt::AlignBottom))
        top += inside.height() - height;
    for (const QString& line : lines) {
        const qreal spare = inside.width() - figureAdvance(metrics, line);
        qreal left = inside.left();
        if (alignment.testFlag(Qt::AlignHCenter))
            left += spare / 2;
        else if (alignment.testFlag(Qt::AlignRight))
            left += spare;
        drawFigures(painter, {left, top + metrics.ascent() + metrics.leading() / 2}, line);
        top += spacing;
    }
}

QString figureElided(const QFontMetricsF& metrics, const QString& line, qreal width)
{
    if (figureAdvance(metrics, line) <= width)
        return line;
    QString cut = line;
    while (!cut.isEmpty() && figureAdvance(metrics, cut + QChar(0x2026)) > width)
        cut.chop(1);
    return cut.trimmed() + QChar(0x2026);
}

} // namespace coldarc::ui
