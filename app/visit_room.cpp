#include "app/visit_room.h"

#include "app/label_command.h"
#include "core/machine/reach.h"
#include "core/visit/correction.h"

#include <QCoreApplication>
#include <QVBoxLayout>

namespace coldarc::app {

using namespace Qt::StringLiterals;

VisitRoom::VisitRoom(visit::Logbook logbook, Workspace& workspace, const ui::PeopleTools& tools,
                     const Clock& clock, const PersonId& presses, bool isFirstOfThisRun, QWidget* parent)
    : QWidget(parent)
    , m_workspace(workspace)
    , m_logbook(std::move(logbook))
    , m_desk(m_logbook, clock, presses)
    , m_clerk(workspace, m_desk, *tools.ring, clock)
    , m_pictures(workspace.database)
    , m_records(workspace, clock)
    , m_decoder(decoderBeside(QCoreApplication::applicationDirPath()), {}, kDecoderPatience)
    , m_page(std::make_unique<ui::VisitPage>(m_desk, *QCoreApplication::instance()))
    , m_files(workspace, m_logbook.state().ground->opening, m_logbook.entries().first().at.wall,
              m_desk.zone(), this)
{
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(m_page.get());
    connect(&m_desk, &ui::VisitDesk::changed, this, &VisitRoom::settle);
    connect(&m_desk, &ui::VisitDesk::changed, this, &VisitRoom::changed);
    connect(&m_desk, &ui::VisitDesk::failed, this, &VisitRoom::failed);
    connect(&m_clerk, &SignatureClerk::failed, this, &VisitRoom::notSigned);
    connect(m_page.get(), &ui::VisitPage::printRequested, &m_files, &VisitFiles::print);
    connect(m_page.get(), &ui::VisitPage::recordRequested, &m_files, &VisitFiles::askForRecord);
    connect(m_page.get(), &ui::VisitPage::reportRequested, &m_files, &VisitFiles::askForReport);
    connect(m_page.get(), &ui::VisitPage::readingsRequested, &m_files, &VisitFiles::askForReadings);
    connect(m_page.get(), &ui::VisitPage::visitClosed, this, &VisitRoom::visitClosed);
    connect(m_page.get(), &ui::VisitPage::leaveRequested, this, &VisitRoom::leaveRequested);
    connect(&m_files, &VisitFiles::notSaved, this, &VisitRoom::notSaved);
    connect(&m_files, &VisitFiles::saved, this, &VisitRoom::saved);
    m_page->setShelf(m_pictures);
    m_page->setLampRecords(m_records);
    m_page->setPictureReading(m_decoder, m_behind.behind());
    m_page->peopleHere().setTools(tools);
    readReviews();
    m_clerk.signMissing();
    takeUpAgain(isFirstOfThisRun);
}

VisitRoom::~VisitRoom() = default;

/// What supervisors said of it stands beside the entries.
void VisitRoom::readReviews()
{
    const auto kept = m_workspace.reviews.of(m_logbook.visit());
    QList<ui::SupervisorSaid> said;
    for (const record::KeptReview& one : kept ? kept->whole : std::vector<record::KeptReview>()) {
        if (one.isCounted)
            said.append(saidOf(one.review));
    }
    m_page->whatWasDone().setReviews(said, kept ? static_cast<int>(kept->altered.size()) : 0);
}

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
void VisitRoom::takeUpAgain(bool isFirstOfThisRun)
{
    if (visit::isTakenUpAgain(m_logbook.state(), m_desk.presses(), m_desk.clock().now(), isFirstOfThisRun))
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

} // namespace coldarc::app
