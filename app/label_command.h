#pragma once

#include "core/catalogue/lamp_type.h"
#include "core/label/together.h"
#include "ui/label/decoding_process.h"

#include <QByteArray>
#include <QFileDevice>
#include <QList>
#include <QString>
#include <QStringList>

#include <chrono>
#include <optional>

namespace coldarc::app {

/// One picture file and what is in it.
struct LabelFile {
    QString file;
    bool isReadable = false;                               ///< false: no such file, or no picture
    std::optional<ui::DecodingProcess::Failure> failure{}; ///< the decoding process gave it up
    label::PictureReading reading{};
    QList<label::LabelText> texts{}; ///< one for each code
};

/// What `coldarc label` says, and with which exit status: 0 a code was found in every picture, all were read,
/// and all are of one lamp type with no serial that differs; 1 that is not so; 2 a file could not be looked
/// at, one of the catalogue was refused, or the answer could not be written.
struct LabelReport {
    QByteArray text; ///< for people; with --json one JSON object
    int status = 0;
};
[[nodiscard]] LabelReport labelReport(const QList<LabelFile>& files, int currentYear, bool asJson);

/// Looks at the files one after the other, by a decoding process each.
/// @param decoder  its program.
[[nodiscard]] QList<LabelFile> lookAtFiles(const QStringList& files, const QString& decoder,
                                           const QList<catalogue::LampType>& lampTypes, int currentYear);

/// How long one picture may take, for one try.
inline constexpr std::chrono::seconds kDecoderPatience{20};

/// The decoding program that stands beside this one.
[[nodiscard]] QString decoderBeside(const QString& programFolder);

/// Where `coldarc label` writes; both open.
struct LabelOutput {
    QFileDevice& out; ///< the report
    QFileDevice& err; ///< how it is called, and what is wrong with the catalogue
};

/// `coldarc label [--json] [--workspace FILE] FILE...`: the arguments behind "label". Needs no display. Of a
/// workspace the rules that were taught there are used, and nothing is written to it.
[[nodiscard]] int labelCommand(const QStringList& arguments, const QString& programFolder,
                               const QString& resources, const LabelOutput& to);
/// The same to standard output and standard error.
[[nodiscard]] int labelCommand(const QStringList& arguments, const QString& programFolder,
                               const QString& resources);

} // namespace coldarc::app
