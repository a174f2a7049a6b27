// SPDX-License-Identifier: Apache-2.0
#include "lit_garden.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace duskwire::bench {
namespace {

using geometry::Point3;
using geometry::TriangleMesh;
using geometry::Vec3;

constexpr double pi = std::numbers::pi;

double ground_z_m(double x_m, double y_m) { return 0.15 * std::sin(0.4 * x_m) * std::cos(0.3 * y_m); }

void add_quad(TriangleMesh& mesh, const std::array<Point3, 4>& corners) {
  const auto first = static_cast<std::uint32_t>(mesh.points_m.size());
  for (const Point3 p : corners) {
    mesh.points_m.push_back({static_cast<float>(p.x_m), static_cast<float>(p.y_m), static_cast<float>(p.z_m)});
  }
  mesh.triangles.push_back({first, first + 1, first + 2});
  mesh.triangles.push_back({first, first + 2, first + 3});
  mesh.thing.resize(mesh.triangles.size());
}

void add_ground(TriangleMesh& mesh, int cells, double side_m) {
  const double step_m = side_m / cells;
  const auto at = [&](int i, int j) {
    const double x_m = i * step_m - side_m / 2;
    const double y_m = j * step_m - side_m / 2;
    return Point3{x_m, y_m, ground_z_m(x_m, y_m)};
  };
  for (int i = 0; i < cells; ++i) {
    for (int j = 0; j < cells; ++j) add_quad(mesh, {at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)});
  }
}

// An upright prism of `sides` sides with a top.
void add_post(TriangleMesh& mesh, Point3 foot, double radius_m, double height_m, int sides) {
  const auto at = [&](int i, double z_m) {
    const double turn_rad = 2 * pi * (i + 0.5) / sides;
    return Point3{foot.x_m + radius_m * std::cos(turn_rad), foot.y_m + radius_m * std::sin(turn_rad), foot.z_m + z_m};
  };
  for (int i = 0; i < sides; ++i) {
    add_quad(mesh, {at(i, 0), at(i + 1, 0), at(i + 1, height_m), at(i, height_m)});
    add_quad(mesh, {at(i, height_m),
                    at(i + 1, height_m),
                    {foot.x_m, foot.y_m, foot.z_m + height_m},
                    {foot.x_m, foot.y_m, foot.z_m + height_m + 0.01}});
  }
}

// I0 cos^n over the lower half, n by the beam angle.
light::Distribution beam(double peak_cd, double beam_deg) {
  const double power = std::log(0.5) / std::log(std::cos(beam_deg / 2 * pi / 180));
  light::Distribution d;
  d.horizontal_deg = {0};
  for (int gamma_deg = 0; gamma_deg <= 90; ++gamma_deg) {
    d.vertical_deg.push_back(gamma_deg);
    d.intensity_cd.push_back(peak_cd * std::pow(std::max(0.0, std::cos(gamma_deg * pi / 180)), power));
  }
  return d;
}

// A path lamp that lights two sides more than the others.
light::Distribution two_sided(double peak_cd) {
  light::Distribution d;
  for (int c_deg = 0; c_deg <= 360; c_deg += 15) {
    d.horizontal_deg.push_back(c_deg);
    for (int gamma_deg = 0; gamma_deg <= 90; gamma_deg += 5) {
      if (c_deg == 0) d.vertical_deg.push_back(gamma_deg);
      const double gamma_rad = gamma_deg * pi / 180;
      d.intensity_cd.push_back(peak_cd * std::sin(2 * gamma_rad) * (1 + 0.5 * std::cos(2 * c_deg * pi / 180)));
    }
  }
  return d;
}

}  // namespace

light::Scene lit_garden(int lamps) {
  light::Scene scene;
  add_ground(scene.solid, 90, 60);
  add_post(scene.solid, {0, 14, -0.2}, 8, 6, 4);
  for (int i = 0; i < 12; ++i) {
    add_post(scene.solid, {-20 + 3.7 * i, 5 + 3 * std::sin(1.7 * i), -0.2}, 0.15, 5, 24);
    scene.crowns.push_back({{-20 + 3.7 * i, 5 + 3 * std::sin(1.7 * i), 5.5}, 1.6, 1.9, 0.35});
  }
  // Shrubs of many sides until there are 20,000 triangles.
  for (int i = 0; scene.solid.triangles.size() < 20000; ++i) {
    add_post(scene.solid, {-18 + 36 * std::fmod(0.618 * i, 1.0), -4 + 9 * std::fmod(0.381 * i, 1.0), -0.2}, 0.25, 0.7,
             12);
  }
  scene.distributions = {beam(900, 36), beam(2500, 15), two_sided(40)};
  for (int i = 0; i < lamps; ++i) {
    light::Lamp lamp;
    const double x_m = -16 + 32.0 * (i + 0.5) / lamps;
    lamp.distribution = static_cast<std::uint32_t>(i) % 3;
    const double y_m = lamp.distribution == 2 ? -3.0 + i % 4 : 4 + std::sin(2.1 * i);
    lamp.position = {x_m, y_m, ground_z_m(x_m, y_m) + (lamp.distribution == 2 ? 0.5 : 0.12)};
    lamp.aim = lamp.distribution == 2 ? Vec3{0, 0, -1} : Vec3{0.3 * std::sin(1.0 * i), 1, 1.2};
    scene.lamps.push_back(lamp);
  }
  return scene;
}

light::Camera garden_camera(double width_px, double height_px) {
  light::Camera camera;
  camera.width_px = width_px;
  camera.height_px = height_px;
  camera.focal_px = 0.8 * width_px;
  camera.principal = {width_px / 2, height_px / 2};
  camera.position = {1, -14, 3};
  const double down_rad = 0.25;
  camera.axes = {Vec3{1, 0, 0}, Vec3{0, -std::sin(down_rad), -std::cos(down_rad)},
                 Vec3{0, std::cos(down_rad), -std::sin(down_rad)}};
  return camera;
}

std::vector<light::Receiver> seen_places(const light::Scene& scene, const geometry::RayCaster& caster,
                                         std::uint32_t width_px, std::uint32_t height_px) {
  const light::Camera camera = garden_camera(width_px, height_px);
  std::vector<light::Receiver> places;
  for (std::uint32_t y = 0; y < height_px; ++y) {
    for (std::uint32_t x = 0; x < width_px; ++x) {
      const Vec3 way = light::way_from_pixel(camera, {x + 0.5, y + 0.5});
      const auto hit =
          caster.nearest({{static_cast<float>(camera.position.x_m), static_cast<float>(camera.position.y_m),
                           static_cast<float>(camera.position.z_m)},
                          {static_cast<float>(way.x), static_cast<float>(way.y), static_cast<float>(way.z)},
                          0,
                          1000});
      if (!hit) continue;
      const auto& [a, b, c] = scene.solid.triangles[hit->triangle];
      const auto point = [&](std::uint32_t i) {
        const auto& p = scene.solid.points_m[i];
        return Vec3{double{p[0]}, double{p[1]}, double{p[2]}};
      };
      Vec3 normal = unit(cross(point(b) - point(a), point(c) - point(a)));
      if (dot(normal, way) > 0) normal = -normal;
      places.push_back({camera.position + double{hit->t} * way, normal});
    }
  }
  return places;
}

}  // namespace duskwire::bench
