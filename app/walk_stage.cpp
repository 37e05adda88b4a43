#include "app/walk_stage.h"

#include "app/demo_data.h"
#include "core/people/office_store.h"
#include "core/people/people_store.h"
#include "core/photometry/tolerance_file.h"
#include "core/procedure/procedure_file.h"
#include "core/record/review_store.h"
#include "core/review/summary.h"
#include "core/store/workspace_file.h"
#include "core/visit/open_visit.h"

#include <QApplication>
#include <QDir>

using namespace Qt::StringLiterals;

namespace coldarc::app {
namespace {

constexpr WallTime kStart{std::chrono::milliseconds(1'795'630'000'000)}; // an invented evening

visit::Attendant attendantFrom(const DemoPerson& person, WallTime now)
{
    visit::Attendant attendant{person.person, {}};
    int number = 0;
    for (const DemoPerson::Grant& grant : person.grants) {
        people::Authorisation authorisation;
        authorisation.id = people::AuthorisationId(person.person.id.text() + QString::number(++number));
        authorisation.person = person.person.id;
        authorisation.duty = grant.duty;
        authorisation.models = grant.models;
        authorisation.from = people::utcDayOf(now + std::chrono::days(grant.fromDays));
        authorisation.until = people::utcDayOf(now + std::chrono::days(grant.untilDays));
        attendant.authorisations.push_back(authorisation);
    }
    return attendant;
}

/// The first swap of the demo's first plan, with the engineer alone.
std::optional<visit::WantedVisit> wantedFrom(const DemoData& data, WallTime now)
{
    if (data.plans.isEmpty() || data.plans.first().swaps.isEmpty())
        return std::nullopt;
    const DemoPlan& plan = data.plans.first();
    const DemoSite* site = data.site(plan.site);
    visit::WantedVisit wanted;
    wanted.visit = VisitId(u"walk"_s);
    wanted.reason = plan.reason;
    if (!site)
        return std::nullopt;
    wanted.site = site->at(now);
    wanted.today = people::utcDayOf(now);
    for (const DemoPerson& person : data.people.people) {
        if (person.person.role == people::Role::Engineer && wanted.people.isEmpty())
            wanted.people.append(attendantFrom(person, now));
    }
    const DemoPlan::Swap& swap = plan.swaps.first();
    for (const DemoLamps::Stock& stock : data.lamps.stock) {
        if (stock.serial == swap.serial)
            wanted.swaps.append(
                {SwapId(u"swap-1"_s), swap.lamphouse, {LampId(u"new"_s), stock.type, stock.serial, 0.0}});
    }
    for (const DemoLamps::Fitted& fitted : data.lamps.fitted) {
        if (wanted.site.lamphouse(fitted.lamphouse))
            wanted.fitted.append({fitted.lamphouse,
                                  {LampId(u"fitted in "_s + fitted.lamphouse.text()), fitted.type,
                                   fitted.serial, fitted.hoursAtEnd}});
    }
    return wanted;
}

/// The demo's first supervisor; nobody where it has none.
review::Reviewer reviewerFrom(const DemoData& data, WallTime now)
{
    for (const DemoPerson& person : data.people.people) {
        if (person.person.role == people::Role::Supervisor)
            return {person.person, attendantFrom(person, now).authorisations};
    }
    return {};
}

} // namespace

struct WalkStage::Visit {
    visit::Logbook logbook;
    ui::VisitDesk desk;
    ui::VisitPage room;

    Visit(visit::Logbook kept, const WalkClock& clock, const PersonId& lead)
        : logbook(std::move(kept))
        , desk(logbook, clock, lead)
        , room(desk, *QCoreApplication::instance())
    {
    }
};

WalkStage::WalkStage(store::Database database)
    : m_database(std::move(database))
    , m_journal(m_database)
    , m_summaries(m_database)
    , m_clock(kStart)
    , m_key(people::SigningKey::generate())
    , m_reviewersKey(people::SigningKey::generate())
{
}

WalkStage::~WalkStage() = default;

Result<std::unique_ptr<WalkStage>> WalkStage::set(const QString& workspace, const Folders& folders)
{
    const auto data = readDemoData(folders.sampleData);
    if (!data)
        return tl::unexpected(data.error());
    const auto catalogue = catalogue::loadCatalogue(QDir(folders.resources).filePath(u"catalogue"_s));
    const auto procedures =
        procedure::loadProcedures(QDir(folders.resources).filePath(u"procedures"_s), catalogue.catalogue);
    const auto wanted = wantedFrom(*data, kStart);
    if (!wanted)
        return fail(Error::Kind::NotFound, u"the demo plans no swap"_s);
    const auto opening = visit::openingFor(*wanted, {catalogue.catalogue, procedures}, {}); // the only one
    if (!opening)
        return fail(Error::Kind::Refused, u"the planned visit cannot be opened, reason %1"_s.arg(
                                              static_cast<int>(opening.error().first().kind)));
    store::OpenAnswer opened = store::openWorkspace(workspace, {u"walk"_s, kStart});
    if (!opened.database)
        return fail(Error::Kind::Storage, opened.detail);
    std::unique_ptr<WalkStage> stage(new WalkStage(std::move(*opened.database)));
    stage->m_reviewer = reviewerFrom(*data, kStart);
    if (auto vouched = stage->vouch(data->people.office, opening->people.first()); !vouched)
        return tl::unexpected(vouched.error());
    if (auto begun = stage->begin(*opening); !begun)
        return tl::unexpected(begun.error());
    stage->room().sheet().setLimits(
        photometry::loadToleranceSets(QDir(folders.resources).filePath(u"photometry"_s)).sets);
    const visit::WantedSwap& swap = wanted->swaps.first();
    stage->m_lamps = {{catalogue.catalogue.lampType(*swap.newLamp.type)->code, swap.newLamp.serial}};
    return stage;
}

Result<people::Certificate> WalkStage::certified(const people::PublicKey& key, const PersonId& person,
                                                 const QString& name, people::Role role,
                                                 const people::SigningKey& office) const
{
    const WallTime now = m_clock.now().wall;
    const people::Day day = people::utcDayOf(now);
    return people::certify({key, person, name, role, day, day, now}, office);
}

/// An office vouches for the keys with which the walk signs and reviews, for the day of the walk.
Result<void> WalkStage::vouch(const QString& office, const visit::PersonFacts& lead)
{
    const people::SigningKey key = people::SigningKey::generate();
    const Stamp now = m_clock.now();
    const people::Person& reviewer = m_reviewer.person;
    const auto certificate = certified(m_key.publicKey(), lead.id, lead.name, lead.role, key);
    const auto reviewers =
        certified(m_reviewersKey.publicKey(), reviewer.id, reviewer.name, reviewer.role, key);
    if (!certificate || !reviewers)
        return tl::unexpected(certificate ? reviewers.error() : certificate.error());
    people::OfficeStore offices(m_database);
    if (auto added = people::PeopleStore(m_database).add({lead.id, lead.name, lead.role, {}, {}, {}}); !added)
        return added;
    if (auto known = offices.takeUp(key.publicKey(), office, lead.id, now); !known)
        return known;
    if (auto kept = offices.keep(*certificate, now); !kept)
        return kept;
    return offices.keep(*reviewers, now);
}

Result<void> WalkStage::begin(const visit::Opening& opening)
{
    const PersonId lead = opening.people.first().id;
    auto logbook =
        visit::Logbook::begin(m_journal, m_summaries, lead, opening, m_clock.now(), review::summaryOf);
    if (!logbook)
        return tl::unexpected(logbook.error());
    m_visit = std::make_unique<Visit>(std::move(*logbook), m_clock, lead);
    QObject::connect(&m_visit->desk, &ui::VisitDesk::signatureWanted, &m_visit->room,
                     [this](const ui::WantedSignature& asked) { sign(asked); });
    m_visit->room.resize(1366, 768);
    m_visit->room.show();
    m_visit->room.activateWindow();
    QApplication::setActiveWindow(&m_visit->room); // a screen without a window manager makes no window active
    return {};
}

void WalkStage::sign(const ui::WantedSignature& asked)
{
    const VisitId visit = m_visit->logbook.visit();
    const auto head = m_journal.head(visit);
    const auto meaning = people::meaningFromWord(asked.meaning.toStdString());
    if (!head || !meaning || head->seq.value() != asked.entry)
        return;
    const WallTime at = m_clock.now().wall;
    const auto message = people::signedMessage({visit, asked.entry, head->hash, *meaning, at, asked.person},
                                               m_key.publicKey());
    if (!message)
        return;
    static_cast<void>(m_journal.keep({visit, head->seq, head->hash, asked.person, m_key.publicKey().bytes(),
                                      m_key.sign(*message).bytes(), asked.meaning, at}));
}

Result<void> WalkStage::review()
{
    const visit::Logbook& logbook = m_visit->logbook;
    const WallTime now = m_clock.now().wall;
    m_reviewer.key = people::thumbprint(m_reviewersKey.publicKey());
    const record::Review said{logbook.visit(),
                              static_cast<qint64>(logbook.entries().size()) - 1,
                              logbook.head(),
                              record::Verdict::Accepted,
                              u"Seen, nothing to add."_s,
                              {},
                              m_reviewer.person.id,
                              m_reviewer.person.name,
                              now};
    const auto refusals = review::mayReview(
        said, m_reviewer, {logbook.state(), logbook.entries(), logbook.head()}, people::utcDayOf(now));
    if (!refusals.isEmpty())
        return fail(Error::Kind::Refused,
                    u"the review, reason %1"_s.arg(static_cast<int>(refusals.first().kind)));
    const auto paper = record::sign(said, m_reviewersKey);
    if (!paper)
        return tl::unexpected(paper.error());
    return record::ReviewStore(m_database).keep(*paper, m_reviewersKey.publicKey(), m_clock.now());
}

ui::VisitPage& WalkStage::room()
{
    return m_visit->room;
}

ui::VisitDesk& WalkStage::desk()
{
    return m_visit->desk;
}

const visit::Logbook& WalkStage::logbook() const
{
    return m_visit->logbook;
}

} // namespace coldarc::app
