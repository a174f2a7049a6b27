// SPDX-License-Identifier: Apache-2.0
#include "study/crew_aim.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "estimate/stockroom.hpp"
#include "geometry/polygon.hpp"
#include "geometry/vec3.hpp"
#include "job/plan_ground.hpp"
#include "study/ground.hpp"
#include "study/lit_lamps.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;
using geometry::Point3;
using geometry::Vec3;

constexpr double degree = std::numbers::pi / 180;
constexpr double reach_m = 25;           // farther things are not what a garden light is for (estimate)
constexpr double ladder_height_m = 2.5;  // higher than arms reach from the ground (common practice, no source)
constexpr double least_rise = 1e-9;
constexpr double least_setback_m = 0.05;

Point2 on_plan(Point3 point) { return {point.x_m, point.y_m}; }

double level_m(Point3 from, Point2 to) { return geometry::distance_m(on_plan(from), to); }

// A thing of the plan that a beam may meet.
struct Target {
  std::string name;
  double setback_m = 0;
  double off_axis_deg = 0;  // of the nearest part of it
  double away_m = 0;
};

double angle_deg(Vec3 p, Vec3 q) {
  const double sizes = length(p) * length(q);
  return sizes > 0 ? std::acos(std::clamp(dot(p, q) / sizes, -1.0, 1.0)) / degree : 0;
}

// A crown as the ball about its middle: how far off the axis its nearest edge is seen.
std::optional<Target> tree_target(const LitLamp& lamp, const job::Tree& tree) {
  const double middle_m = (tree.crown_base_m + tree.height_m) / 2;
  const double radius_m = std::max(0.5, std::max(tree.crown_width_m, tree.height_m - tree.crown_base_m) / 2);
  const Vec3 way = Point3{tree.position.x_m, tree.position.y_m, middle_m} - lamp.position;
  const double away_m = length(way);
  if (away_m > reach_m) return std::nullopt;
  const double seen_deg = away_m <= radius_m ? 90 : std::asin(radius_m / away_m) / degree;
  const double off_deg = std::max(0.0, angle_deg(lamp.aim, way) - seen_deg);
  return Target{tree.name.empty() ? "tree " + tree.id : tree.name, level_m(lamp.position, tree.position), off_deg,
                std::max(0.0, away_m - radius_m)};
}

// A face is met where the axis goes, or would go if it were tilted to stay on the face.
std::optional<Target> face_target(const LitLamp& lamp, const job::Area& area) {
  const double size = std::hypot(lamp.aim.x, lamp.aim.y);
  if (size < least_rise) return std::nullopt;
  const Point2 from = on_plan(lamp.position);
  const Point2 to{from.x_m + reach_m * lamp.aim.x / size, from.y_m + reach_m * lamp.aim.y / size};
  const std::vector<double> shares = geometry::crossings(area.outline, from, to);
  if (shares.empty() || geometry::contains(area.outline, from)) return std::nullopt;
  const double setback_m = reach_m * *std::min_element(shares.begin(), shares.end());
  const double top_m = area.height_m > 0 ? area.height_m : reach_m;
  const double tilt_deg = std::atan2(lamp.aim.z, size) / degree;
  const double top_deg = std::atan2(top_m - lamp.position.z_m, setback_m) / degree;
  const double foot_deg = std::atan2(-lamp.position.z_m, setback_m) / degree;
  const double off_deg = std::max({0.0, tilt_deg - top_deg, foot_deg - tilt_deg});
  return Target{(area.kind == job::GroundKind::steps ? "" : "a wall of ") + (area.name.empty() ? area.id : area.name),
                setback_m, off_deg, setback_m / std::max(0.1, std::cos(tilt_deg * degree))};
}

bool stands_up(const job::Area& area) {
  return area.kind == job::GroundKind::building || area.kind == job::GroundKind::wall ||
         area.kind == job::GroundKind::steps;
}

// What the axis meets comes before what only the beam's edge touches; then the nearer thing.
std::optional<Target> first_met(const job::Plan& plan, const LitLamp& lamp) {
  const double half_deg = lamp.item->beam_deg / 2;
  std::optional<Target> best;
  const auto offer = [&](const std::optional<Target>& target) {
    if (!target || target->off_axis_deg > half_deg) return;
    const auto rank = [](const Target& t) { return std::pair(t.off_axis_deg > 0, t.away_m); };
    if (!best || rank(*target) < rank(*best)) best = target;
  };
  for (const job::Tree& tree : plan.trees) offer(tree_target(lamp, tree));
  for (const job::Area& area : plan.areas) {
    if (stands_up(area)) offer(face_target(lamp, area));
  }
  return best;
}

class Aimer {
 public:
  Aimer(const job::Job& job, const job::Catalogue& stock)
      : job_(job), shelf_(job.catalogue, stock), ground_(job.plan), lit_(lit_lamps(job, {.volts = false})) {}

  std::vector<CrewAim> list() {
    std::vector<CrewAim> aims;
    std::size_t next = 0;
    for (std::uint32_t l = 0; l < job_.luminaires.size(); ++l) {
      const bool placed = next < lit_.lamps.size() && lit_.lamps[next].luminaire == l;
      aims.push_back(aim(job_.luminaires[l], placed ? &lit_.lamps[next] : nullptr));
      if (placed) ++next;
    }
    return aims;
  }

 private:
  CrewAim aim(const job::Luminaire& luminaire, const LitLamp* lamp) {
    CrewAim row;
    row.id = luminaire.id;
    row.name = luminaire.name;
    row.title = luminaire.item;
    row.zone = luminaire.zone;
    row.azimuth_deg = luminaire.azimuth_deg;
    row.tilt_deg = luminaire.tilt_deg;
    row.dim_pct = luminaire.dim_pct;
    row.shield_cut_off_deg = luminaire.shield_cut_off_deg;
    if (const auto picked = shelf_.pick(&job::Catalogue::luminaires, luminaire.item)) {
      row.title = picked.item->title;
      row.beam_deg = picked.item->beam_deg;
      row.aimed = stance_of(*picked.item) == Stance::aimed;
    }
    if (!luminaire.position) return row;
    row.height_m = luminaire.position->z_m;
    row.on_ladder = luminaire.position->z_m > ladder_height_m;
    row.offsets = plan_offsets(job_.plan, on_plan(*luminaire.position));
    if (lamp) say_what_it_lights(row, *lamp);
    return row;
  }

  void say_what_it_lights(CrewAim& row, const LitLamp& lamp) {
    if (lamp.stance == Stance::upright) {
      if (const auto kind = ground_.at(on_plan(lamp.position))) row.lights = ground_words(*kind);
      return;
    }
    const Aim taken = aim_of(job_.plan, lamp.aim);
    row.azimuth_deg = taken.azimuth_deg;
    row.tilt_deg = taken.tilt_deg;
    if (const auto met = first_met(job_.plan, lamp)) {
      row.lights = met->name;
      row.setback_m = met->setback_m;
    } else if (lamp.aim.z < -least_rise) {
      const double share = lamp.position.z_m / -lamp.aim.z;
      const Point2 at{lamp.position.x_m + share * lamp.aim.x, lamp.position.y_m + share * lamp.aim.y};
      if (const auto kind = ground_.at(at)) row.lights = ground_words(*kind);
      row.setback_m = level_m(lamp.position, at);
    }
  }

  const job::Job& job_;
  estimate::Stockroom shelf_;
  job::PlanGround ground_;
  LitLamps lit_;
};

}  // namespace

std::vector<CrewAim> crew_aims(const job::Job& job, const job::Catalogue& stock) { return Aimer(job, stock).list(); }

std::string lights_in_words(const CrewAim& aim, job::DisplayUnits units) {
  if (aim.lights.empty()) return aim.height_m ? "nothing on the plan" : "no place on the plan yet";
  if (aim.setback_m && *aim.setback_m < least_setback_m) return fmt::format("{} below it", aim.lights);
  if (!aim.setback_m) return fmt::format("{} around it", aim.lights);
  return fmt::format("{}, {} away", aim.lights, worded(*aim.setback_m, distance_unit(units), 1));
}

}  // namespace duskwire::study
