#include "ui/parts/page_keys.h"

#include "ui/parts/row_list.h"

#include <QAbstractButton>
#include <QApplication>
#include <QShortcut>

namespace coldarc::ui {

namespace {

void bind(QWidget& page, Qt::Key key, const std::function<void()>& deed,
          Qt::ShortcutContext context = Qt::WidgetWithChildrenShortcut)
{
    auto* shortcut = new QShortcut(QKeySequence(key), &page);
    shortcut->setAutoRepeat(false);
    shortcut->setContext(context);
    QObject::connect(shortcut, &QShortcut::activated, &page, deed);
}

} // namespace

void onEnter(QWidget& page, const std::function<void()>& deed)
{
    bind(page, Qt::Key_Return, deed);
    bind(page, Qt::Key_Enter, deed);
}

bool pressWalkedTo(const QWidget& page)
{
    auto* button = qobject_cast<QAbstractButton*>(QApplication::focusWidget());
    if (!button || !page.isAncestorOf(button))
        return false;
    if (button->isCheckable() && (button->isChecked() || !qobject_cast<RowButton*>(button)))
        return false;
    button->click();
    return true;
}

void onEscape(QWidget& page, const std::function<void()>& deed)
{
    bind(page, Qt::Key_Escape, deed);
}

void onKey(QWidget& page, Qt::Key key, const std::function<void()>& deed)
{
    bind(page, key, deed, Qt::WindowShortcut);
}

void onKey(QWidget& page, Qt::Key key, QAbstractButton& button)
{
    onKey(page, key, [&button] {
        if (button.isVisible())
            button.click();
    });
}

} // namespace coldarc::ui
