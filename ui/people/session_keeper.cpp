#include "ui/people/session_keeper.h"

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

SessionKeeper::State keeperState(people::Session::State state)
{
    switch (state) {
    case people::Session::State::Open:
        return SessionKeeper::State::Open;
    case people::Session::State::Locked:
        return SessionKeeper::State::Locked;
    case people::Session::State::Ended:
        return SessionKeeper::State::Ended;
    }
    Q_UNREACHABLE();
}

} // namespace

SessionKeeper::SessionKeeper(const Clock& clock, Behind behind, QObject* parent)
    : QObject(parent)
    , m_clock(clock)
    , m_behind(std::move(behind))
{
}

SessionKeeper::~SessionKeeper() = default;

void SessionKeeper::become(State state)
{
    if (state == m_state)
        return;
    m_state = state;
    Q_EMIT stateChanged(state);
}

void SessionKeeper::begin(const people::Person& who, people::Session session)
{
    m_session = std::make_shared<people::Session>(std::move(session));
    m_who = who;
    m_wrongPinsLeft = m_session->wrongPinsLeft();
    m_state = State::Nobody; // so that a change is told, whoever was here before
    become(keeperState(m_session->state(m_clock.now())));
    Q_EMIT whoChanged();
}

void SessionKeeper::signOut()
{
    m_session.reset();
    m_who.reset();
    become(State::Nobody);
    Q_EMIT whoChanged();
}

void SessionKeeper::look()
{
    if (isFree())
        become(keeperState(m_session->state(m_clock.now())));
}

void SessionKeeper::press()
{
    if (!isFree())
        return;
    m_session->press(m_clock.now());
    look();
}

void SessionKeeper::holdOpen()
{
    if (isFree())
        m_session->holdOpen(m_clock.now());
}

void SessionKeeper::release()
{
    if (isFree())
        m_session->release(m_clock.now());
}

void SessionKeeper::lock()
{
    if (!isFree())
        return;
    m_session->lock();
    look();
}

void SessionKeeper::setPin(people::Pin pin)
{
    if (!isFree())
        return;
    become(State::Busy);
    const auto session = m_session;
    const auto fresh = std::make_shared<people::Pin>(std::move(pin));
    const auto outcome = std::make_shared<Result<void>>();
    m_behind([session, fresh, outcome, now = m_clock.now()] { *outcome = session->setPin(*fresh, now); },
             [this, session, outcome] {
                 if (session != m_session)
                     return; // signed out meanwhile
                 become(keeperState(session->state(m_clock.now())));
                 if (*outcome)
                     Q_EMIT pinSet();
                 else
                     Q_EMIT pinNotSet();
             });
}

void SessionKeeper::unlock(const people::TypedSecret& pin)
{
    if (!isFree())
        return;
    become(State::Busy);
    using Outcome = Result<people::Session::PinOutcome>;
    const auto session = m_session;
    const auto outcome = std::make_shared<Outcome>(people::Session::PinOutcome::Wrong);
    m_behind([session, pin, outcome, now = m_clock.now()] { *outcome = session->unlock(pin, now); },
             [this, session, outcome] {
                 if (session != m_session)
                     return;
                 m_wrongPinsLeft = session->wrongPinsLeft();
                 if (*outcome)
                     Q_EMIT pinAnswered(**outcome);
                 else
                     Q_EMIT pinNotTried();
                 become(keeperState(session->state(m_clock.now())));
             });
}

Result<people::Signature> SessionKeeper::sign(const people::HeadStatement& statement)
{
    if (!isFree())
        return fail(Error::Kind::Refused, u"nobody's key is open"_s);
    return m_session->sign(statement, m_clock.now());
}

Result<people::Signature> SessionKeeper::sign(const people::PaperJws& paper)
{
    if (!isFree())
        return fail(Error::Kind::Refused, u"nobody's key is open"_s);
    return m_session->sign(paper, m_clock.now());
}

std::optional<people::PublicKey> SessionKeeper::publicKey() const
{
    return m_session ? std::optional(m_session->publicKey()) : std::nullopt;
}

} // namespace coldarc::ui
