// SPDX-License-Identifier: Apache-2.0
#include "study/ground.hpp"

#include <algorithm>
#include <array>

#include "geometry/polygon.hpp"

namespace duskwire::study {
namespace {

using job::GroundKind;

struct GroundName {
  std::string_view key;
  std::string_view words;
};

constexpr std::array<GroundName, 14> names = {{
    {"bed", "a bed"},
    {"lawn", "the lawn"},
    {"gravel", "gravel"},
    {"paving", "paving"},
    {"drive", "a drive"},
    {"street", "a street"},
    {"building", "a building"},
    {"deck", "a deck"},
    {"wall", "a wall"},
    {"steps", "steps"},
    {"water", "open water"},
    {"pool", "a pool"},
    {"root_zone", "a root zone"},
    {"forbidden", "a zone where nobody digs"},
}};

const GroundName& name_of(GroundKind kind) { return names.at(static_cast<std::size_t>(kind)); }

bool is_overlay(GroundKind kind) { return kind == GroundKind::root_zone || kind == GroundKind::forbidden; }

geometry::Point2 between(geometry::Point2 from, geometry::Point2 to, double share) {
  return {from.x_m + share * (to.x_m - from.x_m), from.y_m + share * (to.y_m - from.y_m)};
}

}  // namespace

std::string_view ground_key(GroundKind kind) { return name_of(kind).key; }
std::string_view ground_words(GroundKind kind) { return name_of(kind).words; }

Ground::Ground(const job::Plan& plan) {
  for (const job::Area& area : plan.areas) areas_.push_back(&area);
  std::stable_sort(areas_.begin(), areas_.end(), [](const job::Area* p, const job::Area* q) {
    if (is_overlay(p->kind) != is_overlay(q->kind)) return is_overlay(q->kind);
    return geometry::area_m2(p->outline) < geometry::area_m2(q->outline);
  });
}

std::optional<GroundKind> Ground::at(geometry::Point2 point) const {
  for (const job::Area* area : areas_) {
    if (geometry::contains(area->outline, point)) return area->kind;
  }
  return std::nullopt;
}

GroundAlong Ground::along(const geometry::Polyline& route) const {
  GroundAlong along;
  for (std::size_t i = 1; i < route.size(); ++i) {
    std::vector<double> shares = {0, 1};
    for (const job::Area* area : areas_) {
      const std::vector<double> met = geometry::crossings(area->outline, route[i - 1], route[i]);
      shares.insert(shares.end(), met.begin(), met.end());
    }
    std::sort(shares.begin(), shares.end());
    const double piece_m = geometry::distance_m(route[i - 1], route[i]);
    for (std::size_t s = 1; s < shares.size(); ++s) {
      const double length_m = piece_m * (shares[s] - shares[s - 1]);
      if (length_m <= 0) continue;
      const auto kind = at(between(route[i - 1], route[i], (shares[s] + shares[s - 1]) / 2));
      (kind ? along.length_m[*kind] : along.unknown_m) += length_m;
    }
  }
  return along;
}

}  // namespace duskwire::study
