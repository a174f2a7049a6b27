// SPDX-License-Identifier: Apache-2.0
// The colour of white light by its temperature, and sRGB (IEC 61966-2-1) both ways.
#pragma once

#include <array>

namespace duskwire::light {

// CIE 1931 2 degree.
struct Chromaticity {
  double x = 0;
  double y = 0;
};

using LinearRgb = std::array<double, 3>;

// Weights of linear sRGB in luminance: the middle row of its matrix to XYZ.
inline constexpr LinearRgb luminance_weights{0.2126729, 0.7151522, 0.0721750};

[[nodiscard]] constexpr double luminance(const LinearRgb& rgb) {
  return luminance_weights[0] * rgb[0] + luminance_weights[1] * rgb[1] + luminance_weights[2] * rgb[2];
}

// A black body; from 1000 K.
[[nodiscard]] Chromaticity planckian(double temperature_k);

// Daylight, 4000 to 25000 K.
[[nodiscard]] Chromaticity daylight(double temperature_k);

// A black body below 5000 K, daylight from there on: the choice of CIE 13.3 for its reference lights (from memory).
[[nodiscard]] Chromaticity chromaticity_of_light(double temperature_k);

// Of luminance 1; parts may be below 0 or above 1.
[[nodiscard]] LinearRgb linear_srgb(Chromaticity at);

// What a display shows of a light of luminance 1 to an eye, or camera, for which light of `white_k` is white.
[[nodiscard]] LinearRgb light_colour(double temperature_k, double white_k);

[[nodiscard]] double srgb_encoded(double linear);
[[nodiscard]] double srgb_decoded(double encoded);
// By 8-bit value.
[[nodiscard]] const std::array<float, 256>& srgb_decoded_bytes();

}  // namespace duskwire::light
