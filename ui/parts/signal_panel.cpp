#include "ui/parts/signal_panel.h"

#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"

#include <QCoreApplication>
#include <QEvent>
#include <QPainter>
#include <QPainterPath>
#include <QVBoxLayout>

#include <algorithm>
#include <array>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kWordBlock = 132; // wide enough for the longest word with its triangle, the same for all four
constexpr int kPadding = 16;
constexpr qreal kRadius = 8;
constexpr qreal kTriangle = 20;
constexpr qreal kTriangleGap = 8;

} // namespace

const SignalLook& lookOf(SignalWord word)
{
    static const std::array<SignalLook, 4> kLooks{{
        {QColor::fromRgb(0x9b2423u), QColor::fromRgb(0xffffffu), true},
        {QColor::fromRgb(0xd05d29u), QColor::fromRgb(0x000000u), true},
        {QColor::fromRgb(0xf9a800u), QColor::fromRgb(0x000000u), true},
        {QColor::fromRgb(0x005387u), QColor::fromRgb(0xffffffu), false},
    }};
    return kLooks.at(static_cast<size_t>(word));
}

QString signalText(SignalWord word)
{
    static constexpr std::array<const char*, 4> kWords{
        QT_TRANSLATE_NOOP("signal", "DANGER"), QT_TRANSLATE_NOOP("signal", "WARNING"),
        QT_TRANSLATE_NOOP("signal", "CAUTION"), QT_TRANSLATE_NOOP("signal", "NOTICE")};
    return QCoreApplication::translate("signal", kWords.at(static_cast<size_t>(word)));
}

QColor keylineOf(SignalWord word, const QColor& ground, const QColor& text)
{
    const QColor& fill = lookOf(word).fill;
    return contrastRatio(fill, ground) >= 3.0 ? fill : text;
}

SignalPanel::SignalPanel(QWidget* parent)
    : QWidget(parent)
{
    setObjectName(u"signalPanel"_s);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void SignalPanel::setView(const std::optional<SignalView>& view)
{
    setVisible(view.has_value());
    if (!view || *view == m_view)
        return;
    m_view = *view;
    setAccessibleName(u"%1: %2"_s.arg(signalText(m_view.word), m_view.text));
    updateGeometry();
    update();
}

bool SignalPanel::fits() const
{
    return heightForWidth(width()) <= height();
}

int SignalPanel::heightForWidth(int width) const
{
    const QFontMetricsF metrics(fontFor(TextRole::Small));
    const qreal room = std::max(width - kWordBlock - 2 * kPadding, 80);
    const auto lines = static_cast<qreal>(figureLines(metrics, m_view.text, room).size());
    return std::max(52, static_cast<int>(std::ceil(lines * metrics.lineSpacing())) + 22);
}

QSize SignalPanel::sizeHint() const
{
    return {560, heightForWidth(560)};
}

QSize SignalPanel::minimumSizeHint() const
{
    return {kWordBlock + 160, 52};
}

void SignalPanel::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Tokens& t = tokensOf(*this);
    const SignalLook& look = lookOf(m_view.word);
    const QRectF body = QRectF(rect()).adjusted(0.75, 0.75, -0.75, -0.75);
    QPainterPath outline;
    outline.addRoundedRect(body, kRadius, kRadius);
    const QRectF block(0, 0, kWordBlock, height());

    painter.save();
    painter.setClipPath(outline);
    painter.fillRect(rect(), t.panel);
    painter.fillRect(block, look.fill);
    painter.restore();
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(keylineOf(m_view.word, t.ground, t.text), 1.5));
    painter.drawPath(outline);

    painter.setFont(fontFor(TextRole::SignalWord));
    const QFontMetricsF metrics(painter.font());
    const QString word = signalText(m_view.word);
    const qreal triangle = look.triangle ? kTriangle + kTriangleGap : 0;
    const qreal left = (kWordBlock - triangle - metrics.horizontalAdvance(word)) / 2;
    if (look.triangle)
        drawAlertTriangle(painter, QRectF(left, block.center().y() - 10, kTriangle, 18), look.ink, look.fill);
    painter.setPen(look.ink);
    painter.drawText(QRectF(left + triangle, 0, kWordBlock, height()), Qt::AlignVCenter | Qt::AlignLeft,
                     word);

    painter.setFont(fontFor(TextRole::Small));
    painter.setPen(t.text);
    const QRectF room = QRectF(rect()).adjusted(kWordBlock + kPadding, 0, -kPadding, 0);
    drawFigureLines(painter, room, Qt::AlignVCenter | Qt::AlignLeft,
                    figureLines(painter.font(), m_view.text, room.width()));
}

void SignalPanel::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    update();
}

SignalGroup::SignalGroup(QWidget* parent)
    : QWidget(parent)
    , m_layout(new QVBoxLayout(this))
{
    setObjectName(u"signalGroup"_s);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(8);
}

void SignalGroup::setView(const QString& title, const QList<SignalView>& messages)
{
    if (title == m_title && messages == m_messages)
        return;
    m_title = title;
    m_messages = messages;
    qDeleteAll(findChildren<QWidget*>(Qt::FindDirectChildrenOnly));
    m_layout->addWidget(new SectionLabel(title, this));
    QList<SignalView> worstFirst = messages;
    std::stable_sort(worstFirst.begin(), worstFirst.end(),
                     [](const SignalView& a, const SignalView& b) { return a.word < b.word; });
    for (const SignalView& message : worstFirst) {
        auto* panel = new SignalPanel(this);
        panel->setView(message);
        m_layout->addWidget(panel);
    }
}

} // namespace coldarc::ui
