// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/trace_ways.hpp"

#include <algorithm>
#include <limits>
#include <utility>

namespace duskwire::diagnosis {
namespace {

geometry::Point2 between(geometry::Point2 p, geometry::Point2 q, double share) {
  return {p.x_m + share * (q.x_m - p.x_m), p.y_m + share * (q.y_m - p.y_m)};
}

NearestPlace nearest_on(const geometry::Polyline& line, std::uint32_t way, geometry::Point2 to) {
  NearestPlace best{{way, 0}, line.front(), geometry::distance_m(line.front(), to)};
  double before_m = 0;
  for (std::size_t k = 1; k < line.size(); ++k) {
    const geometry::Point2 p = line[k - 1];
    const geometry::Point2 q = line[k];
    const double long_m = geometry::distance_m(p, q);
    const double square = long_m * long_m;
    const double dot = (to.x_m - p.x_m) * (q.x_m - p.x_m) + (to.y_m - p.y_m) * (q.y_m - p.y_m);
    const double share = square > 0 ? std::clamp(dot / square, 0.0, 1.0) : 0;
    const geometry::Point2 at = between(p, q, share);
    const double off_m = geometry::distance_m(at, to);
    if (off_m < best.distance_m) best = {{way, before_m + share * long_m}, at, off_m};
    before_m += long_m;
  }
  return best;
}

}  // namespace

WayTree::WayTree(std::vector<geometry::Polyline> ways) : ways_(std::move(ways)) {
  for (std::uint32_t w = 0; w < ways_.size(); ++w) {
    double long_m = 0;
    for (std::size_t k = 1; k < ways_[w].size(); ++k) long_m += geometry::distance_m(ways_[w][k - 1], ways_[w][k]);
    NearestPlace start{{w, 0}, ways_[w].front(), 0};
    if (w > 0) start.distance_m = std::numeric_limits<double>::infinity();
    for (std::uint32_t earlier = 0; earlier < w; ++earlier) {
      const NearestPlace near = nearest_on(ways_[earlier], earlier, ways_[w].front());
      if (near.distance_m < start.distance_m) start = near;
    }
    length_m_.push_back(long_m);
    parting_.push_back(start.place);
    gap_m_.push_back(start.distance_m);
    start_m_.push_back(w == 0 ? 0 : from_source_m(start.place));
  }
}

NearestPlace WayTree::nearest(std::uint32_t way, geometry::Point2 to) const { return nearest_on(ways_[way], way, to); }

NearestPlace WayTree::nearest(geometry::Point2 to) const {
  NearestPlace best = nearest(0, to);
  for (std::uint32_t w = 1; w < ways_.size(); ++w) {
    const NearestPlace other = nearest(w, to);
    if (other.distance_m < best.distance_m) best = other;
  }
  return best;
}

bool WayTree::lies_beyond(WayPlace place, WayPlace point) const {
  while (place.way > point.way) place = parting_[place.way];
  return place.way == point.way && place.along_m >= point.along_m;
}

double WayTree::shared_m(WayPlace one, WayPlace other) const {
  // A way's number is higher than that of the one it leaves.
  while (one.way != other.way) {
    WayPlace& later = one.way > other.way ? one : other;
    later = parting_[later.way];
  }
  return std::min(from_source_m(one), from_source_m(other));
}

geometry::Polyline WayTree::stretch(std::uint32_t way, double from_m, double to_m) const {
  const geometry::Polyline& line = ways_[way];
  geometry::Polyline out;
  double before_m = 0;
  for (std::size_t k = 1; k < line.size(); ++k) {
    const double long_m = geometry::distance_m(line[k - 1], line[k]);
    const double after_m = before_m + long_m;
    const auto at = [&](double along_m) {
      return between(line[k - 1], line[k], long_m > 0 ? std::clamp((along_m - before_m) / long_m, 0.0, 1.0) : 0);
    };
    if (out.empty() && after_m >= from_m) out.push_back(at(from_m));
    if (!out.empty() && after_m < to_m) out.push_back(line[k]);
    if (!out.empty() && after_m >= to_m) {
      out.push_back(at(to_m));
      return out;
    }
    before_m = after_m;
  }
  out.push_back(line.back());
  return out;
}

}  // namespace duskwire::diagnosis
