#include "core/review/summary.h"

#include "core/visit/logbook.h"

#include <algorithm>

namespace coldarc::review {

namespace {

store::VisitSummary summaryWith(const QList<Exception>& exceptions, store::VisitSummary summary)
{
    for (const Exception& one : exceptions) {
        summary.weight = std::max(summary.weight, weightOf(one.kind));
        if (!summary.kinds.contains(wordOf(one.kind)))
            summary.kinds.append(wordOf(one.kind));
    }
    return summary;
}

} // namespace

store::VisitSummary summaryOf(const visit::VisitState& state, const QList<visit::Entry>& entries)
{
    return summaryWith(exceptionsOf(state, entries), visit::summaryOf(state, entries));
}

store::VisitSummary signedSummaryOf(const visit::VisitState& state, const QList<visit::Entry>& entries,
                                    const QList<HeadSigned>& signatures)
{
    return summaryWith(exceptionsOf(state, entries, &signatures), visit::summaryOf(state, entries));
}

Result<store::VisitSummary> summarise(const VisitId& visit, const std::vector<store::Entry>& entries)
{
    return visit::summariseBy(summaryOf, visit, entries);
}

} // namespace coldarc::review
