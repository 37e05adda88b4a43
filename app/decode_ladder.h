#pragma once

#include "core/label/found_code.h"
#include "core/label/grey_picture.h"

namespace coldarc::app {

/// Looks for bar codes in a picture: as it is, then stretched, reduced, levelled, sharpened and turned, until
/// one is found; then for further ones. Code 128, Code 39, EAN-13 (UPC-A is one), QR and Data Matrix; others
/// are left out, since those without a check of their own are found where there are none.
///
/// A linear code counts only if enough of its rows say the same; one without a check of its own, which Code
/// 39 is, only if they say it again with the picture turned by a few degrees. May end the process: the
/// library that is used checks itself by assertions, so this runs in a process of its own.
[[nodiscard]] QList<label::FoundCode> findCodes(const label::GreyPicture& picture);

} // namespace coldarc::app
