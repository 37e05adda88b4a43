#include "ui/people/people_page.h"

#include "tests/support/testing.h"

#include <QAbstractButton>
#include <QLabel>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>

// Every person here is invented.

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;

/// A form for a new person, just opened beside the people that there are.
class PeoplePageTest : public ::testing::Test {
protected:
    PeoplePageTest()
    {
        view.people = {{u"ada"_s, u"Ada Invented"_s, u"engineer"_s, {}},
                       {u"bo"_s, u"Bo Invented"_s, u"supervisor"_s, {}}};
        view.chosen = u"ada"_s;
        page.setView(view);
        page.resize(1366, 720);
        page.show();
        view.form = PeopleForm::NewPerson;
        view.formAct = u"Add"_s;
        view.role = {u"Works as"_s, {{u"engineer"_s, u"engineer"_s}, {u"trainee"_s, u"trainee"_s}}, {}, {}};
        view.emptied = 1;
        page.setView(view);
    }
    void press(const QString& name)
    {
        QTest::mouseClick(page.findChild<QAbstractButton*>(name), Qt::LeftButton);
    }

    PeopleView view;
    PeoplePage page;
    QSignalSpy chosen{&page, &PeoplePage::personChosen};
    QSignalSpy asked{&page, &PeoplePage::formRequested};
};

TEST_F(PeoplePageTest, ARowPressedBesideAFormLeavesWhatWasTypedWhereItIs)
{
    auto* name = page.findChild<QWidget*>(u"name"_s)->findChild<QLineEdit*>();
    QTest::keyClicks(name, u"C. Moor"_s);

    press(u"row-bo"_s);
    press(u"form-1"_s);

    EXPECT_EQ(chosen.size() + asked.size(), 0);
    EXPECT_EQ(name->text(), u"C. Moor"_s);
    EXPECT_TRUE(page.findChild<QLabel*>(u"message"_s)->text().contains(u"not kept yet"_s));
    press(u"leave"_s);
    EXPECT_EQ(asked.size(), 1) << "nobody is held in a form";
}

TEST_F(PeoplePageTest, AnAnswerChosenInAFormIsFilledInAsWell)
{
    press(u"choice-trainee"_s);

    press(u"row-bo"_s);

    EXPECT_EQ(chosen.size(), 0);
}

TEST_F(PeoplePageTest, ARowPressedBesideAFormThatNobodyTouchedOpens)
{
    press(u"row-bo"_s);

    EXPECT_EQ(chosen.size(), 1);
}

} // namespace
} // namespace coldarc::ui
