#include "ui/visit/words_effect.h"

#include <QCoreApplication>

#include <array>

namespace coldarc::ui {

namespace {

using E = machine::Effect;

struct Row {
    E effect;
    const char* order;
    const char* reason;
};

// In the order of the enumeration; the tests hold it to that.
constexpr std::array<Row, machine::kEffects> kRows{{
    {E::Look, "Look, and write down what you see", "Nothing is moved by it."},
    {E::Find, "Look at the lamphouse as it stands", "What nobody looked at counts as hot, live and open."},
    {E::CountOpening, "Count tools and fasteners", "What is counted now is counted back before it is lit."},
    {E::Count, "Count tools and fasteners back", "What is missing may lie inside."},
    {E::ExtractionOn, "Start the extraction", "It carries off heat and ozone."},
    {E::GearOff, "Take off your gear", "Outside the zone only."},
    {E::DowserShut, "Shut the dowser", "No light leaves the lamphouse then."},
    {E::DowserOpen, "Open the dowser", "The light goes to the screen."},
    {E::TellBefore, "Tell the people here: power goes off", "Nobody switches it on again then."},
    {E::TellAgain, "Tell the people here: power comes back", "Nobody is surprised by it then."},
    {E::LampOff, "Put out the lamp, let the fan run", "The heat goes with the air; do not cut the power."},
    {E::Standby, "Bring the projector to standby", "Nothing moves or starts by itself then."},
    {E::Isolate, "Switch off the breaker", "Only the device at the board parts the supply."},
    {E::LockOn, "Hang the lock and the tag", "Nobody can switch on what is locked."},
    {E::Relieve, "Let the stored charge run down", "Everything stays shut while it does."},
    {E::TryStart, "Try to start it", "No response shows that the right breaker is off."},
    {E::ProveAbsence, "Prove the absence of voltage", "A meter finds what a start does not."},
    {E::OpenHousing, "Open the housing", "The guard stays shut."},
    {E::GearOn, "Put on your gear, shield last", "A lamp can burst cold."},
    {E::EnterZone, "Step into the zone", "No gear, no lock: outside."},
    {E::ExposeLamp, "Open the guard", "From here on the lamp is bare."},
    {E::WorkInside, "Work inside", "Slow hands."},
    {E::LampOut, "Take out the lamp", "Touch metal, not quartz."},
    {E::Unbox, "Take the lamp from its box", "One bare lamp at a time."},
    {E::AdaptorOff, "Take off the adaptor", "Hold the metal end, never the quartz."},
    {E::AdaptorOn, "Fit the adaptor", "Hold the metal end, never the quartz."},
    {E::LampIn, "Set the lamp in its seat", "Touch metal, not quartz."},
    {E::ClampLamp, "Clamp the lamp that is in the seat", "A loose lamp under a guard is a trap."},
    {E::BoxLamp, "Put the lamp that is in hand into its box", "Shut the box before you turn away."},
    {E::ShutGuard, "Shut the guard", "It holds the pieces if the lamp bursts."},
    {E::LeaveZone, "Step out of the zone", "The guard is shut, nobody stays behind."},
    {E::ShutHousing, "Shut the housing", "Gear stays on until the last screw holds."},
    {E::LockOff, "Take off your own lock", "It comes off by the hand that hung it."},
    {E::JobLockOff, "Take off the job lock", "Whoever hung it takes it off."},
    {E::Restore, "Switch on the breaker", "Everybody clear, everything shut."},
    {E::PowerUp, "Switch the projector on", "Everything is shut and no lock hangs."},
    {E::MatchBox, "Match box and paper of the lamp", "A wrong type ruins the lamp."},
    {E::BookIn, "Book in the lamp", "What is not written down was not fitted."},
    {E::KeyController, "Tell the projector's controller which lamp it has",
     "Its setting chooses the current."},
    {E::Strike, "Strike the lamp", "Housing shut, nobody looks in."},
    {E::Settle, "Wait until the light has settled", "A reading before that misleads."},
    {E::Peak, "Find the peak", "Readings say which way to turn."},
    {E::PeakAgain, "Check the peak again", "The arc has moved while it settled."},
    {E::MeasureScreen, "Measure the screen", "The picture is what was paid for."},
    {E::TagOut, "Hang the tag: out of use", "Your own lock stays; name, date and reason on the tag."},
    {E::Sign, "Sign with the site", "What was done, and what is still owed."},
}};

QString words(const char* text)
{
    return QCoreApplication::translate("effect", text);
}

template<std::size_t count>
QString pick(const std::array<const char*, count>& texts, machine::Wait wait)
{
    return words(texts[static_cast<std::size_t>(wait)]);
}

} // namespace

QString orderOf(machine::Effect effect)
{
    const Row& row = kRows[static_cast<std::size_t>(effect)];
    Q_ASSERT_X(row.effect == effect, "orderOf", "one row for each effect, in their order");
    return words(row.order);
}

QString reasonOf(machine::Effect effect)
{
    return words(kRows[static_cast<std::size_t>(effect)].reason);
}

QString holdWordsOf(machine::Wait wait)
{
    static constexpr std::array<const char*, 5> kWords{
        "Hold for Cold, air running", "Hold for Cold, without the fan", "Let the stored charge run down",
        "Hold the pause after the strike", "Let the light settle"};
    return pick(kWords, wait);
}

QString shortHoldWordsOf(machine::Wait wait)
{
    static constexpr std::array<const char*, 5> kWords{"cooling", "cooling, no fan", "charge runs down",
                                                       "pause", "settling"};
    return pick(kWords, wait);
}

QString endWordsOf(machine::Wait wait)
{
    static constexpr std::array<const char*, 5> kWords{"cold at", "cold at", "run down at", "over at",
                                                       "settled at"};
    return pick(kWords, wait);
}

QString countedWordsOf(machine::Wait wait)
{
    static constexpr std::array<const char*, 5> kWords{
        "Counted while this laptop watches the clock. If the fan stops, say so: the longer wait begins anew.",
        "Nobody saw the fan run through, so the longer wait holds. It cannot be shortened.",
        "Everything stays shut. A fault can keep the charge up: the tester has the last word.",
        "A lamp that was struck counts as hot, lit or not.",
        "Readings before that are kept, and do not count as the peak."};
    return pick(kWords, wait);
}

QString wordsOf(machine::SafeEnd end)
{
    static constexpr std::array<const char*, 3> kWords{"leads to: as it was, old lamp back in use",
                                                       "leads to: as it is, lit, the rest is owed",
                                                       "leads to: out of use, locked and tagged"};
    return words(kWords[static_cast<std::size_t>(end)]);
}

QString safeEndWordsOf(const visit::VisitState& state, const visit::SwapState& swap)
{
    const machine::SafeEnd end =
        machine::safeEnd(state.plant, state.machine, state.plant.lamphouse[swap.lamphouse].group);
    return swap.followsUp && end == machine::SafeEnd::AsItWas
               ? words("leads to: as it was, the lamp stays in use")
               : wordsOf(end);
}

} // namespace coldarc::ui
