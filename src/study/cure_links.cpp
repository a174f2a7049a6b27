// SPDX-License-Identifier: Apache-2.0
// What connects an island of wires to the rest: by the plan, since nothing else tells where it should hang.
#include <fmt/format.h>

#include <limits>

#include "study/cure_candidates.hpp"
#include "study/cure_changes.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

std::optional<geometry::Point2> position_of(const Built& built, std::uint32_t node) {
  const job::Job& job = *built.job;
  const Spot spot = built.spot_of_node(node);
  if (spot.kind == SpotKind::output) return job.transformers[spot.index].position;
  if (spot.kind == SpotKind::joint) return job.joints[spot.index].position;
  const auto& position = job.luminaires[spot.index].position;
  return position ? std::optional<geometry::Point2>({position->x_m, position->y_m}) : std::nullopt;
}

// All nodes that wires join to this one, itself included.
std::vector<std::uint32_t> joined_to(const Built& built, std::uint32_t node) {
  const electrical::Network& network = electrical::network_of(*built.prepared);
  std::vector<bool> seen(network.node_count, false);
  std::vector<std::uint32_t> group{node};
  seen[node] = true;
  for (std::size_t at = 0; at < group.size(); ++at) {
    for (const electrical::Segment& wire : network.segments) {
      if (wire.from != group[at] && wire.to != group[at]) continue;
      const std::uint32_t next = wire.from == group[at] ? wire.to : wire.from;
      if (!seen[next]) group.push_back(next);
      seen[next] = true;
    }
  }
  return group;
}

}  // namespace

Candidates CureCandidates::links(std::uint32_t node) const {
  double least_m = std::numeric_limits<double>::infinity();
  std::uint32_t best_near = none;
  std::uint32_t best_fed = none;
  const std::vector<std::uint32_t> group = joined_to(built_, node);
  for (std::uint32_t fed = 0; fed < built_.supply.size(); ++fed) {
    const auto fed_position = position_of(built_, fed);
    if (built_.supply[fed].output == none || !fed_position) continue;
    for (const std::uint32_t near : group) {
      const auto position = position_of(built_, near);
      if (!position || geometry::distance_m(*position, *fed_position) >= least_m) continue;
      least_m = geometry::distance_m(*position, *fed_position);
      best_near = near;
      best_fed = fed;
    }
  }
  if (best_near == none) return {};
  const std::uint32_t parent = built_.supply[best_fed].parent_segment;
  const bool like_the_run = parent != none && !built_.wires[parent].is_lead;
  const std::string item = like_the_run          ? job_.cables[built_.wires[parent].index].item
                           : job_.cables.empty() ? std::string()
                                                 : job_.cables.front().item;
  const job::CableItem* cable = job::find_cable(job_.catalogue, item);
  if (!cable) return {};
  const std::string from = id_of(job_, built_.spot_of_node(best_fed));
  const std::string to = id_of(job_, built_.spot_of_node(best_near));
  return {{fmt::format("Connect {} to {} with {} of {}, by the plan", to, from, length_words(least_m),
                       conductor_words(*cable, job_.site.units)),
           {added_cable(free_cable_id(to + "-link"), item, from, to, least_m)}}};
}

}  // namespace duskwire::study
