#include "ui/people/office_presenter.h"

#include "core/people/jws.h"
#include "tests/ui/people/people_at_work.h"
#include "ui/parts/plain_button.h"
#include "ui/people/office_page.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>

// Every person, office and passphrase here is invented.

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;

const QString kPhrase = u"nine herons over Pier Street"_s;
const QString kOfficePhrase = u"a name for every key"_s;

class OfficePresenterTest : public test::PeopleAtWork {
protected:
    void SetUp() override
    {
        ada = enrol(u"p-1"_s, u"Ada Invented"_s, kPhrase);
        boss = enrol(u"p-2"_s, u"Bo Invented"_s, kPhrase, people::Role::Supervisor);
        presenter.setSealCost(test::kCheapGuess);
        presenter.setBy(ada.id);
        presenter.refresh();
        QObject::connect(&presenter, &OfficePresenter::saveRequested,
                         [this](const QString& name, const QByteArray& bytes) {
                             saved = {name, bytes};
                         });
    }
    void makeOffice() { presenter.openForm(OfficeForm::Found), presenter.keepForm(founding()); }
    [[nodiscard]] static OfficeAnswers founding()
    {
        return {u"Invented Lamps"_s, kOfficePhrase, kOfficePhrase, {}, {}};
    }
    /// Bo supervises from here on.
    void nameSupervisor()
    {
        people::Authorisation one;
        one.id = people::AuthorisationId(ids.next());
        one.person = boss.id;
        one.duty = people::Duty::Supervise;
        one.from = *people::dayFromIso(u"2020-01-01"_s);
        one.until = *people::dayFromIso(u"2099-12-31"_s);
        one.givenBy = boss.id;
        ASSERT_TRUE(people.give(one));
        presenter.refresh();
    }
    [[nodiscard]] CardLine lineOf(const QString& name) const
    {
        for (const CardLine& line : presenter.view().keys) {
            if (line.text.startsWith(name))
                return line;
        }
        return {};
    }
    [[nodiscard]] people::PublicKey keyOf(const people::Person& person) const
    {
        return keys.sealedKey(person.id)->publicKey;
    }
    void vouchFor(const QString& name, const QString& phrase, const QString& until = u"2099-06-30"_s)
    {
        presenter.act(lineOf(name).id);
        presenter.keepForm({{}, phrase, {}, presenter.view().from.value, until});
    }

    people::OfficeStore offices{database};
    OfficePresenter presenter{people, keys, offices, clock, inPlace()};
    people::Person ada;
    people::Person boss;
    std::pair<QString, QByteArray> saved;
};

TEST_F(OfficePresenterTest, SaysWhatAnOfficeIsForWhereThereIsNone)
{
    EXPECT_TRUE(presenter.view().name.isEmpty());
    EXPECT_TRUE(presenter.view().note.contains(u"whose a key is"_s));
    EXPECT_TRUE(presenter.view().canFound) << "nobody supervises: somebody alone asks nobody";
    EXPECT_TRUE(lineOf(u"Ada"_s).sub.startsWith(u"nobody vouches for it"_s));
}

TEST_F(OfficePresenterTest, VouchesForAKeyUnderThePassphraseOfTheOffice)
{
    makeOffice();
    EXPECT_EQ(presenter.view().name, u"Invented Lamps"_s);
    EXPECT_EQ(presenter.view().thumbprint, people::thumbprint(offices.own()->key));

    vouchFor(u"Ada"_s, kOfficePhrase);

    EXPECT_EQ(presenter.view().message, u"Vouched for the key of Ada Invented until 2099-06-30."_s);
    EXPECT_TRUE(lineOf(u"Ada"_s).sub.startsWith(u"Invented Lamps vouches for it until 2099-06-30"_s));
    EXPECT_TRUE(lineOf(u"Bo"_s).sub.startsWith(u"nobody vouches for it"_s));
    ASSERT_EQ(offices.certificatesOf(keyOf(ada))->size(), 1U);
    EXPECT_EQ(people::saidBy(offices.certificatesOf(keyOf(ada))->front())->enrolment.name, u"Ada Invented"_s);
}

TEST_F(OfficePresenterTest, SignsNothingUnderAnotherPassphraseNotEvenTheSupervisorsOwn)
{
    makeOffice();
    vouchFor(u"Ada"_s, kPhrase);

    EXPECT_TRUE(presenter.view().message.contains(u"not the office's passphrase"_s));
    EXPECT_EQ(presenter.view().form, OfficeForm::Vouch) << "to be tried again";
    EXPECT_TRUE(offices.certificatesOf(keyOf(ada))->empty());
    EXPECT_EQ(offices.attempts(offices.own()->key)->wrong, 1);
    for (int wrong = 2; wrong <= 4; ++wrong)
        presenter.keepForm({{}, kPhrase, {}, presenter.view().from.value, u"2099-06-30"_s});
    presenter.keepForm({{}, kOfficePhrase, {}, presenter.view().from.value, u"2099-06-30"_s});
    EXPECT_TRUE(offices.certificatesOf(keyOf(ada))->empty())
        << "after four wrong ones even the right one waits";
}

TEST_F(OfficePresenterTest, OnlyWhoeverSupervisesMakesItAndVouches)
{
    nameSupervisor();
    EXPECT_FALSE(presenter.view().canFound);
    makeOffice();
    EXPECT_FALSE(offices.own()) << "Ada does not supervise";

    presenter.setBy(boss.id);
    makeOffice();
    ASSERT_TRUE(offices.own());
    presenter.setBy(ada.id);
    presenter.refresh();
    EXPECT_TRUE(lineOf(u"Ada"_s).act.isEmpty());
    presenter.act(lineOf(u"Ada"_s).id);
    EXPECT_EQ(presenter.view().form, OfficeForm::None);
    EXPECT_TRUE(presenter.view().message.contains(u"Whoever supervises does this"_s));
}

// ---- Keys out of use ------------------------------------------------------------------------------------

TEST_F(OfficePresenterTest, TheOfficeSaysOfAKeyThatWasInUseHereThatItIsOut)
{
    makeOffice();
    const people::PublicKey key = keyOf(ada);
    vouchFor(u"Ada"_s, kOfficePhrase);
    ASSERT_TRUE(keys.retireKey(ada.id, clock.now()));
    presenter.refresh();
    EXPECT_EQ(lineOf(u"Ada"_s).act, u"Take it out of use"_s);

    presenter.act(lineOf(u"Ada"_s).id);
    ASSERT_EQ(presenter.view().form, OfficeForm::Retire);
    EXPECT_EQ(presenter.view().formThumbprint, people::thumbprint(key));
    EXPECT_EQ(presenter.view().from.value, people::isoText(people::utcDayOf(clock.now().wall)));
    presenter.keepForm({{}, kPhrase, {}, u"2026-01-31"_s, {}});
    EXPECT_TRUE(offices.retirementsOf(key)->empty()) << "not under another passphrase";
    presenter.keepForm({{}, kOfficePhrase, {}, u"soon"_s, {}});
    EXPECT_FALSE(presenter.view().from.error.isEmpty());
    presenter.keepForm({{}, kOfficePhrase, {}, u"2026-01-31"_s, {}});

    ASSERT_EQ(offices.retirementsOf(key)->size(), 1U);
    EXPECT_TRUE(people::isRetiredBy(offices.own()->key, offices.retirementsOf(key)->front()));
    EXPECT_EQ(presenter.view().message, u"The key of Ada Invented is out of use from 2026-01-31."_s);
    EXPECT_TRUE(lineOf(u"Ada"_s).sub.contains(u"out of use from 2026-01-31"_s));
    EXPECT_TRUE(lineOf(u"Ada"_s).act.isEmpty()) << "it is said once";
}

TEST_F(OfficePresenterTest, AKeyOfALaptopThatWasLostIsTakenOutOfUse)
{
    makeOffice();
    const people::KeyRequest elsewhere{people::SigningKey::generate().publicKey(), PersonId(u"p-9"_s),
                                       u"Cem Invented"_s, people::Role::Engineer};
    presenter.take(people::bytesOf(elsewhere));
    presenter.keepForm({{}, kOfficePhrase, {}, presenter.view().from.value, u"2099-06-30"_s});
    ASSERT_EQ(lineOf(u"Cem"_s).act, u"Take it out of use"_s);

    presenter.act(lineOf(u"Cem"_s).id);
    presenter.keepForm({{}, kOfficePhrase, {}, presenter.view().from.value, {}});

    EXPECT_EQ(offices.retirementsOf(elsewhere.key)->size(), 1U);
}

TEST_F(OfficePresenterTest, OnlyWhoeverSupervisesTakesAKeyOutOfUse)
{
    makeOffice();
    const people::PublicKey key = keyOf(ada);
    vouchFor(u"Ada"_s, kOfficePhrase);
    ASSERT_TRUE(keys.retireKey(ada.id, clock.now()));
    presenter.refresh();
    const QString id = lineOf(u"Ada"_s).id;
    nameSupervisor();
    EXPECT_TRUE(lineOf(u"Ada"_s).act.isEmpty());

    presenter.act(id);
    EXPECT_EQ(presenter.view().form, OfficeForm::None);
    EXPECT_TRUE(presenter.view().message.contains(u"Whoever supervises does this"_s));
    EXPECT_TRUE(offices.retirementsOf(key)->empty());
}

// ---- Another passphrase ---------------------------------------------------------------------------------

const QString kNewPhrase = u"seven lamps above the river"_s;

TEST_F(OfficePresenterTest, TheOfficeVouchesUnderItsNewPassphraseAndNoLongerUnderTheOldOne)
{
    makeOffice();
    const people::PublicKey key = offices.own()->key;
    presenter.openForm(OfficeForm::Reseal);
    presenter.keepForm({{}, kNewPhrase, kNewPhrase, {}, {}, kOfficePhrase});

    EXPECT_TRUE(presenter.view().message.startsWith(u"Changed."_s)) << presenter.view().message.toStdString();
    EXPECT_EQ(offices.own()->key, key) << "what it vouched for stays good";
    vouchFor(u"Ada"_s, kOfficePhrase);
    EXPECT_TRUE(offices.certificatesOf(keyOf(ada))->empty());
    vouchFor(u"Ada"_s, kNewPhrase);
    EXPECT_EQ(offices.certificatesOf(keyOf(ada))->size(), 1U);
}

TEST_F(OfficePresenterTest, NobodyChangesThePassphraseOfTheOfficeWithoutTheOldOne)
{
    makeOffice();
    const people::SealedKey before = *offices.sealedKey(people::officeHolder());
    presenter.openForm(OfficeForm::Reseal);
    presenter.keepForm({{}, kNewPhrase, kNewPhrase, {}, {}, kPhrase});

    EXPECT_EQ(presenter.view().message, u"That is not the office's passphrase. Nothing was changed."_s);
    EXPECT_EQ(offices.attempts(offices.own()->key)->wrong, 1) << "a try like any other";
    presenter.keepForm({{}, kNewPhrase, u"something else"_s, {}, {}, kOfficePhrase});
    EXPECT_EQ(presenter.view().again.error, u"The two differ."_s);
    presenter.keepForm({{}, u"short"_s, u"short"_s, {}, {}, kOfficePhrase});
    EXPECT_FALSE(presenter.view().passphrase.error.isEmpty());
    presenter.keepForm({{}, kNewPhrase, kNewPhrase, {}, {}, {}});
    EXPECT_FALSE(presenter.view().old.error.isEmpty());
    EXPECT_EQ(*offices.sealedKey(people::officeHolder()), before);
    EXPECT_EQ(offices.attempts(offices.own()->key)->wrong, 1) << "what is not whole is no try";
}

TEST_F(OfficePresenterTest, OnlyWhoeverSupervisesChangesThePassphraseOfTheOffice)
{
    makeOffice();
    EXPECT_TRUE(presenter.view().canReseal);
    nameSupervisor();
    EXPECT_FALSE(presenter.view().canReseal);
    const people::SealedKey before = *offices.sealedKey(people::officeHolder());

    presenter.openForm(OfficeForm::Reseal);
    presenter.keepForm({{}, kNewPhrase, kNewPhrase, {}, {}, kOfficePhrase});

    EXPECT_TRUE(presenter.view().message.contains(u"Whoever supervises does this"_s));
    EXPECT_EQ(*offices.sealedKey(people::officeHolder()), before);
}

TEST_F(OfficePresenterTest, AKeyOfAnotherLaptopIsVouchedForThroughFiles)
{
    // The engineer's laptop has no office: the key goes out ...
    presenter.act(lineOf(u"Ada"_s).id);
    ASSERT_EQ(saved.first, u"key-of-Ada Invented.json"_s);
    const QByteArray request = saved.second;

    // ... the office's computer vouches for it ...
    coldarc::store::Database other = coldarc::store::Database::inMemory();
    people::PeopleStore otherPeople(other);
    people::KeyStore otherKeys(other);
    people::OfficeStore otherOffices(other);
    ASSERT_TRUE(otherPeople.add({boss.id, boss.name, boss.role, {}, {}, {}}));
    OfficePresenter office(otherPeople, otherKeys, otherOffices, clock, inPlace());
    QByteArray certificate;
    QObject::connect(&office, &OfficePresenter::saveRequested,
                     [&](const QString&, const QByteArray& bytes) { certificate = bytes; });
    office.setSealCost(test::kCheapGuess);
    office.setBy(boss.id);
    office.openForm(OfficeForm::Found);
    office.keepForm(founding());
    office.take(request);
    ASSERT_EQ(office.view().form, OfficeForm::Vouch);
    EXPECT_EQ(office.view().formThumbprint, people::thumbprint(keyOf(ada)));
    office.keepForm({{}, kOfficePhrase, {}, office.view().from.value, u"2099-06-30"_s});

    // ... and the laptop asks whether that office is to be believed, once.
    presenter.take(certificate);
    ASSERT_EQ(presenter.view().form, OfficeForm::TakeUp);
    EXPECT_EQ(presenter.view().formThumbprint, people::thumbprint(otherOffices.own()->key));
    EXPECT_TRUE(offices.certificatesOf(keyOf(ada))->empty()) << "not before somebody has compared";
    presenter.keepForm({});
    EXPECT_TRUE(lineOf(u"Ada"_s).sub.startsWith(u"Invented Lamps vouches for it until 2099-06-30"_s));
    ASSERT_EQ(presenter.view().offices.size(), 1);

    presenter.drop(presenter.view().offices.first().id);
    EXPECT_TRUE(lineOf(u"Ada"_s).sub.startsWith(u"nobody vouches for it"_s));
}

TEST_F(OfficePresenterTest, VouchesForWhatAKeySignedSinceItIsThatPersons)
{
    const people::Day enrolled = people::utcDayOf(clock.now().wall);
    makeOffice();
    clock.advance(std::chrono::hours(24 * 40));
    vouchFor(u"Ada"_s, kOfficePhrase);

    const auto said = people::saidBy(offices.certificatesOf(keyOf(ada))->front());
    EXPECT_EQ(said->enrolment.from, enrolled) << "what it signed before today counts too";
}

// The office's key takes a second or two to open; the window stays alive meanwhile.
TEST_F(OfficePresenterTest, WhatIsPressedWhileTheKeyIsOpenedIsNotVouchedFor)
{
    makeOffice();
    test::HeldWork held;
    OfficePresenter slow(people, keys, offices, clock, held.behind());
    slow.setBy(ada.id);
    slow.refresh();
    slow.act(lineOf(u"Ada"_s).id);
    slow.keepForm({{}, kOfficePhrase, {}, slow.view().from.value, u"2099-06-30"_s});
    ASSERT_TRUE(held.isHeld());

    slow.openForm(OfficeForm::None);
    slow.act(lineOf(u"Bo"_s).id);
    held.finish();

    EXPECT_TRUE(offices.certificatesOf(keyOf(boss))->empty()) << "nobody compared its thumbprint";
    EXPECT_EQ(offices.certificatesOf(keyOf(ada))->size(), 1U);
}

TEST_F(OfficePresenterTest, NothingIsSignedInTheNameOfSomebodyWhoCameMeanwhile)
{
    makeOffice();
    test::HeldWork held;
    OfficePresenter slow(people, keys, offices, clock, held.behind());
    slow.setBy(ada.id);
    slow.refresh();
    slow.act(lineOf(u"Ada"_s).id);
    slow.keepForm({{}, kOfficePhrase, {}, slow.view().from.value, u"2099-06-30"_s});
    slow.setBy(boss.id);
    held.finish();

    EXPECT_TRUE(offices.certificatesOf(keyOf(ada))->empty());
    EXPECT_TRUE(slow.view().message.contains(u"Nothing was signed"_s));
}

TEST_F(OfficePresenterTest, SaysWhatIsWrongWithAFileAndChangesNothing)
{
    const OfficeView before = presenter.view();
    presenter.take("hello");

    EXPECT_TRUE(presenter.view().message.contains(u"neither a key"_s));
    EXPECT_EQ(presenter.view().form, OfficeForm::None);
    EXPECT_EQ(presenter.view().keys, before.keys);
    EXPECT_TRUE(offices.offices()->empty());
}

TEST_F(OfficePresenterTest, ThePageIsWorkedByKeysAndCopiesTheThumbprint)
{
    makeOffice();
    OfficePage page;
    QObject::connect(&presenter, &OfficePresenter::viewChanged, &page, &OfficePage::setView);
    QObject::connect(&page, &OfficePage::keyActed, &presenter, &OfficePresenter::act);
    QObject::connect(&page, &OfficePage::formKept, &presenter, &OfficePresenter::keepForm);
    page.setView(presenter.view());
    page.resize(1366, 700);
    page.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&page));

    page.findChild<PlainButton*>(u"copy"_s)->setFocus();
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
    EXPECT_EQ(QGuiApplication::clipboard()->text(), people::thumbprint(offices.own()->key));

    presenter.act(lineOf(u"Ada"_s).id);
    auto* passphrase = page.findChild<QWidget*>(u"passphrase"_s)->findChild<QLineEdit*>();
    EXPECT_TRUE(passphrase->hasFocus());
    EXPECT_EQ(passphrase->echoMode(), QLineEdit::Password);
    QTest::keyClicks(passphrase, kOfficePhrase);
    page.findChild<PlainButton*>(u"keep"_s)->setFocus();
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
    EXPECT_EQ(offices.certificatesOf(keyOf(ada))->size(), 1U);
}

TEST_F(OfficePresenterTest, EscapeLeavesTheFormAndThenThePage)
{
    OfficePage page;
    QObject::connect(&presenter, &OfficePresenter::viewChanged, &page, &OfficePage::setView);
    QObject::connect(&page, &OfficePage::formRequested, &presenter, &OfficePresenter::openForm);
    const QSignalSpy left(&page, &OfficePage::leaveRequested);
    page.setView(presenter.view());
    page.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&page));
    presenter.openForm(OfficeForm::Found);

    QTest::keyClick(&page, Qt::Key_Escape);
    EXPECT_EQ(presenter.view().form, OfficeForm::None);
    EXPECT_EQ(left.size(), 0);
    QTest::keyClick(&page, Qt::Key_Escape);
    EXPECT_EQ(left.size(), 1);
}

TEST_F(OfficePresenterTest, ThePassphraseIsChangedByKeysAlone)
{
    OfficePage page;
    QObject::connect(&presenter, &OfficePresenter::viewChanged, &page, &OfficePage::setView);
    QObject::connect(&page, &OfficePage::formRequested, &presenter, &OfficePresenter::openForm);
    QObject::connect(&page, &OfficePage::formKept, &presenter, &OfficePresenter::keepForm);
    page.setView(presenter.view());
    page.resize(1366, 700);
    page.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&page));
    auto* change = page.findChild<PlainButton*>(u"reseal"_s);
    EXPECT_FALSE(change->isVisible()) << "there is no office yet";
    makeOffice();
    ASSERT_TRUE(change->isVisible());

    change->setFocus();
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
    const QStringList boxes{u"old"_s, u"passphrase"_s, u"again"_s};
    for (const QString& name : boxes) {
        auto* box = page.findChild<QWidget*>(name)->findChild<QLineEdit*>();
        ASSERT_TRUE(box->isVisible()) << name.toStdString();
        EXPECT_TRUE(box->hasFocus()) << name.toStdString();
        EXPECT_EQ(box->echoMode(), QLineEdit::Password);
        QTest::keyClicks(box, name == boxes.first() ? kOfficePhrase : kNewPhrase);
        QTest::keyClick(box, Qt::Key_Return); // of the last one: the main button
    }

    EXPECT_TRUE(presenter.view().message.startsWith(u"Changed."_s));
    EXPECT_EQ(page.findChild<QWidget*>(u"old"_s)->findChild<QLineEdit*>()->text(), QString())
        << "nothing secret stays in a box";
}

} // namespace
} // namespace coldarc::ui
