#include "ui/visit/new_visit_presenter.h"

#include "core/base/typed_hours.h"
#include "core/label/normalise.h"
#include "ui/parts/not_written.h"
#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/site/site_words.h"

#include <QSet>

#include <algorithm>
#include <array>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr auto kTyped = u"typed";

struct Reason {
    const char16_t* id;
    const char* text;
};
constexpr std::array<Reason, 6> kReasons{{{u"due", QT_TRANSLATE_NOOP("newVisit", "lamp due")},
                                          {u"owed", QT_TRANSLATE_NOOP("newVisit", "what is owed")},
                                          {u"dim", QT_TRANSLATE_NOOP("newVisit", "light dim or flickering")},
                                          {u"dark", QT_TRANSLATE_NOOP("newVisit", "will not light")},
                                          {u"burst", QT_TRANSLATE_NOOP("newVisit", "burst")},
                                          {u"other", QT_TRANSLATE_NOOP("newVisit", "something else")}}};
constexpr auto kPlanned = u"planned";
constexpr auto kOwed = u"owed";

QString reasonText(const QString& id)
{
    for (const Reason& reason : kReasons) {
        if (id == QStringView(reason.id))
            return NewVisitPresenter::tr(reason.text);
    }
    return {};
}

} // namespace

QString wordsFor(const visit::OpenProblem& problem, const site::SiteDocument& site,
                 const catalogue::Catalogue& catalogue, const std::vector<people::Person>& people,
                 const QTimeZone& zone)
{
    using Kind = visit::OpenProblem::Kind;
    const auto lamphouse = [&](const QString& id) { return nameOfLamphouse(site, LamphouseId(id)); };
    const auto model = [&](const QString& id) { return nameOfModel(catalogue, ModelId(id)); };
    const auto type = [&](const QString& id) {
        const catalogue::LampType* found = catalogue.lampType(LampTypeId(id));
        return found ? found->code : id;
    };
    switch (problem.kind) {
    case Kind::NothingToSwap:
        return NewVisitPresenter::tr("No screen is chosen.");
    case Kind::NobodyLeads:
        return NewVisitPresenter::tr("Nobody leads the visit.");
    case Kind::LeadNotAuthorised: {
        const auto found = std::ranges::find(people, PersonId(problem.about), &people::Person::id);
        const QString name = found == people.end() ? problem.about : found->name;
        return problem.other.isEmpty()
                   ? u"%1: %2."_s.arg(name, wordFor(problem.verdict))
                   : u"%1, %2: %3."_s.arg(name, model(problem.other), wordFor(problem.verdict));
    }
    case Kind::UnknownLamphouse:
        return NewVisitPresenter::tr("The site has no such lamphouse.");
    case Kind::SwappedTwice:
        return NewVisitPresenter::tr("%1 is chosen twice.").arg(lamphouse(problem.about));
    case Kind::LampTwice:
        return NewVisitPresenter::tr("One new lamp is meant for two screens.");
    case Kind::LamphouseInHand:
        return NewVisitPresenter::tr("%1: an unfinished visit is here since %2. Go on there: it stands among "
                                     "the visits.")
            .arg(lamphouse(problem.about), momentText(problem.since.value_or(WallTime()), zone));
    case Kind::LampInHand:
        return NewVisitPresenter::tr(
                   "%1: the new lamp is in the hands of an unfinished visit. Choose another "
                   "one, or read its serial again.")
            .arg(lamphouse(problem.about));
    case Kind::LampInASeat:
        return NewVisitPresenter::tr("%1: a lamp of this type and serial is in a lamphouse already. Read the "
                                     "serial again.")
            .arg(lamphouse(problem.about));
    case Kind::LampGone:
        return NewVisitPresenter::tr("%1: a lamp of this type and serial burst or was given away. Read the "
                                     "serial again.")
            .arg(lamphouse(problem.about));
    case Kind::UnknownModel:
        return NewVisitPresenter::tr("The catalogue does not know the model %1.").arg(problem.about);
    case Kind::NoProcedure:
        return NewVisitPresenter::tr("There is no proved procedure for the %1.").arg(model(problem.about));
    case Kind::LampTypeNotChosen:
        return NewVisitPresenter::tr("%1: no new lamp is chosen.").arg(lamphouse(problem.about));
    case Kind::UnknownLampType:
        return NewVisitPresenter::tr("The catalogue does not know the lamp type %1.").arg(problem.about);
    case Kind::LampTypeNotTaken:
        return NewVisitPresenter::tr("The %1 does not take a %2.")
            .arg(model(problem.about), type(problem.other));
    case Kind::LampPastItsHours:
        return NewVisitPresenter::tr("%1: the new lamp has burnt %2, which is the end of its type's life.")
            .arg(lamphouse(problem.about), hoursText(problem.other.toDouble(), QLocale()));
    case Kind::OwedStepGone:
        return NewVisitPresenter::tr("%1: today's procedure no longer has what is owed (%2).")
            .arg(lamphouse(problem.about), problem.other);
    case Kind::OwedLampUnknown:
        return NewVisitPresenter::tr("%1: the lamp in it is not known, so nothing can be owed to it. Say "
                                     "which it is on the page Sites.")
            .arg(lamphouse(problem.about));
    case Kind::OwedNotProved:
        return NewVisitPresenter::tr("%1: what is owed cannot be done by itself there; no safe order for it "
                                     "is proved.")
            .arg(lamphouse(problem.about));
    case Kind::SiteDoesNotFit:
        return problem.site ? wordsFor(*problem.site, site, catalogue) : problem.about;
    case Kind::MoreThanAVisit:
        return NewVisitPresenter::tr(
            "More than one visit can hold: at most 4 lamphouses, 8 breakers and 4 people "
            "hang together.");
    }
    Q_UNREACHABLE();
}

bool NewVisitPresenter::Pick::isTyped() const
{
    return lamp == QStringView(kTyped);
}

NewVisitPresenter::NewVisitPresenter(VisitSources sources, QObject* parent)
    : QObject(parent)
    , m_sources(std::move(sources))
{
}

void NewVisitPresenter::reset(const PersonId& lead)
{
    m_lead = lead;
    m_visit = VisitId(m_sources.ids.next());
    m_isPlanned = false;
    m_site.reset();
    m_fitted.clear();
    m_stock.clear();
    m_owed.clear();
    m_ticked.clear();
    m_tickedOwed.clear();
    m_picks.clear();
    m_others.clear();
    m_said.clear();
    m_planReason.clear();
    m_reason = QString::fromUtf16(kReasons.front().id);
    if (auto sites = m_sources.sites.all())
        m_sites = std::move(*sites);
    if (auto people = m_sources.people.all())
        m_people = std::move(*people);
    m_inHand = inHand(m_sources.shelf);
    for (const auto& lamps : {m_sources.lamps.vanStock(lead), m_sources.lamps.in(lamps::Custody::InStock)}) {
        for (const lamps::LampInCustody& lamp : lamps ? *lamps : std::vector<lamps::LampInCustody>()) {
            if (!m_inHand.has(lamp.lamp.id))
                m_stock.append(lamp);
        }
    }
}

void NewVisitPresenter::begin(const PersonId& lead)
{
    reset(lead);
    if (m_sites.size() == 1)
        chooseSite(m_sites.front().id.text());
    else
        refresh();
}

void NewVisitPresenter::beginFrom(const PersonId& lead, const visit::PlannedVisit& plan)
{
    reset(lead);
    m_visit = plan.visit;
    m_isPlanned = true;
    chooseSite(plan.site.text());
    for (const visit::PlannedSwap& swap : plan.swaps) {
        m_ticked.append(swap.lamphouse);
        const auto lamp = swap.newLamp ? m_sources.lamps.lamp(*swap.newLamp)
                                       : Result<lamps::LampInCustody>(fail(Error::Kind::NotFound, {}));
        if (!lamp || !lamps::canMove(lamp->custody, lamps::Custody::Fitted) || m_inHand.has(lamp->lamp.id))
            continue; // none was named, or it has gone elsewhere since: one of those at hand
        m_picks[swap.lamphouse].lamp = swap.newLamp->text();
        const auto known = std::ranges::find(m_stock, *swap.newLamp,
                                             [](const lamps::LampInCustody& one) { return one.lamp.id; });
        if (known == m_stock.end())
            m_stock.append(*lamp);
    }
    m_planReason = plan.reason;
    if (!m_planReason.isEmpty())
        m_reason = QString::fromUtf16(kPlanned);
    pickLamps();
    refresh();
}

void NewVisitPresenter::beginWithOwed(const PersonId& lead, const SiteId& site, const LamphouseId& lamphouse)
{
    reset(lead);
    chooseSite(site.text());
    m_ticked.clear();
    tickOwed({lamphouse.text()});
}

void NewVisitPresenter::chooseSite(const QString& site)
{
    m_said.clear();
    m_ticked.clear();
    m_tickedOwed.clear();
    m_owed.clear();
    m_picks.clear();
    m_site.reset();
    m_fitted.clear();
    if (auto loaded = m_sources.sites.load(SiteId(site))) {
        m_site = std::move(*loaded);
        m_fitted = fittedAt(*m_site, m_sources);
        if (const auto owed = owedThere(m_sources))
            std::ranges::copy_if(*owed, std::back_inserter(m_owed), [&](const OwedThere& there) {
                return there.site == m_site->site.id && m_site->lamphouse(there.lamphouse);
            });
        else
            m_said << tr("What is owed here could not be read. Nothing was changed.");
        if (m_site->lamphouses.size() == 1 && m_owed.isEmpty())
            m_ticked.append(m_site->lamphouses.front().id);
    } else {
        m_said << tr("The site could not be read. Nothing was changed.");
    }
    pickLamps();
    refresh();
}

void NewVisitPresenter::tickScreens(const QStringList& lamphouses)
{
    m_said.clear();
    m_ticked.clear();
    for (const QString& id : lamphouses) {
        m_ticked.append(LamphouseId(id));
        m_tickedOwed.removeAll(LamphouseId(id));
    }
    pickLamps();
    pickReason();
    refresh();
}

void NewVisitPresenter::tickOwed(const QStringList& lamphouses)
{
    m_said.clear();
    m_tickedOwed.clear();
    for (const QString& id : lamphouses) {
        if (!owedAt(LamphouseId(id)))
            continue;
        m_tickedOwed.append(LamphouseId(id));
        m_ticked.removeAll(LamphouseId(id));
    }
    pickReason();
    refresh();
}

const OwedThere* NewVisitPresenter::owedAt(const LamphouseId& lamphouse) const
{
    const auto found = std::ranges::find(m_owed, lamphouse, &OwedThere::lamphouse);
    return found == m_owed.end() ? nullptr : &*found;
}

/// Where only what is owed is done, that is why; nobody has to say so.
void NewVisitPresenter::pickReason()
{
    const QString due = QString::fromUtf16(kReasons.front().id);
    const QString owed = QString::fromUtf16(kOwed);
    const bool isOnlyOwed = m_ticked.isEmpty() && !m_tickedOwed.isEmpty();
    if (isOnlyOwed && m_reason == due)
        m_reason = owed;
    else if (!isOnlyOwed && m_reason == owed)
        m_reason = due;
}

const catalogue::ProjectorModel* NewVisitPresenter::modelAt(const LamphouseId& id) const
{
    const site::Lamphouse* lamphouse = m_site ? m_site->lamphouse(id) : nullptr;
    const site::Projector* projector = lamphouse ? m_site->projector(lamphouse->projector) : nullptr;
    return projector ? m_sources.catalogue.model(projector->model) : nullptr;
}

QList<lamps::LampInCustody> NewVisitPresenter::fitting(const LamphouseId& lamphouse) const
{
    const catalogue::ProjectorModel* model = modelAt(lamphouse);
    QList<lamps::LampInCustody> fitting;
    for (const lamps::LampInCustody& lamp : m_stock) {
        if (model && model->takes(lamp.lamp.type))
            fitting.append(lamp);
    }
    return fitting;
}

bool NewVisitPresenter::isTaken(const LamphouseId& lamphouse, const lamps::LampInCustody& lamp) const
{
    return std::ranges::any_of(m_ticked, [&](const LamphouseId& other) {
        return other != lamphouse && m_picks.value(other).lamp == lamp.lamp.id.text();
    });
}

/// Puts the first lamp that fits and is free to each screen that has none yet; where there is none, one is
/// typed.
void NewVisitPresenter::pickLamps()
{
    for (const LamphouseId& lamphouse : std::as_const(m_ticked)) {
        if (m_picks.contains(lamphouse))
            continue;
        const catalogue::ProjectorModel* model = modelAt(lamphouse);
        Pick pick{QString::fromUtf16(kTyped),
                  model && model->lampTypes.size() == 1 ? model->lampTypes.first().text() : QString(),
                  {}};
        const QList<lamps::LampInCustody> stock = fitting(lamphouse);
        const auto free =
            std::ranges::find_if(stock, [&](const auto& lamp) { return !isTaken(lamphouse, lamp); });
        if (free != stock.end())
            pick.lamp = free->lamp.id.text();
        m_picks.insert(lamphouse, pick);
    }
}

void NewVisitPresenter::chooseLamp(const QString& lamphouse, const QString& lamp)
{
    m_said.clear();
    m_picks[LamphouseId(lamphouse)].lamp = lamp;
    refresh();
}

void NewVisitPresenter::typeLamp(const QString& lamphouse, const QString& type, const QString& serial,
                                 const QString& hours)
{
    m_said.clear();
    Pick& pick = m_picks[LamphouseId(lamphouse)];
    pick.type = type;
    pick.serial = serial;
    pick.hours = hours;
    refresh();
}

void NewVisitPresenter::chooseReason(const QString& reason)
{
    m_reason = reason;
    refresh();
}

void NewVisitPresenter::tickOthers(const QStringList& people)
{
    m_others = people;
    refresh();
}

void NewVisitPresenter::look()
{
    refresh();
}

// ---- The view ---------------------------------------------------------------------------------------------

NewVisitView NewVisitPresenter::made() const
{
    NewVisitView view;
    for (const site::Site& site : m_sites)
        view.sites.append({site.id.text(), site.name, site.town, {}});
    if (m_sites.empty()) {
        view.empty = tr("No site is known yet. Add one on the page Sites.");
    } else if (!m_site) {
        view.empty = tr("Which site?");
    } else {
        view.site = m_site->site.id.text();
        view.title = m_site->site.name;
        view.sub = m_site->site.profile.localRules;
        if (m_site->lamphouses.empty())
            view.empty = tr("Nothing is known yet of the screens here. Add them on the page Sites.");
    }
    fillScreens(view);
    fillOwed(view);
    fillLamps(view);
    fillOthers(view);
    fillTime(view);
    view.reason.label = tr("Why");
    if (!m_planReason.isEmpty())
        view.reason.options.append({QString::fromUtf16(kPlanned), tr("as planned")});
    for (const Reason& reason : kReasons) {
        if (!m_owed.isEmpty() || QStringView(reason.id) != QStringView(kOwed))
            view.reason.options.append({QString::fromUtf16(reason.id), tr(reason.text)});
    }
    view.reason.chosen = m_reason;
    view.inTheWay = m_said;
    fillAction(view);
    return view;
}

void NewVisitPresenter::fillScreens(NewVisitView& view) const
{
    if (!m_site)
        return;
    view.screens.label = tr("Which lamps are exchanged");
    view.screens.reach = Reach::Hand;
    for (const site::Lamphouse& lamphouse : m_site->lamphouses) {
        const auto fitted = std::ranges::find(m_fitted, lamphouse.id, &visit::FittedLamp::lamphouse);
        const QString lamp = fitted == m_fitted.end()
                                 ? tr("lamp in it unknown")
                                 : u"%1, %2"_s.arg(lampText(fitted->lamp, m_sources.catalogue),
                                                   hoursLeftText(fitted->lamp, m_sources));
        const OwedThere* owed = owedAt(lamphouse.id);
        QString sub =
            owed ? tr("%1. Owed to this lamp: %2. It goes with the lamp.").arg(lamp, owed->titles()) : lamp;
        if (m_inHand.has(lamphouse.id))
            sub = tr("An unfinished visit is here; %1").arg(sub);
        view.screens.items.append({lamphouse.id.text(), nameOfLamphouse(*m_site, lamphouse.id), sub});
    }
    for (const LamphouseId& id : m_ticked)
        view.screens.ticked << id.text();
}

void NewVisitPresenter::fillOwed(NewVisitView& view) const
{
    if (m_owed.isEmpty())
        return;
    view.owed.label = tr("Owed here, done without a new lamp");
    view.owed.reach = Reach::Hand;
    for (const OwedThere& there : m_owed) {
        view.owed.items.append(
            {there.lamphouse.text(), nameOfLamphouse(*m_site, there.lamphouse),
             tr("since %1: %2")
                 .arg(momentText(there.steps.first().since, m_sources.zone).left(10), there.titles())});
    }
    for (const LamphouseId& id : m_tickedOwed)
        view.owed.ticked << id.text();
}

void NewVisitPresenter::fillLamps(NewVisitView& view) const
{
    for (const LamphouseId& lamphouse : m_ticked) {
        const Pick pick = m_picks.value(lamphouse);
        NewLampView one;
        one.lamphouse = lamphouse;
        one.lamp.label = tr("New lamp for %1").arg(nameOfLamphouse(*m_site, lamphouse));
        const QList<lamps::LampInCustody> stock = fitting(lamphouse);
        for (const lamps::LampInCustody& lamp : stock) {
            const QString text =
                lampText({lamp.lamp.id, lamp.lamp.type, lamp.lamp.serial, {}}, m_sources.catalogue);
            one.lamp.options.append({lamp.lamp.id.text(), lamp.custody == lamps::Custody::InVan
                                                              ? tr("%1, in the van").arg(text)
                                                              : tr("%1, in stock").arg(text)});
        }
        one.lamp.options.append({QString::fromUtf16(kTyped), tr("another lamp, not in the stock list")});
        one.lamp.chosen = pick.lamp;
        one.isTyped = pick.isTyped();
        one.type.label = tr("Type, as printed on its box");
        if (const catalogue::ProjectorModel* model = modelAt(lamphouse)) {
            for (const LampTypeId& id : model->lampTypes) {
                if (const catalogue::LampType* type = m_sources.catalogue.lampType(id))
                    one.type.options.append({id.text(), type->code});
            }
        }
        one.type.chosen = pick.type;
        one.serial = {tr("Serial"), pick.serial, {}, tr("as printed on its box"), {}};
        one.hours = {
            tr("Hours that it has burnt"), pick.hours, tr("h"), tr("new: 0; empty: nobody knows"), {}};
        view.lamps.append(one);
    }
}

void NewVisitPresenter::fillOthers(NewVisitView& view) const
{
    view.others.label = tr("Who comes along");
    view.others.reach = Reach::Hand;
    for (const people::Person& person : m_people) {
        if (person.id != m_lead && !person.retiredOn)
            view.others.items.append({person.id.text(), person.name, wordFor(person.role)});
    }
    view.others.ticked = m_others;
}

void NewVisitPresenter::fillTime(NewVisitView& view) const
{
    if (!m_site || (m_ticked.isEmpty() && m_tickedOwed.isEmpty()))
        return;
    QList<SwapTypes> swaps;
    for (const LamphouseId& lamphouse : m_ticked)
        swaps.append({lamphouse, newLamp(lamphouse).type});
    const Stamp now = m_sources.clock.now();
    std::optional<visit::NeededTime> needed =
        swaps.isEmpty() ? visit::NeededTime() : neededFor(*m_site, m_fitted, swaps, m_sources);
    for (const LamphouseId& lamphouse : m_tickedOwed)
        needed = visit::sumOf(needed, neededFor(*m_site, m_fitted, *owedAt(lamphouse), m_sources));
    const TimeWords words = timeWords(needed, site::nextShow(*m_site, now.wall), now.wall, m_sources.zone);
    view.needs = words.needs;
    view.gap = words.gap;
    view.verdict = words.verdict;
}

void NewVisitPresenter::fillAction(NewVisitView& view) const
{
    view.action.stepKey = u"open-visit"_s;
    view.action.text = tr("Open the visit");
    const bool isChosen = !m_ticked.isEmpty() || !m_tickedOwed.isEmpty();
    view.action.stand = m_site && isChosen ? ActionView::Stand::Ready : ActionView::Stand::Waits;
    view.action.waits = m_site ? tr("Waits for a screen") : tr("Waits for a site");
}

// ---- Opening ----------------------------------------------------------------------------------------------

visit::LampFacts NewVisitPresenter::newLamp(const LamphouseId& lamphouse) const
{
    const Pick pick = m_picks.value(lamphouse);
    visit::LampFacts facts;
    if (pick.isTyped()) {
        facts.serial = pick.serial.trimmed();
        if (!pick.type.isEmpty())
            facts.type = LampTypeId(pick.type);
        if (const auto hours = hoursFrom(pick.hours))
            facts.hours = *hours;
        return facts;
    }
    for (const lamps::LampInCustody& lamp : m_stock) {
        if (lamp.lamp.id.text() != pick.lamp)
            continue;
        facts = {lamp.lamp.id, lamp.lamp.type, lamp.lamp.serial, {}};
        if (lamp.lamp.hours)
            facts.hours = lamp.lamp.hours->hours();
    }
    return facts;
}

visit::WantedVisit NewVisitPresenter::wanted() const
{
    visit::WantedVisit wanted;
    wanted.visit = m_visit;
    wanted.reason = m_reason == QStringView(kPlanned) ? m_planReason : reasonText(m_reason);
    wanted.site = *m_site;
    wanted.fitted = m_fitted;
    wanted.today = dayOf(m_sources.clock.now().wall);
    QList<PersonId> people{m_lead};
    for (const QString& id : m_others)
        people.append(PersonId(id));
    wanted.people = attendantsOf(people, m_site->site.id, m_sources);
    for (const LamphouseId& lamphouse : m_ticked) {
        visit::WantedSwap swap{{}, lamphouse, newLamp(lamphouse)};
        if (m_picks.value(lamphouse).isTyped())
            useKnown(swap.newLamp);
        if (const auto known = m_sources.lamps.lamp(swap.newLamp.id))
            swap.custody = known->custody;
        if (swap.newLamp.id.isEmpty())
            swap.newLamp.id = LampId(m_sources.ids.next());
        swap.id = SwapId(m_sources.ids.next());
        wanted.swaps.append(swap);
    }
    for (const LamphouseId& lamphouse : m_tickedOwed)
        wanted.swaps.append({SwapId(m_sources.ids.next()), lamphouse, {}, owedAt(lamphouse)->plan()});
    return wanted;
}

/// One that the workspace has of this type and serial is that one, with the hours that are known of it.
void NewVisitPresenter::useKnown(visit::LampFacts& typed) const
{
    const auto id = typed.type ? m_sources.lamps.ofTypeWithSerial(*typed.type, typed.serial)
                               : Result<std::optional<LampId>>(std::nullopt);
    const auto known = id && *id ? m_sources.lamps.lamp(**id)
                                 : Result<lamps::LampInCustody>(fail(Error::Kind::NotFound, {}));
    if (!known)
        return;
    typed.id = known->lamp.id;
    const double said = typed.hours.value_or(0);
    typed.hours.reset();
    if (known->lamp.hours)
        typed.hours = known->lamp.hours->hours();
    if (said > typed.hours.value_or(0)) // it has burnt more than is known here: the visit goes by that
        typed.hours = said;
}

/// A lamp that was typed is one of the workspace from here on: in the van of whoever leads.
Result<void> NewVisitPresenter::addTyped(const visit::WantedVisit& wanted) const
{
    return m_sources.lamps.together([&]() -> Result<void> {
        for (const visit::WantedSwap& swap : wanted.swaps) {
            if (!swap.owed.isEmpty() || !m_picks.value(swap.lamphouse).isTyped() || !swap.newLamp.type ||
                m_sources.lamps.lamp(swap.newLamp.id))
                continue;
            lamps::Lamp lamp{swap.newLamp.id, *swap.newLamp.type, swap.newLamp.serial, {}};
            if (swap.newLamp.hours)
                lamp.hours = lamps::LampHours::fromHours(*swap.newLamp.hours);
            lamps::CustodyMove move;
            move.id = lamps::MoveId(m_sources.ids.next());
            move.lamp = lamp.id;
            move.custody = lamps::Custody::InVan;
            move.holder = m_lead;
            move.at = m_sources.clock.now().wall;
            if (const auto added = m_sources.lamps.add(lamp, move); !added)
                return tl::unexpected(added.error());
        }
        return {};
    });
}

/// What is wrong with the hours that were typed; empty: nothing.
QString NewVisitPresenter::wrongWithHours(const visit::WantedSwap& swap) const
{
    const QString& hours = m_picks.value(swap.lamphouse).hours;
    const QString wrong = hours.trimmed().isEmpty() ? QString() : howToWriteHours(hours);
    return wrong.isEmpty() ? wrong
                           : tr("%1: the hours of the new lamp are no figure: %2.")
                                 .arg(nameOfLamphouse(*m_site, swap.lamphouse), wrong);
}

QStringList NewVisitPresenter::wrongWith(const visit::WantedVisit& asked) const
{
    QStringList wrong;
    QStringList typed;
    for (const visit::WantedSwap& swap : asked.swaps) {
        const QString there = nameOfLamphouse(*m_site, swap.lamphouse);
        if (!swap.owed.isEmpty())
            continue;
        if (swap.newLamp.serial.isEmpty())
            wrong << tr("%1: the serial of the new lamp is missing.").arg(there);
        if (!m_picks.value(swap.lamphouse).isTyped())
            continue;
        if (const QString why = wrongWithHours(swap); !why.isEmpty())
            wrong << why;
        const QString name =
            swap.newLamp.type.value_or(LampTypeId()).text() + u' ' + label::normalise(swap.newLamp.serial);
        if (typed.contains(name) && !swap.newLamp.serial.isEmpty())
            wrong << tr("One new lamp is meant for two screens.");
        typed << name;
    }
    return wrong;
}

void NewVisitPresenter::open()
{
    if (!m_site || (m_ticked.isEmpty() && m_tickedOwed.isEmpty()))
        return;
    const visit::WantedVisit asked = wanted();
    QStringList missing = wrongWith(asked);
    const auto opening = visit::openingFor(asked, m_sources.documents(), inHand(m_sources.shelf));
    if (!opening) {
        for (const visit::OpenProblem& problem : opening.error())
            missing << wordsFor(problem, *m_site, m_sources.catalogue, m_people, m_sources.zone);
    }
    missing.removeDuplicates();
    if (!missing.isEmpty())
        return say(missing);
    if (const auto added = addTyped(asked); !added) {
        return say({added.error().kind == Error::Kind::Conflict
                        ? tr("A lamp of this type and serial is known by now. Look again.")
                        : notWritten(added.error(), tr("No visit was opened."))});
    }
    if (const auto begun = m_sources.shelf.begin(m_lead, *opening); !begun) {
        return say({begun.error().kind == Error::Kind::Refused
                        ? tr("The visit is refused as it was asked for. Nothing was kept.")
                        : notWritten(begun.error(), tr("Nothing was kept but the lamps that you typed."))});
    }
    if (m_isPlanned)
        static_cast<void>(
            m_sources.plans.drop(m_visit)); // the list may still name it; the visit is what counts
    Q_EMIT opened(m_visit);
}

void NewVisitPresenter::say(const QStringList& inTheWay)
{
    m_said = inTheWay;
    refresh();
}

void NewVisitPresenter::refresh()
{
    NewVisitView view = made();
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
