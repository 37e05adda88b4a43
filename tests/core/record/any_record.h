#pragma once

#include <QByteArray>

namespace coldarc::test {

/// Reads any bytes as whatever comes from outside about records: the first byte says as what (a record file,
/// its manifest, its entries, a key or a certificate), the rest is that. False where something that was read
/// is not read again as it was written, or a record is taken for good that nobody signed.
[[nodiscard]] bool readsRecordSafely(const QByteArray& bytes);

} // namespace coldarc::test
