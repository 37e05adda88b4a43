#pragma once

#include "app/workspace.h"
#include "ui/visit/lamp_records.h"

namespace coldarc::app {

/// The lamps and pictures of a workspace, as the book-in card asks for them.
class StoredLampRecords final : public ui::LampRecords {
public:
    /// Borrows both, which must outlive the records.
    StoredLampRecords(Workspace& workspace, const Clock& clock)
        : m_workspace(workspace)
        , m_clock(clock)
    {
    }
    [[nodiscard]] Result<QList<label::KnownLamp>> lamps() const override;
    [[nodiscard]] Result<QList<label::KnownPicture>> pictures(const QList<Hash>& wanted) const override;
    void couldNotRead(const QString& scanned) const override;

private:
    [[nodiscard]] Result<QHash<LampId, QList<VisitId>>> booked() const;

    Workspace& m_workspace;
    const Clock& m_clock;
};

} // namespace coldarc::app
