#include "ui/site/sites_page.h"

#include "tests/support/testing.h"
#include "ui/parts/choice_row.h"

#include <QAbstractButton>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QSignalSpy>
#include <QTest>

// Every site here is invented.

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;

class SitesPageTest : public ::testing::Test {
protected:
    SitesPageTest()
    {
        view.sites = {{u"pier"_s, u"Pier Street"_s, {}, {}}, {u"weir"_s, u"Weir Court"_s, {}, {}}};
        view.chosen = u"pier"_s;
        page.setView(view);
        page.resize(1366, 720);
        page.show();
    }
    void open(SiteForm form)
    {
        view.form = form;
        ++view.emptied;
        page.setView(view);
    }
    void press(const QString& name)
    {
        QTest::mouseClick(page.findChild<QAbstractButton*>(name), Qt::LeftButton);
    }

    SitesView view;
    SitesPage page;
    QSignalSpy chosen{&page, &SitesPage::siteChosen};
    QSignalSpy asked{&page, &SitesPage::formRequested};
};

TEST_F(SitesPageTest, ARowPressedBesideAFormLeavesWhatWasTypedWhereItIs)
{
    open(SiteForm::NewSite);
    auto* name = page.findChild<QWidget*>(u"name"_s)->findChild<QLineEdit*>();
    QTest::keyClicks(name, u"Old Gasworks"_s);

    press(u"row-weir"_s);
    press(u"form-1"_s);

    EXPECT_EQ(chosen.size() + asked.size(), 0);
    EXPECT_EQ(name->text(), u"Old Gasworks"_s);
    EXPECT_TRUE(page.findChild<QLabel*>(u"message"_s)->text().contains(u"not kept yet"_s));
}

TEST_F(SitesPageTest, WhetherABreakerTakesALockIsAskedWithItsPanelAndKeptWithIt)
{
    QSignalSpy kept(&page, &SitesPage::formKept);
    view.breakers = {{{}, {u"Panel"_s, u"B"_s, {}, {}, {}}, {u"Circuit"_s, u"14"_s, {}, {}, {}}}};
    view.takesLock = {u"Lock"_s, {{u"yes"_s, u"takes one"_s}, {u"no"_s, u"takes none"_s}}, u"yes"_s, {}};
    open(SiteForm::Breaker);
    auto* lock = page.findChild<ChoiceRow*>(u"takes-lock"_s);
    EXPECT_TRUE(lock->isVisible());
    lock->chooseByNumber(2);
    press(u"keep"_s);

    ASSERT_EQ(kept.size(), 1);
    EXPECT_EQ(kept.first().first().value<SiteAnswers>().takesLock, u"no"_s);
    open(SiteForm::Screen);
    EXPECT_FALSE(lock->isVisible());
}

TEST_F(SitesPageTest, ATableThatWasPastedStaysAsWell)
{
    open(SiteForm::Paste);
    page.findChild<QPlainTextEdit*>(u"pasteBox"_s)->setPlainText(u"screen;model"_s);

    press(u"row-weir"_s);

    EXPECT_EQ(chosen.size(), 0);
}

TEST_F(SitesPageTest, ARowPressedBesideAFormThatNobodyTouchedOpens)
{
    open(SiteForm::NewSite);

    press(u"row-weir"_s);

    EXPECT_EQ(chosen.size(), 1);
}

} // namespace
} // namespace coldarc::ui
