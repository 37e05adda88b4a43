#pragma once

#include <QString>
#include <QStringList>

#include <optional>

namespace coldarc::catalogue {

/// What came out of one document: the value, or why there is none. A document with one complaint gives no
/// value.
template<class T>
struct Reading {
    std::optional<T> value;
    QStringList complaints; ///< each "place: reason", for whoever mends the file; empty when there is a value
    QStringList notices;    ///< each "place: what was changed"; the document is used nevertheless
};

/// A complaint or notice about one file of a folder.
struct FileRemark {
    QString file;   ///< name inside the folder, or the folder itself
    QString place;  ///< key inside the file, like `test_points[1].cover`; empty for the file as a whole
    QString reason; ///< for the log and for whoever mends the file, not a sentence for the screen

    friend bool operator==(const FileRemark&, const FileRemark&) = default;
};

/// Parts a "place: reason" line of a reading. A line without a place keeps it empty.
[[nodiscard]] FileRemark remarkOn(const QString& file, const QString& line);

} // namespace coldarc::catalogue
