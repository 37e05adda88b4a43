#pragma once

#include "core/store/journal.h"
#include "core/store/summaries.h"
#include "core/visit/decide.h"

#include <QList>

#include <variant>

namespace coldarc::visit {

/// What lists show of a visit. The state is the word of how it ended, or "open", or "making-safe". Its
/// exceptions are those that the fold noticed; core/review finds more.
[[nodiscard]] store::VisitSummary summaryOf(const VisitState& state, const QList<Entry>& entries);
/// What makes a summary of the visit as it stands.
using Summary = store::VisitSummary (*)(const VisitState&, const QList<Entry>&);
/// From the entries as they are kept. Malformed where one cannot be read, or the visit was never opened.
[[nodiscard]] Result<store::VisitSummary> summariseBy(Summary summary, const VisitId& visit,
                                                      const std::vector<store::Entry>& entries);
/// The same by `summaryOf`, for `store::Summaries::rebuild`.
[[nodiscard]] Result<store::VisitSummary> summarise(const VisitId& visit,
                                                    const std::vector<store::Entry>& entries);

/// One visit in a workspace: what was asked is decided, kept durable, and only then part of the state.
class Logbook {
public:
    /// What became of a command.
    using Answer = std::variant<Entry, Refusal>;

    /// Reads a visit: every entry checked against the chain and folded. NotFound if there is none; Malformed
    /// if the chain is broken or an entry cannot be read, naming it. The journal and the summaries must
    /// outlive the logbook.
    /// @param summary  what is written for the lists when somebody tells it something that they show.
    [[nodiscard]] static Result<Logbook> read(store::Journal& journal, store::Summaries& summaries,
                                              const VisitId& visit, Summary summary = summaryOf);
    /// Opens a new visit. Conflict if there is one with this id. Of a refusal the detail names the first
    /// reason's kind.
    [[nodiscard]] static Result<Logbook> begin(store::Journal& journal, store::Summaries& summaries,
                                               const PersonId& by, const Opening& opening, const Stamp& now,
                                               Summary summary = summaryOf);

    [[nodiscard]] const VisitId& visit() const { return m_visit; }
    [[nodiscard]] const VisitState& state() const { return m_state; }
    [[nodiscard]] const QList<Entry>& entries() const { return m_entries; }
    [[nodiscard]] const Hash& head() const { return m_head; }

    /// Decides, keeps, folds. An Entry comes back when it is durable. Storage or Conflict: nothing was
    /// changed.
    [[nodiscard]] Result<Answer> tell(const PersonId& by, const Body& asked, const Stamp& now);

private:
    Logbook(store::Journal& journal, store::Summaries& summaries, VisitId visit, Summary summary)
        : m_journal(&journal)
        , m_summaries(&summaries)
        , m_summary(summary)
        , m_visit(std::move(visit))
    {
    }
    [[nodiscard]] Result<void> keep(const Entry& entry);

    store::Journal* m_journal;
    store::Summaries* m_summaries;
    Summary m_summary;
    VisitId m_visit;
    VisitState m_state;
    QList<Entry> m_entries;
    Hash m_head;
};

} // namespace coldarc::visit
