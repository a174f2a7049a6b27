// SPDX-License-Identifier: Apache-2.0
// How much light a luminaire sends which way: a table of intensities, as intensity files hold it.
//
// Frame of a luminaire (right-handed): z is its photometric zero, reversed: gamma = 0 looks along -z, gamma = 180
// along +z. C = 0 looks along +x, C counts from x to y (counter-clockwise seen from +z, LM-63-02 sec. 3).
// Type C: direction (sin g cos C, sin g sin C, -cos g).
// Types B and A, in a frame of their own (right, up, axis; derived from the rule for their axes in LM-63-02 sec. 3):
// B (sin H, cos H sin V, cos H cos V), A (cos V sin H, sin V, cos V cos H). `direction_cd` lays their axis along -z,
// their "up" along +x and so their "right" along +y.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/vec3.hpp"

namespace duskwire::light {

enum class PhotometricType : std::uint8_t { c = 0, b = 1, a = 2 };

// Angles ascend. Type C: `horizontal_deg` holds C over the whole circle, 0 to 360 with both ends, or 0 alone where the
// light is the same all round; `vertical_deg` holds gamma within 0 to 180, dark outside. Readers unfold symmetries
// first. Types A and B: horizontal and vertical angles within -90 to 90 (the turn about the shared axis, H of type A
// and V of type B, may go to 180 either way), unfolded likewise, dark outside.
struct Distribution {
  PhotometricType type = PhotometricType::c;
  std::vector<double> horizontal_deg;
  std::vector<double> vertical_deg;
  std::vector<double> intensity_cd;  // [horizontal][vertical], candela with every factor of the file applied

  bool operator==(const Distribution&) const = default;
};

// Angles of a way in a table's own terms. At a pole, where the turn is anything, it is 0.
struct PhotometricAngles {
  double horizontal_deg = 0;
  double vertical_deg = 0;
};
[[nodiscard]] PhotometricAngles angles_from_way(PhotometricType type, geometry::Vec3 way);
[[nodiscard]] geometry::Vec3 way_from_angles(PhotometricType type, PhotometricAngles angles);

// Linear in both angles between the table's entries; 0 outside of its range. C may be any turn.
[[nodiscard]] double intensity_cd(const Distribution& distribution, double horizontal_deg, double vertical_deg);

// By a way in the luminaire's frame, of any length but 0.
[[nodiscard]] double direction_cd(const Distribution& distribution, geometry::Vec3 way);

// Integral over the sphere, exact for the interpolation linear in both angles.
[[nodiscard]] double flux_lm(const Distribution& distribution);

}  // namespace duskwire::light
