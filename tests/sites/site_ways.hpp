// SPDX-License-Identifier: Apache-2.0
// Cheapest ways over the ground of a site, from a transformer's place or a lamp outwards: the same ground and the same
// ways as the planner has. What is dug already costs nothing more than the cable.
#pragma once

#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <queue>
#include <string>
#include <utility>
#include <vector>

#include "estimate/installed.hpp"
#include "job/job.hpp"
#include "study/rules.hpp"
#include "wiring/graph.hpp"
#include "wiring/ground_graph.hpp"

namespace duskwire::sites {

struct SiteRoute {
  geometry::Polyline path;
  std::string sleeve;  // of the plan, that it passes; the first where there are several
  std::vector<std::uint32_t> edges;
};

class SiteWays {
 public:
  SiteWays(const job::Job& site, const study::Ruleset& rules, const job::Catalogue& stock,
           const estimate::InstallRates& rates);

  [[nodiscard]] std::uint32_t node_of_place(std::size_t transformer) const { return ground_.terminals[transformer]; }
  [[nodiscard]] std::uint32_t node_of_lamp(std::size_t lamp) const { return ground_.terminals[places_ + lamp]; }

  // Starts anew from these nodes at once.
  void start(const std::vector<std::uint32_t>& nodes);
  // The next nearest node and what it costs to get there; empty where all that can be reached has been.
  [[nodiscard]] std::optional<std::pair<double, std::uint32_t>> next();
  // Of a node that next() gave: which of the beginnings it was reached from.
  [[nodiscard]] std::uint32_t beginning_of(std::uint32_t node) const;
  // From there to the node.
  [[nodiscard]] SiteRoute route_to(std::uint32_t node) const;

  void dig(const SiteRoute& route);
  void fill_in() { dug_.assign(ground_.edges.size(), 0); }

 private:
  static constexpr std::uint32_t nowhere = 0xffffffffu;
  using Entry = std::pair<double, std::uint32_t>;

  const job::Job& site_;
  std::size_t places_ = 0;
  wiring::GroundGraph ground_;
  wiring::Neighbours neighbours_;
  std::vector<char> dug_, settled_;
  std::vector<double> cost_;
  std::vector<std::uint32_t> by_edge_;
  std::vector<std::uint32_t> touched_;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue_;
};

}  // namespace duskwire::sites
