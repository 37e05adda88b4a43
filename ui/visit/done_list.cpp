#include "ui/visit/done_list.h"

#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"
#include "ui/parts/theme.h"

#include <QCoreApplication>
#include <QPainter>
#include <QStyledItemDelegate>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kLeft = 16;
constexpr int kTextLeft = 172;
constexpr int kRight = 16;
constexpr int kPadding = 10;
constexpr int kLineGap = 2;
constexpr int kSectionTop = 20;
constexpr int kSectionBelow = 8;
constexpr int kWhoShare = 3; ///< one third of a row, at most, for who it was
constexpr int kGlyph = 12;
constexpr int kGlyphGap = 8;
constexpr QSize kThumbnail(112, 76);
constexpr int kLeastRow = 44;

QFont struckOut(QFont font, bool isStruck)
{
    font.setStrikeOut(isStruck);
    return font;
}

struct Block {
    QStringList lines;
    TextRole role = TextRole::Caption;
    bool isStruck = false;
    bool isQuiet = true;
    std::optional<DoneMark::Kind> glyph;
};

struct RowLayout {
    QString section;
    int sectionHeight = 0;
    QString who;
    qreal whoWidth = 0;
    QList<Block> blocks;
    int height = 0;
};

qreal heightOf(const Block& block)
{
    return QFontMetricsF(fontFor(block.role)).lineSpacing() * static_cast<qreal>(block.lines.size());
}

RowLayout layoutOf(const DoneListModel& model, int row, int width)
{
    const DoneLine& line = model.line(row);
    const QFontMetricsF what(fontFor(TextRole::Strong));
    const QFontMetricsF caption(fontFor(TextRole::Caption));
    const QFontMetricsF section(fontFor(TextRole::Section));
    RowLayout layout;
    if (model.beginsSection(row)) {
        layout.section = line.section.toUpper();
        layout.sectionHeight =
            kSectionTop + static_cast<int>(std::ceil(section.lineSpacing())) + kSectionBelow;
    }
    const qreal picture = line.picture.isEmpty() ? 0 : kThumbnail.width() + kRight;
    const qreal room = std::max<qreal>(width - kTextLeft - kRight - picture, 60);
    layout.who = figureElided(caption, line.who, room / kWhoShare);
    layout.whoWidth = figureAdvance(caption, layout.who) + kRight;
    const bool isStruck = !line.withdrawn.isEmpty();
    layout.blocks.append({figureLines(what, line.what, room - layout.whoWidth), TextRole::Strong, isStruck,
                          isStruck, std::nullopt});
    if (isStruck)
        layout.blocks.append(
            {figureLines(caption, line.withdrawn, room), TextRole::Caption, false, false, std::nullopt});
    for (const QString& text : line.more)
        layout.blocks.append(
            {figureLines(caption, text, room), TextRole::Caption, isStruck, true, std::nullopt});
    for (const DoneMark& mark : line.marks) {
        const bool isSigned = mark.kind == DoneMark::Kind::Signed;
        layout.blocks.append({figureLines(caption, mark.text, room - kGlyph - kGlyphGap), TextRole::Caption,
                              false, isSigned, mark.kind});
    }
    qreal height = 0;
    for (const Block& block : layout.blocks)
        height += heightOf(block) + kLineGap;
    height = std::max(height, 2 * caption.lineSpacing() + 4);
    if (!line.picture.isEmpty())
        height = std::max<qreal>(height, kThumbnail.height());
    layout.height =
        layout.sectionHeight + std::max(kLeastRow, static_cast<int>(std::ceil(height)) + 2 * kPadding);
    return layout;
}

void drawGlyph(QPainter& painter, const QRectF& at, DoneMark::Kind kind, const Tokens& t)
{
    switch (kind) {
    case DoneMark::Kind::Signed:
        return drawTick(painter, at, t.quiet);
    case DoneMark::Kind::Missing:
        return drawRound(painter, at, t.text);
    case DoneMark::Kind::Broken: { // a cross
        painter.setPen(QPen(t.text, 2, Qt::SolidLine, Qt::RoundCap));
        painter.drawLine(at.topLeft(), at.bottomRight());
        painter.drawLine(at.bottomLeft(), at.topRight());
        return;
    }
    case DoneMark::Kind::Unusual:
        return drawPointer(painter, at, t.text);
    case DoneMark::Kind::Remark:
        return drawFlag(painter, at, t.text);
    }
}

class Delegate final : public QStyledItemDelegate {
public:
    explicit Delegate(DoneList* list)
        : QStyledItemDelegate(list)
        , m_list(list)
    {
    }

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& /*option*/,
                                 const QModelIndex& index) const override
    {
        const int width = m_list->viewport()->width();
        return {width, layoutOf(m_list->lines(), index.row(), width).height};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const Tokens& t = tokensOf(*option.widget);
        const DoneLine& line = m_list->lines().line(index.row());
        const int width = option.rect.width();
        const RowLayout layout = layoutOf(m_list->lines(), index.row(), width);
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        painter->translate(option.rect.topLeft());
        if (layout.sectionHeight > 0) {
            painter->setFont(fontFor(TextRole::Section));
            painter->setPen(t.quiet);
            painter->drawText(QRectF(kLeft, 0, width - kLeft, layout.sectionHeight - kSectionBelow),
                              Qt::AlignLeft | Qt::AlignBottom, layout.section);
        }
        const QRectF body(0, layout.sectionHeight, width, layout.height - layout.sectionHeight);
        drawGround(*painter, body, option, t);
        drawWhen(*painter, body, line, t);
        qreal top = body.top() + kPadding;
        for (const Block& block : layout.blocks) {
            drawBlock(*painter, block, top, width, t);
            top += heightOf(block) + kLineGap;
        }
        painter->setFont(fontFor(TextRole::Caption));
        painter->setPen(t.quiet);
        const qreal picture = line.picture.isEmpty() ? 0 : kThumbnail.width() + kRight;
        const QFontMetricsF strong(fontFor(TextRole::Strong));
        drawFigureLines(*painter,
                        QRectF(kTextLeft, body.top() + kPadding, width - kTextLeft - kRight - picture,
                               strong.lineSpacing()),
                        Qt::AlignRight | Qt::AlignVCenter, {layout.who});
        if (!line.picture.isEmpty())
            drawPicture(*painter,
                        QRectF(QPointF(width - kRight - kThumbnail.width(), body.top() + kPadding),
                               QSizeF(kThumbnail)),
                        m_list->thumbnail(line.picture), t);
        painter->restore();
    }

private:
    static void drawGround(QPainter& painter, const QRectF& body, const QStyleOptionViewItem& option,
                           const Tokens& t)
    {
        const bool isSelected = option.state.testFlag(QStyle::State_Selected);
        if (isSelected) {
            painter.setPen(QPen(t.line, 1));
            painter.setBrush(t.panel);
            painter.drawRoundedRect(body.adjusted(4.5, 1.5, -4.5, -1.5), 8, 8);
            painter.setPen(Qt::NoPen);
            painter.setBrush(t.text);
            painter.drawRoundedRect(QRectF(7, body.top() + 10, 3, body.height() - 20), 1.5, 1.5);
        } else {
            painter.setPen(t.line);
            painter.drawLine(QPointF(kLeft, body.bottom() - 0.5),
                             QPointF(body.right() - kRight, body.bottom() - 0.5));
        }
        if (option.state.testFlag(QStyle::State_HasFocus) && option.widget->hasFocus()) {
            painter.setPen(QPen(t.text, 2));
            painter.setBrush(Qt::NoBrush);
            painter.drawRoundedRect(body.adjusted(5, 2, -5, -2), 8, 8);
        }
    }
    static void drawWhen(QPainter& painter, const QRectF& body, const DoneLine& line, const Tokens& t)
    {
        const QFontMetricsF strong(fontFor(TextRole::Strong));
        const QRectF at(kLeft, body.top() + kPadding, kTextLeft - kLeft, body.height());
        painter.setFont(fontFor(TextRole::Strong));
        painter.setPen(line.withdrawn.isEmpty() ? t.text : t.quiet);
        drawFigureLines(painter, at, Qt::AlignLeft | Qt::AlignTop, {line.time});
        painter.setFont(fontFor(TextRole::Caption));
        painter.setPen(t.faint);
        drawFigureLines(painter, at.translated(0, strong.lineSpacing() + kLineGap),
                        Qt::AlignLeft | Qt::AlignTop, {line.date});
    }
    static void drawBlock(QPainter& painter, const Block& block, qreal top, int width, const Tokens& t)
    {
        qreal left = kTextLeft;
        if (block.glyph) {
            const qreal middle = top + QFontMetricsF(fontFor(block.role)).lineSpacing() / 2;
            drawGlyph(painter, QRectF(left, middle - kGlyph / 2.0, kGlyph, kGlyph).adjusted(1, 1, -1, -1),
                      *block.glyph, t);
            left += kGlyph + kGlyphGap;
        }
        painter.setFont(struckOut(fontFor(block.role), block.isStruck));
        painter.setPen(block.isQuiet ? t.quiet : t.text);
        drawFigureLines(painter, QRectF(left, top, width - left, heightOf(block)),
                        Qt::AlignLeft | Qt::AlignTop, block.lines);
    }
    static void drawPicture(QPainter& painter, const QRectF& at, const QPixmap& picture, const Tokens& t)
    {
        painter.setPen(QPen(t.edge, 1));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(at);
        if (picture.isNull())
            return;
        const QSizeF size = QSizeF(picture.size()).scaled(at.size(), Qt::KeepAspectRatio);
        painter.setRenderHint(QPainter::SmoothPixmapTransform);
        painter.drawPixmap(QRectF(at.center() - QPointF(size.width() / 2, size.height() / 2), size), picture,
                           QRectF(picture.rect()));
    }

    DoneList* m_list;
};

QString spoken(const DoneLine& line)
{
    QStringList parts{u"%1, %2, %3"_s.arg(line.what, line.who, line.time)};
    if (!line.withdrawn.isEmpty())
        parts.append(line.withdrawn);
    parts += line.more;
    for (const DoneMark& mark : line.marks)
        parts.append(mark.text);
    return parts.join(u". "_s);
}

} // namespace

bool DoneListModel::show(const QList<DoneLine>& lines)
{
    if (lines == m_lines)
        return false;
    beginResetModel();
    m_lines = lines;
    endResetModel();
    return true;
}

bool DoneListModel::beginsSection(int row) const
{
    const QString& section = m_lines.at(row).section;
    return !section.isEmpty() && (row == 0 || m_lines.at(row - 1).section != section);
}

int DoneListModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_lines.size());
}

QVariant DoneListModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const DoneLine& line = m_lines.at(index.row());
    if (role == Qt::DisplayRole)
        return line.what;
    return role == Qt::AccessibleTextRole ? spoken(line) : QVariant();
}

DoneList::DoneList(QWidget* parent)
    : QListView(parent)
    , m_model(new DoneListModel(this))
{
    setObjectName(u"doneList"_s);
    setAccessibleName(tr("What was done"));
    setModel(m_model);
    setItemDelegate(new Delegate(this));
    setFrameShape(QFrame::NoFrame);
    setStyleSheet(u"QListView { background: transparent; border: none; }"_s);
    setSelectionMode(QAbstractItemView::ExtendedSelection);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setResizeMode(QListView::Adjust);
    setTabKeyNavigation(false);
}

void DoneList::setLines(const QList<DoneLine>& lines, qint64 chosen)
{
    m_isShowing = true;
    const bool isNew = m_model->show(lines);
    if ((isNew || chosen != m_chosen) && chosen >= 0 && chosen < lines.size()) {
        m_chosen = chosen;
        const QModelIndex index = m_model->index(static_cast<int>(chosen));
        if (isNew || index != currentIndex())
            selectionModel()->setCurrentIndex(index, QItemSelectionModel::ClearAndSelect);
        doItemsLayout(); // row heights follow the width, and the place to scroll to follows them
        scrollTo(index);
    }
    m_isShowing = false;
}

QList<qint64> DoneList::selected() const
{
    QList<qint64> entries;
    for (const QModelIndex& index : selectionModel()->selectedIndexes())
        entries.append(m_model->line(index.row()).entry);
    std::sort(entries.begin(), entries.end());
    return entries;
}

QPixmap DoneList::thumbnail(const QString& hash) const
{
    const auto known = m_thumbnails.constFind(hash);
    if (known != m_thumbnails.constEnd())
        return *known;
    if (!m_pictures)
        return {};
    return *m_thumbnails.insert(hash, small(QImage::fromData(m_pictures(hash))));
}

void DoneList::setPicture(const QString& hash, const QImage& picture)
{
    m_thumbnails.insert(hash, small(picture));
    viewport()->update();
}

QPixmap DoneList::small(const QImage& picture)
{
    if (picture.isNull())
        return {};
    return QPixmap::fromImage(picture.scaled(kThumbnail * 4, Qt::KeepAspectRatio, Qt::SmoothTransformation));
}

void DoneList::resizeEvent(QResizeEvent* event)
{
    QListView::resizeEvent(event);
    scheduleDelayedItemsLayout();
    if (currentIndex().isValid()) {
        doItemsLayout();
        scrollTo(currentIndex());
    }
}

void DoneList::currentChanged(const QModelIndex& current, const QModelIndex& previous)
{
    QListView::currentChanged(current, previous);
    if (!m_isShowing && current.isValid()) {
        m_chosen = m_model->line(current.row()).entry;
        Q_EMIT entryChosen(m_chosen);
    }
}

} // namespace coldarc::ui
