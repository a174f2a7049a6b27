// SPDX-License-Identifier: Apache-2.0
#include "study/garden_light.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/polygon.hpp"
#include "job/plan_ground.hpp"
#include "study/brightness.hpp"
#include "study/lit_scene.hpp"
#include "study/plan_floor.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;
using geometry::Vec3;
using job::GroundKind;

constexpr double fine_patch_m = 0.5;
constexpr double most_cells = 10'000;
// Patches lie a hair before what is solid, so that it does not shade them.
constexpr double before_m = 0.005;

double ground_reflectance(std::optional<GroundKind> kind) {
  if (!kind) return usual_reflectance(LitPlace::ground);
  switch (*kind) {
    case GroundKind::gravel:
    case GroundKind::paving:
    case GroundKind::drive:
    case GroundKind::street:
    case GroundKind::deck:
    case GroundKind::steps:
      return usual_reflectance(LitPlace::path);
    default:
      return usual_reflectance(LitPlace::ground);
  }
}

void add_faces(const job::Area& area, std::vector<light::MattSurface>& out) {
  const bool is_building = area.kind == GroundKind::building;
  const double height_m = solid_height_m(area);
  if ((!is_building && area.kind != GroundKind::wall) || height_m <= 0 || area.outline.size() < 3) return;
  const double reflectance = usual_reflectance(is_building ? LitPlace::facade : LitPlace::background);
  for (std::size_t edge = 0; edge < area.outline.size(); ++edge) {
    const Point2 from = area.outline[edge];
    const Point2 to = area.outline[(edge + 1) % area.outline.size()];
    const Point2 out_way = outward(area.outline, edge);
    const Vec3 facing{out_way.x_m, out_way.y_m, 0};
    Vec3 side{to.x_m - from.x_m, to.y_m - from.y_m, 0};
    Vec3 other{0, 0, height_m};
    if (dot(cross(side, other), facing) < 0) std::swap(side, other);
    out.push_back({geometry::Point3{from.x_m, from.y_m, 0} + before_m * facing, side, other, reflectance});
  }
}

// Cells of one row that lie alike are one surface.
void add_ground(const job::Job& job, const PlanReach& reach, double patch_m, std::vector<light::MattSurface>& out) {
  const PlanFloor floor(job.plan);
  const job::PlanGround ground(job.plan);
  const auto columns = static_cast<int>(std::ceil((reach.high.x_m - reach.low.x_m) / patch_m));
  const auto rows = static_cast<int>(std::ceil((reach.high.y_m - reach.low.y_m) / patch_m));
  for (int row = 0; row < rows; ++row) {
    light::MattSurface* last = nullptr;
    for (int column = 0; column < columns; ++column) {
      const Point2 corner{reach.low.x_m + column * patch_m, reach.low.y_m + row * patch_m};
      const Point2 middle{corner.x_m + patch_m / 2, corner.y_m + patch_m / 2};
      const std::optional<double> level_m = floor.level_m(middle);
      if (!level_m) {
        last = nullptr;
        continue;
      }
      const double z_m = *level_m + before_m;
      const double reflectance = ground_reflectance(ground.at(middle));
      if (last != nullptr && last->corner.z_m == z_m && last->reflectance == reflectance) {
        last->side.x += patch_m;
        continue;
      }
      out.push_back({{corner.x_m, corner.y_m, z_m}, {patch_m, 0, 0}, {0, patch_m, 0}, reflectance});
      last = &out.back();
    }
  }
}

double patch_for(const job::Job& job) {
  const std::optional<PlanReach> reach = plan_reach(job);
  if (!reach) return fine_patch_m;
  const double area_m2 = (reach->high.x_m - reach->low.x_m) * (reach->high.y_m - reach->low.y_m);
  return std::max(fine_patch_m, std::sqrt(area_m2 / most_cells));
}

}  // namespace

std::vector<light::MattSurface> matt_surfaces(const job::Job& job, double patch_m) {
  std::vector<light::MattSurface> out;
  for (const job::Area& area : job.plan.areas) add_faces(area, out);
  if (const std::optional<PlanReach> reach = plan_reach(job)) add_ground(job, *reach, patch_m, out);
  return out;
}

GardenLight::GardenLight(const light::LitScene& scene, const job::Job& job) : scene_(scene), patch_m_(patch_for(job)) {
  bounce_.emplace(scene, matt_surfaces(job, patch_m_), patch_m_);
}

void GardenLight::illuminance_lx(std::span<const light::Receiver> receivers, std::span<float> out_lx,
                                 double faint_lx) const {
  scene_.illuminance_lx(receivers, out_lx);
  add_bounced_lx(receivers, out_lx, faint_lx);
}

void GardenLight::add_bounced_lx(std::span<const light::Receiver> receivers, std::span<float> out_lx,
                                 double faint_lx) const {
  if (bounce_) bounce_->add_lx(receivers, out_lx, {.faint_lx = faint_lx});
}

}  // namespace duskwire::study
