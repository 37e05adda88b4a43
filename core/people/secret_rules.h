#pragma once

#include "core/people/secret_bytes.h"

#include <tl/expected.hpp>

#include <cstdint>

namespace coldarc::people {

/// Why a new passphrase is not taken.
enum class PassphraseFault : std::uint8_t {
    TooShort, ///< fewer than Passphrase::kLeast characters
    TooLong,  ///< more than Passphrase::kMost characters
    Common,   ///< among the first that a guesser tries
};

/// A passphrase good enough to seal a key under. Source: NIST SP 800-63B-4 (second public draft): 15
/// characters or more where nothing else protects, 64 and more taken unchanged, no rule about kinds of
/// characters, compared whole with a blocklist.
class Passphrase {
public:
    /// Counted in Unicode code points after normalisation form C.
    static constexpr int kLeast = 15;
    static constexpr int kMost = 1024; ///< a bound on what is pasted by mistake; no source

    /// The blocklist, without regard to case and spaces: some dozens of common ones, and any text that is one
    /// unit of up to 8 characters over and over, or runs straight up or down the alphabet or the digits.
    [[nodiscard]] static tl::expected<Passphrase, PassphraseFault> accept(const TypedSecret& typed);

    [[nodiscard]] const SecretBytes& bytes() const { return m_typed.bytes(); }

private:
    explicit Passphrase(TypedSecret typed)
        : m_typed(std::move(typed))
    {
    }
    TypedSecret m_typed;
};

/// Why a new PIN is not taken.
enum class PinFault : std::uint8_t {
    NotDigits, ///< something else than 0 to 9
    TooShort,
    TooLong,
    Common,
};

/// A PIN that unlocks the key again within one session. Source: NIST SP 800-63B-4 (second public draft),
/// activation secret: six digits or more, compared with a blocklist.
class Pin {
public:
    static constexpr int kLeast = 6;
    static constexpr int kMost = 32; ///< no source

    /// The blocklist: one to four digits over and over, straight runs up or down (9 and 0 touch), and some
    /// dozens of common ones.
    [[nodiscard]] static tl::expected<Pin, PinFault> accept(const TypedSecret& typed);

    [[nodiscard]] const SecretBytes& bytes() const { return m_typed.bytes(); }

private:
    explicit Pin(TypedSecret typed)
        : m_typed(std::move(typed))
    {
    }
    TypedSecret m_typed;
};

} // namespace coldarc::people
