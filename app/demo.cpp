#include "app/demo.h"

#include "app/demo_driver.h"
#include "app/demo_usage.h"
#include "core/lamps/alert_threshold.h"
#include "core/lamps/lamp_store.h"
#include "core/people/gear_store.h"
#include "core/people/jws.h"
#include "core/people/key_store.h"
#include "core/people/office_store.h"
#include "core/people/people_store.h"
#include "core/record/review_store.h"
#include "core/review/reviewing.h"
#include "core/site/site_store.h"
#include "core/store/workspace_file.h"
#include "core/visit/plan_store.h"
#include "core/visit/settlement_store.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QLockFile>

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::app {
namespace {

using std::chrono::days;
using std::chrono::milliseconds;

people::Month monthFrom(WallTime moment, int months)
{
    const people::Day day = people::utcDayOf(moment);
    return people::Month(day.year(), day.month()) + std::chrono::months(months);
}

/// A lamp's stay in a lamphouse, as the demo follows it.
struct Stay {
    lamps::FitId fit;
    LampId lamp;
    LampTypeId type;
    QString serial;
    WallTime from;
    std::optional<WallTime> to;
};

class Maker {
public:
    Maker(store::Database& database, const DemoRecipe& recipe, DemoData data)
        : m_database(database)
        , m_recipe(recipe)
        , m_data(std::move(data))
        , m_chance(recipe.seed)
        , m_begin(recipe.now.wall - std::chrono::weeks(m_data.lamps.historyWeeks))
        , m_usage(m_data.sites, m_begin, recipe.now.wall, m_data.lamps.weeklySpread, m_chance)
    {
    }

    Result<void> make()
    {
        for (const auto part :
             {&Maker::makePeople, &Maker::makeGear, &Maker::makeSites, &Maker::makeFitted, &Maker::makeStock,
              &Maker::makeVisits, &Maker::makeReadings, &Maker::makePlans}) {
            if (auto made = (this->*part)(); !made)
                return made;
        }
        return {};
    }

private:
    [[nodiscard]] WallTime now() const { return m_recipe.now.wall; }
    [[nodiscard]] people::Day day(int fromNow) const { return people::utcDayOf(now() + days(fromNow)); }
    [[nodiscard]] lamps::MoveId newMove() { return lamps::MoveId(m_recipe.ids.next()); }

    /// A moment of this computer in an earlier run of it.
    [[nodiscard]] Stamp stampAt(WallTime wall)
    {
        Stamp stamp = m_recipe.now;
        stamp.wall = wall;
        stamp.boot = m_recipe.ids.next();
        stamp.sinceBoot = milliseconds(static_cast<qint64>(m_chance.between(20, 90) * 60e3));
        stamp.asleep = 0ms;
        return stamp;
    }

    // ---- People and gear ----------------------------------------------------------------------------------

    Result<void> makePeople()
    {
        people::PeopleStore store(m_database);
        for (const DemoPerson& one : m_data.people.people) {
            if (auto added = store.add(one.person); !added)
                return added;
        }
        for (const DemoPerson& one : m_data.people.people) {
            if (auto given = giveGrants(store, one); !given)
                return given;
            if (auto enrolled = enrol(one); !enrolled)
                return enrolled;
        }
        return makeOffice();
    }

    /// The office of the chain, made by its supervisor, vouches for everybody's key for a year.
    Result<void> makeOffice()
    {
        const DemoPeople& all = m_data.people;
        const auto passphrase = people::Passphrase::accept(all.officePassphrase);
        const auto maker = std::ranges::find(all.people, people::Role::Supervisor,
                                             [](const DemoPerson& one) { return one.person.role; });
        if (!passphrase || maker == all.people.end())
            return fail(Error::Kind::Malformed, u"the office of the demo"_s);
        const people::SigningKey office = m_recipe.newKey();
        const auto sealed = people::sealKey(office, people::officeHolder(), *passphrase, m_recipe.sealCost);
        if (!sealed)
            return tl::unexpected(sealed.error());
        people::OfficeStore store(m_database);
        const Stamp made = stampAt(m_begin - days(7));
        if (auto founded = store.found(all.office, *sealed, maker->person.id, made); !founded)
            return founded;
        for (const DemoPerson& one : all.people) {
            const auto certificate =
                people::certify({m_keys.at(one.person.id).publicKey(), one.person.id, one.person.name,
                                 one.person.role, people::utcDayOf(made.wall), day(365), made.wall},
                                office);
            if (!certificate)
                return tl::unexpected(certificate.error());
            if (auto kept = store.keep(*certificate, made); !kept)
                return kept;
        }
        return {};
    }

    /// The first supervisor who is somebody else gives them.
    [[nodiscard]] PersonId giverFor(const PersonId& person) const
    {
        for (const DemoPerson& one : m_data.people.people) {
            if (one.person.role == people::Role::Supervisor && one.person.id != person)
                return one.person.id;
        }
        return person;
    }

    Result<void> giveGrants(people::PeopleStore& store, const DemoPerson& one)
    {
        std::vector<people::Authorisation>& all = m_authorisations[one.person.id];
        for (const DemoPerson::Grant& grant : one.grants) {
            const people::Authorisation authorisation{people::AuthorisationId(m_recipe.ids.next()),
                                                      one.person.id,
                                                      grant.duty,
                                                      grant.models,
                                                      day(grant.fromDays),
                                                      day(grant.untilDays),
                                                      giverFor(one.person.id),
                                                      std::nullopt};
            if (auto given = store.give(authorisation); !given)
                return given;
            all.push_back(authorisation);
        }
        return {};
    }

    Result<void> enrol(const DemoPerson& one)
    {
        const auto passphrase = people::Passphrase::accept(one.passphrase);
        if (!passphrase)
            return fail(Error::Kind::Malformed, u"the passphrase of "_s + one.person.id.text());
        people::SigningKey key = m_recipe.newKey();
        const auto sealed = people::sealKey(key, one.person.id, *passphrase, m_recipe.sealCost);
        if (!sealed)
            return tl::unexpected(sealed.error());
        auto enrolled =
            people::KeyStore(m_database).enrol(one.person.id, *sealed, stampAt(m_begin - days(7)));
        m_keys.emplace(one.person.id, std::move(key));
        return enrolled;
    }

    Result<void> makeGear()
    {
        people::GearStore store(m_database);
        for (const DemoGear& one : m_data.gear) {
            people::GearItem item{one.id,       one.kind,     one.marking,  one.identifier,
                                  std::nullopt, std::nullopt, std::nullopt, std::nullopt};
            if (one.madeMonths)
                item.made = monthFrom(now(), *one.madeMonths);
            if (one.expiresMonths)
                item.expires = monthFrom(now(), *one.expiresMonths);
            if (!one.wearer.isEmpty())
                item.assignedTo = one.wearer;
            if (auto added = store.add(item); !added)
                return added;
            const auto outcome = one.isPassed ? people::GearInspection::Outcome::Passed
                                              : people::GearInspection::Outcome::Withdrawn;
            if (auto seen = store.inspect(one.id, {day(one.inspectedDays), one.inspectedBy, outcome}); !seen)
                return seen;
        }
        return {};
    }

    // ---- Sites and lamps ----------------------------------------------------------------------------------

    Result<void> makeSites()
    {
        site::SiteStore store(m_database);
        for (const DemoSite& one : m_data.sites) {
            if (auto saved = store.save(one.at(now())); !saved)
                return saved;
        }
        return {};
    }

    /// When the first lamp of this lamphouse comes out; now if it stays in.
    [[nodiscard]] WallTime firstExchangeOf(const LamphouseId& lamphouse) const
    {
        for (const DemoVisit& visit : m_data.visits) {
            const bool isHere = std::ranges::any_of(
                visit.swaps, [&](const DemoSwap& swap) { return swap.lamphouse == lamphouse; });
            if (isHere && visit.doesSwap())
                return startOf(visit);
        }
        return now();
    }

    [[nodiscard]] WallTime startOf(const DemoVisit& visit) const
    {
        return std::chrono::floor<days>(now() + days(visit.days)) + std::chrono::minutes(visit.minuteOfDay);
    }

    Result<void> makeFitted()
    {
        lamps::LampStore store(m_database);
        for (const DemoLamps::Fitted& one : m_data.lamps.fitted) {
            if (!m_usage.knows(one.lamphouse) || m_usage.weekly(one.lamphouse) <= 0)
                return fail(Error::Kind::Malformed, u"nothing burns in "_s + one.lamphouse.text());
            const Stay stay{lamps::FitId(m_recipe.ids.next()),
                            LampId(m_recipe.ids.next()),
                            one.type,
                            one.serial,
                            m_usage.since(one.lamphouse, one.hoursAtEnd, firstExchangeOf(one.lamphouse)),
                            std::nullopt};
            const lamps::Lamp lamp{stay.lamp, stay.type, stay.serial, lamps::LampHours()};
            if (auto added = store.addFitted(lamp, fitOf(one.lamphouse, stay), newMove()); !added)
                return added;
            if (auto known = site::SiteStore(m_database).setFitted(one.lamphouse, stay.lamp); !known)
                return known;
            m_stays[one.lamphouse].append(stay);
        }
        return {};
    }

    /// A controller is told of a new lamp and counts from nought again.
    static lamps::Fit fitOf(const LamphouseId& lamphouse, const Stay& stay)
    {
        return {stay.fit, stay.lamp, lamphouse, lamps::CounterHours(), stay.from, std::nullopt};
    }

    Result<void> makeStock()
    {
        for (const DemoLamps::Stock& one : m_data.lamps.stock) {
            if (auto added = addLamp(one, now() + days(one.days)); !added)
                return tl::unexpected(added.error());
        }
        return {};
    }

    /// A lamp that was not known; one for a van was in stock the day before.
    Result<LampId> addLamp(const DemoLamps::Stock& one, WallTime at)
    {
        lamps::LampStore store(m_database);
        const LampId id(m_recipe.ids.next());
        const bool isForAVan = one.custody == lamps::Custody::InVan;
        const lamps::CustodyMove first{newMove(), id, isForAVan ? lamps::Custody::InStock : one.custody,
                                       {},        {}, isForAVan ? at - days(1) : at};
        if (auto added = moved(store.add({id, one.type, one.serial, lamps::LampHours()}, first)); !added)
            return tl::unexpected(added.error());
        if (isForAVan) {
            const lamps::CustodyMove van{newMove(), id, one.custody, one.holder, {}, at};
            if (auto went = moved(store.move(van)); !went)
                return tl::unexpected(went.error());
        }
        if (!one.serial.isEmpty())
            m_bySerial.insert(one.serial, id);
        return id;
    }

    static Result<void> moved(const Result<lamps::MoveAnswer>& answer)
    {
        if (!answer)
            return tl::unexpected(answer.error());
        if (std::holds_alternative<lamps::MoveNotAllowed>(*answer))
            return fail(Error::Kind::Refused, u"a lamp cannot go there"_s);
        return {};
    }

    [[nodiscard]] Stay& lastStay(const LamphouseId& lamphouse) { return m_stays[lamphouse].last(); }

    [[nodiscard]] double hoursOf(const LamphouseId& lamphouse, WallTime at)
    {
        return std::max(0.0, std::floor(m_usage.burnt(lamphouse, lastStay(lamphouse).from, at)));
    }

    /// One look a week from the beginning on, each site on its own day; none of a lamphouse once a visit has
    /// begun there that is still open.
    Result<void> makeReadings()
    {
        lamps::LampStore store(m_database);
        for (const DemoSite& one : m_data.sites) {
            const auto offset = milliseconds(static_cast<qint64>(m_chance.between(20, 110) * 3600e3));
            for (const site::Lamphouse& lamphouse : one.document.lamphouses) {
                for (int week = m_data.lamps.historyWeeks - 1; week >= 0; --week) {
                    const WallTime at = now() - std::chrono::weeks(week) - offset;
                    if (auto read = readCounter(store, lamphouse.id, at); !read)
                        return read;
                }
            }
        }
        return {};
    }

    Result<void> readCounter(lamps::LampStore& store, const LamphouseId& lamphouse, WallTime at)
    {
        for (const Stay& stay : m_stays.value(lamphouse)) {
            if (at < stay.from || (stay.to && at >= *stay.to) || at >= m_openSince.value(lamphouse, now()))
                continue;
            const double hours = std::floor(m_usage.burnt(lamphouse, stay.from, at));
            return store.addReading({lamps::CounterReadingId(m_recipe.ids.next()), lamphouse,
                                     lamps::CounterHours::fromHours(hours), at});
        }
        return {};
    }

    // ---- Visits -------------------------------------------------------------------------------------------

    Result<void> makeVisits()
    {
        for (const DemoVisit& visit : m_data.visits) {
            if (auto made = makeVisit(visit); !made)
                return made;
        }
        return {};
    }

    Result<void> makeVisit(const DemoVisit& visit)
    {
        const DemoSite* there = m_data.site(visit.site);
        if (!there)
            return fail(Error::Kind::Malformed, u"no site "_s + visit.site.text());
        const WallTime start = startOf(visit);
        const auto opening = openingOf(visit, *there, start);
        if (!opening)
            return tl::unexpected(opening.error());
        QHash<LamphouseId, DemoFigures> figures;
        for (const site::Lamphouse& lamphouse : opening->site.lamphouses)
            figures.insert(lamphouse.id, {hoursOf(lamphouse.id, start)});
        for (const DemoSwap& swap : visit.swaps)
            figures.insert(swap.lamphouse, {hoursOf(swap.lamphouse, start), thresholdOf(swap), swap.cause});

        store::Journal journal(m_database);
        store::Summaries summaries(m_database);
        DemoClock clock(stampAt(start));
        auto driver =
            DemoDriver::open({journal, summaries, clock, m_chance, m_data.answers, m_keys, m_recipe.limits},
                             *opening, visit.twists, figures);
        if (!driver)
            return tl::unexpected(driver.error());
        const auto went = driver->stepAll();
        if (!went)
            return tl::unexpected(went.error());
        if (visit.twist(DemoTwist::Kind::Leave)) {
            for (const DemoSwap& swap : visit.swaps)
                m_openSince.insert(swap.lamphouse, start);
            visit::addInHand(m_inHand, driver->state(), start);
            return {};
        }
        if (auto closed = driver->close(); !closed)
            return closed;
        if (auto settled = settle(driver->logbook()); !settled)
            return settled;
        return visit.review ? review(*visit.review, driver->logbook()) : Result<void>();
    }

    /// By the rules of reviews, signed by the supervisor's key.
    Result<void> review(const DemoReview& wanted, const visit::Logbook& logbook)
    {
        const auto who = std::ranges::find_if(
            m_data.people.people, [&](const DemoPerson& one) { return one.person.id == wanted.by; });
        const auto key = m_keys.find(wanted.by);
        if (who == m_data.people.people.end() || key == m_keys.end())
            return fail(Error::Kind::Malformed, u"nobody is called "_s + wanted.by.text());
        const qint64 last = logbook.entries().size() - 1;
        record::Review review{logbook.visit(),
                              last,
                              logbook.head(),
                              wanted.verdict,
                              wanted.text,
                              {},
                              wanted.by,
                              who->person.name,
                              logbook.entries().last().at.wall + days(wanted.days)};
        const QSet<qint64>& withdrawn = logbook.state().withdrawn;
        if (!wanted.remark.isEmpty())
            review.remarks.append({withdrawn.isEmpty() ? last : *withdrawn.cbegin(), wanted.remark});
        const review::Reviewer reviewer{who->person, m_authorisations[wanted.by],
                                        people::thumbprint(key->second.publicKey())};
        const auto refused =
            review::mayReview(review, reviewer, {logbook.state(), logbook.entries(), logbook.head(), {}},
                              people::utcDayOf(review.at));
        if (!refused.isEmpty())
            return fail(Error::Kind::Refused,
                        u"%1 cannot review the visit %2"_s.arg(wanted.by.text(), logbook.visit().text()));
        const auto paper = record::sign(review, key->second);
        if (!paper)
            return tl::unexpected(paper.error());
        return record::ReviewStore(m_database).keep(*paper, key->second.publicKey(), stampAt(review.at));
    }

    Result<visit::Opening> openingOf(const DemoVisit& visit, const DemoSite& there, WallTime start)
    {
        visit::WantedVisit wanted;
        wanted.visit = VisitId(m_recipe.ids.next());
        wanted.reason = visit.reason;
        wanted.site = there.at(start);
        wanted.today = people::utcDayOf(start);
        for (const PersonId& person : visit.crew) {
            const auto found = std::ranges::find_if(
                m_data.people.people, [&](const DemoPerson& one) { return one.person.id == person; });
            if (found == m_data.people.people.end())
                return fail(Error::Kind::Malformed, u"nobody is called "_s + person.text());
            wanted.people.append({found->person, m_authorisations[person]});
        }
        for (site::Lamphouse& lamphouse : wanted.site.lamphouses) {
            if (m_stays.value(lamphouse.id).isEmpty())
                return fail(Error::Kind::Malformed, u"no lamp in "_s + lamphouse.id.text());
            const Stay& stay = lastStay(lamphouse.id);
            lamphouse.fitted = stay.lamp;
            const WallTime read = std::max(stay.from, start - days(3)); // the last look before this visit
            const double hours = hoursOf(lamphouse.id, read);
            wanted.fitted.append({lamphouse.id, {stay.lamp, stay.type, stay.serial, hours, hours, read}});
        }
        for (const DemoSwap& swap : visit.swaps) {
            const auto lamp = lampFor(swap, visit.crew.first(), start);
            if (!lamp)
                return tl::unexpected(lamp.error());
            wanted.swaps.append(
                {SwapId(m_recipe.ids.next()), swap.lamphouse, {*lamp, swap.type, swap.serial, 0.0}});
        }
        const auto opening = visit::openingFor(wanted, m_recipe.shelf, m_inHand);
        if (!opening)
            return fail(Error::Kind::Refused,
                        u"a visit at %1 cannot be opened: %2 %3"_s.arg(
                            visit.site.text(), opening.error().first().about, opening.error().first().other));
        return *opening;
    }

    /// The lamp that comes along: in the van since some days, or from an earlier visit that did not need it.
    Result<LampId> lampFor(const DemoSwap& swap, const PersonId& lead, WallTime start)
    {
        const auto known = m_bySerial.constFind(swap.serial);
        if (known != m_bySerial.cend())
            return backInTheVan(*known, lead, start - days(1));
        return addLamp({swap.type, swap.serial, lamps::Custody::InVan, lead, 0}, start - days(2));
    }

    Result<LampId> backInTheVan(const LampId& lamp, const PersonId& lead, WallTime at)
    {
        lamps::LampStore store(m_database);
        const auto now = store.lamp(lamp);
        if (!now)
            return tl::unexpected(now.error());
        if (now->custody == lamps::Custody::InVan && now->holder == lead)
            return lamp;
        const auto went = moved(store.move({newMove(), lamp, lamps::Custody::InVan, lead, {}, at}));
        if (!went)
            return tl::unexpected(went.error());
        return lamp;
    }

    /// By the rule; where it says that none keeps the promise, four fifths of the warranty.
    [[nodiscard]] double thresholdOf(const DemoSwap& swap) const
    {
        const catalogue::LampType* type = m_recipe.shelf.catalogue.lampType(swap.type);
        if (!type)
            return 0;
        const double weekly = m_usage.weekly(swap.lamphouse);
        const double spread = weekly * m_data.lamps.weeklySpread;
        const lamps::Exposure exposure{m_data.lamps.lookGapWeeks, m_data.lamps.leadWeeks,
                                       m_data.lamps.leadDeviationWeeks, 0};
        const auto found = lamps::alertThreshold(lamps::declaredUsage(weekly, spread, spread), exposure,
                                                 {type->warrantyHours, m_data.lamps.level});
        const auto* threshold = std::get_if<lamps::AlertThreshold>(&found);
        return threshold ? threshold->hours : std::floor(type->warrantyHours * 0.08) * 10;
    }

    /// The lamps and their stays follow what the logbook says.
    Result<void> settle(const visit::Logbook& logbook)
    {
        const auto settlement = visit::settlementOf(logbook.entries());
        if (!settlement)
            return fail(Error::Kind::Refused, u"visit %1 does not end"_s.arg(logbook.visit().text()));
        const auto left = visit::SettlementStore(m_database).settle(*settlement, settlement->closedAt);
        if (!left)
            return tl::unexpected(left.error());
        if (!left->empty()) {
            return fail(Error::Kind::Refused, u"the lamps of visit %1, %2, kind %3"_s.arg(
                                                  logbook.visit().text(), left->front().lamphouse.text(),
                                                  QString::number(static_cast<int>(left->front().kind))));
        }
        for (const visit::SeatSettlement& seat : settlement->seats) {
            for (const visit::SeatDeed& deed : seat.deeds) {
                follow(seat.lamphouse, deed);
                if (auto given = giveBack(deed); !given)
                    return given;
            }
        }
        return {};
    }

    /// A boxed lamp travels in the van until the dealer has it, which takes a fortnight.
    Result<void> giveBack(const visit::SeatDeed& deed)
    {
        const auto* ended = std::get_if<visit::StayEnded>(&deed);
        const WallTime at = ended ? ended->move.at + days(14) : now();
        if (at >= now())
            return {};
        lamps::LampStore store(m_database);
        const auto lamp = store.lamp(ended->lamp.id);
        if (!lamp)
            return tl::unexpected(lamp.error());
        if (lamp->custody != lamps::Custody::Boxed)
            return {};
        return moved(store.move({newMove(), ended->lamp.id, lamps::Custody::Returned, {}, {}, at}));
    }

    void follow(const LamphouseId& lamphouse, const visit::SeatDeed& deed)
    {
        if (const auto* ended = std::get_if<visit::StayEnded>(&deed))
            lastStay(lamphouse).to = ended->move.at;
        if (const auto* began = std::get_if<visit::StayBegan>(&deed))
            m_stays[lamphouse].append({began->fit.id, began->lamp.id, began->lamp.type.value_or(LampTypeId()),
                                       began->lamp.serial, began->fit.from, std::nullopt});
    }

    Result<void> makePlans()
    {
        visit::PlanStore store(m_database);
        for (const DemoPlan& one : m_data.plans) {
            visit::PlannedVisit plan{VisitId(m_recipe.ids.next()), one.site, day(one.days), one.reason, {}};
            for (const DemoPlan::Swap& swap : one.swaps) {
                const bool isPutAside = !swap.serial.isEmpty();
                if (isPutAside && !m_bySerial.contains(swap.serial))
                    return fail(Error::Kind::Malformed, u"no lamp "_s + swap.serial);
                plan.swaps.push_back({swap.lamphouse, isPutAside
                                                          ? std::optional(m_bySerial.value(swap.serial))
                                                          : std::nullopt});
            }
            if (auto saved = store.save(plan); !saved)
                return saved;
        }
        return {};
    }

    store::Database& m_database;
    const DemoRecipe& m_recipe;
    DemoData m_data;
    DemoChance m_chance;
    WallTime m_begin; ///< of the counter readings
    DemoUsage m_usage;
    DemoKeys m_keys;
    std::map<PersonId, std::vector<people::Authorisation>> m_authorisations;
    QHash<LamphouseId, QList<Stay>> m_stays;
    QHash<LamphouseId, WallTime> m_openSince; ///< a visit began there and is not closed
    lamps::InHand m_inHand;                   ///< of those visits
    QHash<QString, LampId> m_bySerial;
};

constexpr int kLongestMaking = 120'000; // ms that another program is waited for; a figure of the house

/// What a making that was broken off left, or an earlier try.
void removeMaking(const QString& file)
{
    for (const QString& end : {u""_s, u"-wal"_s, u"-shm"_s, u"-journal"_s})
        QFile::remove(file + end);
}

} // namespace

Result<void> makeDemoIn(store::Database& database, const DemoRecipe& recipe)
{
    auto data = readDemoData(recipe.sampleFolder);
    if (!data)
        return tl::unexpected(data.error());
    Maker maker(database, recipe, std::move(*data));
    return database.transaction([&] { return maker.make(); });
}

Result<void> makeDemo(const QString& workspaceFile, const DemoRecipe& recipe)
{
    if (QFile::exists(workspaceFile))
        return fail(Error::Kind::Conflict, workspaceFile);
    QDir().mkpath(QFileInfo(workspaceFile).absolutePath());
    QLockFile maker(workspaceFile + u".maker"_s);
    maker.setStaleLockTime(0); // one that died is seen by its process id
    if (!maker.tryLock(kLongestMaking))
        return fail(maker.error() == QLockFile::LockFailedError ? Error::Kind::Refused : Error::Kind::Storage,
                    u"the lock of the maker: "_s + workspaceFile);
    if (QFile::exists(workspaceFile))
        return fail(Error::Kind::Conflict, workspaceFile);
    const QString making = workspaceFile + u".making"_s;
    removeMaking(making);
    {
        auto opened = store::openWorkspace(making, {recipe.ids.next(), recipe.now.wall});
        if (opened.outcome != store::Opening::Created || !opened.database)
            return fail(Error::Kind::Storage, u"%1: %2"_s.arg(making, opened.detail));
        if (auto made = makeDemoIn(*opened.database, recipe); !made) {
            opened.database.reset();
            removeMaking(making);
            return made;
        }
    } // closed: the write-ahead log is folded into the file
    if (!QFile::rename(making, workspaceFile))
        return fail(Error::Kind::Storage, u"cannot name "_s + workspaceFile);
    return {};
}

} // namespace coldarc::app
