// SPDX-License-Identifier: Apache-2.0
// Nodes: what has to be reached, mouths of ducts, corners around which a short way bends, and a light filling between
// them where cables may branch. Edges: from each node to the nearest it can see in each direction.
#include "wiring/ground_graph.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <set>
#include <utility>

#include "geometry/polygon.hpp"
#include "wiring/ground_cost.hpp"

namespace duskwire::wiring {
namespace {

using geometry::Point2;
using geometry::Polygon;

constexpr double corner_gap_m = 0.3;  // a trench keeps off a wall by about this much
constexpr double same_point_m = 0.02;
constexpr double crowded_m = 0.25;  // filling is left out so near to another node

struct Box {
  double left_m = HUGE_VAL, right_m = -HUGE_VAL, low_m = HUGE_VAL, high_m = -HUGE_VAL;
  void take(Point2 p) {
    left_m = std::min(left_m, p.x_m);
    right_m = std::max(right_m, p.x_m);
    low_m = std::min(low_m, p.y_m);
    high_m = std::max(high_m, p.y_m);
  }
};

// Buckets of nodes, for neighbours within a distance.
class Buckets {
 public:
  explicit Buckets(double size_m) : size_m_(size_m) {}
  void add(std::uint32_t node, Point2 at) { cells_[key(cell(at.x_m), cell(at.y_m))].push_back(node); }
  template <class Visit>
  void near(Point2 at, double within_m, Visit visit) const {
    for (std::int64_t i = cell(at.x_m - within_m); i <= cell(at.x_m + within_m); ++i) {
      for (std::int64_t j = cell(at.y_m - within_m); j <= cell(at.y_m + within_m); ++j) {
        const auto found = cells_.find(key(i, j));
        if (found == cells_.end()) continue;
        for (const std::uint32_t node : found->second) visit(node);
      }
    }
  }

 private:
  [[nodiscard]] std::int64_t cell(double value_m) const {
    return static_cast<std::int64_t>(std::floor(value_m / size_m_));
  }
  static std::pair<std::int64_t, std::int64_t> key(std::int64_t i, std::int64_t j) { return {i, j}; }
  double size_m_;
  std::map<std::pair<std::int64_t, std::int64_t>, std::vector<std::uint32_t>> cells_;
};

// The outline moved outwards by `gap_m` (inwards where negative), corner by corner, with a bounded mitre.
std::vector<Point2> moved_corners(const Polygon& outline, double gap_m) {
  double twice_area = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point2 p = outline[i];
    const Point2 q = outline[(i + 1) % outline.size()];
    twice_area += p.x_m * q.y_m - p.y_m * q.x_m;
  }
  const double outward = twice_area > 0 ? 1 : -1;
  std::vector<Point2> corners;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point2 before = outline[(i + outline.size() - 1) % outline.size()];
    const Point2 at = outline[i];
    const Point2 after = outline[(i + 1) % outline.size()];
    const double in_m = geometry::distance_m(before, at);
    const double out_m = geometry::distance_m(at, after);
    if (in_m < same_point_m || out_m < same_point_m) continue;
    // Normals of both sides, to the right of an outline that runs counter-clockwise.
    const Point2 n1{outward * (at.y_m - before.y_m) / in_m, -outward * (at.x_m - before.x_m) / in_m};
    const Point2 n2{outward * (after.y_m - at.y_m) / out_m, -outward * (after.x_m - at.x_m) / out_m};
    const double whole = 1 + n1.x_m * n2.x_m + n1.y_m * n2.y_m;
    const double mitre = gap_m / std::max(whole, 0.3);
    corners.push_back({at.x_m + mitre * (n1.x_m + n2.x_m), at.y_m + mitre * (n1.y_m + n2.y_m)});
  }
  return corners;
}

class Builder {
 public:
  Builder(const GroundMap& map, const std::vector<Point2>& terminals)
      : map_(map), cost_(map), asked_(terminals), buckets_(2.0) {}

  GroundGraph run() {
    add_terminals();
    add_ducts();
    add_corners();
    add_filling();
    join_neighbours();
    return std::move(graph_);
  }

 private:
  std::optional<std::uint32_t> node_near(Point2 at, double within_m) const {
    std::optional<std::uint32_t> found;
    buckets_.near(at, within_m, [&](std::uint32_t node) {
      if (!found && geometry::distance_m(graph_.nodes[node].at, at) <= within_m) found = node;
    });
    return found;
  }

  std::uint32_t add_node(Point2 at) {
    const auto node = static_cast<std::uint32_t>(graph_.nodes.size());
    graph_.nodes.push_back({at, cost_.joint_allowed(at)});
    buckets_.add(node, at);
    return node;
  }

  std::uint32_t node_at(Point2 at) {
    const auto found = node_near(at, same_point_m);
    return found ? *found : add_node(at);
  }

  void add_edge(std::uint32_t a, std::uint32_t b, const StraightWay& way) {
    if (a == b || !joined_.insert(std::minmax(a, b)).second) return;
    graph_.edges.push_back(
        {a, b, geometry::distance_m(graph_.nodes[a].at, graph_.nodes[b].at), way.dig_cost, no_duct, way.hard_shares});
  }

  bool try_edge(std::uint32_t a, std::uint32_t b) {
    if (a == b || joined_.contains(std::minmax(a, b))) return true;
    const auto way = cost_.straight(graph_.nodes[a].at, graph_.nodes[b].at);
    if (way) add_edge(a, b, *way);
    return way.has_value();
  }

  void add_terminals() {
    for (const Point2 at : asked_) {
      box_.take(at);
      graph_.terminals.push_back(node_at(at));
    }
    terminal_nodes_ = static_cast<std::uint32_t>(graph_.nodes.size());
    for (std::uint32_t node = 0; node < terminal_nodes_; ++node) {
      enclosed_.push_back(cost_.blocked(graph_.nodes[node].at));
      if (enclosed_.back()) land(node);
    }
  }

  // What stands in a wall, on steps or in a pond is reached from the nearest free ground beside it.
  void land(std::uint32_t node) {
    const Point2 at = graph_.nodes[node].at;
    std::vector<std::pair<double, Point2>> places;
    const auto offer = [&](const Polygon& outline) {
      for (std::size_t i = 0; i < outline.size(); ++i)
        offer_side(at, outline[i], outline[(i + 1) % outline.size()], places);
    };
    for (const Patch& patch : map_.patches) {
      if (patch.blocked) offer(patch.outline);
    }
    if (!map_.boundary.empty()) offer(map_.boundary);
    std::sort(places.begin(), places.end(), [](const auto& p, const auto& q) { return p.first < q.first; });
    int landings = 0;
    double first_m = 0;
    for (const auto& [gap_m, place] : places) {
      if (landings > 0 && gap_m > first_m + 1.0) break;
      const auto way = cost_.straight(at, place, true);
      if (!way) continue;
      add_edge(node, node_at(place), *way);
      if (landings == 0) first_m = gap_m;
      if (++landings == 3) break;
    }
  }

  void offer_side(Point2 at, Point2 from, Point2 to, std::vector<std::pair<double, Point2>>& places) const {
    const double side_m = geometry::distance_m(from, to);
    if (side_m < same_point_m) return;
    const Point2 along{(to.x_m - from.x_m) / side_m, (to.y_m - from.y_m) / side_m};
    const double share_m = std::clamp((at.x_m - from.x_m) * along.x_m + (at.y_m - from.y_m) * along.y_m, 0.0, side_m);
    for (const double side : {-0.15, 0.15}) {
      const Point2 place{from.x_m + share_m * along.x_m - side * along.y_m,
                         from.y_m + share_m * along.y_m + side * along.x_m};
      if (!cost_.blocked(place)) places.emplace_back(geometry::distance_m(at, place), place);
    }
  }

  void add_ducts() {
    for (std::uint32_t d = 0; d < map_.ducts.size(); ++d) {
      const geometry::Polyline& path = map_.ducts[d].path;
      if (path.size() < 2) continue;
      double whole_m = 0;
      for (std::size_t i = 1; i < path.size(); ++i) whole_m += geometry::distance_m(path[i - 1], path[i]);
      const std::uint32_t a = node_at(path.front());
      const std::uint32_t b = node_at(path.back());
      if (a == b) continue;
      joined_.insert(std::minmax(a, b));
      graph_.edges.push_back({a, b, whole_m, whole_m * map_.ducts[d].pull_per_m, d, {}});
      box_.take(path.front());
      box_.take(path.back());
    }
  }

  // Around what is blocked or dear outside of it, through what is cheap inside of it.
  void add_corners() {
    for (const Patch& patch : map_.patches) {
      if (patch.outline.size() < 3) continue;
      const bool around = patch.blocked || patch.dig_per_m > map_.open_dig_per_m;
      add_ring(moved_corners(patch.outline, around ? corner_gap_m : -corner_gap_m));
    }
    for (const KeepOff& zone : map_.keep_off) add_ring(moved_corners(zone.outline, zone.distance_m + 0.05));
    if (!map_.boundary.empty()) add_ring(moved_corners(map_.boundary, -corner_gap_m));
  }

  void add_ring(const std::vector<Point2>& corners) {
    std::vector<std::uint32_t> ring;
    for (const Point2 at : corners) {
      if (!within_reach(at) || cost_.blocked(at)) continue;
      const auto crowded = node_near(at, same_point_m * 5);
      ring.push_back(crowded ? *crowded : add_node(at));
    }
    for (std::size_t i = 0; i < ring.size() && ring.size() > 1; ++i) try_edge(ring[i], ring[(i + 1) % ring.size()]);
  }

  [[nodiscard]] bool within_reach(Point2 at) const {
    constexpr double around_m = 8;
    return at.x_m > box_.left_m - around_m && at.x_m < box_.right_m + around_m && at.y_m > box_.low_m - around_m &&
           at.y_m < box_.high_m + around_m;
  }

  void add_filling() {
    constexpr double around_m = 2;
    const double wide_m = box_.right_m - box_.left_m + 2 * around_m;
    const double deep_m = box_.high_m - box_.low_m + 2 * around_m;
    const double wanted = 150 + 2.0 * static_cast<double>(asked_.size());
    step_m_ = std::max(1.2, std::sqrt(std::max(1.0, wide_m * deep_m) / wanted));
    if (asked_.empty()) return;
    int row = 0;
    for (double y = box_.low_m - around_m; y <= box_.high_m + around_m; y += step_m_, ++row) {
      for (double x = box_.left_m - around_m + (row % 2) * step_m_ / 2; x <= box_.right_m + around_m; x += step_m_) {
        const Point2 at{x, y};
        const Patch* patch = cost_.patch_at(at);
        if ((patch && patch->hard) || cost_.blocked(at) || node_near(at, crowded_m)) continue;
        add_node(at);
      }
    }
  }

  void join_neighbours() {
    const auto count = static_cast<std::uint32_t>(graph_.nodes.size());
    for (std::uint32_t node = 0; node < count; ++node) {
      if (node < terminal_nodes_ && enclosed_[node]) continue;
      join_by_direction(node, buckets_, 3.2 * step_m_, 16);
    }
    // Straight ways from lamp to lamp, however far apart: a trench across a lawn has no bends.
    Buckets far(8.0);
    for (std::uint32_t node = 0; node < terminal_nodes_; ++node) {
      if (!enclosed_[node]) far.add(node, graph_.nodes[node].at);
    }
    for (std::uint32_t node = 0; node < terminal_nodes_; ++node) {
      if (!enclosed_[node]) join_by_direction(node, far, std::max(20.0, 4 * step_m_), 10);
    }
  }

  // In each direction the nearest node that can be seen.
  void join_by_direction(std::uint32_t node, const Buckets& buckets, double within_m, int directions) {
    const Point2 at = graph_.nodes[node].at;
    near_.clear();
    buckets.near(at, within_m, [&](std::uint32_t other) {
      if (other == node || (other < terminal_nodes_ && enclosed_[other])) return;
      const double gap_m = geometry::distance_m(at, graph_.nodes[other].at);
      if (gap_m <= within_m) near_.emplace_back(gap_m, other);
    });
    std::sort(near_.begin(), near_.end());
    std::array<int, 16> tries{};
    std::array<bool, 16> served{};
    for (const auto& [gap_m, other] : near_) {
      const Point2 to = graph_.nodes[other].at;
      const double turn = (std::atan2(to.y_m - at.y_m, to.x_m - at.x_m) / (2 * std::numbers::pi) + 0.5) * directions;
      const auto sector = static_cast<std::size_t>(turn) % static_cast<std::size_t>(directions);
      constexpr int most_tries = 4;
      if (served[sector] || tries[sector] == most_tries) continue;
      ++tries[sector];
      served[sector] = try_edge(node, other);
    }
  }

  const GroundMap& map_;
  GroundCost cost_;
  const std::vector<Point2>& asked_;
  Buckets buckets_;
  GroundGraph graph_;
  Box box_;
  std::uint32_t terminal_nodes_ = 0;
  std::vector<bool> enclosed_;
  double step_m_ = 2;
  std::set<std::pair<std::uint32_t, std::uint32_t>> joined_;
  std::vector<std::pair<double, std::uint32_t>> near_;
};

}  // namespace

GroundGraph ground_graph(const GroundMap& map, const std::vector<Point2>& terminals) {
  return Builder(map, terminals).run();
}

}  // namespace duskwire::wiring
