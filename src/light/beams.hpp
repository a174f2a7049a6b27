// SPDX-License-Identifier: Apache-2.0
// Distributions made from few numbers, for lamps without an intensity file. All of type C; each gives exactly the flux
// asked for. Formulas and where they come from: docs/algorithms/photometry.md.
#pragma once

#include "light/distribution.hpp"

namespace duskwire::light {

// Beams narrower or wider are held at these ends: the cosine law has no beam of 180 degrees.
inline constexpr double narrowest_beam_deg = 2;
inline constexpr double widest_beam_deg = 170;

// n of cos^n g whose intensity is half at beam / 2.
[[nodiscard]] double cosine_power_from_beam(double beam_deg);

// I0 cos^n g: an even fall from the axis, as lamps with a reflector or a simple lens have.
[[nodiscard]] Distribution spot_beam(double beam_deg, double flux_lm);

// I0 / (1 + (g / (beam / 2))^6): even over most of the beam, then a steep edge.
[[nodiscard]] Distribution flood_beam(double beam_deg, double flux_lm);

// I0 cos^n(C) g with n(C) = n_up cos^2 C + n_wide sin^2 C: half intensity at wide / 2 to the sides (C 90 and 270) and
// at up / 2 in the plane of C 0.
[[nodiscard]] Distribution wash_beam(double wide_deg, double up_deg, double flux_lm);

// A pool all round a light that stands upright under a hat: I0 cos^-1.5 g out to 65 degrees, from there straight down
// to nothing at 85.
[[nodiscard]] Distribution ring_beam(double flux_lm);

// The same towards C 0 only: whole within 75 degrees to either side, none beyond 105.
[[nodiscard]] Distribution half_ring_beam(double flux_lm);

// A hooded light in a riser or wall: cos^n about an axis that looks out (C 0) and down by 45 degrees, whole to g = 60,
// none from 80 on, none behind the wall.
[[nodiscard]] Distribution step_beam(double beam_deg, double flux_lm);

// The same intensity everywhere: a bare capsule.
[[nodiscard]] Distribution all_round_beam(double flux_lm);

}  // namespace duskwire::light
