#include "ui/shell/shell_presenter.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace ui;
using people::Role;

class ShellPresenterTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        shell.addPlace(
            {u"visits"_s, u"Visits"_s, u"Ctrl+1"_s, {Role::Engineer, Role::Trainee, Role::Supervisor}});
        shell.addPlace({u"people"_s, u"People"_s, u"Ctrl+2"_s, {Role::Engineer, Role::Supervisor}});
    }
    void signIn(Role role)
    {
        people::Person person;
        person.id = PersonId(u"ada"_s);
        person.name = u"A. Okoro"_s;
        person.role = role;
        keeper.begin(person, people::Session(person.id, people::SigningKey::generate(), clock.now(), {1, 8}));
        keeper.setPin(*people::Pin::accept(u"604193"_s));
        shell.showWork();
    }

    FakeClock clock;
    SessionKeeper keeper{clock, inPlace()};
    ShellPresenter shell{keeper};
};

TEST_F(ShellPresenterTest, OffersNoPlaceToNobody)
{
    shell.showSignIn();

    EXPECT_TRUE(shell.view().bar.places.isEmpty());
    EXPECT_EQ(shell.view().bar.who, QString());
}

TEST_F(ShellPresenterTest, OffersOnlyThePlacesThatTheRoleNeeds)
{
    signIn(Role::Trainee);
    EXPECT_EQ(shell.view().bar.places, (QList<PlaceView>{{u"visits"_s, u"Visits"_s, u"Ctrl+1"_s, true}}));
    EXPECT_EQ(shell.view().bar.who, u"A. Okoro, trainee"_s);

    signIn(Role::Supervisor);

    EXPECT_EQ(shell.view().bar.places.size(), 2);
}

TEST_F(ShellPresenterTest, GoesToNoPlaceThatIsNotOffered)
{
    signIn(Role::Trainee);

    shell.go(u"people"_s);

    EXPECT_EQ(shell.view().here, u"visits"_s);
}

TEST_F(ShellPresenterTest, CoversEverythingWhileTheKeyIsLocked)
{
    signIn(Role::Engineer);
    EXPECT_FALSE(shell.view().isCovered);

    keeper.lock();

    EXPECT_TRUE(shell.view().isCovered);
}

TEST_F(ShellPresenterTest, PutsNoLockBetweenWhoeverIsInTheZoneAndTheWayOut)
{
    signIn(Role::Engineer);
    shell.setInZone(true);

    keeper.lock();

    EXPECT_FALSE(shell.view().isCovered);
    EXPECT_TRUE(shell.view().banner.contains(u"unsigned"_s));
    shell.setInZone(false);
    EXPECT_TRUE(shell.view().isCovered);
    EXPECT_EQ(shell.view().banner, QString());
}

TEST_F(ShellPresenterTest, SaysWhatHappenedWhatWasKeptAndWhatToDo)
{
    shell.say({u"It broke."_s, u"All is kept."_s, u"Press again."_s});
    EXPECT_EQ(shell.view().strip.text, u"It broke. All is kept. Press again."_s);

    shell.dismiss();

    EXPECT_EQ(shell.view().strip.text, QString());
}

TEST_F(ShellPresenterTest, AMessageGoesOnceItIsSettledAndTheOneBeforeItIsInSightAgain)
{
    shell.say({u"The laptop may sleep."_s, {}, {}}, About::Sleep);
    shell.say({u"/proc/x.pdf could not be saved."_s, {}, {}}, About::Saving);
    shell.settle(About::Sleep);
    EXPECT_EQ(shell.view().strip.text, u"/proc/x.pdf could not be saved."_s);
    shell.say({u"The laptop may sleep."_s, {}, {}}, About::Sleep);

    shell.settle(About::Sleep);

    EXPECT_EQ(shell.view().strip.text, u"/proc/x.pdf could not be saved."_s);
    shell.say({u"The report was written to /home/a/x.pdf."_s, {}, {}}, About::Saving);
    EXPECT_EQ(shell.view().strip.text, u"The report was written to /home/a/x.pdf."_s);
    shell.settle(About::Saving);
    EXPECT_EQ(shell.view().strip.text, QString()) << "of one kind there is one";
}

TEST_F(ShellPresenterTest, NoMessageStandsForWhoeverSignsInNext)
{
    shell.say({u"A copy stands beside it."_s, {}, {}});
    signIn(Role::Engineer);
    EXPECT_EQ(shell.view().strip.text, u"A copy stands beside it."_s) << "nobody had seen it";

    keeper.signOut();

    EXPECT_EQ(shell.view().strip.text, QString());
    signIn(Role::Engineer);
    shell.say({u"It broke."_s, {}, {}});
    signIn(Role::Trainee); // in the place of the one before
    EXPECT_EQ(shell.view().strip.text, QString());
}

TEST_F(ShellPresenterTest, WhatWasSavedIsSaidUntilOneGoesElsewhere)
{
    signIn(Role::Engineer);
    shell.say({u"The report was written."_s, {}, {}}, About::Saving);
    shell.go(u"visits"_s);
    EXPECT_EQ(shell.view().strip.text, u"The report was written."_s);

    shell.go(u"people"_s);

    EXPECT_EQ(shell.view().strip.text, QString());
}

TEST_F(ShellPresenterTest, KeepsTheReadOnlyBannerWhateverIsDone)
{
    shell.setReadOnly(u"Read only"_s);
    signIn(Role::Engineer);
    shell.dismiss();

    EXPECT_EQ(shell.view().banner, u"Read only"_s);
}

} // namespace
} // namespace coldarc::test
