#include "ui/people/sign_in_presenter.h"

#include "ui/people/people_words.h"
#include "ui/people/secret_words.h"

#include <algorithm>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

SignInPresenter::SignInPresenter(people::PeopleStore& people, people::KeyStore& keys, SessionKeeper& keeper,
                                 const Clock& clock, Behind behind, QObject* parent)
    : QObject(parent)
    , m_people(people)
    , m_keys(keys)
    , m_keeper(keeper)
    , m_clock(clock)
    , m_behind(std::move(behind))
{
    connect(&keeper, &SessionKeeper::pinSet, this, [this] {
        if (m_view.ask == SignInView::Ask::Pin)
            Q_EMIT signedIn();
    });
    connect(&keeper, &SessionKeeper::pinNotSet, this, [this] {
        SignInView view = m_view;
        view.busy.clear();
        view.message = tr("The PIN could not be set: this computer has too little memory free. Close other "
                          "programs and try again.");
        show(view);
    });
}

void SignInPresenter::setWorkspace(const QString& name, const QStringList& note)
{
    SignInView view = m_view;
    view.workspace = name;
    view.note = note;
    show(view);
}

void SignInPresenter::setInside(const QString& why)
{
    SignInView view = m_view;
    view.inside = why;
    show(view);
}

QList<RowView> SignInPresenter::rows() const
{
    QList<RowView> rows;
    for (const people::Person& person : m_persons) {
        if (!person.retiredOn)
            rows.append({person.id.text(), person.name, wordFor(person.role), {}});
    }
    return rows;
}

void SignInPresenter::begin()
{
    SignInView view = m_view;
    view.chosen.clear();
    view.ask = SignInView::Ask::Who;
    view.title = tr("Who works here?");
    view.sub = tr("Your signature goes under what you do.");
    view.message.clear();
    view.busy.clear();
    ++view.emptied;
    if (auto all = m_people.all())
        m_persons = std::move(*all);
    else
        view.message = tr("The people could not be read. Nothing was changed. Start the program again.");
    view.people = rows();
    show(view);
    // One person alone is not asked who they are.
    if (view.people.size() == 1)
        choose(view.people.first().id);
}

void SignInPresenter::choose(const QString& person)
{
    if (!m_view.busy.isEmpty())
        return;
    m_view.chosen = person;
    m_publicKey.reset();
    m_wait = {people::AttemptVerdict::Kind::Free, {}};
    askPassphrase();
}

void SignInPresenter::askPassphrase()
{
    SignInView view = m_view;
    const auto found = std::ranges::find(m_persons, PersonId(view.chosen), &people::Person::id);
    view.ask = SignInView::Ask::Passphrase;
    view.title = found == m_persons.end() ? QString() : found->name;
    view.sub.clear();
    view.secret = {tr("Passphrase"), {}, {}, {}, {}};
    view.again = {};
    view.message.clear();
    ++view.emptied;
    const auto sealed = m_keys.sealedKey(PersonId(view.chosen));
    if (!sealed) {
        view.message = sealed.error().kind == Error::Kind::NotFound
                           ? tr("No key is enrolled. A colleague enrols it with you, on the page People.")
                           : tr("The key could not be read. Nothing was changed.");
    } else if (const auto attempts = m_keys.attempts(sealed->publicKey)) {
        m_publicKey = sealed->publicKey;
        m_wait = people::attemptVerdict(*attempts, m_clock.now());
        view.message = waitWords(m_wait);
        if (m_wait.kind == people::AttemptVerdict::Kind::Exhausted)
            view.message = shutForGood();
    }
    show(view);
}

void SignInPresenter::refresh()
{
    if (m_view.ask != SignInView::Ask::Passphrase || !m_publicKey || !m_view.busy.isEmpty() ||
        m_wait.kind != people::AttemptVerdict::Kind::Waits)
        return;
    const auto attempts = m_keys.attempts(*m_publicKey);
    if (!attempts)
        return;
    m_wait = people::attemptVerdict(*attempts, m_clock.now());
    SignInView view = m_view;
    view.message = waitWords(m_wait);
    show(view);
}

void SignInPresenter::go(const people::TypedSecret& secret, const people::TypedSecret& again)
{
    if (!m_view.busy.isEmpty())
        return;
    if (m_view.ask == SignInView::Ask::Passphrase)
        tryPassphrase(secret);
    else if (m_view.ask == SignInView::Ask::Pin)
        setPin(secret, again);
}

void SignInPresenter::tryPassphrase(const people::TypedSecret& secret)
{
    const Stamp now = m_clock.now();
    const auto begun = people::beginTry(m_keys, PersonId(m_view.chosen), now);
    if (!begun)
        return worldFailed(begun.error());
    if (const auto* away = std::get_if<people::TurnedAway>(&*begun))
        return turnedAway(*away);
    SignInView view = m_view;
    view.busy = tr("Opening your key. This takes a second or two, on purpose.");
    view.message.clear();
    show(view);

    const auto started = std::make_shared<people::OpenTry>(std::get<people::OpenTry>(*begun));
    const auto opened =
        std::make_shared<Result<people::SigningKey>>(fail(Error::Kind::Storage, u"not tried"_s));
    m_behind(
        [started, opened, secret] { *opened = people::openKey(started->sealed, started->person, secret); },
        [this, started, opened, now] { ended(*started, std::move(*opened), now); });
}

void SignInPresenter::ended(const people::OpenTry& started, Result<people::SigningKey> opened,
                            const Stamp& now)
{
    auto outcome = people::endTry(m_keys, started, std::move(opened), now);
    if (!outcome)
        return worldFailed(outcome.error());
    if (const auto* away = std::get_if<people::TurnedAway>(&*outcome))
        return turnedAway(*away);
    const auto who = std::ranges::find(m_persons, started.person, &people::Person::id);
    if (who == m_persons.end())
        return;
    m_keeper.begin(*who, people::Session(started.person, std::move(std::get<people::SignedIn>(*outcome).key),
                                         m_clock.now(), m_pinCost));
    askPin();
}

void SignInPresenter::turnedAway(const people::TurnedAway& away)
{
    m_wait = away.next;
    SignInView view = m_view;
    view.busy.clear();
    ++view.emptied;
    switch (away.why) {
    case people::TurnedAway::Why::WrongPassphrase:
        view.message = tr("That is not the passphrase.");
        if (const QString wait = waitWords(away.next); !wait.isEmpty())
            view.message += u' ' + wait;
        break;
    case people::TurnedAway::Why::MustWait:
        view.message = waitWords(away.next);
        break;
    case people::TurnedAway::Why::KeyShut:
        view.message = shutForGood();
        break;
    }
    show(view);
}

QString SignInPresenter::shutForGood()
{
    return tr("Wrong too often: this key stays shut for good. A colleague retires it on the page People, and "
              "you enrol a new one. What it signed stays valid.");
}

void SignInPresenter::worldFailed(const Error& error)
{
    SignInView view = m_view;
    view.busy.clear();
    view.message = error.kind == Error::Kind::NotFound
                       ? tr("No key is enrolled. A colleague enrols it with you, on the page People.")
                       : tr("The key could not be tried. Nothing was changed. Close other programs and try "
                            "again.");
    show(view);
}

void SignInPresenter::askPin()
{
    SignInView view = m_view;
    view.ask = SignInView::Ask::Pin;
    view.sub = pinRule();
    view.secret = {tr("New PIN"), {}, {}, {}, {}};
    view.again = {tr("The same again"), {}, {}, {}, {}};
    view.message.clear();
    view.busy.clear();
    ++view.emptied;
    show(view);
}

void SignInPresenter::setPin(const people::TypedSecret& pin, const people::TypedSecret& again)
{
    SignInView view = m_view;
    view.secret.error.clear();
    view.again.error.clear();
    auto accepted = people::Pin::accept(pin);
    if (!accepted)
        view.secret.error = wordsFor(accepted.error());
    else if (pin != again)
        view.again.error = tr("The two differ.");
    const bool isTaken = view.secret.error.isEmpty() && view.again.error.isEmpty();
    if (isTaken)
        view.busy = tr("Putting your key away under the PIN.");
    else
        ++view.emptied;
    show(view);
    if (isTaken)
        m_keeper.setPin(std::move(*accepted));
}

ActionView SignInPresenter::actionFor(const SignInView& view) const
{
    ActionView action;
    action.stepKey = view.ask == SignInView::Ask::Pin ? u"pin"_s : u"passphrase"_s;
    action.stand = ActionView::Stand::Ready;
    action.text = view.ask == SignInView::Ask::Pin ? tr("Begin") : tr("Sign in");
    const bool isShut =
        view.ask == SignInView::Ask::Passphrase && m_wait.kind != people::AttemptVerdict::Kind::Free;
    if (view.ask == SignInView::Ask::Who || isShut || !view.busy.isEmpty())
        action.stand = ActionView::Stand::Waits;
    if (view.ask == SignInView::Ask::Who)
        action.waits = tr("Waits for your name");
    else if (m_wait.kind == people::AttemptVerdict::Kind::Waits)
        action.waits = tr("Waits for the next try");
    else if (isShut)
        action.waits = tr("This key stays shut");
    else
        action.waits = tr("One moment");
    return action;
}

void SignInPresenter::show(SignInView view)
{
    view.action = actionFor(view);
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
