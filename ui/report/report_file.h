#pragma once

#include "core/report/report.h"
#include "ui/report/paper_drawing.h"
#include "ui/report/report_content.h"

#include <QPageSize>
#include <QTimeZone>

class QIODevice;
class QPagedPaintDevice;

namespace coldarc::ui {

/// A report and all that is drawn with it. Borrows the report.
struct ReportOnPaper {
    const report::Report& report;
    QTimeZone zone;
    PictureBytes pictures; ///< empty: none are shown
    CodeModules code;      ///< of `codeText`; empty: none is drawn
    RecordPlace record = RecordPlace::Elsewhere;
};

/// Draws every sheet on paper of any size, with its number at the foot; sets the margins. False where the
/// device takes no drawing.
[[nodiscard]] bool printReport(const ReportOnPaper& report, QPagedPaintDevice& device);

/// Name of the record inside the PDF, and of one that nobody has signed.
inline constexpr auto kRecordName = u"signed-record.zip";
inline constexpr auto kUnsignedName = u"record.zip";

/// Writes a PDF (1.6) with the record inside as an attachment. False if it could not be written.
/// @param record  the bytes of the record file; empty: none is attached.
[[nodiscard]] bool writeReport(const ReportOnPaper& report, QPageSize::PageSizeId paper,
                               const QByteArray& record, QIODevice& out);

} // namespace coldarc::ui
