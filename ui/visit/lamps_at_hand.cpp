#include "ui/visit/lamps_at_hand.h"

#include "core/visit/lamp_doubts.h"
#include "ui/visit/view_of_machine.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr std::array<const char16_t*, 3> kLampKeys{u"F6", u"F7", u"F8"};

QString words(const char* text)
{
    return QCoreApplication::translate("book-in", text);
}

} // namespace

// In the order of their texts: the one that is expected must not be the easier press.
void LampsAtHand::gather(const visit::VisitState& state, int swap, const QList<label::KnownLamp>& known)
{
    m_lamps.clear();
    m_more = 0;
    const auto planned = state.ground->lamps[state.swaps[swap].newLamp].type;
    const auto offer = [&](const LampTypeId& id, const QString& serial) {
        const catalogue::LampType* type = state.ground->catalogue.lampType(id);
        Lamp lamp{type ? type->code : QString(), serial};
        if (!type || id != planned || serial.isEmpty() || m_lamps.contains(lamp))
            return;
        if (m_lamps.size() < qsizetype(kLampKeys.size())) {
            const label::Reading entry{label::Source::Entry, label::Means::Chosen, lamp.code, lamp.serial};
            const auto doubts = visit::doubtsWithinVisit(state, state.swaps[swap], {entry});
            if (!doubts.isEmpty())
                lamp.standsFor = placeOf(state, state.ground->lamphouse(doubts.first().lamphouse));
            m_lamps.append(lamp);
        } else
            ++m_more;
    };
    for (const visit::SwapState& one : state.swaps) {
        const visit::LampFacts& lamp = state.ground->lamps[one.newLamp];
        if (state.machine.lamp[one.newLamp].place != machine::Place::SealedBox)
            continue; // it is in a seat, or on its way there
        offer(lamp.type.value_or(LampTypeId()), lamp.serial);
    }
    for (const label::KnownLamp& lamp : known) {
        // What is in the store, on order or in somebody else's van cannot be in front of whoever chooses.
        const machine::Index holder = lamp.holder.isEmpty() ? machine::kNone : state.person(lamp.holder);
        const bool isInVan = holder != machine::kNone && state.isHere(holder);
        if (lamp.where == label::KnownLamp::Where::AtHand && isInVan && lamp.bookedFor.isEmpty())
            offer(lamp.type, lamp.serial);
    }
    std::ranges::sort(m_lamps);
}

std::optional<LampsAtHand::Lamp> LampsAtHand::lamp(const QString& id) const
{
    const qsizetype index = id.toInt();
    return index < 0 || index >= m_lamps.size() ? std::nullopt : std::optional(m_lamps.at(index));
}

QList<PersonAct> LampsAtHand::presses(const label::Reading& entry) const
{
    QList<PersonAct> acts;
    for (qsizetype i = 0; i < m_lamps.size(); ++i) {
        const Lamp& lamp = m_lamps.at(i);
        const bool isChosen = entry.means == label::Means::Chosen && Lamp{entry.type, entry.serial} == lamp;
        acts.append({QString::number(i), lamp.code,
                     lamp.standsFor.isEmpty() ? lamp.serial
                                              : words("%1: read for %2").arg(lamp.serial, lamp.standsFor),
                     QString::fromUtf16(kLampKeys.at(static_cast<std::size_t>(i))),
                     isChosen ? PersonAct::Stand::Given : PersonAct::Stand::Open});
    }
    return acts;
}

QString LampsAtHand::says() const
{
    if (m_lamps.isEmpty())
        return {};
    const QString known =
        words("The entry, chosen from what van and visit are known to hold; no scan says this");
    return m_more == 0 ? words("%1:").arg(known)
                       : words("%1 (%2 more have to be typed):").arg(known).arg(m_more);
}

} // namespace coldarc::ui
