#pragma once

#include "app/outside.h"
#include "app/workspace.h"
#include "ui/label/scanner_filter.h"
#include "ui/lamps/teach_presenter.h"
#include "ui/parts/command_finder.h"

#include <QObject>

class QWidget;

namespace coldarc::app {

/// The codes of one workspace: what is taught of them, and over that page the check of the scanner.
class CodesRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows all but `catalogue`, which tells what is known of codes by now; they must outlive the room.
    CodesRoom(const Outside& outside, Workspace& workspace,
              std::function<const catalogue::Catalogue&()> catalogue, QObject* parent = nullptr);

    /// The page, made once; whoever asks takes it over.
    [[nodiscard]] QWidget* makePage();
    void setWho(const PersonId& who) { m_presenter.setWho(who); }
    void refresh() { m_presenter.refresh(); }
    /// What can be done here, for the command finder.
    [[nodiscard]] QList<ui::FinderCommand> commands();

Q_SIGNALS:
    /// This page over that of the codes; nullptr: none.
    void overPageWanted(QWidget* page);
    /// Something was taught, or withdrawn.
    void taught();

private:
    void showScannerCheck();

    const Clock& m_clock;
    ui::TeachPresenter m_presenter;
    ui::ScannerFilter m_heard; ///< while the page is in sight
};

} // namespace coldarc::app
