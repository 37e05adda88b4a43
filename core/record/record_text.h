#pragma once

#include "core/record/record.h"

#include <QByteArray>

namespace coldarc::record {

// The two texts of a record file. Their form is told in DEVELOPERS.md, so that anybody can write a verifier.

/// `record.json`: everything but entries and pictures, as one JSON object. Each member of its `heads` is a
/// JWS in the General JSON Serialization (RFC 7515, section 7.2.1), each of its `keys` a JWK (RFC 8037,
/// section 2). `offices` (JWK), `certificates` and `retirements` (JWS, Flattened JSON Serialization) are
/// there where somebody vouches for keys, `reviews` (the same) where somebody reviewed.
[[nodiscard]] QByteArray manifestOf(const Record& record);
/// More keys, offices, certificates, retirements or reviews than that no visit needs: a manifest with more is
/// not read.
inline constexpr std::size_t kMostKeys = 1000;

/// A visit has a few hundred entries, and fewer signatures: a record with more of them is not read.
inline constexpr qsizetype kMostEntries = 100'000;

/// The record without entries and pictures. Error::Malformed names the places that are not as they should
/// be, some dozens of them at most.
[[nodiscard]] Result<Record> recordFromManifest(const QByteArray& json);

/// `entries.jsonl`: the exact bytes of each entry and a line feed behind each.
[[nodiscard]] QByteArray linesOf(const std::vector<QByteArray>& entries);
/// Error::Malformed for too many lines, an empty line, a last line without its line feed, or one that no
/// journal would take.
[[nodiscard]] Result<std::vector<QByteArray>> entriesFromLines(const QByteArray& lines);

} // namespace coldarc::record
