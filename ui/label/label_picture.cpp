#include "ui/label/label_picture.h"

#include <QBuffer>
#include <QFile>
#include <QImageReader>

namespace coldarc::ui {

namespace {

constexpr int kQuality = 85;

QByteArray bytesOf(const QImage& image, const char* format, int quality)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, format, quality);
    return bytes;
}

void readFile(LabelPicture& picture, const QString& name)
{
    QFile file(name);
    if (!file.open(QIODevice::ReadOnly))
        return;
    if (file.size() > kMostPictureBytes) {
        picture.refusal = LabelPicture::Refusal::TooManyBytes;
        picture.refusedBytes = file.size();
    } else {
        picture.whole = file.readAll();
    }
}

// A JPEG is made smaller while it is read, which takes a fraction of the time.
void show(LabelPicture& picture)
{
    QBuffer buffer(&picture.whole);
    QImageReader reader(&buffer);
    reader.setDecideFormatFromContent(true);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (size.isValid() && std::max(size.width(), size.height()) > kShownSide)
        reader.setScaledSize(size.scaled(kShownSide, kShownSide, Qt::KeepAspectRatio));
    picture.shown = reader.read();
    if (!picture.shown.isNull())
        return;
    // The reader tells a size of what it then does not unpack: it is larger than it may be.
    picture.refusal =
        size.isValid() ? LabelPicture::Refusal::TooManyPixels : LabelPicture::Refusal::NoPicture;
    picture.refusedSize = size;
    picture.whole.clear();
}

} // namespace

LabelPicture labelPicture(const PictureSource& source)
{
    LabelPicture picture;
    if (const auto* name = std::get_if<QString>(&source))
        readFile(picture, *name);
    else if (const QImage& image = std::get<QImage>(source); !image.isNull())
        picture.whole = bytesOf(image, "PNG", 100); // 100: as quick as can be
    if (picture.refusal == LabelPicture::Refusal::None)
        show(picture);
    if (picture.refusal != LabelPicture::Refusal::None)
        return picture;
    picture.kept = bytesOf(picture.shown.convertToFormat(QImage::Format_RGB32), "JPG", kQuality);
    picture.hash = sha256(picture.kept);
    return picture;
}

} // namespace coldarc::ui
