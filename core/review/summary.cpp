#include "core/review/summary.h"

#include "core/review/exceptions.h"
#include "core/visit/logbook.h"

#include <algorithm>

namespace coldarc::review {

store::VisitSummary summaryOf(const visit::VisitState& state, const QList<visit::Entry>& entries)
{
    store::VisitSummary summary = visit::summaryOf(state, entries);
    for (const Exception& one : exceptionsOf(state, entries)) {
        summary.weight = std::max(summary.weight, weightOf(one.kind));
        if (!summary.kinds.contains(wordOf(one.kind)))
            summary.kinds.append(wordOf(one.kind));
    }
    return summary;
}

Result<store::VisitSummary> summarise(const VisitId& visit, const std::vector<store::Entry>& entries)
{
    return visit::summariseBy(summaryOf, visit, entries);
}

} // namespace coldarc::review
