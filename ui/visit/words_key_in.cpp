#include "ui/visit/words_key_in.h"

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
    const label::Agreement agreement = visit::agreementOf(state, swap.newLamp);
    const catalogue::LampType* type =
        agreement.type ? state.ground->catalogue.lampType(*agreement.type) : nullptr;
    const std::optional<double>& hours = state.ground->lamps[swap.newLamp].hours;
    const QLocale locale;
    const QString unknown = words("not known yet");
    return {
        words("Type: %1").arg(type ? type->code : unknown),
        words("Lamp hours: %1").arg(hours ? hoursText(*hours, locale) : unknown),
        words("Alert at: %1").arg(swap.thresholdHours ? hoursText(*swap.thresholdHours, locale) : unknown)};
}

} // namespace coldarc::ui
