#pragma once

#include "core/catalogue/catalogue.h"
#include "core/catalogue/reading.h"
#include "core/procedure/procedure.h"

#include <QHash>
#include <QJsonObject>
#include <QList>
#include <QString>

namespace coldarc::procedure {

/// Reads a document of kind "procedure" for this model. Complaints name the step by its place and id, like
/// `steps[12:open-door].effect: is missing`. Refused are, beside what is missing, unknown or of the wrong
/// kind:
/// - the same step id or capture id twice, a phase that goes back;
/// - a stop that is not a look, has not 5 to 9 answers, or stands not exactly once; at ready-to-open an
/// answer that
///   is not chosen from four;
/// - a point, test point, axis or lamp type that the model does not have, or one at an effect that has no use
/// for it;
///   a housing, dowser, adaptor or second lamphouse where the model has none;
/// - anything typed while the person has gear on;
/// - a debt to a follow-up visit for anything but the light and its measuring.
/// - a choice whose meaning is none of those that its capture may have, or a capture without one that the
/// machine has to read there (`CaptureRule`).
/// Whether the order is possible and safe is not judged here but by `prove`.
[[nodiscard]] catalogue::Reading<Procedure> readProcedure(const QJsonObject& document,
                                                          const catalogue::ProjectorModel& model);

/// Procedures and what was wrong with their files.
struct ProcedureLoading {
    QList<Procedure> procedures; ///< in the order of their files' names; one for a model at most
    QHash<ProcedureId, catalogue::Document> documents; ///< the files' exact bytes
    QHash<ProcedureId, QString> files;                 ///< the files' names
    QList<catalogue::FileRemark> complaints;           ///< each names a file that was refused

    /// nullptr if the model has none. The pointer lives as long as this value is not changed.
    [[nodiscard]] const Procedure* procedureFor(const ModelId& model) const&;
    const Procedure* procedureFor(const ModelId& model) const&& = delete; // it would point into nothing
};

/// Reads every *.json file of a folder, without proving any: good for planning and for showing, never for
/// working by it. A bad file is refused as a whole, the others still load. Two files with the same id, or for
/// the same model, are both refused; so is one whose model the catalogue does not have.
[[nodiscard]] ProcedureLoading readProcedures(const QString& folder, const catalogue::Catalogue& catalogue);

/// Those that can be proved (`prove`); any other is refused, and its complaint names the step and why. It
/// walks every path of each, which people would feel: call it in a thread of its own.
/// @param read  of `readProcedures`, with this catalogue.
[[nodiscard]] ProcedureLoading provedOf(ProcedureLoading read, const catalogue::Catalogue& catalogue);

/// Both at once: what can be worked by.
[[nodiscard]] ProcedureLoading loadProcedures(const QString& folder, const catalogue::Catalogue& catalogue);

} // namespace coldarc::procedure
