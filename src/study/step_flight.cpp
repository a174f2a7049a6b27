// SPDX-License-Identifier: Apache-2.0
#include "study/step_flight.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

#include "geometry/clip.hpp"
#include "geometry/polygon.hpp"
#include "study/lit_lamps.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

// Usual riser and tread outdoors (common practice, no source).
constexpr double usual_riser_m = 0.17;
constexpr double usual_tread_m = 0.35;
constexpr double adjoins_m = 0.5;

std::size_t next(const geometry::Polygon& outline, std::size_t i) { return (i + 1) % outline.size(); }

Point2 mid_of_edge(const geometry::Polygon& outline, std::size_t edge) {
  const Point2 p = outline[edge];
  const Point2 q = outline[next(outline, edge)];
  return {(p.x_m + q.x_m) / 2, (p.y_m + q.y_m) / 2};
}

// The edge that lies at a deck or a building: steps lead up to it.
std::optional<std::size_t> upper_edge(const job::Plan& plan, const job::Area& steps) {
  std::optional<std::size_t> best;
  double best_m = adjoins_m;
  for (const job::Area& area : plan.areas) {
    if (area.kind != job::GroundKind::deck && area.kind != job::GroundKind::building) continue;
    for (std::size_t i = 0; i < steps.outline.size(); ++i) {
      const double away_m = distance_m(area.outline, mid_of_edge(steps.outline, i));
      if (away_m >= best_m) continue;
      best_m = away_m;
      best = i;
    }
  }
  return best;
}

std::size_t longest_edge(const geometry::Polygon& outline) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < outline.size(); ++i) {
    if (geometry::distance_m(outline[i], outline[next(outline, i)]) >
        geometry::distance_m(outline[best], outline[next(outline, best)])) {
      best = i;
    }
  }
  return best;
}

Point2 way_up(const job::Plan& plan, const job::Area& area, bool& assumed) {
  if (area.ascent_deg) {
    const geometry::Vec3 way = way_of(plan, *area.ascent_deg, 0);
    return {way.x, way.y};
  }
  const std::optional<std::size_t> edge = upper_edge(plan, area);
  assumed = true;
  return outward(area.outline, edge ? *edge : longest_edge(area.outline));
}

std::size_t risers_of(const job::Area& area, double depth_m, bool& assumed) {
  if (area.riser_count && *area.riser_count > 0) return *area.riser_count;
  assumed = true;
  const double count = area.height_m > 0 ? std::ceil(area.height_m / usual_riser_m) : depth_m / usual_tread_m;
  return static_cast<std::size_t>(std::clamp(std::round(count), 1.0, 200.0));
}

}  // namespace

double StepFlight::height_at_m(Point2 place) const {
  double height_m = 0;
  for (const Tread& tread : treads) {
    if (contains(tread.outline, place)) height_m = std::max(height_m, tread.height_m);
  }
  return height_m;
}

StepFlight step_flight(const job::Plan& plan, const job::Area& area) {
  StepFlight flight;
  if (area.outline.size() < 3) return flight;
  flight.up = way_up(plan, area, flight.assumed);
  const geometry::Extent extent = extent_along(area.outline, flight.up);
  const std::size_t count = risers_of(area, extent.high - extent.low, flight.assumed);
  const double depth_m = (extent.high - extent.low) / static_cast<double>(count);
  const Point2 down{-flight.up.x_m, -flight.up.y_m};
  for (std::size_t i = 0; i < count; ++i) {
    const double low = extent.low + depth_m * static_cast<double>(i);
    const double high = low + depth_m;
    const Point2 from{low * flight.up.x_m, low * flight.up.y_m};
    const Point2 to{high * flight.up.x_m, high * flight.up.y_m};
    Tread tread;
    tread.outline = clipped(clipped(area.outline, from, flight.up), to, down);
    tread.height_m = area.height_m * static_cast<double>(i + 1) / static_cast<double>(count);
    if (tread.outline.size() < 3) continue;
    const Point2 centre = middle(tread.outline);
    const double back_m = centre.x_m * flight.up.x_m + centre.y_m * flight.up.y_m - low;
    tread.nosing = {centre.x_m - back_m * flight.up.x_m, centre.y_m - back_m * flight.up.y_m};
    flight.treads.push_back(std::move(tread));
  }
  return flight;
}

}  // namespace duskwire::study
