#include "ui/machine/machine_words.h"

#include <QCoreApplication>

#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("machine", text);
}

template<class Enum, size_t N>
QString pick(const std::array<const char*, N>& texts, Enum value)
{
    return words(texts.at(static_cast<size_t>(value)));
}

bool hasLamp(MachineView::Seat seat)
{
    return seat == MachineView::Seat::Entered || seat == MachineView::Seat::Clamped;
}

} // namespace

QString wordOf(MachineView::Power power)
{
    static constexpr std::array<const char*, 3> kPower{"?", QT_TRANSLATE_NOOP("machine", "off"),
                                                       QT_TRANSLATE_NOOP("machine", "LIVE")};
    return pick(kPower, power);
}

QString lockWords(const MachineView::Point& point)
{
    QStringList parts;
    if (point.power == MachineView::Power::Unknown)
        parts.append(words("not known"));
    if (point.locks > 0)
        parts.append(point.locks == 1 ? words("1 lock") : words("%1 locks").arg(point.locks));
    return parts.join(u", "_s);
}

QString wordOf(MachineView::Projector projector)
{
    static constexpr std::array<const char*, 4> kWords{
        QT_TRANSLATE_NOOP("machine", "not known"), QT_TRANSLATE_NOOP("machine", "off"),
        QT_TRANSLATE_NOOP("machine", "standby"), QT_TRANSLATE_NOOP("machine", "on")};
    return pick(kWords, projector);
}

QString fanWords(MachineView::Run fan)
{
    static constexpr std::array<const char*, 3> kWords{QT_TRANSLATE_NOOP("machine", "fan not known"),
                                                       QT_TRANSLATE_NOOP("machine", "fan stopped"),
                                                       QT_TRANSLATE_NOOP("machine", "fan runs")};
    return pick(kWords, fan);
}

QString extractionWords(MachineView::Run extraction)
{
    static constexpr std::array<const char*, 3> kWords{QT_TRANSLATE_NOOP("machine", "extraction not known"),
                                                       QT_TRANSLATE_NOOP("machine", "extraction off"),
                                                       QT_TRANSLATE_NOOP("machine", "extraction on")};
    return pick(kWords, extraction);
}

QString chargeWords(MachineView::Charge charge)
{
    static constexpr std::array<const char*, 3> kWords{
        QT_TRANSLATE_NOOP("machine", "charge held"),
        QT_TRANSLATE_NOOP("machine", "charge waited out, not proved"),
        QT_TRANSLATE_NOOP("machine", "charge let down")};
    return pick(kWords, charge);
}

QString lampWords(const MachineView::Lamphouse& lamphouse)
{
    static constexpr std::array<const char*, 4> kHeat{
        QT_TRANSLATE_NOOP("machine", "heat not known"), QT_TRANSLATE_NOOP("machine", "lamp lit"),
        QT_TRANSLATE_NOOP("machine", "lamp off, still hot"),
        QT_TRANSLATE_NOOP("machine", "lamp cold, still under pressure")};
    static constexpr std::array<const char*, 4> kSeat{
        QT_TRANSLATE_NOOP("machine", "seat not known"), QT_TRANSLATE_NOOP("machine", "seat empty"),
        QT_TRANSLATE_NOOP("machine", "entered, not clamped"), QT_TRANSLATE_NOOP("machine", "clamped")};
    static constexpr std::array<const char*, 4> kAdaptor{
        "", QT_TRANSLATE_NOOP("machine", "adaptor on the lamp"),
        QT_TRANSLATE_NOOP("machine", "adaptor laid by"), QT_TRANSLATE_NOOP("machine", "adaptor lost")};
    QStringList parts;
    if (lamphouse.seat != MachineView::Seat::Empty)
        parts.append(pick(kHeat, lamphouse.heat));
    if (!(lamphouse.heat == MachineView::Heat::Lit && hasLamp(lamphouse.seat)))
        parts.append(pick(kSeat, lamphouse.seat));
    if (lamphouse.adaptor != MachineView::Adaptor::None)
        parts.append(pick(kAdaptor, lamphouse.adaptor));
    return parts.join(u", "_s);
}

QString coverWords(const MachineView::Lamphouse& lamphouse)
{
    using Cover = MachineView::Cover;
    if (lamphouse.heat == MachineView::Heat::Unknown)
        return words("covers not seen yet");
    QStringList parts;
    if (lamphouse.housing)
        parts.append(*lamphouse.housing == Cover::Shut ? words("housing shut") : words("housing open"));
    parts.append(lamphouse.guard == Cover::Shut ? words("guard shut") : words("guard open"));
    parts.append(lamphouse.dowser == Cover::Shut ? words("dowser shut") : words("dowser open"));
    return parts.join(u", "_s);
}

QString zoneWords(const MachineView::Lamphouse& lamphouse)
{
    return lamphouse.people.isEmpty() ? QString()
                                      : words("in the zone: %1").arg(lamphouse.people.join(u", "_s));
}

} // namespace coldarc::ui
