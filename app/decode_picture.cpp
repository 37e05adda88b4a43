#include "app/decode_picture.h"

#include "app/decode_ladder.h"

#include <QBuffer>
#include <QImageReader>

#include <algorithm>

namespace coldarc::app {

namespace {

constexpr qint64 kMostPixels = 100'000'000;

}

label::GreyPicture greyOf(const QImage& image)
{
    const QImage grey = image.convertToFormat(QImage::Format_Grayscale8);
    label::GreyPicture picture(grey.width(), grey.height());
    for (int y = 0; y < grey.height(); ++y)
        std::copy_n(grey.constScanLine(y), grey.width(),
                    picture.pixels.begin() + std::ptrdiff_t(y) * grey.width());
    return picture;
}

label::PictureReading readingOf(const QByteArray& bytes, LookAt size)
{
    QBuffer buffer;
    buffer.setData(bytes);
    QImageReader reader(&buffer);
    reader.setDecideFormatFromContent(true);
    reader.setAutoTransform(true);
    const QSize pixels = reader.size();
    if (!pixels.isValid() || qint64(pixels.width()) * pixels.height() > kMostPixels)
        return {};
    const QImage image = reader.read();
    if (image.isNull())
        return {};
    const int factor = size == LookAt::Half ? 2 : 1;
    label::PictureReading reading{image.width(), image.height(),
                                  findCodes(label::reduced(greyOf(image), factor))};
    for (label::FoundCode& code : reading.codes)
        for (label::Place& corner : code.corners)
            corner = {corner.x * factor, corner.y * factor};
    return reading;
}

} // namespace coldarc::app
