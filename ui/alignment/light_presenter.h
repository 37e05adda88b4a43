#pragma once

#include "ui/alignment/light_desk.h"
#include "ui/alignment/view_of_light.h"

#include <QObject>

namespace coldarc::ui {

/// The light run of one swap: what was read, what to turn next, and the numbers that are typed. Everything
/// that counts is an entry of the visit; the page can be left and come back to at any moment.
class LightPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the desk, which must outlive the presenter.
    explicit LightPresenter(LightDesk& desk, QObject* parent = nullptr);

    [[nodiscard]] const LightView& view() const { return m_view; }
    /// Takes up a swap. Nothing that was written is changed by it.
    void open(int swap);
    /// Looks again, so that the settle wait runs.
    void refresh();
    /// A number was typed and Enter pressed. What can not be taken stays in the box, with the reason. Nothing
    /// else but another lamp empties the box of what was typed.
    void enter(const QString& text);
    /// The step is done, with the knobs set where that was asked. Before the plan is at its end it is shown
    /// first where they belong, and ended at the next press.
    void done();
    /// The same, but at the second press the knobs stay as they stand.
    void finish();
    /// The last reading, or the last number that put one right, does not count.
    void takeBack();
    /// The next number puts the last reading right; pressed again, it does not.
    void putRight();
    /// Between the plan and turning by eye. While it is shown where the knobs belong: the search goes on.
    void changeForm();
    /// The step is left to a later visit; like `done` where knobs are to be set first.
    void owe();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::LightView& view);
    /// No step of the light is in hand any more.
    void finished();

private:
    /// The swap's light as it stands; entries are folded again only when there are new ones.
    const visit::LightOfSwap& light(const visit::VisitState& state);
    [[nodiscard]] const procedure::Step* stepOf(const visit::VisitState& state) const;
    void take(const visit::VisitState& state, double value);
    /// What is asked about a number before it is taken; empty: nothing.
    [[nodiscard]] QString questionAbout(const visit::VisitState& state, double value);
    void tellReading(const visit::LightRead& read);
    void stopPuttingRight();
    /// Where every knob is to stand before the step is left; nothing: as it stands.
    [[nodiscard]] std::optional<visit::KnobTurns> knobsToSet(const visit::VisitState& state,
                                                             const procedure::Step& step);
    /// Shows first where the knobs belong, if the plan is not at its end; false: there is nothing to show.
    bool showsFirst(const visit::VisitState& state, const procedure::Step& step, LightMind::Leaving leaving);
    void endAs(const procedure::Step& step, LightMind::Leaving leaving);
    void endStep(const visit::Body& body);
    void say(const QString& text);
    void fillBox(const QString& text);

    LightDesk& m_desk;
    int m_swap = 0;
    LightMind m_mind;
    LightView m_view;
    visit::LightOfSwap m_light;
    qint64 m_folded = -1; ///< entries that `m_light` is of
};

} // namespace coldarc::ui
