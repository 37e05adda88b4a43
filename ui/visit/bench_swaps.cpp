#include "ui/visit/bench_swaps.h"

#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"
#include "ui/parts/retire.h"

#include <QPainter>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kTextLeft = 50;
constexpr int kCapWidth = 34;
constexpr int kPadding = 12;

} // namespace

class SwapList::Button final : public PaintedButton {
public:
    explicit Button(QWidget* parent)
        : PaintedButton(Reach::Hand, parent)
        , m_key(new QShortcut(this))
    {
        m_key->setAutoRepeat(false);
        setCheckable(true);
        setCursor(Qt::PointingHandCursor);
        connect(m_key, &QShortcut::activated, this, &QAbstractButton::click);
    }

    void setRow(const SwapRow& row, bool inHand)
    {
        m_row = row;
        setText(row.title);
        setAccessibleName(u"%1: %2"_s.arg(row.title, row.state));
        setChecked(inHand);
        if (const QKeySequence key(row.key); m_key->key() != key)
            m_key->setKey(key);
        updateGeometry();
        update();
    }

    [[nodiscard]] QSize sizeHint() const override { return {240, heightForWidth(240)}; }

    [[nodiscard]] int heightForWidth(int width) const override
    {
        const Lines lines = linesFor(width);
        return std::max(56, static_cast<int>(std::ceil(lines.titleHeight + lines.stateHeight)) + 16);
    }

protected:
    void paintEvent(QPaintEvent* /*event*/) override
    {
        QPainter painter(this);
        const Tokens& t = tokens();
        const QPen outline = isChecked() ? QPen(t.edge, 1) : QPen(underMouse() ? t.line : t.ground, 1);
        paintBody(painter, isChecked() ? t.panel : t.ground, outline, t.text);
        const Lines lines = linesFor(width());
        const qreal middle = height() / 2.0;
        const QRectF ring(kPadding, middle - 13, 26, 26);
        // The accent is for the wait of the swap in hand; other waits run in the text colour.
        drawRing(painter, ring, 4.5, m_row.wait.value_or(0), t.line, isChecked() ? t.accent : t.quiet);
        if (!m_row.wait) {
            painter.setPen(Qt::NoPen);
            painter.setBrush(t.quiet);
            painter.drawEllipse(ring.center(), 4, 4);
        }
        const qreal top = (height() - lines.titleHeight - lines.stateHeight) / 2;
        painter.setPen(t.text);
        painter.setFont(fontFor(TextRole::Strong));
        drawFigureLines(painter, QRectF(kTextLeft, top, width(), lines.titleHeight), Qt::AlignLeft,
                        lines.title);
        painter.setPen(t.quiet);
        painter.setFont(fontFor(TextRole::Caption));
        drawFigureLines(painter, QRectF(kTextLeft, top + lines.titleHeight, width(), lines.stateHeight),
                        Qt::AlignLeft, lines.state);
        const QRectF cap(width() - kPadding - 28, middle - 10, 28, 20);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(t.line, 1));
        painter.drawRoundedRect(cap, 4, 4);
        painter.setPen(t.quiet);
        drawFigureLines(painter, cap, Qt::AlignCenter, {m_row.key});
    }

private:
    struct Lines {
        QStringList title;
        QStringList state;
        qreal titleHeight;
        qreal stateHeight;
    };

    [[nodiscard]] Lines linesFor(int width) const
    {
        const qreal room = std::max(width - kTextLeft - kCapWidth - kPadding, 60);
        const QFontMetricsF title(fontFor(TextRole::Strong));
        const QFontMetricsF state(fontFor(TextRole::Caption));
        Lines lines{figureLines(title, m_row.title, room), figureLines(state, m_row.state, room), 0, 0};
        lines.titleHeight = title.lineSpacing() * static_cast<qreal>(lines.title.size());
        lines.stateHeight = state.lineSpacing() * static_cast<qreal>(lines.state.size());
        return lines;
    }

    SwapRow m_row;
    QShortcut* m_key;
};

SwapList::SwapList(QWidget* parent)
    : QWidget(parent)
    , m_layout(new QVBoxLayout(this))
{
    setObjectName(u"swapList"_s);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(4);
}

void SwapList::setSwaps(const QList<SwapRow>& swaps, int inHand)
{
    while (m_buttons.size() > swaps.size())
        retire(m_buttons.takeLast());
    while (m_buttons.size() < swaps.size()) {
        const auto index = static_cast<int>(m_buttons.size());
        auto* button = new Button(this);
        button->setObjectName(u"swap-%1"_s.arg(index));
        connect(button, &QAbstractButton::clicked, this, [this, button, index] {
            button->setChecked(!button->isChecked()); // only a view marks a swap as the one in hand
            Q_EMIT swapChosen(index);
        });
        m_layout->addWidget(button);
        m_buttons.append(button);
    }
    for (qsizetype i = 0; i < swaps.size(); ++i)
        m_buttons.at(i)->setRow(swaps.at(i), i == inHand);
}

} // namespace coldarc::ui
