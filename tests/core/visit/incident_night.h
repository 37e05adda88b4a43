#pragma once

#include "core/machine/make_safe.h"
#include "tests/core/visit/night.h"

namespace coldarc::test {

/// Does the step whose turn it is with one answer chosen by what it means.
inline visit::Decision answering(Night& night, const QString& step, const QString& capture,
                                 procedure::Means means, int swap = 0)
{
    const visit::SwapState current = night.state.swaps[swap];
    for (const procedure::Choice& choice : current.step(StepId(step))->capture(capture)->choices) {
        if (choice.means == means)
            return night.doStep(
                step, [&](QJsonObject& answers) { answers[capture] = choice.text; }, swap);
    }
    ADD_FAILURE() << "no such answer";
    return tl::unexpected(visit::Refusal());
}

inline visit::Happened at(visit::Incident incident,
                          const QString& lamphouse = QStringLiteral("lamphouse-1-main"))
{
    visit::Happened happened;
    happened.incident = incident;
    happened.lamphouse = LamphouseId(lamphouse);
    return happened;
}

inline visit::Happened ofLamp(visit::Incident incident, const QString& lamp)
{
    visit::Happened happened;
    happened.incident = incident;
    happened.lamp = LampId(lamp);
    return happened;
}

inline machine::SafeEnd endOf(const Night& night)
{
    return machine::safeEnd(night.state.plant, night.state.machine, 0);
}

/// Makes safe, closes, and holds the entries read back against the live state.
inline void expectToEndAs(Night& night, const QString& end)
{
    night.makeSafe();
    ASSERT_FALSE(::testing::Test::HasFatalFailure());
    night.close();
    ASSERT_FALSE(::testing::Test::HasFatalFailure());
    EXPECT_EQ(night.state.end, end);
    expectSame(night.state, night.readBack());
}

} // namespace coldarc::test
