#pragma once

#include "tests/architecture/source_text.h"

#include <QRegularExpression>
#include <QSet>
#include <QString>
#include <QStringList>

#include <vector>

namespace coldarc::test {

/// Which part of a file a rule reads.
enum class Part {
    Code,           ///< C++ without comments and without what string literals hold
    CodeAndStrings, ///< C++ without comments
    Everything,     ///< every file as it is, comments and scripts too
};

/// Something that may be written in a few places only.
struct HouseRule {
    QString name;
    QRegularExpression pattern;
    Part part;
    QStringList watched; ///< beginnings of the paths that the rule reads; "" reads the whole tree
    QStringList allowed; ///< beginnings of the paths in which the pattern is welcome
    QString cure;
};

/// The rules of the house. The reason for each stands in DEVELOPERS.md. `tests/architecture` itself is read
/// by none of them, since it has to spell what it looks for.
[[nodiscard]] const std::vector<HouseRule>& houseRules();

/// Every place of the file that breaks the rule, as `path:line what; cure`.
[[nodiscard]] QStringList complaintsOf(const HouseRule& rule, const SourceFile& file);

/// Names at the top of the tree that the house does not have.
[[nodiscard]] QStringList topLevelComplaints(const QStringList& names);

/// Tests of core rooms that have no header of their name: `tests/core/<room>/x_test.cpp` asks for
/// `core/<room>/x.h`. A test of a room as a whole stands in a list beside the check.
[[nodiscard]] QStringList twinComplaints(const QSet<QString>& paths);

/// Where the guide for developers is not true: a core room that it has no line for, a path between backticks
/// that is neither a file, nor a folder, nor a room. What stands under "Not built yet" and paths with <holes>
/// are not looked at.
[[nodiscard]] QStringList guideComplaints(const QString& guide, const QSet<QString>& paths,
                                          const QSet<QString>& rooms);

} // namespace coldarc::test
