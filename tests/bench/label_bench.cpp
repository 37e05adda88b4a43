// Figures of reading labels. Prints `label.name value unit`; an argument is a text that the wanted names
// contain.
#define ZX_USE_UTF8
#include "app/decode_ladder.h"
#include "app/decode_picture.h"
#include "core/catalogue/catalogue.h"
#include "core/label/payload.h"
#include "tests/app/label_pictures.h"
#include "tests/bench/times.h"
#include "tests/core/label/wrong_lamps.h"

#include <QGuiApplication>

#include <ZXing/ReadBarcode.h>
#include <cstdio>

using namespace Qt::StringLiterals;
using namespace coldarc;

namespace {

bool isWanted(const QString& name)
{
    const QStringList arguments = QCoreApplication::arguments();
    return arguments.size() < 2 || name.contains(arguments.at(1));
}

void print(const QString& name, double value, const char* unit)
{
    if (isWanted(name))
        std::printf("%s %g %s\n", qUtf8Printable(name), value, unit);
}

void measureWrongLamps(const QList<catalogue::LampType>& lampTypes)
{
    if (!isWanted(u"label.wrong_passed label.wrong_passed_control label.caught_by label.right_held"_s))
        return;
    const test::Tally tally = test::playWrongLamps(lampTypes, 10'000, 1);
    print(u"label.wrong_passed"_s, tally.wrongPassed, "lamps_of_10000");
    print(u"label.wrong_passed_control"_s, tally.wrongPassedWithoutMarking, "lamps_of_10000");
    print(u"label.right_held"_s, tally.rightHeld, "lamps_of_10000");
    static constexpr std::array<const char*, 4> kSources{"marking", "box", "paper", "entry"};
    QMap<int, int> bySource;
    for (auto it = tally.caughtBy.begin(); it != tally.caughtBy.end(); ++it)
        bySource[it.key().second] += it.value();
    for (auto it = bySource.begin(); it != bySource.end(); ++it)
        print(u"label.caught_by_"_s + QLatin1String(kSources.at(static_cast<size_t>(it.key()))), it.value(),
              "lamps_of_10000");
}

// ---- Pictures ----

constexpr int kPicturesOfACell = 20;

// What the library reads if it is called plainly.
QString plainlyRead(const label::GreyPicture& picture)
{
    const ZXing::ImageView view(picture.pixels.data(), picture.width, picture.height,
                                ZXing::ImageFormat::Lum);
    const ZXing::Result result = ZXing::ReadBarcode(view);
    return result.isValid() ? QString::fromStdString(result.text()) : QString();
}

struct Cell {
    int pictures = 0;
    int plain = 0;
    int ours = 0;
    int misread = 0; ///< something was read that does not stand there
};

Cell& operator+=(Cell& sum, const Cell& one)
{
    sum.pictures += one.pictures;
    sum.plain += one.plain;
    sum.ours += one.ours;
    sum.misread += one.misread;
    return sum;
}

Cell measured(const test::LabelPicture& label)
{
    const label::GreyPicture picture = app::greyOf(label.image);
    Cell cell{1, plainlyRead(picture) == label.text, 0, 0};
    for (const label::FoundCode& code : app::findCodes(picture)) {
        const bool right = label::scanText(code.scanned).text == label.text;
        cell.ours = std::max(cell.ours, int(right));
        cell.misread += !right;
    }
    return cell;
}

void measurePictures()
{
    const bool all =
        isWanted(u"label.linear_ratio label.linear_rate label.matrix_rate label.cell_misreads"_s);
    Cell linear;
    Cell matrix;
    int below = 0;
    for (const test::Code code : test::kEveryCode)
        for (const test::Distortion distortion : test::kEveryDistortion) {
            const QString name = u"label.cell_%1_%2"_s.arg(test::nameOf(code), test::nameOf(distortion));
            if (!all && !isWanted(name))
                continue;
            Cell cell;
            for (std::uint32_t seed = 0; seed < kPicturesOfACell; ++seed)
                cell += measured(test::labelPicture(code, distortion, seed));
            (test::isLinear(code) ? linear : matrix) += cell;
            below += cell.ours < cell.plain;
            print(name + u"_plain"_s, double(cell.plain) / cell.pictures, "share");
            print(name, double(cell.ours) / cell.pictures, "share");
        }
    if (!all)
        return;
    print(u"label.linear_ratio"_s, double(linear.ours) / std::max(linear.plain, 1), "times_plain");
    print(u"label.linear_rate"_s, double(linear.ours) / linear.pictures, "share");
    print(u"label.matrix_rate"_s, double(matrix.ours) / matrix.pictures, "share");
    print(u"label.matrix_plain_rate"_s, double(matrix.plain) / matrix.pictures, "share");
    print(u"label.cells_below_plain"_s, below, "cells");
    print(u"label.cell_misreads"_s, linear.misread + matrix.misread, "readings");
}

// Every code that is said to stand where it does not is a misread; one that is not found is none.
void measureMisreads()
{
    if (!isWanted(u"label.misreads"_s))
        return;
    constexpr std::uint32_t kPictures = 1'000;
    int misreads = 0;
    for (std::uint32_t number = 0; number < kPictures; ++number)
        misreads += measured(test::pictureOfRow(number)).misread;
    print(u"label.misreads"_s, misreads, "of_1000_pictures");
}

void measurePhotos()
{
    if (!isWanted(u"label.photo_ms label.photo_slowest_ms label.photo_read"_s))
        return;
    constexpr std::uint32_t kPhotos = 15;
    std::vector<double> took;
    int read = 0;
    for (std::uint32_t seed = 0; seed < kPhotos; ++seed) {
        const QByteArray bytes = test::photo(test::kEveryCode.at(seed % test::kEveryCode.size()), seed);
        took.push_back(bench::millisecondsOf([&] { read += !app::readingOf(bytes).codes.isEmpty(); }));
    }
    print(u"label.photo_ms"_s, bench::median(took), "ms");
    print(u"label.photo_slowest_ms"_s, *std::ranges::max_element(took), "ms");
    print(u"label.photo_read"_s, double(read) / kPhotos, "share");
}

} // namespace

int main(int argc, char** argv)
{
    QGuiApplication application(argc, argv);
    const QList<catalogue::LampType> lampTypes =
        catalogue::loadCatalogue(QStringLiteral(COLDARC_SOURCE_DIR "/resources/catalogue"))
            .catalogue.lampTypes();
    measureWrongLamps(lampTypes);
    measurePictures();
    measurePhotos();
    measureMisreads();
    return 0;
}
