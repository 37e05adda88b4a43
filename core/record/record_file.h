#pragma once

#include "core/record/record.h"
#include "core/store/pictures.h"

#include <QByteArray>
#include <QString>

namespace coldarc::record {

// A record file is a ZIP archive with `record.json`, `entries.jsonl`, and a file of the name
// `pictures/<SHA-256 in 64 hexadecimal digits>` for each picture that is carried along. Nothing else.

/// More is not read, so that no file takes more memory than a computer in a booth has. Bytes.
inline constexpr qint64 kMostFileBytes = qint64{512} << 20;
inline constexpr qint64 kMostManifestBytes = qint64{16} << 20;
inline constexpr qint64 kMostEntriesBytes = qint64{256} << 20;
inline constexpr qint64 kMostPictureBytes = store::Pictures::kMostBytes;
inline constexpr qint64 kMostPictures = 2000;

/// The bytes of a record file; the same record makes the same bytes. Storage if the archive cannot be made.
[[nodiscard]] Result<QByteArray> bytesOf(const Record& record);

/// Reads a record file; whether it is as it was signed says verify.h. NotFound where there is no such file,
/// Malformed for anything that is no whole record file or is larger than it may be, naming what.
[[nodiscard]] Result<Record> readRecord(const QString& file);
[[nodiscard]] Result<Record> recordFromBytes(const QByteArray& bytes);

} // namespace coldarc::record
