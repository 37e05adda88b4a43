#pragma once

#include "app/record_intake.h"
#include "ui/parts/behind.h"
#include "ui/record/records_presenter.h"

namespace coldarc::app {

/// Takes records in turns, in a thread and over a connection of its own, so that neither a large record nor a
/// slow disk holds the window up. Waits for a turn under way before it goes.
class RecordBehind {
public:
    /// How long a turn lasts, and one record more: somebody who presses meanwhile waits for it at most.
    static constexpr std::chrono::milliseconds kTurn{40};

    /// Borrows both, which must outlive this. A database in memory, which has no second connection, and one
    /// that is open for reading only are worked on in place.
    RecordBehind(store::Database& database, const Clock& clock)
        : m_database(database)
        , m_clock(clock)
    {
    }

    void take(const QStringList& files, const PersonId& by, const ui::RecordDeeds::Taken& then);

private:
    store::Database& m_database;
    const Clock& m_clock;
    ui::BehindThreads m_threads;
};

} // namespace coldarc::app
