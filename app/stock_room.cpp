#include "app/stock_room.h"

#include "ui/lamps/lamps_page.h"

namespace coldarc::app {

namespace {

ui::LampPlaces placesOf(Workspace& workspace)
{
    return {[&workspace](const PersonId& id) {
                const auto person = workspace.people.person(id);
                return person ? person->name : id.text();
            },
            [&workspace](const SiteId& id) {
                const auto site = workspace.sites.load(id);
                return site ? site->site.name : id.text();
            }};
}

} // namespace

StockRoom::StockRoom(const Outside& outside, Workspace& workspace, const catalogue::Catalogue& catalogue,
                     QObject* parent)
    : QObject(parent)
    , m_shelf(workspace, outside.clock)
    , m_presenter(workspace.lamps, catalogue, placesOf(workspace), outside.clock, outside.ids)
{
    m_presenter.setInHand([this] { return ui::inHand(m_shelf); });
    connect(&m_presenter, &ui::LampsPresenter::lampsChanged, this, &StockRoom::lampsChanged);
}

QWidget* StockRoom::makePage()
{
    auto* page = new ui::LampsPage;
    connect(&m_presenter, &ui::LampsPresenter::viewChanged, page, &ui::LampsPage::setView);
    connect(page, &ui::LampsPage::addRequested, &m_presenter, &ui::LampsPresenter::add);
    connect(page, &ui::LampsPage::pasted, &m_presenter, &ui::LampsPresenter::paste);
    connect(page, &ui::LampsPage::actRequested, &m_presenter, &ui::LampsPresenter::act);
    connect(page, &ui::LampsPage::recycleRequested, &m_presenter, &ui::LampsPresenter::recycle);
    page->setView(m_presenter.view());
    return page;
}

} // namespace coldarc::app
