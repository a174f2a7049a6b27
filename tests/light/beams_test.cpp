// SPDX-License-Identifier: Apache-2.0
// Beams made from few numbers, against their closed forms.
#include "light/beams.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "light/photometry.hpp"

namespace duskwire::light {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double rad = pi / 180;

TEST(Beams, EveryBeamGivesTheFluxAskedFor) {
  for (const Distribution& d :
       {spot_beam(10, 450), spot_beam(60, 450), flood_beam(15, 450), flood_beam(110, 450), wash_beam(110, 70, 450),
        ring_beam(450), half_ring_beam(450), step_beam(120, 450), all_round_beam(450), spot_beam(360, 450)}) {
    EXPECT_NEAR(flux_lm(d), 450, 1e-9);
  }
}

// I0 = flux (n + 1) / (2 pi); n = 20.00 for a beam of 30.00 degrees, 1 for 120 (values.md 5.3).
TEST(Beams, ASpotHasItsBeamAndThePeakOfACosinePower) {
  EXPECT_NEAR(cosine_power_from_beam(120), 1, 1e-12);
  EXPECT_NEAR(cosine_power_from_beam(30.00), 20.0, 0.02);
  for (const double beam_deg : {10.0, 15.0, 24.0, 36.0, 60.0, 120.0}) {
    const Photometry p = photometry_of(spot_beam(beam_deg, 300));
    EXPECT_NEAR(p.beams[0].beam_deg.value(), beam_deg, 0.002 * beam_deg);
    EXPECT_NEAR(p.peak_cd, 300 * (cosine_power_from_beam(beam_deg) + 1) / (2 * pi), 0.002 * p.peak_cd) << beam_deg;
  }
}

// Half at beam / 2 by its formula; a tenth where (g / (beam / 2))^6 = 9: 1.4422 times as wide.
TEST(Beams, AFloodIsEvenInsideAndSteepAtItsEdge) {
  const Photometry p = photometry_of(flood_beam(60, 300));
  EXPECT_NEAR(p.beams[0].beam_deg.value(), 60, 0.1);
  EXPECT_NEAR(p.beams[0].field_deg.value(), 60 * 1.4422, 0.2);
  const Distribution d = flood_beam(60, 300);
  EXPECT_NEAR(intensity_cd(d, 0, 15) / intensity_cd(d, 0, 0), 64.0 / 65, 1e-3);
}

// Flux of cos^n(C) with n(C) = a cos^2 C + b sin^2 C is 2 pi I0 / sqrt((a + 1)(b + 1)).
TEST(Beams, AWashHasTwoBeamsAndTheFluxOfItsClosedForm) {
  const Photometry p = photometry_of(wash_beam(110, 70, 500));
  EXPECT_NEAR(p.beams[0].beam_deg.value(), 70, 0.2);
  EXPECT_NEAR(p.beams[1].beam_deg.value(), 110, 0.3);
  const double a = cosine_power_from_beam(70);
  const double b = cosine_power_from_beam(110);
  EXPECT_NEAR(p.peak_cd, 500 * std::sqrt((a + 1) * (b + 1)) / (2 * pi), 0.003 * p.peak_cd);
}

// 2 pi I0 [2 (cos^-0.5 65 - 1)] inside; outside the line from P at 65 to 0 at 85: integral of (85 - g)/20 sin g dg
// = cos 65 - (sin 85 - sin 65) / (20 rad).
TEST(Beams, ARingHasThePeakOfItsClosedForm) {
  const Photometry p = photometry_of(ring_beam(140));
  const double inside = 2 * (1 / std::sqrt(std::cos(65 * rad)) - 1);
  const double top = std::pow(std::cos(65 * rad), -1.5);
  const double outside = top * (std::cos(65 * rad) - (std::sin(85 * rad) - std::sin(65 * rad)) / (20 * rad));
  EXPECT_NEAR(p.peak_cd, top * 140 / (2 * pi * (inside + outside)), 1e-3 * p.peak_cd);
  EXPECT_EQ(p.peak_gamma_deg, 65);
  EXPECT_EQ(p.up_pct, 0);
}

// The share over the turn is 180 of 360 degrees in the mean: twice the intensity of a ring of the same flux.
TEST(Beams, AHalfRingIsTwiceAsBrightInFrontAndDarkBehind) {
  const Distribution whole = ring_beam(140);
  const Distribution half = half_ring_beam(140);
  EXPECT_NEAR(intensity_cd(half, 0, 65), 2 * intensity_cd(whole, 0, 65), 1e-9);
  EXPECT_NEAR(intensity_cd(half, 90, 40), intensity_cd(whole, 0, 40), 1e-9);
  EXPECT_EQ(intensity_cd(half, 180, 40), 0);
}

// The formula summed over evenly spread ways (a spiral), which knows nothing of the table.
TEST(Beams, AStepLightHasTheFluxOfItsFormulaAndItsCutOff) {
  const int count = 400000;
  double sum = 0;
  for (int i = 0; i < count; ++i) {
    const double z = 1 - (2 * i + 1.0) / count;
    const double turn = i * pi * (3 - std::sqrt(5.0));
    const double x = std::sqrt(1 - z * z) * std::cos(turn);
    const double gamma_deg = std::acos(-z) / rad;
    if (x < 0 || gamma_deg > 80) continue;
    sum += std::max(0.0, (x - z) / std::sqrt(2.0)) * std::min(1.0, (80 - gamma_deg) / 20);
  }
  const Distribution d = step_beam(120, 60);
  const double peak_cd = 60 / (sum * 4 * pi / count);            // on the axis, 45 degrees out and down
  EXPECT_NEAR(intensity_cd(d, 0, 45), peak_cd, 0.04 * peak_cd);  // its table ends 5 degrees behind the wall, not at it
  EXPECT_EQ(intensity_cd(d, 0, 80), 0);
  EXPECT_EQ(intensity_cd(d, 180, 20), 0);
}

TEST(Beams, AnEvenGlowIsItsFluxOverFourPi) {
  EXPECT_NEAR(intensity_cd(all_round_beam(100), 0, 123), 100 / (4 * pi), 1e-9);
}

}  // namespace
}  // namespace duskwire::light
