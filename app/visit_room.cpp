#include "app/visit_room.h"

#include "app/label_command.h"
#include "app/record_out.h"
#include "core/base/json.h"
#include "core/machine/reach.h"
#include "core/visit/correction.h"

#include <QCoreApplication>
#include <QFileDialog>
#include <QLocale>
#include <QPrintDialog>
#include <QPrinter>
#include <QSaveFile>
#include <QVBoxLayout>

namespace coldarc::app {

using namespace Qt::StringLiterals;

namespace {

/// What lies in the printers where this laptop is at home.
QPageSize::PageSizeId usualPaper()
{
    return QLocale().measurementSystem() == QLocale::ImperialUSSystem ? QPageSize::Letter : QPageSize::A4;
}

} // namespace

VisitRoom::VisitRoom(visit::Logbook logbook, Workspace& workspace, const ui::PeopleTools& tools,
                     const Clock& clock, const PersonId& presses, QWidget* parent)
    : QWidget(parent)
    , m_workspace(workspace)
    , m_logbook(std::move(logbook))
    , m_desk(m_logbook, clock, presses)
    , m_clerk(workspace, m_desk, *tools.ring, clock)
    , m_pictures(workspace.database)
    , m_records(workspace, clock)
    , m_decoder(decoderBeside(QCoreApplication::applicationDirPath()), {}, kDecoderPatience)
    , m_page(std::make_unique<ui::VisitPage>(m_desk, *QCoreApplication::instance()))
{
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(m_page.get());
    connect(&m_desk, &ui::VisitDesk::changed, this, &VisitRoom::settle);
    connect(&m_desk, &ui::VisitDesk::changed, this, &VisitRoom::changed);
    connect(&m_desk, &ui::VisitDesk::failed, this, &VisitRoom::failed);
    connect(&m_clerk, &SignatureClerk::failed, this, &VisitRoom::failed);
    connect(m_page.get(), &ui::VisitPage::printRequested, this, &VisitRoom::print);
    connect(m_page.get(), &ui::VisitPage::recordRequested, this, &VisitRoom::askForRecord);
    connect(m_page.get(), &ui::VisitPage::reportRequested, this, &VisitRoom::askForReport);
    connect(m_page.get(), &ui::VisitPage::readingsRequested, this, &VisitRoom::askForReadings);
    connect(m_page.get(), &ui::VisitPage::visitClosed, this, &VisitRoom::visitClosed);
    connect(m_page.get(), &ui::VisitPage::leaveRequested, this, &VisitRoom::leaveRequested);
    m_page->setPictures(m_pictures);
    m_page->setLampRecords(m_records);
    m_page->setPictureReading(m_decoder, m_behind.behind());
    m_page->peopleHere().setTools(tools);
    m_clerk.signMissing();
    takeUpAgain();
}

VisitRoom::~VisitRoom() = default;

Result<Hash> StoredPictures::keep(const QString& mediaType, const QByteArray& bytes)
{
    return store::Pictures(m_database).keep({mediaType, bytes});
}

Result<QByteArray> StoredPictures::read(const Hash& hash) const
{
    const auto picture = store::Pictures(m_database).read(hash);
    if (!picture)
        return tl::unexpected(picture.error());
    return picture->bytes;
}

/// That nobody watched for a while is written down before anything else is.
void VisitRoom::takeUpAgain()
{
    if (visit::isTakenUpAgain(m_logbook.state(), m_desk.presses(), m_desk.clock().now()))
        m_desk.tell(visit::Resumed{});
}

bool VisitRoom::isSomebodyInside() const
{
    return machine::isSomebodyInside(m_desk.logbook().state().machine);
}

/// The end of the visit was written: lamps and sites follow it before anybody looks.
void VisitRoom::settle()
{
    const QList<visit::Entry>& entries = m_logbook.entries();
    if (!entries.isEmpty() && std::holds_alternative<visit::Closed>(entries.last().body))
        m_workspace.settle(m_logbook, m_desk.clock().now().wall);
}

void VisitRoom::print()
{
    const auto made = report();
    if (!made)
        return tellSaved(tr("The report"), tl::unexpected(made.error()));
    QPrinter printer(QPrinter::HighResolution);
    printer.setPageSize(QPageSize(usualPaper()));
    QPrintDialog ask(&printer, this);
    if (ask.exec() == QDialog::Accepted && !made->print(printer))
        Q_EMIT notSaved(tr("The report"), u"the printer took nothing"_s);
}

Result<void> VisitRoom::saveRecord(const QString& file) const
{
    const auto bytes = recordFileOf(m_logbook.visit(), m_workspace.journal,
                                    store::Pictures(m_workspace.database), m_workspace.offices);
    if (!bytes)
        return tl::unexpected(bytes.error());
    QSaveFile out(file);
    if (!out.open(QIODevice::WriteOnly) || out.write(*bytes) != bytes->size() || !out.commit())
        return fail(Error::Kind::Storage, u"%1: %2"_s.arg(file, out.errorString()));
    return {};
}

Result<ReportOut> VisitRoom::report() const
{
    const auto bytes = recordFileOf(m_logbook.visit(), m_workspace.journal,
                                    store::Pictures(m_workspace.database), m_workspace.offices);
    if (!bytes)
        return tl::unexpected(bytes.error());
    return ReportOut::of(*bytes, m_desk.zone());
}

QString VisitRoom::askForFile(const QString& ending, const QString& kind)
{
    const QString name = u"visit-%1.%2"_s.arg(isoUtc(m_logbook.entries().first().at.wall).left(10), ending);
    return QFileDialog::getSaveFileName(this, tr("Where to?"), name, u"%1 (*.%2)"_s.arg(kind, ending));
}

void VisitRoom::tellSaved(const QString& what, const Result<void>& saved)
{
    if (!saved)
        Q_EMIT notSaved(what, saved.error().detail);
}

void VisitRoom::askForRecord()
{
    if (const QString path = askForFile(u"zip"_s, tr("Record of a visit")); !path.isEmpty())
        tellSaved(path, saveRecord(path));
}

void VisitRoom::askForReport()
{
    const QString path = askForFile(u"pdf"_s, tr("PDF"));
    if (path.isEmpty())
        return;
    const auto made = report();
    tellSaved(path, made ? made->save(path, usualPaper()) : tl::unexpected(made.error()));
}

void VisitRoom::askForReadings()
{
    const QString path = askForFile(u"csv"_s, tr("Table"));
    if (path.isEmpty())
        return;
    const auto made = report();
    tellSaved(path, made ? made->saveReadings(path) : tl::unexpected(made.error()));
}

} // namespace coldarc::app
