// SPDX-License-Identifier: Apache-2.0
// A garden as light sees it: lamps with their distributions, what blocks light, and crowns that let part of it through.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/point.hpp"
#include "geometry/triangle_mesh.hpp"
#include "geometry/vec3.hpp"
#include "light/distribution.hpp"

namespace duskwire::light {

// A lamp as a point. It looks along `aim` (gamma = 0); C = 0 lies in the plane of `aim` and `zero` on zero's side.
struct Lamp {
  geometry::Point3 position;
  geometry::Vec3 aim{0, 0, -1};
  geometry::Vec3 zero{1, 0, 0};
  std::uint32_t distribution = 0;  // index into Scene::distributions
  double share = 1;                // of the table's intensities: dimming times what its volts leave of its light
  double colour_temperature_k = 2700;
  double aperture_m = 0.05;  // across the luminous opening; nearer than ten of them the point is a poor model
};

// A crown as an upright ellipsoid. A ray through its middle keeps `transmittance` of its light; one along a chord c of
// the full width w in that direction keeps transmittance^(c/w) (even foliage, Beer and Lambert).
struct Crown {
  geometry::Point3 centre;
  double half_width_m = 1;
  double half_height_m = 1;
  double transmittance = 0.3;

  bool operator==(const Crown&) const = default;
};

struct Scene {
  std::vector<Distribution> distributions;
  std::vector<Lamp> lamps;
  geometry::TriangleMesh solid;
  std::vector<Crown> crowns;
};

// A place that is lit, and which way it faces (of unit length). A normal of no length turns to each lamp, as some leaf
// of a crown does.
struct Receiver {
  geometry::Point3 position;
  geometry::Vec3 normal{0, 0, 1};
};

}  // namespace duskwire::light
