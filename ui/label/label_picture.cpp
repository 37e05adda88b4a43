#include "ui/label/label_picture.h"

#include <QBuffer>
#include <QFile>
#include <QImageReader>

namespace coldarc::ui {

namespace {

constexpr int kQuality = 85;
constexpr qint64 kMostBytes = 64 * 1024 * 1024;

QByteArray bytesOf(const QImage& image, const char* format, int quality)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, format, quality);
    return bytes;
}

QByteArray bytesOf(const QString& name)
{
    QFile file(name);
    const bool isFit = file.open(QIODevice::ReadOnly) && file.size() <= kMostBytes;
    return isFit ? file.readAll() : QByteArray();
}

// A JPEG is made smaller while it is read, which takes a fraction of the time.
QImage shownOf(QByteArray bytes)
{
    QBuffer buffer(&bytes);
    QImageReader reader(&buffer);
    reader.setDecideFormatFromContent(true);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (size.isValid() && std::max(size.width(), size.height()) > kShownSide)
        reader.setScaledSize(size.scaled(kShownSide, kShownSide, Qt::KeepAspectRatio));
    return reader.read();
}

} // namespace

LabelPicture labelPicture(const PictureSource& source)
{
    LabelPicture picture;
    if (const auto* name = std::get_if<QString>(&source))
        picture.whole = bytesOf(*name);
    else if (const QImage& image = std::get<QImage>(source); !image.isNull())
        picture.whole = bytesOf(image, "PNG", 100); // 100: as quick as can be
    picture.shown = shownOf(picture.whole);
    if (picture.shown.isNull())
        return {};
    picture.kept = bytesOf(picture.shown.convertToFormat(QImage::Format_RGB32), "JPG", kQuality);
    picture.hash = sha256(picture.kept);
    return picture;
}

} // namespace coldarc::ui
