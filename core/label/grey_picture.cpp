#include "core/label/grey_picture.h"

#include <QtGlobal>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

namespace coldarc::label {

namespace {

std::uint8_t grey(double value)
{
    return static_cast<std::uint8_t>(std::clamp(value, 0.0, 255.0) + 0.5);
}

std::size_t sizeOf(int width, int height)
{
    return static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
}

// The grey below which a hundredth of the pixels lies, and the one above which another hundredth does.
std::pair<int, int> hundredths(const GreyPicture& picture)
{
    std::array<std::size_t, 256> counts{};
    for (const std::uint8_t pixel : picture.pixels)
        ++counts[pixel];
    const std::size_t share = picture.pixels.size() / 100;
    int low = 0;
    for (std::size_t seen = counts[0]; seen <= share && low < 255;)
        seen += counts[static_cast<std::size_t>(++low)];
    int high = 255;
    for (std::size_t seen = counts[255]; seen <= share && high > 0;)
        seen += counts[static_cast<std::size_t>(--high)];
    return {low, high};
}

/// Sums over the rectangle from the upper left corner, to take means over any square at once.
class Sums {
public:
    explicit Sums(const GreyPicture& picture)
        : m_width(picture.width)
        , m_height(picture.height)
        , m_sums(sizeOf(m_width + 1, m_height + 1))
    {
        for (int y = 0; y < m_height; ++y) {
            std::uint32_t row = 0;
            for (int x = 0; x < m_width; ++x) {
                row += picture.at(x, y);
                m_sums[index(x + 1, y + 1)] = m_sums[index(x + 1, y)] + row;
            }
        }
    }

    [[nodiscard]] double mean(int x, int y, int reach) const
    {
        const int left = std::max(x - reach, 0);
        const int right = std::min(x + reach + 1, m_width);
        const int top = std::max(y - reach, 0);
        const int bottom = std::min(y + reach + 1, m_height);
        const std::uint32_t sum = m_sums[index(right, bottom)] - m_sums[index(left, bottom)] -
                                  m_sums[index(right, top)] + m_sums[index(left, top)];
        return static_cast<double>(sum) / static_cast<double>(sizeOf(right - left, bottom - top));
    }

private:
    [[nodiscard]] std::size_t index(int x, int y) const
    {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(m_width + 1) +
               static_cast<std::size_t>(x);
    }

    int m_width;
    int m_height;
    std::vector<std::uint32_t> m_sums; // wraps round beyond 2^32; differences stay right
};

template<class Make>
GreyPicture made(const GreyPicture& like, Make make)
{
    GreyPicture result(like.width, like.height);
    for (int y = 0; y < like.height; ++y)
        for (int x = 0; x < like.width; ++x)
            result.at(x, y) = make(x, y);
    return result;
}

// The brightest of each block of `reach` pixels, taken over a block and its neighbours.
GreyPicture brightest(const GreyPicture& picture, int reach)
{
    GreyPicture blocks((picture.width + reach - 1) / reach, (picture.height + reach - 1) / reach, 0);
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x) {
            std::uint8_t& block = blocks.at(x / reach, y / reach);
            block = std::max(block, picture.at(x, y));
        }
    return blocks;
}

// The grey between four pixels; a place is told from the middle of the first pixel.
double between(const GreyPicture& picture, double x, double y)
{
    const double across = std::clamp(x, 0.0, static_cast<double>(picture.width - 1));
    const double down = std::clamp(y, 0.0, static_cast<double>(picture.height - 1));
    const int left = static_cast<int>(across);
    const int top = static_cast<int>(down);
    const int right = std::min(left + 1, picture.width - 1);
    const int bottom = std::min(top + 1, picture.height - 1);
    const double toRight = across - left; // std::lerp is exact where it need not be, and ten times slower
    const double upper = picture.at(left, top) + toRight * (picture.at(right, top) - picture.at(left, top));
    const double lower =
        picture.at(left, bottom) + toRight * (picture.at(right, bottom) - picture.at(left, bottom));
    return upper + (down - top) * (lower - upper);
}

struct Direction {
    double cosine;
    double sine;

    explicit Direction(double degrees)
        : cosine(std::cos(degrees * std::numbers::pi / 180))
        , sine(std::sin(degrees * std::numbers::pi / 180))
    {
    }
};

} // namespace

GreyPicture::GreyPicture(int wide, int high, std::uint8_t grey)
    : width(wide)
    , height(high)
    , pixels(sizeOf(wide, high), grey)
{
    Q_ASSERT_X(wide >= 0 && high >= 0, "GreyPicture", "no side is negative");
}

GreyPicture stretched(const GreyPicture& picture)
{
    const auto [low, high] = hundredths(picture);
    if (low >= high)
        return picture;
    std::array<std::uint8_t, 256> becomes{};
    for (int value = 0; value < 256; ++value)
        becomes[static_cast<std::size_t>(value)] = grey((value - low) * 255.0 / (high - low));
    GreyPicture result = picture;
    for (std::uint8_t& pixel : result.pixels)
        pixel = becomes[pixel];
    return result;
}

GreyPicture reduced(const GreyPicture& picture, int factor)
{
    Q_ASSERT_X(factor >= 1, "reduced", "a picture is not reduced by less than one");
    if (factor == 1)
        return picture;
    GreyPicture result(picture.width / factor, picture.height / factor);
    const int pixels = factor * factor;
    for (int y = 0; y < result.height; ++y)
        for (int x = 0; x < result.width; ++x) {
            int sum = pixels / 2;
            for (int dy = 0; dy < factor; ++dy)
                for (int dx = 0; dx < factor; ++dx)
                    sum += picture.at(x * factor + dx, y * factor + dy);
            result.at(x, y) = static_cast<std::uint8_t>(sum / pixels);
        }
    return result;
}

GreyPicture enlarged(const GreyPicture& picture, int factor)
{
    Q_ASSERT_X(factor >= 1, "enlarged", "a picture is not enlarged by less than one");
    GreyPicture result(picture.width * factor, picture.height * factor);
    for (int y = 0; y < result.height; ++y)
        for (int x = 0; x < result.width; ++x)
            result.at(x, y) = grey(between(picture, (x + 0.5) / factor - 0.5, (y + 0.5) / factor - 0.5));
    return result;
}

GreyPicture window(const GreyPicture& picture, int left, int top, int width, int height)
{
    const int fromX = std::clamp(left, 0, picture.width);
    const int fromY = std::clamp(top, 0, picture.height);
    GreyPicture result(std::clamp(left + width, fromX, picture.width) - fromX,
                       std::clamp(top + height, fromY, picture.height) - fromY);
    for (int y = 0; y < result.height; ++y)
        for (int x = 0; x < result.width; ++x)
            result.at(x, y) = picture.at(fromX + x, fromY + y);
    return result;
}

GreyPicture levelled(const GreyPicture& picture, int reach)
{
    if (picture.isEmpty())
        return picture;
    const GreyPicture blocks = brightest(picture, reach);
    return made(picture, [&](int x, int y) {
        const double light = between(blocks, (x + 0.5) / reach - 0.5, (y + 0.5) / reach - 0.5);
        return light < 1 ? picture.at(x, y) : grey(picture.at(x, y) * 255.0 / light);
    });
}

GreyPicture sharpened(const GreyPicture& picture, int reach)
{
    constexpr double kPush = 1.5;
    const Sums sums(picture);
    return made(picture, [&](int x, int y) {
        const double value = picture.at(x, y);
        return grey(value + kPush * (value - sums.mean(x, y, reach)));
    });
}

GreyPicture smoothed(const GreyPicture& picture, int reach)
{
    const Sums sums(picture);
    return made(picture, [&](int x, int y) { return grey(sums.mean(x, y, reach)); });
}

Place Turned::before(Place place) const
{
    const Direction way(degrees);
    const double x = place.x - picture.width / 2.0;
    const double y = place.y - picture.height / 2.0;
    return {x * way.cosine + y * way.sine + width / 2.0, y * way.cosine - x * way.sine + height / 2.0};
}

Turned turned(const GreyPicture& picture, double degrees)
{
    const Direction way(degrees);
    const double across = std::abs(picture.width * way.cosine) + std::abs(picture.height * way.sine);
    const double down = std::abs(picture.width * way.sine) + std::abs(picture.height * way.cosine);
    Turned result{GreyPicture(static_cast<int>(std::ceil(across)), static_cast<int>(std::ceil(down)), 127),
                  degrees, picture.width, picture.height};
    for (int y = 0; y < result.picture.height; ++y) {
        Place from = result.before({0.5, y + 0.5}); // one pixel further is one step along the way back
        for (int x = 0; x < result.picture.width; ++x, from.x += way.cosine, from.y -= way.sine)
            if (from.x >= 0 && from.y >= 0 && from.x < picture.width && from.y < picture.height)
                result.picture.at(x, y) = grey(between(picture, from.x - 0.5, from.y - 0.5));
    }
    return result;
}

} // namespace coldarc::label
