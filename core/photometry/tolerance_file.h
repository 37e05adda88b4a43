#pragma once

#include "core/photometry/tolerance_set.h"

#include <QJsonObject>
#include <QString>
#include <QStringList>

#include <optional>
#include <vector>

namespace coldarc::photometry {

/// A set, or everything that is wrong with its document: each line "place: reason", for whoever mends it.
struct ToleranceSetReading {
    std::optional<ToleranceSet> set;
    QStringList complaints;
};
/// Reads a document of kind "tolerance-set". A key that is none is complained of, as is a limit that names a
/// quantity twice, has no figures without saying why, or whose nominal lies outside it. `document` stays
/// empty.
[[nodiscard]] ToleranceSetReading readToleranceSet(const QJsonObject& document);

/// The set as a logbook entry keeps it: with the hash of its file, and with targets of a person's own.
[[nodiscard]] QJsonObject toJson(const ToleranceSet& set);
/// The inverse of `toJson`.
[[nodiscard]] ToleranceSetReading readKeptToleranceSet(const QJsonObject& document);

/// A file that was refused, and why.
struct RefusedFile {
    QString file;        ///< name inside the folder, or the folder itself
    QStringList reasons; ///< each "place: reason" or a reason alone; not sentences for the screen

    friend bool operator==(const RefusedFile&, const RefusedFile&) = default;
};
struct ToleranceSetLoading {
    std::vector<ToleranceSet> sets; ///< in the order of their files' names
    std::vector<RefusedFile> refused;
};
/// Loads every *.json file of a folder. A bad file is refused as a whole, the others still load; two files
/// with one id are both refused.
[[nodiscard]] ToleranceSetLoading loadToleranceSets(const QString& folder);

} // namespace coldarc::photometry
