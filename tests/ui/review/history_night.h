#pragma once

#include "core/review/summary.h"
#include "core/store/journal.h"
#include "tests/core/visit/night.h"

namespace coldarc::test {

/// Keeps the entries of a night and its line in the lists, as a workspace would.
inline void keepNight(store::Database& database, const Night& night)
{
    store::Journal journal(database);
    store::VisitSummary summary = review::summaryOf(night.state, night.entries);
    for (qsizetype number = 0; number < night.entries.size(); ++number) {
        const auto hash = journal.append(night.opening().visit, store::Sequence(number),
                                         visit::bytesOf(night.entries[number]));
        ASSERT_TRUE(hash);
        summary.headSeq = store::Sequence(number);
        summary.headHash = *hash;
    }
    ASSERT_TRUE(store::Summaries(database).put(summary));
}

/// A night that is over, under this id, `later` than the clock of any other begins.
inline Night nightThatIsOver(const QString& visit = QStringLiteral("visit-1"),
                             std::chrono::hours later = std::chrono::hours(0))
{
    Night night;
    visit::Opening opening = night.opening();
    opening.visit = VisitId(visit);
    night = Night(opening);
    night.entries.clear();
    night.state = {};
    night.clock.advance(later);
    EXPECT_TRUE(night.tell(opening.people.first().id, opening));
    night.doAll();
    night.close();
    return night;
}

} // namespace coldarc::test
