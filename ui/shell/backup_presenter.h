#pragma once

#include "core/base/clock.h"
#include "core/base/result.h"
#include "ui/parts/field.h"

#include <QObject>
#include <QTimeZone>

#include <functional>

namespace coldarc::ui {

/// How much a workspace or a backup holds.
struct BackupCounts {
    qint64 visits = 0;
    qint64 entries = 0;
    qint64 signatures = 0;
    qint64 pictures = 0;

    friend bool operator==(const BackupCounts&, const BackupCounts&) = default;
};

struct BackupView {
    QString file;     ///< where the workspace is
    FieldView target; ///< where the backup goes
    FieldView source; ///< which backup is put back
    QString outcome;  ///< of the last backup
    QString restoreNote;
    QString restoreOutcome;
    bool asksRestore = false; ///< the question is up: really?
    bool canWrite = true;

    friend bool operator==(const BackupView&, const BackupView&) = default;
};

/// Words for the backup page: a copy that is verified after writing, and putting one back.
class BackupPresenter final : public QObject {
    Q_OBJECT

public:
    using BackUp = std::function<Result<BackupCounts>(const QString& file)>;

    /// @param folder  where a backup is proposed to go. Borrows the clock.
    BackupPresenter(QString workspace, QString folder, const Clock& clock, QTimeZone zone, BackUp backUp,
                    bool canWrite, QObject* parent = nullptr);

    [[nodiscard]] const BackupView& view() const { return m_view; }
    void refresh();
    void backUp(const QString& target);
    /// The first press asks, the second does.
    void restore(const QString& source);
    void leaveRestore();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::BackupView& view);
    void restoreRequested(const QString& backup);

private:
    void show(const BackupView& view);
    [[nodiscard]] QString proposed() const;

    QString m_folder;
    const Clock& m_clock;
    QTimeZone m_zone;
    BackUp m_backUp;
    BackupView m_view;
};

} // namespace coldarc::ui
