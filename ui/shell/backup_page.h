#pragma once

#include "core/store/backup.h"
#include "ui/shell/backup_presenter.h"

#include <QWidget>

namespace coldarc::ui {

class PlainButton;
class TextLabel;

/// Where the workspace is, back up now, put a backup back. The one page that may use core/store.
class BackupPage final : public QWidget {
    Q_OBJECT

public:
    explicit BackupPage(QWidget* parent = nullptr);

    void setView(const BackupView& view);

Q_SIGNALS:
    void backUpRequested(const QString& target);
    void restoreRequested(const QString& source);
    void restoreConfirmed();
    void restoreLeft();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void chooseTarget();
    void chooseSource();

    BackupView m_view;
    TextLabel* m_file;
    Field* m_target;
    PlainButton* m_chooseTarget;
    PlainButton* m_backUp;
    TextLabel* m_outcome;
    Field* m_source;
    PlainButton* m_chooseSource;
    TextLabel* m_note;
    PlainButton* m_restore;
    QWidget* m_askBox;
    TextLabel* m_question;
    PlainButton* m_yes;
    PlainButton* m_leave;
    TextLabel* m_restoreOutcome;
};

/// Looks at a backup. Errors as for store::lookAtBackup.
[[nodiscard]] Result<BackupCounts> lookAtBackup(const QString& file);

/// Backs a workspace up and says how much it holds. Errors as for store::backUp.
[[nodiscard]] Result<BackupCounts> backUpTo(store::Database& database, const QString& file);

} // namespace coldarc::ui
