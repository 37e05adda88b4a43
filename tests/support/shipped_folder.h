#pragma once

#include "tests/support/testing.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>

namespace coldarc::test {

/// The shipped files of a folder, copied into one where a file can be spoiled.
class ShippedFolderTest : public ::testing::Test {
protected:
    /// @param shipped  from the top of the source tree: "resources/catalogue".
    explicit ShippedFolderTest(const char* shipped)
    {
        const QDir from(sourceFile(shipped));
        for (const QString& name : from.entryList({QStringLiteral("*.json")}, QDir::Files))
            EXPECT_TRUE(QFile::copy(from.filePath(name), path(name)));
    }
    [[nodiscard]] QString path(const QString& name) const { return folder.filePath(name); }
    [[nodiscard]] QByteArray bytesOf(const QString& name) const
    {
        QFile file(path(name));
        EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << name.toStdString();
        return file.readAll();
    }
    void write(const QString& name, const QByteArray& bytes) const
    {
        QFile::remove(path(name));
        QFile file(path(name));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
    }

    QTemporaryDir folder;
};

} // namespace coldarc::test
