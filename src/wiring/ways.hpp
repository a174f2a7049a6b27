// SPDX-License-Identifier: Apache-2.0
// Shortest ways on the ground graph from one node outwards (Dijkstra 1959): what is dug already costs only the cable.
#pragma once

#include <cstdint>
#include <limits>
#include <utility>
#include <vector>

#include "wiring/graph.hpp"
#include "wiring/layout.hpp"

namespace duskwire::wiring {

class Ways {
 public:
  explicit Ways(const GroundGraph& ground);

  // Starts anew from `node`. `per_m`: what a metre of cable costs beside the trench.
  void start(std::uint32_t node, const Layout& layout, double per_m);
  // The next nearest node, or none where all that can be reached has been.
  std::uint32_t next();
  [[nodiscard]] double cost(std::uint32_t node) const { return stamp_[node] == now_ ? cost_[node] : HUGE_VAL_; }
  [[nodiscard]] bool reached(std::uint32_t node) const { return settled_[node] == now_; }
  // From `node` back to where the search started.
  [[nodiscard]] WayPtr way_from(std::uint32_t node) const;
  // From where it started to `node`.
  [[nodiscard]] WayPtr way_to(std::uint32_t node) const;

 private:
  static constexpr double HUGE_VAL_ = std::numeric_limits<double>::infinity();
  using Entry = std::pair<double, std::uint32_t>;

  struct Price {
    double length_m = 0;
    double dig_cost = 0;
  };

  const GroundGraph& ground_;
  Neighbours neighbours_;
  std::vector<Price> prices_;  // by edge: side by side, since this loop is the hottest of the room
  std::vector<double> cost_;
  std::vector<std::uint32_t> by_edge_, stamp_, settled_;
  std::vector<Entry> queue_;
  std::uint32_t now_ = 0;
  std::uint32_t start_ = 0;
  const Layout* layout_ = nullptr;
  double per_m_ = 0;
};

}  // namespace duskwire::wiring
