#pragma once

#include "core/alignment/test_lamp.h"
#include "core/visit/light_of_visit.h"
#include "tests/core/visit/night.h"
#include "ui/alignment/light_desk.h"
#include "ui/alignment/light_presenter.h"

namespace coldarc::test {

/// A night at the first search for the peak, with a light that answers whoever turns as told. Every site,
/// person and model in it is invented.
class LightAtWork final : public ui::LightDesk {
public:
    /// @param onArrival  cd/m2 at the centre of the screen, read when they came; nothing: not read.
    explicit LightAtWork(const QString& model = QStringLiteral("larkmoor-teal"),
                         std::optional<double> onArrival = {}, int screens = 1)
        : m_night(model, Night::Crew::Alone, {}, {}, screens)
        , m_lamp(alignment::testLampFor(visit::setupOf(m_night.state.ground->model(0))), 7)
    {
        if (onArrival) {
            m_night.doUntil(QStringLiteral("light-before"));
            m_night.readCentre(0, *onArrival);
        }
        doUntil(machine::Effect::Peak);
    }

    // ---- What the page asks ------------------------------------------------------------------------------
    [[nodiscard]] visit::VisitState seen() const override { return m_night.seen(); }
    [[nodiscard]] const Clock& clock() const override { return m_night.clock; }
    QStringList tell(const visit::Body& asked) override
    {
        if (m_night.tell(asked))
            return {};
        return {QStringLiteral("refused")};
    }
    [[nodiscard]] QString placeOf(const visit::VisitState& /*state*/,
                                  const visit::SwapState& /*swap*/) const override
    {
        return QStringLiteral("Screen 4");
    }
    [[nodiscard]] std::optional<ui::WaitView> settleWait(const visit::VisitState& state,
                                                         const visit::SwapState& swap) const override
    {
        const visit::WaitClock& clock = state.waits[swap.lamphouse].settle;
        if (!clock.isRunning || clock.isOver())
            return std::nullopt;
        return ui::WaitView{0.5, QStringLiteral("12:00"), {}};
    }
    [[nodiscard]] QString makeSafeEnd(const visit::VisitState& /*state*/,
                                      const visit::SwapState& /*swap*/) const override
    {
        return QStringLiteral("leads to: as it is");
    }

    // ---- What is done ------------------------------------------------------------------------------------
    void doUntil(machine::Effect effect)
    {
        for (int steps = 0; steps < 90 && m_night.next().step; ++steps) {
            if (m_night.next().step->effect == effect)
                return;
            ASSERT_TRUE(m_night.doNext());
        }
        FAIL() << "never came to " << machine::wordOf(effect);
    }
    /// Turns as the plan says and looks at the meter, which shows tenths.
    [[nodiscard]] QString turnAndLook()
    {
        const visit::LightOfSwap now = light();
        for (const alignment::Move& move : now.advice().moves)
            m_lamp.turn(move);
        m_night.clock.advance(std::chrono::seconds(20));
        return QString::number(m_lamp.read(), 'f', 1);
    }
    void settle() { m_lamp.settle(); }

    [[nodiscard]] visit::LightOfSwap light() const
    {
        return visit::lightOf(m_night.state, m_night.swap().id);
    }
    [[nodiscard]] machine::Effect effect() const { return m_night.next().step->effect; }
    [[nodiscard]] qsizetype entries() const { return m_night.entries.size(); }
    [[nodiscard]] Night& night() { return m_night; }
    [[nodiscard]] double loss() const { return m_lamp.loss(); }

private:
    Night m_night;
    alignment::SimulatedLight m_lamp;
};

} // namespace coldarc::test
