#include "core/people/granting.h"

#include "tests/support/testing.h"

// Every person and date here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;

constexpr Day kToday = 2026y / November / 25d;

Authorisation supervision(const QString& person, Day from = 2026y / January / 1d,
                          Day until = 2027y / January / 1d)
{
    return {AuthorisationId(u"a-"_s + person),
            PersonId(person),
            Duty::Supervise,
            std::nullopt,
            from,
            until,
            PersonId(u"boss"_s),
            std::nullopt};
}

Holder holder(const QString& id, Role role, std::vector<Authorisation> held = {})
{
    Holder one;
    one.person.id = PersonId(id);
    one.person.role = role;
    one.authorisations = std::move(held);
    return one;
}

class GrantingTest : public ::testing::Test {
protected:
    [[nodiscard]] GrantVerdict asked(Grant grant, const QString& by, const QString& whom) const
    {
        return grantVerdict(grant, PersonId(by), PersonId(whom), everybody, kToday);
    }

    Holder boss = holder(u"boss"_s, Role::Supervisor, {supervision(u"boss"_s)});
    Holder ada = holder(u"ada"_s, Role::Engineer);
    Holder ben = holder(u"ben"_s, Role::Trainee);
    std::vector<Holder> everybody{boss, ada, ben};
};

TEST_F(GrantingTest, LetsWhoeverSupervisesGiveWithdrawAndRetire)
{
    for (const Grant grant : {Grant::Give, Grant::Withdraw, Grant::Retire})
        EXPECT_EQ(asked(grant, u"boss"_s, u"ben"_s), GrantVerdict::Supervises);
}

TEST_F(GrantingTest, LetsNobodyElseDoSoOnceSomebodySupervises)
{
    for (const Grant grant : {Grant::Give, Grant::Withdraw, Grant::Retire})
        EXPECT_EQ(asked(grant, u"ada"_s, u"ben"_s), GrantVerdict::NotASupervisor);
    EXPECT_EQ(asked(Grant::Withdraw, u"ada"_s, u"ada"_s), GrantVerdict::NotASupervisor);
}

TEST_F(GrantingTest, LetsNobodyGiveThemselvesMoreOnceSomebodySupervises)
{
    EXPECT_EQ(asked(Grant::Give, u"ada"_s, u"ada"_s), GrantVerdict::OwnOnes);
    EXPECT_EQ(asked(Grant::Give, u"boss"_s, u"boss"_s), GrantVerdict::OwnOnes);
    EXPECT_EQ(asked(Grant::Withdraw, u"boss"_s, u"boss"_s), GrantVerdict::Supervises)
        << "to lay down what one has widens nothing";
}

TEST_F(GrantingTest, LetsSomebodyAloneGiveThemselvesWhatTheyNeed)
{
    everybody = {ada};

    for (const Grant grant : {Grant::Give, Grant::Withdraw})
        EXPECT_EQ(asked(grant, u"ada"_s, u"ada"_s), GrantVerdict::NobodySupervises);
}

TEST_F(GrantingTest, CountsNobodyWhoDoesNotSuperviseToday)
{
    const Day past = 2026y / November / 24d;
    Holder retired = boss;
    retired.person.retiredOn = kToday;
    Holder withdrawn = boss;
    withdrawn.authorisations.front().withdrawnOn = kToday;
    Holder forNoModel = boss;
    forNoModel.authorisations.front().models.emplace();
    for (const Holder& none :
         {retired, withdrawn, forNoModel, holder(u"boss"_s, Role::Supervisor),
          holder(u"boss"_s, Role::Supervisor, {supervision(u"boss"_s, 2025y / May / 1d, past)}),
          holder(u"boss"_s, Role::Trainee, {supervision(u"boss"_s)}),
          holder(u"boss"_s, Role::Electrician, {supervision(u"boss"_s)})}) {
        everybody = {none, ada};
        EXPECT_EQ(asked(Grant::Give, u"ada"_s, u"ada"_s), GrantVerdict::NobodySupervises);
    }
}

TEST_F(GrantingTest, OnlyWhoeverSupervisesLetsAKeyBeMadeForSomebodyWhoHasNone)
{
    EXPECT_EQ(asked(Grant::Key, u"boss"_s, u"ben"_s), GrantVerdict::Supervises);
    EXPECT_EQ(asked(Grant::Key, u"ada"_s, u"ben"_s), GrantVerdict::NotASupervisor);
    EXPECT_EQ(asked(Grant::Key, u"ada"_s, u"boss"_s), GrantVerdict::NotASupervisor);
    EXPECT_EQ(asked(Grant::Key, u"boss"_s, u"boss"_s), GrantVerdict::OwnOnes)
        << "whose key was taken out of use does not make the next";

    everybody = {ada, ben};
    EXPECT_EQ(asked(Grant::Key, u"ada"_s, u"ben"_s), GrantVerdict::NobodySupervises);
}

// Somebody has to be able to go on, and what is given says by whom; what a key signs does not.
TEST_F(GrantingTest, WhoeverSupervisesWithoutAKeyCannotBeAskedYetNobodyMakesThatKeyForThem)
{
    everybody.front().hasKey = false;
    for (const Grant grant : {Grant::Give, Grant::Withdraw, Grant::Retire})
        EXPECT_EQ(asked(grant, u"ada"_s, u"ada"_s), GrantVerdict::NobodySupervises);
    EXPECT_EQ(asked(Grant::Key, u"ada"_s, u"boss"_s), GrantVerdict::NotASupervisor);

    everybody[1].authorisations.push_back(supervision(u"ada"_s));
    EXPECT_EQ(asked(Grant::Key, u"ada"_s, u"boss"_s), GrantVerdict::Supervises);
}

// Days are those of a clock that anybody can set: set far enough, it makes everybody's supervision run out.
TEST_F(GrantingTest, WhereSupervisionHasRunOutOnlyWhoeverHeldItGivesItAnew)
{
    Authorisation& held = everybody.front().authorisations.front();
    for (const auto& [from, until] : {std::pair(2025y / May / 1d, 2026y / November / 24d),
                                      std::pair(2026y / November / 26d, 2027y / May / 1d)}) {
        held.from = from;
        held.until = until;
        for (const Grant grant :
             {Grant::Supervision, Grant::Withdraw, Grant::Retire, Grant::Key, Grant::Vouch}) {
            EXPECT_EQ(asked(grant, u"ada"_s, u"ada"_s), GrantVerdict::OthersOnOtherDays);
            EXPECT_EQ(asked(grant, u"boss"_s, u"boss"_s), GrantVerdict::SupervisesOtherDays);
        }
        EXPECT_EQ(asked(Grant::Give, u"ada"_s, u"ben"_s), GrantVerdict::NobodySupervises)
            << "the work goes on";
    }
    held.withdrawnOn = 2025y / June / 1d;
    EXPECT_EQ(asked(Grant::Supervision, u"ada"_s, u"ada"_s), GrantVerdict::NobodySupervises);
}

TEST_F(GrantingTest, ForDaysOnWhichSomebodySupervisedNobodyElseGivesAnythingLater)
{
    EXPECT_EQ(firstDayToGive(PersonId(u"boss"_s), everybody, kToday), std::nullopt);

    everybody.front().authorisations.front().until = 2026y / November / 24d;
    EXPECT_EQ(firstDayToGive(PersonId(u"ada"_s), everybody, kToday), kToday);
    EXPECT_EQ(firstDayToGive(PersonId(u"boss"_s), everybody, kToday), std::nullopt);

    everybody = {ada, ben};
    EXPECT_EQ(firstDayToGive(PersonId(u"ada"_s), everybody, kToday), std::nullopt) << "an own laptop";
}

TEST_F(GrantingTest, WhoeverSupervisesNoMoreLocksNobodyOut)
{
    Authorisation& held = everybody.front().authorisations.front();
    held.until = 2026y / November / 24d;
    everybody.front().hasKey = false;
    EXPECT_EQ(asked(Grant::Supervision, u"ada"_s, u"ada"_s), GrantVerdict::NobodySupervises)
        << "without a key they cannot be asked";

    everybody.front().hasKey = true;
    everybody.front().person.retiredOn = 2026y / November / 20d;
    EXPECT_EQ(asked(Grant::Supervision, u"ada"_s, u"ada"_s), GrantVerdict::NobodySupervises);
}

TEST_F(GrantingTest, CountsSomebodyWhoSupervisesForSomeModelsOnly)
{
    everybody.front().authorisations.front().models = std::vector<ModelId>{ModelId(u"larkmoor-teal"_s)};

    EXPECT_EQ(asked(Grant::Give, u"ada"_s, u"ada"_s), GrantVerdict::OwnOnes);
    EXPECT_EQ(asked(Grant::Give, u"boss"_s, u"ada"_s), GrantVerdict::Supervises);
}

TEST_F(GrantingTest, CountsAnEngineerWhoMaySuperviseAsWell)
{
    everybody = {holder(u"ada"_s, Role::Engineer, {supervision(u"ada"_s)}), ben};

    EXPECT_EQ(asked(Grant::Give, u"ada"_s, u"ben"_s), GrantVerdict::Supervises);
    EXPECT_EQ(asked(Grant::Give, u"ben"_s, u"ben"_s), GrantVerdict::OwnOnes);
}

} // namespace
} // namespace coldarc::people
