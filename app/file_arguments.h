#pragma once

#include <QStringList>

#include <optional>

namespace coldarc::app {

/// What stands behind a command of the form `coldarc COMMAND [--json] FILE...`.
struct FileArguments {
    QStringList files; ///< not empty
    bool asJson = false;
    QString value; ///< behind the option that takes one
};

/// Nothing without a file, and for an option that there is not: it is no file's name. Behind `--` everything
/// is.
/// @param valued  an option that takes the argument behind it, e.g. "--office"; empty: there is none.
[[nodiscard]] inline std::optional<FileArguments> fileArguments(const QStringList& arguments,
                                                                const QString& valued = {})
{
    FileArguments read;
    bool isOption = true;
    for (auto next = arguments.begin(); next != arguments.end(); ++next) {
        const QString& argument = *next;
        if (isOption && !valued.isEmpty() && argument == valued) {
            if (++next == arguments.end() || next->isEmpty())
                return std::nullopt;
            read.value = *next;
        } else if (isOption && argument == QStringLiteral("--"))
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
