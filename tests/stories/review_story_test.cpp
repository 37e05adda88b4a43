#include "app/record_intake.h"
#include "app/record_out.h"
#include "app/review_room.h"
#include "core/record/record_file.h"
#include "core/review/summary.h"
#include "core/store/workspace_file.h"
#include "core/visit/wanted_signature.h"
#include "tests/core/visit/night.h"
#include "tests/support/test_key.h"
#include "ui/parts/behind.h"

#include <QEventLoop>
#include <QTemporaryDir>

#include <cstring>

// Two laptops: an engineer's and a supervisor's. Nothing goes between them but files of records. Every person
// and office here is invented.

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using Becomes = record::Intake::Verdict;
using Stand = ui::ActionView::Stand;
using coldarc::test::keyOf;

constexpr people::GuessCost kCheap{1, 8};
const PersonId kDuarte(u"duarte"_s);

/// One laptop: a workspace file, and what its office vouches for.
class Laptop {
public:
    explicit Laptop(const QString& file, const Stamp& now)
        : workspace(std::move(*store::openWorkspace(file, {file, now.wall}).database))
    {
    }
    record::TakenRecord take(const QByteArray& record, const PersonId& by, const Stamp& now)
    {
        return RecordIntake(workspace.database).takeBytes(u"visit.zip"_s, record, by, now);
    }
    [[nodiscard]] QByteArray record(const VisitId& visit)
    {
        const auto bytes = recordFileOf(visit, workspace.database);
        EXPECT_TRUE(bytes) << (bytes ? std::string() : bytes.error().detail.toStdString());
        return bytes.value_or(QByteArray());
    }
    [[nodiscard]] QString standing(const VisitId& visit) const
    {
        return workspace.summaries.of(visit)->review;
    }

    Workspace workspace;
};

class ReviewStoryTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        night.doAll();
        night.close();
        visit = night.opening().visit;
        enrol(engineers.workspace);
        enrol(supervisors.workspace);
        const auto sealed = people::sealKey(
            keyOf(5), kDuarte, *people::Passphrase::accept(u"nine herons over Pier Street"_s), kCheap);
        ASSERT_TRUE(sealed);
        ASSERT_TRUE(supervisors.workspace.keys.enrol(kDuarte, *sealed, night.clock.now()));
        for (const visit::Entry& entry : night.entries)
            ASSERT_TRUE(
                engineers.workspace.journal.append(visit, store::Sequence(next++), visit::bytesOf(entry)));
        const auto logbook = read();
        store::VisitSummary summary = review::summaryOf(logbook.state(), logbook.entries());
        summary.visit = visit;
        summary.headSeq = store::Sequence(next - 1);
        summary.headHash = logbook.head();
        ASSERT_TRUE(engineers.workspace.summaries.put(summary));
        signMissing();
        people::Person duarte{kDuarte, u"M. Duarte"_s, people::Role::Supervisor, {}, {}, {}};
        keeper.begin(duarte, people::Session(kDuarte, keyOf(5), night.clock.now(), kCheap));
    }
    /// Both know the office and believe it; it vouches for both keys, and Duarte may supervise.
    void enrol(Workspace& where)
    {
        const Stamp now = night.clock.now();
        const people::Day today = people::utcDayOf(now.wall);
        const people::Day later = people::utcDayOf(now.wall + std::chrono::days(30));
        ASSERT_TRUE(where.people.add({night.ada(), u"A. Okoro"_s, people::Role::Engineer, {}, {}, {}}));
        ASSERT_TRUE(where.people.add({kDuarte, u"M. Duarte"_s, people::Role::Supervisor, {}, {}, {}}));
        ASSERT_TRUE(where.people.give({people::AuthorisationId(u"a1"_s),
                                       kDuarte,
                                       people::Duty::Supervise,
                                       {},
                                       today,
                                       later,
                                       kDuarte,
                                       {}}));
        ASSERT_TRUE(where.offices.takeUp(office.publicKey(), u"Invented Office"_s, kDuarte, now));
        ASSERT_TRUE(where.offices.keep(*people::certify({engineerKey.publicKey(), night.ada(), u"A. Okoro"_s,
                                                         people::Role::Engineer, today, later, now.wall},
                                                        office),
                                       now));
        ASSERT_TRUE(where.offices.keep(*people::certify({keyOf(5).publicKey(), kDuarte, u"M. Duarte"_s,
                                                         people::Role::Supervisor, today, later, now.wall},
                                                        office),
                                       now));
    }
    [[nodiscard]] visit::Logbook read()
    {
        return *visit::Logbook::read(engineers.workspace.journal, engineers.workspace.summaries, visit,
                                     review::summaryOf);
    }
    /// The engineer's key signs whatever the entries ask of its owner.
    void signMissing()
    {
        const auto logbook = read();
        const auto entries = engineers.workspace.journal.entries(visit);
        for (const visit::WantedSignature& one :
             visit::wantedSignatures(logbook.entries(), logbook.state())) {
            const Hash head = (*entries)[static_cast<std::size_t>(one.entry)].hash;
            const WallTime at = night.clock.now().wall;
            const people::HeadStatement said{
                visit, one.entry, head, *people::meaningFromWord(one.meaning.toStdString()), at, one.person};
            const QByteArray message = *people::signedMessage(said, engineerKey.publicKey());
            // What is signed already is refused as such, which is fine.
            static_cast<void>(engineers.workspace.journal.keep(
                {visit, store::Sequence(one.entry), head, one.person, engineerKey.publicKey().bytes(),
                 engineerKey.sign(message).bytes(), one.meaning, at}));
        }
    }
    void carryToSupervisor()
    {
        const record::TakenRecord taken =
            supervisors.take(engineers.record(visit), kDuarte, night.clock.now());
        EXPECT_EQ(taken.intake.verdict, Becomes::Take) << record::wordOf(taken.intake.why).toStdString();
    }
    void carryToEngineer()
    {
        const record::TakenRecord taken =
            engineers.take(supervisors.record(visit), night.ada(), night.clock.now());
        EXPECT_EQ(taken.intake.verdict, Becomes::Take) << record::wordOf(taken.intake.why).toStdString();
    }
    void sendBack(const QString& why)
    {
        desk.verdict().beginSendBack();
        desk.verdict().setDraft(why);
        desk.verdict().done();
        EXPECT_TRUE(desk.verdict().view().said.startsWith(u"Sent back and signed"_s))
            << desk.verdict().view().said.toStdString();
    }
    /// What the engineer's list says of the visit.
    [[nodiscard]] std::optional<ui::SupervisorSaid> onTheList()
    {
        const auto lines = JournalShelf(engineers.workspace, night.clock).all();
        EXPECT_EQ(lines->size(), 1);
        return lines->first().sentBack;
    }

    test::Night night;
    VisitId visit;
    qint64 next = 0;
    people::SigningKey office = keyOf(4);
    people::SigningKey engineerKey = keyOf(1);
    QTemporaryDir folder;
    Laptop engineers{folder.filePath(u"engineer.coldarc"_s), night.clock.now()};
    Laptop supervisors{folder.filePath(u"supervisor.coldarc"_s), night.clock.now()};
    ui::SessionKeeper keeper{night.clock, ui::inPlace()};
    ui::KeyRing ring{supervisors.workspace.keys, keeper, night.clock, ui::inPlace(), kCheap};
    ReviewRoom desk{supervisors.workspace, keeper, ring, night.clock, ui::inPlace()};
};

TEST_F(ReviewStoryTest, AVisitIsSentBackAnsweredAndAcceptedOnTwoLaptops)
{
    carryToSupervisor();
    desk.presenter().refresh();
    ASSERT_EQ(desk.presenter().visit(), visit);
    ASSERT_EQ(desk.verdict().view().action.stand, Stand::Ready)
        << desk.verdict().view().no.join(u'\n').toStdString();

    // She remarks on an entry and sends it back.
    desk.presenter().goTo(6);
    desk.verdict().beginRemark();
    desk.verdict().setDraft(u"Who was told?"_s);
    desk.verdict().done();
    desk.verdict().beginSendBack();
    desk.verdict().setDraft(u"The counter reading is missing."_s);
    desk.verdict().done();
    EXPECT_EQ(supervisors.standing(visit), u"sent-back"_s);
    EXPECT_EQ(desk.presenter().queue().rowCount(), 0) << "it waits for the engineer now";

    // The engineer finds it on the list, with her words, and answers.
    night.clock.advance(20h);
    carryToEngineer();
    const auto said = onTheList();
    ASSERT_TRUE(said);
    EXPECT_EQ(said->text, u"The counter reading is missing."_s);
    EXPECT_EQ(said->remarks, (QList<ui::EntryRemark>{{6, u"Who was told?"_s}}));
    auto logbook = read();
    ASSERT_TRUE(
        logbook.tell(night.ada(), visit::Addendum{u"1380 h; the owner was told."_s}, night.clock.now()));
    signMissing();
    EXPECT_EQ(engineers.standing(visit), u"answered"_s);
    EXPECT_FALSE(onTheList());

    // She sees the answer behind her review, and accepts.
    night.clock.advance(20h);
    carryToSupervisor();
    keeper.begin({kDuarte, u"M. Duarte"_s, people::Role::Supervisor, {}, {}, {}},
                 people::Session(kDuarte, keyOf(5), night.clock.now(), kCheap));
    desk.presenter().refresh();
    ASSERT_EQ(desk.presenter().visit(), visit);
    const ui::ReviewView& view = desk.presenter().view();
    EXPECT_EQ(view.stand, u"Sent back, and answered since"_s);
    ASSERT_EQ(view.past.size(), 1);
    EXPECT_EQ(view.past.first().text, u"The counter reading is missing."_s);
    EXPECT_EQ(view.past.first().signature.kind, ui::DoneMark::Kind::Signed);
    ASSERT_EQ(desk.verdict().view().action.stand, Stand::Ready)
        << desk.verdict().view().no.join(u'\n').toStdString()
        << desk.verdict().view().action.waits.toStdString();
    desk.verdict().done();
    EXPECT_EQ(supervisors.standing(visit), u"accepted"_s);
    carryToEngineer();
    EXPECT_EQ(engineers.standing(visit), u"accepted"_s);
}

TEST_F(ReviewStoryTest, AnAlteredReviewSpoilsNeitherTheVisitNorTheOtherReviews)
{
    carryToSupervisor();
    desk.presenter().refresh();
    sendBack(u"The counter reading is missing."_s);
    carryToEngineer();
    night.clock.advance(1min);
    desk.presenter().showAt(visit, 0);
    sendBack(u"And who was told?"_s);
    carryToEngineer();
    ASSERT_EQ(onTheList()->text, u"And who was told?"_s);

    for (Workspace* one : {&supervisors.workspace, &engineers.workspace}) {
        ASSERT_TRUE(one->database.run(u"DROP TRIGGER review_is_never_changed"_s));
        ASSERT_TRUE(one->database.run(
            u"UPDATE review SET payload = CAST(replace(CAST(payload AS TEXT), 'And who', 'Who') AS BLOB)"_s));
    }

    // The desk still reads the visit, and says which review it is that does not count.
    desk.presenter().showAt(visit, 6);
    const ui::ReviewView& view = desk.presenter().view();
    EXPECT_TRUE(view.empty.isEmpty()) << view.empty.toStdString();
    EXPECT_EQ(desk.presenter().moment().entry, 6);
    EXPECT_EQ(view.stand, u"Sent back, not answered yet"_s) << "the first one counts";
    ASSERT_EQ(view.past.size(), 2);
    EXPECT_EQ(view.past.front().text, u"The counter reading is missing."_s);
    EXPECT_EQ(view.past.back().title, u"A review that is not as it was written"_s);
    EXPECT_EQ(view.past.back().signature.kind, ui::DoneMark::Kind::Broken);
    EXPECT_NE(desk.verdict().view().action.text, QString()) << "it can be reviewed again";

    // So does the engineer's list.
    ASSERT_TRUE(onTheList());
    EXPECT_EQ(onTheList()->text, u"The counter reading is missing."_s);
    EXPECT_EQ(JournalShelf(engineers.workspace, night.clock).all()->first().alteredReviews, 1);

    // What is carried away holds the good one.
    const auto carried = record::recordFromBytes(supervisors.record(visit));
    ASSERT_TRUE(carried);
    EXPECT_EQ(carried->reviews.size(), 1U);
}

TEST_F(ReviewStoryTest, AnAcceptanceByAKeyThatWasOutOfUseByThenLetsTheVisitWait)
{
    carryToSupervisor();
    desk.presenter().refresh();
    desk.verdict().done();
    ASSERT_EQ(supervisors.standing(visit), u"accepted"_s);
    Workspace& workspace = supervisors.workspace;
    const people::Day today = people::utcDayOf(night.clock.now().wall);

    ASSERT_TRUE(workspace.offices.keep(
        *people::retire({keyOf(5).publicKey(), today, night.clock.now().wall}, office), night.clock.now()));
    while (*workspace.catchUp()) {
    }
    EXPECT_EQ(supervisors.standing(visit), u"waiting"_s);
    desk.presenter().refresh();
    EXPECT_EQ(desk.presenter().visit(), visit) << "it is to be reviewed again";
    EXPECT_EQ(desk.presenter().view().stand, u"Waits for a review"_s);

    // Once that office is believed no longer, nobody says that the key was out of use.
    ASSERT_TRUE(workspace.offices.drop(office.publicKey(), night.clock.now()));
    while (*workspace.catchUp()) {
    }
    EXPECT_EQ(supervisors.standing(visit), u"accepted"_s);
}

TEST_F(ReviewStoryTest, AVisitThatIsOpenedCorrectsWhatTheQueueSaysOfIt)
{
    carryToSupervisor();
    desk.presenter().refresh();
    desk.verdict().done();
    ASSERT_EQ(supervisors.standing(visit), u"accepted"_s);
    store::Database& database = supervisors.workspace.database;
    ASSERT_TRUE(database.run(u"DROP TRIGGER review_is_never_changed"_s));
    ASSERT_TRUE(database.run(u"UPDATE review SET signature = zeroblob(64)"_s));
    ASSERT_EQ(supervisors.standing(visit), u"accepted"_s) << "nobody has looked yet";

    desk.presenter().showAt(visit, 3);

    EXPECT_EQ(supervisors.standing(visit), u"waiting"_s);
    EXPECT_EQ(desk.presenter().queue().rowCount(), 1);
    EXPECT_EQ(desk.presenter().visit(), visit);
}

TEST_F(ReviewStoryTest, AVisitIsReadAndCheckedAwayFromTheWindow)
{
    carryToSupervisor();
    ui::BehindThreads threads;
    ReviewRoom room(supervisors.workspace, keeper, ring, night.clock, threads.behind());
    QEventLoop loop;
    QObject::connect(&room.presenter(), &ui::ReviewPresenter::momentChanged, &loop,
                     [&](const ui::MomentView& moment) {
                         if (moment.entry >= 0)
                             loop.quit();
                     });

    room.presenter().refresh();
    EXPECT_TRUE(room.presenter().view().empty.startsWith(u"The visit is being read"_s));
    EXPECT_EQ(room.verdict().view().action.stand, Stand::Waits) << "what nobody sees is not signed";
    loop.exec();

    EXPECT_TRUE(room.presenter().view().empty.isEmpty());
    EXPECT_EQ(room.presenter().reading()->report.entries.size(), night.entries.size());
    EXPECT_EQ(room.verdict().view().action.stand, Stand::Ready);
}

TEST_F(ReviewStoryTest, HerOwnVisitIsReviewedByNobodyAtThisDesk)
{
    carryToSupervisor();
    const people::Day today = people::utcDayOf(night.clock.now().wall);
    ASSERT_TRUE(supervisors.workspace.people.give({people::AuthorisationId(u"a2"_s),
                                                   night.ada(),
                                                   people::Duty::Supervise,
                                                   {},
                                                   today,
                                                   today,
                                                   kDuarte,
                                                   {}}));
    keeper.begin({night.ada(), u"A. Okoro"_s, people::Role::Engineer, {}, {}, {}},
                 people::Session(night.ada(), keyOf(1), night.clock.now(), kCheap));
    desk.presenter().refresh();

    ASSERT_EQ(desk.verdict().view().no.size(), 1) << "she may supervise";
    EXPECT_TRUE(desk.verdict().view().no.front().startsWith(u"You took part in this visit"_s));
    EXPECT_EQ(desk.verdict().view().action.stand, Stand::Waits);
    desk.verdict().done();

    EXPECT_TRUE(supervisors.workspace.reviews.of(visit)->whole.empty());
}

} // namespace
} // namespace coldarc::app
