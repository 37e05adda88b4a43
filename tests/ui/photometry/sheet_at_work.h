#pragma once

#include "core/photometry/tolerance_file.h"
#include "core/visit/sheet_of_visit.h"
#include "tests/core/visit/night.h"
#include "ui/photometry/sheet_desk.h"

namespace coldarc::test {

/// A night at a step where the screen is measured, with a desk at it. Every site, person and model in it is
/// invented.
class SheetAtWork final : public ui::SheetDesk {
public:
    explicit SheetAtWork(const QString& model = QStringLiteral("larkmoor-teal"))
        : m_night(model)
    {
    }

    // ---- What the page asks ------------------------------------------------------------------------------
    [[nodiscard]] visit::VisitState seen() const override { return m_night.seen(); }
    [[nodiscard]] const Clock& clock() const override { return m_night.clock; }
    [[nodiscard]] QTimeZone zone() const override { return QTimeZone::utc(); }
    QStringList tell(const visit::Body& asked) override
    {
        if (isDiskFull)
            return {QStringLiteral("could not be kept")};
        if (m_night.tell(asked))
            return {};
        return {QStringLiteral("refused")};
    }
    [[nodiscard]] QString placeOf(const visit::VisitState& /*state*/,
                                  const visit::SwapState& /*swap*/) const override
    {
        return QStringLiteral("Screen 4");
    }

    // ---- What is done and found --------------------------------------------------------------------------
    void goTo(const QString& step) { m_night.doUntil(step); }
    void goToScreen() { goTo(QStringLiteral("measure-screen")); }
    [[nodiscard]] Night& night() { return m_night; }
    [[nodiscard]] visit::SheetOfSwap sheet(visit::SheetTime time = visit::SheetTime::After) const
    {
        return visit::sheetOf(m_night.state, m_night.swap().id, time);
    }
    [[nodiscard]] qsizetype entries() const { return m_night.entries.size(); }
    [[nodiscard]] bool isMeasured() const { return m_night.isDone(QStringLiteral("measure-screen")); }

    bool isDiskFull = false;

private:
    Night m_night;
};

/// Loaded once: the shipped sets.
[[nodiscard]] inline const std::vector<photometry::ToleranceSet>& shippedLimits()
{
    static const auto kLoaded = photometry::loadToleranceSets(sourceFile("resources/photometry"));
    return kLoaded.sets;
}

} // namespace coldarc::test
