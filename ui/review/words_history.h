#pragma once

#include "core/review/history_store.h"

#include <QString>
#include <QTimeZone>

namespace coldarc::ui {

/// A lamp by its type and serial, a lamphouse by its site and screen, somebody by their name; each says so
/// where nothing of that is known.
[[nodiscard]] QString nameOf(const review::Subject& subject);
/// What stands beneath a name in a list: the word of somebody's role, when a lamp was seen last; may be
/// empty.
[[nodiscard]] QString subOf(const review::Subject& subject, const QTimeZone& zone);

/// What one line tells, in a sentence, to somebody who reads that history: what the history itself is of is
/// not named again.
[[nodiscard]] QString wordsOf(const review::HistoryLine& line, const review::HistoryPage& page);
/// When, and where it can be looked up: "2026-11-02 23:14, entry 17"; days alone where only a day is known.
[[nodiscard]] QString placeWords(const review::HistoryLine& line, const QTimeZone& zone);

/// A stay as a line of a lamphouse's or a lamp's history: the lamp or the lamphouse, and everything that is
/// known of the stay.
struct StayWords {
    QString name;
    QString more;

    friend bool operator==(const StayWords&, const StayWords&) = default;
};
[[nodiscard]] StayWords wordsOf(const review::Stay& stay, const review::HistoryPage& page,
                                const QTimeZone& zone);

/// Where a lamp is now: "in the van of A. Okoro".
[[nodiscard]] QString wordsOf(const lamps::LampInCustody& lamp, const review::HistoryPage& page);
/// "fitted", "in the stock", ...
[[nodiscard]] QString nameOf(lamps::Custody custody);
/// Why a lamp came out: "end of life".
[[nodiscard]] QString nameOf(lamps::Cause cause);

} // namespace coldarc::ui
