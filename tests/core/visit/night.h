#pragma once

#include "core/catalogue/catalogue.h"
#include "core/machine/make_safe.h"
#include "core/procedure/procedure_file.h"
#include "core/visit/decide.h"
#include "core/visit/evolve.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <functional>

namespace coldarc::test {

/// Of the answers to a step, which stay as they are.
inline constexpr auto kAsItShouldBe = [](QJsonObject&) {};
/// What a look at the lamphouse of this act sees if all is as the record says, with the fan still.
void seeAsItStands(const visit::VisitState& state, machine::Act& act);

/// A pair whose second lamphouse has a breaker of its own: two isolation groups on one projector.
[[nodiscard]] visit::Opening twoFeeds();

/// An invented night at an invented cinema, on the shipped catalogue and procedures, driven by what people
/// say.
class Night {
public:
    enum class Crew {
        Alone,
        WithTrainee,
        WithRelief,         ///< a second engineer who may lead
        AtElectriciansSite, ///< alone, where only an electrician proves absence of voltage
        WithElectrician,    ///< there too, and one came along
    };

    /// One screen with this model ("larkmoor-teal"), a lamp of `oldType` fitted, one of `newType` brought.
    explicit Night(const QString& model = QStringLiteral("larkmoor-teal"), Crew crew = Crew::Alone,
                   const QString& oldType = {}, const QString& newType = {}, int screens = 1);

    [[nodiscard]] const visit::Opening& opening() const { return m_opening; }
    /// A night of one's own.
    explicit Night(const visit::Opening& opening);
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
    /// An act outside the procedure's order, by `by`, at a lamphouse; `change` may say more of it.
    visit::Decision doAct(const PersonId& by, machine::Effect effect, machine::Index lamphouse = 0,
                          const std::function<void(machine::Act&)>& change = {});
    /// The whole gear of somebody, item by item.
    visit::Decision putOnGear(const PersonId& by, int swap = 0);
    /// At every lamphouse that was said to be not as it was left: out, with the fan still.
    void lookAgain();
    /// Presses MAKE SAFE and follows its list to the end, by whoever each act belongs to; holds every wait.
    void makeSafe();
    /// After "it started": everything until the points are on again, so that they can be isolated anew.
    void putRight();
    void answerIncidents();
    /// Answers what is open, gives each lamp away, signs and closes.
    void close();
    /// How the whole visit reads back from the bytes of its entries.
    [[nodiscard]] visit::VisitState readBack() const;
    /// Whether this step of the procedure is done now, whoever asks.
    [[nodiscard]] bool isDone(const QString& step, int swap = 0) const;
    [[nodiscard]] bool hasException(visit::Exception::Kind kind) const;
    [[nodiscard]] bool hasIncident(visit::Incident kind) const;
    [[nodiscard]] const machine::LamphouseState& lamphouse(int index = 0) const
    {
        return state.machine.lamphouse[static_cast<std::size_t>(index)];
    }
    /// Reads box, paper and entry (and the own marking) of the swap's new lamp as they should be.
    void readLabels(int swap = 0);
    void readMarking(int swap = 0);
    /// Reads the centre of the screen, as the step whose turn it is.
    void readCentre(int swap = 0, double cdPerM2 = 48);
    /// Holds whatever wait the next step stands before.
    void holdWaits(int swap = 0);

    [[nodiscard]] visit::VisitState seen() const { return visit::seenAt(state, clock.now()); }
    [[nodiscard]] const visit::SwapState& swap(int index = 0) const { return state.swaps[index]; }
    [[nodiscard]] PersonId ada() const { return PersonId(QStringLiteral("ada")); }
    [[nodiscard]] PersonId ben() const { return PersonId(QStringLiteral("ben")); }
    [[nodiscard]] PersonId eva() const { return electrician().id; }
    /// An electrician who may prove absence here.
    [[nodiscard]] static visit::PersonFacts electrician();
    [[nodiscard]] const catalogue::LampType& newType(int index = 0) const;

    FakeClock clock;
    QHash<int, QString>
        takenFromTheVan; ///< by swap: the serial of the lamp that is at hand, if not the planned one
    visit::VisitState state;
    QList<visit::Entry> entries;

private:
    void doSafeStep(const machine::SafeStep& step);

    [[nodiscard]] QString serialAtHand(int swap) const;

    visit::Opening m_opening;
};

/// The next visit to the site of a night that is over: every lamphouse as that night left it, and nothing to
/// do but these steps at the swap's lamphouse.
[[nodiscard]] visit::Opening followUpOf(const Night& night, const QStringList& owed);

/// Fails unless both say the same of everything that rules and reviews look at.
void expectSame(const visit::VisitState& one, const visit::VisitState& other);
/// Every demand that a refusal names, in the order of the enumeration.
[[nodiscard]] QList<machine::Demand> demandsOf(const visit::Decision& decision);
[[nodiscard]] bool isRefused(const visit::Decision& decision, visit::Why::Kind kind);
/// The step that a refusal names as the one whose turn it is.
[[nodiscard]] QString turnOf(const visit::Decision& decision);

/// Loaded once: it is the shipped data.
[[nodiscard]] const catalogue::Catalogue& shippedCatalogue();
[[nodiscard]] const procedure::ProcedureLoading& shippedProcedures();
[[nodiscard]] std::string wordsOf(const visit::Refusal& refusal);

} // namespace coldarc::test
