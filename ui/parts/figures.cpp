#include "ui/parts/figures.h"

#include <QGlyphRun>
#include <QHash>
#include <QTextLayout>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <list>

using namespace Qt::StringLiterals;

namespace coldarc::ui {

namespace {

constexpr std::size_t kMostFonts = 12;
constexpr qsizetype kMostRuns = 4000;

/// The one of these that `isWanted`; made if there is none. The one used last stands first.
template<class Kept, class Wanted, class Make>
Kept& keptOrMade(std::list<Kept>& kept, const Wanted& isWanted, const Make& make)
{
    const auto known = std::find_if(kept.begin(), kept.end(), isWanted);
    if (known != kept.end()) {
        kept.splice(kept.begin(), kept, known);
        return kept.front();
    }
    if (kept.size() == kMostFonts)
        kept.pop_back();
    kept.push_front(make());
    return kept.front();
}

bool isFigure(QChar letter)
{
    return letter >= u'0' && letter <= u'9';
}

/// As wide as the widest figure of a font. Ten glyphs are loaded for it, once there is a figure to be set.
class Cell {
public:
    explicit Cell(const QFontMetricsF& metrics)
        : m_metrics(metrics)
    {
    }
    qreal width()
    {
        for (char16_t digit = u'0'; !m_isKnown && digit <= u'9'; ++digit)
            m_width = std::max(m_width, m_metrics.horizontalAdvance(QChar(digit)));
        m_isKnown = true;
        return m_width;
    }

private:
    QFontMetricsF m_metrics;
    qreal m_width = 0;
    bool m_isKnown = false;
};

/// Shaping a run of letters is what measuring costs, and a page measures the same ones over and over: in a
/// few fonts, whose last users' metrics are held here so that they can be told apart.
class Measured {
public:
    explicit Measured(const QFontMetricsF& metrics)
        : m_metrics(metrics)
        , m_cell(metrics)
    {
    }
    [[nodiscard]] bool isOf(const QFontMetricsF& metrics) const { return m_metrics == metrics; }
    [[nodiscard]] qreal cell() { return m_cell.width(); }
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
    QFontMetricsF m_metrics;
    Cell m_cell;
    QHash<QString, qreal> m_advances;
};

Measured& measured(const QFontMetricsF& metrics)
{
    static auto& fonts = *new std::list<Measured>; // outlives the fonts of Qt
    return keptOrMade(
        fonts, [&](const Measured& one) { return one.isOf(metrics); }, [&] { return Measured(metrics); });
}

/// The same for painting, and for measuring what is painted: each run is shaped once and painted as its
/// glyphs from then on. Told apart by font, since a painter makes a font of its own of every one that it is
/// given.
class Shaped {
public:
    struct Run {
        QList<QGlyphRun> glyphs; ///< from the left end of the base line
        qreal width = 0;
    };

    explicit Shaped(const QFont& font)
        : m_font(font)
        , m_metrics(font)
        , m_cell(m_metrics)
    {
    }
    [[nodiscard]] bool isOf(const QFont& font) const { return m_font == font; }
    [[nodiscard]] qreal cell() { return m_cell.width(); }
    [[nodiscard]] const QFontMetricsF& metrics() const { return m_metrics; }
    /// The glyphs of a run of a line.
    const Run& run(const QString& text)
    {
        const auto known = m_runs.constFind(text);
        if (known != m_runs.constEnd())
            return *known;
        if (m_runs.size() >= kMostRuns)
            m_runs.clear();
        return *m_runs.insert(text, shape(text));
    }
    qreal advance(const QString& text) { return run(text).width; }

private:
    [[nodiscard]] Run shape(const QString& text) const
    {
        if (text.front() == u' ')
            return {{}, m_metrics.horizontalAdvance(text)};
        QTextLayout layout(text, m_font);
        layout.setCacheEnabled(true); // or it is shaped once more for its glyphs
        layout.beginLayout();
        QTextLine line = layout.createLine();
        layout.endLayout();
        line.setPosition({0, -line.ascent()});
        return {layout.glyphRuns(), line.naturalTextWidth()};
    }

    QFont m_font;
    QFontMetricsF m_metrics;
    Cell m_cell;
    QHash<QString, Run> m_runs;
};

Shaped& shaped(const QFont& font)
{
    static auto& fonts = *new std::list<Shaped>; // outlives the fonts of Qt
    return keptOrMade(
        fonts, [&](const Shaped& one) { return one.isOf(font); }, [&] { return Shaped(font); });
}

bool meetIn(QChar one, QChar next)
{
    return !isFigure(one) && !isFigure(next) && (one == u' ') == (next == u' ');
}

// A digit, or a stretch of letters without digits and spaces, or a stretch of spaces: words come again and
// again, lines do not.
QStringList runsOf(const QString& line)
{
    QStringList runs;
    for (qsizetype from = 0, to = 0; from < line.size(); from = to) {
        for (to = from + 1; to < line.size() && meetIn(line[to - 1], line[to]);)
            ++to;
        runs.append(line.sliced(from, to - from));
    }
    return runs;
}

template<class Font>
qreal advanceOf(Font& font, const QString& line)
{
    qreal width = 0;
    for (const QString& run : runsOf(line))
        width += isFigure(run.front()) ? font.cell() : font.advance(run);
    return width;
}

template<class Font>
QStringList brokenWord(Font& font, const QString& word, qreal width)
{
    QStringList pieces;
    QString piece;
    for (const QChar letter : word) {
        if (!piece.isEmpty() && advanceOf(font, piece + letter) > width) {
            pieces.append(piece);
            piece.clear();
        }
        piece.append(letter);
    }
    pieces.append(piece);
    return pieces;
}

template<class Font>
QStringList linesOf(Font& font, const QString& text, qreal width)
{
    const qreal space = font.advance(u" "_s);
    QStringList lines;
    for (const QString& paragraph : text.split(u'\n')) {
        QString line;
        qreal used = 0;
        for (const QString& word : paragraph.split(u' ', Qt::SkipEmptyParts)) {
            const qreal wordWidth = advanceOf(font, word);
            const qreal wanted = line.isEmpty() ? wordWidth : used + space + wordWidth;
            if (wanted <= width) {
                line = line.isEmpty() ? word : line + u' ' + word;
                used = wanted;
                continue;
            }
            if (!line.isEmpty())
                lines.append(line);
            line = word;
            used = wordWidth;
            if (wordWidth > width) {
                const QStringList pieces = brokenWord(font, word, width);
                lines.append(pieces.first(pieces.size() - 1));
                line = pieces.constLast();
                used = advanceOf(font, line);
            }
        }
        lines.append(line);
    }
    return lines;
}

} // namespace

qreal figureAdvance(const QFontMetricsF& metrics, const QString& line)
{
    return advanceOf(measured(metrics), line);
}

qreal figureAdvance(const QFont& font, const QString& line)
{
    return advanceOf(shaped(font), line);
}

QStringList figureLines(const QFontMetricsF& metrics, const QString& text, qreal width)
{
    return linesOf(measured(metrics), text, width);
}

QStringList figureLines(const QFont& font, const QString& text, qreal width)
{
    return linesOf(shaped(font), text, width);
}

void drawFigures(QPainter& painter, QPointF from, const QString& line)
{
    Shaped& font = shaped(painter.font());
    for (const QString& text : runsOf(line)) {
        const Shaped::Run& run = font.run(text);
        const qreal width = isFigure(text.front()) ? font.cell() : run.width;
        const QPointF at = from + QPointF((width - run.width) / 2, 0);
        for (const QGlyphRun& glyphs : run.glyphs)
            painter.drawGlyphRun(at, glyphs);
        from.rx() += width;
    }
}

void drawFigureLines(QPainter& painter, const QRectF& inside, Qt::Alignment alignment,
                     const QStringList& lines)
{
    Shaped& font = shaped(painter.font());
    const QFontMetricsF& metrics = font.metrics();
    const qreal spacing = metrics.lineSpacing();
    const qreal height = spacing * static_cast<qreal>(lines.size());
    qreal top = inside.top();
    if (alignment.testFlag(Qt::AlignVCenter))
        top += (inside.height() - height) / 2;
    else if (alignment.testFlag(Qt::AlignBottom))
        top += inside.height() - height;
    for (const QString& line : lines) {
        const qreal spare = inside.width() - advanceOf(font, line);
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
