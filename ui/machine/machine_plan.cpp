#include "ui/machine/machine_plan.h"

#include "ui/machine/machine_words.h"
#include "ui/parts/figures.h"
#include "ui/parts/theme.h"

#include <algorithm>
#include <array>
#include <limits>
#include <optional>
#include <utility>

namespace coldarc::ui {

namespace {

using Caption = MachinePlan::Caption;

constexpr qreal kPointWidth = 76;
constexpr qreal kPointCaption = 108;
constexpr qreal kAirWidth = 84;
constexpr qreal kTightBody = 50;
constexpr std::array kTightShapes{MachinePlan::Shape::Tight, MachinePlan::Shape::TightAndWide};

// Puts a caption under what is there already and returns where the next one starts.
qreal addCaption(QList<Caption>& captions, QPointF topLeft, qreal width, const QString& text,
                 Qt::Alignment alignment, bool isLive)
{
    if (text.isEmpty())
        return topLeft.y();
    const QFontMetricsF metrics(fontFor(TextRole::Caption));
    const QStringList lines = figureLines(metrics, text, width);
    const qreal height = metrics.lineSpacing() * static_cast<qreal>(lines.size());
    captions.append({QRectF(topLeft, QSizeF(width, height)), lines, alignment, isLive});
    return topLeft.y() + height;
}

qreal planPoints(MachinePlan& plan, const MachineView& view, bool isTight)
{
    plan.arePointsLow = view.points.size() > 1;
    const qreal boxHeight = plan.arePointsLow ? 36 : isTight ? 44 : 60;
    qreal y = 2;
    for (const MachineView::Point& point : view.points) {
        MachinePlan::Point there;
        there.box = QRectF(2, y, kPointWidth, boxHeight);
        y = addCaption(there.captions, {2, y + boxHeight + 2}, kPointCaption, point.name, Qt::AlignLeft,
                       false);
        if (!plan.arePointsLow) // else the lock in the box carries its number
            y = addCaption(there.captions, {2, y}, kPointCaption, lockWords(point), Qt::AlignLeft, false);
        y += isTight ? 3 : 6;
        plan.points.append(there);
    }
    return y;
}

qreal planAir(MachinePlan& plan, const MachineView& view, bool isTight)
{
    const qreal left = plan.width - kAirWidth;
    plan.fan = isTight ? QRectF(left + 26, 12, 40, 40) : QRectF(left + 20, 6, 52, 52);
    qreal y = plan.fan.bottom() + 4;
    y = addCaption(plan.airCaptions, {left, y}, kAirWidth, fanWords(view.fan), Qt::AlignHCenter,
                   view.fan == MachineView::Run::Runs);
    return addCaption(plan.airCaptions, {left, y}, kAirWidth, extractionWords(view.extraction),
                      Qt::AlignHCenter, view.extraction == MachineView::Run::Runs);
}

MachinePlan::Lamphouse planLamphouse(const MachineView::Lamphouse& view, const QRectF& slot, bool alone,
                                     bool isLow, std::optional<qreal> tight)
{
    MachinePlan::Lamphouse there;
    // Room to the left for a door that stands open and for people, to the right for the light that leaves.
    const qreal left = alone ? 52 : 20;
    const qreal right = alone ? 20 : 18;
    const qreal height = tight ? *tight : !alone ? 74 : isLow ? 92 : 108;
    const qreal wires = alone ? 34 : 30;
    there.body = QRectF(slot.left() + left, slot.top() + wires, slot.width() - left - right, height);
    there.capacitor = QRectF(there.body.center().x() - 11, there.body.top() - 25, 22, 10);
    const QString charge = chargeWords(view.charge);
    const bool isHeld = view.charge != MachineView::Charge::Relieved;
    if (alone) // beside the plates; where two stand side by side there is no room for it there
        addCaption(there.captions, {slot.left(), slot.top() + 4}, there.capacitor.left() - slot.left() - 6,
                   charge, Qt::AlignRight, isHeld);
    const Qt::Alignment alignment = alone ? Qt::AlignHCenter : Qt::AlignLeft;
    qreal y = there.body.bottom() + (tight ? 3 : 6);
    const bool isLit = view.heat == MachineView::Heat::Lit;
    for (const auto& [text, isLive] :
         {std::pair(alone ? QString() : view.name, true), std::pair(lampWords(view), isLit),
          std::pair(alone ? QString() : charge, isHeld), std::pair(coverWords(view), false),
          std::pair(zoneWords(view), true)})
        y = addCaption(there.captions, {slot.left(), y}, slot.width(), text, alignment, isLive);
    return there;
}

} // namespace

MachinePlan planOf(const MachineView& view, MachinePlan::Shape shape, qreal taller)
{
    const bool isTight = shape != MachinePlan::Shape::Ample;
    const auto body = isTight ? std::optional(kTightBody + taller) : std::nullopt;
    MachinePlan plan;
    if (shape == MachinePlan::Shape::TightAndWide)
        plan.width = MachinePlan::kWidth / MachineFit::kLeastScale;
    plan.projector = QRectF(122 + (plan.width - MachinePlan::kWidth) / 2, 8, 78, 48);
    const qreal pointsEnd = planPoints(plan, view, isTight);
    const qreal airEnd = planAir(plan, view, isTight);
    qreal y = std::max({pointsEnd, airEnd, plan.projector.bottom()}) + 2;
    plan.height = y;
    const auto count = view.lamphouses.size();
    const bool alone = count == 1;
    const qreal slotWidth = alone ? plan.width : (plan.width - 8) / 2;
    for (qsizetype i = 0; i < count; ++i) {
        const qreal left = static_cast<qreal>(i % 2) * (slotWidth + 8);
        const QRectF slot(left, y, slotWidth, 0);
        plan.lamphouses.append(planLamphouse(view.lamphouses.at(i), slot, alone, plan.arePointsLow, body));
        for (const Caption& caption : plan.lamphouses.constLast().captions)
            plan.height = std::max(plan.height, caption.at.bottom());
        if (i % 2 == 1)
            y = plan.height + 4;
    }
    plan.height += 2;
    return plan;
}

MachineFit fitOf(const MachineView& view, QSizeF room)
{
    MachineFit fit{planOf(view, MachinePlan::Shape::Ample), 1};
    const auto scaleOf = [&](const MachinePlan& plan, qreal most) {
        return std::min({room.width() / plan.width, room.height() / plan.height, most});
    };
    fit.scale = scaleOf(fit.plan, MachineFit::kMostScale);
    if (fit.scale >= 1)
        return fit;
    fit.scale = 0;
    auto best = MachinePlan::Shape::Tight;
    for (const auto shape : kTightShapes) {
        const MachinePlan plan = planOf(view, shape);
        if (const qreal scale = scaleOf(plan, 1); scale > fit.scale) {
            fit = {plan, scale};
            best = shape;
        }
    }
    fit.scale = std::max(fit.scale, MachineFit::kLeastScale);
    if (const qreal left = room.height() / fit.scale - fit.plan.height;
        left > 0 && !view.lamphouses.isEmpty())
        fit.plan = planOf(view, best, left / static_cast<qreal>((view.lamphouses.size() + 1) / 2));
    return fit;
}

qreal leastHeightOf(const MachineView& view)
{
    qreal least = std::numeric_limits<qreal>::max();
    for (const auto shape : kTightShapes)
        least = std::min(least, planOf(view, shape).height * MachineFit::kLeastScale);
    return least;
}

} // namespace coldarc::ui
