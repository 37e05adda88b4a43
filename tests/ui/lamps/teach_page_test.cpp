#include "ui/lamps/teach_page.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"
#include "ui/lamps/words_teach.h"

#include <QAbstractButton>
#include <QComboBox>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace ui;
using namespace std::chrono_literals;

// All persons, types and codes are invented.
class TeachPresenterTest : public ::testing::Test {
protected:
    TeachPresenterTest()
        : shipped(catalogue::loadCatalogue(sourceFile("resources/catalogue")).catalogue)
        , taught(shipped)
    {
        const std::chrono::year_month_day today(std::chrono::floor<std::chrono::days>(clock.now().wall));
        add(u"boss"_s, people::Role::Supervisor);
        add(u"ada"_s, people::Role::Engineer);
        EXPECT_TRUE(people.give({people::AuthorisationId(u"a"_s), PersonId(u"boss"_s),
                                 people::Duty::Supervise, std::nullopt, today, today + std::chrono::years(1),
                                 PersonId(u"boss"_s), std::nullopt}));
        EXPECT_TRUE(rules.couldNotRead(u"]C0ORDER 77120/00417"_s, clock.now().wall));
        QObject::connect(&presenter, &TeachPresenter::taught, &presenter,
                         [this] { taught = label::withTaught(shipped, rules.standing().value()); });
        presenter.setWho(PersonId(u"boss"_s));
    }
    void add(const QString& id, people::Role role)
    {
        people::Person person;
        person.id = PersonId(id);
        person.name = id;
        person.role = role;
        EXPECT_TRUE(people.add(person));
    }
    [[nodiscard]] static QString optionOf(const ChoiceView& view, const QString& text)
    {
        for (const ChoiceOption& option : view.options) {
            if (option.text == text)
                return option.id;
        }
        ADD_FAILURE() << text.toStdString();
        return {};
    }
    void mark()
    {
        presenter.chooseCode(u"]C0ORDER 77120/00417"_s);
        presenter.markType(optionOf(presenter.view().typePart, u"77120"_s));
        presenter.markSerial(optionOf(presenter.view().serialPart, u"00417"_s));
        presenter.chooseLampType(u"hollin-30b"_s);
    }

    FakeClock clock;
    CountingIds ids;
    store::Database database = store::Database::inMemory();
    people::PeopleStore people{database};
    lamps::TaughtRuleStore rules{database};
    catalogue::Catalogue shipped;
    catalogue::Catalogue taught;
    TeachPresenter presenter{rules, people, [this]() -> const catalogue::Catalogue& { return taught; }, clock,
                             ids};
};

TEST_F(TeachPresenterTest, ShowsTheCodesThatNobodyCouldReadAndSaysWhatIsStillMissing)
{
    ASSERT_EQ(presenter.view().codes.size(), 1);
    EXPECT_EQ(presenter.view().action.stand, ActionView::Stand::Waits);

    presenter.chooseCode(presenter.view().codes.first().id);

    EXPECT_EQ(presenter.view().code, u"]C0ORDER 77120/00417"_s);
    EXPECT_EQ(presenter.view().faults, (QStringList{wordsOf(label::TeachFault::NothingMarked),
                                                    wordsOf(label::TeachFault::UnknownLampType)}));
}

TEST_F(TeachPresenterTest, ShowsAtOnceHowTheCodeWouldBeReadAndKeepsTheRule)
{
    mark();
    ASSERT_EQ(presenter.view().faults, QStringList());
    ASSERT_EQ(presenter.view().reads.size(), 2);
    EXPECT_EQ(presenter.view().reads.first(), u"This code: Type 77120, serial 00417"_s);
    EXPECT_EQ(presenter.view().action.stand, ActionView::Stand::Ready);

    presenter.keep();

    ASSERT_EQ(rules.standing()->size(), 1);
    EXPECT_EQ(rules.all()->front().by, PersonId(u"boss"_s));
    EXPECT_TRUE(presenter.view().codes.isEmpty()) << "it can be read now";
    ASSERT_EQ(presenter.view().rules.size(), 1);
    EXPECT_EQ(presenter.view().rules.first().text, u"HVQ30-40B: ORDER {type}/{serial}"_s);
    EXPECT_TRUE(presenter.view().message.startsWith(u"Kept."_s));
}

TEST_F(TeachPresenterTest, KeepsNothingWhileTheCodesOnRecordCannotBeRead)
{
    mark();
    ASSERT_EQ(presenter.view().action.stand, ActionView::Stand::Ready);
    ASSERT_TRUE(database.run(u"ALTER TABLE entry RENAME COLUMN bytes TO out_of_reach"_s));

    presenter.keep();

    EXPECT_EQ(presenter.view().action.stand, ActionView::Stand::Waits);
    EXPECT_TRUE(presenter.view().faults.first().contains(u"could not be read"_s));
    ASSERT_TRUE(rules.all());
    EXPECT_TRUE(rules.all()->empty()) << "nobody can tell what it would read otherwise";
}

TEST_F(TeachPresenterTest, AnEngineerLooksAndKeepsNothing)
{
    presenter.setWho(PersonId(u"ada"_s));
    mark();
    EXPECT_EQ(presenter.view().reads.first(), u"This code: Type 77120, serial 00417"_s);
    EXPECT_EQ(presenter.view().action.stand, ActionView::Stand::Waits);

    presenter.keep();

    EXPECT_TRUE(rules.all()->empty());
    EXPECT_TRUE(presenter.view().message.startsWith(u"Only somebody who is authorised to supervise"_s));
}

TEST_F(TeachPresenterTest, AWithdrawnRuleStaysInSightAndReadsNoMore)
{
    mark();
    presenter.keep();

    presenter.withdraw(presenter.view().rules.first().id);

    ASSERT_EQ(presenter.view().rules.size(), 1);
    EXPECT_EQ(presenter.view().rules.first().act, QString());
    EXPECT_TRUE(presenter.view().rules.first().sub.contains(u"withdrawn by boss"_s));
    EXPECT_EQ(presenter.view().codes.size(), 1) << "nobody can read it again";
}

TEST_F(TeachPresenterTest, ARuleThatDoesNotFitTheTypesAnyMoreIsSaidToBeOutOfUse)
{
    mark();
    presenter.keep();
    EXPECT_FALSE(presenter.view().rules.first().sub.contains(u"no longer in use"_s));
    catalogue::Catalogue later = shipped; // another catalogue came: the number is another type's code there
    catalogue::LampType other = shipped.lampTypes().first();
    ASSERT_NE(other.id, LampTypeId(u"hollin-30b"_s));
    other.packageCodes.append(u"77120"_s);
    later.add(other, shipped.document(other.id));
    taught = label::withTaught(later, rules.standing().value());

    presenter.refresh();

    EXPECT_TRUE(presenter.view().rules.first().sub.contains(u"no longer in use"_s))
        << presenter.view().rules.first().sub.toStdString();
    EXPECT_EQ(presenter.view().rules.first().act, u"Withdraw"_s);
}

TEST(TeachWordsTest, EveryFaultHasWordsOfItsOwn)
{
    QStringList all;
    for (int fault = 0; fault < label::kTeachFaults; ++fault)
        all << wordsOf(static_cast<label::TeachFault>(fault));
    EXPECT_EQ(all.removeDuplicates(), 0);
    EXPECT_FALSE(all.contains(QString()));
}

TEST_F(TeachPresenterTest, ThePageMarksByItsBoxesAndKeepsByItsAction)
{
    TeachPage page(clock);
    QObject::connect(&presenter, &TeachPresenter::viewChanged, &page, &TeachPage::setView);
    QObject::connect(&page, &TeachPage::codeGiven, &presenter, &TeachPresenter::takeCode);
    QObject::connect(&page, &TeachPage::typeMarked, &presenter, &TeachPresenter::markType);
    QObject::connect(&page, &TeachPage::serialMarked, &presenter, &TeachPresenter::markSerial);
    QObject::connect(&page, &TeachPage::lampTypeChosen, &presenter, &TeachPresenter::chooseLampType);
    QObject::connect(&page, &TeachPage::keepRequested, &presenter, &TeachPresenter::keep);
    page.setView(presenter.view());
    page.resize(1366, 700);
    page.show();
    auto* pasted = page.findChild<QWidget*>(u"pasted"_s)->findChild<QLineEdit*>();
    QTest::keyClicks(pasted, u"]C0ORDER 77120/00418"_s);
    page.findChild<QAbstractButton*>(u"take"_s)->click();
    const auto choose = [&](const QString& name, const QString& text) {
        auto* box = page.findChild<QWidget*>(name)->findChild<QComboBox*>();
        const int at = box->findText(text);
        ASSERT_GE(at, 0) << text.toStdString();
        box->setCurrentIndex(at);
        Q_EMIT box->activated(at);
    };
    choose(u"typePart"_s, u"77120"_s);
    choose(u"serialPart"_s, u"00418"_s);
    auto* whose = page.findChild<QWidget*>(u"lampType"_s)->findChild<QComboBox*>();
    for (int at = 0; at < whose->count(); ++at) {
        if (whose->itemText(at).startsWith(u"HVQ30-40B"_s)) {
            whose->setCurrentIndex(at);
            Q_EMIT whose->activated(at);
        }
    }

    clock.advance(2s);
    page.findChild<QAbstractButton*>(u"action"_s)->click();

    EXPECT_EQ(rules.standing()->size(), 1);
}

TEST_F(TeachPresenterTest, TheMainActionStandsAtTheRightAsOnEveryPage)
{
    TeachPage page(clock);
    page.setView(presenter.view());
    page.resize(1366, 700);
    page.show();
    QApplication::processEvents();

    const auto* action = page.findChild<QWidget*>(u"action"_s);
    const QRect seen(action->mapTo(&page, QPoint(0, 0)), action->size());
    EXPECT_EQ(page.width() - 1 - seen.right(), 40); // the margin of the page
    EXPECT_GT(seen.left(), page.width() / 2);
}

} // namespace
} // namespace coldarc::test
