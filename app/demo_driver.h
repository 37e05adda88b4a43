#pragma once

#include "app/demo_chance.h"
#include "app/demo_data.h"
#include "core/alignment/test_lamp.h"
#include "core/base/clock.h"
#include "core/people/signing_key.h"
#include "core/visit/light_of_visit.h"
#include "core/visit/logbook.h"

#include <map>
#include <set>

namespace coldarc::app {

/// A clock that moves only when the demo moves it.
class DemoClock final : public Clock {
public:
    explicit DemoClock(Stamp now)
        : m_now(std::move(now))
    {
    }
    [[nodiscard]] Stamp now() const override { return m_now; }
    /// Time passes, awake.
    void advance(std::chrono::milliseconds by)
    {
        m_now.wall += by;
        m_now.sinceBoot += by;
    }

private:
    Stamp m_now;
};

using DemoKeys = std::map<PersonId, people::SigningKey>;

/// What is read off the machine and typed at one swap.
struct DemoFigures {
    double lampHours = 0;      ///< h, on the lamp found
    double thresholdHours = 0; ///< h, for the new one
    lamps::Cause cause = lamps::Cause::EndOfLife;
};

/// Everything that a driver works with. Borrowed, and has to outlive it.
struct DemoHands {
    store::Journal& journal;
    store::Summaries& summaries;
    DemoClock& clock;
    DemoChance& chance;
    const DemoAnswers& answers;
    const DemoKeys& keys;
    const std::vector<photometry::ToleranceSet>& limits; ///< what screens are held against
};

/// Whether a search for the peak asks for one more reading; false: its step is through. Refused where it
/// comes to no peak: a knob shows none, or so many readings were taken for this step as no search needs
/// (150).
[[nodiscard]] Result<bool> isReadingDue(const visit::LightOfSwap& light, const procedure::Step& step,
                                        const catalogue::ProjectorModel& model, int readings);

/// Leads a visit as its people would: takes the step whose turn it is, holds its waits by moving the clock,
/// answers it so that it passes, and signs where a visit is signed. It asks the logbook like anybody else and
/// opens no gate of its own: what is refused comes back as an Error::Refused that names the step and every
/// reason's number.
class DemoDriver {
public:
    /// Opens the visit; the first of its people leads.
    /// @param figures  by lamphouse, one for each swap.
    [[nodiscard]] static Result<DemoDriver> open(const DemoHands& hands, const visit::Opening& opening,
                                                 const QList<DemoTwist>& twists,
                                                 const QHash<LamphouseId, DemoFigures>& figures);

    [[nodiscard]] const visit::Logbook& logbook() const { return m_logbook; }
    [[nodiscard]] const visit::VisitState& state() const { return m_logbook.state(); }

    /// Asks the logbook, and signs what it has to be signed for.
    [[nodiscard]] Result<void> tell(const PersonId& by, const visit::Body& asked);

    /// What became of one more step.
    enum class Went {
        On,
        Nothing, ///< no swap has a step left
        Stopped, ///< a twist ends the visit here: it was made safe, or left open
    };
    /// One step of the swap that can go on: the same one as before unless that waits and another does not.
    [[nodiscard]] Result<Went> step();
    /// Steps until there are none, or a twist ends it.
    [[nodiscard]] Result<Went> stepAll();
    /// Everybody signs, the site's contact last, and the visit is closed.
    [[nodiscard]] Result<void> close();

private:
    DemoDriver(const DemoHands& hands, visit::Logbook logbook, const QList<DemoTwist>& twists,
               const QHash<LamphouseId, DemoFigures>& figures);

    [[nodiscard]] PersonId lead() const;
    [[nodiscard]] const DemoTwist* twist(DemoTwist::Kind kind) const;
    [[nodiscard]] bool isBefore(const DemoTwist* twist, const procedure::Step& step) const;
    [[nodiscard]] qsizetype swapThatCanGoOn() const;
    /// What the next step of a swap stands before; the smallest comes first.
    struct Before {
        bool isOver = false;   ///< no step is left
        bool isHeldUp = false; ///< by something that no wait of this swap brings about, such as another swap
        std::chrono::milliseconds wait{0};
        friend auto operator<=>(const Before&, const Before&) = default;
    };
    [[nodiscard]] Before before(qsizetype swap) const;
    [[nodiscard]] QList<PersonId> handsFor(const procedure::Step& step);

    [[nodiscard]] Result<void> sign(qint64 entry, const PersonId& person, people::Meaning meaning);
    [[nodiscard]] Result<void> signFor(const visit::Entry& entry, qint64 number);
    [[nodiscard]] Result<void> readClosedBox(const visit::SwapState& swap);
    [[nodiscard]] Result<void> readMarking(const visit::SwapState& swap);
    [[nodiscard]] Result<void> readLight(const visit::SwapState& swap, const procedure::Step& step);
    [[nodiscard]] Result<void> setKnobs(const visit::SwapState& swap, const procedure::Step& step,
                                        const visit::LightOfSwap& light);
    [[nodiscard]] Result<void> slip(const visit::LightRead& read);
    [[nodiscard]] alignment::SimulatedLight& lampOf(const visit::SwapState& swap);
    [[nodiscard]] Result<void> readScreen(const visit::SwapState& swap, const procedure::Step& step);
    [[nodiscard]] Result<void> answerIncidents();
    [[nodiscard]] Result<void> prepare(const visit::SwapState& swap, const procedure::Step& step);
    [[nodiscard]] Result<void> doStep(const visit::SwapState& swap, const procedure::Step& step);
    [[nodiscard]] Result<void> makeSafe(const DemoTwist& twist, const visit::SwapState& swap);
    [[nodiscard]] Result<bool> safeStep(machine::Index group);
    [[nodiscard]] Result<void> settleCustody();

    [[nodiscard]] Result<QJsonObject> answersFor(const visit::SwapState& swap, const procedure::Step& step);
    [[nodiscard]] QString written(const visit::SwapState& swap, const procedure::Step& step,
                                  const QString& text);
    [[nodiscard]] QStringList textsFor(const procedure::Step& step, const QString& capture) const;
    [[nodiscard]] QString chosen(const procedure::Step& step, const procedure::Capture& capture);

    DemoHands m_hands;
    visit::Logbook m_logbook;
    QList<DemoTwist> m_twists;
    QHash<LamphouseId, DemoFigures> m_figures;
    qsizetype m_current = 0; ///< swap
    bool m_hasFailedToLight = false;
    bool m_hasWithdrawn = false;
    std::map<QString, alignment::SimulatedLight> m_lamps; ///< by swap
    std::set<QString> m_settled;                          ///< swaps whose lamp has settled
    // The same all night: what is counted, and the number on the leader's lock.
    int m_tools = 0;
    int m_fasteners = 0;
    int m_lock = 0;
    double m_luminance = 0; ///< cd/m2, at the screen centre on arrival
};

} // namespace coldarc::app
