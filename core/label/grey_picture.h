#pragma once

#include <cstdint>
#include <vector>

namespace coldarc::label {

/// A picture in grey, row by row from the top, 0 black to 255 white. No row has anything behind it.
struct GreyPicture {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> pixels;

    GreyPicture() = default;
    /// Pre: neither is negative.
    GreyPicture(int wide, int high, std::uint8_t grey = 255);

    [[nodiscard]] bool isEmpty() const { return pixels.empty(); }
    [[nodiscard]] std::uint8_t at(int x, int y) const { return pixels[index(x, y)]; }
    [[nodiscard]] std::uint8_t& at(int x, int y) { return pixels[index(x, y)]; }

    friend bool operator==(const GreyPicture&, const GreyPicture&) = default;

private:
    [[nodiscard]] std::size_t index(int x, int y) const
    {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
    }
};

/// A place in a picture, in pixels from its upper left corner.
struct Place {
    double x = 0;
    double y = 0;

    friend bool operator==(const Place&, const Place&) = default;
};

/// Spread so that the darkest and the brightest hundredth of the pixels become black and white. A picture of
/// one grey stays as it is.
[[nodiscard]] GreyPicture stretched(const GreyPicture& picture);

/// Each block of `factor` by `factor` pixels made one, their mean; a rest at the right and below is left out.
/// Pre: factor >= 1.
[[nodiscard]] GreyPicture reduced(const GreyPicture& picture, int factor);

/// Each pixel made `factor` by `factor`, with even passages between them. Pre: factor >= 1.
[[nodiscard]] GreyPicture enlarged(const GreyPicture& picture, int factor);

/// A window of a picture; what would lie outside is left out.
[[nodiscard]] GreyPicture window(const GreyPicture& picture, int left, int top, int width, int height);

/// Light that lies unevenly is taken out: each pixel becomes its share of the brightest around it.
/// @param reach  how far "around" goes, in pixels; wider than the broadest dark part of a code.
[[nodiscard]] GreyPicture levelled(const GreyPicture& picture, int reach);

/// Edges that were blurred are made steeper: each pixel is pushed away from the mean of those around it.
/// @param reach  how far "around" goes, in pixels.
[[nodiscard]] GreyPicture sharpened(const GreyPicture& picture, int reach);

/// The mean over the square of this reach around each pixel. Takes out noise.
[[nodiscard]] GreyPicture smoothed(const GreyPicture& picture, int reach);

/// A picture turned about its middle, on a sheet large enough for all of it, and the way back.
struct Turned {
    GreyPicture picture;
    double degrees = 0; ///< clockwise as it is seen
    int width = 0;      ///< of the picture that was turned
    int height = 0;

    /// Where a place of the turned picture was before.
    [[nodiscard]] Place before(Place place) const;
};
[[nodiscard]] Turned turned(const GreyPicture& picture, double degrees);

} // namespace coldarc::label
