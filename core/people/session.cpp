#include "core/people/session.h"

#include "core/base/json.h"
#include "core/people/jws.h"
#include "core/people/sealing.h"

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

/// A restart, another computer, or a boot clock that ran backwards.
bool isInterrupted(const Stamp& before, const Stamp& now)
{
    return now.machine != before.machine || now.boot != before.boot || now.sinceBoot < before.sinceBoot;
}

/// Two clocks read one after the other differ by some milliseconds from one stamp to the next; a real sleep
/// is longer.
bool hasSlept(std::chrono::milliseconds asleepAtOpening, const Stamp& now)
{
    return now.asleep - asleepAtOpening >= std::chrono::seconds(1);
}

} // namespace

struct Session::PutAway {
    SecretBox box;
};

Session::Session(PersonId person, SigningKey key, const Stamp& now, GuessCost pinCost)
    : m_person(std::move(person))
    , m_publicKey(key.publicKey())
    , m_key(std::move(key))
    , m_pinCost(pinCost)
    , m_lastPress(now)
    , m_lastSeen(now)
    , m_asleepAtOpening(now.asleep)
{
}

Session::~Session() = default;
Session::Session(Session&&) noexcept = default;
Session& Session::operator=(Session&&) noexcept = default;

bool Session::mustLock(const Stamp& now) const
{
    return isInterrupted(m_lastSeen, now) || hasSlept(m_asleepAtOpening, now) ||
           (!m_held && now.sinceBoot - m_lastPress.sinceBoot >= kIdle);
}

void Session::lookAt(const Stamp& now)
{
    if (m_key && mustLock(now))
        lock();
    m_lastSeen = now;
}

Session::State Session::state(const Stamp& now)
{
    lookAt(now);
    if (m_key)
        return State::Open;
    return m_putAway ? State::Locked : State::Ended;
}

Result<void> Session::setPin(const Pin& pin, const Stamp& now)
{
    lookAt(now);
    if (!m_key)
        return fail(Error::Kind::Refused, u"the key is locked"_s);
    auto box = putAway(m_key->seed(), pin.bytes(), m_pinCost);
    if (!box)
        return tl::unexpected(box.error());
    m_putAway = std::make_unique<PutAway>(PutAway{std::move(*box)});
    m_wrongPins = 0;
    return {};
}

void Session::press(const Stamp& now)
{
    lookAt(now);
    m_lastPress = now;
}

void Session::holdOpen(const Stamp& now)
{
    press(now);
    m_held = true;
}

void Session::release(const Stamp& now)
{
    press(now);
    m_held = false;
}

void Session::lock()
{
    m_key.reset();
}

Session::PinOutcome Session::countWrongPin()
{
    if (++m_wrongPins < kMostWrongPins)
        return PinOutcome::Wrong;
    m_putAway.reset();
    return PinOutcome::Ended;
}

Result<Session::PinOutcome> Session::unlock(const TypedSecret& pin, const Stamp& now)
{
    switch (state(now)) {
    case State::Open:
        return PinOutcome::NoNeed;
    case State::Ended:
        return PinOutcome::Ended;
    case State::Locked:
        break;
    }
    auto seed = takeOut(m_putAway->box, pin.bytes());
    if (!seed && seed.error().kind == Error::Kind::Refused)
        return countWrongPin();
    if (!seed)
        return tl::unexpected(seed.error());
    m_key = SigningKey::fromSeed(std::move(*seed));
    m_wrongPins = 0;
    m_lastPress = now;
    m_asleepAtOpening = now.asleep;
    return PinOutcome::Opened;
}

Result<Signature> Session::sign(const HeadStatement& statement, const Stamp& now)
{
    const auto message = signedMessage(statement, m_publicKey);
    if (!message)
        return tl::unexpected(message.error());
    if (state(now) != State::Open)
        return fail(Error::Kind::Refused, u"the key is locked"_s);
    return m_key->sign(*message);
}

Result<Signature> Session::sign(const PaperJws& paper, const Stamp& now)
{
    const auto header = parseObject(paper.protectedHeader);
    if (!header || header->value(u"typ"_s).toString().isEmpty())
        return fail(Error::Kind::Malformed, u"a paper whose header has no typ"_s);
    if (state(now) != State::Open)
        return fail(Error::Kind::Refused, u"the key is locked"_s);
    return m_key->sign(signingInput(paper));
}

} // namespace coldarc::people
