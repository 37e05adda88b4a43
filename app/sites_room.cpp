#include "app/sites_room.h"

#include "ui/site/sites_page.h"

#include <QTimeZone>

namespace coldarc::app {

SitesRoom::SitesRoom(const Outside& outside, Workspace& workspace, const catalogue::Catalogue& catalogue,
                     QObject* parent)
    : QObject(parent)
    , m_shelf(workspace, outside.clock)
    , m_presenter(workspace.sites, workspace.lamps, catalogue, outside.clock, outside.ids,
                  QTimeZone::systemTimeZone())
{
    m_presenter.setInHand([this] { return ui::inHand(m_shelf); });
    connect(&m_presenter, &ui::SitesPresenter::sitesChanged, this, &SitesRoom::sitesChanged);
}

QWidget* SitesRoom::makePage()
{
    auto* page = new ui::SitesPage;
    m_page = page;
    connect(&m_presenter, &ui::SitesPresenter::viewChanged, page, &ui::SitesPage::setView);
    connect(page, &ui::SitesPage::siteChosen, &m_presenter, &ui::SitesPresenter::choose);
    connect(page, &ui::SitesPage::formRequested, &m_presenter, &ui::SitesPresenter::openForm);
    connect(page, &ui::SitesPage::lampRequested, &m_presenter, &ui::SitesPresenter::openLamp);
    connect(page, &ui::SitesPage::showsRequested, &m_presenter, &ui::SitesPresenter::openShows);
    connect(page, &ui::SitesPage::breakerRequested, &m_presenter, &ui::SitesPresenter::openBreaker);
    connect(page, &ui::SitesPage::modelChosen, &m_presenter, &ui::SitesPresenter::chooseModel);
    connect(page, &ui::SitesPage::formKept, &m_presenter, &ui::SitesPresenter::keepForm);
    connect(page, &ui::SitesPage::pasted, &m_presenter, &ui::SitesPresenter::paste);
    m_presenter.refresh();
    page->setView(m_presenter.view());
    return page;
}

QList<ui::FinderCommand> SitesRoom::commands()
{
    const auto opens = [this](ui::SiteForm form) { return [this, form] { m_page->askForForm(form); }; };
    return {{tr("Add a site"), QString(), opens(ui::SiteForm::NewSite)},
            {tr("Add a screen"), QString(), opens(ui::SiteForm::Screen)},
            {tr("Screens from a table"), QString(), opens(ui::SiteForm::Paste)}};
}

} // namespace coldarc::app
