#include "app/walk.h"

#include "app/record_out.h"
#include "app/report_out.h"
#include "app/walk_stage.h"
#include "core/people/jws.h"
#include "core/people/office_store.h"
#include "core/people/signing_key.h"
#include "ui/parts/theme.h"

#include <QApplication>
#include <QDir>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTextStream>

using namespace Qt::StringLiterals;

namespace coldarc::app {
namespace {

QTextStream& out()
{
    static QTextStream stream(stdout);
    return stream;
}

int stop(const QString& why)
{
    out() << "The walk did not start: " << why << '\n';
    out().flush();
    return 1;
}

/// Every entry's exact bytes and its hash, then the signatures, one JSON object a line.
Result<QString> writeLogbook(const QString& folder, const store::Journal& journal, const VisitId& visit)
{
    const auto entries = journal.entries(visit);
    const auto signatures = journal.signatures(visit);
    if (!entries || !signatures)
        return fail(Error::Kind::Storage, u"the logbook could not be read back"_s);
    QFile file(QDir(folder).filePath(u"signed-logbook.jsonl"_s));
    if (!file.open(QIODevice::WriteOnly))
        return fail(Error::Kind::Storage, file.errorString());
    for (const store::Entry& entry : *entries) {
        file.write(QJsonDocument(QJsonObject{{u"seq"_s, entry.seq.value()},
                                             {u"hash"_s, entry.hash.hex()},
                                             {u"entry"_s, QString::fromUtf8(entry.bytes)}})
                       .toJson(QJsonDocument::Compact) +
                   '\n');
    }
    for (const store::Signature& one : *signatures) {
        file.write(QJsonDocument(QJsonObject{{u"signs"_s, one.seq.value()},
                                             {u"head"_s, one.head.hex()},
                                             {u"person"_s, one.person.text()},
                                             {u"meaning"_s, one.meaning},
                                             {u"public_key"_s, QString::fromLatin1(one.publicKey.toHex())},
                                             {u"signature"_s, QString::fromLatin1(one.bytes.toHex())}})
                       .toJson(QJsonDocument::Compact) +
                   '\n');
    }
    return file.fileName();
}

/// What `coldarc verify` reads.
Result<QString> writeRecord(const QString& folder, WalkStage& stage, const VisitId& visit)
{
    const auto bytes = recordFileOf(visit, stage.database());
    if (!bytes)
        return tl::unexpected(bytes.error());
    QFile file(QDir(folder).filePath(u"signed-record.zip"_s));
    if (!file.open(QIODevice::WriteOnly) || file.write(*bytes) != bytes->size() || !file.flush())
        return fail(Error::Kind::Storage, file.errorString());
    return file.fileName();
}

/// Thumbprint of the office that vouches for the walk's key.
QString officeOf(WalkStage& stage)
{
    const auto offices = people::OfficeStore(stage.database()).offices();
    return offices && !offices->empty() ? people::thumbprint(offices->front().key) : QString();
}

/// The report of that record, with the record inside.
Result<QString> writeReport(const QString& folder, const QString& record)
{
    QFile file(record);
    if (!file.open(QIODevice::ReadOnly))
        return fail(Error::Kind::Storage, file.errorString());
    const auto report = ReportOut::of(file.readAll(), QTimeZone::systemTimeZone());
    if (!report)
        return tl::unexpected(report.error());
    const QString pdf = QDir(folder).filePath(u"report.pdf"_s);
    if (auto saved = report->save(pdf, QPageSize::A4); !saved)
        return tl::unexpected(saved.error());
    return pdf;
}

/// How many signatures there are; nothing when one does not verify.
std::optional<int> verified(const store::Journal& journal, const VisitId& visit)
{
    const auto signatures = journal.signatures(visit);
    if (!signatures)
        return std::nullopt;
    for (const store::Signature& one : *signatures) {
        const auto key = people::PublicKey::fromBytes(one.publicKey);
        const auto signature = people::Signature::fromBytes(one.bytes);
        const auto meaning = people::meaningFromWord(one.meaning.toStdString());
        if (!key || !signature || !meaning ||
            !people::isSignedBy(
                *key, people::HeadStatement{visit, one.seq.value(), one.head, *meaning, one.at, one.person},
                *signature))
            return std::nullopt;
    }
    return static_cast<int>(signatures->size());
}

} // namespace

int walk(const QString& folder, const Folders& folders)
{
    if (!QDir().mkpath(folder))
        return stop(u"the folder %1 cannot be made"_s.arg(folder));
    const QString workspace = QDir(folder).filePath(u"walk.coldarc"_s);
    for (const QString& old : QDir(folder).entryList({u"walk.coldarc*"_s}, QDir::Files))
        QFile::remove(QDir(folder).filePath(old)); // of an earlier walk: nothing in it is anybody's work

    ui::Theme theme(*qApp);
    theme.apply(ui::ThemeKind::Booth);
    const auto stage = WalkStage::set(workspace, folders);
    if (!stage)
        return stop(stage.error().detail);
    WalkStage& set = **stage;
    Walker walker(set.room(), set.desk(), set.clock(), folder, set.lamps());
    const bool isDone = walker.walk() && walker.trouble().isEmpty();

    const VisitId visit = set.logbook().visit();
    const auto reviewed = set.review();
    const auto signatures = verified(set.journal(), visit);
    const auto written = writeLogbook(folder, set.journal(), visit);
    const auto record = writeRecord(folder, set, visit);
    const auto report = record ? writeReport(folder, *record) : record;
    const Walker::Tally plain = walker.plain();
    out() << "Walked the demo swap at " << set.desk().seen().ground->opening.site.site.name << ": "
          << plain.presses << " presses and " << plain.typed << " typed characters, without "
          << walker.light().presses << " presses at the light and " << walker.vain().presses
          << " for what is refused; " << set.logbook().entries().size() << " entries.\n";
    for (const QString& refusal : walker.refusals())
        out() << "Refused, as it should be: " << refusal << '\n';
    for (const QString& trouble : walker.trouble())
        out() << "Trouble: " << trouble << '\n';
    out() << "Pictures: " << walker.pictures().size() << " in " << QDir(folder).absolutePath() << '\n';
    if (written)
        out() << "Signed logbook: " << *written << " (" << signatures.value_or(-1)
              << " signatures verified)\n";
    if (!reviewed)
        out() << "Trouble: " << reviewed.error().detail << '\n';
    if (record)
        out() << "Signed record, for coldarc verify --office " << officeOf(set) << ": " << *record << '\n';
    else
        out() << "Trouble: " << record.error().detail << '\n';
    if (report)
        out() << "Report of it: " << *report << '\n';
    else
        out() << "Trouble: " << report.error().detail << '\n';
    out() << "Workspace of the walk: " << workspace << '\n';
    out().flush();
    return isDone && signatures && *signatures > 0 && written && report && reviewed ? 0 : 1;
}

} // namespace coldarc::app
