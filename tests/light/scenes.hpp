// SPDX-License-Identifier: Apache-2.0
// Small scenes and distributions by formula, for the tests of this room.
#pragma once

#include <cmath>
#include <functional>
#include <numbers>

#include "light/scene.hpp"

namespace duskwire::light::testing {

inline constexpr double pi = std::numbers::pi;

// A type C table by steps: value(C in rad, gamma in rad) in cd. A C step of 0 makes it the same all round.
inline Distribution table(double c_step_deg, double gamma_step_deg, double last_gamma_deg,
                          const std::function<double(double, double)>& value) {
  Distribution d;
  d.horizontal_deg = {0};
  if (c_step_deg > 0) {
    for (int i = 1; i * c_step_deg <= 360; ++i) d.horizontal_deg.push_back(i * c_step_deg);
  }
  for (int i = 0; i * gamma_step_deg <= last_gamma_deg; ++i) d.vertical_deg.push_back(i * gamma_step_deg);
  for (const double c_deg : d.horizontal_deg) {
    for (const double gamma_deg : d.vertical_deg) {
      d.intensity_cd.push_back(value(c_deg * pi / 180, gamma_deg * pi / 180));
    }
  }
  return d;
}

// I0 cos^n gamma over the lower half.
inline Distribution cosine_power(double peak_cd, int power) {
  return table(0, 1, 90,
               [=](double, double gamma) { return peak_cd * std::pow(std::max(0.0, std::cos(gamma)), power); });
}

inline Distribution isotropic(double cd) {
  return table(0, 90, 180, [=](double, double) { return cd; });
}

inline void add_quad(geometry::TriangleMesh& mesh, geometry::Point3 corner, geometry::Vec3 side, geometry::Vec3 other) {
  const auto first = static_cast<std::uint32_t>(mesh.points_m.size());
  for (const geometry::Point3 p : {corner, corner + side, corner + side + other, corner + other}) {
    mesh.points_m.push_back({static_cast<float>(p.x_m), static_cast<float>(p.y_m), static_cast<float>(p.z_m)});
  }
  mesh.triangles.push_back({first, first + 1, first + 2});
  mesh.triangles.push_back({first, first + 2, first + 3});
  mesh.thing.resize(mesh.triangles.size());
}

}  // namespace duskwire::light::testing
