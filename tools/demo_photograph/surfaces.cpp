// SPDX-License-Identifier: Apache-2.0
// The drawing of materials: bricks, boards, shingles, pavers, stone, soil and bark from noise and simple patterns.
#include <algorithm>
#include <cmath>

#include "daylight.hpp"

namespace duskwire::demo {
namespace {

struct Cell {
  double u = 0;  // within the cell, 0 to 1
  double v = 0;
  double tone = 0;  // one number for the whole cell, 0 to 1
};

// Courses of equal height, each second one shifted by half a piece.
Cell bond(double along, double up, double piece_m, double course_m) {
  const double course = std::floor(up / course_m);
  const double shifted = along / piece_m + 0.5 * (static_cast<int>(course) & 1);
  const double piece = std::floor(shifted);
  return {shifted - piece, up / course_m - course,
          unit_of(cell_hash(static_cast<std::int64_t>(piece), static_cast<std::int64_t>(course), 7))};
}

bool in_joint(const Cell& cell, double piece_m, double course_m, double joint_m) {
  return cell.u * piece_m < joint_m || cell.v * course_m < joint_m;
}

Colour brick(Colour base, Point3 at, Vec3 normal) {
  const double along = std::abs(normal.y) > std::abs(normal.x) ? at.x_m : at.y_m;
  const Cell cell = bond(along, at.z_m, 0.22, 0.075);
  const double grain = 0.85 + 0.3 * cloudy(60 * along, 60 * at.z_m, 3 * at.y_m, 2);
  if (in_joint(cell, 0.22, 0.075, 0.011)) return grain * Colour{0.42, 0.39, 0.35};
  return grain * (0.7 + 0.55 * cell.tone) * mix(base, {0.42, 0.20, 0.13}, cell.tone * cell.tone);
}

Colour paver(Colour base, Point3 at) {
  const bool edge = at.x_m < 16.32 || at.x_m > 17.48;
  const Cell cell = edge ? bond(at.y_m, at.x_m, 0.2, 0.12) : bond(at.x_m - 16.32, at.y_m, 0.21, 0.105);
  const double grain = 0.85 + 0.3 * cloudy(45 * at.x_m, 45 * at.y_m, 0, 3);
  const double worn = 0.86 + 0.28 * cloudy(1.3 * at.x_m, 1.3 * at.y_m, 4, 3);
  if (edge ? in_joint(cell, 0.2, 0.12, 0.006) : in_joint(cell, 0.21, 0.105, 0.007)) return 0.45 * grain * base;
  return grain * worn * (0.78 + 0.42 * cell.tone) * mix(base, {0.38, 0.25, 0.19}, cell.tone);
}

Colour shingle(Colour base, Point3 at) {
  const double up = std::hypot(at.y_m, at.z_m * 1.0);
  const Cell cell = bond(at.x_m, up, 0.31, 0.14);
  const double grain = 0.8 + 0.4 * cloudy(40 * at.x_m, 40 * up, 0, 2);
  const double lap = cell.v < 0.12 ? 0.55 : 1;
  return lap * grain * (0.72 + 0.55 * cell.tone) * base;
}

Colour deck(Colour base, Point3 at) {
  const double board = at.y_m / 0.14;
  if (board - std::floor(board) < 0.05) return 0.25 * base;
  const double tone = unit_of(cell_hash(static_cast<std::int64_t>(std::floor(board)), 5));
  return (0.8 + 0.3 * tone) * (0.8 + 0.4 * cloudy(3 * at.x_m, 90 * at.y_m, 9 * at.z_m, 3)) * base;
}

// Under the blades: earth and old grass, and far away the green of the blades themselves.
Colour soil(Colour base, Point3 at, double distance_m) {
  const double patches = cloudy(0.9 * at.x_m, 0.9 * at.y_m, 0, 3);
  const double fine = cloudy(18 * at.x_m, 18 * at.y_m, 0, 3);
  const Colour near = (0.45 + 0.5 * fine) * mix({0.09, 0.075, 0.04}, base, 0.55);
  const Colour far = (0.7 + 0.4 * patches) * (0.8 + 0.4 * fine) * mix(base, {0.17, 0.19, 0.07}, 0.8 * (1 - patches));
  return mix(near, far, std::clamp((distance_m - 6) / 22, 0.0, 1.0));
}

Colour bark(Colour base, Point3 at, Vec3 normal) {
  const double round = std::atan2(normal.y, normal.x);
  const double ridges = cloudy(9 * round, 2.2 * at.z_m, 0, 3);
  return (0.35 + 1.3 * ridges) * (0.8 + 0.4 * cloudy(30 * at.x_m, 30 * at.y_m, 12 * at.z_m, 2)) * base;
}

}  // namespace

Colour surface_colour(const Thing& thing, Point3 at, Vec3 normal, double distance_m) {
  const Colour& base = thing.colour;
  switch (thing.material) {
    case Material::siding: {
      const double grain = 0.97 + 0.06 * cloudy(2.5 * at.x_m, 160 * at.z_m, 0, 3);
      const double weather = 0.90 + 0.16 * cloudy(0.35 * at.x_m, 0.7 * at.z_m, 2, 4);
      const double splashed = at.z_m < 1.1 ? 1 - 0.12 * (1.1 - at.z_m) * cloudy(1.7 * at.x_m, 2 * at.z_m, 0, 3) : 1;
      const double butt = at.x_m / 3.65 + unit_of(cell_hash(static_cast<std::int64_t>(at.z_m / 0.17), 9));
      const double seam = butt - std::floor(butt) < 0.0009 ? 0.85 : 1;
      return grain * weather * splashed * seam * base;
    }
    case Material::trim:
      return (0.94 + 0.1 * cloudy(1.5 * at.x_m, 1.5 * at.z_m, at.y_m, 3)) * base;
    case Material::brick:
      return brick(base, at, normal);
    case Material::shingle:
      return shingle(base, at);
    case Material::paver:
      return paver(base, at);
    case Material::deck:
      return deck(base, at);
    case Material::stone:
      return (0.7 + 0.5 * cloudy(4 * at.x_m, 4 * at.y_m, 4 * at.z_m, 4)) *
             (0.85 + 0.3 * noise(70 * at.x_m, 70 * at.y_m, 70 * at.z_m)) * base;
    case Material::mulch:
      return (0.35 + 1.3 * cloudy(22 * at.x_m, 34 * at.y_m, 0, 3)) * base;
    case Material::soil:
      return soil(base, at, distance_m);
    case Material::bark:
      return bark(base, at, normal);
    case Material::door:
      return (0.92 + 0.16 * cloudy(4 * at.x_m, 1.2 * at.z_m, 0, 3)) * base;
    case Material::glass:
    case Material::leaf:
    case Material::blade:
    case Material::plain:
      return base;
  }
  return base;
}

}  // namespace duskwire::demo
