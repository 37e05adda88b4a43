#pragma once

#include "core/base/ids.h"
#include "core/catalogue/reading.h"

#include <QJsonObject>
#include <QList>
#include <QString>
#include <QStringList>

#include <chrono>
#include <cstdint>
#include <optional>

namespace coldarc::catalogue {

using RoleId = Id<struct IsolationRoleTag>;
using TestPointId = Id<struct TestPointTag>;

/// A device that really parts the supply. Buttons, selectors, interlocks and other control devices are none:
/// a document that names one as an isolation point is refused. Source: 29 CFR 1910.147(b), energy isolating
/// device; 1910.333(b)(2)(ii)(B).
enum class DeviceKind : std::uint8_t {
    Breaker,
    DisconnectSwitch,
    Plug, ///< isolates only while it stays in a locked cover
};
/// One of "breaker", "disconnect-switch", "plug".
[[nodiscard]] QString wordOf(DeviceKind kind);

/// A supply that the model needs to be cut at every site: the part that a breaker of the site's own board
/// plays.
struct IsolationRole {
    RoleId id;
    QString name;
    DeviceKind kind = DeviceKind::Breaker;
    bool lockable = true;   ///< false: Dead can never be proved through it
    QStringList lamphouses; ///< labels of the lamphouses that it can energise, never empty

    friend bool operator==(const IsolationRole&, const IsolationRole&) = default;
};

/// What has to be opened last to reach something.
enum class Cover : std::uint8_t {
    None,
    Housing,
    Guard,
};
/// One of "none", "housing", "guard".
[[nodiscard]] QString wordOf(Cover cover);

/// Where absence of voltage is proved. Every lamphouse of the model has one.
struct TestPoint {
    TestPointId id;
    QString name;
    Cover cover = Cover::None;

    friend bool operator==(const TestPoint&, const TestPoint&) = default;
};

/// An end of the lamp. The anode is the one with the large electrode.
enum class LampEnd : std::uint8_t {
    Anode,
    Cathode,
};
/// "anode" or "cathode".
[[nodiscard]] QString wordOf(LampEnd end);

/// The piece that makes a shorter lamp fit: at this end, for these types only.
struct Adaptor {
    LampEnd end = LampEnd::Anode;
    QList<LampTypeId> lampTypes; ///< never empty; each one is taken by the model

    friend bool operator==(const Adaptor&, const Adaptor&) = default;
};

/// Screws or catches of one place that come off and must come back.
struct Fasteners {
    QString place;
    int count = 0; ///< >= 1

    friend bool operator==(const Fasteners&, const Fasteners&) = default;
};

/// A direction in which the lamp can be moved to its peak.
enum class Axis : std::uint8_t {
    Along,  ///< along the light's way
    Across, ///< sideways
    Up,
};
/// One of "along", "across", "up".
[[nodiscard]] QString wordOf(Axis axis);
[[nodiscard]] std::optional<Axis> axisFromWord(const QString& word);

/// Which way a knob is turned, seen by whoever stands in front of it.
enum class Sense : std::uint8_t {
    Clockwise,
    Anticlockwise,
};
/// "clockwise" or "anticlockwise".
[[nodiscard]] QString wordOf(Sense sense);

/// One screw of the lamp's carriage.
struct AxisDrive {
    Axis axis = Axis::Along;
    /// Turns of the screw between two settings of the search. In the catalogue whole eighths, at least a
    /// quarter, since a hand repeats an eighth and the search halves its step; a logbook may keep any.
    double stepTurns = 0;
    Sense forward = Sense::Clockwise; ///< the way that counts as forward; by default a right-hand screw's
    bool hasPlay = false;             ///< the model's screw is known to turn a while before the lamp follows

    friend bool operator==(const AxisDrive&, const AxisDrive&) = default;
};

/// One kind of projector: what its lamphouse is made of and how long it must be waited for.
struct ProjectorModel {
    ModelId id;
    QString maker;
    QString name;
    QStringList lamphouses;               ///< labels, one or two, all different
    std::chrono::seconds coolFan{0};      ///< after the lamp went off, with the fan running; >= kLeastCoolFan
    std::chrono::seconds coolUnforced{0}; ///< without the fan; >= coolFan
    std::chrono::seconds bleed{0};        ///< stored charge let down, housing shut
    std::chrono::seconds settle{0};       ///< after the strike, until the light may be measured
    std::chrono::seconds strikePause{0};  ///< between two attempts to strike
    int strikeLimit = 0;            ///< attempts before the lamp counts as one that will not light, >= 1
    QList<IsolationRole> isolation; ///< in the order in which they are cut, never empty
    QList<TestPoint> testPoints;    ///< at least one is reached without opening the guard
    bool hasHousing = true;         ///< false: the single door is also the guard
    bool hasDowser = true;
    std::optional<Adaptor> adaptor;
    QList<Fasteners> fasteners;  ///< never empty; places all different
    QList<AxisDrive> axes;       ///< in the order of the search, each axis at most once, never empty
    QList<LampTypeId> lampTypes; ///< what the model takes, never empty

    /// How many fasteners come off in one swap.
    [[nodiscard]] int fastenerTotal() const;
    /// Whether a lamp of this type is fitted with the adaptor.
    [[nodiscard]] bool needsAdaptor(const LampTypeId& type) const;
    [[nodiscard]] bool takes(const LampTypeId& type) const { return lampTypes.contains(type); }
    /// Everything that can energise this lamphouse, in the order in which it is cut.
    [[nodiscard]] QList<IsolationRole> isolationOf(const QString& lamphouse) const;
    /// Nothing if the model has none of this name.
    [[nodiscard]] std::optional<IsolationRole> role(const RoleId& id) const;
    [[nodiscard]] std::optional<TestPoint> testPoint(const TestPointId& id) const;

    friend bool operator==(const ProjectorModel&, const ProjectorModel&) = default;
};

/// No lamp counts as cold before this, with the fan running, whatever a document says: 10 minutes.
/// Source: UC Davis Safety Services, arc and flash lamp safety ("at least 10 minutes"); the Sprocket School
/// wiki on xenon lamps gives the same for the blower. For the unforced wait no published figure is known.
inline constexpr std::chrono::seconds kLeastCoolFan{600};

/// Reads a document of kind "projector-model". A `cool_fan_s` under kLeastCoolFan is read as kLeastCoolFan,
/// with a notice; `cool_unforced_s` is compared with what is then used.
///
/// What a signed logbook keeps was read once and stays readable, so nothing may ever be asked for here that
/// was not asked for from the beginning: rules that came later belong to `readModelOfCatalogue`.
[[nodiscard]] Reading<ProjectorModel> readProjectorModel(const QJsonObject& document);
/// The same for a file that visits to come are planned with: besides, every step can be turned by hand.
[[nodiscard]] Reading<ProjectorModel> readModelOfCatalogue(const QJsonObject& document);
/// The document again: reading it gives an equal model.
[[nodiscard]] QJsonObject toJson(const ProjectorModel& model);

} // namespace coldarc::catalogue
