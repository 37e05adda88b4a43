#include "ui/machine/machine_plan.h"

#include "ui/machine/machine_words.h"
#include "ui/parts/figures.h"
#include "ui/parts/theme.h"

#include <algorithm>
#include <utility>

namespace coldarc::ui {

namespace {

using Caption = MachinePlan::Caption;

constexpr qreal kPointWidth = 76;
constexpr qreal kPointCaption = 108;

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

qreal planPoints(MachinePlan& plan, const MachineView& view)
{
    plan.arePointsLow = view.points.size() > 1;
    const qreal boxHeight = plan.arePointsLow ? 36 : 60;
    qreal y = 2;
    for (const MachineView::Point& point : view.points) {
        MachinePlan::Point there;
        there.box = QRectF(2, y, kPointWidth, boxHeight);
        y = addCaption(there.captions, {2, y + boxHeight + 2}, kPointCaption, point.name, Qt::AlignLeft,
                       false);
        if (!plan.arePointsLow) // else the lock in the box carries its number
            y = addCaption(there.captions, {2, y}, kPointCaption, lockWords(point), Qt::AlignLeft, false);
        y += 6;
        plan.points.append(there);
    }
    return y;
}

qreal planAir(MachinePlan& plan, const MachineView& view)
{
    plan.fan = QRectF(226, 6, 52, 52);
    qreal y = plan.fan.bottom() + 4;
    y = addCaption(plan.airCaptions, {206, y}, 84, fanWords(view.fan), Qt::AlignHCenter,
                   view.fan == MachineView::Run::Runs);
    return addCaption(plan.airCaptions, {206, y}, 84, extractionWords(view.extraction), Qt::AlignHCenter,
                      view.extraction == MachineView::Run::Runs);
}

MachinePlan::Lamphouse planLamphouse(const MachineView::Lamphouse& view, const QRectF& slot, bool alone,
                                     bool isLow)
{
    MachinePlan::Lamphouse there;
    // Room to the left for a door that stands open and for people, to the right for the light that leaves.
    const qreal left = alone ? 52 : 20;
    const qreal right = alone ? 20 : 18;
    const qreal height = !alone ? 74 : isLow ? 92 : 108;
    const qreal wires = alone ? 34 : 30;
    there.body = QRectF(slot.left() + left, slot.top() + wires, slot.width() - left - right, height);
    there.capacitor = QRectF(there.body.center().x() - 11, there.body.top() - 25, 22, 10);
    const QString charge = chargeWords(view.charge);
    const bool isHeld = view.charge == MachineView::Charge::Held;
    if (alone) // beside the plates; where two stand side by side there is no room for it there
        addCaption(there.captions, {slot.left(), slot.top() + 4}, there.capacitor.left() - slot.left() - 6,
                   charge, Qt::AlignRight, isHeld);
    const Qt::Alignment alignment = alone ? Qt::AlignHCenter : Qt::AlignLeft;
    qreal y = there.body.bottom() + 6;
    const bool isLit = view.heat == MachineView::Heat::Lit;
    for (const auto& [text, isLive] :
         {std::pair(alone ? QString() : view.name, true), std::pair(lampWords(view), isLit),
          std::pair(alone ? QString() : charge, isHeld), std::pair(coverWords(view), false),
          std::pair(zoneWords(view), true)})
        y = addCaption(there.captions, {slot.left(), y}, slot.width(), text, alignment, isLive);
    return there;
}

} // namespace

MachinePlan planOf(const MachineView& view)
{
    MachinePlan plan;
    plan.projector = QRectF(122, 8, 78, 48);
    const qreal pointsEnd = planPoints(plan, view);
    const qreal airEnd = planAir(plan, view);
    qreal y = std::max({pointsEnd, airEnd, plan.projector.bottom()}) + 2;
    plan.height = y;
    const auto count = view.lamphouses.size();
    const bool alone = count == 1;
    const qreal slotWidth = alone ? MachinePlan::kWidth : (MachinePlan::kWidth - 8) / 2;
    for (qsizetype i = 0; i < count; ++i) {
        const qreal left = static_cast<qreal>(i % 2) * (slotWidth + 8);
        const QRectF slot(left, y, slotWidth, 0);
        plan.lamphouses.append(planLamphouse(view.lamphouses.at(i), slot, alone, plan.arePointsLow));
        for (const Caption& caption : plan.lamphouses.constLast().captions)
            plan.height = std::max(plan.height, caption.at.bottom());
        if (i % 2 == 1)
            y = plan.height + 4;
    }
    plan.height += 2;
    return plan;
}

} // namespace coldarc::ui
