#pragma once

#include <QString>
#include <QStringList>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

namespace coldarc {

/// The words that documents use for the values of one enumeration.
template<class Value, std::size_t Count>
using Words = std::array<std::pair<Value, std::u16string_view>, Count>;

/// A word of Latin letters, as tables of words have it.
[[nodiscard]] inline QString wordText(std::string_view word)
{
    return QString::fromLatin1(word.data(), static_cast<qsizetype>(word.size()));
}

/// The word of a value that is in the table.
template<class Value, std::size_t Count>
[[nodiscard]] QString wordIn(const Words<Value, Count>& words, Value value)
{
    const auto found = std::ranges::find(words, value, &std::pair<Value, std::u16string_view>::first);
    return QString::fromUtf16(found->second.data(), static_cast<qsizetype>(found->second.size()));
}

/// Nothing for a word that is not in the table.
template<class Value, std::size_t Count>
[[nodiscard]] std::optional<Value> valueIn(const Words<Value, Count>& words, const QString& word)
{
    for (const auto& [value, text] : words) {
        if (QStringView(text) == word)
            return value;
    }
    return std::nullopt;
}

/// "must be one of a, b, c".
template<class Value, std::size_t Count>
[[nodiscard]] QString oneOf(const Words<Value, Count>& words)
{
    QStringList list;
    for (const auto& entry : words)
        list.append(wordIn(words, entry.first));
    return QStringLiteral("must be one of %1").arg(list.join(QStringLiteral(", ")));
}

} // namespace coldarc
