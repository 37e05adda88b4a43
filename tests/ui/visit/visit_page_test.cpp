#include "ui/visit/visit_page.h"

#include "core/label/normalise.h"
#include "tests/ui/visit/fingers.h"
#include "tests/ui/visit/visit_at_work.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/visit/bench_captures.h"
#include "ui/visit/bench_page.h"

#include <QApplication>
#include <QLineEdit>
#include <QRegularExpression>
#include <QSignalSpy>
#include <QStackedLayout>
#include <QTest>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using test::VisitAtWork;

void settle()
{
    for (int i = 0; i < 3; ++i)
        QApplication::processEvents();
}

/// Somebody at the keyboard, who counts what they press.
class Hands {
public:
    Hands(VisitPage& page, VisitAtWork& work)
        : m_page(page)
        , m_work(work)
    {
    }

    [[nodiscard]] QWidget* shown() const { return m_page.findChild<QStackedLayout*>()->currentWidget(); }
    void press(Qt::Key key)
    {
        ++presses;
        QWidget* holder = QApplication::focusWidget();
        test::pressByHand(m_page, m_work.clock(), holder ? holder : shown(), key);
        settle();
    }
    void type(const QString& text)
    {
        auto* box = qobject_cast<QLineEdit*>(QApplication::focusWidget());
        ASSERT_TRUE(box) << "nothing to type into for " << text.toStdString();
        test::typeByHand(m_page, m_work.clock(), text);
        typed += static_cast<int>(text.size());
        settle();
    }
    /// Answers what the step in hand asks, in order, until another one is up.
    void doStep(const std::function<QString(const CaptureView&)>& answer)
    {
        m_work.clock().advance(1s);
        const StepCard card = m_page.bench().view().card;
        auto* captures = shown()->findChild<CapturePanel*>(u"captures"_s);
        for (const CaptureView& capture : card.captures) {
            if (m_page.bench().view().card.stepKey != card.stepKey)
                break;
            if (capture.kind == CaptureView::Kind::Choice) {
                press(static_cast<Qt::Key>(Qt::Key_1 + choiceFor(capture, answer(capture))));
                continue;
            }
            if (capture.hint.isEmpty())
                type(answer(capture));
            const bool isLast = captures->answers().last().id == capture.id;
            if (!isLast) {
                ++moves;
                --presses;
                press(Qt::Key_Return);
            }
        }
        if (m_page.bench().view().card.stepKey == card.stepKey && shown()->objectName() == u"benchPage")
            press(Qt::Key_Return);
    }

    /// The one whose text is the answer, else the first, which is as it should be.
    static int choiceFor(const CaptureView& capture, const QString& answer)
    {
        for (qsizetype index = 0; index < capture.options.size(); ++index) {
            if (label::normalise(capture.options.at(index).text) == label::normalise(answer))
                return static_cast<int>(index);
        }
        return 0;
    }

    int presses = 0; ///< answers, main action
    int typed = 0;   ///< characters
    int moves = 0;   ///< Enter from one box to the next question

private:
    VisitPage& m_page;
    VisitAtWork& m_work;
};

QString shownName(const Hands& hands)
{
    return hands.shown()->objectName();
}

class VisitPageTest : public ::testing::Test {
protected:
    void bringUp(Night& night)
    {
        theme.apply(ThemeKind::Booth);
        work = std::make_unique<VisitAtWork>(night);
        page = std::make_unique<VisitPage>(work->desk(), *qApp);
        page->resize(1366, 768);
        page->show();
        QApplication::setActiveWindow(page.get());
        settle();
        page->findChild<BenchPage*>()->takeFocus();
    }

    Theme theme{*qApp};
    std::unique_ptr<VisitAtWork> work;
    std::unique_ptr<VisitPage> page;
};

TEST_F(VisitPageTest, APlainSwapGoesFromTheFirstLookToTheSignatureByKeyboard)
{
    Night night(u"sedgebrook-nook"_s, Night::Crew::Alone, {}, u"isling-16"_s);
    night.doUntil(u"find"_s);
    bringUp(night);
    Hands hands(*page, *work);
    const QString code = u"IE0O167C"_s; // without the dash, as the entry allows
    const QString serial = u"NEW000001"_s;
    const auto answer = [&](const CaptureView& capture) {
        static const QHash<QString, QString> kAnswers{
            {u"hours"_s, u"1210"_s}, {u"tools"_s, u"9"_s},  {u"fasteners"_s, u"4"_s}, {u"who"_s, u"Moor"_s},
            {u"moved"_s, u"B1"_s},   {u"lock"_s, u"47"_s},  {u"point"_s, u"B1"_s},    {u"tester"_s, u"0"_s},
            {u"stands"_s, u"out"_s}, {u"shut"_s, u"all"_s}, {u"count"_s, u"9, 4"_s}};
        if (capture.id == u"type")
            return code;
        const bool isReadBack = page->bench().view().card.stepKey.contains(u"key-controller");
        if (isReadBack && capture.id == u"hours")
            return u"0"_s; // as it was keyed in
        if (isReadBack && capture.id == u"threshold")
            return QString::number(work->state().swaps[0].thresholdHours.value_or(0));
        return kAnswers.value(capture.id, u"47"_s);
    };
    int typedInGear = 0;

    for (int count = 0; count < 160 && shownName(hands) != u"signOffPage"; ++count) {
        const QString shown = shownName(hands);
        const StepCard& card = page->bench().view().card;
        const int before = hands.typed;
        if (shown == u"bookInPage") {
            const bool isBookIn = page->bookIn().view().columns.size() == 4;
            night.clock.advance(1s);
            if (!isBookIn) {
                page->bookIn().scan(u"]d1REF=IE0O16-7C\nNO=NEW000001"_s);
                page->findChild<QWidget*>(u"entry-type"_s)->setFocus();
            }
            hands.type(code);
            hands.press(Qt::Key_Return);
            hands.type(serial);
            hands.press(Qt::Key_Return);
            if (isBookIn) {
                hands.press(Qt::Key_1);
                hands.press(Qt::Key_Return);
            }
            ASSERT_EQ(shownName(hands), u"benchPage"_s)
                << page->bookIn().view().waits.join(u" | "_s).toStdString();
        } else if (shown == u"lightPage" && !card.wait) {
            night.clock.advance(1s);
            hands.press(page->light().view().isFinishing ? Qt::Key_Return : Qt::Key_F6);
        } else if (shown == u"sheetPage") {
            night.clock.advance(1s);
            hands.type(u"48"_s);
            hands.press(Qt::Key_PageDown); // takes it, and the step with it
        } else if (card.wait) {
            night.clock.advance(20min);
            page->refresh();
            settle();
        } else {
            const QString key = card.stepKey;
            const bool isInGear = !card.captures.isEmpty() && card.captures.first().reach == Reach::Glove;
            hands.doStep(answer);
            typedInGear += isInGear ? hands.typed - before : 0;
            ASSERT_TRUE(page->bench().view().card.stepKey != key || shownName(hands) != u"benchPage")
                << key.toStdString() << ": " << page->bench().view().card.sub.toStdString();
        }
    }

    ASSERT_EQ(shownName(hands), u"signOffPage"_s);
    night.clock.advance(1s);
    hands.press(Qt::Key_Return); // the engineer
    night.clock.advance(1s);
    hands.type(u"Moor"_s);
    hands.press(Qt::Key_Return);
    hands.type(u"duty"_s);
    hands.press(Qt::Key_Return); // the site
    night.clock.advance(1s);
    hands.press(Qt::Key_Return); // closed
    EXPECT_EQ(work->state().end, u"done"_s);
    EXPECT_LE(hands.presses, 120) << "answers and presses of the main action";
    EXPECT_LE(hands.typed, 110);
    EXPECT_EQ(typedInGear, 0);
    RecordProperty("presses", hands.presses);
    RecordProperty("moves", hands.moves);
    RecordProperty("typed", hands.typed);
    std::printf("presses %d, moves between boxes %d, characters typed %d\n", hands.presses, hands.moves,
                hands.typed);
}

TEST_F(VisitPageTest, TheStepsOfTheLightBringUpTheirPageAndGiveTheBenchBack)
{
    Night night;
    night.doUntil(u"dowser-open"_s);
    bringUp(night);
    Hands hands(*page, *work);
    night.clock.advance(1s);
    hands.press(Qt::Key_Return);
    ASSERT_EQ(shownName(hands), u"lightPage"_s);
    hands.type(u"41,5"_s);
    hands.press(Qt::Key_Return);
    hands.type(u"42"_s);
    hands.press(Qt::Key_Return);
    const QString what = page->light().view().what;
    ASSERT_EQ(work->state().light.size(), 2);

    hands.press(Qt::Key_Escape);
    EXPECT_EQ(shownName(hands), u"benchPage"_s);
    EXPECT_EQ(page->bench().view().card.action.text, u"Open the light page"_s);
    night.clock.advance(1s);
    hands.press(Qt::Key_Return);

    EXPECT_EQ(shownName(hands), u"lightPage"_s);
    EXPECT_EQ(page->light().view().what, what) << "leaving and coming back changes nothing";
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"reading"_s);
    hands.press(Qt::Key_F12);
    EXPECT_EQ(shownName(hands), u"makeSafePage"_s);
}

TEST_F(VisitPageTest, TheSettlingLightCanBeLookedAtFromTheBenchAndTheSecondSearchOwed)
{
    Night night;
    night.doUntil(u"peak-up"_s);
    bringUp(night);
    Hands hands(*page, *work);
    night.clock.advance(1s);
    hands.press(Qt::Key_Return);
    night.clock.advance(1s); // past the guard's hold
    hands.press(Qt::Key_F6);
    ASSERT_EQ(shownName(hands), u"lightPage"_s);
    EXPECT_TRUE(page->light().view().wait) << "the wait is shown where the readings are";
    hands.press(Qt::Key_Escape);
    ASSERT_EQ(shownName(hands), u"benchPage"_s);
    const auto& acts = page->bench().view().card.acts;
    ASSERT_TRUE(
        std::any_of(acts.begin(), acts.end(), [](const PersonAct& act) { return act.id == u"light"; }));
    page->bench().personAct(u"light"_s);
    settle();
    ASSERT_EQ(shownName(hands), u"lightPage"_s);

    night.clock.advance(20min);
    page->refresh();
    settle();
    EXPECT_FALSE(page->light().view().wait) << "the page sees the wait end";
    night.clock.advance(1s);
    hands.press(Qt::Key_Return);
    night.clock.advance(1s); // past the guard's hold
    hands.press(Qt::Key_F5);

    EXPECT_EQ(work->state().swaps[0].record(StepId(u"peak-again"_s)).status, visit::StepRecord::Status::Owed);
    EXPECT_NE(shownName(hands), u"lightPage"_s);
}

TEST_F(VisitPageTest, WhatWentWrongIsReportedByKeyboardAndAnsweredLater)
{
    Night night;
    night.doUntil(u"tell-before"_s);
    bringUp(night);
    Hands hands(*page, *work);
    QSignalSpy wanted(&work->desk(), &VisitDesk::signatureWanted);

    hands.press(Qt::Key_F9);
    ASSERT_EQ(shownName(hands), u"incidentPage"_s);
    page->findChild<PlainButton*>(u"incident-%1"_s.arg(static_cast<int>(visit::Incident::PointWillNotLock)))
        ->click();
    settle();
    EXPECT_TRUE(page->findChild<TextLabel*>(u"nowDo"_s)->text().contains(u"what is not locked is not dead"));
    night.clock.advance(1s);
    hands.press(Qt::Key_Return); // which breaker is not said yet
    EXPECT_TRUE(hands.shown()->findChild<TextLabel*>(u"said"_s)->isVisible());
    EXPECT_TRUE(work->state().incidents.isEmpty());
    hands.press(Qt::Key_1);
    hands.press(Qt::Key_Return);

    ASSERT_EQ(work->state().incidents.size(), 1);
    EXPECT_EQ(shownName(hands), u"benchPage"_s);
    ASSERT_EQ(wanted.size(), 1);
    EXPECT_EQ(wanted.first().first().value<WantedSignature>().meaning, u"incident"_s);
    const auto* wrong = page->findChild<BenchPage*>()->findChild<PlainButton*>(u"somethingWrong"_s);
    EXPECT_EQ(wrong->accessibleDescription(), u"one waits for an answer"_s);
    hands.press(Qt::Key_F9);
    page->findChild<PlainButton*>(u"open-%1"_s.arg(work->state().incidents.first().entry))->click();
    settle();
    night.clock.advance(1s);
    hands.type(u"another point found"_s);
    hands.press(Qt::Key_Return);
    EXPECT_TRUE(work->state().incidents.first().isAnswered);
    EXPECT_EQ(wrong->accessibleDescription(), QString());
}

TEST_F(VisitPageTest, MakeSafeAsksOnceAndShowsTheWay)
{
    Night night;
    night.doUntil(u"unbox-new"_s);
    bringUp(night);
    Hands hands(*page, *work);

    hands.press(Qt::Key_F12);
    ASSERT_EQ(shownName(hands), u"makeSafePage"_s);
    const QString steps = page->findChild<TextLabel*>(u"makeSafeSteps"_s)->text();
    EXPECT_EQ(steps.section(u'\n', 0, 0), u"1.\u2002Shut the guard"_s);
    EXPECT_TRUE(steps.contains(u"Hang the tag: out of use"));
    hands.press(Qt::Key_Return); // held: it has just come up
    EXPECT_FALSE(work->state().isMakingSafe);
    hands.press(Qt::Key_Escape);
    EXPECT_EQ(shownName(hands), u"benchPage"_s);
    hands.press(Qt::Key_F12);
    night.clock.advance(1s);
    hands.press(Qt::Key_Return);

    EXPECT_TRUE(work->state().isMakingSafe);
    EXPECT_EQ(page->bench().view().card.title, u"Shut the guard"_s);
}

class SignOffTest : public VisitPageTest {};

TEST_F(SignOffTest, EachSignatureShowsNameMeaningAndTimeWithItsOffset)
{
    Night night;
    night.doUntil(u"sign"_s);
    work = std::make_unique<VisitAtWork>(night);
    SignOffPresenter presenter(work->desk());
    presenter.open();
    EXPECT_EQ(presenter.view().action.text, u"A. Okoro signs"_s);

    presenter.done({});
    ASSERT_EQ(presenter.view().lines.size(), 1);
    const SignLine lead = presenter.view().lines.first();
    EXPECT_EQ(lead.name, u"A. Okoro"_s);
    EXPECT_EQ(lead.meaning, u"did and led the work"_s);
    EXPECT_TRUE(QRegularExpression(u"^\\d{4}-\\d\\d-\\d\\d \\d\\d:\\d\\d:\\d\\d \\+00:00$"_s)
                    .match(lead.when)
                    .hasMatch())
        << lead.when.toStdString();
    EXPECT_TRUE(lead.isKeyMissing) << "nobody has sealed it yet";
    work->desk().setKept(wantedSignatures(work->entries(), work->state()));
    EXPECT_FALSE(presenter.view().lines.first().isKeyMissing);
    EXPECT_TRUE(presenter.view().missing.isEmpty());

    presenter.done({{u"name"_s, {u" "_s}}, {u"role"_s, {}}});
    EXPECT_EQ(presenter.view().said, QStringList{u"A few words are missing: say why."_s});
    presenter.goOnWithout();
    presenter.done({});
    EXPECT_EQ(work->state().end, u"done"_s);
    EXPECT_EQ(presenter.view().head, work->desk().logbook().head().hex().left(12));
}

TEST_F(SignOffTest, WhoeverIsNotOfThisVisitSignsAndClosesNothingInTheNameOfItsPeople)
{
    Night night;
    night.doUntil(u"sign"_s);
    work = std::make_unique<VisitAtWork>(night);
    work->desk().setPresses(PersonId(u"eve"_s));
    SignOffPresenter presenter(work->desk());
    presenter.open();
    const qint64 before = work->state().entries;

    presenter.done({});

    EXPECT_EQ(presenter.view().action.waits, u"Join first, or be let in: F10"_s);
    EXPECT_EQ(work->state().entries, before);
}

TEST_F(SignOffTest, ANewLampThatWasBoxedAgainMayStayInTheVanAndAnOldOneMayNot)
{
    Night night;
    night.doUntil(u"lamp-in"_s);
    night.makeSafe();
    work = std::make_unique<VisitAtWork>(night);
    SignOffPresenter presenter(work->desk());
    presenter.open();

    const auto mayStay = [&](const QString& lamp) {
        for (const CaptureView& ask : presenter.view().asks) {
            if (ask.id == lamp)
                return std::ranges::any_of(ask.options,
                                           [](const auto& one) { return one.id == u"in-van"_s; });
        }
        ADD_FAILURE() << "nobody asks of " << lamp.toStdString();
        return false;
    };
    EXPECT_TRUE(mayStay(u"new-1"_s));
    EXPECT_FALSE(mayStay(night.opening().fitted.first().id.text()));
}

TEST_F(SignOffTest, AfterMakingSafeEachLampIsGivenAPlaceBeforeAnybodySigns)
{
    Night night;
    night.doUntil(u"unbox-new"_s);
    work = std::make_unique<VisitAtWork>(night);
    BenchPresenter bench(work->desk());
    bench.makeSafe(QString());
    for (int count = 0; count < 12 && bench.view().card.title != u"It is made safe"; ++count) {
        QList<CaptureAnswer> answers;
        for (const CaptureView& capture : bench.view().card.captures)
            answers.append({capture.id, {capture.options.first().id}});
        bench.done(answers);
    }
    SignOffPresenter presenter(work->desk());
    presenter.open();

    ASSERT_FALSE(presenter.view().asks.isEmpty());
    presenter.done({});
    EXPECT_EQ(presenter.view().said, QStringList{u"Say of each lamp where it goes."_s});
    QList<CaptureAnswer> answers;
    for (const CaptureView& capture : presenter.view().asks)
        answers.append({capture.id, {capture.options.first().id}});
    presenter.done(answers);
    EXPECT_EQ(presenter.view().action.text, u"A. Okoro signs"_s);
    presenter.done({});
    presenter.goOnWithout();
    presenter.done({});

    EXPECT_EQ(work->state().end, u"out-of-use"_s) << presenter.view().said.join(u'\n').toStdString();
}

} // namespace
} // namespace coldarc::ui
