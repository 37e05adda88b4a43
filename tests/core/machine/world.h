#pragma once

#include "core/machine/evolve.h"

#include <array>
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
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
    bool held = false; ///< somebody else's lock or tag may be found
    bool passOn = false;
    bool lockRemoved = false;
    bool resumed = false;
    bool leftAlone = false; ///< nobody watches for a night: somebody may take the locks off and switch on
    bool wrongLamp = false;
    bool foundOpen = false;
    bool findAgain = false;
    bool failedStrike = false;
    bool countDiffers = false;
    bool pastEnd = false; ///< the lamp found may be past its replace-by hours
    bool paper = false;   ///< box label, book-in and the controller are worked on in the visit, not before it
    bool seatingWrong = false;  ///< a clamped lamp may be seated or poled wrongly
    bool extractionOff = false; ///< the extraction may be found off
};

/// How large an enumeration is, for choosing where it runs.
enum class Size {
    Small, ///< also under the sanitizers
    Large, ///< in every ordinary test run
    Huge,  ///< in the long tests
};

struct Setting {
    std::string name;
    machine::Plant plant;
    std::vector<machine::Index> engineers; ///< who does what nobody in particular has to do
    Rare rare;
    Size size = Size::Small;
    /// Whether the out-of-use tag may be hung. A tag takes moves away and adds none but the signing, so a
    /// large setting may do without.
    bool tags = true;
};

/// Who is there, where the setting has room for a second person.
enum class Crew {
    OneEngineer,
    WithTrainee,
    TwoEngineers,
};
enum class Covers {
    Two,
    SingleDoor,
};
/// One lamphouse, two points, the lamp found and one spare, adaptor, dowser, controller.
[[nodiscard]] Setting oneLamphouse(Crew crew = Crew::WithTrainee);
/// Two lamphouses on one point, either of which may be opened.
[[nodiscard]] Setting twoLamphouses(Covers covers, Crew crew);
/// Every setting that is enumerated, each with a name of its own.
[[nodiscard]] const std::vector<Setting>& nights();
/// Pre: there is one of this name.
[[nodiscard]] const Setting& night(std::string_view name);

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
/// Whether current really reaches this lamphouse, whatever the record says.
[[nodiscard]] bool isTrulyLive(const Setting& setting, const World& world, machine::Index lamphouse);
/// Calls `take` for every move that the shipping rules allow here; `forgiven` names demands that this
/// enumeration overlooks, to see what each one is good for.
void forEachMove(const Setting& setting, const World& world, machine::Unmet forgiven,
                 const std::function<void(const Move&)>& take);
[[nodiscard]] World moved(const Setting& setting, const World& world, const Move& move);

/// The first invariant (see invariants.cpp) that this world breaks; empty if none.
[[nodiscard]] std::string_view brokenState(const Setting& setting, const World& world);
/// The first rule about order, person or place that this move breaks; empty if none.
[[nodiscard]] std::string_view brokenMove(const Setting& setting, const World& before, const Move& move,
                                          const World& after);

/// One world for all that no rule tells apart: equal engineers are put in one order, and what no rule reads
/// any more is wiped (which lamphouse unsigned gear was for, a pause that is over, a count that came out).
struct Merged {
    World world;
    bool exchanged = false; ///< the two engineers changed places
};
[[nodiscard]] Merged merged(const Setting& setting, const World& world);

/// Worlds by number, kept in as few bytes as the setting needs, without duplicates.
class Worlds {
public:
    explicit Worlds(const machine::Plant& plant);
    /// Whether it is new.
    bool add(const World& world);
    /// Its number, or `kMissing`.
    [[nodiscard]] std::size_t find(const World& world) const;
    static constexpr std::size_t kMissing = static_cast<std::size_t>(-1);
    [[nodiscard]] std::size_t size() const { return m_bytes.size() / m_width; }
    [[nodiscard]] World at(std::size_t number) const;

private:
    template<class Copy>
    void eachPart(World& world, Copy copy) const;
    void pack(World world, unsigned char* to) const;
    void grow();
    [[nodiscard]] std::size_t hashAt(const unsigned char* bytes) const;
    /// The slot that holds this world, or the empty one where it belongs.
    [[nodiscard]] std::size_t slotOf(const unsigned char* packed) const;

    machine::Plant m_plant;
    std::size_t m_width = 0;
    std::vector<unsigned char> m_bytes;
    std::vector<std::uint32_t> m_slots; ///< open addressing: number + 1, or 0
};

struct Enumeration {
    explicit Enumeration(const machine::Plant& plant)
        : worlds(plant)
    {
    }
    std::size_t transitions = 0;
    bool whole = false;             ///< every reachable world was looked at
    std::string_view broken;        ///< first broken invariant
    std::vector<std::string> trace; ///< the shortest way there
    std::array<std::size_t, machine::kEffects> effects{};
    std::array<std::size_t, machine::kHappenings> happenings{};
    std::size_t plainSwaps = 0; ///< worlds in which a plain swap can be signed
    Worlds worlds;              ///< in the order found
};

enum class Merge {
    Alike,   ///< `merged` worlds are one
    Nothing, ///< every world as it is, to see that merging loses nothing
};

/// Breadth first from every beginning, until done, broken or `most` worlds.
[[nodiscard]] Enumeration enumerate(const Setting& setting, machine::Unmet forgiven = {},
                                    std::size_t most = 40'000'000, Merge merge = Merge::Alike);
[[nodiscard]] std::string describe(const Move& move);

} // namespace coldarc::test
