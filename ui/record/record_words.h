#pragma once

#include "core/record/intake.h"

#include <QString>

namespace coldarc::ui {

/// "signature 2, entry 5", "picture 3f...", "the record": where something is wrong. Entries are counted from
/// 0, as they are signed and shown everywhere; signatures, certificates and reviews, which have no number
/// of their own, from 1.
[[nodiscard]] QString placeOf(const record::Fault& fault);
/// What is wrong there, to stand behind its place.
[[nodiscard]] QString sentenceOf(record::Fault::Kind kind);
/// Why a file could not be taken at all, what was kept, and what to do.
[[nodiscard]] QString sentenceOf(record::TakenRecord::Trouble trouble);
/// Why a record is not taken in, and what to do; empty where it is.
[[nodiscard]] QString sentenceOf(record::Intake::Why why);

} // namespace coldarc::ui
