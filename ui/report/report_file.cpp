#include "ui/report/report_file.h"

#include "ui/report/paper_flow.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <QPdfWriter>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr double kMarginMm = 18;
constexpr double kFoot = 24 * kPerPoint; // at the foot of each sheet
constexpr int kResolution = 1200;
constexpr double kPointsPerInch = 72;

QSizeF inPaperUnits(const QRect& points)
{
    return QSizeF(points.size()) * kPerPoint;
}

QSizeF withoutFoot(const QSizeF& sheet)
{
    return {sheet.width(), sheet.height() - kFoot};
}

void drawFoot(QPainter& painter, const QSizeF& sheet, const QString& text, int page, int pages)
{
    painter.setFont(paperFont(PaperRole::Small));
    const QFontMetricsF metrics(painter.font());
    const QString number = QCoreApplication::translate("report", "%1 of %2").arg(page + 1).arg(pages);
    const double width = metrics.horizontalAdvance(number);
    const double baseline = sheet.height() - metrics.descent();
    painter.setPen(Qt::black);
    painter.drawText(QPointF(sheet.width() - width, baseline), number);
    const double room = sheet.width() - width - 12 * kPerPoint;
    painter.drawText(QPointF(0, baseline), metrics.elidedText(text, Qt::ElideMiddle, room));
}

} // namespace

bool printReport(const ReportOnPaper& report, QPagedPaintDevice& device)
{
    device.setPageMargins(QMarginsF(kMarginMm, kMarginMm, kMarginMm, kMarginMm), QPageLayout::Millimeter);
    const QSizeF sheet = inPaperUnits(device.pageLayout().paintRectPoints());
    const PaperFlow flow(reportContent(report.report, report.zone, report.pictures, report.record),
                         withoutFoot(sheet));
    const QString foot = footOf(report.report, report.zone);
    QPainter painter;
    if (!painter.begin(&device))
        return false;
    const double scale = device.logicalDpiX() / (kPointsPerInch * kPerPoint);
    painter.scale(scale, scale);
    for (int page = 0; page < flow.pages(); ++page) {
        if (page > 0 && !device.newPage())
            return false;
        flow.paint(painter, page);
        if (page == 0) {
            const double side = kCodeSide * kPerPoint;
            draw(painter, QRectF(sheet.width() - side, 0, side, side), report.code);
        }
        drawFoot(painter, sheet, foot, page, flow.pages());
    }
    return painter.end();
}

bool writeReport(const ReportOnPaper& report, QPageSize::PageSizeId paper, const QByteArray& record,
                 QIODevice& out)
{
    if (!out.isWritable())
        return false;
    QPdfWriter writer(&out);
    writer.setPdfVersion(QPagedPaintDevice::PdfVersion_1_6);
    writer.setResolution(kResolution);
    writer.setPageSize(QPageSize(paper));
    writer.setCreator(u"Coldarc"_s);
    writer.setTitle(footOf(report.report, report.zone));
    ReportOnPaper withRecord = report;
    if (!record.isEmpty()) {
        const char16_t* name = report.report.signedUpTo < 0 ? kUnsignedName : kRecordName;
        writer.addFileAttachment(QString::fromUtf16(name), record, u"application/zip"_s);
        withRecord.record = RecordPlace::Inside;
    }
    return printReport(withRecord, writer);
}

} // namespace coldarc::ui
