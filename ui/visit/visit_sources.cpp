#include "ui/visit/visit_sources.h"

#include "ui/parts/quantities.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

QString tr(const char* text)
{
    return QCoreApplication::translate("visits", text);
}

std::optional<lamps::Fit> stayIn(const LamphouseId& lamphouse, const LampId& lamp,
                                 const VisitSources& sources)
{
    const auto fits = sources.lamps.fitsIn(lamphouse);
    if (!fits)
        return std::nullopt;
    const auto found =
        std::ranges::find_if(*fits, [&](const lamps::Fit& fit) { return fit.lamp == lamp && !fit.end; });
    return found == fits->end() ? std::nullopt : std::optional(*found);
}

std::optional<lamps::CounterReading> lastReading(const LamphouseId& lamphouse, const VisitSources& sources)
{
    const auto readings = sources.lamps.readings(lamphouse);
    return readings && !readings->empty() ? std::optional(readings->back()) : std::nullopt;
}

procedure::LampFacts factsOf(const std::optional<LampTypeId>& id, const catalogue::ProjectorModel& model,
                             const VisitSources& sources)
{
    const catalogue::LampType* type = id ? sources.catalogue.lampType(*id) : nullptr;
    return type ? procedure::factsOf(*type, model) : procedure::LampFacts();
}

/// Those among these people who were not told yet that their lock was removed here.
QSet<PersonId> untoldAt(const SiteId& site, const QList<PersonId>& people, const VisitSources& sources)
{
    QSet<PersonId> untold;
    QSet<PersonId> open(people.begin(), people.end());
    const auto visits = sources.shelf.all();
    for (const VisitLine& line : visits ? *visits : QList<VisitLine>()) {
        if (line.site != site || open.isEmpty())
            continue;
        const auto state = sources.shelf.state(line.visit);
        if (!state)
            continue;
        untold += state->removalsToTell & open;
        open -= state->removalsToTell;
        for (const visit::PersonFacts& known : state->people)
            open.remove(known.id);
    }
    return untold;
}

} // namespace

lamps::InHand inHand(const VisitShelf& shelf)
{
    lamps::InHand hand;
    const auto visits = shelf.all();
    for (const VisitLine& line : visits ? *visits : QList<VisitLine>()) {
        if (line.state != u"open"_s && line.state != u"making-safe"_s)
            continue;
        if (const auto state = shelf.state(line.visit))
            visit::addInHand(hand, *state, line.openedAt);
    }
    return hand;
}

QList<visit::Attendant> attendantsOf(const QList<PersonId>& people, const SiteId& site,
                                     const VisitSources& sources)
{
    const QSet<PersonId> untold = untoldAt(site, people, sources);
    QList<visit::Attendant> attendants;
    for (const PersonId& id : people) {
        const auto person = sources.people.person(id);
        const auto held = sources.people.authorisationsOf(id);
        const auto gear = sources.gear.assignedTo(id);
        if (person && held && gear)
            attendants.append({*person, *held, untold.contains(id), *gear});
    }
    return attendants;
}

QList<visit::FittedLamp> fittedAt(const site::SiteDocument& site, const VisitSources& sources)
{
    QList<visit::FittedLamp> fitted;
    for (const site::Lamphouse& lamphouse : site.lamphouses) {
        if (!lamphouse.fitted)
            continue;
        const auto lamp = sources.lamps.lamp(*lamphouse.fitted);
        if (!lamp)
            continue;
        fitted.append(
            {lamphouse.id, visit::fittedFacts(lamp->lamp, stayIn(lamphouse.id, lamp->lamp.id, sources),
                                              lastReading(lamphouse.id, sources))});
    }
    return fitted;
}

std::optional<visit::NeededTime> neededFor(const site::SiteDocument& site,
                                           const QList<visit::FittedLamp>& fitted,
                                           const QList<SwapTypes>& swaps, const VisitSources& sources)
{
    visit::NeededTime sum;
    for (const SwapTypes& swap : swaps) {
        const site::Lamphouse* lamphouse = site.lamphouse(swap.lamphouse);
        const site::Projector* projector = lamphouse ? site.projector(lamphouse->projector) : nullptr;
        const catalogue::ProjectorModel* model =
            projector ? sources.catalogue.model(projector->model) : nullptr;
        const procedure::Procedure* procedure = model ? sources.readable.procedureFor(model->id) : nullptr;
        if (!procedure)
            return std::nullopt;
        const auto old = std::ranges::find(fitted, swap.lamphouse, &visit::FittedLamp::lamphouse);
        procedure::Facts facts;
        facts.oldLamp = factsOf(old == fitted.end() ? std::nullopt : old->lamp.type, *model, sources);
        facts.newLamp = factsOf(swap.newType, *model, sources);
        sum = sum + visit::timeNeeded(*procedure, *model, facts);
    }
    return swaps.isEmpty() ? std::nullopt : std::optional(sum);
}

QList<visit::OwedPlan> OwedThere::plan() const
{
    QList<visit::OwedPlan> plan;
    for (const visit::OwedStep& step : steps)
        plan.append({step.step, step.visit, step.since, step.lamp});
    return plan;
}

QList<StepId> OwedThere::ids() const
{
    QList<StepId> ids;
    for (const visit::OwedStep& step : steps)
        ids.append(step.step);
    return ids;
}

QString OwedThere::titles() const
{
    QStringList titles;
    for (const visit::OwedStep& step : steps)
        titles << step.title;
    return titles.join(u", "_s);
}

Result<QList<OwedThere>> owedThere(const VisitSources& sources)
{
    const auto open = sources.owed.open();
    if (!open)
        return tl::unexpected(open.error());
    QList<OwedThere> all;
    for (const visit::OwedStep& step : *open) {
        const auto isSame = [&](const OwedThere& one) {
            return one.lamphouse == step.lamphouse && one.steps.first().lamp == step.lamp;
        };
        auto there = std::ranges::find_if(all, isSame);
        if (there == all.end())
            there = all.insert(all.end(), OwedThere{step.site, step.lamphouse, {}});
        if (!there->ids().contains(step.step))
            there->steps.append(step);
    }
    return all;
}

std::optional<visit::NeededTime> neededFor(const site::SiteDocument& site,
                                           const QList<visit::FittedLamp>& fitted, const OwedThere& owed,
                                           const VisitSources& sources)
{
    const auto lamp = std::ranges::find(fitted, owed.lamphouse, &visit::FittedLamp::lamphouse);
    const site::Lamphouse* lamphouse = site.lamphouse(owed.lamphouse);
    const site::Projector* projector = lamphouse ? site.projector(lamphouse->projector) : nullptr;
    const catalogue::ProjectorModel* model = projector ? sources.catalogue.model(projector->model) : nullptr;
    const procedure::Procedure* procedure = model ? sources.readable.procedureFor(model->id) : nullptr;
    if (!procedure)
        return std::nullopt;
    const auto facts = factsOf(lamp == fitted.end() ? std::nullopt : lamp->lamp.type, *model, sources);
    return visit::timeNeeded(*procedure, *model, facts, owed.ids());
}

QString lampText(const visit::LampFacts& lamp, const catalogue::Catalogue& catalogue)
{
    const catalogue::LampType* type = lamp.type ? catalogue.lampType(*lamp.type) : nullptr;
    const QString typeText = type ? type->code : tr("type unknown");
    return lamp.serial.isEmpty() ? typeText : u"%1, %2"_s.arg(typeText, lamp.serial);
}

QString hoursLeftText(const visit::LampFacts& lamp, const VisitSources& sources)
{
    const QLocale locale;
    if (!lamp.hours)
        return tr("hours unknown");
    QString hours = hoursText(*lamp.hours, locale);
    if (lamp.hoursAt)
        hours = tr("%1 on %2").arg(hours, people::isoText(dayOf(*lamp.hoursAt, sources.zone)));
    const auto left = visit::warrantyHoursLeft(lamp, sources.catalogue);
    if (!left)
        return hours;
    return *left >= 0 ? tr("%1, %2 left of its warranty").arg(hours, hoursText(*left, locale))
                      : tr("%1, %2 past its warranty").arg(hours, hoursText(std::abs(*left), locale));
}

TimeWords timeWords(const std::optional<visit::NeededTime>& needed, const std::optional<site::NextShow>& show,
                    WallTime now, const QTimeZone& zone)
{
    TimeWords words;
    if (needed)
        words.needs = tr("needs %1").arg(spanText(needed->total()));
    if (!show) {
        words.gap = tr("no show is known here");
        return words;
    }
    const auto gap = std::chrono::duration_cast<std::chrono::minutes>(show->start - now);
    words.gap = tr("gap %1, next show %2").arg(spanText(gap), wallText(show->start, zone));
    if (!needed)
        return words;
    const auto spare = gap - needed->total();
    words.verdict = spare >= std::chrono::minutes(0)
                        ? tr("%1 to spare").arg(spanText(spare))
                        : tr("%1 too short: the light can be owed to a later visit, the rest cannot")
                              .arg(spanText(-spare));
    return words;
}

} // namespace coldarc::ui
