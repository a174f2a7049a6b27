// SPDX-License-Identifier: Apache-2.0
#include "study/route_exact.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>

#include "wiring/exact_hubs.hpp"
#include "wiring/exact_losses.hpp"
#include "wiring/ground_cost.hpp"

namespace duskwire::study {
namespace {

using geometry::distance_m;
using geometry::Point2;
using wiring::ExactProblem;

constexpr std::uint32_t most_wires = 8;
constexpr double loop = 2;  // both conductors

// What the program does not know. Limits that only make a wiring dearer, such as a cap on cable types, may be left out
// of a lower bound.
std::string refusal(const wiring::PlanProblem& problem, const wiring::PlanAnswer& plan) {
  if (problem.lamps.size() > most_exact_lamps) {
    return fmt::format("the job has {} lamps, and the exact solver takes up to {}", problem.lamps.size(),
                       most_exact_lamps);
  }
  if (problem.places.size() != 1 || plan.units.size() != 1)
    return "the exact solver takes jobs with one transformer, at one place";
  if (!problem.kept.empty()) return "the exact solver knows no cables that are held fast";
  const auto is_odd = [](const wiring::PlanLamp& lamp) {
    return lamp.own_output || lamp.load.kind != electrical::LoadKind::regulated_led;
  };
  if (std::any_of(problem.lamps.begin(), problem.lamps.end(), is_odd))
    return "the exact solver knows only LED lamps that keep their VA, and no outputs of their own";
  std::set<std::uint32_t> nodes{problem.places.front().node};
  for (const wiring::PlanLamp& lamp : problem.lamps) nodes.insert(lamp.node);
  if (nodes.size() != problem.lamps.size() + 1) return "two lamps stand at one point, or one at the transformer";
  return "";
}

class Goods {
 public:
  Goods(const wiring::PlanProblem& problem, ExactProblem& exact) : problem_(problem), exact_(exact) {}

  void run() {
    exact_.tag_cost = problem_.cable_end_cost;
    exact_.joint_away_cost = problem_.joint_away_cost;
    exact_.slack_output_m = problem_.slack_output_m;
    exact_.slack_splice_m = problem_.slack_splice_m;
    exact_.device_share = problem_.output_share;
    for (const wiring::PlanLamp& lamp : problem_.lamps) {
      exact_.lamps.push_back({lamp.load.power_va, std::max(lamp.floor_v, lamp.load.v_regulation_min),
                              lamp.lead_ohm * problem_.extremes.low_copper, problem_.slack_luminaire_m + lamp.rise_m});
    }
    add_units();
    add_cables();
    add_joints();
  }

 private:
  [[nodiscard]] double load_va() const {
    double sum_va = 0;
    for (const wiring::PlanLamp& lamp : problem_.lamps) sum_va += lamp.load.power_va;
    return sum_va;
  }

  void add_units() {
    double most_v = std::numeric_limits<double>::infinity();
    for (const wiring::PlanLamp& lamp : problem_.lamps) {
      if (lamp.window_max_v > 0) most_v = std::min(most_v, lamp.window_max_v);
    }
    const wiring::Place& place = problem_.places.front();
    for (const std::uint32_t type : place.types) {
      const wiring::UnitType& item = problem_.units[type];
      ExactProblem::Unit unit;
      for (const double offered_v : item.taps_v) {
        if (offered_v * problem_.extremes.high_mains <= most_v) unit.tap_v = offered_v;
      }
      if (unit.tap_v == 0) continue;
      unit.cost = item.cost + place.unit_cost;
      unit.source_v = unit.tap_v * problem_.extremes.low_mains;
      // Of several outputs it is not asked which of them carries what.
      unit.source_ohm = item.r_shared_ohm + (item.outputs == 1 ? item.r_own_ohm : 0);
      unit.most_a = wiring::amperes_at_va(item.rating_va, unit.source_v, unit.source_ohm);
      const double least_a = load_va() / unit.source_v;
      if (item.outputs == 1) {
        if (item.limit_a * problem_.output_share < least_a) continue;
        for (const double device_a : problem_.devices_a) {
          if (device_a < item.limit_a && device_a * problem_.output_share >= least_a)
            unit.devices_a.push_back(device_a);
        }
        unit.devices_a.push_back(item.limit_a);
      }
      if (least_a <= unit.most_a) exact_.units.push_back(unit);
    }
    std::sort(exact_.units.begin(), exact_.units.end(), [](const auto& p, const auto& q) { return p.cost < q.cost; });
  }

  void add_cables() {
    for (const wiring::CableType& type : problem_.cables) {
      ExactProblem::Cable cable;
      cable.ohm_per_m = loop * type.ohm_per_m * problem_.extremes.low_copper;
      cable.price_per_m = type.cost_per_m;
      cable.ampacity_a = type.ampacity_a;
      exact_.cables.push_back(cable);
    }
    for (ExactProblem::Unit& unit : exact_.units) unit.sizes = wiring::sensible_sizes(exact_, unit);
  }

  // The thinnest wire there may be any lead or cable: whichever makes it cheaper, so that never too much is asked.
  void add_joints() {
    exact_.joint_cost.assign(most_wires + 1, {});
    for (std::uint32_t wires = 0; wires <= most_wires; ++wires) {
      for (std::size_t g = 0; g < exact_.cables.size(); ++g) {
        const std::uint32_t thick = problem_.cables[g].size;
        double best = std::numeric_limits<double>::infinity();
        for (std::uint32_t thin = 0; wires >= 2 && thin <= thick; ++thin) {
          const wiring::JointCosts::Entry& entry = problem_.joints.of(wires, thin, thick);
          if (entry.possible) best = std::min(best, entry.cost);
        }
        exact_.joint_cost[wires].push_back(best);
      }
    }
  }

  const wiring::PlanProblem& problem_;
  ExactProblem& exact_;
};

class Ways {
 public:
  Ways(const wiring::PlanProblem& problem, const wiring::GroundMap& map, const wiring::PlanAnswer& plan,
       ExactProblem& exact)
      : problem_(problem), ground_(problem.ground), cost_(map), plan_(plan), exact_(exact) {}

  void points() {
    add_point(problem_.places.front().node, false);
    for (const wiring::PlanLamp& lamp : problem_.lamps) add_point(lamp.node, true);
    gather_trenches();
    for (const wiring::PlanCable& cable : plan_.cables) junction(cable.nodes.back());
    for (const auto& [node, edges] : dug_at_) {
      if (edges.size() > 2) junction(node);
    }
    std::vector<Point2> known;
    for (const wiring::ExactPoint& point : exact_.points) known.push_back(point.place);
    constexpr std::size_t most_hubs = 2;
    for (const Point2 hub : wiring::meeting_places(known, problem_.lamps.size() + 1, most_hubs)) {
      if (cost_.joint_allowed(hub) && !cost_.blocked(hub)) exact_.points.push_back({hub, true});
    }
  }

  void ways() {
    add_straight();
    for (const auto& [node, point] : point_of_) {
      for (const std::uint32_t edge : dug_at_[node]) follow(node, edge);
    }
    constexpr double roundabout = 1.5;
    for (std::size_t i = 1; i <= exact_.lamps.size(); ++i) {
      exact_.longest_cable_m =
          std::max(exact_.longest_cable_m, roundabout * distance_m(exact_.points[0].place, exact_.points[i].place));
    }
    for (const wiring::PlanCable& cable : plan_.cables) {
      double length_m = 0;
      for (const std::uint32_t edge : cable.edges) length_m += ground_.edges[edge].length_m;
      exact_.longest_cable_m = std::max(exact_.longest_cable_m, length_m);
    }
  }

 private:
  void add_point(std::uint32_t node, bool takes_joint) {
    point_of_[node] = static_cast<std::uint32_t>(exact_.points.size());
    exact_.points.push_back({ground_.nodes[node].at, takes_joint});
  }
  void junction(std::uint32_t node) {
    if (point_of_.count(node) == 0) add_point(node, ground_.nodes[node].joint_allowed);
  }

  void gather_trenches() {
    for (const wiring::PlanCable& cable : plan_.cables) {
      for (const std::uint32_t edge : cable.edges) {
        dug_at_[ground_.edges[edge].a].insert(edge);
        dug_at_[ground_.edges[edge].b].insert(edge);
      }
    }
  }

  // A trench of the plan from one of the points to the next.
  void follow(std::uint32_t from, std::uint32_t edge) {
    wiring::ExactWay way{point_of_.at(from), 0, 0, 0};
    std::uint32_t node = from;
    for (std::size_t steps = 0; steps <= ground_.edges.size(); ++steps) {
      const wiring::GroundEdge& along = ground_.edges[edge];
      way.length_m += along.length_m;
      way.dig_cost += along.dig_cost;
      node = along.a == node ? along.b : along.a;
      if (point_of_.count(node) > 0) break;
      const std::set<std::uint32_t>& both = dug_at_.at(node);
      edge = *both.begin() == edge ? *both.rbegin() : *both.begin();
    }
    if (point_of_.count(node) == 0) return;
    way.b = point_of_.at(node);
    if (way.a < way.b) exact_.ways.push_back(way);
  }

  [[nodiscard]] std::optional<double> dig(std::uint32_t a, std::uint32_t b) const {
    const auto way = cost_.straight(exact_.points[a].place, exact_.points[b].place);
    if (!way || way->blocked_m > 0) return std::nullopt;
    return way->dig_cost;
  }

  // Straight ways, but for those that going over a third point hardly lengthens and does not make dearer to dig.
  void add_straight() {
    const auto count = static_cast<std::uint32_t>(exact_.points.size());
    std::vector<std::vector<std::optional<double>>> costs(count, std::vector<std::optional<double>>(count));
    for (std::uint32_t a = 0; a < count; ++a) {
      for (std::uint32_t b = a + 1; b < count; ++b) costs[a][b] = costs[b][a] = dig(a, b);
    }
    constexpr double spare_detour = 1.01;
    const auto length_m = [&](std::uint32_t a, std::uint32_t b) {
      return distance_m(exact_.points[a].place, exact_.points[b].place);
    };
    const auto is_spared = [&](std::uint32_t a, std::uint32_t b) {
      for (std::uint32_t k = 0; k < count; ++k) {
        if (k == a || k == b || !costs[a][k] || !costs[k][b]) continue;
        const double direct_m = length_m(a, b);
        if (length_m(a, k) >= direct_m || length_m(k, b) >= direct_m) continue;
        if (length_m(a, k) + length_m(k, b) < direct_m * spare_detour &&
            *costs[a][k] + *costs[k][b] <= *costs[a][b] * spare_detour)
          return true;
      }
      return false;
    };
    for (std::uint32_t a = 0; a < count; ++a) {
      for (std::uint32_t b = a + 1; b < count; ++b) {
        if (costs[a][b] && !is_spared(a, b)) exact_.ways.push_back({a, b, length_m(a, b), *costs[a][b]});
      }
    }
  }

  const wiring::PlanProblem& problem_;
  const wiring::GroundGraph& ground_;
  wiring::GroundCost cost_;
  const wiring::PlanAnswer& plan_;
  ExactProblem& exact_;
  std::map<std::uint32_t, std::uint32_t> point_of_;
  std::map<std::uint32_t, std::set<std::uint32_t>> dug_at_;
};

}  // namespace

Result<ExactProblem> exact_problem(const RouteProblem& asked, const wiring::GroundMap& map,
                                   const wiring::PlanAnswer& plan) {
  if (std::string why = refusal(asked.problem, plan); !why.empty()) return Error{ErrorCode::unsupported, why};
  ExactProblem exact;
  Ways ways(asked.problem, map, plan, exact);
  ways.points();
  Goods(asked.problem, exact).run();
  ways.ways();
  if (exact.units.empty() || exact.cables.empty())
    return Error{ErrorCode::unsupported, "no single transformer carries all lamps"};
  return exact;
}

}  // namespace duskwire::study
