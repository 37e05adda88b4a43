// Figures of core/machine: how many states the rules are held against, and how many times a second they are
// asked.

#include "tests/bench/times.h"
#include "tests/core/machine/world.h"

#include <cstdio>
#include <cstdlib>
#include <string>

using namespace coldarc::test;
using namespace coldarc::machine;
namespace bench = coldarc::bench;

namespace {

constexpr const char* kNights[] = {"Plain", "WrongBreakerAndDeadControl", "ResumedAndSeenAgain", "PairPlain"};

struct Figures {
    std::size_t states = 0;
    std::size_t transitions = 0;
    double ms = 0;
};

/// Every state of one night, then the rules once more over all of them: each act that somebody could try is
/// judged, each that they let through is done. Only the second pass is timed: no hashing, no invariants.
void measure(const Setting& setting, Figures& figures)
{
    const Enumeration found = enumerate(setting);
    if (!found.whole) {
        std::fprintf(stderr, "machine_bench: %s breaks an invariant\n", setting.name.c_str());
        std::exit(1);
    }
    std::size_t transitions = 0;
    std::size_t seen = 0; // of the results, so that nothing is optimised away
    const double start = bench::threadMs();
    for (std::size_t number = 0; number < found.worlds.size(); ++number) {
        const World world = found.worlds.at(number);
        forEachMove(setting, world, {}, [&](const Move& move) {
            ++transitions;
            seen += moved(setting, world, move).state.lamphouse[0].guardOpen ? 1 : 0;
        });
    }
    figures.ms += bench::threadMs() - start;
    figures.states += found.worlds.size();
    figures.transitions += transitions;
    if (transitions != found.transitions || seen == 0) {
        std::fprintf(stderr, "machine_bench: the second pass went another way\n");
        std::exit(1);
    }
}

} // namespace

int main(int argc, char** argv)
{
    const std::string filter = argc > 1 ? argv[1] : "";
    const std::string states = "machine.states";
    const std::string speed = "machine.transitions_per_s";
    if (states.find(filter) == std::string::npos && speed.find(filter) == std::string::npos)
        return 0;
    Figures figures;
    for (const char* name : kNights)
        measure(night(name), figures);
    if (states.find(filter) != std::string::npos)
        std::printf("%s %zu count\n", states.c_str(), figures.states);
    if (speed.find(filter) != std::string::npos)
        std::printf("%s %.0f 1/s\n", speed.c_str(),
                    1e3 * static_cast<double>(figures.transitions) / figures.ms);
    return 0;
}
