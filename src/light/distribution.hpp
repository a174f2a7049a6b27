// SPDX-License-Identifier: Apache-2.0
// How much light a luminaire sends which way: a table of intensities, as intensity files hold it.
//
// Frame of a luminaire (right-handed): z is its photometric zero, reversed: gamma = 0 looks along -z, gamma = 180
// along +z. C = 0 looks along +x, C counts from x to y (counter-clockwise seen from +z, LM-63-02 sec. 3).
// Type C: direction (sin g cos C, sin g sin C, -cos g). Types B and A: x right, y up, axis along z (values.md 5.1);
// `direction_cd` turns them so that their axis too looks along -z and their "up" along +x.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/vec3.hpp"

namespace duskwire::light {

enum class PhotometricType : std::uint8_t { c = 0, b = 1, a = 2 };

// Angles ascend. Type C: `horizontal_deg` holds C over the whole circle, 0 to 360 with both ends, or 0 alone where the
// light is the same all round; `vertical_deg` holds gamma within 0 to 180, dark outside. Readers unfold symmetries
// first. Types A and B: horizontal and vertical angles within -90 to 90 (B: horizontal to 180), unfolded likewise.
struct Distribution {
  PhotometricType type = PhotometricType::c;
  std::vector<double> horizontal_deg;
  std::vector<double> vertical_deg;
  std::vector<double> intensity_cd;  // [horizontal][vertical], candela with every factor of the file applied

  bool operator==(const Distribution&) const = default;
};

// Linear in both angles between the table's entries; 0 outside of its vertical range.
[[nodiscard]] double intensity_cd(const Distribution& distribution, double horizontal_deg, double vertical_deg);

// By a way in the luminaire's frame, of any length but 0.
[[nodiscard]] double direction_cd(const Distribution& distribution, geometry::Vec3 way);

// Integral over the sphere, exact for the linear interpolation in angle (values.md 5.3 holds the closed forms).
[[nodiscard]] double flux_lm(const Distribution& distribution);

}  // namespace duskwire::light
