#pragma once

#include "core/review/checked_record.h"

#include <QByteArray>
#include <QList>
#include <QString>
#include <QStringList>

namespace coldarc::app {

using review::CheckedRecord;

/// Reads and verifies the files one after the other.
/// @param office  thumbprint of the key of an office that has to vouch for every signature; empty: nobody has
/// to.
/// @param now     see review::doubtsOf.
[[nodiscard]] QList<CheckedRecord> checkRecords(const QStringList& files, const QString& office = {},
                                                std::optional<WallTime> now = {});

/// What `coldarc verify` says, and with which exit status: 0 every file is as it was signed; 1 one is not,
/// lacks a picture, is in doubt (see review::RecordDoubts::isGood), is not vouched for by the office that was
/// named, or has a review by somebody who had a part; 2 a file is no record, or the answer could not be
/// written.
struct VerifyReport {
    QByteArray text; ///< for people; with --json one JSON object
    int status = 0;
};
[[nodiscard]] VerifyReport verifyReport(const QList<CheckedRecord>& records, bool asJson);

/// `coldarc verify [--json] [--office THUMBPRINT] FILE...`: the arguments behind "verify". Needs no workspace
/// and no display.
[[nodiscard]] int verifyCommand(const QStringList& arguments, std::optional<WallTime> now = {});

} // namespace coldarc::app
