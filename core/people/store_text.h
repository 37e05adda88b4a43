#pragma once

#include "core/base/result.h"
#include "core/base/words.h"
#include "core/people/calendar.h"
#include "core/store/answer.h"

namespace coldarc::people {

/// What the stores of this room write and read alike.

/// ISO text, or NULL.
template<class DayOrMonth>
[[nodiscard]] QVariant isoOrNull(const std::optional<DayOrMonth>& value)
{
    return value ? QVariant(isoText(*value)) : store::sqlNull();
}

[[nodiscard]] inline std::optional<Day> dayIn(const store::Row& row, QStringView column)
{
    return dayFromIso(row.text(column));
}

[[nodiscard]] inline std::optional<Month> monthIn(const store::Row& row, QStringView column)
{
    return monthFromIso(row.text(column));
}

/// What a statement gave back, when only its success counts.
[[nodiscard]] inline Result<void> doneOf(const Result<store::Answer>& answer)
{
    if (!answer)
        return tl::unexpected(answer.error());
    return {};
}

/// The same, and NotFound if no row was changed.
[[nodiscard]] inline Result<void> changedOne(const Result<store::Answer>& answer, const QString& what)
{
    if (!answer)
        return tl::unexpected(answer.error());
    if (answer->changed == 0)
        return fail(Error::Kind::NotFound, what);
    return {};
}

} // namespace coldarc::people
