#include "ui/visit/incident_presenter.h"

#include "tests/ui/visit/visit_at_work.h"

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using test::Night;
using test::VisitAtWork;

/// A night at which the fasteners do not come out as many as at the opening.
void countWrong(Night& night)
{
    night.doUntil(u"count-inside"_s);
    ASSERT_TRUE(night.doStep(u"count-inside"_s, [&](QJsonObject& answers) {
        for (const procedure::Capture& capture : night.swap().step(StepId(u"count-inside"_s))->captures)
            answers[capture.id] = capture.choices[1].text;
    }));
    ASSERT_EQ(night.state.incidents.last().kind, visit::Incident::CountDiffers);
}

TEST(IncidentPresenterTest, ACountThatDiffersIsAnsweredByATraineeWithTheEngineersPress)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithTrainee);
    countWrong(night);
    VisitAtWork work(night);
    IncidentPresenter presenter(work.desk());
    presenter.open(0);
    presenter.chooseOpen(work.state().incidents.last().entry);
    EXPECT_EQ(presenter.view().action.text, u"Answered"_s) << "the engineer's own answer";
    work.desk().setPresses(night.ben());
    presenter.chooseOpen(work.state().incidents.last().entry);
    EXPECT_EQ(presenter.view().action.text, u"A. Okoro: seen and agreed, answered"_s);

    presenter.done({{u"text"_s, {u"in the tray"_s}}});

    EXPECT_TRUE(work.state().incidents.last().isAnswered);
    EXPECT_EQ(visit::countersignerOf(work.entries().last()), night.ada());
}

TEST(IncidentPresenterTest, WhetherALampStillBurnsIsAnsweredBeforeAFanThatStoppedIsWrittenDown)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    VisitAtWork work(night);
    IncidentPresenter presenter(work.desk());
    presenter.open(0);
    presenter.choose(static_cast<int>(visit::Incident::FanOrPower));

    presenter.done({{u"place"_s, {u"fan:"_s}}});

    EXPECT_TRUE(work.state().incidents.isEmpty());
    EXPECT_FALSE(presenter.view().said.isEmpty());

    presenter.done({{u"place"_s, {u"fan:"_s}}, {u"lit-lamphouse-1-main"_s, {u"out:"_s}}});
    EXPECT_EQ(work.state().machine.lamphouse[0].heat, machine::Heat::Cooling);
}

} // namespace
} // namespace coldarc::ui
