#include "app/codes_room.h"

#include "ui/label/scanner_page.h"
#include "ui/lamps/teach_page.h"

#include <QCoreApplication>

namespace coldarc::app {

CodesRoom::CodesRoom(const Outside& outside, Workspace& workspace,
                     std::function<const catalogue::Catalogue&()> catalogue, QObject* parent)
    : QObject(parent)
    , m_clock(outside.clock)
    , m_presenter(workspace.taughtRules, workspace.people, std::move(catalogue), outside.clock, outside.ids)
    , m_heard(*QCoreApplication::instance(), outside.clock)
{
    connect(&m_presenter, &ui::TeachPresenter::taught, this, &CodesRoom::taught);
    connect(&m_heard, &ui::ScannerFilter::scanned, &m_presenter, &ui::TeachPresenter::takeCode);
}

QWidget* CodesRoom::makePage()
{
    auto* page = new ui::TeachPage(m_clock);
    connect(&m_presenter, &ui::TeachPresenter::viewChanged, page, &ui::TeachPage::setView);
    connect(page, &ui::TeachPage::codeChosen, &m_presenter, &ui::TeachPresenter::chooseCode);
    connect(page, &ui::TeachPage::codeGiven, &m_presenter, &ui::TeachPresenter::takeCode);
    connect(page, &ui::TeachPage::typeMarked, &m_presenter, &ui::TeachPresenter::markType);
    connect(page, &ui::TeachPage::serialMarked, &m_presenter, &ui::TeachPresenter::markSerial);
    connect(page, &ui::TeachPage::lampTypeChosen, &m_presenter, &ui::TeachPresenter::chooseLampType);
    connect(page, &ui::TeachPage::keepRequested, &m_presenter, &ui::TeachPresenter::keep);
    connect(page, &ui::TeachPage::withdrawRequested, &m_presenter, &ui::TeachPresenter::withdraw);
    connect(page, &ui::TeachPage::scannerRequested, this, &CodesRoom::showScannerCheck);
    connect(page, &ui::TeachPage::inSight, &m_heard, &ui::ScannerFilter::setListening);
    page->setView(m_presenter.view());
    return page;
}

QList<ui::FinderCommand> CodesRoom::commands()
{
    return {{tr("Check the scanner"), QString(), [this] { showScannerCheck(); }}};
}

void CodesRoom::showScannerCheck()
{
    ui::ScannerPage* page = ui::makeScannerPage(*QCoreApplication::instance(), m_clock);
    connect(page, &ui::ScannerPage::leaveRequested, this, [this] { Q_EMIT overPageWanted(nullptr); });
    Q_EMIT overPageWanted(page);
    page->setFocus(Qt::OtherFocusReason);
}

} // namespace coldarc::app
