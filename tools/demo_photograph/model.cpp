// SPDX-License-Identifier: Apache-2.0
#include "model.hpp"

#include <cmath>
#include <utility>

namespace duskwire::demo {

std::uint32_t Model::thing(Material material, Colour colour, std::string name) {
  things.push_back({material, colour, std::move(name)});
  return static_cast<std::uint32_t>(things.size() - 1);
}

void Model::triangle(std::uint32_t thing, Point3 a, Point3 b, Point3 c) {
  const auto first = static_cast<std::uint32_t>(mesh.points_m.size());
  for (const Point3& p : {a, b, c}) {
    mesh.points_m.push_back({static_cast<float>(p.x_m), static_cast<float>(p.y_m), static_cast<float>(p.z_m)});
  }
  mesh.triangles.push_back({first, first + 1, first + 2});
  mesh.thing.push_back(thing);
}

void Model::quad(std::uint32_t thing, Point3 a, Point3 b, Point3 c, Point3 d) {
  triangle(thing, a, b, c);
  triangle(thing, a, c, d);
}

void Model::box(std::uint32_t thing, Point3 l, Point3 h) {
  quad(thing, {l.x_m, l.y_m, l.z_m}, {h.x_m, l.y_m, l.z_m}, {h.x_m, l.y_m, h.z_m}, {l.x_m, l.y_m, h.z_m});
  quad(thing, {l.x_m, h.y_m, l.z_m}, {h.x_m, h.y_m, l.z_m}, {h.x_m, h.y_m, h.z_m}, {l.x_m, h.y_m, h.z_m});
  quad(thing, {l.x_m, l.y_m, l.z_m}, {l.x_m, h.y_m, l.z_m}, {l.x_m, h.y_m, h.z_m}, {l.x_m, l.y_m, h.z_m});
  quad(thing, {h.x_m, l.y_m, l.z_m}, {h.x_m, h.y_m, l.z_m}, {h.x_m, h.y_m, h.z_m}, {h.x_m, l.y_m, h.z_m});
  quad(thing, {l.x_m, l.y_m, l.z_m}, {h.x_m, l.y_m, l.z_m}, {h.x_m, h.y_m, l.z_m}, {l.x_m, h.y_m, l.z_m});
  quad(thing, {l.x_m, l.y_m, h.z_m}, {h.x_m, l.y_m, h.z_m}, {h.x_m, h.y_m, h.z_m}, {l.x_m, h.y_m, h.z_m});
}

void Model::limb(std::uint32_t thing, Point3 from, Point3 to, double from_radius_m, double to_radius_m) {
  const Vec3 along = unit(to - from);
  const Vec3 side = any_square_to(along);
  const Vec3 other = cross(along, side);
  constexpr int sides = 20;
  const auto rim = [&](Point3 centre, double radius_m, int i) {
    const double angle = 2 * 3.14159265358979 * i / sides;
    return centre + radius_m * (std::cos(angle) * side + std::sin(angle) * other);
  };
  for (int i = 0; i < sides; ++i) {
    quad(thing, rim(from, from_radius_m, i), rim(from, from_radius_m, i + 1), rim(to, to_radius_m, i + 1),
         rim(to, to_radius_m, i));
  }
}

void Model::leaf(std::uint32_t thing, Point3 at, Vec3 along, Vec3 face, double length_m, double width_m) {
  const Vec3 across = unit(cross(along, face));
  const Point3 tip = at + length_m * along;
  const Point3 middle = at + 0.5 * length_m * along;
  triangle(thing, at, middle + 0.5 * width_m * across + 0.15 * width_m * face, tip);
  triangle(thing, at, tip, middle - 0.5 * width_m * across + 0.15 * width_m * face);
}

}  // namespace duskwire::demo
