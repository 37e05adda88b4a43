#pragma once

#include "core/base/result.h"
#include "core/lamps/custody.h"
#include "core/lamps/lamp.h"
#include "core/people/authority.h"
#include "core/people/gear.h"
#include "core/record/review.h"
#include "core/site/site.h"
#include "core/visit/incident.h"

#include <QHash>
#include <QList>
#include <QString>
#include <QStringList>

#include <optional>
#include <vector>

namespace coldarc::app {

// What the files of sample-data tell of an invented chain of cinemas. Days are counted from the moment that
// the demo is made at, negative ones are past.

/// Somebody who can sign in to the demo.
struct DemoPerson {
    /// An authorisation, dated by days.
    struct Grant {
        people::Duty duty = people::Duty::LampSwap;
        std::optional<std::vector<ModelId>> models; ///< nothing: every model
        int fromDays = 0;
        int untilDays = 0;
    };

    people::Person person;
    QString passphrase; ///< no secret: it stands in the file and on the demo's first page
    QString pin;        ///< what the demo proposes for the session
    QList<Grant> grants;
};

/// For the demo's first page.
struct DemoPeople {
    QString chain;            ///< what the cinemas call themselves
    QString office;           ///< who vouches for the keys
    QString officePassphrase; ///< no secret either
    QList<DemoPerson> people;
};

struct DemoGear {
    GearId id;
    QString kind;
    QString marking;
    QString identifier;
    std::optional<int> madeMonths;    ///< months from this one
    std::optional<int> expiresMonths; ///< months from this one
    PersonId wearer;                  ///< empty: a spare
    int inspectedDays = 0;
    PersonId inspectedBy;
    bool isPassed = false;
};

struct DemoSite {
    site::SiteDocument document;
    QHash<ScreenId, QList<int>> shows; ///< starts in minutes from the moment asked about

    /// The site as it is at this moment, with the shows around it on whole five minutes.
    [[nodiscard]] site::SiteDocument at(WallTime moment) const;
};

/// How lamps are used, and the first lamp of every lamphouse.
struct DemoLamps {
    struct Fitted {
        LamphouseId lamphouse;
        LampTypeId type;
        QString serial;
        double hoursAtEnd = 0; ///< h on it when it comes out, or now if it stays in
    };
    struct Stock {
        LampTypeId type;
        QString serial;
        lamps::Custody custody = lamps::Custody::InStock;
        PersonId holder; ///< of one in a van
        int days = 0;
    };
    int historyWeeks = 0;    ///< how far the counter readings go back
    double weeklySpread = 0; ///< deviation of a week's hours, as a share of them
    double lookGapWeeks = 0; ///< for the alert thresholds, see lamps::Exposure
    double leadWeeks = 0;
    double leadDeviationWeeks = 0;
    double level = 0.95; ///< see lamps::Promise
    QList<Fitted> fitted;
    QList<Stock> stock;
};

/// Something out of the ordinary on a visit. What the texts are for depends on the kind.
struct DemoTwist {
    enum class Kind {
        Note,             ///< `text` is noted
        SerialMisread,    ///< `source` is read as `read` and let pass for `reason`
        ReadingWithdrawn, ///< a light reading is taken back: `text`
        NoLight,          ///< the first strike fails; what was done about it: `answer`
        Owed,             ///< the step `before` is left to a follow-up visit: `text`
        MakeSafe,         ///< at `before` `incident` is met (`text`), and the swap goes no further: `reason`
        Leave,            ///< at `before` everybody goes home, the visit stays open: `text`
        Addendum,         ///< `text`, after it was closed
    };
    Kind kind = Kind::Note;
    QString text;
    QString reason;
    QString answer;
    QString before; ///< id or effect word of a step
    QString read;
    QString source; ///< word of label::Source
    visit::Incident incident = visit::Incident::NoTimeLeft;
};

struct DemoSwap {
    LamphouseId lamphouse;
    LampTypeId type;
    QString serial;
    lamps::Cause cause = lamps::Cause::EndOfLife; ///< why the old one came out
};

/// What a supervisor said of it.
struct DemoReview {
    PersonId by;
    int days = 1; ///< behind the visit's last entry, at least 1
    record::Verdict verdict = record::Verdict::Accepted;
    QString text{};   ///< may be empty of one that accepts
    QString remark{}; ///< on the first entry that was withdrawn, else on the last one; empty: none
};

/// A visit that was made.
struct DemoVisit {
    int days = 0;
    int minuteOfDay = 0; ///< UTC
    SiteId site;
    QString reason;
    QList<PersonId> crew; ///< the first one leads
    QList<DemoSwap> swaps;
    QList<DemoTwist> twists;
    std::optional<DemoReview> review{};

    [[nodiscard]] const DemoTwist* twist(DemoTwist::Kind kind) const;
    /// Whether it ends with the new lamps in and the visit closed.
    [[nodiscard]] bool doesSwap() const;
};

/// A visit that is to be made.
struct DemoPlan {
    struct Swap {
        LamphouseId lamphouse;
        QString serial; ///< of the lamp put aside; empty: none
    };
    int days = 0;
    SiteId site;
    QString reason;
    QList<Swap> swaps;
};

/// What people write down where nothing is chosen, by "step-id/capture", "effect/capture" or "stop/capture".
/// One of the texts is taken; words in braces are filled in. Where there are choices it has to be one of
/// them.
struct DemoAnswers {
    QHash<QString, QStringList> texts;
    QStringList varied; ///< ids of chosen captures at which not always the first choice that passes is met
    QHash<QString, QString> causes; ///< the choice of a procedure for a word of lamps::Cause
};

struct DemoData {
    DemoPeople people;
    QList<DemoGear> gear;
    QList<DemoSite> sites; ///< in the order of their files' names
    DemoLamps lamps;
    QList<DemoVisit> visits; ///< in the order in which they were made; the unfinished one is the last
    QList<DemoPlan> plans;
    DemoAnswers answers;

    [[nodiscard]] const DemoSite* site(const SiteId& id) const;
};

/// NotFound if a file is missing, Malformed with every complaint, one line each.
[[nodiscard]] Result<DemoData> readDemoData(const QString& folder);
/// The people alone, for the first page. Errors as above.
[[nodiscard]] Result<DemoPeople> readDemoPeople(const QString& folder);

} // namespace coldarc::app
