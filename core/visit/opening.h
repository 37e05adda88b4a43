#pragma once

#include "core/base/hash.h"
#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
#include "core/machine/plant.h"
#include "core/people/person.h"
#include "core/procedure/procedure.h"
#include "core/site/site.h"
#include "core/visit/wait_book.h"

#include <QJsonObject>
#include <QList>

#include <memory>
#include <optional>

namespace coldarc::visit {

/// What was known of somebody when they came to the visit. Authority is judged then and holds to the end.
struct PersonFacts {
    PersonId id;
    QString name;
    people::Role role = people::Role::Engineer;
    bool mayLead = false;      ///< authorised for the lamps of every model of this visit
    bool mayAssist = false;    ///< under direct supervision of somebody who may lead
    bool mayProve = false;     ///< the site lets this person prove the absence of voltage
    bool maySupervise = false; ///< may be named for the removal of an absent owner's lock
    /// This person's lock was removed at this site in an earlier visit, and nobody has told them yet.
    bool hasRemovalToTell = false;
    /// Gear kinds of which every item that is recorded as this person's is past its date or withdrawn. Such
    /// an item is not put on in this visit; where nothing is recorded, what the wearer says of it counts
    /// alone.
    QStringList unfitGear{};

    /// Works on the lamps of this visit, alone or under somebody.
    [[nodiscard]] bool worksOnLamps() const { return mayLead || mayAssist; }
    /// Their press beside somebody else's counts where a figure needs two people.
    [[nodiscard]] bool mayAgree() const { return worksOnLamps() || maySupervise; }
    friend bool operator==(const PersonFacts&, const PersonFacts&) = default;
};

/// One lamp of the visit.
struct LampFacts {
    LampId id;
    std::optional<LampTypeId> type; ///< nothing: unknown, as with a lamp that somebody else fitted
    QString serial;                 ///< may be empty
    std::optional<double> hours;    ///< on the lamp, as far as is known
    /// Of a lamp that is fitted: what the counter of its lamphouse showed when it had these hours, and when.
    /// Older openings, which are read for ever, do not say.
    std::optional<double> counter{};
    std::optional<WallTime> hoursAt{};
    friend bool operator==(const LampFacts&, const LampFacts&) = default;
};

/// One step that an earlier visit left and this one takes up.
struct OwedPlan {
    StepId step;
    VisitId visit;  ///< that left it
    WallTime since; ///< when that visit left it
    LampId lamp; ///< to which it is owed: the one that has to be in the lamphouse now; older openings, which
                 ///< are read for ever, do not say
    friend bool operator==(const OwedPlan&, const OwedPlan&) = default;
};

/// One lamp to be exchanged; or, where `owed` is not empty, only what was left to do at the lamp that is in.
struct SwapPlan {
    SwapId id;
    LamphouseId lamphouse;
    ProcedureId procedure;
    LampFacts newLamp;      ///< without an id where nothing is exchanged
    QList<OwedPlan> owed{}; ///< not empty: nothing is exchanged

    [[nodiscard]] bool followsUp() const { return !owed.isEmpty(); }
    /// Ids of the steps that are owed.
    [[nodiscard]] QList<StepId> owedSteps() const;
    friend bool operator==(const SwapPlan&, const SwapPlan&) = default;
};

/// The exact text of a document that the visit is decided on, and what it is.
struct Text {
    enum class Kind {
        Model,
        LampType,
        Procedure,
        Gear,
    };
    Kind kind = Kind::Model;
    QByteArray bytes;
    friend bool operator==(const Text&, const Text&) = default;
};

/// The first entry of a visit: everything that is decided on later, as it was when the visit was opened.
struct Opening {
    VisitId visit;
    QString reason; ///< why this visit is made; may be empty
    site::SiteDocument site;
    QList<PersonFacts> people; ///< the first one leads
    QList<SwapPlan> swaps;
    QList<LampFacts> fitted;     ///< the lamps believed to be in the lamphouses concerned
    QList<LamphouseId> fittedIn; ///< in the order of `fitted`
    QList<Text> texts;           ///< every model, lamp type and procedure that the swaps need, and the gear
    double weeklyHours = 0;      ///< h per week that the screens of this site are said to run; 0: unknown
    friend bool operator==(const Opening&, const Opening&) = default;
};

/// An opening, read: names turned into positions, texts into values. Shared by every state of the visit.
struct Ground {
    Opening opening;
    catalogue::Catalogue catalogue;
    QList<procedure::Procedure> procedures;
    machine::Plant plant;          ///< without the people, who can still come
    QList<LamphouseId> lamphouses; ///< by index: those that a point of a swapped lamphouse's group feeds
    QList<PointId> points;         ///< by index
    QList<ProjectorId> projectors; ///< by index
    QList<LampFacts> lamps; ///< by index: the fitted ones in the order of the lamphouses, then the new ones
    QList<WaitTimes> waits; ///< by lamphouse
    QList<ModelId> models;  ///< by lamphouse

    [[nodiscard]] machine::Index lamphouse(const LamphouseId& id) const;
    [[nodiscard]] machine::Index point(const PointId& id) const;
    [[nodiscard]] machine::Index lamp(const LampId& id) const;
    [[nodiscard]] const catalogue::ProjectorModel& model(machine::Index lamphouse) const;
    [[nodiscard]] const procedure::Procedure* procedure(const ProcedureId& id) const;
    /// The point that plays this part for this lamphouse; kNone if none does.
    [[nodiscard]] machine::Index pointOfRole(machine::Index lamphouse, const catalogue::RoleId& role) const;
};

/// Malformed if a text cannot be read, a name is unknown, a lamphouse has no point, what is taken up as owed
/// is no step that may follow or the lamp that it is owed to is not known, or the visit holds more than the
/// machine counts (4 lamphouses, 8 points, 8 lamps, 4 people).
[[nodiscard]] Result<std::shared_ptr<const Ground>> groundOf(const Opening& opening);

[[nodiscard]] QJsonObject toJson(const Opening& opening);
[[nodiscard]] Result<Opening> openingFrom(const QJsonObject& object);
[[nodiscard]] QJsonObject toJson(const PersonFacts& person);
/// @param place, complaints  as for JsonReader.
[[nodiscard]] PersonFacts personFactsFrom(const QJsonObject& object, const QString& place,
                                          QStringList& complaints);

} // namespace coldarc::visit
