#pragma once

#include "core/machine/evolve.h"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace coldarc::test {

/// What is really so, against what the record says: which points are truly live, whether the mains are there,
/// whether the first breaker that will be moved is the wrong one, whether the start control is dead.
struct Truth {
    machine::Mask live = 0;
    bool mains = true;
    bool wrongBreaker = false;
    bool deadControl = false;
    friend bool operator==(const Truth&, const Truth&) = default;
};

struct World {
    machine::State state;
    Truth truth;
    friend bool operator==(const World&, const World&) = default;
};
static_assert(std::has_unique_object_representations_v<World>);

/// Which rare things may happen in one enumeration; each one that may multiplies the states.
struct Rare {
    bool hurt = false;
    bool burst = false;
    bool gearDamaged = false;
    bool unfit = false;
    bool adaptorLost = false;
    bool fan = false;
    bool mains = false;
    bool wrongBreaker = false;
    bool otherBreaker = false; ///< isolate moves another point of ours, or none of ours
    bool willNotLock = false;
    bool passOn = false;
    bool lockRemoved = false;
    bool resumed = false;
    bool wrongLamp = false;
    bool foundOpen = false;
    bool findAgain = false;
    bool failedStrike = false;
    bool countDiffers = false;
    bool pastEnd = false; ///< the lamp found may be past its replace-by hours
    bool paper = false;   ///< box label, book-in and the controller are worked on in the visit, not before it
};

struct Setting {
    std::string name;
    machine::Plant plant;
    std::vector<machine::Index> engineers; ///< who does what nobody in particular has to do
    Rare rare;
};

/// One lamphouse, two points, an engineer and a trainee, the lamp found and one spare, adaptor, dowser,
/// controller.
[[nodiscard]] Setting oneLamphouse();
/// Two lamphouses on one point, either of which may be opened.
enum class Covers {
    Two,
    SingleDoor,
};
enum class Crew {
    OneEngineer,
    TwoEngineers,
};
[[nodiscard]] Setting twoLamphouses(Covers covers, Crew crew);

/// Something that can be done or can happen, with how the world answers.
struct Move {
    enum class Kind {
        Act,
        Event,
        WaitOver,
        MainsBack,
    };
    Kind kind = Kind::Act;
    machine::Act act;
    machine::Event event;
    machine::Wait wait = machine::Wait::Cool;
    machine::Index lamphouse = machine::kNone;
};

/// The worlds in which a visit can begin.
[[nodiscard]] std::vector<World> beginnings(const Setting& setting);
/// Calls `take` for every move that the shipping rules allow here; `forgiven` names demands that this
/// enumeration overlooks, to see what each one is good for.
void forEachMove(const Setting& setting, const World& world, machine::Unmet forgiven,
                 const std::function<void(const Move&)>& take);
[[nodiscard]] World moved(const Setting& setting, const World& world, const Move& move);

/// The name of the first invariant of the safety handbook that this world, reached by this move, breaks;
/// empty if none.
[[nodiscard]] std::string brokenInvariant(const Setting& setting, const World& before, const Move& move,
                                          const World& after);

struct Enumeration {
    std::size_t states = 0;
    std::size_t transitions = 0;
    std::string broken;             ///< first broken invariant
    std::vector<std::string> trace; ///< the shortest way there
    std::vector<std::size_t> effects = std::vector<std::size_t>(machine::kEffects);
    std::vector<std::size_t> happenings = std::vector<std::size_t>(16);
    std::size_t plainSwaps = 0; ///< states in which a plain swap can be signed
    std::vector<World> worlds;  ///< every one, in the order found
};

/// Breadth first from every beginning, until done, broken or `most` states.
[[nodiscard]] Enumeration enumerate(const Setting& setting, machine::Unmet forgiven = {},
                                    std::size_t most = 40'000'000);
[[nodiscard]] std::string describe(const Move& move);

} // namespace coldarc::test
