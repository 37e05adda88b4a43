#include "ui/site/sites_presenter.h"

#include "core/base/typed_hours.h"
#include "core/site/site_change.h"
#include "ui/parts/not_written.h"
#include "ui/parts/quantities.h"

#include <QLocale>

#include <algorithm>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr auto kUnknown = u"unknown";
constexpr auto kYes = u"yes";
constexpr auto kNo = u"no";

QString joined(QStringList parts)
{
    parts.removeAll(QString());
    return parts.join(u" \u00b7 "_s);
}

/// Nothing for an empty text; `isBad` for one that is no number from 0 to `most`.
std::optional<double> hoursFrom(const QString& text, double most, bool& isBad)
{
    isBad = false;
    if (text.trimmed().isEmpty())
        return std::nullopt;
    const auto value = coldarc::hoursFrom(QString(text).replace(u',', u'.'));
    isBad = !value || *value > most;
    return isBad ? std::nullopt : std::optional(*value);
}

QString hoursError(const QString& typed)
{
    return SitesPresenter::tr("A number of hours, or nothing: %1.").arg(howToWriteHours(typed));
}

} // namespace

SitesPresenter::SitesPresenter(site::SiteStore& sites, lamps::LampStore& lamps,
                               const catalogue::Catalogue& catalogue, const Clock& clock, IdSource& ids,
                               QTimeZone zone, QObject* parent)
    : QObject(parent)
    , m_store(sites)
    , m_lamps(lamps)
    , m_catalogue(catalogue)
    , m_clock(clock)
    , m_ids(ids)
    , m_zone(std::move(zone))
{
}

void SitesPresenter::setInHand(std::function<lamps::InHand()> inHand)
{
    m_inHand = std::move(inHand);
}

void SitesPresenter::refresh()
{
    SitesView view = m_view;
    if (auto sites = m_store.all())
        m_sites = std::move(*sites);
    else
        view.message = tr("The sites could not be read. Nothing was changed.");
    const bool isThere =
        std::ranges::any_of(m_sites, [&](const site::Site& one) { return one.id.text() == view.chosen; });
    if (!isThere)
        view.chosen = m_sites.empty() ? QString() : m_sites.front().id.text();
    m_document.reset();
    if (!view.chosen.isEmpty()) {
        if (auto loaded = m_store.load(SiteId(view.chosen)))
            m_document = std::move(*loaded);
    }
    fill(view);
    show(view);
}

void SitesPresenter::choose(const QString& site)
{
    SitesView view = m_view;
    view.chosen = site;
    view.form = SiteForm::None;
    view.message.clear();
    show(view);
    refresh();
}

void SitesPresenter::fill(SitesView& view) const
{
    view.sites.clear();
    for (const site::Site& site : m_sites)
        view.sites.append({site.id.text(), site.name, site.town, {}});
    view.empty =
        m_sites.empty() ? tr("No site is known yet. Add one: its name, then its screens.") : QString();
    view.title.clear();
    view.sub.clear();
    view.problems.clear();
    view.screens.clear();
    view.lamphouses.clear();
    view.points.clear();
    view.house.clear();
    if (m_document)
        fillCard(view);
    fillForm(view);
}

QString SitesPresenter::fittedText(const site::Lamphouse& lamphouse) const
{
    if (!lamphouse.fitted)
        return tr("lamp in it unknown");
    const auto lamp = m_lamps.lamp(*lamphouse.fitted);
    if (!lamp)
        return tr("lamp in it unknown");
    const catalogue::LampType* type = m_catalogue.lampType(lamp->lamp.type);
    return joined({type ? type->code : lamp->lamp.type.text(), lamp->lamp.serial});
}

void SitesPresenter::fillCard(SitesView& view) const
{
    const site::SiteDocument& document = *m_document;
    view.title = document.site.name;
    view.sub = document.site.town;
    auto problems = site::problemsOf(document);
    const auto unfit = site::problemsOf(document, m_catalogue);
    problems.insert(problems.end(), unfit.begin(), unfit.end());
    for (const site::Problem& problem : problems)
        view.problems << wordsFor(problem, document, m_catalogue);
    const WallTime now = m_clock.now().wall;
    for (const site::Screen& screen : document.screens) {
        QStringList models;
        for (const site::Projector& projector : document.projectors) {
            if (projector.screen == screen.id)
                models << joined({nameOfModel(m_catalogue, projector.model), projector.label});
        }
        const auto next = site::nextShow(screen, now);
        view.screens.append(
            {screen.id.text(), screen.name,
             joined({models.join(u", "_s),
                     screen.weeklyHours ? tr("%1 a week").arg(hoursText(*screen.weeklyHours, QLocale()))
                                        : tr("hours a week unknown"),
                     next ? tr("next show %1").arg(momentText(next->start, m_zone)) : tr("no show known")}),
             tr("Hours and shows")});
    }
    for (const site::Lamphouse& lamphouse : document.lamphouses) {
        view.lamphouses.append({lamphouse.id.text(), nameOfLamphouse(document, lamphouse.id),
                                fittedText(lamphouse), tr("Lamp found")});
    }
    for (const site::IsolationPoint& point : document.points) {
        view.points.append(
            {point.id.text(), point.name,
             joined({tr("feeds %1").arg(fedBy(point)),
                     point.isLockable ? tr("takes a lock") : tr("takes no lock: proves nothing dead")}),
             tr("Change")});
    }
    const site::Profile& profile = document.site.profile;
    view.house.append({u"prover"_s,
                       tr("Absence of voltage is proved by %1").arg(wordsFor(profile.mayProveAbsence)),
                       joined({profile.localRules, profile.lockNotes}), tr("Change")});
    for (const site::Contact& contact : document.site.contacts)
        view.house.append({u"contact"_s, contact.name, joined({contact.role, contact.phone}), {}});
}

// ---- Forms ------------------------------------------------------------------------------------------------

void SitesPresenter::openForm(SiteForm form)
{
    SitesView view = m_view;
    view.form = form;
    view.message.clear();
    for (FieldView* field :
         {&view.name, &view.town, &view.contact, &view.contactPhone, &view.rules, &view.locks,
          &view.weeklyHours, &view.projector, &view.serial, &view.hours, &view.counter}) {
        field->error.clear();
        field->value.clear();
    }
    for (ChoiceView* choice : {&view.prover, &view.model, &view.type, &view.takesLock}) {
        choice->error.clear();
        choice->chosen.clear();
    }
    view.prover.chosen = site::wordOf(site::AbsenceProver::Qualified);
    view.paste.outcome.clear();
    view.paste.bad.clear();
    view.shows.clear();
    if (form == SiteForm::House && m_document) {
        const site::Site& site = m_document->site;
        view.name.value = site.name;
        view.town.value = site.town;
        view.prover.chosen = site::wordOf(site.profile.mayProveAbsence);
        view.rules.value = site.profile.localRules;
        view.locks.value = site.profile.lockNotes;
        if (!site.contacts.empty()) {
            view.contact.value = site.contacts.front().name;
            view.contactPhone.value = site.contacts.front().phone;
        }
    }
    if (form == SiteForm::Screen && m_catalogue.models().size() == 1)
        view.model.chosen = m_catalogue.models().first().id.text();
    ++view.emptied;
    fillForm(view);
    show(view);
}

void SitesPresenter::openLamp(const QString& lamphouse)
{
    m_lamphouse = LamphouseId(lamphouse);
    openForm(SiteForm::Lamp);
}

void SitesPresenter::openShows(const QString& screen)
{
    m_screen = ScreenId(screen);
    openForm(SiteForm::Shows);
    SitesView view = m_view;
    const site::Screen* found = m_document ? m_document->screen(m_screen) : nullptr;
    QStringList lines;
    if (found) {
        std::vector<WallTime> starts = found->showStarts;
        std::ranges::sort(starts);
        for (const WallTime start : starts)
            lines << momentText(start, m_zone);
    }
    view.shows = lines.join(u'\n');
    if (found) {
        view.name.value = found->name;
        view.weeklyHours.value =
            found->weeklyHours ? QString::number(*found->weeklyHours, 'g', 6) : QString();
    }
    ++view.emptied;
    show(view);
}

void SitesPresenter::openBreaker(const QString& point)
{
    m_point = PointId(point);
    openForm(SiteForm::Breaker);
    SitesView view = m_view;
    if (const site::IsolationPoint* asked = breakerAsked())
        view.takesLock.chosen = QString::fromUtf16(asked->isLockable ? kYes : kNo);
    ++view.emptied;
    show(view);
}

const site::IsolationPoint* SitesPresenter::breakerAsked() const
{
    if (!m_document)
        return nullptr;
    const auto found = std::ranges::find(m_document->points, m_point, &site::IsolationPoint::id);
    return found == m_document->points.end() ? nullptr : &*found;
}

void SitesPresenter::chooseModel(const QString& model)
{
    SitesView view = m_view;
    view.model.chosen = model;
    fillBreakers(view);
    show(view);
}

void SitesPresenter::fillBreakers(SitesView& view) const
{
    view.breakers.clear();
    if (view.form == SiteForm::Breaker) {
        if (const site::IsolationPoint* point = breakerAsked())
            view.breakers.append(BreakerFields{{},
                                               {tr("Panel"), point->panel, {}, tr("as it is lettered"), {}},
                                               {tr("Circuit"), point->circuit, {}, tr("its number"), {}}});
        return;
    }
    const catalogue::ProjectorModel* model = m_catalogue.model(ModelId(view.model.chosen));
    if (!model)
        return;
    for (const catalogue::IsolationRole& role : model->isolation) {
        if (view.breakers.size() == kMostBreakers)
            break;
        view.breakers.append({role.id.text(),
                              {tr("%1: panel").arg(role.name), {}, {}, tr("as it is lettered"), {}},
                              {tr("Circuit"), {}, {}, tr("its number"), {}}});
    }
}

/// Every lamphouse that it feeds, once.
QString SitesPresenter::fedBy(const site::IsolationPoint& point) const
{
    QStringList fed;
    for (const site::Feed& feed : point.feeds)
        fed << nameOfLamphouse(*m_document, feed.lamphouse);
    fed.removeDuplicates();
    return fed.join(u", "_s);
}

void SitesPresenter::wordBreaker(SitesView& view) const
{
    view.formNote = tr("Name the breaker that really feeds this. If that one is known here already, the two "
                       "become one. Open visits keep what they were opened with.");
    if (const site::IsolationPoint* point = breakerAsked())
        view.formTitle = tr("%1, said to feed %2").arg(point->name, fedBy(*point));
    view.takesLock.label = tr("Does a lock go onto it?");
    view.takesLock.options = {{QString::fromUtf16(kYes), tr("takes a lock")},
                              {QString::fromUtf16(kNo), tr("takes no lock: proves nothing dead")}};
}

void SitesPresenter::fillForm(SitesView& view) const
{
    view.name.label =
        view.form == SiteForm::Screen || view.form == SiteForm::Shows ? tr("Screen") : tr("Name of the site");
    view.town.label = tr("Town");
    view.contact.label = tr("Contact at the site");
    view.contactPhone.label = tr("Telephone");
    view.prover.label = tr("Who proves absence");
    view.prover.options.clear();
    for (const site::AbsenceProver prover :
         {site::AbsenceProver::Engineer, site::AbsenceProver::Qualified, site::AbsenceProver::Electrician})
        view.prover.options.append({site::wordOf(prover), wordsFor(prover)});
    view.rules.label = tr("Rules of the house");
    view.locks.label = tr("What locks and tags look like here");
    view.weeklyHours.label = tr("Hours a week that a lamp burns here");
    view.weeklyHours.unit = tr("h");
    view.weeklyHours.hint = tr("empty: unknown");
    view.model.label = tr("Projector model");
    view.model.options.clear();
    for (const catalogue::ProjectorModel& model : m_catalogue.models())
        view.model.options.append({model.id.text(), nameOfModel(m_catalogue, model.id)});
    view.projector.label = tr("Its name, if two stand here");
    view.type.label = tr("Type, as printed on it");
    view.type.options = {{QString::fromUtf16(kUnknown), tr("unknown")}};
    for (const catalogue::LampType& type : m_catalogue.lampTypes())
        view.type.options.append({type.id.text(), type.code});
    view.serial.label = tr("Serial");
    view.hours.label = tr("Hours that it has burnt by now");
    view.hours.unit = tr("h");
    view.hours.hint = tr("empty: unknown");
    view.counter.label = tr("What the lamphouse's counter shows now");
    view.counter.unit = tr("h");
    view.counter.hint = tr("empty: unknown");
    view.paste.title = tr("Screens from a table");
    view.paste.explains =
        tr("One line for each lamphouse and breaker, cells parted by tabs, semicolons or commas, "
           "with a header: screen, model, lamphouse, panel, circuit, role, lockable; if you like "
           "projector, point and weekly hours. All of it is taken, or nothing.");
    view.paste.hint = u"screen;model;lamphouse;panel;circuit;role;lockable"_s;
    view.paste.act = tr("Add these");
    fillBreakers(view);
    view.formNote.clear();
    switch (view.form) {
    case SiteForm::None:
        break;
    case SiteForm::NewSite:
        view.formTitle = tr("A new site");
        view.formAct = tr("Add");
        break;
    case SiteForm::House:
        view.formTitle = tr("The house");
        view.formAct = tr("Keep");
        break;
    case SiteForm::Screen:
        view.formTitle = tr("One more screen");
        view.formNote =
            tr("Which breaker of the site's own board feeds it? Two screens on one breaker get the same "
               "panel and circuit: cutting it then waits for both lamps.");
        view.formAct = tr("Add");
        break;
    case SiteForm::Lamp:
        view.formTitle =
            m_document ? tr("The lamp in %1").arg(nameOfLamphouse(*m_document, m_lamphouse)) : QString();
        view.formNote = tr("What is not known stays unknown; nothing is worked out from a guess.");
        view.formAct = tr("Keep");
        break;
    case SiteForm::Shows:
        view.formTitle = m_document && m_document->screen(m_screen)
                             ? tr("%1: its hours and shows").arg(m_document->screen(m_screen)->name)
                             : QString();
        view.formNote =
            tr("Of the shows one start a line, like 2026-11-25 16:40, in the time of this laptop.");
        view.formAct = tr("Keep");
        break;
    case SiteForm::Paste:
        view.formTitle = m_document ? tr("%1 from a table").arg(m_document->site.name) : QString();
        break;
    case SiteForm::Breaker:
        wordBreaker(view);
        view.formAct = tr("Keep");
        break;
    }
}

void SitesPresenter::keepForm(const SiteAnswers& answers)
{
    switch (m_view.form) {
    case SiteForm::None:
    case SiteForm::Paste:
        break;
    case SiteForm::NewSite:
        return keepNewSite(answers);
    case SiteForm::House:
        return keepHouse(answers);
    case SiteForm::Screen:
        return keepScreen(answers);
    case SiteForm::Lamp:
        return keepLamp(answers);
    case SiteForm::Shows:
        return keepShows(answers);
    case SiteForm::Breaker:
        return keepBreaker(answers);
    }
}

void SitesPresenter::keepNewSite(const SiteAnswers& answers)
{
    SitesView view = m_view;
    view.name.error = answers.name.trimmed().isEmpty() ? tr("The name is needed.") : QString();
    show(view);
    if (!view.name.error.isEmpty())
        return;
    site::SiteDocument document;
    document.site.id = SiteId(m_ids.next());
    document.site.name = answers.name.trimmed();
    document.site.town = answers.town.trimmed();
    const Result<void> kept = m_store.save(document);
    if (kept)
        m_view.chosen = document.site.id.text();
    settle(kept, tr("Added. Now its screens."));
}

void SitesPresenter::keepHouse(const SiteAnswers& answers)
{
    SitesView view = m_view;
    view.name.error = answers.name.trimmed().isEmpty() ? tr("The name is needed.") : QString();
    show(view);
    if (!view.name.error.isEmpty() || !m_document)
        return;
    site::SiteDocument document = *m_document;
    document.site.name = answers.name.trimmed();
    document.site.town = answers.town.trimmed();
    document.site.profile.mayProveAbsence =
        site::proverFromWord(answers.prover).value_or(site::AbsenceProver::Qualified);
    document.site.profile.localRules = answers.rules.trimmed();
    document.site.profile.lockNotes = answers.locks.trimmed();
    const site::Contact contact{answers.contact.trimmed(), {}, answers.contactPhone.trimmed()};
    if (document.site.contacts.empty() && !contact.name.isEmpty())
        document.site.contacts.push_back(contact);
    else if (!document.site.contacts.empty() && !contact.name.isEmpty()) {
        document.site.contacts.front().name = contact.name;
        document.site.contacts.front().phone = contact.phone;
    }
    settle(m_store.save(document), tr("Kept."));
}

void SitesPresenter::keepScreen(const SiteAnswers& answers)
{
    SitesView view = m_view;
    bool isBadNumber = false;
    const auto hours = hoursFrom(answers.weeklyHours, 168, isBadNumber);
    const catalogue::ProjectorModel* model = m_catalogue.model(ModelId(answers.model));
    view.name.error = answers.name.trimmed().isEmpty() ? tr("The name is needed.") : QString();
    view.weeklyHours.error = isBadNumber ? tr("A number of hours from 0 to 168, or nothing.") : QString();
    view.model.error = model ? QString() : tr("Choose one.");
    bool isComplete = view.name.error.isEmpty() && !isBadNumber && model && m_document;
    for (qsizetype index = 0; index < view.breakers.size(); ++index) {
        BreakerFields& breaker = view.breakers[index];
        breaker.panel.error =
            answers.panels.value(index).trimmed().isEmpty() ? tr("It is needed.") : QString();
        breaker.circuit.error =
            answers.circuits.value(index).trimmed().isEmpty() ? tr("It is needed.") : QString();
        isComplete = isComplete && breaker.panel.error.isEmpty() && breaker.circuit.error.isEmpty();
    }
    show(view);
    if (!isComplete)
        return;
    std::vector<site::SiteRow> rows;
    for (qsizetype index = 0; index < view.breakers.size(); ++index) {
        const auto role = model->role(catalogue::RoleId(view.breakers[index].role));
        for (const QString& lamphouse : role->lamphouses) {
            site::SiteRow row;
            row.line = static_cast<int>(rows.size()) + 1;
            row.screen = answers.name.trimmed();
            row.projector = answers.projector.trimmed();
            row.model = model->id.text();
            row.lamphouse = lamphouse;
            row.panel = answers.panels.value(index).trimmed();
            row.circuit = answers.circuits.value(index).trimmed();
            row.role = role->id.text();
            row.isLockable = role->lockable;
            row.weeklyHours = hours;
            rows.push_back(row);
        }
    }
    const auto document = site::withRows(*m_document, rows, m_ids);
    if (!document) {
        view.message = tr("It contradicts what is there already: %1").arg(wordsFor(document.error().front()));
        return show(view);
    }
    settle(m_store.save(*document), tr("Added."));
}

void SitesPresenter::keepLamp(const SiteAnswers& answers)
{
    SitesView view = m_view;
    bool isBadHours = false;
    bool isBadCounter = false;
    const auto hours = hoursFrom(answers.hours, kMostHours, isBadHours);
    const auto counter = hoursFrom(answers.counter, kMostHours, isBadCounter);
    const bool isUnknown = answers.type == QStringView(kUnknown);
    view.type.error =
        answers.type.isEmpty() ? tr("Choose one; \u201cunknown\u201d is an answer.") : QString();
    view.serial.error =
        !isUnknown && answers.serial.trimmed().isEmpty() ? tr("It is needed with a type.") : QString();
    view.hours.error = isBadHours ? hoursError(answers.hours) : QString();
    view.counter.error = isBadCounter ? hoursError(answers.counter) : QString();
    const lamps::InHand inHand = m_inHand();
    if (!isUnknown && !answers.type.isEmpty() && view.serial.error.isEmpty())
        view.serial.error = whyNotThere(LampTypeId(answers.type), answers.serial.trimmed(), inHand);
    show(view);
    if (answers.type.isEmpty() || !view.serial.error.isEmpty() || isBadHours || isBadCounter || !m_document)
        return;
    if (inHand.has(m_lamphouse)) {
        view.message =
            tr("An unfinished visit has this lamphouse in hand: what is in it is said there. Nothing was "
               "kept.");
        return show(view);
    }
    const lamps::Look look{m_document->site.id, m_lamphouse, m_clock.now().wall};
    if (isUnknown)
        return settle(m_lamps.together([&] { return sayUnknown(look, inHand); }),
                      tr("Kept: the lamp in it is unknown."));
    lamps::Lamp lamp{LampId(m_ids.next()), LampTypeId(answers.type), answers.serial.trimmed(), {}};
    if (hours)
        lamp.hours = lamps::LampHours::fromHours(*hours);
    const auto known = m_lamps.ofTypeWithSerial(lamp.type, lamp.serial);
    const bool isKnown = known && *known;
    settle(m_lamps.together([&] { return sayFound(look, lamp, counter, inHand); }),
           isKnown ? tr("Kept. This lamp was known here: the hours that are known of it stay.")
                   : tr("Kept."));
}

QString SitesPresenter::whyNotThere(const LampTypeId& type, const QString& serial,
                                    const lamps::InHand& inHand) const
{
    const auto fault = lamps::faultOfFound(m_lamps, m_lamphouse, type, serial, inHand);
    if (!fault)
        return {};
    switch (*fault) {
    case lamps::FoundFault::InAnotherLamphouse:
        return tr("By the book this lamp is in another lamphouse. Say first what is in that one.");
    case lamps::FoundFault::Gone:
        return tr("By the book this lamp burst or was given away. Read the serial again.");
    case lamps::FoundFault::InHand:
        return tr("An unfinished visit has this lamp in hand and says where it is.");
    }
    Q_UNREACHABLE();
}

Result<void> SitesPresenter::sayUnknown(const lamps::Look& look, const lamps::InHand& inHand)
{
    if (auto said = lamps::sayUnknown(m_lamps, m_ids, look, inHand); !said)
        return said;
    return m_store.setFitted(look.lamphouse, std::nullopt);
}

Result<void> SitesPresenter::sayFound(const lamps::Look& look, const lamps::Lamp& lamp,
                                      const std::optional<double>& counter, const lamps::InHand& inHand)
{
    const auto read = counter ? std::optional(lamps::CounterHours::fromHours(*counter)) : std::nullopt;
    const auto found = lamps::sayFound(m_lamps, m_ids, look, lamp, read, inHand);
    if (!found)
        return tl::unexpected(found.error());
    return m_store.setFitted(look.lamphouse, *found);
}

void SitesPresenter::keepBreaker(const SiteAnswers& answers)
{
    SitesView view = m_view;
    if (view.breakers.isEmpty() || !m_document)
        return;
    BreakerFields& breaker = view.breakers.first();
    const QString panel = answers.panels.value(0).trimmed();
    const QString circuit = answers.circuits.value(0).trimmed();
    breaker.panel.error = panel.isEmpty() ? tr("It is needed.") : QString();
    breaker.circuit.error = circuit.isEmpty() ? tr("It is needed.") : QString();
    const QString& lock = answers.takesLock.isEmpty() ? view.takesLock.chosen : answers.takesLock;
    const auto locked = site::withLock(*m_document, m_point, lock == QStringView(kYes), m_catalogue);
    const auto changed = locked ? site::withBreakerAt(*locked, m_point, panel, circuit) : locked;
    const bool isComplete = !panel.isEmpty() && !circuit.isEmpty();
    view.takesLock.error.clear();
    if (isComplete && !changed) {
        switch (changed.error()) {
        case site::BreakerFault::PartTakesNone:
            view.takesLock.error = tr("What it feeds takes no lock, by the projector's model.");
            break;
        case site::BreakerFault::LockDiffers:
            breaker.circuit.error =
                tr("The one known there differs in whether it takes a lock: put the wrong one right first.");
            break;
        case site::BreakerFault::FeedsItAlready:
            breaker.circuit.error = tr("The one known there feeds one of these lamphouses in another part.");
            break;
        case site::BreakerFault::UnknownPoint:
            break;
        }
    }
    show(view);
    if (isComplete && changed)
        settle(m_store.save(*changed), tr("Kept."));
}

void SitesPresenter::keepShows(const SiteAnswers& answers)
{
    SitesView view = m_view;
    const QString name = answers.name.trimmed();
    bool isBadNumber = false;
    const auto hours = hoursFrom(answers.weeklyHours, 168, isBadNumber);
    view.name.error = name.isEmpty() ? tr("The name is needed.") : QString();
    view.weeklyHours.error = isBadNumber ? tr("A number of hours from 0 to 168, or nothing.") : QString();
    site::SiteDocument document = m_document.value_or(site::SiteDocument());
    const auto screen = std::ranges::find(document.screens, m_screen, &site::Screen::id);
    const bool isTaken = std::ranges::any_of(
        document.screens, [&](const site::Screen& one) { return one.id != m_screen && one.name == name; });
    if (isTaken)
        view.name.error = tr("Another screen here has this name.");
    std::vector<WallTime> starts;
    for (const QString& line : answers.shows.split(u'\n', Qt::SkipEmptyParts)) {
        if (line.trimmed().isEmpty())
            continue;
        const auto start = momentFromText(line, m_zone);
        if (!start) {
            view.message = tr("\u201c%1\u201d is no moment like 2026-11-25 16:40. Nothing was kept.")
                               .arg(line.trimmed());
            return show(view);
        }
        starts.push_back(*start);
    }
    show(view);
    if (!view.name.error.isEmpty() || isBadNumber || screen == document.screens.end())
        return;
    screen->name = name;
    screen->weeklyHours = hours;
    screen->showStarts = starts;
    settle(m_store.save(document), tr("Kept."));
}

void SitesPresenter::paste(const QString& table)
{
    SitesView view = m_view;
    view.paste.outcome.clear();
    view.paste.bad.clear();
    const auto refuse = [&](const std::vector<site::BadRow>& bad) {
        view.paste.outcome = tr("Nothing was added. These lines have to be put right:");
        for (const site::BadRow& row : bad)
            view.paste.bad << wordsFor(row);
        show(view);
    };
    const auto rows = site::readSiteTable(table);
    if (!rows)
        return refuse(rows.error());
    if (!m_document)
        return;
    const auto document = site::withRows(*m_document, *rows, m_ids);
    if (!document)
        return refuse(document.error());
    const Result<void> kept = m_store.save(*document);
    if (kept)
        ++m_view.paste.taken;
    settle(kept, tr("%1 lines were added.").arg(rows->size()));
}

void SitesPresenter::settle(const Result<void>& outcome, const QString& done)
{
    SitesView view = m_view;
    if (outcome) {
        view.form = SiteForm::None;
        view.message = done;
    } else {
        view.message =
            outcome.error().kind == Error::Kind::Conflict
                ? tr("It contradicts what is there already, or a lamp of this type and serial is known "
                     "elsewhere. Nothing was changed.")
                : notWritten(outcome.error(), tr("Nothing was changed."));
    }
    show(view);
    refresh();
    if (outcome)
        Q_EMIT sitesChanged();
}

void SitesPresenter::show(SitesView view)
{
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
