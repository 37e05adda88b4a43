#include "ui/lamps/lamps_presenter.h"

#include "core/people/people_store.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"
#include "ui/lamps/lamps_page.h"

#include <QAbstractButton>
#include <QApplication>
#include <QPlainTextEdit>
#include <QTest>

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace ui;

const catalogue::Catalogue& shipped()
{
    static const catalogue::CatalogueLoading kLoading =
        catalogue::loadCatalogue(sourceFile("resources/catalogue"));
    return kLoading.catalogue;
}

class LampsPresenterTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        people::Person ada;
        ada.id = PersonId(u"ada"_s);
        ada.name = u"A. Okoro"_s;
        ASSERT_TRUE(people.add(ada));
        presenter.setWho(ada.id);
    }

    FakeClock clock;
    CountingIds ids;
    store::Database database = store::Database::inMemory();
    people::PeopleStore people{database};
    lamps::LampStore lamps{database};
    LampsPresenter presenter{lamps,
                             shipped(),
                             {[](const PersonId& id) { return u"person "_s + id.text(); },
                              [](const SiteId& id) { return u"site "_s + id.text(); }},
                             clock,
                             ids};
};

TEST_F(LampsPresenterTest, SaysInWordsThatTheVanIsEmpty)
{
    EXPECT_TRUE(presenter.view().van.isEmpty());
    EXPECT_EQ(presenter.view().noVan, u"No lamp is in your van. Add them one by one, or paste a table."_s);
}

TEST_F(LampsPresenterTest, PutsALampIntoTheVanOfWhoeverWorksHere)
{
    presenter.add(u"hollin-21"_s, u" HV1 "_s, u"0"_s, u"in-van"_s);

    ASSERT_EQ(presenter.view().van.size(), 1);
    EXPECT_EQ(presenter.view().van.first().text, u"HVQ21-40A, HV1"_s);
    EXPECT_EQ(lamps.vanStock(PersonId(u"ada"_s))->front().lamp.serial, u"HV1"_s);
}

TEST_F(LampsPresenterTest, TakesNoLampWithoutTypeAndSerial)
{
    presenter.add(QString(), u"  "_s, u"0"_s, u"in-van"_s);

    EXPECT_FALSE(presenter.view().type.error.isEmpty());
    EXPECT_FALSE(presenter.view().serial.error.isEmpty());
    EXPECT_TRUE(lamps.vanStock(PersonId(u"ada"_s))->empty());
}

TEST_F(LampsPresenterTest, TakesTheSameLampOnlyOnce)
{
    presenter.add(u"hollin-21"_s, u"HV1"_s, u"0"_s, u"in-van"_s);
    presenter.add(u"hollin-21"_s, u"HV1"_s, u"0"_s, u"in-stock"_s);

    EXPECT_EQ(presenter.view().message,
              u"A lamp of this type and serial is known already. Nothing was added."_s);
    EXPECT_TRUE(presenter.view().stock.isEmpty());
}

TEST_F(LampsPresenterTest, TakesTheHoursOfAUsedLampAndLeavesThoseThatNobodyKnowsUnknown)
{
    presenter.add(u"hollin-21"_s, u"HV1"_s, u"1,200"_s, u"in-van"_s);
    EXPECT_EQ(presenter.view().hours.error,
              u"Not a figure of hours: write 1200, with nothing between the thousands."_s);
    EXPECT_TRUE(presenter.view().van.isEmpty());

    presenter.add(u"hollin-21"_s, u"HV1"_s, u"1200"_s, u"in-van"_s);
    presenter.add(u"hollin-21"_s, u"HV2"_s, u" "_s, u"in-van"_s);

    ASSERT_EQ(presenter.view().van.size(), 2);
    EXPECT_TRUE(presenter.view().van.first().sub.endsWith(u"1200 h"))
        << presenter.view().van.first().sub.toStdString();
    EXPECT_TRUE(presenter.view().van.last().sub.endsWith(u"hours unknown"));
    EXPECT_TRUE(presenter.view().hours.error.isEmpty());
}

TEST_F(LampsPresenterTest, ShowsEveryLampOfWhichSomethingIsToBecomeWithWhatThatIs)
{
    people::Person ben;
    ben.id = PersonId(u"ben"_s);
    ben.name = u"B. Lind"_s;
    ASSERT_TRUE(people.add(ben));
    presenter.paste(
        u"HVQ21-40A;HV1;on-order\nHVQ21-40A;HV2;in-van\nHVQ21-40A;HV3;in-van\nHVQ21-40A;HV4;in-van"_s);
    const auto idOf = [&](const QString& serial) {
        return *lamps.ofTypeWithSerial(LampTypeId(u"hollin-21"_s), serial).value();
    };
    int moves = 0;
    const auto move = [&](const QString& serial, lamps::Custody to, const PersonId& holder,
                          const SiteId& site = {}) {
        ASSERT_TRUE(
            std::holds_alternative<lamps::Moved>(lamps
                                                     .move({lamps::MoveId(u"m%1"_s.arg(++moves)),
                                                            idOf(serial), to, holder, site, clock.now().wall})
                                                     .value()));
    };
    move(u"HV2"_s, lamps::Custody::InStock, {});
    move(u"HV2"_s, lamps::Custody::InVan, ben.id);
    move(u"HV3"_s, lamps::Custody::Unused, PersonId(u"ada"_s));
    move(u"HV4"_s, lamps::Custody::Burst, PersonId(u"ada"_s));
    presenter.refresh();

    QStringList away;
    for (const CardLine& line : presenter.view().away)
        away << line.text.section(u", "_s, 1) + u": "_s + line.sub.section(u" \u00b7 "_s, 0, 0) + u": "_s +
                    line.act;
    EXPECT_EQ(away, (QStringList{u"HV1: on order: It came: into the store"_s,
                                 u"HV2: in the van of person ben: Into the store"_s,
                                 u"HV3: brought for a swap that did not need it: Into the van"_s,
                                 u"HV4: burst, in pieces: Recycled"_s}));

    for (const QString& serial : {u"HV1"_s, u"HV2"_s, u"HV3"_s, u"HV4"_s})
        presenter.act(idOf(serial).text());

    EXPECT_TRUE(presenter.view().away.isEmpty());
    EXPECT_EQ(presenter.view().stock.size(), 2);
    EXPECT_EQ(presenter.view().van.size(), 1);
}

TEST_F(LampsPresenterTest, SaysWhereABoxedLampIsAndTakesDownThatItWasReturnedOrRecycled)
{
    const auto addBoxed = [&](const QString& id, const PersonId& holder, const SiteId& site) {
        ASSERT_TRUE(lamps.add(
            {LampId(id), LampTypeId(u"hollin-21"_s), id, {}},
            {lamps::MoveId(id), LampId(id), lamps::Custody::Boxed, holder, site, clock.now().wall}));
    };
    addBoxed(u"HV1"_s, PersonId(u"ada"_s), {});
    addBoxed(u"HV2"_s, PersonId(u"ada"_s), SiteId(u"pier"_s));
    addBoxed(u"HV3"_s, {}, {});
    presenter.refresh();
    QStringList where;
    for (const CardLine& line : presenter.view().boxed)
        where << line.sub.section(u" \u00b7 "_s, 0, 0) + u": "_s + line.otherAct + u", "_s + line.act;
    ASSERT_EQ(where.size(), 3);
    EXPECT_EQ(where[0], u"in the van of person ada: Recycled, Returned"_s);
    EXPECT_EQ(where[1], u"at site pier: Recycled, Returned"_s);

    LampsPage page;
    QObject::connect(&page, &LampsPage::recycleRequested, &presenter, &LampsPresenter::recycle);
    QObject::connect(&page, &LampsPage::actRequested, &presenter, &LampsPresenter::act);
    page.setView(presenter.view());
    page.show();
    QTest::mouseClick(page.findChild<QAbstractButton*>(u"other-act-HV1"_s), Qt::LeftButton);
    QTest::mouseClick(page.findChild<QAbstractButton*>(u"act-HV2"_s), Qt::LeftButton);

    EXPECT_EQ(lamps.lamp(LampId(u"HV1"_s))->custody, lamps::Custody::Recycled);
    EXPECT_EQ(lamps.lamp(LampId(u"HV2"_s))->custody, lamps::Custody::Returned);
    EXPECT_EQ(presenter.view().boxed.size(), 1);
}

TEST_F(LampsPresenterTest, MovesALampFromTheVanToTheStoreAndBack)
{
    presenter.add(u"hollin-21"_s, u"HV1"_s, u"0"_s, u"in-van"_s);
    const QString lamp = presenter.view().van.first().id;

    presenter.act(lamp);
    EXPECT_TRUE(presenter.view().van.isEmpty());
    ASSERT_EQ(presenter.view().stock.size(), 1);
    presenter.act(lamp);

    EXPECT_EQ(presenter.view().van.size(), 1);
}

TEST_F(LampsPresenterTest, ALampThatAnUnfinishedVisitHasInHandIsMovedByThatAlone)
{
    lamps::InHand hand;
    presenter.setInHand([&hand] { return hand; });
    presenter.add(u"hollin-21"_s, u"HV1"_s, u"0"_s, u"in-van"_s);
    ASSERT_TRUE(lamps.add(
        {LampId(u"HV2"_s), LampTypeId(u"hollin-21"_s), u"HV2"_s, {}},
        {lamps::MoveId(u"HV2"_s), LampId(u"HV2"_s), lamps::Custody::Boxed, {}, {}, clock.now().wall}));
    const LampId lamp(presenter.view().van.first().id);
    hand.lamps = {lamp, LampId(u"HV2"_s)}; // a visit was opened meanwhile

    presenter.act(lamp.text());

    EXPECT_EQ(lamps.lamp(lamp)->custody, lamps::Custody::InVan);
    EXPECT_EQ(presenter.view().message,
              u"HVQ21-40A, HV1: an unfinished visit has it in hand, and alone says what "
              u"becomes of it. Nothing was changed."_s);
    EXPECT_EQ(presenter.view().van.first().act, QString());
    EXPECT_TRUE(presenter.view().van.first().sub.endsWith(u"an unfinished visit has it in hand"_s));
    presenter.recycle(u"HV2"_s);
    EXPECT_EQ(lamps.lamp(LampId(u"HV2"_s))->custody, lamps::Custody::Boxed);
    EXPECT_EQ(presenter.view().boxed.first().otherAct, QString());
}

TEST_F(LampsPresenterTest, WhoeverMovesALampByKeyboardStaysInTheList)
{
    for (const QString& serial : {u"HV1"_s, u"HV2"_s, u"HV3"_s})
        presenter.add(u"hollin-21"_s, serial, u"0"_s, u"in-van"_s);
    QStringList shown;
    for (const CardLine& line : presenter.view().van)
        shown << line.id;
    LampsPage page;
    QObject::connect(&presenter, &LampsPresenter::viewChanged, &page, &LampsPage::setView);
    QObject::connect(&page, &LampsPage::actRequested, &presenter, &LampsPresenter::act);
    page.setView(presenter.view());
    page.show();
    QApplication::setActiveWindow(&page);
    page.findChild<QAbstractButton*>(u"act-"_s + shown[1])->setFocus();

    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    ASSERT_TRUE(QApplication::focusWidget());
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"act-"_s + shown[2])
        << "the one that stands there now";

    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"act-"_s + shown[0]) << "none stands below it";
    EXPECT_EQ(presenter.view().stock.size(), 2);
}

// "Added" stood beside a table of which nothing was added.
TEST_F(LampsPresenterTest, SaysOnlyWhatBecameOfTheLastPress)
{
    presenter.add(u"hollin-21"_s, u"HV1"_s, u"0"_s, u"in-van"_s);
    presenter.paste(u"nothing"_s);
    EXPECT_EQ(presenter.view().message, QString());
    EXPECT_FALSE(presenter.view().paste.bad.isEmpty());

    presenter.act(presenter.view().van.first().id);

    EXPECT_EQ(presenter.view().message, u"HVQ21-40A, HV1: moved into the store."_s);
    EXPECT_EQ(presenter.view().paste.outcome, QString());
    EXPECT_TRUE(presenter.view().paste.bad.isEmpty());
}

TEST_F(LampsPresenterTest, TakesAWholeTableOrNamesEveryBadLine)
{
    presenter.paste(u"HVQ21-40A;HV1;in-van\nHVQ21-40A;HV2\nNO-SUCH;HV3;in-van"_s);

    EXPECT_EQ(presenter.view().paste.bad,
              (QStringList{u"Line 2: not three cells: HVQ21-40A;HV2"_s,
                           u"Line 3: the catalogue does not know this type: NO-SUCH;HV3;in-van"_s}));
    EXPECT_TRUE(presenter.view().van.isEmpty());
    EXPECT_EQ(presenter.view().paste.taken, 0);

    presenter.paste(u"HVQ21-40A;HV1;in-van\nHVQ21-40A;HV2;in-stock"_s);

    EXPECT_EQ(presenter.view().paste.outcome, u"2 lamps were added."_s);
    EXPECT_EQ(presenter.view().van.size(), 1);
    EXPECT_EQ(presenter.view().stock.size(), 1);
}

TEST_F(LampsPresenterTest, EmptiesTheBoxOnlyWhenTheTableWasTaken)
{
    LampsPage page;
    QObject::connect(&presenter, &LampsPresenter::viewChanged, &page, &LampsPage::setView);
    QObject::connect(&page, &LampsPage::pasted, &presenter, &LampsPresenter::paste);
    page.setView(presenter.view());
    page.show();
    auto* box = page.findChild<QPlainTextEdit*>(u"pasteBox"_s);
    auto* act = page.findChild<QAbstractButton*>(u"pasteAct"_s);

    box->setPlainText(u"nonsense"_s);
    QTest::mouseClick(act, Qt::LeftButton);
    EXPECT_EQ(box->toPlainText(), u"nonsense"_s);
    box->setPlainText(u"HVQ21-40A;HV1;in-van"_s);
    QTest::mouseClick(act, Qt::LeftButton);

    EXPECT_EQ(box->toPlainText(), QString());
}

} // namespace
} // namespace coldarc::test
