// SPDX-License-Identifier: Apache-2.0
#include "geometry/strip.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

#include "geometry/polygon.hpp"

namespace duskwire::geometry {
namespace {

constexpr std::size_t most_corners = 400;
constexpr std::size_t most_samples = 400;

// The points from one end of edge `from` round to the start of edge `to`.
Polyline side(const Polygon& outline, std::size_t from, std::size_t to) {
  Polyline line;
  for (std::size_t i = (from + 1) % outline.size();; i = (i + 1) % outline.size()) {
    line.push_back(outline[i]);
    if (i == to) return line;
  }
}

struct Ends {
  std::size_t first = 0;
  std::size_t second = 0;
};

// How far the outline turns at a corner, positive as it runs round.
std::vector<double> turns_deg(const Polygon& outline) {
  const std::size_t count = outline.size();
  std::vector<double> turns(count, 0);
  double sum = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const Point2 before = outline[(i + count - 1) % count];
    const Point2 here = outline[i];
    const Point2 after = outline[(i + 1) % count];
    const Point2 p{here.x_m - before.x_m, here.y_m - before.y_m};
    const Point2 q{after.x_m - here.x_m, after.y_m - here.y_m};
    turns[i] = std::atan2(p.x_m * q.y_m - p.y_m * q.x_m, p.x_m * q.x_m + p.y_m * q.y_m) * 180 / std::numbers::pi;
    sum += turns[i];
  }
  if (sum < 0) {
    for (double& turn : turns) turn = -turn;
  }
  return turns;
}

// A walk ends where its outline turns about: twice at one edge.
std::vector<std::size_t> end_candidates(const Polygon& outline) {
  constexpr double corner_deg = 30;
  constexpr double about_deg = 110;
  const std::vector<double> turns = turns_deg(outline);
  std::vector<std::size_t> edges;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const double here = turns[i];
    const double there = turns[(i + 1) % outline.size()];
    if (here > corner_deg && there > corner_deg && here + there > about_deg) edges.push_back(i);
  }
  return edges;
}

// Of those, by the shorter side less both ends: for a straight walk length less twice the width.
std::optional<Ends> find_ends(const Polygon& outline) {
  const std::size_t count = outline.size();
  std::vector<double> edge_m(count);
  std::vector<double> before_m(count + 1, 0);
  for (std::size_t i = 0; i < count; ++i) {
    edge_m[i] = distance_m(outline[i], outline[(i + 1) % count]);
    before_m[i + 1] = before_m[i] + edge_m[i];
  }
  std::optional<Ends> best;
  double best_m = 0;
  const std::vector<std::size_t> candidates = end_candidates(outline);
  for (const std::size_t i : candidates) {
    for (const std::size_t k : candidates) {
      if (k <= i) continue;
      const double one_m = before_m[k] - before_m[i + 1];
      const double other_m = before_m[count] - before_m[k + 1] + before_m[i];
      const double score_m = std::min(one_m, other_m) - edge_m[i] - edge_m[k];
      if (best && score_m <= best_m) continue;
      best_m = score_m;
      best = Ends{i, k};
    }
  }
  return best;
}

}  // namespace

double length_m(const Polyline& line) {
  double sum_m = 0;
  for (std::size_t i = 1; i < line.size(); ++i) sum_m += distance_m(line[i - 1], line[i]);
  return sum_m;
}

LinePlace place_along(const Polyline& line, double along_m) {
  LinePlace place{line.empty() ? Point2{} : line.front(), {1, 0}};
  double left_m = std::max(along_m, 0.0);
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double piece_m = distance_m(line[i - 1], line[i]);
    if (piece_m <= 0) continue;
    const double share = std::min(left_m / piece_m, 1.0);
    const Point2 way{(line[i].x_m - line[i - 1].x_m) / piece_m, (line[i].y_m - line[i - 1].y_m) / piece_m};
    place = {{line[i - 1].x_m + share * piece_m * way.x_m, line[i - 1].y_m + share * piece_m * way.y_m}, way};
    if (left_m <= piece_m) break;
    left_m -= piece_m;
  }
  return place;
}

std::optional<Strip> strip_of(const Polygon& outline, double least_slenderness) {
  if (outline.size() < 4 || outline.size() > most_corners) return std::nullopt;
  const std::optional<Ends> ends = find_ends(outline);
  if (!ends) return std::nullopt;
  Strip strip;
  const Polyline right = side(outline, ends->first, ends->second);
  Polyline left = side(outline, ends->second, ends->first);
  std::reverse(left.begin(), left.end());
  const double right_m = length_m(right);
  const double left_m = length_m(left);
  const double least_m = std::max(area_m2(outline), 1e-12) / std::max(right_m, left_m);
  const double wanted = std::ceil(2 * std::max(right_m, left_m) / std::max(least_m, 1e-6));
  const auto steps = static_cast<std::size_t>(std::clamp(wanted, 1.0, static_cast<double>(most_samples)));
  for (std::size_t i = 0; i <= steps; ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(steps);
    const Point2 p = place_along(left, share * left_m).place;
    const Point2 q = place_along(right, share * right_m).place;
    strip.left.push_back(p);
    strip.right.push_back(q);
    strip.centreline.push_back({(p.x_m + q.x_m) / 2, (p.y_m + q.y_m) / 2});
  }
  strip.length_m = length_m(strip.centreline);
  if (strip.length_m <= 0) return std::nullopt;
  strip.width_m = area_m2(outline) / strip.length_m;
  if (strip.length_m < least_slenderness * strip.width_m) return std::nullopt;
  if (distance_m(outline[0], strip.centreline.back()) < distance_m(outline[0], strip.centreline.front())) {
    for (Polyline* line : {&strip.centreline, &strip.left, &strip.right}) std::reverse(line->begin(), line->end());
  }
  // An outline that runs clockwise, or was turned about, has its sides the other way round.
  const Point2 way = place_along(strip.centreline, 0).way;
  const Point2 across{strip.left[0].x_m - strip.right[0].x_m, strip.left[0].y_m - strip.right[0].y_m};
  if (way.x_m * across.y_m - way.y_m * across.x_m < 0) std::swap(strip.left, strip.right);
  return strip;
}

}  // namespace duskwire::geometry
