#include "app/report_command.h"

#include "app/report_out.h"
#include "app/usage.h"
#include "core/record/record_file.h"

#include <QFile>

#include <cstdio>

using namespace Qt::StringLiterals;

namespace coldarc::app {
namespace {

constexpr int kWritten = 0;
constexpr int kNotAsSigned = 1;
constexpr int kFailed = 2;

int stop(int status, const QString& why)
{
    std::fprintf(stderr, "coldarc report: %s\n", qUtf8Printable(why));
    return status;
}

/// Whether something else than a report stands there: it may be a record, which nobody can make again.
bool isOtherThanPdf(const QString& name)
{
    QFile file(name);
    if (!file.exists())
        return false;
    return !file.open(QIODevice::ReadOnly) || (file.size() > 0 && !file.peek(5).startsWith("%PDF-"));
}

} // namespace

std::optional<ReportArguments> reportArguments(const QStringList& arguments)
{
    ReportArguments read;
    for (qsizetype index = 0; index < arguments.size(); ++index) {
        const QString& one = arguments[index];
        const QString next = arguments.value(index + 1);
        if (one == u"-o" && !next.isEmpty()) {
            read.out = next;
            ++index;
        } else if (one == u"--paper" && (next == u"a4" || next == u"letter")) {
            read.isLetter = next == u"letter";
            ++index;
        } else if (!one.startsWith(u'-') && read.record.isEmpty()) {
            read.record = one;
        } else {
            return std::nullopt;
        }
    }
    return read.record.isEmpty() || read.out.isEmpty() ? std::nullopt : std::optional(read);
}

int reportCommand(const QStringList& arguments)
{
    const auto asked = reportArguments(arguments);
    if (!asked) {
        std::fprintf(stderr, "%s\n", kReportUsage);
        return kFailed;
    }
    if (isOtherThanPdf(asked->out))
        return stop(kFailed,
                    u"%1 is not a PDF and was left as it is; name another file behind -o"_s.arg(asked->out));
    QFile file(asked->record);
    if (!file.open(QIODevice::ReadOnly) || file.size() > record::kMostFileBytes)
        return stop(kFailed, u"%1 can not be read as a record"_s.arg(asked->record));
    const auto report = ReportOut::of(file.readAll(), QTimeZone::systemTimeZone());
    if (!report)
        return stop(report.error().kind == Error::Kind::Refused ? kNotAsSigned : kFailed,
                    u"%1: %2"_s.arg(asked->record, report.error().detail));
    const auto saved = report->save(asked->out, asked->isLetter ? QPageSize::Letter : QPageSize::A4);
    return saved ? kWritten : stop(kFailed, u"could not be written: "_s + saved.error().detail);
}

} // namespace coldarc::app
