#include "ui/visit/words_key_in.h"

#include "core/visit/unit.h"
#include "ui/parts/quantities.h"

#include <QCoreApplication>

namespace coldarc::ui {

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("keyIn", text);
}

} // namespace

QStringList keyInWordsOf(const visit::VisitState& state, const visit::SwapState& swap)
{
    // Where nothing is exchanged, what is in was booked in before.
    const std::optional<LampTypeId> id = swap.followsUp ? state.ground->lamps[swap.newLamp].type
                                                        : visit::agreementOf(state, swap.newLamp).type;
    const catalogue::LampType* type = id ? state.ground->catalogue.lampType(*id) : nullptr;
    const std::optional<double> hours = visit::unitOf(state, swap.newLamp).hours;
    const QLocale locale;
    const QString unknown = words("not known yet");
    if (swap.followsUp)
        return {words("Type: %1").arg(type ? type->code : unknown),
                words("Nothing is changed: read it back")};
    return {
        words("Type: %1").arg(type ? type->code : unknown),
        words("Lamp hours: %1").arg(hours ? hoursText(*hours, locale) : unknown),
        words("Alert at: %1").arg(swap.thresholdHours ? hoursText(*swap.thresholdHours, locale) : unknown)};
}

} // namespace coldarc::ui
