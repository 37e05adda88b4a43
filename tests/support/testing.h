#pragma once

#include <QByteArray>
#include <QString>

#include <gtest/gtest.h>

#include <ostream>

// Included instead of <gtest/gtest.h>: without these, GoogleTest prints the bytes of a QString.
QT_BEGIN_NAMESPACE
inline void PrintTo(const QString& text, std::ostream* out)
{
    *out << '"' << text.toStdString() << '"';
}
inline void PrintTo(const QByteArray& bytes, std::ostream* out)
{
    *out << '"' << bytes.toPercentEncoding(" {}[]\":,/").toStdString() << '"';
}
QT_END_NAMESPACE

namespace coldarc::test {

/// A file of the source tree, named from its top: `sourceFile("sample-data/chain.json")`.
[[nodiscard]] inline QString sourceFile(const char* path)
{
    return QStringLiteral(COLDARC_SOURCE_DIR "/") + QString::fromUtf8(path);
}

} // namespace coldarc::test
