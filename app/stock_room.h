#pragma once

#include "app/outside.h"
#include "app/workspace.h"
#include "ui/lamps/lamps_presenter.h"

#include <QObject>

class QWidget;

namespace coldarc::app {

/// The lamps of one workspace that stand in no lamphouse, and their page.
class StockRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the room.
    StockRoom(const Outside& outside, Workspace& workspace, const catalogue::Catalogue& catalogue,
              QObject* parent = nullptr);

    /// The page, made once; whoever asks takes it over.
    [[nodiscard]] QWidget* makePage();
    void setWho(const PersonId& who) { m_presenter.setWho(who); }
    void refresh() { m_presenter.refresh(); }

Q_SIGNALS:
    void lampsChanged();

private:
    JournalShelf m_shelf;
    ui::LampsPresenter m_presenter;
};

} // namespace coldarc::app
