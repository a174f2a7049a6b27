// SPDX-License-Identifier: Apache-2.0
// Chromaticities and sRGB against figures from outside; where each is from stands beside it.
#include "light/colour.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace duskwire::light {
namespace {

// Summed at 1 nm from 360 to 830 nm with an independent program over the CIE 1931 table (the 4000 K row agrees with the
// tests of the colour-science library: u 0.2251097, v 0.3343874). 8-bit values from the same program.
struct BlackBody {
  double temperature_k, x, y;
  LinearRgb linear;  // brightest part 1
  std::array<int, 3> bytes;
};
constexpr BlackBody black_bodies[] = {
    {2700, 0.45986, 0.41060, {1, 0.4153, 0.0991}, {255, 173, 89}},
    {3000, 0.43693, 0.40408, {1, 0.4768, 0.1537}, {255, 184, 109}},
    {4000, 0.38044, 0.37675, {1, 0.6536, 0.3774}, {255, 211, 165}},
};

TEST(Colour, PlanckianChromaticityIsTheSumOverTheObserver) {
  for (const BlackBody& body : black_bodies) {
    const Chromaticity found = planckian(body.temperature_k);
    EXPECT_NEAR(found.x, body.x, 0.00005) << body.temperature_k;
    EXPECT_NEAR(found.y, body.y, 0.00005) << body.temperature_k;
  }
}

TEST(Colour, PlanckianLightInSrgb) {
  for (const BlackBody& body : black_bodies) {
    LinearRgb rgb = linear_srgb(planckian(body.temperature_k));
    EXPECT_NEAR(luminance(rgb), 1, 1e-6);
    const double most = *std::max_element(rgb.begin(), rgb.end());
    for (std::size_t c = 0; c < 3; ++c) {
      EXPECT_NEAR(rgb[c] / most, body.linear[c], 0.0002) << body.temperature_k;
      EXPECT_EQ(std::lround(255 * srgb_encoded(rgb[c] / most)), body.bytes[c]) << body.temperature_k;
    }
  }
}

// The daylight locus of CIE 015; first row as in the tests of the colour-science library.
TEST(Colour, DaylightLocus) {
  EXPECT_NEAR(daylight(4000).x, 0.382344, 1e-6);
  EXPECT_NEAR(daylight(4000).y, 0.383766, 1e-6);
  EXPECT_NEAR(daylight(5000).x, 0.345741, 1e-6);
  EXPECT_NEAR(daylight(5000).y, 0.358666, 1e-6);
  EXPECT_NEAR(daylight(6500).x, 0.312779, 1e-6);
  EXPECT_NEAR(daylight(6500).y, 0.329183, 1e-6);
  EXPECT_NEAR(daylight(7000).x, daylight(7000.001).x, 1e-4);
}

// IEC 61966-2-1; 0.18 as in the tests of the colour-science library.
TEST(Colour, SrgbBothWays) {
  EXPECT_NEAR(srgb_encoded(0.001), 0.01292, 1e-9);
  EXPECT_NEAR(srgb_encoded(0.18), 0.461356130, 1e-8);
  EXPECT_NEAR(srgb_encoded(0.5), 0.735356983, 1e-8);
  EXPECT_NEAR(srgb_decoded(0.5), 0.214041140, 1e-8);
  EXPECT_NEAR(srgb_decoded_bytes()[128], 0.215860500, 1e-7);
  EXPECT_NEAR(srgb_decoded_bytes()[10], 0.003035270, 1e-8);
  EXPECT_NEAR(srgb_decoded_bytes()[11], 0.003346536, 1e-8);
  for (int byte = 0; byte < 256; ++byte) {
    EXPECT_EQ(std::lround(255 * srgb_encoded(srgb_decoded_bytes()[static_cast<std::size_t>(byte)])), byte);
  }
}

TEST(Colour, LightOfTheWhiteIsWhite) {
  for (const double temperature_k : {2700.0, 3200.0, 6500.0}) {
    for (const double part : light_colour(temperature_k, temperature_k)) EXPECT_NEAR(part, 1, 0.001);
  }
}

TEST(Colour, WarmerThanWhiteIsReddishAndKeepsItsLuminance) {
  const LinearRgb warm = light_colour(2200, 3200);
  const LinearRgb cool = light_colour(5000, 3200);
  EXPECT_GT(warm[0], warm[2] * 1.5);
  EXPECT_GT(cool[2], cool[0] * 1.5);
  EXPECT_NEAR(luminance(warm), 1, 1e-6);
  EXPECT_NEAR(luminance(cool), 1, 1e-6);
}

}  // namespace
}  // namespace duskwire::light
