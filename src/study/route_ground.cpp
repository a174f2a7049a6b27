// SPDX-License-Identifier: Apache-2.0
#include "study/route_ground.hpp"

#include <algorithm>

#include "geometry/polygon.hpp"

namespace duskwire::study {
namespace {

using job::GroundKind;

// Nothing is dug through these; what stands in them is reached from beside them.
bool is_blocked(GroundKind kind) {
  switch (kind) {
    case GroundKind::building:
    case GroundKind::wall:
    case GroundKind::steps:
    case GroundKind::water:
    case GroundKind::pool:
    case GroundKind::forbidden:
    case GroundKind::street:
    case GroundKind::drive:  // crossed in a sleeve of the plan alone
      return true;
    default:
      return false;
  }
}

// A joint lies where it can be reached again.
bool takes_joints(GroundKind kind) {
  return kind == GroundKind::bed || kind == GroundKind::lawn || kind == GroundKind::gravel ||
         kind == GroundKind::root_zone;
}

// What counts first where areas overlap: zones where digging is another matter lie over whatever grows there.
int rank_of(GroundKind kind) {
  switch (kind) {
    case GroundKind::forbidden:
      return 0;
    case GroundKind::root_zone:
      return 2;
    case GroundKind::bed:
    case GroundKind::lawn:
    case GroundKind::gravel:
      return 3;
    default:
      return 1;
  }
}

// A forbidden zone counts before all else, a root zone before what grows, else the smaller area before the larger.
std::vector<const job::Area*> in_order(const job::Plan& plan) {
  std::vector<const job::Area*> areas;
  for (const job::Area& area : plan.areas) areas.push_back(&area);
  std::stable_sort(areas.begin(), areas.end(), [](const job::Area* p, const job::Area* q) {
    const auto key = [](const job::Area& area) {
      return std::make_pair(rank_of(area.kind), geometry::area_m2(area.outline));
    };
    return key(*p) < key(*q);
  });
  return areas;
}

void add_keep_off(const job::Plan& plan, const Ruleset& ruleset, wiring::GroundMap& map) {
  for (const job::Area& area : plan.areas) {
    double distance_m = 0;
    for (const Rule& rule : ruleset.rules) {
      if (rule.check != "water-distance" || !is_in_force(rule) || rule.severity != Severity::error) continue;
      const auto table = rule.tables.find("distance_m");
      if (table == rule.tables.end()) continue;
      const auto found = table->second.find(area.kind == GroundKind::pool    ? "pool"
                                            : area.kind == GroundKind::water ? "water"
                                                                             : "");
      if (found != table->second.end()) distance_m = std::max(distance_m, found->second);
    }
    constexpr double to_be_sure_m = 0.05;
    if (distance_m > 0) map.keep_off.push_back({area.outline, distance_m + to_be_sure_m});
  }
}

}  // namespace

wiring::GroundMap ground_map(const job::Job& job, const Ruleset& ruleset, const RouteRequest& request,
                             const RoutePrices& prices, const RouteGoods& goods) {
  wiring::GroundMap map;
  const estimate::InstallRates& rates = prices.rates();
  const double sleeve_per_m = goods.sundry_cost(job::SundryKind::sleeve);
  for (const job::Area* area : in_order(job.plan)) {
    wiring::Patch patch;
    patch.outline = area->outline;
    patch.blocked = is_blocked(area->kind);
    patch.hard = area->kind == GroundKind::paving;
    patch.dig_per_m =
        prices.minutes(rates.trench_min_per_m[static_cast<std::size_t>(area->kind)]) + (patch.hard ? sleeve_per_m : 0);
    patch.joint_allowed = takes_joints(area->kind);
    map.patches.push_back(std::move(patch));
  }
  map.open_dig_per_m = prices.minutes(rates.unknown_trench_min_per_m);
  if (job.plan.property_line.size() >= 3) map.boundary = job.plan.property_line;
  for (const job::Sleeve& sleeve : job.plan.sleeves) {
    map.ducts.push_back({sleeve.path, prices.minutes(rates.sleeve_pull_min_per_m)});
  }
  add_keep_off(job.plan, ruleset, map);
  for (const std::string& id : request.pins.forbidden_trenches) {
    for (const job::Cable& cable : job.cables) {
      if (cable.id == id && cable.path.size() >= 2) map.closed_ways.push_back(cable.path);
    }
  }
  return map;
}

}  // namespace duskwire::study
