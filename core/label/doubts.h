#pragma once

#include "core/base/hash.h"
#include "core/base/ids.h"
#include "core/label/agreement.h"
#include "core/label/gs1.h"

#include <QList>
#include <QString>

#include <chrono>
#include <cstdint>
#include <optional>

namespace coldarc::label {

/// A lamp that the records know, as far as a new one can be mistaken for it.
struct KnownLamp {
    enum class Where : std::uint8_t {
        AtHand, ///< in stock, in a van, on order, brought and not used: it may be fitted
        Fitted, ///< in a seat, which is named
        Boxed,  ///< taken out, or kept by a site
        Returned,
        Recycled, ///< in pieces too
    };
    LampTypeId type;
    QString serial;
    Where where = Where::AtHand;
    LamphouseId lamphouse{};       ///< of Fitted
    QList<VisitId> bookedFor{};    ///< every visit that has it on its list
    PersonId holder{};             ///< whoever has it in the van; empty: it is in none
    std::optional<double> hours{}; ///< h, burnt so far; nothing: not known

    friend bool operator==(const KnownLamp&, const KnownLamp&) = default;
};

/// A picture that was kept for a visit.
struct KnownPicture {
    Hash picture;
    VisitId visit;

    friend bool operator==(const KnownPicture&, const KnownPicture&) = default;
};

/// What is to be booked in.
struct Incoming {
    VisitId visit;
    LamphouseId lamphouse;
    LampTypeId type;
    QString serial;
    std::optional<LabelDate> made;
    std::optional<LabelDate> useBy;
    QList<Hash> pictures;              ///< that stand for this lamp
    std::optional<double> hours{};     ///< h, of the lamp that was to be fitted; nothing: not known
    std::optional<double> replaceBy{}; ///< h, when a lamp of this type is replaced
};

/// What is remembered.
struct Memory {
    QList<KnownLamp> lamps;
    QList<KnownPicture> pictures;
    QList<LampTypeId> taken;       ///< by the projector's model
    QList<LampTypeId> withAdaptor; ///< by it, and only with the adaptor
    bool adaptorInKit = false;     ///< ticked
    bool isUnread = false;         ///< the records could not be read: that nothing is known says nothing
    std::chrono::sys_days today;
};

/// Something about a lamp that memory knows better.
struct Doubt {
    enum class Cause : std::uint8_t {
        TypeNotTaken,      ///< the model does not take this type: nothing goes on
        PastItsLife,       ///< it burnt the hours by which its type is replaced
        SerialOfThisVisit, ///< it stands for the lamp of another swap of this visit, which was matched
                           ///< already
        SerialFitted,      ///< a lamp of this serial is in another seat, or in this one already
        SerialBoxed,       ///< it was taken out before
        SerialReturned,    ///< it went back to the maker or dealer
        SerialRecycled,    ///< it is no more
        SerialOfAnother,   ///< the records have this serial under another type
        BookedElsewhere,   ///< another visit has this lamp on its list
        HoursDiffer,       ///< it burnt other hours than the lamp that was to be fitted
        SerialNear,        ///< no lamp at hand has this serial, but one of this type differs by a slip
        AdaptorMissing,    ///< the type needs it and the kit's tick is not there
        PastUseBy,         ///< the day on the label is over
        MadeLater,         ///< the label says that it was made after today
        PictureUsedBefore, ///< the same picture stood for another visit's lamp: it proves nothing
        RecordsUnread,     ///< memory could not be asked
    };
    Cause cause = Cause::TypeNotTaken;
    LampTypeId type{};                ///< of SerialOfAnother: what the records say
    LamphouseId lamphouse{};          ///< of SerialFitted and SerialOfThisVisit
    QString serial{};                 ///< of SerialOfThisVisit, as it was read here
    VisitId visit{};                  ///< of BookedElsewhere and PictureUsedBefore
    Hash picture{};                   ///< of PictureUsedBefore
    std::optional<SerialNear> near{}; ///< of SerialNear
    double hours = 0;                 ///< h, of PastItsLife and HoursDiffer, with the serial

    friend bool operator==(const Doubt&, const Doubt&) = default;
};

/// "type-not-taken", "serial-fitted", ...: as an entry keeps it.
[[nodiscard]] QString wordOf(Doubt::Cause cause);

/// A doubt as an entry keeps it, so that an answer to it answers no other of its kind: its word and, behind a
/// blank, what it is about, where it is about one of several (the lamphouse, the visit, the picture and its
/// visit, the type, the serial that is near or stands elsewhere).
[[nodiscard]] QString keptAs(const Doubt& doubt);
/// The word of one that is kept. Older entries keep that alone.
[[nodiscard]] QString wordOfKept(const QString& kept);

/// The hours, h, that one of PastItsLife or HoursDiffer which is kept says of this serial.
[[nodiscard]] std::optional<double> hoursOfKept(const QString& kept, const QString& serial);

/// Whether a lamp with this doubt cannot be booked in whatever is said. All others are answered with a reason
/// and become exceptions: nobody is left without a way on over a serial.
[[nodiscard]] constexpr bool stops(Doubt::Cause cause)
{
    return cause == Doubt::Cause::TypeNotTaken;
}

/// Everything that memory says against a lamp, gravest first, in the order of the causes. Serials are
/// compared normalised. A use-by month without a day is over with its last day.
[[nodiscard]] QList<Doubt> doubts(const Incoming& lamp, const Memory& memory);

} // namespace coldarc::label
