#pragma once

#include <QStringList>

#include <optional>

namespace coldarc::app {

/// What stands behind `coldarc report`.
struct ReportArguments {
    QString record;
    QString out;
    bool isLetter = false; ///< else A4

    friend bool operator==(const ReportArguments&, const ReportArguments&) = default;
};
/// Nothing where the record or the file to write is not named, or something is not known.
[[nodiscard]] std::optional<ReportArguments> reportArguments(const QStringList& arguments);

/// `coldarc report RECORD.zip -o FILE.pdf [--paper a4|letter]`: the arguments behind "report". Needs no
/// workspace, but a QGuiApplication to draw with. Gives back 0; 1 for a record that is not as it was signed;
/// 2 for what can not be read or written, or is asked wrongly.
[[nodiscard]] int reportCommand(const QStringList& arguments);

} // namespace coldarc::app
