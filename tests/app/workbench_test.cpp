#include "app/workbench.h"

#include "app/record_verify.h"
#include "app/review_reading.h"
#include "app/signature_check.h"
#include "app/visit_files.h"
#include "app/visit_room.h"
#include "core/people/sign_in.h"
#include "core/review/summary.h"
#include "core/store/backup.h"
#include "core/store/workspace_file.h"
#include "tests/app/workbench_fixture.h"
#include "ui/parts/action_button.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/field.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/quantities.h"
#include "ui/parts/strip.h"
#include "ui/parts/text_label.h"
#include "ui/people/people_words.h"
#include "ui/people/sign_in_page.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/done_page.h"
#include "ui/visit/visits_page.h"

#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QFileDialog>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QRegularExpression>
#include <QTest>
#include <QTimer>

#include <cstdio>
#include <memory>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::app {
namespace {

TEST_F(WorkbenchTest, LeadsFromAnEmptyFolderToLampOff)
{
    openOwnVisit();

    const bool isOff = workUntil(machine::Effect::LampOff);

    look(u"lamp-off"_s);
    EXPECT_TRUE(isOff);
    // Nobody's count is a promise; it is told so that a change of it is seen.
    RecordProperty("presses", hand.presses);
    RecordProperty("typed", hand.typed);
    std::printf("from an empty folder to lamp-off: %d presses, %d characters typed\n", hand.presses,
                hand.typed);
}

TEST_F(WorkbenchTest, LeadsFromAnEmptyFolderToAnOpenVisitByTheKeyboardAlone)
{
    const auto focus = [] { return QApplication::focusWidget(); };
    const auto type = [&](const QString& text) {
        for (const QChar letter : text) {
            clock.advance(120ms); // no scanner is as slow
            QTest::keyClicks(focus(), letter);
        }
    };
    /// Tab until this has the focus, which is not far.
    const auto walkTo = [&](const QString& name, int most) {
        const auto isThere = [&] {
            const QWidget* at = focus();
            return at && (at->objectName() == name || at->parentWidget()->objectName() == name);
        };
        for (int count = 0; count < most && !isThere(); ++count)
            hand.key(Qt::Key_Tab);
        ASSERT_TRUE(isThere()) << name.toStdString() << ", but " << focus()->objectName().toStdString();
    };
    const auto choose = [&](const QString& id) {
        const auto* box = qobject_cast<QComboBox*>(focus());
        ASSERT_TRUE(box);
        for (int count = 0; count < box->count() && box->currentData() != id; ++count)
            hand.key(Qt::Key_Down);
        ASSERT_EQ(box->currentData().toString(), id);
    };
    const auto isIn = [&](const QString& field) { return focus()->parentWidget()->objectName() == field; };
    const QString passphrase = u"a long walk by the river"_s;
    const ui::ThemeKind before = theme().kind();
    open();
    QApplication::setActiveWindow(&bench->window());

    EXPECT_TRUE(isIn(u"workspace"_s)) << "the first page is typed into at once";
    type(u"North "_s);
    hand.key(Qt::Key_Tab);
    type(u"A. Okoro"_s);
    walkTo(u"passphrase"_s, 4);
    type(passphrase);
    hand.key(Qt::Key_Tab);
    type(passphrase);
    EXPECT_EQ(theme().kind(), before) << "a space in a name is a space";
    for (const QString& duty : {u"lamp-swap"_s, u"prove-absence"_s, u"supervise"_s}) {
        walkTo(u"tick-"_s + duty, 1);
        hand.key(Qt::Key_Space);
    }
    hand.key(Qt::Key_Return);

    EXPECT_TRUE(isIn(u"secret"_s));
    type(passphrase);
    hand.key(Qt::Key_Return);
    for (int count = 0; count < 2; ++count) {
        type(kPin);
        hand.key(Qt::Key_Return);
    }

    hand.key(Qt::Key_2, Qt::ControlModifier);
    walkTo(u"form-1"_s, 1);
    hand.key(Qt::Key_Return);
    EXPECT_TRUE(isIn(u"name"_s)) << "the form that opens is typed into at once";
    type(u"Pier Street"_s);
    hand.key(Qt::Key_Return);
    type(u"Hollin"_s);
    hand.key(Qt::Key_Return);
    walkTo(u"form-3"_s, 4);
    hand.key(Qt::Key_Space);
    EXPECT_TRUE(isIn(u"name"_s));
    type(u"Screen 2"_s);
    hand.key(Qt::Key_Return);
    EXPECT_TRUE(isIn(u"model"_s)) << focus()->parentWidget()->objectName().toStdString();
    const auto* model = library().catalogue().model(ModelId(u"larkmoor-teal"_s));
    choose(model->id.text());
    walkTo(u"panel-0"_s, 3);
    for (qsizetype role = 0; role < model->isolation.size(); ++role) {
        type(u"B"_s);
        hand.key(Qt::Key_Return);
        type(QString::number(14 + role));
        hand.key(Qt::Key_Return); // of the last one: Add
    }

    hand.key(Qt::Key_3, Qt::ControlModifier);
    walkTo(u"type"_s, 1);
    choose(lampType().text());
    hand.key(Qt::Key_Tab);
    type(u"HV00123"_s);
    hand.key(Qt::Key_Return);

    hand.key(Qt::Key_1, Qt::ControlModifier);
    walkTo(u"newVisit"_s, 1);
    hand.key(Qt::Key_Return);
    hand.key(Qt::Key_Return); // Open the visit
    ASSERT_TRUE(bench->visitRoom());
    EXPECT_TRUE(visible<ui::BenchPage>()->isAncestorOf(focus()) || visible<ui::BenchPage>() == focus());
}

TEST_F(WorkbenchTest, EnterDoesWhatTheMainButtonOfThePageSays)
{
    openDemoAs(u"okoro"_s);
    const QString main = hand.find<ui::ActionButton>(u"action"_s)->view().text;
    ASSERT_EQ(main, u"Open this visit"_s);
    hand.key(Qt::Key_Return);
    EXPECT_EQ(hand.find<ui::ActionButton>(u"action"_s)->view().text, u"Open the visit"_s);
    hand.key(Qt::Key_Return);

    EXPECT_TRUE(bench->visitRoom());
}

TEST_F(WorkbenchTest, EnterPressesTheButtonThatWasWalkedToAndOpensNoVisitInItsPlace)
{
    openDemoAs(u"okoro"_s);
    const auto walkTo = [this](const QString& name) {
        for (int count = 0; count < 40 && QApplication::focusWidget()->objectName() != name; ++count)
            hand.key(Qt::Key_Tab);
        return QApplication::focusWidget()->objectName() == name;
    };
    const auto rows = visible<ui::VisitsPage>()->findChildren<ui::RowButton*>();
    const auto other =
        std::ranges::find_if(rows, [](const auto* row) { return row->isVisible() && !row->isChecked(); });
    ASSERT_NE(other, rows.end());
    const QString row = (*other)->objectName();
    ASSERT_TRUE(walkTo(row));
    hand.key(Qt::Key_Return);
    EXPECT_TRUE(hand.find<ui::RowButton>(row)->isChecked());
    EXPECT_TRUE(visible<ui::VisitsPage>());

    hand.key(Qt::Key_N, Qt::ControlModifier);
    ASSERT_TRUE(walkTo(u"leave"_s));
    hand.key(Qt::Key_Return);

    EXPECT_TRUE(visible<ui::VisitsPage>());
    EXPECT_FALSE(bench->visitRoom());
}

TEST_F(WorkbenchTest, AMousePressInTheBarLeavesTheKeysToThePage)
{
    openOwnVisit();
    QWidget* holder = QApplication::focusWidget();
    ASSERT_TRUE(visible<ui::BenchPage>() == holder || visible<ui::BenchPage>()->isAncestorOf(holder));

    for (const QString& name : {u"barTheme"_s, u"barFinder"_s}) {
        QTest::mouseClick(hand.find<QAbstractButton>(name), Qt::LeftButton);
        if (name == u"barFinder"_s)
            hand.key(Qt::Key_Escape);
        EXPECT_EQ(QApplication::focusWidget(), holder) << name.toStdString();
    }
}

TEST_F(WorkbenchTest, AHastyEnterTakesNoVisitOffTheListAndOpensNoneInItsPlace)
{
    openDemoAs(u"okoro"_s);
    const auto planned = [this] { return bench->workspace().plans.all()->size(); };
    const auto before = planned();
    for (int count = 0; count < 40 && QApplication::focusWidget()->objectName() != u"drop"_s; ++count)
        hand.key(Qt::Key_Tab);
    hand.key(Qt::Key_Space);
    look(u"visits-drop-question"_s);
    hand.key(Qt::Key_Return);
    EXPECT_EQ(planned(), before) << "kept";
    EXPECT_FALSE(bench->visitRoom());

    hand.press(u"drop"_s);
    hand.press(u"dropNow"_s);
    look(u"visits-dropped"_s);
    EXPECT_EQ(planned(), before - 1);
    hand.key(Qt::Key_Return);
    EXPECT_FALSE(bench->visitRoom());
    EXPECT_TRUE(hand.find<QLabel>(u"message"_s)->text().endsWith(u"was taken off the list."_s));
}

TEST_F(WorkbenchTest, SignsWhatTheVisitAsksForWithTheKeyOfWhoeverWorksHere)
{
    openOwnVisit();

    VisitRoom& room = *bench->visitRoom();
    EXPECT_TRUE(room.desk().missing().isEmpty());
    const auto kept = bench->workspace().journal.signatures(room.desk().logbook().visit());
    ASSERT_TRUE(kept);
    ASSERT_FALSE(kept->empty());
    const store::Signature& first = kept->front();
    EXPECT_TRUE(people::isSignedBy(
        *people::PublicKey::fromBytes(first.publicKey),
        people::HeadStatement{first.visit, first.seq.value(), first.head,
                              *people::meaningFromWord(first.meaning.toStdString()), first.at, first.person},
        *people::Signature::fromBytes(first.bytes)));
}

TEST_F(WorkbenchTest, SavesAVisitAsARecordThatVerifiesWithoutTheWorkspace)
{
    openOwnVisit();
    const QString file = folder.filePath(u"visit.zip"_s);

    ASSERT_TRUE(bench->visitRoom()->saveRecord(file));
    EXPECT_FALSE(bench->visitRoom()->saveRecord(folder.filePath(u"nowhere/visit.zip"_s)));

    const VerifyReport report = verifyReport(checkRecords({file}), false);
    EXPECT_EQ(report.status, 0) << report.text.toStdString();
    EXPECT_TRUE(report.text.contains("signed-in")) << report.text.toStdString();
}

TEST_F(WorkbenchTest, ARecordSaysWhoVouchesForTheKeyThatSignedIt)
{
    const QString officePhrase = u"a name for every key"_s;
    openOwnWorkspace();
    hand.press(u"place-people"_s);
    hand.press(u"office"_s);
    look(u"office-empty"_s);
    hand.press(u"found"_s);
    hand.type(u"officeName"_s, u"Invented Lamps"_s);
    hand.type(u"passphrase"_s, officePhrase);
    hand.type(u"again"_s, officePhrase);
    look(u"office-new"_s);
    hand.press(u"keep"_s);
    hand.press(*hand.find<QWidget>(u"keys"_s)->findChild<QAbstractButton*>());
    hand.type(u"passphrase"_s, officePhrase);
    look(u"office-vouch"_s);
    hand.press(u"keep"_s);
    look(u"office"_s);
    const QString shown = hand.find<QLabel>(u"thumbprint"_s)->text();
    EXPECT_EQ(shown.split(u' ').size(), 11) << shown.toStdString() << ": 43 letters by fours";
    const QString thumbprint = QString(shown).remove(u' ');
    hand.key(Qt::Key_4, Qt::ControlModifier);
    EXPECT_TRUE(hand.find<QAbstractButton>(u"office"_s)) << "back at the people";
    addSite();
    addLamp();
    openVisit();
    const QString file = folder.filePath(u"visit.zip"_s);
    ASSERT_TRUE(bench->visitRoom()->saveRecord(file));

    const VerifyReport report = verifyReport(checkRecords({file}, thumbprint), false);
    EXPECT_EQ(report.status, 0) << report.text.toStdString();
    EXPECT_TRUE(report.text.contains("key of A. Okoro, engineer, says office " + thumbprint.toLatin1()))
        << report.text.toStdString();

    // The desk says so too, until the office takes its word back.
    Workspace& workspace = bench->workspace();
    const VisitId visit = bench->visitRoom()->desk().logbook().visit();
    const auto vouching = [&] {
        return (*readForReview(workspace.database, visit))->signatures.first().vouchedBy.size();
    };
    EXPECT_EQ(vouching(), 1);
    const Stamp now = clock.now();
    auto opened = people::signIn(workspace.offices, people::officeHolder(), officePhrase, now);
    const auto key = people::PublicKey::fromBytes(workspace.journal.signatures(visit)->front().publicKey);
    ASSERT_TRUE(workspace.offices.keep(*people::retire({*key, people::utcDayOf(now.wall), now.wall},
                                                       std::get<people::SignedIn>(*opened).key),
                                       now));
    EXPECT_EQ(vouching(), 0);
}

TEST_F(WorkbenchTest, TellsASignatureThatDoesNotVerify)
{
    openOwnVisit();
    const VisitId visit = bench->visitRoom()->desk().logbook().visit();
    const auto sound = keptSignatures(bench->workspace(), visit);
    ASSERT_TRUE(sound);
    EXPECT_TRUE(sound->broken.isEmpty());
    EXPECT_FALSE(sound->kept.isEmpty());
    store::Signature forged = bench->workspace().journal.signatures(visit)->front();
    forged.meaning = u"performed"_s; // the key signed something else
    ASSERT_TRUE(bench->workspace().journal.keep(forged));

    const auto found = keptSignatures(bench->workspace(), visit);

    const ui::WantedSignature place{forged.seq.value(), forged.person, u"performed"_s};
    ASSERT_TRUE(found);
    EXPECT_EQ(found->broken, QList{place});
    EXPECT_TRUE(found->kept.contains(place)) << "its key cannot sign there again";
}

TEST_F(WorkbenchTest, ASignatureByAnotherKeyIsInNobodysWay)
{
    openOwnVisit();
    const VisitId visit = bench->visitRoom()->desk().logbook().visit();
    store::Journal& journal = bench->workspace().journal;
    const store::Signature genuine = journal.signatures(visit)->front();
    const people::SigningKey another = people::SigningKey::generate();
    const auto sign = [&](const QString& meaning) {
        const people::HeadStatement said{visit,        genuine.seq.value(),
                                         genuine.head, *people::meaningFromWord(meaning.toStdString()),
                                         genuine.at,   genuine.person};
        return journal.keep({visit, genuine.seq, genuine.head, genuine.person, another.publicKey().bytes(),
                             another.sign(*people::signedMessage(said, another.publicKey())).bytes(), meaning,
                             genuine.at});
    };
    ASSERT_TRUE(sign(genuine.meaning));
    EXPECT_TRUE(keptSignatures(bench->workspace(), visit)->broken.isEmpty()) << "the genuine one counts";

    ASSERT_TRUE(sign(u"performed"_s));

    const ui::WantedSignature place{genuine.seq.value(), genuine.person, u"performed"_s};
    EXPECT_EQ(keptSignatures(bench->workspace(), visit)->broken, QList{place});
    EXPECT_FALSE(keptSignatures(bench->workspace(), visit)->kept.contains(place)) << "their own may come";
}

TEST_F(WorkbenchTest, TheCommandFinderLeadsFromABenchToTheHistoryOfItsLamphouse)
{
    openOwnVisit();
    hand.key(Qt::Key_K, Qt::ControlModifier);
    hand.write(u"history of the lamphouse"_s);
    hand.key(Qt::Key_Return);

    EXPECT_EQ(bench->shell().view().here, u"histories"_s);
    EXPECT_EQ(hand.find<QLabel>(u"title"_s)->text(), u"Pier Street, Screen 2"_s);
}

// "Add a site" of the finder threw away what stood in the form.
TEST_F(WorkbenchTest, TheCommandFinderLeavesAFormThatWasBegunWhereItIs)
{
    openOwnWorkspace();
    hand.press(u"place-sites"_s);
    hand.press(u"form-1"_s);
    hand.type(u"name"_s, u"Old Gasworks"_s);

    hand.key(Qt::Key_K, Qt::ControlModifier);
    QTest::keyClicks(QApplication::focusWidget(), u"add a site"_s);
    hand.key(Qt::Key_Return);

    EXPECT_EQ(hand.find<ui::Field>(u"name"_s)->value(), u"Old Gasworks"_s);
    EXPECT_TRUE(hand.find<QLabel>(u"message"_s)->text().contains(u"not kept yet"_s));
}

TEST_F(WorkbenchTest, AHistoryLeadsToTheEntryOfTheVisitThatSaysIt)
{
    openOwnWorkspace();
    hand.key(Qt::Key_9, Qt::ControlModifier);
    EXPECT_EQ(bench->shell().view().here, u"histories"_s);
    addSite();
    addLamp();
    openVisit();
    hand.press(u"place-histories"_s);
    hand.press(u"choice-lamphouse"_s);
    hand.press(*hand.find<QWidget>(u"found"_s)->findChild<QAbstractButton*>());
    const QString title = hand.find<QLabel>(u"title"_s)->text();
    EXPECT_EQ(title, u"Pier Street, Screen 2"_s);

    hand.press(*hand.find<QWidget>(u"lines"_s)->findChild<QAbstractButton*>());

    ASSERT_TRUE(bench->visitRoom());
    EXPECT_EQ(bench->shell().view().here, u"visits"_s);
    EXPECT_EQ(bench->visitRoom()->page().whatWasDone().view().chosen, 0);
}

TEST_F(WorkbenchTest, WritesThatNobodyWatchedBeforeAVisitIsTakenUpAgain)
{
    openOwnVisit();
    const VisitId visit = bench->visitRoom()->desk().logbook().visit();
    const qint64 before = bench->visitRoom()->desk().logbook().state().entries;
    bench->showVisit(visit);
    EXPECT_EQ(bench->visitRoom()->desk().logbook().state().entries, before);
    clock.reboot(3h, 1min);

    bench->showVisit(visit);

    const auto& entries = bench->visitRoom()->desk().logbook().entries();
    ASSERT_EQ(entries.size(), before + 1);
    EXPECT_TRUE(std::holds_alternative<visit::Resumed>(entries.last().body));
}

TEST_F(WorkbenchTest, SignsLaterWhatWasDoneWhileTheKeyWasLocked)
{
    openOwnVisit();
    VisitRoom& room = *bench->visitRoom();
    bench->keeper().lock();
    const PersonId who = room.desk().presses();

    visit::Happened incident;
    incident.incident = visit::Incident::NoTimeLeft;
    incident.text = u"the hall fills"_s;
    room.desk().tell(who, incident);
    ASSERT_EQ(room.desk().missing().size(), 1);
    hand.type(u"pin"_s, kPin);
    hand.key(Qt::Key_Return);

    EXPECT_EQ(bench->keeper().state(), ui::SessionKeeper::State::Open);
    EXPECT_TRUE(room.desk().missing().isEmpty());
}

// Days later, by the key of whoever only looks: the press has to be theirs.
TEST_F(WorkbenchTest, OpeningAClosedVisitSignsNothingByItself)
{
    openOwnVisit();
    const VisitId visit = bench->visitRoom()->desk().logbook().visit();
    const PersonId who = bench->visitRoom()->desk().presses();
    {
        Workspace& workspace = bench->workspace();
        auto logbook = visit::Logbook::read(workspace.journal, workspace.summaries, visit);
        ASSERT_TRUE(logbook);
        endAtOnce([&](const visit::Body& body) { ASSERT_TRUE(logbook->tell(who, body, clock.now())); });
    }
    bench.reset(); // before the key signed
    clock.advance(std::chrono::hours(50));
    open();
    signIn();
    bench->showVisit(visit);
    bench->visitRoom()->page().showWhatWasDone();
    look(u"closed-unsigned"_s);

    EXPECT_EQ(bench->visitRoom()->desk().missing().size(), 2); // the incident, and the closing
    const QString isUnsigned = review::wordOf(review::Exception::Kind::WorkUnsigned);
    while (*bench->workspace().catchUp()) {
    }
    EXPECT_TRUE(bench->workspace().summaries.of(visit)->kinds.contains(isUnsigned));

    hand.press(u"sign"_s);
    look(u"closed-signed"_s);
    EXPECT_TRUE(bench->visitRoom()->desk().missing().isEmpty());
    const QStringList kinds = bench->workspace().summaries.of(visit)->kinds;
    EXPECT_FALSE(kinds.contains(isUnsigned));
    EXPECT_TRUE(kinds.contains(review::wordOf(review::Exception::Kind::LateSignOff)));
}

TEST_F(WorkbenchTest, APressThatFindsTheWorkspaceBusyIsNotBlamedOnAFullDisk)
{
    openOwnVisit();
    VisitRoom& room = *bench->visitRoom();
    store::Database& database = bench->workspace().database;
    ASSERT_TRUE(database.run(u"PRAGMA busy_timeout = 0"_s));
    visit::Happened incident;
    incident.incident = visit::Incident::NoTimeLeft;
    incident.text = u"the hall fills"_s;
    const auto tell = [&] { return room.desk().tell(room.desk().presses(), incident).isKept(); };

    auto another = store::Database::connect(file(), store::Access::Write);
    ASSERT_TRUE(another);
    ASSERT_TRUE(another->transaction([&]() -> Result<void> {
        EXPECT_FALSE(tell());
        return {};
    }));
    EXPECT_EQ(bench->shell().view().strip.text,
              u"The last press could not be written: the workspace was busy. Everything before it is kept. "
              "Press again."_s);
    EXPECT_TRUE(visible<ui::Strip>());

    ASSERT_TRUE(database.run(u"PRAGMA query_only = 1"_s));
    EXPECT_FALSE(tell());
    EXPECT_TRUE(bench->shell().view().strip.text.endsWith(u"Make room on the disk, then press again."_s));
    ASSERT_TRUE(database.run(u"PRAGMA query_only = 0"_s));
    EXPECT_TRUE(tell()) << "pressed again, it is written";
    EXPECT_FALSE(bench->shell().view().strip.text.contains(u"could not be written"_s))
        << bench->shell().view().strip.text.toStdString();
}

TEST_F(WorkbenchTest, ASecondWindowShowsWhatWasDoneAndAsksForNoPassphrase)
{
    openOwnVisit();
    VisitRoom& room = *bench->visitRoom();
    endAtOnce([&](const visit::Body& body) { room.desk().tell(room.desk().presses(), body); });
    const auto entries = room.desk().logbook().entries().size();
    store::OpenAnswer opened = store::openWorkspace(file(), {u"workspace-1"_s, clock.now().wall});
    ASSERT_EQ(opened.outcome, store::Opening::OpenedReadOnly);
    QSettings others(folder.filePath(u"other.ini"_s), QSettings::IniFormat);
    Workbench second({clock, ids, others, theme(), library(), ui::inPlace(), kCheap}, std::move(opened));
    second.window().resize(size);
    second.window().show();
    hand.sitAt(second.window());
    hand.settle();

    EXPECT_TRUE(hand.find<QLabel>(u"banner"_s)->text().contains(u"Sign in and work there."_s));
    for (const QLineEdit* box : second.window().findChildren<QLineEdit*>())
        EXPECT_FALSE(box->isVisible()) << "nothing can be guessed at";
    hand.press(u"row-visit:"_s + room.desk().logbook().visit().text());
    hand.key(Qt::Key_Return);

    ASSERT_TRUE(second.visitRoom());
    EXPECT_EQ(second.visitRoom()->desk().logbook().entries().size(), entries);
    const auto* done = second.window().findChild<ui::DonePage*>();
    ASSERT_TRUE(done && done->isVisible());
    for (const QString& adds : {u"write"_s, u"sign"_s})
        EXPECT_FALSE(done->findChild<QWidget*>(adds)->isVisible()) << "it would not be written";
    hand.sitAt(bench->window());
}

TEST_F(WorkbenchTest, SettlesAVisitAsSoonAsItsEndIsWritten)
{
    openOwnVisit();
    VisitRoom& room = *bench->visitRoom();
    const VisitId visit = room.desk().logbook().visit();
    endAtOnce([&](const visit::Body& body) { room.desk().tell(room.desk().presses(), body); });

    EXPECT_FALSE(room.desk().logbook().state().end.isEmpty());
    EXPECT_TRUE(bench->workspace().settlements.isSettled(visit).value());
}

TEST_F(WorkbenchTest, SettlesAtItsOpeningWhatWasClosedAndNotSettled)
{
    openOwnVisit();
    const VisitId visit = bench->visitRoom()->desk().logbook().visit();
    const PersonId who = bench->visitRoom()->desk().presses();
    Workspace& workspace = bench->workspace();
    auto logbook = visit::Logbook::read(workspace.journal, workspace.summaries, visit);
    ASSERT_TRUE(logbook);
    endAtOnce([&](const visit::Body& body) { ASSERT_TRUE(logbook->tell(who, body, clock.now())); });
    ASSERT_FALSE(workspace.settlements.isSettled(visit).value()); // the program dies between the two
    bench.reset();

    open();

    EXPECT_TRUE(bench->workspace().settlements.isSettled(visit).value());
    EXPECT_TRUE(bench->workspace().leftovers(visit).isEmpty());
}

TEST_F(WorkbenchTest, TakesNoPressBeneathTheLock)
{
    openOwnVisit();
    VisitRoom& room = *bench->visitRoom();
    const auto before = room.desk().logbook().entries().size();
    bench->keeper().lock();
    hand.settle();

    for (const Qt::Key key : {Qt::Key_1, Qt::Key_Return, Qt::Key_PageDown, Qt::Key_F12, Qt::Key_F9})
        QTest::keyClick(&bench->window(), key);
    QTest::keyClick(&bench->window(), Qt::Key_N, Qt::ControlModifier);
    QTest::keyClick(&bench->window(), Qt::Key_4, Qt::ControlModifier);
    QTest::keyClick(&bench->window(), Qt::Key_K, Qt::ControlModifier);
    hand.settle();

    EXPECT_EQ(room.desk().logbook().entries().size(), before);
    EXPECT_EQ(bench->shell().view().here, u"visits"_s);
    EXPECT_EQ(bench->visitRoom(), &room);
    EXPECT_FALSE(bench->window().findChild<QWidget*>(u"commandFinder"_s)->isVisible());
}

TEST_F(WorkbenchTest, ASecondPersonJoinsAndSignsWithTheirOwnKey)
{
    openOwnWorkspace();
    addSite();
    addLamp();
    const QString passphrase = u"four grey geese at dusk"_s;
    people::Person ben;
    ben.id = PersonId(u"ben"_s);
    ben.name = u"B. Lind"_s;
    people::Authorisation lamps{
        people::AuthorisationId(u"b1"_s), ben.id, people::Duty::LampSwap, {}, {}, {}, {}, {}};
    lamps.from = ui::dayOf(clock.now().wall - std::chrono::days(30));
    lamps.until = ui::dayOf(clock.now().wall + std::chrono::days(30));
    lamps.givenBy = bench->keeper().who()->id;
    const auto sealed = people::sealKey(people::SigningKey::generate(), ben.id,
                                        *people::Passphrase::accept(passphrase), kCheap);
    ASSERT_TRUE(sealed);
    ASSERT_TRUE(bench->workspace().enrol({ben, *sealed, {lamps}}, clock.now()));
    openVisit();
    VisitRoom& room = *bench->visitRoom();
    ASSERT_TRUE(room.desk().missing().isEmpty()) << "whoever signed in has signed";

    hand.press(u"people"_s);
    hand.press(u"join"_s);
    look(u"people-join"_s);
    hand.press(u"row-ben"_s);
    hand.press(u"action"_s);
    ASSERT_EQ(room.desk().seen().people.size(), 2);
    EXPECT_TRUE(room.desk().seen().people.last().mayAssist) << "a trainee, under an engineer";
    ASSERT_EQ(room.desk().missing().size(), 1);
    EXPECT_EQ(room.desk().missing().first().person, ben.id);
    hand.press(u"deed-passphrase"_s);
    hand.type(u"secret"_s, passphrase);
    hand.press(u"action"_s);
    look(u"people-new-pin"_s);

    EXPECT_TRUE(room.desk().missing().isEmpty()) << "signed as soon as the key was open";
    const auto kept = bench->workspace().journal.signatures(room.desk().logbook().visit());
    ASSERT_TRUE(kept);
    EXPECT_EQ(kept->back().person, ben.id);
    EXPECT_EQ(kept->back().publicKey, sealed->publicKey.bytes());
    bench->ring().lockAll();
    visit::Happened incident;
    incident.incident = visit::Incident::NoTimeLeft;
    room.desk().tell(ben.id, incident);
    EXPECT_EQ(room.desk().missing().size(), 1) << "his key is locked, and nobody else's signs for him";

    ASSERT_TRUE(room.desk().tell(ben.id, visit::Left{ben.id}).isKept());
    EXPECT_EQ(bench->ring().standOf(ben.id), ui::KeyRing::Stand::Shut) << "he took it along";
}

TEST_F(WorkbenchTest, KeepsNobodyInGlovesFromTheWayOutByAPassphrase)
{
    openOwnVisit();
    ASSERT_TRUE(workUntil(machine::Effect::GearOn));
    const auto before = bench->visitRoom()->desk().logbook().entries().size();
    bench.reset(); // the program dies
    open();
    look(u"inside"_s);

    hand.press(u"goInside"_s);

    ASSERT_TRUE(bench->visitRoom());
    EXPECT_EQ(bench->shell().view().stand, ui::ShellView::Stand::AtWork);
    EXPECT_FALSE(bench->shell().view().isCovered);
    EXPECT_TRUE(bench->shell().view().banner.contains(u"unsigned"_s));
    EXPECT_TRUE(bench->shell().view().bar.places.isEmpty()) << "nothing else is open to nobody";
    look(u"inside-bench"_s);
    VisitRoom& room = *bench->visitRoom();
    const PersonId who = room.desk().presses();
    room.desk().tell(who, visit::SafeBegun{u"power failed"_s});
    EXPECT_EQ(room.desk().logbook().entries().size(), before + 2)
        << "that the program was started again with somebody inside, and making safe";
    EXPECT_EQ(bench->keeper().state(), ui::SessionKeeper::State::Nobody);
}

TEST_F(WorkbenchTest, AsksWhoWorksHereOnceWhoeverHasNotSignedInIsOutOfTheZone)
{
    openOwnVisit();
    ASSERT_TRUE(workUntil(machine::Effect::GearOn));
    bench.reset(); // the program dies
    open();
    hand.press(u"goInside"_s);
    ASSERT_TRUE(bench->visitRoom());
    ui::VisitDesk& desk = bench->visitRoom()->desk();
    visit::Acted gearOff;
    gearOff.act.effect = machine::Effect::GearOff;
    gearOff.act.person = desk.presses();
    gearOff.act.lamphouse = desk.seen().ground->lamphouses.first();

    const auto told = desk.tell(gearOff);
    ASSERT_TRUE(told.isKept()) << told.no.join(u" / "_s).toStdString();

    EXPECT_FALSE(bench->visitRoom());
    EXPECT_EQ(bench->shell().view().stand, ui::ShellView::Stand::SignIn);
    EXPECT_TRUE(visible<ui::SignInPage>());
}

TEST_F(WorkbenchTest, TheListOfTheVisitsStaysShutWhereTheBenchInsideDoesNotOpen)
{
    openOwnVisit();
    ASSERT_TRUE(workUntil(machine::Effect::GearOn));
    const VisitId visit = bench->visitRoom()->desk().logbook().visit();
    const PersonId by = bench->visitRoom()->desk().presses();
    bench.reset(); // the program dies
    open();
    ASSERT_TRUE(bench->workspace().database.run(
        u"INSERT INTO received_visit(visit_id, received_at_ms, received_by) VALUES(:visit, 0, :by)"_s,
        {{u":visit"_s, visit.text()}, {u":by"_s, by.text()}}));

    hand.press(u"goInside"_s);

    EXPECT_FALSE(bench->visitRoom());
    EXPECT_NE(bench->shell().view().stand, ui::ShellView::Stand::AtWork);
    EXPECT_TRUE(visible<ui::SignInPage>());
}

/// Names this file in whatever dialog asks for one.
class FileNamed {
public:
    explicit FileNamed(const QString& file)
    {
        QObject::connect(&m_timer, &QTimer::timeout, &m_timer, [file] {
            if (auto* dialog = qobject_cast<QFileDialog*>(QApplication::activeModalWidget())) {
                dialog->findChild<QLineEdit*>(u"fileNameEdit"_s)->setText(file);
                QMetaObject::invokeMethod(dialog, "accept");
            }
        });
        m_timer.start(1ms);
    }

private:
    QTimer m_timer;
};

TEST_F(WorkbenchTest, SaysWhatWasWrittenWhereAndNothingOfItToWhoeverSignsInNext)
{
    openOwnVisit();
    bench->visitRoom()->page().showWhatWasDone();
    const auto save = [this](const QString& button, const QString& file) {
        const FileNamed named(file);
        hand.press(button);
        return bench->shell().view().strip.text;
    };
    EXPECT_TRUE(
        save(u"saveReport"_s, u"/proc/visit.pdf"_s).startsWith(u"/proc/visit.pdf could not be saved."_s));

    const QString file = folder.filePath(u"visit.pdf"_s);
    EXPECT_EQ(save(u"saveReport"_s, file), u"The report was written to %1."_s.arg(file));
    EXPECT_TRUE(QFile::exists(file));
    const QString record = folder.filePath(u"visit.zip"_s);
    EXPECT_EQ(save(u"saveRecord"_s, record), u"The record was written to %1."_s.arg(record));

    bench->keeper().lock();
    hand.press(u"other"_s);
    EXPECT_EQ(bench->shell().view().stand, ui::ShellView::Stand::SignIn);
    EXPECT_EQ(bench->shell().view().strip.text, QString());
}

TEST_F(WorkbenchTest, ARecordThatCannotBeMadeBecauseASignatureDoesNotVerifySaysSo)
{
    openOwnVisit();
    const VisitId visit = bench->visitRoom()->desk().logbook().visit();
    store::Signature forged = bench->workspace().journal.signatures(visit)->front();
    forged.meaning = u"performed"_s; // the key signed something else
    ASSERT_TRUE(bench->workspace().journal.keep(forged));
    bench->visitRoom()->page().showWhatWasDone();
    for (const QString& button : {u"saveRecord"_s, u"saveReport"_s}) {
        const FileNamed named(folder.filePath(u"visit.out"_s));
        hand.press(button);

        EXPECT_TRUE(bench->shell().view().strip.text.contains(
            u"was not made: what is kept of this visit is not as it was written."_s));
        EXPECT_FALSE(bench->shell().view().strip.text.contains(u"room on the disk"_s));
    }
    look(u"record-not-made"_s);
}

TEST(VisitFilesTest, TheFilesOfAVisitNameItsSiteAndItsDayThere)
{
    const WallTime late{std::chrono::sys_days(std::chrono::year(2026) / 10 / 21) + 23h + 30min};

    EXPECT_EQ(fileNameOf(u"Corn Exchange"_s, late, QTimeZone::utc()), u"corn-exchange-2026-10-21"_s);
    EXPECT_EQ(fileNameOf(u"  K\u00f6nig/../2 "_s, late, QTimeZone(3600)), u"k\u00f6nig-2-2026-10-22"_s);
    EXPECT_EQ(fileNameOf(u"../"_s, late, QTimeZone::utc()), u"visit-2026-10-21"_s);
    EXPECT_TRUE(QDir::isAbsolutePath(amongDocuments(u"a.pdf"_s)));
}

TEST_F(WorkbenchTest, AFileThatIsNoBackupSignsNobodyOutAndTheQuestionIsAboutTheOneAsked)
{
    openOwnWorkspace();
    QString restored;
    QObject::connect(bench.get(), &Workbench::restoreRequested, bench.get(),
                     [&restored](const QString& file) { restored = file; });
    hand.press(u"place-workspace"_s);
    hand.type(u"source"_s, folder.filePath(u"none.backup"_s));
    hand.press(u"restore"_s);
    const auto outcome = [this] { return hand.find<ui::TextLabel>(u"restoreOutcome"_s)->text(); };
    EXPECT_TRUE(outcome().startsWith(u"There is no file "_s)) << outcome().toStdString();
    const QString backup = folder.filePath(u"a.backup"_s);
    hand.type(u"target"_s, backup);
    hand.press(u"backUp"_s);
    ASSERT_TRUE(QFile::exists(backup));

    {
        const FileNamed named(backup);
        hand.press(u"chooseSource"_s);
    }
    hand.press(u"restore"_s);
    look(u"workspace-asked"_s);
    EXPECT_TRUE(hand.find<ui::TextLabel>(u"question"_s)->text().startsWith(u"Put %1 in"_s.arg(backup)));
    hand.type(u"source"_s, folder.filePath(u"none.backup"_s));
    EXPECT_FALSE(bench->window().findChild<QWidget*>(u"question"_s)->isVisible()) << "it was about another";
    EXPECT_TRUE(bench->keeper().who());
    EXPECT_EQ(restored, QString());

    hand.type(u"source"_s, backup);
    hand.press(u"restore"_s);
    hand.press(u"yes"_s);

    EXPECT_EQ(restored, backup);
}

TEST_F(WorkbenchTest, AKeyIsSavedOnceHoweverOftenThePageWasOpened)
{
    openOwnWorkspace();
    hand.press(u"place-people"_s);
    hand.press(u"office"_s);
    hand.press(u"back"_s);
    hand.press(u"office"_s);
    int asked = 0;
    QTimer answers;
    QObject::connect(&answers, &QTimer::timeout, &answers, [&asked] {
        if (auto* dialog = qobject_cast<QFileDialog*>(QApplication::activeModalWidget())) {
            ++asked;
            dialog->reject();
        }
    });
    answers.start(1ms);

    hand.press(*hand.find<QWidget>(u"keys"_s)->findChild<QAbstractButton*>());

    EXPECT_EQ(asked, 1);
}

TEST(LibraryTest, ProvesItsProceduresOnceItIsAskedTo)
{
    const Library fresh(test::sourceFile("resources"));
    EXPECT_FALSE(fresh.isWhole()) << "the first page has the computer to itself";

    EXPECT_FALSE(fresh.proved().procedures.empty());

    EXPECT_TRUE(fresh.isWhole());
    EXPECT_TRUE(fresh.complaints().isEmpty());
}

TEST_F(WorkbenchTest, OffersNoWayPastTheSignInWhileNobodyIsInside)
{
    openOwnVisit();
    bench.reset();
    open();

    EXPECT_FALSE(bench->window().findChild<QWidget*>(u"goInside"_s)->isVisible());
}

TEST_F(WorkbenchTest, AsksForTheNameAndThePassphraseWhenItIsOpenedAgain)
{
    openOwnWorkspace();
    bench.reset();
    open();

    EXPECT_EQ(bench->shell().view().stand, ui::ShellView::Stand::SignIn);
    hand.type(u"secret"_s, u"not the passphrase at all"_s);
    hand.press(u"action"_s);
    EXPECT_EQ(hand.find<ui::TextLabel>(u"message"_s)->text(), u"That is not the passphrase."_s);
    EXPECT_EQ(bench->keeper().state(), ui::SessionKeeper::State::Nobody);
}

TEST_F(WorkbenchTest, SaysThatItOnlyReadsWhereAnotherHoldsTheWorkspace)
{
    open();
    start();
    Workbench second(Outside{clock, ids, settings, theme(), library(), ui::inPlace(), kCheap},
                     store::openWorkspace(file(), {u"workspace-2"_s, clock.now().wall}));

    EXPECT_TRUE(second.shell().view().banner.startsWith(u"Read only"_s));
    EXPECT_EQ(second.shell().view().stand, ui::ShellView::Stand::AtWork);
    EXPECT_EQ(second.shell().view().here, u"visits"_s);
    EXPECT_EQ(second.keeper().state(), ui::SessionKeeper::State::Nobody);
}

TEST_F(WorkbenchTest, ResumesAVisitAfterTheProgramWasStartedAgain)
{
    openOwnVisit();
    bench.reset();
    open();
    signIn();

    look(u"visits-unfinished"_s);
    hand.press(u"action"_s);

    ASSERT_TRUE(bench->visitRoom());
    EXPECT_EQ(bench->visitRoom()->desk().seen().ground->opening.site.site.name, u"Pier Street"_s);
}

// The list that was in sight before may still have it, and where the list of those cannot be read it has them
// all.
TEST_F(WorkbenchTest, AVisitOfAnotherLaptopIsNotWorkedOnHere)
{
    openOwnVisit();
    const VisitId visit = bench->visitRoom()->desk().logbook().visit();
    const QString by = bench->visitRoom()->desk().logbook().entries().first().by.text();
    bench.reset();
    open();
    signIn();
    ASSERT_TRUE(bench->workspace().database.run(
        u"INSERT INTO received_visit(visit_id, received_at_ms, received_by) VALUES(:visit, 0, :by)"_s,
        {{u":visit"_s, visit.text()}, {u":by"_s, by}}));
    bench->showVisit(visit);
    EXPECT_FALSE(bench->visitRoom());

    ASSERT_TRUE(bench->workspace().database.run(u"DROP TABLE received_visit"_s));
    bench->showVisit(visit);
    EXPECT_FALSE(bench->visitRoom()) << "nobody is inside, so nobody is kept waiting there";
}

TEST_F(WorkbenchTest, ShowsTonightOfTheDemo)
{
    openDemoAs(u"okoro"_s);
    look(u"demo-visits"_s);
    for (const auto* row :
         bench->window().findChildren<QAbstractButton*>(QRegularExpression(u"^row-plan:.*"_s))) {
        hand.press(row->objectName());
        look(u"demo-tonight"_s);
        break;
    }
    EXPECT_EQ(hand.find<ui::TickList>(u"kit"_s)->isVisible(), true);
    hand.press(u"action"_s);
    look(u"demo-new-visit"_s);
    hand.press(u"action"_s);
    look(u"demo-bench"_s);
    ASSERT_TRUE(bench->visitRoom());
    hand.press(u"place-people"_s);
    look(u"demo-people"_s);
    hand.press(u"place-sites"_s);
    look(u"demo-sites"_s);
    hand.press(u"place-stock"_s);
    look(u"demo-stock"_s);
}

TEST_F(WorkbenchTest, CodesHaveAPlaceOfTheirOwnWithTheCheckOfTheScannerBehindIt)
{
    openOwnWorkspace();
    teachACode();
    ASSERT_EQ(bench->workspace().taughtRules.standing()->size(), 1);
    EXPECT_EQ(bench->workspace().taughtRules.standing()->first().packageCode, u"77120"_s);

    lookAtScanner();

    EXPECT_TRUE(hand.find<QWidget>(u"teachPage"_s)->isVisible());
}

TEST_F(WorkbenchTest, OpensWhatTheDemoOwesByThreePresses)
{
    openDemoAs(u"okoro"_s);

    hand.press(u"row-owed:old-gasworks-1-left"_s);
    look(u"demo-owed"_s);
    hand.press(u"action"_s);
    look(u"demo-new-visit-owed"_s);
    hand.press(u"action"_s);
    look(u"demo-bench-owed"_s);

    ASSERT_TRUE(bench->visitRoom());
    const visit::VisitState& state = bench->visitRoom()->desk().logbook().state();
    ASSERT_EQ(state.swaps.size(), 1);
    EXPECT_TRUE(state.swaps.first().followsUp);
    EXPECT_EQ(visit::owedSteps(state, state.swaps.first().id), QList<StepId>{StepId(u"measure-screen"_s)});
}

TEST_F(WorkbenchTest, LeadsFromAnEmptyFolderToAnOpenVisit)
{
    openOwnWorkspace();
    addSite();
    addLamp();
    const int before = hand.presses;
    openVisit();

    ASSERT_TRUE(bench->visitRoom());
    const visit::VisitState state = bench->visitRoom()->desk().seen();
    EXPECT_EQ(state.ground->opening.site.site.name, u"Pier Street"_s);
    EXPECT_EQ(state.ground->opening.swaps.size(), 1);
    EXPECT_EQ(state.ground->opening.people.first().name, u"A. Okoro"_s);
    // Visits, New visit, Open: the only site has one screen, the van the lamp, the reason is that it is due.
    EXPECT_EQ(hand.presses - before, 3);
}

} // namespace
} // namespace coldarc::app
