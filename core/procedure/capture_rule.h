#pragma once

#include "core/catalogue/projector_model.h"
#include "core/procedure/procedure.h"

#include <QString>
#include <QStringList>

#include <initializer_list>

namespace coldarc::procedure {

/// The words that the choices of one capture use. Those of a capture that the machine reads are fixed by the
/// step's effect and the capture's id; every other one takes `note`, or both `good` and `bad`.
struct CaptureRule {
    machine::Effect effect;
    const char16_t* capture;           ///< id; "point-" stands for one capture per isolation point
    std::initializer_list<Means> must; ///< each one is offered at least once
    std::initializer_list<Means> may;  ///< may be offered too
};

/// nullptr if the machine does not read this capture.
[[nodiscard]] const CaptureRule* ruleOf(machine::Effect effect, const QString& captureId);

/// What is wrong with the words of this capture, for whoever mends the file; empty if nothing.
[[nodiscard]] QString wordTrouble(const Step& step, const Capture& capture);

/// Ids of chosen captures that the machine reads at this step of this model and that are not there, or may be
/// left out by whoever answers.
[[nodiscard]] QStringList missingCaptures(const Step& step, const catalogue::ProjectorModel& model);

/// The id of the capture of `find` that says how this point stands.
[[nodiscard]] QString pointCapture(const catalogue::RoleId& role);

} // namespace coldarc::procedure
