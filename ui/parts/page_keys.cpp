#include "ui/parts/page_keys.h"

#include <QShortcut>

namespace coldarc::ui {

namespace {

void bind(QWidget& page, Qt::Key key, const std::function<void()>& deed)
{
    auto* shortcut = new QShortcut(QKeySequence(key), &page);
    shortcut->setAutoRepeat(false);
    shortcut->setContext(Qt::WidgetWithChildrenShortcut);
    QObject::connect(shortcut, &QShortcut::activated, &page, deed);
}

} // namespace

void onEnter(QWidget& page, const std::function<void()>& deed)
{
    bind(page, Qt::Key_Return, deed);
    bind(page, Qt::Key_Enter, deed);
}

void onEscape(QWidget& page, const std::function<void()>& deed)
{
    bind(page, Qt::Key_Escape, deed);
}

} // namespace coldarc::ui
