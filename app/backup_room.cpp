#include "app/backup_room.h"

#include "ui/shell/backup_page.h"

#include <QFileInfo>
#include <QTimeZone>

namespace coldarc::app {

BackupRoom::BackupRoom(const Outside& outside, Workspace& workspace, QObject* parent)
    : QObject(parent)
    , m_presenter(QFileInfo(workspace.database.file()).absoluteFilePath(),
                  QFileInfo(workspace.database.file()).absolutePath(), outside.clock,
                  QTimeZone::systemTimeZone(),
                  ui::BackupPresenter::Deeds{[&workspace](const QString& target) {
                                                 return ui::backUpTo(workspace.database, target);
                                             },
                                             ui::lookAtBackup},
                  !workspace.database.isReadOnly())
{
    connect(&m_presenter, &ui::BackupPresenter::restoreRequested, this, &BackupRoom::restoreRequested);
}

QWidget* BackupRoom::makePage()
{
    auto* page = new ui::BackupPage;
    connect(&m_presenter, &ui::BackupPresenter::viewChanged, page, &ui::BackupPage::setView);
    connect(page, &ui::BackupPage::backUpRequested, &m_presenter, &ui::BackupPresenter::backUp);
    connect(page, &ui::BackupPage::restoreRequested, &m_presenter, &ui::BackupPresenter::restore);
    connect(page, &ui::BackupPage::restoreConfirmed, &m_presenter, &ui::BackupPresenter::confirmRestore);
    connect(page, &ui::BackupPage::restoreLeft, &m_presenter, &ui::BackupPresenter::leaveRestore);
    page->setView(m_presenter.view());
    return page;
}

} // namespace coldarc::app
