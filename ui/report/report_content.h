#pragma once

#include "core/report/report.h"
#include "ui/report/paper_block.h"

#include <QTimeZone>

#include <functional>

namespace coldarc::ui {

/// The bytes of a picture that entries name; empty where it is not there.
using PictureBytes = std::function<QByteArray(const Hash&)>;

/// Where the record lies that a report was made of.
enum class RecordPlace {
    Inside,    ///< the PDF, as an attachment
    Elsewhere, ///< this is paper alone
};

/// A report in words: the customer's page, then the part for the file, which begins on a page of its own.
/// The upper right corner of the first page is left free for a code.
[[nodiscard]] QList<PaperBlock> reportContent(const report::Report& report, const QTimeZone& zone,
                                              const PictureBytes& pictures,
                                              RecordPlace record = RecordPlace::Elsewhere);

/// Side of the corner that is left free for the code, pt.
inline constexpr double kCodeSide = 78;

/// At the foot of each page, before its number: "Pier Street · 2026-11-25 · entries end with 3f9a...".
[[nodiscard]] QString footOf(const report::Report& report, const QTimeZone& zone);

/// What the code on the first page holds: the head of the chain, in hexadecimal digits.
[[nodiscard]] QString codeText(const report::Report& report);

/// What has to be said to a customer.
[[nodiscard]] QString wordsOf(report::Caution caution);

} // namespace coldarc::ui
