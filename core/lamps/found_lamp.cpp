#include "core/lamps/found_lamp.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::lamps {
namespace {

Result<std::optional<LampInCustody>> knownAs(const LampStore& lamps, const LampTypeId& type,
                                             const QString& serial)
{
    const auto id = lamps.ofTypeWithSerial(type, serial);
    if (!id)
        return tl::unexpected(id.error());
    if (!*id)
        return std::nullopt;
    auto lamp = lamps.lamp(**id);
    if (!lamp)
        return tl::unexpected(lamp.error());
    return std::move(*lamp);
}

Result<std::optional<Fit>> stayIn(const LampStore& lamps, const LamphouseId& lamphouse)
{
    const auto fits = lamps.fitsIn(lamphouse);
    if (!fits)
        return tl::unexpected(fits.error());
    const auto running = std::ranges::find_if(*fits, [](const Fit& fit) { return !fit.end; });
    return running == fits->end() ? std::nullopt : std::optional(*running);
}

Result<void> done(const Result<MoveAnswer>& answer)
{
    if (!answer)
        return tl::unexpected(answer.error());
    if (std::holds_alternative<MoveNotAllowed>(*answer))
        return fail(Error::Kind::Conflict, u"the lamp cannot have come there"_s);
    return {};
}

Result<void> fitKnown(LampStore& lamps, IdSource& ids, const LampInCustody& known, const Fit& fit)
{
    if (!canMove(known.custody, Custody::Fitted)) { // one that was on order came, then
        const CustodyMove came{MoveId(ids.next()), known.lamp.id, Custody::InStock, {}, {}, fit.from};
        if (auto moved = done(lamps.move(came)); !moved)
            return moved;
    }
    return done(lamps.beginFit(fit, MoveId(ids.next())));
}

} // namespace

std::optional<FoundFault> faultOfFound(const LampStore& lamps, const LamphouseId& lamphouse,
                                       const LampTypeId& type, const QString& serial, const InHand& inHand)
{
    const auto known = knownAs(lamps, type, serial);
    const auto running = stayIn(lamps, lamphouse);
    if (!known || !*known || (running && *running && (*running)->lamp == (*known)->lamp.id))
        return std::nullopt;
    if (inHand.has((*known)->lamp.id))
        return FoundFault::InHand;
    switch ((*known)->custody) {
    case Custody::Fitted:
        return FoundFault::InAnotherLamphouse;
    case Custody::Returned:
    case Custody::Recycled:
    case Custody::Burst:
        return FoundFault::Gone;
    default:
        return std::nullopt;
    }
}

Result<void> sayUnknown(LampStore& lamps, IdSource& ids, const Look& look, const InHand& inHand)
{
    if (inHand.has(look.lamphouse))
        return fail(Error::Kind::Conflict, u"an unfinished visit has the lamphouse in hand"_s);
    const auto running = stayIn(lamps, look.lamphouse);
    if (!running)
        return tl::unexpected(running.error());
    if (!*running)
        return {};
    Removal removal;
    removal.fit = (*running)->id;
    removal.to = look.at;
    removal.against = Removal::Against::Nothing;
    const auto ended =
        lamps.endFit(removal, {MoveId(ids.next()), (*running)->lamp, Custody::Boxed, {}, look.site, look.at});
    if (!ended)
        return tl::unexpected(ended.error());
    if (!std::holds_alternative<Removed>(*ended))
        return fail(Error::Kind::Conflict, u"a stay that cannot end"_s);
    return {};
}

Result<LampId> sayFound(LampStore& lamps, IdSource& ids, const Look& look, const Lamp& lamp,
                        const std::optional<CounterHours>& counter, const InHand& inHand)
{
    if (inHand.has(look.lamphouse) || faultOfFound(lamps, look.lamphouse, lamp.type, lamp.serial, inHand))
        return fail(Error::Kind::Conflict, u"the lamp cannot be in there"_s);
    const auto known = knownAs(lamps, lamp.type, lamp.serial);
    if (!known)
        return tl::unexpected(known.error());
    const auto running = stayIn(lamps, look.lamphouse);
    if (!running)
        return tl::unexpected(running.error());
    const LampId id = *known ? (*known)->lamp.id : lamp.id;
    if (*running && (*running)->lamp == id)
        return id;
    if (auto ended = sayUnknown(lamps, ids, look, inHand); !ended)
        return tl::unexpected(ended.error());
    const Fit fit{FitId(ids.next()), id, look.lamphouse, counter, look.at, std::nullopt};
    const Result<void> begun =
        *known ? fitKnown(lamps, ids, **known, fit) : lamps.addFitted(lamp, fit, MoveId(ids.next()));
    if (!begun)
        return tl::unexpected(begun.error());
    return id;
}

} // namespace coldarc::lamps
