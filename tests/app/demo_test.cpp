#include "app/demo.h"

#include "app/demo_driver.h"
#include "app/demo_usage.h"
#include "core/lamps/lamp_store.h"
#include "core/people/gear_store.h"
#include "core/people/key_store.h"
#include "core/people/people_store.h"
#include "core/people/sign_in.h"
#include "core/photometry/tolerance_file.h"
#include "core/record/review_store.h"
#include "core/review/summary.h"
#include "core/site/site_store.h"
#include "core/store/workspace_file.h"
#include "core/visit/evolve.h"
#include "core/visit/owed_store.h"
#include "core/visit/plan_store.h"
#include "core/visit/settlement_store.h"
#include "core/visit/sheet_of_visit.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <QDir>
#include <QFile>
#include <QJsonDocument>
#include <QRegularExpression>
#include <QSet>
#include <QTemporaryDir>

#include <algorithm>
#include <latch>
#include <optional>
#include <thread>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::app {
namespace {

using test::sourceFile;

/// Cheap to guess at: for tests only.
constexpr people::GuessCost kCheap{1, 8};

/// Loaded once: it is the shipped data.
const visit::Shelf& shelf()
{
    static const catalogue::CatalogueLoading kCatalogue =
        catalogue::loadCatalogue(sourceFile("resources/catalogue"));
    static const procedure::ProcedureLoading kProcedures =
        procedure::loadProcedures(sourceFile("resources/procedures"), kCatalogue.catalogue);
    static const visit::Shelf kShelf{kCatalogue.catalogue, kProcedures};
    return kShelf;
}

people::SigningKey keyOfSeed(int number)
{
    people::SecretBytes seed(people::SigningKey::kSeedBytes);
    seed.data()[0] = static_cast<unsigned char>(number);
    return people::SigningKey::fromSeed(std::move(seed));
}

/// What a call gave, out of its Result: a loop over a part of a temporary would outlive it.
template<class Value>
Value taken(Result<Value> result)
{
    return std::move(result.value());
}

/// What screens are held against, as shipped.
const photometry::ToleranceSetLoading& limits()
{
    static const auto kLoaded = photometry::loadToleranceSets(sourceFile("resources/photometry"));
    return kLoaded;
}

/// A demo made in memory, with counted ids and keys of known seeds.
struct Made {
    explicit Made(quint32 seed = 1, const QString& folder = sourceFile("sample-data"))
    {
        result = makeDemoIn(database, recipe(seed, folder));
    }

    DemoRecipe recipe(quint32 seed, const QString& folder)
    {
        return {folder, shelf(),      test::FakeClock().now(),
                seed,   ids,          [this] { return keyOfSeed(++keys); },
                kCheap, limits().sets};
    }

    [[nodiscard]] std::vector<store::Head> heads() { return store::Journal(database).heads().value(); }
    [[nodiscard]] std::vector<visit::Logbook> logbooks()
    {
        std::vector<visit::Logbook> all;
        for (const store::Head& head : heads())
            all.push_back(visit::Logbook::read(journal, summaries, head.visit).value());
        return all;
    }

    test::CountingIds ids;
    int keys = 0;
    store::Database database = store::Database::inMemory();
    store::Journal journal{database};
    store::Summaries summaries{database};
    Result<void> result;
};

/// Made once: nothing in these tests changes it.
Made& demo()
{
    static Made made;
    return made;
}

const DemoData& data()
{
    static const DemoData kData = readDemoData(sourceFile("sample-data")).value();
    return kData;
}

QStringList linesOf(const Result<void>& result)
{
    return result ? QStringList() : QStringList{result.error().detail};
}

class DemoTest : public ::testing::Test {
protected:
    void SetUp() override { ASSERT_EQ(linesOf(demo().result), QStringList()); }
};

TEST_F(DemoTest, IsTheSameTwiceByteForByteAndAnotherWithAnotherSeed)
{
    Made again;
    Made other(2);
    ASSERT_TRUE(again.result && other.result);

    const auto bytesOf = [](Made& made) {
        std::vector<store::Entry> all;
        for (const store::Head& head : made.heads()) {
            for (const store::Entry& entry : taken(made.journal.entries(head.visit)))
                all.push_back(entry);
        }
        return all;
    };
    const auto signaturesOf = [](Made& made) {
        std::vector<QByteArray> all;
        for (const store::Head& head : made.heads()) {
            for (const store::Signature& one : taken(made.journal.signatures(head.visit)))
                all.push_back(one.bytes);
        }
        return all;
    };
    EXPECT_EQ(bytesOf(demo()), bytesOf(again));
    EXPECT_EQ(signaturesOf(demo()), signaturesOf(again));
    EXPECT_NE(bytesOf(demo()), bytesOf(other));
}

TEST_F(DemoTest, HoldsEveryVisitOfTheFileWholeAndReadable)
{
    const auto logbooks = demo().logbooks();

    ASSERT_EQ(logbooks.size(), static_cast<std::size_t>(data().visits.size()));
    for (const visit::Logbook& logbook : logbooks) {
        EXPECT_FALSE(logbook.state().isReadOnly) << logbook.visit().text().toStdString();
        EXPECT_FALSE(demo().journal.chain(logbook.visit())->fault);
        EXPECT_GT(logbook.entries().size(), 30);
    }
}

TEST_F(DemoTest, EndsEachVisitAsItsScriptSays)
{
    const auto logbooks = demo().logbooks();

    for (std::size_t index = 0; index < logbooks.size(); ++index) {
        const DemoVisit& script = data().visits[static_cast<qsizetype>(index)];
        const visit::VisitState& state = logbooks[index].state();
        if (script.twist(DemoTwist::Kind::Leave))
            EXPECT_TRUE(state.isOpen());
        else if (script.twist(DemoTwist::Kind::MakeSafe))
            EXPECT_EQ(state.end, u"as-it-was"_s);
        else
            EXPECT_EQ(state.end, u"done"_s);
        EXPECT_EQ(state.people[state.lead].id, script.crew.first());
    }
}

TEST_F(DemoTest, ShowsWhatWentOutOfTheOrdinaryAndNothingElse)
{
    using Kind = visit::Exception::Kind;
    const auto logbooks = demo().logbooks();

    for (std::size_t index = 0; index < logbooks.size(); ++index) {
        QSet<Kind> expected;
        for (const DemoTwist& twist : data().visits[static_cast<qsizetype>(index)].twists) {
            switch (twist.kind) {
            case DemoTwist::Kind::SerialMisread:
                expected.unite({Kind::SerialPassed, Kind::LabelsDisagreed});
                break;
            case DemoTwist::Kind::ReadingWithdrawn:
                expected.insert(Kind::EntryWithdrawn);
                break;
            case DemoTwist::Kind::NoLight:
            case DemoTwist::Kind::MakeSafe:
                expected.insert(Kind::IncidentMet);
                break;
            case DemoTwist::Kind::Owed:
                expected.insert(Kind::StepOwed);
                break;
            case DemoTwist::Kind::Addendum:
                expected.insert(Kind::Addendum);
                break;
            default:
                break;
            }
        }
        QSet<Kind> met;
        for (const visit::Exception& exception : logbooks[index].state().exceptions)
            met.insert(exception.kind);
        EXPECT_EQ(met, expected) << "visit " << index;
    }
}

TEST_F(DemoTest, LeavesTheUnfinishedVisitLitWithItsSecondPeakToCome)
{
    const auto logbooks = demo().logbooks();
    const visit::VisitState& state = logbooks.back().state();
    ASSERT_TRUE(state.isOpen());

    const visit::NextStep next = visit::nextStep(state, state.swaps.first(), state.lead);

    EXPECT_EQ(state.machine.lamphouse[state.swaps.first().lamphouse].heat, machine::Heat::Lit);
    ASSERT_TRUE(next.step);
    EXPECT_TRUE(next.step->effect == machine::Effect::PeakAgain ||
                next.step->effect == machine::Effect::Settle);
}

TEST_F(DemoTest, IsSignedByThePeopleWithTheKeysThatTheyEnrolled)
{
    people::KeyStore keys(demo().database);

    for (const visit::Logbook& logbook : demo().logbooks()) {
        const auto signatures = demo().journal.signatures(logbook.visit()).value();
        QStringList meanings;
        for (const store::Signature& one : signatures) {
            const auto key = people::PublicKey::fromBytes(one.publicKey).value();
            EXPECT_EQ(keys.ownerOf(key)->person, one.person);
            EXPECT_EQ(
                demo().journal.entries(logbook.visit())->at(static_cast<std::size_t>(one.seq.value())).hash,
                one.head);
            EXPECT_TRUE(people::isSignedBy(key,
                                           {one.visit, one.seq.value(), one.head,
                                            people::meaningFromWord(one.meaning.toStdString()).value(),
                                            one.at, one.person},
                                           people::Signature::fromBytes(one.bytes).value()));
            meanings.append(one.meaning);
        }
        EXPECT_TRUE(meanings.contains(u"signed-in"_s) && meanings.contains(u"stop"_s));
        EXPECT_EQ(meanings.contains(u"performed"_s), !logbook.state().isOpen());
    }
}

TEST_F(DemoTest, HasSummariesThatComeOutTheSameWhenMadeAnew)
{
    Made made;
    const auto before = made.summaries.all().value();

    const auto rebuilt = made.summaries.rebuild(review::summarise);

    ASSERT_TRUE(rebuilt);
    EXPECT_TRUE(rebuilt->faults.empty());
    const auto after = made.summaries.all().value();
    ASSERT_EQ(before.size(), after.size());
    for (std::size_t index = 0; index < after.size(); ++index) {
        // A summary is written at the entries that lists care for; a later addendum or reading moves the
        // head of a rebuilt one.
        EXPECT_EQ(before[index].visit, after[index].visit);
        EXPECT_EQ(before[index].state, after[index].state);
        EXPECT_EQ(before[index].isSigned, after[index].isSigned);
        EXPECT_EQ(before[index].siteText, after[index].siteText);
    }
}

TEST_F(DemoTest, ASupervisorHasReviewedSomeVisitsAndSentOneBack)
{
    Made made;
    int accepted = 0;
    int sentBack = 0;
    for (const store::Head& head : made.heads()) {
        const record::KeptReviews kept = taken(record::ReviewStore(made.database).of(head.visit));
        for (const record::KeptReview& one : kept.whole) {
            const bool isBack = one.review.verdict == record::Verdict::SentBack;
            ++(isBack ? sentBack : accepted);
            EXPECT_TRUE(record::isSignedBy(one.key, one.paper));
            EXPECT_EQ(one.review.entry, head.seq.value());
            EXPECT_EQ(taken(made.summaries.of(head.visit)).review, isBack ? u"sent-back"_s : u"accepted"_s);
        }
    }

    EXPECT_GT(accepted, 0);
    EXPECT_EQ(sentBack, 1);
}

TEST_F(DemoTest, LetsEverybodySignInWithThePassphraseOfTheFile)
{
    Made made;
    people::KeyStore keys(made.database);
    const auto people = readDemoPeople(sourceFile("sample-data"));
    ASSERT_TRUE(people);

    for (const DemoPerson& one : people->people) {
        const auto answer = people::signIn(keys, one.person.id, one.passphrase, test::FakeClock().now());
        ASSERT_TRUE(answer);
        EXPECT_TRUE(std::holds_alternative<people::SignedIn>(*answer)) << one.person.name.toStdString();
        EXPECT_GE(one.passphrase.size(), people::Passphrase::kLeast);
        EXPECT_TRUE(people::Pin::accept(one.pin)) << one.person.name.toStdString();
    }
}

TEST_F(DemoTest, FitsEverySiteToTheModelsThatStandThere)
{
    site::SiteStore sites(demo().database);
    int screens = 0;
    QSet<ModelId> models;

    for (const site::Site& one : taken(sites.all())) {
        const site::SiteDocument document = sites.load(one.id).value();
        EXPECT_TRUE(site::problemsOf(document).empty());
        EXPECT_TRUE(site::problemsOf(document, shelf().catalogue).empty());
        screens += static_cast<int>(document.screens.size());
        for (const site::Projector& projector : document.projectors)
            models.insert(projector.model);
        for (const site::Lamphouse& lamphouse : document.lamphouses)
            EXPECT_TRUE(lamphouse.fitted) << lamphouse.id.text().toStdString();
        EXPECT_TRUE(site::nextShow(document, test::FakeClock().now().wall));
    }
    EXPECT_EQ(screens, 13);
    EXPECT_EQ(models.size(), shelf().catalogue.models().size());
}

TEST_F(DemoTest, KnowsTheHoursOfEveryLampThatIsFitted)
{
    site::SiteStore sites(demo().database);
    lamps::LampStore lampStore(demo().database);

    for (const site::Site& one : taken(sites.all())) {
        const site::SiteDocument document = taken(sites.load(one.id));
        for (const site::Lamphouse& lamphouse : document.lamphouses) {
            const auto fits = lampStore.fitsIn(lamphouse.id).value();
            const auto readings = lampStore.readings(lamphouse.id).value();
            ASSERT_FALSE(fits.empty());
            ASSERT_FALSE(readings.empty());
            EXPECT_FALSE(fits.back().end);
            EXPECT_EQ(fits.back().lamp, *lamphouse.fitted);
            const auto lamp = lampStore.lamp(*lamphouse.fitted).value();
            EXPECT_EQ(lamp.custody, lamps::Custody::Fitted);
            EXPECT_TRUE(visit::fittedFacts(lamp.lamp, fits.back(), readings.back()).hours)
                << lamphouse.id.text().toStdString();
        }
    }
}

TEST_F(DemoTest, SettlesEveryVisitThatIsOverAndNoOther)
{
    const visit::SettlementStore settlements(demo().database);
    for (const visit::Logbook& logbook : demo().logbooks())
        EXPECT_EQ(settlements.isSettled(logbook.visit()).value(), !logbook.state().end.isEmpty());
}

/// A week before its lamp is due there is little to see; tonight's lamps are past or near their alert.
TEST_F(DemoTest, PlansTonightsTwoSwapsForLampsThatAreNearTheirEnd)
{
    lamps::LampStore lampStore(demo().database);
    const auto plans = visit::PlanStore(demo().database).all().value();
    ASSERT_FALSE(plans.empty());
    const visit::PlannedVisit& tonight = plans.front();
    EXPECT_EQ(tonight.day, people::Day(std::chrono::floor<std::chrono::days>(test::FakeClock().now().wall)));
    ASSERT_EQ(tonight.swaps.size(), 2u);

    for (const visit::PlannedSwap& swap : tonight.swaps) {
        const auto fit = taken(lampStore.fitsIn(swap.lamphouse)).back();
        const auto readings = lampStore.readings(swap.lamphouse).value();
        const auto old = lampStore.lamp(fit.lamp).value();
        const double warranty = shelf().catalogue.lampType(old.lamp.type)->warrantyHours;
        const double hours = visit::fittedFacts(old.lamp, fit, readings.back()).hours.value();
        EXPECT_GT(hours, 0.75 * warranty);
        EXPECT_LT(hours, warranty);
        ASSERT_TRUE(swap.newLamp);
        EXPECT_EQ(lampStore.lamp(*swap.newLamp)->custody, lamps::Custody::InVan);
        EXPECT_EQ(lampStore.lamp(*swap.newLamp)->lamp.type, old.lamp.type);
    }
}

/// By sample-data/visits.json a rehearsal kept the visit of nineteen days ago from the screen.
TEST_F(DemoTest, OwesTheScreenThatARehearsalKeptItFrom)
{
    const auto owed = visit::OwedStore(demo().database).open().value();

    ASSERT_EQ(owed.size(), 1u);
    EXPECT_EQ(owed.front().step, StepId(u"measure-screen"_s));
    EXPECT_EQ(owed.front().lamphouse, LamphouseId(u"old-gasworks-1-left"_s));
}

/// The planned night can be opened by whoever holds the lamps, and led to its end.
TEST_F(DemoTest, LeadsThePlannedNightThroughBothSwapsAtOnce)
{
    Made made;
    const visit::PlannedVisit plan = taken(visit::PlanStore(made.database).all()).front();
    lamps::LampStore lampStore(made.database);
    visit::WantedVisit wanted;
    wanted.visit = plan.visit;
    wanted.site = site::SiteStore(made.database).load(plan.site).value();
    wanted.today = plan.day;
    const PersonId holder = lampStore.lamp(*plan.swaps.front().newLamp)->holder;
    wanted.people.append({people::PeopleStore(made.database).person(holder).value(),
                          people::PeopleStore(made.database).authorisationsOf(holder).value()});
    QHash<LamphouseId, DemoFigures> figures;
    for (const visit::PlannedSwap& swap : plan.swaps) {
        const auto lamp = lampStore.lamp(*swap.newLamp)->lamp;
        wanted.swaps.append(
            {SwapId(swap.lamphouse.text()), swap.lamphouse, {lamp.id, lamp.type, lamp.serial, 0}});
        const auto old = lampStore.lamp(*wanted.site.lamphouse(swap.lamphouse)->fitted)->lamp;
        wanted.fitted.append({swap.lamphouse, {old.id, old.type, old.serial, {}}});
        figures.insert(swap.lamphouse, {1300, 1200, lamps::Cause::EndOfLife});
    }
    const auto opening = visit::openingFor(wanted, shelf(), {});
    ASSERT_TRUE(opening);
    DemoClock clock(test::FakeClock().now());
    DemoChance chance(7);
    DemoKeys keys;
    keys.emplace(holder, keyOfSeed(1));

    auto driver =
        DemoDriver::open({made.journal, made.summaries, clock, chance, data().answers, keys, limits().sets},
                         *opening, {}, figures);
    ASSERT_TRUE(driver) << driver.error().detail.toStdString();
    const auto went = driver->stepAll();
    ASSERT_TRUE(went) << went.error().detail.toStdString();
    const auto closed = driver->close();

    ASSERT_TRUE(closed) << closed.error().detail.toStdString();
    EXPECT_EQ(driver->state().end, u"done"_s);
    EXPECT_TRUE(driver->state().exceptions.isEmpty());
    // The second one is begun before the first one is done: their waits overlap.
    const QList<visit::Entry>& entries = driver->logbook().entries();
    const auto isOf = [&](const visit::Entry& entry, qsizetype swap) {
        const auto* did = std::get_if<visit::Did>(&entry.body);
        return did && did->swap == opening->swaps[swap].id;
    };
    const auto secondBegins = std::ranges::find_if(entries, [&](const auto& one) { return isOf(one, 1); });
    EXPECT_TRUE(std::any_of(secondBegins, entries.end(), [&](const auto& one) { return isOf(one, 0); }));
}

/// What a lamp burnt is what its stays say; none runs past the hours beyond which it is not lit again.
TEST_F(DemoTest, ChangesEveryLampBeforeItsReplaceByHours)
{
    lamps::LampStore lampStore(demo().database);
    int stays = 0;
    for (const DemoLamps::Fitted& first : data().lamps.fitted) {
        const auto readings = taken(lampStore.readings(first.lamphouse));
        for (const lamps::Fit& fit : taken(lampStore.fitsIn(first.lamphouse))) {
            const auto lamp = taken(lampStore.lamp(fit.lamp)).lamp;
            const double hours = fit.end ? fit.end->run.value_or(lamps::LampHours::fromHours(1e6)).hours()
                                         : visit::fittedFacts(lamp, fit, readings.back()).hours.value_or(1e6);
            EXPECT_LT(hours, shelf().catalogue.lampType(lamp.type)->replaceByHours)
                << first.lamphouse.text().toStdString();
            ++stays;
        }
    }
    EXPECT_GT(stays, 20);
}

TEST_F(DemoTest, NamesNobodyAndNothingThatIsNotInTheFiles)
{
    QSet<QString> names;
    for (const DemoPerson& one : data().people.people)
        names.insert(one.person.name);
    for (const people::Person& one : taken(people::PeopleStore(demo().database).all()))
        EXPECT_TRUE(names.contains(one.name)) << one.name.toStdString();

    QSet<QString> serials;
    for (const DemoLamps::Fitted& one : data().lamps.fitted)
        serials.insert(one.serial);
    for (const DemoLamps::Stock& one : data().lamps.stock)
        serials.insert(one.serial);
    for (const DemoVisit& one : data().visits) {
        for (const DemoSwap& swap : one.swaps)
            serials.insert(swap.serial);
    }
    lamps::LampStore lampStore(demo().database);
    for (const lamps::Custody custody : lamps::kEveryCustody) {
        for (const lamps::LampInCustody& one : taken(lampStore.in(custody)))
            EXPECT_TRUE(serials.contains(one.lamp.serial)) << one.lamp.serial.toStdString();
    }
}

/// Every text of the files that names a person, a site or a lamp.
QStringList namesInTheFiles()
{
    QStringList names{data().people.chain};
    for (const DemoPerson& one : data().people.people)
        names << one.person.name << one.person.id.text() << one.passphrase;
    for (const DemoSite& one : data().sites) {
        names << one.document.site.name << one.document.site.id.text() << one.document.site.town;
        for (const site::Contact& contact : one.document.site.contacts)
            names << contact.name;
    }
    for (const DemoLamps::Fitted& one : data().lamps.fitted)
        names << one.serial << one.type.text();
    return names;
}

TEST(DemoFilesTest, KeepEveryNameOutOfTheCode)
{
    const QDir app(sourceFile("app"));
    for (const QString& name : app.entryList({u"demo*"_s}, QDir::Files)) {
        QFile file(app.filePath(name));
        ASSERT_TRUE(file.open(QIODevice::ReadOnly));
        const QString text = QString::fromUtf8(file.readAll());
        for (const QString& word : namesInTheFiles()) {
            const QRegularExpression whole(u"\\b%1\\b"_s.arg(QRegularExpression::escape(word)));
            EXPECT_FALSE(whole.match(text).hasMatch()) << name.toStdString() << ": " << word.toStdString();
        }
    }
}

TEST(DemoFilesTest, AllSayThatTheyAreInvented)
{
    const QDir folder(sourceFile("sample-data"));
    const QStringList names = folder.entryList(QDir::Files);
    ASSERT_GE(names.size(), 10);
    for (const QString& name : names) {
        QFile file(folder.filePath(name));
        ASSERT_TRUE(file.open(QIODevice::ReadOnly));
        const QString note = QJsonDocument::fromJson(file.readAll())[u"note"_s].toString();
        EXPECT_TRUE(note.startsWith(u"Invented for this project"_s)) << name.toStdString();
    }
}

/// A copy of the files in which one text stands for another.
class SpoiltFiles {
public:
    SpoiltFiles(const QString& name, const QString& before, const QString& after)
    {
        const QDir from(sourceFile("sample-data"));
        for (const QString& file : from.entryList(QDir::Files))
            QFile::copy(from.filePath(file), folder.filePath(file));
        QFile file(folder.filePath(name));
        EXPECT_TRUE(file.setPermissions(QFile::ReadOwner | QFile::WriteOwner));
        EXPECT_TRUE(file.open(QIODevice::ReadWrite));
        QString text = QString::fromUtf8(file.readAll());
        EXPECT_TRUE(text.contains(before));
        text.replace(text.indexOf(before), before.size(), after);
        file.resize(0);
        file.write(text.toUtf8());
    }
    QTemporaryDir folder;
};

TEST(DemoFilesTest, ComplainOfAKeyThatIsNone)
{
    const SpoiltFiles files(u"lamps.json"_s, u"\"weekly_spread\""_s, u"\"weekly_sprad\""_s);

    const auto read = readDemoData(files.folder.path());

    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().kind, Error::Kind::Malformed);
    EXPECT_TRUE(read.error().detail.contains(u"weekly_sprad"_s));
}

TEST(DemoFilesTest, LeaveNothingBehindWhenARuleSaysNo)
{
    // Whoever leads the first visit is authorised only from tomorrow on.
    const SpoiltFiles files(u"people.json"_s, u"\"from_days\": -520"_s, u"\"from_days\": 1"_s);

    Made made(1, files.folder.path());

    ASSERT_FALSE(made.result);
    EXPECT_EQ(made.result.error().kind, Error::Kind::Refused);
    EXPECT_TRUE(made.heads().empty());
    EXPECT_TRUE(people::PeopleStore(made.database).all()->empty());
}

TEST(DemoFilesTest, AreNotFoundWhereThereAreNone)
{
    const QTemporaryDir empty;
    Made made(1, empty.path());
    ASSERT_FALSE(made.result);
    EXPECT_EQ(made.result.error().kind, Error::Kind::NotFound);
}

TEST(DemoWorkspaceTest, IsAWorkspaceThatOpensAndIsMadeOnlyOnce)
{
    const QTemporaryDir folder;
    const QString file = folder.filePath(u"new/demo.coldarc"_s);
    Made other;
    QDir(folder.path()).mkdir(u"new"_s);
    QFile leftover(file + u".making"_s);
    ASSERT_TRUE(leftover.open(QIODevice::WriteOnly));
    leftover.write("broken off");
    leftover.close();
    test::CountingIds ids;
    int keys = 0;
    const DemoRecipe recipe{sourceFile("sample-data"),         shelf(), test::FakeClock().now(), 1, ids,
                            [&] { return keyOfSeed(++keys); }, kCheap};

    const auto made = makeDemo(file, recipe);

    ASSERT_TRUE(made) << made.error().detail.toStdString();
    EXPECT_EQ(QDir(folder.filePath(u"new"_s)).entryList(QDir::Files), QStringList{u"demo.coldarc"_s});
    const auto opened = store::openWorkspace(file, {u"another"_s, {}});
    ASSERT_EQ(opened.outcome, store::Opening::Opened);
    EXPECT_EQ(makeDemo(file, recipe).error().kind, Error::Kind::Conflict);
}

// Two starts of the program within a second: neither takes the file from under the other.
TEST_F(DemoTest, TwoStartsAtOnceMakeOneWholeDemo)
{
    const QTemporaryDir folder;
    const QString file = folder.filePath(u"demo.coldarc"_s);
    std::latch ready(2);
    const auto start = [&](std::optional<Result<void>>& made) {
        test::CountingIds ids;
        int keys = 0;
        const DemoRecipe recipe{sourceFile("sample-data"),         shelf(), test::FakeClock().now(), 1, ids,
                                [&] { return keyOfSeed(++keys); }, kCheap};
        ready.arrive_and_wait();
        made = makeDemo(file, recipe);
    };
    std::optional<Result<void>> one;
    std::optional<Result<void>> other;
    shelf(); // read before both need it

    std::thread second([&] { start(other); });
    start(one);
    second.join();

    EXPECT_NE(one->has_value(), other->has_value()) << "one makes it, the other finds it made";
    const Result<void>& late = *one ? *other : *one;
    ASSERT_FALSE(late);
    EXPECT_EQ(late.error().kind, Error::Kind::Conflict) << late.error().detail.toStdString();
    EXPECT_EQ(QDir(folder.path()).entryList(QDir::Files), QStringList{u"demo.coldarc"_s});
    EXPECT_EQ(store::openWorkspace(file, {u"another"_s, {}}).outcome, store::Opening::Opened);
}

/// Weeks of 70 h without any spread: 10 h a day.
TEST(DemoUsageTest, TellsBothWaysBetweenHoursAndMoments)
{
    DemoSite one;
    one.document.screens.push_back({ScreenId(u"s"_s), u"Screen"_s, 70.0, {}});
    one.document.projectors.push_back({ProjectorId(u"p"_s), ModelId(u"m"_s), ScreenId(u"s"_s), {}});
    one.document.lamphouses.push_back({LamphouseId(u"l"_s), ProjectorId(u"p"_s), u"main"_s, {}});
    DemoChance chance(1);
    const WallTime begin{};
    const DemoUsage usage({one}, begin, begin + std::chrono::weeks(10), 0, chance);
    const LamphouseId lamphouse(u"l"_s);

    EXPECT_NEAR(usage.burnt(lamphouse, begin, begin + std::chrono::days(3)), 30, 1e-9);
    EXPECT_NEAR(usage.burnt(lamphouse, begin - std::chrono::days(2), begin + std::chrono::days(1)), 30, 1e-9);
    // 210 h before day 14 is day -7, which lies before the weeks that are drawn.
    const auto since = usage.since(lamphouse, 210, begin + std::chrono::days(14));
    EXPECT_LT(std::chrono::abs(since - (begin - std::chrono::days(7))), 2min);
}

TEST_F(DemoTest, EveryVisitThatWasDoneHoldsTheScreensSheetFromBeforeAndAfter)
{
    Made made;
    int sheets = 0;
    for (const visit::Logbook& logbook : made.logbooks()) {
        for (const visit::SwapState& swap : logbook.state().swaps) {
            for (const procedure::Step& step : swap.steps) {
                if (step.effect != machine::Effect::MeasureScreen ||
                    swap.record(step.id).status != visit::StepRecord::Status::Done)
                    continue;
                ++sheets;
                const visit::SheetOfSwap after =
                    visit::sheetOf(logbook.state(), swap.id, visit::SheetTime::After);
                ASSERT_TRUE(after.verdict);
                EXPECT_EQ(after.points.size(), 7u);
                EXPECT_TRUE(visit::comparisonOf(logbook.state(), swap.id));
            }
        }
    }
    EXPECT_GT(sheets, 3);
}

TEST(DemoLightTest, ASearchThatComesToNoPeakIsAnErrorAndNoStepThatIsDone)
{
    procedure::Step step;
    step.id = StepId(u"peak-again"_s);
    step.effect = machine::Effect::PeakAgain;
    const catalogue::ProjectorModel& model = *shelf().catalogue.model(ModelId(u"larkmoor-teal"_s));
    visit::LightOfSwap light;
    light.state = alignment::beginRun(visit::setupOf(model));
    EXPECT_EQ(isReadingDue(light, step, model, 0), true);
    EXPECT_EQ(isReadingDue(light, step, model, 149), true);

    const auto endless = isReadingDue(light, step, model, 150);
    ASSERT_FALSE(endless);
    EXPECT_TRUE(endless.error().detail.contains(u"peak-again: 150 readings"_s));
    light.state.phase = alignment::Phase::Stuck;
    const auto stuck = isReadingDue(light, step, model, 20);
    ASSERT_FALSE(stuck);
    EXPECT_TRUE(stuck.error().detail.contains(u"shows no peak"_s));

    light.state.phase = alignment::Phase::Done;
    EXPECT_EQ(isReadingDue(light, step, model, 150), false);
}

} // namespace
} // namespace coldarc::app
