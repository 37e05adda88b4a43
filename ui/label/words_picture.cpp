#include "ui/label/words_picture.h"

#include <QCoreApplication>
#include <QImageReader>
#include <QLocale>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qsizetype kLongestShown = 48;

QString words(const char* text)
{
    return QCoreApplication::translate("label", text);
}

/// Two sizes that are written alike are not held against each other.
QString wordsTooManyBytes(qint64 bytes)
{
    const QLocale locale;
    const QString size = locale.formattedDataSize(bytes);
    const QString most = locale.formattedDataSize(kMostPictureBytes);
    return size == most
               ? words("That file is a little larger than %1, up to which pictures are looked at. Take it "
                       "again with fewer pixels.")
                     .arg(most)
               : words("That file has %1, and pictures up to %2 are looked at. Take it again with fewer "
                       "pixels.")
                     .arg(size, most);
}

} // namespace

QString visibleText(const QString& text)
{
    QString shown;
    for (const QChar c : text.left(kLongestShown))
        shown += c.isPrint() ? c : QChar(u'\u00B7');
    return text.size() > kLongestShown ? shown + u'\u2026' : shown;
}

QString wordsOf(const label::LabelText& text, const label::Payload& payload)
{
    switch (text.verdict) {
    case label::LabelText::Verdict::Read:
        if (text.type.isEmpty())
            return words("Serial %1").arg(text.serial);
        return text.serial.isEmpty() ? words("Type %1").arg(text.type)
                                     : words("Type %1, serial %2").arg(text.type, text.serial);
    case label::LabelText::Verdict::Unsound:
        return words("Misread or misprinted: %1").arg(visibleText(payload.text));
    case label::LabelText::Verdict::Unknown:
        return words("Not known to the catalogue: %1").arg(visibleText(payload.text));
    case label::LabelText::Verdict::Contradicts:
        return words("Names two lamps at once: %1").arg(visibleText(payload.text));
    }
    Q_UNREACHABLE();
}

QString wordsOf(DecodingProcess::Failure failure)
{
    switch (failure) {
    case DecodingProcess::Failure::NotStarted:
        return words("The part of the program that reads pictures is missing. Scan the label or type it.");
    case DecodingProcess::Failure::TookTooLong:
        return words("This picture takes too long to read. Take a closer one, scan the label, or type it.");
    case DecodingProcess::Failure::Died:
    case DecodingProcess::Failure::Nonsense:
        return wordsPictureUnread();
    }
    Q_UNREACHABLE();
}

QString wordsOfCodes(qsizetype codes, qsizetype canBePicked)
{
    if (codes == 0)
        return words(
            "No code was found. Go closer, hold level, more light; or type what stands on the label.");
    if (canBePicked == 0)
        return words("None of these says what lamp it is. Type what stands on the label.");
    return canBePicked == 1
               ? words("One was found that can be read. Pick it if it is of the lamp that you hold.")
               : words("Pick the code of the lamp that you hold.");
}

QString wordsNoPictureYet()
{
    return words("Drop a picture of the label here, paste it, or choose a file.");
}

QString wordsLooking()
{
    return words("Looking for codes.");
}

QString wordsNoPicture(const LabelPicture& picture)
{
    const QLocale locale;
    switch (picture.refusal) {
    case LabelPicture::Refusal::TooManyBytes:
        return wordsTooManyBytes(picture.refusedBytes);
    case LabelPicture::Refusal::TooManyPixels:
        return words("That picture, %1 by %2 pixels, is damaged or larger than can be unpacked here (up to "
                     "%3). "
                     "Take it again with fewer pixels.")
            .arg(picture.refusedSize.width())
            .arg(picture.refusedSize.height())
            .arg(locale.formattedDataSize(qint64(QImageReader::allocationLimit()) * 1024 * 1024));
    case LabelPicture::Refusal::None:
    case LabelPicture::Refusal::NoPicture:
        break;
    }
    return words("That is no picture that can be opened.");
}

QString wordsPictureUnread()
{
    return words("This picture could not be read. Take another one, scan the label, or type it.");
}

} // namespace coldarc::ui
