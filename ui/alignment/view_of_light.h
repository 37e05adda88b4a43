#pragma once

#include "core/visit/light_of_visit.h"
#include "ui/alignment/light_view.h"

#include <optional>

namespace coldarc::ui {

/// What the light page keeps in mind between two presses; nothing of it is worth keeping.
struct LightMind {
    /// How the step is about to end before the plan does, while it is shown where the knobs belong first.
    enum class Leaving : std::uint8_t {
        No,
        Done,
        Owed,
    };
    Leaving leaving = Leaving::No;
    bool hasTakenBack = false;            ///< a reading of a turned knob, and read nothing since
    std::optional<visit::LightForm> form; ///< chosen, until a reading says the same
    qint64 putsRight = -1;                ///< number of the entry that the next number puts right
    QString asked;                        ///< the text that a question was asked about
    QString said;
    int boxTurn = 0;
    QString boxText;
};

/// One look at a swap's light.
struct LightMoment {
    const visit::LightOfSwap& light;
    const catalogue::ProjectorModel& model;
    const procedure::Step* step = nullptr; ///< in hand, where it is one of the light; else nullptr
    std::optional<WaitView> wait;          ///< the settle wait, while it runs
    QString place;
    QString makeSafeEnd;

    [[nodiscard]] visit::LightForm form(const LightMind& mind) const
    {
        return mind.form.value_or(light.form);
    }
    [[nodiscard]] bool isSettling() const;
    /// The step is through by the plan.
    [[nodiscard]] bool isThrough(const LightMind& mind) const;
    /// Where the knobs belong before the step is left, while that is shown.
    [[nodiscard]] std::optional<alignment::Advice> leaving(const LightMind& mind) const;
};

/// One scan as it is drawn. @param name  of its axis.
[[nodiscard]] ScanChartView scanChartOf(const alignment::ScanRecord& scan, const QString& name);
/// The last scan of each axis of the model, in its order.
[[nodiscard]] QList<ScanChartView> lastScansOf(const visit::LightOfSwap& light,
                                               const catalogue::ProjectorModel& model);
/// Every reading of a swap against time.
[[nodiscard]] TraceChartView traceChartOf(const visit::LightOfSwap& light);

[[nodiscard]] LightView viewOf(const LightMoment& moment, const LightMind& mind);

} // namespace coldarc::ui
