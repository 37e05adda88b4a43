#include "app/report_out.h"

#include "app/head_code.h"
#include "app/save_file.h"
#include "core/record/record_file.h"
#include "core/record/verify.h"
#include "core/review/checked_record.h"
#include "ui/report/readings_table.h"
#include "ui/report/report_file.h"

using namespace Qt::StringLiterals;

namespace coldarc::app {

Result<ReportOut> ReportOut::of(const QByteArray& bytes, const QTimeZone& zone)
{
    const auto record = record::recordFromBytes(bytes);
    if (!record)
        return tl::unexpected(record.error());
    const record::Verification found = record::verify(*record);
    for (const record::Fault& fault : found.faults) {
        if (fault.kind != record::Fault::Kind::NothingSigned)
            return fail(Error::Kind::Refused,
                        u"the record is not as it was signed: %1"_s.arg(record::wordOf(fault.kind)));
    }
    const auto entries = visit::entriesFrom(record->entries);
    if (!entries)
        return tl::unexpected(entries.error());
    ReportOut out;
    auto report = report::reportOf(*entries, record->chain.back(), review::signaturesOf(found));
    if (!report)
        return tl::unexpected(report.error());
    out.m_report = std::move(*report);
    out.m_record = bytes;
    out.m_zone = zone;
    for (const record::Picture& picture : record->pictures)
        out.m_pictures.insert(picture.hash.hex(), picture.bytes);
    return out;
}

Result<void> ReportOut::save(const QString& file, QPageSize::PageSizeId paper) const
{
    const auto pictures = [this](const Hash& hash) { return m_pictures.value(hash.hex()); };
    const ui::ReportOnPaper report{m_report, m_zone, pictures, codeOf(ui::codeText(m_report))};
    return saveFile(file, [&](QIODevice& out) { return ui::writeReport(report, paper, m_record, out); });
}

bool ReportOut::print(QPagedPaintDevice& device) const
{
    const auto pictures = [this](const Hash& hash) { return m_pictures.value(hash.hex()); };
    return ui::printReport({m_report, m_zone, pictures, codeOf(ui::codeText(m_report))}, device);
}

Result<void> ReportOut::saveReadings(const QString& file) const
{
    return saveFile(file, ui::readingsTable(m_report.state, m_report.entries));
}

} // namespace coldarc::app
