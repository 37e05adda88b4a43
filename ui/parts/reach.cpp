#include "ui/parts/reach.h"

#include <QScreen>
#include <QWidget>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

namespace {

int pixelsOn(const QWidget& widget, double millimetres, int floor, int ceiling)
{
    const QScreen* screen = widget.screen();
    const double perInch = screen == nullptr ? 96.0 : screen->physicalDotsPerInch();
    const double pixels = std::ceil(millimetres / 25.4 * perInch);
    return std::isfinite(pixels) ? std::clamp(static_cast<int>(pixels), floor, ceiling) : floor;
}

} // namespace

int gloveTarget(const QWidget& widget)
{
    return pixelsOn(widget, 19.0, kGloveTargetFloor, 96);
}

int gloveGap(const QWidget& widget)
{
    return pixelsOn(widget, 13.0, kGloveGapFloor, 66);
}

int targetFor(const QWidget& widget, Reach reach)
{
    return reach == Reach::Glove ? gloveTarget(widget) : kHandTarget;
}

} // namespace coldarc::ui
