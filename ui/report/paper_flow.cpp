#include "ui/report/paper_flow.h"

#include "ui/report/paper_drawing.h"

#include <QFont>
#include <QPainter>
#include <QTextLayout>
#include <QTextOption>

#include <algorithm>
#include <array>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using Look = PaperColumns::Look;

constexpr double kGap = 9 * kPerPoint;    // between columns
constexpr double kInset = 7 * kPerPoint;  // of a frame
constexpr double kRowPad = 2 * kPerPoint; // over and under a row
constexpr double kHairline = 0.6 * kPerPoint;
constexpr double kParagraphGap = 1.5 * kPerPoint;
constexpr double kMostOfPage = 0.4; // a row that is higher goes on on the next page
const QColor kLine(0x77, 0x77, 0x77);

struct RoleLook {
    PaperRole role;
    double points;
    QFont::Weight weight;
    double spacing; ///< of letters, percent
};
constexpr std::array<RoleLook, 7> kLooks{{
    {PaperRole::Title, 20, QFont::DemiBold, 100},
    {PaperRole::Figure, 15, QFont::DemiBold, 100},
    {PaperRole::Heading, 12.5, QFont::DemiBold, 100},
    {PaperRole::Section, 7.5, QFont::DemiBold, 108},
    {PaperRole::Strong, 9, QFont::DemiBold, 100},
    {PaperRole::Body, 9, QFont::Normal, 100},
    {PaperRole::Small, 7.5, QFont::Normal, 100},
}};

/// One paragraph, broken into lines.
struct Broken {
    std::shared_ptr<QTextLayout> layout;
    double height = 0;
};

Broken broken(const PaperText& text, double width)
{
    QString said = text.role == PaperRole::Section ? text.text.toUpper() : text.text;
    said.replace(u'\n', QChar::LineSeparator);
    Broken paragraph{std::make_shared<QTextLayout>(said, paperFont(text.role)), 0};
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    option.setUseDesignMetrics(true);
    paragraph.layout->setTextOption(option);
    paragraph.layout->setCacheEnabled(true);
    paragraph.layout->beginLayout();
    for (QTextLine line = paragraph.layout->createLine(); line.isValid();
         line = paragraph.layout->createLine()) {
        line.setLineWidth(width);
        line.setPosition({0, paragraph.height});
        paragraph.height += line.height();
    }
    paragraph.layout->endLayout();
    return paragraph;
}

/// A line of a column, with where it stands in it.
struct Line {
    std::shared_ptr<QTextLayout> layout;
    int number = 0;
    double top = 0;
    double height = 0;
};

std::vector<Line> linesOf(const PaperColumn& column, double width)
{
    std::vector<Line> lines;
    double top = 0;
    for (const PaperText& text : column) {
        if (!lines.empty())
            top += kParagraphGap;
        const Broken paragraph = broken(text, width);
        for (int number = 0; number < paragraph.layout->lineCount(); ++number) {
            const QTextLine line = paragraph.layout->lineAt(number);
            lines.push_back({paragraph.layout, number, top + line.y(), line.height()});
        }
        top += paragraph.height;
    }
    return lines;
}

/// Lines [from, until) of each column.
struct Piece {
    std::vector<std::pair<std::size_t, std::size_t>> ranges;
    double height = 0;
};

/// Takes columns apart into pieces of which none is higher than `most`, unless one line is.
std::vector<Piece> piecesOf(const std::vector<std::vector<Line>>& columns, double most)
{
    std::vector<Piece> pieces;
    std::vector<std::size_t> at(columns.size(), 0);
    const auto isOver = [&] {
        for (std::size_t index = 0; index < columns.size(); ++index) {
            if (at[index] < columns[index].size())
                return false;
        }
        return true;
    };
    do {
        Piece piece;
        for (std::size_t index = 0; index < columns.size(); ++index) {
            const std::vector<Line>& lines = columns[index];
            const std::size_t from = at[index];
            std::size_t until = from;
            double height = 0;
            while (until < lines.size()) {
                const double reach = lines[until].top + lines[until].height - lines[from].top;
                if (until > from && reach > most)
                    break;
                height = reach;
                ++until;
            }
            piece.ranges.emplace_back(from, until);
            piece.height = std::max(piece.height, height);
            at[index] = until;
        }
        pieces.push_back(piece);
    } while (!isOver());
    return pieces;
}

void drawLines(QPainter& painter, const std::vector<Line>& lines,
               const std::pair<std::size_t, std::size_t>& range, const QPointF& corner)
{
    painter.setPen(Qt::black);
    for (std::size_t index = range.first; index < range.second; ++index) {
        const Line& line = lines[index];
        const QTextLine drawn = line.layout->lineAt(line.number);
        const double top = line.top - lines[range.first].top - drawn.y();
        drawn.draw(&painter, corner + QPointF(0, top));
    }
}

} // namespace

QFont paperFont(PaperRole role)
{
    const auto look = std::ranges::find(kLooks, role, &RoleLook::role);
    QFont font;
    font.setFamilies({u"Inter"_s, u"Noto Sans"_s, u"DejaVu Sans"_s});
    font.setPixelSize(static_cast<int>(std::lround(look->points * kPerPoint)));
    font.setWeight(look->weight);
    font.setLetterSpacing(QFont::PercentageSpacing, look->spacing);
    font.setHintingPreference(QFont::PreferNoHinting);
    // Inter puts other shapes in place of '-', ':' and '+' beside figures, for which a PDF has no character:
    // a time could be seen and neither searched for nor copied.
    font.setStyleStrategy(QFont::PreferNoShaping);
    return font;
}

PaperFlow::PaperFlow(const QList<PaperBlock>& blocks, const QSizeF& inside)
    : m_inside(inside)
{
    for (const PaperBlock& block : blocks)
        add(block);
    layOut();
}

PaperFlow::~PaperFlow() = default;

void PaperFlow::add(const PaperBlock& block)
{
    if (const auto* text = std::get_if<PaperText>(&block.what)) {
        addColumns({{1.0}, {{*text}}, Look::Bare}, block, -1);
    } else if (const auto* columns = std::get_if<PaperColumns>(&block.what)) {
        addColumns(*columns, block, -1);
    } else if (const auto* table = std::get_if<PaperTable>(&block.what)) {
        addTable(*table, block);
    } else if (const auto* drawings = std::get_if<PaperDrawings>(&block.what)) {
        addDrawings(*drawings, block);
    } else {
        Strip strip;
        strip.breaksPage = true;
        m_strips.push_back(strip);
    }
}

/// Gives back the first strip that it became.
int PaperFlow::addColumns(const PaperColumns& columns, const PaperBlock& of, int head)
{
    const bool isFramed = columns.look == Look::Framed;
    const bool isRow = columns.look == Look::RuleUnder || columns.look == Look::RuleOver;
    const double inset = isFramed ? kInset : 0;
    const double pad = isFramed ? kInset : isRow ? kRowPad : 0;
    std::vector<double> lefts;
    auto lines = std::make_shared<std::vector<std::vector<Line>>>();
    double left = 0;
    for (qsizetype index = 0; index < columns.columns.size(); ++index) {
        const double width = columns.shares.value(index) * m_inside.width();
        const bool isLast = index + 1 == columns.columns.size();
        const double free = isFramed ? 2 * inset : isLast ? 0 : kGap;
        lefts.push_back(left + inset);
        lines->push_back(linesOf(columns.columns[index], std::max(kPerPoint, width - free)));
        left += width;
    }
    const auto first = static_cast<int>(m_strips.size());
    std::vector<Piece> pieces = piecesOf(*lines, kMostOfPage * m_inside.height());
    double height = 0;
    for (const Piece& piece : pieces)
        height += piece.height + 2 * pad;
    pieces.back().height += std::max(0.0, columns.leastHeight * kPerPoint - height);
    for (std::size_t number = 0; number < pieces.size(); ++number) {
        const Piece piece = pieces[number];
        const bool isLast = number + 1 == pieces.size();
        Strip strip;
        strip.height = piece.height + 2 * pad;
        strip.before = number == 0 ? of.before * kPerPoint : 0;
        strip.keepsWithNext = isLast && of.keepsWithNext;
        strip.head = head;
        strip.draw = [=, look = columns.look](QPainter& painter, const QRectF& place) {
            painter.setPen(QPen(kLine, kHairline));
            painter.setBrush(Qt::NoBrush);
            if (look == Look::Framed) {
                painter.drawRect(
                    place.adjusted(kHairline / 2, kHairline / 2, -kHairline / 2, -kHairline / 2));
                for (std::size_t index = 1; index < lefts.size(); ++index) {
                    const double x = place.left() + lefts[index] - inset;
                    painter.drawLine(QPointF(x, place.top()), QPointF(x, place.bottom()));
                }
            }
            if (look == Look::RuleUnder || look == Look::RuleOver) {
                if (look == Look::RuleOver)
                    painter.setPen(QPen(Qt::black, 1.6 * kHairline));
                if (isLast) {
                    const double y = place.bottom() - kHairline / 2;
                    painter.drawLine(QPointF(place.left(), y), QPointF(place.right(), y));
                }
            }
            for (std::size_t index = 0; index < lefts.size(); ++index)
                drawLines(painter, (*lines)[index], piece.ranges[index],
                          place.topLeft() + QPointF(lefts[index], pad));
        };
        m_strips.push_back(std::move(strip));
    }
    return first;
}

void PaperFlow::addTable(const PaperTable& table, const PaperBlock& of)
{
    QList<PaperColumn> heads;
    for (const QString& head : table.head)
        heads.append({{head, PaperRole::Section}});
    PaperBlock around{table, of.before, true};
    const int head = addColumns({table.shares, heads, Look::RuleOver}, around, -1);
    for (qsizetype index = 0; index < table.rows.size(); ++index) {
        around.before = 0;
        around.keepsWithNext = index + 1 == table.rows.size() && of.keepsWithNext;
        addColumns({table.shares, table.rows[index], Look::RuleUnder}, around, head);
    }
}

void PaperFlow::addDrawings(const PaperDrawings& drawings, const PaperBlock& of)
{
    Strip strip;
    strip.height = std::min(drawings.height * kPerPoint, m_inside.height());
    strip.before = of.before * kPerPoint;
    strip.keepsWithNext = of.keepsWithNext;
    strip.draw = [list = drawings.drawings](QPainter& painter, const QRectF& place) {
        const auto count = static_cast<double>(list.size());
        const double width = (place.width() - (count - 1) * kGap) / count;
        double left = place.left();
        for (const PaperDrawing& one : list) {
            painter.save();
            draw(painter, QRectF(left, place.top(), width, place.height()), one);
            painter.restore();
            left += width + kGap;
        }
    };
    m_strips.push_back(std::move(strip));
}

void PaperFlow::layOut()
{
    m_pages.emplace_back();
    double top = 0;
    const auto count = static_cast<int>(m_strips.size());
    // What has to come on the same page as the strip: itself, and what it keeps with.
    const auto reach = [&](int from) {
        double height = m_strips[static_cast<std::size_t>(from)].height;
        for (int at = from; m_strips[static_cast<std::size_t>(at)].keepsWithNext && at + 1 < count; ++at) {
            const Strip& next = m_strips[static_cast<std::size_t>(at + 1)];
            height += next.before + next.height;
        }
        return height;
    };
    for (int index = 0; index < count; ++index) {
        const Strip& strip = m_strips[static_cast<std::size_t>(index)];
        if (strip.breaksPage) {
            if (!m_pages.back().empty()) {
                m_pages.emplace_back();
                top = 0;
            }
            continue;
        }
        double before = m_pages.back().empty() ? 0 : strip.before;
        const bool fits = top + before + std::min(reach(index), m_inside.height()) <= m_inside.height();
        if (!fits && !m_pages.back().empty()) {
            m_pages.emplace_back();
            top = 0;
            before = 0;
            if (strip.head >= 0) {
                m_pages.back().push_back({strip.head, 0});
                top = m_strips[static_cast<std::size_t>(strip.head)].height;
            }
        }
        m_pages.back().push_back({index, top + before});
        top += before + strip.height;
    }
    if (m_pages.back().empty() && m_pages.size() > 1)
        m_pages.pop_back();
}

QList<QRectF> PaperFlow::placesOn(int page) const
{
    QList<QRectF> places;
    for (const Placed& one : m_pages[static_cast<std::size_t>(page)])
        places.append(
            QRectF(0, one.top, m_inside.width(), m_strips[static_cast<std::size_t>(one.strip)].height));
    return places;
}

void PaperFlow::paint(QPainter& painter, int page) const
{
    const QList<QRectF> places = placesOn(page);
    const std::vector<Placed>& placed = m_pages[static_cast<std::size_t>(page)];
    for (qsizetype index = 0; index < places.size(); ++index) {
        const Strip& strip =
            m_strips[static_cast<std::size_t>(placed[static_cast<std::size_t>(index)].strip)];
        painter.save();
        strip.draw(painter, places[index]);
        painter.restore();
    }
}

} // namespace coldarc::ui
