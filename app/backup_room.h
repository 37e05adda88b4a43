#pragma once

#include "app/outside.h"
#include "app/workspace.h"
#include "ui/shell/backup_presenter.h"

#include <QObject>

class QWidget;

namespace coldarc::app {

/// Where the workspace lies, its backups, their page.
class BackupRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows both, which must outlive the room.
    BackupRoom(const Outside& outside, Workspace& workspace, QObject* parent = nullptr);

    /// The page, made once; whoever asks takes it over.
    [[nodiscard]] QWidget* makePage();
    void refresh() { m_presenter.refresh(); }

Q_SIGNALS:
    /// The workspace is to be closed, replaced by this backup, and opened again.
    void restoreRequested(const QString& backup);

private:
    ui::BackupPresenter m_presenter;
};

} // namespace coldarc::app
