#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace coldarc::people {

/// The enumeration value at whose place the word stands in its table, or nothing.
template<class Enum, std::size_t N>
[[nodiscard]] std::optional<Enum> valueOf(const std::array<std::string_view, N>& words, std::string_view word)
{
    for (std::size_t index = 0; index < N; ++index) {
        if (words[index] == word)
            return static_cast<Enum>(index);
    }
    return std::nullopt;
}

} // namespace coldarc::people
