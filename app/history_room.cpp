#include "app/history_room.h"

#include "ui/review/history_page.h"
#include "ui/review/view_of_review.h"

namespace coldarc::app {

using Reading = ui::HistoryPresenter::Reading;

HistoryRoom::HistoryRoom(Workspace& workspace, QObject* parent)
    : QObject(parent)
    , m_presenter(workspace.histories, QTimeZone::systemTimeZone(),
                  workspace.database.isReadOnly() ? Reading::Not : Reading::Allowed)
{
    connect(&m_presenter, &ui::HistoryPresenter::lookUpRequested, this, &HistoryRoom::entryWanted);
}

QWidget* HistoryRoom::makePage(QWidget* parent)
{
    auto* page = new ui::HistoryPage(parent);
    connect(&m_presenter, &ui::HistoryPresenter::viewChanged, page, &ui::HistoryPage::setView);
    connect(page, &ui::HistoryPage::inSight, &m_presenter, &ui::HistoryPresenter::open);
    connect(page, &ui::HistoryPage::aboutChosen, &m_presenter, &ui::HistoryPresenter::chooseAbout);
    connect(page, &ui::HistoryPage::searched, &m_presenter, &ui::HistoryPresenter::search);
    connect(page, &ui::HistoryPage::chosen, &m_presenter, &ui::HistoryPresenter::choose);
    connect(page, &ui::HistoryPage::olderRequested, &m_presenter, &ui::HistoryPresenter::older);
    connect(page, &ui::HistoryPage::newerRequested, &m_presenter, &ui::HistoryPresenter::newer);
    connect(page, &ui::HistoryPage::lookUpRequested, &m_presenter, &ui::HistoryPresenter::lookUp);
    connect(page, &ui::HistoryPage::stayFollowed, &m_presenter, &ui::HistoryPresenter::followStay);
    connect(page, &ui::HistoryPage::copied, &m_presenter, &ui::HistoryPresenter::copied);
    page->setText([this] { return m_presenter.text(); });
    return page;
}

void HistoryRoom::show(const ui::HistoryLink& link)
{
    switch (link.about) {
    case ui::HistoryLink::About::Lamphouse:
        return m_presenter.showLamphouse(LamphouseId(link.id));
    case ui::HistoryLink::About::Lamp:
        return m_presenter.showLamp(LampId(link.id));
    case ui::HistoryLink::About::Person:
        return m_presenter.showPerson(PersonId(link.id));
    }
}

QList<ui::FinderCommand> historyCommands(const visit::VisitState& state,
                                         const std::function<void(const ui::HistoryLink&)>& show)
{
    const auto titleOf = [](const ui::HistoryOffer& offer) {
        switch (offer.link.about) {
        case ui::HistoryLink::About::Lamphouse:
            return HistoryRoom::tr("History of the lamphouse: %1").arg(offer.name);
        case ui::HistoryLink::About::Lamp:
            return HistoryRoom::tr("History of the lamp: %1").arg(offer.name);
        case ui::HistoryLink::About::Person:
            return HistoryRoom::tr("History of %1").arg(offer.name);
        }
        Q_UNREACHABLE();
    };
    QList<ui::FinderCommand> commands;
    for (const ui::HistoryOffer& offer : ui::historiesOf(state))
        commands.append({titleOf(offer), QString(), [show, link = offer.link] { show(link); }});
    return commands;
}

} // namespace coldarc::app
