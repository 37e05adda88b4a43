#pragma once

#include "app/workspace.h"
#include "core/review/queue_store.h"
#include "ui/parts/behind.h"
#include "ui/review/review_presenter.h"

#include <QObject>

namespace coldarc::ui {
class ReviewPage;
struct FinderCommand;
} // namespace coldarc::ui

namespace coldarc::app {

/// The review desk over one workspace: its queue, its reading of visits, its page.
class ReviewRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows workspace and clock, which must outlive the room.
    ReviewRoom(Workspace& workspace, const Clock& clock, ui::Behind behind, QObject* parent = nullptr);

    [[nodiscard]] ui::ReviewPresenter& presenter() { return m_presenter; }
    /// The page, made once; whoever asks takes it over.
    [[nodiscard]] ui::ReviewPage* makePage(QWidget* parent);
    /// What can be done here, for the command finder.
    [[nodiscard]] QList<ui::FinderCommand> commands();

Q_SIGNALS:
    /// A file that was asked for could not be written; the visit itself is as it was.
    void notSaved(const QString& file, const QString& detail);

private:
    void saveRecord();
    void saveReport();

    Workspace& m_workspace;
    review::QueueStore m_queue;
    ui::ReviewPresenter m_presenter;
    ui::ReviewPage* m_page = nullptr; ///< owned by the window
};

} // namespace coldarc::app
