#include "ui/review/history_presenter.h"

#include "core/people/people_store.h"
#include "tests/ui/review/history_night.h"
#include "ui/review/words_history.h"

#include <QCoreApplication>
#include <QSignalSpy>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using review::About;
using test::Night;

// All lamps, persons and places are invented.

class HistoryPresenterTest : public ::testing::Test {
protected:
    /// Opens the page and lets it read until nothing is due.
    void open()
    {
        presenter.open();
        while (presenter.view().reach.contains(u"still being read"))
            QCoreApplication::processEvents();
    }
    [[nodiscard]] QStringList found() const
    {
        QStringList names;
        for (const RowView& row : presenter.view().found)
            names << row.title;
        return names;
    }
    [[nodiscard]] const CardLine* line(const QString& part) const
    {
        for (const CardLine& one : presenter.view().lines) {
            if (one.text.contains(part))
                return &one;
        }
        ADD_FAILURE() << "no line says: " << part.toStdString();
        return nullptr;
    }

    store::Database database = store::Database::inMemory();
    review::HistoryStore store{database};
    HistoryPresenter presenter{store, QTimeZone::utc()};
};

TEST_F(HistoryPresenterTest, SaysWhatWouldStandHereWhereNothingDoes)
{
    open();
    EXPECT_TRUE(presenter.view().found.isEmpty());
    EXPECT_TRUE(presenter.view().notFound.contains(u"No lamp is known yet"));
    EXPECT_TRUE(presenter.view().title.isEmpty());
    presenter.chooseAbout(u"lamphouse"_s);
    EXPECT_TRUE(presenter.view().notFound.contains(u"after its first visit"));
    presenter.chooseAbout(u"bulb"_s);
    EXPECT_EQ(presenter.view().about.chosen, u"lamphouse"_s);
    presenter.showLamp(LampId(u"nobody's"_s));
    EXPECT_EQ(presenter.view().noLines, u"Nothing is known of it here."_s);
}

TEST_F(HistoryPresenterTest, ReadsTheLogbooksOnceItIsOpenAndThenFindsWhatTheyTell)
{
    test::keepNight(database, test::nightThatIsOver());
    presenter.open();
    EXPECT_EQ(presenter.view().reach, u"Visits still being read: 1."_s);
    open();

    EXPECT_TRUE(presenter.view().reach.isEmpty());
    ASSERT_EQ(found().size(), 2);
    presenter.search(u"new"_s);
    ASSERT_EQ(found().size(), 1);
    EXPECT_TRUE(found().first().endsWith(u"NEW000001"));
    presenter.search(u"new x"_s);
    EXPECT_TRUE(presenter.view().notFound.contains(u"Nothing here goes by that"));
}

TEST_F(HistoryPresenterTest, ALampsHistorySaysWhereItWentInAndLeadsToTheEntry)
{
    test::keepNight(database, test::nightThatIsOver());
    open();
    QSignalSpy looked(&presenter, &HistoryPresenter::lookUpRequested);

    presenter.showLamp(LampId(u"new-1"_s));

    const HistoryView& view = presenter.view();
    EXPECT_TRUE(view.title.endsWith(u"NEW000001"));
    EXPECT_EQ(view.staysName, u"Where it was fitted, newest first"_s);
    ASSERT_EQ(view.stays.size(), 1);
    EXPECT_EQ(view.stays.first().text, u"Pier Street, Screen 1"_s);
    EXPECT_TRUE(view.stays.first().sub.contains(u"still in"));
    EXPECT_TRUE(view.stays.first().sub.contains(u"48.0\u00a0cd/m\u00b2 after it went in"))
        << view.stays.first().sub.toStdString();
    const CardLine* fitted = line(u"Fitted in Pier Street, Screen 1, counter at 0 h"_s);
    ASSERT_TRUE(fitted);
    EXPECT_TRUE(fitted->sub.contains(u"entry "));
    presenter.lookUp(fitted->id);
    ASSERT_EQ(looked.size(), 1);
    EXPECT_EQ(looked.first().first().value<VisitId>(), VisitId(u"visit-1"_s));
    EXPECT_EQ(fitted->sub.section(u' ', -1).toLongLong(), looked.first().last().toLongLong());
    presenter.lookUp(u"999"_s);
    presenter.lookUp(u"x"_s);
    EXPECT_EQ(looked.size(), 1);
}

TEST_F(HistoryPresenterTest, ALamphouseShowsItsLampsAndEachLeadsToItsOwnHistoryAndBack)
{
    test::keepNight(database, test::nightThatIsOver());
    open();
    presenter.showLamphouse(LamphouseId(u"lamphouse-1-main"_s));

    ASSERT_EQ(presenter.view().stays.size(), 2);
    EXPECT_EQ(presenter.view().staysName, u"Lamps in it, newest first"_s);
    EXPECT_TRUE(presenter.view().stays[0].text.endsWith(u"NEW000001"));
    EXPECT_TRUE(presenter.view().stays[1].text.endsWith(u"OLD000001"));
    EXPECT_TRUE(line(u"came out, counter at 900 h"_s));
    EXPECT_TRUE(line(u"The counter shows less than the hours on record: read 900 h, on record 1200 h"_s));

    presenter.followStay(u"1"_s);
    EXPECT_EQ(presenter.view().about.chosen, u"lamp"_s);
    EXPECT_TRUE(presenter.view().title.endsWith(u"OLD000001"));
    EXPECT_TRUE(line(u"Taken out of Pier Street, Screen 1"_s));
    EXPECT_TRUE(line(u"Taken along in its box, to be returned"_s));
    presenter.followStay(u"0"_s);
    EXPECT_EQ(presenter.view().title, u"Pier Street, Screen 1"_s);
    presenter.followStay(u"9"_s);
    EXPECT_EQ(presenter.view().title, u"Pier Street, Screen 1"_s);
}

TEST_F(HistoryPresenterTest, SomebodysHistorySaysWhatTheyWereWhatTheySignedAndWhatTheyMayDo)
{
    using namespace std::chrono;
    people::PeopleStore people(database);
    ASSERT_TRUE(people.add({PersonId(u"ada"_s), u"A. Okoro"_s, people::Role::Engineer, {}, {}, {}}));
    ASSERT_TRUE(people.give({people::AuthorisationId(u"a-1"_s),
                             PersonId(u"ada"_s),
                             people::Duty::LampSwap,
                             std::vector{ModelId(u"larkmoor-teal"_s)},
                             2026y / January / 5d,
                             2026y / December / 31d,
                             PersonId(u"ada"_s),
                             {}}));
    test::keepNight(database, test::nightThatIsOver());
    open();
    presenter.showPerson(PersonId(u"ada"_s));

    EXPECT_EQ(presenter.view().title, u"A. Okoro"_s);
    EXPECT_TRUE(presenter.view().stays.isEmpty());
    EXPECT_TRUE(line(u"Led a visit at Pier Street; done"_s));
    EXPECT_TRUE(line(u"Signed: "_s));
    EXPECT_TRUE(line(u"The counter shows less than the hours on record"_s));
    const CardLine* authorised = line(u"(larkmoor-teal), 2026-01-05 to 2026-12-31"_s);
    ASSERT_TRUE(authorised);
    EXPECT_EQ(authorised->sub, u"2026-01-05"_s);
    EXPECT_TRUE(authorised->act.isEmpty()); // it stands in no visit
}

TEST_F(HistoryPresenterTest, OlderAndNewerLeadThroughTheWholeAndNoFurther)
{
    for (int number = 1; number <= 12; ++number)
        test::keepNight(database,
                        test::nightThatIsOver(u"visit-%1"_s.arg(number), std::chrono::hours(24 * number)));
    open();
    presenter.showLamphouse(LamphouseId(u"lamphouse-1-main"_s));
    const QString whole = presenter.view().part.section(u' ', -1);
    ASSERT_TRUE(presenter.view().hasOlder);
    EXPECT_FALSE(presenter.view().hasNewer);
    EXPECT_TRUE(presenter.view().part.startsWith(u"1 to 40 of "));
    presenter.newer();
    EXPECT_TRUE(presenter.view().part.startsWith(u"1 to 40 of "));
    int pages = 1;
    while (presenter.view().hasOlder) {
        presenter.older();
        ASSERT_LT(++pages, 20);
    }
    EXPECT_TRUE(presenter.view().part.endsWith(u"to %1 of %1"_s.arg(whole)));
    const QString last = presenter.view().part;
    presenter.older();
    EXPECT_EQ(presenter.view().part, last);
    while (presenter.view().hasNewer)
        presenter.newer();
    EXPECT_TRUE(presenter.view().part.startsWith(u"1 to 40 of "));
}

TEST_F(HistoryPresenterTest, TheTextHoldsEverythingInSight)
{
    test::keepNight(database, test::nightThatIsOver());
    open();
    presenter.showLamp(LampId(u"new-1"_s));

    const QString text = presenter.text();

    EXPECT_TRUE(text.startsWith(presenter.view().title));
    for (const CardLine& one : presenter.view().lines)
        EXPECT_TRUE(text.contains(one.text) && text.contains(one.sub)) << one.text.toStdString();
    EXPECT_TRUE(text.contains(presenter.view().stays.first().sub));
    presenter.copied();
    EXPECT_EQ(presenter.view().said, u"Copied."_s);
    presenter.search(u"x"_s);
    EXPECT_TRUE(presenter.view().said.isEmpty());
}

TEST_F(HistoryPresenterTest, AWindowThatMayNotWriteSaysWhatIsMissing)
{
    test::keepNight(database, test::nightThatIsOver());
    HistoryPresenter reader(store, QTimeZone::utc(), HistoryPresenter::Reading::Not);
    reader.open();
    QCoreApplication::processEvents();

    EXPECT_TRUE(reader.view().reach.contains(u"this window may not write"));
    EXPECT_EQ(store.reach()->due, 1);
}

TEST(HistoryWordsTest, EveryKindOfLineHasWordsInEveryHistory)
{
    for (const About about : review::kEveryAbout) {
        for (int number = 0; number < review::kHistoryKinds; ++number) {
            review::HistoryPage page;
            page.subject.about = about;
            const review::HistoryLine line{static_cast<review::HistoryLine::Kind>(number)};
            EXPECT_FALSE(wordsOf(line, page).isEmpty()) << number;
            EXPECT_FALSE(wordsOf(line, page).contains(u"%1")) << wordsOf(line, page).toStdString();
        }
    }
    for (const lamps::Custody custody : lamps::kEveryCustody)
        EXPECT_FALSE(nameOf(custody).isEmpty());
    for (int number = 0; number < lamps::kCauses; ++number)
        EXPECT_FALSE(nameOf(static_cast<lamps::Cause>(number)).isEmpty());
}

TEST(HistoryWordsTest, WhatIsNotKnownIsSaidAndNotLeftOut)
{
    EXPECT_EQ(nameOf(review::Subject{About::Lamp, u"l"_s, {}, u"HVQ21-40A"_s}),
              u"HVQ21-40A, no serial known"_s);
    EXPECT_EQ(nameOf(review::Subject{About::Person, u"p"_s, {}}), u"Not known here"_s);
    review::Stay stay{LampId(u"l"_s), LamphouseId(u"h"_s)};
    stay.to = WallTime(24h);
    const StayWords said = wordsOf(stay, {}, QTimeZone::utc());
    EXPECT_TRUE(said.more.contains(u"not known since when"));
    EXPECT_TRUE(said.more.contains(u"hours burnt not known"));
    EXPECT_TRUE(said.more.contains(u"counter not read to not read"));
}

TEST(HistoryWordsTest, SomebodyWhoseLockWasTakenOffIsNamed)
{
    review::HistoryPage page;
    page.subject.about = About::Lamphouse;
    page.named.insert({About::Person, u"p-2"_s}, {About::Person, u"p-2"_s, u"B. Lind"_s});
    review::HistoryLine line{review::HistoryLine::Kind::Unusual};
    line.unusual = review::Exception{review::Exception::Kind::LockRemoved};
    line.unusual->person = PersonId(u"p-2"_s);

    EXPECT_TRUE(wordsOf(line, page).endsWith(u": B. Lind"));
}

} // namespace
} // namespace coldarc::ui
