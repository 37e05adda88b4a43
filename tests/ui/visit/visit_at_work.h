#pragma once

#include "core/store/database.h"
#include "core/visit/logbook.h"
#include "tests/core/visit/night.h"
#include "ui/visit/visit_desk.h"

#include <memory>

namespace coldarc::test {

/// A night that was driven so far, kept in a workspace in memory, with a desk at it. Every site, person,
/// model and serial in it is invented.
class VisitAtWork {
public:
    explicit VisitAtWork(Night& night)
        : m_night(night)
    {
        const VisitId visit = night.opening().visit;
        for (qsizetype index = 0; index < night.entries.size(); ++index)
            EXPECT_TRUE(
                m_journal.append(visit, store::Sequence(index), visit::bytesOf(night.entries[index])));
        auto read = visit::Logbook::read(m_journal, m_summaries, visit);
        EXPECT_TRUE(read) << (read ? "" : read.error().detail.toStdString());
        m_logbook = std::make_unique<visit::Logbook>(std::move(*read));
        m_desk = std::make_unique<ui::VisitDesk>(*m_logbook, night.clock, night.ada(), QTimeZone::utc());
    }

    [[nodiscard]] ui::VisitDesk& desk() { return *m_desk; }
    [[nodiscard]] const visit::VisitState& state() const { return m_logbook->state(); }
    [[nodiscard]] const QList<visit::Entry>& entries() const { return m_logbook->entries(); }
    [[nodiscard]] FakeClock& clock() { return m_night.clock; }

private:
    Night& m_night;
    store::Database m_database = store::Database::inMemory();
    store::Journal m_journal{m_database};
    store::Summaries m_summaries{m_database};
    std::unique_ptr<visit::Logbook> m_logbook;
    std::unique_ptr<ui::VisitDesk> m_desk;
};

} // namespace coldarc::test
