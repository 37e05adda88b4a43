// Each page in both themes, on the smallest laptop and on a desk's display: nothing is clipped there.

#include "tests/app/workbench_fixture.h"
#include "ui/parts/card_lines.h"
#include "ui/parts/field.h"
#include "ui/people/session_keeper.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/book_in_page.h"
#include "ui/visit/sign_off_page.h"

#include <QPlainTextEdit>
#include <QScrollArea>
#include <QScrollBar>

#include <string_view>
#include <utility>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::app {
namespace {

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
    goesRoundByTab = std::string_view(GetParam().name) == "BoothLaptop";
    openOwnWorkspace();
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
    for (const QString& part : {u"points"_s, u"screens"_s, u"lamphouses"_s}) {
        hand.press(hand.find<ui::CardLines>(part)->findChild<QAbstractButton*>()->objectName());
        look(u"sites-"_s + part);
        hand.press(u"leave"_s);
    }
    addLamp();
    hand.find<QPlainTextEdit>(u"pasteBox"_s)->setPlainText(u"HVQ21-40A;HV1;in-van\nnothing\nX;Y;Z"_s);
    hand.press(u"pasteAct"_s);
    look(u"stock-bad-table"_s);
    hand.press(u"place-people"_s);
    look(u"people"_s);
    for (const QString& form : {u"form-5"_s, u"form-1"_s, u"form-2"_s, u"form-3"_s}) {
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
    goesRoundByTab = std::string_view(GetParam().name) == "BoothLaptop";
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

TEST_P(WorkbenchSightTest, NothingIsClippedOnTheWayThroughAVisit)
{
    settings.setValue(u"window/theme"_s, GetParam().theme == ui::ThemeKind::Booth ? u"booth"_s : u"office"_s);
    size = GetParam().size;
    goesRoundByTab = std::string_view(GetParam().name) == "BoothLaptop";
    openOwnVisit();
    const visit::Opening opening = bench->visitRoom()->desk().seen().ground->opening;
    const QString lamphouse = opening.swaps.first().lamphouse.text();
    hand.press(u"place-visits"_s);
    hand.key(Qt::Key_N, Qt::ControlModifier);
    hand.choose(u"lamp-"_s + lamphouse, u"typed"_s);
    hand.type(u"serial-"_s + lamphouse, u"HV00777"_s);
    hand.type(u"hours-"_s + lamphouse, u"1,200"_s);
    hand.press(u"action"_s);
    look(u"new-visit-in-hand"_s);
    hand.press(u"leave"_s);
    hand.press(u"row-visit:"_s + opening.visit.text());
    hand.press(u"action"_s);
    hand.key(Qt::Key_F9);
    look(u"went-wrong"_s);
    hand.key(Qt::Key_Escape);
    hand.key(Qt::Key_F10);
    look(u"people-here"_s);
    hand.key(Qt::Key_Escape);
    hand.press(u"place-people"_s);
    look(u"people-under-a-banner"_s);
    hand.press(u"place-visits"_s);
    for (int turn = 0; turn < 100 && !visible<ui::BookInPage>(); ++turn)
        oneTurn();
    look(u"book-in"_s);
    hand.type(u"box-type"_s, u"HVQ21-4OA"_s);
    hand.type(u"entry-type"_s, u"HVQ21-40A"_s);
    look(u"book-in-differs"_s);
    hand.key(Qt::Key_F4);
    look(u"book-in-picture"_s);
    hand.type(u"box-type"_s, library().catalogue().lampType(lampType())->code);
    ASSERT_TRUE(workUntil(machine::Effect::TryStart));
    clock.sleep(9h);
    bench->keeper().lock();
    hand.settle();
    hand.type(u"pin"_s, kPin);
    hand.key(Qt::Key_Return);
    bench->visitRoom()->page().refresh();
    look(u"locks-after-a-night"_s);
    ASSERT_TRUE(visible<ui::BenchPage>());
    EXPECT_EQ(visible<ui::BenchPage>()->view().card.title, u"Do your locks still hang?"_s);
    hand.key(Qt::Key_F12);
    look(u"make-safe"_s);
    hand.key(Qt::Key_Return);
    for (int turn = 0; turn < 40 && !visible<ui::SignOffPage>(); ++turn)
        oneTurn();
    ASSERT_TRUE(visible<ui::SignOffPage>());
    look(u"sign-off"_s);
}

TEST_P(WorkbenchSightTest, NothingIsClippedWhereTheListsAreLong)
{
    settings.setValue(u"window/theme"_s, GetParam().theme == ui::ThemeKind::Booth ? u"booth"_s : u"office"_s);
    size = GetParam().size;
    goesRoundByTab = std::string_view(GetParam().name) == "BoothLaptop";
    openDemoAs(u"okoro"_s);
    look(u"visits"_s);
    hand.key(Qt::Key_K, Qt::ControlModifier);
    const bool wentRound = std::exchange(goesRoundByTab, false); // it holds the keys until it is left
    look(u"finder"_s);
    goesRoundByTab = wentRound;
    hand.key(Qt::Key_Escape);
    hand.press(u"place-sites"_s);
    hand.press(u"form-1"_s);
    const QString longName = u"The Old Corn Exchange and Assembly Rooms Picture House, Upper Auditorium"_s;
    hand.type(u"name"_s, longName);
    hand.type(u"town"_s, u"Saltwick Bay by Westhollow-under-Aldermere"_s);
    hand.press(hand.find<QWidget>(u"sideScroll"_s)->findChild<QAbstractButton*>()->objectName());
    look(u"form-that-stays"_s);
    hand.press(u"keep"_s);
    look(u"site-with-a-long-name"_s);
    hand.press(u"place-visits"_s);
    hand.press(u"newVisit"_s);
    look(u"new-visit-of-many"_s);
    bench->keeper().lock();
    hand.press(u"other"_s);
    hand.press(u"row-okoro"_s);
    hand.type(u"secret"_s, u"nine cold lamps at the pier"_s);
    hand.press(u"action"_s);
    hand.type(u"secret"_s, u"111111"_s);
    hand.type(u"again"_s, u"111111"_s);
    hand.press(u"action"_s);
    look(u"pin-refused"_s);
}

INSTANTIATE_TEST_SUITE_P(Sights, WorkbenchSightTest,
                         ::testing::Values(Sight{"BoothLaptop", ui::ThemeKind::Booth, {1366, 768}},
                                           Sight{"OfficeLaptop", ui::ThemeKind::Office, {1366, 768}},
                                           Sight{"BoothDesk", ui::ThemeKind::Booth, {1920, 1080}},
                                           Sight{"OfficeDesk", ui::ThemeKind::Office, {1920, 1080}}),
                         [](const auto& instance) { return std::string(instance.param.name); });

} // namespace
} // namespace coldarc::app
