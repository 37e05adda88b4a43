#pragma once

#include "app/workspace.h"
#include "ui/parts/command_finder.h"
#include "ui/review/history_presenter.h"
#include "ui/review/review_view.h"

#include <QObject>

class QWidget;

namespace coldarc::app {

/// The histories of one workspace: of lamps, lamphouses and people over many visits.
class HistoryRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows the workspace, which must outlive the room.
    explicit HistoryRoom(Workspace& workspace, QObject* parent = nullptr);

    /// The page, made once; whoever asks takes it over.
    [[nodiscard]] QWidget* makePage(QWidget* parent);
    void show(const ui::HistoryLink& link);

Q_SIGNALS:
    /// What was done in a visit, at one entry.
    void entryWanted(const coldarc::VisitId& visit, qint64 entry);

private:
    ui::HistoryPresenter m_presenter;
};

/// For the command finder over a visit: what is known besides of its lamphouses, lamps and people.
[[nodiscard]] QList<ui::FinderCommand>
historyCommands(const visit::VisitState& state, const std::function<void(const ui::HistoryLink&)>& show);

} // namespace coldarc::app
