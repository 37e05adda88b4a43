#include "app/workspace.h"

#include "tests/core/visit/night.h"
#include "tests/support/testing.h"

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

} // namespace
} // namespace coldarc::app
