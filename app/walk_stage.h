#pragma once

#include "app/folders.h"
#include "app/walk_clock.h"
#include "app/walker.h"
#include "core/people/certificate.h"
#include "core/people/signing_key.h"
#include "core/review/reviewing.h"
#include "core/store/database.h"
#include "core/store/journal.h"
#include "core/store/summaries.h"
#include "core/visit/logbook.h"
#include "ui/visit/visit_desk.h"
#include "ui/visit/visit_page.h"

#include <memory>

namespace coldarc::app {

/// The first planned swap of the demo, with the engineer alone, opened in a workspace of its own on a clock
/// that only the walk moves. What is to be signed is signed with a key made for it. Needs a QApplication with
/// the theme applied.
class WalkStage {
public:
    /// Opens the visit and shows its page.
    /// @param workspace  a file that is not there yet.
    [[nodiscard]] static Result<std::unique_ptr<WalkStage>> set(const QString& workspace,
                                                                const Folders& folders);
    ~WalkStage();

    [[nodiscard]] ui::VisitPage& room();
    [[nodiscard]] ui::VisitDesk& desk();
    [[nodiscard]] WalkClock& clock() { return m_clock; }
    [[nodiscard]] const visit::Logbook& logbook() const;
    [[nodiscard]] const store::Journal& journal() const { return m_journal; }
    [[nodiscard]] store::Database& database() { return m_database; }
    /// The demo's first supervisor accepts the visit, by every rule. Refused where one says no.
    [[nodiscard]] Result<void> review();
    /// The new lamp of each swap.
    [[nodiscard]] const QList<Walker::NewLamp>& lamps() const { return m_lamps; }

private:
    struct Visit;
    explicit WalkStage(store::Database database);
    Result<void> vouch(const QString& office, const visit::PersonFacts& lead);
    [[nodiscard]] Result<people::Certificate> certified(const people::PublicKey& key, const PersonId& person,
                                                        const QString& name, people::Role role,
                                                        const people::SigningKey& office) const;
    [[nodiscard]] Result<void> begin(const visit::Opening& opening);
    void sign(const ui::WantedSignature& asked);

    store::Database m_database;
    store::Journal m_journal;
    store::Summaries m_summaries;
    WalkClock m_clock;
    people::SigningKey m_key;
    people::SigningKey m_reviewersKey;
    review::Reviewer m_reviewer;
    QList<Walker::NewLamp> m_lamps;
    std::unique_ptr<Visit> m_visit;
};

} // namespace coldarc::app
