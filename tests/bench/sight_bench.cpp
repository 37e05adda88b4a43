// Figures of what hands have to hit on the bench: the smallest target and the smallest gap, over the whole
// demo swap and every state of the gallery, at both sizes. A millimetre is counted at 96 px to the inch,
// which is how Qt draws at scale 1; on a screen with finer pixels the desktop's scale makes up for it.

#include "app/walk_stage.h"
#include "tests/support/fake_clock.h"
#include "tests/support/gallery_views.h"
#include "tests/support/targets.h"
#include "ui/parts/theme.h"
#include "ui/visit/bench_page.h"

#include <QApplication>
#include <QTemporaryDir>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <string>

using namespace Qt::StringLiterals;
using namespace coldarc;
using namespace coldarc::app;

namespace {

constexpr double kMmPerPx = 25.4 / 96;
constexpr std::array kSizes{QSize(1366, 768), QSize(1920, 1080)};

struct Smallest {
    int target = std::numeric_limits<int>::max(); ///< px, the shorter side
    int gloveTarget = std::numeric_limits<int>::max();
    int gloveGap = std::numeric_limits<int>::max();

    void look(const QWidget& page)
    {
        for (const QWidget* one : test::targetsOf(page))
            target = std::min({target, one->width(), one->height()});
        const QList<const QWidget*> gloved = test::gloveTargetsOf(page);
        for (qsizetype i = 0; i < gloved.size(); ++i) {
            gloveTarget = std::min({gloveTarget, gloved[i]->width(), gloved[i]->height()});
            for (qsizetype j = i + 1; j < gloved.size(); ++j)
                gloveGap = std::min(gloveGap, test::gapBetween(test::seenOnPage(gloved[i], page),
                                                               test::seenOnPage(gloved[j], page)));
        }
    }
};

[[noreturn]] void stop(const QString& why)
{
    std::fprintf(stderr, "sight_bench: %s\n", qUtf8Printable(why));
    std::exit(1);
}

void settle()
{
    for (int count = 0; count < 3; ++count)
        QApplication::processEvents();
}

void lookAtGallery(Smallest& smallest)
{
    const test::FakeClock clock;
    for (const test::BenchCase& one : test::benchCases()) {
        for (const QSize size : kSizes) {
            ui::BenchPage page(clock);
            page.setView(one.view);
            page.resize(size);
            page.show();
            settle();
            smallest.look(page);
        }
    }
}

void lookAtSwap(Smallest& smallest, QSize size)
{
    const QTemporaryDir folder;
    const QString tree = QStringLiteral(COLDARC_SOURCE_DIR);
    const auto stage = WalkStage::set(folder.filePath(u"walk.coldarc"_s),
                                      {tree + u"/resources"_s, tree + u"/sample-data"_s});
    if (!stage)
        stop(stage.error().detail);
    WalkStage& set = **stage;
    set.room().resize(size);
    Walker walker(set.room(), set.desk(), set.clock(), {}, set.lamps(), Walker::Refusals::None);
    walker.setWatch([&](const std::function<void()>& press) {
        const auto* bench = set.room().findChild<ui::BenchPage*>();
        if (bench && bench->isVisible())
            smallest.look(*bench);
        press();
    });
    if (!walker.walk())
        stop(walker.trouble().join(u"; "_s));
}

bool isWanted(int argc, char** argv, const std::string& name)
{
    return argc < 2 || name.find(argv[1]) != std::string::npos;
}

} // namespace

int main(int argc, char** argv)
{
    QApplication application(argc, argv);
    const std::array names{std::string("ui.smallest_target_mm"), std::string("ui.smallest_glove_target_mm"),
                           std::string("ui.smallest_glove_gap_mm")};
    if (std::none_of(names.begin(), names.end(),
                     [&](const std::string& name) { return isWanted(argc, argv, name); }))
        return 0;
    ui::Theme theme(application);
    theme.apply(ui::ThemeKind::Booth);
    Smallest smallest;
    lookAtGallery(smallest);
    for (const QSize size : kSizes)
        lookAtSwap(smallest, size);
    const std::array values{smallest.target, smallest.gloveTarget, smallest.gloveGap};
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (isWanted(argc, argv, names[i]))
            std::printf("%s %.1f mm\n", names[i].c_str(), values[i] * kMmPerPx);
    }
    return 0;
}
