#include "ui/people/start_presenter.h"

#include "core/people/sign_in.h"
#include "tests/ui/people/people_at_work.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace ui;

class StartPresenterTest : public PeopleAtWork {
protected:
    void SetUp() override
    {
        presenter.setSealCost(kCheapGuess);
        QObject::connect(&presenter, &StartPresenter::created, &presenter, [this] { ++created; });
    }
    void create()
    {
        presenter.create(form);
        if (held.isHeld())
            held.finish();
    }

    HeldWork held;
    QString name;
    bool isDiskFull = false;
    StartPresenter presenter{clock, ids,
                             [this](const Enrolment& enrolment) -> Result<void> {
                                 if (isDiskFull)
                                     return fail(Error::Kind::Storage, u"full"_s);
                                 return enrolling()(enrolment);
                             },
                             [this](const QString& given) { name = given; }, held.behind()};
    StartForm form{u"North"_s,
                   u"A. Okoro"_s,
                   u"engineer"_s,
                   u"three hats on a peg"_s,
                   u"three hats on a peg"_s,
                   {u"lamp-swap"_s, u"supervise"_s},
                   u"2026-11-01"_s,
                   u"2027-10-31"_s};
    int created = 0;
};

TEST_F(StartPresenterTest, MakesTheFirstPersonWithAKeyAndDatedAuthority)
{
    create();

    EXPECT_EQ(created, 1);
    EXPECT_EQ(name, u"North"_s);
    const auto all = people.all();
    ASSERT_TRUE(all && all->size() == 1);
    const people::Person& ada = all->front();
    EXPECT_EQ(ada.name, u"A. Okoro"_s);
    EXPECT_EQ(ada.role, people::Role::Engineer);
    const auto held2 = people.authorisationsOf(ada.id);
    ASSERT_TRUE(held2 && held2->size() == 2);
    EXPECT_EQ(held2->front().duty, people::Duty::LampSwap);
    EXPECT_EQ(people::isoText(held2->front().until), u"2027-10-31"_s);
    EXPECT_EQ(held2->front().givenBy, ada.id);
    const auto signedIn = people::signIn(keys, ada.id, u"three hats on a peg"_s, clock.now());
    ASSERT_TRUE(signedIn);
    EXPECT_TRUE(std::holds_alternative<people::SignedIn>(*signedIn));
}

TEST_F(StartPresenterTest, GivesNoAuthorityThatWasNotTicked)
{
    form.duties.clear();
    create();

    const auto all = people.all();
    ASSERT_TRUE(all && all->size() == 1);
    EXPECT_TRUE(people.authorisationsOf(all->front().id)->empty());
}

TEST_F(StartPresenterTest, NamesEveryLineThatIsNotRightAndKeepsNothing)
{
    form = {u" "_s,     QString(),        u"engineer"_s, u"short"_s,
            u"other"_s, {u"supervise"_s}, u"1.1.2026"_s, u"2026-13-01"_s};
    create();

    const StartView& view = presenter.view();
    for (const FieldView* field :
         {&view.workspace, &view.name, &view.passphrase, &view.again, &view.from, &view.until})
        EXPECT_FALSE(field->error.isEmpty()) << field->label.toStdString();
    EXPECT_TRUE(people.all()->empty());
    EXPECT_EQ(created, 0);
}

TEST_F(StartPresenterTest, RefusesAnAuthorityThatEndsBeforeItBegins)
{
    form.until = u"2026-10-31"_s;
    create();

    EXPECT_EQ(presenter.view().until.error, u"It ends before it begins."_s);
    EXPECT_EQ(created, 0);
}

TEST_F(StartPresenterTest, ShowsThatTheKeyIsBeingSealedAndTakesNoSecondPress)
{
    presenter.create(form);

    EXPECT_FALSE(presenter.view().busy.isEmpty());
    EXPECT_EQ(presenter.view().action.stand, ActionView::Stand::Waits);
    presenter.create(form);
    held.finish();
    EXPECT_EQ(people.all()->size(), 1u);
}

TEST_F(StartPresenterTest, SaysWhatWasKeptWhenTheDiskRefuses)
{
    isDiskFull = true;
    create();

    EXPECT_TRUE(presenter.view().message.contains(u"Nothing was kept"_s));
    EXPECT_EQ(presenter.view().action.stand, ActionView::Stand::Ready);
    EXPECT_EQ(created, 0);
    EXPECT_EQ(name, QString());
}

} // namespace
} // namespace coldarc::test
