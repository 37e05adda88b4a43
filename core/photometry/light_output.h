#pragma once

#include "core/photometry/luminance.h"

#include <optional>

namespace coldarc::photometry {

/// The lit picture on a screen.
class ScreenSize {
public:
    static constexpr double kLeastMetres = 0.1;
    static constexpr double kMostMetres = 100;

    /// Nothing unless both are in range.
    [[nodiscard]] static std::optional<ScreenSize> fromMetres(double width, double height);
    /// A screen of this width whose picture has the aspect width by height, like 2.39.
    [[nodiscard]] static std::optional<ScreenSize> fromWidthAndAspect(double width, double aspect);

    [[nodiscard]] double widthM() const { return m_widthM; }
    [[nodiscard]] double heightM() const { return m_heightM; }
    [[nodiscard]] double areaM2() const { return m_widthM * m_heightM; }
    [[nodiscard]] double aspect() const { return m_widthM / m_heightM; }

    friend bool operator==(const ScreenSize&, const ScreenSize&) = default;

private:
    ScreenSize(double widthM, double heightM)
        : m_widthM(widthM)
        , m_heightM(heightM)
    {
    }
    double m_widthM;
    double m_heightM;
};

/// Illuminance in lx of a screen on which `lumens` arrive: E = lumens / area.
/// Pre: lumens finite and not negative.
[[nodiscard]] double illuminanceLux(double lumens, const ScreenSize& screen);

// What the light of a projector and of a screen can be at most; more is a slip of the keyboard. Common
// practice, no source.
inline constexpr double kMostLumens = 1e6;
inline constexpr double kMostGain = 20;
inline constexpr double kMostTransmission = 1;

/// Mean luminance that a screen should show: L = gain * lumens * transmission / (pi * area), the law of a
/// perfect diffuser times the screen's luminance factor.
/// @param lumens        what the projector sends out, lm, > 0 and at most kMostLumens
/// @param gain          luminance factor of the screen towards the meter, > 0 and at most kMostGain; 1 for a
///                      perfect diffuser
/// @param transmission  what port glass, filters and perforation leave of the light, > 0 and at most 1
/// Nothing for values out of range. The gain depends on the angle, so a seat reading on a gain screen is no
/// measure of the projector.
[[nodiscard]] std::optional<Luminance> expectedLuminance(double lumens, const ScreenSize& screen, double gain,
                                                         double transmission = 1);

/// Diameter in m of what a spot meter sees: 2 d tan(angle / 2).
/// Pre: distance >= 0 m, angle from 0 to below 180 degrees.
[[nodiscard]] double spotDiameterM(double distanceM, double acceptanceDegrees);

/// The measured spot should be no wider than a tenth of the screen. Source: SMPTE RP 12-1997 3.3 (READ-2,
/// written for drive-in theatres).
inline constexpr double kWidestSpotOfWidth = 0.1;

} // namespace coldarc::photometry
