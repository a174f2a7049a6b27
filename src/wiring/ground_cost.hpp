// SPDX-License-Identifier: Apache-2.0
// What it costs to dig straight from one point to another, and whether that may be done at all.
#pragma once

#include <optional>
#include <vector>

#include "wiring/ground_graph.hpp"

namespace duskwire::wiring {

struct StraightWay {
  double dig_cost = 0;
  double blocked_m = 0;
  std::vector<double> hard_shares;
};

class GroundCost {
 public:
  explicit GroundCost(const GroundMap& map);  // the map outlives this

  [[nodiscard]] bool blocked(geometry::Point2 at) const;
  [[nodiscard]] bool joint_allowed(geometry::Point2 at) const;
  // The patch that counts there, or nullptr.
  [[nodiscard]] const Patch* patch_at(geometry::Point2 at) const;
  // Empty where the way is closed: along a closed way, too near to what is kept off, or (unless `through`) blocked.
  [[nodiscard]] std::optional<StraightWay> straight(geometry::Point2 from, geometry::Point2 to,
                                                    bool through = false) const;

 private:
  struct Box {
    double left_m = 0, right_m = 0, low_m = 0, high_m = 0;
  };
  [[nodiscard]] static Box box_of(const geometry::Polyline& points, double margin_m);
  [[nodiscard]] static bool apart(const Box& p, const Box& q) {
    return p.right_m < q.left_m || q.right_m < p.left_m || p.high_m < q.low_m || q.high_m < p.low_m;
  }
  [[nodiscard]] bool closed(geometry::Point2 from, geometry::Point2 to, const Box& box) const;

  const GroundMap& map_;
  std::vector<Box> patch_boxes_, keep_off_boxes_, closed_boxes_;
  std::vector<geometry::Polyline> closed_ways_;  // their ends cut off
};

}  // namespace duskwire::wiring
