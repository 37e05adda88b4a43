#include "core/review/history_store.h"

#include "core/people/office_store.h"
#include "core/people/people_store.h"
#include "core/review/summary.h"
#include "core/site/site_store.h"
#include "core/store/journal.h"
#include "core/visit/settlement_store.h"
#include "tests/core/visit/night.h"

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using Kind = HistoryLine::Kind;

// All lamps, persons and places are invented.

const QString kOld = u"old-1-main"_s;
const QString kNew = u"new-1"_s;
const QString kLamphouse = u"lamphouse-1-main"_s;

class HistoryStoreTest : public ::testing::Test {
protected:
    /// The opening of a night, some days later, at a site that stays the same.
    static visit::Opening laterOpening(const QString& visit)
    {
        visit::Opening opening = Night().opening();
        opening.visit = VisitId(visit);
        return opening;
    }
    /// A night that is over.
    static Night over(const visit::Opening& opening = Night().opening(), std::chrono::hours later = 0h)
    {
        Night night;
        night = Night(opening);
        night.entries.clear();
        night.state = {};
        night.clock.advance(later);
        EXPECT_TRUE(night.tell(opening.people.first().id, opening));
        night.doAll();
        night.close();
        return night;
    }
    void keep(const Night& night, qsizetype upTo = -1)
    {
        const QList<visit::Entry> entries = upTo < 0 ? night.entries : night.entries.mid(0, upTo);
        const VisitId visit = night.opening().visit;
        const auto kept = journal.entries(visit);
        ASSERT_TRUE(kept);
        Hash head = kept->empty() ? Hash() : kept->back().hash;
        for (auto number = static_cast<qsizetype>(kept->size()); number < entries.size(); ++number) {
            const auto hash = journal.append(visit, store::Sequence(number), visit::bytesOf(entries[number]));
            ASSERT_TRUE(hash) << hash.error().detail.toStdString();
            head = *hash;
        }
        store::VisitSummary summary = summaryOf(visit::fold(entries), entries);
        summary.headSeq = store::Sequence(entries.size() - 1);
        summary.headHash = head;
        ASSERT_TRUE(summaries.put(summary));
    }
    HistoryReach catchUp()
    {
        const auto reach = store.catchUp(100);
        EXPECT_TRUE(reach) << (reach ? "" : reach.error().detail.toStdString());
        return reach.value_or(HistoryReach{-1, -1});
    }
    [[nodiscard]] HistoryPage page(About about, const QString& id, qint64 first = 0, int most = 500) const
    {
        const auto page = store.page(about, id, first, most);
        EXPECT_TRUE(page) << (page ? "" : page.error().detail.toStdString());
        return page.value_or(HistoryPage());
    }
    [[nodiscard]] QStringList found(About about, const QString& words, int most = 50) const
    {
        QStringList ids;
        const auto subjects = store.find(about, words, most);
        EXPECT_TRUE(subjects) << (subjects ? "" : subjects.error().detail.toStdString());
        for (const Subject& one : subjects.value_or(std::vector<Subject>()))
            ids.append(one.id);
        return ids;
    }
    static qsizetype count(const QList<HistoryLine>& lines, Kind kind)
    {
        return std::ranges::count(lines, kind, &HistoryLine::kind);
    }

    coldarc::store::Database database = coldarc::store::Database::inMemory();
    coldarc::store::Journal journal{database};
    coldarc::store::Summaries summaries{database};
    HistoryStore store{database};
};

TEST_F(HistoryStoreTest, AVisitIsInTheHistoriesOnceItsLogbookWasRead)
{
    const Night night = over();
    keep(night);
    EXPECT_EQ(store.reach(), (HistoryReach{1, 0}));
    EXPECT_EQ(store.page(About::Lamp, kNew, 0, 9).error().kind, Error::Kind::NotFound);

    EXPECT_EQ(catchUp(), (HistoryReach{0, 0}));

    const HistoryPage lamp = page(About::Lamp, kNew);
    EXPECT_EQ(lamp.subject.name, u"NEW000001"_s);
    EXPECT_EQ(count(lamp.lines, Kind::Fitted), 1);
    EXPECT_EQ(count(lamp.lines, Kind::BookedIn), 1);
    EXPECT_EQ(count(lamp.lines, Kind::TakenOut), 0);
    ASSERT_EQ(lamp.stays.size(), 1U);
    ASSERT_TRUE(lamp.find(About::Lamphouse, kLamphouse));
    EXPECT_EQ(lamp.find(About::Lamphouse, kLamphouse)->name, u"Pier Street"_s);
    EXPECT_EQ(count(page(About::Lamphouse, kLamphouse).lines, Kind::TakenOut), 1);
    EXPECT_EQ(count(page(About::Person, u"ada"_s).lines, Kind::Signed), 1);
}

TEST_F(HistoryStoreTest, EveryLineComesBackAsTheVisitToldIt)
{
    const Night night = over();
    keep(night);
    catchUp();
    QList<HistoryLine> told = historyOf(night.state, night.entries).lines;
    told.removeIf([](const HistoryLine& line) { return line.lamphouse.text() != kLamphouse; });

    QList<HistoryLine> kept = page(About::Lamphouse, kLamphouse).lines;

    std::ranges::reverse(kept);
    ASSERT_EQ(kept.size(), told.size());
    for (const HistoryLine& line : told)
        EXPECT_TRUE(kept.contains(line)) << wordOf(line.kind).toStdString();
    EXPECT_TRUE(std::ranges::is_sorted(kept, {}, &HistoryLine::at));
}

TEST_F(HistoryStoreTest, ALogbookThatWentOnIsReadAnewAndNothingIsToldTwice)
{
    Night night = over();
    keep(night, 20);
    catchUp();
    EXPECT_EQ(page(About::Person, u"ada"_s).lines.last().words.first(), u"open"_s);
    keep(night, 20); // the summary as it stood
    EXPECT_EQ(store.reach(), (HistoryReach{0, 0}));

    keep(night);
    EXPECT_EQ(store.reach(), (HistoryReach{1, 0}));
    catchUp();

    const QList<HistoryLine> lines = page(About::Person, u"ada"_s).lines;
    EXPECT_EQ(count(lines, Kind::Visited), 1);
    EXPECT_EQ(lines.last().words.first(), u"done"_s);
}

TEST_F(HistoryStoreTest, SummariesThatAreRebuiltLeadToTheSameHistories)
{
    keep(over());
    catchUp();
    const QList<HistoryLine> before = page(About::Lamphouse, kLamphouse).lines;

    ASSERT_TRUE(summaries.rebuild(summarise));
    EXPECT_EQ(catchUp(), (HistoryReach{0, 0}));

    EXPECT_EQ(page(About::Lamphouse, kLamphouse).lines, before);
}

TEST_F(HistoryStoreTest, ALogbookThatCannotBeReadIsCountedAndInNoHistory)
{
    const VisitId visit(u"broken"_s);
    ASSERT_TRUE(journal.append(visit, coldarc::store::Sequence(0), "no entry at all"));
    coldarc::store::VisitSummary summary;
    summary.visit = visit;
    summary.state = u"done"_s;
    ASSERT_TRUE(summaries.put(summary));
    keep(over());

    EXPECT_EQ(catchUp(), (HistoryReach{0, 1}));
    EXPECT_EQ(catchUp(), (HistoryReach{0, 1})); // and is not tried again each time
    EXPECT_EQ(found(About::Person, {}), QStringList{u"ada"_s});
}

TEST_F(HistoryStoreTest, ASummaryWithoutALogbookTellsNothing)
{
    coldarc::store::VisitSummary summary;
    summary.visit = VisitId(u"line-only"_s);
    summary.state = u"done"_s;
    ASSERT_TRUE(summaries.put(summary));

    EXPECT_EQ(catchUp(), (HistoryReach{0, 0}));
    EXPECT_TRUE(found(About::Lamp, {}).isEmpty());
}

TEST_F(HistoryStoreTest, VisitsAreReadAFewAtATime)
{
    keep(over());
    keep(over(laterOpening(u"visit-2"_s), 24h));

    EXPECT_EQ(store.catchUp(1), (HistoryReach{1, 0}));
    EXPECT_EQ(store.catchUp(1), (HistoryReach{0, 0}));
    EXPECT_EQ(count(page(About::Person, u"ada"_s).lines, Kind::Visited), 2);
}

TEST_F(HistoryStoreTest, ASerialIsFoundHoweverItIsSpacedAndPlacesAndPeopleByAnyOfTheirWords)
{
    keep(over());
    catchUp();

    EXPECT_EQ(found(About::Lamp, u"new-0000 "_s), QStringList{kNew});
    EXPECT_EQ(found(About::Lamp, u"0001"_s).size(), 2);
    EXPECT_TRUE(found(About::Lamp, u"nowhere"_s).isEmpty());
    EXPECT_EQ(found(About::Lamphouse, u" screen PIER "_s), QStringList{kLamphouse});
    EXPECT_TRUE(found(About::Lamphouse, u"pier screen 2"_s).isEmpty());
    EXPECT_EQ(found(About::Person, u"okoro"_s), QStringList{u"ada"_s});
    EXPECT_EQ(found(About::Person, u"engineer"_s), QStringList{u"ada"_s});
    for (const QString& odd : {u"%"_s, u"_"_s, u"' OR 1=1 --"_s, u"a b c d e f g"_s})
        EXPECT_TRUE(found(About::Person, odd).isEmpty()) << odd.toStdString();
    EXPECT_EQ(found(About::Lamp, {}, 1).size(), 1);
}

TEST_F(HistoryStoreTest, ANameIsTheNewestVisitsWhicheverIsReadFirst)
{
    visit::Opening later = laterOpening(u"visit-2"_s);
    later.site.site.name = u"Pier Street Picture House"_s;
    keep(over(later, 24h));
    catchUp();
    keep(over());
    catchUp();

    EXPECT_EQ(page(About::Lamphouse, kLamphouse).subject.name, u"Pier Street Picture House"_s);
}

TEST_F(HistoryStoreTest, WhatTheWorkspaceKnowsIsFoundBeforeAnyVisitToldOfIt)
{
    lamps::LampStore lamps(database);
    ASSERT_TRUE(lamps.add(
        {LampId(u"l-1"_s), LampTypeId(u"hollin-30b"_s), u"HB 77"_s, lamps::LampHours()},
        {lamps::MoveId(u"m-1"_s), LampId(u"l-1"_s), lamps::Custody::InStock, {}, {}, WallTime(24h)}));
    ASSERT_TRUE(people::PeopleStore(database).add(
        {PersonId(u"p-1"_s), u"E. Brandt"_s, people::Role::Electrician, {}, {}, {}}));

    EXPECT_EQ(found(About::Lamp, u"hb77"_s), QStringList{u"l-1"_s});
    EXPECT_TRUE(found(About::Lamp, u"hb78"_s).isEmpty());
    EXPECT_EQ(found(About::Person, u"brandt"_s), QStringList{u"p-1"_s});
    const HistoryPage lamp = page(About::Lamp, u"l-1"_s);
    ASSERT_EQ(lamp.lines.size(), 1);
    EXPECT_EQ(lamp.lines.first().words, QStringList{u"in-stock"_s});
    EXPECT_TRUE(lamp.lines.first().visit.isEmpty());
    ASSERT_TRUE(lamp.lamp);
    EXPECT_EQ(lamp.lamp->custody, lamps::Custody::InStock);
}

TEST_F(HistoryStoreTest, ALamphouseOfTheSitesHasItsNameBeforeAnyVisit)
{
    ASSERT_TRUE(site::SiteStore(database).save(Night().opening().site));

    const HistoryPage lamphouse = page(About::Lamphouse, kLamphouse);

    EXPECT_EQ(lamphouse.subject.name, u"Pier Street"_s);
    EXPECT_EQ(lamphouse.subject.more, u"Screen 1"_s);
    EXPECT_TRUE(lamphouse.lines.isEmpty());
    for (const About about : kEveryAbout)
        EXPECT_EQ(store.page(about, u"nobody's"_s, 0, 9).error().kind, Error::Kind::NotFound);
}

TEST_F(HistoryStoreTest, ALampThatTwoWorkspacesNamedIsOneByItsTypeAndSerial)
{
    keep(over());
    visit::Opening later = laterOpening(u"visit-2"_s);
    later.fitted.first() = later.swaps.first().newLamp; // named anew on another laptop
    later.fitted.first().id = LampId(u"elsewhere"_s);
    later.fitted.first().serial = u"new 000-001"_s;
    later.site.lamphouses.front().fitted = LampId(u"elsewhere"_s);
    later.swaps.first().newLamp = {LampId(u"third"_s), later.swaps.first().newLamp.type, u"X3"_s, 0.0};
    keep(over(later, 24h * 300));
    catchUp();

    const HistoryPage lamp = page(About::Lamp, kNew);
    EXPECT_EQ(count(lamp.lines, Kind::Fitted), 1);
    EXPECT_EQ(count(lamp.lines, Kind::TakenOut), 1);
    EXPECT_EQ(page(About::Lamp, u"elsewhere"_s).lines, lamp.lines);
    ASSERT_EQ(page(About::Lamphouse, kLamphouse).stays.size(), 3U);
}

TEST_F(HistoryStoreTest, PagesFollowOneAnotherWithoutAGapNewestFirst)
{
    keep(over());
    keep(over(laterOpening(u"visit-2"_s), 24h));
    lamps::LampStore lamps(database);
    ASSERT_TRUE(lamps.addFitted({LampId(kOld), LampTypeId(u"hollin-30b"_s), u"OLD 9"_s, lamps::LampHours()},
                                {lamps::FitId(u"f-1"_s), LampId(kOld), LamphouseId(kLamphouse),
                                 lamps::CounterHours::fromHours(3), WallTime(24h), std::nullopt},
                                lamps::MoveId(u"m-1"_s)));
    catchUp();
    const HistoryPage whole = page(About::Lamphouse, kLamphouse);
    QList<HistoryLine> paged;
    for (qint64 first = 0; first < whole.all; first += 4) {
        const HistoryPage part = page(About::Lamphouse, kLamphouse, first, 4);
        EXPECT_LE(part.lines.size(), 4);
        EXPECT_EQ(part.all, whole.all);
        paged += part.lines;
    }

    EXPECT_EQ(paged, whole.lines);
    EXPECT_EQ(whole.all, whole.lines.size());
    EXPECT_TRUE(std::ranges::is_sorted(paged, std::greater(), &HistoryLine::at));
    EXPECT_EQ(paged.last().kind, Kind::Fitted); // the sites' own, from long before
    EXPECT_TRUE(page(About::Lamphouse, kLamphouse, 9999, 4).lines.isEmpty());
}

TEST_F(HistoryStoreTest, OnceSettledTheLampsRecordsSayTheHoursAndNothingTwice)
{
    Night night = over();
    ASSERT_TRUE(site::SiteStore(database).save(night.opening().site));
    lamps::LampStore lamps(database);
    const visit::LampFacts& old = night.opening().fitted.first();
    ASSERT_TRUE(lamps.addFitted({old.id, *old.type, old.serial, lamps::LampHours()},
                                {lamps::FitId(u"f-1"_s), old.id, LamphouseId(kLamphouse),
                                 lamps::CounterHours::fromHours(0), night.entries.first().at.wall - 24h * 200,
                                 std::nullopt},
                                lamps::MoveId(u"m-1"_s)));
    const auto left =
        visit::SettlementStore(database).settle(*visit::settlementOf(night.entries), night.clock.now().wall);
    ASSERT_TRUE(left && left->empty());
    keep(night);
    catchUp();

    const HistoryPage lamphouse = page(About::Lamphouse, kLamphouse);

    EXPECT_EQ(count(lamphouse.lines, Kind::TakenOut), 1);
    EXPECT_EQ(count(lamphouse.lines, Kind::Fitted), 2); // the old one long ago, the new one tonight
    ASSERT_EQ(lamphouse.stays.size(), 2U);
    EXPECT_EQ(lamphouse.stays.front().lamp.text(), kNew); // newest first
    EXPECT_EQ(lamphouse.stays.back().run, 900);           // as the counter said on arrival
    QList<HistoryLine> paged; // what a visit tells on another page is not told twice either
    for (qint64 first = 0; first < lamphouse.all; first += 2)
        paged += page(About::Lamphouse, kLamphouse, first, 2).lines;
    EXPECT_EQ(paged, lamphouse.lines);
    const HistoryPage lamp = page(About::Lamp, kOld);
    EXPECT_EQ(count(lamp.lines, Kind::WentTo), 1);
    EXPECT_EQ(lamp.lamp->custody, lamps::Custody::Boxed) << "it is in the van until somebody hands it over";
}

TEST_F(HistoryStoreTest, WhatIsOwedStillStandsAtTheLamphouse)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(u"measure-screen"_s)}));
    night.doAll();
    night.close();
    ASSERT_TRUE(site::SiteStore(database).save(night.opening().site));
    ASSERT_TRUE(
        visit::SettlementStore(database).settle(*visit::settlementOf(night.entries), night.clock.now().wall));
    keep(night);
    catchUp();

    ASSERT_EQ(page(About::Lamphouse, kLamphouse).owed.size(), 1U);
    EXPECT_EQ(page(About::Lamp, kNew).owed.size(), 1U);
    EXPECT_TRUE(page(About::Lamp, kOld).owed.empty());
}

TEST_F(HistoryStoreTest, SomebodysPageNamesWhoGaveAndWhoVouches)
{
    using namespace std::chrono;
    people::PeopleStore people(database);
    const PersonId ada(u"ada"_s);
    const PersonId chief(u"chief"_s);
    ASSERT_TRUE(people.add({ada, u"A. Okoro"_s, people::Role::Engineer, {}, {}, {}}));
    ASSERT_TRUE(people.add({chief, u"C. Vale"_s, people::Role::Supervisor, {}, {}, {}}));
    ASSERT_TRUE(people.give({people::AuthorisationId(u"a-1"_s),
                             ada,
                             people::Duty::LampSwap,
                             {},
                             2026y / January / 5d,
                             2026y / December / 31d,
                             chief,
                             {}}));
    people::OfficeStore offices(database);
    const people::SigningKey office = people::SigningKey::generate();
    const people::SigningKey key = people::SigningKey::generate();
    const test::FakeClock clock;
    ASSERT_TRUE(offices.takeUp(office.publicKey(), u"Invented Lamps"_s, chief, clock.now()));
    ASSERT_TRUE(offices.keep(*people::certify({key.publicKey(), ada, u"A. Okoro"_s, people::Role::Engineer,
                                               2026y / January / 5d, 2027y / January / 4d, clock.now().wall},
                                              office),
                             clock.now()));

    const HistoryPage page = this->page(About::Person, u"ada"_s);

    ASSERT_EQ(page.lines.size(), 2);
    EXPECT_EQ(page.lines[0].kind, Kind::KeyVouchedFor);
    EXPECT_EQ(page.offices.value(page.lines[0].words.value(1)), u"Invented Lamps"_s);
    EXPECT_EQ(page.lines[1].kind, Kind::Authorised);
    ASSERT_TRUE(page.find(About::Person, u"chief"_s));
    EXPECT_EQ(page.find(About::Person, u"chief"_s)->name, u"C. Vale"_s);
    EXPECT_EQ(page.find(About::Person, u"nobody"_s), nullptr);
    EXPECT_TRUE(page.dropped.isEmpty());

    ASSERT_TRUE(offices.keep(
        *people::retire({key.publicKey(), 2027y / January / 2d, clock.now().wall + 1min}, office),
        clock.now()));
    ASSERT_TRUE(offices.drop(office.publicKey(), clock.now()));
    const HistoryPage later = this->page(About::Person, u"ada"_s);
    ASSERT_EQ(later.lines.size(), 3);
    EXPECT_EQ(later.lines[0].kind, Kind::KeyCalledOutOfUse) << "it took back what it had said";
    EXPECT_EQ(later.lines[0].words.value(2), u"2027-01-02"_s);
    EXPECT_EQ(later.dropped, QSet{people::thumbprint(office.publicKey())});
}

TEST_F(HistoryStoreTest, WhatNoOfficeSignedIsNotToldAsItsWord)
{
    using namespace std::chrono;
    const PersonId ada(u"ada"_s);
    ASSERT_TRUE(people::PeopleStore(database).add({ada, u"A. Okoro"_s, people::Role::Engineer, {}, {}, {}}));
    people::OfficeStore offices(database);
    const people::SigningKey office = people::SigningKey::generate();
    const test::FakeClock clock;
    ASSERT_TRUE(offices.takeUp(office.publicKey(), u"Invented Lamps"_s, ada, clock.now()));
    const auto paper = people::certify({people::SigningKey::generate().publicKey(), ada, u"A. Okoro"_s,
                                        people::Role::Engineer, 2026y / January / 5d, 2027y / January / 4d,
                                        clock.now().wall},
                                       office);
    ASSERT_TRUE(offices.keep(*paper, clock.now()));
    ASSERT_TRUE(database.run(u"DROP TRIGGER enrolment_certificate_is_never_changed"_s));
    ASSERT_TRUE(database.run(u"UPDATE enrolment_certificate SET signature = zeroblob(64)"_s));

    EXPECT_TRUE(page(About::Person, u"ada"_s).lines.isEmpty());
}

} // namespace
} // namespace coldarc::review
