#pragma once

#include "core/base/hash.h"

#include <QByteArray>
#include <QImage>
#include <QSize>
#include <QString>

#include <cstdint>
#include <variant>

namespace coldarc::ui {

/// Where a picture comes from: a file's name, or the picture itself, pasted or dropped.
using PictureSource = std::variant<QString, QImage>;

/// A picture made ready: for the decoding process, for the screen and for the logbook.
struct LabelPicture {
    /// Why there is none of it.
    enum class Refusal : std::uint8_t {
        None,
        NoPicture,
        TooManyBytes,  ///< `refusedBytes`
        TooManyPixels, ///< `refusedSize`
    };

    QByteArray whole; ///< a picture file's bytes, as large as it came; empty: no picture
    QImage shown;     ///< as it is meant to be seen, at most kShownSide px on its longer side
    QByteArray kept;  ///< JPEG of the same size as `shown`, what the logbook keeps
    Hash hash;        ///< of `kept`
    Refusal refusal = Refusal::None;
    qint64 refusedBytes = 0;
    QSize refusedSize{};
};

/// The largest file that is looked at, in bytes. Figure of the house.
inline constexpr qint64 kMostPictureBytes = 64 * 1024 * 1024;

/// Longer side of what is shown and kept. A label that fills a third of the picture has still some 500 px.
inline constexpr int kShownSide = 1600;

/// Reads, turns as the camera says, and makes smaller. Slow: to be done behind. Writes nothing.
[[nodiscard]] LabelPicture labelPicture(const PictureSource& source);

} // namespace coldarc::ui
