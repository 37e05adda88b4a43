#include "app/workbench.h"

#include "app/backup_room.h"
#include "app/bench_room.h"
#include "app/codes_room.h"
#include "app/door_room.h"
#include "app/history_room.h"
#include "app/people_room.h"
#include "app/records_room.h"
#include "app/review_room.h"
#include "app/sites_room.h"
#include "app/stock_room.h"
#include "app/visits_room.h"
#include "ui/review/review_page.h"

#include <QTimer>

#include <chrono>
#include <utility>

namespace coldarc::app {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace {

const QString kVisits = u"visits"_s;
const QString kPeople = u"people"_s;
const QString kSites = u"sites"_s;
const QString kStock = u"stock"_s;
const QString kRecords = u"records"_s;
const QString kCodes = u"labels"_s;
const QString kReview = u"review"_s;
const QString kBackup = u"workspace"_s;
const QString kHistories = u"histories"_s;
constexpr auto kNextLook = 200ms;
constexpr auto kCatchesUpAfterStart = 2s;

} // namespace

Workbench::Workbench(Outside outside, store::OpenAnswer opened, QObject* parent)
    : QObject(parent)
    , m_outside(std::move(outside))
    , m_workspace(std::move(*opened.database))
    , m_shelf(m_workspace, m_outside.clock)
    , m_keeper(m_outside.clock, m_outside.behind)
    , m_ring(m_workspace.keys, m_keeper, m_outside.clock, m_outside.behind, m_outside.cost)
    , m_shell(m_keeper)
    , m_known(m_outside.library, m_workspace, m_shell)
    , m_isReadOnly(opened.outcome == store::Opening::OpenedReadOnly)
{
    const QList<people::Role> everybody{people::Role::Engineer, people::Role::Trainee,
                                        people::Role::Supervisor};
    const QList<people::Role> grown{people::Role::Engineer, people::Role::Supervisor};
    m_shell.addPlace({kVisits, tr("Visits"), u"Ctrl+1"_s, everybody});
    m_shell.addPlace({kSites, tr("Sites"), u"Ctrl+2"_s, grown});
    m_shell.addPlace({kStock, tr("Van stock"), u"Ctrl+3"_s, everybody});
    m_shell.addPlace({kPeople, tr("People"), u"Ctrl+4"_s, grown});
    m_shell.addPlace({kBackup, tr("Workspace"), u"Ctrl+5"_s, grown});
    m_shell.addPlace({kRecords, tr("Records"), u"Ctrl+6"_s, grown});
    m_shell.addPlace({kCodes, tr("Codes"), u"Ctrl+7"_s, grown});
    m_shell.addPlace({kReview, tr("Review"), u"Ctrl+8"_s, QList<people::Role>{people::Role::Supervisor},
                      [this](const people::Person& person) {
                          return m_workspace.maySupervise(person, m_outside.clock.now().wall);
                      }});
    m_shell.addPlace({kHistories, tr("Histories"), u"Ctrl+9"_s, grown});
    if (m_isReadOnly) {
        m_shell.setReadOnly(
            tr("Read only: another window of this program holds the workspace. Sign in and work there. Here "
               "visits can be looked at without signing in; nothing that you press is written."));
    }
    if (opened.outcome == store::Opening::Upgraded) {
        m_shell.say({tr("The workspace was brought up to date."),
                     tr("A copy as it was before stands in %1.").arg(opened.backup), QString()});
    }
    m_workspace.foldBehind();
    m_window = std::make_unique<ui::MainWindow>(m_shell, m_keeper, m_outside.theme, m_outside.clock,
                                                m_outside.settings);
    makeDoor();
    connect(m_window.get(), &ui::MainWindow::placeChosen, this, &Workbench::goTo);
    connect(m_window.get(), &ui::MainWindow::signInWanted, this, [this] {
        leaveVisit();
        m_keeper.signOut();
        begin();
    });
    auto* timer = new QTimer(this);
    connect(timer, &QTimer::timeout, &m_ring, &ui::KeyRing::look);
    timer->start(1s);
    begin();
    QTimer::singleShot(0, this, &Workbench::catchUp);
    QTimer::singleShot(kNextLook, this, &Workbench::lookAtLibrary);
}

Workbench::~Workbench()
{
    m_window.reset(); // its pages borrow the workspace: they go before that does
}

ui::VisitSources Workbench::sources()
{
    return {m_workspace.people,
            m_workspace.gear,
            m_workspace.sites,
            m_workspace.lamps,
            m_workspace.plans,
            m_workspace.owed,
            m_known.catalogue(),
            m_outside.library.readable(),
            [this]() -> const procedure::ProcedureLoading& { return m_outside.library.proved(); },
            m_shelf,
            m_outside.clock,
            m_outside.ids,
            QTimeZone::systemTimeZone()};
}

/// Says which files were refused, once all are read and proved. Nobody waits for that.
void Workbench::lookAtLibrary()
{
    m_outside.library.beginProof();
    if (!m_outside.library.isWhole()) {
        QTimer::singleShot(kNextLook, this, &Workbench::lookAtLibrary);
        return;
    }
    const QStringList complaints = m_outside.library.complaints();
    if (!complaints.isEmpty()) {
        m_shell.say({tr("%n files of the catalogue or the procedures were refused.", nullptr,
                        static_cast<int>(complaints.size())),
                     tr("The others are in use."), complaints.first()});
    }
}

void Workbench::begin()
{
    if (m_isReadOnly) { // no passphrase is asked for: a try at it could not be written down, so not be
                        // counted
        makeSureOf(kVisits);
        m_visits->setReading();
        return m_shell.showUnsigned(kVisits);
    }
    if (m_door->isNew()) {
        if (!std::exchange(m_hasStartPage, true))
            m_window->setStartPage(m_door->makeStartPage());
        return m_shell.showStart();
    }
    if (m_isCaughtUp)
        m_door->lookForSomebodyInside();
    m_door->beginSignIn();
    m_shell.showSignIn();
}

/// What is asked of unfinished visits at the start, once the thread that folds them has done so: the page in
/// sight does not wait for it, the next one does.
void Workbench::catchUp()
{
    if (std::exchange(m_isCaughtUp, true))
        return;
    if (!m_isReadOnly)
        m_workspace.settleAll(m_outside.clock.now().wall);
    m_door->lookForSomebodyInside();
    QTimer::singleShot(kCatchesUpAfterStart, this, &Workbench::catchUpOnVisits); // the first page comes first
}

/// What came since they were kept may change which reviews count, and an earlier program wrote lists with
/// less in them. One visit at a time, so that no press waits.
void Workbench::catchUpOnVisits()
{
    if (m_isReadOnly)
        return;
    const auto caughtUp = m_workspace.catchUp();
    if (!caughtUp)
        qWarning("not caught up: %s", qUtf8Printable(caughtUp.error().detail));
    if (caughtUp.value_or(false)) {
        m_didCatchUp = true;
        return QTimer::singleShot(0, this, &Workbench::catchUpOnVisits);
    }
    if (std::exchange(m_didCatchUp, false))
        readReviews();
}

/// How visits stand may have changed: every page that shows it.
void Workbench::readReviews()
{
    if (m_visits)
        m_visits->refresh();
    if (visitRoom())
        visitRoom()->readReviews();
    if (m_review && m_shell.view().here == kReview)
        m_review->presenter().refresh();
}

void Workbench::makeDoor()
{
    m_door = std::make_unique<DoorRoom>(m_outside, m_workspace, m_shelf, m_keeper, m_shell);
    connect(m_door.get(), &DoorRoom::created, this, &Workbench::begin);
    connect(m_door.get(), &DoorRoom::signedIn, this, &Workbench::signedIn);
    connect(m_door.get(), &DoorRoom::insideWanted, this,
            [this](const VisitId& visit, const PersonId& presses) {
                showVisitFor(visit, presses);
                if (visitRoom()) // or the list of the visits would stand open to whoever has not signed in
                    m_shell.showUnsigned(kVisits);
            });
    m_window->setSignInPage(m_door->makeSignInPage(m_window->pile()));
}

void Workbench::setNote(const QString& name, const QStringList& note)
{
    m_door->setNote(name, note);
}

void Workbench::signedIn()
{
    const PersonId who = m_keeper.who()->id;
    catchUp();
    makeSureOf(kVisits);
    if (m_people)
        m_people->changeWho();
    if (m_sites)
        m_sites->refresh();
    if (m_stock)
        m_stock->setWho(who);
    if (m_codes)
        m_codes->setWho(who);
    m_visits->changeWho();
    m_shell.showWork();
    m_shell.go(kVisits);
}

void Workbench::makeVisits()
{
    makeBench();
    m_visits = std::make_unique<VisitsRoom>(m_outside, m_workspace, m_keeper, sources());
    connect(m_visits.get(), &VisitsRoom::overPageWanted, this,
            [this](QWidget* page) { m_window->setOverPage(kVisits, page); });
    connect(m_visits.get(), &VisitsRoom::lampsMoved, this, &Workbench::refreshLamps);
    connect(m_visits.get(), &VisitsRoom::visitWanted, this, &Workbench::showVisit);
    connect(m_visits.get(), &VisitsRoom::whatWasDoneWanted, this, [this](const VisitId& visit) {
        showVisit(visit);
        if (visitRoom())
            visitRoom()->page().showWhatWasDone();
    });
    m_window->addPage(kVisits, m_visits->makePage(m_window->pile()));
    m_window->setCommandsOf(kVisits, [this] {
        QList<ui::FinderCommand> commands;
        if (VisitRoom* room = visitRoom()) {
            commands.append({tr("Who is here"), u"F10"_s, [this] { visitRoom()->page().showPeople(); }});
            commands.append(historiesOf(room->desk().logbook().state()));
            commands.append({tr("Back to the visits"), QString(), [this] { goTo(kVisits); }});
        } else if (m_keeper.who()) {
            commands.append({tr("New visit"), u"Ctrl+N"_s, [this] { m_visits->beginNew(); }});
        }
        return commands;
    });
}

/// Lamps moved: every page that shows some.
void Workbench::refreshLamps()
{
    m_visits->refresh();
    if (m_stock)
        m_stock->refresh();
    if (m_sites)
        m_sites->refresh();
}

VisitRoom* Workbench::visitRoom() const
{
    return m_bench ? m_bench->visitRoom() : nullptr;
}

void Workbench::makeBench()
{
    m_bench = std::make_unique<BenchRoom>(m_outside, m_workspace, m_keeper, m_ring, m_shell, sources());
    connect(m_bench.get(), &BenchRoom::overPageWanted, this, [this](QWidget* page) {
        m_window->setOverPage(kVisits, page);
        if (page)
            m_shell.go(kVisits);
    });
    connect(m_bench.get(), &BenchRoom::leaveRequested, this, &Workbench::leaveVisit);
    connect(m_bench.get(), &BenchRoom::signInWanted, this, [this] {
        leaveVisit();
        begin();
    });
    connect(m_bench.get(), &BenchRoom::visitClosed, this, &Workbench::refreshLamps);
    connect(m_bench.get(), &BenchRoom::saved, this, &Workbench::saySaved);
    connect(m_bench.get(), &BenchRoom::notSaved, this, &Workbench::sayNotSaved);
}

void Workbench::showVisit(const VisitId& visit)
{
    if (m_keeper.who())
        return showVisitFor(visit, m_keeper.who()->id);
    if (!m_isReadOnly)
        return;
    if (const auto state = m_shelf.state(visit); state && state->lead != machine::kNone)
        showVisitFor(visit, state->people[state->lead].id);
}

void Workbench::showVisitFor(const VisitId& visit, const PersonId& presses)
{
    makeSureOf(kVisits);
    m_bench->open(visit, presses);
}

void Workbench::leaveVisit()
{
    m_bench->leave();
    m_visits->refresh();
}

void Workbench::saySaved(const QString& said)
{
    m_shell.say({said, QString(), QString()}, ui::About::Saving);
}

void Workbench::sayNotSaved(const QString& file, const Error& error)
{
    qWarning("not saved: %s", qUtf8Printable(error.detail));
    if (error.kind == Error::Kind::Malformed)
        return m_shell.say(
            {tr("%1 was not made: what is kept of this visit is not as it was written.").arg(file),
             tr("A record of it would not be good. Nothing was changed now."),
             tr("Keep a backup of it as it is, and ask who had this laptop.")},
            ui::About::Saving);
    m_shell.say({tr("%1 could not be saved.").arg(file), tr("Everything in the workspace is as it was."),
                 tr("Choose another folder, or make room on the disk.")},
                ui::About::Saving);
}

/// A page is made when somebody goes there first: most never do, and the first page is up sooner.
void Workbench::makeSureOf(const QString& place)
{
    if (place == kVisits && !m_visits)
        makeVisits();
    else if (place == kSites && !m_sites)
        makeSites();
    else if (place == kStock && !m_stock)
        makeStock();
    else if (place == kCodes && !m_codes)
        makeCodes();
    else if (place == kPeople && !m_people)
        makePeople();
    else if (place == kRecords && !m_records)
        makeRecords();
    else if (place == kReview && !m_review)
        makeReview();
    else if (place == kBackup && !m_backup)
        makeBackup();
    else if (place == kHistories && !m_histories)
        makeHistories();
}

void Workbench::goTo(const QString& place)
{
    makeSureOf(place);
    // The place where one is, pressed again, leads from the bench back to its list; while somebody is inside
    // the bench stays for whoever comes back to it.
    const bool isInside = m_bench && m_bench->isSomebodyInside();
    if (!isInside && place == kVisits && m_shell.view().here == kVisits && m_window->overPage(kVisits))
        return leaveVisit();
    if (place == kPeople && m_shell.view().here == kPeople)
        m_window->setOverPage(kPeople, nullptr);
    m_shell.go(place);
    if (place == kBackup)
        m_backup->refresh();
    if (place == kReview && m_shell.view().here == kReview) {
        m_review->presenter().refresh();
        m_review->takeFocus();
    }
    if (place == kCodes) {
        m_window->setOverPage(kCodes, nullptr);
        m_codes->refresh();
    }
    catchUpOnVisits();
}

void Workbench::makeSites()
{
    m_sites = std::make_unique<SitesRoom>(m_outside, m_workspace, m_known.catalogue());
    connect(m_sites.get(), &SitesRoom::sitesChanged, m_visits.get(), &VisitsRoom::refresh);
    m_window->addPage(kSites, m_sites->makePage());
    m_window->setCommandsOf(kSites, [this] { return m_sites->commands(); });
}

void Workbench::makeStock()
{
    m_stock = std::make_unique<StockRoom>(m_outside, m_workspace, m_known.catalogue());
    connect(m_stock.get(), &StockRoom::lampsChanged, m_visits.get(), &VisitsRoom::refresh);
    m_stock->setWho(m_keeper.whoId());
    m_window->addPage(kStock, m_stock->makePage());
}

void Workbench::makeCodes()
{
    m_codes = std::make_unique<CodesRoom>(
        m_outside, m_workspace, [this]() -> const catalogue::Catalogue& { return m_known.catalogue(); });
    connect(m_codes.get(), &CodesRoom::taught, this, [this] { m_known.gather(); });
    connect(m_codes.get(), &CodesRoom::overPageWanted, this,
            [this](QWidget* page) { m_window->setOverPage(kCodes, page); });
    m_codes->setWho(m_keeper.whoId());
    m_window->addPage(kCodes, m_codes->makePage());
    m_window->setCommandsOf(kCodes, [this] { return m_codes->commands(); });
}

void Workbench::makePeople()
{
    m_people = std::make_unique<PeopleRoom>(m_outside, m_workspace, m_keeper, m_shell, m_known.catalogue());
    connect(m_people.get(), &PeopleRoom::overPageWanted, this,
            [this](QWidget* page) { m_window->setOverPage(kPeople, page); });
    connect(m_people.get(), &PeopleRoom::saved, this, &Workbench::saySaved);
    connect(m_people.get(), &PeopleRoom::notSaved, this, &Workbench::sayNotSaved);
    m_window->addPage(kPeople, m_people->makePage());
}

void Workbench::makeRecords()
{
    m_records = std::make_unique<RecordsRoom>(m_workspace, m_keeper, m_outside.clock);
    connect(m_records.get(), &RecordsRoom::visitsChanged, this, [this] {
        readReviews();
        catchUpOnVisits();
    });
    m_window->addPage(kRecords, m_records->makePage());
}

void Workbench::makeReview()
{
    m_review = std::make_unique<ReviewRoom>(m_workspace, m_keeper, m_ring, m_outside.clock, m_outside.behind);
    connect(m_review.get(), &ReviewRoom::saved, this, &Workbench::saySaved);
    connect(m_review.get(), &ReviewRoom::notSaved, this, &Workbench::sayNotSaved);
    connect(m_review.get(), &ReviewRoom::reviewed, m_visits.get(), &VisitsRoom::refresh);
    connect(m_review.get(), &ReviewRoom::historyRequested, this, &Workbench::showHistory);
    m_window->addPage(kReview, m_review->makePage(m_window->pile()));
    m_window->setCommandsOf(kReview, [this] {
        const auto reading = m_review->presenter().reading();
        return m_review->commands() +
               (reading ? historiesOf(reading->report.state) : QList<ui::FinderCommand>());
    });
}

void Workbench::makeBackup()
{
    m_backup = std::make_unique<BackupRoom>(m_outside, m_workspace);
    connect(m_backup.get(), &BackupRoom::restoreRequested, this, &Workbench::restoreRequested);
    m_window->addPage(kBackup, m_backup->makePage());
}

void Workbench::makeHistories()
{
    m_histories = std::make_unique<HistoryRoom>(m_workspace);
    connect(m_histories.get(), &HistoryRoom::entryWanted, this, &Workbench::showEntry);
    m_window->addPage(kHistories, m_histories->makePage(m_window->pile()));
}

QList<ui::FinderCommand> Workbench::historiesOf(const visit::VisitState& state)
{
    return historyCommands(state, [this](const ui::HistoryLink& link) { showHistory(link); });
}

void Workbench::showHistory(const ui::HistoryLink& link)
{
    makeSureOf(kHistories);
    m_histories->show(link);
    goTo(kHistories);
}

void Workbench::showOnDesk(const VisitId& visit, qint64 entry)
{
    goTo(kReview);
    if (m_shell.view().here != kReview) {
        return m_shell.say({tr("This visit came from another laptop: only the review desk shows it."),
                            QString(), tr("Ask somebody who may supervise.")},
                           ui::About::Visit);
    }
    m_shell.settle(ui::About::Visit);
    m_review->presenter().showAt(visit, entry);
}

void Workbench::showEntry(const VisitId& visit, qint64 entry)
{
    makeSureOf(kVisits);
    const std::optional<bool> isElsewhere = m_bench->isOfAnotherLaptop(visit);
    if (!isElsewhere)
        return m_bench->sayNotKnownWhose();
    if (*isElsewhere) // it is worked on there alone: here it is only looked at
        return showOnDesk(visit, entry);
    const bool isHere = m_bench->isInHand(visit);
    if (!isHere && m_bench->isSomebodyInside()) {
        return m_shell.say({tr("Somebody is inside: the bench stays as it is."), QString(),
                            tr("Look it up once everybody is out and the lamphouse is shut.")},
                           ui::About::Zone);
    }
    if (isHere)
        m_shell.go(kVisits);
    else
        showVisit(visit);
    if (!m_bench->isInHand(visit))
        return; // it could not be read, which was said
    visitRoom()->page().showWhatWasDone();
    visitRoom()->page().whatWasDone().choose(entry);
}

} // namespace coldarc::app
