// Figures of the report of a visit: from the bytes of its record to the PDF on the disk, pictures and light
// run included. The visit is invented.

#include "app/report_out.h"
#include "tests/app/signed_night.h"
#include "tests/bench/times.h"
#include "tests/ui/report/report_night.h"

#include <QBuffer>
#include <QGuiApplication>
#include <QImage>
#include <QTemporaryDir>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

using namespace Qt::StringLiterals;
using namespace coldarc;

namespace {

constexpr int kRounds = 9;
constexpr int kPictures = 6;

/// As a telephone takes it: 12 megapixels that hardly compress.
QByteArray picture(int number)
{
    QImage image(4000, 3000, QImage::Format_RGB32);
    quint32 noise = static_cast<quint32>(number) + 1;
    for (int y = 0; y < image.height(); ++y) {
        auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < image.width(); ++x) {
            noise = noise * 1664525U + 1013904223U; // Numerical Recipes' generator, from memory
            line[x] = qRgb(x / 16 % 256, y / 12 % 256, static_cast<int>(noise >> 27));
        }
    }
    QBuffer bytes;
    if (!bytes.open(QIODevice::WriteOnly) || !image.save(&bytes, "JPEG", 80))
        std::exit(1);
    return bytes.data();
}

void makeReport(const QByteArray& record, const QString& file)
{
    const auto report = app::ReportOut::of(record, QTimeZone::utc());
    if (!report || !report->save(file, QPageSize::A4)) {
        std::fprintf(stderr, "report_bench: no report was made\n");
        std::exit(1);
    }
}

} // namespace

int main(int count, char** arguments)
{
    const QGuiApplication application(count, arguments);
    if (count > 1 && std::string("record.report_ms").find(arguments[1]) == std::string::npos)
        return 0;
    test::Night opened;
    QList<QByteArray> pictures;
    test::Night night = test::fullNight(opened.opening(), [&](test::Night& begun) {
        for (int number = 0; number < kPictures; ++number) {
            pictures.append(picture(number));
            EXPECT_TRUE(
                begun.tell(visit::PictureKept{begun.swap().id, {}, u"label"_s, sha256(pictures.last())}));
        }
    });
    const QByteArray record = test::signedRecordOf(night, pictures);
    const QTemporaryDir folder;
    std::vector<double> times;
    for (int round = 0; round < kRounds; ++round)
        times.push_back(bench::millisecondsOf([&] { makeReport(record, folder.filePath(u"report.pdf"_s)); }));
    std::fprintf(stderr, "%d entries, %d pictures, record of %lld bytes; fastest %.0f, slowest %.0f ms\n",
                 static_cast<int>(night.entries.size()), kPictures, static_cast<long long>(record.size()),
                 *std::ranges::min_element(times), *std::ranges::max_element(times));
    std::printf("record.report_ms %.0f ms\n", bench::median(times));
    return 0;
}
