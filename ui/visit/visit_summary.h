#pragma once

#include "core/review/exceptions.h"

#include <QTimeZone>

namespace coldarc::ui {

struct SummaryRow {
    QString what; ///< "Lamp in"; may be empty
    QString said;

    friend bool operator==(const SummaryRow&, const SummaryRow&) = default;
};

struct SummarySection {
    QString title; ///< "Screen 2"
    QList<SummaryRow> rows;

    friend bool operator==(const SummarySection&, const SummarySection&) = default;
};

/// What somebody puts their name to, on one look: for each swap the lamp that came out and the one that went
/// in, what is owed and how it is left; then what went wrong and what was out of the ordinary, which says so
/// itself where there is nothing. The last section is always that one; it holds what the visit's review would
/// if it ended now.
/// @param signatures  those that were kept. @param now  when it would end.
[[nodiscard]] QList<SummarySection> summaryForSigning(const visit::VisitState& state,
                                                      const QList<visit::Entry>& entries,
                                                      const QList<review::HeadSigned>& signatures,
                                                      const Stamp& now, const QTimeZone& zone);

/// Where a lamp goes, by the word of its custody: "To the maker or dealer".
[[nodiscard]] QString custodyWords(const QString& custody);

} // namespace coldarc::ui
