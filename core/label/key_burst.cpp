#include "core/label/key_burst.h"

#include "core/label/symbology.h"

namespace coldarc::label {

KeyBurst::Fate KeyBurst::strike(Key key, QChar character, std::chrono::milliseconds at)
{
    if (isHolding() && isOver(at)) {
        // The pause was not told of in time; what was held is settled before this key counts.
        const Fate before = pause(at);
        if (before == Fate::Scan)
            return before; // whoever asks strikes this key again
        if (key == Key::Character) {
            (void)begin(character, at);
            return Fate::ReleaseAndHold;
        }
        return Fate::Release;
    }
    switch (key) {
    case Key::Character:
        return begin(character, at);
    case Key::End:
        return isHolding() && (hasPrefix() || hasSymbologyId() || isLong()) ? scan() : release();
    case Key::Other:
        return isLong() ? scan() : release();
    }
    Q_UNREACHABLE();
}

KeyBurst::Fate KeyBurst::pause(std::chrono::milliseconds at)
{
    if (!isHolding())
        return Fate::Nothing;
    if (!isOver(at))
        return Fate::Hold;
    return isLong() ? scan() : release();
}

bool KeyBurst::isLong() const
{
    return m_held.size() >= m_rule.leastCharacters;
}

bool KeyBurst::hasPrefix() const
{
    return !m_rule.prefix.isEmpty() && m_held.startsWith(m_rule.prefix) &&
           m_held.size() > m_rule.prefix.size();
}

bool KeyBurst::hasSymbologyId() const
{
    return scanText(m_held).id.has_value();
}

KeyBurst::Fate KeyBurst::begin(QChar character, std::chrono::milliseconds at)
{
    m_held.append(character);
    m_last = at;
    return Fate::Hold;
}

KeyBurst::Fate KeyBurst::release()
{
    m_held.clear();
    return Fate::Release;
}

KeyBurst::Fate KeyBurst::scan()
{
    m_scanned = hasPrefix() ? m_held.mid(m_rule.prefix.size()) : m_held;
    m_held.clear();
    return Fate::Scan;
}

} // namespace coldarc::label
