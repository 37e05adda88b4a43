#pragma once

#include "app/workspace.h"
#include "ui/people/session_keeper.h"
#include "ui/visit/visit_desk.h"

#include <QObject>

namespace coldarc::app {

/// Makes the signatures that the entries of one visit ask for, with the key of whoever works here, and keeps
/// them. What cannot be signed now, because the key is locked or is somebody else's, is signed as soon as the
/// right key is open; until then it is missing, and every report says so.
class SignatureClerk final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the clerk.
    SignatureClerk(Workspace& workspace, ui::VisitDesk& desk, ui::SessionKeeper& keeper, const Clock& clock,
                   QObject* parent = nullptr);

    /// Signs everything that is missing and that this key can sign.
    void signMissing();

Q_SIGNALS:
    /// A signature was made and could not be kept; the entry itself is safe.
    void failed(const QString& detail);

private:
    void readKept();

    Workspace& m_workspace;
    ui::VisitDesk& m_desk;
    ui::SessionKeeper& m_keeper;
    const Clock& m_clock;
};

} // namespace coldarc::app
