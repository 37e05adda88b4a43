#pragma once

#include "app/workspace.h"
#include "ui/visit/visit_desk.h"

namespace coldarc::app {

/// What is kept of the signatures of one visit, by its places: an entry, a person, a meaning. Of several that
/// were made for one place the genuine one counts.
struct KeptSignatures {
    /// A key of that person has signed, or something stands there in its name. Whatever a key that is
    /// nobody's or somebody else's signed leaves the place free.
    QList<ui::WantedSignature> kept;
    /// Something stands there and none of it verifies: made with a key that is nobody's or somebody else's,
    /// over another logbook than the one that is kept, or not by that key at all.
    QList<ui::WantedSignature> broken;
};

/// Whose a key is comes from this workspace; that the workspace's own list of keys is the right one is not
/// seen here. Errors as for store::Journal and people::KeyStore, except a key that nobody has.
[[nodiscard]] Result<KeptSignatures> keptSignatures(const Workspace& workspace, const VisitId& visit);

} // namespace coldarc::app
