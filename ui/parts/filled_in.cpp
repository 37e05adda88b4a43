#include "ui/parts/filled_in.h"

#include <QAbstractButton>
#include <QComboBox>
#include <QCoreApplication>
#include <QLineEdit>
#include <QPlainTextEdit>

namespace coldarc::ui {

QStringList filledIn(const QWidget& form)
{
    QStringList all;
    for (const QLineEdit* box : form.findChildren<QLineEdit*>())
        all.append(box->displayText());
    for (const QPlainTextEdit* box : form.findChildren<QPlainTextEdit*>())
        all.append(box->toPlainText());
    for (const QComboBox* list : form.findChildren<QComboBox*>())
        all.append(list->currentText());
    for (const QAbstractButton* button : form.findChildren<QAbstractButton*>()) {
        if (button->isChecked())
            all.append(button->objectName());
    }
    return all;
}

QString formStays()
{
    return QCoreApplication::translate(
        "form", "What you filled in here is not kept yet. Finish it, or press \u201cLeave it\u201d first.");
}

} // namespace coldarc::ui
