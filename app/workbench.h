#pragma once

#include "app/outside.h"
#include "app/taught_catalogue.h"
#include "app/workspace.h"
#include "core/store/workspace_file.h"
#include "ui/parts/theme.h"
#include "ui/people/key_ring.h"
#include "ui/shell/main_window.h"

#include <QObject>
#include <QStringList>

#include <memory>

namespace coldarc::ui {
struct HistoryLink;
} // namespace coldarc::ui

namespace coldarc::app {

class BackupRoom;
class BenchRoom;
class CodesRoom;
class DoorRoom;
class HistoryRoom;
class PeopleRoom;
class RecordsRoom;
class ReviewRoom;
class SitesRoom;
class StockRoom;
class VisitRoom;
class VisitsRoom;

/// The composition root of one open workspace: its stores, the rooms of its places, the window, and how they
/// are tied.
class Workbench final : public QObject {
    Q_OBJECT

public:
    /// @param opened  of openWorkspace, with a database.
    Workbench(Outside outside, store::OpenAnswer opened, QObject* parent = nullptr);
    ~Workbench() override;

    [[nodiscard]] ui::MainWindow& window() { return *m_window; }
    [[nodiscard]] ui::ShellPresenter& shell() { return m_shell; }
    [[nodiscard]] ui::SessionKeeper& keeper() { return m_keeper; }
    [[nodiscard]] ui::KeyRing& ring() { return m_ring; }
    [[nodiscard]] Workspace& workspace() { return m_workspace; }
    /// The bench in sight, or nullptr.
    [[nodiscard]] VisitRoom* visitRoom() const;

    /// The review desk, once somebody went there; or nullptr.
    [[nodiscard]] ReviewRoom* reviewRoom() const { return m_review.get(); }

    /// What the demo says of its people on the first page.
    void setNote(const QString& name, const QStringList& note);
    /// Shows a visit on the bench.
    void showVisit(const VisitId& visit);
    /// The same for somebody who has not signed in.
    void showVisitFor(const VisitId& visit, const PersonId& presses);

Q_SIGNALS:
    /// The workspace is to be closed, replaced by this backup, and opened again.
    void restoreRequested(const QString& backup);

private:
    void makeDoor();
    void makeVisits();
    void makeBench();
    void makePeople();
    void makeRecords();
    void makeReview();
    void makeSites();
    void makeStock();
    void makeCodes();
    void makeBackup();
    void makeHistories();
    [[nodiscard]] QList<ui::FinderCommand> historiesOf(const visit::VisitState& state);
    void showHistory(const ui::HistoryLink& link);
    void showOnDesk(const VisitId& visit, qint64 entry);
    void saySaved(const QString& said);
    void sayNotSaved(const QString& file, const Error& error);
    /// What was done in a visit, at one entry; not while somebody is inside at another.
    void showEntry(const VisitId& visit, qint64 entry);
    void begin();
    void signedIn();
    void leaveVisit();
    void goTo(const QString& place);
    void makeSureOf(const QString& place);
    void lookAtLibrary();
    void catchUp();
    void catchUpOnVisits();
    void readReviews();
    void refreshLamps();
    [[nodiscard]] ui::VisitSources sources();

    Outside m_outside;
    Workspace m_workspace;
    JournalShelf m_shelf;
    ui::SessionKeeper m_keeper;
    ui::KeyRing m_ring;
    ui::ShellPresenter m_shell;
    TaughtCatalogue m_known;
    bool m_isReadOnly = false;
    bool m_isCaughtUp = false;
    bool m_didCatchUp = false; ///< and the pages were not told yet
    bool m_hasStartPage = false;
    std::unique_ptr<DoorRoom> m_door;
    std::unique_ptr<BenchRoom> m_bench; ///< made with the visits
    std::unique_ptr<VisitsRoom> m_visits;
    std::unique_ptr<PeopleRoom> m_people;
    std::unique_ptr<SitesRoom> m_sites;
    std::unique_ptr<StockRoom> m_stock;
    std::unique_ptr<RecordsRoom> m_records;
    std::unique_ptr<ReviewRoom> m_review;
    std::unique_ptr<CodesRoom> m_codes;
    std::unique_ptr<BackupRoom> m_backup;
    std::unique_ptr<HistoryRoom> m_histories;
    std::unique_ptr<ui::MainWindow> m_window;
};

} // namespace coldarc::app
