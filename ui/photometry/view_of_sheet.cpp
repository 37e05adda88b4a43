#include "ui/photometry/view_of_sheet.h"

#include "ui/photometry/sheet_form.h"
#include "ui/photometry/words_sheet.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;
using namespace photometry;

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("sheet", text);
}

bool isJudged(Outcome outcome)
{
    return outcome == Outcome::Within || outcome == Outcome::Below || outcome == Outcome::Above;
}

/// How bad an outcome is at a point that several limits touch: the worst one is drawn.
int weightOf(Outcome outcome)
{
    switch (outcome) {
    case Outcome::Below:
    case Outcome::Above:
        return 5;
    case Outcome::Withheld:
        return 4;
    case Outcome::NotMeasured:
        return 1;
    case Outcome::Within:
        return 3;
    case Outcome::NotSpecified:
    case Outcome::Unset:
        return 2;
    }
    Q_UNREACHABLE();
}

bool isOfLight(Quantity quantity)
{
    return quantity == Quantity::CentreLuminance || quantity == Quantity::SideShare ||
           quantity == Quantity::CornerShare;
}

/// The verdict on the light of a point that weighs most; nullptr: none.
const Verdict* verdictAt(const std::optional<SheetVerdict>& sheet, Place place)
{
    const Verdict* worst = nullptr;
    if (!sheet)
        return worst;
    for (const Verdict& verdict : sheet->verdicts) {
        if (verdict.place != place || !isOfLight(verdict.quantity))
            continue;
        if (!worst || weightOf(verdict.outcome) > weightOf(worst->outcome))
            worst = &verdict;
    }
    return worst;
}

/// How the limit is known, and what else is marked on the verdict. Marks that only repeat how the limit is
/// known are left out.
QString noteOf(const Verdict& verdict)
{
    QStringList parts;
    if (verdict.limit.least || verdict.limit.most)
        parts.append(wordsOf(verdict.limit.standing));
    for (const Mark mark : verdict.marks) {
        if (mark == Mark::FormulaFromMemory || mark == Mark::LaboratoryLimit)
            parts.append(wordsOf(mark));
    }
    return parts.join(u", "_s);
}

QString capitalised(QString text)
{
    if (!text.isEmpty())
        text[0] = text[0].toUpper();
    return text;
}

XyView::Box spanOf(const XyView& view)
{
    XyView::Box span = *view.box;
    const double margin = (span.xMost - span.xLeast) * 0.45; // room round the box, in its own measure
    for (const XyPoint& point : view.points) {
        span.xLeast = std::min(span.xLeast, point.x);
        span.xMost = std::max(span.xMost, point.x);
        span.yLeast = std::min(span.yLeast, point.y);
        span.yMost = std::max(span.yMost, point.y);
    }
    return {span.xLeast - margin, span.xMost + margin, span.yLeast - margin, span.yMost + margin};
}

std::optional<XyView::Box> boxOf(const std::optional<ToleranceSet>& set)
{
    const Limit* x = set ? set->limitOn(Quantity::WhiteX) : nullptr;
    const Limit* y = set ? set->limitOn(Quantity::WhiteY) : nullptr;
    if (!x || !y || !x->least || !x->most || !y->least || !y->most)
        return std::nullopt;
    return XyView::Box{*x->least, *x->most, *y->least, *y->most};
}

QString whiteWords(const visit::SheetOfSwap& sheet, const Chromaticity& white)
{
    QString text = words("Centre: x %1, y %2")
                       .arg(valueText(Quantity::WhiteX, white.x()), valueText(Quantity::WhiteY, white.y()));
    for (const Verdict& verdict : sheet.verdict ? sheet.verdict->verdicts : std::vector<Verdict>()) {
        if (verdict.quantity == Quantity::WhiteX)
            text += words("; x %1").arg(wordsOf(verdict.outcome));
        if (verdict.quantity == Quantity::WhiteY)
            text += words(", y %1").arg(wordsOf(verdict.outcome));
    }
    return text;
}

} // namespace

SheetSign signOf(Outcome outcome)
{
    switch (outcome) {
    case Outcome::Within:
        return SheetSign::Within;
    case Outcome::Below:
        return SheetSign::Low;
    case Outcome::Above:
        return SheetSign::High;
    case Outcome::NotSpecified:
    case Outcome::Unset:
        return SheetSign::NoLimit;
    case Outcome::NotMeasured:
        return SheetSign::Open;
    case Outcome::Withheld:
        return SheetSign::HeldBack;
    }
    Q_UNREACHABLE();
}

SheetSign signOf(Whole whole)
{
    switch (whole) {
    case Whole::Within:
        return SheetSign::Within;
    case Whole::Outside:
        return SheetSign::Outside;
    case Whole::Open:
        return SheetSign::Open;
    }
    Q_UNREACHABLE();
}

QList<SheetPointView> pointViewsOf(const visit::SheetOfSwap& sheet, LuminanceUnit unit, Place inHand)
{
    const auto& screen = sheet.sheet.conditions().screen;
    QList<SheetPointView> views;
    for (const Place place : placesOf(sheet.sheet.convention())) {
        const Position at =
            Point::at(sheet.sheet.convention(), place)->position(screen ? screen->aspect() : kUsualAspect);
        SheetPointView view;
        view.id = wordOf(place);
        view.name = nameOf(place);
        view.across = at.across;
        view.down = at.down;
        view.isInHand = place == inHand;
        view.isNeeded = sheet.set && std::ranges::find(sheet.set->needs, place) != sheet.set->needs.end();
        if (const auto& reading = sheet.sheet.at(place)) {
            view.value = luminanceText(reading->luminance, unit);
            view.sign = SheetSign::NoLimit;
            if (const auto share = sheet.sheet.shareOfCentre(place); share && place != Place::Centre)
                view.share = shareOfCentreText(*share);
        }
        if (const Verdict* verdict = verdictAt(sheet.verdict, place); verdict && !view.value.isEmpty()) {
            view.sign = signOf(verdict->outcome);
            view.words = wordsOf(verdict->outcome);
        }
        views.append(view);
    }
    return views;
}

QList<VerdictLine> verdictLinesOf(const SheetVerdict& sheet)
{
    QList<VerdictLine> lines;
    for (const Verdict& verdict : sheet.verdicts) {
        VerdictLine line;
        line.what = nameOf(verdict.quantity);
        if (verdict.place && *verdict.place != Place::Centre)
            line.what = u"%1, %2"_s.arg(line.what, nameOf(*verdict.place));
        if (verdict.value)
            line.value = valueText(verdict.quantity, *verdict.value);
        line.limit = limitText(verdict.limit);
        line.words = wordsOf(verdict.outcome);
        line.note = noteOf(verdict);
        line.sign = signOf(verdict.outcome);
        lines.append(line);
    }
    return lines;
}

QStringList notesOf(const SheetVerdict& sheet)
{
    QStringList notes;
    for (const Verdict& verdict : sheet.verdicts) {
        if (verdict.outcome != Outcome::Withheld)
            continue;
        for (const Obstacle obstacle : verdict.obstacles)
            notes.append(wordsOf(obstacle));
    }
    notes.removeDuplicates();
    QStringList marks;
    for (const Mark mark : sheet.marks)
        marks.append(wordsOf(mark));
    if (!marks.isEmpty())
        notes.append(words("Marked: %1.").arg(marks.join(u"; "_s)));
    return notes;
}

QString claimOf(const SheetVerdict& sheet)
{
    const auto judged = [&](const Verdict& one) { return isJudged(one.outcome); };
    const auto claims = [&](const Verdict& one) { return !judged(one) || isConformityClaim(sheet, one); };
    if (std::ranges::none_of(sheet.verdicts, judged))
        return {};
    return std::ranges::all_of(sheet.verdicts, claims) ? QString() : words("not a conformity claim");
}

XyView xyViewOf(const visit::SheetOfSwap& sheet)
{
    XyView view;
    view.box = boxOf(sheet.set);
    for (const Place place : placesOf(sheet.sheet.convention())) {
        const auto& reading = sheet.sheet.at(place);
        if (reading && reading->colour)
            view.points.append(
                {nameOf(place), reading->colour->x(), reading->colour->y(), place == Place::Centre});
    }
    const auto& centre = sheet.sheet.at(Place::Centre);
    if (!view.box)
        view.words = words("These limits have no box for the white.");
    else if (centre && centre->colour)
        view.words = whiteWords(sheet, *centre->colour);
    else
        view.words = words("The white of the centre has no reading yet.");
    if (view.box)
        view.shown = spanOf(view);
    return view;
}

QString conditionsLine(const Conditions& conditions)
{
    QString lit = words("lit: not said");
    if (conditions.lit) {
        const auto minutes = std::chrono::floor<std::chrono::minutes>(*conditions.lit).count();
        lit = warmUpOf(conditions) == WarmUp::Enough ? words("lit %1 min").arg(minutes)
                                                     : words("lit only %1 min").arg(minutes);
    }
    QString meter;
    switch (calibrationOf(conditions)) {
    case Calibration::Valid:
        meter = words("meter calibrated");
        break;
    case Calibration::Over:
        meter = words("meter's calibration is over");
        break;
    case Calibration::Later:
        meter = words("meter calibrated later");
        break;
    case Calibration::Unknown:
        meter = words("meter's calibration: not said");
        break;
    }
    return lit + u"\u2002·\u2002"_s + meter;
}

QString conditionsText(const Conditions& c)
{
    QStringList parts;
    const auto add = [&](const QString& text) {
        if (!text.isEmpty())
            parts.append(text);
    };
    if (c.lit)
        add(words("lit %1 min").arg(std::chrono::floor<std::chrono::minutes>(*c.lit).count()));
    if (!c.meter.name.isEmpty())
        add(words("meter %1").arg(c.meter.name));
    if (c.meter.calibratedOn)
        add(words("calibrated %1").arg(dayText(*c.meter.calibratedOn)));
    if (c.meter.dueOn)
        add(words("valid until %1").arg(dayText(*c.meter.dueOn)));
    if (c.meter.acceptanceDegrees)
        add(words("acceptance %1\u00b0").arg(plainText(*c.meter.acceptanceDegrees)));
    if (c.position)
        add(nameOf(*c.position));
    if (c.distanceM)
        add(words("%1 m away").arg(plainText(*c.distanceM)));
    if (c.screen)
        add(words("picture %1 m wide, %2:1")
                .arg(plainText(c.screen->widthM()), plainText(c.screen->aspect())));
    add(nameOf(c.picture));
    add(c.format);
    if (c.darkReading)
        add(words("dark screen %1").arg(valueText(Quantity::DarkLuminance, c.darkReading->cdPerM2())));
    if (c.lampWatts)
        add(words("lamp %1 W").arg(plainText(*c.lampWatts)));
    if (c.lampAmperes)
        add(words("lamp %1 A").arg(plainText(*c.lampAmperes)));
    return parts.join(u"; "_s);
}

QString lightText(const visit::ScreenConditions& said)
{
    QStringList parts;
    if (said.lumens)
        parts.append(words("%1 lm leave the projector").arg(plainText(*said.lumens)));
    if (said.gain)
        parts.append(words("gain of the screen %1").arg(plainText(*said.gain)));
    if (said.transmission)
        parts.append(words("glass and filters leave %1").arg(shareOfCentreText(*said.transmission)));
    return parts.join(u"; "_s);
}

QString ownLimitsText(const ToleranceSet& set)
{
    QStringList parts;
    for (const Limit& limit : set.limits) {
        if (limit.standing == Standing::Own && (limit.least || limit.most))
            parts.append(u"%1: %2"_s.arg(nameOf(limit.quantity), limitText(limit)));
    }
    return parts.join(u"; "_s);
}

QList<QStringList> sheetRows(const visit::SheetOfSwap& sheet)
{
    QList<QStringList> rows;
    if (sheet.isEmpty())
        return rows;
    for (const visit::SheetPoint& point : sheet.points) {
        const auto& colour = point.read.colour;
        rows.append(
            {capitalised(nameOf(point.read.place)),
             u"%1\u00a0%2"_s.arg(plainText(point.read.value), nameOf(point.unit)),
             colour ? words("x %1, y %2").arg(plainText(colour->x()), plainText(colour->y())) : QString()});
    }
    for (const VerdictLine& line : sheet.verdict ? verdictLinesOf(*sheet.verdict) : QList<VerdictLine>())
        rows.append(
            {line.what, line.value,
             line.limit.isEmpty() ? line.words : u"%1 (%2, %3)"_s.arg(line.words, line.limit, line.note)});
    if (sheet.verdict)
        rows.append(
            {wholeWords(*sheet.verdict), claimOf(*sheet.verdict), notesOf(*sheet.verdict).join(u' ')});
    if (sheet.set)
        rows.append({words("Held against"), sheet.set->name,
                     words("%1, edition %2").arg(sheet.set->source, sheet.set->edition)});
    rows.append({words("Conditions"), conditionsText(sheet.sheet.conditions()),
                 sheet.said ? lightText(*sheet.said) : QString()});
    if (const QString current = currentText(sheet); !current.isEmpty())
        rows.append({words("Lamp current"),
                     u"%1\u00a0A"_s.arg(plainText(*sheet.sheet.conditions().lampAmperes)), current});
    return rows;
}

QStringList changeLinesOf(const Comparison& comparison, LuminanceUnit unit)
{
    QStringList lines;
    for (const Change& change : comparison.changes)
        lines.append(words("%1: %2 \u2192 %3, %4 times")
                         .arg(capitalised(nameOf(change.place)), luminanceText(change.before, unit),
                              withUnit(change.after, unit), QLocale().toString(change.factor, 'f', 2)));
    return lines;
}

QString comparisonWords(const std::optional<Comparison>& comparison)
{
    if (!comparison)
        return words("There is a sheet from only one side of the swap: nothing to compare.");
    if (comparison->unlike.empty())
        return words("Like with like: the old lamp on arrival, and the new one.");
    QStringList reasons;
    for (const Unlike unlike : comparison->unlike)
        reasons.append(wordsOf(unlike));
    return words("Not comparable: %1.").arg(reasons.join(u"; "_s));
}

QString sheetSummary(const visit::SheetOfSwap& sheet)
{
    if (sheet.isEmpty())
        return {};
    QStringList parts;
    if (const auto& centre = sheet.sheet.at(Place::Centre))
        parts.append(words("centre %1").arg(withUnit(centre->luminance, centre->shownIn)));
    else
        parts.append(words("centre not read"));
    if (sheet.verdict && sheet.set) {
        parts.append(words("%1, %2 (%3)")
                         .arg(wholeWords(*sheet.verdict).toLower(), sheet.set->name, sheet.set->edition));
        if (const QString claim = claimOf(*sheet.verdict); !claim.isEmpty())
            parts.append(claim);
    }
    if (const QString current = currentText(sheet); !current.isEmpty())
        parts.append(words("lamp current %1").arg(current));
    return parts.join(u"; "_s);
}

QString currentText(const visit::SheetOfSwap& sheet)
{
    if (!sheet.isCurrentOutside())
        return {};
    return words("outside the %1 to %2 A of this lamp type")
        .arg(plainText(sheet.current->least), plainText(sheet.current->most));
}

} // namespace coldarc::ui
