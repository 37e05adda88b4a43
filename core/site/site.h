#pragma once

#include "core/base/clock.h"
#include "core/base/ids.h"
#include "core/catalogue/projector_model.h"

#include <QString>

#include <cstdint>
#include <optional>
#include <vector>

namespace coldarc::site {

/// Somebody at the site who can be told, asked and rung up.
struct Contact {
    QString name;
    QString role;  ///< may be empty
    QString phone; ///< may be empty

    friend bool operator==(const Contact&, const Contact&) = default;
};

/// Who may prove absence of voltage here. The law differs from country to country, so it is data of the site:
/// a qualified person (29 CFR 1910.333(b)(2)(iv)(B)), an electrically skilled one (EN 50110-1, from memory).
enum class AbsenceProver : std::uint8_t {
    Engineer,    ///< whoever is authorised for the swap
    Qualified,   ///< whoever is authorised to prove absence
    Electrician, ///< an electrician only
};
/// One of "engineer", "qualified", "electrician".
[[nodiscard]] QString wordOf(AbsenceProver prover);
[[nodiscard]] std::optional<AbsenceProver> proverFromWord(const QString& word);

/// The rules of the house that the engineer is a guest in.
struct Profile {
    AbsenceProver mayProveAbsence = AbsenceProver::Qualified;
    QString localRules; ///< may be empty
    QString lockNotes;  ///< what locks and tags look like here; may be empty

    friend bool operator==(const Profile&, const Profile&) = default;
};

struct Site {
    SiteId id;
    QString name;
    QString town; ///< may be empty
    std::vector<Contact> contacts;
    Profile profile;

    friend bool operator==(const Site&, const Site&) = default;
};

/// One auditorium.
struct Screen {
    ScreenId id;
    QString name;
    std::optional<double> weeklyHours; ///< hours per week that a lamp burns here, as the site says; 0 to 168
    std::vector<WallTime> showStarts;  ///< UTC, in any order

    friend bool operator==(const Screen&, const Screen&) = default;
};

struct Projector {
    ProjectorId id;
    ModelId model;
    ScreenId screen;
    QString label; ///< tells two projectors of one screen apart; may be empty

    friend bool operator==(const Projector&, const Projector&) = default;
};

struct Lamphouse {
    LamphouseId id;
    ProjectorId projector;
    QString label;                ///< as the model names it
    std::optional<LampId> fitted; ///< nothing: unknown

    friend bool operator==(const Lamphouse&, const Lamphouse&) = default;
};

/// A lamphouse that a point can energise, and the part that the point plays in its model's supply.
struct Feed {
    LamphouseId lamphouse;
    catalogue::RoleId role;

    friend bool operator==(const Feed&, const Feed&) = default;
};

/// A breaker or switch of the site's own board.
struct IsolationPoint {
    PointId id;
    QString panel;
    QString circuit;
    QString name; ///< as the engineer says it: "panel B, 14"
    bool isLockable = false;
    std::vector<Feed> feeds;

    [[nodiscard]] bool doesFeed(const LamphouseId& lamphouse) const;

    friend bool operator==(const IsolationPoint&, const IsolationPoint&) = default;
};

/// A whole site, as the first entry of a visit holds it. Lists stand in the order in which people gave them.
struct SiteDocument {
    Site site;
    std::vector<Screen> screens;
    std::vector<Projector> projectors;
    std::vector<Lamphouse> lamphouses;
    std::vector<IsolationPoint> points;

    /// nullptr if there is none of this name. The pointer lives as long as this value is not changed.
    [[nodiscard]] const Screen* screen(const ScreenId& id) const;
    [[nodiscard]] const Projector* projector(const ProjectorId& id) const;
    [[nodiscard]] const Lamphouse* lamphouse(const LamphouseId& id) const;
    [[nodiscard]] const IsolationPoint* point(const PointId& id) const;
    /// Everything that can energise this lamphouse.
    [[nodiscard]] std::vector<PointId> pointsFeeding(const LamphouseId& lamphouse) const;

    friend bool operator==(const SiteDocument&, const SiteDocument&) = default;
};

/// The names that lead to a lamphouse within its site: the screen's, the projector's label where several
/// stand there, the lamphouse's where its projector has several; joined by ", ". Empty for one that is not
/// there.
[[nodiscard]] QString placeOf(const SiteDocument& document, const LamphouseId& lamphouse);

/// A show that is to come.
struct NextShow {
    ScreenId screen;
    WallTime start;

    friend bool operator==(const NextShow&, const NextShow&) = default;
};

/// The first show of this screen that starts at `after` or later; nothing if none is known.
[[nodiscard]] std::optional<NextShow> nextShow(const Screen& screen, WallTime after);
/// The same for the whole site; of two at one moment the screen that stands first.
[[nodiscard]] std::optional<NextShow> nextShow(const SiteDocument& document, WallTime after);

} // namespace coldarc::site
