#pragma once

#include "core/report/report.h"

#include <QHash>
#include <QPageSize>
#include <QTimeZone>

class QPagedPaintDevice;

namespace coldarc::app {

/// A record file, read for its report: everything that the report says comes from the record alone.
class ReportOut {
public:
    /// Error::Malformed for what is no record of a visit, Refused for one that is not as it was signed; that
    /// nobody has signed yet is no such fault.
    [[nodiscard]] static Result<ReportOut> of(const QByteArray& record, const QTimeZone& zone);

    [[nodiscard]] const report::Report& report() const { return m_report; }
    /// The PDF with the record inside; it is there whole or not at all. Error::Storage.
    [[nodiscard]] Result<void> save(const QString& file, QPageSize::PageSizeId paper) const;
    /// Draws it on paper. False where the device takes no drawing.
    [[nodiscard]] bool print(QPagedPaintDevice& device) const;
    /// The readings as a table for other programs. Error::Storage.
    [[nodiscard]] Result<void> saveReadings(const QString& file) const;

private:
    ReportOut() = default;

    QByteArray m_record;
    QTimeZone m_zone;
    report::Report m_report;
    QHash<QString, QByteArray> m_pictures; ///< by their hash in hexadecimal digits
};

} // namespace coldarc::app
