#include "ui/parts/tab_stops.h"

#include <QAbstractButton>
#include <QAbstractScrollArea>
#include <QLayout>
#include <QLineEdit>
#include <QScrollArea>

namespace coldarc::ui {

namespace {

void gather(const QWidget& widget, QList<QWidget*>& stops);

void gather(const QLayout& layout, QList<QWidget*>& stops)
{
    for (int index = 0; index < layout.count(); ++index) {
        QLayoutItem* item = layout.itemAt(index);
        QWidget* widget = item->widget();
        if (item->layout() != nullptr)
            gather(*item->layout(), stops);
        if (widget == nullptr || widget->isHidden())
            continue;
        const bool halts = (widget->focusPolicy() & Qt::TabFocus) == Qt::TabFocus;
        if (halts && widget->isEnabled() && widget->focusProxy() == nullptr)
            stops.append(widget);
        gather(*widget, stops);
    }
}

void gather(const QWidget& widget, QList<QWidget*>& stops)
{
    if (const auto* scroll = qobject_cast<const QScrollArea*>(&widget); scroll && scroll->widget())
        gather(*scroll->widget(), stops);
    else if (widget.layout() != nullptr && qobject_cast<const QAbstractScrollArea*>(&widget) == nullptr)
        gather(*widget.layout(), stops);
}

} // namespace

QList<QWidget*> tabStops(const QWidget& within)
{
    QList<QWidget*> stops;
    gather(within, stops);
    return stops;
}

void focusFirst(const QWidget& form)
{
    if (const QList<QWidget*> stops = tabStops(form); !form.isHidden() && !stops.isEmpty())
        stops.first()->setFocus(Qt::OtherFocusReason);
}

void goOnByEnter(QWidget& form, QAbstractButton& act)
{
    for (QLineEdit* box : form.findChildren<QLineEdit*>()) {
        QObject::connect(box, &QLineEdit::returnPressed, &act, [&form, &act, box] {
            const QList<QWidget*> stops = tabStops(form);
            QWidget* next = stops.value(stops.indexOf(box) + 1);
            if (next == &act)
                act.click();
            else if (next != nullptr)
                next->setFocus(Qt::TabFocusReason);
        });
    }
}

} // namespace coldarc::ui
