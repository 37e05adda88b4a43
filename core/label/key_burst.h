#pragma once

#include <QString>

#include <chrono>
#include <cstdint>

namespace coldarc::label {

/// What tells the keys of a scanner from those of a person. Source: the two figures are our own choice
/// (common practice, no source); that a fast typist strikes about every 100 ms is from memory, that a scanner
/// that plays a keyboard strikes every few is common practice, no source.
struct BurstRule {
    std::chrono::milliseconds gap{40}; ///< the longest between two keys of one scan
    int leastCharacters = 6;           ///< fewer, without one of the prefixes, are somebody's fingers
    QString prefix{};                  ///< that the scanner was set up to send first; not part of the text
};

/// Sorts keys into those of a scanner and those of a person. A key that may begin a scan is held back until
/// the next one, or the gap, tells; so nothing of a scan ever reaches a field.
///
/// A scan is a run of characters within the gap that is long enough, whatever ends it: no fingers strike so,
/// and what a label says is never somebody's own word. A shorter one that begins with the prefix, or as a
/// symbology identifier does (`]`, letter, digit), is one where Enter or Tab ends it.
class KeyBurst {
public:
    enum class Key : std::uint8_t {
        Character, ///< that would write something, the separator (ASCII 29) included
        End,       ///< Enter or Tab
        Other,     ///< anything else that does something
    };
    /// What happens to the keys. Those that are held were struck before this one.
    enum class Fate : std::uint8_t {
        Nothing,        ///< none was held
        Hold,           ///< this one too
        ReleaseAndHold, ///< the held ones were a person's; this one may begin a scan
        Release,        ///< all were a person's, this one too
        Scan,           ///< all were a scanner's, this one too: `scanned`
    };

    explicit KeyBurst(BurstRule rule = {})
        : m_rule(std::move(rule))
    {
    }

    /// A key is struck. @param at  on a clock that only runs forward.
    [[nodiscard]] Fate strike(Key key, QChar character, std::chrono::milliseconds at);
    /// Nothing was struck up to now. Release, Scan, Hold while the gap is not over, or Nothing.
    [[nodiscard]] Fate pause(std::chrono::milliseconds at);

    [[nodiscard]] bool isHolding() const { return !m_held.isEmpty(); }
    /// Of the last Scan; without the prefix.
    [[nodiscard]] const QString& scanned() const { return m_scanned; }

private:
    [[nodiscard]] bool isOver(std::chrono::milliseconds at) const { return at - m_last > m_rule.gap; }
    [[nodiscard]] bool isLong() const;
    [[nodiscard]] bool hasPrefix() const;
    [[nodiscard]] bool hasSymbologyId() const;
    Fate begin(QChar character, std::chrono::milliseconds at);
    Fate release();
    Fate scan();

    BurstRule m_rule;
    QString m_held;
    QString m_scanned;
    std::chrono::milliseconds m_last{0};
};

} // namespace coldarc::label
