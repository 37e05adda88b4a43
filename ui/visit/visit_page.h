#pragma once

#include "ui/alignment/light_presenter.h"
#include "ui/label/picture_presenter.h"
#include "ui/label/scanner_filter.h"
#include "ui/photometry/sheet_presenter.h"
#include "ui/visit/bench_presenter.h"
#include "ui/visit/book_in_presenter.h"
#include "ui/visit/done_presenter.h"
#include "ui/visit/incident_presenter.h"
#include "ui/visit/light_at_desk.h"
#include "ui/visit/people_here_presenter.h"
#include "ui/visit/sheet_at_desk.h"
#include "ui/visit/sign_off_presenter.h"

#include <QWidget>

#include <functional>
#include <memory>

class QStackedLayout;

namespace coldarc::ui {

class BenchPage;
class BookInPage;
class DonePage;
class IncidentPage;
class LightPage;
class MakeSafePage;
class PeopleHerePage;
class ScannerPage;
class SheetPage;
class SignOffPage;

/// One visit at work: the bench, and the pages that it opens and comes back from. Owns the timer that lets
/// waits run.
class VisitPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows both, which must outlive the page.
    /// @param application  whose keys the scanner's filter hears.
    VisitPage(VisitDesk& desk, QCoreApplication& application, QWidget* parent = nullptr);

    [[nodiscard]] BenchPresenter& bench() { return m_bench; }
    [[nodiscard]] BookInPresenter& bookIn() { return m_bookIn; }
    [[nodiscard]] PeopleHerePresenter& peopleHere() { return m_peopleHere; }
    /// The page of who is here. @param person  who is shown first; empty: whoever leads.
    void showPeople(const PersonId& person = {});
    /// How a wait that ends elsewhere calls.
    void setSound(std::function<void()> sound);
    /// Where pictures are kept. Borrowed; until then none can be.
    void setShelf(PictureShelf& shelf);
    /// What is known of lamps besides this visit. Borrowed; until then nothing is.
    void setLampRecords(const LampRecords& records);
    /// Who looks for codes in pictures of labels. Borrowed; until then none are taken on the book-in card.
    void setPictureReading(DecodingProcess& process, const Behind& behind);
    /// The scanner that plays a keyboard. It listens while any page of the visit is in sight: only the
    /// book-in card takes a scan, and elsewhere it neither answers nor presses nor writes.
    [[nodiscard]] ScannerFilter& scanner() { return m_scanner; }
    [[nodiscard]] DonePresenter& whatWasDone() { return m_done; }
    /// The page of what was done: from the list of visits, and where a visit is over.
    void showWhatWasDone();
    [[nodiscard]] LightPresenter& light() { return m_light; }
    [[nodiscard]] SheetPresenter& sheet() { return m_sheet; }
    /// Looks again; the timer does so by itself.
    void refresh();
    /// The bench, with the focus where its card is answered.
    void showBench();

Q_SIGNALS:
    /// What the program's root has to bring: a sheet of paper, a file that carries the visit away.
    void printRequested();
    void recordRequested();
    void reportRequested();
    void readingsRequested();
    void visitClosed();
    /// Out of a visit that is over: there is no bench to go back to.
    void leaveRequested();

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void takeScan(const QString& text);
    void listen();
    void askToMakeSafe();
    void askWhatWentWrong();
    void bringUp(QWidget* page);
    void connectBench();
    void connectBookIn();
    void connectPicture();
    void connectIncident();
    void connectLight();
    void connectSheet();
    void connectMakeSafe();
    void connectSignOff();
    void connectPeopleHere();
    void connectDone();
    void leaveDone();

    VisitDesk& m_desk;
    BenchPresenter m_bench;
    BookInPresenter m_bookIn;
    ScannerFilter m_scanner;
    std::unique_ptr<PicturePresenter> m_labelPicture;
    PictureShelf* m_shelf = nullptr;
    IncidentPresenter m_incident;
    LightAtDesk m_lightDesk;
    LightPresenter m_light;
    SheetAtDesk m_sheetDesk;
    SheetPresenter m_sheet;
    SignOffPresenter m_signOff;
    PeopleHerePresenter m_peopleHere;
    DonePresenter m_done;
    QStackedLayout* m_pages;
    BenchPage* m_benchPage;
    BookInPage* m_bookInPage;
    ScannerPage* m_scannerPage;
    IncidentPage* m_incidentPage;
    LightPage* m_lightPage;
    SheetPage* m_sheetPage;
    MakeSafePage* m_makeSafePage;
    SignOffPage* m_signOffPage;
    PeopleHerePage* m_peopleHerePage;
    DonePage* m_donePage;
};

} // namespace coldarc::ui
