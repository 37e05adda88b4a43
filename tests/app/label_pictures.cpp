#include "tests/app/label_pictures.h"

#include <QBuffer>
#include <QPainter>
#include <QPainterPath>

#include <cmath>
#include <random>
#include <vector>
#include <zint.h>

namespace coldarc::test {

using namespace Qt::StringLiterals;

namespace {

constexpr double kFarthestPerspective = 0.4;
constexpr double kMostBlur = 2;
constexpr double kLeastLight = 0.08;
constexpr double kNoise = 3;
constexpr double kGlareShare = 0.2;
constexpr double kMostGlare = 0.75;
constexpr int kJpegQuality = 40;
constexpr double kBarHeight = 0.3; // of the length of a linear code
constexpr int kMargin = 60;        // px of card around the label

using Chance = std::mt19937;

double between(Chance& chance, double least, double most)
{
    return std::uniform_real_distribution<double>(least, most)(chance);
}

int whole(Chance& chance, int least, int most)
{
    return std::uniform_int_distribution<int>(least, most)(chance);
}

int symbologyOf(Code code)
{
    switch (code) {
    case Code::Code128:
        return BARCODE_CODE128;
    case Code::Code39:
        return BARCODE_CODE39;
    case Code::Ean13:
        return BARCODE_EANX;
    case Code::Qr:
        return BARCODE_QRCODE;
    case Code::DataMatrix:
        return BARCODE_DATAMATRIX;
    }
    Q_UNREACHABLE();
}

/// The modules of a code, row by row; a linear code has one row.
struct Modules {
    int width = 0;
    int height = 0;
    std::vector<bool> dark;
};

Modules modulesOf(Code code, const QString& text)
{
    zint_symbol* const symbol = ZBarcode_Create();
    symbol->symbology = symbologyOf(code);
    symbol->option_1 = code == Code::Qr ? 2 : -1; // QR: level M
    symbol->option_3 = code == Code::DataMatrix ? DM_SQUARE : 0;
    const QByteArray bytes = text.toUtf8();
    const int error =
        ZBarcode_Encode(symbol, reinterpret_cast<const unsigned char*>(bytes.constData()), int(bytes.size()));
    Q_ASSERT_X(error < ZINT_ERROR, "modulesOf", "the text can be encoded");
    Modules modules{symbol->width, isLinear(code) ? 1 : symbol->rows, {}};
    for (int y = 0; y < modules.height; ++y)
        for (int x = 0; x < modules.width; ++x)
            modules.dark.push_back((symbol->encoded_data[y][x / 8] >> (x % 8)) & 1);
    ZBarcode_Delete(symbol);
    return modules;
}

QString textFor(Code code, Chance& chance)
{
    const int number = whole(chance, 10'000, 99'999);
    static constexpr std::array<const char16_t*, 4> kTypes{u"HVQ30-40B", u"TWA-K42R5", u"IE0O16-7C",
                                                           u"HVQ21-40A"};
    const QString type = QString::fromUtf16(kTypes.at(std::size_t(whole(chance, 0, 3))));
    switch (code) {
    case Code::Code128:
        return u"TK4-%1"_s.arg(number);
    case Code::Code39:
        return u"HB-%1"_s.arg(number);
    case Code::Ean13: {
        const QString digits = u"2900041%1"_s.arg(number);
        int sum = 0;
        for (int i = 0; i < 12; ++i)
            sum += (i % 2 ? 3 : 1) * digits.at(i).digitValue();
        return digits + QString::number((10 - sum % 10) % 10);
    }
    case Code::Qr:
        return u"TYPE: %1\nS/N: HB-%2"_s.arg(type).arg(number);
    case Code::DataMatrix:
        return u"%1/TK4-%2"_s.arg(type).arg(number);
    }
    Q_UNREACHABLE();
}

// Drawn large and made smaller, as a lens does: no module is a whole number of pixels wide.
QImage drawn(const Modules& modules, double px)
{
    constexpr int kLarge = 8; // px per module
    const bool linear = modules.height == 1;
    const int quiet = linear ? 10 : 4; // modules
    const int high = linear ? int(modules.width * kBarHeight) : 1;
    QImage image((modules.width + 2 * quiet) * kLarge,
                 (modules.height * high + 2 * (linear ? 2 : quiet)) * kLarge, QImage::Format_Grayscale8);
    image.fill(Qt::white);
    QPainter painter(&image);
    for (int y = 0; y < modules.height; ++y)
        for (int x = 0; x < modules.width; ++x)
            if (modules.dark[std::size_t(y * modules.width + x)])
                painter.fillRect((quiet + x) * kLarge, ((linear ? 2 : quiet) + y) * kLarge, kLarge,
                                 high * kLarge, Qt::black);
    painter.end();
    return image
        .scaled(int(image.width() * px / kLarge), int(image.height() * px / kLarge), Qt::IgnoreAspectRatio,
                Qt::SmoothTransformation)
        .convertToFormat(QImage::Format_Grayscale8);
}

void printLines(QPainter& painter, const QRectF& rect, Chance& chance)
{
    QFont font(u"Inter"_s);
    font.setPixelSize(whole(chance, 14, 26));
    painter.setFont(font);
    painter.setPen(Qt::black);
    for (double y = rect.top() + font.pixelSize(); y < rect.bottom(); y += font.pixelSize() * 1.5) {
        QString line;
        for (int n = whole(chance, 6, 26); n > 0; --n)
            line += QChar(char16_t(whole(chance, 0, 4) == 0 ? u' ' : whole(chance, u'0', u'Z')));
        painter.drawText(QPointF(rect.left(), y), line);
    }
}

/// The label on its card, and where the code stands on it.
struct Sheet {
    QImage image;
    QRectF code;
};

Sheet sheetOf(const QImage& code, Chance& chance)
{
    const int print = whole(chance, 40, 120);
    const QSize label(code.width() + 40, code.height() + print + 40);
    QImage image(label.width() + 2 * kMargin, label.height() + 2 * kMargin, QImage::Format_Grayscale8);
    image.fill(QColor::fromHsv(0, 0, whole(chance, 90, 190)));
    QPainter painter(&image);
    painter.translate(kMargin, kMargin);
    painter.fillRect(QRect(QPoint(0, 0), label), QColor::fromHsv(0, 0, whole(chance, 225, 255)));
    painter.setCompositionMode(QPainter::CompositionMode_Multiply);
    painter.drawImage(20, 20, code);
    painter.setCompositionMode(QPainter::CompositionMode_SourceOver);
    printLines(painter, QRectF(20, code.height() + 30, code.width(), print - 10), chance);
    return {image, QRectF(kMargin + 20, kMargin + 20, code.width(), code.height())};
}

QImage mapped(const QImage& image, const QTransform& way)
{
    const QRectF bounds = way.mapRect(QRectF(image.rect()));
    QImage result(int(bounds.width()) + 1, int(bounds.height()) + 1, QImage::Format_Grayscale8);
    result.fill(QColor(120, 120, 120));
    QPainter painter(&result);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.setTransform(way * QTransform::fromTranslate(-bounds.left(), -bounds.top()));
    painter.drawImage(0, 0, image);
    return result;
}

QTransform perspective(const QSize& size, double strength, Chance& chance)
{
    const double w = size.width();
    const double h = size.height();
    const double inX = w * strength / 2;
    const double inY = h * strength / 2;
    const QPolygonF from({{0, 0}, {w, 0}, {w, h}, {0, h}});
    static const auto far = [](double a, double b) { return QPointF(a, b); };
    const std::array<QPolygonF, 4> ways{QPolygonF({far(inX, 0), far(w - inX, 0), {w, h}, {0, h}}),
                                        QPolygonF({{0, 0}, {w, 0}, far(w - inX, h), far(inX, h)}),
                                        QPolygonF({far(0, inY), {w, 0}, {w, h}, far(0, h - inY)}),
                                        QPolygonF({{0, 0}, far(w, inY), far(w, h - inY), {0, h}})};
    QTransform way;
    QTransform::quadToQuad(from, ways.at(std::size_t(whole(chance, 0, 3))), way);
    return way;
}

void blur(QImage& image, double sigma)
{
    const int reach = int(std::ceil(3 * sigma));
    std::vector<double> weights;
    double sum = 0;
    for (int i = -reach; i <= reach; ++i)
        sum += weights.emplace_back(std::exp(-i * i / (2 * sigma * sigma)));
    const auto pass = [&](const QImage& from, int dx, int dy) {
        QImage to(from.size(), QImage::Format_Grayscale8);
        for (int y = 0; y < from.height(); ++y)
            for (int x = 0; x < from.width(); ++x) {
                double value = 0;
                for (int i = -reach; i <= reach; ++i) {
                    const int fromX = std::clamp(x + i * dx, 0, from.width() - 1);
                    const int fromY = std::clamp(y + i * dy, 0, from.height() - 1);
                    value += weights[std::size_t(i + reach)] * from.constScanLine(fromY)[fromX];
                }
                to.scanLine(y)[x] = uchar(std::lround(value / sum));
            }
        return to;
    };
    image = pass(pass(image, 1, 0), 0, 1);
}

void dim(QImage& image, double light, double noise, Chance& chance)
{
    std::normal_distribution<double> grain(0, noise);
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) {
            const double value = image.constScanLine(y)[x] * light + grain(chance);
            image.scanLine(y)[x] = uchar(std::clamp(std::lround(value), 0L, 255L));
        }
}

// An ellipse over that share of the code, brightest in its middle.
void glare(QImage& image, const QRectF& code, double share, double strength, Chance& chance)
{
    const double area = code.width() * code.height() * share;
    const double ratio = between(chance, 0.5, 2);
    const double radiusX = std::sqrt(area * ratio / 3.14159265);
    const double radiusY = std::sqrt(area / ratio / 3.14159265);
    const QPointF middle(between(chance, code.left(), code.right()),
                         between(chance, code.top(), code.bottom()));
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) {
            const double away = std::hypot((x - middle.x()) / radiusX, (y - middle.y()) / radiusY);
            if (away >= 1)
                continue;
            const double lift = strength * (1 - away * away);
            uchar& pixel = image.scanLine(y)[x];
            pixel = uchar(std::lround(pixel + (255 - pixel) * lift));
        }
}

QImage throughJpeg(const QImage& image, int quality)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "JPG", quality);
    return QImage::fromData(bytes).convertToFormat(QImage::Format_Grayscale8);
}

QImage distorted(Sheet sheet, Distortion distortion, Chance& chance)
{
    const bool all = distortion == Distortion::Together;
    const double strength = all ? 0.5 : 1;
    const auto suffers = [&](Distortion one) { return all || distortion == one; };
    if (suffers(Distortion::Glare))
        glare(sheet.image, sheet.code, kGlareShare * strength, kMostGlare * strength, chance);
    QImage image = sheet.image;
    QTransform way;
    if (suffers(Distortion::Perspective))
        way *= perspective(image.size(), kFarthestPerspective * strength * between(chance, 0.5, 1), chance);
    if (suffers(Distortion::Rotation))
        way *= QTransform().rotate(between(chance, 0, 360) * strength);
    if (!way.isIdentity())
        image = mapped(image, way);
    if (suffers(Distortion::Blur))
        blur(image, kMostBlur * strength * between(chance, 0.5, 1));
    if (suffers(Distortion::Dim)) {
        const double least = 1 - (1 - kLeastLight) * strength;
        dim(image, between(chance, least, std::min(1.0, least * 1.5)), kNoise * strength, chance);
    }
    if (suffers(Distortion::Jpeg))
        image = throughJpeg(image, all ? 100 - (100 - kJpegQuality) / 2 : kJpegQuality);
    return image;
}

// The far side of a perspective is smaller: the near one is drawn larger by as much.
double pxOf(Code code, Distortion distortion, Chance& chance)
{
    const double far = distortion == Distortion::Perspective ? 1 - kFarthestPerspective
                       : distortion == Distortion::Together  ? 1 - kFarthestPerspective / 2
                                                             : 1;
    const double least = isLinear(code) ? 4 : 3;
    return between(chance, least, least * 1.5) / far;
}

} // namespace

QString nameOf(Code code)
{
    static const std::array<QString, 5> kNames{u"code_128"_s, u"code_39"_s, u"ean_13"_s, u"qr"_s,
                                               u"data_matrix"_s};
    return kNames.at(std::size_t(code));
}

QString nameOf(Distortion distortion)
{
    static const std::array<QString, 7> kNames{u"rotation"_s, u"perspective"_s, u"blur"_s,    u"dim"_s,
                                               u"glare"_s,    u"jpeg"_s,        u"together"_s};
    return kNames.at(std::size_t(distortion));
}

LabelPicture labelPicture(Code code, Distortion distortion, std::uint32_t seed)
{
    Chance chance(seed * 64 + std::uint32_t(code) * 8 + std::uint32_t(distortion));
    const QString text = textFor(code, chance);
    const double px = pxOf(code, distortion, chance);
    const Sheet sheet = sheetOf(drawn(modulesOf(code, text), px), chance);
    return {distorted(sheet, distortion, chance), text};
}

LabelPicture pictureWithoutCode(Distortion distortion, std::uint32_t seed)
{
    Chance chance(seed * 64 + 56 + std::uint32_t(distortion));
    QImage code(whole(chance, 300, 640), whole(chance, 120, 400), QImage::Format_Grayscale8);
    code.fill(Qt::white);
    QPainter painter(&code);
    switch (whole(chance, 0, 3)) {
    case 0: // stripes of widths like those of a linear code
        for (double x = 20; x < code.width() - 20;) {
            const double wide = whole(chance, 1, 4) * 4.0;
            painter.fillRect(QRectF(x, 4, wide, code.height() - 8), Qt::black);
            x += wide + whole(chance, 1, 4) * 4.0;
        }
        break;
    case 1: // squares like those of a two-dimensional one
        for (int y = 20; y < code.height() - 20; y += 5)
            for (int x = 20; x < code.width() - 20; x += 5)
                if (whole(chance, 0, 1))
                    painter.fillRect(x, y, 5, 5, Qt::black);
        break;
    case 2: // print
        printLines(painter, QRectF(10, 0, code.width(), code.height()), chance);
        break;
    default: // shaded, and grainy
        QLinearGradient shade(0, 0, code.width(), code.height());
        shade.setColorAt(0, Qt::black);
        shade.setColorAt(1, Qt::white);
        painter.fillRect(code.rect(), shade);
    }
    painter.end();
    const Sheet sheet = sheetOf(code, chance);
    return {distorted(sheet, distortion, chance), {}};
}

LabelPicture pictureOfRow(std::uint32_t number)
{
    const Distortion distortion = kEveryDistortion.at(number % kEveryDistortion.size());
    if (number % 3 == 2)
        return pictureWithoutCode(distortion, number);
    return labelPicture(kEveryCode.at(number / 3 % kEveryCode.size()), distortion, number);
}

namespace {

QByteArray photoOf(Code code, const QString& text, Chance& chance)
{
    QImage ground(4000, 3000, QImage::Format_Grayscale8);
    QPainter painter(&ground);
    QLinearGradient light(0, 0, ground.width(), ground.height());
    light.setColorAt(0, QColor(90, 90, 90));
    light.setColorAt(1, QColor(190, 190, 190));
    painter.fillRect(ground.rect(), light);
    const Sheet sheet = sheetOf(drawn(modulesOf(code, text), isLinear(code) ? 7 : 10), chance);
    const QImage label = mapped(sheet.image, QTransform().rotate(between(chance, -40, 40)));
    painter.drawImage(whole(chance, 100, std::max(101, ground.width() - label.width() - 100)),
                      whole(chance, 100, std::max(101, ground.height() - label.height() - 100)), label);
    painter.end();
    dim(ground, 0.8, 4, chance);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    ground.save(&buffer, "JPG", 85);
    return bytes;
}

} // namespace

QByteArray photo(Code code, std::uint32_t seed)
{
    Chance chance(seed);
    const QString text = textFor(code, chance);
    return photoOf(code, text, chance);
}

QByteArray photoOf(const QString& text, std::uint32_t seed)
{
    Chance chance(seed);
    return photoOf(Code::DataMatrix, text, chance);
}

QImage cleanCode(Code code, const QString& text, int pxPerModule)
{
    return drawn(modulesOf(code, text), pxPerModule);
}

} // namespace coldarc::test
