#pragma once

#include "app/report_out.h"
#include "app/workspace.h"

#include <QObject>

class QWidget;

namespace coldarc::app {

/// What can be carried away of one visit: its record, its report, its readings, paper.
class VisitFiles final : public QObject {
    Q_OBJECT

public:
    /// Borrows the workspace and the window over which is asked where to; both must outlive this.
    /// @param opening  of the visit, written at `opened`: for the names of files.
    VisitFiles(Workspace& workspace, const visit::Opening& opening, WallTime opened, QTimeZone zone,
               QWidget* over, QObject* parent = nullptr);

    /// The visit as a record file; it is there whole or not at all. Errors: see recordFileOf, and Storage.
    [[nodiscard]] Result<void> saveRecord(const QString& file) const;
    /// The visit as it would be carried away, for its report. Errors: see recordFileOf and ReportOut.
    [[nodiscard]] Result<ReportOut> report() const;

    // Each asks where to, and says what was written where, or what could not be done.
    void print();
    void askForRecord();
    void askForReport();
    void askForReadings();

Q_SIGNALS:
    /// "The report was written to ...": a sentence.
    void saved(const QString& said);
    /// A file that was asked for could not be written; the visit itself is as it was.
    void notSaved(const QString& file, const coldarc::Error& error);

private:
    [[nodiscard]] Result<QByteArray> record() const;
    [[nodiscard]] QString askForFile(const QString& ending, const QString& kind);
    /// @param said  if it was saved; with a place for the file.
    void tellSaved(const QString& said, const QString& file, const Result<void>& written);

    Workspace& m_workspace;
    VisitId m_visit;
    QString m_name; ///< of its files, without an ending
    QTimeZone m_zone;
    QWidget* m_over;
};

/// A file of this name where people keep their documents: what a dialog begins with.
[[nodiscard]] QString amongDocuments(const QString& name);

/// What files of a visit are called: "corn-exchange-2026-10-21", by the day in this zone.
[[nodiscard]] QString fileNameOf(const QString& site, WallTime opened, const QTimeZone& zone);

} // namespace coldarc::app
