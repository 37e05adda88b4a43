#pragma once

#include "core/base/result.h"

#include <QString>
#include <QStringList>

#include <vector>

namespace coldarc::store {

/// One step from a file of `resources/schema`, e.g. `0001_create_workspace.sql`.
struct SchemaStep {
    int number = 0; ///< the four digits of its name; becomes the workspace file's user_version
    QString name;   ///< the file name
    QString sql;    ///< its whole text
};

/// The steps that make a workspace file what this program expects, by rising number.
///
/// A landed step is never edited; a test holds the SHA-256 of each.
class Schema {
public:
    /// Pre: the numbers rise and start at 1 or above.
    explicit Schema(std::vector<SchemaStep> steps);

    /// The steps built into the program.
    [[nodiscard]] static const Schema& shipped();

    [[nodiscard]] const std::vector<SchemaStep>& steps() const { return m_steps; }
    /// The number of the last step.
    [[nodiscard]] int version() const { return m_steps.back().number; }
    /// The triggers that stand in a file of this version, by name, as SQLite keeps their text: read off the
    /// steps, since building a file only to look at them takes longer than all else at opening. A step that
    /// cannot be taken apart has none; a test holds them against a file that was built.
    [[nodiscard]] QStringList guards(int version) const;

private:
    std::vector<SchemaStep> m_steps;
};

/// The statements of a step's text, comment lines left out.
///
/// A statement ends with a line that ends with `;`, a trigger with a line that is `END;`. Two statements on
/// one line are not taken apart; SQLite's driver refuses them. Malformed names the statement that has no end.
[[nodiscard]] Result<QStringList> statementsOf(const QString& sql);

} // namespace coldarc::store
