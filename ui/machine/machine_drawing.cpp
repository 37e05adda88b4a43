#include "ui/machine/machine_drawing.h"

#include "ui/machine/machine_plan.h"
#include "ui/machine/machine_words.h"
#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"
#include "ui/parts/theme.h"

#include <QEvent>
#include <QPainter>
#include <QPainterPath>
#include <QRadialGradient>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using Cover = MachineView::Cover;
using Heat = MachineView::Heat;
using Power = MachineView::Power;
using Projector = MachineView::Projector;
using Run = MachineView::Run;
using Seat = MachineView::Seat;

constexpr qreal kWireY = 32;

/// Half of the opening by which the light leaves a lamphouse.
qreal exitOf(const QRectF& body)
{
    return std::min(20.0, body.height() * 0.28);
}

/// The painter of one drawing, with the two inks: live and dead.
class Sketch {
public:
    Sketch(QPainter& painter, const Tokens& tokens)
        : p(painter)
        , t(tokens)
    {
    }

    void machine(const MachineView& view, const MachinePlan& plan);

private:
    void pen(const QColor& colour, qreal width, Qt::PenStyle style = Qt::SolidLine)
    {
        p.setPen(QPen(colour, width, style, Qt::RoundCap, Qt::RoundJoin));
        p.setBrush(Qt::NoBrush);
    }
    [[nodiscard]] QColor ink(bool isLive) const { return isLive ? t.text : t.edge; }
    void wire(bool isLive, const QPolygonF& way)
    {
        pen(ink(isLive), isLive ? 2.4 : 1.6);
        p.drawPolyline(way);
    }

    void captions(const QList<MachinePlan::Caption>& captions);
    void point(const MachineView::Point& view, const QRectF& box);
    void supplyWires(const MachineView& view, const MachinePlan& plan, bool isLive);
    void projector(Projector state, const QRectF& box);
    void fan(Run state, const QRectF& circle);
    void capacitor(MachineView::Charge charge, const QRectF& at);
    void extraction(Run state, const QRectF& body);
    void housing(const MachineView::Lamphouse& view, const QRectF& body);
    void guard(Cover guard, const QRectF& cover);
    void dowser(const MachineView::Lamphouse& view, const QRectF& body);
    void seat(const MachineView::Lamphouse& view, QPointF centre, qreal size);
    void bulb(const MachineView::Lamphouse& view, QPointF centre, qreal size);
    void glow(QPointF centre, qreal radius);
    void heatWaves(QPointF above, qreal size);
    void person(QPointF feet);
    void lamphouse(const MachineView::Lamphouse& view, const MachinePlan::Lamphouse& plan);

    QPainter& p;
    const Tokens& t;
};

void Sketch::captions(const QList<MachinePlan::Caption>& captions)
{
    p.setFont(fontFor(TextRole::Caption));
    for (const MachinePlan::Caption& caption : captions) {
        p.setPen(caption.isLive ? t.text : t.quiet);
        drawFigureLines(p, caption.at, caption.alignment | Qt::AlignTop, caption.lines);
    }
}

void Sketch::point(const MachineView::Point& view, const QRectF& box)
{
    const bool isLive = view.power == Power::On;
    pen(ink(isLive), isLive ? 2 : 1.6, view.power == Power::Unknown ? Qt::DashLine : Qt::SolidLine);
    p.drawRoundedRect(box.adjusted(1, 1, -1, -1), 6, 6);
    // A lever between two contacts: across when on, thrown back when off, not drawn when nobody knows.
    const QPointF upper(box.left() + 16, box.top() + 11);
    const QPointF lower(box.left() + 16, box.bottom() - 11);
    pen(ink(isLive), 2);
    if (view.power != Power::Unknown)
        p.drawLine(lower, isLive ? upper : upper + QPointF(12, 3));
    p.setPen(Qt::NoPen);
    p.setBrush(ink(isLive));
    p.drawEllipse(upper, 3, 3);
    p.drawEllipse(lower, 3, 3);

    QFont font = fontFor(TextRole::Caption);
    font.setPixelSize(12);
    font.setWeight(QFont::DemiBold);
    p.setFont(font);
    p.setPen(isLive ? t.text : t.quiet);
    const QRectF words = box.adjusted(28, 4, -3, -4);
    if (view.locks == 0) {
        drawFigureLines(p, words, Qt::AlignCenter, figureLines(font, wordOf(view.power), words.width()));
        return;
    }
    // A low box has the word and the lock side by side, a high one the word above the lock.
    const bool isLow = box.height() < 50;
    const QRectF word = isLow ? QRectF(words.left() - 2, words.top(), 22, words.height())
                              : QRectF(words.topLeft(), QSizeF(words.width(), 16));
    const QRectF lock = isLow ? QRectF(word.right() + 5, words.center().y() - 8, 13, 16)
                              : QRectF(words.center().x() - 8, words.bottom() - 22, 16, 20);
    if (isLow && view.locks > 1)
        drawFigureLines(p, QRectF(lock.right() + 2, words.top(), 8, words.height()), Qt::AlignCenter,
                        {QString::number(view.locks)});
    drawFigureLines(p, word, Qt::AlignCenter, {wordOf(view.power)});
    drawPadlock(p, lock, t.text);
}

void Sketch::supplyWires(const MachineView& view, const MachinePlan& plan, bool isLive)
{
    for (qsizetype i = 0; i < plan.points.size(); ++i) {
        if ((view.points.at(i).power == Power::On) != isLive)
            continue;
        const QRectF& box = plan.points.at(i).box;
        const qreal y = i == 0 ? kWireY : box.center().y();
        wire(isLive, {{box.right(), y}, {112, y}, {112, kWireY}, {plan.projector.left(), kWireY}});
    }
}

void Sketch::projector(Projector state, const QRectF& box)
{
    const bool isLive = state == Projector::On || state == Projector::Standby;
    pen(ink(isLive), isLive ? 2 : 1.6, state == Projector::Unknown ? Qt::DashLine : Qt::SolidLine);
    p.drawRoundedRect(box.adjusted(1, 1, -1, -1), 6, 6);
    p.setFont(fontFor(TextRole::Caption));
    p.setPen(t.quiet);
    p.drawText(box.adjusted(0, 5, 0, 0), Qt::AlignHCenter | Qt::AlignTop,
               QCoreApplication::translate("machine", "projector"));
    QFont strong = fontFor(TextRole::Caption);
    strong.setWeight(QFont::DemiBold);
    p.setFont(strong);
    p.setPen(isLive ? t.text : t.quiet);
    p.drawText(box.adjusted(0, 0, 0, -6), Qt::AlignHCenter | Qt::AlignBottom, wordOf(state));
}

void Sketch::fan(Run state, const QRectF& circle)
{
    const bool isLive = state == Run::Runs;
    pen(ink(isLive), isLive ? 2 : 1.6, state == Run::Unknown ? Qt::DashLine : Qt::SolidLine);
    p.drawEllipse(circle.adjusted(1, 1, -1, -1));
    p.save();
    p.translate(circle.center());
    p.scale(circle.width() / 52, circle.width() / 52);
    for (int blade = 0; blade < 3; ++blade) {
        QPainterPath path(QPointF(0, 0));
        path.cubicTo(4, -8, 2, -16, -6, -19);
        path.cubicTo(-10, -12, -6, -5, 0, 0);
        if (isLive) {
            p.setPen(Qt::NoPen);
            p.setBrush(t.text);
        }
        p.drawPath(path);
        p.rotate(120);
    }
    p.restore();
}

void Sketch::capacitor(MachineView::Charge charge, const QRectF& at)
{
    // Two plates across the wire; the wire itself does not pass between them.
    p.fillRect(at.adjusted(-1, 1, 1, -1), t.ground);
    const bool isHeld = charge != MachineView::Charge::Relieved;
    pen(ink(isHeld), isHeld ? 2.6 : 1.6);
    p.drawLine(at.topLeft() + QPointF(0, 2), at.topRight() + QPointF(0, 2));
    p.drawLine(at.bottomLeft() - QPointF(0, 2), at.bottomRight() - QPointF(0, 2));
}

void Sketch::extraction(Run state, const QRectF& body)
{
    const bool isLive = state == Run::Runs;
    const qreal right = body.right() - 12;
    const qreal left = right - 16;
    const qreal top = body.top() - 20;
    pen(ink(isLive), isLive ? 2 : 1.6, state == Run::Unknown ? Qt::DashLine : Qt::SolidLine);
    p.drawLine(QPointF(left, body.top()), QPointF(left, top));
    p.drawLine(QPointF(right, body.top()), QPointF(right, top));
    if (!isLive)
        return;
    const QPointF tip((left + right) / 2, top - 6);
    p.drawLine(tip, QPointF(tip.x(), body.top() + 6));
    p.drawPolyline(QPolygonF({tip + QPointF(-4, 5), tip, tip + QPointF(4, 5)}));
}

void Sketch::housing(const MachineView::Lamphouse& view, const QRectF& body)
{
    const bool isOpen = view.housing == Cover::Open;
    const qreal exitTop = body.center().y() - exitOf(body);
    const qreal exitBottom = body.center().y() + exitOf(body);
    pen(t.edge, 2.6);
    p.drawPolyline(QPolygonF({body.topLeft(), body.topRight(), {body.right(), exitTop}}));
    p.drawPolyline(QPolygonF({body.bottomLeft(), body.bottomRight(), {body.right(), exitBottom}}));
    if (!isOpen) {
        p.drawLine(body.topLeft(), body.bottomLeft());
        return;
    }
    // The door stands away from the body, hinged at its foot.
    const qreal swing = std::min(body.left() * 0.8, 18.0);
    pen(t.text, 2.6);
    p.drawLine(body.bottomLeft(), body.bottomLeft() + QPointF(-std::max(swing, 12.0), -body.height() * 0.86));
}

void Sketch::guard(Cover guard, const QRectF& cover)
{
    pen(guard == Cover::Open ? t.text : t.edge, 1.6, Qt::CustomDashLine);
    QPen dashed = p.pen();
    dashed.setDashPattern({2.2, 2.6});
    p.setPen(dashed);
    p.drawPolyline(QPolygonF({cover.topLeft(), cover.bottomLeft(), cover.bottomRight(), cover.topRight()}));
    const QPointF lid = guard == Cover::Open ? QPointF(cover.width() * 0.62, -cover.height() * 0.36)
                                             : QPointF(cover.width(), 0);
    p.drawLine(cover.topLeft(), cover.topLeft() + lid);
}

void Sketch::dowser(const MachineView::Lamphouse& view, const QRectF& body)
{
    const qreal middle = body.center().y();
    const bool lightLeaves = view.dowser == Cover::Open && view.heat == Heat::Lit;
    const bool isOpen = view.dowser == Cover::Open;
    pen(isOpen ? t.quiet : t.edge, 4);
    const qreal blade = exitOf(body) * 0.8;
    const qreal lift = isOpen ? -2 * blade - 2 : 0;
    p.drawLine(QPointF(body.right() + 5, middle - blade + lift),
               QPointF(body.right() + 5, middle + blade + lift));
    if (!lightLeaves)
        return;
    pen(t.text, 1.6);
    for (const qreal y : {-12.0, 0.0, 12.0})
        p.drawLine(QPointF(body.right() + 2, middle + y * 0.7), QPointF(body.right() + 18, middle + y));
}

void Sketch::glow(QPointF centre, qreal radius)
{
    QRadialGradient light(centre, radius);
    QColor bright = t.text;
    bright.setAlpha(120);
    light.setColorAt(0, bright);
    bright.setAlpha(0);
    light.setColorAt(1, bright);
    p.setPen(Qt::NoPen);
    p.setBrush(light);
    p.drawEllipse(centre, radius, radius);
}

void Sketch::heatWaves(QPointF above, qreal size)
{
    pen(t.text, 1.5);
    for (const qreal x : {-0.5, 0.0, 0.5}) {
        QPainterPath wave(above + QPointF(x * size, 0));
        wave.cubicTo(above + QPointF(x * size - 4, -3), above + QPointF(x * size + 4, -7),
                     above + QPointF(x * size, -10));
        p.drawPath(wave);
    }
}

void Sketch::bulb(const MachineView::Lamphouse& view, QPointF centre, qreal size)
{
    const bool isLit = view.heat == Heat::Lit;
    const bool isHot = isLit || view.heat == Heat::Cooling;
    if (isLit)
        glow(centre, size * 1.7);
    const QColor glass = isHot ? t.text : t.quiet;
    pen(glass, 4);
    for (const qreal side : {-1.0, 1.0}) // the two caps
        p.drawLine(centre + QPointF(side * size * 1.05, 0), centre + QPointF(side * size * 1.45, 0));
    pen(glass, 1.8);
    p.setBrush(isLit ? t.text : Qt::transparent);
    p.drawEllipse(centre, size * 0.8, size * 0.5);
    const QColor metal = isLit ? t.ground : glass;
    pen(metal, 2); // the small electrode, then the large one
    p.drawLine(centre + QPointF(-size * 0.8, 0), centre + QPointF(-size * 0.22, 0));
    pen(metal, 5);
    p.drawLine(centre + QPointF(size * 0.22, 0), centre + QPointF(size * 0.7, 0));
    if (view.heat == Heat::Cooling)
        heatWaves(centre + QPointF(0, -size * 0.5 - 5), size);
    if (view.adaptor == MachineView::Adaptor::OnLamp) {
        pen(glass, 1.6);
        p.drawRect(QRectF(centre + QPointF(size * 1.08, -6), QSizeF(size * 0.3, 12)));
    }
}

void Sketch::seat(const MachineView::Lamphouse& view, QPointF centre, qreal size)
{
    // Two clamps: jaws apart while nothing is held.
    const qreal gap = view.seat == Seat::Clamped ? 4 : 9;
    for (const qreal side : {-1.0, 1.0}) {
        const qreal x = centre.x() + side * size * 1.25;
        pen(t.edge, 2.4);
        p.drawLine(QPointF(x - 5, centre.y() - gap), QPointF(x + 5, centre.y() - gap));
        p.drawLine(QPointF(x - 5, centre.y() + gap), QPointF(x + 5, centre.y() + gap));
    }
    if (view.seat == Seat::Empty)
        return;
    p.save();
    if (view.seat == Seat::Unknown)
        p.setOpacity(0.5);
    p.translate(centre);
    if (view.seat == Seat::Entered)
        p.rotate(-9);
    bulb(view, QPointF(0, 0), size);
    p.restore();
}

void Sketch::person(QPointF feet)
{
    p.setPen(Qt::NoPen);
    p.setBrush(t.text);
    p.drawEllipse(feet + QPointF(0, -21), 4, 4);
    QPainterPath body(feet + QPointF(-6, 0));
    body.lineTo(feet + QPointF(-6, -9));
    body.quadTo(feet + QPointF(-6, -15), feet + QPointF(0, -15));
    body.quadTo(feet + QPointF(6, -15), feet + QPointF(6, -9));
    body.lineTo(feet + QPointF(6, 0));
    p.drawPath(body);
}

void Sketch::lamphouse(const MachineView::Lamphouse& view, const MachinePlan::Lamphouse& plan)
{
    const QRectF& body = plan.body;
    const qreal size = std::min(body.height() * 0.3, body.width() * 0.17);
    const QPointF centre = body.center() + QPointF(body.width() * 0.06, body.height() * 0.06);
    housing(view, body);
    pen(view.heat == Heat::Lit ? t.text : t.edge, 2); // the reflector
    const QRectF mirror(body.left() + body.width() * 0.1, body.top() + 12, body.width() * 0.36,
                        body.height() - 24);
    p.drawArc(mirror, 115 * 16, 130 * 16);
    seat(view, centre, size);
    guard(view.guard, QRectF(centre - QPointF(size * 1.75, size * 1.05), QSizeF(size * 3.5, size * 2.0)));
    dowser(view, body);
    qreal feet = body.left() - 40;
    for (qsizetype i = 0; i < std::min<qsizetype>(view.people.size(), 2); ++i, feet += 15)
        person({std::max(feet, 7.0), body.bottom() + 1});
    captions(plan.captions);
}

void Sketch::machine(const MachineView& view, const MachinePlan& plan)
{
    supplyWires(view, plan, false);
    supplyWires(view, plan, true);
    wire(view.fan == Run::Runs, {{plan.projector.right(), kWireY}, {plan.fan.left(), kWireY}});
    const QPointF from(plan.projector.center().x(), plan.projector.bottom());
    for (const bool isLive : {false, true}) {
        for (qsizetype i = 0; i < plan.lamphouses.size(); ++i) {
            if ((view.lamphouses.at(i).heat == Heat::Lit) != isLive)
                continue;
            const QRectF& body = plan.lamphouses.at(i).body;
            const qreal bend = body.top() - 30;
            wire(isLive,
                 {from, {from.x(), bend}, {body.center().x(), bend}, {body.center().x(), body.top()}});
        }
    }
    for (qsizetype i = 0; i < plan.points.size(); ++i) {
        point(view.points.at(i), plan.points.at(i).box);
        captions(plan.points.at(i).captions);
    }
    projector(view.projector, plan.projector);
    fan(view.fan, plan.fan);
    captions(plan.airCaptions);
    for (qsizetype i = 0; i < plan.lamphouses.size(); ++i) {
        capacitor(view.lamphouses.at(i).charge, plan.lamphouses.at(i).capacitor);
        extraction(view.extraction, plan.lamphouses.at(i).body);
        lamphouse(view.lamphouses.at(i), plan.lamphouses.at(i));
    }
}

QString pointWords(const MachineView::Point& point)
{
    QStringList parts{wordOf(point.power), lockWords(point)};
    parts.removeAll(QString());
    return parts.join(u", "_s);
}

} // namespace

MachineDrawing::MachineDrawing(QWidget* parent)
    : QWidget(parent)
{
    setObjectName(u"machineDrawing"_s);
    setAccessibleName(tr("The machine"));
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void MachineDrawing::setView(const MachineView& view)
{
    if (view == m_view)
        return;
    m_view = view;
    setAccessibleDescription(sentences().join(u". "_s));
    updateGeometry();
    update();
}

QStringList MachineDrawing::sentences() const
{
    QStringList all;
    for (const MachineView::Point& point : m_view.points)
        all.append(u"%1: %2"_s.arg(point.name, pointWords(point)));
    all.append(tr("projector %1").arg(wordOf(m_view.projector)));
    all.append(fanWords(m_view.fan));
    all.append(extractionWords(m_view.extraction));
    for (const MachineView::Lamphouse& lamphouse : m_view.lamphouses) {
        QStringList parts{lampWords(lamphouse), coverWords(lamphouse), chargeWords(lamphouse.charge)};
        if (!lamphouse.people.isEmpty())
            parts.append(zoneWords(lamphouse));
        all.append(u"%1: %2"_s.arg(lamphouse.name, parts.join(u", "_s)));
    }
    return all;
}

bool MachineDrawing::fits() const
{
    return width() >= kLeastWidth && height() >= leastHeightOf(m_view);
}

int MachineDrawing::heightForWidth(int width) const
{
    const MachineFit fit = fitOf(m_view, QSizeF(width, QWIDGETSIZE_MAX));
    return static_cast<int>(std::ceil(fit.plan.height * fit.scale));
}

QSize MachineDrawing::minimumSizeHint() const
{
    return {kLeastWidth, static_cast<int>(std::ceil(leastHeightOf(m_view)))};
}

void MachineDrawing::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const MachineFit fit = fitOf(m_view, size());
    painter.translate(std::max(0.0, (width() - fit.plan.width * fit.scale) / 2), 0);
    painter.scale(fit.scale, fit.scale);
    Sketch(painter, tokensOf(*this)).machine(m_view, fit.plan);
}

void MachineDrawing::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange)
        update();
}

} // namespace coldarc::ui
