#include "core/label/doubts.h"

#include "core/label/normalise.h"

#include <algorithm>
#include <array>

namespace coldarc::label {

namespace {

using Cause = Doubt::Cause;
using Where = KnownLamp::Where;

std::optional<Cause> causeOf(Where where)
{
    switch (where) {
    case Where::AtHand:
        return std::nullopt;
    case Where::Fitted:
        return Cause::SerialFitted;
    case Where::Boxed:
        return Cause::SerialBoxed;
    case Where::Returned:
        return Cause::SerialReturned;
    case Where::Recycled:
        return Cause::SerialRecycled;
    }
    Q_UNREACHABLE();
}

bool hasSerial(const KnownLamp& known, const QString& serial)
{
    return !normalise(serial).isEmpty() && normalise(known.serial) == normalise(serial);
}

QList<Doubt> ofKnownLamp(const Incoming& lamp, const KnownLamp& known)
{
    QList<Doubt> found;
    if (known.type != lamp.type) {
        found.append({.cause = Cause::SerialOfAnother, .type = known.type});
        return found;
    }
    if (const auto cause = causeOf(known.where))
        found.append({.cause = *cause, .lamphouse = known.lamphouse});
    const bool isUsable = known.where == Where::AtHand || known.where == Where::Boxed;
    if (isUsable && known.hours && lamp.replaceBy && *known.hours >= *lamp.replaceBy)
        found.append({.cause = Cause::PastItsLife, .serial = lamp.serial, .hours = *known.hours});
    else if (isUsable && known.hours && lamp.hours && *known.hours != *lamp.hours)
        found.append({.cause = Cause::HoursDiffer, .serial = lamp.serial, .hours = *known.hours});
    for (const VisitId& visit : known.bookedFor) {
        if (visit != lamp.visit)
            found.append({.cause = Cause::BookedElsewhere, .visit = visit});
    }
    return found;
}

QList<Doubt> ofSerial(const Incoming& lamp, const QList<KnownLamp>& lamps)
{
    QList<Doubt> found;
    QStringList atHand;
    for (const KnownLamp& known : lamps) {
        if (hasSerial(known, lamp.serial))
            found += ofKnownLamp(lamp, known);
        if (known.type == lamp.type && known.where == Where::AtHand)
            atHand.append(known.serial);
    }
    for (const SerialNear& near : nearSerials(lamp.serial, atHand))
        found.append({.cause = Cause::SerialNear, .near = near});
    return found;
}

QList<Doubt> ofDates(const Incoming& lamp, std::chrono::sys_days today)
{
    QList<Doubt> found;
    if (lamp.useBy && lamp.useBy->lastDay() < today)
        found.append({.cause = Cause::PastUseBy});
    if (lamp.made && lamp.made->firstDay() > today)
        found.append({.cause = Cause::MadeLater});
    return found;
}

QList<Doubt> ofPictures(const Incoming& lamp, const QList<KnownPicture>& pictures)
{
    QList<Doubt> found;
    for (const KnownPicture& known : pictures)
        if (known.visit != lamp.visit && lamp.pictures.contains(known.picture))
            found.append({.cause = Cause::PictureUsedBefore, .visit = known.visit, .picture = known.picture});
    return found;
}

} // namespace

QString wordOf(Doubt::Cause cause)
{
    static constexpr std::array<const char16_t*, 16> kWords{
        u"type-not-taken",   u"past-its-life",   u"serial-of-this-visit", u"serial-fitted",
        u"serial-boxed",     u"serial-returned", u"serial-recycled",      u"serial-of-another",
        u"booked-elsewhere", u"hours-differ",    u"serial-near",          u"adaptor-missing",
        u"past-use-by",      u"made-later",      u"picture-used-before",  u"records-unread"};
    static_assert(kWords.size() == static_cast<std::size_t>(Cause::RecordsUnread) + 1);
    return QString::fromUtf16(kWords[static_cast<std::size_t>(cause)]);
}

QString keptAs(const Doubt& doubt)
{
    QStringList parts{wordOf(doubt.cause)};
    switch (doubt.cause) {
    case Cause::SerialOfThisVisit:
        parts << doubt.lamphouse.text() << normalise(doubt.serial);
        break;
    case Cause::PastItsLife:
    case Cause::HoursDiffer:
        parts << normalise(doubt.serial) << QString::number(doubt.hours, 'f', 0);
        break;
    case Cause::SerialFitted:
        parts << doubt.lamphouse.text();
        break;
    case Cause::SerialOfAnother:
        parts << doubt.type.text();
        break;
    case Cause::BookedElsewhere:
        parts << doubt.visit.text();
        break;
    case Cause::SerialNear:
        parts << (doubt.near ? doubt.near->serial : QString());
        break;
    case Cause::PictureUsedBefore:
        parts << doubt.picture.hex() << doubt.visit.text();
        break;
    default:
        break;
    }
    return parts.join(u' ').trimmed();
}

QString wordOfKept(const QString& kept)
{
    return kept.section(u' ', 0, 0);
}

std::optional<double> hoursOfKept(const QString& kept, const QString& serial)
{
    const QStringList parts = kept.split(u' ');
    const bool isOfHours = parts[0] == wordOf(Cause::HoursDiffer) || parts[0] == wordOf(Cause::PastItsLife);
    if (parts.size() != 3 || !isOfHours || parts[1] != normalise(serial))
        return std::nullopt;
    bool isNumber = false;
    const double hours = parts[2].toDouble(&isNumber);
    return isNumber && hours >= 0 ? std::optional(hours) : std::nullopt;
}

QList<Doubt> doubts(const Incoming& lamp, const Memory& memory)
{
    QList<Doubt> found;
    if (!memory.taken.contains(lamp.type))
        found.append({.cause = Cause::TypeNotTaken});
    found += ofSerial(lamp, memory.lamps);
    if (memory.withAdaptor.contains(lamp.type) && !memory.adaptorInKit)
        found.append({.cause = Cause::AdaptorMissing});
    found += ofDates(lamp, memory.today);
    found += ofPictures(lamp, memory.pictures);
    if (memory.isUnread)
        found.append({.cause = Cause::RecordsUnread});
    std::ranges::stable_sort(found, {}, &Doubt::cause);
    return found;
}

} // namespace coldarc::label
