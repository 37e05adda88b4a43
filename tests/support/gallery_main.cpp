#include "tests/support/fake_clock.h"
#include "tests/support/gallery_views.h"
#include "tests/support/light_cases.h"
#include "tests/support/sheet_cases.h"
#include "ui/alignment/light_page.h"
#include "ui/machine/machine_drawing.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/command_finder.h"
#include "ui/parts/field.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/photometry/sheet_page.h"
#include "ui/visit/bench_page.h"

#include <QApplication>
#include <QDir>
#include <QGridLayout>
#include <QPixmap>
#include <QVBoxLayout>

#include <array>
#include <cstdio>
#include <string_view>
#include <utility>

// Draws every part and the bench in several states, both themes and both sizes, as pictures for people to
// look at:
//   QT_QPA_PLATFORM=offscreen coldarc_gallery <folder>

namespace {

using namespace Qt::StringLiterals;
using namespace coldarc;
using namespace coldarc::ui;

void settle()
{
    for (int i = 0; i < 4; ++i)
        QApplication::processEvents();
}

void save(QWidget& widget, QSize size, const QDir& folder, const QString& name)
{
    widget.resize(size);
    widget.show();
    settle();
    widget.grab().save(folder.filePath(name + u".png"_s));
}

void drawBenches(const QDir& folder, const QString& theme)
{
    const test::FakeClock clock;
    for (const test::BenchCase& one : test::benchCases()) {
        for (const QSize size : {QSize(1366, 768), QSize(1920, 1080)}) {
            BenchPage page(clock);
            page.setView(one.view);
            save(page, size, folder,
                 u"bench-%1-%2-%3"_s.arg(QString::fromLatin1(one.name), theme).arg(size.width()));
        }
    }
}

void drawLights(const QDir& folder, const QString& theme)
{
    const test::FakeClock clock;
    for (const test::LightCase& one : test::lightCases()) {
        for (const QSize size : {QSize(1366, 768), QSize(1920, 1080)}) {
            LightPage page(clock);
            page.setView(one.view);
            save(page, size, folder,
                 u"light-%1-%2-%3"_s.arg(QString::fromLatin1(one.name), theme).arg(size.width()));
        }
    }
}

void drawSheets(const QDir& folder, const QString& theme)
{
    const test::FakeClock clock;
    for (const test::SheetCase& one : test::sheetCases()) {
        for (const QSize size : {QSize(1366, 768), QSize(1920, 1080)}) {
            SheetPage page(clock);
            page.setView(one.view);
            save(page, size, folder,
                 u"sheet-%1-%2-%3"_s.arg(QString::fromLatin1(one.name), theme).arg(size.width()));
        }
    }
}

void addSignals(QVBoxLayout* column, QWidget* page)
{
    auto* group = new SignalGroup(page);
    group->setView(
        u"Before anything is opened"_s,
        {{SignalWord::Danger,
          u"Voltage was found. It will kill. Step away, put the covers on, isolate again."_s},
         {SignalWord::Warning, u"Quartz under pressure, cold or hot: it can burst and cut. Shield down."_s},
         {SignalWord::Caution, u"Caps burn skin long after Cold. Gloves stay on."_s},
         {SignalWord::Notice, u"Fingerprints burn into the quartz. Clean gloves."_s}});
    column->addWidget(group);
}

void addButtons(QVBoxLayout* column, QWidget* page, const Clock& clock)
{
    auto* grid = new QGridLayout;
    grid->setSpacing(16);
    auto* ready = new ActionButton(clock, page);
    ready->setView({u"a"_s, u"Set and read"_s, QString(), ActionView::Stand::Ready});
    auto* waits = new ActionButton(clock, page);
    waits->setView({u"b"_s, QString(), u"Waits for Cold, 6:41"_s, ActionView::Stand::Waits});
    auto* strong = new PlainButton(u"MAKE SAFE"_s, Reach::Glove, PlainButton::Weight::Strong, page);
    strong->setSub(u"leads to: as it was"_s);
    auto* plain = new PlainButton(u"Something went wrong"_s, Reach::Glove, PlainButton::Weight::Quiet, page);
    plain->setKeyCap(u"F9"_s);
    auto* off = new PlainButton(u"Report"_s, Reach::Hand, PlainButton::Weight::Quiet, page);
    off->setEnabled(false);
    grid->addWidget(ready, 0, 0);
    grid->addWidget(waits, 0, 1);
    grid->addWidget(strong, 1, 0);
    grid->addWidget(plain, 1, 1);
    grid->addWidget(off, 2, 0);
    column->addLayout(grid);
}

void addAsking(QVBoxLayout* column, QWidget* page)
{
    auto* choice = new ChoiceRow(page);
    choice->setView({u"Which breaker was moved?"_s,
                     {{u"a"_s, u"B 12"_s}, {u"b"_s, u"B 14"_s}, {u"c"_s, u"none of these"_s}},
                     u"b"_s,
                     u"B 14 feeds Screen 4 too."_s,
                     Reach::Glove});
    auto* ticks = new TickList(page);
    ticks->setView({u"Gear of A. Okoro"_s,
                    {{u"a"_s, u"Face shield, down"_s, u"Z87+, 2027-05"_s}, {u"b"_s, u"Gloves"_s, QString()}},
                    {u"a"_s},
                    QString(),
                    Reach::Glove});
    auto* field = new Field(Field::Kind::Number, page);
    field->setView(
        {u"Lamp hour counter"_s, u"12O4"_s, u"h"_s, QString(), u"The third sign is the letter O."_s});
    column->addWidget(choice);
    column->addWidget(ticks);
    column->addWidget(field);
}

void drawParts(const QDir& folder, const QString& theme)
{
    const test::FakeClock clock;
    QWidget page;
    auto* columns = new QHBoxLayout(&page);
    columns->setContentsMargins(32, 32, 32, 32);
    columns->setSpacing(48);
    auto* left = new QVBoxLayout;
    left->setSpacing(24);
    auto* right = new QVBoxLayout;
    right->setSpacing(24);
    columns->addLayout(left, 1);
    columns->addLayout(right, 1);
    addSignals(left, &page);
    addButtons(left, &page, clock);
    auto* strip = new Strip(&page);
    strip->setView({u"Screen 4 has settled."_s, u"Go to Screen 4"_s, u"F2"_s, StripView::Call::Silent});
    left->addWidget(strip);
    left->addStretch(1);
    addAsking(right, &page);
    auto* ring = new WaitRing(&page);
    ring->setView({0.7, u"1:06:41"_s, u"of 1:20:00, cold at 14:20"_s});
    right->addWidget(ring);
    right->addStretch(1);
    save(page, {1366, 900}, folder, u"parts-%1"_s.arg(theme));

    auto* finder = new CommandFinder(&page);
    finder->setCommands({{u"Something went wrong"_s, u"F9"_s, {}},
                         {u"Make safe"_s, u"F12"_s, {}},
                         {u"Back up now"_s, u"Ctrl+B"_s, {}},
                         {u"New visit"_s, QString(), {}}});
    finder->open();
    save(page, {1366, 900}, folder, u"finder-%1"_s.arg(theme));
}

void drawMachines(const QDir& folder, const QString& theme)
{
    QWidget page;
    auto* row = new QHBoxLayout(&page);
    row->setContentsMargins(24, 24, 24, 24);
    row->setSpacing(32);
    for (const test::BenchCase& one : test::benchCases()) {
        const std::string_view name(one.name);
        if (name == "stop" || name == "gear" || name == "typed")
            continue;
        auto* drawing = new MachineDrawing(&page);
        drawing->setView(one.view.machine);
        row->addWidget(drawing, 1, Qt::AlignTop);
    }
    save(page, {1500, 560}, folder, u"machines-%1"_s.arg(theme));
}

} // namespace

int main(int argc, char** argv)
{
    QApplication application(argc, argv);
    if (argc != 2) {
        std::fputs("usage: coldarc_gallery <folder>\n", stderr);
        return 2;
    }
    const QDir folder(QString::fromLocal8Bit(argv[1]));
    if (!folder.mkpath(u"."_s))
        return 1;
    Theme theme(application);
    const std::array<std::pair<ThemeKind, QString>, 2> themes{
        {{ThemeKind::Booth, u"booth"_s}, {ThemeKind::Office, u"office"_s}}};
    for (const auto& [kind, name] : themes) {
        theme.apply(kind);
        drawParts(folder, name);
        drawMachines(folder, name);
        drawBenches(folder, name);
        drawLights(folder, name);
        drawSheets(folder, name);
    }
    return 0;
}
