#pragma once

#include "app/signature_clerk.h"
#include "core/visit/logbook.h"
#include "ui/visit/visit_desk.h"
#include "ui/visit/visit_page.h"

#include <QWidget>

#include <memory>

namespace coldarc::app {

/// Somebody has gear on or stands in a zone, or a lamphouse stands open.
[[nodiscard]] bool isSomebodyInside(const machine::State& machine);

/// One visit on the bench: its logbook, the one way to it, the pages over that, and who signs. Everything of
/// a visit lives and goes together.
class VisitRoom final : public QWidget {
    Q_OBJECT

public:
    /// Takes the logbook over. Borrows the rest, which must outlive the room.
    VisitRoom(visit::Logbook logbook, Workspace& workspace, ui::SessionKeeper& keeper, const Clock& clock,
              const PersonId& presses, QWidget* parent = nullptr);
    ~VisitRoom() override;

    [[nodiscard]] ui::VisitDesk& desk() { return m_desk; }
    [[nodiscard]] ui::VisitPage& page() { return *m_page; }
    [[nodiscard]] bool isSomebodyInside() const;

Q_SIGNALS:
    /// Something was kept: everything shown may have changed.
    void changed();
    void failed(const QString& detail);
    void visitClosed();

private:
    void takeNote();
    void takePicture();
    void print();
    void settle();

    Workspace& m_workspace;
    visit::Logbook m_logbook;
    ui::VisitDesk m_desk;
    SignatureClerk m_clerk;
    std::unique_ptr<ui::VisitPage> m_page;
};

} // namespace coldarc::app
