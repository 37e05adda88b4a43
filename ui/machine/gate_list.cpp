#include "ui/machine/gate_list.h"

#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr QSizeF kGlyph(26, 18);

void drawLeaf(QPainter& painter, QPointF hinge, qreal toMiddle, bool swungBack)
{
    // A leaf of two rails: lying in the opening, or swung back about its hinge.
    const QPointF reach = swungBack ? QPointF(-toMiddle * 0.45, -5) : QPointF(toMiddle, 0);
    for (const qreal rail : {-3.5, 3.5})
        painter.drawLine(hinge + QPointF(0, rail), hinge + QPointF(0, rail) + reach);
    painter.drawLine(hinge + reach + QPointF(0, -3.5), hinge + reach + QPointF(0, 3.5));
}

void drawGate(QPainter& painter, const QRectF& inside, GateView::Stand stand, const Tokens& t)
{
    const bool left = stand != GateView::Stand::Waits;
    const bool right = stand == GateView::Stand::Proved;
    const QPointF leftPost(inside.left() + 5, inside.center().y() + 2);
    const QPointF rightPost(inside.right() - 5, inside.center().y() + 2);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(t.text, 2, Qt::SolidLine, Qt::RoundCap));
    for (const QPointF& post : {leftPost, rightPost})
        painter.drawLine(post + QPointF(0, -8), post + QPointF(0, 8));
    const qreal half = (rightPost.x() - leftPost.x()) / 2;
    if (!left) {
        painter.setPen(QPen(t.text, 3, Qt::SolidLine, Qt::FlatCap));
        painter.drawLine(leftPost, rightPost);
        return;
    }
    painter.setPen(QPen(t.quiet, 1.4, Qt::SolidLine, Qt::RoundCap));
    drawLeaf(painter, leftPost, half, true);
    if (right) {
        drawLeaf(painter, rightPost, -half, true);
        return;
    }
    painter.setPen(QPen(t.text, 3, Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(rightPost, rightPost + QPointF(-half, 0));
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
        row->setContentsMargins(0, 7, 0, 8);
        row->setSpacing(10);
        row->addWidget(m_glyph, 0, Qt::AlignTop);
        row->addWidget(m_name, 0, Qt::AlignTop);
        row->addWidget(m_words, 1);
    }

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
        m_layout->addWidget(m_rows.constLast());
    }
    for (qsizetype i = 0; i < gates.size(); ++i)
        m_rows.at(i)->setView(gates.at(i));
}

} // namespace coldarc::ui
