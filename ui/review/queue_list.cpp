#include "ui/review/queue_list.h"

#include "ui/parts/figures.h"
#include "ui/parts/theme.h"

#include <QPainter>
#include <QStyledItemDelegate>

#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kLeft = 12;
constexpr int kTextLeft = 40;
constexpr int kRight = 14;
constexpr int kPadding = 10;
constexpr int kLineGap = 2;
constexpr int kDayGap = 10;
constexpr int kSign = 18;

int rowHeight()
{
    const qreal caption = QFontMetricsF(fontFor(TextRole::Caption)).lineSpacing();
    const qreal strong = QFontMetricsF(fontFor(TextRole::Strong)).lineSpacing();
    return static_cast<int>(std::ceil(strong + 2 * (caption + kLineGap))) + 2 * kPadding;
}

/// An exclamation mark in a ring: something is out of the ordinary. No hazard, so no triangle.
void drawUnusual(QPainter& painter, const QRectF& at, const Tokens& t)
{
    painter.setPen(QPen(t.text, 1.5));
    painter.setBrush(t.panel);
    painter.drawEllipse(at.adjusted(1, 1, -1, -1));
    painter.setFont(fontFor(TextRole::Strong));
    painter.setPen(t.text);
    painter.drawText(at, Qt::AlignCenter, u"!"_s);
}

class Delegate final : public QStyledItemDelegate {
public:
    explicit Delegate(QueueList* list)
        : QStyledItemDelegate(list)
        , m_list(list)
    {
    }

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& /*option*/,
                                 const QModelIndex& /*index*/) const override
    {
        return {m_list->viewport()->width(), rowHeight()};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const Tokens& t = tokensOf(*option.widget);
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        const QRectF body(option.rect);
        drawGround(*painter, body, option, t);
        if (const auto row = m_list->queue().row(index.row()))
            drawRow(*painter, body, *row, t);
        else
            drawUnread(*painter, body, index.data().toString(), t);
        painter->restore();
    }

private:
    static void drawGround(QPainter& painter, const QRectF& body, const QStyleOptionViewItem& option,
                           const Tokens& t)
    {
        const QRectF card = body.adjusted(2.5, 1.5, -2.5, -1.5);
        if (option.state.testFlag(QStyle::State_Selected)) {
            painter.setPen(QPen(t.line, 1));
            painter.setBrush(t.panel);
            painter.drawRoundedRect(card, 10, 10);
            painter.setPen(Qt::NoPen);
            painter.setBrush(t.text);
            painter.drawRoundedRect(QRectF(body.left() + 4, body.top() + 12, 3, body.height() - 24), 1.5,
                                    1.5);
        }
        if (option.state.testFlag(QStyle::State_HasFocus) && option.widget->hasFocus()) {
            painter.setPen(QPen(t.text, 2));
            painter.setBrush(Qt::NoBrush);
            painter.drawRoundedRect(card.adjusted(0.5, 0.5, -0.5, -0.5), 10, 10);
        }
    }

    static void drawRow(QPainter& painter, const QRectF& body, const QueueRow& row, const Tokens& t)
    {
        const QFont strong = fontFor(TextRole::Strong);
        const QFont caption = fontFor(TextRole::Caption);
        const QFontMetricsF strongMetrics(strong);
        const QFontMetricsF captionMetrics(caption);
        if (row.isUnusual)
            drawUnusual(painter, QRectF(body.left() + kLeft, body.top() + kPadding, kSign, kSign), t);
        const qreal left = body.left() + kTextLeft;
        const qreal room = body.width() - kTextLeft - kRight;
        const qreal day = figureAdvance(caption, row.day);
        qreal top = body.top() + kPadding;
        painter.setFont(strong);
        painter.setPen(t.text);
        drawFigureLines(painter, QRectF(left, top, room, strongMetrics.lineSpacing()), Qt::AlignLeft,
                        {figureElided(strongMetrics, row.title, room)});
        top += strongMetrics.lineSpacing() + kLineGap;
        painter.setFont(caption);
        painter.setPen(row.isUnusual ? t.text : t.quiet);
        drawFigureLines(painter, QRectF(left, top, room, captionMetrics.lineSpacing()), Qt::AlignLeft,
                        {figureElided(captionMetrics, row.what, room)});
        top += captionMetrics.lineSpacing() + kLineGap;
        painter.setPen(t.quiet);
        const QRectF last(left, top, room, captionMetrics.lineSpacing());
        drawFigureLines(painter, last, Qt::AlignLeft,
                        {figureElided(captionMetrics, row.who, room - day - kDayGap)});
        drawFigureLines(painter, last, Qt::AlignRight, {row.day});
    }

    static void drawUnread(QPainter& painter, const QRectF& body, const QString& text, const Tokens& t)
    {
        painter.setFont(fontFor(TextRole::Caption));
        painter.setPen(t.text);
        painter.drawText(body.adjusted(kTextLeft, 0, -kRight, 0), Qt::AlignVCenter | Qt::TextWordWrap, text);
    }

    QueueList* m_list;
};

} // namespace

QueueList::QueueList(QueueModel& model, QWidget* parent)
    : QListView(parent)
    , m_queue(model)
{
    setObjectName(u"queue"_s);
    setAccessibleName(tr("Visits to be reviewed"));
    setModel(&model);
    setItemDelegate(new Delegate(this));
    setUniformItemSizes(true);
    setFrameShape(QFrame::NoFrame);
    setStyleSheet(u"QListView { background: transparent; border: none; }"_s);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setTabKeyNavigation(false);
}

void QueueList::setCurrent(int row)
{
    m_isShowing = true;
    const QModelIndex index = m_queue.index(row);
    if (index != currentIndex())
        selectionModel()->setCurrentIndex(index, QItemSelectionModel::ClearAndSelect);
    if (index.isValid())
        scrollTo(index);
    m_isShowing = false;
}

void QueueList::focusInEvent(QFocusEvent* event)
{
    const QPersistentModelIndex before = currentIndex();
    m_isShowing = true;
    QListView::focusInEvent(event);
    if (currentIndex() != before)
        selectionModel()->setCurrentIndex(before, QItemSelectionModel::Clear);
    m_isShowing = false;
}

void QueueList::currentChanged(const QModelIndex& current, const QModelIndex& previous)
{
    QListView::currentChanged(current, previous);
    if (!m_isShowing && current.isValid())
        Q_EMIT rowChosen(current.row());
}

} // namespace coldarc::ui
