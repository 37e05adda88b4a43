#include "tests/ui/visit/visit_at_work.h"
#include "ui/parts/theme.h"
#include "ui/visit/book_in_page.h"
#include "ui/visit/book_in_presenter.h"

#include <QApplication>
#include <QClipboard>
#include <QDropEvent>
#include <QLineEdit>
#include <QMimeData>
#include <QSignalSpy>
#include <QTest>

#include <algorithm>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using test::Night;
using test::VisitAtWork;
using Mark = BookInColumn::Mark;

class BookInTest : public ::testing::Test {
protected:
    BookInTest()
        : night(u"larkmoor-teal"_s, Night::Crew::WithTrainee, {}, u"hollin-30b"_s)
    {
    }

    void openAt(const QString& step)
    {
        if (step == u"book-in") {
            night.doUntil(u"relieve"_s);
            EXPECT_TRUE(night.doAct(night.ben(), machine::Effect::LockOn));
            night.doUntil(u"own-lock-off"_s);
            EXPECT_TRUE(night.doAct(night.ben(), machine::Effect::LockOff));
        }
        night.doUntil(step);
        work = std::make_unique<VisitAtWork>(night);
        card = std::make_unique<BookInPresenter>(work->desk());
        card->open(0);
    }
    void type(const QString& column, const QString& lampType, const QString& serial)
    {
        card->setType(column, lampType);
        card->setSerial(column, serial);
    }
    [[nodiscard]] int readings() const
    {
        const auto isReading = [](const visit::Entry& entry) {
            return std::holds_alternative<visit::LampRead>(entry.body);
        };
        return static_cast<int>(std::count_if(work->entries().begin(), work->entries().end(), isReading));
    }

    Night night;
    std::unique_ptr<VisitAtWork> work;
    std::unique_ptr<BookInPresenter> card;
};

TEST_F(BookInTest, BoxPaperAndEntryBecomeOneEntryEachAndTheMatchIsDone)
{
    openAt(u"match-box"_s);
    QSignalSpy finished(card.get(), &BookInPresenter::finished);

    type(u"box"_s, u"HVQ30-40B"_s, u"NEW000001"_s);
    type(u"paper"_s, u"HVQ30-40B"_s, u"NEW000001"_s);
    EXPECT_EQ(card->view().columns.at(0).type.words, u"waits: the entry"_s);
    type(u"entry"_s, u"hvq30 40b"_s, u"new000001"_s);
    EXPECT_EQ(card->view().columns.at(0).type.words, u"agrees"_s);
    EXPECT_EQ(card->view().columns.at(0).type.mark, Mark::Agrees);
    card->done();

    EXPECT_EQ(finished.size(), 1);
    EXPECT_EQ(readings(), 3);
    EXPECT_EQ(work->state().machine.lamp[work->state().swaps[0].newLamp].match, machine::Match::Box);
}

TEST_F(BookInTest, WhatIsTypedInOneColumnNeverAppearsInAnother)
{
    openAt(u"match-box"_s);

    type(u"box"_s, u"HVQ30-40B"_s, u"NEW000001"_s);

    for (const QString& column : {u"paper"_s, u"entry"_s}) {
        for (const BookInColumn& one : card->view().columns) {
            if (one.id != column)
                continue;
            EXPECT_EQ(one.type.text, QString());
            EXPECT_EQ(one.serial.text, QString());
        }
    }
}

/// The card in sight, with the box of the new lamp typed.
class EachSourceOnItsOwn : public BookInTest {
protected:
    void SetUp() override
    {
        theme.apply(ThemeKind::Booth);
        openAt(u"match-box"_s);
        page = std::make_unique<BookInPage>(work->clock());
        QObject::connect(page.get(), &BookInPage::typeTyped, card.get(), &BookInPresenter::setType);
        QObject::connect(card.get(), &BookInPresenter::viewChanged, page.get(), &BookInPage::setView);
        page->setView(card->view());
        page->resize(1366, 768);
        page->show();
        QApplication::setActiveWindow(page.get());
        box(u"box-type"_s).setFocus();
        QTest::keyClicks(&box(u"box-type"_s), kCode);
        box(u"box-type"_s).selectAll();
        QTest::keyClick(&box(u"box-type"_s), Qt::Key_C, Qt::ControlModifier);
        ASSERT_EQ(QApplication::clipboard()->text(), kCode) << "there is something to carry over";
        box(u"paper-type"_s).setFocus();
    }
    void TearDown() override
    {
        for (const QString& other : {u"paper-type"_s, u"entry-type"_s, u"paper-serial"_s, u"entry-serial"_s})
            EXPECT_EQ(box(other).text(), QString()) << other.toStdString();
        QTest::keyClicks(&box(u"paper-type"_s), u"HVQ"_s); // what is keyed goes in
        EXPECT_EQ(box(u"paper-type"_s).text(), u"HVQ"_s);
    }
    [[nodiscard]] QLineEdit& box(const QString& name) const
    {
        return *page->findChild<QWidget*>(name)->findChild<QLineEdit*>();
    }

    const QString kCode = u"HVQ30-40B"_s;
    Theme theme{*qApp};
    std::unique_ptr<BookInPage> page;
};

TEST_F(EachSourceOnItsOwn, IsNotPasted)
{
    QTest::keyClick(&box(u"paper-type"_s), Qt::Key_V, Qt::ControlModifier);
    QTest::keyClick(&box(u"paper-type"_s), Qt::Key_Insert, Qt::ShiftModifier);
    EXPECT_EQ(box(u"paper-type"_s).contextMenuPolicy(), Qt::NoContextMenu);
}

TEST_F(EachSourceOnItsOwn, IsNotCarriedOverByTheMouse)
{
    if (QApplication::clipboard()->supportsSelection())
        QApplication::clipboard()->setText(kCode, QClipboard::Selection);
    QTest::mouseClick(&box(u"paper-type"_s), Qt::MiddleButton);
    QMimeData carried;
    carried.setText(kCode);
    QDropEvent drop(QPointF(5, 5), Qt::CopyAction, &carried, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&box(u"paper-type"_s), &drop);
    EXPECT_FALSE(box(u"paper-type"_s).acceptDrops());
    EXPECT_FALSE(box(u"box-type"_s).dragEnabled());
}

TEST_F(EachSourceOnItsOwn, IsNotFilledInByTheProgram)
{
    QTest::keyClick(&box(u"paper-type"_s), Qt::Key_Down); // of a list, were there one
    QTest::keyClick(&box(u"paper-type"_s), Qt::Key_Return);
    EXPECT_EQ(box(u"paper-type"_s).completer(), nullptr);
}

TEST_F(BookInTest, ACardThatWasLeftIsTakenUpAsItWasLeft)
{
    openAt(u"match-box"_s);
    type(u"box"_s, u"HVQ30-40B"_s, u"NEW0"_s);

    card->open(0);
    EXPECT_EQ(card->view().columns.at(0).serial.text, u"NEW0"_s);
    EXPECT_EQ(card->view().columns.at(1).serial.text, QString());

    const LampId lamp = work->state().ground->lamps[work->state().swaps[0].newLamp].id;
    ASSERT_TRUE(work->desk()
                    .tell(visit::LampRead{
                        lamp, {label::Source::Paper, label::Means::Typed, u"HVQ30-40B"_s, u"NEW000001"_s}})
                    .isKept());
    card->open(0);
    EXPECT_EQ(card->view().columns.at(0).serial.text, QString()) << "the logbook says something else since";
    EXPECT_EQ(card->view().columns.at(1).serial.text, u"NEW000001"_s);
}

TEST_F(BookInTest, AWrongLetterIsToldWithWhatItWouldDoToTheLampAndMatchedWaits)
{
    openAt(u"match-box"_s);
    QSignalSpy finished(card.get(), &BookInPresenter::finished);

    type(u"box"_s, u"HVQ30-408"_s, u"NEW000001"_s);
    type(u"paper"_s, u"HVQ30-40B"_s, u"NEW000001"_s);
    type(u"entry"_s, u"HVQ30-40B"_s, u"NEW000001"_s);
    card->done();

    EXPECT_EQ(finished.size(), 0);
    EXPECT_EQ(card->view().columns.at(0).type.words,
              u"another lamp, place 9: 8 here, B in the entry (easily mistaken)"_s);
    EXPECT_EQ(card->view().columns.at(0).type.mark, Mark::Differs);
    EXPECT_EQ(
        card->view().waits,
        QStringList{u"The box label differs in the last letters of the type, and that is another lamp: find "
                    "out which is right."_s});
    // The two types' ranges: 80 to 110 A and 92 to 118 A.
    EXPECT_TRUE(card->view().wrongType.contains(u"Keyed in as HVQ30-408 with a HVQ30-40B in the seat: up to "
                                                u"118 A, its most is 110 A. The electrodes burn "
                                                "off and the bulb is strained."_s))
        << card->view().wrongType.join(u'\n').toStdString();
    EXPECT_TRUE(card->view().pass.isEmpty()) << "a type is never let pass";
}

TEST_F(BookInTest, ASerialThatDiffersPassesWithAReasonAndASecondReading)
{
    openAt(u"match-box"_s);
    QSignalSpy finished(card.get(), &BookInPresenter::finished);
    type(u"box"_s, u"HVQ30-40B"_s, u"NEW00000I"_s);
    type(u"paper"_s, u"HVQ30-40B"_s, u"NEW000001"_s);
    type(u"entry"_s, u"HVQ30-40B"_s, u"NEW000001"_s);
    EXPECT_TRUE(card->view().pass.isEmpty()) << "nothing was compared yet";
    card->done();
    ASSERT_FALSE(card->view().pass.isEmpty());

    card->setPass(
        {{u"evidence"_s, {u"paper"_s}}, {u"again"_s, {u"NEW000007"_s}}, {u"reason"_s, {u"smudged"_s}}});
    card->passSerial();
    EXPECT_FALSE(card->view().pass.isEmpty()) << "typed again wrongly";
    card->setPass(
        {{u"evidence"_s, {u"paper"_s}}, {u"again"_s, {u"NEW000001"_s}}, {u"reason"_s, {u"smudged"_s}}});
    card->passSerial();
    EXPECT_TRUE(card->view().pass.isEmpty());
    card->done();

    EXPECT_EQ(finished.size(), 1);
    EXPECT_EQ(work->state().exceptions.last().kind, visit::Exception::Kind::SerialPassed);
}

TEST_F(BookInTest, WhereASisterExistsAPassedSerialOfTheMarkingAsksForAChoiceWithNothingPreselected)
{
    openAt(u"book-in"_s);
    type(u"marking"_s, u"HVQ30-40B"_s, u"NEW000009"_s);
    card->done();
    card->setPass({{u"evidence"_s, {u"picture"_s}}, {u"reason"_s, {u"worn"_s}}});
    card->passSerial();
    card->done();

    const auto ask = std::ranges::find(card->view().rest, u"marking-choice"_s, &CaptureView::id);
    ASSERT_NE(ask, card->view().rest.end());
    EXPECT_TRUE(ask->value.isEmpty());
    ASSERT_EQ(ask->options.size(), 2);
    EXPECT_EQ(ask->options[0].text, u"HVQ30-40B: place 9 is the letter B"_s);
    EXPECT_EQ(ask->options[1].text, u"HVQ30-408: place 9 is the figure 8"_s);

    card->setRest({{u"marking-choice"_s, {u"HVQ30-408"_s}}});
    EXPECT_EQ(card->view().columns.back().type.mark, Mark::Differs) << "the lamp is the other one";
    const auto& told = std::get<visit::LampRead>(work->entries().last().body).reading;
    EXPECT_EQ(told, (label::Reading{label::Source::OwnMarking, label::Means::Chosen, u"HVQ30-408"_s,
                                    u"NEW000009"_s}))
        << "written down as soon as it is chosen";

    card->setRest({{u"marking-choice"_s, {u"HVQ30-40B"_s}}});
    EXPECT_EQ(card->view().columns.back().type.mark, Mark::Agrees);
    EXPECT_EQ(card->view().matched, u"Matched: 2 of 2"_s);
}

TEST_F(BookInTest, TheAlertIsSuggestedFromWarrantyWeeklyHoursAndLeadTime)
{
    openAt(u"book-in"_s);

    // 1500 h less the bound of what is burnt in 1 + 2 weeks: mean 3 * 70 = 210 h, variance 12^2 * 3 + 15^2 *
    // 9 = 2457, deviation 49.57 h, 1.64485 of it 81.53 h; 1208.5 h, down to tens.
    ASSERT_TRUE(card->view().threshold);
    EXPECT_EQ(card->view().threshold->suggested, u"1200 h"_s);
    EXPECT_EQ(card->view().keyIn,
              (QStringList{u"Type: HVQ30-40B"_s, u"Lamp hours: 0 h"_s, u"Alert at: 1200 h"_s}));
    ASSERT_EQ(card->view().threshold->line.size(), 3);
    EXPECT_EQ(card->view().threshold->line.at(1).name, u"alert"_s);
    EXPECT_LT(card->view().threshold->line.at(1).at, card->view().threshold->line.at(2).at);
    EXPECT_FALSE(card->view().threshold->line.at(2).interval.isEmpty());
}

TEST_F(BookInTest, AnAlertAtTheWarrantyHoursAsksForAReasonAndASecondPerson)
{
    openAt(u"book-in"_s);
    QSignalSpy finished(card.get(), &BookInPresenter::finished);
    type(u"marking"_s, u"HVQ30-40B"_s, u"NEW000001"_s);
    QList<CaptureAnswer> rest{
        {u"cause"_s, {u"Hours reached"_s}}, {u"hours"_s, {u"1210"_s}}, {u"threshold"_s, {u"1500"_s}}};

    card->setRest(rest);
    card->done();
    EXPECT_EQ(finished.size(), 0);
    EXPECT_TRUE(card->view().waits.first().startsWith(u"Alert at or above the warranty hours"_s));
    ASSERT_EQ(card->view().acts.size(), 1);
    rest.append({u"reason"_s, {u"closed for the summer"_s}});
    card->setRest(rest);
    card->personAct(card->view().acts.first().id);
    card->done();

    EXPECT_EQ(finished.size(), 1);
    EXPECT_EQ(work->state().swaps[0].thresholdHours, 1500.0);
}

TEST_F(BookInTest, WhoeverAgreedToOneAlertHasAgreedToNoOther)
{
    openAt(u"book-in"_s);
    QSignalSpy finished(card.get(), &BookInPresenter::finished);
    type(u"marking"_s, u"HVQ30-40B"_s, u"NEW000001"_s);
    QList<CaptureAnswer> rest{{u"cause"_s, {u"Hours reached"_s}},
                              {u"hours"_s, {u"1210"_s}},
                              {u"threshold"_s, {u"1500"_s}},
                              {u"reason"_s, {u"closed for the summer"_s}}};
    card->setRest(rest);
    card->done();
    ASSERT_EQ(card->view().acts.size(), 1);
    card->personAct(card->view().acts.first().id);
    card->setRest(rest); // the same again takes nothing back
    ASSERT_EQ(card->view().acts.first().stand, PersonAct::Stand::Given);

    rest[2] = {u"threshold"_s, {u"9000"_s}};
    card->setRest(rest);
    EXPECT_EQ(card->view().acts.first().stand, PersonAct::Stand::Open);
    card->done();

    EXPECT_EQ(finished.size(), 0);
    EXPECT_FALSE(work->state().swaps[0].thresholdHours);
}

TEST_F(BookInTest, AnAlertThatMayBeEitherIsRefusedWithTheWayToWriteIt)
{
    openAt(u"book-in"_s);
    QSignalSpy finished(card.get(), &BookInPresenter::finished);
    type(u"marking"_s, u"HVQ30-40B"_s, u"NEW000001"_s);

    card->setRest({{u"cause"_s, {u"Hours reached"_s}}, {u"threshold"_s, {u"1.200"_s}}});
    EXPECT_EQ(card->view().keyIn.last(), u"Alert at: not set yet"_s) << "nothing to key in";
    card->done();

    EXPECT_EQ(finished.size(), 0);
    EXPECT_EQ(
        card->view().waits,
        QStringList{u"Alert at: 1.200 is not plain: write 1200, with nothing between the thousands."_s});
    EXPECT_TRUE(card->view().acts.isEmpty()) << "nobody is asked to agree";
}

} // namespace
} // namespace coldarc::ui
