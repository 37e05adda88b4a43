#include "core/people/authority.h"

#include "tests/support/testing.h"

// Every person, model and date here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;

const ModelId kModel(u"calder-2"_s);
const ModelId kOtherModel(u"fenwick-1"_s);

Person personOf(Role role, const QString& id = u"p-1"_s)
{
    return {PersonId(id), u"Ada Invented"_s, role, {}, {}, {}};
}

Authorisation swapOn(std::optional<std::vector<ModelId>> models, const QString& person = u"p-1"_s)
{
    return {AuthorisationId(u"a-1"_s),
            PersonId(person),
            Duty::LampSwap,
            std::move(models),
            Day(2026y / March / 1d),
            Day(2026y / September / 30d),
            PersonId(u"boss"_s),
            {}};
}

Authority judged(const Authorisation& authorisation, Day day, Role role = Role::Engineer)
{
    return authorityOf(personOf(role), {authorisation}, Duty::LampSwap, kModel, day);
}

struct DayCase {
    const char* name;
    Day day;
    Authority::Verdict expected;
    friend void PrintTo(const DayCase& c, std::ostream* out) { *out << c.name; }
};

class AuthorityDaysTest : public ::testing::TestWithParam<DayCase> {};

TEST_P(AuthorityDaysTest, HoldsFromItsFirstToItsLastDay)
{
    EXPECT_EQ(judged(swapOn(std::nullopt), GetParam().day).verdict, GetParam().expected);
}

INSTANTIATE_TEST_SUITE_P(
    AroundTheEdges, AuthorityDaysTest,
    ::testing::Values(DayCase{"TheDayBefore", 2026y / February / 28d, Authority::Verdict::NotYet},
                      DayCase{"TheFirstDay", 2026y / March / 1d, Authority::Verdict::Valid},
                      DayCase{"TheLastDay", 2026y / September / 30d, Authority::Verdict::Valid},
                      DayCase{"TheDayAfter", 2026y / October / 1d, Authority::Verdict::Expired},
                      DayCase{"NoSuchDay", 2026y / April / 31d, Authority::Verdict::Expired}),
    [](const auto& instance) { return std::string(instance.param.name); });

const Day kToday = 2026y / May / 4d;

TEST(AuthorityTest, NamesTheLastDayOnWhichItHolds)
{
    EXPECT_EQ(judged(swapOn(std::nullopt), kToday).until, Day(2026y / September / 30d));
}

TEST(AuthorityTest, HoldsForTheNamedModelsOnly)
{
    EXPECT_EQ(judged(swapOn({{kModel}}), kToday).verdict, Authority::Verdict::Valid);
    EXPECT_EQ(judged(swapOn({{kOtherModel}}), kToday).verdict, Authority::Verdict::OtherModel);
    EXPECT_EQ(judged(swapOn(std::vector<ModelId>()), kToday).verdict, Authority::Verdict::OtherModel);
}

TEST(AuthorityTest, GivesNothingWithoutAnAuthorisationForThisDuty)
{
    const Person engineer = personOf(Role::Engineer);

    EXPECT_EQ(authorityOf(engineer, {}, Duty::LampSwap, kModel, kToday).verdict, Authority::Verdict::None);
    EXPECT_EQ(authorityOf(engineer, {swapOn(std::nullopt)}, Duty::ProveAbsence, kModel, kToday).verdict,
              Authority::Verdict::None);
}

TEST(AuthorityTest, IsNotBorrowedFromSomebodyElse)
{
    EXPECT_EQ(judged(swapOn(std::nullopt, u"p-2"_s), kToday).verdict, Authority::Verdict::None);
}

TEST(AuthorityTest, EndsOnTheDayOfItsWithdrawal)
{
    Authorisation withdrawn = swapOn(std::nullopt);
    withdrawn.withdrawnOn = kToday;

    EXPECT_EQ(judged(withdrawn, kToday).verdict, Authority::Verdict::Withdrawn);
    EXPECT_EQ(judged(withdrawn, 2026y / May / 3d).verdict, Authority::Verdict::Valid);
    EXPECT_EQ(judged(withdrawn, 2026y / May / 3d).until, Day(2026y / May / 3d));
}

TEST(AuthorityTest, EndsWhenThePersonIsRetired)
{
    Person engineer = personOf(Role::Engineer);
    engineer.retiredOn = kToday;

    EXPECT_EQ(authorityOf(engineer, {swapOn(std::nullopt)}, Duty::LampSwap, kModel, kToday).verdict,
              Authority::Verdict::Retired);
}

TEST(AuthorityTest, TakesTheLongestOfSeveralAndKeepsTheReasonsOfTheRest)
{
    Authorisation old = swapOn(std::nullopt);
    old.id = AuthorisationId(u"a-old"_s);
    old.until = 2026y / May / 1d;
    Authorisation longer = swapOn({{kModel}});
    longer.until = 2027y / January / 31d;

    const auto authority = authorityOf(personOf(Role::Engineer), {old, swapOn(std::nullopt), longer},
                                       Duty::LampSwap, kModel, kToday);

    EXPECT_EQ(authority.verdict, Authority::Verdict::Valid);
    EXPECT_EQ(authority.until, Day(2027y / January / 31d));
    ASSERT_EQ(authority.reasons.size(), 1u);
    EXPECT_EQ(authority.reasons[0], (Authority::Reason{old.id, Shortfall::Expired}));
}

TEST(AuthorityTest, NamesTheNearestOfSeveralThatDoNotHold)
{
    Authorisation later = swapOn(std::nullopt);
    later.from = 2026y / June / 1d;

    const auto authority = authorityOf(personOf(Role::Engineer), {later, swapOn({{kOtherModel}})},
                                       Duty::LampSwap, kModel, kToday);

    EXPECT_EQ(authority.verdict, Authority::Verdict::NotYet);
    EXPECT_EQ(authority.reasons.size(), 2u);
}

TEST(AuthorityTest, LetsATraineeWorkUnderSupervisionOnly)
{
    EXPECT_EQ(judged(swapOn(std::nullopt), kToday, Role::Trainee).verdict,
              Authority::Verdict::UnderSupervision);
    EXPECT_EQ(judged(swapOn({{kOtherModel}}), kToday, Role::Trainee).verdict, Authority::Verdict::OtherModel);
}

TEST(AuthorityTest, NeverLetsATraineeSupervise)
{
    Authorisation supervise = swapOn(std::nullopt);
    supervise.duty = Duty::Supervise;

    EXPECT_EQ(authorityOf(personOf(Role::Trainee), {supervise}, Duty::Supervise, kModel, kToday).verdict,
              Authority::Verdict::RoleNever);
}

TEST(AuthorityTest, NeverLetsAnElectricianSwapLampsOrSuperviseWhateverTheyHold)
{
    const Person electrician = personOf(Role::Electrician);
    Authorisation supervise = swapOn(std::nullopt);
    supervise.duty = Duty::Supervise;
    const std::vector<Authorisation> held{swapOn(std::nullopt), supervise};

    for (const Duty duty : {Duty::LampSwap, Duty::Supervise}) {
        EXPECT_EQ(authorityOf(electrician, held, duty, kModel, kToday).verdict,
                  Authority::Verdict::RoleNever);
    }
}

TEST(AuthorityTest, LetsAnElectricianProveAbsenceOnlyByAnAuthorisationOfTheirOwn)
{
    const Person electrician = personOf(Role::Electrician);
    Authorisation prove = swapOn(std::nullopt);
    prove.duty = Duty::ProveAbsence;

    EXPECT_EQ(authorityOf(electrician, {prove}, Duty::ProveAbsence, kModel, kToday).verdict,
              Authority::Verdict::Valid);
    EXPECT_EQ(authorityOf(electrician, {}, Duty::ProveAbsence, kModel, kToday).verdict,
              Authority::Verdict::None);
}

TEST(WordsTest, LeadBackToTheSameRoleAndDuty)
{
    for (int index = 0; index < kRoles; ++index)
        EXPECT_EQ(roleFromWord(wordOf(static_cast<Role>(index))), static_cast<Role>(index));
    for (int index = 0; index < kDuties; ++index)
        EXPECT_EQ(dutyFromWord(wordOf(static_cast<Duty>(index))), static_cast<Duty>(index));
    EXPECT_EQ(roleFromWord("Engineer"), std::nullopt);
    EXPECT_EQ(wordOf(Duty::ProveAbsence), "prove-absence");
}

TEST(CalendarTest, ReadsWhatItWrites)
{
    EXPECT_EQ(isoText(Day(2026y / March / 1d)), u"2026-03-01"_s);
    EXPECT_EQ(isoText(2026y / November), u"2026-11"_s);
    EXPECT_EQ(dayFromIso(u"2028-02-29"_s), Day(2028y / February / 29d));
    EXPECT_EQ(monthFromIso(u"2026-11"_s), Month(2026y / November));
}

TEST(CalendarTest, RefusesWhatIsNoDay)
{
    for (const QString& text : {u"2026-02-29"_s, u"2026-2-01"_s, u"2026-13-01"_s, u"26-01-01"_s,
                                u"2026/01/01"_s, u"2026-01-01 "_s, u"+026-01-01"_s, u""_s})
        EXPECT_EQ(dayFromIso(text), std::nullopt) << text.toStdString();
    EXPECT_EQ(monthFromIso(u"2026-00"_s), std::nullopt);
}

} // namespace
} // namespace coldarc::people
