// SPDX-License-Identifier: Apache-2.0
// The small site as points, ways and prices: what the model is written from.
#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "electrical/conductor.hpp"
#include "estimate/stockroom.hpp"
#include "sites/even_ground.hpp"
#include "sites/optimum.hpp"
#include "sites/wiring_sketch.hpp"
#include "study/cure_candidates.hpp"
#include "wiring/exact_hubs.hpp"
#include "wiring/exact_losses.hpp"

namespace duskwire::sites {
namespace {

using geometry::distance_m;
using geometry::Point2;

constexpr std::uint32_t most_wires = 8;

class Points {
 public:
  Points(wiring::ExactProblem& problem, const OptimumOptions& options, double dig_per_m)
      : problem_(problem), options_(options), dig_per_m_(dig_per_m) {}

  void run() {
    for (const Point2 joint : options_.joints_kept) point_at(joint, true);
    std::vector<Point2> known;
    for (const wiring::ExactPoint& point : problem_.points) known.push_back(point.place);
    for (const Point2 hub : wiring::meeting_places(known, problem_.lamps.size() + 1, options_.hubs)) {
      problem_.points.push_back({hub, true});
    }
    const std::size_t joints = problem_.points.size();
    for (const auto& way : options_.ways_kept) {
      for (const Point2 bend : way) point_at(bend, false);
    }
    for (std::uint32_t a = 0; a < joints; ++a) {
      for (std::uint32_t b = a + 1; b < joints; ++b) {
        if (!is_spared(a, b, joints)) ways_.insert({a, b});
      }
    }
    constexpr double roundabout = 1.5;
    for (std::size_t lamp = 1; lamp <= problem_.lamps.size(); ++lamp) {
      problem_.longest_cable_m =
          std::max(problem_.longest_cable_m, roundabout * distance_m(at(0), at(static_cast<std::uint32_t>(lamp))));
    }
    for (const auto& way : options_.ways_kept) {
      double way_m = 0;
      for (std::size_t i = 1; i < way.size(); ++i) way_m += distance_m(way[i - 1], way[i]);
      problem_.longest_cable_m = std::max(problem_.longest_cable_m, way_m);
    }
    std::vector<Point2> places;
    for (const wiring::ExactPoint& point : problem_.points) places.push_back(point.place);
    for (const auto& way : options_.ways_kept) {
      for (std::size_t i = 1; i < way.size(); ++i) {
        for (const Stretch& stretch : stretches_between(way[i - 1], way[i], places)) ways_.insert(stretch);
      }
    }
    for (const auto& [a, b] : ways_) {
      const double length_m = distance_m(at(a), at(b));
      problem_.ways.push_back({a, b, length_m, dig_per_m_ * length_m});
    }
  }

 private:
  [[nodiscard]] Point2 at(std::uint32_t point) const { return problem_.points[point].place; }

  void point_at(Point2 place, bool takes_joint) {
    for (const wiring::ExactPoint& point : problem_.points) {
      if (distance_m(point.place, place) <= same_place_m) return;
    }
    problem_.points.push_back({place, takes_joint});
  }

  [[nodiscard]] bool is_spared(std::uint32_t a, std::uint32_t b, std::size_t joints) const {
    const double straight_m = distance_m(at(a), at(b));
    for (std::uint32_t k = 0; k < joints; ++k) {
      if (k == a || k == b) continue;
      if (distance_m(at(a), at(k)) + distance_m(at(k), at(b)) < straight_m * (1 + options_.spare_detour)) return true;
    }
    return false;
  }

  wiring::ExactProblem& problem_;
  const OptimumOptions& options_;
  double dig_per_m_ = 0;
  std::set<Stretch> ways_;
};

class Prices {
 public:
  Prices(const job::Job& site, const job::Catalogue& stock, const estimate::InstallRates& rates)
      : site_(site), stock_(stock), rates_(rates) {}

  bool fill(wiring::ExactProblem& problem) const {
    const auto minutes = [&](double min) { return min * static_cast<double>(rates_.labour_minor_per_h) / 60; };
    const auto put_in = [&](double price, double min) { return price + minutes(min); };
    const estimate::Stockroom room(site_.catalogue, stock_);
    const auto tag = room.cheapest(job::SundryKind::tag);
    const auto staple = room.cheapest(job::SundryKind::staple);
    problem.device_share = site_.practice.output_load_pct / 100;
    if (!tag || !staple || !add_units(problem, put_in)) return false;
    problem.tag_cost = put_in(static_cast<double>(tag.item->price_minor), tag.item->labour_min);
    const double staple_cost = put_in(static_cast<double>(staple.item->price_minor), staple.item->labour_min);
    const job::Corners& corners = site_.site.corners;
    const double longest = 1 + corners.length_tolerance_pct / 100;
    const double hot = electrical::copper_temperature_factor(corners.cable_hot_c) * longest;
    for (const job::CableItem& item : stock_.cables) {
      if (!item.gauge_awg || !item.direct_burial) continue;
      wiring::ExactProblem::Cable cable;
      cable.item = item.id;
      cable.ohm_per_m = 2 * item.ohm_per_m_20c * hot;
      cable.price_per_m = static_cast<double>(item.price_minor_per_m) * (1 + site_.practice.waste_pct / 100);
      cable.lay_per_m = minutes(item.labour_min_per_m) + staple_cost / site_.practice.staple_spacing_m;
      cable.ampacity_a = item.ampacity_a;
      cable.area_mm2 = item.area_mm2;
      problem.cables.push_back(cable);
    }
    std::sort(problem.cables.begin(), problem.cables.end(),
              [](const auto& p, const auto& q) { return p.ohm_per_m > q.ohm_per_m; });
    add_lamps(hot, problem);
    add_joints(problem);
    problem.slack_output_m = site_.practice.slack_at_transformer_m;
    problem.slack_splice_m = site_.practice.slack_at_splice_m;
    return !problem.cables.empty();
  }

 private:
  [[nodiscard]] const job::LuminaireItem& item_of(const job::Luminaire& lamp) const {
    return *job::find_luminaire(site_.catalogue, lamp.item);
  }
  [[nodiscard]] double low_mains() const { return 1 - site_.site.corners.mains_tolerance_pct / 100; }

  // Those whose highest tap that no lamp finds too high carries all of them, losses left out: cheapest first, and none
  // behind one that has room for everything.
  template <class PutIn>
  bool add_units(wiring::ExactProblem& problem, PutIn put_in) const {
    double load_va = 0;
    double most_v = std::numeric_limits<double>::infinity();
    for (const job::Luminaire& lamp : site_.luminaires) {
      load_va += item_of(lamp).power_va;
      most_v = std::min(most_v, item_of(lamp).window_max_v);
    }
    const double high_mains = 1 + site_.site.corners.mains_tolerance_pct / 100;
    for (const job::TransformerItem& item : stock_.transformers) {
      wiring::ExactProblem::Unit unit;
      for (const double offered_v : item.taps_v) {
        if (offered_v * high_mains <= most_v) unit.tap_v = offered_v;
      }
      if (unit.tap_v == 0 || item.pool_listed || !item.outdoor_listed) continue;
      unit.item = item.id;
      unit.cost = put_in(static_cast<double>(item.price_minor), item.labour_min);
      unit.source_v = unit.tap_v * low_mains();
      unit.source_ohm = item.r_own_ohm + item.r_shared_ohm;
      const double most_va = item.rating_va * site_.practice.transformer_load_pct / 100;
      unit.most_a = wiring::amperes_at_va(most_va, unit.source_v, unit.source_ohm);
      const double least_a = load_va / unit.source_v;
      for (const double device_a : study::breaker_sizes_a) {
        if (device_a < item.output_limit_a && device_a * problem.device_share >= least_a)
          unit.devices_a.push_back(device_a);
      }
      if (item.output_limit_a * problem.device_share >= least_a) unit.devices_a.push_back(item.output_limit_a);
      if (least_a <= unit.most_a && !unit.devices_a.empty()) problem.units.push_back(unit);
    }
    std::sort(problem.units.begin(), problem.units.end(), [](const auto& p, const auto& q) { return p.cost < q.cost; });
    return !problem.units.empty();
  }

  void add_lamps(double hot, wiring::ExactProblem& problem) const {
    for (const job::Luminaire& luminaire : site_.luminaires) {
      const job::LuminaireItem& kind = item_of(luminaire);
      const double lead_ohm = 2 * kind.lead_length_m * electrical::copper_ohm_per_m_20c(kind.lead_area_mm2) * hot;
      problem.lamps.push_back({kind.power_va, std::max(kind.window_min_v, kind.v_regulation_min), lead_ohm,
                               site_.practice.slack_at_luminaire_m});
    }
  }

  // The thinnest wire there may be the lead or a cable: whichever makes it cheaper, so that the model never asks more.
  void add_joints(wiring::ExactProblem& problem) const {
    problem.joint_cost.assign(most_wires + 1, {});
    for (std::uint32_t wires = 0; wires <= most_wires; ++wires) {
      for (const wiring::ExactProblem::Cable& thickest : problem.cables) {
        double best = std::numeric_limits<double>::infinity();
        std::vector<double> thinnest{item_of(site_.luminaires.front()).lead_area_mm2};
        for (const wiring::ExactProblem::Cable& cable : problem.cables) thinnest.push_back(cable.area_mm2);
        for (const double thin_mm2 : thinnest) {
          if (wires < 2 || thin_mm2 > thickest.area_mm2) continue;
          std::vector<double> areas_mm2(wires, thickest.area_mm2);
          areas_mm2.front() = thin_mm2;
          const auto fitted = fitted_connector(areas_mm2, stock_, rates_);
          if (fitted) best = std::min(best, fitted->cost_minor);
        }
        problem.joint_cost[wires].push_back(best);
      }
    }
  }

  const job::Job& site_;
  const job::Catalogue& stock_;
  const estimate::InstallRates& rates_;
};

}  // namespace

std::optional<wiring::ExactProblem> optimum_problem(const job::Job& site, const job::Catalogue& stock,
                                                    const estimate::InstallRates& rates,
                                                    const OptimumOptions& options) {
  if (site.transformers.size() != 1 || !site.transformers.front().position || site.luminaires.empty())
    return std::nullopt;
  wiring::ExactProblem problem;
  problem.points.push_back({*site.transformers.front().position, false});
  for (const job::Luminaire& lamp : site.luminaires) {
    if (!lamp.position || !job::find_luminaire(site.catalogue, lamp.item)) return std::nullopt;
    problem.points.push_back({{lamp.position->x_m, lamp.position->y_m}, true});
  }
  if (!Prices(site, stock, rates).fill(problem)) return std::nullopt;
  const double lawn_min = rates.trench_min_per_m[static_cast<std::size_t>(job::GroundKind::lawn)];
  Points(problem, options, lawn_min * static_cast<double>(rates.labour_minor_per_h) / 60).run();
  for (wiring::ExactProblem::Unit& unit : problem.units) unit.sizes = wiring::sensible_sizes(problem, unit);
  return problem;
}

}  // namespace duskwire::sites
