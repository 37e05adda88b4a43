#include "ui/parts/retire.h"

#include <QWidget>

namespace coldarc::ui {

namespace {

void silence(QObject* object)
{
    object->blockSignals(true);
    for (QObject* child : object->children())
        silence(child);
}

} // namespace

void retire(QWidget* widget)
{
    silence(widget);
    widget->hide();
    widget->setParent(nullptr);
    widget->deleteLater();
}

} // namespace coldarc::ui
