#include "ui/review/review_presenter.h"

#include "tests/ui/review/desk_at_work.h"
#include "ui/review/view_of_review.h"
#include "ui/review/words_review.h"

#include <QBuffer>
#include <QImage>
#include <QSignalSpy>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::DeskAtWork;
using Step = TimeLineDrawing::Step;

class ReviewPresenterTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        // The clock shows "now" for the filter of days.
        clock.setWall(desk.night.clock.now().wall);
        QObject::connect(&presenter, &ReviewPresenter::momentChanged, [this] { ++moments; });
        presenter.refresh();
    }
    [[nodiscard]] qint64 entries() const { return desk.night.entries.size(); }
    [[nodiscard]] qint64 incident() const { return presenter.view().timeLine.marks.first().entry; }

    test::FakeClock clock;
    DeskAtWork desk;
    ReviewPresenter presenter{desk.deeds(), clock, inPlace(), QTimeZone::utc()};
    int moments = 0;
};

TEST_F(ReviewPresenterTest, OpensOnWhatWaitsWithTheFirstVisitInHand)
{
    EXPECT_TRUE(desk.lastFilter.waitsAlone);
    EXPECT_EQ(desk.lastOrder, review::QueueOrder::Weight);
    EXPECT_EQ(presenter.queueView().count, u"2 visits wait, 1 out of the ordinary"_s);
    EXPECT_EQ(presenter.queueView().current, 0);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-1"_s));
    EXPECT_TRUE(presenter.view().empty.isEmpty());
}

TEST_F(ReviewPresenterTest, TheFirstThingOutOfTheOrdinaryIsTheMomentInHand)
{
    ASSERT_FALSE(presenter.view().cards.isEmpty());
    const ReviewCard& card = presenter.view().cards.first();
    EXPECT_EQ(card.title, u"Something went wrong"_s);
    EXPECT_EQ(presenter.moment().entry, card.entry);
    EXPECT_TRUE(card.where.startsWith(u"entry %1, "_s.arg(card.entry)));
}

TEST_F(ReviewPresenterTest, GoesAlongTheTimeLineEntryByEntryAndMarkByMark)
{
    presenter.step(Step::First);
    EXPECT_EQ(presenter.moment().entry, 0);
    presenter.step(Step::Before);
    EXPECT_EQ(presenter.moment().entry, 0) << "before the first there is nothing";
    presenter.step(Step::Next);
    EXPECT_EQ(presenter.moment().entry, 1);
    presenter.step(Step::MarkNext);
    EXPECT_EQ(presenter.moment().entry, incident());
    presenter.step(Step::Last);
    EXPECT_EQ(presenter.moment().entry, entries() - 1);
    presenter.step(Step::Next);
    EXPECT_EQ(presenter.moment().entry, entries() - 1);
    presenter.step(Step::First);
    presenter.step(Step::MarkBefore);
    EXPECT_EQ(presenter.moment().entry, 0);
}

TEST_F(ReviewPresenterTest, AMomentShowsTheMachineAsItStoodThen)
{
    const visit::StepRecord off = desk.night.swap().record(StepId(u"lamp-off"_s));
    ASSERT_GT(off.entry, 0);

    presenter.goTo(off.entry - 1);
    EXPECT_EQ(presenter.moment().machine.lamphouses.first().heat, MachineView::Heat::Lit);
    presenter.goTo(off.entry);
    EXPECT_EQ(presenter.moment().machine.lamphouses.first().heat, MachineView::Heat::Cooling);
    EXPECT_TRUE(presenter.moment().head.startsWith(u"Entry %1 \u00b7 "_s.arg(off.entry)));
    EXPECT_EQ(presenter.moment().what, desk.night.swap().step(StepId(u"lamp-off"_s))->title);
}

TEST_F(ReviewPresenterTest, DraggingGoesToTheLastEntryUntilThen)
{
    const auto& all = desk.night.entries;
    const double minutes =
        std::chrono::duration<double, std::ratio<60>>(all[6].at.wall - all[0].at.wall).count();

    presenter.goToMoment(minutes);
    EXPECT_EQ(all[presenter.moment().entry].at.wall, all[6].at.wall);
    EXPECT_DOUBLE_EQ(presenter.moment().at, minutes);
    const int before = moments;
    presenter.goToMoment(minutes);
    EXPECT_EQ(moments, before) << "the same moment is told once";
}

TEST_F(ReviewPresenterTest, NextAndPreviousStopAtTheEnds)
{
    presenter.next();
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
    EXPECT_FALSE(presenter.queueView().count.contains(u"the last of them"_s));
    presenter.next();
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
    EXPECT_TRUE(presenter.queueView().count.endsWith(u"this is the last of them"_s));
    presenter.previous();
    EXPECT_FALSE(presenter.queueView().count.contains(u"of them"_s));
    presenter.previous();
    EXPECT_TRUE(presenter.queueView().count.endsWith(u"this is the first of them"_s));
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-1"_s));
    EXPECT_EQ(desk.read, 3) << "each visit is read when it is come to";
}

TEST_F(ReviewPresenterTest, AVisitThatWasLookedUpIsStillInHandWhenSomebodyComesBack)
{
    const VisitId elsewhere(u"visit-of-another-list"_s);
    presenter.showAt(elsewhere, 3);
    ASSERT_EQ(presenter.moment().entry, 3);
    const int before = desk.read;

    presenter.refresh();

    EXPECT_EQ(presenter.visit(), elsewhere);
    EXPECT_EQ(presenter.moment().entry, 3) << "at the entry that was looked up";
    EXPECT_EQ(presenter.queueView().current, -1);
    EXPECT_EQ(desk.read, before);
    presenter.next();
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-1"_s)) << "N leads into the queue";
    presenter.refresh();
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-1"_s));
}

TEST_F(ReviewPresenterTest, WhoeverLooksForSomethingElseHasDoneWithWhatWasLookedUp)
{
    presenter.showAt(VisitId(u"visit-of-another-list"_s), 3);

    presenter.setText(u"weir"_s);

    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
}

TEST_F(ReviewPresenterTest, ReadsOneVisitAtATimeAndNoneThatNobodyWantsAnyMore)
{
    desk.lines.append({u"visit-4"_s, u"Mill Lane"_s});
    desk.lines.append({u"visit-5"_s, u"Tannery Yard"_s});
    test::Later later;
    ReviewPresenter held{desk.deeds(), clock, later.behind(), QTimeZone::utc()};
    const int before = desk.read;
    held.refresh();
    ASSERT_EQ(later.waiting(), 1);
    for (int key = 0; key < 3; ++key)
        held.next();
    EXPECT_EQ(later.waiting(), 1) << "a key that is held down begins nothing more";
    ASSERT_EQ(held.visit(), VisitId(u"visit-5"_s));

    later.doNext();
    EXPECT_FALSE(held.reading()) << "nobody wants the first one";
    EXPECT_TRUE(held.view().empty.startsWith(u"The visit is being read"_s));
    ASSERT_EQ(later.waiting(), 1);
    later.doNext();

    EXPECT_EQ(later.waiting(), 0);
    EXPECT_EQ(desk.read - before, 2) << "those between were never read";
    ASSERT_TRUE(held.reading());
    EXPECT_EQ(held.reading()->visit, VisitId(u"visit-5"_s));
}

TEST_F(ReviewPresenterTest, PicturesAreReadBehindTheWindowAfterTheirVisit)
{
    const visit::Entry last = desk.night.entries.last();
    for (const char* picture : {"a picture", "another"})
        desk.night.entries.append(
            {last.at, last.by, visit::PictureKept{desk.night.swap().id, {}, u"box"_s, sha256(picture)}});
    QImage large(4480, 1000, QImage::Format_RGB32);
    large.fill(Qt::gray);
    QBuffer out(&desk.picture);
    ASSERT_TRUE(large.save(&out, "PNG"));
    test::Later later;
    ReviewPresenter held{desk.deeds(), clock, later.behind(), QTimeZone::utc()};
    QStringList told;
    QSize size;
    QObject::connect(&held, &ReviewPresenter::pictureRead, [&](const QString& hash, const QImage& picture) {
        told.append(hash);
        size = picture.size();
    });

    held.refresh();
    later.doNext();
    ASSERT_EQ(held.view().pictures.size(), 2);
    EXPECT_EQ(desk.picturesRead, 0) << "the visit is shown before its pictures are there";
    EXPECT_EQ(later.waiting(), 1);
    later.doNext();
    EXPECT_EQ(told, QStringList{sha256("a picture").hex()});
    EXPECT_EQ(size, QSize(2240, 500)) << "no larger than it is shown";

    held.next();
    later.doAll();
    EXPECT_EQ(told.count(sha256("another").hex()), 1) << "that of the visit before was not wanted any more";
}

TEST_F(ReviewPresenterTest, APictureThatIsNotThereIsToldFromOneThatCannotBeRead)
{
    const visit::Entry last = desk.night.entries.last();
    desk.night.entries.append(
        {last.at, last.by, visit::PictureKept{desk.night.swap().id, {}, u"box"_s, sha256("a picture")}});
    const auto said = [&](const std::optional<Error>& failure, const QByteArray& bytes = {}) {
        desk.pictureFailure = failure;
        desk.picture = bytes;
        test::Later later;
        ReviewPresenter held{desk.deeds(), clock, later.behind(), QTimeZone::utc()};
        QString told;
        QObject::connect(&held, &ReviewPresenter::pictureRead,
                         [&](const QString&, const QImage& picture, const QString& trouble) {
                             EXPECT_TRUE(picture.isNull());
                             told = trouble;
                         });
        held.refresh();
        later.doAll();
        return told;
    };

    EXPECT_EQ(said(Error{Error::Kind::NotFound, u"an invented hash"_s}),
              u"The picture is not in this workspace."_s);
    EXPECT_TRUE(said(Error{Error::Kind::Malformed, u"an invented hash"_s})
                    .startsWith(u"The picture is not as it was kept."_s));
    EXPECT_TRUE(said(Error{Error::Kind::Storage, u"an invented fault"_s})
                    .startsWith(u"The picture could not be read."_s));
    EXPECT_EQ(said({}, "no picture"), u"What was kept is no picture that can be shown."_s);
}

TEST_F(ReviewPresenterTest, WhatLeavesTheQueueMakesRoomForTheOneBehindIt)
{
    desk.lines[0].review = u"accepted"_s;

    presenter.refresh();

    EXPECT_EQ(presenter.queueView().current, 0);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
}

TEST_F(ReviewPresenterTest, TheVisitInHandStaysInHandWhenOthersComeBeforeIt)
{
    presenter.next();
    desk.lines.prepend({u"visit-0"_s, u"Tannery Yard"_s, 99, {u"signature-bad"_s}});

    presenter.refresh();

    EXPECT_EQ(presenter.queueView().current, 2);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
}

TEST_F(ReviewPresenterTest, TheVisitInHandStaysInHandHoweverFarDownTheQueueItStands)
{
    presenter.next();
    for (int number = 0; number < 3 * QueueModel::kPage; ++number)
        desk.lines.prepend({u"visit-of-late-%1"_s.arg(number), u"Tannery Yard"_s});

    presenter.refresh();

    EXPECT_EQ(presenter.queueView().current, 3 * QueueModel::kPage + 1);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
}

TEST_F(ReviewPresenterTest, ARowThatCannotBeReadLeavesTheMarkOnTheVisitInHand)
{
    for (int number = 0; number < 3 * QueueModel::kPage; ++number)
        desk.lines.append({u"visit-of-old-%1"_s.arg(number), u"Tannery Yard"_s});
    presenter.refresh();
    desk.queueFails = true;
    const QSignalSpy told(&presenter, &ReviewPresenter::queueChanged);

    presenter.chooseRow(2 * QueueModel::kPage);

    ASSERT_EQ(told.size(), 1) << "the list has moved its mark by itself";
    EXPECT_EQ(presenter.queueView().current, 0);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-1"_s));
}

TEST_F(ReviewPresenterTest, TheVisitInHandIsReadAnewWhereItsLineSaysSomethingElse)
{
    ASSERT_EQ(desk.read, 1);
    presenter.refresh();
    EXPECT_EQ(desk.read, 1) << "nothing is new";
    desk.lines[0].review = u"answered"_s;

    presenter.refresh();

    EXPECT_EQ(desk.read, 2);
}

TEST_F(ReviewPresenterTest, LeadsToTheHistoriesOfLamphouseLampsAndPeople)
{
    const QList<RowView>& rows = presenter.view().histories;
    ASSERT_EQ(rows.size(), 4);
    EXPECT_EQ(historyLinkOf(rows[0].id), (HistoryLink{HistoryLink::About::Lamphouse,
                                                      desk.night.state.ground->lamphouses.first().text()}));
    EXPECT_EQ(historyLinkOf(rows[1].id).about, HistoryLink::About::Lamp);
    EXPECT_EQ(historyLinkOf(rows[3].id), (HistoryLink{HistoryLink::About::Person, u"ada"_s}));
    EXPECT_EQ(rows[3].title, u"A. Okoro"_s);
}

TEST_F(ReviewPresenterTest, AVisitThatIsLookedUpComesUpAtItsEntryInTheQueueOrNot)
{
    presenter.showAt(VisitId(u"visit-9"_s), 7);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-9"_s));
    EXPECT_EQ(presenter.moment().entry, 7);
    EXPECT_EQ(presenter.queueView().current, -1);

    presenter.showAt(VisitId(u"visit-2"_s), 100'000);
    EXPECT_EQ(presenter.queueView().current, 1);
    EXPECT_EQ(presenter.moment().entry, entries() - 1) << "there is no later one";
}

TEST_F(ReviewPresenterTest, EveryFilterReachesTheStore)
{
    presenter.setStand(u"accepted"_s);
    EXPECT_EQ(desk.lastFilter.stand, review::Stand::Accepted);
    EXPECT_FALSE(desk.lastFilter.waitsAlone);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-3"_s));
    presenter.setStand(u"every"_s);
    EXPECT_FALSE(desk.lastFilter.stand);
    presenter.setWhat(u"unusual"_s);
    EXPECT_TRUE(desk.lastFilter.isUnusualAlone);
    presenter.setWhat(u"step-owed"_s);
    EXPECT_EQ(desk.lastFilter.kind, review::Exception::Kind::StepOwed);
    EXPECT_FALSE(desk.lastFilter.isUnusualAlone);
    presenter.setDays(u"30"_s);
    EXPECT_EQ(desk.lastFilter.from, clock.now().wall - 30 * 24h);
    presenter.setOrder(u"engineer"_s);
    EXPECT_EQ(desk.lastOrder, review::QueueOrder::Engineer);
    presenter.setText(u" weir "_s);
    EXPECT_EQ(desk.lastFilter.text, u"weir"_s);
    EXPECT_TRUE(presenter.queueView().count.endsWith(u"out of the ordinary"_s));
    EXPECT_FALSE(presenter.queueView().count.contains(u"wait"_s)) << "the count is of what is looked for";
    presenter.setText(u"weir"_s);
    presenter.setText(u" "_s);
    EXPECT_FALSE(presenter.queueView().filter.contains(u'\u201c')) << "a space alone looks for nothing";
}

TEST_F(ReviewPresenterTest, AnEmptyQueueSaysWhetherNothingWaitsOrNothingIsLikeThat)
{
    desk.lines.clear();
    presenter.refresh();
    EXPECT_TRUE(presenter.queueView().empty.startsWith(u"No visit waits"_s));
    EXPECT_EQ(presenter.view().empty, presenter.queueView().empty);
    EXPECT_TRUE(presenter.visit().isEmpty());
    EXPECT_EQ(presenter.moment(), MomentView());

    presenter.setText(u"nowhere"_s);
    EXPECT_TRUE(presenter.queueView().empty.startsWith(u"No visit is like that"_s));

    desk.queueFails = true;
    presenter.refresh();
    EXPECT_TRUE(presenter.queueView().empty.startsWith(u"The list could not be read"_s));
}

TEST_F(ReviewPresenterTest, AVisitThatCannotBeReadIsSaidToBeSo)
{
    desk.failure = Error{Error::Kind::Malformed, u"entry 4"_s};
    presenter.next();
    EXPECT_TRUE(presenter.view().empty.contains(u"not as they were written"_s));
    EXPECT_EQ(presenter.reading(), nullptr);
    EXPECT_EQ(presenter.moment(), MomentView());

    desk.failure = Error{Error::Kind::Storage, u"disk"_s};
    presenter.previous();
    EXPECT_TRUE(presenter.view().empty.startsWith(u"This visit could not be read"_s));

    desk.failure.reset();
    presenter.refresh();
    EXPECT_TRUE(presenter.view().empty.isEmpty()) << "the place pressed again reads it anew";
}

TEST(ViewOfReviewTest, SaysWhoWhereWhenAndHowItEnded)
{
    const test::Night night = test::signedNight();
    const auto reading = test::readingOf(night.opening().visit, night.entries, test::signedAsWanted(night));

    const ReviewView view = reviewViewOf(*reading, QTimeZone::utc());

    EXPECT_TRUE(view.head.startsWith(u"Visit of "_s) && view.head.endsWith(u", A. Okoro"_s))
        << view.head.toStdString();
    EXPECT_EQ(view.title,
              u"%1, %2"_s.arg(night.opening().site.site.name, night.opening().site.screens.front().name));
    const auto entries = night.entries.size();
    EXPECT_TRUE(view.sub.endsWith(u"%1 entries, 0 to %2"_s.arg(entries).arg(entries - 1)))
        << view.sub.toStdString();
    EXPECT_TRUE(view.fault.isEmpty());
    EXPECT_EQ(view.lines.size(), night.entries.size());
}

TEST(ViewOfReviewTest, ATimeLineOfOneDayHasTimesAloneAndOneOverMidnightSaysTheDays)
{
    test::Night night = test::signedNight();
    const auto viewOf = [&] {
        return reviewViewOf(
                   *test::readingOf(night.opening().visit, night.entries, test::signedAsWanted(night)),
                   QTimeZone::utc())
            .timeLine;
    };
    const auto noon = std::chrono::floor<std::chrono::days>(night.entries.first().at.wall) + 12h;
    const auto shift = [&](WallTime to) {
        const auto by = to - night.entries.first().at.wall;
        for (visit::Entry& entry : night.entries)
            entry.at.wall += by;
    };
    shift(noon);
    TimeLineView view = viewOf();
    ASSERT_FALSE(view.ticks.isEmpty());
    EXPECT_EQ(view.ticks.first().time, u"12:00"_s);
    EXPECT_TRUE(std::ranges::all_of(view.ticks, [](const auto& tick) { return tick.day.isEmpty(); }));

    shift(noon + 11h + 30min);
    view = viewOf();
    EXPECT_EQ(view.ticks.first().time, u"23:30"_s);
    EXPECT_EQ(std::ranges::count_if(view.ticks, [](const auto& tick) { return !tick.day.isEmpty(); }), 2);
}

TEST(ViewOfReviewTest, TheTimeLineEndsAtClosingAndARemarkOfLaterHasItsOwnLineWithItsDay)
{
    test::Night night = test::signedNight();
    const auto viewOf = [&] {
        return reviewViewOf(
                   *test::readingOf(night.opening().visit, night.entries, test::signedAsWanted(night)),
                   QTimeZone::utc())
            .timeLine;
    };
    const TimeLineView before = viewOf();
    EXPECT_TRUE(before.after.isEmpty());
    night.clock.advance(std::chrono::days(36));
    ASSERT_TRUE(night.tell(visit::Addendum{u"the site called: the fan rattles"_s}));

    TimeLineView view = viewOf();

    ASSERT_EQ(view.after.size(), 1);
    EXPECT_TRUE(view.after.first().contains(dayText(night.entries.last().at.wall, QTimeZone::utc())));
    EXPECT_TRUE(view.after.first().endsWith(u"entry %1"_s.arg(night.entries.size() - 1)));
    view.after.clear();
    EXPECT_EQ(view, before) << "ticks, cuts, bars and marks are those of the work";
}

TEST(ViewOfReviewTest, RowsOfGatesWaitsAndStatesAreToldApart)
{
    const test::Night night = test::signedNight();
    const auto reading = test::readingOf(night.opening().visit, night.entries, test::signedAsWanted(night));
    const TimeLineView view = reviewViewOf(*reading, QTimeZone::utc()).timeLine;

    ASSERT_EQ(view.groups.size(), 1);
    const auto row = [&](const QString& name) {
        return *std::ranges::find(view.groups.first().rows, name, &TimeLineView::Row::name);
    };
    EXPECT_EQ(row(u"Cold"_s).kind, TimeLineView::Kind::Gate);
    EXPECT_EQ(row(u"cooling"_s).kind, TimeLineView::Kind::Wait);
    EXPECT_EQ(row(u"lamp lit"_s).kind, TimeLineView::Kind::State);
    EXPECT_EQ(row(u"lamp lit"_s).bars.size(), 2) << "the old lamp and the new one";
}

TEST(ViewOfReviewTest, SaysOfEachSignatureWhetherItVerifiesAndWhoVouches)
{
    const test::Night night = test::signedNight();
    QList<review::HeadSigned> signatures = test::signedAsWanted(night);
    const auto lines = [&] {
        const auto reading = test::readingOf(night.opening().visit, night.entries, signatures);
        return reviewViewOf(*reading, QTimeZone::utc()).signatures;
    };
    const auto last = std::ranges::find(signatures, u"performed"_s, &review::HeadSigned::meaning);
    ASSERT_NE(last, signatures.end());
    const auto ofWork = [&] {
        const QList<SignedLine> all = lines();
        const auto found = std::ranges::find_if(
            all, [&](const SignedLine& one) { return one.text.endsWith(u", entry %1"_s.arg(last->entry)); });
        return found == all.end() ? SignedLine() : *found;
    };
    EXPECT_EQ(lines().first().text, u"The chain of %1 entries is whole"_s.arg(night.entries.size()));
    EXPECT_EQ(ofWork().kind, DoneMark::Kind::Signed);
    EXPECT_EQ(ofWork().sub,
              u"verifies; office Invented Office vouches for the key as that of A. Okoro, engineer"_s);

    last->vouchedBy.first().office = u"an office that nobody believes here"_s;
    EXPECT_EQ(ofWork().kind, DoneMark::Kind::Missing);
    EXPECT_EQ(ofWork().sub, u"verifies; nobody vouches for the key"_s);

    last->isGood = false;
    EXPECT_EQ(ofWork().kind, DoneMark::Kind::Broken);
    EXPECT_EQ(ofWork().sub, u"does not verify"_s);
}

TEST(ViewOfReviewTest, ASignatureDuringTheWorkThatNobodyVouchesForStandsUnderNoTick)
{
    const test::Night night = test::signedNight();
    QList<review::HeadSigned> signatures = test::signedAsWanted(night);
    const auto stop = std::ranges::find(signatures, u"stop"_s, &review::HeadSigned::meaning);
    ASSERT_NE(stop, signatures.end());
    const auto told = [&]() -> std::optional<SignedLine> {
        const auto reading = test::readingOf(night.opening().visit, night.entries, signatures);
        const QList<SignedLine> all = reviewViewOf(*reading, QTimeZone::utc()).signatures;
        const auto found = std::ranges::find_if(
            all, [&](const SignedLine& one) { return one.text.endsWith(u", entry %1"_s.arg(stop->entry)); });
        return found == all.end() ? std::nullopt : std::optional(*found);
    };
    EXPECT_FALSE(told()) << "one of a number";

    stop->vouchedBy.clear();

    ASSERT_TRUE(told());
    EXPECT_EQ(told()->kind, DoneMark::Kind::Missing);
    EXPECT_EQ(told()->sub, u"verifies; nobody vouches for the key"_s);
}

TEST(ViewOfReviewTest, WhatAKeyOutOfUseSignedIsToldAsThat)
{
    const test::Night night = test::signedNight();
    QList<review::HeadSigned> signatures = test::signedAsWanted(night);
    signatures.last().isOutOfUse = true;
    const auto reading = test::readingOf(night.opening().visit, night.entries, signatures);

    const ReviewView view = reviewViewOf(*reading, QTimeZone::utc());

    const auto told = std::ranges::find(view.signatures, DoneMark::Kind::Broken, &SignedLine::kind);
    ASSERT_NE(told, view.signatures.end());
    EXPECT_TRUE(told->sub.contains(u"out of use"_s));
}

TEST(ViewOfReviewTest, AReviewByAKeyOutOfUseDoesNotSayHowTheVisitStands)
{
    const test::Night night = test::signedNight();
    const auto reading = test::readingOf(night.opening().visit, night.entries, {});
    record::Review review;
    review.entry = night.entries.size() - 1;
    reading->reviews = {ReadReview{review, true, false, true}};
    EXPECT_EQ(reviewViewOf(*reading, QTimeZone::utc()).stand, u"Accepted"_s);

    reading->reviews.first().isOutOfUse = true;

    EXPECT_EQ(reviewViewOf(*reading, QTimeZone::utc()).stand, u"Waits for a review"_s);
    EXPECT_EQ(reviewViewOf(*reading, QTimeZone::utc()).past.first().signature.kind, DoneMark::Kind::Broken);
}

TEST(ViewOfReviewTest, AReviewThatNobodyVouchesForIsShownAndDoesNotSayHowTheVisitStands)
{
    const test::Night night = test::signedNight();
    const auto reading = test::readingOf(night.opening().visit, night.entries, {});
    record::Review review;
    review.entry = night.entries.size() - 1;
    reading->reviews = {ReadReview{review, true, false, false}};

    const ReviewView view = reviewViewOf(*reading, QTimeZone::utc());

    EXPECT_EQ(view.stand, u"Waits for a review"_s);
    ASSERT_EQ(view.past.size(), 1);
    EXPECT_EQ(view.past.first().signature.kind, DoneMark::Kind::Broken);
    EXPECT_TRUE(view.past.first().signature.text.endsWith(u"it does not count"_s));
}

TEST(ViewOfReviewTest, AnEndThatWasCutOffIsToldByTheEntryThatSomebodySigned)
{
    const test::Night night = test::signedNight();
    const auto reading = test::readingOf(night.opening().visit, night.entries.first(20), {});
    reading->breaksAt = 20;
    reading->cutOffAt = 24;

    const ReviewView view = reviewViewOf(*reading, QTimeZone::utc());

    EXPECT_TRUE(view.fault.startsWith(u"Somebody signed entry 24, which is not there any more"_s));
    EXPECT_TRUE(view.fault.contains(u"behind entry 19"_s)) << view.fault.toStdString();
    EXPECT_TRUE(std::ranges::none_of(view.signatures,
                                     [](const SignedLine& one) { return one.text.contains(u"is whole"_s); }));
}

TEST(ViewOfReviewTest, TellsWhereAChainBreaksAndCallsItNotWhole)
{
    const test::Night night = test::signedNight();
    const auto reading = test::readingOf(night.opening().visit, night.entries.first(20), {});
    reading->breaksAt = 20;

    const ReviewView view = reviewViewOf(*reading, QTimeZone::utc());

    EXPECT_TRUE(view.fault.startsWith(u"The chain breaks at entry 20"_s));
    EXPECT_TRUE(view.sub.endsWith(u"what can be read: 20 entries, 0 to 19"_s)) << view.sub.toStdString();
    EXPECT_FALSE(view.sub.contains(u"not closed"_s)) << "how it ended stands behind the break, if anywhere";
    EXPECT_TRUE(std::ranges::none_of(view.signatures,
                                     [](const SignedLine& one) { return one.text.contains(u"is whole"_s); }));
}

} // namespace
} // namespace coldarc::ui
