#pragma once

#include "app/workspace.h"
#include "ui/visit/lamp_records.h"

namespace coldarc::app {

/// The lamps and pictures of a workspace, as the book-in card asks for them.
class StoredLampRecords final : public ui::LampRecords {
public:
    /// Borrows the workspace, which must outlive the records.
    explicit StoredLampRecords(Workspace& workspace)
        : m_workspace(workspace)
    {
    }
    [[nodiscard]] Result<QList<label::KnownLamp>> lamps() const override;
    [[nodiscard]] Result<QList<label::KnownPicture>> pictures(const QList<Hash>& wanted) const override;

private:
    [[nodiscard]] Result<QHash<LampId, QList<VisitId>>> booked() const;

    Workspace& m_workspace;
};

} // namespace coldarc::app
