#include "ui/parts/row_list.h"

#include "ui/parts/figures.h"
#include "ui/parts/retire.h"
#include "ui/parts/text_label.h"

#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qreal kSide = 16;
constexpr qreal kTop = 10;
constexpr qreal kLineGap = 3;
constexpr qreal kAsideGap = 12;

} // namespace

RowButton::RowButton(const RowView& row, QWidget* parent)
    : PaintedButton(Reach::Hand, parent)
    , m_row(row)
{
    setText(row.title);
    setCheckable(true);
    setObjectName(u"row-"_s + row.id);
    setAccessibleName(row.aside.isEmpty() ? row.title : u"%1, %2"_s.arg(row.title, row.aside));
    setAccessibleDescription(row.sub);
    setCursor(Qt::PointingHandCursor);
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

qreal RowButton::asideWidth() const
{
    return m_row.aside.isEmpty() ? 0 : figureAdvance(fontFor(TextRole::Caption), m_row.aside) + kAsideGap;
}

QSize RowButton::sizeHint() const
{
    return {260, heightForWidth(260)};
}

int RowButton::heightForWidth(int width) const
{
    const QFontMetricsF name(fontFor(TextRole::Strong));
    const QFontMetricsF sub(fontFor(TextRole::Caption));
    const qreal room = std::max(width - 2 * kSide, 40.0);
    qreal height =
        name.lineSpacing() *
        static_cast<qreal>(figureLines(fontFor(TextRole::Strong), m_row.title, room - asideWidth()).size());
    if (!m_row.sub.isEmpty())
        height += kLineGap +
                  sub.lineSpacing() *
                      static_cast<qreal>(figureLines(fontFor(TextRole::Caption), m_row.sub, room).size());
    return std::max(target(), static_cast<int>(std::ceil(height + 2 * kTop)));
}

void RowButton::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokens();
    if (isDown() || isChecked() || underMouse()) {
        const QColor fill = isDown() ? t.line : (isChecked() ? t.panel : t.ground);
        paintBody(painter, fill, QPen(t.line, 1), t.text);
    } else {
        paintBody(painter, Qt::transparent, Qt::NoPen, t.text);
    }
    if (isChecked()) {
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(Qt::NoPen);
        painter.setBrush(t.text);
        painter.drawRoundedRect(QRectF(3, 10, 3, height() - 20), 1.5, 1.5);
    }
    const QFontMetricsF name(fontFor(TextRole::Strong));
    const QFontMetricsF sub(fontFor(TextRole::Caption));
    const qreal room = width() - 2 * kSide;
    const QStringList nameLines = figureLines(fontFor(TextRole::Strong), m_row.title, room - asideWidth());
    const QStringList subLines =
        m_row.sub.isEmpty() ? QStringList() : figureLines(fontFor(TextRole::Caption), m_row.sub, room);
    const qreal nameHeight = name.lineSpacing() * static_cast<qreal>(nameLines.size());
    const qreal subHeight = sub.lineSpacing() * static_cast<qreal>(subLines.size());
    const qreal top = (height() - nameHeight - subHeight - (subLines.isEmpty() ? 0 : kLineGap)) / 2;
    painter.setFont(fontFor(TextRole::Strong));
    painter.setPen(t.text);
    drawFigureLines(painter, QRectF(kSide, top, room - asideWidth(), nameHeight), Qt::AlignLeft, nameLines);
    painter.setFont(fontFor(TextRole::Caption));
    painter.setPen(t.quiet);
    drawFigureLines(painter, QRectF(kSide, top + nameHeight + kLineGap, room, subHeight), Qt::AlignLeft,
                    subLines);
    if (!m_row.aside.isEmpty()) {
        drawFigureLines(painter, QRectF(kSide, top, room, name.lineSpacing()),
                        Qt::AlignRight | Qt::AlignVCenter, {m_row.aside});
    }
}

RowList::RowList(const QString& name, QWidget* parent)
    : QWidget(parent)
    , m_layout(new QVBoxLayout(this))
{
    setAccessibleName(name);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(4);
}

void RowList::setRows(const QList<RowView>& rows, const QString& chosen, const QString& empty)
{
    if (!m_built || rows != m_rows || empty != m_empty) {
        m_rows = rows;
        rebuild(empty);
    }
    m_chosen = chosen;
    showChosen();
}

void RowList::showChosen()
{
    for (RowButton* button : std::as_const(m_buttons))
        button->setChecked(button->id() == m_chosen);
}

void RowList::rebuild(const QString& empty)
{
    m_built = true;
    m_empty = empty;
    const QString focused = [this] {
        for (const RowButton* button : std::as_const(m_buttons)) {
            if (button->hasFocus())
                return button->id();
        }
        return QString();
    }();
    m_buttons.clear();
    while (QLayoutItem* item = m_layout->takeAt(0)) {
        retire(item->widget());
        delete item;
    }
    if (m_rows.isEmpty() && !empty.isEmpty()) {
        auto* sentence = new TextLabel(TextRole::Small, Ink::Quiet, this);
        sentence->setText(empty);
        m_layout->addWidget(sentence);
    }
    for (const RowView& row : std::as_const(m_rows)) {
        auto* button = new RowButton(row, this);
        m_layout->addWidget(button);
        m_buttons.append(button);
        connect(button, &QAbstractButton::clicked, this, [this, id = row.id] {
            showChosen(); // the view says which one is; a press alone marks none
            Q_EMIT rowChosen(id);
        });
        if (!focused.isEmpty() && row.id == focused)
            button->setFocus();
    }
}

} // namespace coldarc::ui
