#pragma once

#include "core/label/label_text.h"
#include "ui/label/decoding_process.h"
#include "ui/label/label_picture.h"

#include <QString>

namespace coldarc::ui {

/// What a code holds, as far as it can be shown: at most 48 characters, those that cannot be printed as a
/// dot.
[[nodiscard]] QString visibleText(const QString& text);
/// What a code on a picture says of the lamp, or why it says nothing.
[[nodiscard]] QString wordsOf(const label::LabelText& text, const label::Payload& payload);
[[nodiscard]] QString wordsOf(DecodingProcess::Failure failure);
/// What to do with so many codes, of which some can be picked.
[[nodiscard]] QString wordsOfCodes(qsizetype codes, qsizetype canBePicked);

[[nodiscard]] QString wordsNoPictureYet();
[[nodiscard]] QString wordsLooking();
/// Of one that was refused.
[[nodiscard]] QString wordsNoPicture(const LabelPicture& picture);
/// Of one that this window can show, and the decoding process cannot read.
[[nodiscard]] QString wordsPictureUnread();

} // namespace coldarc::ui
