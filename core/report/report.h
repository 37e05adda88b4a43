#pragma once

#include "core/photometry/comparison.h"
#include "core/review/exceptions.h"
#include "core/review/time_line.h"
#include "core/visit/light_of_visit.h"
#include "core/visit/sheet_of_visit.h"

#include <optional>
#include <vector>

namespace coldarc::report {

/// One lamp on the customer's page.
struct LampPart {
    machine::Index lamp = machine::kNone; ///< among the lamps of the ground
    std::optional<double> hours;          ///< h on it, as the visit was opened
    std::optional<double> counter; ///< h, as it was read: of the one that came out before that, of the one
                                   ///< that went in back from the controller
    QString cause{};               ///< why it came out, as it was chosen; may be empty
    QString custody{};             ///< where it goes, a word of lamps::Custody; may be empty

    friend bool operator==(const LampPart&, const LampPart&) = default;
};

/// When the lamp that is in now comes due.
struct NextDue {
    double thresholdHours = 0; ///< h on the counter
    /// h to burn until then, from the counter as it was read last; not below 0. Nothing where the
    /// controller's was not read.
    std::optional<double> hoursLeft{};
    /// At the weekly hours; nothing where they, or the hours left, are not known.
    std::optional<WallTime> expected{};
    /// h per week that a lamp of this screen burns, as the site says; nothing: it does not.
    std::optional<double> weeklyHours{};

    friend bool operator==(const NextDue&, const NextDue&) = default;
};

/// What the customer is told of one screen.
struct SwapPart {
    SwapId swap;
    bool wasExchanged = false;  ///< the new lamp is in the seat
    LampPart out;               ///< the lamp that was found
    std::optional<LampPart> in; ///< the one that was brought; nothing where nothing was to be exchanged
    std::optional<NextDue> due{};
    QList<StepId> owed{};
    visit::SheetOfSwap before;
    visit::SheetOfSwap after;
    std::optional<photometry::Comparison> comparison{};
    visit::LightOfSwap light;
};

/// What the customer has to know first.
enum class Caution : std::uint8_t {
    OutOfUse,       ///< locked and tagged: not to be switched on
    NotFinished,    ///< made safe as it is, or as it was
    Owed,           ///< something is left to a later visit
    LightBelow,     ///< below the limits that were chosen
    AlertPassed,    ///< set at or above the warranty hours
    SomethingWrong, ///< an incident was met
    NotClosed,      ///< this was printed before the visit was closed
};

/// One signature, as 21 CFR 11.50 wants it shown: name, moment, meaning. It is bound to its record as 11.70
/// wants by the head that it was given over.
struct SignatureLine {
    enum class Key : std::uint8_t {
        Good,     ///< a key signed the head of this entry, and the signature verifies
        Bad,      ///< it does not
        OutOfUse, ///< it verifies, but an office says that the key was out of use
        Missing,  ///< the entry asks for one that was not made
        Witness,  ///< the site's contact, who has no key: the entry says so, and those who sign after vouch
                  ///< for it
    };
    Key key = Key::Good;
    QString name;    ///< as the entries have it; of one in the former form empty
    QString role;    ///< a word of people::Role, or as the contact said it; of one in the former form empty
    QString meaning; ///< a word of people::Meaning
    WallTime at{};   ///< of a missing one: of its entry; one in the former form says none
    qint64 entry = 0;
    QString thumbprint{}; ///< of the key; empty: there is none
    QList<review::VouchedBy> vouchedBy{};
    bool isFormer = false; ///< it names neither person nor moment
    bool isOfWork = false; ///< over an entry by which somebody signed for the work, or the site did

    /// A key signed, and nobody vouches for whose it is.
    [[nodiscard]] bool isUnvouched() const { return key == Key::Good && vouchedBy.isEmpty(); }

    friend bool operator==(const SignatureLine&, const SignatureLine&) = default;
};

/// Entries of the file part, by what they are looked up for; numbers from 0, in order.
struct EntryLists {
    std::vector<qint64> lockout; ///< isolation, locks, start tried, absence of voltage, restored
    std::vector<qint64> gear;    ///< gear on and off, the zone entered and left
    std::vector<qint64> labels;  ///< what was read of the lamps, what was passed, pictures

    friend bool operator==(const EntryLists&, const EntryLists&) = default;
};

/// Everything that the report of a visit says. Made from its entries alone, and from what is known of the
/// signatures.
struct Report {
    visit::VisitState state; ///< the fold of the entries; was opened
    QList<visit::Entry> entries;
    Hash head; ///< of the chain
    WallTime from{};
    WallTime until{}; ///< when it was closed; of an open one the last entry
    std::vector<SwapPart> swaps;
    std::vector<Caution> cautions; ///< in the order of the enumeration
    QList<review::Exception> exceptions;
    QList<review::Span> timeLine;
    EntryLists lists;
    std::vector<SignatureLine> signatures; ///< in the order of their entries
    qint64 signedUpTo =
        -1; ///< the last entry that a good signature covers; what comes after is nobody's word
};

/// @param signatures  as they were kept and checked.
/// Error::Malformed where the entries are no visit: none, or the first opens nothing.
[[nodiscard]] Result<Report> reportOf(const QList<visit::Entry>& entries, const Hash& head,
                                      const QList<review::HeadSigned>& signatures);

/// When a lamp comes due that has this many hours to burn, at `weeklyHours` from `from` on. Nothing where
/// these are not above 0.
[[nodiscard]] std::optional<WallTime> expectedAt(WallTime from, double hoursLeft, double weeklyHours);

} // namespace coldarc::report
