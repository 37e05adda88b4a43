#pragma once

#include "ui/machine/machine_view.h"

#include <QList>
#include <QRectF>
#include <QStringList>

namespace coldarc::ui {

/// Where everything of a machine drawing stands, in its own units: the drawing is `width` wide and is then
/// scaled to the widget. Captions are broken into lines here, so that the height is known before anything is
/// painted.
struct MachinePlan {
    static constexpr qreal kWidth = 290;

    /// Tight: boxes, fan and lamphouses are low. TightAndWide: and words have longer lines, for a drawing
    /// that is made smaller. All of it is there in each.
    enum class Shape {
        Ample,
        Tight,
        TightAndWide
    };

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
    qreal width = kWidth;
    qreal height = 0;
};

/// @param taller  by how much each lamphouse is, where a tight plan leaves some of the height over.
[[nodiscard]] MachinePlan planOf(const MachineView& view, MachinePlan::Shape shape, qreal taller = 0);

/// A plan, and by what it is drawn larger or smaller.
struct MachineFit {
    static constexpr qreal kLeastScale = 0.85; ///< below that its words are not read at arm's length
    static constexpr qreal kMostScale = 1.3;

    MachinePlan plan;
    qreal scale = 1;
};

/// How the drawing stands in a room of this size: whole, and as large as it can. Its foot is outside where
/// the room is lower than `leastHeightOf`.
[[nodiscard]] MachineFit fitOf(const MachineView& view, QSizeF room);
[[nodiscard]] qreal leastHeightOf(const MachineView& view);

} // namespace coldarc::ui
