#pragma once

#include "core/lamps/lamp_store.h"
#include "core/people/authority.h"
#include "core/people/key_store.h"
#include "core/people/trust.h"
#include "core/review/exception.h"
#include "core/visit/state.h"

#include <QList>
#include <QStringList>

#include <array>
#include <optional>
#include <vector>

namespace coldarc::review {

/// What a history follows over many visits.
enum class About : std::uint8_t {
    Lamp,
    Lamphouse,
    Person,
};
inline constexpr std::array kEveryAbout{About::Lamp, About::Lamphouse, About::Person};
/// "lamp", "lamphouse", "person".
[[nodiscard]] QString wordOf(About about);
[[nodiscard]] std::optional<About> aboutFromWord(const QString& word);

/// One lamp, lamphouse or person, as whoever looks for it knows it.
struct Subject {
    About about = About::Lamp;
    QString id;
    QString name;   ///< a lamp's serial, a lamphouse's site, somebody's name; may be empty
    QString more{}; ///< a lamp's type as its marking has it; the screen, and which lamphouse of several; the
                    ///< word of somebody's role; may be empty
    QString type{}; ///< of a lamp: the id of its type
    WallTime seenAt{}; ///< when the visit that this stands in was opened; a list has the latest

    friend bool operator==(const Subject&, const Subject&) = default;
};

/// Something that is told of a lamp, a lamphouse or somebody, with the place where it can be looked up.
/// Behind each kind what its facts mean; those not named are empty.
struct HistoryLine {
    enum class Kind : std::uint8_t {
        Visited,  ///< words: the state of the visit, as in its summary, then "swap" or "follow-up" of a
                  ///< lamphouse, "found" or "brought" of a lamp, "lead" or the word of the role of a person,
                  ///< then the site's name
        Fitted,   ///< figure: h on the counter
        TakenOut, ///< figure: h on the counter; against: h burnt in this stay, where the lamps' records say
                  ///< so; words: of lamps::Cause
        WentTo,   ///< words: of lamps::Custody; then "later" of one that is in a van, boxed, to go there
        BookedIn, ///< figure: h of the alert threshold
        CounterRead, ///< figure: h
        CentreRead,  ///< figure: cd/m2 at the centre of the screen; words: "arrival" or "after"
        Unusual,     ///< `unusual`
        LeftOwed,    ///< words: the step's title
        OwedDone,    ///< the same
        Signed,      ///< words: of people::Meaning
        Came,
        Went,
        PassedOn, ///< other: to whom
        TookOver, ///< other: from whom
        // From the workspace's own tables alone: they stand in no visit.
        Authorised, ///< words: of people::Duty, first and last day, models; other: by whom; no model: for all
        AuthorisationWithdrawn, ///< words: of people::Duty, the day
        KeyEnrolled,            ///< words: its thumbprint
        KeyRetired,             ///< the same
        KeyVouchedFor,          ///< words: thumbprint of the key, the office's, first and last day
        KeyCalledOutOfUse,      ///< words: thumbprint of the key, the office's, first day
    };
    Kind kind = Kind::Visited;
    WallTime at{};
    VisitId visit{};   ///< empty: it stands in the workspace's own tables
    qint64 entry = -1; ///< of that visit, counted from 0
    LampId lamp{};
    LamphouseId lamphouse{};
    PersonId person{}; ///< whose history it belongs to: who did it, or met it
    PersonId other{};
    std::optional<double> figure{};
    std::optional<double> against{};
    QStringList words{};
    std::optional<Exception> unusual{}; ///< steps stand in it by their titles

    friend bool operator==(const HistoryLine&, const HistoryLine&) = default;
};
inline constexpr int kHistoryKinds = static_cast<int>(HistoryLine::Kind::KeyCalledOutOfUse) + 1;
/// "visited", "taken-out", ...: lower case with dashes.
[[nodiscard]] QString wordOf(HistoryLine::Kind kind);
[[nodiscard]] std::optional<HistoryLine::Kind> historyKindFromWord(const QString& word);

/// What one visit tells: everything that its lines name, and the lines in the order of its entries.
struct VisitHistory {
    QList<Subject> subjects;
    QList<HistoryLine> lines;

    friend bool operator==(const VisitHistory&, const VisitHistory&) = default;
};

/// @param state  the fold of `entries`; a visit that was never opened tells nothing.
/// What became of lamps and counters is told once the visit is closed, by the rule of visit::settlementOf.
[[nodiscard]] VisitHistory historyOf(const visit::VisitState& state, const QList<visit::Entry>& entries);

/// What the lamps' records say of a lamp or a lamphouse: where it went, and each stay.
/// @param moves  those that count; @param fits  either may be of several lamps.
[[nodiscard]] QList<HistoryLine> linesOf(const std::vector<lamps::CustodyMove>& moves,
                                         const std::vector<lamps::Fit>& fits);
/// What is kept of one person: what they were authorised for, and their keys.
/// @param heard  what offices say of this person's keys, be they believed still or not: a paper that an
///               office did not sign says nothing.
[[nodiscard]] QList<HistoryLine> linesOf(const PersonId& person,
                                         const std::vector<people::Authorisation>& authorisations,
                                         const std::vector<people::EnrolledKey>& keys,
                                         const people::Trust& heard);

/// Newest first; of one moment what was written later first. What the lamps' records and a visit tell of one
/// deed (of one kind, lamp and moment) is told once, with the visit where it stands, and the hours of the
/// records.
[[nodiscard]] QList<HistoryLine> together(const QList<HistoryLine>& visits, const QList<HistoryLine>& own);

/// A lamp's time in one lamphouse.
struct Stay {
    LampId lamp;
    LamphouseId lamphouse;
    std::optional<WallTime> from{}; ///< nothing: before anything that is known
    std::optional<double> counterIn{};
    VisitId visitIn{}; ///< where it stands; empty: in none
    qint64 entryIn = -1;
    std::optional<WallTime> to{}; ///< nothing: it is in still, as far as is known
    std::optional<double> counterOut{};
    QString cause{}; ///< a word of lamps::Cause; empty while it is in
    VisitId visitOut{};
    qint64 entryOut = -1;
    std::optional<double> run{};         ///< h burnt; nothing: its counters do not tell
    std::optional<double> lightAfter{};  ///< cd/m2, the first reading of the centre after it was lit
    std::optional<double> lightBefore{}; ///< cd/m2, the last one on arrival, before it came out

    friend bool operator==(const Stay&, const Stay&) = default;
};

/// The stays that these lines tell, oldest first.
/// @param lines  newest first, as `together` has them; kinds that tell nothing of a stay are passed over.
[[nodiscard]] std::vector<Stay> staysOf(const QList<HistoryLine>& lines);

} // namespace coldarc::review
