#pragma once

#include "app/workspace.h"
#include "core/review/queue_store.h"
#include "ui/parts/behind.h"
#include "ui/people/key_ring.h"
#include "ui/review/review_presenter.h"
#include "ui/review/verdict_presenter.h"

#include <QObject>

namespace coldarc::ui {
class ReviewPage;
struct FinderCommand;
} // namespace coldarc::ui

namespace coldarc::app {

class VisitFiles;

/// The review desk over one workspace: its queue, its reading of visits, who signs reviews, its page.
class ReviewRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows all but `behind`; they must outlive the room.
    ReviewRoom(Workspace& workspace, ui::SessionKeeper& keeper, ui::KeyRing& ring, const Clock& clock,
               ui::Behind behind, QTimeZone zone = QTimeZone::systemTimeZone(), QObject* parent = nullptr);

    [[nodiscard]] ui::ReviewPresenter& presenter() { return m_presenter; }
    [[nodiscard]] ui::VerdictPresenter& verdict() { return m_verdict; }
    /// The page, made once; whoever asks takes it over.
    [[nodiscard]] ui::ReviewPage* makePage(QWidget* parent);
    /// The page takes the focus. Pre: it was made.
    void takeFocus();
    /// What can be done here, for the command finder.
    [[nodiscard]] QList<ui::FinderCommand> commands();

Q_SIGNALS:
    /// A file that was asked for could not be written; the visit itself is as it was.
    void notSaved(const QString& file, const coldarc::Error& error);
    /// Another was: a sentence.
    void saved(const QString& said);
    /// What else is known of something of the visit in hand.
    void historyRequested(const coldarc::ui::HistoryLink& link);
    /// A review was signed and kept: how the visit stands has changed.
    void reviewed();

private:
    void correctStand();
    void carryAway(void (VisitFiles::*way)());
    void connectVerdict();
    [[nodiscard]] std::optional<review::Reviewer> reviewer() const;
    [[nodiscard]] Result<void> look(const record::Review& review);
    [[nodiscard]] Result<void> sign(const record::Review& review);

    Workspace& m_workspace;
    ui::SessionKeeper& m_keeper;
    ui::KeyRing& m_ring;
    const Clock& m_clock;
    QTimeZone m_zone;
    review::QueueStore m_queue;
    ui::ReviewPresenter m_presenter;
    ui::VerdictPresenter m_verdict;
    ui::ReviewPage* m_page = nullptr; ///< owned by the window
};

} // namespace coldarc::app
