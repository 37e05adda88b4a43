#include "ui/visit/bench_steps.h"

#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"
#include "ui/parts/theme.h"

#include <QCoreApplication>
#include <QLinearGradient>
#include <QPainter>
#include <QResizeEvent>
#include <QScrollBar>
#include <QStyledItemDelegate>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kLeft = 20;
constexpr int kGlyph = 13;
constexpr int kTitleLeft = 46;
constexpr int kRight = 16;
constexpr int kAsideGap = 10;
constexpr qreal kAsideShare = 0.48; ///< of a row, at most, for what stands to the right of the title
constexpr int kPhaseTop = 16;
constexpr int kPhaseBelow = 5;
constexpr int kPadding = 6;
constexpr int kRowsBefore = 3;
constexpr qreal kFade = 22;
constexpr qreal kRing = 6; ///< its radius

QFont titleFont()
{
    QFont font = fontFor(TextRole::Small);
    font.setPixelSize(14);
    return font;
}

struct RowText {
    QStringList title;
    QString phase;
    QString aside;
    StepRow::Stand stand;
    bool isAsideBelow; ///< beside the title there is no room for it
    int phaseHeight;
    int height;
};

RowText rowText(const QModelIndex& index, int width)
{
    const QFontMetricsF title(titleFont());
    const QFontMetricsF aside(fontFor(TextRole::Caption));
    const QFontMetricsF section(fontFor(TextRole::Section));
    RowText text{{},
                 index.data(StepListModel::PhaseRole).toString().toUpper(),
                 index.data(StepListModel::AsideRole).toString(),
                 static_cast<StepRow::Stand>(index.data(StepListModel::StandRole).toInt()),
                 false,
                 0,
                 0};
    const int room = width - kTitleLeft - kRight;
    const qreal asideWidth = text.aside.isEmpty() ? 0 : figureAdvance(aside, text.aside) + kAsideGap;
    text.isAsideBelow = asideWidth > room * kAsideShare;
    text.title = figureLines(title, index.data().toString(), text.isAsideBelow ? room : room - asideWidth);
    if (!text.phase.isEmpty())
        text.phaseHeight = kPhaseTop + static_cast<int>(std::ceil(section.lineSpacing())) + kPhaseBelow;
    text.height = text.phaseHeight + 2 * kPadding +
                  static_cast<int>(std::ceil(title.lineSpacing() * static_cast<qreal>(text.title.size()) +
                                             (text.isAsideBelow ? aside.lineSpacing() : 0)));
    return text;
}

void drawStand(QPainter& painter, const QRectF& at, StepRow::Stand stand, const Tokens& t)
{
    switch (stand) {
    case StepRow::Stand::Done:
        drawTick(painter, at.adjusted(0, 1, 0, -2), t.quiet);
        return;
    case StepRow::Stand::Now:
        drawPointer(painter, at.adjusted(1, 1, -1, -1), t.text);
        return;
    case StepRow::Stand::Ahead:
        drawRound(painter, at.adjusted(1, 1, -1, -1), t.quiet);
        return;
    }
}

class Delegate final : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const auto* view = qobject_cast<const QListView*>(option.widget);
        const int width = view == nullptr ? option.rect.width() : view->viewport()->width();
        return {width, rowText(index, width).height};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const Tokens& t = tokensOf(*option.widget);
        const RowText text = rowText(index, option.rect.width());
        const bool isNow = text.stand == StepRow::Stand::Now;
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        painter->translate(option.rect.topLeft());
        const int width = option.rect.width();
        if (text.phaseHeight > 0) {
            painter->setFont(fontFor(TextRole::Section));
            painter->setPen(t.quiet);
            painter->drawText(QRectF(kLeft, 0, width - kLeft - kRight, text.phaseHeight - kPhaseBelow),
                              Qt::AlignLeft | Qt::AlignBottom, text.phase);
        }
        const QRectF body(0, text.phaseHeight, width, text.height - text.phaseHeight);
        if (isNow) {
            QLinearGradient light(body.topLeft(), body.topRight());
            QColor accent = t.accent;
            accent.setAlpha(38);
            light.setColorAt(0, accent);
            accent.setAlpha(0);
            light.setColorAt(1, accent);
            painter->fillRect(body, light);
            painter->fillRect(QRectF(body.topLeft(), QSizeF(3, body.height())), t.accent);
        }
        const QFontMetricsF title(titleFont());
        const qreal firstMiddle = body.top() + kPadding + title.lineSpacing() / 2;
        drawStand(*painter, QRectF(kLeft, firstMiddle - kGlyph / 2.0, kGlyph, kGlyph), text.stand, t);
        QFont font = titleFont();
        if (isNow)
            font.setWeight(QFont::Medium);
        painter->setFont(font);
        painter->setPen(text.stand == StepRow::Stand::Done ? t.quiet : t.text);
        drawFigureLines(*painter, QRectF(kTitleLeft, body.top() + kPadding, width, body.height()),
                        Qt::AlignLeft | Qt::AlignTop, text.title);
        painter->setFont(fontFor(TextRole::Caption));
        painter->setPen(isNow ? t.accent : t.quiet);
        const QFontMetricsF aside(painter->font());
        const qreal room = width - kTitleLeft - kRight;
        const QRectF at =
            text.isAsideBelow
                ? QRectF(kTitleLeft, body.bottom() - kPadding - aside.lineSpacing(), room,
                         aside.lineSpacing())
                : QRectF(0, firstMiddle - aside.lineSpacing() / 2, width - kRight, aside.lineSpacing());
        drawFigureLines(*painter, at, (text.isAsideBelow ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignTop,
                        {figureElided(aside, text.aside, text.isAsideBelow ? room : at.width())});
        painter->restore();
    }
};

QString spoken(const StepRow& row)
{
    static constexpr std::array<const char*, 3> kStands{QT_TRANSLATE_NOOP("steps", "done"),
                                                        QT_TRANSLATE_NOOP("steps", "now"),
                                                        QT_TRANSLATE_NOOP("steps", "ahead")};
    const QString stand = QCoreApplication::translate("steps", kStands.at(static_cast<size_t>(row.stand)));
    return row.aside.isEmpty() ? u"%1: %2"_s.arg(stand, row.title)
                               : u"%1: %2, %3"_s.arg(stand, row.title, row.aside);
}

} // namespace

bool StepListModel::show(QList<StepRow> rows)
{
    const bool sameSteps = std::equal(
        rows.begin(), rows.end(), m_rows.begin(), m_rows.end(), [](const StepRow& a, const StepRow& b) {
            return a.title == b.title && a.phase == b.phase && a.stand == b.stand;
        });
    if (!sameSteps) {
        beginResetModel();
        m_rows = std::move(rows);
        endResetModel();
        return true;
    }
    for (qsizetype i = 0; i < rows.size(); ++i) {
        if (rows.at(i) == m_rows.at(i))
            continue;
        m_rows[i] = rows.at(i);
        const QModelIndex changed = index(static_cast<int>(i));
        Q_EMIT dataChanged(changed, changed);
    }
    return false;
}

int StepListModel::rowNow() const
{
    const auto now = std::find_if(m_rows.begin(), m_rows.end(),
                                  [](const StepRow& row) { return row.stand == StepRow::Stand::Now; });
    return now == m_rows.end() ? -1 : static_cast<int>(std::distance(m_rows.begin(), now));
}

int StepListModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

QVariant StepListModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const StepRow& row = m_rows.at(index.row());
    switch (role) {
    case Qt::DisplayRole:
        return row.title;
    case Qt::AccessibleTextRole:
    case Qt::ToolTipRole:
        return spoken(row);
    case PhaseRole:
        return index.row() == 0 || m_rows.at(index.row() - 1).phase != row.phase ? row.phase : QString();
    case StandRole:
        return static_cast<int>(row.stand);
    case AsideRole:
        return row.aside;
    default:
        return {};
    }
}

StepList::StepList(QWidget* parent)
    : QListView(parent)
    , m_model(new StepListModel(this))
{
    setObjectName(u"stepList"_s);
    setAccessibleName(tr("Steps"));
    setModel(m_model);
    setItemDelegate(new Delegate(this));
    setFrameShape(QFrame::NoFrame);
    setStyleSheet(u"QListView { background: transparent; border: none; }"_s);
    setSelectionMode(QAbstractItemView::NoSelection);
    setFocusPolicy(Qt::TabFocus);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setResizeMode(QListView::Adjust);
    setWordWrap(true);
}

void StepList::setSteps(const QList<StepRow>& rows)
{
    if (m_model->show(rows))
        showNow();
}

void StepList::resizeEvent(QResizeEvent* event)
{
    QListView::resizeEvent(event);
    scheduleDelayedItemsLayout();
    showNow();
}

void StepList::showEvent(QShowEvent* event)
{
    QListView::showEvent(event);
    showNow();
}

void StepList::paintEvent(QPaintEvent* event)
{
    QListView::paintEvent(event);
    fadeFoot();
    if (!hasFocus())
        return;
    QPainter painter(viewport());
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(tokensOf(*this).text, 2));
    painter.drawRoundedRect(QRectF(viewport()->rect()).adjusted(3, 1, -1, -1), kRing, kRing);
}

void StepList::fadeFoot()
{
    // Rows that go on below the edge fade there, so that half a row reads as one that goes on.
    if (verticalScrollBar()->value() == verticalScrollBar()->maximum())
        return;
    const QColor ground = tokensOf(*this).ground;
    QColor clear = ground;
    clear.setAlpha(0);
    const QRectF edge(0, viewport()->height() - kFade, viewport()->width(), kFade);
    QLinearGradient gradient(edge.bottomLeft(), edge.topLeft());
    gradient.setColorAt(0, ground);
    gradient.setColorAt(1, clear);
    QPainter(viewport()).fillRect(edge, gradient);
}

void StepList::showNow()
{
    const int row = m_model->rowNow();
    if (row < 0)
        return;
    doItemsLayout(); // row heights follow the width, and the place to scroll to follows them
    // What was just done stays in sight, and the row at the top is a whole one.
    scrollTo(m_model->index(std::max(0, row - kRowsBefore)), QAbstractItemView::PositionAtTop);
    if (!viewport()->rect().contains(visualRect(m_model->index(row))))
        scrollTo(m_model->index(row), QAbstractItemView::PositionAtCenter);
}

} // namespace coldarc::ui
