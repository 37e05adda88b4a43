#pragma once

#include "core/base/clock.h"

#include <QList>
#include <QString>

namespace coldarc::ui {

/// What a supervisor said of one entry.
struct EntryRemark {
    qint64 entry = 0;
    QString text;

    friend bool operator==(const EntryRemark&, const EntryRemark&) = default;
};

/// What a supervisor said of a visit, in one review.
struct SupervisorSaid {
    QString by;
    WallTime at{};
    bool isSentBack = false; ///< false: accepted
    qint64 entry = 0;        ///< the last one that was looked at: what stands behind it answers
    QString text{};          ///< may be empty of one that accepts
    QList<EntryRemark> remarks{};

    friend bool operator==(const SupervisorSaid&, const SupervisorSaid&) = default;
};

/// That reviews of a visit are not as they were written. Pre: count > 0.
[[nodiscard]] QString alteredReviewsText(int count);

} // namespace coldarc::ui
