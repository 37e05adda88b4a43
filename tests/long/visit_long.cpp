#include "core/machine/effect.h"
#include "tests/core/visit/random_nights.h"
#include "tests/support/testing.h"

#include <cstdio>

namespace coldarc::test {
namespace {

TEST(VisitLong, BreaksNoInvariantInAMillionRandomCommandsOnRandomProcedures)
{
    const RandomProcedures made = makeProcedures(400, 1910);
    EXPECT_EQ(made.wrong, "");
    std::printf("procedures made %zu, proved %zu, refused %zu, with a planted fault %zu\n", made.made,
                made.proved(), made.made - made.proved(), made.planted);
    ASSERT_GE(made.proved(), 200u);

    const RandomNights run = runRandomNights(1'100'000, 1147, made);

    EXPECT_EQ(run.broken, "");
    EXPECT_GE(run.asked, 1'000'000u);
    EXPECT_GE(run.accepted * 5, run.asked);
    EXPECT_GE(run.rarestEffect(), 1000u);
    EXPECT_GE(run.rarestIncident(), 100u);
    std::printf("asked %zu, accepted %zu, nights %zu, done %zu, made safe %zu, compared %zu\n", run.asked,
                run.accepted, run.nights, run.done, run.madeSafe, run.compared);
    std::printf("withdrawn %zu, passed on %zu, locks removed %zu\n", run.withdrawn, run.passedOn,
                run.removed);
    for (int effect = 0; effect < machine::kEffects; ++effect) {
        std::printf("effect %s %zu\n",
                    std::string(machine::wordOf(static_cast<machine::Effect>(effect))).c_str(),
                    run.effects[static_cast<std::size_t>(effect)]);
    }
    for (int incident = 0; incident < visit::kIncidents; ++incident) {
        std::printf("incident %s %zu\n", qPrintable(visit::wordOf(static_cast<visit::Incident>(incident))),
                    run.incidents[static_cast<std::size_t>(incident)]);
    }
}

} // namespace
} // namespace coldarc::test
