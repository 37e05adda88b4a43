#pragma once

#include "app/awake.h"
#include "app/outside.h"
#include "app/visit_room.h"
#include "app/workspace.h"
#include "ui/people/key_ring.h"
#include "ui/shell/shell_presenter.h"

#include <QObject>
#include <QPointer>
#include <QSet>

#include <optional>

namespace coldarc::app {

/// The bench, with one visit in hand or none. As long as there is one the laptop stays awake; as long as
/// somebody is inside the key stays open. Says what could not be opened or written.
class BenchRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the room.
    BenchRoom(const Outside& outside, Workspace& workspace, ui::SessionKeeper& keeper, ui::KeyRing& ring,
              ui::ShellPresenter& shell, const ui::VisitSources& sources, QObject* parent = nullptr);

    /// The visit in hand, or nullptr.
    [[nodiscard]] VisitRoom* visitRoom() const { return m_room; }
    [[nodiscard]] bool isInHand(const VisitId& visit) const;
    [[nodiscard]] bool isSomebodyInside() const { return m_room && m_room->isSomebodyInside(); }
    /// Whether it is worked on there alone. Nothing: it cannot be read.
    [[nodiscard]] std::optional<bool> isOfAnotherLaptop(const VisitId& visit) const;
    void sayNotKnownWhose();

    /// Takes the visit in hand instead of the one before, if it can.
    void open(const VisitId& visit, const PersonId& presses);
    void leave();

Q_SIGNALS:
    /// This page over that of the visits; nullptr: none.
    void overPageWanted(QWidget* page);
    void leaveRequested();
    /// Whoever came out of the zone has not signed in.
    void signInWanted();
    void visitClosed();
    /// A file that was asked for was written: a sentence.
    void saved(const QString& said);
    /// Another could not be.
    void notSaved(const QString& file, const coldarc::Error& error);

private:
    void connectRoom();
    void follow();
    void watchZone();
    void holdAwake(bool inHand);
    void sayNotWritten(const Error& error, ui::About about);
    [[nodiscard]] QList<visit::PersonFacts> everybodyFor(const visit::Opening& opening) const;

    const Outside& m_outside;
    Workspace& m_workspace;
    ui::SessionKeeper& m_keeper;
    ui::KeyRing& m_ring;
    ui::ShellPresenter& m_shell;
    ui::VisitSources m_sources;
    Awake m_awake;
    QPointer<VisitRoom> m_room; ///< owned by the window
    qsizetype m_written = 0;    ///< entries of its logbook
    QSet<VisitId> m_taken;      ///< visits that were open since the program was started
};

} // namespace coldarc::app
