#include "ui/shell/backup_presenter.h"

#include <QDateTime>
#include <QDir>
#include <QFileInfo>

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

BackupPresenter::BackupPresenter(QString workspace, QString folder, const Clock& clock, QTimeZone zone,
                                 BackUp backUp, bool canWrite, QObject* parent)
    : QObject(parent)
    , m_folder(std::move(folder))
    , m_clock(clock)
    , m_zone(std::move(zone))
    , m_backUp(std::move(backUp))
{
    m_view.file = std::move(workspace);
    m_view.canWrite = canWrite;
    m_view.source = {tr("Backup file"), {}, {}, {}, {}};
    m_view.restoreNote =
        tr("The workspace as it is now is kept beside it. What was written since the backup is then "
           "not in it; other copies of those visits will differ.");
    m_view.target = {tr("To this file"), proposed(), {}, {}, {}};
}

QString BackupPresenter::proposed() const
{
    const QString when =
        QDateTime::fromMSecsSinceEpoch(msOf(m_clock.now().wall), m_zone).toString(u"yyyy-MM-dd-HHmmss"_s);
    return QDir(m_folder).filePath(u"%1-%2.backup"_s.arg(QFileInfo(m_view.file).completeBaseName(), when));
}

void BackupPresenter::refresh()
{
    BackupView view = m_view;
    view.target.value = proposed();
    show(view);
}

void BackupPresenter::backUp(const QString& target)
{
    BackupView view = m_view;
    if (target.trimmed().isEmpty()) {
        view.outcome = tr("Name a file for it.");
        return show(view);
    }
    const auto counts = m_backUp(target.trimmed());
    if (counts) {
        view.outcome =
            tr("Written and read back: %1 visits, %2 entries, %3 signatures, %4 pictures. Every chain is "
               "whole.\n%5")
                .arg(counts->visits)
                .arg(counts->entries)
                .arg(counts->signatures)
                .arg(counts->pictures)
                .arg(target.trimmed());
    } else {
        switch (counts.error().kind) {
        case Error::Kind::Conflict:
            view.outcome = tr("There is a file of that name. It was left as it is. Choose another name.");
            break;
        case Error::Kind::Malformed:
            view.outcome =
                tr("The workspace itself is not whole, so no backup was made; an older one may be. Nothing "
                   "was changed.");
            break;
        default:
            view.outcome =
                tr("It could not be written there. No part of it stayed behind, and the workspace is as it "
                   "was. Choose another folder, or make room.");
        }
    }
    show(view);
}

void BackupPresenter::restore(const QString& source)
{
    BackupView view = m_view;
    if (source.trimmed().isEmpty()) {
        view.restoreOutcome = tr("Name the file of a backup.");
        return show(view);
    }
    view.restoreOutcome.clear();
    if (!view.asksRestore) {
        view.asksRestore = true;
        return show(view);
    }
    view.asksRestore = false;
    show(view);
    Q_EMIT restoreRequested(source.trimmed());
}

void BackupPresenter::leaveRestore()
{
    BackupView view = m_view;
    view.asksRestore = false;
    show(view);
}

void BackupPresenter::show(const BackupView& view)
{
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
