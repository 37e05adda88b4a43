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
    QString question; ///< really? of which file; empty: nothing is asked
    bool canWrite = true;

    friend bool operator==(const BackupView&, const BackupView&) = default;
};

/// Words for the backup page: a copy that is verified after writing, and putting one back.
class BackupPresenter final : public QObject {
    Q_OBJECT

public:
    struct Deeds {
        std::function<Result<BackupCounts>(const QString& file)> backUp;
        /// Looks whether a file is a whole backup. Errors as for store::lookAtBackup.
        std::function<Result<BackupCounts>(const QString& file)> lookAt;
    };

    /// @param folder  where a backup is proposed to go. Borrows the clock.
    BackupPresenter(QString workspace, QString folder, const Clock& clock, QTimeZone zone, Deeds deeds,
                    bool canWrite, QObject* parent = nullptr);

    [[nodiscard]] const BackupView& view() const { return m_view; }
    void refresh();
    void backUp(const QString& target);
    /// Looks at the file and asks, if it is a backup.
    void restore(const QString& source);
    /// Yes: of the file that was asked about.
    void confirmRestore();
    void leaveRestore();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::BackupView& view);
    void restoreRequested(const QString& backup);

private:
    void show(const BackupView& view);
    [[nodiscard]] QString proposed() const;
    /// Why the file that was asked about is not put back.
    [[nodiscard]] QString whyNot(Error::Kind why) const;

    QString m_folder;
    const Clock& m_clock;
    QTimeZone m_zone;
    Deeds m_deeds;
    QString m_asked; ///< the file that the question is about
    BackupView m_view;
};

} // namespace coldarc::ui
