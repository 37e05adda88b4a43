#pragma once

#include "ui/machine/machine_view.h"

#include <QList>
#include <QRectF>
#include <QStringList>

namespace coldarc::ui {

/// Where everything of a machine drawing stands, in its own units: the drawing is `kWidth` wide and is then
/// scaled to the widget. Captions are broken into lines here, so that the height is known before anything is
/// painted.
struct MachinePlan {
    static constexpr qreal kWidth = 290;

    struct Caption {
        QRectF at;
        QStringList lines;
        Qt::Alignment alignment = Qt::AlignHCenter;
        bool isLive = false;
    };
    struct Point {
        QRectF box;
        QList<Caption> captions;
    };
    struct Lamphouse {
        QRectF body;
        QRectF capacitor;
        QList<Caption> captions;
    };

    QList<Point> points;
    bool arePointsLow = false; ///< several stand one below the other
    QRectF projector;
    QRectF fan;
    QList<Caption> airCaptions;
    QList<Lamphouse> lamphouses;
    qreal height = 0;
};

[[nodiscard]] MachinePlan planOf(const MachineView& view);

} // namespace coldarc::ui
