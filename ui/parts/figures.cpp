#include "ui/parts/figures.h"

#include <algorithm>

namespace coldarc::ui {

namespace {

qreal cellWidth(const QFontMetricsF& metrics)
{
    qreal widest = 0;
    for (char16_t digit = u'0'; digit <= u'9'; ++digit)
        widest = std::max(widest, metrics.horizontalAdvance(QChar(digit)));
    return widest;
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
    return isFigure(run.front()) ? cell : metrics.horizontalAdvance(run);
}

QStringList brokenWord(const QFontMetricsF& metrics, const QString& word, qreal width)
{
    QStringList pieces;
    QString piece;
    for (const QChar letter : word) {
        if (!piece.isEmpty() && figureAdvance(metrics, piece + letter) > width) {
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
    const qreal cell = cellWidth(metrics);
    qreal width = 0;
    for (const QString& run : runsOf(line))
        width += runWidth(metrics, run, cell);
    return width;
}

QStringList figureLines(const QFontMetricsF& metrics, const QString& text, qreal width)
{
    QStringList lines;
    for (const QString& paragraph : text.split(u'\n')) {
        QString line;
        for (const QString& word : paragraph.split(u' ', Qt::SkipEmptyParts)) {
            const QString longer = line.isEmpty() ? word : line + u' ' + word;
            if (figureAdvance(metrics, longer) <= width) {
                line = longer;
                continue;
            }
            if (!line.isEmpty())
                lines.append(line);
            const QStringList pieces = brokenWord(metrics, word, width);
            lines.append(pieces.first(pieces.size() - 1));
            line = pieces.constLast();
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
        painter.drawText(from + QPointF((width - metrics.horizontalAdvance(run)) / 2, 0), run);
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
