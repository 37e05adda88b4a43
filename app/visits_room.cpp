#include "app/visits_room.h"

#include "ui/visit/new_visit_page.h"
#include "ui/visit/visits_page.h"

#include <QShortcut>
#include <QTimer>

#include <chrono>

namespace coldarc::app {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace {

constexpr auto kReadAgain = 10s;

} // namespace

VisitsRoom::VisitsRoom(const Outside& outside, Workspace& workspace, const ui::SessionKeeper& keeper,
                       const ui::VisitSources& sources, QObject* parent)
    : QObject(parent)
    , m_clock(outside.clock)
    , m_workspace(workspace)
    , m_keeper(keeper)
    , m_visits(sources)
    , m_new(sources)
{
    connectVisits();
    connect(&m_new, &ui::NewVisitPresenter::opened, this, [this](const VisitId& visit) {
        Q_EMIT lampsMoved();
        Q_EMIT visitWanted(visit);
    });
}

void VisitsRoom::connectVisits()
{
    connect(&m_visits, &ui::VisitsPresenter::resumeRequested, this, &VisitsRoom::visitWanted);
    connect(&m_visits, &ui::VisitsPresenter::whatWasDoneRequested, this, &VisitsRoom::whatWasDoneWanted);
    connect(&m_visits, &ui::VisitsPresenter::openRequested, this,
            [this](const visit::PlannedVisit& plan) { showNew(&plan); });
    connect(&m_visits, &ui::VisitsPresenter::followUpRequested, this,
            [this](const SiteId& site, const LamphouseId& lamphouse) {
                beginNew();
                if (m_keeper.who())
                    m_new.beginWithOwed(m_keeper.whoId(), site, lamphouse);
            });
    connect(&m_visits, &ui::VisitsPresenter::settleRequested, this,
            [this](const VisitId& visit, visit::CountersAre counters) {
                if (!m_workspace.database.isReadOnly())
                    m_workspace.settle(visit, m_clock.now().wall, counters);
                Q_EMIT lampsMoved();
            });
}

QWidget* VisitsRoom::makePage(QWidget* parent)
{
    auto* page = new ui::VisitsPage(m_clock, parent);
    connect(&m_visits, &ui::VisitsPresenter::viewChanged, page, &ui::VisitsPage::setView);
    connect(page, &ui::VisitsPage::rowChosen, &m_visits, &ui::VisitsPresenter::choose);
    connect(page, &ui::VisitsPage::kitTicked, &m_visits, &ui::VisitsPresenter::tick);
    connect(page, &ui::VisitsPage::goRequested, &m_visits, &ui::VisitsPresenter::go);
    connect(page, &ui::VisitsPage::dropAsked, &m_visits, &ui::VisitsPresenter::askToDrop);
    connect(page, &ui::VisitsPage::dropRequested, &m_visits, &ui::VisitsPresenter::drop);
    connect(page, &ui::VisitsPage::dropLeft, &m_visits, &ui::VisitsPresenter::leaveDrop);
    connect(page, &ui::VisitsPage::settleRequested, &m_visits, &ui::VisitsPresenter::settle);
    connect(page, &ui::VisitsPage::newVisitRequested, this, &VisitsRoom::beginNew);
    connect(page, &ui::VisitsPage::whatWasDoneRequested, &m_visits, &ui::VisitsPresenter::lookBack);
    auto* fresh = new QShortcut(QKeySequence(u"Ctrl+N"_s), page);
    connect(fresh, &QShortcut::activated, this, &VisitsRoom::beginNew);
    auto* timer = new QTimer(page);
    connect(timer, &QTimer::timeout, this, [this, page] {
        if (page->isVisible())
            m_visits.look();
    });
    timer->start(1s);
    if (m_workspace.database.isReadOnly()) { // the other window goes on
        auto* again = new QTimer(page);
        connect(again, &QTimer::timeout, &m_visits, &ui::VisitsPresenter::refresh);
        again->start(kReadAgain);
    }
    return page;
}

void VisitsRoom::showNew(const visit::PlannedVisit* plan)
{
    if (!m_keeper.who())
        return;
    auto* page = new ui::NewVisitPage(m_clock);
    connect(&m_new, &ui::NewVisitPresenter::viewChanged, page, &ui::NewVisitPage::setView);
    connect(page, &ui::NewVisitPage::siteChosen, &m_new, &ui::NewVisitPresenter::chooseSite);
    connect(page, &ui::NewVisitPage::screensTicked, &m_new, &ui::NewVisitPresenter::tickScreens);
    connect(page, &ui::NewVisitPage::owedTicked, &m_new, &ui::NewVisitPresenter::tickOwed);
    connect(page, &ui::NewVisitPage::lampChosen, &m_new, &ui::NewVisitPresenter::chooseLamp);
    connect(page, &ui::NewVisitPage::lampTyped, &m_new, &ui::NewVisitPresenter::typeLamp);
    connect(page, &ui::NewVisitPage::reasonChosen, &m_new, &ui::NewVisitPresenter::chooseReason);
    connect(page, &ui::NewVisitPage::othersTicked, &m_new, &ui::NewVisitPresenter::tickOthers);
    connect(page, &ui::NewVisitPage::openRequested, &m_new, &ui::NewVisitPresenter::open);
    connect(page, &ui::NewVisitPage::leaveRequested, this, [this] { Q_EMIT overPageWanted(nullptr); });
    auto* timer = new QTimer(page);
    connect(timer, &QTimer::timeout, &m_new, &ui::NewVisitPresenter::look);
    timer->start(10s);
    if (plan)
        m_new.beginFrom(m_keeper.whoId(), *plan);
    else
        m_new.begin(m_keeper.whoId());
    page->setView(m_new.view());
    Q_EMIT overPageWanted(page);
}

} // namespace coldarc::app
