#pragma once

#include "core/base/result.h"
#include "core/label/grey_picture.h"

#include <QByteArray>
#include <QList>
#include <QString>

#include <array>
#include <optional>

namespace coldarc::label {

/// One bar code that was found in a picture.
struct FoundCode {
    QString scanned; ///< its text with the symbology identifier in front, as `readPayload` takes it
    /// Its corners, going round, in pixels of the picture that was given.
    std::array<Place, 4> corners{};

    friend bool operator==(const FoundCode&, const FoundCode&) = default;
};

/// What came out of one picture.
struct PictureReading {
    int width = 0; ///< pixels; 0 if the bytes are no picture
    int height = 0;
    QList<FoundCode> codes; ///< from the top to the bottom; none twice

    friend bool operator==(const PictureReading&, const PictureReading&) = default;
};

/// As the decoding process writes it: one line of JSON with its end.
[[nodiscard]] QByteArray toLine(const PictureReading& reading);
/// Malformed for anything that is no such line; so are codes in a picture without a width or height.
[[nodiscard]] Result<PictureReading> readingFromLine(const QByteArray& line);

} // namespace coldarc::label
