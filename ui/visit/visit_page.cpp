#include "ui/visit/visit_page.h"

#include "ui/alignment/light_page.h"
#include "ui/label/scanner_page.h"
#include "ui/photometry/sheet_at_page.h"
#include "ui/photometry/sheet_page.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/book_in_page.h"
#include "ui/visit/done_page.h"
#include "ui/visit/incident_page.h"
#include "ui/visit/make_safe_page.h"
#include "ui/visit/people_here_page.h"
#include "ui/visit/sign_off_page.h"

#include <QStackedLayout>
#include <QTimer>

#include <chrono>

namespace coldarc::ui {

using namespace std::chrono_literals;

VisitPage::VisitPage(VisitDesk& desk, QCoreApplication& application, QWidget* parent)
    : QWidget(parent)
    , m_desk(desk)
    , m_bench(desk)
    , m_bookIn(desk)
    , m_scanner(application, desk.clock())
    , m_incident(desk)
    , m_lightDesk(desk)
    , m_light(m_lightDesk)
    , m_sheetDesk(desk)
    , m_sheet(m_sheetDesk)
    , m_signOff(desk)
    , m_peopleHere(desk)
    , m_done(desk)
    , m_pages(new QStackedLayout(this))
    , m_benchPage(new BenchPage(desk.clock(), this))
    , m_bookInPage(new BookInPage(desk.clock(), this))
    , m_scannerPage(makeScannerPage(application, desk.clock(), this))
    , m_incidentPage(new IncidentPage(desk.clock(), this))
    , m_lightPage(new LightPage(desk.clock(), this))
    , m_sheetPage(new SheetPage(desk.clock(), this))
    , m_makeSafePage(new MakeSafePage(desk.clock(), this))
    , m_signOffPage(new SignOffPage(desk.clock(), this))
    , m_peopleHerePage(new PeopleHerePage(desk.clock(), this))
    , m_donePage(new DonePage(desk.clock(), this))
{
    for (QWidget* page : {static_cast<QWidget*>(m_benchPage), static_cast<QWidget*>(m_bookInPage),
                          static_cast<QWidget*>(m_scannerPage), static_cast<QWidget*>(m_incidentPage),
                          static_cast<QWidget*>(m_lightPage), static_cast<QWidget*>(m_sheetPage),
                          static_cast<QWidget*>(m_makeSafePage), static_cast<QWidget*>(m_signOffPage),
                          static_cast<QWidget*>(m_peopleHerePage), static_cast<QWidget*>(m_donePage)})
        m_pages->addWidget(page);
    connect(m_pages, &QStackedLayout::currentChanged, this, &VisitPage::listen);
    connectBench();
    connectBookIn();
    connectIncident();
    connectLight();
    connectSheet();
    connectMakeSafe();
    connectSignOff();
    connectPeopleHere();
    connectDone();
    m_benchPage->setView(m_bench.view());
    auto* timer = new QTimer(this);
    connect(timer, &QTimer::timeout, this, &VisitPage::refresh);
    timer->start(250ms);
}

void VisitPage::setSound(std::function<void()> sound)
{
    m_benchPage->setSound(std::move(sound));
}

void VisitPage::bringUp(QWidget* page)
{
    m_pages->setCurrentWidget(page);
    page->setFocus(Qt::OtherFocusReason);
}

void VisitPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    listen();
}

void VisitPage::hideEvent(QHideEvent* event)
{
    QWidget::hideEvent(event);
    listen();
}

/// The page that checks the scanner hears it by itself.
void VisitPage::listen()
{
    m_scanner.setListening(isVisible() && m_pages->currentWidget() != m_scannerPage);
}

void VisitPage::takeScan(const QString& text)
{
    if (m_pages->currentWidget() == m_bookInPage)
        m_bookIn.scan(text);
    else
        m_bench.sayScanLeft();
}

void VisitPage::showBench()
{
    m_bench.refresh();
    bringUp(m_benchPage);
    m_benchPage->takeFocus();
}

void VisitPage::askToMakeSafe()
{
    const visit::VisitState state = m_desk.seen();
    if (state.isMakingSafe || !state.isOpen())
        return;
    bringUp(m_makeSafePage);
    m_makeSafePage->setView(makeSafeViewOf(state, state.swaps[m_bench.swapInHand()]));
}

void VisitPage::askWhatWentWrong()
{
    m_incident.open(m_bench.swapInHand());
    m_incidentPage->setView(m_incident.view());
    bringUp(m_incidentPage);
}

void VisitPage::refresh()
{
    m_bench.refresh();
    if (m_pages->currentWidget() == m_lightPage)
        m_light.refresh();
    if (m_pages->currentWidget() == m_sheetPage)
        m_sheet.refresh();
}

void VisitPage::connectBench()
{
    connect(&m_bench, &BenchPresenter::viewChanged, m_benchPage, &BenchPage::setView);
    connect(m_benchPage, &BenchPage::doneRequested, &m_bench, &BenchPresenter::done);
    connect(m_benchPage, &BenchPage::answersChanged, &m_bench, &BenchPresenter::keepAnswers);
    connect(m_benchPage, &BenchPage::swapChosen, &m_bench, &BenchPresenter::chooseSwap);
    connect(m_benchPage, &BenchPage::personActRequested, &m_bench, &BenchPresenter::personAct);
    connect(m_benchPage, &BenchPage::stripActRequested, &m_bench, &BenchPresenter::followStrip);
    connect(m_benchPage, &BenchPage::stripDismissed, &m_bench, &BenchPresenter::dismissStrip);
    connect(m_benchPage, &BenchPage::whatWasDoneRequested, this, &VisitPage::showWhatWasDone);
    connect(m_benchPage, &BenchPage::noteRequested, this, [this] {
        showWhatWasDone();
        m_done.beginWriting();
    });
    connect(m_benchPage, &BenchPage::pictureRequested, this, [this] {
        showWhatWasDone();
        m_done.beginPicture();
    });
    connect(m_benchPage, &BenchPage::somethingWrongRequested, this, &VisitPage::askWhatWentWrong);
    connect(m_benchPage, &BenchPage::makeSafeRequested, this, &VisitPage::askToMakeSafe);
    connect(&m_bench, &BenchPresenter::makeSafeWanted, this, &VisitPage::askToMakeSafe);
    connect(&m_bench, &BenchPresenter::bookInWanted, this, [this] {
        m_bookIn.open(m_bench.swapInHand());
        m_bookInPage->setView(m_bookIn.view());
        bringUp(m_bookInPage);
        m_bookInPage->begin();
    });
    connect(&m_bench, &BenchPresenter::signOffWanted, this, [this] {
        m_signOff.open();
        m_signOffPage->setView(m_signOff.view());
        bringUp(m_signOffPage);
    });
}

void VisitPage::showPeople(const PersonId& person)
{
    m_peopleHere.open(person);
    m_peopleHerePage->setView(m_peopleHere.view());
    bringUp(m_peopleHerePage);
}

void VisitPage::connectPeopleHere()
{
    connect(&m_bench, &BenchPresenter::peopleWanted, this, &VisitPage::showPeople);
    connect(m_benchPage, &BenchPage::peopleRequested, this, [this] { showPeople(); });
    connect(&m_peopleHere, &PeopleHerePresenter::viewChanged, m_peopleHerePage, &PeopleHerePage::setView);
    connect(&m_peopleHere, &PeopleHerePresenter::left, this, &VisitPage::showBench);
    connect(m_peopleHerePage, &PeopleHerePage::personChosen, &m_peopleHere, &PeopleHerePresenter::choose);
    connect(m_peopleHerePage, &PeopleHerePage::deedRequested, &m_peopleHere, &PeopleHerePresenter::begin);
    connect(m_peopleHerePage, &PeopleHerePage::joinRequested, &m_peopleHere,
            &PeopleHerePresenter::beginJoining);
    connect(m_peopleHerePage, &PeopleHerePage::newcomerChosen, &m_peopleHere,
            &PeopleHerePresenter::chooseNewcomer);
    connect(m_peopleHerePage, &PeopleHerePage::doneRequested, &m_peopleHere, &PeopleHerePresenter::done);
    connect(m_peopleHerePage, &PeopleHerePage::leaveRequested, &m_peopleHere, &PeopleHerePresenter::leave);
}

void VisitPage::connectBookIn()
{
    connect(&m_bookIn, &BookInPresenter::viewChanged, m_bookInPage, &BookInPage::setView);
    connect(m_bookInPage, &BookInPage::typeTyped, &m_bookIn, &BookInPresenter::setType);
    connect(m_bookInPage, &BookInPage::serialTyped, &m_bookIn, &BookInPresenter::setSerial);
    connect(m_bookInPage, &BookInPage::restChanged, &m_bookIn, &BookInPresenter::setRest);
    connect(m_bookInPage, &BookInPage::passChanged, &m_bookIn, &BookInPresenter::setPass);
    connect(m_bookInPage, &BookInPage::codesWanted, &m_bookIn, &BookInPresenter::takeCodesFor);
    connect(m_bookInPage, &BookInPage::lampChosen, &m_bookIn, &BookInPresenter::chooseLamp);
    connect(&m_scanner, &ScannerFilter::scanned, this, &VisitPage::takeScan);
    connect(m_bookInPage, &BookInPage::pictureOffRequested, &m_bookIn, &BookInPresenter::takePictureOff);
    connect(m_bookInPage, &BookInPage::withoutPictureRequested, &m_bookIn,
            &BookInPresenter::goOnWithoutPicture);
    connect(m_bookInPage, &BookInPage::passRequested, &m_bookIn, &BookInPresenter::passSerial);
    connect(m_bookInPage, &BookInPage::personActRequested, &m_bookIn, &BookInPresenter::personAct);
    connect(m_bookInPage, &BookInPage::doneRequested, &m_bookIn, &BookInPresenter::done);
    connect(m_bookInPage, &BookInPage::leaveRequested, this, &VisitPage::showBench);
    connect(&m_bookIn, &BookInPresenter::finished, this, &VisitPage::showBench);
    connect(m_bookInPage, &BookInPage::scannerCheckRequested, this, [this] { bringUp(m_scannerPage); });
    connect(m_scannerPage, &ScannerPage::leaveRequested, this, [this] { bringUp(m_bookInPage); });
}

void VisitPage::setLampRecords(const LampRecords& records)
{
    m_bookIn.setRecords(records);
}

void VisitPage::setPictureReading(DecodingProcess& process, const Behind& behind)
{
    const visit::VisitState state = m_desk.seen();
    if (!m_shelf || !state.ground)
        return;
    m_labelPicture = std::make_unique<PicturePresenter>(process, behind, state.ground->catalogue.lampTypes(),
                                                        yearOf(m_desk.clock().now().wall));
    m_bookIn.setShelf(*m_shelf);
    connectPicture();
}

void VisitPage::connectPicture()
{
    PicturePresenter* const picture = m_labelPicture.get();
    connect(picture, &PicturePresenter::viewChanged, m_bookInPage, &BookInPage::setPicture);
    connect(picture, &PicturePresenter::picked, &m_bookIn, &BookInPresenter::picked);
    connect(picture, &PicturePresenter::unknownFound, &m_bookIn, &BookInPresenter::couldNotRead);
    connect(m_bookInPage, &BookInPage::pictureGiven, picture, &PicturePresenter::look);
    connect(m_bookInPage, &BookInPage::codePicked, picture, &PicturePresenter::pick);
    connect(m_bookInPage, &BookInPage::pictureClosed, picture, &PicturePresenter::clear);
    connect(m_bookInPage, &BookInPage::keepPictureRequested, picture,
            [this] { m_bookIn.keepPicture(m_labelPicture->picture()); });
    m_bookInPage->setPicture(picture->view());
}

void VisitPage::connectIncident()
{
    connect(&m_incident, &IncidentPresenter::viewChanged, m_incidentPage, &IncidentPage::setView);
    connect(m_incidentPage, &IncidentPage::kindChosen, &m_incident, &IncidentPresenter::choose);
    connect(m_incidentPage, &IncidentPage::openChosen, &m_incident, &IncidentPresenter::chooseOpen);
    connect(m_incidentPage, &IncidentPage::listRequested, &m_incident, &IncidentPresenter::leave);
    connect(m_incidentPage, &IncidentPage::doneRequested, &m_incident, &IncidentPresenter::done);
    connect(m_incidentPage, &IncidentPage::leaveRequested, this, &VisitPage::showBench);
    connect(&m_incident, &IncidentPresenter::finished, this, &VisitPage::showBench);
}

void VisitPage::connectLight()
{
    connect(&m_bench, &BenchPresenter::lightWanted, this, [this] {
        m_light.open(m_bench.swapInHand());
        m_lightPage->setView(m_light.view());
        bringUp(m_lightPage);
        m_lightPage->begin();
    });
    connect(&m_light, &LightPresenter::viewChanged, m_lightPage, &LightPage::setView);
    connect(m_lightPage, &LightPage::entered, &m_light, &LightPresenter::enter);
    connect(m_lightPage, &LightPage::doneRequested, &m_light, &LightPresenter::done);
    connect(m_lightPage, &LightPage::finishRequested, &m_light, &LightPresenter::finish);
    connect(m_lightPage, &LightPage::takeBackRequested, &m_light, &LightPresenter::takeBack);
    connect(m_lightPage, &LightPage::putRightRequested, &m_light, &LightPresenter::putRight);
    connect(m_lightPage, &LightPage::formRequested, &m_light, &LightPresenter::changeForm);
    connect(m_lightPage, &LightPage::oweRequested, &m_light, &LightPresenter::owe);
    connect(m_lightPage, &LightPage::somethingWrongRequested, this, &VisitPage::askWhatWentWrong);
    connect(m_lightPage, &LightPage::makeSafeRequested, this, &VisitPage::askToMakeSafe);
    connect(m_lightPage, &LightPage::leaveRequested, this, &VisitPage::showBench);
    connect(&m_bench, &BenchPresenter::viewChanged, m_lightPage,
            [this](const BenchView& view) { m_lightPage->setStrip(view.strip); });
    connect(m_lightPage, &LightPage::stripDismissed, &m_bench, &BenchPresenter::dismissStrip);
    connect(m_lightPage, &LightPage::stripActRequested, this, [this] {
        m_bench.followStrip();
        showBench();
    });
    connect(&m_light, &LightPresenter::finished, this, [this] {
        showBench();
        m_bench.goOn();
    });
}

void VisitPage::connectSheet()
{
    connect(&m_bench, &BenchPresenter::sheetWanted, this, [this] {
        m_sheet.open(m_bench.swapInHand());
        m_sheetPage->setView(m_sheet.view());
        bringUp(m_sheetPage);
        m_sheetPage->begin();
    });
    connectSheetPage(m_sheet, *m_sheetPage);
    connect(m_sheetPage, &SheetPage::somethingWrongRequested, this, &VisitPage::askWhatWentWrong);
    connect(&m_sheet, &SheetPresenter::left, this, &VisitPage::showBench);
    connect(&m_sheet, &SheetPresenter::finished, this, [this] {
        showBench();
        m_bench.goOn();
    });
}

void VisitPage::connectMakeSafe()
{
    connect(m_makeSafePage, &MakeSafePage::leaveRequested, this, &VisitPage::showBench);
    connect(m_makeSafePage, &MakeSafePage::makeSafeRequested, this, [this] {
        m_bench.makeSafe(QString());
        showBench();
    });
}

void VisitPage::connectSignOff()
{
    connect(&m_signOff, &SignOffPresenter::viewChanged, m_signOffPage, &SignOffPage::setView);
    connect(m_signOffPage, &SignOffPage::doneRequested, &m_signOff, &SignOffPresenter::done);
    connect(m_signOffPage, &SignOffPage::withoutRequested, &m_signOff, &SignOffPresenter::goOnWithout);
    connect(m_signOffPage, &SignOffPage::leaveRequested, this, &VisitPage::showBench);
    connect(m_signOffPage, &SignOffPage::printRequested, this, &VisitPage::printRequested);
    connect(&m_signOff, &SignOffPresenter::closed, this, &VisitPage::visitClosed);
}

void VisitPage::setShelf(PictureShelf& shelf)
{
    m_shelf = &shelf;
    m_done.setShelf(&shelf);
}

void VisitPage::showWhatWasDone()
{
    m_done.open(m_bench.swapInHand());
    m_donePage->setView(m_done.view());
    bringUp(m_donePage);
    m_donePage->takeFocus();
}

void VisitPage::leaveDone()
{
    if (m_desk.logbook().state().isOpen())
        return showBench();
    Q_EMIT leaveRequested();
}

void VisitPage::connectDone()
{
    m_donePage->setPictures([this](const QString& hash) { return m_done.picture(hash); });
    m_donePage->setTexts([this](const QList<qint64>& entries) { return m_done.textOf(entries); });
    connect(&m_done, &DonePresenter::viewChanged, m_donePage, &DonePage::setView);
    connect(m_donePage, &DonePage::entryChosen, &m_done, &DonePresenter::choose);
    connect(m_donePage, &DonePage::withdrawRequested, &m_done, &DonePresenter::beginWithdraw);
    connect(m_donePage, &DonePage::signRequested, &m_done, &DonePresenter::sign);
    connect(m_donePage, &DonePage::writeRequested, &m_done, &DonePresenter::beginWriting);
    connect(m_donePage, &DonePage::pictureRequested, &m_done, &DonePresenter::beginPicture);
    connect(m_donePage, &DonePage::formLeft, &m_done, &DonePresenter::leaveForm);
    connect(m_donePage, &DonePage::draftChanged, &m_done, &DonePresenter::setDraft);
    connect(m_donePage, &DonePage::doneRequested, &m_done, &DonePresenter::done);
    connect(m_donePage, &DonePage::pictureGiven, &m_done, &DonePresenter::givePicture);
    connect(m_donePage, &DonePage::pictureFileGiven, &m_done, &DonePresenter::givePictureFile);
    connect(m_donePage, &DonePage::printRequested, this, &VisitPage::printRequested);
    connect(m_donePage, &DonePage::recordRequested, this, &VisitPage::recordRequested);
    connect(m_donePage, &DonePage::reportRequested, this, &VisitPage::reportRequested);
    connect(m_donePage, &DonePage::readingsRequested, this, &VisitPage::readingsRequested);
    connect(m_donePage, &DonePage::leaveRequested, this, &VisitPage::leaveDone);
}

} // namespace coldarc::ui
