#pragma once

#include "core/base/ids.h"
#include "core/catalogue/reading.h"

#include <QJsonObject>
#include <QList>
#include <QString>

namespace coldarc::catalogue {

/// One kind of protective gear that a person wears in the zone.
struct GearKind {
    GearId id;
    QString name;
    bool required = true; ///< Geared asks for it of every person

    friend bool operator==(const GearKind&, const GearKind&) = default;
};

/// Reads a document of kind "gear": the list in the order in which it is put on. The house floor is refused
/// to be left out or made optional: face-shield, safety-glasses (a shield is worn over glasses, never
/// instead), gauntlets, jacket. Ids are asked to differ. Source of shield over glasses: US 29 CFR 1910
/// Subpart I, Appendix B, notes. The rest of the floor: common practice.
[[nodiscard]] Reading<QList<GearKind>> readGear(const QJsonObject& document);
[[nodiscard]] QJsonObject toJson(const QList<GearKind>& gear);

} // namespace coldarc::catalogue
