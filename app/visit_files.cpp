#include "app/visit_files.h"

#include "app/record_out.h"
#include "app/save_file.h"
#include "core/base/json.h"

#include <QDateTime>
#include <QDir>
#include <QFileDialog>
#include <QLocale>
#include <QPrintDialog>
#include <QPrinter>
#include <QStandardPaths>

#include <utility>

namespace coldarc::app {

using namespace Qt::StringLiterals;

namespace {

/// What lies in the printers where this laptop is at home.
QPageSize::PageSizeId usualPaper()
{
    return QLocale().measurementSystem() == QLocale::ImperialUSSystem ? QPageSize::Letter : QPageSize::A4;
}

} // namespace

QString amongDocuments(const QString& name)
{
    return QDir(QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)).filePath(name);
}

QString fileNameOf(const QString& site, WallTime opened, const QTimeZone& zone)
{
    QString name;
    for (const QChar letter : site.toLower())
        name += letter.isLetterOrNumber() ? letter : u'-';
    const QStringList words = name.split(u'-', Qt::SkipEmptyParts);
    const QDateTime at = QDateTime::fromMSecsSinceEpoch(opened.time_since_epoch().count(), zone);
    return (QStringList{words.isEmpty() ? u"visit"_s : words.join(u'-')} << at.date().toString(Qt::ISODate))
        .join(u'-');
}

VisitFiles::VisitFiles(Workspace& workspace, const visit::Opening& opening, WallTime opened, QTimeZone zone,
                       QWidget* over, QObject* parent)
    : QObject(parent)
    , m_workspace(workspace)
    , m_visit(opening.visit)
    , m_name(fileNameOf(opening.site.site.name, opened, zone))
    , m_zone(std::move(zone))
    , m_over(over)
{
}

void VisitFiles::print()
{
    const auto made = report();
    if (!made)
        return Q_EMIT notSaved(tr("The report"), made.error());
    QPrinter printer(QPrinter::HighResolution);
    printer.setPageSize(QPageSize(usualPaper()));
    QPrintDialog ask(&printer, m_over);
    if (ask.exec() != QDialog::Accepted)
        return;
    if (made->print(printer))
        Q_EMIT saved(tr("The report was handed to the printer."));
    else
        Q_EMIT notSaved(tr("The report"), {Error::Kind::Storage, u"the printer took nothing"_s});
}

Result<QByteArray> VisitFiles::record() const
{
    return recordFileOf(m_visit, m_workspace.database);
}

Result<void> VisitFiles::saveRecord(const QString& file) const
{
    const auto bytes = record();
    if (!bytes)
        return tl::unexpected(bytes.error());
    return saveFile(file, *bytes);
}

Result<ReportOut> VisitFiles::report() const
{
    const auto bytes = record();
    if (!bytes)
        return tl::unexpected(bytes.error());
    return ReportOut::of(*bytes, m_zone);
}

QString VisitFiles::askForFile(const QString& ending, const QString& kind)
{
    const QString file = amongDocuments(u"%1.%2"_s.arg(m_name, ending));
    return QFileDialog::getSaveFileName(m_over, tr("Where to?"), file, u"%1 (*.%2)"_s.arg(kind, ending));
}

void VisitFiles::tellSaved(const QString& said, const QString& file, const Result<void>& written)
{
    if (written)
        Q_EMIT saved(said.arg(file));
    else
        Q_EMIT notSaved(file, written.error());
}

void VisitFiles::askForRecord()
{
    if (const QString path = askForFile(u"zip"_s, tr("Record of a visit")); !path.isEmpty())
        tellSaved(tr("The record was written to %1."), path, saveRecord(path));
}

void VisitFiles::askForReport()
{
    const QString path = askForFile(u"pdf"_s, tr("PDF"));
    if (path.isEmpty())
        return;
    const auto made = report();
    tellSaved(tr("The report was written to %1."), path,
              made ? made->save(path, usualPaper()) : tl::unexpected(made.error()));
}

void VisitFiles::askForReadings()
{
    const QString path = askForFile(u"csv"_s, tr("Table"));
    if (path.isEmpty())
        return;
    const auto made = report();
    tellSaved(tr("The readings were written to %1."), path,
              made ? made->saveReadings(path) : tl::unexpected(made.error()));
}

} // namespace coldarc::app
