#pragma once

#include "core/catalogue/catalogue.h"
#include "core/procedure/procedure_file.h"
#include "core/visit/decide.h"
#include "core/visit/evolve.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <functional>

namespace coldarc::test {

/// An invented night at an invented cinema, on the shipped catalogue and procedures, driven by what people
/// say.
class Night {
public:
    enum class Crew {
        Alone,
        WithTrainee,
        WithRelief, ///< a second engineer who may lead
    };

    /// One screen with this model ("larkmoor-teal"), a lamp of `oldType` fitted, one of `newType` brought.
    explicit Night(const QString& model = QStringLiteral("larkmoor-teal"), Crew crew = Crew::Alone,
                   const QString& oldType = {}, const QString& newType = {}, int screens = 1);

    [[nodiscard]] visit::Opening opening() const { return m_opening; }
    /// Asks, and folds the entry when there is one.
    visit::Decision tell(const PersonId& by, const visit::Body& asked);
    visit::Decision tell(const visit::Body& asked) { return tell(ada(), asked); }
    /// The step whose turn it is, with answers that let it pass; the waits before it are held.
    visit::Decision doNext(int swap = 0, const PersonId& by = PersonId());
    /// Does every step until the one with this id is next (it is not done); fails the test when it is never
    /// met.
    void doUntil(const QString& step, int swap = 0);
    /// ... until nothing is left.
    void doAll(int swap = 0);
    [[nodiscard]] visit::NextStep next(int swap = 0) const;
    [[nodiscard]] QString nextId(int swap = 0) const;
    /// Passing answers for a step; `change` may spoil them.
    [[nodiscard]] QJsonObject answersFor(const visit::SwapState& swap, const procedure::Step& step) const;
    visit::Decision doStep(const QString& step, const std::function<void(QJsonObject&)>& change, int swap = 0,
                           const PersonId& by = PersonId());
    /// Reads box, paper and entry (and the own marking) of the swap's new lamp as they should be.
    void readLabels(int swap = 0);
    void readMarking(int swap = 0);
    /// Holds whatever wait the next step stands before.
    void holdWaits(int swap = 0);

    [[nodiscard]] visit::VisitState seen() const { return visit::seenAt(state, clock.now()); }
    [[nodiscard]] const visit::SwapState& swap(int index = 0) const { return state.swaps[index]; }
    [[nodiscard]] PersonId ada() const { return PersonId(QStringLiteral("ada")); }
    [[nodiscard]] PersonId ben() const { return PersonId(QStringLiteral("ben")); }
    [[nodiscard]] const catalogue::LampType& newType(int index = 0) const;

    FakeClock clock;
    visit::VisitState state;
    QList<visit::Entry> entries;

private:
    visit::Opening m_opening;
};

/// Loaded once: it is the shipped data.
[[nodiscard]] const catalogue::Catalogue& shippedCatalogue();
[[nodiscard]] const procedure::ProcedureLoading& shippedProcedures();
[[nodiscard]] std::string wordsOf(const visit::Refusal& refusal);

} // namespace coldarc::test
