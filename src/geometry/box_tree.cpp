// SPDX-License-Identifier: Apache-2.0
#include "geometry/box_tree.hpp"

#include <algorithm>
#include <limits>
#include <optional>
#include <span>

namespace duskwire::geometry {
namespace {

constexpr std::size_t bins = 16;
constexpr std::uint32_t leaf_at_most = 4;
// Work of meeting one box against one triangle, as measured on this tree: a triangle costs about as much as two boxes.
constexpr float box_work = 0.5F;

struct Box {
  std::array<float, 3> low_m{std::numeric_limits<float>::max(), std::numeric_limits<float>::max(),
                             std::numeric_limits<float>::max()};
  std::array<float, 3> high_m{-std::numeric_limits<float>::max(), -std::numeric_limits<float>::max(),
                              -std::numeric_limits<float>::max()};

  void hold(const std::array<float, 3>& low, const std::array<float, 3>& high) {
    for (std::size_t axis = 0; axis < 3; ++axis) {
      low_m[axis] = std::min(low_m[axis], low[axis]);
      high_m[axis] = std::max(high_m[axis], high[axis]);
    }
  }
  void hold(const Box& other) { hold(other.low_m, other.high_m); }
  [[nodiscard]] float side_m(std::size_t axis) const { return std::max(0.0F, high_m[axis] - low_m[axis]); }
  [[nodiscard]] float half_area_m2() const {
    return side_m(0) * side_m(1) + side_m(1) * side_m(2) + side_m(2) * side_m(0);
  }
};

struct Piece {
  Box box;
  std::array<float, 3> middle_m{};
  std::uint32_t triangle = 0;
};

Piece piece_of(const Corners& corners, std::size_t index) {
  Piece piece;
  for (const auto& corner_m : {corners.a_m, corners.b_m, corners.c_m}) piece.box.hold(corner_m, corner_m);
  for (std::size_t axis = 0; axis < 3; ++axis) {
    piece.middle_m[axis] = 0.5F * piece.box.low_m[axis] + 0.5F * piece.box.high_m[axis];
  }
  piece.triangle = static_cast<std::uint32_t>(index);
  return piece;
}

struct Cut {
  std::size_t axis = 0;
  std::size_t first_bin_above = 0;
  float work = 0;
};

struct Bin {
  Box box;
  std::uint32_t count = 0;
};

std::size_t bin_of(float middle_m, const Box& middles, std::size_t axis) {
  const float share = (middle_m - middles.low_m[axis]) / middles.side_m(axis);
  return std::min(bins - 1, static_cast<std::size_t>(share * static_cast<float>(bins)));
}

std::optional<Cut> least_work_on_axis(std::span<const Piece> pieces, const Box& middles, std::size_t axis) {
  if (!(middles.side_m(axis) > 0)) return std::nullopt;
  std::array<Bin, bins> filled;
  for (const Piece& piece : pieces) {
    Bin& bin = filled[bin_of(piece.middle_m[axis], middles, axis)];
    bin.box.hold(piece.box);
    ++bin.count;
  }
  std::array<float, bins> work_above{};
  Bin above;
  for (std::size_t i = bins - 1; i > 0; --i) {
    above.box.hold(filled[i].box);
    above.count += filled[i].count;
    work_above[i] = static_cast<float>(above.count) * above.box.half_area_m2();
  }
  std::optional<Cut> best;
  Bin below;
  for (std::size_t i = 1; i < bins; ++i) {
    below.box.hold(filled[i - 1].box);
    below.count += filled[i - 1].count;
    if (below.count == 0 || below.count == pieces.size()) continue;
    const float work = static_cast<float>(below.count) * below.box.half_area_m2() + work_above[i];
    if (!best || work < best->work) best = Cut{axis, i, work};
  }
  return best;
}

class Builder {
 public:
  explicit Builder(std::span<const Corners> triangles) {
    pieces_.reserve(triangles.size());
    for (std::size_t i = 0; i < triangles.size(); ++i) pieces_.push_back(piece_of(triangles[i], i));
  }

  std::vector<BoxNode> nodes() {
    nodes_.reserve(2 * pieces_.size());
    nodes_.emplace_back();
    fill(0, 0, static_cast<std::uint32_t>(pieces_.size()), 0);
    return std::move(nodes_);
  }

  [[nodiscard]] std::span<const Piece> pieces() const { return pieces_; }

 private:
  void fill(std::size_t node, std::uint32_t from, std::uint32_t to, int depth) {
    const std::span<Piece> mine(pieces_.data() + from, to - from);
    Box box;
    Box middles;
    for (const Piece& piece : mine) {
      box.hold(piece.box);
      middles.hold(piece.middle_m, piece.middle_m);
    }
    nodes_[node] = BoxNode{box.low_m, from, box.high_m, to - from};
    const std::uint32_t half = split(mine, box, middles, depth);
    if (half == 0) return;
    const auto children = static_cast<std::uint32_t>(nodes_.size());
    nodes_.resize(nodes_.size() + 2);
    nodes_[node].first = children;
    nodes_[node].count = 0;
    fill(children, from, from + half, depth + 1);
    fill(children + 1, from + half, to, depth + 1);
  }

  // How many pieces go below, after sorting them so; 0 where a leaf is better.
  static std::uint32_t split(std::span<Piece> pieces, const Box& box, const Box& middles, int depth) {
    if (pieces.size() < 2) return 0;
    std::optional<Cut> best;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const auto cut = least_work_on_axis(pieces, middles, axis);
      if (cut && (!best || cut->work < best->work)) best = cut;
    }
    const float area_m2 = box.half_area_m2();
    const float leaf_work = static_cast<float>(pieces.size()) * area_m2;
    const bool better = best && best->work + 2 * box_work * area_m2 < leaf_work;
    if (!better && pieces.size() <= leaf_at_most) return 0;
    if (!best || depth >= BoxTree::deepest / 2) return halve(pieces, middles);
    const auto above = std::partition(pieces.begin(), pieces.end(), [&](const Piece& piece) {
      return bin_of(piece.middle_m[best->axis], middles, best->axis) < best->first_bin_above;
    });
    return static_cast<std::uint32_t>(above - pieces.begin());
  }

  static std::uint32_t halve(std::span<Piece> pieces, const Box& middles) {
    std::size_t longest = 0;
    for (std::size_t axis = 1; axis < 3; ++axis) {
      if (middles.side_m(axis) > middles.side_m(longest)) longest = axis;
    }
    const auto half = pieces.begin() + static_cast<std::ptrdiff_t>(pieces.size() / 2);
    std::nth_element(pieces.begin(), half, pieces.end(),
                     [&](const Piece& p, const Piece& q) { return p.middle_m[longest] < q.middle_m[longest]; });
    return static_cast<std::uint32_t>(pieces.size() / 2);
  }

  std::vector<Piece> pieces_;
  std::vector<BoxNode> nodes_;
};

}  // namespace

BoxTree build_box_tree(std::vector<Corners> triangles) {
  BoxTree tree;
  if (triangles.empty()) return tree;
  Builder builder(triangles);
  tree.nodes = builder.nodes();
  tree.triangles.reserve(triangles.size());
  for (const Piece& piece : builder.pieces()) tree.triangles.push_back(triangles[piece.triangle]);
  return tree;
}

}  // namespace duskwire::geometry
