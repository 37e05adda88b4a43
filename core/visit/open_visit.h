#pragma once

#include "core/catalogue/catalogue.h"
#include "core/lamps/in_hand.h"
#include "core/lamps/lamp_store.h"
#include "core/people/authority.h"
#include "core/people/gear.h"
#include "core/procedure/procedure_file.h"
#include "core/site/site_check.h"
#include "core/visit/opening.h"
#include "core/visit/state.h"

#include <tl/expected.hpp>

#include <chrono>

namespace coldarc::visit {

/// Somebody who comes along, with all that the workspace knows of what they may do.
struct Attendant {
    people::Person person;
    std::vector<people::Authorisation> authorisations;
    /// This person's lock was removed here in an earlier visit, and nobody has told them yet.
    bool hasRemovalToTell = false;
    std::vector<people::GearItem> gear{}; ///< the items that are this person's

    friend bool operator==(const Attendant&, const Attendant&) = default;
};

/// One lamp that is to go in, and where; or what is to be done of what is owed there.
struct WantedSwap {
    SwapId id;
    LamphouseId lamphouse;
    LampFacts newLamp;      ///< not looked at where `owed` is not empty
    QList<OwedPlan> owed{}; ///< not empty: nothing is exchanged
    /// Where the new lamp is by the book; nothing: the workspace does not have it yet.
    std::optional<lamps::Custody> custody{};

    friend bool operator==(const WantedSwap&, const WantedSwap&) = default;
};

/// A lamp that is believed to be in a lamphouse.
struct FittedLamp {
    LamphouseId lamphouse;
    LampFacts lamp;

    friend bool operator==(const FittedLamp&, const FittedLamp&) = default;
};

/// What somebody asks for who wants to open a visit.
struct WantedVisit {
    VisitId visit;
    QString reason; ///< may be empty
    site::SiteDocument site;
    QList<Attendant> people; ///< the first one leads
    QList<WantedSwap> swaps;
    QList<FittedLamp> fitted; ///< of the whole site; those that do not matter are left out of the opening
    people::Day today;        ///< at the site
};

/// The documents that a visit can be decided on. Borrowed.
struct Shelf {
    const catalogue::Catalogue& catalogue;
    const procedure::ProcedureLoading& procedures;
};

/// One thing that has to be put right before the visit can be opened.
struct OpenProblem {
    enum class Kind : std::uint8_t {
        NothingToSwap,
        NobodyLeads,       ///< there are no people
        LeadNotAuthorised, ///< person `about` for model `other`; `verdict` says why
        UnknownLamphouse,  ///< `about`
        SwappedTwice,      ///< lamphouse `about`
        LampTwice,         ///< lamp `about` is meant for two lamphouses
        LamphouseInHand,   ///< an unfinished visit has lamphouse `about`, `since` then
        LampInHand,        ///< an unfinished visit has the new lamp for lamphouse `about`
        LampInASeat,       ///< by the book the new lamp for lamphouse `about` is in a lamphouse
        LampGone,          ///< by the book the new lamp for lamphouse `about` burst or was given away
        UnknownModel,      ///< model `about`
        NoProcedure,       ///< model `about` has none that was proved
        LampTypeNotChosen, ///< for lamphouse `about`
        UnknownLampType,   ///< `about`
        LampTypeNotTaken,  ///< model `about` does not take type `other`
        LampPastItsHours,  ///< the new lamp for lamphouse `about` has burnt `other` hours, which ends its
                           ///< type's life
        OwedStepGone,      ///< today's procedure for lamphouse `about` has no step `other` that may follow
        OwedLampUnknown,   ///< nobody knows which lamp is in lamphouse `about`
        OwedNotProved,     ///< for lamphouse `about`; `other` says what the proof found, for the log
        SiteDoesNotFit,    ///< `site`
        MoreThanAVisit,    ///< more lamphouses, points, lamps or people than one visit holds
    };
    Kind kind = Kind::NothingToSwap;
    QString about{}; ///< text of an id
    QString other{};
    people::Authority::Verdict verdict = people::Authority::Verdict::None;
    std::optional<site::Problem> site{};
    std::optional<WallTime> since{};

    friend bool operator==(const OpenProblem&, const OpenProblem&) = default;
};

/// The first entry of a visit: the site as it is, who comes with which authority, and the exact text of every
/// model, lamp type and procedure that the swaps and the lamphouses on their breakers need.
///
/// Somebody may lead who is authorised today, in their own right, for the lamps of every model of the swaps;
/// may assist who is so under supervision. Who may prove absence is said by the site: whoever leads, whoever
/// is authorised to, or an electrician only, authorised to as well. Nobody is missed here who could prove it:
/// they may join later.
///
/// No two unfinished visits have one lamphouse or bring one lamp: two logbooks would tell of one machine. A
/// new lamp has to be somewhere from where it can come along.
///
/// What is only owed is opened as the steps of `procedure::followUpSteps`, which are proved here.
/// @param inHand  of every unfinished visit of the workspace, as `addInHand` says it.
/// @return the opening, or everything that stands in the way.
[[nodiscard]] tl::expected<Opening, QList<OpenProblem>>
openingFor(const WantedVisit& wanted, const Shelf& shelf, const lamps::InHand& inHand);

/// Adds what a visit has in hand. One that ended, or that this program cannot go on with, holds nothing up.
void addInHand(lamps::InHand& inHand, const VisitState& state, WallTime openedAt);

/// What is known today of somebody who comes to a visit that was opened before, judged by the same rule.
[[nodiscard]] PersonFacts factsFor(const Attendant& who, const Opening& opening, people::Day today);

/// How long a swap takes, for planning.
struct NeededTime {
    std::chrono::minutes hands{0}; ///< the steps' own minutes
    std::chrono::minutes waits{0}; ///< Cold with the fan running, charge let down, light settled

    [[nodiscard]] std::chrono::minutes total() const { return hands + waits; }
    friend NeededTime operator+(NeededTime a, NeededTime b) { return {a.hands + b.hands, a.waits + b.waits}; }
    friend bool operator==(const NeededTime&, const NeededTime&) = default;
};

/// Nothing where one of them is not known.
[[nodiscard]] std::optional<NeededTime> sumOf(const std::optional<NeededTime>& one,
                                              const std::optional<NeededTime>& other);

/// Every step of the procedure that a swap with these facts has, and each wait that one of its steps starts,
/// once. Several swaps added up are an upper bound: nothing is counted as overlapped. Waits are rounded up to
/// whole minutes.
[[nodiscard]] NeededTime timeNeeded(const procedure::Procedure& procedure,
                                    const catalogue::ProjectorModel& model, const procedure::Facts& facts);
/// The same of these steps, whether they were foreseen or are those that a visit came to.
[[nodiscard]] NeededTime timeNeeded(const QList<procedure::Step>& steps,
                                    const catalogue::ProjectorModel& model);
/// The same of doing what is owed to this lamp, as if it were found out.
[[nodiscard]] NeededTime timeNeeded(const procedure::Procedure& procedure,
                                    const catalogue::ProjectorModel& model, const procedure::LampFacts& lamp,
                                    const QList<StepId>& owed);

/// A fitted lamp as it was at the last reading: what it burnt before this stay, and what the counter had
/// moved since, with that counter and its moment. What it burnt after that nobody knows before the counter is
/// read again. Unknown where one of the three is not known, or the counter ran backwards.
/// @param stay     the one that has not ended; nothing: not known.
/// @param reading  the last one of this lamphouse; one from before the stay says nothing of it.
[[nodiscard]] LampFacts fittedFacts(const lamps::Lamp& lamp, const std::optional<lamps::Fit>& stay,
                                    const std::optional<lamps::CounterReading>& reading);

/// Hours that a lamp may burn on within its warranty; negative beyond it. Nothing if type or hours are not
/// known.
[[nodiscard]] std::optional<double> warrantyHoursLeft(const LampFacts& lamp,
                                                      const catalogue::Catalogue& catalogue);

} // namespace coldarc::visit
