// SPDX-License-Identifier: Apache-2.0
// Directions and differences in space, in the axes of the site frame (x east, y north, z up), and the little arithmetic
// that rays and lamps need. A Point3 is a place, a Vec3 a way: their sums and differences keep the two apart.
#pragma once

#include <cmath>

#include "geometry/point.hpp"

namespace duskwire::geometry {

struct Vec3 {
  double x = 0;
  double y = 0;
  double z = 0;

  bool operator==(const Vec3&) const = default;
};

[[nodiscard]] constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
[[nodiscard]] constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
[[nodiscard]] constexpr Vec3 operator-(Vec3 a) { return {-a.x, -a.y, -a.z}; }
[[nodiscard]] constexpr Vec3 operator*(double s, Vec3 a) { return {s * a.x, s * a.y, s * a.z}; }
[[nodiscard]] constexpr Vec3 operator*(Vec3 a, double s) { return s * a; }

// From q to p, in metres.
[[nodiscard]] constexpr Vec3 operator-(Point3 p, Point3 q) { return {p.x_m - q.x_m, p.y_m - q.y_m, p.z_m - q.z_m}; }
[[nodiscard]] constexpr Point3 operator+(Point3 p, Vec3 v) { return {p.x_m + v.x, p.y_m + v.y, p.z_m + v.z}; }
[[nodiscard]] constexpr Point3 operator-(Point3 p, Vec3 v) { return p + (-v); }

[[nodiscard]] constexpr double dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
[[nodiscard]] constexpr Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
[[nodiscard]] inline double length(Vec3 a) { return std::sqrt(dot(a, a)); }

// Of length 1; a vector without length stays as it is.
[[nodiscard]] inline Vec3 unit(Vec3 a) {
  const double size = length(a);
  return size > 0 ? (1 / size) * a : a;
}

// Some unit vector square to a unit vector: the same for the same input.
[[nodiscard]] inline Vec3 any_square_to(Vec3 a) {
  return unit(std::abs(a.z) < 0.9 ? cross(Vec3{0, 0, 1}, a) : cross(Vec3{1, 0, 0}, a));
}

}  // namespace duskwire::geometry
