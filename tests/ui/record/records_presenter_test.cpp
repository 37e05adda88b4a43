#include "ui/record/records_presenter.h"

#include "tests/support/testing.h"
#include "ui/parts/plain_button.h"
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
    std::vector<record::WaitingRecord> waiting;
    Verdict again = Verdict::Wait;
    RecordsPresenter presenter{{[this](const QString& file) { return take(file); },
                                [this](const Hash&) {
                                    if (again == Verdict::Take)
                                        waiting.clear();
                                    return taken({}, again,
                                                 again == Verdict::Wait ? Why::UnknownOffice : Why::None);
                                },
                                [this] { return Result<std::vector<record::WaitingRecord>>(waiting); }}};
};

TEST_F(RecordsPresenterTest, CountsWhatBecameOfEachFileAndNamesThoseThatWereNotTaken)
{
    takeIn({u"new-1.zip"_s, u"new-2.zip"_s, u"old.zip"_s, u"strange.zip"_s, u"/far/altered.zip"_s.mid(5),
            u"notes.txt"_s});

    EXPECT_EQ(presenter.view().outcome,
              u"2 taken in, 1 were there already, 1 wait, 1 not as they were signed, "
              "1 could not be read."_s);
    ASSERT_EQ(presenter.view().notTaken.size(), 2);
    EXPECT_EQ(presenter.view().notTaken[0].text, u"altered.zip"_s);
    EXPECT_TRUE(presenter.view().notTaken[0].sub.startsWith(u"Entry 4 is not as it was written"_s));
    EXPECT_TRUE(presenter.view().notTaken[1].sub.contains(u"no ZIP archive"_s));
    EXPECT_EQ(changes, 1);
}

TEST_F(RecordsPresenterTest, GoesOnInTurnsAndStopsWhenItIsTold)
{
    QStringList files;
    for (int file = 0; file < 50; ++file)
        files << u"new-%1.zip"_s.arg(file);
    presenter.takeIn(files);
    while (asked < 10)
        QCoreApplication::processEvents();
    EXPECT_EQ(presenter.view().progress, u"10 of 50 files"_s);

    presenter.stop();
    QCoreApplication::processEvents();
    EXPECT_EQ(asked, 10) << "none is taken after the stop";
    EXPECT_EQ(presenter.view().progress, QString());
    EXPECT_TRUE(presenter.view().outcome.startsWith(u"Stopped. 10 taken in"_s));

    asked = 0;
    takeIn({u"new.zip"_s});
    EXPECT_TRUE(presenter.view().outcome.startsWith(u"1 taken in"_s)) << "a new count";
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

TEST_F(RecordsPresenterTest, EveryReasonAndEveryFaultHasWordsOfItsOwn)
{
    QSet<QString> words;
    for (int kind = 0; kind <= static_cast<int>(Fault::Kind::OtherPerson); ++kind)
        words.insert(sentenceOf(static_cast<Fault::Kind>(kind)));
    EXPECT_EQ(words.size(), static_cast<int>(Fault::Kind::OtherPerson) + 1);
    words.clear();
    for (int why = 1; why <= static_cast<int>(Why::NotUnderstood); ++why)
        words.insert(sentenceOf(static_cast<Why>(why)));
    EXPECT_EQ(words.size(), static_cast<int>(Why::NotUnderstood));
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
    EXPECT_FALSE(stop->isVisible());
    EXPECT_LT(asked, 50);
}

} // namespace
} // namespace coldarc::ui
