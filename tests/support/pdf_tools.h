#pragma once

#include "tests/support/testing.h"

#include <QDir>
#include <QProcess>
#include <QRegularExpression>

namespace coldarc::test {

// What other programs see in a PDF: poppler-utils.

inline QByteArray outputOf(const QString& program, const QStringList& arguments)
{
    QProcess process;
    process.start(program, arguments);
    EXPECT_TRUE(process.waitForFinished(60000)) << program.toStdString();
    EXPECT_EQ(process.exitCode(), 0) << process.readAllStandardError().toStdString();
    return process.readAllStandardOutput();
}

/// The text of each page, in reading order.
inline QStringList pagesOf(const QString& pdf)
{
    const QString text = QString::fromUtf8(
        outputOf(QStringLiteral("pdftotext"), {QStringLiteral("-layout"), pdf, QStringLiteral("-")}));
    return text.split(u'\f', Qt::SkipEmptyParts);
}

/// A text without any space: lines may break anywhere in it.
inline QString squeezed(QString text)
{
    static const QRegularExpression kSpace(QStringLiteral("\\s+"));
    return text.remove(kSpace);
}

/// One word of a page and where it stands, in points from the upper left corner.
struct PdfWord {
    int page = 0;
    QSizeF sheet;
    QRectF box;
    QString text;
};

inline QList<PdfWord> wordsIn(const QString& pdf)
{
    static const QRegularExpression kPage(QStringLiteral(R"re(<page width="([\d.]+)" height="([\d.]+)">)re"));
    static const QRegularExpression kWord(QStringLiteral(
        R"re(<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)</word>)re"));
    QList<PdfWord> words;
    PdfWord word;
    const QString told = QString::fromUtf8(
        outputOf(QStringLiteral("pdftotext"), {QStringLiteral("-bbox"), pdf, QStringLiteral("-")}));
    for (const QString& line : told.split(u'\n')) {
        if (const auto page = kPage.match(line); page.hasMatch()) {
            ++word.page;
            word.sheet = {page.captured(1).toDouble(), page.captured(2).toDouble()};
        }
        if (const auto found = kWord.match(line); found.hasMatch()) {
            word.box = QRectF(QPointF(found.captured(1).toDouble(), found.captured(2).toDouble()),
                              QPointF(found.captured(3).toDouble(), found.captured(4).toDouble()));
            word.text = found.captured(5);
            words.append(word);
        }
    }
    return words;
}

/// The bytes of the one attachment, saved by pdfdetach into a folder.
inline QByteArray detachedFrom(const QString& pdf, const QString& folder)
{
    outputOf(QStringLiteral("pdfdetach"), {QStringLiteral("-saveall"), QStringLiteral("-o"), folder, pdf});
    const QStringList files = QDir(folder).entryList(QDir::Files);
    EXPECT_EQ(files.size(), 1);
    QFile file(QDir(folder).filePath(files.value(0)));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    return file.readAll();
}

} // namespace coldarc::test
