#include "app/workspace.h"

#include "core/review/queue_store.h"
#include "core/review/summary.h"
#include "core/store/workspace_file.h"
#include "tests/app/signed_night.h"
#include "tests/core/visit/night.h"
#include "tests/support/testing.h"

#include <QTemporaryDir>

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;

// What it says of lamps and sites is for the workspace that it comes from.
TEST(ReceivedVisitTest, IsNotWorkedOnAndMovesNoLampHere)
{
    test::Night night;
    night.doAll();
    const VisitId visit = night.opening().visit;
    Workspace workspace(store::Database::inMemory());
    for (qsizetype index = 0; index < night.entries.size(); ++index)
        ASSERT_TRUE(
            workspace.journal.append(visit, store::Sequence(index), visit::bytesOf(night.entries[index])));
    ASSERT_TRUE(workspace.summaries.rebuild(visit::summarise));
    ASSERT_EQ(JournalShelf(workspace, night.clock).all()->size(), 1);
    ASSERT_TRUE(workspace.people.add({night.ada(), u"A. Okoro"_s, people::Role::Engineer, {}, {}, {}}));
    ASSERT_TRUE(workspace.database.run(
        u"INSERT INTO received_visit(visit_id, received_at_ms, received_by) VALUES(:visit, 0, :by)"_s,
        {{u":visit"_s, visit.text()}, {u":by"_s, night.ada().text()}}));

    workspace.settleAll(night.clock.now().wall);

    EXPECT_TRUE(JournalShelf(workspace, night.clock).all()->isEmpty());
    EXPECT_FALSE(*workspace.settlements.isSettled(visit));
    EXPECT_TRUE(workspace.leftovers(visit).isEmpty());
}

TEST(OlderWorkspaceTest, ItsListsNameTheScreensOnceItIsCaughtUpWith)
{
    test::Night night;
    night.doAll();
    const VisitId visit = night.opening().visit;
    const QTemporaryDir folder;
    const QString file = folder.filePath(u"work.coldarc"_s);
    const store::NewWorkspace fresh{u"workspace-1"_s, night.clock.now().wall};
    std::vector<store::SchemaStep> steps = store::Schema::shipped().steps();
    std::erase_if(steps, [](const store::SchemaStep& step) { return step.number > 17; });
    {
        store::OpenAnswer made = store::openWorkspace(file, fresh, store::Schema(steps));
        ASSERT_TRUE(made.database) << made.detail.toStdString();
        store::Journal journal(*made.database);
        for (qsizetype index = 0; index < night.entries.size(); ++index)
            ASSERT_TRUE(journal.append(visit, store::Sequence(index), visit::bytesOf(night.entries[index])));
        ASSERT_TRUE(made.database->run(
            u"INSERT INTO visit_summary(visit_id, site_id, site_text, opened_at_ms, state, swaps, "
            u"exceptions, "
            "engineer_text, head_seq, head_hash, is_signed) "
            "VALUES(:visit, 'site-1', 'Invented Hall', 0, 'open', 1, 0, 'A. Okoro', 0, zeroblob(32), 0)"_s,
            {{u":visit"_s, visit.text()}}));
    }
    store::OpenAnswer opened = store::openWorkspace(file, fresh);
    ASSERT_EQ(opened.outcome, store::Opening::Upgraded) << opened.detail.toStdString();
    Workspace workspace(std::move(*opened.database));
    ASSERT_EQ(workspace.summaries.of(visit)->siteText, u"Invented Hall"_s) << "opening waits for none of it";

    EXPECT_EQ(workspace.catchUp(), true);

    const site::SiteDocument& site = night.opening().site;
    EXPECT_EQ(workspace.summaries.of(visit)->siteText,
              u"%1, %2"_s.arg(site.site.name, site.screens.front().name));
    EXPECT_EQ(workspace.catchUp(), false);
}

class CaughtUpTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        night.doAll();
        night.close();
    }
    void catchUp()
    {
        while (*workspace.catchUp()) {
        }
    }
    [[nodiscard]] QStringList kindsOf(const VisitId& visit) const
    {
        return workspace.summaries.of(visit)->kinds;
    }
    [[nodiscard]] QList<VisitId> queue(const review::QueueFilter& filter = {})
    {
        QList<VisitId> visits;
        const auto page =
            review::QueueStore(workspace.database).page(filter, review::QueueOrder::Weight, 0, 9);
        for (const store::VisitSummary& one : page->lines)
            visits.append(one.visit);
        return visits;
    }

    test::Night night;
    Workspace workspace{store::Database::inMemory(store::Schema::shipped())};
};

TEST_F(CaughtUpTest, AVisitWithWorkThatNobodySignedStandsBeforeAPlainOneInTheQueue)
{
    const VisitId plain(u"a"_s); // before the other one by its id
    const VisitId bare(u"b"_s);
    test::keepEntries(night, workspace.database, bare);
    test::keepSignatures(night, test::keepEntries(night, workspace.database, plain), workspace.database,
                         plain);
    catchUp();

    EXPECT_EQ(queue(), (QList{bare, plain}));
    review::QueueFilter filter;
    filter.kind = review::Exception::Kind::WorkUnsigned;
    EXPECT_EQ(queue(filter), QList{bare});
}

TEST_F(CaughtUpTest, WhatItsSignaturesTellComesIntoTheQueueWhenTheyDo)
{
    const VisitId visit(u"a"_s);
    const QString isUnsigned = review::wordOf(review::Exception::Kind::WorkUnsigned);
    const auto heads = test::keepEntries(night, workspace.database, visit);
    catchUp();
    ASSERT_TRUE(kindsOf(visit).contains(isUnsigned));

    test::keepSignatures(night, heads, workspace.database, visit);
    catchUp();
    EXPECT_FALSE(kindsOf(visit).contains(isUnsigned));

    const people::SigningKey office = test::keyOf(4);
    const Stamp now = night.clock.now();
    ASSERT_TRUE(workspace.people.add({night.ada(), u"A. Okoro"_s, people::Role::Engineer, {}, {}, {}}));
    ASSERT_TRUE(workspace.offices.takeUp(office.publicKey(), u"Invented Office"_s, night.ada(), now));
    const people::Day longAgo = people::utcDayOf(night.entries.front().at.wall - std::chrono::days(9));
    ASSERT_TRUE(workspace.offices.keep(
        *people::retire({test::keyOf(7).publicKey(), longAgo, now.wall}, office), now));
    catchUp();
    EXPECT_TRUE(kindsOf(visit).contains(isUnsigned)) << "the key was out of use: it signed nothing";

    ASSERT_TRUE(workspace.offices.drop(office.publicKey(), now));
    catchUp();
    EXPECT_FALSE(kindsOf(visit).contains(isUnsigned));
}

// Whoever signed is somebody else then: by what an office says, or by the list of this workspace.
TEST_F(CaughtUpTest, WhatIsLearntOfAKeyComesIntoTheQueueOfWhatItSigned)
{
    const QString isBad = review::wordOf(review::Exception::Kind::SignatureBad);
    const people::SigningKey office = test::keyOf(4);
    const Stamp now = night.clock.now();
    const PersonId tom(u"tom"_s);
    for (const bool byOffice : {true, false}) {
        Workspace fresh{store::Database::inMemory(store::Schema::shipped())};
        const VisitId visit(u"a"_s);
        test::keepSignatures(night, test::keepEntries(night, fresh.database, visit), fresh.database, visit);
        const auto isToldBad = [&] {
            while (*fresh.catchUp()) {
            }
            return fresh.summaries.of(visit)->kinds.contains(isBad);
        };
        ASSERT_TRUE(fresh.people.add({tom, u"T. Wren"_s, people::Role::Trainee, {}, {}, {}}));
        ASSERT_TRUE(fresh.offices.takeUp(office.publicKey(), u"Invented Office"_s, tom, now));
        ASSERT_FALSE(isToldBad());

        if (byOffice) {
            const people::Day day = people::utcDayOf(now.wall);
            ASSERT_TRUE(fresh.offices.keep(*people::certify({test::keyOf(7).publicKey(), tom, u"T. Wren"_s,
                                                             people::Role::Trainee, day, day, now.wall},
                                                            office),
                                           now));
        } else {
            const auto sealed = people::sealKey(
                test::keyOf(7), tom, *people::Passphrase::accept(u"nine herons over Pier Street"_s), {1, 8});
            ASSERT_TRUE(fresh.keys.enrol(tom, *sealed, now));
        }
        EXPECT_TRUE(isToldBad()) << byOffice;
    }
}

// The entry is safe, its line in the lists was refused by the disk.
TEST_F(CaughtUpTest, AVisitWhoseClosingIsKeptAndWhoseLineIsNotStandsOnTheDeskAfterTheNextStart)
{
    const VisitId visit = night.opening().visit;
    ASSERT_TRUE(workspace.database.run(u"CREATE TRIGGER no_line BEFORE UPDATE ON visit_summary "
                                       "WHEN NEW.state = 'done' BEGIN SELECT RAISE(ABORT, 'full'); END"_s));
    auto logbook = visit::Logbook::begin(workspace.journal, workspace.summaries, night.ada(), night.opening(),
                                         night.entries.front().at, review::summaryOf);
    ASSERT_TRUE(logbook);
    for (const visit::Entry& entry : night.entries.mid(1))
        ASSERT_TRUE(logbook->tell(entry.by, entry.body, entry.at));
    ASSERT_EQ(logbook->state().end, u"done"_s);
    ASSERT_EQ(workspace.summaries.of(visit)->state, u"open"_s);
    ASSERT_TRUE(workspace.database.run(u"DROP TRIGGER no_line"_s));

    catchUp();

    EXPECT_EQ(queue(), QList{visit});
}

TEST(SupervisingTest, BeginsEastOfGreenwichWithTheDayOnTheWall)
{
    Workspace workspace(store::Database::inMemory());
    const people::Person sue{PersonId(u"sue"_s), u"S. Marlow"_s, people::Role::Supervisor, {}, {}, {}};
    ASSERT_TRUE(workspace.people.add(sue));
    const people::Day first = *people::dayFromIso(u"2026-11-26"_s);
    ASSERT_TRUE(workspace.people.give(
        {people::AuthorisationId(u"a-1"_s), sue.id, people::Duty::Supervise, {}, first, first, sue.id, {}}));
    const WallTime eleven = *wallFromIso(u"2026-11-25T23:00:00.000Z"_s);

    EXPECT_FALSE(workspace.maySupervise(sue, eleven, QTimeZone::utc()));
    EXPECT_TRUE(workspace.maySupervise(sue, eleven, QTimeZone(2 * 3600)));
}

// What a thread folded while the window came up is used as long as it is true.
TEST(FoldedBehindTest, IsTheStateOfTheLogbookUntilAnEntryIsAdded)
{
    test::Night night;
    night.doUntil(u"unbox-new"_s);
    const VisitId visit = night.opening().visit;
    const qsizetype count = night.entries.size();
    ASSERT_GE(count, 2);
    const QTemporaryDir folder;
    store::OpenAnswer opened =
        store::openWorkspace(folder.filePath(u"work.coldarc"_s), {u"workspace-1"_s, night.clock.now().wall});
    ASSERT_TRUE(opened.database);
    Workspace workspace(std::move(*opened.database));
    const auto append = [&](qsizetype index) {
        return workspace.journal.append(visit, store::Sequence(index), visit::bytesOf(night.entries[index]));
    };
    for (qsizetype index = 0; index + 1 < count; ++index)
        ASSERT_TRUE(append(index));

    workspace.foldBehind();

    const auto before = workspace.stateOf(visit);
    ASSERT_TRUE(before) << before.error().detail.toStdString();
    EXPECT_EQ(before->entries, count - 1);
    ASSERT_TRUE(append(count - 1));
    EXPECT_EQ(workspace.stateOf(visit)->entries, count);
}

} // namespace
} // namespace coldarc::app
