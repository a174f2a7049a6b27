// SPDX-License-Identifier: Apache-2.0
#include "geometry/isolines.hpp"

#include <array>
#include <cmath>
#include <cstdint>
#include <unordered_map>
#include <utility>

namespace duskwire::geometry {
namespace {

// Marching squares. Each crossing lies on one edge of the lattice and is met from the two cells beside it, so lines
// are followed from edge to edge; edges are numbered: 2 * node for the one to the east, 2 * node + 1 to the north.
class Tracer {
 public:
  Tracer(const Lattice& lattice, std::span<const float> heights, double level)
      : lattice_(lattice), heights_(heights), level_(level) {}

  std::vector<Polyline> run() {
    for (std::size_t row = 0; row + 1 < lattice_.rows; ++row) {
      for (std::size_t column = 0; column + 1 < lattice_.columns; ++column) cross(column, row);
    }
    std::vector<Polyline> lines;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      if (!used_[i] && (touching(pieces_[i].first) == 1 || touching(pieces_[i].second) == 1))
        lines.push_back(follow(i));
    }
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      if (!used_[i]) lines.push_back(follow(i));
    }
    return lines;
  }

 private:
  using Edge = std::uint64_t;
  using Piece = std::pair<Edge, Edge>;

  std::size_t node(std::size_t column, std::size_t row) const { return row * lattice_.columns + column; }

  void cross(std::size_t column, std::size_t row) {
    const std::array corner{node(column, row), node(column + 1, row), node(column + 1, row + 1), node(column, row + 1)};
    const std::array<Edge, 4> side{2 * corner[0], 2 * corner[1] + 1, 2 * corner[3], 2 * corner[0] + 1};
    std::array<bool, 4> high{};
    double sum = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      const double height = static_cast<double>(heights_[corner[i]]);
      if (!std::isfinite(height)) return;
      high[i] = height >= level_;
      sum += height;
    }
    std::array<Edge, 4> met{};
    std::size_t count = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      if (high[i] != high[(i + 1) % 4]) met[count++] = side[i];
    }
    if (count == 2) add(met[0], met[1]);
    if (count < 4) return;
    // A saddle: the middle decides which pair of corners hangs together.
    const bool same_as_first = (sum / 4 >= level_) == high[0];
    add(met[0], met[same_as_first ? 1 : 3]);
    add(met[2], met[same_as_first ? 3 : 1]);
  }

  void add(Edge p, Edge q) {
    for (const Edge edge : {p, q}) at_[edge].push_back(static_cast<std::uint32_t>(pieces_.size()));
    pieces_.emplace_back(p, q);
    used_.push_back(false);
  }

  std::size_t touching(Edge edge) const { return at_.at(edge).size(); }

  Polyline follow(std::size_t first) {
    Polyline line;
    const bool turned = touching(pieces_[first].first) != 1 && touching(pieces_[first].second) == 1;
    Edge edge = turned ? pieces_[first].second : pieces_[first].first;
    line.push_back(place(edge));
    for (std::size_t piece = first;;) {
      used_[piece] = true;
      edge = pieces_[piece].first == edge ? pieces_[piece].second : pieces_[piece].first;
      line.push_back(place(edge));
      bool goes_on = false;
      for (const std::uint32_t next : at_.at(edge)) {
        if (used_[next]) continue;
        piece = next;
        goes_on = true;
        break;
      }
      if (!goes_on) return line;
    }
  }

  Point2 place(Edge edge) const {
    const std::size_t from = static_cast<std::size_t>(edge / 2);
    const bool north = edge % 2 == 1;
    const std::size_t to = north ? from + lattice_.columns : from + 1;
    const double low = static_cast<double>(heights_[from]);
    const double high = static_cast<double>(heights_[to]);
    const double share = (level_ - low) / (high - low);
    const double x = static_cast<double>(from % lattice_.columns) + (north ? 0 : share);
    const std::size_t row = from / lattice_.columns;
    const double y = static_cast<double>(row) + (north ? share : 0);
    return {lattice_.origin.x_m + lattice_.cell_m * x, lattice_.origin.y_m + lattice_.cell_m * y};
  }

  const Lattice& lattice_;
  std::span<const float> heights_;
  double level_;
  std::vector<Piece> pieces_;
  std::vector<bool> used_;
  std::unordered_map<Edge, std::vector<std::uint32_t>> at_;  // pieces that end at an edge
};

}  // namespace

std::vector<Polyline> isolines(const Lattice& lattice, std::span<const float> heights, double level) {
  if (lattice.columns < 2 || lattice.rows < 2 || heights.size() < lattice.columns * lattice.rows) return {};
  return Tracer(lattice, heights, level).run();
}

}  // namespace duskwire::geometry
