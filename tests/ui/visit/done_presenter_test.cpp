#include "ui/visit/done_presenter.h"

#include "tests/ui/visit/visit_at_work.h"

#include <QBuffer>
#include <QHash>
#include <QImage>
#include <QTemporaryDir>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using test::VisitAtWork;

/// Pictures in memory, up to 200 kB.
class Album final : public PictureShelf {
public:
    [[nodiscard]] qsizetype mostBytes() const override { return 200'000; }
    [[nodiscard]] Result<Hash> keep(const QString& mediaType, const QByteArray& bytes) override
    {
        types.append(mediaType);
        const Hash hash = sha256(bytes);
        kept.insert(QString(hash.hex()), bytes);
        return hash;
    }
    [[nodiscard]] Result<QByteArray> read(const Hash& hash) const override
    {
        const QString name(hash.hex());
        return kept.contains(name) ? Result<QByteArray>(kept.value(name)) : fail(Error::Kind::NotFound, name);
    }

    QHash<QString, QByteArray> kept;
    QStringList types;
};

QByteArray pngOf(int side)
{
    QImage image(side, side, QImage::Format_RGB32);
    image.fill(Qt::darkCyan);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "PNG");
    return bytes;
}

class DonePresenterTest : public ::testing::Test {
protected:
    void sitDown(Night& night)
    {
        work = std::make_unique<VisitAtWork>(night);
        presenter = std::make_unique<DonePresenter>(work->desk());
        presenter->setShelf(&album);
        presenter->open(0);
    }
    [[nodiscard]] const DoneView& view() const { return presenter->view(); }
    [[nodiscard]] qint64 entryOf(const QString& step) const
    {
        return work->state().swaps.first().record(StepId(step)).entry;
    }

    Album album;
    std::unique_ptr<VisitAtWork> work;
    std::unique_ptr<DonePresenter> presenter;
};

TEST_F(DonePresenterTest, ShowsWhatASupervisorSaidBesideItsEntriesAndIsAnsweredByARemark)
{
    Night night;
    night.doAll();
    night.close();
    sitDown(night);
    const qint64 last = work->desk().logbook().entries().size() - 1;
    presenter->setReviews(
        {{u"M. Duarte"_s, night.clock.now().wall, true, last, u"Read it again."_s, {{4, u"which lamp?"_s}}}});

    EXPECT_TRUE(view().review.startsWith(u"Sent back by M. Duarte, "_s)) << view().review.toStdString();
    EXPECT_TRUE(view().review.contains(u"\u201cRead it again.\u201d"_s));
    EXPECT_TRUE(
        view().lines[4].marks.contains(DoneMark{DoneMark::Kind::Remark, u"M. Duarte: which lamp?"_s}));
    EXPECT_EQ(view().write, u"Answer the supervisor"_s);

    presenter->beginWriting();
    EXPECT_EQ(view().form->title, u"Answer to the supervisor"_s);
    presenter->setDraft(u"It was the one in the box."_s);
    presenter->done();

    EXPECT_TRUE(std::holds_alternative<visit::Addendum>(work->desk().logbook().entries().last().body));
    EXPECT_TRUE(view().review.endsWith(u"has not looked at that yet."_s));
    EXPECT_EQ(view().write, u"Remark after closing"_s);
}

TEST_F(DonePresenterTest, TellsOfAReviewThatIsNotAsItWasWrittenBesideTheLastOneThatCounts)
{
    Night night;
    night.doAll();
    night.close();
    sitDown(night);
    const qint64 last = work->desk().logbook().entries().size() - 1;

    presenter->setReviews({}, 1);
    EXPECT_EQ(view().review, u"A review of this visit is not as it was written: it does not count. Ask the "
                             "supervisor how the visit stands."_s);
    presenter->setReviews({{u"M. Duarte"_s, night.clock.now().wall, false, last}}, 2);
    EXPECT_TRUE(view().review.startsWith(u"Accepted by M. Duarte, "_s)) << view().review.toStdString();
    EXPECT_TRUE(view().review.contains(u"\n2 reviews of this visit are not as they were written"_s));
}

TEST_F(DonePresenterTest, SaysEveryEntryAsAPersonWouldNewestAtTheBottom)
{
    Night night;
    ASSERT_TRUE(night.doNext());
    sitDown(night);

    // The fake clock starts on 2026-11-18 at 11:06:40 UTC; the test's desk stands in UTC.
    ASSERT_EQ(view().lines.size(), 2);
    DoneLine opened;
    opened.entry = 0;
    opened.time = u"11:06:40"_s;
    opened.date = u"2026-11-18 +00:00"_s;
    opened.who = u"A. Okoro"_s;
    opened.what = u"The visit was opened"_s;
    opened.more = {u"lamps due"_s, u"A. Okoro, engineer"_s};
    opened.marks = {{DoneMark::Kind::Missing, u"signature of A. Okoro missing"_s}};
    EXPECT_EQ(view().lines.first(), opened);
    const DoneLine& last = view().lines.last();
    const procedure::Step* step = &work->state().swaps.first().steps.first();
    EXPECT_EQ(last.what, step->title);
    EXPECT_EQ(last.section, u"Screen 1 \u00b7 Arrive"_s);
    ASSERT_EQ(last.more.size(), 1);
    EXPECT_TRUE(last.more.first().startsWith(step->captures.first().label + u": "_s));
    EXPECT_EQ(view().site, u"Pier Street"_s);
    EXPECT_EQ(view().sub, u"2 entries, 0 to 1 \u00b7 not closed yet"_s);
    EXPECT_EQ(view().leave, u"Back to the bench"_s);
    EXPECT_EQ(view().chosen, 1);
}

TEST_F(DonePresenterTest, SaysBeforehandWhatAWithdrawalCostsAndStrikesTheEntryThrough)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    sitDown(night);
    const qint64 tried = entryOf(u"try-start"_s);

    presenter->choose(tried);
    ASSERT_EQ(view().withdraw, u"Withdraw this entry"_s);
    presenter->beginWithdraw();
    ASSERT_TRUE(view().form);
    EXPECT_EQ(view().form->title, u"Withdraw entry %1"_s.arg(tried));
    EXPECT_TRUE(view().form->follows.contains(u"Dead waits again at Screen 1."_s))
        << view().form->follows.join(u'\n').toStdString();
    EXPECT_EQ(view().form->action.stand, ActionView::Stand::Waits);
    presenter->done(); // no reason yet
    EXPECT_FALSE(work->state().withdrawn.contains(tried));
    presenter->setDraft(u"nobody watched the lamp"_s);
    EXPECT_EQ(view().form->action.stand, ActionView::Stand::Ready);
    presenter->done();

    EXPECT_TRUE(work->state().withdrawn.contains(tried));
    EXPECT_FALSE(view().form);
    const DoneLine& struck = view().lines.at(tried);
    EXPECT_TRUE(struck.withdrawn.startsWith(u"Withdrawn by A. Okoro at "_s));
    EXPECT_TRUE(struck.withdrawn.endsWith(u"nobody watched the lamp"_s));
    EXPECT_EQ(view().lines.last().what, u"Withdrew entry %1: Try to start it"_s.arg(tried));
    EXPECT_EQ(view().said, QStringList{u"Kept as entry %1."_s.arg(view().lines.last().entry)});
    presenter->choose(tried);
    EXPECT_EQ(view().withdraw, QString());
    EXPECT_EQ(view().noWithdraw, u"It is withdrawn already."_s);
}

TEST_F(DonePresenterTest, ATraineeWithdrawsWhatWasDoneWithTheEngineersPress)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithTrainee);
    night.doUntil(u"gear-on"_s);
    sitDown(night);
    work->desk().setPresses(night.ben());
    presenter->choose(entryOf(u"try-start"_s));
    ASSERT_EQ(view().withdraw, u"Withdraw this entry"_s);
    presenter->beginWithdraw();
    presenter->setDraft(u"nobody saw it"_s);
    EXPECT_EQ(view().form->action.text, u"A. Okoro: seen and agreed, withdraw it"_s);

    presenter->done();

    EXPECT_EQ(visit::countersignerOf(work->entries().last()), night.ada());
    EXPECT_FALSE(work->state().machine.lamphouse[0].startTried);
}

TEST_F(DonePresenterTest, SaysWhyWhatHandsDidAndWhatWasWrittenStays)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.tell(visit::Noted{night.swap().id, u"the lobby smells of paint"_s}));
    sitDown(night);

    EXPECT_EQ(view().noWithdraw, u"It stays as it was given: add another one that puts it right."_s);
    presenter->choose(entryOf(u"lamp-off"_s));
    EXPECT_EQ(view().withdraw, QString());
    EXPECT_TRUE(view().noWithdraw.startsWith(u"What was done with hands is not undone by a word"_s));
    presenter->choose(0);
    EXPECT_EQ(view().noWithdraw, u"This stays as it is: add a note that puts it right."_s);
    presenter->beginWithdraw();
    EXPECT_FALSE(view().form);
}

TEST_F(DonePresenterTest, TypesNothingWhileSomebodyIsInsideAndStillKeepsAPicture)
{
    Night night;
    night.doUntil(u"dust"_s);
    sitDown(night);
    presenter->choose(entryOf(u"try-start"_s));

    EXPECT_EQ(view().withdraw, QString());
    EXPECT_EQ(view().noWithdraw,
              u"It can be withdrawn when everybody is outside: a reason is typed for it."_s);
    EXPECT_EQ(view().write, QString());
    EXPECT_TRUE(view().waits.startsWith(u"Somebody is inside, or a lamphouse stands open"_s));
    presenter->beginWriting();
    EXPECT_FALSE(view().form);
    const qint64 before = work->state().entries;
    presenter->beginPicture();
    ASSERT_TRUE(view().form);
    presenter->givePicture(pngOf(8));
    EXPECT_EQ(work->state().entries, before + 1);
}

TEST_F(DonePresenterTest, HoldsANoteThatWasBegunUntilEverybodyIsOutside)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    sitDown(night);
    presenter->beginWriting();
    presenter->setDraft(u"a loose tile"_s);
    ASSERT_EQ(view().form->action.stand, ActionView::Stand::Ready);
    Night other = night;
    ASSERT_TRUE(other.doNext());
    ASSERT_TRUE(work->desk().tell(other.entries.last().body).isKept()); // gear on

    EXPECT_FALSE(view().form->canType);
    EXPECT_EQ(view().form->action.stand, ActionView::Stand::Waits);
    EXPECT_EQ(view().form->action.waits, u"Waits until everybody is outside"_s);
    const qint64 before = work->state().entries;
    presenter->done();
    EXPECT_EQ(work->state().entries, before);
}

TEST_F(DonePresenterTest, KeepsANoteAsItIsWritten)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    sitDown(night);

    presenter->beginWriting();
    ASSERT_EQ(view().form->kind, DoneForm::Kind::Note);
    presenter->setDraft(u"  The stair light is out.\nTold the site.  "_s);
    presenter->done();

    EXPECT_EQ(view().lines.last().what, u"Note"_s);
    EXPECT_EQ(view().lines.last().more.first(), u"The stair light is out.\nTold the site."_s);
}

TEST_F(DonePresenterTest, ShowsAPictureInItsLineAndRefusesWhatIsNone)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    sitDown(night);
    const QByteArray png = pngOf(8);
    const qint64 before = work->state().entries;

    presenter->beginPicture();
    presenter->givePicture({});
    EXPECT_EQ(view().said, QStringList{u"There is nothing in it."_s});
    presenter->givePicture("no picture at all");
    EXPECT_TRUE(view().said.first().startsWith(u"This is no PNG or JPEG picture"_s));
    presenter->givePicture(png + QByteArray(200'000, 'x'));
    EXPECT_TRUE(view().said.first().startsWith(u"It is too large: at most "_s));
    presenter->givePictureFile(u"/nowhere/at-all.png"_s);
    EXPECT_EQ(view().said, QStringList{u"/nowhere/at-all.png can not be read."_s});
    EXPECT_EQ(work->state().entries, before);
    ASSERT_TRUE(view().form);
    QTemporaryDir folder;
    QFile file(folder.filePath(u"lamp.png"_s));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(png);
    file.close();
    presenter->givePictureFile(file.fileName());

    EXPECT_EQ(work->state().entries, before + 1);
    EXPECT_EQ(album.types, QStringList{u"image/png"_s});
    EXPECT_EQ(view().lines.last().what, u"Picture kept"_s);
    EXPECT_EQ(view().lines.last().picture, QString(sha256(png).hex()));
    EXPECT_EQ(presenter->picture(view().lines.last().picture), png);
    EXPECT_FALSE(view().form);
}

TEST_F(DonePresenterTest, AddsARemarkAfterClosingThatIsToBeSigned)
{
    Night night;
    night.doAll();
    night.close();
    sitDown(night);
    EXPECT_EQ(view().leave, u"Back to the visits"_s);
    EXPECT_EQ(view().picture, QString());
    EXPECT_EQ(view().noWithdraw, u"This visit is closed: only a remark can be added."_s);
    night.clock.advance(48h);

    presenter->beginWriting();
    ASSERT_EQ(view().form->kind, DoneForm::Kind::Addendum);
    presenter->setDraft(u"the site called: the fan rattles"_s);
    presenter->done();

    EXPECT_EQ(view().lines.last().what, u"Remark after closing"_s);
    EXPECT_EQ(view().lines.last().more, QStringList{u"the site called: the fan rattles"_s});
    EXPECT_TRUE(view().lines.last().marks.contains(
        DoneMark{DoneMark::Kind::Missing, u"signature of A. Okoro missing"_s}));
    EXPECT_EQ(work->desk().missing().last(),
              (WantedSignature{view().lines.last().entry, night.ada(), u"addendum"_s}));
}

TEST_F(DonePresenterTest, TellsSignaturesThatAreMadeMissingAndBroken)
{
    Night night;
    ASSERT_TRUE(night.doNext());
    sitDown(night);
    const QList<WantedSignature> wanted = wantedSignatures(work->entries(), work->state());
    ASSERT_EQ(wanted.size(), 1);
    const auto mark = [&] { return view().lines.first().marks.first(); };
    EXPECT_EQ(mark(), (DoneMark{DoneMark::Kind::Missing, u"signature of A. Okoro missing"_s}));

    work->desk().setKept(wanted);
    EXPECT_EQ(mark(), (DoneMark{DoneMark::Kind::Signed, u"signed by A. Okoro"_s}));
    work->desk().setKept(wanted, wanted);
    EXPECT_EQ(mark(), (DoneMark{DoneMark::Kind::Broken, u"signature of A. Okoro does not verify"_s}));
}

TEST_F(DonePresenterTest, NamesTheGateThatWaitedAndMarksTheExceptionWithItsEntry)
{
    Night night;
    night.doUntil(u"box-old"_s);
    ASSERT_TRUE(night.tell(visit::Withdrawn{night.swap().record(StepId(u"try-start"_s)).entry, u"unseen"_s}));
    ASSERT_TRUE(night.doNext()); // the lamp goes away with Dead waiting
    sitDown(night);

    const DoneLine& line = view().lines.last();
    EXPECT_TRUE(line.more.contains(u"Done while waiting: Dead"_s)) << line.more.join(u'\n').toStdString();
    EXPECT_EQ(line.marks.first().kind, DoneMark::Kind::Unusual);
}

TEST_F(DonePresenterTest, LetsSomebodyWhoIsNotOfThisVisitReadOnly)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    sitDown(night);
    work->desk().setPresses(PersonId(u"somebody"_s));
    presenter->open(0);

    EXPECT_EQ(view().write, QString());
    EXPECT_EQ(view().picture, QString());
    EXPECT_TRUE(view().waits.startsWith(u"You are not of this visit: join first"_s));
}

TEST_F(DonePresenterTest, SendsWhoeverHadNoPartInAClosedVisitToSomebodyWhoHad)
{
    Night night;
    night.doAll();
    night.close();
    sitDown(night);
    work->desk().setPresses(PersonId(u"somebody"_s));
    presenter->open(0);

    EXPECT_EQ(view().write, QString());
    EXPECT_EQ(view().waits,
              u"This visit is closed, and you had no part in it: somebody who had adds the remark for you. "
              "What a supervisor has to say stands in the review."_s);
}

TEST_F(DonePresenterTest, CopiesSomeEntriesOrAllAsPlainText)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.tell(visit::Noted{night.swap().id, u"two\nlines"_s}));
    sitDown(night);
    const qint64 note = view().lines.last().entry;

    const QString text = presenter->textOf({note});
    EXPECT_TRUE(text.startsWith(u"%1  2026-11-18 %2 +00:00  A. Okoro  Note\n    two\n    lines"_s.arg(
        QString::number(note), view().lines.last().time)))
        << text.toStdString();
    EXPECT_EQ(presenter->textOf({}).count(u"+00:00"_s), view().lines.size());
}

TEST_F(DonePresenterTest, WordsEveryEntryOfAWholeNightWithNoBareIds)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithTrainee, {}, {}, 2);
    for (const int swap : {0, 1})
        night.doUntil(u"sign"_s, swap);
    for (const int swap : {0, 1})
        night.doAll(swap);
    night.close();
    sitDown(night);

    EXPECT_GT(view().lines.size(), 60);
    for (const DoneLine& line : view().lines) {
        EXPECT_FALSE(line.what.isEmpty());
        EXPECT_FALSE(line.what.contains(u"-supply")) << line.what.toStdString();
        EXPECT_NE(line.who, u"ada"_s);
    }
}

} // namespace
} // namespace coldarc::ui
