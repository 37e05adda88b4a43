#include "app/taught_catalogue.h"

#include "ui/shell/shell_presenter.h"

#include <QCoreApplication>

namespace coldarc::app {

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("taughtCatalogue", text);
}

} // namespace

const catalogue::Catalogue& TaughtCatalogue::catalogue()
{
    if (!m_catalogue)
        gather();
    return *m_catalogue;
}

void TaughtCatalogue::gather()
{
    const auto taught = m_workspace.taughtRules.standing();
    m_catalogue = label::withTaught(m_library.catalogue(), taught.value_or(QList<label::Teaching>()));
    if (taught)
        m_shell.settle(ui::About::Codes);
    else
        m_shell.say({words("The rules that were taught for codes could not be read."),
                     words("Codes are read by the catalogue alone."), QString()},
                    ui::About::Codes);
}

} // namespace coldarc::app
