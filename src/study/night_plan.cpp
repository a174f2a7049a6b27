// SPDX-License-Identifier: Apache-2.0
#include "study/night_plan.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "geometry/isolines.hpp"
#include "geometry/polygon.hpp"
#include "study/lit_scene.hpp"
#include "study/step_flight.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

constexpr double margin_m = 2;
constexpr double most_cells = 250'000;
constexpr double farthest_m = 500;  // of a plan that is drawn as one; a stray point does not blow it up

struct Box {
  Point2 low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  Point2 high{-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};

  void add(Point2 point) {
    if (!std::isfinite(point.x_m) || !std::isfinite(point.y_m)) return;
    low = {std::min(low.x_m, point.x_m), std::min(low.y_m, point.y_m)};
    high = {std::max(high.x_m, point.x_m), std::max(high.y_m, point.y_m)};
  }
  bool empty() const { return low.x_m > high.x_m; }
};

// The lot, or where it has no line what is drawn; and every lamp in any case.
Box box_of(const job::Job& job) {
  Box box;
  for (const Point2 point : job.plan.property_line) box.add(point);
  if (box.empty()) {
    for (const job::Area& area : job.plan.areas) {
      for (const Point2 point : area.outline) box.add(point);
    }
  }
  for (const job::Luminaire& lamp : job.luminaires) {
    if (lamp.position) box.add({lamp.position->x_m, lamp.position->y_m});
  }
  return box;
}

// The level that a cell's light falls on; nothing in a building or a wall. Treads are worked out once.
class Floor {
 public:
  explicit Floor(const job::Plan& plan) {
    for (const job::Area& area : plan.areas) {
      const double height_m = solid_height_m(area);
      if (height_m <= 0) continue;
      const bool upright = area.kind == job::GroundKind::building || area.kind == job::GroundKind::wall;
      if (area.kind != job::GroundKind::steps) {
        solids_.push_back({area.outline, height_m, upright});
        continue;
      }
      for (const Tread& tread : step_flight(plan, area).treads)
        solids_.push_back({tread.outline, tread.height_m, false});
    }
  }

  std::optional<double> at(Point2 place) const {
    double level_m = 0;
    for (const Solid& solid : solids_) {
      if (!contains(solid.outline, place)) continue;
      if (solid.upright) return std::nullopt;
      level_m = std::max(level_m, solid.height_m);
    }
    return level_m;
  }

 private:
  struct Solid {
    geometry::Polygon outline;
    double height_m = 0;
    bool upright = false;
  };
  std::vector<Solid> solids_;
};

void light_cells(NightPlan& plan, const Floor& floor, const light::LitScene& scene) {
  std::vector<light::Receiver> receivers;
  std::vector<std::size_t> cells;
  plan.lx.assign(std::size_t{plan.columns} * plan.rows, -1.0F);
  for (std::size_t row = 0; row < plan.rows; ++row) {
    for (std::size_t column = 0; column < plan.columns; ++column) {
      const Point2 place{plan.origin.x_m + (static_cast<double>(column) + 0.5) * plan.cell_m,
                         plan.origin.y_m + (static_cast<double>(row) + 0.5) * plan.cell_m};
      const std::optional<double> level_m = floor.at(place);
      if (!level_m) continue;
      receivers.push_back({{place.x_m, place.y_m, *level_m}, {0, 0, 1}});
      cells.push_back(row * plan.columns + column);
    }
  }
  std::vector<float> lx(receivers.size(), 0.0F);
  scene.illuminance_lx(receivers, lx);
  for (std::size_t i = 0; i < cells.size(); ++i) plan.lx[cells[i]] = lx[i];
}

void draw_contours(NightPlan& plan) {
  std::vector<float> heights = plan.lx;
  for (float& height : heights) {
    if (height < 0) height = std::numeric_limits<float>::quiet_NaN();
  }
  const geometry::Lattice lattice{
      {plan.origin.x_m + plan.cell_m / 2, plan.origin.y_m + plan.cell_m / 2}, plan.cell_m, plan.columns, plan.rows};
  for (const double level_lx : contour_lx) {
    if (level_lx > plan.maximum_lx) break;
    plan.contours.push_back({level_lx, geometry::isolines(lattice, heights, level_lx)});
  }
}

}  // namespace

NightPlan night_plan(const job::Job& job, const light::LitScene& scene, double cell_m) {
  NightPlan plan;
  const Box box = box_of(job);
  if (box.empty()) return plan;
  const double wide_m = std::min(box.high.x_m - box.low.x_m, farthest_m) + 2 * margin_m;
  const double high_m = std::min(box.high.y_m - box.low.y_m, farthest_m) + 2 * margin_m;
  plan.cell_m = std::max(cell_m, std::sqrt(wide_m * high_m / most_cells));
  plan.origin = {box.low.x_m - margin_m, box.low.y_m - margin_m};
  plan.columns = static_cast<std::uint32_t>(std::ceil(wide_m / plan.cell_m));
  plan.rows = static_cast<std::uint32_t>(std::ceil(high_m / plan.cell_m));
  light_cells(plan, Floor(job.plan), scene);
  for (const float lx : plan.lx) plan.maximum_lx = std::max(plan.maximum_lx, static_cast<double>(lx));
  draw_contours(plan);
  return plan;
}

}  // namespace duskwire::study
