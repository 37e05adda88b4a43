#pragma once

#include "app/outside.h"
#include "app/workspace.h"
#include "ui/parts/command_finder.h"
#include "ui/site/sites_presenter.h"

#include <QObject>

class QWidget;

namespace coldarc::ui {
class SitesPage;
}

namespace coldarc::app {

/// The sites of one workspace, and their page.
class SitesRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the room.
    SitesRoom(const Outside& outside, Workspace& workspace, const catalogue::Catalogue& catalogue,
              QObject* parent = nullptr);

    /// The page, made once; whoever asks takes it over.
    [[nodiscard]] QWidget* makePage();
    void refresh() { m_presenter.refresh(); }
    /// What can be done on that page, for the command finder.
    [[nodiscard]] QList<ui::FinderCommand> commands();

Q_SIGNALS:
    void sitesChanged();

private:
    JournalShelf m_shelf;
    ui::SitesPresenter m_presenter;
    ui::SitesPage* m_page = nullptr; ///< the window's
};

} // namespace coldarc::app
