#include "ui/record/records_presenter.h"

#include "tests/support/testing.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"
#include "ui/record/record_words.h"
#include "ui/record/records_page.h"

#include <QApplication>
#include <QSet>
#include <QTest>

// Every file and visit here is invented.

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using record::Fault;
using record::Intake;
using record::TakenRecord;
using Verdict = Intake::Verdict;
using Why = Intake::Why;

TakenRecord taken(const QString& file, Verdict verdict, Why why = Why::None)
{
    return {file, {}, VisitId(u"visit-1"_s), {verdict, why}};
}

class RecordsPresenterTest : public ::testing::Test {
protected:
    RecordsPresenterTest()
    {
        QObject::connect(&presenter, &RecordsPresenter::visitsChanged, [this] { ++changes; });
    }
    /// What comes of a file is told by the beginning of its name.
    TakenRecord take(const QString& file)
    {
        ++asked;
        if (file.startsWith(u"new"))
            return taken(file, Verdict::Take);
        if (file.startsWith(u"old"))
            return taken(file, Verdict::Nothing);
        if (file.startsWith(u"strange"))
            return taken(file, Verdict::Wait, Why::UnknownOffice);
        if (file.startsWith(u"altered")) {
            TakenRecord altered = taken(file, Verdict::Refuse, Why::NotAsSigned);
            altered.faults = {{Fault::Kind::ChainBreaks, 4}};
            return altered;
        }
        return {file, u"no ZIP archive"_s};
    }
    void takeIn(const QStringList& files)
    {
        presenter.takeIn(files);
        while (!presenter.view().progress.isEmpty() || asked == 0)
            QCoreApplication::processEvents();
    }

    int asked = 0;
    int changes = 0;
    bool isDiskFull = false;
    bool isWorkspaceGone = false;
    bool isHeld = false; ///< a turn ends only when `held` is called
    std::function<void()> held;
    std::vector<record::WaitingRecord> waiting;
    int looked = 0;
    Verdict again = Verdict::Wait;
    RecordsPresenter presenter{
        {[this](const QStringList& files, const RecordDeeds::Taken& then) {
             if (isWorkspaceGone)
                 return then(fail(Error::Kind::Storage, u"gone"_s));
             const std::vector<TakenRecord> some{take(files.front())};
             if (isHeld)
                 held = [then, some] { then(some); };
             else
                 then(some);
         },
         [this](const Hash&) {
             if (again == Verdict::Take)
                 waiting.clear();
             return taken({}, again, again == Verdict::Wait ? Why::UnknownOffice : Why::None);
         },
         [this] { return Result<std::vector<record::WaitingRecord>>(waiting); },
         [this](const Hash& file) {
             ++looked;
             return file == sha256("file") ? u"Corn Exchange, 2026-10-21"_s : QString();
         },
         [this](const Hash& file) -> Result<void> {
             if (isDiskFull)
                 return fail(Error::Kind::Storage, u"full"_s);
             std::erase_if(waiting, [&](const auto& one) { return one.file == file; });
             return {};
         }}};
};

TEST_F(RecordsPresenterTest, CountsWhatBecameOfEachFileAndNamesThoseThatWereNotTaken)
{
    takeIn({u"new-1.zip"_s, u"new-2.zip"_s, u"old.zip"_s, u"strange.zip"_s, u"/far/altered.zip"_s.mid(5),
            u"notes.txt"_s});

    EXPECT_EQ(presenter.view().outcome,
              u"2 taken in, 1 there already, 1 waiting, 1 refused, 1 not readable."_s);
    ASSERT_EQ(presenter.view().notTaken.size(), 2);
    EXPECT_EQ(presenter.view().notTaken[0].text, u"altered.zip"_s);
    EXPECT_TRUE(presenter.view().notTaken[0].sub.startsWith(u"Entry 4 is not as it was written"_s));
    EXPECT_TRUE(presenter.view().notTaken[1].sub.startsWith(u"This is no record of a visit"_s));
    EXPECT_FALSE(presenter.view().notTaken[1].sub.contains(u"ZIP"_s)) << "which is for the log";
    EXPECT_EQ(changes, 1);
}

TEST_F(RecordsPresenterTest, GoesOnInTurnsAndStopsWhenItIsTold)
{
    QStringList files;
    for (int file = 0; file < 50; ++file)
        files << u"new-%1.zip"_s.arg(file);
    presenter.takeIn(files);
    EXPECT_EQ(presenter.view().progress, u"0 of 50 files"_s) << "it can be stopped from the start";
    while (asked < 10)
        QCoreApplication::processEvents();
    EXPECT_EQ(presenter.view().progress, u"10 of 50 files"_s);

    presenter.stop();
    EXPECT_EQ(presenter.view().progress, u"Stopping after the files in hand."_s);
    QCoreApplication::processEvents();
    EXPECT_EQ(asked, 10) << "none is taken after the stop";
    EXPECT_EQ(presenter.view().progress, QString());
    EXPECT_TRUE(presenter.view().outcome.startsWith(u"Stopped. 10 taken in"_s));
    EXPECT_TRUE(presenter.view().outcome.contains(u"Files left: 40. What was taken in stays."_s));
    EXPECT_EQ(changes, 1) << "lists show what was taken";

    asked = 0;
    takeIn({u"new.zip"_s});
    EXPECT_TRUE(presenter.view().outcome.startsWith(u"1 taken in"_s)) << "a new count";
}

TEST_F(RecordsPresenterTest, WhatWasInHandAtAStopIsCountedBeforeItStops)
{
    isHeld = true;
    presenter.takeIn({u"new-1.zip"_s, u"new-2.zip"_s, u"new-3.zip"_s});
    while (!held)
        QCoreApplication::processEvents();
    presenter.stop();
    EXPECT_EQ(changes, 0);

    held();
    EXPECT_TRUE(presenter.view().outcome.startsWith(u"Stopped. 1 taken in"_s));
    EXPECT_TRUE(presenter.view().outcome.contains(u"Files left: 2."_s));
    EXPECT_EQ(changes, 1);
    QCoreApplication::processEvents();
    EXPECT_EQ(asked, 1);
}

TEST_F(RecordsPresenterTest, FilesGivenWhileItStopsAreBegunOnceItHasStopped)
{
    isHeld = true;
    presenter.takeIn({u"new-1.zip"_s, u"new-2.zip"_s});
    while (!held)
        QCoreApplication::processEvents();
    presenter.stop();
    presenter.takeIn({u"old-1.zip"_s, u"old-2.zip"_s});
    EXPECT_EQ(presenter.view().progress, u"Stopping after the files in hand."_s);
    isHeld = false;
    held();

    EXPECT_EQ(presenter.view().progress, u"0 of 2 files"_s);
    while (!presenter.view().progress.isEmpty())
        QCoreApplication::processEvents();
    EXPECT_TRUE(presenter.view().outcome.startsWith(u"0 taken in, 2 there already"_s))
        << presenter.view().outcome.toStdString();
}

TEST_F(RecordsPresenterTest, ASecondStopLeavesTheFilesThatWereGivenAfterTheFirst)
{
    isHeld = true;
    presenter.takeIn({u"new-1.zip"_s, u"new-2.zip"_s});
    while (!held)
        QCoreApplication::processEvents();
    presenter.stop();
    presenter.takeIn({u"old-1.zip"_s, u"old-2.zip"_s});
    presenter.stop();
    held();

    EXPECT_EQ(presenter.view().progress, QString());
    EXPECT_TRUE(presenter.view().outcome.contains(u"Files left: 3."_s));
    QCoreApplication::processEvents();
    EXPECT_EQ(asked, 1);
}

TEST_F(RecordsPresenterTest, AWorkspaceThatDoesNotOpenStopsItOnceAndIsBlamedOnNoFile)
{
    presenter.takeIn({u"new-1.zip"_s, u"new-2.zip"_s, u"new-3.zip"_s});
    while (asked < 1)
        QCoreApplication::processEvents();
    isWorkspaceGone = true;
    while (!presenter.view().progress.isEmpty())
        QCoreApplication::processEvents();

    EXPECT_TRUE(
        presenter.view().outcome.startsWith(u"Stopped: the workspace could not be opened. 1 taken in"_s))
        << presenter.view().outcome.toStdString();
    EXPECT_TRUE(presenter.view().outcome.contains(u"Files left: 2."_s));
    EXPECT_TRUE(presenter.view().notTaken.isEmpty());
    EXPECT_EQ(changes, 1);
}

TEST_F(RecordsPresenterTest, AStopWhereNothingIsUnderWaySaysNothing)
{
    takeIn({u"new.zip"_s});
    presenter.stop();

    EXPECT_TRUE(presenter.view().outcome.startsWith(u"1 taken in"_s));
    EXPECT_EQ(changes, 1);
}

TEST_F(RecordsPresenterTest, FilesThatComeWhileOthersAreTakenInAreAddedToThem)
{
    presenter.takeIn({u"new-1.zip"_s, u"new-2.zip"_s});
    takeIn({u"new-3.zip"_s});
    while (asked < 3)
        QCoreApplication::processEvents();

    EXPECT_TRUE(presenter.view().outcome.startsWith(u"3 taken in"_s));
}

TEST_F(RecordsPresenterTest, ListsNoMoreThanSomebodyReads)
{
    QStringList files;
    for (int file = 0; file < 205; ++file)
        files << u"notes-%1.txt"_s.arg(file);
    takeIn(files);

    EXPECT_EQ(presenter.view().notTaken.size(), 200);
    EXPECT_TRUE(presenter.view().more.contains(u"5"_s));
}

TEST_F(RecordsPresenterTest, WhatWaitsSaysWhatForAndIsTriedAgain)
{
    waiting.push_back({sha256("file"), VisitId(u"visit-1"_s), Why::UnknownOffice, {}, {}});
    presenter.refresh();
    ASSERT_EQ(presenter.view().waiting.size(), 1);
    EXPECT_EQ(presenter.view().waiting.first().text, u"Corn Exchange, 2026-10-21"_s);
    EXPECT_TRUE(presenter.view().waiting.first().sub.startsWith(u"Came "_s));
    EXPECT_TRUE(presenter.view().waiting.first().sub.contains(u"Take up that office"_s));

    presenter.tryAgain(presenter.view().waiting.first().id);
    EXPECT_TRUE(presenter.view().outcome.contains(u"not believed here"_s));
    EXPECT_EQ(changes, 0);

    again = Verdict::Take;
    presenter.tryAgain(presenter.view().waiting.first().id);
    EXPECT_EQ(presenter.view().outcome, u"Taken in."_s);
    EXPECT_TRUE(presenter.view().waiting.isEmpty());
    EXPECT_EQ(changes, 1);
}

TEST_F(RecordsPresenterTest, WhileFilesAreTakenInWhoeverTriesAgainIsToldToWait)
{
    isHeld = true;
    waiting.push_back({sha256("file"), VisitId(u"visit-1"_s), Why::UnknownOffice, {}, {}});
    presenter.refresh();
    presenter.takeIn({u"new-1.zip"_s});
    while (!held)
        QCoreApplication::processEvents();

    presenter.tryAgain(presenter.view().waiting.first().id);

    EXPECT_TRUE(presenter.view().progress.contains(u"Press Try again once that is done"_s));
    EXPECT_EQ(presenter.view().waiting.size(), 1);
    held();
}

TEST_F(RecordsPresenterTest, OfThousandsThatWaitTheFirstAreListedAndTheRestCounted)
{
    for (int file = 0; file < 1205; ++file)
        waiting.push_back(
            {sha256(QByteArray::number(file)), VisitId(u"visit-1"_s), Why::UnknownOffice, {}, {}});
    RecordsPage page;
    QObject::connect(&presenter, &RecordsPresenter::viewChanged, &page, &RecordsPage::setView);
    page.resize(1366, 700);
    page.show();
    presenter.refresh();

    EXPECT_EQ(presenter.view().waiting.size(), 200);
    EXPECT_EQ(looked, 30) << "nobody waits for the page";
    EXPECT_EQ(presenter.view().waiting.first().text, u"Visit visit-1"_s) << "it says nothing of itself";
    presenter.refresh();
    EXPECT_EQ(looked, 30) << "once is enough";
    auto* more = page.findChild<TextLabel*>(u"moreWaiting"_s);
    ASSERT_TRUE(more->isVisible());
    EXPECT_TRUE(more->text().startsWith(u"and 1005 more"_s)) << more->text().toStdString();
    EXPECT_TRUE(more->text().contains(u"Take the same files in again"_s));
}

// ---- Discarding -----------------------------------------------------------------------------------------

TEST_F(RecordsPresenterTest, WhatWaitsIsDiscardedOnlyOnceItWasTriedAgainAndTheQuestionAnswered)
{
    waiting.push_back({sha256("file"), VisitId(u"visit-1"_s), Why::UnknownOffice, {}, {}, 2048});
    waiting.push_back({sha256("other"), VisitId(u"visit-2"_s), Why::UnknownOffice, {}, {}, 2048});
    presenter.refresh();
    EXPECT_EQ(presenter.view().discard, QString());
    presenter.discard();
    EXPECT_EQ(waiting.size(), 2U) << "nothing was tried yet";

    presenter.tryAgain(sha256("file").hex());
    EXPECT_EQ(presenter.view().discard, u"Discard this record"_s);
    presenter.discard();
    EXPECT_EQ(waiting.size(), 2U) << "it asks first";
    EXPECT_TRUE(presenter.view().discardQuestion.contains(u"visit visit-1"_s));
    EXPECT_TRUE(presenter.view().discardQuestion.contains(u"2.00 KiB"_s))
        << presenter.view().discardQuestion.toStdString();
    presenter.keep();
    EXPECT_EQ(presenter.view().discardQuestion, QString());

    presenter.discard();
    presenter.discard();
    ASSERT_EQ(waiting.size(), 1U);
    EXPECT_EQ(waiting.front().visit, VisitId(u"visit-2"_s));
    EXPECT_EQ(presenter.view().outcome, u"Discarded."_s);
    EXPECT_EQ(presenter.view().discard, QString());
    EXPECT_EQ(presenter.view().waiting.size(), 1);
}

TEST_F(RecordsPresenterTest, ADiskThatRefusesLeavesWhatWaitsAsItIs)
{
    waiting.push_back({sha256("file"), VisitId(u"visit-1"_s), Why::UnknownOffice, {}, {}, 2048});
    isDiskFull = true;
    presenter.tryAgain(sha256("file").hex());
    presenter.discard();
    presenter.discard();

    EXPECT_EQ(presenter.view().outcome, u"It could not be discarded. Nothing was changed."_s);
    EXPECT_EQ(presenter.view().waiting.size(), 1);
    EXPECT_EQ(presenter.view().discard, u"Discard this record"_s);
}

TEST_F(RecordsPresenterTest, AQuestionIsForgottenWhenOtherFilesAreTakenIn)
{
    waiting.push_back({sha256("file"), VisitId(u"visit-1"_s), Why::UnknownOffice, {}, {}, 2048});
    presenter.tryAgain(sha256("file").hex());
    presenter.discard();
    takeIn({u"new.zip"_s});

    EXPECT_EQ(presenter.view().discardQuestion, QString());
    presenter.discard();
    EXPECT_EQ(waiting.size(), 1U);
}

TEST_F(RecordsPresenterTest, AHastyEnterKeepsTheRecord)
{
    waiting.push_back({sha256("file"), VisitId(u"visit-1"_s), Why::UnknownOffice, {}, {}, 2048});
    RecordsPage page;
    QObject::connect(&presenter, &RecordsPresenter::viewChanged, &page, &RecordsPage::setView);
    QObject::connect(&page, &RecordsPage::againRequested, &presenter, &RecordsPresenter::tryAgain);
    QObject::connect(&page, &RecordsPage::discardRequested, &presenter, &RecordsPresenter::discard);
    QObject::connect(&page, &RecordsPage::keepRequested, &presenter, &RecordsPresenter::keep);
    page.resize(1366, 700);
    page.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&page));
    presenter.refresh();
    auto* discard = page.findChild<PlainButton*>(u"discard"_s);
    EXPECT_FALSE(discard->isVisible());

    QTest::mouseClick(page.findChild<PlainButton*>(u"act-"_s + sha256("file").hex()), Qt::LeftButton);
    ASSERT_TRUE(discard->isVisible());
    QTest::mouseClick(discard, Qt::LeftButton);
    QTest::keyClick(page.focusWidget(), Qt::Key_Space);
    EXPECT_EQ(waiting.size(), 1U) << "the answer in focus keeps it";
    QTest::mouseClick(discard, Qt::LeftButton);
    QTest::mouseClick(discard, Qt::LeftButton);
    EXPECT_TRUE(waiting.empty());
    EXPECT_FALSE(discard->isVisible());
}

TEST_F(RecordsPresenterTest, EveryReasonAndEveryFaultHasWordsOfItsOwn)
{
    QSet<QString> words;
    for (int kind = 0; kind <= static_cast<int>(Fault::Kind::NotAReview); ++kind)
        words.insert(sentenceOf(static_cast<Fault::Kind>(kind)));
    EXPECT_EQ(words.size(), static_cast<int>(Fault::Kind::NotAReview) + 1);
    words.clear();
    for (int why = 1; why <= static_cast<int>(Why::ReviewOfUnsigned); ++why)
        words.insert(sentenceOf(static_cast<Why>(why)));
    EXPECT_EQ(words.size(), static_cast<int>(Why::ReviewOfUnsigned));
    EXPECT_FALSE(words.contains(QString()));
}

TEST_F(RecordsPresenterTest, ThePageShowsAStopOnlyWhileSomethingIsUnderWay)
{
    RecordsPage page;
    QObject::connect(&presenter, &RecordsPresenter::viewChanged, &page, &RecordsPage::setView);
    QObject::connect(&page, &RecordsPage::stopRequested, &presenter, &RecordsPresenter::stop);
    page.resize(1366, 700);
    page.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&page));
    auto* stop = page.findChild<PlainButton*>(u"stop"_s);
    EXPECT_FALSE(stop->isVisible());

    QStringList files;
    for (int file = 0; file < 50; ++file)
        files << u"new-%1.zip"_s.arg(file);
    presenter.takeIn(files);
    while (asked < 5)
        QCoreApplication::processEvents();
    ASSERT_TRUE(stop->isVisible());
    QTest::mouseClick(stop, Qt::LeftButton);
    QCoreApplication::processEvents();
    EXPECT_FALSE(stop->isVisible());
    EXPECT_LT(asked, 50);
}

} // namespace
} // namespace coldarc::ui
