#define ZX_USE_UTF8
#include "app/decode_ladder.h"

#include "core/label/symbology.h"

#include <ZXing/ReadBarcode.h>
#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <utility>
#include <vector>

namespace coldarc::app {

namespace {

using label::FoundCode;
using label::GreyPicture;
using label::Place;
using ZXing::BarcodeFormat;

constexpr int kRowsThatAgree = 3;
constexpr int kLongestSide = 2'000;  // px; what is tried often is reduced to this
constexpr int kMostCodes = 8;        // in one picture
constexpr int kMostStrips = 24;      // laid over linear codes that were found, to look for others
constexpr double kStripShare = 0.05; // of a linear code's length, to either side
constexpr qsizetype kShortest = 4;   // characters of a linear code that are looked at twice
constexpr double kAskew = 5;         // degrees, for the second look at a code that may be none
constexpr int kReach = 48;           // px; over how far uneven light is levelled
constexpr int kSharp = 3;            // px; over how far blurred edges are made steep

const ZXing::BarcodeFormats kLinear = BarcodeFormat::Code128 | BarcodeFormat::Code39 | BarcodeFormat::EAN13;
const ZXing::BarcodeFormats kMatrix = BarcodeFormat::QRCode | BarcodeFormat::DataMatrix;

/// A code in the picture of one try.
struct Hit {
    QString scanned;
    bool isLinear = false;
    std::array<Place, 4> corners{};
};

/// One try: the picture as it is looked at, and the way back to the one that was given.
struct Try {
    GreyPicture picture;
    std::function<Place(Place)> back;
};

ZXing::DecodeHints ourHints()
{
    ZXing::DecodeHints hints;
    hints.setFormats(kLinear | kMatrix);
    hints.setMinLineCount(kRowsThatAgree);
    return hints;
}

QString textOf(const ZXing::Result& result)
{
    const ZXing::ByteArray& bytes = result.bytes();
    const auto content =
        QByteArray(reinterpret_cast<const char*>(bytes.data()), static_cast<qsizetype>(bytes.size()));
    const QString exact = QString::fromUtf8(content);
    // Bytes that are no UTF-8 are told by the character set that the code names.
    const bool isExact = !exact.contains(QChar::ReplacementCharacter);
    return QString::fromStdString(result.symbologyIdentifier()) +
           (isExact ? exact : QString::fromStdString(result.text()));
}

std::optional<Hit> lookOnce(const GreyPicture& picture)
{
    if (picture.isEmpty())
        return std::nullopt;
    const ZXing::ImageView view(picture.pixels.data(), picture.width, picture.height,
                                ZXing::ImageFormat::Lum);
    const ZXing::Result result = ZXing::ReadBarcode(view, ourHints());
    if (!result.isValid())
        return std::nullopt;
    Hit hit;
    hit.scanned = textOf(result);
    hit.isLinear = kLinear.testFlag(result.format());
    for (std::size_t i = 0; i < 4; ++i) {
        const ZXing::PointI corner = result.position()[static_cast<int>(i)];
        hit.corners.at(i) = {double(corner.x), double(corner.y)};
    }
    return hit;
}

// A linear code is told by the line that it was read along: a strip to either side of it is its place.
void widen(Hit& hit)
{
    const Place from = hit.corners[0];
    const Place to =
        hit.corners[1].x == from.x && hit.corners[1].y == from.y ? hit.corners[2] : hit.corners[1];
    const Place along{(to.x - from.x) * kStripShare, (to.y - from.y) * kStripShare};
    hit.corners = {Place{from.x + along.y, from.y - along.x}, Place{to.x + along.y, to.y - along.x},
                   Place{to.x - along.y, to.y + along.x}, Place{from.x - along.y, from.y + along.x}};
}

// Whether a place lies inside corners that go round, whichever way.
bool isInside(const std::array<Place, 4>& corners, double x, double y)
{
    int left = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        const Place& a = corners.at(i);
        const Place& b = corners.at((i + 1) % 4);
        left += (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x) >= 0 ? 1 : 0;
    }
    return left == 0 || left == 4;
}

void cover(GreyPicture& picture, const std::array<Place, 4>& corners)
{
    const auto [left, right] = std::ranges::minmax(corners, {}, &Place::x);
    const auto [top, bottom] = std::ranges::minmax(corners, {}, &Place::y);
    const auto within = [](double value, int size) { return std::clamp(static_cast<int>(value), 0, size); };
    for (int y = within(top.y, picture.height); y < within(bottom.y + 1, picture.height); ++y)
        for (int x = within(left.x, picture.width); x < within(right.x + 1, picture.width); ++x)
            if (isInside(corners, x, y))
                picture.at(x, y) = 255;
}

/// Finds one after the other, each covered before the next is looked for. The library can look for several at
/// once, and then ends the process where two linear codes say the same.
QList<Hit> lookForAll(const GreyPicture& picture)
{
    QList<Hit> hits;
    auto hit = lookOnce(picture);
    if (!hit)
        return hits;
    GreyPicture covered = picture;
    for (int strips = 0; hit && strips < kMostStrips && hits.size() < kMostCodes; ++strips) {
        if (hit->isLinear)
            widen(*hit);
        cover(covered, hit->corners);
        if (std::ranges::find(hits, hit->scanned, &Hit::scanned) == hits.end())
            hits.append(*hit);
        hit = lookOnce(covered);
    }
    return hits;
}

// How a code lies, in degrees clockwise; turning back by as much lays it level.
double slantOf(const std::array<Place, 4>& corners)
{
    return std::atan2(corners[1].y - corners[0].y, corners[1].x - corners[0].x) * 180 / std::numbers::pi;
}

/// Whether such a code does not come out of stripes that are none. The one check digit of an EAN does not
/// keep it from that, nor do the few bars of a short one: of some five thousand pictures without a code one
/// showed an EAN, and one a Code 128 of two digits.
bool isSure(const Hit& hit)
{
    const label::ScanText scanned = label::scanText(hit.scanned);
    const bool isShort = hit.isLinear && scanned.text.size() <= kShortest;
    return scanned.id && scanned.id->isChecked() && scanned.id->symbology != label::Symbology::Ean &&
           !isShort;
}

// Stripes that are no code may be read as one by rows that lie close together. Once they are turned by a few
// degrees, every row crosses others.
bool isReadAgainAskew(const Hit& hit, const GreyPicture& picture)
{
    const QList<Hit> again = lookForAll(label::turned(picture, kAskew - slantOf(hit.corners)).picture);
    return std::ranges::find(again, hit.scanned, &Hit::scanned) != again.end();
}

/// The tries in their order, each made only when its turn comes: cheap and likely ones first.
class Ladder {
public:
    explicit Ladder(const GreyPicture& picture)
        : m_picture(picture)
        , m_factor((std::max(picture.width, picture.height) + kLongestSide - 1) / kLongestSide)
    {
        addWhole();
        addTurned();
        addEnlarged();
        addWindows();
    }

    [[nodiscard]] std::size_t size() const { return m_tries.size(); }
    [[nodiscard]] Try at(std::size_t number) { return m_tries.at(number)(); }

    /// What else lies as a code that was found does, once that is turned back.
    [[nodiscard]] Try turnedBy(double degrees) { return turned(clear(), degrees, m_factor); }

private:
    [[nodiscard]] const GreyPicture& clear()
    {
        if (m_clear.isEmpty())
            m_clear = label::stretched(label::reduced(m_picture, m_factor));
        return m_clear;
    }

    [[nodiscard]] static Try whole(GreyPicture picture, double factor)
    {
        return {std::move(picture), [factor](Place place) {
                    return Place{place.x * factor, place.y * factor};
                }};
    }

    [[nodiscard]] static Try turned(const GreyPicture& from, double degrees, double factor)
    {
        label::Turned turned = label::turned(from, degrees);
        GreyPicture picture = std::exchange(turned.picture, GreyPicture(0, 0));
        turned.picture.width = picture.width; // the way back needs its size only
        turned.picture.height = picture.height;
        return {std::move(picture), [turned, factor](Place place) {
                    const Place before = turned.before(place);
                    return Place{before.x * factor, before.y * factor};
                }};
    }

    void addWhole()
    {
        const auto asGiven = [this] { return whole(m_picture, 1); };
        if (m_factor == 1)
            m_tries.emplace_back(asGiven);
        m_tries.emplace_back([this] { return whole(clear(), m_factor); });
        m_tries.emplace_back([this] { return whole(label::reduced(clear(), 2), m_factor * 2); });
        m_tries.emplace_back([this] { return whole(label::levelled(clear(), kReach), m_factor); });
        m_tries.emplace_back([this] { return whole(label::smoothed(clear(), 1), m_factor); });
        m_tries.emplace_back([this] { return whole(sharp(), m_factor); });
        if (m_factor > 1) // a photo holds more than a code needs
            m_tries.emplace_back(asGiven);
    }

    // A row of a linear code holds all of its bars up to some 15 degrees to either side.
    void addTurned()
    {
        for (const double degrees : {45, 30, 60, 15, 75})
            m_tries.emplace_back([this, degrees] { return turned(clear(), degrees, m_factor); });
        for (const double degrees : {45, 30, 60})
            m_tries.emplace_back([this, degrees] { return turned(sharp(), degrees, m_factor); });
        for (const double degrees : {45, 30, 60, 15, 75})
            m_tries.emplace_back([this, degrees] { return turned(gentle(), degrees, m_factor); });
    }

    void addEnlarged()
    {
        if (std::max(m_picture.width, m_picture.height) > kLongestSide / 2)
            return;
        for (const double degrees : {0, 45, 30, 60})
            m_tries.emplace_back([this, degrees] {
                const GreyPicture large = label::levelled(label::enlarged(clear(), 2), kReach * 2 / 3);
                return turned(label::sharpened(large, 2 * kSharp), degrees, 0.5);
            });
        for (const double degrees : {0, 45, 60})
            m_tries.emplace_back([this, degrees] {
                return turned(label::sharpened(label::enlarged(clear(), 3), 3 * kSharp), degrees, 1 / 3.0);
            });
    }

    // A two-dimensional code is looked for from the middle of the picture.
    void addWindows()
    {
        for (const auto from : {&Ladder::sharp, &Ladder::gentle})
            for (const double degrees : {0, 45, 20})
                for (int number = 0; number < 9; ++number)
                    m_tries.emplace_back([this, from, degrees, number] {
                        return windowAt(number % 3, number / 3, (this->*from)(), degrees);
                    });
    }

    // Of nine windows, each half as wide and half as high as the picture.
    [[nodiscard]] Try windowAt(int across, int down, const GreyPicture& from, double degrees)
    {
        const int left = from.width * across / 4;
        const int top = from.height * down / 4;
        Try look = turned(label::window(from, left, top, from.width / 2, from.height / 2), degrees, 1);
        look.back = [inside = look.back, left, top, factor = m_factor](Place place) {
            const Place before = inside(place);
            return Place{(before.x + left) * factor, (before.y + top) * factor};
        };
        return look;
    }

    [[nodiscard]] const GreyPicture& sharp()
    {
        if (m_sharp.isEmpty())
            m_sharp = label::sharpened(clear(), kSharp);
        return m_sharp;
    }

    // Grain taken out, and light made even.
    [[nodiscard]] const GreyPicture& gentle()
    {
        if (m_gentle.isEmpty())
            m_gentle = label::levelled(label::smoothed(clear(), 1), kReach);
        return m_gentle;
    }

    const GreyPicture& m_picture;
    int m_factor;
    GreyPicture m_clear;
    GreyPicture m_sharp;
    GreyPicture m_gentle;
    std::vector<std::function<Try()>> m_tries;
};

FoundCode foundBy(const Hit& hit, const std::function<Place(Place)>& back)
{
    FoundCode code{hit.scanned, {}};
    for (std::size_t i = 0; i < 4; ++i)
        code.corners.at(i) = back(hit.corners.at(i));
    return code;
}

void add(QList<FoundCode>& codes, const Try& look)
{
    for (const Hit& hit : lookForAll(look.picture)) {
        const bool isNew = std::ranges::find(codes, hit.scanned, &FoundCode::scanned) == codes.end();
        if (isNew && (isSure(hit) || isReadAgainAskew(hit, look.picture)))
            codes.append(foundBy(hit, look.back));
    }
}

} // namespace

QList<FoundCode> findCodes(const GreyPicture& picture)
{
    QList<FoundCode> codes;
    if (picture.isEmpty())
        return codes;
    Ladder ladder(picture);
    for (std::size_t number = 0; codes.isEmpty() && number < ladder.size(); ++number)
        add(codes, ladder.at(number));
    // What else is on the same label lies as this one does.
    if (!codes.isEmpty())
        add(codes, ladder.turnedBy(-slantOf(codes.front().corners)));
    std::ranges::stable_sort(codes, {}, [](const FoundCode& code) { return code.corners[0].y; });
    return codes;
}

} // namespace coldarc::app
