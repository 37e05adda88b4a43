// The decoding process: reads one picture from standard input and writes what bar codes are in it, one line
// of JSON (core/label/found_code.h). With --half it looks at the picture at half its size. It is a process of
// its own because the library that looks for codes can end it.
#include "app/decode_ladder.h"
#include "app/decode_picture.h"

#include <QCoreApplication>
#include <QFile>

#include <cstdio>

int main(int argc, char** argv)
{
    QCoreApplication application(argc, argv);
    QFile in;
    QFile out;
    if (!in.open(stdin, QIODevice::ReadOnly) || !out.open(stdout, QIODevice::WriteOnly))
        return 1;
    const bool half = application.arguments().contains(QStringLiteral("--half"));
    const auto size = half ? coldarc::app::LookAt::Half : coldarc::app::LookAt::Whole;
    const QByteArray picture = in.readAll();
    if (in.error() != QFileDevice::NoError)
        return 1;
    const QByteArray line = coldarc::label::toLine(coldarc::app::readingOf(picture, size));
    return out.write(line) == line.size() && out.flush() ? 0 : 1;
}
