// SPDX-License-Identifier: Apache-2.0
#include "study/route_problem.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "electrical/conductor.hpp"
#include "study/corners.hpp"
#include "study/cure_candidates.hpp"
#include "study/network_parts.hpp"
#include "study/number_troubles.hpp"
#include "study/route_ground.hpp"
#include "study/route_kept.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

constexpr double loop = 2;  // both conductors
// A luminaire so far above grade is wired up a tree or a wall.
constexpr double on_the_ground_m = 1.0;

class Builder {
 public:
  Builder(const job::Job& job, const Ruleset& ruleset, const RouteRequest& request, const RouteGoods& goods)
      : job_(job), ruleset_(ruleset), request_(request), goods_(goods), book_(troubles_) {}

  RouteProblem run() {
    wiring::PlanProblem& problem = out_.problem;
    check_pins();
    add_cables(problem);
    add_units(problem);
    problem.devices_a.assign(std::begin(breaker_sizes_a), std::end(breaker_sizes_a));
    problem.joints = goods_.joint_costs();
    set_extremes(problem);
    set_habits(problem);
    std::vector<Point2> points;
    add_places(problem, points);
    add_lamps(problem, points);
    const std::size_t first_kept = points.size();
    const std::vector<job::Cable> kept = kept_cables();
    for (const job::Cable& cable : kept) {
      points.push_back(cable.path.front());
      points.push_back(cable.path.back());
    }
    problem.ground = wiring::ground_graph(ground_map(job_, ruleset_, request_, goods_.prices, goods_), points);
    take_nodes(problem);
    std::vector<std::uint32_t> ends(problem.ground.terminals.begin() + static_cast<std::ptrdiff_t>(first_kept),
                                    problem.ground.terminals.end());
    add_kept(job_, goods_, request_, ends, out_);
    return std::move(out_);
  }

 private:
  void obstacle(std::string subject, std::string message, std::string cure) {
    out_.obstacles.push_back({std::move(subject), std::move(message), std::move(cure)});
  }

  template <class Items>
  void check_ids(const std::vector<std::string>& ids, const Items& items, const char* what) {
    for (const std::string& id : ids) {
      const bool known = std::any_of(items.begin(), items.end(), [&](const auto& item) { return item.id == id; });
      if (!known)
        obstacle(id, fmt::format("The job has no {} \"{}\" to hold fast.", what, id),
                 "Take it out of what is held fast.");
    }
  }

  void check_pins() {
    check_ids(request_.pins.kept_cables, job_.cables, "cable");
    check_ids(request_.pins.forbidden_trenches, job_.cables, "cable");
    check_ids(request_.pins.own_outputs, job_.luminaires, "luminaire");
    check_ids(request_.pins.kept_transformers, job_.transformers, "transformer");
  }

  void add_cables(wiring::PlanProblem& problem) {
    for (const job::CableItem* item : goods_.cables) {
      problem.cables.push_back({item->ohm_per_m_20c, goods_.cable_cost_per_m(*item, job_.practice), item->ampacity_a,
                                goods_.size_rank(item->area_mm2)});
    }
    if (problem.cables.empty()) {
      obstacle("", "No cable for direct burial is in the catalogue.", "Add a cable to the catalogue.");
    }
  }

  void add_units(wiring::PlanProblem& problem) {
    const double share = load_shares(job_.practice).transformer;
    for (const job::TransformerItem* item : goods_.transformers) {
      wiring::UnitType unit;
      unit.rating_va = item->rating_va * share;
      unit.outputs = item->output_count;
      unit.limit_a = item->output_limit_a;
      unit.taps_v = item->taps_v;
      unit.r_own_ohm = item->r_own_ohm;
      unit.r_shared_ohm = item->r_shared_ohm;
      unit.cost = goods_.prices.of(item->price_minor, item->labour_min);
      problem.units.push_back(std::move(unit));
    }
  }

  void set_extremes(wiring::PlanProblem& problem) const {
    const Corner weakest = weakest_corner(job_.site.corners);
    problem.extremes.low_mains = weakest.mains_factor;
    problem.extremes.low_copper = electrical::copper_temperature_factor(weakest.cable_c) * weakest.length_factor;
    for (const Corner& corner : corners_of(job_.site.corners)) {
      problem.extremes.high_mains = std::max(problem.extremes.high_mains, corner.mains_factor);
    }
  }

  void set_habits(wiring::PlanProblem& problem) const {
    problem.output_share = load_shares(job_.practice).output;
    problem.slack_luminaire_m = job_.practice.slack_at_luminaire_m;
    problem.slack_splice_m = job_.practice.slack_at_splice_m;
    problem.slack_output_m = job_.practice.slack_at_transformer_m;
    problem.cable_end_cost = goods_.sundry_cost(job::SundryKind::tag);
    // A choice of this tool: a joint at a fixture is found again without a map.
    problem.joint_away_cost = 200;
    problem.most_wires = request_.no_hub ? 3 : wiring::JointCosts::most_wires;
    problem.splice_every_lead = request_.splice_every_lead;
    problem.most_cable_types = request_.most_cable_types;
  }

  [[nodiscard]] std::optional<Point2> place_of(const job::Transformer& transformer) const {
    if (transformer.position) return transformer.position;
    for (const job::Receptacle& receptacle : job_.plan.receptacles) {
      if (receptacle.id == transformer.receptacle) return receptacle.position;
    }
    return std::nullopt;
  }

  [[nodiscard]] bool is_kept(const job::Transformer& transformer) const {
    const auto& kept = request_.pins.kept_transformers;
    if (std::find(kept.begin(), kept.end(), transformer.id) != kept.end()) return true;
    return std::any_of(job_.cables.begin(), job_.cables.end(), [&](const job::Cable& cable) {
      const auto& cables = request_.pins.kept_cables;
      if (std::find(cables.begin(), cables.end(), cable.id) == cables.end()) return false;
      return std::any_of(transformer.outputs.begin(), transformer.outputs.end(),
                         [&](const job::Output& output) { return output.id == cable.from; });
    });
  }

  std::vector<std::uint32_t> types_for(bool pool_listed, const std::string& only) const {
    std::vector<std::uint32_t> types;
    for (std::uint32_t t = 0; t < goods_.transformers.size(); ++t) {
      const job::TransformerItem& item = *goods_.transformers[t];
      if (only.empty() ? item.pool_listed == pool_listed : item.id == only) types.push_back(t);
    }
    return types;
  }

  void add_places(wiring::PlanProblem& problem, std::vector<Point2>& points) {
    for (std::uint32_t t = 0; t < job_.transformers.size(); ++t) {
      const job::Transformer& transformer = job_.transformers[t];
      const std::optional<Point2> at = place_of(transformer);
      if (!at) {
        obstacle(transformer.id,
                 fmt::format("Transformer {} has no place on the plan.", called(transformer.id, transformer.name)),
                 "Put it on the plan.");
        continue;
      }
      const job::TransformerItem* item = job::find_transformer(job_.catalogue, transformer.item);
      wiring::Place place;
      place.kept = is_kept(transformer);
      place.types = types_for(item && item->pool_listed, place.kept ? transformer.item : "");
      if (place.types.empty()) place.types = types_for(false, "");
      for (const std::string& control : transformer.controls) place.unit_cost += goods_.control_cost(control);
      if (transformer.mounting == job::Mounting::post)
        place.unit_cost += goods_.sundry_cost(job::SundryKind::post_mount);
      problem.places.push_back(std::move(place));
      out_.places.push_back({t, 0xffffffffu});
      points.push_back(*at);
    }
    if (job_.transformers.empty()) add_receptacles(problem, points);
    if (problem.places.empty()) {
      obstacle("", "There is no place for a transformer on the plan.",
               "Put a transformer or a receptacle on the plan.");
    }
  }

  void add_receptacles(wiring::PlanProblem& problem, std::vector<Point2>& points) {
    const job::ControlItem* clock = goods_.usual_clock();
    for (std::uint32_t r = 0; r < job_.plan.receptacles.size(); ++r) {
      wiring::Place place;
      place.types = types_for(false, "");
      if (clock) place.unit_cost = goods_.prices.of(clock->price_minor, clock->labour_min);
      problem.places.push_back(std::move(place));
      out_.places.push_back({0xffffffffu, r});
      points.push_back(job_.plan.receptacles[r].position);
    }
  }

  void add_lamps(wiring::PlanProblem& problem, std::vector<Point2>& points) {
    for (std::uint32_t i = 0; i < job_.luminaires.size(); ++i) {
      const job::Luminaire& luminaire = job_.luminaires[i];
      const job::LuminaireItem* item = job::find_luminaire(goods_.shelf, luminaire.item);
      const std::string name = called(luminaire.id, luminaire.name);
      if (!item) {
        obstacle(luminaire.id, fmt::format("Luminaire {} is of an item that no catalogue has.", name),
                 "Choose its item.");
        continue;
      }
      if (!luminaire.position) {
        obstacle(luminaire.id, fmt::format("Luminaire {} has no place on the plan.", name), "Put it on the plan.");
        continue;
      }
      const Spot spot{SpotKind::luminaire, i, 0};
      const auto level = static_cast<float>(std::clamp(luminaire.dim_pct, 0.0, 100.0) / 100);
      wiring::PlanLamp lamp;
      lamp.load = load_part(*item, spot, book_);
      const Lamp limits = lamp_part(*item, lamp.load, level);
      lamp.load.power_va *= level * (1 + request_.reserve_pct / 100);
      lamp.floor_v = limits.floor_v;
      lamp.window_max_v = limits.window_max_v;
      const double lead_m = std::max(0.0, luminaire.lead_length_m.value_or(item->lead_length_m));
      lamp.has_lead = lead_m > 0;
      lamp.lead_ohm = loop * lead_ohm(luminaire, *item, lead_m, spot, book_);
      lamp.lead_size = goods_.size_rank(item->lead_area_mm2);
      lamp.rise_m = luminaire.position->z_m > on_the_ground_m ? luminaire.position->z_m : 0;
      const auto& own = request_.pins.own_outputs;
      lamp.own_output = std::find(own.begin(), own.end(), luminaire.id) != own.end();
      problem.lamps.push_back(lamp);
      out_.luminaires.push_back(i);
      points.push_back({luminaire.position->x_m, luminaire.position->y_m});
    }
  }

  std::vector<job::Cable> kept_cables() {
    std::vector<job::Cable> kept;
    for (const std::string& id : request_.pins.kept_cables) {
      for (const job::Cable& cable : job_.cables) {
        if (cable.id != id) continue;
        if (cable.path.size() < 2) {
          obstacle(id, fmt::format("Cable {} cannot be held fast: it is not drawn on the plan.", id),
                   "Draw its way first.");
        } else {
          kept.push_back(cable);
        }
      }
    }
    return kept;
  }

  void take_nodes(wiring::PlanProblem& problem) const {
    const auto& nodes = problem.ground.terminals;
    for (std::size_t p = 0; p < problem.places.size(); ++p) problem.places[p].node = nodes[p];
    for (std::size_t i = 0; i < problem.lamps.size(); ++i) {
      wiring::PlanLamp& lamp = problem.lamps[i];
      lamp.node = nodes[problem.places.size() + i];
      if (!problem.ground.nodes[lamp.node].joint_allowed) step_aside(problem.ground, lamp);
    }
  }

  // A lamp in a wall or on a step is spliced in the ground beside it, as far as its lead reaches there.
  static void step_aside(const wiring::GroundGraph& ground, wiring::PlanLamp& lamp) {
    constexpr double lead_reach_m = 0.4;
    double nearest_m = lead_reach_m;
    const std::uint32_t in_the_wall = lamp.node;
    for (const wiring::GroundEdge& edge : ground.edges) {
      if (edge.a != in_the_wall && edge.b != in_the_wall) continue;
      const std::uint32_t other = edge.a == in_the_wall ? edge.b : edge.a;
      if (edge.length_m > nearest_m || !ground.nodes[other].joint_allowed) continue;
      nearest_m = edge.length_m;
      lamp.node = other;
    }
    if (lamp.node != in_the_wall) lamp.rise_m += nearest_m;
  }

  const job::Job& job_;
  const Ruleset& ruleset_;
  const RouteRequest& request_;
  const RouteGoods& goods_;
  Troubles troubles_;
  TroubleBook book_;
  RouteProblem out_;
};

}  // namespace

RouteProblem route_problem(const job::Job& job, const Ruleset& ruleset, const RouteRequest& request,
                           const RouteGoods& goods) {
  return Builder(job, ruleset, request, goods).run();
}

}  // namespace duskwire::study
