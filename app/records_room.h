#pragma once

#include "app/record_behind.h"
#include "app/workspace.h"
#include "ui/people/session_keeper.h"
#include "ui/record/records_presenter.h"

#include <QObject>

class QWidget;

namespace coldarc::app {

/// Where records of other workspaces come in: by whom they are taken, which of them wait, their page.
class RecordsRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the room.
    RecordsRoom(Workspace& workspace, const ui::SessionKeeper& keeper, const Clock& clock,
                QObject* parent = nullptr);

    /// The page, made once; whoever asks takes it over.
    [[nodiscard]] QWidget* makePage();

Q_SIGNALS:
    /// A visit was added, or got further: it can have been sent back.
    void visitsChanged();

private:
    [[nodiscard]] ui::RecordDeeds deeds();
    [[nodiscard]] QString placeOf(const Hash& file) const;

    Workspace& m_workspace;
    const ui::SessionKeeper& m_keeper;
    const Clock& m_clock;
    ui::RecordsPresenter m_presenter;
    RecordBehind m_intake;
};

} // namespace coldarc::app
