#include "ui/alignment/light_presenter.h"

#include "core/photometry/typed.h"
#include "core/visit/next_step.h"
#include "ui/alignment/words_light.h"

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using alignment::Advice;
using alignment::ReadingDoubt;
using machine::Effect;
using photometry::TypedFault;
using visit::LightForm;

constexpr double kMostLight = 1e6; // in whatever unit: no screen and no meter of this trade gets there

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

tl::expected<double, TypedFault> lightFrom(const QString& text)
{
    const auto number = photometry::numberFrom(text);
    if (!number)
        return number;
    if (*number <= 0)
        return tl::unexpected(TypedFault::Negative);
    return *number > kMostLight ? tl::unexpected(TypedFault::TooLarge) : number;
}

} // namespace

LightPresenter::LightPresenter(LightDesk& desk, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
{
}

void LightPresenter::open(int swap)
{
    if (swap != m_swap)
        m_mind = {};
    m_swap = swap;
    m_folded = -1;
    m_mind.said.clear();
    m_mind.asked.clear();
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
    const visit::VisitState state = m_desk.seen();
    const std::optional<double> last = before(light(state), m_mind.putsRight);
    const ReadingDoubt doubt = alignment::doubtOf(*value, last);
    if (doubt != ReadingDoubt::None && m_mind.asked != typed) {
        m_mind.asked = typed;
        return say(doubtText(doubt, *value, last.value_or(0)));
    }
    take(state, *value);
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
        return tell(read);
    }
    const LightForm form = m_mind.form.value_or(m_light.form);
    const bool isStuck = m_light.advice().kind == Advice::Kind::Stuck;
    if (step->effect != Effect::Settle && form == LightForm::Planned && !isStuck)
        read = visit::advisedReading(m_light, state.ground->model(swap.lamphouse), value);
    else if (step->axis)
        read.axis = catalogue::wordOf(*step->axis);
    read.swap = swap.id;
    read.step = step->id;
    tell(read);
}

void LightPresenter::tell(const visit::Body& body)
{
    const QStringList no = m_desk.tell(body);
    if (!no.isEmpty())
        return say(no.join(u' '));
    const visit::VisitState state = m_desk.seen();
    if (std::holds_alternative<visit::LightRead>(body) && m_mind.form == light(state).form)
        m_mind.form.reset();
    m_mind.putsRight = -1;
    m_mind.asked.clear();
    fillBox({});
    say({});
}

void LightPresenter::takeBack()
{
    const visit::VisitState state = m_desk.seen();
    const SwapId swap = state.swaps[m_swap].id;
    if (light(state).points.empty())
        return say(tr("There is no reading to take back."));
    const auto last = std::find_if(state.light.rbegin(), state.light.rend(),
                                   [&](const visit::LightReading& one) { return one.read.swap == swap; });
    tell(visit::Withdrawn{last->entry, tr("Taken back at the light page.")});
}

void LightPresenter::putRight()
{
    const visit::VisitState state = m_desk.seen();
    const auto& points = light(state).points;
    if (points.empty())
        return say(tr("There is no reading to put right."));
    const bool isOn = m_mind.putsRight >= 0;
    m_mind.putsRight = isOn ? -1 : points.back().entry;
    m_mind.asked.clear();
    fillBox(isOn ? QString() : lightText(points.back().light));
    say(isOn ? QString() : tr("The next number takes the place of %1.").arg(lightText(points.back().light)));
}

void LightPresenter::changeForm()
{
    const visit::VisitState state = m_desk.seen();
    const LightForm now = m_mind.form.value_or(light(state).form);
    m_mind.form = now == LightForm::Planned ? LightForm::Quick : LightForm::Planned;
    const bool beginsAnew = *m_mind.form == LightForm::Planned && m_light.form == LightForm::Quick;
    say(beginsAnew ? tr("The plan begins anew from where the knobs stand now.") : QString());
}

void LightPresenter::done()
{
    const visit::VisitState state = m_desk.seen();
    const visit::SwapState& swap = state.swaps[m_swap];
    const procedure::Step* step = stepOf(state);
    if (!step)
        return Q_EMIT finished();
    const visit::LightOfSwap& now = light(state);
    const Advice advice = now.advice();
    const bool asksMoves = advice.kind == Advice::Kind::Wait || advice.kind == Advice::Kind::Stop;
    const bool isThrough =
        now.form == LightForm::Planned && visit::isThrough(now, *step, state.ground->model(swap.lamphouse));
    if (isThrough && asksMoves && !advice.moves.empty() && !now.isSet) {
        const QStringList no = m_desk.tell(visit::LightSet{
            swap.id, step->id, visit::advisedTurns(now, state.ground->model(swap.lamphouse))});
        if (!no.isEmpty())
            return say(no.join(u' '));
    }
    visit::Did did;
    did.swap = swap.id;
    did.step = step->id;
    endStep(did);
}

void LightPresenter::owe()
{
    const visit::VisitState state = m_desk.seen();
    if (const procedure::Step* step = stepOf(state))
        endStep(visit::Owed{state.swaps[m_swap].id, step->id});
}

void LightPresenter::endStep(const visit::Body& body)
{
    const QStringList no = m_desk.tell(body);
    if (!no.isEmpty())
        return say(no.join(u' '));
    m_mind.putsRight = -1;
    m_mind.asked.clear();
    m_mind.said.clear();
    fillBox({});
    refresh();
    if (!stepOf(m_desk.seen()))
        Q_EMIT finished();
}

} // namespace coldarc::ui
