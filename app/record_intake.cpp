#include "app/record_intake.h"

#include "app/record_verify.h"
#include "core/people/jws.h"
#include "core/record/record_file.h"
#include "core/review/summary.h"

#include <QFile>

using namespace Qt::StringLiterals;

namespace coldarc::app {

using record::Intake;
using record::TakenRecord;

Result<QSet<QString>> RecordIntake::believed() const
{
    const auto offices = m_offices.offices();
    if (!offices)
        return tl::unexpected(offices.error());
    QSet<QString> thumbprints;
    for (const people::Office& office : *offices) {
        if (!office.droppedAt)
            thumbprints.insert(people::thumbprint(office.key));
    }
    return thumbprints;
}

TakenRecord RecordIntake::takeFile(const QString& file, const PersonId& by, const Stamp& now)
{
    QFile in(file);
    if (!in.open(QIODevice::ReadOnly))
        return {file, in.errorString()};
    if (in.size() > record::kMostFileBytes)
        return {file, u"it is larger than a record can be"_s};
    return takeBytes(file, in.readAll(), by, now);
}

TakenRecord RecordIntake::tryAgain(const Hash& file, const PersonId& by, const Stamp& now)
{
    const auto bytes = m_store.fileOf(file);
    return bytes ? takeBytes({}, *bytes, by, now) : TakenRecord{{}, bytes.error().detail};
}

TakenRecord RecordIntake::takeBytes(const QString& name, const QByteArray& bytes, const PersonId& by,
                                    const Stamp& now)
{
    const auto read = record::recordFromBytes(bytes);
    if (!read)
        return {name, read.error().detail};
    TakenRecord taken{name, {}, read->visit};
    const CheckedRecord checked = checkRecord(name, *read);
    const auto offices = believed();
    const auto standing = m_store.standing(read->visit);
    if (!offices || !standing)
        return {name, offices ? standing.error().detail : offices.error().detail};
    taken.faults = checked.found.faults;
    taken.intake = record::intakeOf(*read, checked.found, !checked.missing.isEmpty(), *offices, *standing);
    if (const auto written = write(*read, taken, bytes, by, now); !written)
        return {name, written.error().detail};
    return taken;
}

Result<void> RecordIntake::write(const record::Record& record, TakenRecord& taken, const QByteArray& bytes,
                                 const PersonId& by, const Stamp& now)
{
    return m_database->transaction([&]() -> Result<void> {
        if (taken.intake.verdict == Intake::Verdict::Take) {
            bool isUnderstood = true;
            const auto added = add(record, taken.intake, by, now, isUnderstood);
            if (!added && isUnderstood)
                return added;
            if (added)
                taken.newEntries = static_cast<int>(taken.intake.entries - taken.intake.first);
            else
                taken.intake = {Intake::Verdict::Wait, Intake::Why::NotUnderstood};
        }
        if (taken.intake.verdict == Intake::Verdict::Wait)
            return m_store.wait(bytes, record.visit, taken.intake.why, by, now);
        return m_store.release(sha256(bytes));
    });
}

/// Undone as a whole where the visit's entries make no summary: they are of a later program.
Result<void> RecordIntake::add(const record::Record& record, const Intake& intake, const PersonId& by,
                               const Stamp& now, bool& isUnderstood)
{
    return m_database->transaction([&]() -> Result<void> {
        if (auto stored = m_store.take(record, intake, by, now); !stored)
            return stored;
        const auto entries = store::Journal(*m_database).entries(record.visit);
        if (!entries)
            return tl::unexpected(entries.error());
        auto summary = review::summarise(record.visit, *entries);
        isUnderstood = summary.has_value();
        if (!summary)
            return tl::unexpected(summary.error());
        summary->visit = record.visit;
        summary->headSeq = entries->back().seq;
        summary->headHash = entries->back().hash;
        return m_summaries.put(*summary);
    });
}

} // namespace coldarc::app
