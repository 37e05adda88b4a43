#pragma once

#include "app/outside.h"
#include "app/workspace.h"
#include "ui/parts/command_finder.h"
#include "ui/people/session_keeper.h"
#include "ui/visit/new_visit_presenter.h"
#include "ui/visit/visits_presenter.h"

#include <QObject>

class QWidget;

namespace coldarc::app {

/// The visits of one workspace: those that are planned, under way and over, and over that page a new one.
class VisitsRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the room.
    VisitsRoom(const Outside& outside, Workspace& workspace, const ui::SessionKeeper& keeper,
               const ui::VisitSources& sources, QObject* parent = nullptr);

    /// The page, made once; whoever asks takes it over.
    [[nodiscard]] QWidget* makePage(QWidget* parent);
    void changeWho() { m_visits.setWho(m_keeper.whoId()); }
    /// For whoever only looks.
    void setReading() { m_visits.setReading(); }
    void refresh() { m_visits.refresh(); }
    /// Plans a visit anew. Nobody has signed in: nothing.
    void beginNew() { showNew(nullptr); }

Q_SIGNALS:
    /// This page over that of the visits; nullptr: none.
    void overPageWanted(QWidget* page);
    void visitWanted(const coldarc::VisitId& visit);
    void whatWasDoneWanted(const coldarc::VisitId& visit);
    /// A visit was opened, or carried over to lamps and sites.
    void lampsMoved();

private:
    void connectVisits();
    void showNew(const visit::PlannedVisit* plan);

    const Clock& m_clock;
    Workspace& m_workspace;
    const ui::SessionKeeper& m_keeper;
    ui::VisitsPresenter m_visits;
    ui::NewVisitPresenter m_new;
};

} // namespace coldarc::app
