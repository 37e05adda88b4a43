#pragma once

#include <QString>
#include <QStringList>

#include <vector>

namespace coldarc::test {

/// One file of the source tree, named from its top: `core/base/clock.h`.
struct SourceFile {
    QString path;
    QString text;
};

/// Every file of the tree that people write: C++, CMake, SQL, JSON, Markdown and scripts, in the order of
/// their paths. Left out: `.git`, build folders, licence texts and what is not text.
[[nodiscard]] std::vector<SourceFile> sourceTree(const QString& top);

/// What stands at the top of the tree, what git ignores left out, in the order of the names.
[[nodiscard]] QStringList topLevelOf(const QString& top);

enum class Strings {
    Kept,
    Blanked,
};

/// The C++ text with its comments (and, if wished, what its string literals hold) turned into blanks, so that
/// a pattern finds code only. Lines and columns stay where they were. Knows `//`, block comments, escapes,
/// raw strings and digit separators; does not know trigraphs or line continuations.
[[nodiscard]] QString codeOf(const QString& text, Strings strings);

/// Line of a place in a text, counted from 1.
[[nodiscard]] qsizetype lineOf(const QString& text, qsizetype place);

[[nodiscard]] bool isCpp(const QString& path);

} // namespace coldarc::test
