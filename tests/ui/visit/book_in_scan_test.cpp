#include "tests/ui/visit/card_at_work.h"
#include "ui/visit/book_in_presenter.h"

#include <QSignalSpy>

#include <algorithm>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using test::Night;
using test::VisitAtWork;
using Mark = BookInColumn::Mark;
using Where = label::KnownLamp::Where;

// The new lamp: HVQ30-40B, serial NEW000001, package code 2900041701028. All are invented.
const QString kBoth = u"]d1TYPE: HVQ30-40B\nS/N: NEW000001"_s;
const QString kPackage = u"]d2010290004170102821NEW000001"_s;

class BookInScanTest : public ::testing::Test {
protected:
    BookInScanTest()
        : night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, u"hollin-30b"_s)
    {
        records.known = {{LampTypeId(u"hollin-30b"_s), u"NEW000001"_s, Where::AtHand}};
    }

    void openAt(const QString& step)
    {
        night.doUntil(step);
        work = std::make_unique<VisitAtWork>(night);
        card = std::make_unique<BookInPresenter>(work->desk());
        card->setRecords(records);
        card->setShelf(drawer);
        finished = std::make_unique<QSignalSpy>(card.get(), &BookInPresenter::finished);
        card->open(0);
    }
    [[nodiscard]] const BookInColumn& column(const QString& id) const
    {
        const auto found = std::ranges::find(card->view().columns, id, &BookInColumn::id);
        EXPECT_NE(found, card->view().columns.end()) << id.toStdString();
        return *found;
    }
    [[nodiscard]] QList<visit::LampRead> readings() const
    {
        QList<visit::LampRead> all;
        for (const visit::Entry& entry : work->entries()) {
            if (const auto* read = std::get_if<visit::LampRead>(&entry.body))
                all.append(*read);
        }
        return all;
    }
    [[nodiscard]] bool hasException(visit::Exception::Kind kind) const
    {
        return std::ranges::any_of(work->state().exceptions,
                                   [&](const visit::Exception& one) { return one.kind == kind; });
    }
    void typeEntry(const QString& type, const QString& serial)
    {
        card->setType(u"entry"_s, type);
        card->setSerial(u"entry"_s, serial);
    }
    [[nodiscard]] static LabelPicture snapshot(const QByteArray& bytes)
    {
        return {bytes, {}, bytes, sha256(bytes)};
    }

    Night night;
    test::ToldRecords records;
    test::PictureDrawer drawer;
    std::unique_ptr<VisitAtWork> work;
    std::unique_ptr<BookInPresenter> card;
    std::unique_ptr<QSignalSpy> finished;
};

TEST_F(BookInScanTest, ARightLampTakesOneScanOneChoiceAndOnePress)
{
    openAt(u"match-box"_s);
    EXPECT_TRUE(column(u"box"_s).takesCodes);
    ASSERT_EQ(card->view().atHand.size(), 1);
    EXPECT_EQ(card->view().atHand.first().stand, PersonAct::Stand::Open) << "nothing is chosen beforehand";

    card->scan(kPackage);
    card->chooseLamp(card->view().atHand.first().id);
    card->done();

    EXPECT_EQ(finished->size(), 1) << card->view().waits.join(u'|').toStdString();
    const QList<visit::LampRead> told = readings();
    ASSERT_EQ(told.size(), 2);
    EXPECT_EQ(told[0].reading, (label::Reading{label::Source::Box, label::Means::Scanned, u"2900041701028"_s,
                                               u"NEW000001"_s}));
    EXPECT_EQ(told[0].scanned, QStringList{kPackage}) << "exactly, with what the reader says of the code";
    EXPECT_EQ(told[1].reading,
              (label::Reading{label::Source::Entry, label::Means::Chosen, u"HVQ30-40B"_s, u"NEW000001"_s}));
    EXPECT_FALSE(hasException(visit::Exception::Kind::OnOneTyping));
    EXPECT_FALSE(hasException(visit::Exception::Kind::LampDoubted));
}

TEST_F(BookInScanTest, ASaidColumnTellsHowItCameAndWhatItStandsFor)
{
    openAt(u"match-box"_s);
    card->scan(kPackage);
    typeEntry(u"HVQ30-40B"_s, u"NEW000001"_s);

    EXPECT_EQ(column(u"box"_s).how, u"scanned, Data Matrix"_s);
    EXPECT_EQ(column(u"box"_s).type.words, u"agrees (it stands for HVQ30-40B)"_s);
    EXPECT_EQ(column(u"entry"_s).how, u"typed"_s);
    EXPECT_EQ(column(u"paper"_s).how, QString());
    card->setSerial(u"box"_s, u"NEW000002"_s);
    EXPECT_EQ(column(u"box"_s).how, u"typed"_s) << "what was typed over is no scan any more";
}

TEST_F(BookInScanTest, ACodeNeverGoesIntoTheEntry)
{
    openAt(u"match-box"_s);
    EXPECT_FALSE(column(u"entry"_s).canTakeCodes);

    card->takeCodesFor(u"entry"_s);
    card->scan(kBoth);

    EXPECT_EQ(column(u"entry"_s).type.text, QString());
    EXPECT_EQ(column(u"box"_s).type.text, u"HVQ30-40B"_s);
}

TEST_F(BookInScanTest, TheSameCodeTwiceIsNotTakenForTwoSourcesUnlessSomebodySaysSo)
{
    openAt(u"match-box"_s);
    card->scan(kBoth);
    EXPECT_TRUE(column(u"paper"_s).takesCodes) << "the next one is asked for";

    card->scan(kBoth); // the trigger held a moment too long
    EXPECT_EQ(column(u"paper"_s).serial.text, QString());
    EXPECT_TRUE(card->view().scanSays.startsWith(u"The same code as at Box"_s));

    card->takeCodesFor(u"paper"_s);
    EXPECT_EQ(column(u"paper"_s).serial.text, u"NEW000001"_s) << "said, and taken without another scan";
    EXPECT_TRUE(column(u"paper"_s).how.contains(u"said to stand on both"_s));
    card->done();
    ASSERT_EQ(readings().size(), 2);
    EXPECT_FALSE(readings()[0].isAlsoElsewhere);
    EXPECT_TRUE(readings()[1].isAlsoElsewhere);
}

TEST_F(BookInScanTest, APressBeforeTheScanDoesNotSayThatTheCodeStandsOnBoth)
{
    openAt(u"match-box"_s);
    card->scan(kBoth);

    card->takeCodesFor(u"paper"_s);
    card->scan(kBoth);

    EXPECT_EQ(column(u"paper"_s).serial.text, QString());
    EXPECT_TRUE(card->view().scanSays.startsWith(u"The same code as at Box"_s));
    card->setSerial(u"paper"_s, u"NEW000001"_s); // typed instead
    card->takeCodesFor(u"paper"_s);
    EXPECT_EQ(column(u"paper"_s).type.text, QString()) << "what was held is forgotten";
}

TEST_F(BookInScanTest, TheCodeOfTheBoxIsNotTheLampsOwnUnlessThatIsSaidHoweverMuchLater)
{
    night.doUntil(u"book-in"_s);
    ASSERT_TRUE(night.tell(
        visit::LampRead{LampId(u"new-1"_s),
                        {label::Source::Box, label::Means::Scanned, u"HVQ30-40B"_s, u"NEW000001"_s},
                        {kBoth}}));
    openAt(u"book-in"_s);

    card->takeCodesFor(u"marking"_s);
    card->scan(kBoth); // off the box, which lies there

    EXPECT_EQ(column(u"marking"_s).type.text, QString());
    EXPECT_EQ(card->view().matched, u"Matched: 1 of 2"_s);
    EXPECT_EQ(column(u"marking"_s).codesText, u"This code stands here as well"_s);
    card->scan(kBoth); // the box once more
    EXPECT_EQ(card->view().matched, u"Matched: 1 of 2"_s);
    card->takeCodesFor(u"marking"_s);
    EXPECT_EQ(column(u"marking"_s).type.text, u"HVQ30-40B"_s);
    EXPECT_EQ(column(u"marking"_s).codesText, u"Put the next code here"_s);
}

TEST_F(BookInScanTest, ACodeOfTheBoxThatIsSaidToBeTheLampsOwnTooShowsItAndTakesALookWhereASisterExists)
{
    night.doUntil(u"book-in"_s);
    ASSERT_TRUE(night.tell(
        visit::LampRead{LampId(u"new-1"_s),
                        {label::Source::Box, label::Means::Scanned, u"HVQ30-40B"_s, u"NEW000001"_s},
                        {kBoth}}));
    openAt(u"book-in"_s);
    card->takeCodesFor(u"marking"_s);
    card->scan(kBoth);
    card->takeCodesFor(u"marking"_s);

    EXPECT_EQ(column(u"marking"_s).type.words, u"agrees, by one code read for two"_s);
    EXPECT_EQ(column(u"box"_s).type.words, u"agrees, by one code read for two"_s);
    EXPECT_EQ(card->view().matched, u"Matched: 1 of 2"_s);
    card->done();
    const auto ask = std::ranges::find(card->view().rest, u"marking-choice"_s, &CaptureView::id);
    ASSERT_NE(ask, card->view().rest.end());
    card->setRest({{u"marking-choice"_s, {u"HVQ30-40B"_s}}});

    EXPECT_EQ(card->view().matched, u"Matched: 2 of 2"_s);
    const visit::LampRead told = readings().last();
    EXPECT_EQ(told.reading.means, label::Means::Chosen);
    EXPECT_TRUE(told.isAlsoElsewhere) << "the serial is still that of the code";
}

TEST_F(BookInScanTest, ABoxThatWasReadForAnotherSwapIsSaidAtTheScanWithTheSwapAndTheWayOut)
{
    night = Night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, u"hollin-30b"_s, 2);
    night.doUntil(u"match-box"_s);
    ASSERT_TRUE(night.doNext());
    night.doUntil(u"match-box"_s, 1);
    openAt(night.nextId()); // the first waits where it is
    card->open(1);
    for (const PersonAct& lamp : card->view().atHand)
        EXPECT_EQ(lamp.sub,
                  lamp.sub.startsWith(u"NEW000001"_s) ? u"NEW000001: read for Screen 1"_s : u"NEW000002"_s);
    card->scan(kBoth);
    ASSERT_FALSE(card->view().doubts.isEmpty());
    EXPECT_TRUE(card->view().doubts.first().startsWith(
        u"NEW000001 was read for the lamp of Screen 1 in this visit"_s))
        << card->view().doubts.first().toStdString();
    EXPECT_TRUE(card->view().doubts.first().contains(u"withdraw that match"_s));
    typeEntry(u"HVQ30-40B"_s, u"NEW000001"_s);

    card->done();
    EXPECT_EQ(finished->size(), 0);
    const auto ask = std::ranges::find(card->view().rest, u"doubts-answer"_s, &CaptureView::id);
    ASSERT_NE(ask, card->view().rest.end());
    card->setRest({{u"doubts-answer"_s, {ask->options[0].id}}});
    card->done();

    EXPECT_EQ(finished->size(), 1) << card->view().waits.join(u'|').toStdString();
    const auto& did = std::get<visit::Did>(work->entries().last().body);
    EXPECT_TRUE(did.doubts.join(u' ').contains(u"serial-of-this-visit lamphouse-1-main NEW000001"_s))
        << did.doubts.join(u' ').toStdString();
}

TEST_F(BookInScanTest, AfterTheCodeOfTheBoxTheLampsOwnIsScannedWithoutAnotherPress)
{
    night.doUntil(u"book-in"_s);
    ASSERT_TRUE(night.tell(
        visit::LampRead{LampId(u"new-1"_s),
                        {label::Source::Box, label::Means::Scanned, u"HVQ30-40B"_s, u"NEW000001"_s},
                        {kBoth}}));
    openAt(u"book-in"_s);
    card->takeCodesFor(u"marking"_s);
    card->scan(kBoth);

    card->scan(u"]d1S/N: NEW000001\nTYPE: HVQ30-40B"_s);

    EXPECT_EQ(column(u"marking"_s).serial.text, u"NEW000001"_s);
    EXPECT_EQ(card->view().matched, u"Matched: 2 of 2"_s);
}

TEST_F(BookInScanTest, OnePressSendsTheNextCodeElsewhere)
{
    openAt(u"match-box"_s);

    card->takeCodesFor(u"paper"_s);
    EXPECT_FALSE(column(u"box"_s).takesCodes);
    card->scan(kBoth);

    EXPECT_EQ(column(u"paper"_s).type.text, u"HVQ30-40B"_s);
    EXPECT_EQ(column(u"box"_s).type.text, QString());
    EXPECT_TRUE(column(u"box"_s).takesCodes) << "the press held for one code";
}

TEST_F(BookInScanTest, ACodeThatTheCatalogueCannotReadChangesNothingAndIsSaid)
{
    openAt(u"match-box"_s);

    card->scan(u"]C0HELLO"_s);

    EXPECT_EQ(card->view().scanSays,
              u"Not known to the catalogue: HELLO. Nothing was changed: type what stands on the label."_s);
    EXPECT_EQ(column(u"box"_s).type.text, QString());
    EXPECT_EQ(records.unread, QStringList{u"]C0HELLO"_s}) << "kept for a supervisor to teach";
    card->scan(u"]d20102900041701029"_s); // its check digit is wrong
    EXPECT_EQ(records.unread.size(), 1) << "a misread code teaches nothing";
}

TEST_F(BookInScanTest, ATypeThatDiffersIsNotPassedByAScanEither)
{
    openAt(u"match-box"_s);
    card->scan(u"]d1TYPE: HVQ30-408\nS/N: NEW000001"_s);
    card->chooseLamp(card->view().atHand.first().id);

    card->done();
    card->done();

    EXPECT_EQ(finished->size(), 0);
    EXPECT_EQ(column(u"box"_s).type.mark, Mark::Differs);
    EXPECT_TRUE(card->view().pass.isEmpty());
}

TEST_F(BookInScanTest, OneLabelThatWasTypedAloneAsksForTheOtherAndThenGoesOnAndIsSaid)
{
    openAt(u"match-box"_s);
    card->setType(u"box"_s, u"HVQ30-40B"_s);
    card->setSerial(u"box"_s, u"NEW000001"_s);
    typeEntry(u"HVQ30-40B"_s, u"NEW000001"_s);
    EXPECT_TRUE(column(u"paper"_s).isNeeded);

    card->done();
    EXPECT_EQ(finished->size(), 0);
    ASSERT_EQ(card->view().waits.size(), 1);
    EXPECT_TRUE(card->view().waits.first().startsWith(u"Box or paper was typed"_s));
    EXPECT_FALSE(column(u"paper"_s).isNeeded) << "Enter goes past it now";
    card->done();

    EXPECT_EQ(finished->size(), 1);
    EXPECT_TRUE(hasException(visit::Exception::Kind::OnOneTyping));
}

TEST_F(BookInScanTest, WhatMemorySaysIsShownAtOnceAndTakesAWordToGoOn)
{
    records.known = {{LampTypeId(u"hollin-30b"_s), u"NEW000001"_s, Where::Returned}};
    openAt(u"match-box"_s);
    card->scan(kBoth);
    typeEntry(u"HVQ30-40B"_s, u"NEW000001"_s);
    ASSERT_EQ(card->view().doubts.size(), 1);
    EXPECT_TRUE(card->view().doubts.first().startsWith(u"NEW000001 is on record as returned"_s));

    card->done();
    EXPECT_EQ(finished->size(), 0);
    const auto ask = std::ranges::find(card->view().rest, u"doubts-answer"_s, &CaptureView::id);
    ASSERT_NE(ask, card->view().rest.end());
    EXPECT_TRUE(ask->value.isEmpty());
    card->setRest({{u"doubts-answer"_s, {ask->options[1].id}}});
    card->done();

    EXPECT_EQ(finished->size(), 1);
    const auto& did = std::get<visit::Did>(work->entries().last().body);
    EXPECT_EQ(did.doubts, QStringList{u"serial-returned"_s});
    EXPECT_EQ(did.doubtsAnswer, u"The records are wrong or behind"_s);
    EXPECT_TRUE(hasException(visit::Exception::Kind::LampDoubted));
}

TEST_F(BookInScanTest, ASerialNearOneAtHandIsAskedAboutWithThePlaceWhereTheyDiffer)
{
    openAt(u"match-box"_s);

    typeEntry(u"HVQ30-40B"_s, u"NEW00000I"_s);

    EXPECT_EQ(card->view().doubts,
              QStringList{u"No lamp at hand has the serial NEW00000I. Did you mean NEW000001? There place 9: "
                          "the figure 1 there, the letter I here."_s});
}

TEST_F(BookInScanTest, ATypeThatIsNoneIsAskedAboutAndNeverPutRight)
{
    openAt(u"match-box"_s);

    typeEntry(u"HVQ30-4OB"_s, u"NEW000001"_s);

    EXPECT_TRUE(
        column(u"entry"_s)
            .type.words.startsWith(
                u"Not known. Did you mean HVQ30-40B (place 8: the figure 0 there, the letter O here)"_s))
        << column(u"entry"_s).type.words.toStdString();
    EXPECT_EQ(column(u"entry"_s).type.text, u"HVQ30-4OB"_s);
}

TEST_F(BookInScanTest, APickedCodeKeepsItsPictureWithItsHashInTheEntry)
{
    openAt(u"match-box"_s);

    card->picked(kBoth, snapshot("a picture"));
    EXPECT_TRUE(drawer.kept.isEmpty()) << "nothing is kept before it is said";
    card->chooseLamp(card->view().atHand.first().id);
    card->done();

    EXPECT_EQ(drawer.kept.value(sha256("a picture").hex()), QByteArray("a picture"));
    EXPECT_EQ(readings().first().picture, sha256("a picture"));
    EXPECT_EQ(finished->size(), 1);
}

TEST_F(BookInScanTest, AFullDiskChangesNothing)
{
    openAt(u"match-box"_s);
    drawer.refuses = true;
    card->picked(kBoth, snapshot("a picture"));
    card->chooseLamp(card->view().atHand.first().id);

    card->done();

    EXPECT_EQ(finished->size(), 0);
    EXPECT_TRUE(readings().isEmpty());
    EXPECT_TRUE(card->view().waits.first().startsWith(u"The picture could not be kept"_s));
    EXPECT_TRUE(card->view().offersWithoutPicture);

    card->goOnWithoutPicture(); // nobody is left without a way on
    EXPECT_EQ(finished->size(), 1);
    EXPECT_EQ(readings().first().picture, std::nullopt);
    EXPECT_EQ(readings().first().scanned, QStringList{kBoth});
}

TEST_F(BookInScanTest, AWrongPictureIsTakenOffAndWithItWhatItsCodesSaid)
{
    openAt(u"match-box"_s);
    card->picked(kBoth, snapshot("of another lamp"));
    card->done(); // no entry yet: only what was read is kept
    ASSERT_TRUE(column(u"box"_s).hasPicture);

    card->takePictureOff(u"box"_s);

    EXPECT_FALSE(column(u"box"_s).hasPicture);
    EXPECT_EQ(column(u"box"_s).serial.text, QString());
    card->done();
    ASSERT_EQ(readings().size(), 2) << "that it is taken off is said";
    EXPECT_EQ(readings()[1], (visit::LampRead{LampId(u"new-1"_s), {label::Source::Box, {}, {}, {}}}));
    card->open(0);
    EXPECT_EQ(column(u"box"_s).how, QString());
}

TEST_F(BookInScanTest, AWrongPictureBesideWhatWasTypedLeavesThat)
{
    openAt(u"match-box"_s);
    card->keepPicture(snapshot("of another lamp"));
    card->setType(u"box"_s, u"HVQ30-40B"_s);

    card->takePictureOff(u"box"_s);

    EXPECT_EQ(column(u"box"_s).type.text, u"HVQ30-40B"_s);
    EXPECT_FALSE(column(u"box"_s).hasPicture);
}

TEST_F(BookInScanTest, AScanThatLooksAsFromAScannerThatIsNotSetUpOffersToCheckIt)
{
    openAt(u"match-box"_s);
    EXPECT_FALSE(card->view().doubtsScanner);

    card->scan(u"HELLO"_s);
    EXPECT_TRUE(card->view().doubtsScanner);

    card->scan(kBoth);
    EXPECT_FALSE(card->view().doubtsScanner);
}

TEST_F(BookInScanTest, ATornLabelIsKeptAsAPictureAndStandsBehindASerialThatPasses)
{
    openAt(u"match-box"_s);
    card->keepPicture(snapshot("torn"));
    card->setType(u"box"_s, u"HVQ30-40B"_s); // the serial is torn off
    typeEntry(u"HVQ30-40B"_s, u"NEW000001"_s);
    EXPECT_EQ(column(u"box"_s).how, u"typed, picture kept"_s);
    card->done();
    ASSERT_FALSE(card->view().pass.isEmpty());
    EXPECT_EQ(card->view().pass.first().options.first().text, u"The picture that is kept here"_s);

    card->setPass({{u"evidence"_s, {u"picture"_s}}, {u"reason"_s, {u"torn off"_s}}});
    card->passSerial();

    const auto& passed = std::get<visit::SerialPassed>(work->entries().last().body);
    EXPECT_EQ(passed.picture, sha256("torn"));
}

TEST_F(BookInScanTest, APictureOfAnotherVisitIsSaid)
{
    records.shown = {{sha256("a picture"), VisitId(u"another"_s)}};
    openAt(u"match-box"_s);
    typeEntry(u"HVQ30-40B"_s, u"NEW000001"_s);

    card->picked(kBoth, snapshot("a picture"));

    ASSERT_EQ(card->view().doubts.size(), 1);
    EXPECT_TRUE(
        card->view().doubts.first().startsWith(u"This picture stood for the lamp of another visit"_s));
}

TEST_F(BookInScanTest, ACardThatIsOpenedAgainKnowsItsCodesAndPictures)
{
    openAt(u"match-box"_s);
    card->picked(kBoth, snapshot("a picture"));
    card->done(); // no entry yet: only what was read is kept
    ASSERT_EQ(readings().size(), 1);

    card->open(0);

    EXPECT_EQ(column(u"box"_s).how, u"scanned, Data Matrix, picture kept"_s);
    card->done();
    EXPECT_EQ(readings().size(), 1) << "what was said already is not said again";
}

TEST_F(BookInScanTest, AtTheBookInACodeGoesOnlyWhereSomebodyPresses)
{
    openAt(u"book-in"_s); // box and paper were typed

    card->scan(kBoth); // perhaps the box, which lies beside the keyboard
    EXPECT_EQ(column(u"marking"_s).type.text, QString());
    EXPECT_TRUE(card->view().scanSays.startsWith(u"Nothing was changed."_s));
    EXPECT_EQ(card->view().matched, u"Matched: 1 of 2"_s);

    card->takeCodesFor(u"marking"_s);
    EXPECT_TRUE(column(u"marking"_s).takesCodes);
    card->scan(kBoth);
    EXPECT_EQ(column(u"marking"_s).type.mark, Mark::Agrees);
    EXPECT_EQ(card->view().matched, u"Matched: 2 of 2"_s);
}

TEST_F(BookInScanTest, APressForACodeIsOverOnceSomethingIsTypedOrAPictureIsKept)
{
    openAt(u"book-in"_s);

    card->takeCodesFor(u"marking"_s);
    card->setType(u"marking"_s, u"HVQ30-40B"_s);
    EXPECT_FALSE(column(u"marking"_s).takesCodes);

    card->takeCodesFor(u"marking"_s);
    card->keepPicture(snapshot("of the marking"));
    EXPECT_FALSE(column(u"marking"_s).takesCodes);
}

TEST_F(BookInScanTest, TheTwoCodesOfOneSourceTakeOnePress)
{
    openAt(u"book-in"_s);
    card->takeCodesFor(u"marking"_s);

    card->scan(u"]d1HVQ30-40B"_s);
    EXPECT_TRUE(column(u"marking"_s).takesCodes) << "its serial stands in another code";
    card->scan(kBoth);

    EXPECT_FALSE(column(u"marking"_s).takesCodes);
    EXPECT_EQ(card->view().matched, u"Matched: 2 of 2"_s);
}

TEST_F(BookInScanTest, RecordsThatCannotBeReadAreSaidAndTakeAWordToGoOn)
{
    records.areUnread = true;
    openAt(u"match-box"_s);
    card->scan(kBoth);
    typeEntry(u"HVQ30-40B"_s, u"NEW000001"_s);
    ASSERT_EQ(card->view().doubts.size(), 1);
    EXPECT_TRUE(
        card->view().doubts.first().startsWith(u"The records of lamps and pictures could not be read"_s));

    card->done();

    EXPECT_EQ(finished->size(), 0);
}

TEST_F(BookInScanTest, AnAnswerIsGivenToTheDoubtsThatWereAskedAndToNoOther)
{
    records.known = {{LampTypeId(u"hollin-30b"_s), u"NEW000001"_s, Where::Returned}};
    openAt(u"match-box"_s);
    card->scan(kBoth);
    typeEntry(u"HVQ30-40B"_s, u"NEW000001"_s);
    card->done();
    card->setRest({{u"doubts-answer"_s, {u"The records are wrong or behind"_s}}});

    records.shown = {{sha256("a picture"), VisitId(u"another"_s)}};
    card->takeCodesFor(u"box"_s);
    card->picked(kBoth, snapshot("a picture"));
    card->done();
    EXPECT_EQ(finished->size(), 0) << "the picture was not asked about yet";
    card->setRest({{u"doubts-answer"_s, {u"There is no other lamp here"_s}}});
    card->done();

    EXPECT_EQ(finished->size(), 1) << card->view().waits.join(u'|').toStdString();
    EXPECT_EQ(std::get<visit::Did>(work->entries().last().body).doubts,
              (QStringList{u"serial-returned"_s,
                           u"picture-used-before %1 another"_s.arg(sha256("a picture").hex())}));
}

TEST_F(BookInScanTest, TheEntryIsChosenFromTheVansOfWhoeverIsHereAndTheVisitAlone)
{
    const LampTypeId type(u"hollin-30b"_s);
    records.known = {{type, u"HB-10001"_s, Where::AtHand}, // in the store, or on order
                     {type, u"HB-10002"_s, Where::AtHand, {}, {}, night.ada()},
                     {type, u"HB-10003"_s, Where::AtHand, {}, {}, PersonId(u"somebody-else"_s)}};
    openAt(u"match-box"_s);

    QStringList serials;
    for (const PersonAct& lamp : card->view().atHand)
        serials.append(lamp.sub);
    EXPECT_EQ(serials, (QStringList{u"HB-10002"_s, u"NEW000001"_s}));
}

TEST_F(BookInScanTest, NoMoreLampsAreOfferedThanHaveAKeyAndTheVisitsOwnIsAmongThem)
{
    for (const QString& serial : {u"HB-10001"_s, u"HB-10002"_s, u"HB-10003"_s, u"HB-10004"_s})
        records.known.append({LampTypeId(u"hollin-30b"_s), serial, Where::AtHand, {}, {}, night.ada()});
    records.known.append(
        {LampTypeId(u"tarnwick-65"_s), u"TK6-10001"_s, Where::AtHand, {}, {}, night.ada()}); // not taken
    openAt(u"match-box"_s);

    QStringList serials;
    QStringList keys;
    for (const PersonAct& lamp : card->view().atHand) {
        serials.append(lamp.sub);
        keys.append(lamp.key);
    }
    EXPECT_EQ(serials, (QStringList{u"HB-10001"_s, u"HB-10002"_s, u"NEW000001"_s})) << "by their texts";
    EXPECT_EQ(keys, (QStringList{u"F6"_s, u"F7"_s, u"F8"_s}));
    EXPECT_EQ(
        card->view().atHandSays,
        u"The entry, chosen from what van and visit are known to hold; no scan says this (2 more have to "
        "be typed):"_s);
}

} // namespace
} // namespace coldarc::ui
