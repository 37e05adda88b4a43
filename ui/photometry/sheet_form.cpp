#include "ui/photometry/sheet_form.h"

#include "core/base/grouped_figure.h"
#include "core/base/typed_hours.h"
#include "core/photometry/light_output.h"
#include "core/photometry/typed.h"
#include "ui/photometry/words_sheet.h"

#include <QCoreApplication>
#include <QDate>

#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;
using namespace photometry;

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("sheet", text);
}

const QString kLit = u"lit"_s;
const QString kMeter = u"meter"_s;
const QString kCalibrated = u"calibrated"_s;
const QString kDue = u"due"_s;
const QString kAcceptance = u"acceptance"_s;
const QString kPosition = u"position"_s;
const QString kDistance = u"distance"_s;
const QString kPicture = u"picture"_s;
const QString kFormat = u"format"_s;
const QString kDark = u"dark"_s;
const QString kWatts = u"watts"_s;
const QString kAmperes = u"amperes"_s;
const QString kWidth = u"width"_s;
const QString kAspect = u"aspect"_s;
const QString kLumens = u"lumens"_s;
const QString kGain = u"gain"_s;
const QString kTransmission = u"transmission"_s;

QString textOf(const std::optional<double>& value)
{
    return value ? plainText(*value) : QString();
}

QString textOf(const std::optional<Day>& day)
{
    return day ? dayText(*day) : QString();
}

struct FieldRow {
    const QString& id;
    const char* label;
    const char* unit;
    const char* hint;
};
const std::array<FieldRow, 17>& rows()
{
    static const std::array<FieldRow, 17> kRows{{
        {kLit, "Lamp lit before the first reading", "min", ""},
        {kMeter, "Meter, as its owner names it", "", ""},
        {kCalibrated, "Calibrated on", "", "2026-03-02"},
        {kDue, "Calibration valid until", "", "a year, if left empty"},
        {kAcceptance, "Acceptance angle", "\u00b0", ""},
        {kPosition, "Where the meter stands", "", ""},
        {kDistance, "Meter to screen", "m", ""},
        {kPicture, "Picture", "", ""},
        {kFormat, "Format, lens and zoom", "", ""},
        {kDark, "Dark screen, dowser shut", "", ""},
        {kWatts, "Lamp power as set", "W", ""},
        {kAmperes, "Lamp current as set", "A", ""},
        {kWidth, "Picture width", "m", ""},
        {kAspect, "Picture, width to height", "", "2.39"},
        {kLumens, "Light that leaves the projector", "lm", ""},
        {kGain, "Gain of the screen", "", "1"},
        {kTransmission, "What port glass and filters leave", "%", "100"},
    }};
    return kRows;
}

} // namespace

std::optional<Day> dayFrom(const QString& text)
{
    for (const QString& format : {u"yyyy-MM-dd"_s, u"yyyy-M-d"_s, u"d.M.yyyy"_s}) {
        const QDate date = QDate::fromString(text.trimmed(), format);
        if (date.isValid())
            return Day(std::chrono::year(date.year()),
                       std::chrono::month(static_cast<unsigned>(date.month())),
                       std::chrono::day(static_cast<unsigned>(date.day())));
    }
    return std::nullopt;
}

QString dayText(Day day)
{
    return QDate(static_cast<int>(day.year()), static_cast<int>(static_cast<unsigned>(day.month())),
                 static_cast<int>(static_cast<unsigned>(day.day())))
        .toString(Qt::ISODate);
}

void SheetForm::fill(const visit::ScreenConditions& said, LuminanceUnit unit)
{
    const Conditions& c = said.conditions;
    const QString minutes =
        c.lit ? plainText(std::chrono::duration<double, std::ratio<60>>(*c.lit).count()) : QString();
    const QString percent = said.transmission ? plainText(100 * *said.transmission) : QString();
    m_texts = {{kLit, minutes},
               {kMeter, c.meter.name},
               {kCalibrated, textOf(c.meter.calibratedOn)},
               {kDue, textOf(c.meter.dueOn)},
               {kAcceptance, textOf(c.meter.acceptanceDegrees)},
               {kPosition, c.position ? wordOf(*c.position) : QString()},
               {kDistance, textOf(c.distanceM)},
               {kPicture, wordOf(c.picture)},
               {kFormat, c.format},
               {kDark, c.darkReading ? plainText(c.darkReading->in(unit)) : QString()},
               {kWatts, textOf(c.lampWatts)},
               {kAmperes, textOf(c.lampAmperes)},
               {kWidth, c.screen ? plainText(c.screen->widthM()) : QString()},
               {kAspect, c.screen ? plainText(c.screen->aspect()) : QString()},
               {kLumens, textOf(said.lumens)},
               {kGain, textOf(said.gain)},
               {kTransmission, percent}};
}

void SheetForm::changeUnit(LuminanceUnit from, LuminanceUnit to)
{
    const auto dark = luminanceFrom(text(kDark), from);
    if (dark)
        set(kDark, plainText(dark->in(to)));
}

void SheetForm::set(const QString& id, const QString& text)
{
    m_texts.insert(id, text);
}

/// Reads field by field and keeps what is wrong with each.
struct SheetForm::Reading {
    explicit Reading(const SheetForm& from)
        : form(from)
    {
    }

    const SheetForm& form;
    visit::ScreenConditions said;
    QMap<QString, QString> faults;

    [[nodiscard]] bool isEmpty(const QString& id) const { return form.text(id).trimmed().isEmpty(); }

    std::optional<double> number(const QString& id, double most)
    {
        if (isEmpty(id))
            return std::nullopt;
        const auto value = numberFrom(form.text(id));
        if (!value) {
            faults.insert(id, words("\u201c%1\u201d is no number.").arg(form.text(id).trimmed()));
            return std::nullopt;
        }
        if (*value <= 0 || *value > most) {
            faults.insert(id, words("It is more than 0 and at most %1.").arg(plainText(most)));
            return std::nullopt;
        }
        return *value;
    }
    /// Of what may go into thousands.
    std::optional<double> large(const QString& id, double most)
    {
        const QString typed = form.text(id).trimmed();
        if (!isGrouped(typed))
            return number(id, most);
        faults.insert(id,
                      words("\u201c%1\u201d is thousands to one reader and thousandths to another: write %2, "
                            "with nothing between the thousands.")
                          .arg(typed, plainHours(typed)));
        return std::nullopt;
    }
    std::optional<Day> day(const QString& id)
    {
        if (isEmpty(id))
            return std::nullopt;
        const auto day = dayFrom(form.text(id));
        if (!day)
            faults.insert(id, words("A day, like 2026-03-02."));
        return day;
    }
};

SheetForm::Reading SheetForm::reading(LuminanceUnit unit) const
{
    Reading read(*this);
    Conditions& c = read.said.conditions;
    const double mostMinutes = std::chrono::duration<double, std::ratio<60>>(kMostLit).count();
    if (const auto minutes = read.large(kLit, mostMinutes))
        c.lit =
            std::chrono::round<std::chrono::seconds>(std::chrono::duration<double, std::ratio<60>>(*minutes));
    else if (numberFrom(text(kLit)) == 0) { // just lit
        c.lit = std::chrono::seconds(0);
        read.faults.remove(kLit);
    }
    c.meter.name = text(kMeter).trimmed();
    c.meter.calibratedOn = read.day(kCalibrated);
    c.meter.dueOn = read.day(kDue);
    if (c.meter.calibratedOn && c.meter.dueOn &&
        std::chrono::sys_days(*c.meter.dueOn) < std::chrono::sys_days(*c.meter.calibratedOn))
        read.faults.insert(kDue, words("That is before it was calibrated."));
    c.meter.acceptanceDegrees = read.number(kAcceptance, kMostAcceptanceDegrees);
    c.position = meterPositionFromWord(text(kPosition));
    c.distanceM = read.number(kDistance, kMostDistanceM);
    c.picture = pictureFromWord(text(kPicture)).value_or(Picture::Digital);
    c.format = text(kFormat).trimmed();
    if (!read.isEmpty(kDark)) {
        const auto dark = luminanceFrom(text(kDark), unit);
        if (dark)
            c.darkReading = *dark;
        else
            read.faults.insert(kDark, faultWords(dark.error(), text(kDark)));
    }
    c.lampWatts = read.large(kWatts, kMostLampWatts);
    c.lampAmperes = read.large(kAmperes, kMostLampAmperes);
    const auto width = read.number(kWidth, ScreenSize::kMostMetres);
    const auto aspect = read.number(kAspect, ScreenSize::kMostMetres);
    if (width && aspect) {
        c.screen = ScreenSize::fromWidthAndAspect(*width, *aspect);
        if (!c.screen)
            read.faults.insert(kAspect, words("No screen has this width and shape."));
    } else if (width && read.isEmpty(kAspect)) {
        read.faults.insert(kAspect, words("With a width the shape is needed too, like 2.39 or 1.85."));
    } else if (aspect && read.isEmpty(kWidth)) {
        read.faults.insert(kWidth, words("With a shape the width is needed too."));
    }
    read.said.lumens = read.large(kLumens, kMostLumens);
    read.said.gain = read.number(kGain, kMostGain);
    if (const auto percent = read.number(kTransmission, 100 * kMostTransmission))
        read.said.transmission = *percent / 100;
    return read;
}

visit::ScreenConditions SheetForm::soFar(LuminanceUnit unit) const
{
    return reading(unit).said;
}

QMap<QString, QString> SheetForm::faults(LuminanceUnit unit) const
{
    return reading(unit).faults;
}

QList<SheetField> SheetForm::fields(LuminanceUnit unit, const QString& litHint) const
{
    const QMap<QString, QString> wrong = faults(unit);
    QList<SheetField> fields;
    for (const FieldRow& row : rows()) {
        SheetField one;
        one.id = row.id;
        one.field.label = words(row.label);
        one.field.value = text(row.id);
        one.field.unit = row.id == kDark ? nameOf(unit) : QString::fromUtf8(row.unit);
        one.field.hint = row.id == kLit ? litHint : QString::fromUtf8(row.hint);
        one.field.error = wrong.value(row.id);
        one.isWide = row.id == kPosition || row.id == kFormat;
        if (row.id == kPosition) {
            for (const MeterPosition position :
                 {MeterPosition::MiddleRow, MeterPosition::ReferenceView, MeterPosition::MainSeating,
                  MeterPosition::Laboratory, MeterPosition::Elsewhere})
                one.options.append({wordOf(position), nameOf(position)});
        }
        if (row.id == kPicture) {
            for (const Picture picture : {Picture::Digital, Picture::Film, Picture::Stereo})
                one.options.append({wordOf(picture), nameOf(picture)});
        }
        fields.append(one);
    }
    return fields;
}

} // namespace coldarc::ui
