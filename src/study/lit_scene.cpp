// SPDX-License-Identifier: Apache-2.0
#include "study/lit_scene.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <optional>
#include <string>
#include <utility>

#include "geometry/polygon.hpp"
#include "geometry/prism.hpp"
#include "study/lamp_distribution.hpp"
#include "study/step_flight.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;
using geometry::Point3;

constexpr double storey_m = 3;            // of a building whose height is not known (common practice, no source)
constexpr double clear_m = 0.03;          // a lamp's light centre off the solid that it hangs on
constexpr double trunk_slenderness = 40;  // height over trunk diameter, about (common practice, no source)
constexpr double least_trunk_m = 0.08;

bool is_upright(job::GroundKind kind) { return kind == job::GroundKind::building || kind == job::GroundKind::wall; }

geometry::Polygon trunk_outline(const job::Tree& tree) {
  constexpr int corners = 8;
  const double radius_m = std::max(tree.height_m / trunk_slenderness, least_trunk_m) / 2;
  geometry::Polygon outline;
  for (int i = 0; i < corners; ++i) {
    const double turn = 2 * std::numbers::pi * i / corners;
    outline.push_back({tree.position.x_m + radius_m * std::cos(turn), tree.position.y_m + radius_m * std::sin(turn)});
  }
  return outline;
}

// What a shield leaves of a table: nothing beyond its cut-off. The light that it stops is lost.
light::Distribution shielded(light::Distribution table, std::optional<double> cut_off_deg) {
  if (!cut_off_deg || table.type != light::PhotometricType::c) return table;
  const std::size_t rows = table.vertical_deg.size();
  for (std::size_t i = 0; i < table.intensity_cd.size(); ++i) {
    if (table.vertical_deg[i % rows] > *cut_off_deg) table.intensity_cd[i] = 0;
  }
  return table;
}

class SceneBuilder {
 public:
  SceneBuilder(const job::Job& job, const LitOptions& options) : job_(job) {
    LitLamps lit = lit_lamps(job, options);
    out_.lamps = std::move(lit.lamps);
    out_.findings = std::move(lit.findings);
  }

  LitJob run() {
    for (std::uint32_t i = 0; i < job_.plan.areas.size(); ++i) add_area(i);
    for (std::uint32_t i = 0; i < job_.plan.trees.size(); ++i) add_tree(i);
    for (LitLamp& lamp : out_.lamps) add_lamp(lamp);
    return std::move(out_);
  }

 private:
  void add_area(std::uint32_t index) {
    const job::Area& area = job_.plan.areas[index];
    const double height_m = solid_height_m(area);
    if (height_m <= 0 || area.outline.size() < 3) return;
    if (area.kind == job::GroundKind::building && area.height_m <= 0) tell_storey(index);
    const std::uint32_t thing = add_thing(SolidThing::Kind::area, index);
    if (area.kind != job::GroundKind::steps) {
      add_prism(out_.scene.solid, area.outline, 0, height_m, thing);
      return;
    }
    for (const Tread& tread : step_flight(job_.plan, area).treads) {
      if (tread.height_m > 0) add_prism(out_.scene.solid, tread.outline, 0, tread.height_m, thing);
    }
  }

  void tell_storey(std::uint32_t index) {
    const job::Area& area = job_.plan.areas[index];
    Finding finding;
    finding.id = "light/no-height";
    finding.severity = Severity::note;
    finding.subject = area.id;
    finding.pointer = fmt::format("/plan/areas/{}", index);
    finding.message = fmt::format("The height of {} is not known: taken as {} in the way of light.",
                                  called(area.id, area.name), worded(storey_m, distance_unit(job_.site.units)));
    out_.findings.push_back(std::move(finding));
  }

  std::uint32_t add_thing(SolidThing::Kind kind, std::uint32_t index) {
    out_.things.push_back({kind, index});
    return static_cast<std::uint32_t>(out_.things.size() - 1);
  }

  void add_tree(std::uint32_t index) {
    const job::Tree& tree = job_.plan.trees[index];
    if (tree.height_m <= 0) return;
    const double base_m = std::clamp(tree.crown_base_m, 0.0, tree.height_m);
    if (base_m > 0) {
      add_prism(out_.scene.solid, trunk_outline(tree), 0, base_m, add_thing(SolidThing::Kind::trunk, index));
    }
    if (tree.crown_width_m <= 0 || base_m >= tree.height_m) return;
    light::Crown crown;
    crown.centre = {tree.position.x_m, tree.position.y_m, (base_m + tree.height_m) / 2};
    crown.half_width_m = tree.crown_width_m / 2;
    crown.half_height_m = (tree.height_m - base_m) / 2;
    crown.transmittance = tree.crown_transmittance;
    out_.scene.crowns.push_back(crown);
    out_.crown_trees.push_back(index);
  }

  void add_lamp(LitLamp& lamp) {
    bring_out(lamp);
    const std::optional<double> cut_off_deg = job_.luminaires[lamp.luminaire].shield_cut_off_deg;
    const auto [found, fresh] =
        distribution_of_.try_emplace({lamp.item, cut_off_deg.value_or(180)}, out_.scene.distributions.size());
    if (fresh) out_.scene.distributions.push_back(shielded(distribution_of(*lamp.item), cut_off_deg));
    light::Lamp lit;
    lit.position = lamp.position;
    lit.aim = lamp.aim;
    lit.zero = lamp.zero;
    lit.distribution = static_cast<std::uint32_t>(found->second);
    lit.share = lamp.share;
    lit.colour_temperature_k = lamp.item->colour_temperature_k;
    out_.scene.lamps.push_back(lit);
  }

  // A plan is drawn to the decimetre: what hangs on a wall or is let into a deck may lie within its solid and would
  // light nothing. It comes out to the nearest face of a wall, to the top of a deck or a tread.
  void bring_out(LitLamp& lamp) {
    for (const job::Area& area : job_.plan.areas) {
      const Point2 foot{lamp.position.x_m, lamp.position.y_m};
      if (solid_height_m(area) <= 0 || !contains(area.outline, foot)) continue;
      if (is_upright(area.kind)) {
        if (lamp.position.z_m <= solid_height_m(area)) bring_to_face(lamp, area, foot);
      } else {
        const double floor_m = floor_under(area, foot);
        lamp.position.z_m = std::max(lamp.position.z_m, floor_m + clear_m);
      }
    }
  }

  double floor_under(const job::Area& area, Point2 foot) const {
    return area.kind == job::GroundKind::steps ? step_flight(job_.plan, area).height_at_m(foot) : area.height_m;
  }

  // The nearest face, among those that its azimuth points to where the job gives one.
  void bring_to_face(LitLamp& lamp, const job::Area& area, Point2 foot) const {
    constexpr double faces_it = 0.5;  // cosine
    const bool turned = job_.luminaires[lamp.luminaire].azimuth_deg != 0;
    const geometry::Vec3 way = lamp.stance == Stance::upright ? lamp.zero : lamp.aim;
    std::size_t face = nearest_on_outline(area.outline, foot)->edge;
    double least_m = std::numeric_limits<double>::infinity();
    for (std::size_t edge = 0; turned && edge < area.outline.size(); ++edge) {
      const Point2 out = outward(area.outline, edge);
      const double away_m =
          geometry::distance_to_segment_m(foot, area.outline[edge], area.outline[(edge + 1) % area.outline.size()]);
      if (out.x_m * way.x + out.y_m * way.y < faces_it || away_m >= least_m) continue;
      least_m = away_m;
      face = edge;
    }
    const Point2 place =
        geometry::nearest_on_segment(foot, area.outline[face], area.outline[(face + 1) % area.outline.size()]);
    const Point2 out = outward(area.outline, face);
    lamp.position.x_m = place.x_m + clear_m * out.x_m;
    lamp.position.y_m = place.y_m + clear_m * out.y_m;
  }

  const job::Job& job_;
  LitJob out_;
  std::map<std::pair<const job::LuminaireItem*, double>, std::size_t> distribution_of_;
};

}  // namespace

double solid_height_m(const job::Area& area) {
  switch (area.kind) {
    case job::GroundKind::building:
      return area.height_m > 0 ? area.height_m : storey_m;
    case job::GroundKind::wall:
    case job::GroundKind::deck:
    case job::GroundKind::steps:
      return area.height_m;
    default:
      return 0;
  }
}

LitJob lit_scene(const job::Job& job, const LitOptions& options) { return SceneBuilder(job, options).run(); }

}  // namespace duskwire::study
