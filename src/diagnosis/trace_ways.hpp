// SPDX-License-Identifier: Apache-2.0
// The ways of one walked run as a tree: how far a place is from the transformer, what lies beyond it, and how much of
// the way two places share. Thread-safe once made.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::diagnosis {

struct WayPlace {
  std::uint32_t way = 0;
  double along_m = 0;
};

// The place of a way that is nearest to a point.
struct NearestPlace {
  WayPlace place;
  geometry::Point2 at;
  double distance_m = 0;
};

class WayTree {
 public:
  explicit WayTree(std::vector<geometry::Polyline> ways);

  [[nodiscard]] std::size_t size() const { return ways_.size(); }
  [[nodiscard]] double length_m(std::uint32_t way) const { return length_m_[way]; }
  // Where a way leaves the earlier one; itself for the first.
  [[nodiscard]] WayPlace parting(std::uint32_t way) const { return parting_[way]; }
  // How far off the earlier ways it begins.
  [[nodiscard]] double gap_m(std::uint32_t way) const { return gap_m_[way]; }
  [[nodiscard]] NearestPlace nearest(std::uint32_t way, geometry::Point2 to) const;
  [[nodiscard]] NearestPlace nearest(geometry::Point2 to) const;
  [[nodiscard]] double from_source_m(WayPlace place) const { return start_m_[place.way] + place.along_m; }
  // Whether the current of `place` passes `point`.
  [[nodiscard]] bool lies_beyond(WayPlace place, WayPlace point) const;
  // The length of cable from the transformer that feeds both.
  [[nodiscard]] double shared_m(WayPlace one, WayPlace other) const;
  [[nodiscard]] geometry::Polyline stretch(std::uint32_t way, double from_m, double to_m) const;

 private:
  std::vector<geometry::Polyline> ways_;
  std::vector<double> length_m_;
  std::vector<double> start_m_;
  std::vector<double> gap_m_;
  std::vector<WayPlace> parting_;
};

}  // namespace duskwire::diagnosis
