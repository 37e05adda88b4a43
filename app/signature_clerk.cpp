#include "app/signature_clerk.h"

#include "app/signature_check.h"

namespace coldarc::app {

SignatureClerk::SignatureClerk(Workspace& workspace, ui::VisitDesk& desk, ui::SessionKeeper& keeper,
                               const Clock& clock, QObject* parent)
    : QObject(parent)
    , m_workspace(workspace)
    , m_desk(desk)
    , m_keeper(keeper)
    , m_clock(clock)
{
    connect(&desk, &ui::VisitDesk::signatureWanted, this, &SignatureClerk::signMissing);
    connect(&keeper, &ui::SessionKeeper::stateChanged, this, &SignatureClerk::signMissing);
    readKept();
}

void SignatureClerk::readKept()
{
    const auto kept = m_workspace.journal.signatures(m_desk.logbook().visit());
    if (!kept)
        return Q_EMIT failed(kept.error().detail);
    QList<ui::WantedSignature> list;
    for (const store::Signature& one : *kept)
        list.append({one.seq.value(), one.person, one.meaning});
    const auto broken = brokenSignatures(m_workspace, m_desk.logbook().visit());
    if (!broken)
        return Q_EMIT failed(broken.error().detail);
    m_desk.setKept(list, *broken);
}

void SignatureClerk::signMissing()
{
    if (m_keeper.state() != ui::SessionKeeper::State::Open || !m_keeper.who())
        return;
    const QList<ui::WantedSignature> missing = m_desk.missing();
    if (missing.isEmpty())
        return;
    const VisitId visit = m_desk.logbook().visit();
    const auto entries = m_workspace.journal.entries(visit);
    if (!entries)
        return Q_EMIT failed(entries.error().detail);
    for (const ui::WantedSignature& wanted : missing) {
        const auto meaning = people::meaningFromWord(wanted.meaning.toStdString());
        if (wanted.person != m_keeper.who()->id || !meaning ||
            wanted.entry >= static_cast<qint64>(entries->size()))
            continue;
        const store::Entry& entry = (*entries)[static_cast<std::size_t>(wanted.entry)];
        const auto signature = m_keeper.sign({visit, wanted.entry, entry.hash, *meaning});
        if (!signature)
            continue;
        const auto kept = m_workspace.journal.keep({visit, entry.seq, entry.hash, wanted.person,
                                                    m_keeper.publicKey()->bytes(), signature->bytes(),
                                                    wanted.meaning, m_clock.now().wall});
        if (!kept)
            Q_EMIT failed(kept.error().detail);
    }
    readKept();
}

} // namespace coldarc::app
