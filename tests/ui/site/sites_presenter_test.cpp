#include "ui/site/sites_presenter.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::test {
namespace {

using namespace ui;

const catalogue::Catalogue& shipped()
{
    static const catalogue::CatalogueLoading kLoading =
        catalogue::loadCatalogue(sourceFile("resources/catalogue"));
    return kLoading.catalogue;
}

class SitesPresenterTest : public ::testing::Test {
protected:
    void SetUp() override { presenter.refresh(); }

    void addSite()
    {
        presenter.openForm(SiteForm::NewSite);
        SiteAnswers answers;
        answers.name = u"Pier Street"_s;
        presenter.keepForm(answers);
    }
    /// One shared switch feeds both lamphouses of this model.
    void addPair(const QString& screen, const QString& circuit)
    {
        presenter.openForm(SiteForm::Screen);
        presenter.chooseModel(u"quillhaven-pair"_s);
        SiteAnswers answers;
        answers.name = screen;
        answers.model = u"quillhaven-pair"_s;
        answers.panels = {u"B"_s};
        answers.circuits = {circuit};
        answers.weeklyHours = u"66,0"_s;
        presenter.keepForm(answers);
    }
    [[nodiscard]] site::SiteDocument document() const { return *sites.load(sites.all()->front().id); }
    [[nodiscard]] const SitesView& view() const { return presenter.view(); }

    FakeClock clock; ///< 2026-11-18 11:06:40 UTC
    CountingIds ids;
    store::Database database = store::Database::inMemory();
    site::SiteStore sites{database};
    lamps::LampStore lamps{database};
    SitesPresenter presenter{sites, lamps, shipped(), clock, ids, QTimeZone::utc()};
};

TEST_F(SitesPresenterTest, SaysInWordsThatThereIsNoSite)
{
    EXPECT_EQ(view().empty, u"No site is known yet. Add one: its name, then its screens."_s);
}

TEST_F(SitesPresenterTest, AddsASiteAndShowsIt)
{
    addSite();

    EXPECT_EQ(view().title, u"Pier Street"_s);
    EXPECT_EQ(view().sites.size(), 1);
    EXPECT_EQ(view().form, SiteForm::None);
}

TEST_F(SitesPresenterTest, AsksForABreakerForEachSupplyOfTheModel)
{
    addSite();
    presenter.openForm(SiteForm::Screen);

    for (const catalogue::ProjectorModel& model : shipped().models()) {
        presenter.chooseModel(model.id.text());
        EXPECT_EQ(view().breakers.size(), model.isolation.size()) << model.id.text().toStdString();
    }
}

TEST_F(SitesPresenterTest, AddsAScreenWithItsLamphousesAndTheBreakerThatFeedsThem)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);

    EXPECT_EQ(view().problems, QStringList());
    ASSERT_EQ(view().screens.size(), 1);
    EXPECT_EQ(view().screens.first().sub, u"Quillhaven Pair 84 · 66 h a week · no show known"_s);
    ASSERT_EQ(view().lamphouses.size(), 2);
    EXPECT_EQ(view().lamphouses.first().text, u"Screen 1, left"_s);
    EXPECT_EQ(view().lamphouses.first().sub, u"lamp in it unknown"_s);
    ASSERT_EQ(view().points.size(), 1);
    EXPECT_EQ(view().points.first().sub, u"feeds Screen 1, left, Screen 1, right · takes a lock"_s);
}

TEST_F(SitesPresenterTest, PutsTwoScreensOnOneBreakerWhenTheyGetTheSame)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    addPair(u"Screen 2"_s, u"14"_s);

    EXPECT_EQ(document().points.size(), 1u);
    EXPECT_EQ(document().points.front().feeds.size(), 4u);
}

TEST_F(SitesPresenterTest, AddsNoScreenWhileABreakerIsMissing)
{
    addSite();
    addPair(u"Screen 1"_s, u" "_s);

    EXPECT_EQ(view().breakers.first().circuit.error, u"It is needed."_s);
    EXPECT_TRUE(document().screens.empty());
}

TEST_F(SitesPresenterTest, KeepsTheLampFoundWithWhatIsKnownOfItsHours)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    presenter.openLamp(view().lamphouses.first().id);
    SiteAnswers answers;
    answers.type = u"tarnwick-42"_s;
    answers.serial = u"TK-1"_s;
    answers.hours = u"120"_s;
    answers.counter = u"5000"_s;
    presenter.keepForm(answers);

    const site::Lamphouse lamphouse = document().lamphouses.front();
    ASSERT_TRUE(lamphouse.fitted) << view().message.toStdString();
    const auto lamp = lamps.lamp(*lamphouse.fitted);
    ASSERT_TRUE(lamp);
    EXPECT_EQ(lamp->lamp.hours->hours(), 120);
    EXPECT_EQ(lamps.fitsIn(lamphouse.id)->front().counterIn->hours(), 5000);
}

TEST_F(SitesPresenterTest, TakesNoHoursThatMayBeEitherAndSaysHowTheyAreWritten)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    presenter.openLamp(view().lamphouses.first().id);
    SiteAnswers answers;
    answers.type = u"tarnwick-42"_s;
    answers.serial = u"TK-1"_s;
    answers.hours = u"1,980"_s;
    answers.counter = u"5.000"_s;
    presenter.keepForm(answers);

    EXPECT_TRUE(view().hours.error.contains(u"write 1980"_s)) << view().hours.error.toStdString();
    EXPECT_TRUE(view().counter.error.contains(u"write 5000"_s)) << view().counter.error.toStdString();
    EXPECT_FALSE(document().lamphouses.front().fitted);
}

TEST_F(SitesPresenterTest, LetsALampBeUnknown)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    presenter.openLamp(view().lamphouses.first().id);
    SiteAnswers answers;
    answers.type = u"unknown"_s;
    presenter.keepForm(answers);

    EXPECT_EQ(view().form, SiteForm::None);
    EXPECT_FALSE(document().lamphouses.front().fitted);
}

TEST_F(SitesPresenterTest, PutsTheLampFoundRight)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    const QString left = view().lamphouses.first().id;
    const auto find = [&](const QString& lamphouse, const QString& serial) {
        presenter.openLamp(lamphouse);
        SiteAnswers answers;
        answers.type = serial.isEmpty() ? u"unknown"_s : u"tarnwick-42"_s;
        answers.serial = serial;
        presenter.keepForm(answers);
    };
    const auto fitted = [&](std::size_t place) { return document().lamphouses[place].fitted; };
    find(left, u"TK-1"_s);
    find(left, u"TK-2"_s);

    ASSERT_TRUE(fitted(0)) << view().message.toStdString();
    EXPECT_EQ(lamps.lamp(*fitted(0))->lamp.serial, u"TK-2"_s);
    const LampId wrong = *lamps.ofTypeWithSerial(LampTypeId(u"tarnwick-42"_s), u"TK-1"_s).value();
    EXPECT_EQ(lamps.lamp(wrong)->custody, lamps::Custody::Boxed) << "somebody says what became of it";
    EXPECT_FALSE(lamps.lamp(wrong)->lamp.hours) << "nobody knows for how long it burnt";

    find(view().lamphouses.last().id, u"TK-2"_s);
    EXPECT_EQ(view().serial.error,
              u"By the book this lamp is in another lamphouse. Say first what is in that one."_s);
    find(left, {});
    EXPECT_FALSE(fitted(0));
    find(view().lamphouses.last().id, u"tk-2"_s);
    EXPECT_EQ(lamps.lamp(*fitted(1))->lamp.serial, u"TK-2"_s);
    find(view().lamphouses.last().id, u"TK-2"_s);
    EXPECT_EQ(lamps.fitsIn(document().lamphouses[1].id)->size(), 1u) << "it is there already";
}

TEST_F(SitesPresenterTest, LeavesALamphouseAndALampToTheUnfinishedVisitThatHasThemInHand)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    const LampId brought(u"brought"_s);
    ASSERT_TRUE(
        lamps.add({brought, LampTypeId(u"tarnwick-42"_s), u"TK-7"_s, {}},
                  {lamps::MoveId(u"m"_s), brought, lamps::Custody::InStock, {}, {}, clock.now().wall}));
    const QString left = view().lamphouses.first().id;
    presenter.setInHand([&] { return lamps::InHand{{{LamphouseId(left), clock.now().wall}}, {brought}}; });
    SiteAnswers answers;
    answers.type = u"tarnwick-42"_s;
    answers.serial = u"TK-1"_s;
    presenter.openLamp(left);
    presenter.keepForm(answers);
    EXPECT_TRUE(view().message.startsWith(u"An unfinished visit has this lamphouse in hand"_s));
    presenter.openLamp(view().lamphouses.last().id);
    answers.serial = u"TK-7"_s;
    presenter.keepForm(answers);

    EXPECT_EQ(view().serial.error, u"An unfinished visit has this lamp in hand and says where it is."_s);
    for (const site::Lamphouse& lamphouse : document().lamphouses)
        EXPECT_FALSE(lamphouse.fitted);
}

TEST_F(SitesPresenterTest, TakesNoLampThatWasGivenAway)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    const LampId gone(u"gone"_s);
    ASSERT_TRUE(lamps.add({gone, LampTypeId(u"tarnwick-42"_s), u"TK-7"_s, {}},
                          {lamps::MoveId(u"m1"_s), gone, lamps::Custody::InStock, {}, {}, clock.now().wall}));
    ASSERT_TRUE(
        lamps.move({lamps::MoveId(u"m2"_s), gone, lamps::Custody::Returned, {}, {}, clock.now().wall}));
    presenter.openLamp(view().lamphouses.first().id);
    SiteAnswers answers;
    answers.type = u"tarnwick-42"_s;
    answers.serial = u"TK-7"_s;
    presenter.keepForm(answers);

    EXPECT_EQ(view().serial.error,
              u"By the book this lamp burst or was given away. Read the serial again."_s);
    EXPECT_EQ(lamps.lamp(gone)->custody, lamps::Custody::Returned);
}

TEST_F(SitesPresenterTest, SaysThatALampOfTheVanIsFitted)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    const LampId ordered(u"ordered"_s);
    ASSERT_TRUE(
        lamps.add({ordered, LampTypeId(u"tarnwick-42"_s), u"TK-7"_s, lamps::LampHours::fromHours(12)},
                  {lamps::MoveId(u"m"_s), ordered, lamps::Custody::OnOrder, {}, {}, clock.now().wall}));
    presenter.openLamp(view().lamphouses.first().id);
    SiteAnswers answers;
    answers.type = u"tarnwick-42"_s;
    answers.serial = u"TK-7"_s;
    answers.counter = u"5000"_s;
    presenter.keepForm(answers);

    EXPECT_EQ(document().lamphouses.front().fitted, ordered) << view().message.toStdString();
    EXPECT_EQ(lamps.lamp(ordered)->custody, lamps::Custody::Fitted);
    EXPECT_EQ(lamps.lamp(ordered)->lamp.hours->hours(), 12);
}

TEST_F(SitesPresenterTest, PutsABreakerRight)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    addPair(u"Screen 2"_s, u"15"_s);
    const auto say = [&](const QString& circuit) {
        presenter.openBreaker(view().points.first().id);
        EXPECT_EQ(view().breakers.size(), 1);
        SiteAnswers answers;
        answers.panels = {u"B"_s};
        answers.circuits = {circuit};
        presenter.keepForm(answers);
    };
    say(u"16"_s);
    EXPECT_EQ(view().points.first().text, u"B, 16"_s);
    EXPECT_EQ(document().points.size(), 2u);
    say(u" "_s);
    EXPECT_EQ(view().breakers.first().circuit.error, u"It is needed."_s);
    say(u"15"_s);

    ASSERT_EQ(document().points.size(), 1u) << view().message.toStdString();
    EXPECT_EQ(document().points.front().feeds.size(), 4u);
}

TEST_F(SitesPresenterTest, PutsRightWhetherABreakerTakesALock)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    ASSERT_TRUE(document().points.front().isLockable);
    SiteAnswers answers;
    answers.panels = {u"B"_s};
    answers.circuits = {u"14"_s};
    presenter.openBreaker(view().points.first().id);
    EXPECT_EQ(view().takesLock.chosen, u"yes"_s);
    answers.takesLock = u"no"_s;
    presenter.keepForm(answers);
    EXPECT_FALSE(document().points.front().isLockable);
    EXPECT_TRUE(view().points.first().sub.endsWith(u"takes no lock: proves nothing dead"_s));

    presenter.openBreaker(view().points.first().id);
    EXPECT_EQ(view().takesLock.chosen, u"no"_s);
    answers.takesLock = u"yes"_s;
    presenter.keepForm(answers);

    EXPECT_TRUE(document().points.front().isLockable);
    EXPECT_EQ(document().points.front().name, u"B, 14"_s);
}

TEST_F(SitesPresenterTest, PutsTheLockRightBeforeTwoBreakersBecomeOne)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    addPair(u"Screen 2"_s, u"15"_s);
    SiteAnswers answers;
    answers.panels = {u"B"_s};
    answers.circuits = {u"15"_s};
    answers.takesLock = u"no"_s;
    presenter.openBreaker(view().points.first().id);
    presenter.keepForm(answers);
    EXPECT_EQ(view().breakers.first().circuit.error,
              u"The one known there differs in whether it takes a lock: put the wrong one right "
              "first."_s);
    EXPECT_TRUE(document().points.front().isLockable) << "nothing was kept";
    answers.takesLock = u"yes"_s;
    presenter.keepForm(answers);

    EXPECT_EQ(document().points.size(), 1u);
}

TEST_F(SitesPresenterTest, AddsNoSecondBreakerForOneSupply)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    addPair(u"Screen 1"_s, u"15"_s);

    EXPECT_TRUE(view().message.startsWith(u"It contradicts what is there already"_s))
        << view().message.toStdString();
    EXPECT_EQ(document().points.size(), 1u);
}

TEST_F(SitesPresenterTest, ChangesTheNameOfAScreenAndItsHoursAWeek)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    addPair(u"Screen 2"_s, u"15"_s);
    presenter.openShows(view().screens.first().id);
    EXPECT_EQ(view().weeklyHours.value, u"66"_s);
    SiteAnswers answers;
    answers.name = u"Screen 2"_s;
    answers.weeklyHours = u"200"_s;
    presenter.keepForm(answers);
    EXPECT_EQ(view().name.error, u"Another screen here has this name."_s);
    EXPECT_EQ(view().weeklyHours.error, u"A number of hours from 0 to 168, or nothing."_s);
    answers.name = u"Great hall"_s;
    answers.weeklyHours = u"80.5"_s;
    presenter.keepForm(answers);

    EXPECT_EQ(document().screens.front().name, u"Great hall"_s);
    EXPECT_EQ(document().screens.front().weeklyHours, 80.5);
}

TEST_F(SitesPresenterTest, TakesShowsInTheTimeOfThisLaptop)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    presenter.openShows(view().screens.first().id);
    SiteAnswers answers;
    answers.name = view().name.value;
    answers.weeklyHours = view().weeklyHours.value;
    answers.shows = u"2026-11-18 16:40\n\n2026-11-18 21:00\n"_s;
    presenter.keepForm(answers);

    EXPECT_EQ(document().screens.front().showStarts.size(), 2u);
    EXPECT_TRUE(view().screens.first().sub.endsWith(u"next show 2026-11-18 16:40"_s));
}

TEST_F(SitesPresenterTest, KeepsNoShowOfAListWithAMomentThatIsNone)
{
    addSite();
    addPair(u"Screen 1"_s, u"14"_s);
    presenter.openShows(view().screens.first().id);
    SiteAnswers answers;
    answers.name = view().name.value;
    answers.weeklyHours = view().weeklyHours.value;
    answers.shows = u"2026-11-18 16:40\nhalf past nine"_s;
    presenter.keepForm(answers);

    EXPECT_TRUE(view().message.contains(u"half past nine"_s));
    EXPECT_TRUE(document().screens.front().showStarts.empty());
}

TEST_F(SitesPresenterTest, TakesAWholeTableOrNamesEveryBadLine)
{
    addSite();
    presenter.openForm(SiteForm::Paste);
    const QString header = u"screen;model;lamphouse;panel;circuit;role;lockable\n"_s;
    presenter.paste(header + u"Screen 1;quillhaven-pair;left;B;14;shared-feed;perhaps"_s);

    EXPECT_EQ(view().paste.bad, QStringList{u"Line 2, lockable: neither yes nor no."_s});
    EXPECT_TRUE(document().screens.empty());

    presenter.paste(header + u"Screen 1;quillhaven-pair;left;B;14;shared-feed;yes\n"
                             "Screen 1;quillhaven-pair;right;B;14;shared-feed;yes"_s);

    EXPECT_EQ(document().lamphouses.size(), 2u);
    EXPECT_EQ(view().problems, QStringList());
    EXPECT_EQ(view().message, u"2 lines were added."_s);
}

TEST_F(SitesPresenterTest, NamesWhatHasToBePutRightBeforeAVisit)
{
    addSite();
    presenter.openForm(SiteForm::Paste);
    presenter.paste(u"screen;model;lamphouse;panel;circuit;role;lockable\n"
                    "Screen 1;quillhaven-pair;left;B;14;shared-feed;yes"_s);

    EXPECT_EQ(view().problems, QStringList{u"Screen 1: the lamphouse “right” of its model is missing."_s});
}

TEST_F(SitesPresenterTest, KeepsTheRulesOfTheHouse)
{
    addSite();
    presenter.openForm(SiteForm::House);
    EXPECT_EQ(view().name.value, u"Pier Street"_s);
    SiteAnswers answers;
    answers.name = u"Pier Street"_s;
    answers.prover = u"electrician"_s;
    answers.rules = u"Sign in at the box office."_s;
    presenter.keepForm(answers);

    EXPECT_EQ(document().site.profile.mayProveAbsence, site::AbsenceProver::Electrician);
    EXPECT_EQ(document().site.profile.localRules, u"Sign in at the box office."_s);
}

} // namespace
} // namespace coldarc::test
