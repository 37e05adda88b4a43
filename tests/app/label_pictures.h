#pragma once

#include <QByteArray>
#include <QImage>
#include <QString>

#include <array>
#include <cstdint>

namespace coldarc::test {

enum class Code : std::uint8_t {
    Code128,
    Code39,
    Ean13,
    Qr,
    DataMatrix,
};
inline constexpr std::array<Code, 5> kEveryCode{Code::Code128, Code::Code39, Code::Ean13, Code::Qr,
                                                Code::DataMatrix};
[[nodiscard]] constexpr bool isLinear(Code code)
{
    return code != Code::Qr && code != Code::DataMatrix;
}

/// What a picture suffers, and how much at worst; at "half strength" each is half of it. Source: our own
/// choice, no measured pictures.
enum class Distortion : std::uint8_t {
    Rotation,    ///< 0 to 359 degrees
    Perspective, ///< the far side 1 - 0.2 to 1 - 0.4 of the near one
    Blur,        ///< Gaussian, sigma 1 to 2 px
    Dim,         ///< light 8 to 12 %, noise of sigma 3 (of 255)
    Glare,    ///< a bright patch over a fifth of the code's area, up to 3/4 of the way to white in its middle
    Jpeg,     ///< quality 40
    Together, ///< all of them at half strength
};
inline constexpr std::array<Distortion, 7> kEveryDistortion{
    Distortion::Rotation, Distortion::Perspective, Distortion::Blur,    Distortion::Dim,
    Distortion::Glare,    Distortion::Jpeg,        Distortion::Together};

[[nodiscard]] QString nameOf(Code code);
[[nodiscard]] QString nameOf(Distortion distortion);

/// A picture of a label, and what its code says.
struct LabelPicture {
    QImage image; ///< grey
    QString text; ///< without the symbology identifier; empty where there is no code
};

/// The same seed gives the same picture. The code is made by libzint; a module of it is at least 4 px wide
/// for linear codes and 3 px for two-dimensional ones, also at the far side of a perspective. What it says is
/// invented.
[[nodiscard]] LabelPicture labelPicture(Code code, Distortion distortion, std::uint32_t seed);

/// A picture without any code that does its best to look like one: stripes, print, squares, noise, shaded.
[[nodiscard]] LabelPicture pictureWithoutCode(Distortion distortion, std::uint32_t seed);

/// Picture `number` of the long row: two of three bear a code, every code and every distortion in turn.
[[nodiscard]] LabelPicture pictureOfRow(std::uint32_t number);

/// A photo of 4000 by 3000 px: a label somewhere on a grainy, unevenly lit ground, as JPEG.
[[nodiscard]] QByteArray photo(Code code, std::uint32_t seed);
/// The same with this text in a Data Matrix.
[[nodiscard]] QByteArray photoOf(const QString& text, std::uint32_t seed);

/// The code alone, clean and level, at so many px per module, as libzint makes it.
[[nodiscard]] QImage cleanCode(Code code, const QString& text, int pxPerModule);

} // namespace coldarc::test
