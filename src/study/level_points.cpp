// SPDX-License-Identifier: Apache-2.0
#include "study/level_points.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/clip.hpp"
#include "geometry/polygon.hpp"
#include "study/lit_scene.hpp"
#include "study/step_flight.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;
using geometry::Point3;

constexpr double fewest_rows = 3;
constexpr double before_face_m = 0.005;

}  // namespace

Receivers level_points(const geometry::Polygon& outline, double z_m, double cell_m, std::size_t most) {
  Receivers points;
  if (outline.size() < 3) return points;
  // Rows follow the longest edge, so that a walk at any angle has whole rows.
  Point2 way{1, 0};
  double longest_m = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point2 p = outline[i];
    const Point2 q = outline[(i + 1) % outline.size()];
    const double edge_m = geometry::distance_m(p, q);
    if (edge_m <= longest_m) continue;
    longest_m = edge_m;
    way = {(q.x_m - p.x_m) / edge_m, (q.y_m - p.y_m) / edge_m};
  }
  const Point2 across{-way.y_m, way.x_m};
  const geometry::Extent u = extent_along(outline, way);
  const geometry::Extent v = extent_along(outline, across);
  const double area = (u.high - u.low) * (v.high - v.low);
  const double coarse_m = std::max(cell_m, std::sqrt(area / static_cast<double>(most)));
  const auto cells = [&](const geometry::Extent& extent) {
    const double wanted = std::max(std::round((extent.high - extent.low) / coarse_m), fewest_rows);
    return static_cast<int>(std::min(wanted, static_cast<double>(most)));
  };
  const int columns = cells(u);
  const int rows = cells(v);
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const double along = u.low + (u.high - u.low) * (column + 0.5) / columns;
      const double aside = v.low + (v.high - v.low) * (row + 0.5) / rows;
      const Point2 place{along * way.x_m + aside * across.x_m, along * way.y_m + aside * across.y_m};
      if (contains(outline, place)) points.push_back({{place.x_m, place.y_m, z_m}, {0, 0, 1}});
    }
  }
  return points;
}

Receivers centre_points(const geometry::Strip& strip, double z_m, double step_m) {
  Receivers points;
  const int count = std::clamp(static_cast<int>(std::round(strip.length_m / step_m)), 2, 2000);
  for (int i = 0; i < count; ++i) {
    const Point2 place = place_along(strip.centreline, strip.length_m * (i + 0.5) / count).place;
    points.push_back({{place.x_m, place.y_m, z_m}, {0, 0, 1}});
  }
  return points;
}

Receivers upright_points(Point3 place, Point2 way) {
  return {{place, {way.x_m, way.y_m, 0}},
          {place, {-way.x_m, -way.y_m, 0}},
          {place, {-way.y_m, way.x_m, 0}},
          {place, {way.y_m, -way.x_m, 0}}};
}

Receivers face_points(Point2 from, Point2 to, Point2 out, double low_m, double high_m, double cell_m) {
  Receivers points;
  const double wide_m = geometry::distance_m(from, to);
  const int columns = std::clamp(static_cast<int>(std::round(wide_m / cell_m)), 1, 400);
  const int rows = std::clamp(static_cast<int>(std::round((high_m - low_m) / cell_m)), 1, 100);
  for (int row = 0; row < rows; ++row) {
    const double z_m = low_m + (high_m - low_m) * (row + 0.5) / rows;
    for (int column = 0; column < columns; ++column) {
      const double share = (column + 0.5) / columns;
      points.push_back({{from.x_m + share * (to.x_m - from.x_m) + before_face_m * out.x_m,
                         from.y_m + share * (to.y_m - from.y_m) + before_face_m * out.y_m, z_m},
                        {out.x_m, out.y_m, 0}});
    }
  }
  return points;
}

// A spiral of the golden angle: even over the sphere, so nearly even over an ellipsoid that is not too flat.
Receivers crown_points(const light::Crown& crown, std::size_t count) {
  Receivers points;
  const double golden = std::numbers::pi * (3 - std::sqrt(5.0));
  for (std::size_t i = 0; i < count; ++i) {
    const double z = 1 - 2 * (static_cast<double>(i) + 0.5) / static_cast<double>(count);
    const double ring = std::sqrt(1 - z * z);
    const double turn = golden * static_cast<double>(i);
    const geometry::Vec3 skin{crown.half_width_m * ring * std::cos(turn), crown.half_width_m * ring * std::sin(turn),
                              crown.half_height_m * z};
    const geometry::Vec3 out = unit(geometry::Vec3{skin.x / (crown.half_width_m * crown.half_width_m),
                                                   skin.y / (crown.half_width_m * crown.half_width_m),
                                                   skin.z / (crown.half_height_m * crown.half_height_m)});
    points.push_back({crown.centre + skin + before_face_m * out, out});
  }
  return points;
}

bool within_solid(const job::Plan& plan, Point3 place) {
  const Point2 foot{place.x_m, place.y_m};
  return std::any_of(plan.areas.begin(), plan.areas.end(), [&](const job::Area& area) {
    const double height_m = solid_height_m(area);
    if (height_m <= place.z_m || !contains(area.outline, foot)) return false;
    return area.kind != job::GroundKind::steps || step_flight(plan, area).height_at_m(foot) > place.z_m;
  });
}

}  // namespace duskwire::study
