#include "ui/lamps/lamps_presenter.h"

#include "core/people/people_store.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"
#include "ui/lamps/lamps_page.h"

#include <QAbstractButton>
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
    LampsPresenter presenter{lamps, shipped(), clock, ids};
};

TEST_F(LampsPresenterTest, SaysInWordsThatTheVanIsEmpty)
{
    EXPECT_TRUE(presenter.view().van.isEmpty());
    EXPECT_EQ(presenter.view().noVan, u"No lamp is in your van. Add them one by one, or paste a table."_s);
}

TEST_F(LampsPresenterTest, PutsALampIntoTheVanOfWhoeverWorksHere)
{
    presenter.add(u"hollin-21"_s, u" HV1 "_s, u"in-van"_s);

    ASSERT_EQ(presenter.view().van.size(), 1);
    EXPECT_EQ(presenter.view().van.first().text, u"HVQ21-40A, HV1"_s);
    EXPECT_EQ(lamps.vanStock(PersonId(u"ada"_s))->front().lamp.serial, u"HV1"_s);
}

TEST_F(LampsPresenterTest, TakesNoLampWithoutTypeAndSerial)
{
    presenter.add(QString(), u"  "_s, u"in-van"_s);

    EXPECT_FALSE(presenter.view().type.error.isEmpty());
    EXPECT_FALSE(presenter.view().serial.error.isEmpty());
    EXPECT_TRUE(lamps.vanStock(PersonId(u"ada"_s))->empty());
}

TEST_F(LampsPresenterTest, TakesTheSameLampOnlyOnce)
{
    presenter.add(u"hollin-21"_s, u"HV1"_s, u"in-van"_s);
    presenter.add(u"hollin-21"_s, u"HV1"_s, u"in-stock"_s);

    EXPECT_EQ(presenter.view().message,
              u"A lamp of this type and serial is known already. Nothing was added."_s);
    EXPECT_TRUE(presenter.view().stock.isEmpty());
}

TEST_F(LampsPresenterTest, MovesALampFromTheVanToTheStoreAndBack)
{
    presenter.add(u"hollin-21"_s, u"HV1"_s, u"in-van"_s);
    const QString lamp = presenter.view().van.first().id;

    presenter.act(lamp);
    EXPECT_TRUE(presenter.view().van.isEmpty());
    ASSERT_EQ(presenter.view().stock.size(), 1);
    presenter.act(lamp);

    EXPECT_EQ(presenter.view().van.size(), 1);
}

// "Added" stood beside a table of which nothing was added.
TEST_F(LampsPresenterTest, SaysOnlyWhatBecameOfTheLastPress)
{
    presenter.add(u"hollin-21"_s, u"HV1"_s, u"in-van"_s);
    presenter.paste(u"nothing"_s);
    EXPECT_EQ(presenter.view().message, QString());
    EXPECT_FALSE(presenter.view().paste.bad.isEmpty());

    presenter.act(presenter.view().van.first().id);

    EXPECT_EQ(presenter.view().message, u"Moved into the store."_s);
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
