#pragma once

#include "core/catalogue/catalogue.h"
#include "core/label/agreement.h"
#include "core/visit/state.h"
#include "ui/visit/book_in_view.h"
#include "ui/visit/card_reads.h"

#include <optional>

namespace coldarc::ui {

// What the book-in card says and asks by how the sources agree.

/// What the source says, and how that agrees with the entry; where codes go is not told.
[[nodiscard]] BookInColumn agreementColumn(const CardReads& reads, label::Source source,
                                           const label::Agreement& agreed,
                                           const catalogue::Catalogue& catalogue);
/// Which of two types that are easily mistaken stands on the lamp itself.
/// @param id  of what is asked.
[[nodiscard]] CaptureView sisterAsk(const QString& id, const CardReads& reads, const LampTypeId& agreed,
                                    const catalogue::Catalogue& catalogue);
/// The source whose serial differs and may be let pass for a reason, at this card.
[[nodiscard]] std::optional<label::Source> sourceToPass(const CardReads& reads,
                                                        const label::Agreement& agreed);
/// What stands behind letting it pass: `evidence`, `again`, `reason`.
[[nodiscard]] QList<CaptureView> passAsks(const CardReads& reads, label::Source source);
/// What the counters showed of the old lamp, as it was written down on arrival; empty where it was not.
[[nodiscard]] QString countersOf(const visit::SwapState& swap);
[[nodiscard]] CaptureView textCapture(const QString& id, const QString& label);

} // namespace coldarc::ui
