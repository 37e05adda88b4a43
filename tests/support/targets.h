#pragma once

#include <QAbstractButton>
#include <QLineEdit>
#include <QList>
#include <QRect>
#include <QWidget>

#include <algorithm>

namespace coldarc::test {

/// Where a widget of a page is seen and can be hit: what a scroll area hides does not count.
[[nodiscard]] inline QRect seenOnPage(const QWidget* widget, const QWidget& page)
{
    return widget->visibleRegion().boundingRect().translated(widget->mapTo(&page, QPoint(0, 0)));
}

/// Pixels between two targets, along the axis on which they are further apart.
[[nodiscard]] inline int gapBetween(const QRect& a, const QRect& b)
{
    const int across = std::max(a.left() - b.right(), b.left() - a.right()) - 1;
    const int down = std::max(a.top() - b.bottom(), b.top() - a.bottom()) - 1;
    return std::max(across, down);
}

/// Everything on a page that is pressed or written in, as far as it is in sight.
[[nodiscard]] inline QList<const QWidget*> targetsOf(const QWidget& page)
{
    QList<const QWidget*> targets;
    for (const QWidget* widget : page.findChildren<QWidget*>()) {
        const bool isTarget =
            qobject_cast<const QAbstractButton*>(widget) || qobject_cast<const QLineEdit*>(widget);
        if (isTarget && widget->isVisible() && !widget->visibleRegion().isEmpty())
            targets.append(widget);
    }
    return targets;
}

/// Of those, what has to be hit in gloves and must not be hit for another: the main action, the key for what
/// went wrong, MAKE SAFE, ticks of gear, presses of other people.
[[nodiscard]] inline QList<const QWidget*> gloveTargetsOf(const QWidget& page)
{
    QList<const QWidget*> targets = targetsOf(page);
    targets.removeIf([](const QWidget* widget) {
        const QString name = widget->objectName();
        return name != QLatin1String("action") && name != QLatin1String("somethingWrong") &&
               name != QLatin1String("makeSafe") && !name.startsWith(QLatin1String("tick-")) &&
               !name.startsWith(QLatin1String("act-"));
    });
    return targets;
}

} // namespace coldarc::test
