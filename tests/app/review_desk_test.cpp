// The review desk in the whole workbench: a supervisor's night on the demo.

#include "app/review_reading.h"
#include "app/review_room.h"
#include "app/visit_room.h"
#include "core/review/summary.h"
#include "tests/app/workbench_fixture.h"
#include "ui/parts/action_button.h"
#include "ui/parts/text_label.h"

#include <QApplication>
#include <QPlainTextEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QTest>

#include <algorithm>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::app {
namespace {

using ReviewDeskTest = WorkbenchTest;

TEST_F(ReviewDeskTest, TheReviewDeskIsForWhoeverMaySupervise)
{
    openDemoAs(u"duarte"_s);
    hand.key(Qt::Key_8, Qt::ControlModifier);

    ASSERT_EQ(bench->shell().view().here, u"review"_s);
    auto* count = hand.find<ui::TextLabel>(u"count"_s);
    ASSERT_TRUE(count);
    EXPECT_TRUE(count->text().contains(u"visits wait"_s)) << count->text().toStdString();
    EXPECT_FALSE(hand.find<ui::TextLabel>(u"title"_s)->text().isEmpty());
}

TEST_F(ReviewDeskTest, AVisitIsAcceptedWithOnePressAndThePaperIsKept)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    ReviewRoom* room = bench->reviewRoom();
    ASSERT_TRUE(room);
    const VisitId visit = room->presenter().visit();
    const qint64 before = room->presenter().queue().all();

    hand.key(Qt::Key_A);

    const auto kept = bench->workspace().reviews.of(visit);
    ASSERT_TRUE(kept);
    ASSERT_EQ(kept->whole.size(), 1U);
    const record::KeptReview& one = kept->whole.front();
    EXPECT_EQ(one.review.verdict, record::Verdict::Accepted);
    EXPECT_EQ(one.review.by, PersonId(u"duarte"_s));
    EXPECT_TRUE(record::isSignedBy(one.key, one.paper));
    EXPECT_EQ(bench->workspace().keys.ownerOf(one.key)->person, PersonId(u"duarte"_s));
    EXPECT_EQ(bench->workspace().summaries.of(visit)->review, u"accepted"_s);
    EXPECT_EQ(room->presenter().queue().all(), before - 1);
    EXPECT_NE(room->presenter().visit(), visit) << "the next one is up";
}

TEST_F(ReviewDeskTest, TheDeskIsWorkedByKeyboardAlone)
{
    openDemoAs(u"duarte"_s);
    const auto focus = [] { return QApplication::focusWidget()->objectName(); };
    const auto key = [this](Qt::Key one, Qt::KeyboardModifiers with = Qt::NoModifier) {
        QTest::keyClick(QApplication::focusWidget(), one, with);
        hand.settle();
    };
    key(Qt::Key_8, Qt::ControlModifier);
    ReviewRoom& room = *bench->reviewRoom();
    ASSERT_EQ(focus(), u"queue"_s) << "whoever goes to the desk is on it";
    const VisitId first = room.presenter().visit();

    key(Qt::Key_Down);
    EXPECT_NE(room.presenter().visit(), first);
    key(Qt::Key_B);
    EXPECT_EQ(room.presenter().visit(), first);
    EXPECT_EQ(focus(), u"queue"_s);
    key(Qt::Key_T);
    key(Qt::Key_Home);
    key(Qt::Key_Right);
    EXPECT_EQ(room.presenter().moment().entry, 1);
    key(Qt::Key_R);
    QTest::keyClicks(QApplication::focusWidget(), u"Who was told?"_s);
    key(Qt::Key_Return, Qt::ControlModifier);
    EXPECT_EQ(room.verdict().view().remarks.size(), 1);
    EXPECT_EQ(focus(), u"timeLine"_s);
    key(Qt::Key_S);
    QTest::keyClicks(QApplication::focusWidget(), u"Read it again"_s);
    key(Qt::Key_Return, Qt::ControlModifier);
    EXPECT_EQ(bench->workspace().summaries.of(first)->review, u"sent-back"_s);
    EXPECT_EQ(focus(), u"timeLine"_s);

    const VisitId second = room.presenter().visit();
    ASSERT_NE(second, first);
    key(Qt::Key_End);
    EXPECT_EQ(room.presenter().moment().entry, room.presenter().reading()->report.entries.size() - 1);
    key(Qt::Key_F);
    EXPECT_EQ(room.presenter().visit(), second);
    key(Qt::Key_Escape);
    EXPECT_EQ(focus(), u"queue"_s);
    key(Qt::Key_A);
    EXPECT_EQ(bench->workspace().summaries.of(second)->review, u"accepted"_s);
    EXPECT_EQ(focus(), u"queue"_s);

    key(Qt::Key_1, Qt::ControlModifier);
    key(Qt::Key_8, Qt::ControlModifier);
    EXPECT_EQ(focus(), u"queue"_s);
}

TEST_F(ReviewDeskTest, AVisitThatWasLookedUpIsStillOnTheDeskAfterALookElsewhere)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    ui::ReviewPresenter& presenter = bench->reviewRoom()->presenter();
    const VisitId accepted = presenter.visit();
    hand.key(Qt::Key_A);
    ASSERT_NE(presenter.visit(), accepted);

    presenter.showAt(accepted, 4);
    hand.key(Qt::Key_1, Qt::ControlModifier);
    hand.key(Qt::Key_8, Qt::ControlModifier);

    EXPECT_EQ(presenter.visit(), accepted);
    EXPECT_EQ(presenter.moment().entry, 4);
    look(u"review-looked-up"_s);
}

TEST_F(ReviewDeskTest, AnAcceptanceByAKeyThatWasOutOfUseByThenComesBackIntoTheQueue)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    const VisitId visit = bench->reviewRoom()->presenter().visit();
    hand.key(Qt::Key_A);
    Workspace& workspace = bench->workspace();
    const people::PublicKey key = workspace.reviews.of(visit)->whole.front().key;
    const auto office = people::SigningKey::generate();
    const people::Day today = people::utcDayOf(clock.now().wall);
    ASSERT_TRUE(workspace.offices.takeUp(office.publicKey(), u"Invented Office"_s, PersonId(u"duarte"_s),
                                         clock.now()));
    ASSERT_TRUE(workspace.offices.keep(*people::retire({key, today, clock.now().wall}, office), clock.now()));

    hand.press(u"place-visits"_s);
    EXPECT_EQ(workspace.summaries.of(visit)->review, u"waiting"_s);
    hand.press(u"place-review"_s);
    bench->reviewRoom()->presenter().showAt(visit, 0);
    hand.settle();
    EXPECT_GE(bench->reviewRoom()->presenter().queueView().current, 0) << "it waits in the queue";
    look(u"review-out-of-use"_s);
}

TEST_F(ReviewDeskTest, ASignatureByAKeyThatWasOutOfUseByThenDoesNotCountOnTheDesk)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    const VisitId visit = bench->reviewRoom()->presenter().visit();
    Workspace& workspace = bench->workspace();
    const auto signatures = [&] { return readForReview(workspace.database, visit).value()->signatures; };
    const QList<review::HeadSigned> before = signatures();
    ASSERT_TRUE(std::ranges::all_of(before, &review::HeadSigned::counts));
    const auto kept = workspace.journal.signatures(visit);
    const auto key = people::PublicKey::fromBytes(kept->front().publicKey);
    const auto office = people::SigningKey::generate();
    ASSERT_TRUE(workspace.offices.takeUp(office.publicKey(), u"Invented Office"_s, PersonId(u"duarte"_s),
                                         clock.now()));
    const auto retire = [&](people::Day since) {
        return workspace.offices.keep(*people::retire({*key, since, clock.now().wall}, office), clock.now());
    };

    ASSERT_TRUE(retire(people::utcDayOf(before.last().at + 48h)));
    EXPECT_TRUE(std::ranges::all_of(signatures(), &review::HeadSigned::counts)) << "it signed before that";
    ASSERT_TRUE(retire(people::utcDayOf(before.first().at)));
    EXPECT_TRUE(std::ranges::any_of(signatures(), &review::HeadSigned::isOutOfUse));
}

// Nobody reviews what somebody of their name had a part in: by the word of an office that is believed, and of
// no other, as everywhere else.
TEST_F(ReviewDeskTest, AReviewerIsKnownByTheNamesThatBelievedOfficesGive)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    Workspace& workspace = bench->workspace();
    const VisitId visit = bench->reviewRoom()->presenter().visit();
    const visit::VisitState& state = bench->reviewRoom()->presenter().reading()->report.state;
    const people::PublicKey key = workspace.keys.keysOf(PersonId(u"duarte"_s))->back().publicKey;
    const auto office = people::SigningKey::generate();
    const people::Day today = people::utcDayOf(clock.now().wall);
    ASSERT_TRUE(workspace.offices.takeUp(office.publicKey(), u"Invented Office"_s, PersonId(u"duarte"_s),
                                         clock.now()));
    ASSERT_TRUE(
        workspace.offices.keep(*people::certify({key, PersonId(u"duarte"_s), state.people[state.lead].name,
                                                 people::Role::Supervisor, today, today, clock.now().wall},
                                                office),
                               clock.now()));
    const auto accept = [&] {
        hand.press(u"place-visits"_s);
        hand.press(u"place-review"_s);
        bench->reviewRoom()->presenter().showAt(visit, 0);
        hand.settle();
        hand.key(Qt::Key_A);
        return workspace.reviews.of(visit)->whole.size();
    };
    EXPECT_EQ(accept(), 0U);

    ASSERT_TRUE(workspace.offices.drop(office.publicKey(), clock.now()));

    EXPECT_EQ(accept(), 1U);
}

TEST_F(ReviewDeskTest, AReviewOfEntriesThatCannotBeReadAnyMoreCountsForNobody)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    const VisitId visit = bench->reviewRoom()->presenter().visit();
    hand.key(Qt::Key_A);
    hand.press(u"place-visits"_s);
    store::Database& database = bench->workspace().database;
    ASSERT_EQ(bench->workspace().summaries.of(visit)->review, u"accepted"_s);
    ASSERT_TRUE(database.run(u"DROP TRIGGER entry_is_never_changed"_s));
    ASSERT_TRUE(database.run(u"UPDATE entry SET bytes = x'7b7d' WHERE visit_id = :visit AND seq = 9"_s,
                             {{u":visit"_s, visit.text()}}));

    hand.press(u"place-review"_s);
    bench->reviewRoom()->presenter().showAt(visit, 0);
    hand.settle();

    EXPECT_EQ(bench->workspace().summaries.of(visit)->review, u"waiting"_s);
    const auto reading = bench->reviewRoom()->presenter().reading();
    ASSERT_TRUE(reading && reading->breaksAt);
    EXPECT_TRUE(reading->reviewsSaid().isEmpty());
    look(u"review-behind-a-break"_s);
}

TEST_F(ReviewDeskTest, AVisitWhoseEndWasCutOffIsNotCalledWhole)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    const VisitId visit = bench->reviewRoom()->presenter().visit();
    store::Database& database = bench->workspace().database;
    const auto entries = static_cast<qint64>(bench->workspace().journal.entries(visit)->size());
    ASSERT_TRUE(database.run(u"DROP TRIGGER entry_is_never_removed"_s));
    ASSERT_TRUE(database.run(u"PRAGMA foreign_keys = OFF"_s));
    ASSERT_TRUE(database.run(u"DELETE FROM entry WHERE visit_id = :visit AND seq >= :from"_s,
                             {{u":visit"_s, visit.text()}, {u":from"_s, entries - 2}}));
    ASSERT_TRUE(database.run(u"PRAGMA foreign_keys = ON"_s));

    const auto reading = readForReview(database, visit);

    ASSERT_TRUE(reading);
    ASSERT_TRUE((*reading)->cutOffAt);
    EXPECT_GE(*(*reading)->cutOffAt, entries - 2);
    EXPECT_EQ((*reading)->breaksAt, entries - 2) << "it cannot be accepted";
}

TEST_F(ReviewDeskTest, AnAlteredReviewIsToldOnTheDeskAndOnTheListOfVisits)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    const VisitId visit = bench->reviewRoom()->presenter().visit();
    hand.key(Qt::Key_S);
    hand.find<QPlainTextEdit>(u"box"_s)->setPlainText(u"Which fastener was it?"_s);
    hand.settle();
    hand.press(u"action"_s);
    store::Database& database = bench->workspace().database;
    ASSERT_TRUE(database.run(u"DROP TRIGGER review_is_never_changed"_s));
    ASSERT_TRUE(database.run(u"UPDATE review SET verdict = 'accepted' WHERE visit_id = :visit"_s,
                             {{u":visit"_s, visit.text()}}));
    // It is looked at anew when something comes that bears on it.
    ASSERT_TRUE(database.run(u"INSERT OR IGNORE INTO review_to_check(visit_id) VALUES(:visit)"_s,
                             {{u":visit"_s, visit.text()}}));

    hand.press(u"place-visits"_s);
    EXPECT_EQ(bench->workspace().summaries.of(visit)->review, u"waiting"_s);
    hand.press(u"row-visit:"_s + visit.text());
    look(u"visits-altered-review"_s);
    EXPECT_TRUE(hand.find<ui::TextLabel>(u"supervisorSaid"_s)->text().contains(u"not as it was written"_s));
    hand.press(u"action"_s);
    look(u"done-altered-review"_s);
    EXPECT_TRUE(hand.find<ui::TextLabel>(u"review"_s)->text().contains(u"not as it was written"_s));

    hand.press(u"place-review"_s);
    bench->reviewRoom()->presenter().showAt(visit, 0);
    hand.settle();
    ASSERT_EQ(bench->reviewRoom()->presenter().view().past.size(), 1);
    EXPECT_TRUE(
        bench->reviewRoom()->presenter().view().past.first().title.contains(u"not as it was written"_s));
    auto* scroll = hand.find<QScrollArea>(u"visitScroll"_s);
    scroll->verticalScrollBar()->setValue(scroll->verticalScrollBar()->maximum() / 3);
    look(u"review-altered"_s);
}

TEST_F(ReviewDeskTest, TheDeskLeadsToTheHistoryOfALamphouse)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    const QString row = bench->reviewRoom()->presenter().view().histories.first().id;

    hand.press(u"row-"_s + row);

    EXPECT_EQ(bench->shell().view().here, u"histories"_s);
    look(u"history-of-lamphouse"_s);
}

TEST_F(ReviewDeskTest, AVisitOfOnesOwnIsReviewedBySomebodyElse)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    ReviewRoom* room = bench->reviewRoom();
    int own = 0;
    for (int row = 0; row < room->presenter().queue().rowCount(); ++row) {
        room->presenter().chooseRow(row);
        hand.settle();
        const auto& people = room->presenter().reading()->report.state.people;
        const bool isOwn = std::ranges::any_of(
            people, [](const visit::PersonFacts& one) { return one.id == PersonId(u"duarte"_s); });
        if (!isOwn)
            continue;
        ++own;
        look(u"review-own"_s);
        EXPECT_TRUE(room->verdict().view().no.first().startsWith(u"You took part in this visit"_s));
        hand.key(Qt::Key_A);
        EXPECT_TRUE(bench->workspace().reviews.of(room->presenter().visit())->whole.empty());
    }
    EXPECT_GT(own, 0) << "the demo has one";
}

/// Somebody changes the list of people, of which the desk is told nothing.
TEST_F(ReviewDeskTest, WhoeverMaySuperviseNoLongerSignsNoReviewThatIsStillInSight)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    ReviewRoom* room = bench->reviewRoom();
    const VisitId visit = room->presenter().visit();
    ASSERT_EQ(room->verdict().view().action.stand, ui::ActionView::Stand::Ready);
    const PersonId duarte(u"duarte"_s);
    const auto given = bench->workspace().people.authorisationsOf(duarte);
    ASSERT_TRUE(given);
    for (const people::Authorisation& one : *given) {
        if (one.duty == people::Duty::Supervise && !one.withdrawnOn) {
            ASSERT_TRUE(bench->workspace().people.withdraw(one.id, one.from, duarte));
        }
    }

    hand.key(Qt::Key_A);

    EXPECT_TRUE(bench->workspace().reviews.of(visit)->whole.empty());
    EXPECT_FALSE(room->verdict().view().no.isEmpty()) << "why is told";
}

TEST_F(ReviewDeskTest, AKeyThatIsOutOfUseSignsNoReviewThoughItIsOpen)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    ReviewRoom* room = bench->reviewRoom();
    const VisitId visit = room->presenter().visit();
    ASSERT_TRUE(bench->workspace().keys.retireKey(PersonId(u"duarte"_s), clock.now()));

    hand.key(Qt::Key_A);

    EXPECT_TRUE(bench->workspace().reviews.of(visit)->whole.empty());
    EXPECT_TRUE(room->verdict().view().said.contains(u"Nothing was signed"_s));
}

TEST_F(ReviewDeskTest, AVisitThatGrewSinceItWasReadIsNotSigned)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    ReviewRoom* room = bench->reviewRoom();
    const VisitId visit = room->presenter().visit();
    const PersonId engineer = room->presenter().reading()->report.entries.first().by;
    auto logbook = visit::Logbook::read(bench->workspace().journal, bench->workspace().summaries, visit,
                                        review::summaryOf);
    ASSERT_TRUE(logbook);
    ASSERT_TRUE(logbook->tell(engineer, visit::Addendum{u"one thing more"_s}, clock.now()));

    hand.key(Qt::Key_A);

    EXPECT_TRUE(bench->workspace().reviews.of(visit)->whole.empty());
    EXPECT_TRUE(room->verdict().view().said.contains(u"Nothing was signed"_s));
    EXPECT_EQ(room->presenter().reading()->report.entries.size(), logbook->entries().size()) << "read anew";
}

TEST_F(ReviewDeskTest, WhatIsSentBackReachesTheEngineerAndTheAnswerReachesTheSupervisor)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    ReviewRoom* room = bench->reviewRoom();
    const VisitId visit = room->presenter().visit();
    const QString site = room->presenter().reading()->report.state.ground->opening.site.site.name;
    hand.key(Qt::Key_S);
    look(u"review-send-back"_s);
    hand.find<QPlainTextEdit>(u"box"_s)->setPlainText(u"Which fastener was it, and is it replaced?"_s);
    hand.settle();
    hand.press(u"action"_s);
    ASSERT_EQ(bench->workspace().summaries.of(visit)->review, u"sent-back"_s);

    hand.press(u"place-visits"_s);
    hand.press(u"row-visit:"_s + visit.text());
    look(u"visits-sent-back"_s);
    EXPECT_TRUE(hand.find<ui::TextLabel>(u"supervisorSaid"_s)->text().endsWith(u"is it replaced?"_s));
    hand.press(u"action"_s);
    look(u"done-sent-back"_s);
    ASSERT_TRUE(bench->visitRoom());
    EXPECT_TRUE(hand.find<ui::TextLabel>(u"review"_s)->text().contains(u"is it replaced?"_s));
    ui::VisitDesk& desk = bench->visitRoom()->desk();
    EXPECT_FALSE(desk.seen().people.isEmpty());
    const PersonId engineer = desk.seen().people.first().id;
    ASSERT_TRUE(desk.tell(engineer, visit::Addendum{u"The upper one; it is."_s}).isKept());
    EXPECT_EQ(bench->workspace().summaries.of(visit)->review, u"answered"_s);

    hand.press(u"place-review"_s);
    room->presenter().setStand(u"answered"_s);
    hand.settle();
    EXPECT_EQ(room->presenter().visit(), visit);
    look(u"review-answered"_s);
    ASSERT_EQ(room->presenter().view().past.size(), 1);
    EXPECT_TRUE(room->presenter().view().past.first().text.contains(u"fastener"_s));
    hand.key(Qt::Key_A);
    EXPECT_EQ(bench->workspace().summaries.of(visit)->review, u"accepted"_s);
    EXPECT_FALSE(site.isEmpty());
}

TEST_F(ReviewDeskTest, NobodyElseIsOfferedTheReviewDesk)
{
    openDemoAs(u"okoro"_s);

    EXPECT_FALSE(bench->window().findChild<QAbstractButton*>(u"place-review"_s));
    hand.key(Qt::Key_8, Qt::ControlModifier);
    EXPECT_EQ(bench->shell().view().here, u"visits"_s);
}

} // namespace
} // namespace coldarc::app
