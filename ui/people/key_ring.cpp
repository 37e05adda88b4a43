#include "ui/people/key_ring.h"

#include <QPointer>

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using Kind = KeyRing::Answer::Kind;
using Stand = KeyRing::Stand;

Stand standOf(SessionKeeper::State state)
{
    switch (state) {
    case SessionKeeper::State::Nobody:
        return Stand::Shut;
    case SessionKeeper::State::Open:
        return Stand::Open;
    case SessionKeeper::State::Busy:
        return Stand::Busy;
    case SessionKeeper::State::Locked:
        return Stand::Locked;
    case SessionKeeper::State::Ended:
        return Stand::Ended;
    }
    Q_UNREACHABLE();
}

Stand standOf(people::Session::State state)
{
    switch (state) {
    case people::Session::State::Open:
        return Stand::Open;
    case people::Session::State::Locked:
        return Stand::Locked;
    case people::Session::State::Ended:
        return Stand::Ended;
    }
    Q_UNREACHABLE();
}

KeyRing::Answer answerOf(const people::TurnedAway& away)
{
    switch (away.why) {
    case people::TurnedAway::Why::WrongPassphrase:
        return {Kind::WrongPassphrase, away.next};
    case people::TurnedAway::Why::MustWait:
        return {Kind::MustWait, away.next};
    case people::TurnedAway::Why::KeyShut:
        return {Kind::ShutForGood, away.next};
    }
    Q_UNREACHABLE();
}

KeyRing::Answer answerOf(const Error& error)
{
    return {error.kind == Error::Kind::NotFound ? Kind::NoKey : Kind::NotTried};
}

KeyRing::Answer answerOf(const Result<people::Session::PinOutcome>& outcome, int pinsLeft)
{
    if (!outcome)
        return {Kind::NotTried};
    switch (*outcome) {
    case people::Session::PinOutcome::Opened:
    case people::Session::PinOutcome::NoNeed:
        return {Kind::Opened};
    case people::Session::PinOutcome::Wrong:
        return {Kind::WrongPin, {people::AttemptVerdict::Kind::Free, {}}, pinsLeft};
    case people::Session::PinOutcome::Ended:
        return {Kind::Ended};
    }
    Q_UNREACHABLE();
}

} // namespace

KeyRing::KeyRing(people::KeyStore& keys, SessionKeeper& keeper, const Clock& clock, Behind behind,
                 people::GuessCost pinCost, QObject* parent)
    : QObject(parent)
    , m_keys(keys)
    , m_keeper(keeper)
    , m_clock(clock)
    , m_behind(std::move(behind))
    , m_pinCost(pinCost)
{
    connect(&keeper, &SessionKeeper::stateChanged, this, &KeyRing::followKeeper);
    connect(&keeper, &SessionKeeper::whoChanged, this, &KeyRing::followKeeper);
}

KeyRing::~KeyRing() = default;

void KeyRing::followKeeper()
{
    const SessionKeeper::State state = m_keeper.state();
    if (!m_keeper.who())
        m_slots.clear();
    else
        m_slots.remove(m_keeper.who()->id);
    if (state == SessionKeeper::State::Locked || state == SessionKeeper::State::Ended)
        return lockAll();
    Q_EMIT changed();
}

void KeyRing::wipe(const PersonId& person)
{
    if (m_slots.remove(person))
        Q_EMIT changed();
}

bool KeyRing::isKeepers(const PersonId& person) const
{
    return m_keeper.who() && m_keeper.who()->id == person;
}

Stand KeyRing::standOf(const PersonId& person) const
{
    if (isKeepers(person))
        return ui::standOf(m_keeper.state());
    const auto slot = m_slots.constFind(person);
    return slot == m_slots.cend() ? Stand::Shut : slot->stand;
}

bool KeyRing::needsPin(const PersonId& person) const
{
    const auto slot = m_slots.constFind(person);
    return !isKeepers(person) && slot != m_slots.cend() && slot->stand == Stand::Open && !slot->hasPin;
}

KeyRing::Slot* KeyRing::freeSlot(const PersonId& person, Stand wanted)
{
    const auto slot = m_slots.find(person);
    if (slot == m_slots.end() || slot->stand == Stand::Busy)
        return nullptr;
    lookAt(*slot);
    return slot->stand == wanted ? &*slot : nullptr;
}

bool KeyRing::isStill(const PersonId& person, int turn) const
{
    const auto slot = m_slots.constFind(person);
    return slot != m_slots.cend() && slot->turn == turn;
}

// ---- Passphrase -------------------------------------------------------------------------------------------

void KeyRing::open(const PersonId& person, const people::TypedSecret& passphrase)
{
    const Stand stand = standOf(person);
    if (isKeepers(person) || (stand != Stand::Shut && stand != Stand::Ended))
        return;
    const Stamp now = m_clock.now();
    const auto begun = people::beginTry(m_keys, person, now);
    if (!begun)
        return fails(person, answerOf(begun.error()));
    if (const auto* away = std::get_if<people::TurnedAway>(&*begun))
        return fails(person, answerOf(*away));
    const int turn = ++m_turns;
    m_slots.insert(person, {nullptr, Stand::Busy, false, false, turn});
    Q_EMIT changed();
    const auto started = std::make_shared<people::OpenTry>(std::get<people::OpenTry>(*begun));
    const auto key = std::make_shared<Result<people::SigningKey>>(fail(Error::Kind::Storage, u"not tried"_s));
    m_behind(
        [started, key, passphrase] { *key = people::openKey(started->sealed, started->person, passphrase); },
        [self = QPointer(this), started, key, now, turn] {
            if (self)
                self->opened(*started, std::move(*key), now, turn);
        });
}

void KeyRing::opened(const people::OpenTry& started, Result<people::SigningKey> key, const Stamp& now,
                     int turn)
{
    // Whoever signed out meanwhile still has the try taken back or counted.
    auto outcome = people::endTry(m_keys, started, std::move(key), now);
    if (!isStill(started.person, turn))
        return;
    if (!outcome)
        return fails(started.person, answerOf(outcome.error()));
    if (const auto* away = std::get_if<people::TurnedAway>(&*outcome))
        return fails(started.person, answerOf(*away));
    Slot& slot = m_slots[started.person];
    slot.session = std::make_shared<people::Session>(
        started.person, std::move(std::get<people::SignedIn>(*outcome).key), m_clock.now(), m_pinCost);
    endWork(started.person, {Kind::Opened});
}

void KeyRing::fails(const PersonId& person, Answer answer)
{
    m_slots.remove(person);
    Q_EMIT changed();
    Q_EMIT answered(person, answer);
}

// ---- PIN --------------------------------------------------------------------------------------------------

void KeyRing::setPin(const PersonId& person, people::Pin pin)
{
    Slot* slot = freeSlot(person, Stand::Open);
    if (!slot)
        return;
    slot->stand = Stand::Busy;
    slot->turn = ++m_turns;
    Q_EMIT changed();
    const auto session = m_slots[person].session;
    const auto fresh = std::make_shared<people::Pin>(std::move(pin));
    const auto outcome = std::make_shared<Result<void>>();
    m_behind([session, fresh, outcome, now = m_clock.now()] { *outcome = session->setPin(*fresh, now); },
             [self = QPointer(this), person, outcome, turn = m_slots[person].turn] {
                 if (!self || !self->isStill(person, turn))
                     return;
                 self->m_slots[person].hasPin = self->m_slots[person].hasPin || outcome->has_value();
                 self->endWork(person, {*outcome ? Kind::PinSet : Kind::NotTried});
             });
}

void KeyRing::unlock(const PersonId& person, const people::TypedSecret& pin)
{
    Slot* slot = freeSlot(person, Stand::Locked);
    if (!slot)
        return;
    slot->stand = Stand::Busy;
    slot->turn = ++m_turns;
    Q_EMIT changed();
    using Outcome = Result<people::Session::PinOutcome>;
    const auto session = m_slots[person].session;
    const auto outcome = std::make_shared<Outcome>(people::Session::PinOutcome::Wrong);
    m_behind([session, pin, outcome, now = m_clock.now()] { *outcome = session->unlock(pin, now); },
             [self = QPointer(this), person, session, outcome, turn = m_slots[person].turn] {
                 if (self && self->isStill(person, turn))
                     self->endWork(person, answerOf(*outcome, session->wrongPinsLeft()));
             });
}

void KeyRing::endWork(const PersonId& person, const Answer& answer)
{
    Slot& slot = m_slots[person];
    if (m_held)
        slot.session->holdOpen(m_clock.now());
    else
        slot.session->release(m_clock.now());
    if (std::exchange(slot.locksWhenFree, false))
        slot.session->lock();
    slot.stand = Stand::Open; // no longer busy, so that it is looked at
    lookAt(slot);
    Q_EMIT answered(person, answer);
    Q_EMIT changed();
}

// ---- The clock --------------------------------------------------------------------------------------------

void KeyRing::lookAt(Slot& slot)
{
    if (slot.stand != Stand::Busy)
        slot.stand = ui::standOf(slot.session->state(m_clock.now()));
}

void KeyRing::look()
{
    bool isChanged = false;
    for (Slot& slot : m_slots) {
        const Stand before = slot.stand;
        lookAt(slot);
        isChanged = isChanged || slot.stand != before;
    }
    if (isChanged)
        Q_EMIT changed();
}

void KeyRing::press(const PersonId& person)
{
    const auto slot = m_slots.find(person);
    if (slot != m_slots.end() && slot->stand != Stand::Busy)
        slot->session->press(m_clock.now());
}

void KeyRing::holdOpen()
{
    m_held = true;
    for (Slot& slot : m_slots) {
        if (slot.stand != Stand::Busy)
            slot.session->holdOpen(m_clock.now());
    }
}

void KeyRing::release()
{
    if (!std::exchange(m_held, false))
        return;
    for (Slot& slot : m_slots) {
        if (slot.stand != Stand::Busy)
            slot.session->release(m_clock.now());
    }
}

void KeyRing::lockAll()
{
    for (Slot& slot : m_slots) {
        if (slot.stand == Stand::Busy) {
            slot.locksWhenFree = true;
            continue;
        }
        slot.session->lock();
        lookAt(slot);
    }
    Q_EMIT changed();
}

// ---- Signing ----------------------------------------------------------------------------------------------

Result<people::Signature> KeyRing::sign(const PersonId& person, const people::HeadStatement& statement)
{
    if (isKeepers(person))
        return m_keeper.sign(statement);
    const Slot* slot = freeSlot(person, Stand::Open);
    if (!slot)
        return fail(Error::Kind::Refused, u"this person's key is not open"_s);
    return slot->session->sign(statement, m_clock.now());
}

Result<people::Signature> KeyRing::sign(const PersonId& person, const people::PaperJws& paper)
{
    if (isKeepers(person))
        return m_keeper.sign(paper);
    const Slot* slot = freeSlot(person, Stand::Open);
    if (!slot)
        return fail(Error::Kind::Refused, u"this person's key is not open"_s);
    return slot->session->sign(paper, m_clock.now());
}

std::optional<people::PublicKey> KeyRing::publicKey(const PersonId& person) const
{
    if (isKeepers(person))
        return m_keeper.publicKey();
    const auto slot = m_slots.constFind(person);
    return slot != m_slots.cend() && slot->session ? std::optional(slot->session->publicKey()) : std::nullopt;
}

} // namespace coldarc::ui
