#include "ui/shell/backup_presenter.h"

#include "ui/parts/not_written.h"

#include <QDateTime>
#include <QDir>
#include <QFileInfo>

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

BackupPresenter::BackupPresenter(QString workspace, QString folder, const Clock& clock, QTimeZone zone,
                                 Deeds deeds, bool canWrite, QObject* parent)
    : QObject(parent)
    , m_folder(std::move(folder))
    , m_clock(clock)
    , m_zone(std::move(zone))
    , m_deeds(std::move(deeds))
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
    const auto counts = m_deeds.backUp(target.trimmed());
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
        case Error::Kind::Busy:
            view.outcome = notWritten(counts.error(), tr("No part of a backup stayed behind."));
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
    view.source.value = source;
    view.question.clear();
    view.restoreOutcome.clear();
    m_asked = source.trimmed();
    if (m_asked.isEmpty()) {
        view.restoreOutcome = tr("Name the file of a backup.");
    } else if (const auto counts = m_deeds.lookAt(m_asked)) {
        view.question = tr("Put %1 in the place of the workspace? It holds %2 visits, %3 entries, %4 "
                           "signatures, %5 pictures, and every chain is whole. You will be signed out.")
                            .arg(m_asked)
                            .arg(counts->visits)
                            .arg(counts->entries)
                            .arg(counts->signatures)
                            .arg(counts->pictures);
    } else {
        view.restoreOutcome = whyNot(counts.error().kind);
    }
    show(view);
}

QString BackupPresenter::whyNot(Error::Kind why) const
{
    switch (why) {
    case Error::Kind::NotFound:
        return tr("There is no file %1. Nothing was changed. Choose another one.").arg(m_asked);
    case Error::Kind::Malformed:
        return tr("%1 is no whole backup of a workspace, or one of a later program. Nothing was changed. "
                  "Choose another one.")
            .arg(m_asked);
    default:
        return tr("%1 could not be read. Nothing was changed. See that you may read it, then try again.")
            .arg(m_asked);
    }
}

void BackupPresenter::confirmRestore()
{
    if (m_view.question.isEmpty())
        return;
    leaveRestore();
    Q_EMIT restoreRequested(m_asked);
}

void BackupPresenter::leaveRestore()
{
    BackupView view = m_view;
    view.question.clear();
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
