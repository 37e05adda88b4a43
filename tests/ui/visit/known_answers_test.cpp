#include "ui/visit/known_answers.h"

#include "tests/ui/visit/visit_at_work.h"
#include "ui/visit/bench_presenter.h"

#include <QSignalSpy>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using test::VisitAtWork;

/// The invented night, with two contacts at its site.
visit::Opening withContacts()
{
    visit::Opening opening = Night().opening();
    opening.site.site.contacts = {{u"C. Moor"_s, u"duty manager"_s, {}}, {u"H. Vance"_s, {}, {}}};
    return opening;
}

CaptureView captureOf(const BenchPresenter& presenter, const QString& id)
{
    for (const CaptureView& capture : presenter.view().card.captures) {
        if (capture.id == id)
            return capture;
    }
    ADD_FAILURE() << "nothing is asked by the name " << id.toStdString();
    return {};
}

TEST(KnownAnswersTest, WhoWasToldIsChosenFromTheContactsOfTheSiteByOnePress)
{
    Night night(withContacts());
    night.doUntil(u"tell-before"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    night.clock.advance(1s);

    const CaptureView who = captureOf(presenter, u"who"_s);
    ASSERT_EQ(who.options.size(), 3);
    EXPECT_EQ(who.options.first().text, u"C. Moor, duty manager"_s);
    EXPECT_EQ(who.value, QStringList()) << "nothing is chosen beforehand";
    presenter.keepAnswers({{u"who"_s, {u"H. Vance"_s}}});

    EXPECT_EQ(work.state().swaps[0].record(StepId(u"tell-before"_s)).answers.value(u"who"_s).toString(),
              u"H. Vance"_s);
}

TEST(KnownAnswersTest, TheBreakerThatIsOffIsChosenAmongThoseOfTheSite)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    night.doUntil(u"stop-cold-and-dead"_s, 1);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    presenter.chooseSwap(1);

    QStringList offered;
    for (const CaptureView::Option& option : captureOf(presenter, u"point"_s).options)
        offered.append(option.text);
    EXPECT_EQ(offered,
              (QStringList{u"panel B, 1 lamp-supply; panel B, 1 electronics"_s,
                           u"panel B, 2 lamp-supply; panel B, 2 electronics"_s, u"Something else"_s}));
    EXPECT_EQ(captureOf(presenter, u"point"_s).value, QStringList()) << "nothing is chosen beforehand";
}

/// Eight screens before it: the one that is right is among the eight that are offered.
TEST(KnownAnswersTest, AmongManyBreakersThoseOfTheLamphouseInHandAreOffered)
{
    visit::Opening opening = Night(u"sedgebrook-nook"_s).opening();
    for (int index = 9; index > 1; --index) {
        const QString number = QString::number(index);
        const LamphouseId lamphouse(u"lamphouse-"_s + number);
        site::IsolationPoint point = opening.site.points.front();
        opening.site.lamphouses.insert(opening.site.lamphouses.begin(), opening.site.lamphouses.back());
        opening.site.projectors.insert(opening.site.projectors.begin(), opening.site.projectors.back());
        opening.site.projectors.front().id = ProjectorId(u"projector-"_s + number);
        opening.site.lamphouses.front().projector = opening.site.projectors.front().id;
        opening.site.lamphouses.front().id = lamphouse;
        opening.site.lamphouses.front().fitted = {};
        point.id = PointId(u"point-"_s + number);
        point.name = u"panel B, "_s + number;
        point.feeds.front().lamphouse = lamphouse;
        opening.site.points.insert(opening.site.points.begin(), point);
    }
    Night night(opening);
    night.doUntil(u"stop-cold-and-dead"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());

    const CaptureView point = captureOf(presenter, u"point"_s);
    ASSERT_EQ(point.options.size(), 9);
    EXPECT_EQ(point.options.at(7).text, u"panel B, 1 mains"_s);
}

TEST(KnownAnswersTest, SomebodyElseIsWritten)
{
    Night night(withContacts());
    night.doUntil(u"tell-before"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    night.clock.advance(1s);

    presenter.keepAnswers({{u"who"_s, {somethingElse()}}});
    ASSERT_EQ(captureOf(presenter, u"who"_s).kind, CaptureView::Kind::Text);
    EXPECT_EQ(captureOf(presenter, u"who"_s).value, QStringList());
    presenter.keepAnswers({{u"who"_s, {u"the night porter"_s}}});
    EXPECT_EQ(presenter.view().card.title, u"Tell everyone: power goes off"_s) << "writing ends no step";
    presenter.done({{u"who"_s, {u"the night porter"_s}}});

    EXPECT_EQ(work.state().swaps[0].record(StepId(u"tell-before"_s)).answers.value(u"who"_s).toString(),
              u"the night porter"_s);
}

TEST(KnownAnswersTest, TheTypeInTheSeatIsChosenAmongAllThatTheModelTakes)
{
    Night night;
    night.doUntil(u"stop-ready-to-strike"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());

    const CaptureView type = captureOf(presenter, u"type"_s);
    ASSERT_EQ(type.options.size(), 4) << "three types and something else";
    QStringList codes;
    for (const CaptureView::Option& option : type.options.mid(0, 3))
        codes.append(option.id);
    codes.sort();
    EXPECT_EQ(codes, (QStringList{u"HVQ21-40A"_s, u"HVQ30-408"_s, u"HVQ30-40B"_s}));
    EXPECT_EQ(type.value, QStringList());
}

TEST(KnownAnswersTest, ABoxBeingWrittenInEndsNoStepAndTheChoiceAfterItDoes)
{
    Night night;
    night.doUntil(u"own-lock"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    const QString tag = captureOf(presenter, u"tag"_s).options.first().id;
    const qint64 before = work.state().entries;
    night.clock.advance(1s);

    presenter.keepAnswers({{u"lock"_s, {}}, {u"tag"_s, {tag}}});
    presenter.keepAnswers({{u"lock"_s, {u"4"_s}}, {u"tag"_s, {tag}}});
    EXPECT_EQ(work.state().entries, before) << "the second digit is still to come";
    presenter.keepAnswers({{u"lock"_s, {u"47"_s}}, {u"tag"_s, {}}});
    presenter.keepAnswers({{u"lock"_s, {u"47"_s}}, {u"tag"_s, {tag}}});

    EXPECT_EQ(work.state().entries, before + 1);
}

TEST(KnownAnswersTest, TheBookInCardComesUpByItselfWhenItsTurnComes)
{
    Night night;
    night.doUntil(u"read-counters"_s);
    VisitAtWork work(night);
    BenchPresenter presenter(work.desk());
    QSignalSpy wanted(&presenter, &BenchPresenter::bookInWanted);
    night.clock.advance(1s);

    presenter.done({{u"hours"_s, {u"1380"_s}}, {u"strikes"_s, {u"337"_s}}});

    EXPECT_EQ(wanted.size(), 1);
    presenter.refresh();
    EXPECT_EQ(wanted.size(), 1) << "once; who leaves it comes back by a press";
}

} // namespace
} // namespace coldarc::ui
