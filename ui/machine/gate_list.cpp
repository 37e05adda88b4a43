#include "ui/machine/gate_list.h"

#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr QSizeF kGlyph(28, 18);

// A leaf swung back about its post, seen from the front.
void drawOpenLeaf(QPainter& painter, QPointF post, qreal inward)
{
    painter.drawPolygon(QPolygonF({post + QPointF(0, -5), post + QPointF(inward, -9),
                                   post + QPointF(inward, 3), post + QPointF(0, 6)}));
}

void drawGate(QPainter& painter, const QRectF& inside, GateView::Stand stand, const Tokens& t)
{
    const QPointF left(inside.left() + 2.5, inside.center().y() + 1);
    const QPointF right(inside.right() - 2.5, inside.center().y() + 1);
    const QPointF middle = (left + right) / 2;
    const QPen bar(t.text, 3.5, Qt::SolidLine, Qt::FlatCap);
    const QPen leaf(t.quiet, 1.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
    painter.setBrush(Qt::NoBrush);
    if (stand == GateView::Stand::Waits) {
        painter.setPen(bar);
        painter.drawLine(left, right);
    } else {
        painter.setPen(leaf);
        drawOpenLeaf(painter, left, 6);
    }
    if (stand == GateView::Stand::Half) {
        painter.setPen(bar);
        painter.drawLine(middle, right);
    } else if (stand == GateView::Stand::Proved) {
        painter.setPen(leaf);
        drawOpenLeaf(painter, right, -6);
    }
    painter.setPen(QPen(t.text, 2, Qt::SolidLine, Qt::RoundCap));
    for (const QPointF& post : {left, right})
        painter.drawLine(post + QPointF(0, -7), post + QPointF(0, 7));
}

class Glyph final : public QWidget {
public:
    explicit Glyph(QWidget* parent)
        : QWidget(parent)
    {
        setFixedSize(kGlyph.toSize());
    }

    void setStand(GateView::Stand stand)
    {
        m_stand = stand;
        update();
    }

protected:
    void paintEvent(QPaintEvent* /*event*/) override
    {
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        drawGate(painter, QRectF(rect()), m_stand, tokensOf(*this));
    }

private:
    GateView::Stand m_stand = GateView::Stand::Waits;
};

} // namespace

class GateList::Row final : public QWidget {
public:
    explicit Row(QWidget* parent)
        : QWidget(parent)
        , m_glyph(new Glyph(this))
        , m_name(new TextLabel(TextRole::Strong, Ink::Text, this))
        , m_words(new TextLabel(TextRole::Small, Ink::Quiet, this))
    {
        m_name->setMinimumWidth(66);
        m_name->setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Preferred);
        m_words->setAlignment(Qt::AlignRight | Qt::AlignTop);
        auto* row = new QHBoxLayout(this);
        row->setSpacing(10);
        row->addWidget(m_glyph, 0, Qt::AlignTop);
        row->addWidget(m_name, 0, Qt::AlignTop);
        row->addWidget(m_words, 1);
        setDense(false);
    }

    void setDense(bool isDense) { layout()->setContentsMargins(0, isDense ? 3 : 5, 0, isDense ? 3 : 6); }

    void setView(const GateView& view)
    {
        setObjectName(u"gate-"_s + view.name);
        setAccessibleName(u"%1: %2"_s.arg(view.name, view.words));
        m_glyph->setStand(view.stand);
        m_name->setText(view.name);
        m_words->setText(view.words);
        m_words->setInk(view.stand == GateView::Stand::Proved ? Ink::Text : Ink::Quiet);
    }

protected:
    void paintEvent(QPaintEvent* /*event*/) override
    {
        QPainter painter(this);
        painter.fillRect(QRect(0, height() - 1, width(), 1), tokensOf(*this).line);
    }

private:
    Glyph* m_glyph;
    TextLabel* m_name;
    TextLabel* m_words;
};

GateList::GateList(QWidget* parent)
    : QWidget(parent)
    , m_layout(new QVBoxLayout(this))
{
    setObjectName(u"gateList"_s);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(0);
}

void GateList::setView(const QList<GateView>& gates)
{
    if (gates == m_gates)
        return;
    m_gates = gates;
    while (m_rows.size() > gates.size())
        delete m_rows.takeLast();
    while (m_rows.size() < gates.size()) {
        m_rows.append(new Row(this));
        m_rows.constLast()->setDense(m_isDense);
        m_layout->addWidget(m_rows.constLast());
    }
    for (qsizetype i = 0; i < gates.size(); ++i)
        m_rows.at(i)->setView(gates.at(i));
}

void GateList::setDense(bool isDense)
{
    m_isDense = isDense;
    for (Row* row : m_rows)
        row->setDense(isDense);
}

} // namespace coldarc::ui
