#pragma once

#include <QChar>
#include <QStringView>

#include <algorithm>

namespace coldarc::label {

/// 0 to 9, and no other script's digits: those are what the standards of bar codes mean by a digit.
[[nodiscard]] constexpr bool isDigit(QChar c)
{
    return c >= u'0' && c <= u'9';
}

/// A to Z and a to z.
[[nodiscard]] constexpr bool isLatin(QChar c)
{
    return (c >= u'A' && c <= u'Z') || (c >= u'a' && c <= u'z');
}

/// Digits and nothing else; true of an empty text.
[[nodiscard]] inline bool areDigits(QStringView text)
{
    return std::ranges::all_of(text, isDigit);
}

} // namespace coldarc::label
