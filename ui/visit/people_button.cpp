#include "ui/visit/people_button.h"

#include "ui/parts/figures.h"

#include <QPainter>

#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kSide = 10;
constexpr int kGap = 10;
constexpr int kLeastWidth = 120;
constexpr int kCapHeight = 20;

} // namespace

PeopleButton::PeopleButton(const QString& key, QWidget* parent)
    : PaintedButton(Reach::Hand, parent)
    , m_key(key)
{
    setCursor(Qt::PointingHandCursor);
    setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed);
}

qreal PeopleButton::capWidth() const
{
    return figureAdvance(fontFor(TextRole::Caption), m_key) + 12;
}

void PeopleButton::setPeople(const QStringList& people)
{
    setText(people.join(u"\u2003"_s));
    setAccessibleName(tr("Who is here: %1").arg(people.join(u", "_s)));
    setToolTip(people.join(u'\n'));
    updateGeometry();
    update();
}

QSize PeopleButton::sizeHint() const
{
    const qreal width = figureAdvance(fontFor(TextRole::Small), text());
    return {static_cast<int>(std::ceil(width + capWidth())) + 2 * kSide + kGap + 2, target()};
}

QSize PeopleButton::minimumSizeHint() const
{
    return {kLeastWidth, target()};
}

void PeopleButton::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokens();
    paintBody(painter, isDown() ? t.line : t.ground, QPen(underMouse() ? t.line : t.ground, 1), t.text);
    const QRectF cap(width() - kSide - capWidth(), (height() - kCapHeight) / 2.0, capWidth(), kCapHeight);
    const QFont font = fontFor(TextRole::Small);
    const qreal room = cap.left() - kGap - kSide;
    const QString shown = QFontMetricsF(font).elidedText(text(), Qt::ElideRight, room);
    painter.setFont(font);
    painter.setPen(underMouse() ? t.text : t.quiet);
    drawFigureLines(painter, QRectF(kSide, 0, room, height()), Qt::AlignLeft | Qt::AlignVCenter, {shown});
    painter.setFont(fontFor(TextRole::Caption));
    painter.setPen(t.line);
    painter.setBrush(Qt::NoBrush);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.drawRoundedRect(cap, 4, 4);
    painter.setPen(t.quiet);
    drawFigureLines(painter, cap, Qt::AlignCenter, {m_key});
}

} // namespace coldarc::ui
