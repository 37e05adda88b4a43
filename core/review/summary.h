#pragma once

#include "core/review/exceptions.h"
#include "core/store/summaries.h"
#include "core/visit/state.h"

namespace coldarc::review {

/// What lists show of a visit, as visit::summaryOf has it, with everything out of the ordinary counted that
/// its entries tell. What only its signatures tell is not in it.
[[nodiscard]] store::VisitSummary summaryOf(const visit::VisitState& state,
                                            const QList<visit::Entry>& entries);
/// The same with what its signatures tell: work that nobody signed for, a signature that does not verify.
[[nodiscard]] store::VisitSummary signedSummaryOf(const visit::VisitState& state,
                                                  const QList<visit::Entry>& entries,
                                                  const QList<HeadSigned>& signatures);
/// For `store::Summaries::rebuild`. Malformed as of visit::summariseBy.
[[nodiscard]] Result<store::VisitSummary> summarise(const VisitId& visit,
                                                    const std::vector<store::Entry>& entries);

} // namespace coldarc::review
