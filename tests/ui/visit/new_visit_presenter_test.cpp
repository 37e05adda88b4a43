#include "ui/visit/new_visit_presenter.h"

#include "tests/ui/visit/sources_at_work.h"

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::test {
namespace {

using namespace ui;

class NewVisitPresenterTest : public SourcesAtWork {
protected:
    void SetUp() override
    {
        SourcesAtWork::SetUp();
        presenter = std::make_unique<NewVisitPresenter>(sources());
        QObject::connect(presenter.get(), &NewVisitPresenter::opened, presenter.get(),
                         [this](const VisitId& visit) { opened = visit; });
        presenter->begin(PersonId(u"ada"_s));
    }
    [[nodiscard]] const NewVisitView& view() const { return presenter->view(); }
    /// One screen whose new lamp is not in the stock list; answers a type that fits there.
    QString beginToTypeAt(const QString& there)
    {
        presenter->tickScreens({there});
        presenter->chooseLamp(there, u"typed"_s);
        return view().lamps.first().type.options.first().id;
    }

    std::unique_ptr<NewVisitPresenter> presenter;
    VisitId opened;
};

TEST_F(NewVisitPresenterTest, ChoosesTheOnlySiteByItself)
{
    EXPECT_EQ(view().title, u"Pier Street"_s);
    EXPECT_EQ(view().screens.items.size(), 2);
    EXPECT_EQ(view().action.stand, ActionView::Stand::Waits);
    EXPECT_EQ(view().action.waits, u"Waits for a screen"_s);
}

TEST_F(NewVisitPresenterTest, PutsADifferentLampOfTheVanToEachScreen)
{
    presenter->tickScreens({lamphouse(1).text(), lamphouse(2).text()});

    ASSERT_EQ(view().lamps.size(), 2);
    EXPECT_EQ(view().lamps[0].lamp.chosen, u"new-1"_s);
    EXPECT_EQ(view().lamps[1].lamp.chosen, u"new-2"_s);
}

TEST_F(NewVisitPresenterTest, OpensTheVisitWithTheLampThatIsDueAsItsReason)
{
    presenter->tickScreens({lamphouse(2).text()});
    presenter->open();

    ASSERT_FALSE(opened.isEmpty());
    const auto state = shelf.state(opened);
    ASSERT_TRUE(state);
    EXPECT_EQ(state->ground->opening.reason, u"lamp due"_s);
    ASSERT_EQ(state->ground->opening.swaps.size(), 1);
    EXPECT_EQ(state->ground->opening.swaps.first().lamphouse, lamphouse(2));
    EXPECT_EQ(state->ground->opening.swaps.first().newLamp.serial, u"NEW-1"_s);
}

TEST_F(NewVisitPresenterTest, TakesALampThatIsTypedIntoTheVan)
{
    presenter->tickScreens({lamphouse(1).text()});
    presenter->chooseLamp(lamphouse(1).text(), u"typed"_s);
    const QString type = view().lamps.first().type.options.first().id;
    presenter->typeLamp(lamphouse(1).text(), type, u"HAND-7"_s, u"0"_s);
    presenter->open();

    ASSERT_FALSE(opened.isEmpty());
    EXPECT_EQ(lamps.vanStock(PersonId(u"ada"_s))->size(), 3u);
}

TEST_F(NewVisitPresenterTest, TakesTheHoursOfAUsedSpareAndNoneThatIsAtTheEndOfItsLife)
{
    const QString there = lamphouse(1).text();
    const QString type = beginToTypeAt(there);
    presenter->typeLamp(there, type, u"HAND-7"_s, u"1,200"_s);
    presenter->open();
    EXPECT_EQ(view().inTheWay,
              QStringList{u"Screen 1: the hours of the new lamp are no figure: write 1200, with "
                          "nothing between the thousands."_s});
    presenter->typeLamp(there, type, u"HAND-7"_s, u"99999"_s);
    presenter->open();
    EXPECT_EQ(
        view().inTheWay,
        QStringList{u"Screen 1: the new lamp has burnt 99999 h, which is the end of its type's life."_s});
    EXPECT_EQ(lamps.vanStock(PersonId(u"ada"_s))->size(), 2u) << "nothing was kept";

    presenter->typeLamp(there, type, u"HAND-7"_s, u"900"_s);
    presenter->open();

    ASSERT_FALSE(opened.isEmpty());
    EXPECT_EQ(shelf.state(opened)->ground->opening.swaps.first().newLamp.hours, 900);
    const LampId lamp = *lamps.ofTypeWithSerial(LampTypeId(type), u"HAND-7"_s).value();
    EXPECT_EQ(lamps.lamp(lamp)->lamp.hours, lamps::LampHours::fromHours(900));
}

TEST_F(NewVisitPresenterTest, TakesALampThatIsOnOrderForTheOneWhoseSerialIsTyped)
{
    const QString there = lamphouse(1).text();
    const QString type = beginToTypeAt(there);
    const LampId ordered(u"ordered"_s);
    ASSERT_TRUE(
        lamps.add({ordered, LampTypeId(type), u"HAND-7"_s, lamps::LampHours::fromHours(12)},
                  {lamps::MoveId(u"ordered"_s), ordered, lamps::Custody::OnOrder, {}, {}, clock.now().wall}));
    presenter->typeLamp(there, type, u"hand-7"_s, u"0"_s);
    presenter->open();

    ASSERT_FALSE(opened.isEmpty());
    EXPECT_EQ(shelf.state(opened)->ground->opening.swaps.first().newLamp.id, ordered);
    EXPECT_EQ(shelf.state(opened)->ground->opening.swaps.first().newLamp.hours, 12);
}

TEST_F(NewVisitPresenterTest, GoesByTheHoursThatAreTypedWhereTheyAreMoreThanIsKnown)
{
    const QString there = lamphouse(1).text();
    const QString type = beginToTypeAt(there);
    const LampId stored(u"stored"_s);
    ASSERT_TRUE(lamps.add({stored, LampTypeId(type), u"HAND-7"_s, {}}, {lamps::MoveId(u"stored"_s),
                                                                        stored,
                                                                        lamps::Custody::KeptBySite,
                                                                        {},
                                                                        SiteId(u"pier-street"_s),
                                                                        clock.now().wall}));
    presenter->typeLamp(there, type, u"HAND-7"_s, u"99999"_s);
    presenter->open();

    EXPECT_EQ(
        view().inTheWay,
        QStringList{u"Screen 1: the new lamp has burnt 99999 h, which is the end of its type's life."_s});
}

TEST_F(NewVisitPresenterTest, TakesNoLampThatIsGoneNorOneTwice)
{
    const QString one = lamphouse(1).text();
    const QString two = lamphouse(2).text();
    presenter->tickScreens({one, two});
    for (const QString& there : {one, two})
        presenter->chooseLamp(there, u"typed"_s);
    const QString type = view().lamps.first().type.options.first().id;
    presenter->typeLamp(one, type, u"HAND-7"_s, u"0"_s);
    presenter->typeLamp(two, type, u"hand 7"_s, u"0"_s);
    presenter->open();
    EXPECT_EQ(view().inTheWay, QStringList{u"One new lamp is meant for two screens."_s});
    EXPECT_EQ(lamps.vanStock(PersonId(u"ada"_s))->size(), 2u);

    const auto burst = lamps.lamp(LampId(u"new-1"_s)).value().lamp;
    ASSERT_TRUE(lamps.move({lamps::MoveId(u"bang"_s),
                            burst.id,
                            lamps::Custody::Burst,
                            PersonId(u"ada"_s),
                            {},
                            clock.now().wall}));
    presenter->typeLamp(one, burst.type.text(), burst.serial, u"0"_s);
    presenter->open();

    EXPECT_EQ(
        view().inTheWay,
        QStringList{
            u"Screen 1: a lamp of this type and serial burst or was given away. Read the serial again."_s});
    EXPECT_TRUE(opened.isEmpty());
}

TEST_F(NewVisitPresenterTest, OpensNothingWhereAnUnfinishedVisitIsAndBringsNoneOfItsLamps)
{
    presenter->tickScreens({lamphouse(1).text()});
    presenter->open();
    ASSERT_FALSE(opened.isEmpty());
    opened = {};

    presenter->begin(PersonId(u"ada"_s));
    EXPECT_TRUE(view().screens.items.first().sub.startsWith(u"An unfinished visit is here; "));
    presenter->tickScreens({lamphouse(2).text()});
    EXPECT_EQ(view().lamps.first().lamp.chosen, u"new-2"_s) << "the other one has new-1";
    presenter->tickScreens({lamphouse(1).text()});
    presenter->open();

    EXPECT_TRUE(opened.isEmpty());
    ASSERT_EQ(view().inTheWay.size(), 1);
    EXPECT_EQ(view().inTheWay.first(),
              u"Screen 1: an unfinished visit is here since 2026-11-18 11:06. Go on there: it stands among "
              "the visits."_s);

    const lamps::Lamp brought = lamps.lamp(LampId(u"new-1"_s)).value().lamp;
    presenter->tickScreens({lamphouse(2).text()});
    presenter->chooseLamp(lamphouse(2).text(), u"typed"_s);
    presenter->typeLamp(lamphouse(2).text(), brought.type.text(), brought.serial, u"0"_s);
    presenter->open();

    EXPECT_TRUE(opened.isEmpty());
    EXPECT_EQ(view().inTheWay,
              QStringList{u"Screen 2: the new lamp is in the hands of an unfinished visit. Choose another "
                          "one, or read its serial again."_s});
}

TEST_F(NewVisitPresenterTest, KeepsNothingWhileTheSerialIsMissing)
{
    presenter->tickScreens({lamphouse(1).text()});
    presenter->chooseLamp(lamphouse(1).text(), u"typed"_s);
    presenter->typeLamp(lamphouse(1).text(), view().lamps.first().type.options.first().id, u"  "_s, u"0"_s);
    presenter->open();

    EXPECT_TRUE(opened.isEmpty());
    EXPECT_EQ(view().inTheWay, QStringList{u"Screen 1: the serial of the new lamp is missing."_s});
    EXPECT_EQ(lamps.vanStock(PersonId(u"ada"_s))->size(), 2u);
}

TEST_F(NewVisitPresenterTest, SaysWhoseAuthorityHasEnded)
{
    ASSERT_TRUE(
        people.withdraw(people::AuthorisationId(u"a1"_s), people::Day{2026y / 11 / 1}, PersonId(u"ada"_s)));
    presenter->tickScreens({lamphouse(1).text()});
    presenter->open();

    EXPECT_TRUE(opened.isEmpty());
    EXPECT_EQ(view().inTheWay,
              QStringList{u"A. Okoro, Larkmoor Teal 30: the authorisation was withdrawn."_s});
}

TEST_F(NewVisitPresenterTest, NamesALampThatIsMeantForTwoScreens)
{
    presenter->tickScreens({lamphouse(1).text(), lamphouse(2).text()});
    presenter->chooseLamp(lamphouse(2).text(), u"new-1"_s);
    presenter->open();

    EXPECT_TRUE(opened.isEmpty());
    EXPECT_EQ(view().inTheWay, QStringList{u"One new lamp is meant for two screens."_s});
}

TEST_F(NewVisitPresenterTest, BeginsWithWhatWasPlannedAndTakesThePlanOffTheList)
{
    const visit::PlannedVisit plan{VisitId(u"planned-1"_s),
                                   SiteId(u"pier-street"_s),
                                   people::Day{2026y / 11 / 18},
                                   u"both due"_s,
                                   {{lamphouse(2), LampId(u"new-2"_s)}}};
    ASSERT_TRUE(plans.save(plan));

    presenter->beginFrom(PersonId(u"ada"_s), plan);
    EXPECT_EQ(view().screens.ticked, QStringList{lamphouse(2).text()});
    EXPECT_EQ(view().lamps.first().lamp.chosen, u"new-2"_s);
    presenter->open();

    EXPECT_EQ(opened, VisitId(u"planned-1"_s));
    EXPECT_EQ(shelf.state(opened)->ground->opening.reason, u"both due"_s);
    EXPECT_TRUE(plans.all()->empty());
}

TEST_F(NewVisitPresenterTest, OffersAnotherLampWhereThePlannedOneHasGoneElsewhereSince)
{
    const visit::PlannedVisit plan{VisitId(u"planned-1"_s),
                                   SiteId(u"pier-street"_s),
                                   people::Day{2026y / 11 / 18},
                                   u"due"_s,
                                   {{lamphouse(2), LampId(u"new-2"_s)}}};
    ASSERT_TRUE(plans.save(plan));
    const lamps::CustodyMove back{
        lamps::MoveId(u"back"_s), LampId(u"new-2"_s), lamps::Custody::Returned, {}, {}, clock.now().wall};
    ASSERT_EQ(this->lamps.move(back), lamps::MoveAnswer(lamps::Moved{}));

    presenter->beginFrom(PersonId(u"ada"_s), plan);

    EXPECT_EQ(view().lamps.first().lamp.chosen, u"new-1"_s);
    for (const ChoiceOption& option : view().lamps.first().lamp.options)
        EXPECT_NE(option.id, u"new-2"_s);
}

// The gap: from 11:06:40 to 16:40 are 5 h 33 and a part minute, which is cut off.
TEST_F(NewVisitPresenterTest, HoldsTheNeedAgainstTheGapBeforeTheNextShow)
{
    showAt(clock.now().wall + 5h + 33min + 20s);
    presenter->begin(PersonId(u"ada"_s));
    presenter->tickScreens({lamphouse(1).text()});

    EXPECT_TRUE(view().needs.startsWith(u"needs "_s));
    EXPECT_EQ(view().gap, u"gap 5 h 33, next show 16:40"_s);
    EXPECT_TRUE(view().verdict.endsWith(u" to spare"_s));
}

TEST(TimeWordsTest, SayHowMuchIsMissingAndThatTheRestCannotBeOwed)
{
    const WallTime now{};
    const TimeWords words = timeWords(visit::NeededTime{60min, 38min},
                                      site::NextShow{ScreenId(), now + 90min}, now, QTimeZone::utc());

    EXPECT_EQ(words.needs, u"needs 1 h 38"_s);
    EXPECT_EQ(words.gap, u"gap 1 h 30, next show 01:30"_s);
    EXPECT_EQ(words.verdict, u"8 min too short: the light can be owed to a later visit, the rest cannot"_s);
}

TEST(TimeWordsTest, SayThatNoShowIsKnown)
{
    EXPECT_EQ(timeWords({}, {}, WallTime{}, QTimeZone::utc()),
              (TimeWords{{}, u"no show is known here"_s, {}}));
}

} // namespace
} // namespace coldarc::test
