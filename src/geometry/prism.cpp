// SPDX-License-Identifier: Apache-2.0
#include "geometry/prism.hpp"

#include <algorithm>

namespace duskwire::geometry {
namespace {

// Twice the area of p q r, positive counter-clockwise.
double turn(Point2 p, Point2 q, Point2 r) {
  return (q.x_m - p.x_m) * (r.y_m - p.y_m) - (q.y_m - p.y_m) * (r.x_m - p.x_m);
}

bool within(Point2 p, Point2 q, Point2 r, Point2 point) {
  return turn(p, q, point) >= 0 && turn(q, r, point) >= 0 && turn(r, p, point) >= 0;
}

// An ear: a corner that juts out and whose triangle holds no other point of what is left.
bool is_ear(const Polygon& outline, const std::vector<std::size_t>& left, std::size_t at) {
  const std::size_t before = left[(at + left.size() - 1) % left.size()];
  const std::size_t corner = left[at];
  const std::size_t after = left[(at + 1) % left.size()];
  if (turn(outline[before], outline[corner], outline[after]) <= 0) return false;
  return std::none_of(left.begin(), left.end(), [&](std::size_t other) {
    if (other == before || other == corner || other == after) return false;
    const Point2 point = outline[other];
    if (point == outline[before] || point == outline[corner] || point == outline[after]) return false;
    return within(outline[before], outline[corner], outline[after], point);
  });
}

double twice_area_m2(const Polygon& outline) {
  double sum_m2 = 0;
  for (std::size_t i = 1; i + 1 < outline.size(); ++i) sum_m2 += turn(outline[0], outline[i], outline[i + 1]);
  return sum_m2;
}

}  // namespace

// Ear clipping (Meisters 1975): every simple polygon of more than three corners has two ears.
std::vector<std::array<std::size_t, 3>> triangulated(const Polygon& outline) {
  std::vector<std::array<std::size_t, 3>> triangles;
  if (outline.size() < 3) return triangles;
  std::vector<std::size_t> left(outline.size());
  for (std::size_t i = 0; i < left.size(); ++i) left[i] = i;
  if (twice_area_m2(outline) < 0) std::reverse(left.begin(), left.end());
  while (left.size() > 3) {
    std::size_t at = 0;
    while (at < left.size() && !is_ear(outline, left, at)) ++at;
    // No ear: what is left is flat or crosses itself. The corner goes without a triangle where it has no area.
    const bool found = at < left.size();
    if (!found) at = 0;
    const std::size_t before = left[(at + left.size() - 1) % left.size()];
    const std::size_t after = left[(at + 1) % left.size()];
    if (turn(outline[before], outline[left[at]], outline[after]) > 0) triangles.push_back({before, left[at], after});
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(at));
  }
  if (turn(outline[left[0]], outline[left[1]], outline[left[2]]) > 0) triangles.push_back({left[0], left[1], left[2]});
  return triangles;
}

void add_prism(TriangleMesh& mesh, const Polygon& outline, double from_z_m, double to_z_m, std::uint32_t thing) {
  if (outline.size() < 3) return;
  const auto low = static_cast<std::uint32_t>(mesh.points_m.size());
  const auto count = static_cast<std::uint32_t>(outline.size());
  const std::uint32_t high = low + count;
  for (const double z_m : {from_z_m, to_z_m}) {
    for (const Point2 point : outline) {
      mesh.points_m.push_back({static_cast<float>(point.x_m), static_cast<float>(point.y_m), static_cast<float>(z_m)});
    }
  }
  const auto add = [&](std::uint32_t p, std::uint32_t q, std::uint32_t r) {
    mesh.triangles.push_back({p, q, r});
    mesh.thing.push_back(thing);
  };
  for (std::uint32_t i = 0; i < count; ++i) {
    const std::uint32_t next = (i + 1) % count;
    add(low + i, low + next, high + next);
    add(low + i, high + next, high + i);
  }
  for (const auto& [p, q, r] : triangulated(outline)) {
    const auto at = [](std::size_t i) { return static_cast<std::uint32_t>(i); };
    add(low + at(p), low + at(r), low + at(q));
    add(high + at(p), high + at(q), high + at(r));
  }
}

}  // namespace duskwire::geometry
