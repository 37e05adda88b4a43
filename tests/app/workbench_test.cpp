#include "app/workbench.h"

#include "app/demo.h"
#include "app/record_verify.h"
#include "app/review_reading.h"
#include "app/review_room.h"
#include "app/signature_check.h"
#include "app/visit_room.h"
#include "core/people/sign_in.h"
#include "core/review/summary.h"
#include "core/store/backup.h"
#include "core/store/workspace_file.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"
#include "ui/parts/action_button.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/combo_field.h"
#include "ui/parts/field.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/strip.h"
#include "ui/parts/text_label.h"
#include "ui/people/people_words.h"
#include "ui/people/sign_in_page.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/book_in_page.h"

#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QDir>
#include <QFileDialog>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QRegularExpression>
#include <QScrollArea>
#include <QScrollBar>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>
#include <QTimer>

#include <cstdio>
#include <memory>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::app {
namespace {

/// Cheap to guess at: for tests only.
constexpr people::GuessCost kCheap{1, 8};
const QString kPassphrase = u"a long walk by the river"_s;
const QString kPin = u"604193"_s;

const Library& library()
{
    static const Library kLibrary(test::sourceFile("resources"));
    return kLibrary;
}

ui::Theme& theme()
{
    static ui::Theme kTheme(*qApp);
    return kTheme;
}

/// Presses and types like somebody at the laptop, and counts both.
class Hand {
public:
    explicit Hand(test::FakeClock& clock)
        : m_clock(clock)
    {
    }
    void sitAt(QWidget& window) { m_window = &window; }

    template<class Kind = QWidget>
    [[nodiscard]] Kind* find(const QString& name) const
    {
        const auto all = m_window->findChildren<Kind*>(name);
        for (Kind* one : all) {
            if (one->isVisible())
                return one;
        }
        ADD_FAILURE() << "nothing of this name is in sight: " << name.toStdString();
        return nullptr;
    }
    void press(const QString& name)
    {
        settle();
        if (auto* button = find<QAbstractButton>(name))
            press(*button);
    }
    void press(QAbstractButton& button)
    {
        ++presses;
        QTest::mouseClick(&button, Qt::LeftButton);
        settle();
    }
    void key(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier)
    {
        ++presses;
        QWidget* focus = QApplication::focusWidget();
        QTest::keyClick(focus && m_window->isAncestorOf(focus) ? focus : m_window, key, with);
        settle();
    }
    void type(const QString& field, const QString& text)
    {
        auto* whole = find<QWidget>(field);
        auto* box = whole ? whole->findChild<QLineEdit*>() : nullptr;
        ASSERT_TRUE(box) << field.toStdString();
        if (!box->hasFocus())
            ++presses; // a Tab or a click to get there
        box->setFocus();
        box->selectAll();
        for (const QChar letter : text) {
            m_clock.advance(120ms); // no scanner is as slow
            QTest::keyClicks(box, letter);
        }
        typed += static_cast<int>(text.size());
        settle();
    }
    void choose(const QString& combo, const QString& id)
    {
        auto* whole = find<ui::ComboField>(combo);
        ASSERT_TRUE(whole) << combo.toStdString();
        const int index = whole->box()->findData(id);
        ASSERT_GE(index, 0) << id.toStdString();
        whole->box()->setCurrentIndex(index);
        Q_EMIT whole->box()->activated(index);
        presses += 2;
        settle();
    }
    /// The presses that a step just shown does not take, and what they brought.
    void settle()
    {
        m_clock.advance(1s);
        for (auto* page : m_window->findChildren<ui::VisitPage*>())
            page->scanner().lookAgain();
        QApplication::sendPostedEvents();
        for (int count = 0; count < 3; ++count)
            QApplication::processEvents();
    }

    int presses = 0;
    int typed = 0;

private:
    test::FakeClock& m_clock;
    QWidget* m_window = nullptr;
};

class WorkbenchTest : public ::testing::Test {
protected:
    void open()
    {
        store::OpenAnswer opened = store::openWorkspace(file(), {u"workspace-1"_s, clock.now().wall});
        ASSERT_TRUE(opened.database) << opened.detail.toStdString();
        bench = std::make_unique<Workbench>(
            Workbench::Outside{clock, ids, settings, theme(), library(), ui::inPlace(), kCheap},
            std::move(opened));
        bench->window().resize(size);
        bench->window().show();
        qApp->installEventFilter(&bench->window()); // as main does
        hand.sitAt(bench->window());
        hand.settle();
    }
    [[nodiscard]] QString file() const { return folder.filePath(u"work.coldarc"_s); }

    void start()
    {
        hand.type(u"workspace"_s, u"North"_s);
        hand.type(u"name"_s, u"A. Okoro"_s);
        hand.type(u"passphrase"_s, kPassphrase);
        hand.type(u"again"_s, kPassphrase);
        for (const QString& duty : {u"lamp-swap"_s, u"prove-absence"_s, u"supervise"_s})
            hand.press(u"tick-"_s + duty);
        look(u"start"_s);
        hand.press(u"action"_s);
    }
    void signIn()
    {
        look(u"sign-in"_s);
        hand.type(u"secret"_s, kPassphrase);
        hand.press(u"action"_s);
        look(u"pin"_s);
        hand.type(u"secret"_s, kPin);
        hand.type(u"again"_s, kPin);
        hand.press(u"action"_s);
    }
    /// The demo, with this person signed in.
    void openDemoAs(const QString& id)
    {
        const DemoRecipe recipe{test::sourceFile("sample-data"),
                                {library().catalogue(), library().proved()},
                                clock.now(),
                                1,
                                ids,
                                people::SigningKey::generate,
                                kCheap};
        ASSERT_TRUE(makeDemo(file(), recipe));
        const auto demo = readDemoPeople(test::sourceFile("sample-data"));
        ASSERT_TRUE(demo);
        const auto who = std::ranges::find_if(
            demo->people, [&](const DemoPerson& one) { return one.person.id == PersonId(id); });
        ASSERT_NE(who, demo->people.end());
        open();
        hand.press(u"row-"_s + id);
        hand.type(u"secret"_s, who->passphrase);
        hand.press(u"action"_s);
        hand.type(u"secret"_s, kPin);
        hand.type(u"again"_s, kPin);
        hand.press(u"action"_s);
    }
    void addSite()
    {
        hand.press(u"place-sites"_s);
        look(u"sites-empty"_s);
        hand.press(u"form-1"_s);
        hand.type(u"name"_s, u"Pier Street"_s);
        hand.press(u"keep"_s);
        look(u"site-new"_s);
        hand.press(u"form-3"_s);
        hand.type(u"name"_s, u"Screen 2"_s);
        hand.choose(u"model"_s, u"larkmoor-teal"_s);
        const auto* model = library().catalogue().model(ModelId(u"larkmoor-teal"_s));
        for (qsizetype role = 0; role < model->isolation.size(); ++role) {
            hand.type(u"panel-%1"_s.arg(role), u"B"_s);
            hand.type(u"circuit-%1"_s.arg(role), QString::number(14 + role));
        }
        look(u"site-screen"_s);
        hand.press(u"keep"_s);
        look(u"site"_s);
    }
    void teachACode()
    {
        hand.press(u"place-labels"_s);
        look(u"codes"_s);
        hand.find<ui::Field>(u"pasted"_s)
            ->box()
            ->setText(u"]C0ORDER 77120/00417"_s); // keyed it would be a scan
        hand.press(u"take"_s);
        look(u"codes-one-in-hand"_s);
        hand.choose(u"typePart"_s, u"3"_s);
        hand.choose(u"serialPart"_s, u"4"_s);
        hand.choose(u"lampType"_s, u"hollin-30b"_s);
        look(u"codes-marked"_s);
        clock.advance(2s);
        hand.press(u"action"_s);
        look(u"codes-taught"_s);
    }
    void lookAtScanner()
    {
        hand.press(u"scanner"_s);
        look(u"scanner"_s);
        EXPECT_TRUE(hand.find<QWidget>(u"setUpCode"_s)->isVisible());
        hand.press(u"back"_s);
    }
    /// Of the visit that is open: its lamphouse, its lamp, whoever works on it.
    void lookAtHistories()
    {
        hand.press(u"place-histories"_s);
        look(u"histories"_s);
        for (const QString& about : {u"lamphouse"_s, u"person"_s, u"lamp"_s}) {
            hand.press(u"choice-"_s + about);
            hand.press(*hand.find<QWidget>(u"found"_s)->findChild<QAbstractButton*>());
            look(u"history-of-a-"_s + about);
        }
    }
    void addLamp()
    {
        hand.press(u"place-stock"_s);
        look(u"stock-empty"_s);
        hand.choose(u"type"_s, lampType().text());
        hand.type(u"serial"_s, u"HV00123"_s);
        hand.press(u"add"_s);
        look(u"stock"_s);
    }
    void openVisit()
    {
        hand.press(u"place-visits"_s);
        look(u"visits-empty"_s);
        hand.press(u"newVisit"_s);
        look(u"new-visit"_s);
        hand.press(u"action"_s);
        look(u"bench"_s);
    }
    /// The shortest visit there is: somebody is hurt, and nobody is waited for.
    template<class Tell>
    static void endAtOnce(Tell tell)
    {
        visit::Happened hurt;
        hurt.incident = visit::Incident::SomeoneHurt;
        tell(hurt);
        tell(visit::Closed{});
    }
    /// Answers whatever the bench asks by its first choice until this was done, and waits where it waits.
    bool workUntil(machine::Effect effect)
    {
        for (int turn = 0; turn < 400 && bench->visitRoom(); ++turn) {
            const auto& entries = bench->visitRoom()->desk().logbook().entries();
            for (const visit::Entry& entry : entries) {
                const auto* did = std::get_if<visit::Did>(&entry.body);
                if (did && did->act && did->act->effect == effect)
                    return true;
            }
            oneTurn();
        }
        return false;
    }
    void oneTurn()
    {
        hand.settle();
        bench->visitRoom()->page().refresh();
        if (auto* bookIn = visible<ui::BookInPage>()) {
            for (QLineEdit* box : bookIn->findChildren<QLineEdit*>()) {
                const QString name = box->parentWidget()->objectName();
                if (box->isVisible() && box->text().isEmpty())
                    hand.type(name, name.endsWith(u"-type"_s)
                                        ? library().catalogue().lampType(lampType())->code
                                        : u"HV00123"_s);
            }
            return hand.press(u"action"_s);
        }
        auto* page = visible<ui::BenchPage>();
        ASSERT_TRUE(page);
        const ui::StepCard card = page->view().card;
        for (const ui::CaptureView& capture : card.captures) {
            auto* widget = page->findChild<QWidget*>(u"capture-"_s + capture.id);
            if (!widget || !capture.value.isEmpty() || capture.isOptional)
                continue;
            if (capture.kind == ui::CaptureView::Kind::Text ||
                capture.kind == ui::CaptureView::Kind::Number) {
                hand.type(widget->objectName(), u"18"_s);
            } else {
                if (qobject_cast<QLineEdit*>(QApplication::focusWidget()))
                    hand.key(Qt::Key_Return); // out of the box, so that a number answers
                hand.key(Qt::Key_1);
            }
        }
        if (page->view().card.stepKey != card.stepKey)
            return; // its last answer was its last press
        if (page->view().card.action.stand == ui::ActionView::Stand::Waits && page->view().card.wait)
            clock.advance(30s);
        hand.key(Qt::Key_PageDown);
    }
    template<class Page>
    [[nodiscard]] Page* visible() const
    {
        const auto pages = bench->window().findChildren<Page*>();
        for (Page* page : pages) {
            if (page->isVisible())
                return page;
        }
        return nullptr;
    }
    [[nodiscard]] static LampTypeId lampType()
    {
        return library().catalogue().model(ModelId(u"larkmoor-teal"_s))->lampTypes.first();
    }

    /// Saves what is in sight for people to look at, where COLDARC_PICTURES names a folder; always checks
    /// that nothing is clipped.
    void look(const QString& name)
    {
        hand.settle();
        if (const QString pictures = qEnvironmentVariable("COLDARC_PICTURES"); !pictures.isEmpty()) {
            const QString kind = theme().kind() == ui::ThemeKind::Booth ? u"booth"_s : u"office"_s;
            bench->window().grab().save(
                QDir(pictures).filePath(u"%1-%2-%3.png"_s.arg(name, kind).arg(size.width())));
        }
        for (const auto* label : bench->window().findChildren<ui::TextLabel*>()) {
            EXPECT_TRUE(!label->isVisible() || label->fits())
                << name.toStdString() << ": " << label->text().toStdString() << ": " << label->width() << "x"
                << label->height() << ", needs " << label->heightForWidth(label->width());
        }
        for (const auto* button : bench->window().findChildren<ui::PaintedButton*>())
            EXPECT_TRUE(!button->isVisible() || button->fits())
                << name.toStdString() << ": " << button->text().toStdString();
    }

    QTemporaryDir folder;
    QSettings settings{folder.filePath(u"settings.ini"_s), QSettings::IniFormat};
    test::FakeClock clock;
    test::CountingIds ids;
    QSize size{1366, 768};
    std::unique_ptr<Workbench> bench;
    Hand hand{clock};
};

TEST_F(WorkbenchTest, LeadsFromAnEmptyFolderToLampOff)
{
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();

    const bool isOff = workUntil(machine::Effect::LampOff);

    look(u"lamp-off"_s);
    EXPECT_TRUE(isOff);
    // Nobody's count is a promise; it is told so that a change of it is seen.
    RecordProperty("presses", hand.presses);
    RecordProperty("typed", hand.typed);
    std::printf("from an empty folder to lamp-off: %d presses, %d characters typed\n", hand.presses,
                hand.typed);
}

TEST_F(WorkbenchTest, SignsWhatTheVisitAsksForWithTheKeyOfWhoeverWorksHere)
{
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();

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
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
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
    open();
    start();
    signIn();
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
    const QString thumbprint = hand.find<QLabel>(u"thumbprint"_s)->text();
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
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
    const VisitId visit = bench->visitRoom()->desk().logbook().visit();
    const auto sound = brokenSignatures(bench->workspace(), visit);
    ASSERT_TRUE(sound);
    EXPECT_TRUE(sound->isEmpty());
    store::Signature forged = bench->workspace().journal.signatures(visit)->front();
    forged.meaning = u"performed"_s; // the key signed something else
    ASSERT_TRUE(bench->workspace().journal.keep(forged));

    const auto broken = brokenSignatures(bench->workspace(), visit);

    ASSERT_TRUE(broken);
    EXPECT_EQ(*broken, (QList<ui::WantedSignature>{{forged.seq.value(), forged.person, u"performed"_s}}));
}

TEST_F(WorkbenchTest, TheCommandFinderLeadsFromABenchToTheHistoryOfItsLamphouse)
{
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
    hand.key(Qt::Key_K, Qt::ControlModifier);
    QTest::keyClicks(QApplication::focusWidget(), u"history of the lamphouse"_s);
    hand.key(Qt::Key_Return);

    EXPECT_EQ(bench->shell().view().here, u"histories"_s);
    EXPECT_EQ(hand.find<QLabel>(u"title"_s)->text(), u"Pier Street, Screen 2"_s);
}

TEST_F(WorkbenchTest, AHistoryLeadsToTheEntryOfTheVisitThatSaysIt)
{
    open();
    start();
    signIn();
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
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
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
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
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

TEST_F(WorkbenchTest, APressThatFindsTheWorkspaceBusyIsNotBlamedOnAFullDisk)
{
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
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
}

TEST_F(WorkbenchTest, SettlesAVisitAsSoonAsItsEndIsWritten)
{
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
    VisitRoom& room = *bench->visitRoom();
    const VisitId visit = room.desk().logbook().visit();
    endAtOnce([&](const visit::Body& body) { room.desk().tell(room.desk().presses(), body); });

    EXPECT_FALSE(room.desk().logbook().state().end.isEmpty());
    EXPECT_TRUE(bench->workspace().settlements.isSettled(visit).value());
}

TEST_F(WorkbenchTest, SettlesAtItsOpeningWhatWasClosedAndNotSettled)
{
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
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
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
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
    open();
    start();
    signIn();
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
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
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
    EXPECT_EQ(room.desk().logbook().entries().size(), before + 1);
    EXPECT_EQ(bench->keeper().state(), ui::SessionKeeper::State::Nobody);
}

TEST_F(WorkbenchTest, TheListOfTheVisitsStaysShutWhereTheBenchInsideDoesNotOpen)
{
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
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

TEST_F(WorkbenchTest, AKeyIsSavedOnceHoweverOftenThePageWasOpened)
{
    open();
    start();
    signIn();
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
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
    bench.reset();
    open();

    EXPECT_FALSE(bench->window().findChild<QWidget*>(u"goInside"_s)->isVisible());
}

TEST_F(WorkbenchTest, AsksForTheNameAndThePassphraseWhenItIsOpenedAgain)
{
    open();
    start();
    signIn();
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
    Workbench second(Workbench::Outside{clock, ids, settings, theme(), library(), ui::inPlace(), kCheap},
                     store::openWorkspace(file(), {u"workspace-2"_s, clock.now().wall}));

    EXPECT_TRUE(second.shell().view().banner.startsWith(u"Read only"_s));
    EXPECT_EQ(second.shell().view().stand, ui::ShellView::Stand::SignIn);
}

TEST_F(WorkbenchTest, ResumesAVisitAfterTheProgramWasStartedAgain)
{
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
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
    open();
    start();
    signIn();
    addSite();
    addLamp();
    openVisit();
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
    const DemoRecipe recipe{test::sourceFile("sample-data"),
                            {library().catalogue(), library().proved()},
                            clock.now(),
                            1,
                            ids,
                            people::SigningKey::generate,
                            kCheap};
    const auto made = makeDemo(file(), recipe);
    ASSERT_TRUE(made) << made.error().detail.toStdString();
    const auto demo = readDemoPeople(test::sourceFile("sample-data"));
    ASSERT_TRUE(demo);
    open();
    look(u"demo-sign-in"_s);
    const DemoPerson& engineer = demo->people.first();
    hand.press(u"row-"_s + engineer.person.id.text());
    hand.type(u"secret"_s, engineer.passphrase);
    hand.press(u"action"_s);
    hand.type(u"secret"_s, kPin);
    hand.type(u"again"_s, kPin);
    hand.press(u"action"_s);
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
    open();
    start();
    signIn();
    teachACode();
    ASSERT_EQ(bench->workspace().taughtRules.standing()->size(), 1);
    EXPECT_EQ(bench->workspace().taughtRules.standing()->first().packageCode, u"77120"_s);

    lookAtScanner();

    EXPECT_TRUE(hand.find<QWidget>(u"teachPage"_s)->isVisible());
}

TEST_F(WorkbenchTest, OpensWhatTheDemoOwesByThreePresses)
{
    const DemoRecipe recipe{test::sourceFile("sample-data"),
                            {library().catalogue(), library().proved()},
                            clock.now(),
                            1,
                            ids,
                            people::SigningKey::generate,
                            kCheap};
    const auto made = makeDemo(file(), recipe);
    ASSERT_TRUE(made) << made.error().detail.toStdString();
    const auto demo = readDemoPeople(test::sourceFile("sample-data"));
    ASSERT_TRUE(demo);
    open();
    const DemoPerson& engineer = demo->people.first();
    hand.press(u"row-"_s + engineer.person.id.text());
    hand.type(u"secret"_s, engineer.passphrase);
    hand.press(u"action"_s);
    hand.type(u"secret"_s, kPin);
    hand.type(u"again"_s, kPin);
    hand.press(u"action"_s);

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

TEST_F(WorkbenchTest, TheReviewDeskIsForWhoeverMaySupervise)
{
    openDemoAs(u"duarte"_s);
    hand.key(Qt::Key_8, Qt::ControlModifier);

    ASSERT_EQ(bench->shell().view().here, u"review"_s);
    auto* count = hand.find<ui::TextLabel>(u"count"_s);
    ASSERT_TRUE(count);
    EXPECT_TRUE(count->text().contains(u"signed visits wait"_s)) << count->text().toStdString();
    EXPECT_FALSE(hand.find<ui::TextLabel>(u"title"_s)->text().isEmpty());
}

TEST_F(WorkbenchTest, AVisitIsAcceptedWithOnePressAndThePaperIsKept)
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

TEST_F(WorkbenchTest, TheDeskIsWorkedByKeyboardAlone)
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

TEST_F(WorkbenchTest, AVisitThatWasLookedUpIsStillOnTheDeskAfterALookElsewhere)
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

TEST_F(WorkbenchTest, AnAcceptanceByAKeyThatWasOutOfUseByThenComesBackIntoTheQueue)
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

TEST_F(WorkbenchTest, ASignatureByAKeyThatWasOutOfUseByThenDoesNotCountOnTheDesk)
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

TEST_F(WorkbenchTest, AReviewOfEntriesThatCannotBeReadAnyMoreCountsForNobody)
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

TEST_F(WorkbenchTest, AnAlteredReviewIsToldOnTheDeskAndOnTheListOfVisits)
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

TEST_F(WorkbenchTest, TheDeskLeadsToTheHistoryOfALamphouse)
{
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    const QString row = bench->reviewRoom()->presenter().view().histories.first().id;

    hand.press(u"row-"_s + row);

    EXPECT_EQ(bench->shell().view().here, u"histories"_s);
    look(u"history-of-lamphouse"_s);
}

TEST_F(WorkbenchTest, AVisitOfOnesOwnIsReviewedBySomebodyElse)
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
TEST_F(WorkbenchTest, WhoeverMaySuperviseNoLongerSignsNoReviewThatIsStillInSight)
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

TEST_F(WorkbenchTest, AKeyThatIsOutOfUseSignsNoReviewThoughItIsOpen)
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

TEST_F(WorkbenchTest, AVisitThatGrewSinceItWasReadIsNotSigned)
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

TEST_F(WorkbenchTest, WhatIsSentBackReachesTheEngineerAndTheAnswerReachesTheSupervisor)
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

TEST_F(WorkbenchTest, NobodyElseIsOfferedTheReviewDesk)
{
    openDemoAs(u"okoro"_s);

    EXPECT_FALSE(bench->window().findChild<QAbstractButton*>(u"place-review"_s));
    hand.key(Qt::Key_8, Qt::ControlModifier);
    EXPECT_EQ(bench->shell().view().here, u"visits"_s);
}

TEST_F(WorkbenchTest, LeadsFromAnEmptyFolderToAnOpenVisit)
{
    open();
    start();
    signIn();
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

struct Sight {
    const char* name;
    ui::ThemeKind theme;
    QSize size;

    friend void PrintTo(const Sight& s, std::ostream* out) { *out << s.name; }
};

class WorkbenchSightTest : public WorkbenchTest, public ::testing::WithParamInterface<Sight> {};

TEST_P(WorkbenchSightTest, NothingIsClippedOnAnyPage)
{
    settings.setValue(u"window/theme"_s, GetParam().theme == ui::ThemeKind::Booth ? u"booth"_s : u"office"_s);
    size = GetParam().size;
    open();
    start();
    signIn();
    addSite();
    for (const QString& form : {u"form-2"_s, u"form-6"_s}) {
        hand.press(u"place-sites"_s);
        if (form == u"form-2"_s)
            hand.press(u"act-prover"_s);
        else
            hand.press(form);
        look(u"sites-"_s + form);
        if (form == u"form-6"_s) {
            hand.find<QPlainTextEdit>(u"pasteBox"_s)->setPlainText(u"screen;model\nA;B;C"_s);
            hand.press(u"pasteAct"_s);
            look(u"sites-bad-table"_s);
        }
        hand.press(u"leave"_s);
    }
    addLamp();
    hand.find<QPlainTextEdit>(u"pasteBox"_s)->setPlainText(u"HVQ21-40A;HV1;in-van\nnothing\nX;Y;Z"_s);
    hand.press(u"pasteAct"_s);
    look(u"stock-bad-table"_s);
    hand.press(u"place-people"_s);
    look(u"people"_s);
    for (const QString& form : {u"form-1"_s, u"form-2"_s, u"form-3"_s}) {
        hand.press(form);
        look(u"people-"_s + form);
        hand.press(u"keep"_s);
        look(u"people-wrong-"_s + form);
        if (form == u"form-1"_s) { // somebody to give to: nobody who supervises gives themselves more
            hand.type(u"name"_s, u"E. Brandt"_s);
            hand.press(u"choice-electrician"_s);
            hand.type(u"passphrase"_s, u"red black and nothing between"_s);
            hand.type(u"again"_s, u"red black and nothing between"_s);
            hand.press(u"keep"_s);
            look(u"people-electrician"_s);
            continue;
        }
        hand.press(u"leave"_s);
    }
    hand.press(u"office"_s);
    look(u"office"_s);
    hand.press(u"found"_s);
    hand.press(u"keep"_s);
    look(u"office-wrong"_s);
    hand.press(u"leave"_s);
    hand.press(u"back"_s);
    hand.press(u"place-records"_s);
    look(u"records"_s);
    hand.press(u"place-workspace"_s);
    look(u"workspace"_s);
    hand.type(u"target"_s, folder.filePath(u"a.backup"_s));
    hand.press(u"backUp"_s);
    look(u"backed-up"_s);
    teachACode();
    lookAtScanner();
    bench->keeper().lock();
    look(u"locked"_s);
    hand.type(u"pin"_s, u"111222"_s);
    hand.key(Qt::Key_Return);
    look(u"wrong-pin"_s);
    hand.type(u"pin"_s, kPin);
    hand.key(Qt::Key_Return);
    openVisit();
    hand.key(Qt::Key_F11);
    look(u"what-was-done"_s);
    lookAtHistories();
}

TEST_P(WorkbenchSightTest, NothingIsClippedOnTheReviewDesk)
{
    settings.setValue(u"window/theme"_s, GetParam().theme == ui::ThemeKind::Booth ? u"booth"_s : u"office"_s);
    size = GetParam().size;
    openDemoAs(u"duarte"_s);
    hand.press(u"place-review"_s);
    look(u"review"_s);
    auto* scroll = hand.find<QScrollArea>(u"visitScroll"_s);
    for (int part = 1; part <= 3; ++part) {
        scroll->verticalScrollBar()->setValue(scroll->verticalScrollBar()->maximum() * part / 3);
        look(u"review-below-%1"_s.arg(part));
    }
    hand.key(Qt::Key_N);
    look(u"review-next"_s);
    hand.key(Qt::Key_R);
    look(u"review-remark"_s);
    hand.find<QPlainTextEdit>(u"box"_s)->setPlainText(u"Which lamp was this?"_s);
    hand.press(u"action"_s);
    look(u"review-remarked"_s);
    hand.key(Qt::Key_S);
    look(u"review-send-back"_s);
    hand.key(Qt::Key_Escape);
    hand.key(Qt::Key_F);
    look(u"review-filter"_s);
    hand.type(u"filterText"_s, u"nowhere"_s);
    look(u"review-none"_s);
}

INSTANTIATE_TEST_SUITE_P(Sights, WorkbenchSightTest,
                         ::testing::Values(Sight{"BoothLaptop", ui::ThemeKind::Booth, {1366, 768}},
                                           Sight{"OfficeLaptop", ui::ThemeKind::Office, {1366, 768}},
                                           Sight{"BoothDesk", ui::ThemeKind::Booth, {1920, 1080}},
                                           Sight{"OfficeDesk", ui::ThemeKind::Office, {1920, 1080}}),
                         [](const auto& instance) { return std::string(instance.param.name); });

} // namespace
} // namespace coldarc::app
