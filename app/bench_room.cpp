#include "app/bench_room.h"

#include "app/library.h"
#include "core/machine/reach.h"
#include "core/review/summary.h"
#include "ui/parts/quantities.h"

#include <utility>

namespace coldarc::app {

BenchRoom::BenchRoom(const Outside& outside, Workspace& workspace, ui::SessionKeeper& keeper,
                     ui::KeyRing& ring, ui::ShellPresenter& shell, const ui::VisitSources& sources,
                     QObject* parent)
    : QObject(parent)
    , m_outside(outside)
    , m_workspace(workspace)
    , m_keeper(keeper)
    , m_ring(ring)
    , m_shell(shell)
    , m_sources(sources)
{
}

bool BenchRoom::isInHand(const VisitId& visit) const
{
    return m_room && m_room->desk().logbook().visit() == visit;
}

std::optional<bool> BenchRoom::isOfAnotherLaptop(const VisitId& visit) const
{
    const auto received = m_workspace.intake.received();
    return received ? std::optional(received->contains(visit)) : std::nullopt;
}

void BenchRoom::sayNotKnownWhose()
{
    m_shell.say({tr("Which visits came from other laptops could not be read, so this one is not opened."),
                 tr("Nothing was changed."), tr("Start the program again, or go back to a backup.")},
                ui::About::Visit);
}

void BenchRoom::open(const VisitId& visit, const PersonId& presses)
{
    auto logbook = visit::Logbook::read(m_workspace.journal, m_workspace.summaries, visit, review::summaryOf);
    if (!logbook || !logbook->state().ground) {
        return m_shell.say({tr("This visit cannot be opened: its logbook cannot be read to its end."),
                            tr("Nothing was changed."), tr("A backup may hold it whole.")},
                           ui::About::Visit);
    }
    // Where it cannot be read whose visit this is, somebody inside comes first, and nobody else begins.
    const std::optional<bool> isElsewhere = isOfAnotherLaptop(visit);
    if (!isElsewhere && !machine::isSomebodyInside(logbook->state().machine))
        return sayNotKnownWhose();
    if (isElsewhere.value_or(false)) {
        return m_shell.say({tr("This visit came from another laptop and is worked on there alone."),
                            tr("Nothing was changed."), tr("Look at it on the review desk.")},
                           ui::About::Visit);
    }
    m_shell.settle(ui::About::Visit);
    m_shell.settle(ui::About::Saving); // of the visit before
    const ui::PeopleTools tools{
        &m_ring, [this, ground = logbook->state().ground] { return everybodyFor(ground->opening); }};
    const bool isLookedAt = m_workspace.database.isReadOnly(); // then nobody adds to it here
    m_room = new VisitRoom(std::move(*logbook), m_workspace, tools, m_outside.clock,
                           isLookedAt ? PersonId() : presses, !m_taken.contains(visit));
    m_taken.insert(visit);
    m_room->page().sheet().setLimits(m_outside.library.toleranceSets());
    m_written = m_room->desk().logbook().entries().size();
    connectRoom();
    m_shell.setSite(m_room->desk().seen().ground->opening.site.site.name);
    Q_EMIT overPageWanted(m_room);
    m_room->page().showBench();
    watchZone();
    holdAwake(m_room && m_room->desk().logbook().state().isOpen());
}

void BenchRoom::connectRoom()
{
    connect(m_room, &VisitRoom::changed, this, &BenchRoom::follow);
    connect(m_room, &VisitRoom::leaveRequested, this, &BenchRoom::leaveRequested);
    connect(m_room, &VisitRoom::visitClosed, this, &BenchRoom::visitClosed);
    connect(m_room, &VisitRoom::visitClosed, this, [this] { holdAwake(false); });
    connect(m_room, &VisitRoom::failed, this,
            [this](const Error& error) { sayNotWritten(error, ui::About::Press); });
    connect(m_room, &VisitRoom::notSigned, this,
            [this](const Error& error) { sayNotWritten(error, ui::About::Signing); });
    connect(m_room, &VisitRoom::saved, this, &BenchRoom::saved);
    connect(m_room, &VisitRoom::notSaved, this, &BenchRoom::notSaved);
}

void BenchRoom::leave()
{
    m_room = nullptr;
    Q_EMIT overPageWanted(nullptr);
    m_shell.setSite(QString());
    for (const ui::About about : {ui::About::Press, ui::About::Signing, ui::About::Saving})
        m_shell.settle(about); // of the visit that is left
    watchZone();
    holdAwake(false);
}

void BenchRoom::follow()
{
    if (!m_room)
        return; // it was left
    const qsizetype written = m_room->desk().logbook().entries().size();
    if (std::exchange(m_written, written) < written)
        m_shell.settle(ui::About::Press);
    if (m_room->desk().missing().isEmpty())
        m_shell.settle(ui::About::Signing);
    watchZone(); // which may leave it
}

/// The key stays open while somebody is inside, and no lock is put between them and the way out.
void BenchRoom::watchZone()
{
    const bool isInside = isSomebodyInside();
    if (isInside) {
        m_keeper.holdOpen();
        m_ring.holdOpen();
    } else {
        m_keeper.release();
        m_ring.release();
        m_shell.settle(ui::About::Zone);
    }
    m_shell.setInZone(isInside);
    if (!isInside && m_room && !m_keeper.who() && !m_workspace.database.isReadOnly())
        Q_EMIT signInWanted();
}

void BenchRoom::holdAwake(bool inHand)
{
    m_shell.settle(ui::About::Sleep);
    if (!inHand)
        return m_awake.letGo();
    const Awake::Answer answer = m_awake.hold(tr("A lamp swap is in hand"));
    if ((answer.holdsScreen && answer.holdsSleep) || m_shell.view().stand != ui::ShellView::Stand::AtWork)
        return;
    const QString what = !answer.holdsScreen && !answer.holdsSleep ? tr("sleep and lock its screen")
                         : answer.holdsScreen                      ? tr("sleep")
                                                                   : tr("lock its screen");
    m_shell.say({tr("This laptop may %1 during the swap: it could not be asked not to.").arg(what), QString(),
                 tr("Set it so by hand before gloves go on.")},
                ui::About::Sleep);
}

void BenchRoom::sayNotWritten(const Error& error, ui::About about)
{
    qWarning("not written: %s", qUtf8Printable(error.detail));
    if (m_workspace.database.isReadOnly()) {
        return m_shell.say({tr("Nothing is written in this window."), tr("Everything is as it was."),
                            tr("Do it in the window that holds the workspace.")},
                           about);
    }
    const bool isBusy = error.kind == Error::Kind::Busy;
    m_shell.say({isBusy ? tr("The last press could not be written: the workspace was busy.")
                        : tr("The last press could not be written."),
                 tr("Everything before it is kept."),
                 isBusy ? tr("Press again.") : tr("Make room on the disk, then press again.")},
                about);
}

/// Everybody of the workspace, as they would join this visit now.
QList<visit::PersonFacts> BenchRoom::everybodyFor(const visit::Opening& opening) const
{
    QList<PersonId> ids;
    const auto people = m_workspace.people.all();
    for (const people::Person& person : people ? *people : std::vector<people::Person>()) {
        if (!person.retiredOn)
            ids.append(person.id);
    }
    const people::Day today = ui::dayOf(m_outside.clock.now().wall);
    QList<visit::PersonFacts> facts;
    for (const visit::Attendant& one : ui::attendantsOf(ids, opening.site.site.id, m_sources))
        facts.append(visit::factsFor(one, opening, today));
    return facts;
}

} // namespace coldarc::app
