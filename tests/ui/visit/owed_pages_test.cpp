#include "tests/ui/visit/sources_at_work.h"
#include "ui/parts/painted_button.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/visit/new_visit_page.h"
#include "ui/visit/new_visit_presenter.h"
#include "ui/visit/visits_page.h"
#include "ui/visit/visits_presenter.h"

#include <QApplication>
#include <QDir>
#include <QTest>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::ui {
namespace {

// All lamps, persons and places are invented.

/// A workspace in which a night of the week before left its second peak and its screen at screen 1.
class OwedPagesTest : public test::SourcesAtWork {
protected:
    void SetUp() override
    {
        SourcesAtWork::SetUp();
        const auto* model = test::shippedCatalogue().model(ModelId(u"larkmoor-teal"_s));
        const WallTime fitted = clock.now().wall - 48h;
        ASSERT_TRUE(
            lamps.addFitted({LampId(u"in-1"_s), model->lampTypes.first(), u"IN-1"_s, lamps::LampHours()},
                            {lamps::FitId(u"fit-1"_s), LampId(u"in-1"_s), lamphouse(1),
                             lamps::CounterHours::fromHours(0), fitted, std::nullopt},
                            lamps::MoveId(u"fitted-1"_s)));
        ASSERT_TRUE(sites.setFitted(lamphouse(1), LampId(u"in-1"_s)));
        visit::Settlement tuesday;
        tuesday.visit = VisitId(u"tuesday"_s);
        for (const auto& [step, title] : {std::pair(u"peak-again"_s, u"Check the peak again"_s),
                                          std::pair(u"measure-screen"_s, u"Measure the screen"_s)}) {
            tuesday.owed.push_back({tuesday.visit, SwapId(u"tuesday-1"_s), StepId(step), title,
                                    SiteId(u"pier-street"_s), lamphouse(1), LampId(u"in-1"_s),
                                    PersonId(u"ada"_s), fitted + 1h});
        }
        ASSERT_TRUE(owed.tell(tuesday, clock.now().wall));
        theme.apply(ThemeKind::Office);
    }

    void showVisits(QSize size = {1366, 768})
    {
        visits = std::make_unique<VisitsPresenter>(sources());
        visitsPage = std::make_unique<VisitsPage>(clock);
        QObject::connect(visits.get(), &VisitsPresenter::viewChanged, visitsPage.get(), &VisitsPage::setView);
        QObject::connect(visitsPage.get(), &VisitsPage::rowChosen, visits.get(), &VisitsPresenter::choose);
        QObject::connect(visitsPage.get(), &VisitsPage::goRequested, visits.get(), &VisitsPresenter::go);
        QObject::connect(visits.get(), &VisitsPresenter::followUpRequested, visits.get(),
                         [this](const SiteId& site, const LamphouseId& lamphouse) {
                             asked = {site.text(), lamphouse.text()};
                         });
        visits->setWho(PersonId(u"ada"_s));
        bringUp(*visitsPage, size);
    }
    void showNew(QSize size = {1366, 768})
    {
        fresh = std::make_unique<NewVisitPresenter>(sources());
        newPage = std::make_unique<NewVisitPage>(clock);
        QObject::connect(fresh.get(), &NewVisitPresenter::viewChanged, newPage.get(), &NewVisitPage::setView);
        QObject::connect(newPage.get(), &NewVisitPage::owedTicked, fresh.get(), &NewVisitPresenter::tickOwed);
        QObject::connect(newPage.get(), &NewVisitPage::screensTicked, fresh.get(),
                         &NewVisitPresenter::tickScreens);
        QObject::connect(newPage.get(), &NewVisitPage::openRequested, fresh.get(), &NewVisitPresenter::open);
        QObject::connect(fresh.get(), &NewVisitPresenter::opened, fresh.get(),
                         [this](const VisitId& visit) { opened = visit; });
        fresh->begin(PersonId(u"ada"_s));
        newPage->setView(fresh->view());
        bringUp(*newPage, size);
    }
    void bringUp(QWidget& page, QSize size)
    {
        page.resize(size);
        page.show();
        QApplication::setActiveWindow(&page);
        settle();
    }
    void settle()
    {
        clock.advance(1s);
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
    }
    /// Walks by Tab to the control of this name and presses it with the space bar.
    void press(QWidget& page, const QString& name)
    {
        auto* wanted = page.findChild<QAbstractButton*>(name);
        ASSERT_TRUE(wanted) << name.toStdString();
        for (int count = 0; count < 60 && QApplication::focusWidget() != wanted; ++count)
            QTest::keyClick(QApplication::focusWidget() ? QApplication::focusWidget() : &page, Qt::Key_Tab);
        ASSERT_EQ(QApplication::focusWidget(), wanted)
            << name.toStdString() << " is out of the keyboard's reach";
        settle();
        QTest::keyClick(wanted, Qt::Key_Space);
        settle();
    }
    [[nodiscard]] visit::VisitState openedState() { return shelf.state(opened).value(); }

    Theme theme{*qApp};
    std::unique_ptr<VisitsPresenter> visits;
    std::unique_ptr<VisitsPage> visitsPage;
    std::unique_ptr<NewVisitPresenter> fresh;
    std::unique_ptr<NewVisitPage> newPage;
    QStringList asked;
    VisitId opened;
};

// The clock stands on 2026-11-18, 11:06:40; 47 h before is 2026-11-16, 12:06.
TEST_F(OwedPagesTest, VisitsShowsWhatIsOwedWithWhereWhatSinceWhenAndByWhom)
{
    showVisits();

    ASSERT_EQ(visits->view().owed.size(), 1);
    EXPECT_EQ(visits->view().owed.first(), (RowView{u"owed:"_s + lamphouse(1).text(), u"Pier Street"_s,
                                                    u"Screen 1 \u00b7 2 steps"_s, u"since 2026-11-16"_s}));
    const VisitCard card = visits->view().card.value();
    EXPECT_EQ(card.sub, u"Screen 1 \u00b7 left by an earlier visit, done without a new lamp"_s);
    ASSERT_EQ(card.lines.size(), 2);
    EXPECT_EQ(card.lines.first().text, u"Check the peak again"_s);
    EXPECT_EQ(card.lines.first().sub, u"since 2026-11-16 12:06, left by A. Okoro"_s);
    EXPECT_EQ(card.action.text, u"Do what is owed"_s);
    EXPECT_TRUE(card.needs.startsWith(u"needs "_s));
    QStringList kit;
    for (const TickItem& item : card.kit.items)
        kit << item.text;
    EXPECT_TRUE(kit.contains(u"luminance meter"_s));
}

TEST_F(OwedPagesTest, AStepThatTwoVisitsLeftIsListedOnceSinceTheFirst)
{
    visit::Settlement wednesday;
    wednesday.visit = VisitId(u"wednesday"_s);
    wednesday.owed.push_back({wednesday.visit, SwapId(u"wednesday-1"_s), StepId(u"peak-again"_s),
                              u"Check the peak again"_s, SiteId(u"pier-street"_s), lamphouse(1),
                              LampId(u"in-1"_s), PersonId(u"ada"_s), clock.now().wall});
    ASSERT_TRUE(owed.tell(wednesday, clock.now().wall));

    showVisits();

    const VisitCard card = visits->view().card.value();
    ASSERT_EQ(card.lines.size(), 2);
    EXPECT_EQ(card.lines.first().sub, u"since 2026-11-16 12:06, left by A. Okoro"_s);
}

TEST_F(OwedPagesTest, TheMainActionOfWhatIsOwedAsksForItsLamphouse)
{
    showVisits();

    press(*visitsPage, u"action"_s);

    EXPECT_EQ(asked, (QStringList{u"pier-street"_s, lamphouse(1).text()}));
}

TEST_F(OwedPagesTest, WhatAnUnfinishedVisitHasTakenUpIsListedWithThat)
{
    showNew();
    fresh->tickOwed({lamphouse(1).text()});
    fresh->open();
    ASSERT_FALSE(opened.isEmpty());

    showVisits();

    ASSERT_EQ(visits->view().owed.size(), 1) << "it is owed until it is done";
    EXPECT_EQ(visits->view().owed.first().sub,
              u"Screen 1 \u00b7 2 steps \u00b7 taken up by an unfinished visit"_s);
}

TEST_F(OwedPagesTest, NothingIsListedOnceItIsDone)
{
    visit::Settlement friday;
    friday.visit = VisitId(u"friday"_s);
    for (const QString& step : {u"peak-again"_s, u"measure-screen"_s})
        friday.owedDone.push_back(
            {SwapId(u"friday-1"_s), StepId(step), lamphouse(1), LampId(u"in-1"_s), clock.now().wall});
    ASSERT_TRUE(owed.tell(friday, clock.now().wall));

    showVisits();

    EXPECT_TRUE(visits->view().owed.isEmpty());
    EXPECT_FALSE(visits->view().card);
}

TEST_F(OwedPagesTest, AFollowUpIsOpenedByTwoPressesWithoutALamp)
{
    showNew();

    press(*newPage, u"tick-"_s + lamphouse(1).text());
    ASSERT_EQ(fresh->view().owed.ticked, QStringList{lamphouse(1).text()});
    EXPECT_EQ(fresh->view().reason.chosen, u"owed"_s);
    EXPECT_TRUE(fresh->view().lamps.isEmpty());
    press(*newPage, u"action"_s);

    ASSERT_FALSE(opened.isEmpty()) << fresh->view().inTheWay.join(u' ').toStdString();
    const visit::VisitState state = openedState();
    ASSERT_EQ(state.swaps.size(), 1);
    EXPECT_TRUE(state.swaps.first().followsUp);
    EXPECT_EQ(visit::owedSteps(state, state.swaps.first().id),
              (QList<StepId>{StepId(u"peak-again"_s), StepId(u"measure-screen"_s)}));
    EXPECT_EQ(state.ground->opening.reason, u"what is owed"_s);
    EXPECT_EQ(state.ground->opening.swaps.first().owed.first().visit, VisitId(u"tuesday"_s));
}

TEST_F(OwedPagesTest, AVisitCanDoWhatIsOwedAndExchangeAnotherLamp)
{
    showNew();

    fresh->tickOwed({lamphouse(1).text()});
    fresh->tickScreens({lamphouse(2).text()});
    fresh->open();

    ASSERT_FALSE(opened.isEmpty()) << fresh->view().inTheWay.join(u' ').toStdString();
    const visit::VisitState state = openedState();
    ASSERT_EQ(state.swaps.size(), 2);
    EXPECT_FALSE(state.swaps.first().followsUp);
    EXPECT_TRUE(state.swaps.last().followsUp);
    EXPECT_EQ(state.ground->opening.reason, u"lamp due"_s);
}

TEST_F(OwedPagesTest, AnOrdinaryVisitSaysWhatGoesWithTheLampAndTakesNoneOfItUp)
{
    showNew();
    fresh->tickOwed({lamphouse(1).text()});

    fresh->tickScreens({lamphouse(1).text()});

    EXPECT_TRUE(fresh->view().owed.ticked.isEmpty()) << "one or the other";
    EXPECT_TRUE(fresh->view().screens.items.first().sub.endsWith(
        u"Owed to this lamp: Check the peak again, Measure the screen. It goes with the lamp."_s))
        << fresh->view().screens.items.first().sub.toStdString();
    fresh->open();
    ASSERT_FALSE(opened.isEmpty());
    EXPECT_FALSE(openedState().swaps.first().followsUp);
}

TEST_F(OwedPagesTest, NothingOwedIsOfferedWhereThereIsNone)
{
    showNew();
    EXPECT_EQ(fresh->view().owed.items.size(), 1);
    EXPECT_TRUE(newPage->findChild<QWidget*>(u"owed"_s)->isVisible());
    ASSERT_TRUE(sites.setFitted(lamphouse(1), std::nullopt));
    const auto fit = lamps.runningIn(lamphouse(1)).value();
    const WallTime now = clock.now().wall;
    ASSERT_TRUE(
        lamps.endFit({fit->id, std::nullopt, now, lamps::Cause::Dim, std::nullopt}, {lamps::MoveId(u"out"_s),
                                                                                     LampId(u"in-1"_s),
                                                                                     lamps::Custody::Boxed,
                                                                                     PersonId(u"ada"_s),
                                                                                     {},
                                                                                     now,
                                                                                     std::nullopt}));

    fresh->begin(PersonId(u"ada"_s));

    EXPECT_TRUE(fresh->view().owed.items.isEmpty());
    EXPECT_FALSE(newPage->findChild<QWidget*>(u"owed"_s)->isVisible());
    for (const ChoiceOption& option : fresh->view().reason.options)
        EXPECT_NE(option.id, u"owed"_s);
}

TEST_F(OwedPagesTest, WhatIsOwedIsBegunWithFromTheListOfVisits)
{
    showNew();

    fresh->beginWithOwed(PersonId(u"ada"_s), SiteId(u"pier-street"_s), lamphouse(1));

    EXPECT_EQ(fresh->view().owed.ticked, QStringList{lamphouse(1).text()});
    EXPECT_TRUE(fresh->view().screens.ticked.isEmpty());
    EXPECT_EQ(fresh->view().action.stand, ActionView::Stand::Ready);
    EXPECT_TRUE(fresh->view().needs.startsWith(u"needs "_s));
}

TEST_F(OwedPagesTest, EveryTargetIsLargeEnoughAndNothingIsCutOff)
{
    const QString folder = qEnvironmentVariable("COLDARC_PICTURES");
    for (const ThemeKind kind : {ThemeKind::Booth, ThemeKind::Office}) {
        theme.apply(kind);
        for (const QSize size : {QSize(1366, 768), QSize(1920, 1080)}) {
            showVisits(size);
            showNew(size);
            fresh->tickOwed({lamphouse(1).text()});
            settle();
            for (QWidget* page : std::initializer_list<QWidget*>{visitsPage.get(), newPage.get()}) {
                for (const auto* label : page->findChildren<TextLabel*>())
                    EXPECT_TRUE(!label->isVisible() || label->fits()) << label->text().toStdString();
                for (const auto* button : page->findChildren<PaintedButton*>()) {
                    if (!button->isVisible())
                        continue;
                    EXPECT_TRUE(button->fits()) << button->text().toStdString();
                    EXPECT_GE(button->height(), 44) << button->text().toStdString();
                }
                if (!folder.isEmpty())
                    page->grab().save(QDir(folder).filePath(
                        u"%1-%2-%3.png"_s
                            .arg(page->objectName(), kind == ThemeKind::Booth ? u"booth"_s : u"office"_s)
                            .arg(size.width())));
            }
        }
    }
}

} // namespace
} // namespace coldarc::ui
