#pragma once

#include "app/workspace.h"
#include "ui/visit/visit_desk.h"

namespace coldarc::app {

/// The kept signatures of one visit that do not verify: made with a key that is nobody's or somebody else's,
/// over another logbook than the one that is kept, or not by that key at all. Whose key it is comes from this
/// workspace; that the workspace's own list of keys is the right one is not seen here.
/// Errors as for store::Journal and people::KeyStore, except a key that nobody has.
[[nodiscard]] Result<QList<ui::WantedSignature>> brokenSignatures(const Workspace& workspace,
                                                                  const VisitId& visit);

} // namespace coldarc::app
