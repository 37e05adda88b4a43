#pragma once

#include "core/record/record.h"
#include "core/store/database.h"

namespace coldarc::app {

/// One visit of a workspace as the bytes of a record file, with each picture that its entries name, each
/// review of it, and each certificate of the keys that signed or reviewed it. Errors as of the stores, and
/// Malformed where entries, signatures or reviews are not whole.
[[nodiscard]] Result<QByteArray> recordFileOf(const VisitId& visit, store::Database& workspace);

} // namespace coldarc::app
