#include "app/label_command.h"

#include "app/file_arguments.h"
#include "app/usage.h"
#include "core/base/clock.h"
#include "core/catalogue/catalogue.h"
#include "core/label/payload.h"
#include "core/lamps/taught_rule_store.h"
#include "core/store/workspace_file.h"

#include <QDir>
#include <QEventLoop>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <chrono>
#include <cstdio>

using namespace Qt::StringLiterals;

namespace coldarc::app {

namespace {

using ui::DecodingProcess;

enum Status {
    kAgreed = 0,
    kNotAgreed = 1,
    kNotLookedAt = 2,
};

QString wordOf(DecodingProcess::Failure failure)
{
    switch (failure) {
    case DecodingProcess::Failure::NotStarted:
        return u"decoder-not-started"_s;
    case DecodingProcess::Failure::Died:
        return u"decoder-died"_s;
    case DecodingProcess::Failure::TookTooLong:
        return u"decoder-took-too-long"_s;
    case DecodingProcess::Failure::Nonsense:
        return u"decoder-answered-nonsense"_s;
    }
    Q_UNREACHABLE();
}

QString stateOf(const LabelFile& file)
{
    if (file.failure)
        return wordOf(*file.failure);
    return file.isReadable ? u"looked-at"_s : u"no-picture"_s;
}

label::Together togetherOf(const QList<LabelFile>& files)
{
    QList<label::LabelText> texts;
    for (const LabelFile& file : files)
        texts += file.texts;
    const auto hasNone = [](const LabelFile& file) { return file.texts.isEmpty(); };
    return label::together(texts, std::ranges::count_if(files, hasNone));
}

QJsonArray idsOf(const QList<LampTypeId>& types)
{
    QJsonArray ids;
    for (const LampTypeId& type : types)
        ids.append(type.text());
    return ids;
}

QString dateText(const std::optional<label::LabelDate>& date)
{
    if (!date)
        return {};
    const QString month = u"%1-%2"_s.arg(date->year, 4, 10, QChar(u'0')).arg(date->month, 2, 10, QChar(u'0'));
    return date->day ? month + u"-%1"_s.arg(*date->day, 2, 10, QChar(u'0')) : month;
}

QString symbologyOf(const label::Payload& payload)
{
    return payload.symbology ? label::wordOf(payload.symbology->symbology) : u"other"_s;
}

QJsonObject codeJson(const label::FoundCode& code, const label::LabelText& text, int currentYear)
{
    const label::Payload payload = label::readPayload(code.scanned, currentYear);
    QJsonArray corners;
    for (const label::Place& corner : code.corners)
        corners.append(QJsonArray{corner.x, corner.y});
    return {{u"scanned"_s, code.scanned},
            {u"symbology"_s, symbologyOf(payload)},
            {u"verdict"_s, label::wordOf(text.verdict)},
            {u"type"_s, text.type},
            {u"serial"_s, text.serial},
            {u"lamp_types"_s, idsOf(text.types)},
            {u"lot"_s, text.lot},
            {u"made"_s, dateText(text.made)},
            {u"use_by"_s, dateText(text.useBy)},
            {u"corners"_s, corners}};
}

QByteArray jsonReport(const QList<LabelFile>& files, const label::Together& all, int currentYear)
{
    QJsonArray list;
    for (const LabelFile& file : files) {
        QJsonArray codes;
        for (qsizetype i = 0; i < file.texts.size(); ++i)
            codes.append(codeJson(file.reading.codes.at(i), file.texts.at(i), currentYear));
        list.append(QJsonObject{{u"file"_s, file.file},
                                {u"state"_s, stateOf(file)},
                                {u"width"_s, file.reading.width},
                                {u"height"_s, file.reading.height},
                                {u"codes"_s, codes}});
    }
    const QJsonObject report{{u"files"_s, list},
                             {u"verdict"_s, label::wordOf(all.verdict)},
                             {u"lamp_types"_s, idsOf(all.types)},
                             {u"serials"_s, QJsonArray::fromStringList(all.serials)}};
    return QJsonDocument(report).toJson();
}

// What cannot be printed stands as its code, so that a separator in a text is seen.
QString visible(const QString& text)
{
    QString shown;
    for (const QChar c : text)
        shown += c.isPrint() ? QString(c) : u"<%1>"_s.arg(c.unicode(), 2, 16, QChar(u'0'));
    return shown;
}

/// What was done with a file, for people.
QString stateText(const LabelFile& file)
{
    if (file.failure) {
        switch (*file.failure) {
        case DecodingProcess::Failure::NotStarted:
            return u"not looked at, since the program that reads codes did not start"_s;
        case DecodingProcess::Failure::Died:
            return u"given up, since the program that reads codes ended over it"_s;
        case DecodingProcess::Failure::TookTooLong:
            return u"given up, since it took too long"_s;
        case DecodingProcess::Failure::Nonsense:
            return u"given up, since the program that reads codes gave no sense"_s;
        }
    }
    if (file.isReadable)
        return u"looked at"_s;
    return QFile::exists(file.file) ? u"not a picture that can be read"_s : u"no such file"_s;
}

QString verdictText(label::LabelText::Verdict verdict)
{
    switch (verdict) {
    case label::LabelText::Verdict::Read:
        return u"read"_s;
    case label::LabelText::Verdict::Unsound:
        return u"unsound: misread, or misprinted"_s;
    case label::LabelText::Verdict::Unknown:
        return u"not known to the catalogue"_s;
    case label::LabelText::Verdict::Contradicts:
        return u"says two things"_s;
    }
    Q_UNREACHABLE();
}

QString togetherText(label::Together::Verdict verdict)
{
    switch (verdict) {
    case label::Together::Verdict::Agree:
        return u"all are of one lamp type, and no serial differs"_s;
    case label::Together::Verdict::NothingRead:
        return u"nothing was read"_s;
    case label::Together::Verdict::NotAllRead:
        return u"not every picture and code was read"_s;
    case label::Together::Verdict::TypesDiffer:
        return u"the lamp types differ"_s;
    case label::Together::Verdict::SerialsDiffer:
        return u"the serials differ"_s;
    }
    Q_UNREACHABLE();
}

QString codeLine(const label::FoundCode& code, const label::LabelText& text, int currentYear)
{
    const label::Payload payload = label::readPayload(code.scanned, currentYear);
    QStringList parts{symbologyOf(payload), verdictText(text.verdict)};
    const auto add = [&](const QString& name, const QString& value) {
        if (!value.isEmpty())
            parts << name + u' ' + value;
    };
    add(u"type"_s, text.type);
    add(u"serial"_s, text.serial);
    add(u"lot"_s, text.lot);
    add(u"made"_s, dateText(text.made));
    add(u"use by"_s, dateText(text.useBy));
    if (text.verdict != label::LabelText::Verdict::Read)
        add(u"text"_s, visible(payload.text));
    return u"  "_s + parts.join(u", "_s) + u'\n';
}

QByteArray textReport(const QList<LabelFile>& files, const label::Together& all, int currentYear)
{
    QString text;
    for (const LabelFile& file : files) {
        text += u"%1: %2, codes: %3\n"_s.arg(file.file, stateText(file)).arg(file.texts.size());
        for (qsizetype i = 0; i < file.texts.size(); ++i)
            text += codeLine(file.reading.codes.at(i), file.texts.at(i), currentYear);
    }
    text += u"together: %1\n"_s.arg(togetherText(all.verdict));
    return text.toUtf8();
}

bool wasLookedAt(const LabelFile& file)
{
    return file.isReadable && !file.failure;
}

// Nothing unless all of the file can be read: half a picture may hold half of the codes.
std::optional<QByteArray> bytesOf(const QString& name)
{
    QFile in(name);
    if (!in.open(QIODevice::ReadOnly))
        return std::nullopt;
    QByteArray bytes = in.readAll();
    return in.error() == QFileDevice::NoError ? std::optional(std::move(bytes)) : std::nullopt;
}

bool write(QFileDevice& out, const QByteArray& text)
{
    return out.write(text) == text.size() && out.flush();
}

// A type whose file was refused has no rules here, so what is said of its codes is not to be relied on.
QByteArray complaintsOf(const catalogue::CatalogueLoading& loading)
{
    QByteArray lines;
    for (const catalogue::FileRemark& remark : loading.complaints)
        lines += u"catalogue: %1: %2: %3\n"_s.arg(remark.file, remark.place, remark.reason).toUtf8();
    return lines;
}

/// The arguments without `--workspace FILE`, and that file; nothing where the file is missing.
struct Asked {
    QStringList rest;
    QString workspace;
};
std::optional<Asked> askedOf(const QStringList& arguments)
{
    Asked asked{arguments, {}};
    const qsizetype end = arguments.indexOf(u"--"_s);
    const qsizetype at = arguments.indexOf(u"--workspace"_s);
    if (at < 0 || (end >= 0 && end < at))
        return asked;
    if (at + 1 == arguments.size())
        return std::nullopt;
    asked.workspace = arguments.at(at + 1);
    asked.rest.remove(at, 2);
    return asked;
}

/// What was taught in a workspace. An error where it cannot be read, or is older than this program.
Result<QList<label::Teaching>> taughtIn(const QString& workspace)
{
    const store::LookAnswer look = store::lookAt(workspace, store::Writer::Perhaps);
    if (look.outcome != store::Look::Ours)
        return fail(Error::Kind::Malformed, look.outcome == store::Look::Older
                                                ? u"older than this program: open it once"_s
                                                : u"no workspace that can be read: "_s + look.detail);
    auto database = store::Database::connect(workspace, store::Access::Read);
    if (!database)
        return tl::unexpected(database.error());
    return lamps::TaughtRuleStore(*database).standing();
}

LabelFile lookedAt(DecodingProcess& process, const QString& name, const QByteArray& bytes)
{
    LabelFile file;
    file.file = name;
    QEventLoop loop;
    QObject::connect(&process, &DecodingProcess::decoded, &loop, [&](const label::PictureReading& reading) {
        file.reading = reading;
        file.isReadable = reading.width > 0;
        loop.quit();
    });
    QObject::connect(&process, &DecodingProcess::failed, &loop, [&](DecodingProcess::Failure failure) {
        file.failure = failure;
        loop.quit();
    });
    QMetaObject::invokeMethod(
        &process, [&] { process.decode(bytes); }, Qt::QueuedConnection);
    loop.exec();
    return file;
}

} // namespace

LabelReport labelReport(const QList<LabelFile>& files, int currentYear, bool asJson)
{
    const label::Together all = togetherOf(files);
    const QByteArray text =
        asJson ? jsonReport(files, all, currentYear) : textReport(files, all, currentYear);
    if (!std::ranges::all_of(files, wasLookedAt))
        return {text, kNotLookedAt};
    return {text, all.verdict == label::Together::Verdict::Agree ? kAgreed : kNotAgreed};
}

QList<LabelFile> lookAtFiles(const QStringList& files, const QString& decoder,
                             const QList<catalogue::LampType>& lampTypes, int currentYear)
{
    DecodingProcess process(decoder, {}, kDecoderPatience);
    QList<LabelFile> looked;
    for (const QString& name : files) {
        const auto bytes = bytesOf(name);
        if (!bytes) {
            looked.append({name});
            continue;
        }
        LabelFile file = lookedAt(process, name, *bytes);
        for (const label::FoundCode& code : file.reading.codes)
            file.texts.append(label::labelText(label::readPayload(code.scanned, currentYear), lampTypes));
        looked.append(file);
    }
    return looked;
}

QString decoderBeside(const QString& programFolder)
{
    return QDir(programFolder).filePath(u"coldarc_decode"_s);
}

int labelCommand(const QStringList& arguments, const QString& programFolder, const QString& resources)
{
    QFile out;
    QFile err;
    if (!out.open(stdout, QIODevice::WriteOnly) || !err.open(stderr, QIODevice::WriteOnly))
        return kNotLookedAt;
    return labelCommand(arguments, programFolder, resources, {out, err});
}

int labelCommand(const QStringList& arguments, const QString& programFolder, const QString& resources,
                 const LabelOutput& to)
{
    const auto whole = askedOf(arguments);
    const auto asked = whole ? fileArguments(whole->rest) : std::nullopt;
    if (!asked) {
        (void)write(to.err, QByteArray(kLabelUsage) + '\n');
        return kNotLookedAt;
    }
    const auto taught = whole->workspace.isEmpty() ? Result<QList<label::Teaching>>(QList<label::Teaching>())
                                                   : taughtIn(whole->workspace);
    if (!taught) {
        (void)write(to.err, u"workspace: %1: %2\n"_s.arg(whole->workspace, taught.error().detail).toUtf8());
        return kNotLookedAt;
    }
    const SystemClock clock;
    const int year = yearOf(clock.now().wall);
    const auto loading = catalogue::loadCatalogue(QDir(resources).filePath(u"catalogue"_s));
    const catalogue::Catalogue catalogue = label::withTaught(loading.catalogue, *taught);
    const auto looked = lookAtFiles(asked->files, decoderBeside(programFolder), catalogue.lampTypes(), year);
    const LabelReport report = labelReport(looked, year, asked->asJson);
    const QByteArray complaints = complaintsOf(loading);
    (void)write(to.err, complaints);
    const bool isWritten = write(to.out, report.text);
    return isWritten && complaints.isEmpty() ? report.status : kNotLookedAt;
}

} // namespace coldarc::app
