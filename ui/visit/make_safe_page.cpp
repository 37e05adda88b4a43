#include "ui/visit/make_safe_page.h"

#include "core/machine/reach.h"
#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/side_page.h"
#include "ui/parts/text_label.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_effect.h"

#include <QApplication>
#include <QCoreApplication>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Index;
using machine::kNone;

constexpr int kMostSteps = 60; // longer than any way there is

QString words(const char* text)
{
    return QCoreApplication::translate("makeSafe", text);
}

QString stepWords(const visit::VisitState& state, const machine::SafeStep& step)
{
    switch (step.kind) {
    case machine::SafeStep::Kind::Hold:
        return holdWordsOf(step.wait);
    case machine::SafeStep::Kind::Report:
        return step.event.what == machine::Happening::LocksMissed ? words("Look at every lock and breaker")
                                                                  : words("Answer the count that differs");
    default:
        break;
    }
    QString text = orderOf(step.act.effect);
    if (step.act.point != kNone)
        text = words("%1: %2").arg(text, pointName(state, step.act.point));
    if (step.act.person != kNone && step.act.person != state.lead)
        text = words("%1 (%2)").arg(text, state.people[step.act.person].name);
    return text;
}

machine::State afterStep(const machine::Plant& plant, const machine::State& state,
                         const machine::SafeStep& step)
{
    switch (step.kind) {
    case machine::SafeStep::Kind::Hold:
        return machine::whenOver(state, step.wait, step.lamphouse);
    case machine::SafeStep::Kind::Report: {
        machine::Event event = step.event;
        if (event.what == machine::Happening::LocksMissed)
            event.what = machine::Happening::LocksSeen; // as it is hoped
        return machine::after(plant, state, event);
    }
    default:
        return machine::after(plant, state, step.act);
    }
}

} // namespace

MakeSafeView makeSafeViewOf(const visit::VisitState& state, const visit::SwapState& swap)
{
    const Index group = state.plant.lamphouse[swap.lamphouse].group;
    MakeSafeView view;
    view.place = placeOf(state, swap.lamphouse);
    view.end = safeEndWordsOf(state, swap);
    for (Index lamphouse = 0; lamphouse < state.plant.lamphouses; ++lamphouse) {
        if (state.plant.lamphouse[lamphouse].group == group &&
            !machine::isLookedAt(state.machine, lamphouse)) {
            view.steps = {orderOf(machine::Effect::Find), words("Then as it is found")};
            return view;
        }
    }
    machine::State ahead = state.machine;
    for (int count = 0; count < kMostSteps; ++count) {
        const machine::SafeStep step = machine::nextSafeStep(state.plant, ahead, group, state.lead);
        if (step.kind == machine::SafeStep::Kind::Done)
            break;
        view.steps.append(stepWords(state, step));
        ahead = afterStep(state.plant, ahead, step);
    }
    view.steps.append(words("Sign with the site"));
    return view;
}

MakeSafePage::MakeSafePage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_place(new SectionLabel(QString(), this))
    , m_end(new TextLabel(TextRole::Heading, Ink::Text, this))
    , m_steps(new TextLabel(TextRole::Body, Ink::Text, this))
    , m_action(new ActionButton(clock, this))
{
    setObjectName(u"makeSafePage"_s);
    setFocusPolicy(Qt::ClickFocus); // Tab halts at its parts
    m_end->setObjectName(u"makeSafeEnd"_s);
    m_steps->setObjectName(u"makeSafeSteps"_s);
    m_steps->setLeading(6);
    auto* title = new TextLabel(TextRole::Title, Ink::Text, this);
    title->setText(tr("Make it safe?"));
    auto* why = new TextLabel(TextRole::Body, Ink::Quiet, this);
    why->setText(tr("The swaps of this visit go no further then. No wait is shortened; these steps follow:"));
    auto* body = new QWidget;
    auto* inside = new QVBoxLayout(body);
    inside->setContentsMargins(0, 0, 8, 0);
    inside->addWidget(m_steps);
    inside->addStretch(1);
    QScrollArea* scroll = bareScroll(body, this);
    auto* leave = new PlainButton(tr("Back to the bench"), Reach::Glove, PlainButton::Weight::Quiet, this);
    leave->setObjectName(u"leave"_s);
    leave->setKeyCap(u"Esc"_s);
    m_action->setMaximumWidth(520);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(leave, 0, Qt::AlignBottom);
    buttons->addSpacing(gloveGap(*this));
    buttons->addStretch(1);
    buttons->addWidget(m_action, 1000, Qt::AlignBottom);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(40, 26, 40, 24);
    column->setSpacing(14);
    column->addWidget(m_place);
    column->addWidget(title);
    column->addWidget(m_end);
    column->addWidget(why);
    column->addWidget(scroll, 1);
    column->addLayout(buttons);
    connect(m_action, &ActionButton::done, this, &MakeSafePage::makeSafeRequested);
    connect(leave, &QAbstractButton::clicked, this, &MakeSafePage::leaveRequested);
    onEscape(*this, [this] { Q_EMIT leaveRequested(); });
    onEnter(*this, [this] {
        auto* button = qobject_cast<QAbstractButton*>(QApplication::focusWidget());
        (button && isAncestorOf(button) ? button : m_action)->click();
    });
}

void MakeSafePage::setView(const MakeSafeView& view)
{
    m_place->setText(view.place);
    m_end->setText(view.end);
    QStringList lines;
    for (qsizetype i = 0; i < view.steps.size(); ++i)
        lines.append(u"%1.\u2002%2"_s.arg(i + 1).arg(view.steps.at(i)));
    m_steps->setText(lines.join(u'\n'));
    // Each time it comes up the press is held anew: the key that brought it up must not go through it.
    m_action->setView(
        {u"make-safe/%1"_s.arg(++m_times), tr("Make it safe"), QString(), ActionView::Stand::Ready});
    setFocus(Qt::OtherFocusReason);
}

void MakeSafePage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
