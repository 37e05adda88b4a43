#pragma once

#include "core/label/found_code.h"
#include "core/label/grey_picture.h"

#include <QByteArray>
#include <QImage>

#include <cstdint>

namespace coldarc::app {

[[nodiscard]] label::GreyPicture greyOf(const QImage& image);

/// At which size a picture is looked at.
enum class LookAt : std::uint8_t {
    Whole,
    Half, ///< for one that ended the process when it was looked at whole
};

/// What is found in a picture file's bytes; width and height are as the picture is meant to be seen. Nothing
/// of bytes that are no picture, or one of more than 100 million pixels.
[[nodiscard]] label::PictureReading readingOf(const QByteArray& bytes, LookAt size = LookAt::Whole);

} // namespace coldarc::app
