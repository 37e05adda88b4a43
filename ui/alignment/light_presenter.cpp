#include "ui/alignment/light_presenter.h"

#include "core/photometry/typed.h"
#include "core/visit/next_step.h"
#include "ui/alignment/words_light.h"

#include <algorithm>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using alignment::Advice;
using alignment::ReadingDoubt;
using machine::Effect;
using photometry::TypedFault;
using visit::LightForm;

bool isOfTheLight(Effect effect)
{
    return effect == Effect::Peak || effect == Effect::PeakAgain || effect == Effect::Settle;
}

/// The reading before the one that is typed; nothing for the first.
std::optional<double> before(const visit::LightOfSwap& light, qint64 putsRight)
{
    auto last = light.points.rbegin();
    if (putsRight >= 0 && last != light.points.rend())
        ++last;
    return last == light.points.rend() ? std::nullopt : std::optional(last->light);
}

/// A number that may be a reading; what is asked about it is asked later.
tl::expected<double, TypedFault> lightFrom(const QString& text)
{
    const auto number = photometry::numberFrom(text);
    if (!number)
        return number;
    switch (alignment::doubtOf(*number, std::nullopt)) {
    case ReadingDoubt::NotALight:
        return tl::unexpected(TypedFault::Negative);
    case ReadingDoubt::TooMuch:
        return tl::unexpected(TypedFault::TooLarge);
    default:
        return number;
    }
}

} // namespace

LightPresenter::LightPresenter(LightDesk& desk, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
{
}

void LightPresenter::open(int swap)
{
    if (swap != m_swap) { // what was typed for the other lamp is not this one's
        LightMind fresh;
        fresh.boxTurn = m_mind.boxTurn + 1;
        m_mind = fresh;
    }
    m_swap = swap;
    m_folded = -1;
    m_mind.said.clear();
    m_mind.asked.clear();
    m_mind.leaving = LightMind::Leaving::No;
    refresh();
}

const visit::LightOfSwap& LightPresenter::light(const visit::VisitState& state)
{
    if (m_folded != state.entries) {
        m_light = visit::lightOf(state, state.swaps[m_swap].id);
        m_folded = state.entries;
    }
    return m_light;
}

const procedure::Step* LightPresenter::stepOf(const visit::VisitState& state) const
{
    if (!state.isOpen() || state.isMakingSafe)
        return nullptr;
    const visit::NextStep next = visit::nextStep(state, state.swaps[m_swap], state.lead);
    return next.step && !next.endsHere && isOfTheLight(next.step->effect) ? next.step : nullptr;
}

void LightPresenter::refresh()
{
    const visit::VisitState state = m_desk.seen();
    if (m_swap >= state.swaps.size())
        return;
    const visit::SwapState& swap = state.swaps[m_swap];
    const procedure::Step* step = stepOf(state);
    LightMoment moment{light(state), state.ground->model(swap.lamphouse), step, std::nullopt, {}, {}};
    if (step && step->effect == Effect::Settle)
        moment.wait = m_desk.settleWait(state, swap);
    moment.place = m_desk.placeOf(state, swap);
    if (step)
        moment.place += u"\u2002\u00b7\u2002"_s + step->title;
    moment.makeSafeEnd = m_desk.makeSafeEnd(state, swap);
    LightView view = viewOf(moment, m_mind);
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

void LightPresenter::say(const QString& text)
{
    m_mind.said = text;
    refresh();
}

void LightPresenter::fillBox(const QString& text)
{
    ++m_mind.boxTurn;
    m_mind.boxText = text;
}

void LightPresenter::enter(const QString& text)
{
    const QString typed = text.trimmed();
    const auto value = lightFrom(typed);
    if (!value)
        return say(faultText(value.error(), typed));
    if (std::exchange(m_mind.leaving, LightMind::Leaving::No) != LightMind::Leaving::No)
        return say(
            tr("The search goes on: turn as it is said now. \u201c%1\u201d was not taken yet.").arg(typed));
    const visit::VisitState state = m_desk.seen();
    const QString question = questionAbout(state, *value);
    if (!question.isEmpty() && m_mind.asked != typed) {
        m_mind.asked = typed;
        return say(question);
    }
    take(state, *value);
}

QString LightPresenter::questionAbout(const visit::VisitState& state, double value)
{
    if (const std::optional<double> last = before(light(state), m_mind.putsRight))
        return doubtText(alignment::doubtOf(value, last), value, *last);
    const auto expected = visit::expectedLight(state, state.swaps[m_swap].id);
    const auto doubt = expected ? visit::doubtOfFirst(value, *expected) : std::nullopt;
    return doubt ? firstDoubtText(*doubt, value, *expected) : QString();
}

void LightPresenter::take(const visit::VisitState& state, double value)
{
    const visit::SwapState& swap = state.swaps[m_swap];
    const procedure::Step* step = stepOf(state);
    if (!step)
        return say(tr("No step of the light is in hand: nothing was taken."));
    const auto wrong =
        std::find_if(state.light.begin(), state.light.end(),
                     [&](const visit::LightReading& one) { return one.entry == m_mind.putsRight; });
    visit::LightRead read;
    read.value = value;
    if (m_mind.putsRight >= 0 && wrong != state.light.end()) {
        read = wrong->read;
        read.value = value;
        read.replaces = m_mind.putsRight;
        return tellReading(read);
    }
    const LightForm form = m_mind.form.value_or(m_light.form);
    const bool isStuck = m_light.advice().kind == Advice::Kind::Stuck;
    if (step->effect != Effect::Settle && form == LightForm::Planned && !isStuck)
        read = visit::advisedReading(m_light, state.ground->model(swap.lamphouse), value);
    else if (step->axis)
        read.axis = catalogue::wordOf(*step->axis);
    read.swap = swap.id;
    read.step = step->id;
    tellReading(read);
}

void LightPresenter::tellReading(const visit::LightRead& read)
{
    const QStringList no = m_desk.tell(read);
    if (!no.isEmpty())
        return say(no.join(u' '));
    if (m_mind.form == light(m_desk.seen()).form)
        m_mind.form.reset();
    m_mind.putsRight = -1;
    m_mind.asked.clear();
    m_mind.hasTakenBack = false;
    fillBox({});
    say({});
}

void LightPresenter::stopPuttingRight()
{
    if (std::exchange(m_mind.putsRight, -1) >= 0)
        fillBox({}); // the figure in it is the reading's, not one that was typed
    m_mind.asked.clear();
}

void LightPresenter::takeBack()
{
    const visit::VisitState state = m_desk.seen();
    const visit::LightOfSwap& now = light(state);
    if (!now.mayTakeBack)
        return say(now.points.empty() ? tr("There is no reading to take back.")
                                      : tr("The last reading is of a step that is done: it can be put right, "
                                           "not taken back."));
    const qint64 last = *now.mayTakeBack;
    const bool isOfAKnob = std::ranges::any_of(now.points, [&](const visit::LightPoint& one) {
        return one.entry == last && one.of == visit::LightPoint::Of::Scan;
    });
    const QStringList no = m_desk.tell(visit::Withdrawn{last, tr("Taken back at the light page.")});
    if (!no.isEmpty())
        return say(no.join(u' '));
    m_mind.hasTakenBack = isOfAKnob;
    m_mind.leaving = LightMind::Leaving::No;
    stopPuttingRight();
    say({});
}

void LightPresenter::putRight()
{
    const visit::VisitState state = m_desk.seen();
    const auto& points = light(state).points;
    if (points.empty())
        return say(tr("There is no reading to put right."));
    const bool isOn = m_mind.putsRight >= 0;
    m_mind.leaving = LightMind::Leaving::No;
    m_mind.putsRight = isOn ? -1 : points.back().entry;
    m_mind.asked.clear();
    fillBox(isOn ? QString() : lightText(points.back().light));
    say(isOn ? QString() : tr("The next number takes the place of %1.").arg(lightText(points.back().light)));
}

void LightPresenter::changeForm()
{
    if (std::exchange(m_mind.leaving, LightMind::Leaving::No) != LightMind::Leaving::No)
        return say({});
    const visit::VisitState state = m_desk.seen();
    const LightForm now = m_mind.form.value_or(light(state).form);
    m_mind.form = now == LightForm::Planned ? LightForm::Quick : LightForm::Planned;
    const bool beginsAnew = *m_mind.form == LightForm::Planned && m_light.form == LightForm::Quick;
    say(beginsAnew ? tr("The plan begins anew from where the knobs stand now.") : QString());
}

std::optional<visit::KnobTurns> LightPresenter::knobsToSet(const visit::VisitState& state,
                                                           const procedure::Step& step)
{
    const visit::LightOfSwap& now = light(state);
    return visit::knobsToSet(now, m_mind.form.value_or(now.form), step,
                             state.ground->model(state.swaps[m_swap].lamphouse));
}

bool LightPresenter::showsFirst(const visit::VisitState& state, const procedure::Step& step,
                                LightMind::Leaving leaving)
{
    const bool isThrough =
        visit::isThrough(light(state), step, state.ground->model(state.swaps[m_swap].lamphouse));
    if (isThrough || m_mind.leaving != LightMind::Leaving::No || !knobsToSet(state, step))
        return false;
    stopPuttingRight();
    m_mind.leaving = leaving;
    say({});
    return true;
}

void LightPresenter::done()
{
    const visit::VisitState state = m_desk.seen();
    const procedure::Step* step = stepOf(state);
    if (!step)
        return Q_EMIT finished();
    if (showsFirst(state, *step, LightMind::Leaving::Done))
        return;
    if (const auto knobs = knobsToSet(state, *step)) {
        const QStringList no = m_desk.tell(visit::LightSet{state.swaps[m_swap].id, step->id, *knobs});
        if (!no.isEmpty())
            return say(no.join(u' '));
    }
    endAs(*step, m_mind.leaving);
}

void LightPresenter::finish()
{
    const bool isShown = m_mind.leaving != LightMind::Leaving::No;
    const visit::VisitState state = m_desk.seen();
    const procedure::Step* step = stepOf(state);
    if (isShown && step)
        return endAs(*step, m_mind.leaving);
    done();
}

void LightPresenter::owe()
{
    const visit::VisitState state = m_desk.seen();
    const procedure::Step* step = stepOf(state);
    if (step && !showsFirst(state, *step, LightMind::Leaving::Owed))
        endAs(*step, LightMind::Leaving::Owed);
}

void LightPresenter::endAs(const procedure::Step& step, LightMind::Leaving leaving)
{
    const SwapId swap = m_desk.seen().swaps[m_swap].id;
    if (leaving == LightMind::Leaving::Owed)
        return endStep(visit::Owed{swap, step.id});
    visit::Did did;
    did.swap = swap;
    did.step = step.id;
    endStep(did);
}

void LightPresenter::endStep(const visit::Body& body)
{
    m_mind.leaving = LightMind::Leaving::No;
    const QStringList no = m_desk.tell(body);
    if (!no.isEmpty())
        return say(no.join(u' '));
    stopPuttingRight();
    m_mind.hasTakenBack = false;
    m_mind.said.clear();
    refresh();
    if (!stepOf(m_desk.seen()))
        Q_EMIT finished();
}

} // namespace coldarc::ui
