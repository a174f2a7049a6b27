// SPDX-License-Identifier: Apache-2.0
// Cameras and walls by seed, and what their photographs show: corners by projection, moved by clicks that err.
#pragma once

#include <cmath>
#include <numbers>
#include <random>

#include "light/calibrate.hpp"

namespace duskwire::light {

class CameraDice {
 public:
  explicit CameraDice(std::uint32_t seed) : engine_(seed) {}

  double between(double low, double high) { return low + (high - low) * static_cast<double>(engine_()) / 4294967295.0; }

  // Box and Muller: the same numbers with every compiler.
  double normal(double deviation) {
    const double u = (static_cast<double>(engine_()) + 1) / 4294967297.0;
    const double v = static_cast<double>(engine_()) / 4294967296.0;
    return deviation * std::sqrt(-2 * std::log(u)) * std::cos(2 * std::numbers::pi * v);
  }

  PixelPoint clicked(PixelPoint true_place, double click_error_px) {
    return {true_place.x_px + normal(click_error_px), true_place.y_px + normal(click_error_px)};
  }

 private:
  std::mt19937 engine_;
};

// Looks from a place to a place, with a roll about the line of sight.
inline Camera looking(geometry::Point3 from, geometry::Point3 at, double focal_px, double roll_rad) {
  Camera camera;
  camera.width_px = 4000;
  camera.height_px = 3000;
  camera.focal_px = focal_px;
  camera.principal = {2000, 1500};
  camera.position = from;
  const geometry::Vec3 ahead = unit(at - from);
  const geometry::Vec3 right = unit(cross(ahead, geometry::Vec3{0, 0, 1}));
  const geometry::Vec3 down = cross(ahead, right);
  camera.axes[0] = std::cos(roll_rad) * right + std::sin(roll_rad) * down;
  camera.axes[1] = std::cos(roll_rad) * down - std::sin(roll_rad) * right;
  camera.axes[2] = ahead;
  return camera;
}

// A wall of a house and a 12 megapixel photograph of it, taken from the ground at 20 to 60 degrees to the wall's face.
struct SeenWall {
  Camera camera;
  KnownRectangle wall;  // with its true corners on the picture
};

inline SeenWall made_scene(CameraDice& dice) {
  SeenWall scene;
  const double width_m = dice.between(5, 10);
  const double height_m = dice.between(2.4, 5);
  const double turn_rad = dice.between(-std::numbers::pi, std::numbers::pi);  // of the wall on the plan
  const geometry::Vec3 along{std::cos(turn_rad), std::sin(turn_rad), 0};
  const geometry::Vec3 outward = cross(along, geometry::Vec3{0, 0, 1});
  scene.wall.left = {dice.between(-50, 50), dice.between(-50, 50), dice.between(0, 0.5)};
  scene.wall.right = scene.wall.left + width_m * along;
  scene.wall.height_m = height_m;
  const double side_rad = dice.between(20, 60) * std::numbers::pi / 180 * (dice.between(0, 1) < 0.5 ? -1 : 1);
  const double focal_px = dice.between(2600, 4200);  // 22 to 36 mm in 35 mm terms
  const geometry::Point3 middle = scene.wall.left + 0.5 * width_m * along + geometry::Vec3{0, 0, height_m / 2};
  const double distance_m = dice.between(0.9, 1.5) * width_m * focal_px / 2600;
  geometry::Point3 eye = middle + distance_m * (std::cos(side_rad) * outward + std::sin(side_rad) * along);
  eye.z_m = dice.between(1.4, 1.9);
  const geometry::Point3 at = middle + dice.between(-0.5, 0.5) * along + geometry::Vec3{0, 0, dice.between(-0.5, 0.5)};
  scene.camera = looking(eye, at, focal_px, dice.normal(0.02));
  const geometry::Vec3 up{0, 0, height_m};
  const geometry::Point3 corners[] = {scene.wall.left, scene.wall.right, scene.wall.right + up, scene.wall.left + up};
  for (std::size_t i = 0; i < 4; ++i) scene.wall.corners[i] = *pixel_from_site(scene.camera, corners[i]);
  return scene;
}

inline CalibrationProblem problem_of(const SeenWall& scene) {
  CalibrationProblem problem;
  problem.width_px = scene.camera.width_px;
  problem.height_px = scene.camera.height_px;
  problem.wall = scene.wall;
  return problem;
}

}  // namespace duskwire::light
