#include "ui/review/verdict_presenter.h"

#include "tests/ui/review/desk_at_work.h"
#include "ui/review/words_review.h"

#include <utility>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using record::Verdict;
using Stand = ActionView::Stand;

const PersonId kDuarte(u"duarte"_s);

class VerdictPresenterTest : public ::testing::Test {
protected:
    VerdictPresenterTest()
    {
        clock.setWall(night.clock.now().wall);
        const people::Day today = dayOfClock();
        people::Authorisation supervise{
            people::AuthorisationId(u"a1"_s), kDuarte, people::Duty::Supervise, {}, today, today,
            PersonId(u"somebody"_s),          {}};
        reviewer =
            review::Reviewer{{kDuarte, u"M. Duarte"_s, people::Role::Supervisor, {}, {}, {}}, {supervise}};
        QObject::connect(&presenter, &VerdictPresenter::given,
                         [this](const VisitId& visit, Verdict) { given.append(visit); });
        QObject::connect(&presenter, &VerdictPresenter::grew, [this] { ++grew; });
        show(u"visit-1"_s);
    }
    [[nodiscard]] people::Day dayOfClock() const { return people::utcDayOf(clock.now().wall); }
    /// Under this sun a day begins that many hours before it does in Greenwich.
    [[nodiscard]] QStringList refusalsEast(int hours)
    {
        VerdictPresenter east{{[this] { return reviewer; }, [this] { return isOpen; },
                               [this](const record::Review& review) { return sign(review); }},
                              clock,
                              QTimeZone(hours * 3600)};
        east.show(reading);
        return east.view().no;
    }
    void show(const QString& visit)
    {
        auto shown = test::readingOf(night.opening().visit, night.entries, test::signedAsWanted(night));
        shown->visit = night.opening().visit;
        if (visit != u"visit-1"_s)
            shown->visit = VisitId(visit);
        reading = shown;
        presenter.show(reading);
    }
    Result<void> sign(const record::Review& review)
    {
        asked.append(review);
        return failure ? tl::unexpected(*failure) : Result<void>();
    }
    void remark(qint64 entry, const QString& text)
    {
        presenter.setMoment(entry);
        presenter.beginRemark();
        presenter.setDraft(text);
        presenter.done();
    }

    test::Night night = test::signedNight();
    test::FakeClock clock;
    std::optional<review::Reviewer> reviewer;
    bool isOpen = true;
    std::optional<Error> failure;
    QList<record::Review> asked;
    QList<VisitId> given;
    int grew = 0;
    std::shared_ptr<VisitReading> reading;
    VerdictPresenter presenter{{[this] { return reviewer; }, [this] { return isOpen; },
                                [this](const record::Review& review) { return sign(review); }},
                               clock};
};

// Given for a day as the calendar on the wall has it, and judged by the same.
TEST_F(VerdictPresenterTest, EastOfGreenwichTheDaysOfAnAuthorisationAreThoseOfTheWall)
{
    using std::chrono::sys_days;
    const people::Day today = dayOfClock();
    const people::Day tomorrow = sys_days(today) + std::chrono::days(1);
    clock.setWall(std::chrono::time_point_cast<std::chrono::milliseconds>(sys_days(today)) + 22h + 30min);
    EXPECT_TRUE(refusalsEast(0).isEmpty());
    EXPECT_EQ(refusalsEast(2).size(), 1) << "it is tomorrow there, and the authorisation has ended";

    reviewer->authorisations.front().from = reviewer->authorisations.front().until = tomorrow;
    EXPECT_EQ(refusalsEast(0).size(), 1);
    EXPECT_TRUE(refusalsEast(2).isEmpty());
}

TEST_F(VerdictPresenterTest, ShowsWhoSignsWhatItMeansAndWhatItCoversBeforeThePress)
{
    const VerdictView& view = presenter.view();
    EXPECT_EQ(view.action.stand, Stand::Ready)
        << view.action.waits.toStdString() << view.no.join(u'\n').toStdString();
    EXPECT_EQ(view.action.text, u"Accept and sign"_s);
    EXPECT_TRUE(view.statement.startsWith(u"Your signature: M. Duarte, supervisor: reviewed and accepted."_s))
        << view.statement.toStdString();
    EXPECT_TRUE(view.statement.contains(u"entries 0 to %1"_s.arg(night.entries.size() - 1)));
    EXPECT_TRUE(view.statement.contains(QString(reading->report.head.hex()).left(12)));
}

TEST_F(VerdictPresenterTest, SignsTheVisitAsItWasInSight)
{
    presenter.done();

    ASSERT_EQ(asked.size(), 1);
    EXPECT_EQ(asked[0].visit, reading->visit);
    EXPECT_EQ(asked[0].entry, night.entries.size() - 1);
    EXPECT_EQ(asked[0].head, reading->report.head);
    EXPECT_EQ(asked[0].verdict, Verdict::Accepted);
    EXPECT_EQ(asked[0].by, kDuarte);
    EXPECT_EQ(asked[0].name, u"M. Duarte"_s);
    EXPECT_EQ(asked[0].at, clock.now().wall);
    EXPECT_EQ(given, QList<VisitId>{reading->visit});
    EXPECT_TRUE(presenter.view().said.startsWith(u"Accepted and signed"_s));
}

TEST_F(VerdictPresenterTest, RemarksStandOnTheirEntriesAndAreSignedWithTheReview)
{
    remark(4, u" which lamp was this? "_s);
    remark(9, u"who was told?"_s);
    ASSERT_EQ(presenter.view().remarks.size(), 2);
    EXPECT_EQ(presenter.view().remarks[0].text, u"which lamp was this?"_s);
    EXPECT_TRUE(presenter.view().remarks[0].sub.startsWith(u"Entry 4, "_s));
    EXPECT_TRUE(presenter.view().statement.contains(u"with 2 remarks"_s));
    EXPECT_TRUE(asked.isEmpty()) << "a remark alone signs nothing";

    presenter.dropRemark(presenter.view().remarks[0].id);
    presenter.done();

    ASSERT_EQ(asked.size(), 1);
    EXPECT_EQ(asked[0].remarks, (QList<record::ReviewRemark>{{9, u"who was told?"_s}}));
    EXPECT_TRUE(presenter.view().remarks.isEmpty()) << "they are signed now";
}

TEST_F(VerdictPresenterTest, ARemarkStaysOnTheEntryThatItWasBegunOn)
{
    presenter.setMoment(4);
    presenter.beginRemark();
    presenter.setMoment(11); // the time line goes on under the form
    presenter.setDraft(u"why?"_s);
    EXPECT_TRUE(presenter.view().form->title.contains(u"Entry 4, "_s));
    presenter.done();

    presenter.done();
    EXPECT_EQ(asked.first().remarks.first().entry, 4);
}

TEST_F(VerdictPresenterTest, SendingBackWaitsForWhatIsToBePutRight)
{
    presenter.beginSendBack();
    ASSERT_TRUE(presenter.view().form);
    EXPECT_EQ(presenter.view().action.stand, Stand::Waits);
    EXPECT_TRUE(presenter.view().action.waits.startsWith(u"Waits for a few words"_s));
    presenter.done();
    EXPECT_TRUE(asked.isEmpty());

    presenter.setDraft(u"Read the marking again."_s);
    EXPECT_EQ(presenter.view().action.stand, Stand::Ready);
    EXPECT_TRUE(presenter.view().statement.contains(u"reviewed and sent back"_s));
    presenter.done();

    ASSERT_EQ(asked.size(), 1);
    EXPECT_EQ(asked[0].verdict, Verdict::SentBack);
    EXPECT_EQ(asked[0].text, u"Read the marking again."_s);
    EXPECT_FALSE(presenter.view().form);
}

TEST_F(VerdictPresenterTest, WhoeverTookPartIsToldSoAndCanSignNothing)
{
    reviewer->person.id = night.ada();
    for (people::Authorisation& one : reviewer->authorisations)
        one.person = night.ada();
    presenter.look();

    EXPECT_EQ(presenter.view().action.stand, Stand::Waits);
    ASSERT_FALSE(presenter.view().no.isEmpty());
    EXPECT_TRUE(presenter.view().no.first().startsWith(u"You took part in this visit, see entry 0"_s));
    EXPECT_TRUE(presenter.view().sendBack.isEmpty());
    EXPECT_TRUE(presenter.view().remark.isEmpty());
    presenter.done();
    presenter.beginSendBack();
    EXPECT_FALSE(presenter.view().form);
    EXPECT_TRUE(asked.isEmpty());
}

TEST_F(VerdictPresenterTest, AnAuthorisationThatRanOutReviewsNothing)
{
    clock.setWall(clock.now().wall + 72h);
    presenter.look();

    EXPECT_EQ(presenter.view().action.stand, Stand::Waits);
    EXPECT_TRUE(presenter.view().no.first().startsWith(u"You may not supervise here today"_s));
}

TEST_F(VerdictPresenterTest, WaitsWhileTheKeyIsLocked)
{
    isOpen = false;
    presenter.look();
    EXPECT_EQ(presenter.view().action.stand, Stand::Waits);
    EXPECT_EQ(presenter.view().action.waits, u"Waits for your key: unlock it"_s);
    presenter.done();
    EXPECT_TRUE(asked.isEmpty());
}

TEST_F(VerdictPresenterTest, AVisitThatGrewIsNotSignedAndWhatWasWrittenStays)
{
    remark(4, u"which lamp was this?"_s);
    failure = Error{Error::Kind::Conflict, u"the visit does not end there any more"_s};

    presenter.done();

    EXPECT_TRUE(given.isEmpty());
    EXPECT_EQ(grew, 1);
    EXPECT_TRUE(presenter.view().said.contains(u"Nothing was signed"_s));
    presenter.show(nullptr); // it is read anew
    show(u"visit-1"_s);
    EXPECT_EQ(presenter.view().remarks.size(), 1);
    EXPECT_TRUE(presenter.view().said.contains(u"Nothing was signed"_s))
        << "still told beside the new reading";
}

TEST_F(VerdictPresenterTest, ADiskThatRefusesLosesNothingThatWasWritten)
{
    remark(4, u"which lamp was this?"_s);
    failure = Error{Error::Kind::Storage, u"full"_s};
    presenter.done();
    EXPECT_TRUE(given.isEmpty());
    EXPECT_EQ(grew, 0);
    EXPECT_EQ(presenter.view().remarks.size(), 1);
    EXPECT_TRUE(presenter.view().said.startsWith(u"The review could not be kept"_s));

    failure = Error{Error::Kind::Malformed, u"a review that is not whole"_s};
    presenter.done();
    EXPECT_EQ(presenter.view().remarks.size(), 1);
    EXPECT_FALSE(presenter.view().said.contains(u"disk"_s)) << "room on the disk would not help";
}

TEST_F(VerdictPresenterTest, ABusyWorkspaceIsNeitherALockedKeyNorAFullDisk)
{
    remark(4, u"which lamp was this?"_s);
    failure = Error{Error::Kind::Busy, u"another writer"_s};

    presenter.done();

    EXPECT_TRUE(given.isEmpty());
    EXPECT_EQ(presenter.view().remarks.size(), 1);
    EXPECT_EQ(presenter.view().said,
              u"The workspace was busy. Nothing was signed; what you have written is kept. "
              "Press again."_s);
}

TEST_F(VerdictPresenterTest, NobodySignsWhatAnotherHasWritten)
{
    remark(4, u"which lamp was this?"_s);
    reviewer->person.id = PersonId(u"another"_s);
    presenter.look();
    EXPECT_TRUE(presenter.view().remarks.isEmpty());
}

TEST_F(VerdictPresenterTest, WhoeverComesBackFindsWhatTheyHaveWritten)
{
    remark(4, u"which lamp was this?"_s);
    const auto left = std::exchange(reviewer, std::nullopt);
    presenter.look();
    EXPECT_TRUE(presenter.view().remarks.isEmpty()) << "nobody is here";
    EXPECT_EQ(presenter.view().action.stand, Stand::Waits);

    reviewer = left;
    presenter.look();
    ASSERT_EQ(presenter.view().remarks.size(), 1);
    EXPECT_EQ(presenter.view().remarks.front().text, u"which lamp was this?"_s);
}

TEST_F(VerdictPresenterTest, ARemarkThatWasBegunIsNeitherLostNorMovedToAnotherEntry)
{
    presenter.setMoment(4);
    presenter.beginRemark();
    presenter.setDraft(u"which lamp"_s);
    presenter.leaveForm();
    EXPECT_EQ(presenter.view().action.stand, Stand::Waits);
    presenter.done();
    EXPECT_TRUE(asked.isEmpty()) << "it would be signed without it";

    presenter.setMoment(9);
    presenter.beginRemark();
    EXPECT_TRUE(presenter.view().form->title.contains(u"Entry 4, "_s));
    EXPECT_EQ(presenter.view().form->draft, u"which lamp"_s);
    presenter.setDraft(QString());
    presenter.leaveForm();
    EXPECT_EQ(presenter.view().action.stand, Stand::Ready);
    presenter.beginSendBack();
    presenter.setDraft(u"read it again"_s);
    presenter.leaveForm();
    EXPECT_EQ(presenter.view().action.stand, Stand::Waits) << "it was begun to be sent back";
}

// The window tells of no such moment: the day changes while it is in sight.
TEST_F(VerdictPresenterTest, ThePressLooksAtTheDayAnew)
{
    ASSERT_EQ(presenter.view().action.stand, Stand::Ready);
    clock.setWall(clock.now().wall + 24h);

    presenter.done();

    EXPECT_TRUE(asked.isEmpty());
    EXPECT_FALSE(presenter.view().no.isEmpty());
}

TEST_F(VerdictPresenterTest, WhatWasAcceptedIsNotAcceptedAgainUntilSomethingIsAdded)
{
    record::Review before;
    before.visit = reading->visit;
    before.entry = night.entries.size() - 1;
    before.verdict = Verdict::Accepted;
    reading->reviews = {ReadReview{before, true, false, true}};
    presenter.look();
    EXPECT_EQ(presenter.view().action.stand, Stand::Waits);
    EXPECT_FALSE(presenter.view().sendBack.isEmpty()) << "a second thought is possible";

    reading->reviews.first().review.entry -= 1;
    presenter.look();
    EXPECT_EQ(presenter.view().action.stand, Stand::Ready);
}

TEST_F(VerdictPresenterTest, AVisitWhoseChainBreaksIsSignedByNobody)
{
    reading->breaksAt = night.entries.size();
    presenter.look();
    EXPECT_EQ(presenter.view().action.stand, Stand::Waits);
    EXPECT_TRUE(presenter.view().no.first().startsWith(u"Its chain breaks"_s));
    EXPECT_EQ(presenter.view().no.size(), 1) << "nothing is said of what cannot be read";
    EXPECT_EQ(presenter.view().action.waits, u"This visit cannot be reviewed as it stands"_s);
    presenter.done();
    EXPECT_TRUE(asked.isEmpty());
}

TEST(ReviewRefusalWordsTest, EveryReasonHasASentence)
{
    using Kind = review::ReviewRefusal::Kind;
    for (int index = 0; index <= static_cast<int>(Kind::TooLong); ++index) {
        const QString said = sentenceOf({static_cast<Kind>(index), 3, 0, people::Authority::Verdict::Expired},
                                        QTimeZone::utc());
        EXPECT_TRUE(!said.isEmpty() && !said.contains(u"%1"_s)) << index;
    }
    const review::ReviewRefusal behind{
        Kind::ClockBehind, -1, -1, {}, WallTime(std::chrono::milliseconds(1'795'000'000'000))};
    EXPECT_TRUE(sentenceOf(behind, QTimeZone::utc()).contains(u"after 2026-11-18 11:06"_s))
        << sentenceOf(behind, QTimeZone::utc()).toStdString();
}

} // namespace
} // namespace coldarc::ui
