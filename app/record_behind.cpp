#include "app/record_behind.h"

#include <memory>

namespace coldarc::app {

namespace {

using Some = std::vector<record::TakenRecord>;

Some takeSome(store::Database& database, const QStringList& files, const PersonId& by, const Clock& clock)
{
    RecordIntake intake(database);
    Some taken;
    const auto begun = clock.now().sinceBoot;
    for (const QString& file : files) {
        taken.push_back(intake.takeFile(file, by, clock.now()));
        if (clock.now().sinceBoot - begun >= RecordBehind::kTurn)
            break;
    }
    return taken;
}

Result<Some> takeSomeOf(const QString& workspace, const QStringList& files, const PersonId& by,
                        const Clock& clock)
{
    auto database = store::Database::connect(workspace, store::Access::Write);
    if (!database)
        return tl::unexpected(database.error());
    return takeSome(*database, files, by, clock);
}

} // namespace

void RecordBehind::take(const QStringList& files, const PersonId& by, const ui::RecordDeeds::Taken& then)
{
    if (m_database.file().isEmpty() || m_database.isReadOnly())
        return then(takeSome(m_database, files, by, m_clock));
    const auto taken = std::make_shared<Result<Some>>();
    m_threads.run([workspace = m_database.file(), files, by, &clock = m_clock,
                   taken] { *taken = takeSomeOf(workspace, files, by, clock); },
                  [taken, then] { then(*taken); });
}

} // namespace coldarc::app
