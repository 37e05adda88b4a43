#include "core/lamps/taught_rule_store.h"

#include "core/people/people_store.h"
#include "core/store/journal.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

namespace coldarc::lamps {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;
using catalogue::LabelForm;

constexpr people::Day kToday = 2026y / November / 25d;

// All persons, types and codes are invented.
class TaughtRuleStoreTest : public ::testing::Test {
protected:
    TaughtRuleStoreTest()
    {
        people::PeopleStore people(database);
        for (const people::Holder& one : {boss, ada})
            EXPECT_TRUE(people.add(one.person));
    }
    static people::Holder holder(const QString& id, people::Role role)
    {
        people::Holder one;
        one.person.id = PersonId(id);
        one.person.name = id;
        one.person.role = role;
        return one;
    }
    people::Holder supervisor()
    {
        people::Holder one = holder(u"boss"_s, people::Role::Supervisor);
        one.authorisations = {{people::AuthorisationId(u"a"_s), one.person.id, people::Duty::Supervise,
                               std::nullopt, 2026y / January / 1d, 2026y / December / 31d, one.person.id,
                               std::nullopt}};
        return one;
    }
    [[nodiscard]] TaughtRule rule(const QString& id) const
    {
        return {TaughtRuleId(id),
                {LampTypeId(u"hollin-30b"_s),
                 {LabelForm::Plain, {}, {}, u"ORDER {type}/{serial}"_s, {}},
                 u"77120"_s,
                 u"]C0ORDER 77120/00417"_s},
                PersonId(u"boss"_s),
                clock.now().wall};
    }

    /// The lesson that makes that rule.
    static label::Lesson lesson()
    {
        return {u"]C0ORDER 77120/00417"_s, u"77120"_s, u"00417"_s, LampTypeId(u"hollin-30b"_s)};
    }
    static QList<catalogue::LampType> types()
    {
        catalogue::LampType b;
        b.id = LampTypeId(u"hollin-30b"_s);
        b.code = u"HVQ30-40B"_s;
        return {b};
    }
    Result<TeachingAnswer> teach(const QString& id, const people::Holder& by, people::Day today = kToday)
    {
        return store.teach(TaughtRuleId(id), lesson(), types(), by, today, clock.now().wall);
    }

    store::Database database = store::Database::inMemory();
    TaughtRuleStore store{database};
    test::FakeClock clock;
    people::Holder boss = supervisor();
    people::Holder ada = holder(u"ada"_s, people::Role::Engineer);
};

TEST_F(TaughtRuleStoreTest, KeepsARuleWithWhoTaughtItAndWhen)
{
    ASSERT_EQ(teach(u"r1"_s, boss), TeachingAnswer(RuleKept{}));

    EXPECT_EQ(store.all().value(), std::vector{rule(u"r1"_s)});
    EXPECT_EQ(store.standing().value(), QList{rule(u"r1"_s).teaching});
    EXPECT_EQ(teach(u"r1"_s, boss).error().kind, Error::Kind::Conflict);
}

TEST_F(TaughtRuleStoreTest, AnEngineerTeachesNothingNorDoesWhoeverSupervisedLastYear)
{
    EXPECT_EQ(teach(u"r1"_s, ada), TeachingAnswer(NotASupervisor{}));
    EXPECT_EQ(teach(u"r1"_s, boss, 2027y / January / 1d), TeachingAnswer(NotASupervisor{}));
    EXPECT_TRUE(store.all()->empty());
}

TEST_F(TaughtRuleStoreTest, ALessonThatMakesNoRuleIsNotKeptWhoeverGivesIt)
{
    const auto answer =
        store.teach(TaughtRuleId(u"r1"_s), {u"]C0ORDER 77120/00417"_s, {}, {}, LampTypeId(u"nobody's"_s)},
                    types(), boss, kToday, clock.now().wall);

    EXPECT_EQ(answer, TeachingAnswer(LessonNotTaken{
                          {label::TeachFault::NothingMarked, label::TeachFault::UnknownLampType}}));
    EXPECT_TRUE(store.all()->empty());
}

TEST_F(TaughtRuleStoreTest, ALessonIsHeldAgainstTheCodesOnRecordAsTheyAreNow)
{
    QList<catalogue::LampType> types = this->types();
    types.first().packageCodes = {u"55000"_s};
    types.first().labels = {{LabelForm::Plain, {}, {}, u"ART {type}/{serial}"_s, {}}};
    catalogue::LampType a = types.first();
    a.id = LampTypeId(u"hollin-30a"_s);
    a.code = u"HVQ30-40A"_s;
    a.packageCodes = {u"66000"_s};
    types.append(a);
    const label::Lesson lesson{u"]C0LOT 4711-X9/00417"_s, u"4711-X9"_s, u"00417"_s,
                               LampTypeId(u"hollin-30b"_s)};
    const auto known = [&](const QString& bytes) {
        ASSERT_TRUE(store::Journal(database).append(VisitId(u"v"_s), store::Sequence(0), bytes.toUtf8()));
    };
    // Of the other type, with what was marked in it as its serial: the lot, then, and no type.
    known(uR"({"what":{"scanned":["]C0ART 66000/4711-X9"]}})"_s);

    const auto answer = store.teach(TaughtRuleId(u"r1"_s), lesson, types, boss, kToday, clock.now().wall);

    ASSERT_TRUE(answer);
    ASSERT_TRUE(std::holds_alternative<LessonNotTaken>(*answer));
    EXPECT_EQ(std::get<LessonNotTaken>(*answer).faults, QList{label::TeachFault::SameOnAnother});
}

TEST_F(TaughtRuleStoreTest, AWrongRuleIsWithdrawnByASupervisorAndStaysOnRecord)
{
    ASSERT_TRUE(teach(u"r1"_s, boss));

    EXPECT_EQ(store.withdraw(TaughtRuleId(u"r1"_s), ada, kToday, clock.now().wall),
              TeachingAnswer(NotASupervisor{}));
    EXPECT_EQ(store.standing()->size(), 1);
    EXPECT_EQ(store.withdraw(TaughtRuleId(u"r1"_s), boss, kToday, clock.now().wall),
              TeachingAnswer(RuleKept{}));

    EXPECT_TRUE(store.standing()->isEmpty());
    ASSERT_EQ(store.all()->size(), 1u);
    EXPECT_EQ(store.all()->front().withdrawn,
              (TaughtRule::Withdrawal{PersonId(u"boss"_s), clock.now().wall}));
    EXPECT_EQ(store.withdraw(TaughtRuleId(u"r1"_s), boss, kToday, clock.now().wall).error().kind,
              Error::Kind::Conflict);
    EXPECT_EQ(store.withdraw(TaughtRuleId(u"none"_s), boss, kToday, clock.now().wall).error().kind,
              Error::Kind::Conflict);
}

TEST_F(TaughtRuleStoreTest, WhatWasTaughtIsNeitherChangedNorRemoved)
{
    ASSERT_TRUE(teach(u"r1"_s, boss));
    ASSERT_TRUE(store.withdraw(TaughtRuleId(u"r1"_s), boss, kToday, clock.now().wall));
    ASSERT_TRUE(database.run(u"PRAGMA recursive_triggers = OFF"_s));

    for (const QString& sql : {u"UPDATE taught_rule SET package_code = ''"_s, u"DELETE FROM taught_rule"_s,
                               u"INSERT OR REPLACE INTO taught_rule SELECT * FROM taught_rule"_s,
                               u"UPDATE taught_rule_withdrawal SET withdrawn_at_ms = 0"_s,
                               u"DELETE FROM taught_rule_withdrawal"_s})
        EXPECT_FALSE(database.run(sql)) << sql.toStdString();
}

TEST_F(TaughtRuleStoreTest, RemembersEachCodeThatNobodyCouldReadOnceNewestFirst)
{
    ASSERT_TRUE(store.couldNotRead(u"]C0HELLO"_s, clock.now().wall));
    clock.advance(1min);
    ASSERT_TRUE(store.couldNotRead(u"]d2AB\u001DCD"_s, clock.now().wall));
    clock.advance(1min);
    ASSERT_TRUE(store.couldNotRead(u"]C0HELLO"_s, clock.now().wall));

    EXPECT_EQ(store.unread(9).value(), (QStringList{u"]d2AB\u001DCD"_s, u"]C0HELLO"_s}));
    EXPECT_EQ(store.unread(1).value(), QStringList{u"]d2AB\u001DCD"_s});
}

TEST_F(TaughtRuleStoreTest, FindsTheCodesOfLogbooksOnceNewestFirst)
{
    store::Journal journal(database);
    const VisitId visit(u"visit"_s);
    const auto append = [&](qint64 at, const QByteArray& bytes) {
        ASSERT_TRUE(journal.append(visit, store::Sequence(at), bytes));
    };
    append(0, R"({"what":{"scanned":["]C0ONE","]C0TWO"]}})");
    append(1, R"({"what":{"text":"\"scanned\":[\"]C0NO\"]"}})");
    append(2, R"({"what":{"scanned":["]C0THREE","]C0ONE"]}})");

    EXPECT_EQ(store.onRecord(9).value(), (QStringList{u"]C0THREE"_s, u"]C0ONE"_s, u"]C0TWO"_s}));
    EXPECT_EQ(store.onRecord(1).value(), (QStringList{u"]C0THREE"_s, u"]C0ONE"_s}));
}

} // namespace
} // namespace coldarc::lamps
