#include "app/visit_room.h"

#include "core/store/pictures.h"
#include "ui/visit/printed_page.h"

#include <QFile>
#include <QFileDialog>
#include <QInputDialog>
#include <QMimeDatabase>
#include <QVBoxLayout>

#include <algorithm>

namespace coldarc::app {

using namespace Qt::StringLiterals;

VisitRoom::VisitRoom(visit::Logbook logbook, Workspace& workspace, ui::SessionKeeper& keeper,
                     const Clock& clock, const PersonId& presses, QWidget* parent)
    : QWidget(parent)
    , m_workspace(workspace)
    , m_logbook(std::move(logbook))
    , m_desk(m_logbook, clock, presses)
    , m_clerk(workspace, m_desk, keeper, clock)
    , m_page(std::make_unique<ui::VisitPage>(m_desk))
{
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(m_page.get());
    connect(&m_desk, &ui::VisitDesk::changed, this, &VisitRoom::settle);
    connect(&m_desk, &ui::VisitDesk::changed, this, &VisitRoom::changed);
    connect(&m_desk, &ui::VisitDesk::failed, this, &VisitRoom::failed);
    connect(&m_clerk, &SignatureClerk::failed, this, &VisitRoom::failed);
    connect(m_page.get(), &ui::VisitPage::noteRequested, this, &VisitRoom::takeNote);
    connect(m_page.get(), &ui::VisitPage::pictureRequested, this, &VisitRoom::takePicture);
    connect(m_page.get(), &ui::VisitPage::printRequested, this, &VisitRoom::print);
    connect(m_page.get(), &ui::VisitPage::visitClosed, this, &VisitRoom::visitClosed);
    m_clerk.signMissing();
}

VisitRoom::~VisitRoom() = default;

bool isSomebodyInside(const machine::State& machine)
{
    const bool isGeared = std::ranges::any_of(machine.person, [](const machine::PersonState& person) {
        return person.gear != machine::Gear::Off || person.at != machine::kNone;
    });
    return isGeared || std::ranges::any_of(machine.lamphouse, [](const machine::LamphouseState& lamphouse) {
               return lamphouse.guardOpen || lamphouse.housingOpen;
           });
}

bool VisitRoom::isSomebodyInside() const
{
    return app::isSomebodyInside(m_desk.logbook().state().machine);
}

void VisitRoom::takeNote()
{
    bool isGiven = false;
    const QString text = QInputDialog::getMultiLineText(
        this, tr("Note"), tr("What should stand in the logbook?"), {}, &isGiven);
    if (isGiven && !text.trimmed().isEmpty())
        m_page->bench().note(text.trimmed());
}

void VisitRoom::takePicture()
{
    const QString path =
        QFileDialog::getOpenFileName(this, tr("Which picture?"), {}, tr("Pictures (*.png *.jpg *.jpeg)"));
    if (path.isEmpty())
        return;
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return Q_EMIT failed(file.errorString());
    const QByteArray bytes = file.readAll();
    const auto kept =
        store::Pictures(m_workspace.database).keep({QMimeDatabase().mimeTypeForData(bytes).name(), bytes});
    if (!kept)
        return Q_EMIT failed(kept.error().detail);
    const visit::SwapState& swap = m_logbook.state().swaps[m_page->bench().swapInHand()];
    const visit::VisitState seen = m_desk.seen();
    const visit::NextStep next = visit::nextStep(seen, swap, seen.lead);
    m_desk.tell(visit::PictureKept{swap.id, next.step ? next.step->id : StepId(), {}, *kept});
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
    const QString path =
        QFileDialog::getSaveFileName(this, tr("Where to?"), u"visit.pdf"_s, tr("PDF (*.pdf)"));
    if (path.isEmpty())
        return;
    const QString page = ui::printedPage(m_desk.seen(), m_logbook.entries(), m_logbook.head(), m_desk.zone());
    if (!ui::writePdf(page, path))
        Q_EMIT failed(tr("%1 could not be written").arg(path));
}

} // namespace coldarc::app
