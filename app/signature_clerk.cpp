#include "app/signature_clerk.h"

#include "app/review_reading.h"
#include "app/signature_check.h"
#include "core/review/summary.h"

#include <utility>

namespace coldarc::app {

SignatureClerk::SignatureClerk(Workspace& workspace, ui::VisitDesk& desk, ui::KeyRing& ring,
                               const Clock& clock, QObject* parent)
    : QObject(parent)
    , m_workspace(workspace)
    , m_desk(desk)
    , m_ring(ring)
    , m_clock(clock)
    , m_entries(desk.logbook().entries().size())
{
    connect(&desk, &ui::VisitDesk::signatureWanted, this, &SignatureClerk::signWanted);
    connect(&desk, &ui::VisitDesk::signingWanted, this,
            [this](const PersonId& person) { sign(m_desk.missingOf(person)); });
    connect(&ring, &ui::KeyRing::changed, this, &SignatureClerk::signMissing);
    connect(&desk, &ui::VisitDesk::changed, this, &SignatureClerk::countPress);
    readKept();
}

/// Whoever an entry is by has pressed something; whoever left takes the key along.
void SignatureClerk::countPress()
{
    const QList<visit::Entry>& entries = m_desk.logbook().entries();
    if (std::exchange(m_entries, entries.size()) >= entries.size())
        return;
    m_ring.press(entries.last().by);
    if (const auto* left = std::get_if<visit::Left>(&entries.last().body))
        m_ring.wipe(left->person);
}

void SignatureClerk::readKept()
{
    const auto found = keptSignatures(m_workspace, m_desk.logbook().visit());
    if (!found)
        return Q_EMIT failed(found.error());
    m_desk.setKept(found->kept, found->broken);
}

/// What a visit that is over was signed for belongs to its line in the review queue.
void SignatureClerk::list()
{
    const visit::Logbook& logbook = m_desk.logbook();
    if (logbook.state().end.isEmpty())
        return;
    const auto entries = m_workspace.journal.entries(logbook.visit());
    const auto signatures =
        entries ? readSigned(m_workspace.database, logbook.visit(), *entries, logbook.entries())
                : tl::unexpected(entries.error());
    if (!signatures)
        return; // made behind the window as soon as it can be read
    auto summary = review::signedSummaryOf(logbook.state(), logbook.entries(), *signatures);
    summary.headSeq = entries->back().seq;
    summary.headHash = entries->back().hash;
    static_cast<void>(m_workspace.summaries.putWhole(summary)); // the same
}

void SignatureClerk::signMissing()
{
    if (m_desk.logbook().state().end.isEmpty())
        sign(m_desk.missing());
}

/// What was missing before is signed along while the visit is open.
void SignatureClerk::signWanted(const ui::WantedSignature& wanted)
{
    sign(m_desk.logbook().state().end.isEmpty() ? m_desk.missing() : QList{wanted});
}

void SignatureClerk::sign(QList<ui::WantedSignature> due)
{
    make(std::move(due));
    list();
}

void SignatureClerk::make(QList<ui::WantedSignature> due)
{
    due.removeIf([this](const ui::WantedSignature& one) {
        return m_ring.standOf(one.person) != ui::KeyRing::Stand::Open;
    });
    if (due.isEmpty())
        return;
    const VisitId visit = m_desk.logbook().visit();
    const auto entries = m_workspace.journal.entries(visit);
    if (!entries)
        return Q_EMIT failed(entries.error());
    for (const ui::WantedSignature& wanted : due) {
        const auto meaning = people::meaningFromWord(wanted.meaning.toStdString());
        if (!meaning || wanted.entry >= static_cast<qint64>(entries->size()))
            continue;
        const store::Entry& entry = (*entries)[static_cast<std::size_t>(wanted.entry)];
        const WallTime at = m_clock.now().wall;
        const auto signature =
            m_ring.sign(wanted.person, {visit, wanted.entry, entry.hash, *meaning, at, wanted.person});
        if (!signature)
            continue;
        const auto kept = m_workspace.journal.keep({visit, entry.seq, entry.hash, wanted.person,
                                                    m_ring.publicKey(wanted.person)->bytes(),
                                                    signature->bytes(), wanted.meaning, at});
        if (!kept)
            Q_EMIT failed(kept.error());
    }
    readKept();
}

} // namespace coldarc::app
