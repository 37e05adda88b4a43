#include "ui/visit/people_here_page.h"

#include "tests/ui/people/people_at_work.h"
#include "tests/ui/visit/fingers.h"
#include "tests/ui/visit/visit_at_work.h"
#include "ui/parts/painted_button.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/visit_page.h"

#include <QApplication>
#include <QDir>
#include <QLineEdit>
#include <QStackedLayout>
#include <QTest>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using machine::Effect;
using test::Night;
using Crew = Night::Crew;

const QString kBens = u"four grey geese at dusk"_s;

class PeopleHerePageTest : public test::PeopleAtWork {
protected:
    void bringUp(Night& night, QSize size = {1366, 768}, ThemeKind kind = ThemeKind::Booth)
    {
        theme.apply(kind);
        work = std::make_unique<test::VisitAtWork>(night);
        enrol(u"ben"_s, u"B. Lind"_s, kBens);
        page = std::make_unique<VisitPage>(work->desk(), *qApp);
        page->peopleHere().setTools({&ring, [this] { return everybody; }});
        page->resize(size);
        page->show();
        QApplication::setActiveWindow(page.get());
        settle();
        page->findChild<BenchPage*>()->takeFocus();
    }
    void settle()
    {
        work->clock().advance(1s);
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
    }
    [[nodiscard]] QWidget* shown() const { return page->findChild<QStackedLayout*>()->currentWidget(); }
    void key(Qt::Key pressed)
    {
        QWidget* holder = QApplication::focusWidget();
        test::pressByHand(*page, work->clock(), holder ? holder : shown(), pressed);
        settle();
    }
    /// Walks by Tab to the control of this name, or one inside it.
    void walkTo(const QString& name)
    {
        for (int count = 0; count < 40; ++count) {
            const QWidget* holder = QApplication::focusWidget();
            if (holder && (holder->objectName() == name || holder->parentWidget()->objectName() == name))
                return;
            key(Qt::Key_Tab);
        }
        FAIL() << "Tab never comes to " << name.toStdString();
    }
    void look(const QString& name)
    {
        settle();
        if (const QString pictures = qEnvironmentVariable("COLDARC_PICTURES"); !pictures.isEmpty()) {
            const QString kind = theme.kind() == ThemeKind::Booth ? u"booth"_s : u"office"_s;
            page->grab().save(
                QDir(pictures).filePath(u"people-%1-%2-%3.png"_s.arg(name, kind).arg(page->width())));
        }
        for (const auto* label : shown()->findChildren<TextLabel*>())
            EXPECT_TRUE(!label->isVisible() || label->fits())
                << name.toStdString() << ": " << label->text().toStdString();
        for (const auto* button : shown()->findChildren<PaintedButton*>())
            EXPECT_TRUE(!button->isVisible() || button->fits())
                << name.toStdString() << ": " << button->text().toStdString();
        for (const auto* button : shown()->findChildren<QAbstractButton*>())
            EXPECT_FALSE(button->isVisible() && button->accessibleName().isEmpty())
                << name.toStdString() << ": " << button->objectName().toStdString();
    }

    Theme theme{*qApp};
    SessionKeeper keeper{clock, inPlace()};
    KeyRing ring{keys, keeper, clock, inPlace(), test::kCheapGuess};
    QList<visit::PersonFacts> everybody{
        {PersonId(u"sup"_s), u"S. Tarn"_s, people::Role::Supervisor, false, false, false, true},
        {PersonId(u"eve"_s), u"E. Voss"_s, people::Role::Trainee, false, true}};
    std::unique_ptr<test::VisitAtWork> work;
    std::unique_ptr<VisitPage> page;
};

TEST_F(PeopleHerePageTest, ATraineeGoesHomeByKeyboardAlone)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    bringUp(night);
    key(Qt::Key_F10);
    ASSERT_EQ(shown()->objectName(), u"peopleHerePage"_s);

    walkTo(u"row-ben"_s);
    key(Qt::Key_Return);
    walkTo(u"deed-leave"_s);
    key(Qt::Key_Return);
    key(Qt::Key_Return);

    EXPECT_FALSE(work->state().isHere(1));
    key(Qt::Key_Escape);
    EXPECT_EQ(shown()->objectName(), u"benchPage"_s);
}

TEST_F(PeopleHerePageTest, ASecondKeyIsOpenedByKeyboardAlone)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    bringUp(night);
    key(Qt::Key_F10);
    walkTo(u"row-ben"_s);
    key(Qt::Key_Return);
    walkTo(u"deed-passphrase"_s);
    key(Qt::Key_Return);
    auto* box = qobject_cast<QLineEdit*>(QApplication::focusWidget());
    ASSERT_TRUE(box);
    QTest::keyClicks(box, kBens);
    key(Qt::Key_Return);
    EXPECT_EQ(ring.standOf(night.ben()), KeyRing::Stand::Open);

    for (int count = 0; count < 2; ++count) { // the new PIN, twice
        box = qobject_cast<QLineEdit*>(QApplication::focusWidget());
        ASSERT_TRUE(box);
        EXPECT_TRUE(box->text().isEmpty());
        QTest::keyClicks(box, u"604193"_s);
        key(Qt::Key_Return);
    }

    EXPECT_FALSE(ring.needsPin(night.ben()));
    ring.lockAll();
    EXPECT_EQ(ring.standOf(night.ben()), KeyRing::Stand::Locked);
}

TEST_F(PeopleHerePageTest, SomebodyWhoCameJoinsByEnterAlone)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    bringUp(night);
    key(Qt::Key_F10);
    walkTo(u"join"_s);
    const qsizetype before = work->state().people.size();

    key(Qt::Key_Return);
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"row-sup"_s) << "the first of those who can";
    key(Qt::Key_Tab);
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"row-eve"_s);
    key(Qt::Key_Return); // chooses
    EXPECT_EQ(work->state().people.size(), before);
    key(Qt::Key_Return); // joins

    ASSERT_EQ(work->state().people.size(), before + 1);
    EXPECT_EQ(work->state().people.last().id, PersonId(u"eve"_s));
}

TEST_F(PeopleHerePageTest, TheNamesInTheBarLeadToItByOneClick)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    bringUp(night);
    auto* names = shown()->findChild<QAbstractButton*>(u"people"_s);
    ASSERT_TRUE(names);
    EXPECT_EQ(names->accessibleName(), u"Who is here: A. Okoro, with B. Lind, trainee"_s);

    QTest::mouseClick(names, Qt::LeftButton);
    settle();

    EXPECT_EQ(shown()->objectName(), u"peopleHerePage"_s);
}

struct Sight {
    const char* name;
    ThemeKind theme;
    QSize size;

    friend void PrintTo(const Sight& sight, std::ostream* out) { *out << sight.name; }
};

class PeopleHereSightTest : public PeopleHerePageTest, public ::testing::WithParamInterface<Sight> {
protected:
    void press(const QString& name)
    {
        auto* button = shown()->findChild<QAbstractButton*>(name);
        ASSERT_TRUE(button) << name.toStdString();
        button->click();
        settle();
    }
};

TEST_P(PeopleHereSightTest, NothingIsClippedInAnyStand)
{
    Night night(u"quillhaven-pair"_s, Crew::WithRelief);
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    ASSERT_TRUE(night.tell(visit::Joined{everybody.first()}));
    ASSERT_TRUE(night.tell(visit::Joined{everybody.last()}));
    everybody.append({PersonId(u"dan"_s), u"D. Marsh"_s, people::Role::Engineer, true, false, true});
    ASSERT_TRUE(night.tell(visit::Left{PersonId(u"eve"_s)}));
    bringUp(night, GetParam().size, GetParam().theme);
    look(u"bench"_s);
    page->showPeople();
    look(u"lead"_s);
    press(u"row-ben"_s);
    look(u"second"_s);
    for (const QString& deed : {u"passphrase"_s, u"pass-on"_s, u"leave"_s, u"remove-lock"_s}) {
        press(u"deed-"_s + deed);
        look(deed);
        if (deed == u"leave")
            shown()->findChild<QAbstractButton*>(u"action"_s)->click();
        look(deed + u"-pressed"_s);
        press(u"notNow"_s);
    }
    press(u"join"_s);
    look(u"join"_s);
    press(u"notNow"_s);
    press(u"row-eve"_s);
    look(u"left"_s);
    work->desk().setPresses(night.ben());
    press(u"row-ada"_s);
    press(u"deed-remove-lock"_s);
    look(u"remove-ready"_s);
    page->peopleHere().done({{u"supervisor"_s, {u"sup"_s}},
                             {u"absence"_s, {u"booth, lobby and car park searched; the car is gone"_s}},
                             {u"attempts"_s, {u"22:10 and 22:20 by telephone, no answer"_s}}},
                            {}, {});
    page->showPeople(night.ada());
    look(u"told"_s);
}

INSTANTIATE_TEST_SUITE_P(Sights, PeopleHereSightTest,
                         ::testing::Values(Sight{"BoothLaptop", ThemeKind::Booth, {1366, 723}},
                                           Sight{"OfficeLaptop", ThemeKind::Office, {1366, 723}},
                                           Sight{"BoothDesk", ThemeKind::Booth, {1920, 1035}},
                                           Sight{"OfficeDesk", ThemeKind::Office, {1920, 1035}}),
                         [](const auto& instance) { return std::string(instance.param.name); });

} // namespace
} // namespace coldarc::ui
