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
    void giveUntil(const QString& until, const QString& duty = u"lamp-swap"_s)
    {
        presenter.openForm(PeopleForm::Authorisation);
        PeopleAnswers answers;
        answers.duty = duty;
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

// ---- Who gives ------------------------------------------------------------------------------------------

TEST_F(PeoplePresenterTest, LetsSomebodyAloneGiveThemselvesAndSaysSoOnThePage)
{
    EXPECT_TRUE(presenter.view().canGive);
    EXPECT_EQ(presenter.view().giving,
              u"Nobody supervises here today: what you give yourself is kept as given by yourself."_s);
    presenter.openForm(PeopleForm::Authorisation);
    EXPECT_EQ(presenter.view().formNote, presenter.view().giving);

    giveUntil(u"2027-10-31"_s);

    const auto held = people.authorisationsOf(PersonId(u"ada"_s));
    ASSERT_EQ(held->size(), 1u);
    EXPECT_EQ(held->front().givenBy, PersonId(u"ada"_s));
}

TEST_F(PeoplePresenterTest, LetsNobodyGiveThemselvesMoreOnceTheySupervise)
{
    giveUntil(u"2027-10-31"_s, u"supervise"_s);

    EXPECT_FALSE(presenter.view().canGive);
    EXPECT_EQ(presenter.view().giving,
              u"Nobody gives themselves more once somebody supervises: another supervisor does."_s);
    EXPECT_EQ(presenter.view().authorisations.first().act, u"Withdraw"_s);
    giveUntil(u"2027-10-31"_s);

    EXPECT_EQ(people.authorisationsOf(PersonId(u"ada"_s))->size(), 1u);
    EXPECT_EQ(presenter.view().message, u"Nothing was changed. Nobody gives themselves more once somebody "
                                        "supervises: another supervisor does."_s);
}

TEST_F(PeoplePresenterTest, LetsASupervisorGiveWithdrawAndRetireOthers)
{
    giveUntil(u"2027-10-31"_s, u"supervise"_s);
    enrol(u"ben"_s, u"B. Lind"_s, u"another long passphrase"_s);
    presenter.refresh();
    presenter.choose(u"ben"_s);
    EXPECT_TRUE(presenter.view().canGive);
    EXPECT_TRUE(presenter.view().canRetire);
    EXPECT_EQ(presenter.view().giving, QString());

    giveUntil(u"2027-10-31"_s);

    EXPECT_EQ(presenter.view().authorisations.first().sub, u"holds until 2027-10-31 · given by A. Okoro"_s);
    presenter.withdraw(presenter.view().authorisations.first().id);
    EXPECT_EQ(presenter.view().message, u"Withdrawn from today."_s);
    presenter.retire();
    EXPECT_TRUE(people.person(PersonId(u"ben"_s))->retiredOn);
}

TEST_F(PeoplePresenterTest, LetsNobodyElseGiveWithdrawOrRetireOnceSomebodySupervises)
{
    giveUntil(u"2027-10-31"_s);
    giveUntil(u"2027-10-31"_s, u"supervise"_s);
    enrol(u"ben"_s, u"B. Lind"_s, u"another long passphrase"_s);
    presenter.setBy(PersonId(u"ben"_s));
    presenter.refresh(); // ada is in sight

    EXPECT_FALSE(presenter.view().canGive);
    EXPECT_FALSE(presenter.view().canRetire);
    EXPECT_EQ(presenter.view().giving,
              u"Given, withdrawn, retired and given a key by whoever supervises: A. Okoro."_s);
    EXPECT_EQ(presenter.view().authorisations.first().act, QString());
    const QString refused = u"Nothing was changed. "_s + presenter.view().giving;
    presenter.withdraw(presenter.view().authorisations.first().id);
    EXPECT_EQ(presenter.view().message, refused);
    presenter.retire();
    EXPECT_EQ(presenter.view().message, refused);
    giveUntil(u"2027-10-31"_s);
    EXPECT_EQ(presenter.view().message, refused);

    EXPECT_EQ(people.authorisationsOf(PersonId(u"ada"_s))->size(), 2u);
    EXPECT_FALSE(people.authorisationsOf(PersonId(u"ada"_s))->front().withdrawnOn);
    EXPECT_FALSE(people.person(PersonId(u"ada"_s))->retiredOn);

    presenter.choose(u"ben"_s);
    EXPECT_EQ(presenter.view().giving,
              u"Nobody gives themselves more once somebody supervises. Here that is: A. Okoro."_s);
    giveUntil(u"2027-10-31"_s);
    EXPECT_TRUE(people.authorisationsOf(PersonId(u"ben"_s))->empty());
}

TEST_F(PeoplePresenterTest, OnlyWhoeverSupervisesLetsAKeyBeMadeForSomebodyWhoHasNone)
{
    enrol(u"ben"_s, u"B. Lind"_s, u"another long passphrase"_s);
    enrol(u"sue"_s, u"S. Marlow"_s, u"nine herons over a pier"_s, people::Role::Supervisor);
    giveUntil(u"2027-10-31"_s, u"supervise"_s); // ada supervises
    ASSERT_TRUE(keys.retireKey(PersonId(u"sue"_s), clock.now()));
    PeopleAnswers answers;
    answers.passphrase = answers.again = u"one that ben made up"_s;

    presenter.setBy(PersonId(u"ben"_s));
    presenter.refresh();
    presenter.choose(u"sue"_s);
    EXPECT_FALSE(presenter.view().canAddKey);
    presenter.openForm(PeopleForm::Key);
    presenter.keepForm(answers);
    EXPECT_EQ(presenter.view().message,
              u"Nothing was changed. Given, withdrawn, retired and given a key by whoever supervises: "
              "A. Okoro."_s);
    EXPECT_FALSE(keys.sealedKey(PersonId(u"sue"_s)));

    presenter.setBy(PersonId(u"ada"_s));
    presenter.choose(u"sue"_s);
    EXPECT_TRUE(presenter.view().canAddKey);
    presenter.openForm(PeopleForm::Key);
    presenter.keepForm(answers);
    EXPECT_TRUE(keys.sealedKey(PersonId(u"sue"_s)));
}

TEST_F(PeoplePresenterTest, WhoeverKnowsTheOldPassphraseChangesItAndKeepsTheKey)
{
    const PersonId ada(u"ada"_s);
    const people::PublicKey before = keys.sealedKey(ada)->publicKey;
    ASSERT_TRUE(presenter.view().canChangePassphrase);
    presenter.openForm(PeopleForm::Passphrase);
    PeopleAnswers answers;
    answers.passphrase = answers.again = u"a kettle on the third shelf"_s;
    presenter.keepForm(answers);
    EXPECT_EQ(presenter.view().old.error, u"The passphrase as it is."_s);

    answers.old = u"not the old passphrase"_s;
    const int emptied = presenter.view().emptied;
    presenter.keepForm(answers);
    EXPECT_EQ(presenter.view().message, u"That is not your passphrase: nothing was changed."_s);
    EXPECT_GT(presenter.view().emptied, emptied);
    EXPECT_EQ(keys.attempts(before)->wrong, 1) << "it counts like one at the sign-in";

    answers.old = u"three hats on a peg"_s;
    presenter.keepForm(answers);
    EXPECT_EQ(presenter.view().message, u"Changed: the new passphrase opens your key."_s);
    EXPECT_EQ(presenter.view().form, PeopleForm::None);
    EXPECT_EQ(keys.attempts(before)->wrong, 0);
    const auto sealed = keys.sealedKey(ada);
    EXPECT_EQ(sealed->publicKey, before);
    EXPECT_TRUE(people::openKey(*sealed, ada, answers.passphrase));
    EXPECT_FALSE(people::openKey(*sealed, ada, answers.old));
    EXPECT_FALSE(people::isBelowFloor(sealed->cost)) << "it was sealed cheaply before";
}

TEST_F(PeoplePresenterTest, NobodyChangesThePassphraseOfSomebodyElse)
{
    enrol(u"ben"_s, u"B. Lind"_s, u"another long passphrase"_s);
    presenter.refresh();
    presenter.choose(u"ben"_s);
    EXPECT_FALSE(presenter.view().canChangePassphrase);

    presenter.choose(u"ada"_s);
    EXPECT_TRUE(presenter.view().canChangePassphrase);
    EXPECT_TRUE(presenter.view().keyText.contains(u"easier to guess at"_s)) << "by the cost of these tests";
}

TEST_F(PeoplePresenterTest, AClockThatIsSetForwardMakesNobodyASupervisor)
{
    giveUntil(u"2027-10-31"_s, u"supervise"_s);
    enrol(u"ben"_s, u"B. Lind"_s, u"another long passphrase"_s);
    clock.setWall(clock.now().wall + std::chrono::days(700));
    presenter.setBy(PersonId(u"ben"_s));
    presenter.refresh();
    EXPECT_FALSE(presenter.view().canRetire);
    presenter.choose(u"ben"_s);

    giveUntil(u"2030-10-31"_s, u"supervise"_s);
    EXPECT_EQ(presenter.view().message,
              u"Nothing was changed. Nobody supervises here today. Whoever holds it for "
              "other days gives it anew: A. Okoro."_s);
    EXPECT_TRUE(people.authorisationsOf(PersonId(u"ben"_s))->empty());

    giveUntil(u"2030-10-31"_s); // from 2026-11-01, which a clock that is set back makes of use
    EXPECT_EQ(presenter.view().from.error,
              u"From today on: for days before, whoever supervised then gives it."_s);
    EXPECT_TRUE(people.authorisationsOf(PersonId(u"ben"_s))->empty());

    presenter.setBy(PersonId(u"ada"_s));
    giveUntil(u"2030-10-31"_s, u"supervise"_s);
    EXPECT_EQ(people.authorisationsOf(PersonId(u"ben"_s))->size(), 1U);
}

TEST_F(PeoplePresenterTest, GivesAnElectricianOnlyWhatAnElectricianDoes)
{
    enrol(u"eva"_s, u"E. Brandt"_s, u"another long passphrase"_s, people::Role::Electrician);
    presenter.refresh();
    presenter.choose(u"eva"_s);
    EXPECT_EQ(presenter.view().sub, u"electrician"_s);
    EXPECT_EQ(presenter.view().noAuthorisations, u"None. E. Brandt may not prove absence of voltage."_s);

    giveUntil(u"2027-10-31"_s);
    EXPECT_EQ(presenter.view().duty.error, u"Nobody in this role may do this."_s);
    giveUntil(u"2027-10-31"_s, u"prove-absence"_s);

    ASSERT_EQ(people.authorisationsOf(PersonId(u"eva"_s))->size(), 1u);
    EXPECT_EQ(people.authorisationsOf(PersonId(u"eva"_s))->front().duty, people::Duty::ProveAbsence);
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
