#pragma once

#include <QStringList>

#include <optional>

namespace coldarc::app {

/// What stands behind a command of the form `coldarc COMMAND [--json] FILE...`.
struct FileArguments {
    QStringList files; ///< not empty
    bool asJson = false;
};

/// Nothing without a file, and for an option that there is not: it is no file's name. Behind `--` everything
/// is.
[[nodiscard]] inline std::optional<FileArguments> fileArguments(const QStringList& arguments)
{
    FileArguments read;
    bool isOption = true;
    for (const QString& argument : arguments) {
        if (isOption && argument == QStringLiteral("--"))
            isOption = false;
        else if (isOption && argument == QStringLiteral("--json"))
            read.asJson = true;
        else if (isOption && argument.startsWith(QLatin1Char('-')))
            return std::nullopt;
        else
            read.files.append(argument);
    }
    return read.files.isEmpty() ? std::nullopt : std::optional(read);
}

} // namespace coldarc::app
