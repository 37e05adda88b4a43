#pragma once

#include "ui/shell/backup_presenter.h"
#include "ui/shell/shell_presenter.h"

#include <QWidget>

class QVBoxLayout;

namespace coldarc::ui {
class Field;
class PlainButton;
class TextLabel;
} // namespace coldarc::ui

namespace coldarc::app {

/// All that there is to be seen where a workspace cannot be opened: why, and where a backup may take its
/// place the way to put one there.
class TroubleWindow final : public QWidget {
    Q_OBJECT

public:
    enum class MayRestore : std::uint8_t {
        No,
        Yes,
    };
    /// Borrows the clock, which must outlive the window.
    /// @param file  of the workspace; it is not touched from here.
    TroubleWindow(const ui::Trouble& trouble, const QString& file, MayRestore may, const Clock& clock);

Q_SIGNALS:
    /// It was looked at, somebody was told what it holds, and said yes.
    void restoreRequested(const QString& backup);

private:
    void addSentence(QVBoxLayout& column, const QString& text);
    void addRestore(QVBoxLayout& column);
    void choose();
    void setView(const ui::BackupView& view);

    QString m_folder;
    ui::BackupPresenter m_backup;
    ui::Field* m_source = nullptr;
    ui::TextLabel* m_question = nullptr;
    ui::PlainButton* m_yes = nullptr;
    ui::PlainButton* m_leave = nullptr;
    ui::TextLabel* m_outcome = nullptr;
};

} // namespace coldarc::app
