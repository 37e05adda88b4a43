#include "ui/visit/visits_presenter.h"

#include "core/procedure/follow_up.h"
#include "core/visit/evolve.h"
#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/site/site_words.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_entry.h"
#include "ui/visit/words_settlement.h"

#include <algorithm>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

QString rowOf(const VisitLine& line)
{
    return u"visit:"_s + line.visit.text();
}

QString rowOf(const visit::PlannedVisit& plan)
{
    return u"plan:"_s + plan.visit.text();
}

QString rowOf(const OwedThere& owed)
{
    return u"owed:"_s + owed.lamphouse.text();
}

bool isOver(const VisitLine& line)
{
    return line.state != u"open"_s && line.state != u"making-safe"_s;
}

/// Broken between lines behind its commas, and never within the name of a screen.
QString keptTogether(QString place)
{
    for (qsizetype at = place.indexOf(u',') + 2; at > 1 && at < place.size(); ++at) {
        if (place[at] == u' ' && place[at - 1] != u',')
            place[at] = QChar::Nbsp;
    }
    return place;
}

QString stateWords(const QString& state)
{
    if (state == u"open"_s)
        return VisitsPresenter::tr("unfinished");
    if (state == u"making-safe"_s)
        return VisitsPresenter::tr("being made safe");
    if (state == u"done"_s)
        return VisitsPresenter::tr("done");
    if (state == u"as-it-was"_s)
        return VisitsPresenter::tr("left as it was");
    if (state == u"as-it-is"_s)
        return VisitsPresenter::tr("left as it is");
    if (state == u"out-of-use"_s)
        return VisitsPresenter::tr("left out of use");
    return state;
}

QString swapsText(qsizetype swaps)
{
    return swaps == 1 ? VisitsPresenter::tr("1 lamp") : VisitsPresenter::tr("%1 lamps").arg(swaps);
}

QString stepsText(qsizetype steps)
{
    return steps == 1 ? VisitsPresenter::tr("1 step") : VisitsPresenter::tr("%1 steps").arg(steps);
}

/// Where one swap of an open visit stands: the step in hand, the wait behind it, what is owed.
CardLine lineOf(const visit::VisitState& state, const visit::SwapState& swap)
{
    CardLine line;
    line.id = swap.id.text();
    line.text = placeOf(state, swap.lamphouse);
    const visit::NextStep next =
        state.isOpen() ? visit::nextStep(state, swap, state.lead) : visit::NextStep();
    QStringList parts;
    if (!state.end.isEmpty())
        parts << endWords(state.end);
    else if (!next.step)
        parts << VisitsPresenter::tr("nothing is left to do");
    else
        parts << VisitsPresenter::tr("next: %1").arg(next.step->title);
    if (const visit::WaitClock* wait = visit::waitBehind(state, next.act, next.unmet)) {
        parts << (wait->asksForFan ? VisitsPresenter::tr("asks whether the fan ran on")
                                   : VisitsPresenter::tr("waits %1").arg(leftText(*wait)));
    }
    QStringList owed;
    for (const procedure::Step& step : swap.steps) {
        if (swap.record(step.id).status == visit::StepRecord::Status::Owed)
            owed << step.title;
    }
    if (!owed.isEmpty())
        parts << VisitsPresenter::tr("owed: %1").arg(owed.join(u", "_s));
    line.sub = parts.join(u" \u00b7 "_s);
    return line;
}

QString leftoverId(qsizetype index)
{
    return u"leftover:%1"_s.arg(index);
}

/// What the workspace did not take of a closed visit, and what can be done about it.
CardLine lineOf(const visit::Leftover& leftover, qsizetype index, const site::SiteDocument& site)
{
    CardLine line;
    line.id = leftoverId(index);
    line.text = leftover.lamphouse.isEmpty() ? VisitsPresenter::tr("Lamps of this visit")
                                             : nameOfLamphouse(site, leftover.lamphouse);
    if (!leftover.lamp.serial.isEmpty())
        line.text += u", "_s + leftover.lamp.serial;
    line.sub = wordsFor(leftover);
    line.act = actFor(leftover);
    return line;
}

} // namespace

VisitsPresenter::VisitsPresenter(VisitSources sources, QObject* parent)
    : QObject(parent)
    , m_sources(std::move(sources))
{
}

void VisitsPresenter::setWho(const PersonId& who)
{
    m_who = who;
    m_view.chosen.clear(); // what is nearest for this person
    m_choosesNearest = true;
    m_asked.clear();
    refresh();
}

void VisitsPresenter::setReading()
{
    m_isReading = true;
    m_view.canOpen = false;
    refresh();
}

QString VisitsPresenter::dayText(people::Day day) const
{
    const people::Day today = dayOf(m_sources.clock.now().wall);
    if (day == today)
        return tr("tonight");
    return day < today ? tr("was due %1").arg(people::isoText(day)) : people::isoText(day);
}

void VisitsPresenter::readLists()
{
    m_message.clear();
    m_done.clear();
    m_visits.clear();
    m_plans.clear();
    m_owed.clear();
    m_states.clear();
    if (const auto visits = m_sources.shelf.all())
        m_visits = *visits;
    else
        m_message = tr("The visits could not be read. Nothing was changed. Start the program again.");
    if (auto plans = m_sources.plans.all())
        m_plans = std::move(*plans);
    else
        m_message = tr("What is planned could not be read. Nothing was changed. Start the program again.");
    if (const auto owed = owedThere(m_sources))
        m_owed = *owed;
    else
        m_message = tr("What is owed could not be read. Nothing was changed. Start the program again.");
    for (const VisitLine& line : std::as_const(m_visits)) {
        if (isOver(line))
            continue;
        if (const auto state = m_sources.shelf.state(line.visit))
            m_states.insert(rowOf(line), *state);
        else
            m_message =
                tr("The visit at %1 cannot be read to its end. Nothing was changed; a backup may hold "
                   "it whole.")
                    .arg(line.siteText);
    }
}

void VisitsPresenter::refresh()
{
    readLists();
    look();
}

void VisitsPresenter::look()
{
    VisitsView view = m_view;
    view.message = m_done.isEmpty() ? m_message : m_done;
    fillLists(view);
    fillCard(view);
    show(view);
}

void VisitsPresenter::fillLists(VisitsView& view) const
{
    const people::Day today = dayOf(m_sources.clock.now().wall);
    view.tonight.clear();
    view.unfinished.clear();
    view.sentBack.clear();
    view.owed.clear();
    view.coming.clear();
    view.closed.clear();
    QStringList nearest; // what is most likely wanted, first
    for (const VisitLine& line : m_visits) {
        QStringList sub{stateWords(line.state), swapsText(line.swaps)};
        if (!line.leftovers.isEmpty())
            sub << tr("lamps not carried over");
        if (line.alteredReviews > 0)
            sub << tr("a review is not as it was written");
        const RowView row{rowOf(line), keptTogether(line.siteText), sub.join(u" \u00b7 "_s),
                          momentText(line.openedAt, m_sources.zone).left(10)};
        if (line.sentBack)
            view.sentBack.append(
                {row.id, row.title, tr("sent back by %1").arg(line.sentBack->by), row.aside});
        else
            (isOver(line) ? view.closed : view.unfinished).append(row);
        if (!isOver(line) && dayOf(line.openedAt) == today)
            nearest << row.id;
    }
    for (const visit::PlannedVisit& plan : m_plans) {
        const auto site = m_sources.sites.load(plan.site);
        const RowView row{rowOf(plan), site ? site->site.name : plan.site.text(),
                          swapsText(static_cast<qsizetype>(plan.swaps.size())), dayText(plan.day)};
        (plan.day <= today ? view.tonight : view.coming).append(row);
    }
    for (const OwedThere& owed : m_owed) {
        const auto site = m_sources.sites.load(owed.site);
        if (!site || !site->lamphouse(owed.lamphouse))
            continue;
        QStringList sub{nameOfLamphouse(*site, owed.lamphouse), stepsText(owed.steps.size())};
        if (isTakenUp(owed))
            sub << tr("taken up by an unfinished visit");
        view.owed.append({rowOf(owed), site->site.name, sub.join(u" \u00b7 "_s),
                          tr("since %1").arg(momentText(owed.steps.first().since, m_sources.zone).left(10))});
    }
    for (const QList<RowView>* list :
         {&view.tonight, &view.unfinished, &view.sentBack, &view.owed, &view.coming, &view.closed}) {
        for (const RowView& row : *list)
            nearest << row.id;
    }
    if (nearest.contains(view.chosen))
        return;
    const bool isOnlyOver = view.tonight.isEmpty() && view.unfinished.isEmpty() && view.sentBack.isEmpty() &&
                            view.owed.isEmpty() && view.coming.isEmpty();
    view.chosen = isOnlyOver || !m_choosesNearest ? QString() : nearest.first();
}

void VisitsPresenter::fillCard(VisitsView& view) const
{
    view.card.reset();
    for (const visit::PlannedVisit& plan : m_plans) {
        if (rowOf(plan) == view.chosen)
            view.card = planCard(plan);
    }
    for (const VisitLine& line : m_visits) {
        if (rowOf(line) == view.chosen)
            view.card = visitCard(line);
    }
    for (const OwedThere& owed : m_owed) {
        if (rowOf(owed) == view.chosen)
            view.card = owedCard(owed);
    }
    if (m_isReading && view.card)
        leaveForReading(view);
    const auto sites = m_sources.sites.all();
    if (view.card)
        view.empty.clear();
    else if (sites && sites->empty())
        view.empty =
            tr("No site is known yet. Add one on the page Sites, then the lamps in your van on the page "
               "Van stock. A visit can be opened as soon as both are there.");
    else if (!m_choosesNearest)
        view.empty = tr("Choose a visit at the left, or open a new one.");
    else
        view.empty = tr("Nothing is unfinished and nothing is planned. A visit that nobody planned is opened "
                        "with New visit: site, screen, reason.");
}

void VisitsPresenter::leaveForReading(VisitsView& view) const
{
    const bool isVisitOver = std::ranges::any_of(
        m_visits, [&](const VisitLine& line) { return rowOf(line) == view.chosen && isOver(line); });
    VisitCard& card = *view.card;
    card.action.text = isVisitOver ? tr("What was done") : QString();
    card.look.clear();
    card.canDrop = false;
    card.kit = {};
    for (CardLine& line : card.lines)
        line.act.clear();
}

std::optional<VisitCard> VisitsPresenter::planCard(const visit::PlannedVisit& plan) const
{
    const auto site = m_sources.sites.load(plan.site);
    if (!site)
        return std::nullopt;
    VisitCard card;
    card.title = site->site.name;
    QStringList sub{dayText(plan.day), plan.reason};
    sub.removeAll(QString());
    card.sub = sub.join(u" \u00b7 "_s);
    const QList<visit::FittedLamp> fitted = fittedAt(*site, m_sources);
    QList<SwapTypes> types;
    card.linesName = tr("Lamps due");
    for (const visit::PlannedSwap& swap : plan.swaps) {
        CardLine line;
        line.id = swap.lamphouse.text();
        line.text = nameOfLamphouse(*site, swap.lamphouse);
        const auto old = std::ranges::find(fitted, swap.lamphouse, &visit::FittedLamp::lamphouse);
        const QString out = old == fitted.end() ? tr("lamp in it unknown")
                                                : u"%1, %2"_s.arg(lampText(old->lamp, m_sources.catalogue),
                                                                  hoursLeftText(old->lamp, m_sources));
        QString in = tr("no new lamp put aside yet");
        std::optional<LampTypeId> type;
        if (swap.newLamp) {
            if (const auto lamp = m_sources.lamps.lamp(*swap.newLamp)) {
                type = lamp->lamp.type;
                in = tr("new: %1").arg(
                    lampText({lamp->lamp.id, type, lamp->lamp.serial, {}}, m_sources.catalogue));
            }
        }
        types.append({swap.lamphouse, type});
        line.sub = u"%1 \u00b7 %2"_s.arg(out, in);
        card.lines.append(line);
    }
    const Stamp now = m_sources.clock.now();
    const bool isTonight = plan.day <= dayOf(now.wall);
    const TimeWords words = timeWords(neededFor(*site, fitted, types, m_sources),
                                      site::nextShow(*site, now.wall), now.wall, m_sources.zone);
    card.needs = words.needs;
    card.gap = isTonight ? words.gap : QString();
    card.verdict = isTonight ? words.verdict : QString();
    card.kit = kitOf(plan, *site);
    card.action = {rowOf(plan), tr("Open this visit"), {}, ActionView::Stand::Ready};
    card.canDrop = m_asked != rowOf(plan);
    if (!card.canDrop) {
        card.action.text.clear();
        card.dropQuestion = tr("Take the visit to %1 (%2) off the list? It does not come back; a new visit "
                               "can be opened instead.")
                                .arg(card.title, dayText(plan.day));
    }
    return card;
}

bool VisitsPresenter::isTakenUp(const OwedThere& owed) const
{
    return std::ranges::any_of(m_states, [&](const visit::VisitState& state) {
        return state.isOpen() && std::ranges::any_of(state.swaps, [&](const visit::SwapState& swap) {
                   return swap.followsUp && state.ground->lamphouses[swap.lamphouse] == owed.lamphouse;
               });
    });
}

QString VisitsPresenter::nameOf(const PersonId& id) const
{
    const auto person = m_sources.people.person(id);
    return person ? person->name : id.text();
}

std::optional<VisitCard> VisitsPresenter::owedCard(const OwedThere& owed) const
{
    const auto site = m_sources.sites.load(owed.site);
    if (!site)
        return std::nullopt;
    VisitCard card;
    card.title = site->site.name;
    card.sub = tr("%1 \u00b7 left by an earlier visit, done without a new lamp")
                   .arg(nameOfLamphouse(*site, owed.lamphouse));
    card.linesName = tr("Owed");
    for (const visit::OwedStep& step : owed.steps) {
        CardLine line;
        line.id = step.step.text();
        line.text = step.title;
        line.sub = tr("since %1, left by %2").arg(momentText(step.since, m_sources.zone), nameOf(step.by));
        card.lines.append(line);
    }
    const QList<visit::FittedLamp> fitted = fittedAt(*site, m_sources);
    const Stamp now = m_sources.clock.now();
    const TimeWords words = timeWords(neededFor(*site, fitted, owed, m_sources),
                                      site::nextShow(*site, now.wall), now.wall, m_sources.zone);
    card.needs = words.needs;
    card.gap = words.gap;
    card.verdict = words.verdict;
    card.kit = kitOf(owed, *site);
    card.action = {rowOf(owed), tr("Do what is owed"), {}, ActionView::Stand::Ready};
    if (isTakenUp(owed)) { // or two logbooks would tell of one machine
        card.action.stand = ActionView::Stand::Waits;
        card.action.waits = tr("An unfinished visit has taken it up: go on there");
    }
    return card;
}

TickListView VisitsPresenter::kitOf(const OwedThere& owed, const site::SiteDocument& site) const
{
    TickListView kit;
    kit.label = tr("In the van");
    kit.reach = Reach::Hand;
    const site::Lamphouse* lamphouse = site.lamphouse(owed.lamphouse);
    const site::Projector* projector = lamphouse ? site.projector(lamphouse->projector) : nullptr;
    const procedure::Procedure* procedure =
        projector ? m_sources.readable.procedureFor(projector->model) : nullptr;
    if (!procedure)
        return kit;
    QStringList tools;
    for (const procedure::Step& step : procedure::followUpSteps(*procedure, {}, owed.ids()))
        tools += step.tools;
    tools.removeDuplicates();
    for (const QString& tool : std::as_const(tools))
        kit.items.append({u"tool:"_s + tool, tool, {}});
    kit.ticked = m_ticked.value(rowOf(owed));
    return kit;
}

TickListView VisitsPresenter::kitOf(const visit::PlannedVisit& plan, const site::SiteDocument& site) const
{
    TickListView kit;
    kit.label = tr("In the van");
    kit.reach = Reach::Hand;
    QStringList tools;
    for (const visit::PlannedSwap& swap : plan.swaps) {
        const QString place = nameOfLamphouse(site, swap.lamphouse);
        const auto lamp = swap.newLamp ? m_sources.lamps.lamp(*swap.newLamp)
                                       : Result<lamps::LampInCustody>(fail(Error::Kind::NotFound, {}));
        QString text = tr("one that its model takes");
        if (lamp)
            text = lampText({lamp->lamp.id, lamp->lamp.type, lamp->lamp.serial, {}}, m_sources.catalogue);
        if (lamp && !lamps::canMove(lamp->custody, lamps::Custody::Fitted))
            text = tr("%1 has gone elsewhere since; take another that its model takes").arg(text);
        kit.items.append(
            {u"lamp:"_s + swap.lamphouse.text(), tr("New lamp in its box, for %1").arg(place), text});
        kit.items.append(
            {u"box:"_s + swap.lamphouse.text(), tr("Empty box for the lamp that comes out"), place});
        const site::Lamphouse* lamphouse = site.lamphouse(swap.lamphouse);
        const site::Projector* projector = lamphouse ? site.projector(lamphouse->projector) : nullptr;
        const procedure::Procedure* procedure =
            projector ? m_sources.readable.procedureFor(projector->model) : nullptr;
        if (!procedure)
            continue;
        for (const procedure::Step& step : procedure->steps)
            tools += step.tools;
    }
    addGear(kit.items);
    tools.removeDuplicates();
    for (const QString& tool : std::as_const(tools))
        kit.items.append({u"tool:"_s + tool, tool, {}});
    kit.ticked = m_ticked.value(rowOf(plan));
    return kit;
}

void VisitsPresenter::addGear(QList<TickItem>& items) const
{
    const auto mine = m_sources.gear.assignedTo(m_who);
    for (const catalogue::GearKind& kind : m_sources.catalogue.gear()) {
        QString sub = tr("none is listed as yours");
        if (mine) {
            for (const people::GearItem& item : *mine) {
                if (item.kind != kind.id.text())
                    continue;
                const auto verdict = people::gearVerdict(item, dayOf(m_sources.clock.now().wall),
                                                         people::GearCondition::NoDamageSeen);
                sub = verdict.isFit() ? item.identifier
                                      : tr("%1: %2").arg(item.identifier, wordFor(verdict.refusals.front()));
                if (verdict.isFit())
                    break;
            }
        }
        items.append({u"gear:"_s + kind.id.text(), kind.name, sub});
    }
}

std::optional<VisitCard> VisitsPresenter::visitCard(const VisitLine& line) const
{
    VisitCard card;
    card.title = line.siteText;
    card.sub = u"%1 \u00b7 %2"_s.arg(tr("opened %1").arg(momentText(line.openedAt, m_sources.zone)),
                                     stateWords(line.state));
    const QString row = rowOf(line);
    const visit::VisitState* read = stateOf(line);
    card.action = {row, tr("What was done"), {}, ActionView::Stand::Ready};
    if (line.sentBack) {
        card.said =
            tr("Sent back by %1, %2: %3")
                .arg(line.sentBack->by, momentText(line.sentBack->at, m_sources.zone), line.sentBack->text);
        card.action.text = tr("Look and answer");
    }
    if (line.alteredReviews > 0)
        card.said =
            (card.said.isEmpty() ? QString() : card.said + u'\n') + alteredReviewsText(line.alteredReviews);
    if (!read)
        return card;
    if (read->isOpen()) {
        card.action.text = tr("Resume");
        card.look = tr("What was done");
    }
    const Stamp now = m_sources.clock.now();
    const visit::VisitState state = read->isOpen() ? visit::seenAt(*read, now) : *read;
    card.linesName = read->end.isEmpty() ? tr("Where it stands") : tr("How it was left");
    if (line.sentBack && !line.sentBack->remarks.isEmpty()) {
        card.linesName = tr("Remarks, and how it was left");
        for (const EntryRemark& remark : line.sentBack->remarks)
            card.lines.append({{}, remark.text, tr("on entry %1").arg(remark.entry), {}});
    }
    for (const visit::SwapState& swap : state.swaps)
        card.lines.append(lineOf(state, swap));
    for (qsizetype index = 0; index < line.leftovers.size(); ++index)
        card.lines.append(lineOf(line.leftovers[index], index, state.ground->opening.site));
    if (!state.isOpen())
        return card;
    if (const auto next = site::nextShow(state.ground->opening.site, now.wall))
        card.gap = timeWords({}, next, now.wall, m_sources.zone).gap;
    return card;
}

void VisitsPresenter::choose(const QString& row)
{
    m_asked.clear();
    m_done.clear();
    m_choosesNearest = true;
    VisitsView view = m_view;
    view.chosen = row;
    view.message = m_message;
    fillCard(view);
    show(view);
}

void VisitsPresenter::tick(const QStringList& kit)
{
    m_ticked.insert(m_view.chosen, kit);
    look();
}

void VisitsPresenter::go()
{
    for (const VisitLine& line : std::as_const(m_visits)) {
        if (rowOf(line) != m_view.chosen)
            continue;
        const visit::VisitState* state = stateOf(line);
        if (state && state->isOpen())
            return Q_EMIT resumeRequested(VisitId(line.visit));
        return Q_EMIT whatWasDoneRequested(VisitId(line.visit));
    }
    for (const visit::PlannedVisit& plan : m_plans) {
        if (rowOf(plan) == m_view.chosen)
            return Q_EMIT openRequested(visit::PlannedVisit(plan));
    }
    for (const OwedThere& owed : m_owed) {
        if (rowOf(owed) == m_view.chosen)
            return Q_EMIT followUpRequested(SiteId(owed.site), LamphouseId(owed.lamphouse));
    }
}

const visit::VisitState* VisitsPresenter::stateOf(const VisitLine& line) const
{
    const QString row = rowOf(line);
    if (!m_states.contains(row)) {
        if (const auto state = m_sources.shelf.state(line.visit); state && state->ground)
            m_states.insert(row, *state);
    }
    const auto found = m_states.constFind(row);
    return found == m_states.constEnd() ? nullptr : &*found;
}

void VisitsPresenter::lookBack()
{
    for (const VisitLine& line : std::as_const(m_visits)) {
        if (rowOf(line) == m_view.chosen)
            return Q_EMIT whatWasDoneRequested(VisitId(line.visit));
    }
}

void VisitsPresenter::settle(const QString& card)
{
    for (const VisitLine& line : std::as_const(m_visits)) {
        for (qsizetype index = 0; rowOf(line) == m_view.chosen && index < line.leftovers.size(); ++index) {
            if (leftoverId(index) == card)
                return Q_EMIT settleRequested(VisitId(line.visit), countersFor(line.leftovers.value(index)));
        }
    }
}

void VisitsPresenter::askToDrop()
{
    m_asked = m_view.chosen;
    look();
}

void VisitsPresenter::leaveDrop()
{
    m_asked.clear();
    look();
}

void VisitsPresenter::drop()
{
    const QString row = std::exchange(m_asked, QString());
    const auto plan = std::ranges::find_if(
        m_plans, [&](const visit::PlannedVisit& one) { return !row.isEmpty() && rowOf(one) == row; });
    if (plan == m_plans.end())
        return;
    const auto site = m_sources.sites.load(plan->site);
    const QString done = tr("The visit to %1 (%2) was taken off the list.")
                             .arg(site ? site->site.name : plan->site.text(), dayText(plan->day));
    const auto dropped = m_sources.plans.drop(plan->visit);
    m_choosesNearest = !dropped;
    readLists();
    m_done = dropped ? done : tr("The plan could not be taken off the list. Nothing was changed.");
    look();
}

void VisitsPresenter::show(VisitsView view)
{
    const bool isSame = view == m_view;
    m_view = std::move(view);
    if (!isSame)
        Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
