#pragma once

#include "core/people/office_store.h"
#include "core/record/record.h"
#include "core/store/pictures.h"

namespace coldarc::app {

/// One visit of a workspace as the bytes of a record file, with each picture that its entries name and each
/// certificate of the keys that signed it. Errors as
/// of the stores, and Malformed where entries or signatures are not whole.
[[nodiscard]] Result<QByteArray> recordFileOf(const VisitId& visit, const store::Journal& journal,
                                              const store::Pictures& pictures,
                                              const people::OfficeStore& offices);

} // namespace coldarc::app
