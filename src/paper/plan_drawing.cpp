// SPDX-License-Identifier: Apache-2.0
#include "paper/plan_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "paper/furniture.hpp"
#include "paper/plan_legend.hpp"
#include "paper/plan_sheet_parts.hpp"

namespace duskwire::paper {
namespace {

constexpr double around_m = 0.6;  // beyond what is shown
constexpr double between_mm = 3;
constexpr double least_scale_on_small = 250;

std::optional<SiteBox> site_box(const job::Job& job, const PlanLook& look) {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  SiteBox box{infinite, infinite, -infinite, -infinite};
  const auto take = [&](double x_m, double y_m) {
    box = {std::min(box.left_m, x_m), std::min(box.bottom_m, y_m), std::max(box.right_m, x_m),
           std::max(box.top_m, y_m)};
  };
  for (const auto& point : job.plan.property_line) take(point.x_m, point.y_m);
  for (const job::Luminaire& lamp : job.luminaires) {
    if (lamp.position) take(lamp.position->x_m, lamp.position->y_m);
  }
  for (const job::Transformer& transformer : job.transformers) {
    if (transformer.position) take(transformer.position->x_m, transformer.position->y_m);
  }
  for (const job::Joint& joint : job.joints) {
    if (joint.position) take(joint.position->x_m, joint.position->y_m);
  }
  if (look.cables) {
    for (const job::Cable& cable : job.cables) {
      for (const auto& point : cable.path) take(point.x_m, point.y_m);
    }
  }
  if (look.fixed_points) {
    for (const job::FixedPoint& point : job.plan.fixed_points) take(point.position.x_m, point.position.y_m);
  }
  for (const job::Area& area : job.plan.areas) {
    // Streets and a neighbour's ground run on for ever: they are cut at the property line.
    if (!job.plan.property_line.empty() && area.kind != job::GroundKind::building) continue;
    for (const auto& point : area.outline) take(point.x_m, point.y_m);
  }
  if (box.left_m > box.right_m) return std::nullopt;
  return SiteBox{box.left_m - around_m, box.bottom_m - around_m, box.right_m + around_m, box.top_m + around_m};
}

struct Arrangement {
  PlanScale scale;
  bool beside = true;
  double legend_width_mm = 0;
  double legend_height_mm = 0;
};

Arrangement arranged(const SiteBox& site, const Legend& legend, double width_mm, double height_mm) {
  Arrangement beside;
  beside.legend_width_mm = legend_column_mm;
  beside.legend_height_mm = legend_height_mm(legend, legend_column_mm);
  beside.scale = scale_that_fits(site, width_mm - legend_column_mm - between_mm, height_mm, legend.units);
  Arrangement below;
  below.beside = false;
  below.legend_width_mm = width_mm;
  below.legend_height_mm = legend_height_mm(legend, width_mm);
  below.scale = scale_that_fits(site, width_mm, height_mm - below.legend_height_mm - between_mm, legend.units);
  if (beside.legend_height_mm > height_mm) return below;
  return beside.scale.ratio <= below.scale.ratio ? beside : below;
}

std::string alternative(const job::Job& job, const PlanScale& scale) {
  return fmt::format(
      "Plan of {} at {}: {} lights, {} transformers, {} runs of cable. The lists tell the same in words.",
      job.title.empty() ? "the garden" : job.title, scale.words, job.luminaires.size(), job.transformers.size(),
      job.cables.size());
}

}  // namespace

PlanLook plan_for_client() {
  PlanLook look;
  look.cables = look.joints = look.sleeves = look.receptacles = look.fixed_points = false;
  look.view_points = true;
  return look;
}

std::optional<Plan> plan_drawing(const job::Job& job, const PlanLook& look, job::DisplayUnits units, double width_mm,
                                 double height_mm) {
  const std::optional<SiteBox> site = site_box(job, look);
  if (!site) return std::nullopt;
  const Legend legend{legend_of(job, look), look.note, job.plan.north_deg, units};
  const Arrangement how = arranged(*site, legend, width_mm, height_mm);
  const double wide_mm = site->width_m() * 1000 / how.scale.ratio;
  const double high_mm = site->height_m() * 1000 / how.scale.ratio;
  Plan plan;
  plan.scale = how.scale;
  plan.drawing.alternative = alternative(job, how.scale);
  plan.drawing.width_mm = width_mm;
  plan.drawing.height_mm =
      how.beside ? std::max(high_mm, how.legend_height_mm) : high_mm + between_mm + how.legend_height_mm;
  const double plan_room_mm = how.beside ? width_mm - legend_column_mm - between_mm : width_mm;
  const PointMm top_left{std::max(0.0, (plan_room_mm - wide_mm) / 2), 0};
  const PlanFrame frame(*site, how.scale.ratio, top_left);
  const Box paper{top_left.x_mm, top_left.y_mm, wide_mm, high_mm};
  const PointMm legend_at = how.beside ? PointMm{plan_room_mm + between_mm, 0} : PointMm{0, high_mm + between_mm};
  // Kept by value: the drawing may be drawn long after the job is gone.
  plan.drawing.draw = [job, look, legend, how, frame, paper, legend_at](Pen& pen) {
    draw_garden(pen, job, look, frame, paper);
    draw_legend(pen, legend_at, how.legend_width_mm, legend, how.scale);
  };
  return plan;
}

std::optional<Section> plan_section(const job::Job& job, const PlanLook& look, job::DisplayUnits units, PageSize size,
                                    const Document& document, const std::string& title, bool may_grow) {
  const auto larger = size == PageSize::a4 ? PageSize::a3 : PageSize::tabloid;
  std::vector<PageSize> sizes{size};
  if (may_grow && (size == PageSize::a4 || size == PageSize::letter)) sizes.push_back(larger);
  std::optional<Section> best;
  double ratio = std::numeric_limits<double>::infinity();
  for (const PageSize each : sizes) {
    if (best && ratio <= least_scale_on_small) break;
    for (const bool landscape : {true, false}) {
      Section section;
      section.setup = {each, landscape};
      section.foot = Foot::title_block;
      section.sheet_title = title;
      const Box area = area_above_foot(section, document);
      std::optional<Plan> plan = plan_drawing(job, look, units, area.width_mm, area.height_mm);
      if (!plan) return std::nullopt;
      if (plan->scale.ratio >= ratio) continue;
      ratio = plan->scale.ratio;
      section.scale = plan->scale.words.substr(0, plan->scale.words.find(" ("));
      section.blocks = {std::move(plan->drawing)};
      best = std::move(section);
    }
  }
  return best;
}

}  // namespace duskwire::paper
