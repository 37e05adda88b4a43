// Each page in both themes, on the smallest laptop and on a desk's display: nothing is clipped there.

#include "tests/app/workbench_fixture.h"
#include "ui/parts/field.h"
#include "ui/people/session_keeper.h"

#include <QPlainTextEdit>
#include <QScrollArea>
#include <QScrollBar>

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
