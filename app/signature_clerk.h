#pragma once

#include "app/workspace.h"
#include "ui/people/key_ring.h"
#include "ui/visit/visit_desk.h"

#include <QObject>

namespace coldarc::app {

/// Makes the signatures that the entries of one visit ask for, each with the key of the person that it is
/// asked of, and keeps them. What cannot be signed now, because that key is not open, is signed as soon as it
/// is, while the visit is open; of one that is over, once its owner presses for it: to look at a visit signs
/// nothing. Until then it is missing, and every report says so.
class SignatureClerk final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the clerk.
    SignatureClerk(Workspace& workspace, ui::VisitDesk& desk, ui::KeyRing& ring, const Clock& clock,
                   QObject* parent = nullptr);

    /// Of a visit that is open: signs everything that is missing and whose key is open.
    void signMissing();

Q_SIGNALS:
    /// A signature was made and could not be kept; the entry itself is safe.
    void failed(const coldarc::Error& error);

private:
    void signWanted(const ui::WantedSignature& wanted);
    void sign(QList<ui::WantedSignature> due);
    void make(QList<ui::WantedSignature> due);
    void list();
    void readKept();
    void countPress();

    Workspace& m_workspace;
    ui::VisitDesk& m_desk;
    ui::KeyRing& m_ring;
    const Clock& m_clock;
    qsizetype m_entries; ///< how many there were at the last look
};

} // namespace coldarc::app
