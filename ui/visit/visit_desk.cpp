#include "ui/visit/visit_desk.h"

#include "core/visit/evolve.h"
#include "ui/visit/words_why.h"

namespace coldarc::ui {

using namespace Qt::StringLiterals;

VisitDesk::VisitDesk(visit::Logbook& logbook, const Clock& clock, PersonId presses, QTimeZone zone,
                     QObject* parent)
    : QObject(parent)
    , m_logbook(logbook)
    , m_clock(clock)
    , m_presses(std::move(presses))
    , m_zone(std::move(zone))
{
}

visit::VisitState VisitDesk::seen() const
{
    return visit::seenAt(m_logbook.state(), m_clock.now());
}

VisitDesk::Told VisitDesk::tell(const PersonId& by, const visit::Body& asked)
{
    const Stamp now = m_clock.now();
    const visit::VisitState before = visit::seenAt(m_logbook.state(), now);
    const auto answer = m_logbook.tell(by, asked, now);
    Told told;
    if (!answer) {
        told.no = {tr("This could not be kept on the disk; nothing was changed. Try again.")};
        Q_EMIT failed(answer.error());
        return told;
    }
    if (const auto* refusal = std::get_if<visit::Refusal>(&*answer)) {
        told.refusal = *refusal;
        told.no = wordsOf(*refusal, before);
        return told;
    }
    told.entry = std::get<visit::Entry>(*answer);
    const qint64 number = m_logbook.entries().size() - 1;
    for (const WantedSignature& wanted : wantedSignatures(m_logbook.entries(), m_logbook.state())) {
        if (wanted.entry == number)
            Q_EMIT signatureWanted(wanted);
    }
    Q_EMIT changed();
    return told;
}

void VisitDesk::setKept(const QList<WantedSignature>& kept, const QList<WantedSignature>& broken)
{
    m_kept = kept;
    m_broken = broken;
    Q_EMIT changed();
}

QList<WantedSignature> VisitDesk::missing() const
{
    QList<WantedSignature> missing = wantedSignatures(m_logbook.entries(), m_logbook.state());
    missing.removeIf([&](const WantedSignature& one) { return m_kept.contains(one); });
    return missing;
}

QList<WantedSignature> VisitDesk::missingOf(const PersonId& person) const
{
    QList<WantedSignature> own = missing();
    own.removeIf([&](const WantedSignature& one) { return one.person != person; });
    return own;
}

} // namespace coldarc::ui
