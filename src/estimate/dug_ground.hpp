// SPDX-License-Identifier: Apache-2.0
// Ground that is open already, as points along the trenches: whether a cable finds a trench to lie in at a place.
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::estimate {

// A spade's trench is about this wide: a cable no farther off lies in it. Common practice, no source.
inline constexpr double shared_trench_m = 0.15;

class DugGround {
 public:
  void add(geometry::Point2 point);
  // Whether a point that was added is within shared_trench_m.
  [[nodiscard]] bool is_open_at(geometry::Point2 point) const;

 private:
  struct Spot {
    geometry::Point2 point;
    std::int32_t next;  // in the same cell; -1: none
  };
  struct CellHash {
    std::size_t operator()(std::uint64_t cell) const;
  };

  std::vector<Spot> spots_;
  std::unordered_map<std::uint64_t, std::int32_t, CellHash> first_in_cell_;
};

}  // namespace duskwire::estimate
