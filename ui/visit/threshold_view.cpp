#include "ui/visit/threshold_view.h"

#include "ui/parts/quantities.h"

#include <QCoreApplication>
#include <QDateTime>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("threshold", text);
}

lamps::Usage usageOf(const ThresholdBasis& basis, double weeklyHours)
{
    return lamps::declaredUsage(weeklyHours, basis.spread, basis.uncertainty);
}

struct Calendar {
    WallTime now;
    QTimeZone zone;

    [[nodiscard]] QString day(double weeks) const
    {
        const auto moment = now + std::chrono::duration_cast<std::chrono::milliseconds>(
                                      std::chrono::duration<double, std::ratio<604800>>(weeks));
        return QLocale().toString(QDateTime::fromMSecsSinceEpoch(msOf(moment), zone).date(), u"d MMM yyyy"_s);
    }
};

/// When this many more hours will be burnt; places are weeks until they are scaled.
std::optional<DateMark> markAt(const QString& name, const lamps::Usage& usage, double hoursLeft, double level,
                               const Calendar& calendar)
{
    const auto reached = lamps::reaching(usage, hoursLeft, level);
    if (!reached)
        return std::nullopt;
    DateMark mark;
    mark.name = name;
    mark.at = reached->median;
    mark.from = reached->earliest;
    mark.to = reached->latest.value_or(reached->median);
    mark.when = calendar.day(reached->median);
    mark.interval =
        reached->latest
            ? words("between %1 and %2").arg(calendar.day(reached->earliest), calendar.day(*reached->latest))
            : words("not before %1").arg(calendar.day(reached->earliest));
    return mark;
}

void scale(QList<DateMark>& line)
{
    double longest = 0;
    for (const DateMark& mark : line)
        longest = std::max({longest, mark.at, mark.to});
    for (DateMark& mark : line) {
        mark.at = longest > 0 ? mark.at / longest : 0;
        mark.from = longest > 0 ? mark.from / longest : 0;
        mark.to = longest > 0 ? mark.to / longest : 0;
    }
}

QStringList howWords(const ThresholdBasis& basis, double weeklyHours, double warrantyHours,
                     const std::variant<lamps::AlertThreshold, lamps::NoThreshold>& found)
{
    const QLocale locale;
    const auto number = [&](double value) { return locale.toString(value, 'g', 3); };
    const QString rests =
        words("It rests on %1 h a week as the site says; in weeks, between two looks at the counter %2, to "
              "order "
              "and come %3. It holds %4 times in 100.")
            .arg(number(weeklyHours), number(basis.exposure.lookGapWeeks), number(basis.exposure.leadWeeks),
                 locale.toString(basis.level * 100, 'f', 0));
    if (const auto* threshold = std::get_if<lamps::AlertThreshold>(&found))
        return {words("Warranty %1, less up to %2 burnt between the alert and the exchange, rounded down.")
                    .arg(hoursText(warrantyHours, locale), hoursText(threshold->usedUntilReplaced, locale)),
                rests};
    return {words("No alert keeps the warranty hours: looks or visits have to come closer together."), rests};
}

} // namespace

std::optional<double> suggestedThreshold(const ThresholdBasis& basis, double weeklyHours,
                                         double warrantyHours)
{
    if (weeklyHours <= 0 || warrantyHours <= 0)
        return std::nullopt;
    const auto found =
        lamps::alertThreshold(usageOf(basis, weeklyHours), basis.exposure, {warrantyHours, basis.level});
    const auto* threshold = std::get_if<lamps::AlertThreshold>(&found);
    return threshold ? std::optional(threshold->hours) : std::nullopt;
}

ThresholdView thresholdViewOf(const ThresholdBasis& basis, double weeklyHours, double warrantyHours,
                              std::optional<double> threshold, double hoursNow, WallTime now,
                              const QTimeZone& zone)
{
    ThresholdView view;
    if (weeklyHours <= 0 || warrantyHours <= 0) {
        view.how = {words("How many hours a week this screen runs is not known, so nothing is suggested.")};
        return view;
    }
    const lamps::Usage usage = usageOf(basis, weeklyHours);
    const auto found = lamps::alertThreshold(usage, basis.exposure, {warrantyHours, basis.level});
    view.how = howWords(basis, weeklyHours, warrantyHours, found);
    if (const auto suggested = suggestedThreshold(basis, weeklyHours, warrantyHours))
        view.suggested = hoursText(*suggested, QLocale());

    const Calendar calendar{now, zone};
    view.line.append({words("today"), calendar.day(0), QString(), 0, 0, 0});
    const auto add = [&](const QString& name, double hours) {
        if (const auto mark = markAt(name, usage, std::max(0.0, hours - hoursNow), basis.level, calendar))
            view.line.append(*mark);
    };
    if (basis.exposure.visitGapWeeks > 0)
        view.line.append({words("next visit"), calendar.day(basis.exposure.visitGapWeeks), QString(),
                          basis.exposure.visitGapWeeks, basis.exposure.visitGapWeeks,
                          basis.exposure.visitGapWeeks});
    if (threshold)
        add(words("alert"), *threshold);
    add(words("warranty end"), warrantyHours);
    scale(view.line);
    return view;
}

} // namespace coldarc::ui
