// SPDX-License-Identifier: Apache-2.0
#include "study/night_plan.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "geometry/isolines.hpp"
#include "study/plan_floor.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

constexpr double margin_m = 2;
constexpr double most_cells = 250'000;
// With one bounce, where each place asks each patch.
constexpr double most_cells_bounced = 40'000;

void light_cells(NightPlan& plan, const PlanFloor& floor, const GardenLight& garden) {
  std::vector<light::Receiver> receivers;
  std::vector<std::size_t> cells;
  plan.lx.assign(std::size_t{plan.columns} * plan.rows, -1.0F);
  for (std::size_t row = 0; row < plan.rows; ++row) {
    for (std::size_t column = 0; column < plan.columns; ++column) {
      const Point2 place{plan.origin.x_m + (static_cast<double>(column) + 0.5) * plan.cell_m,
                         plan.origin.y_m + (static_cast<double>(row) + 0.5) * plan.cell_m};
      const std::optional<double> level_m = floor.level_m(place);
      if (!level_m) continue;
      receivers.push_back({{place.x_m, place.y_m, *level_m}, {0, 0, 1}});
      cells.push_back(row * plan.columns + column);
    }
  }
  std::vector<float> lx(receivers.size(), 0.0F);
  garden.illuminance_lx(receivers, lx);
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

NightPlan night_plan(const job::Job& job, const GardenLight& garden, double cell_m) {
  NightPlan plan;
  const std::optional<PlanReach> reach = plan_reach(job);
  if (!reach) return plan;
  const double wide_m = reach->high.x_m - reach->low.x_m + 2 * margin_m;
  const double high_m = reach->high.y_m - reach->low.y_m + 2 * margin_m;
  const double most = garden.bounce() ? most_cells_bounced : most_cells;
  plan.cell_m = std::max(cell_m, std::sqrt(wide_m * high_m / most));
  plan.origin = {reach->low.x_m - margin_m, reach->low.y_m - margin_m};
  plan.columns = static_cast<std::uint32_t>(std::ceil(wide_m / plan.cell_m));
  plan.rows = static_cast<std::uint32_t>(std::ceil(high_m / plan.cell_m));
  light_cells(plan, PlanFloor(job.plan), garden);
  for (const float lx : plan.lx) plan.maximum_lx = std::max(plan.maximum_lx, static_cast<double>(lx));
  draw_contours(plan);
  return plan;
}

}  // namespace duskwire::study
