// SPDX-License-Identifier: Apache-2.0
#include "estimate/laid_sleeves.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/polygon.hpp"

namespace duskwire::estimate {
namespace {

using geometry::Point2;
using geometry::Polyline;

// Nearer to the end of a sleeve than this is its end.
constexpr double end_m = 1e-9;

// The nearest place of a line to a point.
struct Foot {
  double away_m = std::numeric_limits<double>::infinity();
  double along_m = 0;
};

Foot foot_of(const Polyline& line, Point2 point) {
  Foot nearest;
  double passed_m = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double piece_m = geometry::distance_m(line[i - 1], line[i]);
    const double away_m = geometry::distance_to_segment_m(point, line[i - 1], line[i]);
    if (away_m < nearest.away_m) {
      const double from_start_m = geometry::distance_m(line[i - 1], point);
      const double square_m2 = from_start_m * from_start_m - away_m * away_m;
      nearest = {away_m, passed_m + std::min(piece_m, std::sqrt(std::max(0.0, square_m2)))};
    }
    passed_m += piece_m;
  }
  return nearest;
}

// In at one end and out at the other; a cable that only crosses the sleeve meets both ends at one place.
bool lies_along(const Polyline& sleeve, const Polyline& path) {
  const Foot in = foot_of(path, sleeve.front());
  if (in.away_m > sleeve_reach_m) return false;
  const Foot out = foot_of(path, sleeve.back());
  return out.away_m <= sleeve_reach_m && std::abs(out.along_m - in.along_m) >= length_m(sleeve) / 2;
}

}  // namespace

double length_m(const Polyline& line) {
  double sum_m = 0;
  for (std::size_t i = 1; i < line.size(); ++i) sum_m += geometry::distance_m(line[i - 1], line[i]);
  return sum_m;
}

LaidSleeves::LaidSleeves(const job::Plan& plan, const std::vector<std::string>& sleeves_to_lay) {
  for (const job::Sleeve& sleeve : plan.sleeves) {
    const bool to_lay = std::find(sleeves_to_lay.begin(), sleeves_to_lay.end(), sleeve.id) != sleeves_to_lay.end();
    if (!to_lay && sleeve.path.size() >= 2) sleeves_.push_back(&sleeve);
  }
}

std::vector<const job::Sleeve*> LaidSleeves::serving(const job::Cable& cable) const {
  std::vector<const job::Sleeve*> found;
  for (const job::Sleeve* sleeve : sleeves_) {
    if (sleeve->id == cable.sleeve || lies_along(sleeve->path, cable.path)) found.push_back(sleeve);
  }
  return found;
}

const job::Sleeve* LaidSleeves::named(const std::string& id) const {
  const auto found =
      std::find_if(sleeves_.begin(), sleeves_.end(), [&](const job::Sleeve* sleeve) { return sleeve->id == id; });
  return found == sleeves_.end() ? nullptr : *found;
}

bool runs_through(const std::vector<const job::Sleeve*>& sleeves, Point2 point, bool hard) {
  return std::any_of(sleeves.begin(), sleeves.end(), [&](const job::Sleeve* sleeve) {
    const Foot foot = foot_of(sleeve->path, point);
    if (foot.away_m > sleeve_reach_m) return false;
    return hard || (foot.along_m > 0 && foot.along_m < length_m(sleeve->path) - end_m);
  });
}

}  // namespace duskwire::estimate
