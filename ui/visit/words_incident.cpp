#include "ui/visit/words_incident.h"

#include <QCoreApplication>

#include <array>
#include <vector>

namespace coldarc::ui {

namespace {

using I = visit::Incident;

struct Row {
    I incident;
    const char* name;
    std::vector<const char*> now;
    IncidentAsks asks;
};

const std::array<Row, visit::kIncidents>& rows()
{
    // In the order of the enumeration; the tests hold it to that.
    static const std::array<Row, visit::kIncidents> kRows{{
        {I::ItStarted,
         "It started",
         {"Stand back. Nobody touches it.", "Put the lamp out, leave the fan running.",
          "The wrong breaker was off: Cold begins anew, locks come off, and the right one is found.",
          "Charge, start and voltage are proved again afterwards, for every lamphouse on these breakers."},
         {.lamphouse = true}},
        {I::VoltageFound,
         "Voltage was found",
         {"Step away. Treat everything as live.",
          "Shut what stands open, geared, lamp first into its box or seat.",
          "The breaker that is off is not the only one: find the other, isolate, lock and prove anew."},
         {.lamphouse = true}},
        {I::FanOrPower,
         "Fan stopped or power failed",
         {"A lamp that burns is put out now. Otherwise touch nothing, open nothing.",
          "Do not blow on the lamp.",
          "A lamp that is out waits the longer time without the fan from now, unless all its breakers are "
          "off.",
          "When power comes back by itself, say so here again."},
         {.place = true}},
        {I::Burst,
         "A lamp burst",
         {"Stand still, eyes shut, then step back. Shields stay down.",
          "Look after people first: bleeding, eyes. Call for help.",
          "Power stays off, locks stay on. Cold begins anew: the pieces are hot.",
          "Air the booth; leave if eyes or throat smart.",
          "Later, in gear: brush and tongs, wipe damp, never sweep dry, shut container.",
          "No new lamp goes in before the lamphouse is inspected."},
         {.lamp = true}},
        {I::LeftExposed,
         "It stands open, left by somebody",
         {"Keep away; nobody passes in front of it.",
          "Isolate and lock as far as it can be done from outside.",
          "Go in geared only to shut it: lamp clamped or boxed, guard, housing.",
          "Nothing else is done here until it is shut."},
         {.lamphouse = true}},
        {I::FastenerSeized,
         "A fastener is seized",
         {"Stop. No force through the quartz, no heat, no blows.", "Take a picture of it.",
          "Shut guard and housing again, leave it locked, and ask for the model's own way to free it."},
         {}},
        {I::WillNotLight,
         "It will not light",
         {"The housing stays shut. A lamp that was struck counts as hot.",
          "Hold the model's pause before the next try; tries are counted.",
          "Look at the dowser, the switches of the covers, the supply, the type keyed in.",
          "When the tries are used up, or to look inside: the whole way again, from Cold."},
         {}},
        {I::WrongLamp,
         "It is the wrong lamp",
         {"It does not go in. Keep it boxed.", "A lamp past its end does not go back in either.",
          "If there is no right one: seat empty, guard shut, tagged out of use."},
         {.lamp = true}},
        {I::LampUnfit,
         "Lamp dropped or marked, adaptor missing",
         {"The lamp goes into its box, box shut. It is not used again.",
          "A mark that nobody sees can burst it later.", "Without the adaptor its type does not fit."},
         {.lampOrAdaptor = true}},
        {I::GearDamaged,
         "Gear is damaged",
         {"Whoever wears it steps out, as soon as the guard is shut or another one stays.",
          "Put on another item and sign for the whole gear again."},
         {.person = true}},
        {I::CountDiffers,
         "The count differs",
         {"Nothing is switched on.",
          "Look in the tray, the box, the sleeves; then inside, the whole way again.",
          "Write down what was found, or where it can not be."},
         {}},
        {I::PointWillNotLock,
         "A breaker will not take a lock",
         {"It proves nothing: what is not locked is not dead.",
          "Find the next device upstream that takes a lock, or leave it shut and tagged."},
         {.point = true}},
        {I::SomeoneHurt,
         "Someone is hurt",
         {"Help first. Call for help now.", "Leave the machine as it is; no lock comes off, nothing is lit.",
          "Write only when there is nothing left to do for them.",
          "This visit ends here; the tag says who may release the machine."},
         {.person = true}},
        {I::NoTimeLeft,
         "There is no time left",
         {"Waits are not shortened for a show.", "Press MAKE SAFE: it says which end is nearest.",
          "Tell the site now that the show is late or off."},
         {}},
    }};
    return kRows;
}

/// Leave, air, no vacuum cleaner, a tight container: what is told of broken lamps that hold mercury (common
/// practice, no source).
const std::vector<const char*> kBurstWithMercury{
    "Stand still, eyes shut, then step back. Shields stay down.",
    "Look after people first: bleeding, eyes. Call for help.",
    "Power stays off, locks stay on. Cold begins anew: the pieces are hot.",
    "This lamp may hold mercury: everyone out, doors shut behind, air the booth from outside.",
    "No vacuum cleaner, no broom, no bare hand: pieces and beads go into a tight container.",
    "Leave the clean-up to somebody trained and equipped for mercury.",
    "No new lamp goes in before the lamphouse is inspected."};

const Row& rowOf(I incident)
{
    const Row& row = rows()[static_cast<std::size_t>(incident)];
    Q_ASSERT_X(row.incident == incident, "rowOf", "one row for each incident, in their order");
    return row;
}

QString words(const char* text)
{
    return QCoreApplication::translate("incident", text);
}

} // namespace

QString nameOf(visit::Incident incident)
{
    return words(rowOf(incident).name);
}

QStringList nowDo(visit::Incident incident, bool mayHoldMercury)
{
    const bool isMercury = incident == I::Burst && mayHoldMercury;
    QStringList lines;
    for (const char* line : isMercury ? kBurstWithMercury : rowOf(incident).now)
        lines.append(words(line));
    return lines;
}

IncidentAsks asksOf(visit::Incident incident)
{
    return rowOf(incident).asks;
}

} // namespace coldarc::ui
