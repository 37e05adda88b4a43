#include "ui/people/people_presenter.h"

#include "tests/ui/people/people_at_work.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace ui;

class PeoplePresenterTest : public PeopleAtWork {
protected:
    void SetUp() override
    {
        enrol(u"ada"_s, u"A. Okoro"_s, u"three hats on a peg"_s);
        presenter.setSealCost(kCheapGuess);
        presenter.setBy(PersonId(u"ada"_s));
        presenter.refresh();
    }
    void giveUntil(const QString& until)
    {
        presenter.openForm(PeopleForm::Authorisation);
        PeopleAnswers answers;
        answers.duty = u"lamp-swap"_s;
        answers.model = u"larkmoor-teal"_s;
        answers.from = u"2026-11-01"_s;
        answers.until = until;
        presenter.keepForm(answers);
    }

    PeoplePresenter presenter{
        people,      keys,
        gear,        clock,
        ids,         {{{u"larkmoor-teal"_s, u"Larkmoor Teal 30"_s}}, {{u"face-shield"_s, u"Face shield"_s}}},
        enrolling(), inPlace()};
};

// The clock stands on 2026-11-18.
TEST_F(PeoplePresenterTest, ShowsAnAuthorityWithItsModelItsEndAndWhoGaveIt)
{
    giveUntil(u"2027-10-31"_s);

    ASSERT_EQ(presenter.view().authorisations.size(), 1);
    const CardLine& line = presenter.view().authorisations.first();
    EXPECT_EQ(line.text, u"swaps lamps · Larkmoor Teal 30"_s);
    EXPECT_EQ(line.sub, u"holds until 2027-10-31 · given by themselves"_s);
    EXPECT_EQ(line.act, u"Withdraw"_s);
}

TEST_F(PeoplePresenterTest, SaysOfAnAuthorityThatEndedThatItEnded)
{
    giveUntil(u"2026-11-17"_s);

    EXPECT_EQ(presenter.view().authorisations.first().sub, u"ended on 2026-11-17 · given by themselves"_s);
    EXPECT_EQ(presenter.view().authorisations.first().act, QString());
}

TEST_F(PeoplePresenterTest, WithdrawsAnAuthorityFromToday)
{
    giveUntil(u"2027-10-31"_s);

    presenter.withdraw(presenter.view().authorisations.first().id);

    EXPECT_EQ(presenter.view().authorisations.first().sub,
              u"withdrawn on 2026-11-18 · given by themselves"_s);
}

TEST_F(PeoplePresenterTest, RefusesDatesThatAreNone)
{
    giveUntil(u"31.10.2027"_s);

    EXPECT_EQ(presenter.view().until.error, u"A day like 2026-12-31."_s);
    EXPECT_TRUE(people.authorisationsOf(PersonId(u"ada"_s))->empty());
}

TEST_F(PeoplePresenterTest, AddsAPersonWithAKeyOfTheirOwn)
{
    presenter.openForm(PeopleForm::NewPerson);
    PeopleAnswers answers;
    answers.name = u"B. Lind"_s;
    answers.role = u"trainee"_s;
    answers.passphrase = answers.again = u"another long passphrase"_s;
    presenter.keepForm(answers);

    ASSERT_EQ(people.all()->size(), 2u);
    EXPECT_EQ(presenter.view().title, u"B. Lind"_s);
    EXPECT_EQ(presenter.view().keyText, u"Signs with a key of their own."_s);
    EXPECT_EQ(presenter.view().noAuthorisations, u"None. B. Lind may not work on a lamphouse."_s);
}

TEST_F(PeoplePresenterTest, SaysWhyAPieceOfGearIsNotToBeWorn)
{
    presenter.openForm(PeopleForm::Gear);
    PeopleAnswers answers;
    answers.kind = u"face-shield"_s;
    answers.identifier = u"S1"_s;
    answers.expires = u"2026-10"_s;
    presenter.keepForm(answers);

    ASSERT_EQ(presenter.view().gear.size(), 1);
    EXPECT_EQ(presenter.view().gear.first().text, u"Face shield · S1"_s);
    EXPECT_TRUE(presenter.view().gear.first().sub.startsWith(u"not to be worn: past its last month"_s));
}

TEST_F(PeoplePresenterTest, TakesNoMarkingThatSuchAPieceCannotCarry)
{
    presenter.openForm(PeopleForm::Gear);
    PeopleAnswers answers;
    answers.kind = u"safety-glasses"_s;
    answers.marking = u"EN 166 1 A"_s; // that strength is for face shields only
    presenter.keepForm(answers);
    EXPECT_EQ(presenter.view().marking.error, u"No such piece carries this marking: read it again."_s);
    EXPECT_TRUE(presenter.view().gear.isEmpty());

    answers.marking = u"EN 166 1 B"_s;
    presenter.keepForm(answers);

    ASSERT_EQ(presenter.view().gear.size(), 1);
    EXPECT_TRUE(presenter.view().gear.first().sub.contains(u"stops a ball at 120 m/s"));
}

TEST_F(PeoplePresenterTest, DoesNotLetSomebodyRetireThemselves)
{
    EXPECT_FALSE(presenter.view().canRetire);
    EXPECT_FALSE(presenter.view().canRetireKey);
}

TEST_F(PeoplePresenterTest, RetiresAPersonAndTheirKey)
{
    enrol(u"ben"_s, u"B. Lind"_s, u"another long passphrase"_s);
    presenter.refresh();
    presenter.choose(u"ben"_s);

    presenter.retire();

    EXPECT_EQ(presenter.view().sub, u"engineer · retired on 2026-11-18"_s);
    EXPECT_FALSE(keys.sealedKey(PersonId(u"ben"_s)));
}

} // namespace
} // namespace coldarc::test
